// Package clamp says how many clamps a glue line needs and where they go.
package clamp

import (
	"cmp"
	"math"

	"fettle/calc/bounds"
)

// Defaults for what the person did not say; all are common practice, no source.
const (
	// DefaultPadMM is the width of a clamp's pad.
	DefaultPadMM = 30
	// DefaultForceN is what one firmly tightened bar clamp gives; halve it if unsure.
	DefaultForceN = 5000
	// DefaultDensityKgM3 stands for a middling hardwood when the timber was not said.
	DefaultDensityKgM3 = 700
)

// The range of clamping pressure: about 0.7 MPa for the lightest woods to 1.7 MPa for the
// densest, from memory of the USDA Wood Handbook (2010), chapter 10. Trade tables of
// 100–150 psi for softwood and 175–250 psi for hardwood (seen) fall inside it.
const (
	LowestMPa  = 0.7
	HighestMPa = 1.7

	lightestKgM3 = 300
	densestKgM3  = 1000
)

// Joint is one straight glue line and the clamps at hand. Fields that are zero take their
// default.
type Joint struct {
	LengthMM    float64 // along the glue line
	GlueWidthMM float64 // across it: a board's thickness for an edge joint
	ThroughMM   float64 // timber between the clamp's pad and the glue line: a board's width for an edge joint
	CaulMM      float64 // thickness of the batten under the pads; 0 for none
	PadMM       float64 // DefaultPadMM
	ForceN      float64 // of one clamp; DefaultForceN
	DensityKgM3 float64 // of the timber; DefaultDensityKgM3
	PressureMPa float64 // when it is known; else from the density
}

// Plan is the clamps for one joint. Numbers are exact; the text rounds.
type Plan struct {
	Clamps      int     // the larger of the next two
	BySpread    int     // so that the pressure cones meet at the glue line
	ByPressure  int     // so that the glue line gets its pressure
	SpreadMM    float64 // what one clamp covers of the glue line
	SpacingMM   float64 // from clamp to clamp
	EndMM       float64 // from each end to the first clamp, half the spacing
	PressureMPa float64
	ForceN      float64 // on the whole glue line
	ForceEachN  float64 // on each of the clamps
}

// PressureMPa gives the clamping pressure for a timber of the density at 12 % moisture: a
// straight line from LowestMPa at 300 kg/m³ to HighestMPa at 1000 kg/m³, held at both ends.
// The two pressures are from memory (see LowestMPa), the line between them is practice.
func PressureMPa(densityKgM3 float64) (float64, error) {
	if err := bounds.Between("the density", densityKgM3, 100, 1400, "kg/m³"); err != nil {
		return 0, err
	}
	t := (densityKgM3 - lightestKgM3) / (densestKgM3 - lightestKgM3)
	return LowestMPa + (HighestMPa-LowestMPa)*min(max(t, 0), 1), nil
}

// Clamps counts the clamps for a joint and spaces them evenly.
//
// By spread, one clamp covers S = pad + 2 × (caul + timber up to the glue line), pressure
// spreading at 45° (practice), and ⌈length / S⌉ are needed. By pressure, ⌈p × area / force⌉
// are needed. The larger number counts. With N clamps the spacing is length / N and the
// first one sits half of that from the end, so no more than half the spread.
//
// It fails on sizes and forces that cannot be.
func (j Joint) Clamps() (Plan, error) {
	j, err := j.complete()
	if err != nil {
		return Plan{}, err
	}
	p := Plan{
		SpreadMM:    j.spreadMM(),
		PressureMPa: j.PressureMPa,
		ForceN:      j.PressureMPa * j.LengthMM * j.GlueWidthMM,
	}
	p.BySpread = ceil(j.LengthMM / p.SpreadMM)
	p.ByPressure = ceil(p.ForceN / j.ForceN)
	p.Clamps = max(p.BySpread, p.ByPressure)
	p.SpacingMM = j.LengthMM / float64(p.Clamps)
	p.EndMM = p.SpacingMM / 2
	p.ForceEachN = p.ForceN / float64(p.Clamps)
	return p, nil
}

func (j Joint) spreadMM() float64 { return j.PadMM + 2*(j.CaulMM+j.ThroughMM) }

// complete fills in the defaults and refuses what cannot be.
func (j Joint) complete() (Joint, error) {
	j.PadMM = cmp.Or(j.PadMM, DefaultPadMM)
	j.ForceN = cmp.Or(j.ForceN, DefaultForceN)
	j.DensityKgM3 = cmp.Or(j.DensityKgM3, DefaultDensityKgM3)
	fromDensity, err := PressureMPa(j.DensityKgM3)
	j.PressureMPa = cmp.Or(j.PressureMPa, fromDensity)
	return j, cmp.Or(
		bounds.Between("the joint's length", j.LengthMM, 1, 20_000, "mm"),
		bounds.Between("the glue line's width", j.GlueWidthMM, 1, 5_000, "mm"),
		bounds.Between("the timber between pad and glue line", j.ThroughMM, 0, 5_000, "mm"),
		bounds.Between("the caul's thickness", j.CaulMM, 0, 500, "mm"),
		bounds.Between("the pad's width", j.PadMM, 1, 500, "mm"),
		bounds.Between("the force of a clamp", j.ForceN, 50, 200_000, "N"),
		bounds.Between("the pressure", j.PressureMPa, 0.001, 5, "MPa"),
		err,
	)
}

// ceil rounds up, but lets a whole number stand that floating point left a hair above.
func ceil(x float64) int { return max(1, int(math.Ceil(x-1e-9))) }
