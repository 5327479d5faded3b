package joinery

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"fettle/calc/angle"
	"fettle/calc/bounds"
)

// Lean is how an opening stands of which one corner is known.
type Lean string

// The ways in which an opening with one known corner stands.
const (
	Racked    Lean = "racked"     // opposite sides are parallel: the whole opening leans
	OneSide   Lean = "one side"   // top and bottom level, the side at the corner leans
	SlopedTop Lean = "sloped top" // both sides plumb, the top slopes
)

// Opening is a hole in a wall as it was measured. Sizes and angles that are 0 were not. The
// bottom is taken as level.
type Opening struct {
	Words
	WidthMM, HeightMM                float64
	BottomMM, RightMM, TopMM, LeftMM float64 // each side, where they differ
	RisingMM, FallingMM              float64 // diagonals: from bottom left to top right; from top left to bottom right
	BottomLeftDeg, BottomRightDeg    float64
	TopRightDeg, TopLeftDeg          float64
	Lean                             Lean // for one corner; "" is Racked
}

// sides fills in each side from width and height where it was not measured itself.
func (o Opening) sides() Opening {
	o.BottomMM = cmp.Or(o.BottomMM, o.WidthMM, o.TopMM)
	o.TopMM = cmp.Or(o.TopMM, o.WidthMM, o.BottomMM)
	o.LeftMM = cmp.Or(o.LeftMM, o.HeightMM, o.RightMM)
	o.RightMM = cmp.Or(o.RightMM, o.HeightMM, o.LeftMM)
	return o
}

// mostOffDeg is how far from square a corner of an opening is believed to be, in degrees: common
// practice, no source.
const mostOffDeg = 30

// upright says that no corner is farther from square than an opening's can be.
func (q Quad) upright() bool {
	for i := range q {
		if math.Abs(q.CornerDeg(i)-90) > mostOffDeg+5 {
			return false
		}
	}
	return true
}

func (o Opening) check() error {
	for _, s := range []struct {
		name string
		mm   float64
	}{{"the bottom", o.BottomMM}, {"the right side", o.RightMM}, {"the top", o.TopMM}, {"the left side", o.LeftMM}} {
		if err := cmp.Or(o.positive(s.name, s.mm), o.between(s.name, s.mm, 20, 20_000)); err != nil {
			return err
		}
	}
	for _, a := range []float64{o.BottomLeftDeg, o.BottomRightDeg, o.TopRightDeg, o.TopLeftDeg} {
		if a == 0 {
			continue
		}
		if err := bounds.Between("a corner", a, 90-mostOffDeg, 90+mostOffDeg, "°"); err != nil {
			return err
		}
	}
	return nil
}

// Quad gives the corners, bottom left at 0, 0 and the bottom along x, and says in a sentence how
// it was read where that was a choice:
//
//	four sides and a diagonal   the two triangles along the diagonal (law of cosines)
//	both diagonals              cos of the lower left corner = (e² − d²)/(4 w h), opposite sides equal
//	one diagonal                the same with the other diagonal that belongs to it
//	four sides and a corner     the diagonal across from the corner (law of cosines), then as above
//	one corner                  as Lean says
//	several corners             width, height at the left, and the corners
//	top and bottom differ       both sides lean alike
//
// It fails on what no opening has.
func (o Opening) Quad() (Quad, string, error) {
	if err := o.sizes(o.WidthMM, o.HeightMM, o.BottomMM, o.RightMM, o.TopMM, o.LeftMM, o.RisingMM, o.FallingMM); err != nil {
		return Quad{}, "", err
	}
	o = o.sides()
	if err := o.check(); err != nil {
		return Quad{}, "", err
	}
	q, how, err := o.corners()
	if err != nil {
		return Quad{}, "", err
	}
	if !q.sound() || !q.upright() {
		return Quad{}, "", errors.New("these sides and corners do not close; measure the opening again, with both diagonals")
	}
	return q, how, nil
}

func (o Opening) corners() (Quad, string, error) {
	different := o.BottomMM != o.TopMM || o.LeftMM != o.RightMM
	known := o.knownCorners()
	switch {
	case (o.RisingMM > 0 || o.FallingMM > 0) && known > 0:
		return Quad{}, "", errors.New("diagonals and corners were both said; say which of them counts")
	case o.RisingMM > 0 && different:
		return o.byFour()
	case o.FallingMM > 0 && different:
		m, how, err := o.mirrored().byFour()
		return m.mirrored(o.BottomMM), how, err
	case o.RisingMM > 0 || o.FallingMM > 0:
		return o.byDiagonals()
	case known == 1 && different && o.Lean == "":
		return o.byFourAndCorner()
	case known > 1:
		return o.byCorners()
	case known == 1:
		return o.byCorner()
	case o.LeftMM != o.RightMM && o.TopMM != o.BottomMM:
		return Quad{}, "", errors.New("four different sides do not fix an opening; measure a diagonal too, from bottom left to top right")
	case o.LeftMM != o.RightMM:
		return Quad{{0, 0}, {o.BottomMM, 0}, {o.BottomMM, o.RightMM}, {0, o.LeftMM}}, "Read as: both sides plumb, the top slopes.", nil
	case o.TopMM != o.BottomMM:
		return o.tapered()
	}
	return Quad{{0, 0}, {o.BottomMM, 0}, {o.BottomMM, o.LeftMM}, {0, o.LeftMM}}, "", nil
}

func (o Opening) knownCorners() int {
	n := 0
	for _, a := range []float64{o.BottomLeftDeg, o.BottomRightDeg, o.TopRightDeg, o.TopLeftDeg} {
		if a > 0 {
			n++
		}
	}
	return n
}

// tapered leans both sides alike between a top and a bottom of different widths.
func (o Opening) tapered() (Quad, string, error) {
	run := (o.BottomMM - o.TopMM) / 2
	if math.Abs(run) >= o.LeftMM {
		return Quad{}, "", errors.New("top and bottom differ by more than the height; measure them again")
	}
	// The height is plumb between level edges.
	return Quad{{0, 0}, {o.BottomMM, 0}, {o.BottomMM - run, o.LeftMM}, {run, o.LeftMM}}, "Read as: top and bottom level, both sides leaning alike.", nil
}

func (o Opening) byFour() (Quad, string, error) {
	c, err := angle.Four{BottomMM: o.BottomMM, RightMM: o.RightMM, TopMM: o.TopMM, LeftMM: o.LeftMM, DiagonalMM: o.RisingMM}.Corners()
	if err != nil {
		return Quad{}, "", err
	}
	how := ""
	if o.FallingMM > 0 {
		how = fmt.Sprintf("By the sides and the one diagonal the other is %s; you measured %s.", o.size(c.OtherDiagonalMM), o.number(o.FallingMM))
	}
	return Quad{{0, 0}, {o.BottomMM, 0}, polar(Point{o.BottomMM, 0}, 180-c.BottomRightDeg, o.RightMM), polar(Point{}, c.BottomLeftDeg, o.LeftMM)}, how, nil
}

// byFourAndCorner goes by the diagonal that lies across from the one known corner.
func (o Opening) byFourAndCorner() (Quad, string, error) {
	across := func(a, b, deg float64) float64 {
		return math.Sqrt(a*a + b*b - 2*a*b*math.Cos(deg*math.Pi/180))
	}
	switch {
	case o.TopLeftDeg > 0:
		o.RisingMM = across(o.LeftMM, o.TopMM, o.TopLeftDeg)
	case o.BottomRightDeg > 0:
		o.RisingMM = across(o.RightMM, o.BottomMM, o.BottomRightDeg)
	case o.BottomLeftDeg > 0:
		o.FallingMM = across(o.LeftMM, o.BottomMM, o.BottomLeftDeg)
	default:
		o.FallingMM = across(o.RightMM, o.TopMM, o.TopRightDeg)
	}
	const how = "Read as: four sides and the one corner."
	if o.RisingMM > 0 {
		q, _, err := o.byFour()
		return q, how, err
	}
	q, _, err := o.mirrored().byFour()
	return q.mirrored(o.BottomMM), how, err
}

// farApartMM is how far a second diagonal may be from what belongs to the first, before one of them
// must be wrong: common practice, no source.
const farApartMM = 15

func (o Opening) byDiagonals() (Quad, string, error) {
	// The corner across from the falling diagonal is the lower left one.
	in := angle.Opening{WidthMM: o.BottomMM, HeightMM: o.LeftMM, DiagonalMM: o.FallingMM, OtherDiagonalMM: o.RisingMM}
	if o.FallingMM == 0 {
		in.DiagonalMM, in.OtherDiagonalMM = o.RisingMM, 0
	}
	s, err := in.Check()
	if err != nil {
		return Quad{}, "", err
	}
	corner := s.CornerDeg
	if o.FallingMM == 0 {
		corner = 180 - corner
	}
	if s.ErrorMM > farApartMM {
		return Quad{}, "", fmt.Errorf("the diagonals %s and %s don't belong to sides of %s and %s: by the one the other is %s off; measure them again, and all four sides",
			o.number(o.RisingMM), o.size(o.FallingMM), o.number(o.BottomMM), o.number(o.LeftMM), o.size(s.ErrorMM))
	}
	how := "Read as: opposite sides equal, by the diagonals."
	if s.ErrorMM > 0.5 {
		how += fmt.Sprintf(" The diagonals don't quite belong together (%s); measure all four sides if it matters.", o.size(s.ErrorMM))
	}
	return o.racked(corner), how, nil
}

// racked leans both sides alike by the lower left corner.
func (o Opening) racked(bottomLeftDeg float64) Quad {
	tip := polar(Point{}, bottomLeftDeg, o.LeftMM)
	return Quad{{0, 0}, {o.BottomMM, 0}, {o.BottomMM + tip.X, tip.Y}, tip}
}

// byCorner stands the opening up from its one known corner.
func (o Opening) byCorner() (Quad, string, error) {
	w, h := o.BottomMM, o.LeftMM
	upper := cmp.Or(o.TopRightDeg, o.TopLeftDeg)
	deg := cmp.Or(upper, o.BottomRightDeg, o.BottomLeftDeg)
	onLeft := o.TopLeftDeg+o.BottomLeftDeg > 0
	lower := deg
	if upper > 0 {
		lower = 180 - deg
	}
	run := h / math.Tan(lower*math.Pi/180) // inwards from the foot of the side
	switch o.Lean {
	case OneSide:
		how := "Read as: top and bottom level, the one side leans."
		if onLeft {
			return Quad{{0, 0}, {w, 0}, {w, h}, {run, h}}, how, nil
		}
		return Quad{{0, 0}, {w, 0}, {w - run, h}, {0, h}}, how, nil
	case SlopedTop:
		drop := w / math.Tan(deg*math.Pi/180) // the far side is higher by so much
		if onLeft {
			return Quad{{0, 0}, {w, 0}, {w, h - drop}, {0, h}}, "Read as: both sides plumb, the top slopes.", nil
		}
		return Quad{{0, 0}, {w, 0}, {w, h}, {0, h - drop}}, "Read as: both sides plumb, the top slopes.", nil
	}
	bottomLeft := lower
	if !onLeft {
		bottomLeft = 180 - lower
	}
	return o.racked(bottomLeft), "Read as: both sides lean alike, top and bottom level.", nil
}

// byCorners stands the opening up from its width, the height at the left, and the corners;
// those that were not said are square at the bottom, and at the top what is left.
func (o Opening) byCorners() (Quad, string, error) {
	bl, br := o.BottomLeftDeg, o.BottomRightDeg
	if sum := o.BottomLeftDeg + o.BottomRightDeg + o.TopRightDeg + o.TopLeftDeg; o.knownCorners() == 4 && math.Abs(sum-360) > 0.5 {
		return Quad{}, "", fmt.Errorf("the four corners add up to %s°, not 360; measure them again", bounds.Number(sum))
	}
	if o.knownCorners() == 3 {
		missing := 360 - o.BottomLeftDeg - o.BottomRightDeg - o.TopRightDeg - o.TopLeftDeg
		bl, br = cmp.Or(bl, missing), cmp.Or(br, missing)
	}
	switch {
	case o.knownCorners() == 2 && bl == 0 && br == 0: // both at the top: level above, the sides lean by them
		bl, br = 180-o.TopLeftDeg, 180-o.TopRightDeg
	case o.knownCorners() == 2:
		bl, br = cmp.Or(bl, 90), cmp.Or(br, 90)
	}
	topLeft := cmp.Or(o.TopLeftDeg, 360-bl-br-cmp.Or(o.TopRightDeg, 180-br))
	a := polar(Point{}, bl, o.LeftMM)
	right := through(Point{o.BottomMM, 0}, polar(Point{o.BottomMM, 0}, 180-br, 1))
	top := line{a, polar(Point{}, bl+topLeft-180, 1)}
	return Quad{{0, 0}, {o.BottomMM, 0}, top.meet(right), a}, "Read as: the height is that of the left side, the bottom level.", nil
}

// mirrored is the opening seen from behind, for its sides and diagonals.
func (o Opening) mirrored() Opening {
	o.LeftMM, o.RightMM = o.RightMM, o.LeftMM
	o.RisingMM, o.FallingMM = o.FallingMM, o.RisingMM
	return o
}

// mirrored turns a quad round again, its bottom being so wide.
func (q Quad) mirrored(width float64) Quad {
	m := func(p Point) Point { return Point{width - p.X, p.Y} }
	return Quad{m(q[1]), m(q[0]), m(q[3]), m(q[2])}
}

// polar goes so far from a point in a direction, counted from x against the clock.
func polar(from Point, deg, mm float64) Point {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	return from.plus(Point{cos, sin}, mm)
}
