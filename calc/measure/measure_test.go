package measure_test

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/measure"
)

// TestDefinitions holds the units to their definitions: the international yard and pound of
// 1959 (25.4 mm, 0.45359237 kg), the US gallon of 231 cubic inches, the imperial gallon of
// 4.54609 l (a pint is an eighth), the board foot of 144 cubic inches, the Fahrenheit scale
// by its fixed points.
func TestDefinitions(t *testing.T) {
	for _, c := range []struct {
		value, unit, base string
	}{
		{"1", "in", "127/5"}, {"1", "ft", "1524/5"}, {"1", "yd", "4572/5"}, {"1", "mile", "1609344"}, {"1000", "thou", "127/5"},
		{"1", "lb", "45359237/100000000"}, {"16", "oz", "45359237/100000000"}, {"1", "stone", "635029318/100000000"},
		{"1", "gal", "473176473/125000000"}, {"8", "pt", "454609/100000"},
		{"1", "bf", "147483576/62500000"}, {"1", "ft3", "1769802912/62500000"}, {"1", "m3", "1000"},
		{"1", "ft2", "145161/1562500"}, {"32", "f", "0"}, {"212", "f", "100"}, {"-40", "f", "-40"},
		{"1", "h", "60"}, {"1", "week", "10080"},
	} {
		u, ok := measure.UnitNamed(c.unit)
		if !ok {
			t.Errorf("no unit %q", c.unit)
			continue
		}
		v, _ := new(big.Rat).SetString(c.value)
		want, _ := new(big.Rat).SetString(c.base)
		if got := u.Base(v); got.Cmp(want) != 0 {
			t.Errorf("%s %s = %v, want %v", c.value, c.unit, got, want)
		}
	}
}

// TestUnitNames reads units as people write them.
func TestUnitNames(t *testing.T) {
	for name, want := range map[string]string{
		"mm": "mm", "Millimetres": "mm", "mil": "mm", "cms": "cm", "Inches": "in", `"`: "in", "'": "ft", "feet": "ft", "sq ft": "ft2",
		"square  metres": "m2", "Degrees C": "c", "° F": "f", "per cent": "pct", "hrs": "h", "board feet": "bf", "degrees celsius": "c",
	} {
		if u, ok := measure.UnitNamed(name); !ok || u.Symbol != want {
			t.Errorf("UnitNamed(%q) = %v, %v, want %s", name, u, ok, want)
		}
	}
	for _, name := range []string{"", "furlong", "x", "mmm", "2", "s s"} {
		if u, ok := measure.UnitNamed(name); ok {
			t.Errorf("UnitNamed(%q) = %s, want none", name, u.Symbol)
		}
	}
}

// TestEveryNameIsOneUnit holds that no name stands for two units.
func TestEveryNameIsOneUnit(t *testing.T) {
	for _, u := range measure.Units() {
		for _, n := range u.Names {
			if got, ok := measure.UnitNamed(n); !ok || got.Symbol != u.Symbol {
				t.Errorf("%q of %s is read as %v", n, u.Symbol, got)
			}
		}
	}
}

func TestPrinting(t *testing.T) {
	in := measure.Inch
	for _, c := range []struct {
		got, want string
	}{
		{measure.Metric.Text(65*measure.Millimetre, measure.Nearest), "65 mm"},
		{measure.Metric.Text(12*measure.Millimetre+249*measure.Micrometre, measure.Nearest), "12 mm"},
		{measure.Metric.Text(12*measure.Millimetre+1, measure.Up), "12.5 mm"},
		{measure.Metric.Text(12*measure.Millimetre+499*measure.Micrometre, measure.Down), "12 mm"},
		{measure.Imperial.Text(2*in+in*9/16, measure.Nearest), "2 9/16 in"},
		{measure.Imperial.Text(in/32, measure.Nearest), "1/32 in"},
		{measure.Imperial.Text(-in/2, measure.Nearest), "-1/2 in"},
		{measure.Imperial.Text(in+1, measure.Up), "1 1/32 in"},
		{measure.Metric.Sizes(measure.Up, 700*measure.Millimetre, 65*measure.Millimetre), "700 × 65 mm"},
		{measure.Metric.Exact(2800 * measure.Micrometre), "2.8 mm"},
		{measure.Imperial.Exact(in / 8), "1/8 in"},
		{measure.Imperial.Exact(2800 * measure.Micrometre), "2.8 mm"},
		{measure.Imperial.Shown(2800 * measure.Micrometre), "0.11 in"}, // 2.8 / 25.4 = 0.1102
		{measure.Imperial.Shown(in / 8), "1/8 in"},
		{measure.Metric.Shown(2800 * measure.Micrometre), "2.8 mm"},
		{measure.Decimal(-0.001, 2), "0"},
		{measure.Decimal(1200, 2), "1200"},
	} {
		if c.got != c.want {
			t.Errorf("printed %q, want %q", c.got, c.want)
		}
	}
}

// TestInchFractionsComeBack holds that every sixty-fourth of an inch goes to millimetres and
// back unchanged, and that every unit undoes itself.
func TestInchFractionsComeBack(t *testing.T) {
	inch, _ := measure.UnitNamed("in")
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(-64*1000, 64*1000).Draw(t, "sixty-fourths")
		said := big.NewRat(n, 64)
		l, err := measure.Times(inch.Base(said), measure.Millimetre)
		if err != nil {
			t.Fatal(err)
		}
		if l != measure.Length(n)*measure.Inch/64 {
			t.Fatalf("%v in is %d nm", said, l)
		}
		if back := inch.FromBase(inch.Base(said)); back.Cmp(said) != 0 {
			t.Fatalf("%v in comes back as %v", said, back)
		}
		if _, exact := measure.NearestSixtyFourth(l); !exact {
			t.Fatalf("%v in is not printed exactly", said)
		}
	})
}

// TestRoundingKeepsItsSide holds that what is rounded up is never below what went in, and
// nothing moves by a whole step.
func TestRoundingKeepsItsSide(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := measure.Length(rapid.Int64Range(-1e13, 1e13).Draw(t, "nanometres"))
		s := rapid.SampledFrom([]measure.System{measure.Metric, measure.Imperial}).Draw(t, "system")
		up, down, near := s.Round(l, measure.Up), s.Round(l, measure.Down), s.Round(l, measure.Nearest)
		if up < l || down > l || up-down > s.Step() || near != up && near != down {
			t.Fatalf("%d nm rounds to %d, %d and %d", l, down, near, up)
		}
	})
}

func TestTimesRefuses(t *testing.T) {
	far, _ := new(big.Rat).SetString("1000000001")
	if _, err := measure.Times(far, measure.Millimetre); err == nil {
		t.Error("a length beyond a thousand kilometres is taken")
	}
	for _, mm := range []float64{math.NaN(), math.Inf(1), -1e10} {
		if _, err := measure.FromMM(mm); err == nil {
			t.Errorf("FromMM(%v) is taken", mm)
		}
	}
	for n, want := range map[string]measure.Length{"1/3": 333333, "-1/3": -333333, "2/3": 666667, "-2/3": -666667, "1/2000000": 1} {
		r, _ := new(big.Rat).SetString(n)
		if got, err := measure.Times(r, measure.Millimetre); err != nil || got != want {
			t.Errorf("Times(%s mm) = %d, %v, want %d", n, got, err, want)
		}
	}
}
