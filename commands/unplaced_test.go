package commands_test

import (
	"strings"
	"testing"
)

// A number that counts and has no place is asked about, with the places that are open.
func TestUnplacedNumberIsAskedAbout(t *testing.T) {
	for text, number := range map[string]string{
		"sag of a larch shelf spanning 800, 20 thick, 200 deep with 15 kg and then 260":    "260",
		"radius of an arc 1200 across, rise 150, and 77":                                   "77",
		"9 slats 60 wide over 1200 clear with gaps the same at the ends, and 34: the gap?": "34",
	} {
		got := petra(t, text)[0]
		if got.Question == "" || len(got.Values) > 0 || !strings.Contains(got.Question, number) || !strings.Contains(got.Question, "leave it out") {
			t.Errorf("%q: question %q, values %v; want a question about %s", text, got.Question, got.Values, number)
		}
	}
}

// The question is answered by the number of a choice, by its word, or by leaving the number out.
func TestUnplacedNumberGetsItsPlace(t *testing.T) {
	const text = "ten gauge screw in oak, 32 thick on top, and 45, pilot?"
	for reply, into := range map[string]any{"2": 45, "into": 45, "4": nil, "leave it out": nil, "nothing": nil} {
		got := petra(t, text, reply)[1]
		if got.Topic != "screw" || got.Question != "" || len(got.Values) == 0 {
			t.Errorf("%q, %q: topic %s, question %q", text, reply, got.Topic, got.Question)
		}
		meets(t, reply, request{given: map[string]any{"thickness_mm": 32, "into_mm": into}}, got)
	}
}

// Numbers that the message itself tells to be about something else are no cause for a question.
func TestExplainedNumbersAreNotAskedAbout(t *testing.T) {
	for topic, requests := range map[string][]request{
		"clamps": {
			{text: "got 4 sash clamps on loan till the 21st, oak board joint 1240 long, 130 wide, 27 thick, are 4 enough", given: map[string]any{"length_mm": 1240}},
			{text: "Gil lent three clamps out; would five be enough for a larch edge joint 980 long, boards 140 wide and 28 thick?", given: map[string]any{"length_mm": 980}},
		},
		"finished-size": {
			{text: "picked up rough ash boards for 74 the lot, 1980 x 205 x 53, what do they finish at?", given: map[string]any{"length_mm": 1980, "width_mm": 205, "thickness_mm": 53}},
			{text: "one board is 2100 by 160 by 27 and done. The rough one is 1830 by 205 by 41, what does it finish at?", given: map[string]any{"length_mm": 1830}},
		},
		"amount": {
			{text: "cost of 7 larch boards, 3600 x 145 x 22, at 620 a cube now (580 last year)", given: map[string]any{"price": 620}},
		},
		"screw": {
			{text: "gauge 10 screws, box of 200 for 14.50, through 25 of sapele into 38. What pilot?", given: map[string]any{"thickness_mm": 25, "into_mm": 38}},
		},
	} {
		answered(t, topic, requests)
	}
}
