package wood

import (
	"cmp"
	"fmt"
	"math"

	"fettle/calc/bounds"
	"fettle/calc/evidence"
)

// Grain is how the growth rings lie in a board; its width moves with it.
type Grain string

const (
	// Flat is flat-sawn: rings along the width, tangential movement.
	Flat Grain = "flat"
	// Quarter is quarter-sawn: rings across the width, radial movement.
	Quarter Grain = "quarter"
	// UnknownGrain was not said; the larger movement is taken.
	UnknownGrain Grain = "unknown"
)

// FibreSaturationPct is the moisture content above which wood does not swell: Wood Handbook
// (2010), text after Table 13-5 (seen).
const FibreSaturationPct = 30

// Moving is a board's width and the moisture it goes through, in per cent.
type Moving struct {
	WidthMM        float64
	FromPct, ToPct float64
	Grain          Grain
	// RingDeg, when it is above 0, is the angle between the rings and the width: 0 flat-sawn,
	// 90 quarter-sawn. It goes before Grain.
	RingDeg float64
}

// Movement is the change of a width, below zero when it shrinks.
type Movement struct {
	MM          float64
	Coefficient evidence.Figure // share of the width per per cent of moisture; inside 6 to 14 %
	ShrinkPct   float64         // from green to ovendry, what counts outside 6 to 14 %
	Row         Row
	Inside      bool // both moisture contents lie in 6 to 14 %, where the coefficient holds by itself
}

// Movements is the movement by every row of a species that has the figures for it.
type Movements struct {
	Larger, Smaller Movement // by size, whichever the direction
}

// Disagree says that the sources, or the kinds a name may mean, differ.
func (m Movements) Disagree() bool { return m.Larger.MM != m.Smaller.MM }

// Movement works out how a width changes. Inside 6 to 14 % moisture:
//
//	Δ = width × C × (to − from)
//
// with C tangential for flat-sawn and radial for quarter-sawn boards (Wood Handbook (2010),
// Table 13-5, seen). Otherwise, with both moisture contents held at 30 %:
//
//	Δ = width × (to − from) / (3000/S − 30 + from)
//
// with S the shrinkage from green to ovendry in per cent (equation 13-3: its symbols and
// limits seen, its form re-derived). S is the larger of the published one and of the one
// that C stands for, C = 1/(3000/S − 20). A ring angle a gives C = Ct cos² a + Cr sin² a
// (geometry of small strains). The method tends to overstate the movement of the width of
// ordinary boards (seen). It fails on what cannot be, and with an *UnknownError when no row
// of the species has a coefficient.
func (s Species) Movement(m Moving) (Movements, error) {
	if err := m.check(); err != nil {
		return Movements{}, err
	}
	var out Movements
	found := false
	for _, r := range s.Rows {
		got, ok := m.by(r)
		if !ok {
			continue
		}
		if !found || math.Abs(got.MM) > math.Abs(out.Larger.MM) {
			out.Larger = got
		}
		if !found || math.Abs(got.MM) < math.Abs(out.Smaller.MM) {
			out.Smaller = got
		}
		found = true
	}
	if !found {
		return Movements{}, &UnknownError{Species: s.Name, Property: "shrinkage"}
	}
	return out, nil
}

func (m Moving) check() error {
	switch m.Grain {
	case Flat, Quarter, UnknownGrain, "":
	default:
		return fmt.Errorf("the grain is %q; say flat-sawn or quarter-sawn", m.Grain)
	}
	return cmp.Or(
		bounds.Positive("the width", m.WidthMM, "mm"),
		bounds.Between("the width", m.WidthMM, 0, 20_000, "mm"),
		bounds.Between("the first moisture content", m.FromPct, 0, 200, "%"),
		bounds.Between("the second moisture content", m.ToPct, 0, 200, "%"),
		bounds.Between("the angle of the rings", m.RingDeg, 0, 90, "°"),
	)
}

// by works out the movement with one row, and false when the row lacks the figures.
func (m Moving) by(r Row) (Movement, bool) {
	c, shrink, ok := m.figures(r)
	if !ok {
		return Movement{}, false
	}
	from, to := min(m.FromPct, FibreSaturationPct), min(m.ToPct, FibreSaturationPct)
	s := max(shrink, shrinkageOf(c.Value))
	out := Movement{Coefficient: c, ShrinkPct: s, Row: r, Inside: between(from, 6, 14) && between(to, 6, 14)}
	if out.Inside {
		out.MM = m.WidthMM * c.Value * (to - from)
		return out, true
	}
	out.MM = m.WidthMM * (to - from) / (3000/s - 30 + from)
	return out, true
}

// figures gives coefficient and shrinkage in the direction of the width.
func (m Moving) figures(r Row) (c evidence.Figure, shrink float64, ok bool) {
	switch {
	case r.CT.Status == "" || r.CR.Status == "":
		return evidence.Figure{}, 0, false
	case m.RingDeg > 0:
		sin, cos := math.Sincos(m.RingDeg * math.Pi / 180)
		c = r.CT
		c.Value = r.CT.Value*cos*cos + r.CR.Value*sin*sin
		return c, r.ShrinkT.Value*cos*cos + r.ShrinkR.Value*sin*sin, true
	case m.Grain == Quarter:
		return r.CR, r.ShrinkR.Value, true
	}
	return r.CT, r.ShrinkT.Value, true
}

// Coefficient derives the coefficient of Table 13-5 from a shrinkage in per cent:
// C = 1/(3000/S − 20), equation 13-3 at 10 % moisture. It reproduces 28 published
// coefficients within 0.000005 (seen tables). S is above 0 and up to 30 %.
func Coefficient(shrinkagePct float64) (float64, error) {
	if err := cmp.Or(
		bounds.Positive("the shrinkage", shrinkagePct, "%"),
		bounds.Between("the shrinkage", shrinkagePct, 0, 30, "%"),
	); err != nil {
		return 0, err
	}
	return 1 / (3000/shrinkagePct - 20), nil
}

// shrinkageOf is Coefficient the other way round.
func shrinkageOf(c float64) float64 { return 3000 / (1/c + 20) }

func between(v, lo, hi float64) bool { return v >= lo && v <= hi }
