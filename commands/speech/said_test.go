package speech_test

import (
	"strconv"
	"strings"
	"testing"

	"fettle/commands/speech"
)

// told shows the quantities of a text in a line: kind, value, unit.
func told(text string) string {
	var out []string
	for _, q := range speech.Quantities(text) {
		s := string(q.Kind)
		if q.Value != nil {
			f, _ := q.Value.Float64()
			s += " " + strconv.FormatFloat(f, 'f', -1, 64)
		}
		if q.Unit != nil {
			s += " " + q.Unit.Symbol
		}
		out = append(out, s)
	}
	return strings.Join(out, ", ")
}

// Numbers as people say them in one breath: taken back, listed with one unit, an inch that nobody
// counts, an hour, a year, a count in brackets.
func TestNumbersInABreath(t *testing.T) {
	for text, want := range map[string]string{
		"five, no, six hooks":                    "number 6",
		"three no four sapele boards":            "number 4",
		"240 long, naw, 260 long":                "number 260",
		"12 mm, sorry, 14 mm":                    "length 14 mm",
		"make it 600, I mean 610":                "number 610",
		"not 600 but 610":                        "number 610",
		"604, not 640":                           "number 604",
		"3no 45 wide":                            "count 3, number 45",
		"12, 18 and 35 mm":                       "length 12 mm, length 18 mm, length 35 mm",
		"6 slats, 45 mm wide":                    "number 6, length 45 mm",
		"inch and a quarter oak":                 "length 1.25 in",
		"inch thick, eight inch deep":            "length 1 in, length 8 in",
		"Gil's back at 4 with 6 clamps":          "clock 240, number 6",
		"holes at 4 and 5":                       "number 4, number 5",
		"it was built in 1998 and is 4 m long":   "date 1998, length 4 m",
		"58 wide in 1960":                        "number 58, number 1960",
		"(4) drawer fronts 400 x 120":            "count 4, number 400, number 120",
		"22 thk, 68 w, 1430 l":                   "number 22, number 68, number 1430",
		"2 l of oil":                             "volume 2 l",
		"2700 x 128 x 25 in saplee":              "number 2700, number 128, number 25",
		"six foot an' three quarters of an inch": "length 6.0625 ft",
		"t'board's 900 wide an' 20 thick":        "number 900, number 20",
		"one metre and ten centimetres long":     "length 1.1 m",
		"L = 1.45 m, W = 900":                    "length 1.45 m, number 900",
	} {
		if got := told(text); got != want {
			t.Errorf("%q: %s, want %s", text, got, want)
		}
	}
}

// Roles of one letter are words like any other.
func TestRolesOfOneLetter(t *testing.T) {
	for text, pattern := range map[string]string{
		"22 thk, 68 w, 1430 l":        "# thick , # wide , # long",
		"610 w x 1420 h":              "# wide × # high",
		"W = 900, H = 1200, D1 = 150": "width .. # , height .. # , diagonal .. #",
		"R 1850, chord 1400":          "radius #",
		"T 24, RH 60":                 "temperature # , humidity #",
		"T 34, W 70, L 1890":          "thickness # , width # , length #",
	} {
		if !speech.Read(text).Says(pattern) {
			t.Errorf("%q does not say %q", text, pattern)
		}
	}
	for text, pattern := range map[string]string{
		"a 20 w lamp":      "# wide",
		"I have 3 l here":  "# long",
		"it took 2 h":      "# high",
		"plan b, 3 boards": "width #",
	} {
		if speech.Read(text).Says(pattern) {
			t.Errorf("%q says %q", text, pattern)
		}
	}
}
