package angle_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/angle"
)

func TestCheckOpening(t *testing.T) {
	for _, c := range []struct {
		name                   string
		o                      angle.Opening
		diagonal, corner, lean float64
	}{
		{"three, four, five", angle.Opening{WidthMM: 914.4, HeightMM: 1219.2}, 1524, 90, 0},
		{"one diagonal, by the law of cosines", angle.Opening{WidthMM: 900, HeightMM: 1200, DiagonalMM: 1512}, 1500, 90.9588, 20.08},
		{"two that are equal are square, whatever the sides measured", angle.Opening{WidthMM: 900, HeightMM: 1200, DiagonalMM: 1503, OtherDiagonalMM: 1503}, 1500, 90, 0},
		{"a real opening", angle.Opening{WidthMM: 812, HeightMM: 1130, DiagonalMM: 1394, OtherDiagonalMM: 1389}, 1391.49, 90.2172, 4.284},
		{"a wide corner between two sticks", angle.Opening{WidthMM: 500, HeightMM: 500, DiagonalMM: 866.0254}, 707.107, 120, 250},
	} {
		got, err := c.o.Check()
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		near(t, c.name+": diagonal", got.DiagonalMM, c.diagonal, 0.01)
		near(t, c.name+": corner", got.CornerDeg, c.corner, 0.001)
		near(t, c.name+": lean", got.OutMM, c.lean, 0.01)
	}
}

// A leaning opening drawn with coordinates and measured again.
func TestCheckFindsTheLean(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Float64Range(200, 3000).Draw(t, "w")
		h := rapid.Float64Range(200, 3000).Draw(t, "h")
		corner := rapid.Float64Range(70, 110).Draw(t, "corner")
		sin, cos := math.Sincos(corner * math.Pi / 180)
		// The corner at the origin, the sill along x, the upright at the angle.
		top := [2]float64{h * cos, h * sin}
		across := math.Hypot(w-top[0], top[1])
		other := math.Hypot(w+top[0], top[1])
		got, err := angle.Opening{WidthMM: w, HeightMM: h, DiagonalMM: across, OtherDiagonalMM: other}.Check()
		if err != nil {
			t.Fatal(err)
		}
		one, err := angle.Opening{WidthMM: w, HeightMM: h, DiagonalMM: across}.Check()
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(got.CornerDeg-corner) > 1e-6 || math.Abs(one.CornerDeg-corner) > 1e-6 {
			t.Fatalf("corner %v by both, %v by one, drawn %v", got.CornerDeg, one.CornerDeg, corner)
		}
		if belongs, err := (angle.Opening{WidthMM: w, HeightMM: h, DiagonalMM: across}).Other(); err != nil || math.Abs(belongs-other) > 1e-6 {
			t.Fatalf("other diagonal %v, drawn %v: %v", belongs, other, err)
		}
		if math.Abs(got.OutMM-math.Abs(top[0])) > 1e-6 || got.ErrorMM > 1e-6 {
			t.Fatalf("leans %v, drawn %v; error %v", got.OutMM, top[0], got.ErrorMM)
		}
	})
}

func TestOpeningsThatCannotBe(t *testing.T) {
	for _, o := range []angle.Opening{
		{}, {WidthMM: 764}, {WidthMM: -1, HeightMM: 5}, {WidthMM: 790, HeightMM: 1655, DiagonalMM: 1835, OtherDiagonalMM: 183},
		{WidthMM: 790, HeightMM: 1655, DiagonalMM: 18350}, {WidthMM: 790, HeightMM: 1655, OtherDiagonalMM: 1835}, {WidthMM: math.NaN(), HeightMM: 5},
		{WidthMM: 790, HeightMM: 1655, DiagonalMM: math.NaN()},
	} {
		if got, err := o.Check(); err == nil {
			t.Errorf("%+v: %+v, want an error", o, got)
		}
	}
}

// The reference's example of four different sides (computed, confirmed by coordinates).
func TestFourSides(t *testing.T) {
	got, err := angle.Four{BottomMM: 1000, RightMM: 820, TopMM: 950, LeftMM: 800, DiagonalMM: 1270}.Corners()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "bottom left", got.BottomLeftDeg, 88.535, 0.001)
	near(t, "bottom right", got.BottomRightDeg, 87.921, 0.001)
	near(t, "top right", got.TopRightDeg, 90.890, 0.001)
	near(t, "top left", got.TopLeftDeg, 92.655, 0.001)
	near(t, "other diagonal", got.OtherDiagonalMM, 1264.55, 0.01)
	near(t, "area", got.AreaM2, 0.78932, 0.00001)
	for _, f := range []angle.Four{{}, {BottomMM: 1000, RightMM: 100, TopMM: 950, LeftMM: 800, DiagonalMM: 1270}} {
		if got, err := f.Corners(); err == nil {
			t.Errorf("%+v: %+v, want an error", f, got)
		}
	}
}

func TestFourSidesAgreeWithCoordinates(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
		br := [2]float64{draw("brx", 800, 1200), draw("bry", -50, 50)}
		tr := [2]float64{draw("trx", 800, 1200), draw("try", 700, 1100)}
		tl := [2]float64{draw("tlx", -50, 50), draw("tly", 700, 1100)}
		dist := func(a, b [2]float64) float64 { return math.Hypot(a[0]-b[0], a[1]-b[1]) }
		bl := [2]float64{}
		got, err := angle.Four{BottomMM: dist(bl, br), RightMM: dist(br, tr), TopMM: dist(tr, tl), LeftMM: dist(tl, bl), DiagonalMM: dist(bl, tr)}.Corners()
		if err != nil {
			t.Fatal(err)
		}
		if sum := got.BottomLeftDeg + got.BottomRightDeg + got.TopRightDeg + got.TopLeftDeg; math.Abs(sum-360) > 1e-6 {
			t.Fatalf("the corners add up to %v", sum)
		}
		if d := dist(br, tl); math.Abs(got.OtherDiagonalMM-d) > 1e-5 {
			t.Fatalf("other diagonal %v, drawn %v", got.OtherDiagonalMM, d)
		}
		area := 0.0
		ring := [][2]float64{bl, br, tr, tl}
		for i, p := range ring {
			q := ring[(i+1)%4]
			area += (p[0]*q[1] - q[0]*p[1]) / 2e6
		}
		if math.Abs(got.AreaM2-area) > 1e-6 {
			t.Fatalf("area %v, by coordinates %v", got.AreaM2, area)
		}
	})
}

// The reference's example of a raked side: 900 below, 820 above, 700 high (computed).
func TestRake(t *testing.T) {
	got, err := angle.Raked{BottomMM: 900, TopMM: 820, HeightMM: 700}.Rake()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "rake", got.RakeDeg, 6.520, 0.001)
	near(t, "side", got.SideMM, 704.557, 0.001)
	near(t, "falling", got.FallingMM, 1140.175, 0.001)
	near(t, "rising", got.RisingMM, 1078.147, 0.001)
	for _, o := range []angle.Raked{{}, {BottomMM: 900, TopMM: 820}, {BottomMM: 900, HeightMM: 700}, {BottomMM: math.NaN(), TopMM: 820, HeightMM: 700}} {
		if got, err := o.Rake(); err == nil {
			t.Errorf("%+v: %+v, want an error", o, got)
		}
	}
}

// The same opening as one of four different sides has the same corners and diagonal.
func TestRakeAgreesWithFourSides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := angle.Raked{BottomMM: rapid.Float64Range(300, 2000).Draw(t, "bottom"), TopMM: rapid.Float64Range(300, 2000).Draw(t, "top"),
			HeightMM: rapid.Float64Range(300, 2500).Draw(t, "height")}
		r, err := o.Rake()
		if err != nil {
			t.Fatal(err)
		}
		// The square side on the left; the first diagonal rises from its foot to the raked side's top.
		four, err := angle.Four{BottomMM: o.BottomMM, RightMM: r.SideMM, TopMM: o.TopMM, LeftMM: o.HeightMM, DiagonalMM: r.RisingMM}.Corners()
		if err != nil {
			t.Fatal(err)
		}
		for name, pair := range map[string][2]float64{
			"bottom left": {four.BottomLeftDeg, 90}, "bottom right": {four.BottomRightDeg, r.BottomDeg},
			"top right": {four.TopRightDeg, r.TopDeg}, "other diagonal": {four.OtherDiagonalMM, r.FallingMM},
		} {
			if math.Abs(pair[0]-pair[1]) > 1e-5 {
				t.Fatalf("%s: %v by four sides, %v by the rake", name, pair[0], pair[1])
			}
		}
	})
}
