package finish_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/checktest"
	"fettle/calc/finish"
)

func must(t testing.TB, id string) finish.Finish {
	t.Helper()
	f, ok := finish.Find(id)
	if !ok {
		t.Fatalf("no finish %q", id)
	}
	return f
}

func TestNeed(t *testing.T) {
	for _, c := range []struct {
		name   string
		id     string
		s      finish.Surface
		litres float64
	}{
		{"the reference's example: 4.5 m², 3 coats at 11 m²/l and a tenth (computed)", "varnish", finish.Surface{AreaM2: 4.5, Coats: 3, M2PerLitre: 11}, 1.35},
		{"oil on planed wood", "oil", finish.Surface{AreaM2: 7.4, Coats: 2}, 2.2},
		{"oil on sawn wood takes twice that", "oil", finish.Surface{AreaM2: 7.4, Coats: 2, Rough: true}, 4.4},
		{"coats not said", "varnish", finish.Surface{AreaM2: 10}, 3.3},
	} {
		got, err := must(t, c.id).Need(c.s)
		if err != nil || math.Abs(got.Litres-c.litres) > 1e-9 {
			t.Errorf("%s: %+v, %v; want %v l", c.name, got, err, c.litres)
		}
	}
}

// FC01 and FC02 are printed in ft² a US gallon (seen), FC03 turns them into m² a litre, FC04
// is the range of labels (memory). The table takes the lower end of each.
func TestTableTakesTheLowerEnd(t *testing.T) {
	checks := checktest.Read(t)
	m2PerLitre := checks.Numbers(t, "FC03")[0]
	for _, c := range []struct {
		id, check string
		got       float64
		unit      float64
	}{
		{"oil", "FC01", must(t, "oil").Smooth.Value, m2PerLitre},
		{"oil", "FC02", must(t, "oil").Rough.Value, m2PerLitre},
		{"varnish", "FC04", must(t, "varnish").Smooth.Value, 1},
	} {
		low, _, ok := strings.Cut(checks.Expected(t, c.check), " to ")
		if !ok {
			t.Fatalf("%s: %q", c.check, checks.Expected(t, c.check))
		}
		printed, err := strconv.ParseFloat(low, 64)
		if err != nil {
			t.Fatal(err)
		}
		want := printed * c.unit
		if math.Abs(c.got-want) > 0.05 {
			t.Errorf("%s: %v m²/l, want %v (%s)", c.id, c.got, want, c.check)
		}
	}
}

func TestMoreSurfaceTakesMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.SampledFrom(finish.Table()).Draw(t, "finish")
		s := finish.Surface{
			AreaM2: rapid.Float64Range(0.01, 200).Draw(t, "area"),
			Coats:  rapid.IntRange(1, 10).Draw(t, "coats"), Rough: rapid.Bool().Draw(t, "rough"),
		}
		once, err := f.Need(s)
		if err != nil {
			t.Fatal(err)
		}
		s.Coats *= 2
		twice, err := f.Need(s)
		if err != nil {
			t.Fatal(err)
		}
		s.Rough = true
		sawn, err := f.Need(s)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(twice.Litres-2*once.Litres) > 1e-9*twice.Litres || sawn.Litres < twice.Litres {
			t.Fatalf("%v l, twice the coats %v, sawn %v", once.Litres, twice.Litres, sawn.Litres)
		}
		if f.Smooth.Status == "" || f.Rough.Status == "" || f.Recoat.Low.Status == "" || f.Cure.High.Status == "" {
			t.Fatalf("%s does not say how its figures are known", f.ID)
		}
		if f.Recoat.Low.Value >= f.Recoat.High.Value || f.Cure.Low.Value >= f.Cure.High.Value || f.Recoat.High.Value > 24*f.Cure.High.Value {
			t.Fatalf("%s dries in %+v hours and %+v days", f.ID, f.Recoat, f.Cure)
		}
	})
}

// Thinner is added to the first coat: a fifth of what one coat takes, and the finish stays.
func TestThinnedFirstCoat(t *testing.T) {
	s := finish.Surface{AreaM2: 5, Coats: 4, M2PerLitre: 10}
	plain, err := must(t, "varnish").Need(s)
	if err != nil {
		t.Fatal(err)
	}
	s.ThinPct = 20
	thin, err := must(t, "varnish").Need(s)
	if err != nil || thin.Litres != plain.Litres || math.Abs(thin.ThinnerLitres-0.2*5/10*1.1) > 1e-12 || math.Abs(4*thin.FirstLitres-thin.Litres) > 1e-12 {
		t.Errorf("%+v, %v; without thinner %+v", thin, err, plain)
	}
}

func TestPieces(t *testing.T) {
	for _, c := range []struct {
		p    finish.Piece
		want float64 // by hand; 0 for what cannot be
	}{
		{finish.Piece{LengthM: 1.2, WidthM: 0.75, Faces: 1}, 0.9},
		{finish.Piece{LengthM: 1.2, WidthM: 0.75, Faces: 2}, 1.8},
		{finish.Piece{LengthM: 2, WidthM: 0.1, ThicknessM: 0.05, Faces: 2, Edges: true}, 2*0.2 + 2*2.1*0.05},
		{finish.Piece{LengthM: 2, WidthM: 0.1, Faces: 2, Edges: true}, 0},
		{finish.Piece{LengthM: 2, Faces: 1}, 0},
		{finish.Piece{LengthM: 2, WidthM: 1, Faces: 3}, 0},
		{finish.Piece{LengthM: math.NaN(), WidthM: 1, Faces: 1}, 0},
	} {
		got, err := c.p.AreaM2()
		if (err != nil) != (c.want == 0) || math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%+v: %v, %v; want %v", c.p, got, err, c.want)
		}
	}
}

func TestSurfacesThatCannotBe(t *testing.T) {
	for _, s := range []finish.Surface{{}, {AreaM2: -1}, {AreaM2: math.NaN()}, {AreaM2: 1, Coats: -1}, {AreaM2: 1, Coats: 99}, {AreaM2: 1, M2PerLitre: -3}, {AreaM2: 1, ThinPct: -5}, {AreaM2: 1, ThinPct: math.NaN()}, {AreaM2: 1, M2PerLitre: math.NaN()}} {
		if n, err := must(t, "varnish").Need(s); err == nil {
			t.Errorf("%+v: %+v, want an error", s, n)
		}
	}
	if _, ok := finish.Find("jam"); ok {
		t.Error("an unheard-of finish was found")
	}
}
