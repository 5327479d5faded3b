package glue_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/checktest"
	"fettle/calc/evidence"
	"fettle/calc/glue"
)

var unsaid = math.NaN()

func must(t testing.TB, id string) glue.Glue {
	t.Helper()
	g, ok := glue.Find(id)
	if !ok {
		t.Fatalf("no glue %q", id)
	}
	return g
}

func anyGlue() *rapid.Generator[glue.Glue] { return rapid.SampledFrom(glue.Table()) }

func anyTemp(t *rapid.T, g glue.Glue, label string) float64 {
	return rapid.Float64Range(g.MinC.Value, g.MaxC.Value).Draw(t, label)
}

func anyHumidity() *rapid.Generator[float64] {
	return rapid.OneOf(rapid.Just(unsaid), rapid.Float64Range(5, 99))
}

// The common rule of the reference (practice): 60 min at 20 °C are 85 at 15 and 120 at 10.
func TestColdFollowsTheCommonRule(t *testing.T) {
	g, err := must(t, "epoxy").WithSheet(glue.Sheet{Name: "ours", AtC: 20, OpenMin: 60, ClampMin: 60, MinC: 5})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ temp, clamp, open float64 }{
		{20, 60, 60}, {15, 84.85, 60}, {10, 120, 60}, {25, 60, 42.43}, {30, 60, 30},
	} {
		got, err := g.At(c.temp, unsaid)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(got.ClampMin-c.clamp) > 0.01 || math.Abs(got.OpenMin-c.open) > 0.01 {
			t.Errorf("at %v °C: open %v, clamp %v; want %v, %v", c.temp, got.OpenMin, got.ClampMin, c.open, c.clamp)
		}
	}
}

func TestWarmthNeverGivesMoreTimeNorAsksForMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyGlue().Draw(t, "glue")
		a, b := anyTemp(t, g, "a"), anyTemp(t, g, "b")
		cold, warm := min(a, b), max(a, b)
		h := anyHumidity().Draw(t, "humidity")
		atCold, err := g.At(cold, h)
		if err != nil {
			t.Fatal(err)
		}
		atWarm, err := g.At(warm, h)
		if err != nil {
			t.Fatal(err)
		}
		if atWarm.OpenMin > atCold.OpenMin || atWarm.ClosedMin > atCold.ClosedMin {
			t.Fatalf("%s is open %v min at %v °C and %v at %v", g.ID, atCold.OpenMin, cold, atWarm.OpenMin, warm)
		}
		if atWarm.ClampMin > atCold.ClampMin || atWarm.WorkMin > atCold.WorkMin || atWarm.CureMin > atCold.CureMin {
			t.Fatalf("%s is clamped %v min at %v °C and %v at %v", g.ID, atCold.ClampMin, cold, atWarm.ClampMin, warm)
		}
	})
}

func TestTimesStayOnTheSafeSideOfThePublishedOnes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := anyGlue().Draw(t, "glue")
		got, err := g.At(anyTemp(t, g, "temp"), anyHumidity().Draw(t, "humidity"))
		if err != nil {
			t.Fatal(err)
		}
		if got.OpenMin > g.OpenMin.Value || got.ClosedMin > g.ClosedMin.Value {
			t.Fatalf("%s: more time to put the parts together than published", g.ID)
		}
		if got.ClampMin < g.ClampMin.Value || got.WorkMin < g.WorkMin.Value || got.CureMin < g.CureMin.Value {
			t.Fatalf("%s: a shorter wait than published", g.ID)
		}
		if !(got.OpenMin > 0 && got.ClampMin <= got.WorkMin && got.WorkMin <= got.CureMin) {
			t.Fatalf("%s: open %v, clamp %v, work %v, cure %v", g.ID, got.OpenMin, got.ClampMin, got.WorkMin, got.CureMin)
		}
	})
}

func TestHumidity(t *testing.T) {
	for _, c := range []struct {
		id, what   string
		dry, usual float64
		of         func(glue.Times) float64
	}{
		{"polyurethane", "clamp", 30, 65, func(x glue.Times) float64 { return -x.ClampMin }},
		{"ms polymer", "cure", 20, 65, func(x glue.Times) float64 { return -x.CureMin }},
		{"pva", "open", 30, 65, func(x glue.Times) float64 { return x.OpenMin }},
	} {
		g := must(t, c.id)
		dry, err := g.At(20, c.dry)
		if err != nil {
			t.Fatal(err)
		}
		usual, err := g.At(20, c.usual)
		if err != nil {
			t.Fatal(err)
		}
		if !(c.of(dry) < c.of(usual)) {
			t.Errorf("%s: dry air makes no difference to the %s time", c.id, c.what)
		}
	}
	pu := must(t, "polyurethane")
	damp, err := pu.At(20, 90)
	if err != nil {
		t.Fatal(err)
	}
	if !(damp.OpenMin < pu.OpenMin.Value) {
		t.Error("polyurethane skins over no faster in damp air")
	}
	epoxy := must(t, "epoxy")
	a, _ := epoxy.At(20, 20)
	b, _ := epoxy.At(20, 90)
	if a != b {
		t.Error("the air's humidity changed the times of epoxy")
	}
}

// Hot hide glue gels by cooling, so a warm room is no reason to hurry; the published time is
// already that of a cool one.
func TestHideGlueGelsByCooling(t *testing.T) {
	g := must(t, "hide glue")
	for _, temp := range []float64{15, 20, 30} {
		got, err := g.At(temp, unsaid)
		if err != nil || got.OpenMin != g.OpenMin.Value {
			t.Errorf("at %v °C: open %v, %v", temp, got.OpenMin, err)
		}
	}
}

func TestTooColdIsAnAnswer(t *testing.T) {
	for _, g := range glue.Table() {
		_, err := g.At(g.MinC.Value-0.5, unsaid)
		var cold *glue.TooColdError
		if !errors.As(err, &cold) {
			t.Errorf("%s below its minimum: %v", g.ID, err)
			continue
		}
		if !strings.Contains(cold.Error(), "don't glue") || cold.MinC != g.MinC.Value || cold.Reason == "" {
			t.Errorf("%s: %s", g.ID, cold)
		}
		if at, err := g.At(g.MinC.Value, unsaid); err != nil || at.MinTempC != g.MinC.Value {
			t.Errorf("%s at its minimum: %+v, %v", g.ID, at, err)
		}
		var hot *glue.TooHotError
		if _, err := g.At(g.MaxC.Value+1, unsaid); !errors.As(err, &hot) {
			t.Errorf("%s above its maximum: %v", g.ID, err)
		}
	}
	if _, err := must(t, "pva").At(9, unsaid); err == nil {
		t.Error("PVA at 9 °C forms no film, and times came out")
	}
}

func TestAtRefusesWhatCannotBe(t *testing.T) {
	g := must(t, "epoxy")
	for _, c := range [][2]float64{{math.NaN(), 50}, {math.Inf(1), 50}, {400, 50}, {20, 0}, {20, 140}, {20, -3}} {
		got, err := g.At(c[0], c[1])
		if err == nil {
			t.Errorf("At(%v, %v) = %+v, want an error", c[0], c[1], got)
		}
	}
}

func TestEveryFigureSaysWhereItComesFrom(t *testing.T) {
	seen := map[string]bool{}
	for _, g := range glue.Table() {
		if seen[g.ID] || g.ID == "" || g.ID != strings.ToLower(g.ID) {
			t.Errorf("the ID %q is empty, doubled or not plain", g.ID)
		}
		seen[g.ID] = true
		for name, f := range map[string]evidence.Figure{
			"open": g.OpenMin, "closed": g.ClosedMin, "clamp": g.ClampMin, "work": g.WorkMin, "cure": g.CureMin,
			"min": g.MinC, "max": g.MaxC, "one face": g.SpreadGM2, "both faces": g.BothGM2,
		} {
			if f.Value <= 0 || f.Status == "" || f.Source == "" {
				t.Errorf("%s: %s is %+v", g.ID, name, f)
			}
		}
		if g.BothGM2.Value < g.SpreadGM2.Value || g.HighMPa.Value < g.LowMPa.Value {
			t.Errorf("%s: %v g/m² on one face, %v on both; %v to %v MPa", g.ID, g.SpreadGM2.Value, g.BothGM2.Value, g.LowMPa.Value, g.HighMPa.Value)
		}
	}
	if _, ok := glue.Find("spit"); ok {
		t.Error("an unheard-of glue was found")
	}
}

// A01 (memory) for the pressure; A10 (seen) for the gaps: 0.05-0.15, 0.23 and 0.5 mm.
func TestTableAgreesWithTheReference(t *testing.T) {
	checks := checktest.Read(t)
	p := checks.Numbers(t, "A01")
	for _, id := range []string{"pva", "pva d3", "pva d4", "urea-formaldehyde"} {
		if g := must(t, id); g.LowMPa.Value*1000 != p[0] || g.HighMPa.Value*1000 != p[1] {
			t.Errorf("%s: %v to %v MPa, want %v kPa", id, g.LowMPa.Value, g.HighMPa.Value, p)
		}
	}
	for _, c := range []struct {
		id, printed string
		gapMM       float64
	}{{"pva", "0.05-0.15 /", 0.15}, {"polyurethane", "about 0.23", 0.23}, {"epoxy", "over 0.5", 0.5}} {
		if printed := checks.Expected(t, "A10"); !strings.Contains(printed, c.printed) {
			t.Errorf("the reference no longer prints %q: %q", c.printed, printed)
		}
		if got := must(t, c.id).GapMM.Value; got != c.gapMM {
			t.Errorf("%s bridges %v mm, want %v", c.id, got, c.gapMM)
		}
	}
}

// A07: cold pressing takes 15 min to 24 h under pressure (Wood Handbook, seen). A room that is not
// warm is cold pressing, so every family stays within it at the temperature of its own times.
func TestClampTimesLieInThePublishedRange(t *testing.T) {
	checks := checktest.Read(t)
	checks.Prints(t, "A07", "15 min to 24 h")
	for _, g := range glue.Table() {
		got, err := g.At(g.AtC, unsaid)
		if err != nil || got.ClampMin < 15 || got.ClampMin > 24*60 {
			t.Errorf("%s: %v min in clamps, %v", g.ID, got.ClampMin, err)
		}
	}
}

func TestSheetWins(t *testing.T) {
	family := must(t, "pva")
	g, err := family.WithSheet(glue.Sheet{Name: "the green bottle", AtC: 18, OpenMin: 8, ClampMin: 25, MinC: 5})
	if err != nil {
		t.Fatal(err)
	}
	got, err := g.At(18, unsaid)
	if err != nil || got.OpenMin != 8 || got.ClampMin != 25 || got.MinTempC != 5 {
		t.Errorf("at the sheet's own temperature: %+v, %v", got, err)
	}
	if g.OpenMin.Status != evidence.Stated || g.WorkMin.Status == evidence.Stated {
		t.Error("what the sheet says is stated, and what it leaves open is not")
	}
	if got.WorkMin < family.WorkMin.Value {
		t.Errorf("the sheet is silent on working, and it came down from %v to %v", family.WorkMin.Value, got.WorkMin)
	}
	if _, err := g.At(6, unsaid); err != nil {
		t.Errorf("the sheet allows 5 °C: %v", err)
	}
	if family.OwnSheet || !g.OwnSheet {
		t.Error("only the copy is by a sheet")
	}
}

func TestSheetKeepsItsOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		family := anyGlue().Draw(t, "glue")
		s := glue.Sheet{
			AtC:     rapid.Float64Range(5, 30).Draw(t, "at"),
			OpenMin: rapid.Float64Range(1, 600).Draw(t, "open"), ClampMin: rapid.Float64Range(1, 20000).Draw(t, "clamp"),
			MinC: math.NaN(),
		}
		g, err := family.WithSheet(s)
		if err != nil {
			t.Fatal(err)
		}
		got, err := g.At(s.AtC, unsaid)
		if err != nil {
			t.Fatal(err)
		}
		if got.ClampMin != s.ClampMin || got.WorkMin < got.ClampMin || got.CureMin < got.WorkMin {
			t.Fatalf("clamp %v, work %v, cure %v", got.ClampMin, got.WorkMin, got.CureMin)
		}
	})
}

func TestSheetsThatCannotBe(t *testing.T) {
	good := glue.Sheet{AtC: 20, OpenMin: 10, ClampMin: 60, MinC: 5}
	for name, spoil := range map[string]func(*glue.Sheet){
		"no open time":               func(s *glue.Sheet) { s.OpenMin = 0 },
		"no clamp time":              func(s *glue.Sheet) { s.ClampMin = 0 },
		"negative open time":         func(s *glue.Sheet) { s.OpenMin = -3 },
		"clamp time is no number":    func(s *glue.Sheet) { s.ClampMin = math.NaN() },
		"temperature is no number":   func(s *glue.Sheet) { s.AtC = math.NaN() },
		"lowest above the sheet's":   func(s *glue.Sheet) { s.MinC = 25 },
		"a year in the clamps":       func(s *glue.Sheet) { s.ClampMin = 365 * 24 * 60 },
		"negative time to working":   func(s *glue.Sheet) { s.WorkMin = -1 },
		"temperature of an oven":     func(s *glue.Sheet) { s.AtC = 180 },
		"closed time is no number":   func(s *glue.Sheet) { s.ClosedMin = math.NaN() },
		"curing time out of bounds":  func(s *glue.Sheet) { s.CureMin = 1e9 },
		"lowest beyond any workshop": func(s *glue.Sheet) { s.MinC = -90 },
	} {
		s := good
		spoil(&s)
		if g, err := must(t, "pva").WithSheet(s); err == nil {
			t.Errorf("%s: %+v, want an error", name, g.ClampMin)
		}
	}
}
