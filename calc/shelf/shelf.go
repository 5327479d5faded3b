// Package shelf says how much a plank sags under a load. It is about looks, not safety: what
// people stand, sit or sleep on is for those who answer for it.
package shelf

import (
	"cmp"
	"math"

	"fettle/calc/bounds"
)

// GravityMS2 is the standard acceleration of free fall (exact by definition).
const GravityMS2 = 9.80665

// Creep is how many times the sag at once a long load ends with: NDS 3.5.2 as explained by
// the American Wood Council (seen); published values run from 1 to 3.
const (
	CreepDry  = 1.5
	CreepDamp = 2.0
)

// LimitShare is the sag, as a share of the span, that most eyes forgive: L/300, common
// practice, no source.
const LimitShare = 1.0 / 300

// Shelf is a plank on two supports and what lies on it. The supports let it bend freely.
type Shelf struct {
	SpanMM      float64 // between the supports
	DepthMM     float64 // front to back
	ThicknessMM float64
	MOEMPa      float64 // stiffness along the grain
	LoadKg      float64
	Point       bool // the load stands in the middle; else it is spread evenly
	Damp        bool // the wood is not seasoned, or stays damp
}

// Sag is how a shelf bends.
type Sag struct {
	NowMM     float64 // elastic, at once
	LaterMM   float64 // after a long time under the load
	LimitMM   float64 // what looks straight
	MostKg    float64 // the load that reaches the limit after a long time
	LeastMM   float64 // the thickness that keeps the limit under this load after a long time
	SpanToSag float64 // span divided by the sag after a long time
}

// Sag works out, with I = b h³/12 (structural formula sheets, seen),
//
//	spread load w per mm: 5 w L⁴ / (384 E I)
//	load P in the middle: P L³ / (48 E I)
//
// and, after a long time, CreepDry or CreepDamp times that. The plank's own weight and the
// shear of short thick planks are left out; both are small. E is an average of clear wood, and
// single boards differ by about a fifth (from memory). It fails on values that cannot be.
func (s Shelf) Sag() (Sag, error) {
	if err := s.check(); err != nil {
		return Sag{}, err
	}
	inertia := s.DepthMM * math.Pow(s.ThicknessMM, 3) / 12
	force := s.LoadKg * GravityMS2
	share := 5.0 / 384
	if s.Point {
		share = 1.0 / 48
	}
	creep := CreepDry
	if s.Damp {
		creep = CreepDamp
	}
	out := Sag{NowMM: share * force * math.Pow(s.SpanMM, 3) / (s.MOEMPa * inertia)}
	out.LaterMM = out.NowMM * creep
	out.LimitMM = s.SpanMM * LimitShare
	out.MostKg = s.LoadKg * out.LimitMM / out.LaterMM
	out.LeastMM = s.ThicknessMM * math.Cbrt(out.LaterMM/out.LimitMM)
	out.SpanToSag = s.SpanMM / out.LaterMM
	return out, nil
}

func (s Shelf) check() error {
	return cmp.Or(
		bounds.Between("the span", s.SpanMM, 10, 20_000, "mm"),
		bounds.Between("the depth", s.DepthMM, 5, 5_000, "mm"),
		bounds.Between("the thickness", s.ThicknessMM, 1, 500, "mm"),
		bounds.Between("the stiffness", s.MOEMPa, 100, 300_000, "MPa"),
		bounds.Positive("the load", s.LoadKg, "kg"),
		bounds.Between("the load", s.LoadKg, 0, 50_000, "kg"),
	)
}
