package angle

import (
	"cmp"
	"math"

	"fettle/calc/bounds"
)

// Sloping is a box of equal sides that lean outwards.
type Sloping struct {
	Sides    int
	SlopeDeg float64 // from upright
}

// Compound is how the sides of such a box are cut.
type Compound struct {
	SawDeg  float64 // swing of the cut across the face, from square
	TiltDeg float64 // tilt of the blade for mitred edges, from upright
	ButtDeg float64 // tilt of the blade for butt joints at a square plan, from upright; 0 for other plans
}

// FromBench gives the slope from upright of a side that stands at an angle to the bench:
// 90 − angle. It fails on angles outside 1 to 90°.
func FromBench(angleDeg float64) (float64, error) {
	if err := bounds.Between("the angle to the bench", angleDeg, 1, 90, "°"); err != nil {
		return 0, err
	}
	return 90 - angleDeg, nil
}

// Compound gives, for n sides leaning t from upright with mitred corners,
//
//	tan saw  = sin t × tan(180/n)
//	sin tilt = cos t × sin(180/n)
//	butt     = |90 − 2 tilt| (four sides)
//
// It fails on fewer than 3 sides and on a slope outside 0 to 89°.
func (s Sloping) Compound() (Compound, error) {
	if err := cmp.Or(
		bounds.Count("the number of sides", s.Sides, 3),
		bounds.Between("the slope", s.SlopeDeg, 0, 89, "°"),
	); err != nil {
		return Compound{}, err
	}
	half := math.Pi / float64(s.Sides)
	sin, cos := math.Sincos(rad(s.SlopeDeg))
	out := Compound{
		SawDeg:  deg(math.Atan(sin * math.Tan(half))),
		TiltDeg: deg(math.Asin(cos * math.Sin(half))),
	}
	if s.Sides == 4 {
		out.ButtDeg = math.Abs(90 - 2*out.TiltDeg)
	}
	return out, nil
}
