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
		if f.Smooth.Source == "" || f.Rough.Source == "" {
			t.Fatalf("%s names no source", f.ID)
		}
	})
}

func TestSurfacesThatCannotBe(t *testing.T) {
	for _, s := range []finish.Surface{{}, {AreaM2: -1}, {AreaM2: math.NaN()}, {AreaM2: 1, Coats: -1}, {AreaM2: 1, Coats: 99}, {AreaM2: 1, M2PerLitre: -3}, {AreaM2: 1, M2PerLitre: math.NaN()}} {
		if n, err := must(t, "varnish").Need(s); err == nil {
			t.Errorf("%+v: %+v, want an error", s, n)
		}
	}
	if _, ok := finish.Find("jam"); ok {
		t.Error("an unheard-of finish was found")
	}
}
