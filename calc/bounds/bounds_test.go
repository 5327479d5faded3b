package bounds_test

import (
	"math"
	"strings"
	"testing"

	"fettle/calc/bounds"
	"fettle/calc/measure"
)

const mm = measure.Millimetre

func TestWhatIsRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	for _, c := range []struct {
		name string
		err  error
		says string // empty: it passes
	}{
		{"a length", bounds.Length("the span", 900*mm), ""},
		{"no length", bounds.Length("the span", 0), "the span is 0 mm"},
		{"a length below nothing", bounds.Length("the span", -3*mm/2), "-1.5 mm"},
		{"a length out of this world", bounds.Length("the span", bounds.MaxLength+1), "check the unit"},
		{"no allowance", bounds.Allowance("the kerf", 0), ""},
		{"an allowance below nothing", bounds.Allowance("the kerf", -1), "not less"},
		{"a count", bounds.Count("the quantity", 1, 1), ""},
		{"too small a count", bounds.Count("the quantity", 0, 1), "1 or more"},
		{"too big a count", bounds.Count("the quantity", bounds.MaxCount+1, 1), "in one go"},
		{"a positive value", bounds.Positive("the load", 0.1, "kg"), ""},
		{"zero", bounds.Positive("the load", 0, "kg"), "the load is 0 kg"},
		{"no number", bounds.Positive("the load", nan, "kg"), "not a number"},
		{"no end", bounds.Positive("the load", inf, "kg"), "not a number"},
		{"at the lower edge", bounds.Between("the angle", 1, 1, 179, "°"), ""},
		{"at the upper edge", bounds.Between("the angle", 179, 1, 179, "°"), ""},
		{"below", bounds.Between("the angle", 0.5, 1, 179, "°"), "between 1 and 179 °"},
		{"above", bounds.Between("the angle", 400, 1, 179, "°"), "400 °"},
		{"without a unit", bounds.Between("the ratio", 7, 0, 2, ""), "the ratio is 7; it has to be between 0 and 2"},
		{"between, no number", bounds.Between("the angle", nan, 1, 179, "°"), "not a number"},
	} {
		switch {
		case c.says == "" && c.err != nil:
			t.Errorf("%s: %v", c.name, c.err)
		case c.says != "" && (c.err == nil || !strings.Contains(c.err.Error(), c.says)):
			t.Errorf("%s: %v, want a sentence with %q", c.name, c.err, c.says)
		}
	}
}

func TestMM(t *testing.T) {
	for l, want := range map[measure.Length]string{600 * mm: "600 mm", mm / 2: "0.5 mm", measure.Inch / 64: "0.397 mm", 0: "0 mm"} {
		if got := bounds.MM(l); got != want {
			t.Errorf("MM(%d) = %q, want %q", l, got, want)
		}
	}
}
