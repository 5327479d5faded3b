package commands_test

import "testing"

// What stood once and was replaced in the same message counts no more.
func TestSuperseded(t *testing.T) {
	for topic, requests := range map[string][]request{
		"sag": {
			{text: "will it sag? ash shelf 760 span, 240 deep. was going to be 18 thick, now 22. twelve kilos spread along it", given: map[string]any{"thickness_mm": 22, "span_mm": 760}},
		},
		"arc": {
			{text: "The arch over the door is 740 wide; first we said 90 for the rise but now it is 110. Radius?", given: map[string]any{"rise_mm": 110, "chord_mm": 740}},
		},
		"screw": {
			{text: "had 4 mm screws, too thin, so 5 mm instead. Larch, through 28 into a 60 post. pilot hole pls", given: map[string]any{"screw_mm": 5}},
		},
		"rough-size": {
			{text: "the old sill was 902 x 110 x 28. the new one finishes 915 by 124 by 32 - rough size?", given: map[string]any{"length_mm": 915, "width_mm": 124, "thickness_mm": 32}},
			{text: "marked 640 long on the drawing but it's really 655. 80 wide, 22 thick, rough size?", given: map[string]any{"length_mm": 655, "width_mm": 80, "thickness_mm": 22}},
		},
		"movement": { // two contents of moisture are the way from one to the other, unless a third goes on
			{text: "white oak 280 wide, quartersawn, was 17 %, now 14 %. movement?", given: map[string]any{"mc_from_pct": 17, "mc_to_pct": 14}},
			{text: "white oak, quartersawn, 280 wide. was 17 % when we bought it, it's at 14 now. how much will it shrink from 14 to 9?", given: map[string]any{"mc_from_pct": 14, "mc_to_pct": 9}},
		},
		"clamps": {
			{text: "the panel was to be 800 long now it's 860, 3 ash boards each 95 wide and 20 thick, how many clamps for the edge joints", given: map[string]any{"length_mm": 860}},
			{text: "1450 ± 2 long edge joint in sapele, boards 85 wide, 30 thick: number of clamps?", given: map[string]any{"length_mm": 1450, "width_mm": 85}},
		},
	} {
		answered(t, topic, requests)
	}
}

// What stands in brackets is heard after the rest.
func TestBracketsComeLast(t *testing.T) {
	answered(t, "sag", []request{
		{text: "ash shelf (the one below is 900 span, 30 thick), span 760, 22 thick, 240 deep, 12 kg spread. sag?", given: map[string]any{"span_mm": 760, "thickness_mm": 22}},
		{text: "sag of an ash shelf, span 760, 240 deep, 12 kg spread over it (planed to 22 thick)", given: map[string]any{"thickness_mm": 22}},
	})
}
