package commands_test

import (
	"context"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fettle/commands"
	"fettle/store"
)

// exchange is one message of a conversation and what its answer must hold.
type exchange struct {
	say    string
	topic  string             // "" does not matter
	values map[string]float64 // to half a per cent or a hundredth
	given  map[string]any     // numbers likewise
	asks   bool               // a question back, without values
	holds  []string           // in the text
	lacks  []string           // not in the text
}

// petraSays puts one conversation after another to the program, each on a database of its own.
func petraSays(t *testing.T, conversations ...[]exchange) {
	t.Helper()
	for _, c := range conversations {
		db, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "talk.db"), time.Now)
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range c {
			if err := db.Write(context.Background(), func(tx *store.Tx) error {
				x.check(t, say(t, tx, x.say))
				return nil
			}); err != nil {
				t.Fatal(err)
			}
		}
		if err := db.Close(); err != nil {
			t.Fatal(err)
		}
	}
}

func (x exchange) check(t *testing.T, a commands.Answer) {
	t.Helper()
	shape(t, x.say, a)
	if x.topic != "" && a.Topic != x.topic {
		t.Errorf("%q: topic %s, want %s", x.say, a.Topic, x.topic)
	}
	if x.asks != (a.Question != "") {
		t.Errorf("%q: asked %q, given %v, values %v", x.say, a.Question, a.Given, a.Values)
	}
	for name, want := range x.values {
		compare(t, x.say+" → "+name, a.Values[name], want)
	}
	for name, want := range x.given {
		compare(t, x.say+" given "+name, a.Given[name], want)
	}
	for _, s := range x.holds {
		if !strings.Contains(a.Text, s) {
			t.Errorf("%q: %q is not in %q", x.say, s, a.Text)
		}
	}
	for _, s := range x.lacks {
		if strings.Contains(a.Text, s) {
			t.Errorf("%q: %q is in %q", x.say, s, a.Text)
		}
	}
}

func compare(t *testing.T, what string, got, want any) {
	t.Helper()
	w, number := want.(float64)
	if n, isInt := want.(int); isInt {
		w, number = float64(n), true
	}
	if !number {
		if got != want {
			t.Errorf("%s = %v, want %v", what, got, want)
		}
		return
	}
	g, ok := got.(float64)
	if n, isInt := got.(int); isInt {
		g, ok = float64(n), true
	}
	if !ok || math.Abs(g-w) > max(0.005*math.Abs(w), 0.01) {
		t.Errorf("%s = %v, want %v", what, got, want)
	}
}

// one makes conversations of single messages.
func one(xs ...exchange) [][]exchange {
	out := make([][]exchange, 0, len(xs))
	for c := range slices.Chunk(xs, 1) {
		out = append(out, c)
	}
	return out
}

// The white fir is the worked example of the USDA Wood Handbook (2010) after Table 13-5; the
// other figures are its coefficients (white oak 0.00365 and 0.00180, red oak 0.00369).
func TestMovement(t *testing.T) {
	petraSays(t, one(
		exchange{say: "how much does white fir 232 wide flat sawn move from 8 to 11 %", topic: "movement", values: map[string]float64{"movement_mm": 1.7}, holds: []string{"swells"}},
		exchange{say: "white oak 240 wide quarter sawn, going from 12 % down to 7, how much narrower", topic: "movement",
			values: map[string]float64{"movement_mm": 240 * 0.0018 * 5}, given: map[string]any{"grain": "quarter", "mc_to_pct": 7}, holds: []string{"shrinks 2.5 mm"}},
		exchange{say: "swelling of 10 inch flat-sawn red oak, 6-11%", topic: "movement", values: map[string]float64{"movement_mm": 254 * 0.00369 * 5}, holds: []string{"3/16 in"}},
		exchange{say: "how much will 300 of white oak move from 8 to 14 %", topic: "movement", values: map[string]float64{"movement_mm": 300 * 0.00365 * 6},
			given: map[string]any{"width_mm": 300, "grain": "unknown"}, holds: []string{"Grain not said", "quarter-sawn 3.5 mm"}},
		exchange{say: "movement of 300 flat sawn oak 8 to 12 %", topic: "movement", values: map[string]float64{"movement_mm": 300 * 0.00369 * 4}, holds: []string{"differ", "the larger counts"}},
		exchange{say: "larch boards 2400 x 145 x 22, quarter sawn, 10 to 14 %: movement of each?", topic: "movement", given: map[string]any{"width_mm": 145, "length_mm": 2400}},
		exchange{say: "7 white ash boards 120 wide flat sawn, from 10 to 13 %, gap for swelling?", topic: "movement",
			values: map[string]float64{"movement_mm": 120 * 0.00274 * 3, "total_mm": 7 * 120 * 0.00274 * 3}},
		exchange{say: "green oak 200 wide from 60 % down to 12 %, shrinkage", topic: "movement", holds: []string{"Above 30 %"}, given: map[string]any{"mc_from_pct": 60}},
		exchange{say: "how much will 300 of white oak flat move between 40 and 65 % humidity", topic: "movement",
			given: map[string]any{"air_from_pct": 40, "air_to_pct": 65}, values: map[string]float64{"mc_to_pct": 12}},
		exchange{say: "how much will the oak top shrink from 12 to 8 %", topic: "movement", asks: true},
		exchange{say: "oak 300 wide, movement from less than 8 % to 12 %", topic: "movement", asks: true},
		exchange{say: "how much does 240 of elm move from 9 to 14 %", topic: "movement", asks: true},
		exchange{say: "how much does a 240 wide larch board move", topic: "movement", asks: true},
		exchange{say: "how much does 240 of oak move from 9 to 900 %", topic: "movement", asks: true},
		exchange{say: "how much does 240 of oak move from 9 to 9 %", topic: "movement", asks: true},
	)...)
	petraSays(t, []exchange{
		{say: "how much will flat sawn white oak move from 9 to 14 %", topic: "movement", asks: true},
		{say: "240 wide", values: map[string]float64{"movement_mm": 4.38}},
		{say: "and quarter sawn?", values: map[string]float64{"movement_mm": 2.16}},
		{say: "why", holds: []string{"240 × 0.0018 × (14 − 9)", "Wood Handbook"}},
		{say: "from 8 instead", values: map[string]float64{"movement_mm": 2.592}},
		{say: "same in inches", values: map[string]float64{"movement_mm": 2.592}, holds: []string{"1/8 in"}},
		{say: "and from 10 to 20 %", holds: []string{"from 10 to 20"}},
		{say: "why?", holds: []string{"3000/", "outside 6 to 14 %"}},
	})
}

// The values are of the USDA Wood Handbook (2010), Table 4-2: 12.0 % at 20 °C and 65 %, 9.3 %
// at 20 °C (21.1 °C prints 9.2) and 50 %.
func TestMoisture(t *testing.T) {
	petraSays(t, one(
		exchange{say: "emc at 20 degrees and 65 %", topic: "moisture", values: map[string]float64{"emc_pct": 12}},
		exchange{say: "what will oak settle at in 50 % rh and 68F", topic: "moisture", values: map[string]float64{"emc_pct": 9.27}, given: map[string]any{"temperature_c": 20}},
		exchange{say: "the meter says 14 %, the shed has 20 degrees and 50 % humidity, will it dry?", topic: "moisture",
			values: map[string]float64{"emc_pct": 9.27}, given: map[string]any{"humidity_pct": 50}, holds: []string{"will dry"}},
		exchange{say: "emc for 65 % humidity?", topic: "moisture", values: map[string]float64{"emc_pct": 12}, holds: []string{"No temperature was said"}},
		exchange{say: "which humidity keeps wood at 12 % at 20 degrees", topic: "moisture", values: map[string]float64{"humidity_pct": 65}},
		exchange{say: "which humidity keeps wood at 40 % at 20 degrees", topic: "moisture", asks: true},
		exchange{say: "emc at 20 degrees and 140 %", topic: "moisture", asks: true},
		exchange{say: "emc at 68 degrees and 50 %", topic: "moisture", asks: true, holds: []string{"°F"}},
		exchange{say: "where does larch settle", topic: "moisture", asks: true},
	)...)
	petraSays(t, []exchange{
		{say: "emc at 14 degrees and 72 %", topic: "moisture", values: map[string]float64{"emc_pct": 13.83}},
		{say: "and at 20 degrees and 65 %?", values: map[string]float64{"emc_pct": 12}},
		{say: "why", holds: []string{"Hailwood"}},
		{say: "and 50 %", values: map[string]float64{"emc_pct": 9.27}},
	})
}
