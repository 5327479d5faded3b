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

// ThickestMM bounds the thickness that is looked for when a shelf sags too much.
const ThickestMM = 500

// Shelf is a plank on two supports and what lies on it.
type Shelf struct {
	SpanMM      float64 // between the supports
	DepthMM     float64 // front to back
	ThicknessMM float64
	MOEMPa      float64 // stiffness along the grain
	LoadKg      float64
	Point       bool    // the load stands in the middle; else it is spread evenly
	Fixed       bool    // the ends are held so that they can't tilt; else they rest
	Damp        bool    // the wood is not seasoned, or stays damp
	Lip         Lip     // along the front edge
	LimitMM     float64 // the sag that is allowed after a long time; 0 takes SpanMM × LimitShare
}

// Sag is how a shelf bends.
type Sag struct {
	NowMM     float64 // elastic, at once
	LaterMM   float64 // after a long time under the load
	LimitMM   float64 // what is allowed
	MostKg    float64 // the load that reaches the limit after a long time
	LeastMM   float64 // the thickness that keeps the limit; +Inf when ThickestMM does not
	SpanToSag float64 // span divided by the sag after a long time
	InertiaMM4,
	Share, // of load × span³ / (E I): 5/384, 1/48, 1/384 or 1/192
	Creep float64
}

// Good says that the limit is kept, after a long time too.
func (s Sag) Good() bool { return s.LaterMM <= s.LimitMM }

// Sag works out share × load × span³ / (E I) with the shares of structural formula sheets
// (seen; reference BD01 to BD03):
//
//	ends that rest:  5/384 spread evenly, 1/48 in the middle
//	ends held fast:  1/384 spread evenly, 1/192 in the middle
//
// and, after a long time, CreepDry or CreepDamp times that. I is that of the plank, b h³/12,
// with its lip. The plank's own weight and the shear of short thick planks are left out; both
// are small. E is an average of clear wood, and single boards differ by about a fifth (from
// memory). It fails on values that cannot be.
func (s Shelf) Sag() (Sag, error) {
	if err := s.check(); err != nil {
		return Sag{}, err
	}
	out := s.bend()
	out.LimitMM = cmp.Or(s.LimitMM, s.SpanMM*LimitShare)
	out.MostKg = s.LoadKg * out.LimitMM / out.LaterMM
	out.LeastMM = s.least(out.LimitMM)
	out.SpanToSag = s.SpanMM / out.LaterMM
	return out, nil
}

func (s Shelf) bend() Sag {
	out := Sag{InertiaMM4: s.inertia(), Share: s.share(), Creep: CreepDry}
	if s.Damp {
		out.Creep = CreepDamp
	}
	out.NowMM = out.Share * s.LoadKg * GravityMS2 * math.Pow(s.SpanMM, 3) / (s.MOEMPa * out.InertiaMM4)
	out.LaterMM = out.NowMM * out.Creep
	return out
}

func (s Shelf) share() float64 {
	switch {
	case s.Point && s.Fixed:
		return 1.0 / 192
	case s.Point:
		return 1.0 / 48
	case s.Fixed:
		return 1.0 / 384
	}
	return 5.0 / 384
}

// least halves the way to the thinnest plank that keeps the limit: with a lip there is no
// formula for it.
func (s Shelf) least(limit float64) float64 {
	lo, hi := 0.0, float64(ThickestMM)
	if s.ThicknessMM = hi; s.bend().LaterMM > limit {
		return math.Inf(1)
	}
	const steps = 100 // until no number lies between
	for range steps {
		s.ThicknessMM = (lo + hi) / 2
		if s.bend().LaterMM > limit {
			lo = s.ThicknessMM
		} else {
			hi = s.ThicknessMM
		}
	}
	return hi
}

func (s Shelf) check() error {
	lip := error(nil)
	if s.Lip != (Lip{}) {
		lip = cmp.Or(
			bounds.Between("the height of the lip", s.Lip.HeightMM, 1, 500, "mm"),
			bounds.Between("the thickness of the lip", s.Lip.ThicknessMM, 1, 200, "mm"),
		)
	}
	return cmp.Or(
		bounds.Between("the span", s.SpanMM, 10, 20_000, "mm"),
		bounds.Between("the depth", s.DepthMM, 5, 5_000, "mm"),
		bounds.Between("the thickness", s.ThicknessMM, 1, ThickestMM, "mm"),
		bounds.Between("the stiffness", s.MOEMPa, 100, 300_000, "MPa"),
		bounds.Positive("the load", s.LoadKg, "kg"),
		bounds.Between("the load", s.LoadKg, 0, 50_000, "kg"),
		bounds.Between("the limit", s.LimitMM, 0, 500, "mm"),
		lip,
	)
}
