package commands_test

import "testing"

// Pilots are those of the reference by gauge (No. 8: 2.5 in hardwood, 1.9 in softwood; No. 10: 2.9
// and 2.3), gauges those of ASME B18.6.1. Lengths and counterbores are common practice.
func TestScrew(t *testing.T) {
	petraSays(t, one(
		exchange{say: "pilot hole for a no 8 screw in oak", topic: "screw", given: map[string]any{"gauge": 8, "screw_mm": 4.1656},
			values: map[string]float64{"pilot_mm": 2.5, "clearance_mm": 4.17}, holds: []string{"Pilot 2.5 mm, clearance 4.5 mm", "Stainless", "last turns by hand"}},
		exchange{say: "number ten screws into pine, what drill", topic: "screw", given: map[string]any{"gauge": 10}, values: map[string]float64{"pilot_mm": 2.252}},
		exchange{say: "pilot for 4 mm screws in sapele through 18 into 30", topic: "screw", given: map[string]any{"gauge": 8, "thickness_mm": 18, "into_mm": 30},
			values: map[string]float64{"pilot_mm": 2.4, "length_mm": 45}, holds: []string{"dense"}},
		exchange{say: "no 8 screw, larch board 20 thick into a 40 joist - what drills", topic: "screw",
			given: map[string]any{"gauge": 8, "species": "larch", "thickness_mm": 20, "into_mm": 40}, values: map[string]float64{"pilot_mm": 1.94}},
		exchange{say: "4.5 screw through 22 sapele into 35, bunged over. sizes?", topic: "screw",
			values: map[string]float64{"counterbore_mm": 10, "counterbore_depth_mm": 8, "plug_mm": 10, "length_mm": 45}, holds: []string{"grain lined up"}},
		exchange{say: "got 30 screws 4 x 50 here. oak slat 20 onto 36 oak, pilot?", topic: "screw",
			given: map[string]any{"quantity": 30, "screw_mm": 4, "screw_length_mm": 50, "thickness_mm": 20, "into_mm": 36}, values: map[string]float64{"in_base_mm": 30}},
		exchange{say: "can I use 4x70 screws through 22 into 45?", topic: "screw", values: map[string]float64{"length_mm": 60}, holds: []string{"Too long"}},
		exchange{say: "8 x 2 inch brass screws, 3/4 oak onto 1 1/2 oak, what pilot", topic: "screw",
			given: map[string]any{"gauge": 8, "screw_length_mm": 50.8, "thickness_mm": 19.05, "into_mm": 38.1}, holds: []string{"Pilot 3/32 in"}},
		exchange{say: "5/4 stock onto 8/4 oak with no 10 screws, what length", topic: "screw", given: map[string]any{"thickness_mm": 31.75, "into_mm": 50.8}},
		exchange{say: "what screw length for 22 slats on 45 battens, gauge 8", topic: "screw", given: map[string]any{"thickness_mm": 22, "into_mm": 45}, values: map[string]float64{"length_mm": 60}},
		exchange{say: "pilot for no 8, slats 45 x 20 onto rails 70 x 36", topic: "screw", given: map[string]any{"thickness_mm": 20, "into_mm": 36}},
		exchange{say: "1/4 in coach screw in oak, pilot and clearance pls", topic: "screw", given: map[string]any{"screw_mm": 6.35}, values: map[string]float64{"pilot_mm": 4.7625}, holds: []string{"3/16 in"}},
		exchange{say: "will a 5 mm screw split ash 20 from the end", topic: "screw", given: map[string]any{"end_mm": 20},
			values: map[string]float64{"end_distance_mm": 50, "edge_distance_mm": 20}, holds: []string{"At least 50 mm from an end", "apt to split"}},
		exchange{say: "pilot for a 3.5 screw into mdf", topic: "screw", values: map[string]float64{"pilot_mm": 2.1}, holds: []string{"MDF"}},
		exchange{say: "pilot for a 4 mm screw", topic: "screw", values: map[string]float64{"pilot_mm": 2.4}, holds: []string{"Timber not said", "softwood the pilot is 2 mm"}},
		exchange{say: "oak rail 20 onto a larch post 60, 5 mm screws, pilot", topic: "screw",
			given: map[string]any{"species": "larch", "held_species": "oak", "into_mm": 60}, values: map[string]float64{"pilot_mm": 5 * 2.0 / 3 * 0.7}},
		exchange{say: "what size pilot do i drill?", topic: "screw", asks: true},
		exchange{say: "pilot for less than 4 mm x 50 screws", topic: "screw", asks: true},
		exchange{say: "pilot for less than 4 screws", topic: "screw", asks: true},
		exchange{say: "pilot for a 50 mm screw", topic: "screw", asks: true, given: map[string]any{"screw_length_mm": 50}},
		exchange{say: "pilot for a 45 cm screw in oak", topic: "screw", asks: true},
		exchange{say: "5 mm screws through 20 into 30 with 8 mm plugs, pilot?", topic: "screw", asks: true, holds: []string{"does not cover"}},
		exchange{say: "pilot for a 4 mm screw through 20 into 2", topic: "screw", asks: true},
	)...)
	petraSays(t, []exchange{
		{say: "what size pilot do i drill?", topic: "screw", asks: true},
		{say: "no 8", values: map[string]float64{"pilot_mm": 2.5}},
		{say: "and in pine?", values: map[string]float64{"pilot_mm": 1.94}},
		{say: "and for a no 10?", given: map[string]any{"gauge": 10, "screw_mm": 4.826}, values: map[string]float64{"pilot_mm": 2.252}},
		{say: "and 5 mm?", given: map[string]any{"gauge": 10, "screw_mm": 5}, values: map[string]float64{"pilot_mm": 2.333}},
		{say: "why", holds: []string{"2/3", "70 % of it", "Wood Handbook"}},
		{say: "and through 22 into 45", topic: "screw", values: map[string]float64{"length_mm": 60}},
		{say: "and if it's plugged", holds: []string{"counterbore 10 mm"}},
		{say: "same in inches", holds: []string{" in,"}},
	})
}
