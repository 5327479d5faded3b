package speech_test

import (
	"encoding/csv"
	"math"
	"math/big"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

// TestPublishedQuantities reads the cases that two public collections of test sentences give
// (Recognizers-Text and duckling, named row by row), with the values worked out there.
func TestPublishedQuantities(t *testing.T) {
	f, err := os.Open("../../testdata/quantities.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		text, value, unit, kind, base := row[0], row[1], row[2], row[4], row[5]
		t.Run(text, func(t *testing.T) {
			qs := measured(speech.Quantities(text))
			if kind == "none" {
				if len(qs) != 0 {
					t.Errorf("Quantities(%q) = %v, want none", text, qs)
				}
				return
			}
			if len(qs) != 1 {
				t.Fatalf("Quantities(%q) found %d, want one", text, len(qs))
			}
			if got := string(qs[0].Kind); got != kind && !(kind == "number" && got == "count") && !(unit == "deg" && got == "number") {
				t.Errorf("Quantities(%q) is a %s, want %s", text, got, kind)
			}
			if base == "" {
				base = value
			}
			compare(t, text, qs[0], base)
		})
	}
}

// measured leaves out what is no amount: times of day, dates, ordinals.
func measured(qs []speech.Quantity) []speech.Quantity {
	var out []speech.Quantity
	for _, q := range qs {
		switch q.Kind {
		case speech.KindClock, speech.KindDate, speech.KindOrdinal:
		default:
			out = append(out, q)
		}
	}
	return out
}

func compare(t *testing.T, text string, q speech.Quantity, want string) {
	t.Helper()
	low, high, isRange := strings.Cut(want, "..")
	check := func(got *big.Rat, want string) {
		t.Helper()
		if want == "" {
			if got != nil {
				t.Errorf("Quantities(%q) has an end %v, want an open one", text, got)
			}
			return
		}
		w, err := strconv.ParseFloat(want, 64)
		if err != nil {
			t.Fatal(err)
		}
		if got == nil {
			t.Errorf("Quantities(%q) has an open end, want %v", text, w)
			return
		}
		if g, _ := inBase(q, got).Float64(); math.Abs(g-w) > 1e-9*math.Max(1, math.Abs(w)) {
			t.Errorf("Quantities(%q) = %v, want %v", text, g, w)
		}
	}
	check(q.Value, low)
	if isRange {
		check(q.High, high)
		if high == "" && !q.Open {
			t.Errorf("Quantities(%q) is not open upwards", text)
		}
	}
}

func inBase(q speech.Quantity, v *big.Rat) *big.Rat {
	if q.Unit == nil {
		return v
	}
	return q.Unit.Base(v)
}

// TestTradeQuantities holds what workshop people write and other collections read otherwise.
func TestTradeQuantities(t *testing.T) {
	for _, c := range []struct {
		text string
		kind measure.Kind
		base float64
	}{
		{`9/16"`, measure.KindLength, 14.2875},
		{`1 3/8"`, measure.KindLength, 34.925},
		{`2' 7 1/2"`, measure.KindLength, 800.1},
		{"2-1/4 in", measure.KindLength, 57.15},
		{"29½”", measure.KindLength, 749.3},
		{"six foot two", measure.KindLength, 1879.6},
		{"an inch and a quarter", measure.KindLength, 31.75},
		{"2 and a half metres", measure.KindLength, 2500},
		{"twelve hundred", measure.KindNumber, 1200},
		{"seven forty two", measure.KindNumber, 742},
		{"one twenty five", measure.KindNumber, 125},
		{"nineteen hundred and forty", measure.KindNumber, 1940},
		{"two and a quarter", measure.KindNumber, 2.25},
		{"two an' a half", measure.KindNumber, 2.5},
		{"eleven oh five", measure.KindNumber, 1105},
		{"fourteen oh two", measure.KindNumber, 1402},
		{"the second one 65", measure.KindNumber, 65},
		{"91,5 cm", measure.KindLength, 915},
		{"1,8 m", measure.KindLength, 1800},
		{"3no", speech.KindCount, 3},
		{"4 off", speech.KindCount, 4},
		{"x6", speech.KindCount, 6},
		{"half a dozen", speech.KindCount, 6},
		{"two pairs of", speech.KindCount, 4},
		{"no 8 screw", speech.KindGauge, 8},
		{"8g screws", speech.KindGauge, 8},
		{"quarter past 4", speech.KindClock, 255},
		{"18:30", speech.KindClock, 1110},
		{"at 10.45", speech.KindClock, 645},
		{"2:00 pm", speech.KindClock, 840},
		{"41 quid", speech.KindPrice, 41},
		{"1150 a cube", speech.KindPrice, 1150},
		{"64F", measure.KindTemperature, 17.77777777777778},
		{"minus ten °C", measure.KindTemperature, -10},
		{"5/4", measure.KindNumber, 1.25},
		{"twenty mil", measure.KindLength, 20},
		{"12 thou", measure.KindLength, 0.3048},
		{"0.85 square metres", measure.KindArea, 0.85},
		{"1e400", speech.KindUnread, 0},
	} {
		qs := speech.Quantities(c.text)
		if len(qs) != 1 {
			t.Errorf("Quantities(%q) found %d, want one", c.text, len(qs))
			continue
		}
		if qs[0].Kind != c.kind {
			t.Errorf("Quantities(%q) is a %s, want %s", c.text, qs[0].Kind, c.kind)
		}
		if c.kind == speech.KindUnread {
			continue
		}
		if got, _ := qs[0].Base().Float64(); math.Abs(got-c.base) > 1e-9 {
			t.Errorf("Quantities(%q) = %v, want %v", c.text, got, c.base)
		}
	}
}

func TestSizesWithSlashes(t *testing.T) {
	for text, want := range map[string][]string{
		"2700/145/30": {"2700", "145", "30"},
		"830/70/22":   {"830", "70", "22"},
		"600/45":      {"600", "45"},
		"7/8":         {"7/8"},
		"5/4":         {"5/4"},
		"1 1/2":       {"3/2"},
	} {
		var got []string
		for _, q := range speech.Quantities(text) {
			got = append(got, q.Value.RatString())
		}
		if !slices.Equal(got, want) {
			t.Errorf("%q reads %v, want %v", text, got, want)
		}
	}
}

// A comma before three figures is one of thousands, but in metres.
func TestDecimalCommaInMetres(t *testing.T) {
	for text, mm := range map[string]float64{"1,755 m": 1755, "1,200 mm": 1200, "0,052 m": 52, "2,4 m": 2400} {
		got, _ := speech.Quantities(text)[0].Base().Float64()
		if got != mm {
			t.Errorf("%q is %v mm, want %v", text, got, mm)
		}
	}
}

func TestHabitsOfWritingNumbers(t *testing.T) {
	for text, want := range map[string][]float64{
		"2m40 long":                        {2400},
		"5ft4":                             {1625.6},
		"a stile of 1.680 mm × 92 mm":      {1680, 92},
		"1.765 × 812 mm, 1.945 and 1.941":  {1765, 812, 1945, 1941},
		"span 1 050 mm":                    {1050},
		"2 600 mm boards":                  {2, 600},
		"1.125 in":                         {28.575},
		"2.400 m":                          {2400},
		"1'040 mm":                         {1040},
		`1'-6 1/2"`:                        {469.9},
		"3m60/20cm/38mm":                   {3600, 200, 38},
		"a radius of one metre eighty, 36": {1800, 36},
	} {
		var got []float64
		for _, q := range speech.Quantities(text) {
			v, _ := q.Base().Float64()
			got = append(got, v)
		}
		if len(got) != len(want) {
			t.Errorf("%q reads %v, want %v", text, got, want)
			continue
		}
		for i := range want {
			if math.Abs(got[i]-want[i]) > 1e-9 {
				t.Errorf("%q reads %v, want %v", text, got, want)
			}
		}
	}
}
