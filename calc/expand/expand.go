// Package expand says how much panes and strips of other stuff than wood grow with warmth,
// and what room to leave them.
package expand

import (
	"cmp"

	"fettle/calc/bounds"
	"fettle/calc/evidence"
)

// Material grows by Low to High millionths of its length for every kelvin.
type Material struct {
	ID, Name  string
	Low, High evidence.Figure
	// DampPct is what it grows in air of 80 % humidity, in per cent of its length.
	DampPct evidence.Figure
	Caution string
}

const (
	tables    = "two tables of linear expansion (engineeringtoolbox copy and another)"
	table     = "one table of linear expansion (liquisearch)"
	handbooks = "engineering handbooks"
	sheets    = "text of an acrylic sheet maker"
	plies     = "notes of two plywood associations"
)

// AlongGrain and AcrossGrain are the IDs of solid wood. Damp moves its width far more than
// warmth does.
const (
	AlongGrain  = "wood along the grain"
	AcrossGrain = "wood across the grain"
)

// DarkShare is how many times the growth of a clear sheet a dark one in the sun is given:
// glazing advice of a sheet maker (seen).
const DarkShare = 1.4

// Table is the materials that are known. Ranges are as published.
func Table() []Material {
	sure := func(id, name string, f func(string, float64) evidence.Figure, source string, low, high float64) Material {
		return Material{ID: id, Name: name, Low: f(source, low), High: f(source, high)}
	}
	acrylic := sure("acrylic", "Acrylic", evidence.SeenIn, tables+" and a sheet maker's note", 68, 75)
	acrylic.DampPct = evidence.SeenIn(sheets, 0.3)
	plywood := sure("plywood", "Plywood", evidence.SeenIn, plies, 4.5, 6.1)
	plywood.DampPct = evidence.SeenIn(plies, 0.2) // all the way from ovendry to soaked
	acrylic.Caution = "Leave holes oversize and don't bolt it tight; keep it away from stove and flue, it burns."
	return []Material{
		acrylic,
		sure("polycarbonate", "Polycarbonate", evidence.SeenIn, tables, 65, 68),
		sure("glass", "Glass", evidence.SeenIn, tables, 8.5, 9),
		sure("aluminium", "Aluminium", evidence.SeenIn, tables, 21, 24),
		sure("stainless steel", "Stainless steel", evidence.SeenIn, tables, 17, 17.3),
		sure("steel", "Steel", evidence.Recalled, handbooks, 11, 12),
		sure("brass", "Brass", evidence.Recalled, handbooks, 18, 20),
		sure("copper", "Copper", evidence.Recalled, handbooks, 16.5, 17),
		sure("pvc", "Rigid PVC", evidence.SeenIn, table+"; recalled values run up to 80", 52, 80),
		plywood,
		sure(AlongGrain, "Wood along the grain", evidence.SeenIn, table+" and another", 3, 5),
		sure(AcrossGrain, "Wood across the grain", evidence.SeenIn, table+", Douglas fir radial and tangential", 27, 45),
	}
}

// Stated is a material that is not in the table, of which somebody said how many millionths of
// its length it grows for a kelvin.
func Stated(name string, alpha float64) Material {
	said := evidence.Said("as stated", alpha)
	return Material{ID: name, Name: name, Low: said, High: said}
}

// Find gives the material with the ID, and false when there is none.
func Find(id string) (Material, bool) {
	for _, m := range Table() {
		if m.ID == id {
			return m, true
		}
	}
	return Material{}, false
}

// Growth works out length × α × temperature range, with α the higher published figure, for
// clearances. Alpha, when it is above 0, is millionths for a kelvin that somebody stated, and
// then counts. The range is a difference of temperatures in kelvin. It fails on a length or a
// range that cannot be.
func (m Material) Growth(lengthMM, rangeK, alpha float64) (float64, error) {
	a := cmp.Or(alpha, m.High.Value)
	if err := cmp.Or(
		bounds.Between("the length", lengthMM, 0.001, 1e6, "mm"),
		bounds.Between("the range of temperature", rangeK, 0, 300, "°C"),
		bounds.Between("the expansion", a, 0.01, 500, "millionths a degree"),
	); err != nil {
		return 0, err
	}
	return lengthMM * a * 1e-6 * rangeK, nil
}

// Pane is a sheet held in a frame that does not move with it.
type Pane struct {
	LengthMM                 float64
	FitC, ColdestC, HottestC float64 // when it is put in, and what it will see
	Alpha                    float64 // millionths for a kelvin when it was stated; 0 takes the table's
	Dark                     bool    // dark and in the sun
	Damp                     bool    // it will see damp air
}

// Room is what a pane needs, at each of two opposite edges when it sits in the middle.
type Room struct {
	GrowMM, ShrinkMM float64 // of the whole pane
	DampMM           float64 // of the whole pane, on top of GrowMM
	GapEachMM        float64 // clearance beyond each edge
	CoverEachMM      float64 // what each edge may draw back; the rebate has to cover more than that
}

// Room works out growth = α L (hottest − fitting), times DarkShare for a dark sheet, the
// growth in damp air, and shrinkage = α L (fitting − coldest). Each edge gets half. It fails on
// temperatures out of order and on sizes that cannot be.
func (m Material) Room(p Pane) (Room, error) {
	if err := cmp.Or(
		bounds.Between("the hottest temperature", p.HottestC, -50, 150, "°C"),
		bounds.Between("the temperature when it is fitted", p.FitC, -50, p.HottestC, "°C"),
		bounds.Between("the coldest temperature", p.ColdestC, -80, p.FitC, "°C"),
	); err != nil {
		return Room{}, err
	}
	grow, err := m.Growth(p.LengthMM, p.HottestC-p.FitC, p.Alpha)
	if err != nil {
		return Room{}, err
	}
	shrink, err := m.Growth(p.LengthMM, p.FitC-p.ColdestC, p.Alpha)
	if err != nil {
		return Room{}, err
	}
	r := Room{GrowMM: grow, ShrinkMM: shrink}
	if p.Dark {
		r.GrowMM *= DarkShare
	}
	if p.Damp {
		r.DampMM = p.LengthMM * m.DampPct.Value / 100
	}
	r.GapEachMM = (r.GrowMM + r.DampMM) / 2
	r.CoverEachMM = r.ShrinkMM / 2
	return r, nil
}

// Hold is how deep an edge still sits in its groove when the pane is at its smallest, with the
// gap left at the bottom of the groove as Room gives it. Below zero it falls out. All in mm.
func (r Room) Hold(grooveMM float64) (float64, error) {
	if err := bounds.Between("the depth of the groove", grooveMM, 0.5, 200, "mm"); err != nil {
		return 0, err
	}
	return grooveMM - r.GapEachMM - r.CoverEachMM, nil
}
