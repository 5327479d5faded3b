package commands_test

import (
	"strings"
	"testing"
	"unicode"

	"fettle/bot/accuracy/phrases"
	"fettle/commands"
)

// Whoever calculates says why on request: a formula with its numbers, and where it is from or
// that it is a rule of thumb. The headline stays.
func TestWhy(t *testing.T) {
	calculating := 0
	for _, topic := range commands.Topics() {
		for _, example := range topic.Examples {
			k := talking(t) // at a time of its own: what is over by now is worded otherwise
			got := []phrases.Answer{k.says(example), k.says("why?")}
			if len(got[0].Values) == 0 || topic.Quiet {
				continue
			}
			calculating++
			why, headline := got[1], "**"+got[0].Answer+"**"
			reasons, ok := strings.CutPrefix(why.Text, headline)
			if _, after, read := strings.Cut(reasons, "\nRead: "); read {
				_, reasons, _ = strings.Cut(after, "\n")
			}
			if why.Topic != topic.Name || !ok || strings.Contains(reasons, "⚠") {
				t.Errorf("%s, %q: %s", topic.Name, example, why.Text)
			}
			if !strings.ContainsFunc(reasons, unicode.IsDigit) || !namesASource(reasons) {
				t.Errorf("%s, %q gives no formula with numbers or no source:\n%s", topic.Name, example, reasons)
			}
			if strings.Contains(reasons, "nothing was worked out") {
				t.Errorf("%s, %q has values and no reasons", topic.Name, example)
			}
		}
	}
	if calculating < 20 {
		t.Errorf("%d examples that calculate, want more", calculating)
	}
}

func namesASource(reasons string) bool {
	for _, s := range []string{"read", "from memory", "no source", "without a source", "Geometry", "definition", "as you said", "your own"} {
		if strings.Contains(reasons, s) {
			return true
		}
	}
	return false
}

func TestWhyGoesByTheLastRequest(t *testing.T) {
	for _, c := range []struct {
		lines []string
		says  []string
	}{
		{[]string{"rough size for 600 x 45 x 22, allow 50 on the length", "why"}, []string{"600 mm + 50 mm = 650 mm long", "45 mm + 20 mm"}},
		{[]string{"6 slats 250 x 40 x 15, rough?", "where does that come from"}, []string{"kerf", "HSE"}},
		{[]string{"what will a 1200 by 150 rough board finish at", "why"}, []string{"1200 mm − 100 mm = 1100 mm long"}},
		{[]string{"can I use pva at 4 degrees", "why?"}, []string{"below the lowest", "No waiting"}},
		{[]string{"open time for polyurethane at 10 degrees", "how come"}, []string{"4 h × 2 = 8 h", "2^((20 − t)/10)"}},
		{[]string{"how much epoxy for 3 joints 900 by 45", "why"}, []string{"0.1215 m² × 300 g/m² × 1.1 = 40.1 g"}},
		{[]string{"clamps for a 1200 edge joint, 120 wide, 22 thick, oak", "why"}, []string{"1200 / (30 + 2 × (0 + 120)) mm = 4.44 → 5", "AC 43.13-1B"}},
		{[]string{"9 mugs 84 wide in 860", "why"}, []string{"(860 mm − 9 × 84 mm) / 10 = 10.4 mm", "pitch = gap + 84 mm"}},
		{[]string{"5 holes along 880, 40 in from each end", "why"}, []string{"(880 mm − 2 × 40 mm) / 4 = 200 mm"}},
		{[]string{"11/16 in mm", "why"}, []string{"1 in = 25.4 mm", "definition"}},
		{[]string{"volume of 12 of 1000 x 50 x 25 ash at 900 a cube", "why"}, []string{"12 × 1 × 0.05 × 0.025 m = 0.015 m³", "0.015 m³ at 900 = 13.50"}},
		{[]string{"varnish for 4.5 m², 3 coats, the tin says 11 square metres a litre", "why"}, []string{"4.5 m² × 3 coats / 11 m² a litre × 1.1 = 1.35 l"}},
		{[]string{"shelf 900 span 250 deep 20 thick, E 12270 MPa, 27 kg", "why"}, []string{"5/384 × 264.8 N × 900³", "= 1.229 mm", "NDS 3.5.2", "span/300"}},
	} {
		got := petra(t, c.lines...)
		last := got[len(got)-1].Text
		for _, s := range c.says {
			if !strings.Contains(last, s) {
				t.Errorf("%q: %q is not said in\n%s", c.lines, s, last)
			}
		}
	}
}
