package joinery_test

import (
	"math"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"fettle/calc/angle"
	"fettle/calc/evidence"
	"fettle/calc/joinery"
	"fettle/calc/measure"
	"fettle/calc/sketch"
	"fettle/calc/wood"
)

// closes is how exactly the assembled parts have to give the opening back, in mm.
const closes = 0.1

type maker interface{ Make() (joinery.Made, error) }

// fataler is a test, or one draw of a property.
type fataler interface {
	Helper()
	Fatalf(string, ...any)
}

func made(t fataler, of maker) joinery.Made {
	t.Helper()
	m, err := of.Make()
	if err != nil {
		t.Fatalf("%+v: %v", of, err)
	}
	return m
}

// opening draws an opening out of square by its four corners, measured as people do it.
func opening(t *rapid.T, lowW, highW, lowH, highH float64) joinery.Opening {
	w := rapid.Float64Range(lowW, highW).Draw(t, "width")
	h := rapid.Float64Range(lowH, highH).Draw(t, "height")
	off := func(name string) float64 { return rapid.Float64Range(-25, 25).Draw(t, name) }
	bl, br := joinery.Point{}, joinery.Point{X: w}
	tr, tl := joinery.Point{X: w + off("trx"), Y: h + off("try")}, joinery.Point{X: off("tlx"), Y: h + off("tly")}
	switch rapid.SampledFrom([]string{"square", "sides and rising", "sides and falling", "corners", "sides and a corner", "one corner"}).Draw(t, "how") {
	case "square":
		return joinery.Opening{WidthMM: w, HeightMM: h}
	case "sides and rising":
		return joinery.Opening{BottomMM: apart(bl, br), RightMM: apart(br, tr), TopMM: apart(tr, tl), LeftMM: apart(tl, bl), RisingMM: apart(bl, tr)}
	case "sides and falling":
		return joinery.Opening{BottomMM: apart(bl, br), RightMM: apart(br, tr), TopMM: apart(tr, tl), LeftMM: apart(tl, bl), FallingMM: apart(br, tl)}
	case "sides and a corner":
		o := joinery.Opening{BottomMM: apart(bl, br), RightMM: apart(br, tr), TopMM: apart(tr, tl), LeftMM: apart(tl, bl)}
		switch rapid.SampledFrom([]string{"bl", "br", "tr", "tl"}).Draw(t, "which") {
		case "bl":
			o.BottomLeftDeg = corner(tl, bl, br)
		case "br":
			o.BottomRightDeg = corner(bl, br, tr)
		case "tr":
			o.TopRightDeg = corner(br, tr, tl)
		default:
			o.TopLeftDeg = corner(tr, tl, bl)
		}
		return o
	case "corners":
		return joinery.Opening{WidthMM: w, HeightMM: apart(bl, tl), BottomLeftDeg: corner(tl, bl, br), BottomRightDeg: corner(bl, br, tr), TopRightDeg: corner(br, tr, tl)}
	}
	lean := rapid.SampledFrom([]joinery.Lean{joinery.Racked, joinery.OneSide, joinery.SlopedTop}).Draw(t, "lean")
	return joinery.Opening{WidthMM: w, HeightMM: h, TopRightDeg: rapid.Float64Range(87, 93).Draw(t, "corner"), Lean: lean}
}

// apart is how far two places are from each other.
func apart(p, q joinery.Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

func corner(a, at, b joinery.Point) float64 {
	return deg(math.Abs(math.Atan2(a.Y-at.Y, a.X-at.X) - math.Atan2(b.Y-at.Y, b.X-at.X)))
}

func deg(rad float64) float64 {
	d := rad * 180 / math.Pi
	return math.Min(d, 360-d)
}

func rad(deg float64) float64 { return deg * math.Pi / 180 }

// beyond is how far a point lies inside of the line from p to q, to its left.
func beyond(at, p, q joinery.Point) float64 {
	return ((q.X-p.X)*(at.Y-p.Y) - (q.Y-p.Y)*(at.X-p.X)) / apart(p, q)
}

// An opening has the sides, the diagonal and the corners that it was said to have.
func TestOpeningIsAsMeasured(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := opening(t, 300, 1500, 300, 2200)
		q, _, err := o.Quad()
		if err != nil {
			t.Fatal(err)
		}
		near := func(what string, said, is float64) {
			if said != 0 && math.Abs(said-is) > 1e-6 {
				t.Fatalf("%s was %v and is %v", what, said, is)
			}
		}
		near("bottom", o.BottomMM, apart(q[0], q[1]))
		near("right", o.RightMM, apart(q[1], q[2]))
		near("top", o.TopMM, apart(q[2], q[3]))
		near("left", o.LeftMM, apart(q[3], q[0]))
		near("rising diagonal", o.RisingMM, apart(q[0], q[2]))
		near("falling diagonal", o.FallingMM, apart(q[1], q[3]))
		near("lower left corner", o.BottomLeftDeg, corner(q[3], q[0], q[1]))
		near("lower right corner", o.BottomRightDeg, corner(q[0], q[1], q[2]))
		near("upper right corner", o.TopRightDeg, corner(q[1], q[2], q[3]))
		near("upper left corner", o.TopLeftDeg, corner(q[2], q[3], q[0]))
	})
}

// By the diagonals 1394 and 1389 of an opening 812 by 1130 the corner is what the square check,
// which is held against published examples, gives.
func TestOpeningByDiagonals(t *testing.T) {
	q, _, err := joinery.Opening{WidthMM: 812, HeightMM: 1130, RisingMM: 1394, FallingMM: 1389}.Quad()
	if err != nil {
		t.Fatal(err)
	}
	want, err := angle.Opening{WidthMM: 812, HeightMM: 1130, DiagonalMM: 1389, OtherDiagonalMM: 1394}.Check()
	if err != nil {
		t.Fatal(err)
	}
	if got := q.CornerDeg(0); math.Abs(got-want.CornerDeg) > 1e-9 {
		t.Errorf("lower left corner %v, want %v", got, want.CornerDeg)
	}
}

// The four-sided example of the reference (1000, 820, 950, 800, diagonal 1270) has the corners and the other
// diagonal printed there.
func TestOpeningOfFourSides(t *testing.T) {
	q, _, err := joinery.Opening{BottomMM: 1000, RightMM: 820, TopMM: 950, LeftMM: 800, RisingMM: 1270}.Quad()
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{88.535, 87.921, 90.890, 92.655} {
		if got := q.CornerDeg(i); math.Abs(got-want) > 0.001 {
			t.Errorf("corner %d is %v, want %v", i, got, want)
		}
	}
	if got := apart(q[1], q[3]); math.Abs(got-1264.55) > 0.01 {
		t.Errorf("the other diagonal is %v, want 1264.55", got)
	}
}

func TestOpeningsThatCannotBe(t *testing.T) {
	for _, o := range []joinery.Opening{
		{}, {WidthMM: 800}, {WidthMM: 800, HeightMM: 1700, TopRightDeg: 45}, {WidthMM: 800, HeightMM: 1700, RisingMM: 3000},
		{BottomMM: 800, TopMM: 780, LeftMM: 1700, RightMM: 1690}, {WidthMM: 800, HeightMM: 1700, RisingMM: 1880, TopRightDeg: 88},
		{WidthMM: 800, HeightMM: 1700, TopRightDeg: 88, TopLeftDeg: 88, BottomLeftDeg: 88, BottomRightDeg: 88},
		{BottomMM: 1000, RightMM: 820, TopMM: 950, LeftMM: 800, RisingMM: 400}, {WidthMM: 700, HeightMM: 1800, RisingMM: 1935, FallingMM: 1900}, {WidthMM: math.NaN(), HeightMM: 1}, {WidthMM: math.Inf(1), HeightMM: 1},
	} {
		if q, _, err := o.Quad(); err == nil {
			t.Errorf("%+v gave %v", o, q)
		}
	}
}

// named finds the part that one of a leaf's pieces is, by the names under which it may stand.
func named(t *rapid.T, m joinery.Made, names ...string) joinery.Part {
	for _, n := range names {
		for _, p := range m.Parts {
			if p.Name == n {
				return p
			}
		}
	}
	t.Fatalf("no part %v in %+v", names, m.Parts)
	return joinery.Part{}
}

// turned is a part as it stands in a place whose first corner is known: a piece may have been
// counted with its fellow, which is it turned over.
func turned(p joinery.Part, firstDeg float64) joinery.Part {
	if math.Abs(p.LeftDeg-firstDeg) > 0.01 {
		p.LeftDeg, p.RightDeg = p.RightDeg, p.LeftDeg
	}
	return p
}

// cutAcross is the length of the cut at an end of a piece.
func cutAcross(p joinery.Part, deg float64) float64 { return p.WidthMM / math.Sin(rad(deg)) }

// shoulder is the length of the edge across from the reference edge.
func shoulder(p joinery.Part) float64 {
	return p.EdgeMM - p.WidthMM/math.Tan(rad(p.LeftDeg)) - p.WidthMM/math.Tan(rad(p.RightDeg))
}

// leaf puts a frame together from the sizes of its parts alone: along the bottom over stile, rail
// and stile, up the stile, back along the top, and down. It gives the corners, the first at 0, 0.
func leaf(t *rapid.T, m joinery.Made, name, left, right string) [4]joinery.Point {
	with := func(what string) []string { return []string{strings.TrimSpace(name + " " + what), what} }
	bottom, top := named(t, m, with("bottom rail")...), named(t, m, with("top rail")...)
	r := named(t, m, append([]string{strings.TrimSpace(name + " right stile")}, with(right)...)...)
	l := named(t, m, append([]string{strings.TrimSpace(name + " left stile")}, with(left)...)...)
	// The rails' shoulders lie along the stiles, so that a rail's corner is the stile's as well.
	bottom, top = turned(bottom, bottom.LeftDeg), turned(top, top.LeftDeg)
	tries := [][2]joinery.Part{{l, r}, {flip(l), r}, {l, flip(r)}, {flip(l), flip(r)}}
	for _, bt := range [][2]joinery.Part{{bottom, top}, {flip(bottom), top}, {bottom, flip(top)}, {flip(bottom), flip(top)}} {
		for _, lr := range tries {
			if c, ok := walk(bt[0], lr[1], bt[1], lr[0]); ok {
				return c
			}
		}
	}
	t.Fatalf("the parts of %q do not close: %+v %+v %+v %+v", name, bottom, r, top, l)
	return [4]joinery.Point{}
}

func flip(p joinery.Part) joinery.Part { p.LeftDeg, p.RightDeg = p.RightDeg, p.LeftDeg; return p }

// walk goes round a frame and says whether it comes back to where it started, with every shoulder
// lying flat on its stile.
func walk(bottom, right, top, left joinery.Part) (c [4]joinery.Point, ok bool) {
	step := func(from joinery.Point, dir, mm float64) joinery.Point {
		return joinery.Point{X: from.X + mm*math.Cos(rad(dir)), Y: from.Y + mm*math.Sin(rad(dir))}
	}
	// The corner of the leaf is that of the stile's end; a stile's left end is where its edge starts.
	corners := [4]float64{left.RightDeg, right.LeftDeg, right.RightDeg, left.LeftDeg}
	shoulders := [4]float64{bottom.LeftDeg, bottom.RightDeg, top.LeftDeg, top.RightDeg}
	for i := range corners {
		if math.Abs(corners[i]-shoulders[i]) > 0.01 {
			return c, false
		}
	}
	c[1] = step(c[0], 0, cutAcross(left, corners[0])+bottom.EdgeMM+cutAcross(right, corners[1]))
	dir := 180 - corners[1]
	c[2] = step(c[1], dir, right.EdgeMM)
	dir += 180 - corners[2]
	c[3] = step(c[2], dir, cutAcross(right, corners[2])+top.EdgeMM+cutAcross(left, corners[3]))
	dir += 180 - corners[3]
	return c, apart(step(c[3], dir, left.EdgeMM), c[0]) < closes
}

func same(t *rapid.T, what string, got, want float64) {
	if !(math.Abs(got-want) < closes) {
		t.Fatalf("%s: %v, want %v", what, got, want)
	}
}

func timber(t *rapid.T) wood.Species {
	s, ok := wood.Find(rapid.SampledFrom([]string{"sapele", "oak", "larch"}).Draw(t, "timber"))
	if !ok {
		t.Fatal("no such timber")
	}
	return s
}

// A single door's parts, put together by their own lengths and angles, are the opening less the
// clearance at each edge.
func TestDoorCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := joinery.Door{Opening: opening(t, 450, 800, 900, 2100), Panel: joinery.Plywood, Timber: timber(t),
			ClearanceMM: rapid.Float64Range(1, 8).Draw(t, "clearance"), StileMM: rapid.Float64Range(45, 120).Draw(t, "stile"), TenonMM: 20}
		m := made(t, d)
		o := m.Opening
		c := leaf(t, m, "", "stile", "stile")
		at := offset(o, d.ClearanceMM)
		for i := range c {
			c[i].X, c[i].Y = c[i].X+at.X, c[i].Y+at.Y
		}
		for i := range c {
			p, q := o[i], o[(i+1)%4]
			same(t, "clearance at an edge's start", beyond(c[i], p, q), d.ClearanceMM)
			same(t, "clearance at an edge's end", beyond(c[(i+1)%4], p, q), d.ClearanceMM)
		}
	})
}

// offset is the point that lies so far inside both the bottom and the left side of an opening.
func offset(o joinery.Quad, mm float64) joinery.Point {
	half := rad(corner(o[3], o[0], o[1])) / 2
	return joinery.Point{X: mm / math.Tan(half), Y: mm}
}

// The two leaves of a stable door fill the opening: their sides are as long as the opening's, less
// the clearance above and below, plus the overlap of the rebate less its clearance.
func TestStableDoorCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := joinery.Door{Opening: opening(t, 500, 900, 1300, 2100), Style: joinery.StableDoor, Panel: joinery.Plywood,
			ClearanceMM: rapid.Float64Range(1, 6).Draw(t, "clearance"), LapMM: rapid.Float64Range(8, 25).Draw(t, "lap"), SplitMM: rapid.Float64Range(500, 900).Draw(t, "split")}
		m := made(t, d)
		lower, upper := leaf(t, m, "lower", "stile", "stile"), leaf(t, m, "upper", "stile", "stile")
		at := offset(m.Opening, d.ClearanceMM)
		for i := range lower {
			lower[i].X, lower[i].Y = lower[i].X+at.X, lower[i].Y+at.Y
		}
		same(t, "top of the lower leaf", lower[2].Y, d.SplitMM+(d.LapMM-d.ClearanceMM)/2)
		same(t, "the lower leaf is level", lower[3].Y, lower[2].Y)
		// Hang the upper leaf on the left side of the opening, its foot as far below the split.
		foot := d.SplitMM - (d.LapMM-d.ClearanceMM)/2
		lean := rad(corner(m.Opening[3], m.Opening[0], m.Opening[1]))
		from := joinery.Point{X: foot/math.Tan(lean) + d.ClearanceMM/math.Sin(lean), Y: foot}
		for i := range upper {
			upper[i].X, upper[i].Y = upper[i].X+from.X, upper[i].Y+from.Y
		}
		for _, c := range [][4]joinery.Point{lower, upper} {
			for i := range c {
				same(t, "clearance right", beyond(c[1], m.Opening[1], m.Opening[2]), d.ClearanceMM)
				same(t, "clearance right above", beyond(c[2], m.Opening[1], m.Opening[2]), d.ClearanceMM)
				same(t, "clearance left", beyond(c[(i/2)*3], m.Opening[3], m.Opening[0]), d.ClearanceMM)
			}
		}
		same(t, "clearance above", beyond(upper[2], m.Opening[2], m.Opening[3]), d.ClearanceMM)
		same(t, "clearance above left", beyond(upper[3], m.Opening[2], m.Opening[3]), d.ClearanceMM)
		same(t, "clearance below", beyond(lower[0], m.Opening[0], m.Opening[1]), d.ClearanceMM)
	})
}

// The leaves of a pair are together as wide as the opening, less the clearance at both sides, plus
// the rebate less its clearance, at the bottom and at the top.
func TestPairCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Float64Range(700, 1800).Draw(t, "width")
		h := rapid.Float64Range(900, 2100).Draw(t, "height")
		d := joinery.Door{Opening: joinery.Opening{WidthMM: w, HeightMM: h}, Style: joinery.PairDoor, Panel: joinery.Plywood,
			ClearanceMM: rapid.Float64Range(1, 6).Draw(t, "clearance"), LapMM: rapid.Float64Range(8, 25).Draw(t, "lap")}
		m := made(t, d)
		left, right := leaf(t, m, "left leaf", "stile", "meeting stile"), leaf(t, m, "right leaf", "meeting stile", "stile")
		same(t, "widths", left[1].X+right[1].X, w-2*d.ClearanceMM+d.LapMM-d.ClearanceMM)
		same(t, "height", left[2].Y, h-2*d.ClearanceMM)
	})
}

// A panel, with its room, just fills the ground of the grooves round it, and still sits in them
// when it is smallest.
func TestPanelFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		of := rapid.SampledFrom([]string{joinery.SolidWood, joinery.Plywood, joinery.Acrylic, joinery.Glass}).Draw(t, "panel")
		groove := rapid.Float64Range(12, 20).Draw(t, "groove")
		w, h := rapid.Float64Range(450, 750).Draw(t, "width"), rapid.Float64Range(900, 2000).Draw(t, "height")
		species := timber(t)
		d := joinery.Door{Opening: joinery.Opening{WidthMM: w, HeightMM: h}, Panel: of, Timber: species, ClearanceMM: 3, StileMM: 90, RailMM: 90, BottomMM: 140, GrooveMM: groove,
			ThicknessMM: 40, Climate: joinery.Climate{FromPct: 12, WetPct: 14, DryPct: 8}}
		m := made(t, d)
		p := named(t, m, "panel")
		groundW, groundH := w-6-180+2*groove, h-6-230+2*groove
		across, along := (groundW-p.WidthMM)/2, (groundH-p.LengthMM)/2
		// Each edge has room, and the panel at its dampest (12 to 14 %, WH Table 13-5) or hottest still
		// goes in: acrylic grows by 75 millionths a kelvin over 35 K and 0.3 % in damp.
		grow, shrink := 0.0, 0.0
		switch of {
		case joinery.SolidWood:
			wet, err := species.Movement(wood.Moving{WidthMM: p.WidthMM, FromPct: 12, ToPct: 14})
			if err != nil {
				t.Fatal(err)
			}
			dry, err := species.Movement(wood.Moving{WidthMM: p.WidthMM, FromPct: 12, ToPct: 8})
			if err != nil {
				t.Fatal(err)
			}
			grow, shrink = wet.Larger.MM, -dry.Larger.MM
		case joinery.Acrylic:
			grow, shrink = p.WidthMM*(75e-6*35+0.003), p.WidthMM*75e-6*25
		}
		if across < 0.99 || along < 0.99 || p.WidthMM+grow > groundW+1e-6 {
			t.Fatalf("%s %v × %v in %v × %v, growing %v", of, p.WidthMM, p.LengthMM, groundW, groundH, grow)
		}
		if light := w - 6 - 180; (p.WidthMM-shrink-light)/2 < 0.4 {
			t.Fatalf("%s of %v shrinks by %v and falls out of a light of %v", of, p.WidthMM, shrink, light)
		}
	})
}

// The pieces of a mitred trim meet: both cuts of a corner are as long, their angles are together the
// corner, and the inner edges are the opening with the reveal round it.
func TestTrimMeets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		width := func(n string) float64 { return rapid.Float64Range(30, 120).Draw(t, n) }
		tr := joinery.Trim{Opening: opening(t, 300, 900, 300, 1900), Corners: joinery.Mitred, TopWidthMM: width("top"), LowWidthMM: width("low"), LeftWidthMM: width("left"), RightMM: width("right"),
			RevealMM: rapid.Float64Range(1, 12).Draw(t, "reveal")}
		m := made(t, tr)
		round := []joinery.Part{named(t, m, "bottom trim"), named(t, m, "right trim", "side trim"), named(t, m, "top trim"), named(t, m, "left trim", "side trim")}
		if round[1].Name == "side trim" { // counted with the left one, which is it turned over
			round[1] = flip(round[3])
		}
		for i, p := range round {
			before := round[(i+3)%4]
			q := corner(m.Opening[(i+3)%4], m.Opening[i], m.Opening[(i+1)%4])
			if got := p.LeftDeg + before.RightDeg; math.Abs(got-q) > 0.01 {
				t.Fatalf("corner %d: mitres of %v and %v are not %v", i, p.LeftDeg, before.RightDeg, q)
			}
			same(t, "the two cuts", cutAcross(p, p.LeftDeg), cutAcross(before, before.RightDeg))
			want, err := angle.Corner{AngleDeg: q, WidthMM: p.WidthMM, OtherWidthMM: before.WidthMM}.Mitre()
			if err != nil {
				t.Fatal(err)
			}
			if math.Abs(want.MitreDeg-p.LeftDeg) > 0.01 {
				t.Fatalf("corner %d: mitre %v, want %v", i, p.LeftDeg, want.MitreDeg)
			}
			next := corner(m.Opening[i], m.Opening[(i+1)%4], m.Opening[(i+2)%4])
			back := apart(m.Opening[i], m.Opening[(i+1)%4]) + tr.RevealMM/math.Tan(rad(q)/2) + tr.RevealMM/math.Tan(rad(next)/2)
			same(t, "inner edge", shoulder(p), back)
		}
	})
}

// The corners of unequal trims in the reference: 60 and 90 wide at 90°, 33.690 and 56.310.
func TestTrimOfUnequalWidths(t *testing.T) {
	m := made(t, joinery.Trim{Opening: joinery.Opening{WidthMM: 600, HeightMM: 800}, WidthMM: 60, TopWidthMM: 90, LowWidthMM: 90, RevealMM: 5})
	for _, p := range m.Parts {
		want := 33.690
		if p.WidthMM == 90 {
			want = 56.310
		}
		if math.Abs(p.LeftDeg-want) > 0.001 || math.Abs(p.RightDeg-want) > 0.001 {
			t.Errorf("%s is cut at %v and %v, want %v", p.Name, p.LeftDeg, p.RightDeg, want)
		}
	}
	if len(m.Parts) != 3 {
		t.Errorf("%d sorts of piece, want top, bottom and sides", len(m.Parts))
	}
}

// Butted sides and what lies across them fill the opening, the reveal and the widths.
func TestButtedTrimFills(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := opening(t, 300, 900, 300, 1900)
		three := rapid.Bool().Draw(t, "three sides")
		m := made(t, joinery.Trim{Opening: o, Corners: joinery.Butted, ThreeSides: three, WidthMM: 60, RevealMM: 5})
		r := named(t, m, "right trim", "side trim")
		q := m.Opening
		low := 5 / math.Tan(rad(corner(q[0], q[1], q[2]))/2)
		if three { // it stands on the floor at its own outer foot
			c := rad(corner(q[0], q[1], q[2]))
			low = 5 / math.Tan(c)
			want := apart(q[1], q[2]) + low + 5/math.Tan(rad(corner(q[1], q[2], q[3]))/2)
			same(t, "inner edge of a side on the floor", shoulder(r), want)
			return
		}
		same(t, "inner edge of a side", shoulder(r), apart(q[1], q[2])+low+5/math.Tan(rad(corner(q[1], q[2], q[3]))/2))
	})
}

// Drop boards, swollen to their dampest, fill the opening to the room above them, and their ends
// stand in the grooves with their clearance at both edges.
func TestBoardsFill(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bottom := rapid.Float64Range(400, 900).Draw(t, "bottom")
		top := bottom + rapid.Float64Range(-150, 150).Draw(t, "taper")
		h := rapid.Float64Range(500, 1200).Draw(t, "height")
		n := rapid.IntRange(1, 6).Draw(t, "boards")
		species := timber(t)
		b := joinery.DropBoards{Opening: joinery.Opening{BottomMM: bottom, TopMM: top, HeightMM: h}, Count: n, Timber: species, ThicknessMM: 20, GrooveMM: 12, ClearanceMM: 2, TopMM: 3, BevelDeg: 30,
			Joint: rapid.SampledFrom([]string{joinery.Bevelled, joinery.Rebated}).Draw(t, "joint"), LapMM: 10, Climate: joinery.Climate{FromPct: 12, WetPct: 14, DryPct: 9}}
		m := made(t, b)
		overlap := 10.0
		if b.Joint == joinery.Bevelled {
			overlap = 20 * math.Tan(rad(30))
		}
		cover, pieces := overlap, 0
		y := 0.0
		for _, p := range m.Parts {
			for range p.Quantity {
				pieces++
				cover += p.WidthMM - overlap
				side := bottom + (top-bottom)*y/h
				lean := math.Atan((bottom - top) / 2 / h)
				same(t, "lower edge of board "+p.Name, p.EdgeMM, side+2*10/math.Cos(lean))
				y += p.WidthMM - overlap
			}
		}
		if pieces != n {
			t.Fatalf("%d boards, want %d", pieces, n)
		}
		wet, err := species.Movement(wood.Moving{WidthMM: cover, FromPct: 12, ToPct: 14})
		if err != nil {
			t.Fatal(err)
		}
		same(t, "boards at their dampest", cover+wet.Larger.MM, h-3)
	})
}

func TestBoardsOfGivenHeights(t *testing.T) {
	o := joinery.Opening{WidthMM: 600, HeightMM: 800}
	m := made(t, joinery.DropBoards{Opening: o, Count: 3, HeightsMM: []float64{250, 250}, Joint: joinery.Rebated, LapMM: 10})
	if m.Parts[0].WidthMM != 260 || m.Parts[0].Quantity != 2 {
		t.Errorf("two boards cover 250 and overlap 10: %+v", m.Parts[0])
	}
	for _, b := range []joinery.DropBoards{
		{Opening: o, Count: 2, HeightsMM: []float64{300, 300}}, {Opening: o, Count: 4, HeightsMM: []float64{300, 300}}, {Opening: o, Count: 3, HeightsMM: []float64{500, 290}}, {Opening: o, Count: 30},
	} {
		if m, err := b.Make(); err == nil {
			t.Errorf("%+v gave %+v", b, m.Parts)
		}
	}
}

// A rack holds its items: side by side between the ends, below the next shelf, between lip and
// back rail, and its parts give its outer size back.
func TestRackHolds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := joinery.Rack{Shelves: rapid.IntRange(1, 4).Draw(t, "shelves"), Items: rapid.IntRange(1, 10).Draw(t, "items"), ItemMM: rapid.Float64Range(60, 120).Draw(t, "item"),
			WidthMM: rapid.SampledFrom([]float64{0, 830, 1300}).Draw(t, "width"), HousingMM: rapid.SampledFrom([]float64{0, 6}).Draw(t, "housing")}
		m, err := r.Make()
		if err != nil {
			if r.WidthMM == 0 || float64((r.Items+r.Shelves-1)/r.Shelves)*r.ItemMM <= r.WidthMM-36 {
				t.Fatalf("%+v: %v", r, err)
			}
			return
		}
		shelf, end, lip := named(t, m, "shelf"), named(t, m, "end"), named(t, m, "lip")
		clear := shelf.LengthMM - 2*r.HousingMM
		if r.WidthMM > 0 {
			same(t, "width over all", clear+2*end.ThicknessMM, r.WidthMM)
		}
		lowest, onShelf := math.Inf(1), 0
		for _, p := range m.Pieces {
			if p.Kind != joinery.Space {
				continue
			}
			if p.Outline[0].X < end.ThicknessMM-1e-6 || p.Outline[1].X > end.ThicknessMM+clear+1e-6 {
				t.Fatalf("an item stands at %v, the ends are %v apart", p.Outline, clear)
			}
			same(t, "an item's width", apart(p.Outline[0], p.Outline[1]), r.ItemMM)
			lowest = math.Min(lowest, end.LengthMM-p.Outline[2].Y)
			onShelf++
		}
		if onShelf < r.Items || lowest < 0 {
			t.Fatalf("%d places for %d items, the highest %v below the top", onShelf, r.Items, lowest)
		}
		if room := end.WidthMM - 20; room < r.ItemMM-1e-9 || shelf.WidthMM < r.ItemMM-1e-9 {
			t.Fatalf("items of %v in a depth of %v", r.ItemMM, room)
		}
		if lip.WidthMM-shelf.ThicknessMM >= 1.25*r.ItemMM {
			t.Fatalf("the lip of %v hides the items", lip.WidthMM)
		}
	})
}

func TestRacksThatCannotBe(t *testing.T) {
	for _, r := range []joinery.Rack{
		{}, {WidthMM: 800}, {WidthMM: 800, HeightMM: 500}, {Items: 9}, {WidthMM: 860, Shelves: 1, Items: 9, ItemMM: 130}, {WidthMM: 800, HeightMM: 100, Shelves: 5, DepthMM: 100},
		{WidthMM: 800, ItemMM: 84, Items: 4, DepthMM: 80}, {WidthMM: 800, Items: 4, ItemMM: 84, ItemHeightMM: 95, LipMM: 100},
	} {
		if m, err := r.Make(); err == nil {
			t.Errorf("%+v gave %+v", r, m.Parts)
		}
	}
}

// The bow of the reference's arc, chord 1200 and rise 150: radius 1275 (computed there).
func TestBow(t *testing.T) {
	m := made(t, joinery.Bow{SpanMM: 1200, RiseMM: 150, ThicknessMM: 30, WidthMM: 45})
	inner := m.Pieces[0].Outline
	for _, p := range inner[:41] {
		if got := apart(p, joinery.Point{X: 600, Y: 150 - 1275}); math.Abs(got-1275) > 0.01 {
			t.Fatalf("the inner face at %v is %v from the centre", p, got)
		}
	}
	p := m.Parts[0]
	if got := float64(p.Quantity) * p.ThicknessMM; math.Abs(got-30) > 1e-9 {
		t.Errorf("%d plies of %v are %v thick, want 30", p.Quantity, p.ThicknessMM, got)
	}
	if outside := rad(56.145) * 1305; math.Abs(p.LengthMM-outside-100) > 0.05 {
		t.Errorf("strips of %v, want the outer face %v and 100", p.LengthMM, outside)
	}
	for _, b := range []joinery.Bow{{}, {SpanMM: 1200}, {SpanMM: 1200, RiseMM: 700}, {SpanMM: 60, RiseMM: 30, ThicknessMM: 2000}} {
		if m, err := b.Make(); err == nil {
			t.Errorf("%+v gave %+v", b, m.Parts)
		}
	}
}

// Slats and gaps fill the width, and no gap is wider than what was asked for unless no further slat
// goes in.
func TestSlatsFill(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := joinery.SlatTop{LengthMM: rapid.Float64Range(300, 2000).Draw(t, "length"), WidthMM: rapid.Float64Range(200, 900).Draw(t, "width"),
			SlatMM: rapid.Float64Range(20, 95).Draw(t, "slat"), GapMM: rapid.Float64Range(2, 20).Draw(t, "gap")}
		m := made(t, s)
		slat, bearer := named(t, m, "slat"), named(t, m, "bearer")
		gap := (s.WidthMM - float64(slat.Quantity)*slat.WidthMM) / float64(slat.Quantity-1)
		another := float64(slat.Quantity+1) * slat.WidthMM
		if gap < -1e-6 || gap > s.GapMM+1e-5 && another <= s.WidthMM {
			t.Fatalf("%d slats of %v in %v have gaps of %v", slat.Quantity, slat.WidthMM, s.WidthMM, gap)
		}
		same(t, "bearers reach across", bearer.LengthMM, s.WidthMM)
	})
}

// wishes are one of everything, for what holds of all.
func wishes(t *rapid.T) maker {
	w := joinery.Words{Out: rapid.SampledFrom([]measure.System{"", measure.Metric, measure.Imperial}).Draw(t, "unit")}
	o := opening(t, 400, 900, 700, 2000)
	o.Words = w
	return rapid.SampledFrom([]maker{
		joinery.Door{Words: w, Opening: o, Panel: joinery.Acrylic}, joinery.Door{Words: w, Opening: o, Style: joinery.PairDoor, StileMM: 40, Panel: joinery.Glass},
		joinery.Door{Words: w, Opening: o, Style: joinery.StableDoor, StileMM: 50, RailMM: 50, BottomMM: 50, Panel: joinery.Plywood},
		joinery.DropBoards{Words: w, Opening: joinery.Opening{Words: w, BottomMM: 600, TopMM: 680, HeightMM: 700}}, joinery.Trim{Words: w, Opening: o}, joinery.Trim{Words: w, Opening: o, Corners: joinery.Butted, ThreeSides: true},
		joinery.Rack{Words: w, WidthMM: 830, Items: 9, ItemMM: 84}, joinery.Rack{Words: w, WidthMM: 742, HeightMM: 480, DepthMM: 130}, joinery.Bow{Words: w, SpanMM: 1200, RiseMM: 80}, joinery.SlatTop{Words: w, LengthMM: 600, WidthMM: 400},
	}).Draw(t, "wish")
}

// Every assumption says where its figure comes from and a sentence that changes it, every part has
// three sizes, and the drawing is a sheet for a phone with all of its text and lines on it. Where
// inches are talked no text has mm.
func TestAssumptionsAndDrawings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		of := wishes(t)
		m := made(t, of)
		if reflect.ValueOf(of).FieldByName("Out").String() == string(measure.Imperial) {
			noMM(t, m)
		}
		for _, a := range m.Assumptions {
			if a.Need == "" || a.Name == "" || a.Text == "" || a.Change == "" || a.Figure.Source == "" || a.Figure.Status == "" || a.Figure.Status == evidence.Stated {
				t.Fatalf("%+v", a)
			}
		}
		for _, p := range m.Parts {
			if !(p.LengthMM > 0 && p.WidthMM > 0 && p.ThicknessMM > 0 && p.Quantity > 0) || p.LeftDeg <= 0 || p.RightDeg <= 0 {
				t.Fatalf("%+v", p)
			}
		}
		sheet := m.Drawing
		if sheet.Width != sketch.PhoneWidth || sheet.Title == "" || sheet.Name == "" || len(m.Why) == 0 {
			t.Fatalf("%+v", sheet)
		}
		labels := 0
		for _, s := range sheet.Shapes {
			w, h := 0.0, 0.0
			if s.Kind == sketch.Label {
				labels++
				w, h = 0.55*s.Size*float64(utf8.RuneCountInString(s.Text)), s.Size
				sin, cos := math.Sincos(rad(s.Turn))
				w, h = math.Abs(w*cos)+math.Abs(h*sin), math.Abs(w*sin)+math.Abs(h*cos)
				if s.Size < sketch.LeastText || s.Text == "" {
					t.Fatalf("a label that can't be read: %+v", s)
				}
			}
			for _, p := range s.Points {
				if p.X-w/2 < -0.01 || p.Y-h/2 < -0.01 || p.X+w/2 > sheet.Width+0.01 || p.Y+h/2 > sheet.Height+0.01 {
					t.Fatalf("%+v is not on a sheet of %v × %v", s, sheet.Width, sheet.Height)
				}
			}
		}
		if labels < 5 {
			t.Fatalf("only %d labels", labels)
		}
	})
}

// noMM refuses a mm in any text of what was made.
func noMM(t *rapid.T, m joinery.Made) {
	texts := append(append(slices.Clone(m.Notes), m.Why...), m.Cautions...)
	texts = append(texts, m.Drawing.Title)
	for _, a := range m.Assumptions {
		texts = append(texts, a.Text, a.Change)
	}
	for _, p := range m.Parts {
		texts = append(texts, p.Note)
	}
	for _, s := range m.Drawing.Shapes {
		texts = append(texts, s.Text)
	}
	for _, text := range texts {
		if millimetres.MatchString(text) {
			t.Fatalf("in inches: %q", text)
		}
	}
}

var millimetres = regexp.MustCompile(`\bmm\b`)

// A stile of 95 mm is 3.74 inches, which a rule shows as 3 3/4, and an opening of 32 by 70 is what it was.
func TestADoorInInches(t *testing.T) {
	w := joinery.Words{Out: measure.Imperial}
	m := made(t, joinery.Door{Words: w, Opening: joinery.Opening{Words: w, WidthMM: 32 * 25.4, HeightMM: 70 * 25.4}})
	stiles := ""
	for _, a := range m.Assumptions {
		if a.Need == "stile_mm" {
			stiles = a.Text + ", " + a.Change
		}
	}
	labels := ""
	for _, s := range m.Drawing.Shapes {
		labels += s.Text + "|"
	}
	if stiles != "3 3/4 in, stiles 3 3/4" || !strings.Contains(labels, "|32|") || !strings.Contains(labels, "|70|") || !strings.Contains(labels, "the opening. in, to scale") {
		t.Errorf("%q, labels %s", stiles, labels)
	}
	_, err := joinery.Door{Words: w, Opening: joinery.Opening{Words: w, WidthMM: 800, HeightMM: 1700}, StileMM: 500}.Make()
	if err == nil || !strings.Contains(err.Error(), "in") || millimetres.MatchString(err.Error()) {
		t.Errorf("too wide a stile: %v", err)
	}
}

// Whatever is asked for, what is made has sizes and angles that can be, and a drawing of places
// that can be; anything else is refused.
func TestWhatIsMadeCanBe(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		any := func(name string) float64 {
			return rapid.OneOf(rapid.Just(0.0), rapid.Float64Range(-10, 5000), rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), 1e300, 1e-300, -1})).Draw(t, name)
		}
		o := joinery.Opening{WidthMM: any("w"), HeightMM: any("h"), TopMM: any("t"), RisingMM: any("d"), TopRightDeg: any("tr")}
		n := rapid.IntRange(-1, 60).Draw(t, "n")
		of := rapid.SampledFrom([]maker{
			joinery.Door{Opening: o, Style: joinery.StableDoor, StileMM: any("stile"), SplitMM: any("split"), GrooveMM: any("groove")}, joinery.Door{Opening: o, Style: joinery.PairDoor, ClearanceMM: any("c"), LapMM: any("lap")},
			joinery.DropBoards{Opening: o, Count: n, ThicknessMM: any("thick"), BevelDeg: any("bevel"), HeightsMM: []float64{any("h1"), any("h2")}}, joinery.Trim{Opening: o, WidthMM: any("trim"), RevealMM: any("reveal")},
			joinery.Rack{WidthMM: any("rw"), HeightMM: any("rh"), DepthMM: any("rd"), Shelves: n, Items: n, ItemMM: any("item")}, joinery.Bow{SpanMM: any("span"), RiseMM: any("rise"), ThicknessMM: any("bt"), WidthMM: any("bw")},
			joinery.SlatTop{LengthMM: any("l"), WidthMM: any("sw"), SlatMM: any("slat"), Slats: n, GapMM: any("gap"), Bearers: n},
		}).Draw(t, "of")
		m, err := of.Make()
		if err != nil {
			return
		}
		can := func(v float64) bool { return v > 0 && v < 1e5 }
		for _, p := range m.Parts {
			if !can(p.LengthMM) || !can(p.WidthMM) || !can(p.ThicknessMM) || p.Quantity < 1 || !(p.LeftDeg > 0 && p.LeftDeg < 180 && p.RightDeg > 0 && p.RightDeg < 180) {
				t.Fatalf("%+v made %+v", of, p)
			}
		}
		for _, s := range m.Drawing.Shapes {
			for _, p := range s.Points {
				if !(math.Abs(p.X) < 1e4 && math.Abs(p.Y) < 1e4) {
					t.Fatalf("%+v is drawn at %+v", of, p)
				}
			}
		}
	})
}
