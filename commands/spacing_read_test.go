package commands_test

import "testing"

// Gaps between things of a width with gaps at both ends are (span − n × item)/(n + 1), pitches of points
// (span − 2 × end)/(n − 1): geometry.
func TestSpacingKnowsWhoseSizesAreSaid(t *testing.T) {
	answered(t, "spacing", []request{
		{text: "space 8 slats, 60 wide 20 thick, over 1020 between the rails - gap?", given: map[string]any{"quantity": 8, "item_mm": 60, "span_mm": 1020}, values: map[string]any{"gap_mm": 60}},
		{text: "8 slats of 60 x 20 over 1020, equal gaps", given: map[string]any{"item_mm": 60, "span_mm": 1020}, values: map[string]any{"gap_mm": 60}},
		{text: "11 spindles of 30 in a 1.2 m opening, 850 high, gaps all the same", given: map[string]any{"quantity": 11, "item_mm": 30, "span_mm": 1200}, values: map[string]any{"gap_mm": 72.5}},
		{text: "9 spindles, 40 dia, 900 long, over 1360", given: map[string]any{"item_mm": 40, "span_mm": 1360}, values: map[string]any{"gap_mm": 100}},
		{text: "3 shelves 20 thick and 250 deep in a 1260 high cupboard, equal gaps", given: map[string]any{"item_mm": 20, "span_mm": 1260}, values: map[string]any{"gap_mm": 300}},
		{text: "8 slats, each 60, in 1020, equal gaps", given: map[string]any{"item_mm": 60, "pitch_mm": nil}, values: map[string]any{"gap_mm": 60}},
		{text: "4 hooks on a 900 x 70 x 20 rail, 60 in from each end", given: map[string]any{"span_mm": 900, "end_mm": 60}, values: map[string]any{"pitch_mm": 260}},
		{text: "rail: 1240 long; holes: 6; margin: 70 each end", given: map[string]any{"quantity": 6, "span_mm": 1240, "end_mm": 70}, values: map[string]any{"pitch_mm": 220}},
		{text: "6 holes along 1200, 75 in, what pitch", given: map[string]any{"end_mm": 75}, values: map[string]any{"pitch_mm": 210}},
		{text: "7 pegs in a rail of 1,3 m, the first and the last at 5 cm of the ends", given: map[string]any{"quantity": 7, "span_mm": 1300, "end_mm": 50}, values: map[string]any{"pitch_mm": 200}},
		{text: "nine spindles 30 wide between two posts, clear distance 1020 (1100 over the posts), none may be over 100. What's the gap?", given: map[string]any{"quantity": 9, "item_mm": 30, "span_mm": 1020, "most_gap_mm": 100}, values: map[string]any{"gap_mm": 75}},
	})
	askedBack(t, "spacing", "spread 6 or 7 pegs along 1160, 70 in")
}
