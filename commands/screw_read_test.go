package commands_test

import "testing"

// Gauges are those of ASME B18.6.1: No. 8 is 4.17 mm.
func TestScrewsAsTheyAreCalled(t *testing.T) {
	answered(t, "screw", []request{
		{text: "screw ⌀4,5 / sapele / top 18 / bottom 40 / pilot?", given: map[string]any{"screw_mm": 4.5, "thickness_mm": 18, "into_mm": 40}},
		{text: "coach screw M8 x 100, through a 35 larch bearer into a 90 post, drill sizes?", given: map[string]any{"screw_mm": 8, "screw_length_mm": 100, "thickness_mm": 35, "into_mm": 90}},
		{text: "what pilot for no8s every 200 mm along a 1800 batten, 20 thick larch into 45 ash?", given: map[string]any{"gauge": 8, "thickness_mm": 20, "into_mm": 45, "species": "ash"}},
		{text: "pilot for 8's, oak", given: map[string]any{"gauge": 8, "thickness_mm": nil}},
		{text: "sapele 18 into larch 40 with 4x50s pilot?", given: map[string]any{"screw_mm": 4, "screw_length_mm": 50, "thickness_mm": 18, "into_mm": 40}},
		{text: "screw gauge: 8; timber: ash; top piece: 22; bottom piece: 50; pilot?", given: map[string]any{"gauge": 8, "thickness_mm": 22, "into_mm": 50}},
		{text: "8 gauge screws, oak 20 on oak 36, pilot", given: map[string]any{"gauge": 8, "thickness_mm": 20, "into_mm": 36}},
		{text: "eight gauge screw in oak. 30 on top, 42 behind. Pilot?", given: map[string]any{"gauge": 8, "thickness_mm": 30, "into_mm": 42}},
		{text: "screws of 4,5 x 60, through a 22 oak board in a 44 oak post, how big must I predrill?", given: map[string]any{"screw_mm": 4.5, "thickness_mm": 22, "into_mm": 44}},
		{text: "5 mm screw, larch plank 24 on oak frame 45, pilot", given: map[string]any{"screw_mm": 5, "thickness_mm": 24, "into_mm": 45}},
		{text: "a 6 mm screw - no wait, five - through 25 oak into 50, pilot?", given: map[string]any{"screw_mm": 5, "thickness_mm": 25, "into_mm": 50}},
		{text: "pilot hole 3 mm ok for a 5 mm screw in ash?", given: map[string]any{"screw_mm": 5, "thickness_mm": nil}},
		{text: "pilot for 3.5 screws 12 mm from the edge of 20 oak", given: map[string]any{"screw_mm": 3.5, "edge_mm": 12, "thickness_mm": 20}},
	})
	askedBack(t, "screw", "pilot for 4 or 5 mm screws in oak?")
}
