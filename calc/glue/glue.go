// Package glue holds what is generally published about the families of wood glue, and works
// out times and amounts from it on the safe side. A data sheet always beats it.
package glue

import "fettle/calc/evidence"

// ReferenceC is the temperature that the times of the table belong to, in °C.
const ReferenceC = 20

// ReferenceHumidityPct is the air humidity that the times of the table belong to: the
// standard climate 20 °C / 65 % in which EN 205 specimens are kept (memory).
const ReferenceHumidityPct = 65

// Setting is how a glue gets hard, which decides what cold, warmth and damp do to it.
type Setting string

const (
	// Drying glues lose their water to the wood and the air: PVA, liquid hide glue.
	Drying Setting = "drying"
	// Reacting glues harden when two parts, or powder and water, are mixed: the resins.
	Reacting Setting = "reacting"
	// Damp glues harden with water from the air and the wood: polyurethane and the sealants.
	Damp Setting = "damp"
	// Cooling glue gels as it cools and dries afterwards: hot hide glue.
	Cooling Setting = "cooling"
)

// Glue is one family, or one product by its data sheet. Times are minutes at AtC.
type Glue struct {
	ID      string // a plain word, the value of given.adhesive
	Name    string // as it is printed
	Setting Setting
	AtC     float64

	OpenMin   evidence.Figure // from spreading until the parts must be together
	ClosedMin evidence.Figure // from then until full pressure
	ClampMin  evidence.Figure // under pressure
	WorkMin   evidence.Figure // from gluing until it may be planed or sanded
	CureMin   evidence.Figure // from gluing until full strength

	MinC evidence.Figure // wood, air and glue; below it: do not glue
	MaxC evidence.Figure

	SpreadGM2  evidence.Figure // on one face
	BothGM2    evidence.Figure // on both faces together
	BothFaces  bool            // spread both faces as a rule
	LowMPa     evidence.Figure // clamping pressure, softest woods
	HighMPa    evidence.Figure // clamping pressure, hardest woods
	GapMM      evidence.Figure // the widest gap it bridges; 0 for a close fit only
	ColdReason string          // what goes wrong below MinC, a clause
	Cautions   []string
	OwnSheet   bool // the times come from a data sheet that someone gave
}

// Find gives the family with the ID, and false when there is none.
func Find(id string) (Glue, bool) {
	for _, g := range Table() {
		if g.ID == id {
			return g, true
		}
	}
	return Glue{}, false
}
