package bend_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/bend"
	"fettle/calc/checktest"
	"fettle/calc/wood"
)

func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// The reference's example: 30 thick to 400 radius through 90°, plies of 3 (computed).
func TestPlanAgreesWithTheReference(t *testing.T) {
	p, err := bend.Bow{ThicknessMM: 30, RadiusMM: 400, PlyMM: 3, AngleDeg: 90}.Plan()
	if err != nil {
		t.Fatal(err)
	}
	if p.Plies != 10 {
		t.Errorf("%d plies, want 10", p.Plies)
	}
	near(t, "ply", p.PlyMM, 3, 1e-9)
	near(t, "strain", p.StrainPct, 0.375, 1e-9)
	near(t, "inner face", p.InsideMM, 628.319, 0.001)
	near(t, "outer face", p.OutsideMM, 675.442, 0.001)
	near(t, "form", p.FormRadiusMM, 396, 1e-9)
	near(t, "strips", p.StripLengthMM, 775.442, 0.001)
}

// LS02 to LS07: a form of 500 (computed); LS08 and LS09 are printed in a forum (seen).
func TestSpringAgreesWithTheReference(t *testing.T) {
	checks := checktest.Read(t)
	for id, n := range map[string]int{"LS02": 2, "LS03": 3, "LS04": 4, "LS05": 6, "LS06": 8, "LS07": 10} {
		got, err := bend.Springs(500, n)
		if err != nil {
			t.Fatal(err)
		}
		checks.Holds(t, id, got)
	}
	for id, n := range map[string]int{"LS08": 4, "LS09": 8} {
		got, err := bend.CamberOf(3*25.4, n)
		if err != nil {
			t.Fatal(err)
		}
		checks.Holds(t, id, got.LossMM/25.4)
	}
	// Camber 75 of six plies: a form of 77.143 (reference, computed).
	c, err := bend.CamberOf(75, 6)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "form of a camber", c.FormMM, 77.143, 0.001)
	near(t, "what is left", c.FormMM-c.FormMM/36, 75, 1e-9)
}

// LS01: R = R0 n²/(n² − 1), derived by superposition (computed).
func TestSpringFormula(t *testing.T) {
	checktest.Read(t).Says(t, "LS01", "R = R0 n^2/(n^2-1)")
	for _, n := range []float64{2, 5, 13} {
		got, err := bend.Springs(1900, int(n))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "radius", got, 1900*n*n/(n*n-1), 1e-9*got)
	}
}

// BL05: strain t/(2R), with the example that the row gives (geometry).
func TestStrainOfAPly(t *testing.T) {
	checks := checktest.Read(t)
	checks.Prints(t, "BL05", "t/(2R)")
	var ply, radius, want float64
	if _, err := fmt.Sscanf(checks.Row(t, "BL05").Note, "t=%g R=%g -> %g%%", &ply, &radius, &want); err != nil {
		t.Fatal(err)
	}
	p, err := bend.Bow{ThicknessMM: 10 * ply, RadiusMM: radius, PlyMM: ply}.Plan()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "ply", p.PlyMM, ply, 1e-9)
	near(t, "strain", p.StrainPct, want, 1e-9)
}

// BL03 is the limit of structural glulam (from memory), which the ratios are. BL01 is where dry
// solid wood breaks, a radius of 20 to 30 times the thickness (university extension, seen): no
// timber may be given plies more than half as thick as that.
func TestPliesStayClearOfBreaking(t *testing.T) {
	checks := checktest.Read(t)
	checks.Prints(t, "BL03", fmt.Sprintf("1/%d; 1/%d", bend.HardwoodRatio, bend.SoftwoodRatio))
	breaks := checks.Ranges(t, "BL01")[0].High
	for _, s := range wood.All() {
		p, err := bend.Bow{ThicknessMM: 400, RadiusMM: 2000, Ratio: bend.RatioOf(s)}.Plan()
		if err != nil {
			t.Fatal(err)
		}
		if got := 2000 / p.PlyMM; got < 2*breaks {
			t.Errorf("%s: a radius of %v times the ply, dry wood breaks at %v", s.ID, got, breaks)
		}
	}
}

// BL04: a stricter trade rule, plies of R/200, with its two examples (low-grade web copies, seen):
// the plan keeps to it where somebody says 200.
func TestPliesByATradeRule(t *testing.T) {
	checks := checktest.Read(t)
	checks.Prints(t, "BL04", "R/200")
	var r1, ply1, r2, ply2 float64
	if _, err := fmt.Sscanf(checks.Row(t, "BL04").Note, "%g m radius -> %g mm; %g m -> %g mm", &r1, &ply1, &r2, &ply2); err != nil {
		t.Fatal(err)
	}
	for _, c := range [][2]float64{{r1, ply1}, {r2, ply2}} {
		p, err := bend.Bow{ThicknessMM: 10 * c[1], RadiusMM: 1000 * c[0], Ratio: 200}.Plan()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "ply", p.PlyMM, c[1], 1e-9)
	}
}

// The spring of the plan worked out from the plies: bent one by one to the form they hold the
// moment E t³/12 × n / R form, the glued bow gives it back with E (n t)³/12.
func TestSpringAgreesWithTheMomentOfThePlies(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := bend.Bow{
			ThicknessMM: rapid.Float64Range(6, 80).Draw(t, "thickness"),
			RadiusMM:    rapid.Float64Range(200, 6000).Draw(t, "radius"),
			Softwood:    rapid.Bool().Draw(t, "softwood"),
		}
		p, err := b.Plan()
		if err != nil {
			t.Fatal(err)
		}
		n := float64(p.Plies)
		moment := n * math.Pow(p.PlyMM, 3) / 12 / p.FormRadiusMM
		back := moment / (math.Pow(n*p.PlyMM, 3) / 12)
		final := 1 / (1/p.FormRadiusMM - back)
		if math.Abs(final-b.RadiusMM) > 1e-6*b.RadiusMM {
			t.Fatalf("the bow ends at %v, wanted %v", final, b.RadiusMM)
		}
		if got, err := bend.Springs(p.FormRadiusMM, p.Plies); err != nil || math.Abs(got-b.RadiusMM) > 1e-6*b.RadiusMM {
			t.Fatalf("Springs gives %v, %v", got, err)
		}
		ratio := 100.0
		if b.Softwood {
			ratio = 125
		}
		if p.PlyMM > b.RadiusMM/ratio+1e-6 || math.Abs(p.PlyMM*n-b.ThicknessMM) > 1e-9 || p.SpringMM <= 0 {
			t.Fatalf("%+v", p)
		}
	})
}

func TestPliesAreThinEnoughToKeepTheShape(t *testing.T) {
	p, err := bend.Bow{ThicknessMM: 36, RadiusMM: 1900}.Plan()
	if err != nil {
		t.Fatal(err)
	}
	if p.SpringMM > bend.SpringShare*1900 || p.PlyMM < bend.ThinnestMM {
		t.Errorf("36 thick to 1900: %+v", p)
	}
	thin, err := bend.Bow{ThicknessMM: 8, RadiusMM: 3000}.Plan()
	if err != nil {
		t.Fatal(err)
	}
	if thin.PlyMM < bend.ThinnestMM {
		t.Errorf("8 thick to 3000 has no need of plies of %v", thin.PlyMM)
	}
}

func TestStripsAreAsLongAsTheOuterFace(t *testing.T) {
	p, err := bend.Bow{ThicknessMM: 40, RadiusMM: 1900, OutsideMM: 2300}.Plan()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "strip", p.StripLengthMM, 2300+bend.TrimMM, 1e-9)
	near(t, "inner face", p.InsideMM, 2300*1900/1940.0, 1e-9)
}

func TestBowsThatCannotBe(t *testing.T) {
	nan := math.NaN()
	for _, b := range []bend.Bow{
		{}, {ThicknessMM: 30}, {RadiusMM: 400}, {ThicknessMM: -30, RadiusMM: 400}, {ThicknessMM: nan, RadiusMM: 400}, {ThicknessMM: 30, RadiusMM: nan},
		{ThicknessMM: 30, RadiusMM: 400, AngleDeg: 400}, {ThicknessMM: 30, RadiusMM: 400, AngleDeg: 90, OutsideMM: 500},
		{ThicknessMM: 30, RadiusMM: 400, OutsideMM: 9000}, {ThicknessMM: 30, RadiusMM: 400, Ratio: -1}, {ThicknessMM: 30, RadiusMM: 400, PlyMM: nan},
	} {
		if p, err := b.Plan(); err == nil {
			t.Errorf("%+v: %+v, want an error", b, p)
		}
	}
	if _, err := bend.CamberOf(75, 1); err == nil {
		t.Error("a single ply is no lamination")
	}
	if _, err := bend.Springs(-1, 3); err == nil {
		t.Error("a form of less than nothing")
	}
}

// The reference gets 14 plies of 4 out of 100 with a kerf of 3 (computed): 14 × 4 + 13 × 3 = 95,
// and a 15th would need 102.
func TestStripsAddUp(t *testing.T) {
	p := bend.Plan{Plies: 13, PlyMM: 2.5}
	got, err := p.Strips(bend.Sawing{WidthMM: 45, KerfMM: 3})
	if err != nil {
		t.Fatal(err)
	}
	want := bend.Strips{Count: 14, ThickMM: 4, WidthMM: 51, AcrossMM: 95}
	if got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	two, err := p.Strips(bend.Sawing{WidthMM: 45, KerfMM: 3, Bows: 2, PlaneMM: 2, CleanMM: 10})
	if err != nil || two.Count != 28 || two.ThickMM != 4.5 || two.WidthMM != 55 {
		t.Errorf("two bows: %+v, %v", two, err)
	}
	for _, s := range []bend.Sawing{{}, {WidthMM: -1}, {WidthMM: 45, KerfMM: math.NaN()}, {WidthMM: 45, PlaneMM: -1}, {WidthMM: 45, CleanMM: 1e4}, {WidthMM: 45, Bows: 1 << 40}} {
		if got, err := p.Strips(s); err == nil {
			t.Errorf("%+v: %+v", s, got)
		}
	}
}

// Structural glulam takes 100 times the ply for hardwood and 125 for softwood (from memory).
func TestRatioOfATimber(t *testing.T) {
	for id, want := range map[string]float64{"ash": 100, "white oak": 100, "larch": 125, "sapele": 125, "mahogany": 125} {
		s, ok := wood.Find(id)
		if !ok {
			t.Fatalf("no %s", id)
		}
		if got := bend.RatioOf(s); got != want {
			t.Errorf("%s: %v, want %v", id, got, want)
		}
	}
}

func TestLayUp(t *testing.T) {
	got, err := bend.LayUpMin(1.5, 20)
	if err != nil || got != 20 {
		t.Errorf("1.5 m² and 20 clamps: %v, %v, want 10 + 10 minutes", got, err)
	}
	for _, c := range []float64{-1, math.NaN(), 1e9} {
		if got, err := bend.LayUpMin(c, 3); err == nil {
			t.Errorf("%v m²: %v", c, got)
		}
	}
	if got, err := bend.LayUpMin(1, -1); err == nil {
		t.Errorf("-1 clamps: %v", got)
	}
}
