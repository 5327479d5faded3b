package wood_test

import (
	"errors"
	"math"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/checktest"
	"fettle/calc/evidence"
	"fettle/calc/wood"
)

func must(t testing.TB, id string) wood.Species {
	t.Helper()
	s, ok := wood.Find(id)
	if !ok {
		t.Fatalf("no species %q", id)
	}
	return s
}

func move(t testing.TB, id string, m wood.Moving) wood.Movements {
	t.Helper()
	got, err := must(t, id).Movement(m)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// MWE01, MWE02 and MWE03 are the worked example printed in the USDA Wood Handbook (2010)
// after Table 13-5 (seen; the 8 and 11 % of it recalled); MWE05 and MWE06 are computed from
// published coefficients; MWE07 is equation 13-3, its form from memory.
func TestMovementAgreesWithWorkedExamples(t *testing.T) {
	checks := checktest.Read(t)
	fir := move(t, "white fir", wood.Moving{WidthMM: 232, FromPct: 8, ToPct: 11, Grain: wood.Flat}).Larger
	checks.Holds(t, "MWE01", fir.MM)
	inches := move(t, "white fir", wood.Moving{WidthMM: 9.15 * 25.4, FromPct: 8, ToPct: 11, Grain: wood.Flat}).Larger
	checks.Holds(t, "MWE02", inches.MM/25.4)
	checks.Holds(t, "MWE03", move(t, "white fir", wood.Moving{WidthMM: 25, FromPct: 8, ToPct: 11, Grain: wood.Quarter}).Larger.Coefficient.Value)
	checks.Holds(t, "MWE05", move(t, "white oak", wood.Moving{WidthMM: 150, FromPct: 12, ToPct: 8, Grain: wood.Flat}).Larger.MM)
	checks.Holds(t, "MWE06", move(t, "sapele", wood.Moving{WidthMM: 200, FromPct: 10, ToPct: 14, Grain: wood.Flat}).Larger.MM)
	checks.Holds(t, "MWE07", move(t, "american beech", wood.Moving{WidthMM: 100, FromPct: 18, ToPct: 8, Grain: wood.Flat}).Larger.MM)
}

// stated is a timber that is not in the table, by a coefficient and a shrinkage that somebody
// printed. The radial figures, which a flat-sawn board does not use, are set to half.
func stated(name string, coefficient, shrinkPct float64) wood.Species {
	said := func(v float64) evidence.Figure { return evidence.Said("as printed", v) }
	return wood.Species{Name: name, Rows: []wood.Row{{
		CT: said(coefficient), CR: said(coefficient / 2), ShrinkT: said(shrinkPct), ShrinkR: said(shrinkPct / 2),
	}}}
}

// MWE04 is the example of a flooring association for mesquite, which prints its coefficient (seen).
func TestMovementByAPrintedCoefficient(t *testing.T) {
	got, err := stated("mesquite", 0.00129, 0).Movement(wood.Moving{WidthMM: 5 * 25.4, FromPct: 6, ToPct: 9, Grain: wood.Flat})
	if err != nil {
		t.Fatal(err)
	}
	checktest.Read(t).Holds(t, "MWE04", got.Larger.MM/25.4)
}

// ME01 is the equation as the handbook's table has it (seen). ME02, outside 6 to 14 %, is from
// memory; so the movement is worked out from what it stands for as well, a size that grows in a
// straight line from ovendry to 30 %.
func TestMovementEquations(t *testing.T) {
	checks := checktest.Read(t)
	checks.Says(t, "ME01", "dD = D_I*C_T*(M_F-M_I); C_R for radial")
	checks.Says(t, "ME02", "dD = D_I*(M_F-M_I)/(3000/S_T-30+M_I)")
	const width, shrink = 180.0, 9.0
	coefficient, err := wood.Coefficient(shrink)
	if err != nil {
		t.Fatal(err)
	}
	size := func(moisture float64) float64 { return 1 - shrink/100*(30-moisture)/30 }
	for _, c := range []struct {
		from, to float64
		grain    wood.Grain
		want     float64
	}{
		{8, 12, wood.Flat, width * coefficient * (12 - 8)},
		{13, 7, wood.Flat, width * coefficient * (7 - 13)},
		{8, 12, wood.Quarter, width * coefficient / 2 * (12 - 8)},
		{12, 18, wood.Flat, width * (18 - 12) / (3000/shrink - 30 + 12)},
		{12, 18, wood.Flat, width * (size(18)/size(12) - 1)},
		{25, 9, wood.Flat, width * (size(9)/size(25) - 1)},
	} {
		m, err := stated("any", coefficient, shrink).Movement(wood.Moving{WidthMM: width, FromPct: c.from, ToPct: c.to, Grain: c.grain})
		if err != nil {
			t.Fatal(err)
		}
		if got := m.Larger.MM; math.Abs(got-c.want) > 1e-9*math.Abs(c.want) {
			t.Errorf("%s from %v to %v %%: %v, want %v", c.grain, c.from, c.to, got, c.want)
		}
	}
}

// MC01: a trade chart prints 11/64 in where the handbook's coefficients of red and white oak come
// to about 14/64 (seen). The handbook is followed, so the answer is the larger, to the 64th.
func TestMovementOfOakIsTheHandbooksAndNotTheTradeChart(t *testing.T) {
	want := checktest.Read(t).Numbers(t, "MC01")[0]
	for _, id := range []string{"red oak", "white oak"} {
		m := move(t, id, wood.Moving{WidthMM: 12 * 25.4, FromPct: 10, ToPct: 5, Grain: wood.Flat})
		if got := -m.Larger.MM / 25.4 * 64; math.Round(got) != want {
			t.Errorf("%s shrinks %v/64 in, want %v", id, got, want)
		}
	}
}

// Shrinkages and coefficients printed in two tables of the USDA Wood Handbook (2010), 4-3
// and 13-5 (seen), so the rule that joins them is checked against print.
func TestCoefficientAgreesWithTheHandbookTables(t *testing.T) {
	checks := checktest.Read(t)
	for id, s := range map[string]float64{
		"CD01": 7.8, "CD02": 4.9, "CD03": 5.5, "CD04": 11.9, "CD05": 7.3, "CD06": 9.5, "CD07": 7.1, "CD08": 5.5, "CD09": 8.1, "CD10": 12.7,
	} {
		c, err := wood.Coefficient(s)
		if err != nil {
			t.Fatal(err)
		}
		checks.Holds(t, id, c)
	}
}

// Worked by hand from equation 13-3 with S of the handbook's Table 4-3 (seen) where the
// coefficient follows from it, and with S = 3000/(1/C + 20) where the trade group's does not.
func TestMovementOutsideTheMiddleRange(t *testing.T) {
	for _, c := range []struct {
		id             string
		from, to, want float64
	}{
		{"white ash", 10, 20, 300 * 10 / (3000/7.8 - 20)},
		{"white ash", 20, 10, 300 * -10 / (3000/7.8 - 10)},
		{"white ash", 10, 60, 300 * 20 / (3000/7.8 - 20)},
		{"red oak", 8, 18, 300 * 10 / (1/0.00369 + 20 - 30 + 8)},
	} {
		got := move(t, c.id, wood.Moving{WidthMM: 300, FromPct: c.from, ToPct: c.to, Grain: wood.Flat})
		if d := math.Abs(got.Larger.MM - c.want); d > 0.001*math.Abs(c.want) {
			t.Errorf("%s from %v to %v %%: %v, want %v", c.id, c.from, c.to, got.Larger.MM, c.want)
		}
		if got.Larger.Inside {
			t.Errorf("%s from %v to %v %% is not inside 6 to 14 %%", c.id, c.from, c.to)
		}
	}
}

func TestSourcesThatDisagreeAreBothOffered(t *testing.T) {
	m := move(t, "iroko", wood.Moving{WidthMM: 120, FromPct: 10, ToPct: 14, Grain: wood.Flat})
	if !m.Disagree() {
		t.Fatal("the published figures of iroko differ, and the answer hides it")
	}
	// The smaller is the USDA FPL sheet's S_T 3.8, the larger the recalled handbook coefficient.
	if got, want := m.Smaller.MM, 120*0.00130*4; math.Abs(got-want) > 1e-9 {
		t.Errorf("smaller = %v, want %v", got, want)
	}
	if got, want := m.Larger.MM, 120*0.00205*4; math.Abs(got-want) > 1e-9 {
		t.Errorf("larger = %v, want %v", got, want)
	}
}

func TestMovementOfRingsAtAnAngle(t *testing.T) {
	// Half of each at 45°: formulas of the reference give C = 0.002088 for sapele.
	m := move(t, "sapele", wood.Moving{WidthMM: 1000, FromPct: 10, ToPct: 11, RingDeg: 45})
	if got := m.Smaller.MM; math.Abs(got-2.088) > 0.035 {
		t.Errorf("sapele with rings at 45° moves %v mm in a metre, want about 2.088", got)
	}
	flat := move(t, "sapele", wood.Moving{WidthMM: 1000, FromPct: 10, ToPct: 11, Grain: wood.Flat})
	quarter := move(t, "sapele", wood.Moving{WidthMM: 1000, FromPct: 10, ToPct: 11, Grain: wood.Quarter})
	if !(quarter.Larger.MM < m.Larger.MM && m.Larger.MM < flat.Larger.MM) {
		t.Errorf("rings at 45° move %v, not between %v and %v", m.Larger.MM, quarter.Larger.MM, flat.Larger.MM)
	}
}

// The tangential equation at 10 % is the coefficient itself, so the two ways of working must
// agree there for derived coefficients.
func TestBothFormulasMeet(t *testing.T) {
	for _, s := range wood.All() {
		for _, r := range s.Rows {
			if r.CT.Status == "" || r.ShrinkT.Status == "" || s.ID != r.ID {
				continue
			}
			fromShrinkage, err := wood.Coefficient(r.ShrinkT.Value)
			if err != nil {
				t.Fatal(err)
			}
			// Published coefficients of a trade group differ from those of its one species: the
			// widest gap in the table is northern red oak, where they stand for S = 10.3 and not 8.6.
			limit := 0.00003
			if s.ID == "teak" || s.ID == "white oak" || s.ID == "red oak" {
				limit = 0.0007
			}
			if d := math.Abs(fromShrinkage - r.CT.Value); d > limit {
				t.Errorf("%s (%s): C_T %v, from its shrinkage %v", r.ID, r.Variant, r.CT.Value, fromShrinkage)
			}
		}
	}
}

func TestMovementReturns(t *testing.T) {
	species := wood.All()
	rapid.Check(t, func(t *rapid.T) {
		s := rapid.SampledFrom(species).Draw(t, "species")
		m := wood.Moving{
			WidthMM: rapid.Float64Range(1, 2000).Draw(t, "width"),
			FromPct: rapid.Float64Range(6, 14).Draw(t, "from"),
			ToPct:   rapid.Float64Range(6, 14).Draw(t, "to"),
			Grain:   rapid.SampledFrom([]wood.Grain{wood.Flat, wood.Quarter}).Draw(t, "grain"),
		}
		there, err := s.Movement(m)
		if err != nil {
			t.Fatal(err)
		}
		m.FromPct, m.ToPct = m.ToPct, m.FromPct
		back, err := s.Movement(m)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(there.Larger.MM+back.Larger.MM) > 1e-9 {
			t.Fatalf("there %v, back %v", there.Larger.MM, back.Larger.MM)
		}
		if math.Abs(there.Larger.MM) < math.Abs(there.Smaller.MM) {
			t.Fatalf("larger %v is smaller than %v", there.Larger.MM, there.Smaller.MM)
		}
	})
}

// Outside 6 to 14 % the size runs along one curve, so going in two steps comes to the same
// place as going in one, but for second order terms of the movement itself.
func TestMovementInTwoStepsEndsInTheSamePlace(t *testing.T) {
	s := must(t, "european beech") // its coefficient is derived from its shrinkage
	rapid.Check(t, func(t *rapid.T) {
		a := rapid.Float64Range(15, 29).Draw(t, "a")
		b := rapid.Float64Range(15, 29).Draw(t, "b")
		c := rapid.Float64Range(15, 29).Draw(t, "c")
		width := 100.0
		step := func(w, from, to float64) float64 {
			m, err := s.Movement(wood.Moving{WidthMM: w, FromPct: from, ToPct: to, Grain: wood.Flat})
			if err != nil {
				t.Fatal(err)
			}
			return w + m.Larger.MM
		}
		if one, two := step(width, a, c), step(step(width, a, b), b, c); math.Abs(one-two) > 1e-6 {
			t.Fatalf("from %v to %v: %v in one step, %v over %v", a, c, one, two, b)
		}
	})
}

func TestNothingMovesAboveFibreSaturation(t *testing.T) {
	checks := checktest.Read(t)
	checks.Holds(t, "ML01", wood.FibreSaturationPct)
	m := move(t, "oak", wood.Moving{WidthMM: 200, FromPct: 60, ToPct: 30, Grain: wood.Flat})
	if m.Larger.MM != 0 || m.Smaller.MM != 0 {
		t.Errorf("green oak moves %v mm above the fibre saturation point", m.Larger.MM)
	}
}

func TestMovementRefusesWhatCannotBe(t *testing.T) {
	nan := math.NaN()
	oak := must(t, "oak")
	for _, m := range []wood.Moving{
		{WidthMM: 0, FromPct: 8, ToPct: 12},
		{WidthMM: -300, FromPct: 8, ToPct: 12},
		{WidthMM: nan, FromPct: 8, ToPct: 12},
		{WidthMM: 300, FromPct: -1, ToPct: 12},
		{WidthMM: 300, FromPct: 8, ToPct: 900},
		{WidthMM: 300, FromPct: 8, ToPct: nan},
		{WidthMM: 300, FromPct: 8, ToPct: 12, Grain: "wild"},
		{WidthMM: 300, FromPct: 8, ToPct: 12, RingDeg: 100},
	} {
		if got, err := oak.Movement(m); err == nil {
			t.Errorf("Movement(%+v) = %v, want an error", m, got.Larger.MM)
		}
	}
	_, err := wood.Species{Name: "lime"}.Movement(wood.Moving{WidthMM: 300, FromPct: 8, ToPct: 12})
	var unknown *wood.UnknownError
	if !errors.As(err, &unknown) {
		t.Errorf("a species without figures gives %v, want an UnknownError", err)
	}
}
