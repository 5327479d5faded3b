package angle

import (
	"cmp"
	"math"

	"fettle/calc/bounds"
)

// Off gives how far an angle is off square, in degrees and never below 0: |90 − angle|. It
// fails on angles outside 0 to 180.
func Off(angleDeg float64) (float64, error) {
	if err := bounds.Between("the angle", angleDeg, 1, 179, "°"); err != nil {
		return 0, err
	}
	return math.Abs(90 - angleDeg), nil
}

// Offset gives how far a line that is off square by so many degrees runs out over a width in
// mm: width × tan(off). It fails on a width that is not above 0 and on 0 to 89° left.
func Offset(offDeg, widthMM float64) (float64, error) {
	if err := cmp.Or(
		bounds.Between("the angle off square", offDeg, 0, 89, "°"),
		bounds.Positive("the width", widthMM, "mm"),
	); err != nil {
		return 0, err
	}
	return widthMM * math.Tan(rad(offDeg)), nil
}

// OffBy gives the angle off square of a line that runs out by an offset in mm over a width in
// mm: atan(offset/width). It fails on a width that is not above 0 and on an offset below 0.
func OffBy(offsetMM, widthMM float64) (float64, error) {
	if err := cmp.Or(
		bounds.Positive("the width", widthMM, "mm"),
		bounds.Between("the offset", offsetMM, 0, 1e6, "mm"),
	); err != nil {
		return 0, err
	}
	return deg(math.Atan(offsetMM / widthMM)), nil
}

// Tapering is a piece that narrows along its length.
type Tapering struct {
	WideMM, NarrowMM, LengthMM float64
}

// Taper is the angle of a tapering piece.
type Taper struct {
	AngleDeg   float64 // of the sloping edge against the straight one
	PerHundred float64 // mm lost for every 100 mm of length
	EachSide   float64 // degrees, when both edges slope alike
}

// Taper gives the angle between the edges, atan((wide − narrow)/length), and half the
// difference for each edge when both slope. It fails when a size is not above 0 or when the
// piece does not narrow.
func (p Tapering) Taper() (Taper, error) {
	if err := cmp.Or(
		bounds.Positive("the wide end", p.WideMM, "mm"),
		bounds.Positive("the length", p.LengthMM, "mm"),
		bounds.Between("the narrow end", p.NarrowMM, 0, p.WideMM, "mm"),
	); err != nil {
		return Taper{}, err
	}
	loss := p.WideMM - p.NarrowMM
	return Taper{
		AngleDeg:   deg(math.Atan(loss / p.LengthMM)),
		PerHundred: 100 * loss / p.LengthMM,
		EachSide:   deg(math.Atan(loss / 2 / p.LengthMM)),
	}, nil
}

// WidthAt gives the width at a distance in mm from the wide end. It fails when the distance
// is not on the piece.
func (p Tapering) WidthAt(mm float64) (float64, error) {
	if _, err := p.Taper(); err != nil {
		return 0, err
	}
	if err := bounds.Between("the distance from the wide end", mm, 0, p.LengthMM, "mm"); err != nil {
		return 0, err
	}
	return p.WideMM - (p.WideMM-p.NarrowMM)*mm/p.LengthMM, nil
}
