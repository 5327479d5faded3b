package angle

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"fettle/calc/bounds"
)

// Opening is a width and a height meant to be square, with the diagonals as measured; 0 for
// a diagonal that was not.
type Opening struct {
	WidthMM, HeightMM           float64
	DiagonalMM, OtherDiagonalMM float64
}

// Squareness is how an opening stands.
type Squareness struct {
	DiagonalMM float64 // what both diagonals of a square opening would be
	// CornerDeg is the corner opposite the first diagonal; 90 when no diagonal was measured.
	CornerDeg float64
	// OutMM is how far that corner's upright leans over its height; never below 0.
	OutMM float64
	// ErrorMM is how far the second diagonal is from the one that the first calls for, if the
	// opposite sides are equal; 0 when only one was measured.
	ErrorMM float64
}

// Check compares an opening with a square one, its opposite sides being equal (geometry):
//
//	diagonal of a square:     √(w² + h²)
//	corner across from d:     cos = (w² + h² − d²)/(2 w h)
//	with both diagonals d, e: cos = (e² − d²)/(4 w h), in which errors of w and h drop out
//	lean of its upright:      h × |cos corner|
//
// It fails on sizes that cannot be, and on a diagonal that no opening of these sides has.
func (o Opening) Check() (Squareness, error) {
	if err := o.check(); err != nil {
		return Squareness{}, err
	}
	w, h, d, e := o.WidthMM, o.HeightMM, o.DiagonalMM, o.OtherDiagonalMM
	out := Squareness{DiagonalMM: math.Hypot(w, h), CornerDeg: 90}
	if d == 0 {
		return out, nil
	}
	cos := (w*w + h*h - d*d) / (2 * w * h)
	if e > 0 {
		cos = (e*e - d*d) / (4 * w * h)
		belongs, err := o.Other()
		if err != nil {
			return Squareness{}, err
		}
		out.ErrorMM = math.Abs(e - belongs)
	}
	out.CornerDeg = deg(math.Acos(cos))
	out.OutMM = h * math.Abs(cos)
	return out, nil
}

// Other gives the diagonal that belongs to the first one when opposite sides are equal:
// √(2 (w² + h²) − d²). It fails as Check does.
func (o Opening) Other() (float64, error) {
	if err := o.check(); err != nil {
		return 0, err
	}
	return math.Sqrt(max(0, 2*(o.WidthMM*o.WidthMM+o.HeightMM*o.HeightMM)-o.DiagonalMM*o.DiagonalMM)), nil
}

func (o Opening) check() error {
	const most = 1e5
	if err := cmp.Or(
		bounds.Positive("the width", o.WidthMM, "mm"),
		bounds.Positive("the height", o.HeightMM, "mm"),
		bounds.Between("the width", o.WidthMM, 0, most, "mm"),
		bounds.Between("the height", o.HeightMM, 0, most, "mm"),
		bounds.Between("the first diagonal", o.DiagonalMM, 0, 2*most, "mm"),
		bounds.Between("the second diagonal", o.OtherDiagonalMM, 0, 2*most, "mm"),
	); err != nil {
		return err
	}
	if o.DiagonalMM == 0 && o.OtherDiagonalMM > 0 {
		return errors.New("the first diagonal is missing; say the one that runs from the corner you ask about last")
	}
	for _, d := range []float64{o.DiagonalMM, o.OtherDiagonalMM} {
		if d > 0 && (d >= o.WidthMM+o.HeightMM || d <= math.Abs(o.WidthMM-o.HeightMM)) {
			return fmt.Errorf("no opening of %s by %s mm has a diagonal of %s mm (%s if it were square); measure the diagonal again, then the sides",
				bounds.Number(o.WidthMM), bounds.Number(o.HeightMM), bounds.Number(d), bounds.Number(math.Round(math.Hypot(o.WidthMM, o.HeightMM))))
		}
	}
	return nil
}

// Four is an opening of four different sides with one diagonal, from bottom left to top right.
type Four struct {
	BottomMM, RightMM, TopMM, LeftMM float64
	DiagonalMM                       float64
}

// Corners are the four corners of such an opening and its other diagonal.
type Corners struct {
	BottomLeftDeg, BottomRightDeg, TopRightDeg, TopLeftDeg float64
	OtherDiagonalMM                                        float64
	AreaM2                                                 float64
}

// Corners splits the opening into two triangles along the diagonal (law of cosines). It fails
// when a size is not above 0 or when the sides do not reach each other.
func (f Four) Corners() (Corners, error) {
	if err := cmp.Or(
		bounds.Positive("the bottom", f.BottomMM, "mm"),
		bounds.Positive("the right side", f.RightMM, "mm"),
		bounds.Positive("the top", f.TopMM, "mm"),
		bounds.Positive("the left side", f.LeftMM, "mm"),
		bounds.Positive("the diagonal", f.DiagonalMM, "mm"),
		reach("the bottom, the right side", f.BottomMM, f.RightMM, f.DiagonalMM),
		reach("the top, the left side", f.TopMM, f.LeftMM, f.DiagonalMM),
	); err != nil {
		return Corners{}, err
	}
	out := Corners{
		BottomRightDeg: opposite(f.DiagonalMM, f.BottomMM, f.RightMM),
		TopLeftDeg:     opposite(f.DiagonalMM, f.TopMM, f.LeftMM),
		BottomLeftDeg:  opposite(f.RightMM, f.BottomMM, f.DiagonalMM) + opposite(f.TopMM, f.LeftMM, f.DiagonalMM),
		TopRightDeg:    opposite(f.BottomMM, f.RightMM, f.DiagonalMM) + opposite(f.LeftMM, f.TopMM, f.DiagonalMM),
	}
	out.OtherDiagonalMM = math.Sqrt(f.BottomMM*f.BottomMM + f.LeftMM*f.LeftMM - 2*f.BottomMM*f.LeftMM*math.Cos(rad(out.BottomLeftDeg)))
	out.AreaM2 = (f.BottomMM*f.RightMM*math.Sin(rad(out.BottomRightDeg)) + f.TopMM*f.LeftMM*math.Sin(rad(out.TopLeftDeg))) / 2e6
	return out, nil
}

// Raked is an opening with a level top and bottom, one side square to them and the other raked.
type Raked struct {
	BottomMM, TopMM float64
	HeightMM        float64 // of the square side
}

// Rake is the raked side of such an opening and what follows from it.
type Rake struct {
	RakeDeg float64 // of the raked side from plumb
	SideMM  float64 // along the raked side
	// BottomDeg and TopDeg are the corners at the two ends of the raked side.
	BottomDeg, TopDeg float64
	// RisingMM runs from the foot of the square side to the top of the raked one, FallingMM the
	// other way.
	RisingMM, FallingMM float64
}

// Rake gives, with b bottom, t top and h height (geometry):
//
//	rake = atan(|b − t|/h)    side = √((b − t)² + h²)
//	diagonals √(t² + h²) and √(b² + h²)
//
// It fails when a size is not above 0.
func (o Raked) Rake() (Rake, error) {
	if err := cmp.Or(
		bounds.Positive("the bottom", o.BottomMM, "mm"),
		bounds.Positive("the top", o.TopMM, "mm"),
		bounds.Positive("the height", o.HeightMM, "mm"),
	); err != nil {
		return Rake{}, err
	}
	run := o.BottomMM - o.TopMM
	lean := deg(math.Atan(run / o.HeightMM))
	return Rake{
		RakeDeg: math.Abs(lean), SideMM: math.Hypot(run, o.HeightMM), BottomDeg: 90 - lean, TopDeg: 90 + lean,
		RisingMM: math.Hypot(o.TopMM, o.HeightMM), FallingMM: math.Hypot(o.BottomMM, o.HeightMM),
	}, nil
}

// opposite is the angle across from side a in a triangle with sides a, b, c.
func opposite(a, b, c float64) float64 { return deg(math.Acos((b*b + c*c - a*a) / (2 * b * c))) }

func reach(names string, a, b, c float64) error {
	if a+b <= c || a+c <= b || b+c <= a {
		return fmt.Errorf("%s and the diagonal do not meet in a triangle; measure them again", names)
	}
	return nil
}
