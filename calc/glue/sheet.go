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
	const longest = 60 * day
	minC := s.MinC
	if math.IsNaN(minC) {
		minC = 0
	}
	return cmp.Or(
		bounds.Positive("the open time", s.OpenMin, "minutes"),
		bounds.Positive("the clamp time", s.ClampMin, "minutes"),
		bounds.Between("the open time", s.OpenMin, 0, longest, "minutes"),
		bounds.Between("the closed time", s.ClosedMin, 0, longest, "minutes"),
		bounds.Between("the clamp time", s.ClampMin, 0, longest, "minutes"),
		bounds.Between("the time until it can be worked", s.WorkMin, 0, longest, "minutes"),
		bounds.Between("the curing time", s.CureMin, 0, longest, "minutes"),
		bounds.Between("the temperature of the sheet", s.AtC, 0, 40, "°C"),
		bounds.Between("the lowest temperature", minC, -20, s.AtC, "°C"),
	)
}

// WithSheet gives the glue with the figures of a data sheet in place of the published
// general ones. What the sheet leaves open stays as it is in the family, slowed down to the
// sheet's temperature, but never before what the sheet does say: no work before the clamps
// are off, no full strength before it may be worked. It fails when the sheet lacks the open
// or the clamp time, or contradicts itself.
func (g Glue) WithSheet(s Sheet) (Glue, error) {
	if err := s.check(); err != nil {
		return Glue{}, err
	}
	source := "data sheet: " + s.Name
	slower := slowdown(g.AtC, s.AtC)
	fill := func(f evidence.Figure, said, least float64) evidence.Figure {
		if said > 0 {
			return evidence.Said(source, said)
		}
		f.Value = max(f.Value*slower, least)
		return f
	}
	g.WorkMin = fill(g.WorkMin, s.WorkMin, s.ClampMin)
	g.CureMin = fill(g.CureMin, s.CureMin, g.WorkMin.Value)
	g.OpenMin = evidence.Said(source, s.OpenMin)
	g.ClosedMin = evidence.Said(source, s.ClosedMin)
	g.ClampMin = evidence.Said(source, s.ClampMin)
	g.MinC.Value = min(g.MinC.Value, s.AtC)
	if !math.IsNaN(s.MinC) {
		g.MinC = evidence.Said(source, s.MinC)
	}
	g.MaxC.Value = max(g.MaxC.Value, s.AtC)
	g.OwnSheet, g.AtC, g.Name = true, s.AtC, cmp.Or(s.Name, g.Name)
	return g, nil
}
