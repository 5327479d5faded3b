package glue_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/checktest"
	"fettle/calc/glue"
)

func TestAmount(t *testing.T) {
	for _, c := range []struct {
		name  string
		id    string
		s     glue.Spreading
		grams float64
		both  bool
	}{
		// 9 lines of 900 × 60 at 180 g/m² are 87.5 g before the waste (reference, computed).
		{"the reference's nine lines", "pva", glue.Spreading{AreaM2: 9 * 0.9 * 0.06, GM2: 180}, 87.48 * 1.1, false},
		{"a stated rate", "polyurethane", glue.Spreading{AreaM2: 0.85, GM2: 180}, 153 * 1.1, false},
		{"epoxy goes on both faces as a rule", "epoxy", glue.Spreading{AreaM2: 1}, 300 * 1.1, true},
		{"epoxy on one", "epoxy", glue.Spreading{AreaM2: 1, Faces: glue.OneFace}, 200 * 1.1, false},
		{"PVA on both", "pva", glue.Spreading{AreaM2: 1, Faces: glue.BothFaces}, 225 * 1.1, true},
	} {
		got, err := must(t, c.id).Amount(c.s)
		if err != nil || math.Abs(got.Grams-c.grams) > 1e-9 || got.BothFaces != c.both || got.AreaM2 != c.s.AreaM2 {
			t.Errorf("%s: %+v, %v; want %v g", c.name, got, err, c.grams)
		}
	}
}

// A23, from memory: spreads of PVA on one face and on both, of polyurethane and of epoxy. A22
// turns a spread in pounds a thousand square feet into g/m²: the 30 to 50 of it that is usual
// lies in the same place.
func TestSpreadsLieInThePublishedRanges(t *testing.T) {
	checks := checktest.Read(t)
	checks.Says(t, "A23", "PVA single / double; one-part PU; epoxy")
	r := checks.Ranges(t, "A23")
	if len(r) != 4 {
		t.Fatalf("%d ranges, want 4", len(r))
	}
	for _, c := range []struct {
		id    string
		faces glue.Faces
		want  checktest.Range
	}{
		{"pva", glue.OneFace, r[0]}, {"pva d3", glue.OneFace, r[0]}, {"pva d4", glue.OneFace, r[0]}, {"pva", glue.BothFaces, r[1]},
		{"polyurethane", glue.OneFace, r[2]}, {"epoxy", glue.OneFace, r[3]}, {"epoxy", glue.BothFaces, r[3]},
	} {
		got, err := must(t, c.id).Amount(glue.Spreading{AreaM2: 1, Faces: c.faces})
		if err != nil || !c.want.Holds(got.GM2) {
			t.Errorf("%s: %v g/m², %v; want %v", c.id, got.GM2, err, c.want)
		}
	}
	pounds := checks.Numbers(t, "A22")[0]
	if s := must(t, "pva").SpreadGM2.Value / pounds; s < 30 || s > 50 {
		t.Errorf("PVA: %v lb per 1000 ft²", s)
	}
}

func TestTwiceTheAreaTakesTwiceTheGlue(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyGlue().Draw(t, "glue")
		s := glue.Spreading{
			AreaM2: rapid.Float64Range(0.001, 50).Draw(t, "area"),
			Faces:  rapid.SampledFrom([]glue.Faces{glue.AsUsual, glue.OneFace, glue.BothFaces}).Draw(t, "faces"),
		}
		once, err := g.Amount(s)
		if err != nil {
			t.Fatal(err)
		}
		s.AreaM2 *= 2
		twice, err := g.Amount(s)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(twice.Grams-2*once.Grams) > 1e-9*twice.Grams || once.Grams <= once.AreaM2*once.GM2 {
			t.Fatalf("%v g, then %v g", once.Grams, twice.Grams)
		}
	})
}

func TestAmountsThatCannotBe(t *testing.T) {
	for _, s := range []glue.Spreading{
		{}, {AreaM2: -1}, {AreaM2: math.NaN()}, {AreaM2: math.Inf(1)}, {AreaM2: 1, GM2: -5}, {AreaM2: 1, GM2: math.NaN()}, {AreaM2: 1, GM2: 1e6},
	} {
		if got, err := must(t, "pva").Amount(s); err == nil {
			t.Errorf("%+v: %+v, want an error", s, got)
		}
	}
}
