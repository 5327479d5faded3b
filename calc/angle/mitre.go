package angle

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"fettle/calc/bounds"
)

// Corner is two pieces meeting at an angle. Widths of 0 were not said, and are then equal.
type Corner struct {
	AngleDeg              float64 // inside the corner; 90 is square
	WidthMM, OtherWidthMM float64
}

// Mitre is how the two pieces of a corner are cut.
type Mitre struct {
	MitreDeg, OtherMitreDeg float64 // between cut and edge
	SawDeg, OtherSawDeg     float64 // swing from square, 90 − mitre; below 0 past square
	CutMM                   float64 // length of the cut, the same on both; 0 when no width was said
}

// Mitre cuts both pieces along the line from the inner to the outer corner:
//
//	equal widths:         mitre = q/2
//	widths a, b, angle q: tan(mitre a) = a sin q / (b + a cos q), mitre b = q − mitre a
//	length of the cut:    a / sin(mitre a)
//
// One width alone is taken for both. It fails on an angle outside 1 to 179° and on a width that
// cannot be.
func (c Corner) Mitre() (Mitre, error) {
	if err := cmp.Or(
		bounds.Between("the corner", c.AngleDeg, 1, 179, "°"),
		bounds.Between("the width", c.WidthMM, 0, 1e5, "mm"),
		bounds.Between("the other width", c.OtherWidthMM, 0, 1e5, "mm"),
	); err != nil {
		return Mitre{}, err
	}
	if c.WidthMM == 0 && c.OtherWidthMM > 0 {
		return Mitre{}, errors.New("one width of the corner is missing; say both, or one when they are equal")
	}
	a := c.WidthMM
	b := cmp.Or(c.OtherWidthMM, a)
	m := Mitre{MitreDeg: c.AngleDeg / 2, OtherMitreDeg: c.AngleDeg / 2}
	if a != b {
		sin, cos := math.Sincos(rad(c.AngleDeg))
		m.MitreDeg = deg(math.Atan2(a*sin, b+a*cos))
		m.OtherMitreDeg = c.AngleDeg - m.MitreDeg
	}
	m.SawDeg, m.OtherSawDeg = 90-m.MitreDeg, 90-m.OtherMitreDeg
	m.CutMM = a / math.Sin(rad(m.MitreDeg))
	return m, nil
}

// Polygon is a flat frame of equal sides; its corner is 180 − 360/n degrees. It fails on
// fewer than 3 sides.
func Polygon(sides int) (Corner, error) {
	if err := bounds.Count("the number of sides", sides, 3); err != nil {
		return Corner{}, err
	}
	return Corner{AngleDeg: 180 - 360/float64(sides)}, nil
}

// Turn is the corner of two pieces where the second runs on with its direction changed by so
// many degrees: 180 − turn. It fails on turns outside 1 to 179°.
func Turn(turnDeg float64) (Corner, error) {
	if err := bounds.Between("the turn", turnDeg, 1, 179, "°"); err != nil {
		return Corner{}, err
	}
	return Corner{AngleDeg: 180 - turnDeg}, nil
}

// Outside is the corner of an angle that was measured round its outside, from 181 to 359
// degrees: 360 − angle.
func Outside(angleDeg float64) (Corner, error) {
	if err := bounds.Between("the angle round the outside", angleDeg, 181, 359, "°"); err != nil {
		return Corner{}, err
	}
	return Corner{AngleDeg: 360 - angleDeg}, nil
}

// LongPoint gives the length along the outer edge of a piece whose inner edge and width are
// known and whose two ends are mitred against each other: inner + width × (tan m1 + tan m2),
// with the saw's swings m1 and m2 from square. It fails on sizes that are not above 0 and on
// swings outside 0 to 85°.
func LongPoint(innerMM, widthMM, saw1Deg, saw2Deg float64) (float64, error) {
	gain, err := gained("the inner length", innerMM, widthMM, saw1Deg, saw2Deg)
	if err != nil {
		return 0, err
	}
	return innerMM + gain, nil
}

// ShortPoint gives the length along the inner edge of such a piece from the one along its
// outer edge: outer − width × (tan m1 + tan m2). It fails as LongPoint does, and on a piece
// too short for its two mitres.
func ShortPoint(outerMM, widthMM, saw1Deg, saw2Deg float64) (float64, error) {
	gain, err := gained("the outer length", outerMM, widthMM, saw1Deg, saw2Deg)
	if err != nil {
		return 0, err
	}
	if outerMM <= gain {
		return 0, fmt.Errorf("the two mitres take %s mm of the length, and the piece has %s mm at its long points; say a longer or a narrower one",
			bounds.Number(gain), bounds.Number(outerMM))
	}
	return outerMM - gain, nil
}

// gained is how much longer the outer edge is than the inner one.
func gained(name string, lengthMM, widthMM, saw1Deg, saw2Deg float64) (float64, error) {
	if err := cmp.Or(
		bounds.Positive(name, lengthMM, "mm"),
		bounds.Positive("the width", widthMM, "mm"),
		bounds.Between("the first swing", saw1Deg, 0, 85, "°"),
		bounds.Between("the second swing", saw2Deg, 0, 85, "°"),
	); err != nil {
		return 0, err
	}
	return widthMM * (math.Tan(rad(saw1Deg)) + math.Tan(rad(saw2Deg))), nil
}
