package glue

import (
	"cmp"
	"math"

	"fettle/calc/bounds"
	"fettle/calc/evidence"
)

// Sheet is what somebody read off a data sheet: minutes at AtC, and °C. Zero for a time
// that it does not give; NaN for a MinC that it does not give.
type Sheet struct {
	Name                                           string
	AtC                                            float64
	OpenMin, ClosedMin, ClampMin, WorkMin, CureMin float64
	MinC                                           float64
}

// check refuses a sheet without an open and a clamp time and figures that cannot be.
func (s Sheet) check() error {
	const month = 60 * day
	minC := s.MinC
	if math.IsNaN(minC) {
		minC = 0
	}
	return cmp.Or(
		bounds.Positive("the open time", s.OpenMin, "minutes"),
		bounds.Positive("the clamp time", s.ClampMin, "minutes"),
		bounds.Between("the open time", s.OpenMin, 0, month, "minutes"),
		bounds.Between("the closed time", s.ClosedMin, 0, month, "minutes"),
		bounds.Between("the clamp time", s.ClampMin, 0, month, "minutes"),
		bounds.Between("the time until it can be worked", s.WorkMin, 0, month, "minutes"),
		bounds.Between("the curing time", s.CureMin, 0, month, "minutes"),
		bounds.Between("the temperature of the sheet", s.AtC, 0, 40, "°C"),
		bounds.Between("the lowest temperature", minC, -20, s.AtC, "°C"),
	)
}

// WithSheet gives the glue with the figures of a data sheet in place of the published
// general ones. What the sheet leaves open stays as it is in the family, but never before
// what the sheet does say: no work before the clamps are off, no full strength before it
// may be worked. It fails when the sheet lacks the open or the clamp time, or contradicts
// itself.
func (g Glue) WithSheet(s Sheet) (Glue, error) {
	if err := s.check(); err != nil {
		return Glue{}, err
	}
	said := func(v, family float64) evidence.Figure {
		return evidence.Said("data sheet: "+s.Name, cmp.Or(v, family))
	}
	g.OwnSheet, g.AtC = true, s.AtC
	g.Name = cmp.Or(s.Name, g.Name)
	g.OpenMin = said(s.OpenMin, 0)
	g.ClampMin = said(s.ClampMin, 0)
	g.ClosedMin = evidence.Said("data sheet: "+s.Name, s.ClosedMin)
	g.WorkMin = said(s.WorkMin, max(g.WorkMin.Value, s.ClampMin))
	g.CureMin = said(s.CureMin, max(g.CureMin.Value, g.WorkMin.Value))
	if !math.IsNaN(s.MinC) {
		g.MinC = said(0, s.MinC)
	}
	g.MaxC.Value = max(g.MaxC.Value, s.AtC)
	return g, nil
}
