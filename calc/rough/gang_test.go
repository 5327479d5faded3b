package rough_test

import (
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/measure"
	"fettle/calc/rough"
)

func TestGang(t *testing.T) {
	for _, c := range []struct {
		name   string
		gang   rough.Gang
		blanks int
		per    int
		length measure.Length
		saving measure.Length
		short  bool
	}{
		{
			"the reference's example: 6 crosscuts of 150 and 50 for the ends, kerf 3, make 965",
			rough.Gang{Quantity: 6, Part: 150 * mm, Kerf: 3 * mm, EndAllowance: 50 * mm},
			1, 6, 965 * mm, (6*300 - 965) * mm, true,
		},
		{
			"a single short part still has to go through the planer",
			rough.Gang{Quantity: 1, Part: 80 * mm, Kerf: 3 * mm, EndAllowance: 100 * mm},
			1, 1, 300 * mm, 0, true,
		},
		{
			"long parts: one end allowance a blank instead of one a part, less the kerfs",
			rough.Gang{Quantity: 6, Part: 830 * mm, Kerf: 3 * mm, EndAllowance: 100 * mm},
			3, 2, 1763 * mm, 3 * (100 - 3) * mm, false,
		},
		{
			"the blanks are as even as can be: 7 parts, 6 of which fit, make 4 and 3",
			rough.Gang{Quantity: 7, Part: 350 * mm, Kerf: 3 * mm, EndAllowance: 100 * mm},
			2, 4, 1509 * mm, (7*450 - 1509 - 1156) * mm, false,
		},
		{
			"a part longer than the longest blank gets one to itself",
			rough.Gang{Quantity: 2, Part: 2600 * mm, Kerf: 3 * mm, EndAllowance: 100 * mm},
			2, 1, 2700 * mm, 0, false,
		},
		{
			"the end allowance counts towards the longest blank: 2 × 1170 + 3 + 100 is above 2400",
			rough.Gang{Quantity: 2, Part: 1170 * mm, Kerf: 3 * mm, EndAllowance: 100 * mm},
			2, 1, 1270 * mm, 0, false,
		},
		{
			"without an end allowance ganging costs the kerfs",
			rough.Gang{Quantity: 2, Part: 500 * mm, Kerf: 3 * mm},
			1, 2, 1003 * mm, -3 * mm, false,
		},
	} {
		got, err := c.gang.Plan()
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if got.Blanks != c.blanks || got.PerBlank != c.per || got.Each[0].Length != c.length || got.Saving != c.saving || got.Short != c.short {
			t.Errorf("%s: %+v", c.name, got)
		}
	}
}

func TestGangKeepsItsLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g := rough.Gang{
			Quantity:     rapid.IntRange(1, 200).Draw(t, "quantity"),
			Part:         measure.Length(rapid.Int64Range(int64(10*mm), int64(3*measure.Metre)).Draw(t, "part")),
			Kerf:         measure.Length(rapid.Int64Range(0, int64(6*mm)).Draw(t, "kerf")),
			EndAllowance: measure.Length(rapid.Int64Range(0, int64(200*mm)).Draw(t, "ends")),
		}
		got, err := g.Plan()
		if err != nil {
			t.Fatal(err)
		}
		limits := rough.DefaultLimits()
		blanks, parts := 0, 0
		var total measure.Length
		for _, b := range got.Each {
			blanks, parts, total = blanks+b.Count, parts+b.Count*b.Parts, total+measure.Length(b.Count)*b.Length
			if b.Length < limits.MachineMinimum {
				t.Fatalf("a blank of %v is too short for the machines", b.Length)
			}
			if b.Length > limits.LongestBlank && b.Parts > 1 {
				t.Fatalf("a blank of %v holds %d parts", b.Length, b.Parts)
			}
			if need := measure.Length(b.Parts)*g.Part + measure.Length(b.Parts-1)*g.Kerf + g.EndAllowance; b.Length < need {
				t.Fatalf("a blank of %v is shorter than the %v that it has to give", b.Length, need)
			}
			if b.Parts < got.PerBlank-1 {
				t.Fatalf("%d parts in one blank and %d in another", got.PerBlank, b.Parts)
			}
		}
		if parts != g.Quantity || blanks != got.Blanks || total != got.Total || got.Saving != got.Singly-got.Total {
			t.Fatalf("%+v does not add up to %+v", got, g)
		}
	})
}

func TestGangRefusesWhatCannotBe(t *testing.T) {
	for _, g := range []rough.Gang{
		{}, {Quantity: 0, Part: 100 * mm}, {Quantity: 3}, {Quantity: 3, Part: -mm}, {Quantity: 3, Part: mm, Kerf: -1},
		{Quantity: 3, Part: mm, EndAllowance: -1}, {Quantity: 3, Part: mm, Limits: rough.Limits{LongestBlank: -1}},
	} {
		if got, err := g.Plan(); err == nil {
			t.Errorf("%+v gives %+v, want an error", g, got)
		}
	}
}
