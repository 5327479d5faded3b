package angle_test

import (
	"math"
	"regexp"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/angle"
	"fettle/calc/checktest"
)

func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

func TestOffset(t *testing.T) {
	for _, c := range []struct{ deg, width, want float64 }{
		{87.5, 60, 2.6197}, {92.5, 60, 2.6197}, {90, 60, 0}, {45, 100, 100},
	} {
		off, err := angle.Off(c.deg)
		if err != nil {
			t.Fatal(err)
		}
		got, err := angle.Offset(off, c.width)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "offset", got, c.want, 1e-3)
	}
	for _, c := range [][2]float64{{-1, 60}, {89.5, 60}, {5, 0}, {5, -60}, {math.NaN(), 60}, {5, math.NaN()}} {
		if got, err := angle.Offset(c[0], c[1]); err == nil {
			t.Errorf("Offset(%v, %v) = %v, want an error", c[0], c[1], got)
		}
	}
	for _, a := range []float64{0, 180, -90, 400, math.NaN()} {
		if got, err := angle.Off(a); err == nil {
			t.Errorf("Off(%v) = %v, want an error", a, got)
		}
	}
}

// The reference's example: 45 to 30 over 600 is 1.432°, 2.5 in every 100, 40 wide at 200 (computed).
func TestTaper(t *testing.T) {
	leg := angle.Tapering{WideMM: 45, NarrowMM: 30, LengthMM: 600}
	got, err := leg.Taper()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "angle", got.AngleDeg, 1.432, 0.001)
	near(t, "per hundred", got.PerHundred, 2.5, 1e-9)
	near(t, "each side", got.EachSide, 0.7162, 1e-4)
	at, err := leg.WidthAt(200)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "width at 200", at, 40, 1e-9)
	for _, p := range []angle.Tapering{{}, {WideMM: 30, NarrowMM: 45, LengthMM: 600}, {WideMM: 45, NarrowMM: 30}, {WideMM: 45, NarrowMM: -1, LengthMM: 600}} {
		if got, err := p.Taper(); err == nil {
			t.Errorf("%+v: %+v, want an error", p, got)
		}
	}
	if got, err := leg.WidthAt(700); err == nil {
		t.Errorf("the width beyond the end is %v, want an error", got)
	}
}

// MOO01 and MUW01 (computed), and the reference's further corners with unequal widths.
func TestMitre(t *testing.T) {
	checks := checktest.Read(t)
	equal, err := angle.Corner{AngleDeg: 93}.Mitre()
	if err != nil {
		t.Fatal(err)
	}
	checks.Holds(t, "MOO01", equal.MitreDeg)
	near(t, "saw", equal.SawDeg, 43.5, 1e-9)
	unequal, err := angle.Corner{AngleDeg: 90, WidthMM: 60, OtherWidthMM: 90}.Mitre()
	if err != nil {
		t.Fatal(err)
	}
	checks.Holds(t, "MUW01", unequal.MitreDeg)
	near(t, "cut", unequal.CutMM, 108.167, 0.001)
	for _, c := range []struct{ q, a, b float64 }{{100, 36.594, 63.406}, {80, 30.473, 49.527}, {90, 33.690, 56.310}} {
		m, err := angle.Corner{AngleDeg: c.q, WidthMM: 60, OtherWidthMM: 90}.Mitre()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "mitre", m.MitreDeg, c.a, 0.001)
		near(t, "other mitre", m.OtherMitreDeg, c.b, 0.001)
		near(t, "saw", m.SawDeg, 90-c.a, 0.001)
		near(t, "other saw", m.OtherSawDeg, 90-c.b, 0.001)
	}
}

// Two strips drawn from the inner corner: their outer edges meet at the outer corner, and
// the line there from the inner corner is the cut. Worked out by intersecting the lines.
func TestMitreMeetsWhereTheOuterEdgesCross(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := rapid.Float64Range(20, 160).Draw(t, "corner")
		a := rapid.Float64Range(5, 200).Draw(t, "a")
		b := rapid.Float64Range(5, 200).Draw(t, "b")
		m, err := angle.Corner{AngleDeg: q, WidthMM: a, OtherWidthMM: b}.Mitre()
		if err != nil {
			t.Fatal(err)
		}
		// Piece a runs along the x axis, its far edge at y = a. Piece b runs at angle q, its far
		// edge at distance b on the side of piece a.
		sin, cos := math.Sincos(q * math.Pi / 180)
		x := (b + a*cos) / sin // where y = a meets x sin q − y cos q = b
		if got, want := m.MitreDeg, math.Atan2(a, x)*180/math.Pi; math.Abs(got-want) > 1e-7 {
			t.Fatalf("mitre %v, by the lines %v", got, want)
		}
		if got, want := m.CutMM, math.Hypot(x, a); math.Abs(got-want) > 1e-6*want {
			t.Fatalf("cut %v, by the lines %v", got, want)
		}
		if math.Abs(m.MitreDeg+m.OtherMitreDeg-q) > 1e-9 {
			t.Fatalf("%v and %v do not make %v", m.MitreDeg, m.OtherMitreDeg, q)
		}
		other, err := angle.Corner{AngleDeg: q, WidthMM: b, OtherWidthMM: a}.Mitre()
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(other.MitreDeg-m.OtherMitreDeg) > 1e-9 {
			t.Fatal("the corner seen from the other piece is another corner")
		}
	})
}

// PM01 to PM07 (computed): the saw's swing at each end of a polygon of equal sides.
func TestPolygon(t *testing.T) {
	checks := checktest.Read(t)
	sides := regexp.MustCompile(`^(\d+) equal sides`)
	for _, r := range checks.Topic(t, "polygon mitre") {
		n, err := strconv.Atoi(sides.FindStringSubmatch(r.Inputs)[1])
		if err != nil {
			t.Fatal(err)
		}
		corner, err := angle.Polygon(n)
		if err != nil {
			t.Fatal(err)
		}
		m, err := corner.Mitre()
		if err != nil {
			t.Fatal(err)
		}
		checks.Holds(t, r.ID, m.SawDeg)
	}
	if _, err := angle.Polygon(2); err == nil {
		t.Error("a frame of two sides")
	}
}

// ML03 (computed) and the reference's example with 45° and 30°.
func TestLongPoint(t *testing.T) {
	got, err := angle.LongPoint(500, 60, 45, 45)
	if err != nil {
		t.Fatal(err)
	}
	checktest.Read(t).Holds(t, "ML03", got)
	got, err = angle.LongPoint(500, 60, 45, 30)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "45 and 30", got, 594.641, 0.001)
	for _, c := range [][4]float64{{0, 60, 45, 45}, {500, -1, 45, 45}, {500, 60, 90, 45}, {500, 60, 45, math.NaN()}} {
		if got, err := angle.LongPoint(c[0], c[1], c[2], c[3]); err == nil {
			t.Errorf("LongPoint(%v) = %v, want an error", c, got)
		}
	}
}

// The short point is the long point taken back, and a piece can be too short for its mitres.
func TestShortPointUndoesLongPoint(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		inner := rapid.Float64Range(1, 3000).Draw(t, "inner")
		width := rapid.Float64Range(1, 300).Draw(t, "width")
		m1, m2 := rapid.Float64Range(0, 80).Draw(t, "m1"), rapid.Float64Range(0, 80).Draw(t, "m2")
		outer, err := angle.LongPoint(inner, width, m1, m2)
		if err != nil {
			t.Fatal(err)
		}
		back, err := angle.ShortPoint(outer, width, m1, m2)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(back-inner) > 1e-6 {
			t.Fatalf("%v out, %v back", inner, back)
		}
	})
	if got, err := angle.ShortPoint(119, 60, 45, 45); err == nil {
		t.Errorf("a piece shorter than its mitres is %v at its short points", got)
	}
}

// A turn of 14° is a corner of 166°, and a square corner measures 270° round its outside.
func TestTurnAndOutside(t *testing.T) {
	for _, c := range []struct {
		of        func(float64) (angle.Corner, error)
		deg, want float64
	}{{angle.Turn, 14, 166}, {angle.Turn, 90, 90}, {angle.Outside, 270, 90}, {angle.Outside, 268, 92}} {
		got, err := c.of(c.deg)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "corner", got.AngleDeg, c.want, 1e-12)
	}
	for _, d := range []float64{0, 180, -5, 400, math.NaN()} {
		if got, err := angle.Turn(d); err == nil {
			t.Errorf("Turn(%v) = %v, want an error", d, got)
		}
		if got, err := angle.Outside(d); err == nil {
			t.Errorf("Outside(%v) = %v, want an error", d, got)
		}
	}
}

// The offset over the width gives the angle back: 1 in 60 is 0.95484° (computed: atan 1/60).
func TestOffByUndoesOffset(t *testing.T) {
	got, err := angle.OffBy(10, 600)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "one in sixty", got, 0.95484, 1e-5)
	rapid.Check(t, func(t *rapid.T) {
		off, width := rapid.Float64Range(0, 88).Draw(t, "off"), rapid.Float64Range(1, 3000).Draw(t, "width")
		offset, err := angle.Offset(off, width)
		if err != nil {
			t.Fatal(err)
		}
		back, err := angle.OffBy(offset, width)
		if err != nil || math.Abs(back-off) > 1e-9 {
			t.Fatalf("%v off, %v back: %v", off, back, err)
		}
	})
	for _, c := range [][2]float64{{-1, 60}, {5, 0}, {math.NaN(), 60}, {5, math.Inf(1)}} {
		if got, err := angle.OffBy(c[0], c[1]); err == nil {
			t.Errorf("OffBy(%v) = %v, want an error", c, got)
		}
	}
}

func TestMitresThatCannotBe(t *testing.T) {
	for _, c := range []angle.Corner{{}, {AngleDeg: 400}, {AngleDeg: 180}, {AngleDeg: math.NaN()}, {AngleDeg: 90, WidthMM: -5}, {AngleDeg: 90, OtherWidthMM: 60}, {AngleDeg: 90, WidthMM: math.NaN()}} {
		if m, err := c.Mitre(); err == nil {
			t.Errorf("%+v: %+v, want an error", c, m)
		}
	}
}
