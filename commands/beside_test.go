package commands_test

import "testing"

// TestNumbersThatSpeakOfSomethingElse puts requests with figures in them that belong to other
// things, other days and other money; the values are worked out by hand.
func TestNumbersThatSpeakOfSomethingElse(t *testing.T) {
	for topic, requests := range map[string][]request{
		"rough-size": {
			{text: "rough size for a sill, the opening is 930 wide, the sill itself finishes at 1010 long, 140 wide and 28 thick", given: map[string]any{"length_mm": 1010, "width_mm": 140, "thickness_mm": 28}},
			{text: "what rough for 480 long 55 wide and 19 thick, I need 8, please", given: map[string]any{"quantity": 8, "length_mm": 480}},
			{text: "rough size: 720 long, 48 wide, 21 thick, only 3 of them are still needed, gil said 5 at first", given: map[string]any{"quantity": 3, "length_mm": 720}},
			{text: "rough size for 61 x 4,8 x 2,1, all in cm", given: map[string]any{"length_mm": 610, "width_mm": 48, "thickness_mm": 21}},
		},
		"finished-size": {
			{text: "rough board 2300 x 180 x 38, I lose 2 mm on each of the two faces and at each end I cut 25 mm off, what does it finish at?", given: map[string]any{"length_allowance_mm": 50, "thickness_allowance_mm": 4}, values: map[string]any{"finished_length_mm": 2250, "finished_thickness_mm": 34}},
			{text: "rough 1750 x 130 x 34, each face loses 3, each edge 5, nothing off the length: finished size?", values: map[string]any{"finished_length_mm": 1750, "finished_width_mm": 120, "finished_thickness_mm": 28}},
			{text: "one board is 2100 by 160 by 27 and done. The rough one is 1830 by 205 by 41, what does it finish at?", given: map[string]any{"length_mm": 1830, "width_mm": 205, "thickness_mm": 41}},
			{text: "the rough board: 155 is the width and 33 is the thickness, what will it finish at", given: map[string]any{"width_mm": 155, "thickness_mm": 33, "length_mm": nil}},
		},
		"glue-time": {
			{text: "epoxy, it was 27 degrees last week but it's only 14 now, open time?", given: map[string]any{"temperature_c": 14}},
			{text: "the tin of pva says 8 to 35 degrees. In here it's 19. how long in the clamps?", given: map[string]any{"temperature_c": 19}},
			{text: "3 degrees outside, 17 degrees in here, how long does pva take to set in the clamps", given: map[string]any{"temperature_c": 17}},
			{text: "hide glue, T 23, RH 55, open time?", given: map[string]any{"temperature_c": 23, "humidity_pct": 55}},
		},
		"glue-amount": {
			{text: "nine joints in the bench, five are still left to glue, each 800 long and 30 wide, how much pva?", given: map[string]any{"quantity": 5}, values: map[string]any{"area_m2": 0.12}},
			{text: "two boards face to face, so it's one joint, 500 long and 80 wide, how much epoxy", given: map[string]any{"quantity": 1}, values: map[string]any{"area_m2": 0.04}},
			{text: "how much epoxy for 4 joints, 1250 by 24 each", given: map[string]any{"quantity": 4, "width_mm": 24}, values: map[string]any{"area_m2": 0.12}},
		},
		"movement": {
			{text: "quartersawn larch boards, 140 wide, seven years old, from 15 down to 10 %, how much do they shrink?", given: map[string]any{"width_mm": 140, "mc_from_pct": 15, "mc_to_pct": 10}},
		},
		"expansion": {
			{text: "aluminium strip 1.8 m long, winter -15 C to summer 45 C, how much does it grow?", given: map[string]any{"length_mm": 1800, "coldest_c": -15, "hottest_c": 45, "temperature_range_c": 60}},
			{text: "steel bar 2.5 m long, 12e-6 per K, swing 40 K, expansion?", given: map[string]any{"coefficient": 12, "temperature_range_c": 40}, values: map[string]any{"movement_mm": 1.2}},
			{text: "what gap round acrylic 800 long over 30 degrees, four windows to do", given: map[string]any{"length_mm": 800, "width_mm": nil}},
		},
		"sag": {
			{text: "The old shelf took 40 kg. This one is oak, 800 span, 220 deep, 22 thick, for 18 kg in all: will it sag?", given: map[string]any{"load_kg": 18, "span_mm": 800}},
			{text: "an ash shelf 640 span, 180 deep, 20 thick, ten jars, together they weigh 7 kg, the next one is 280 higher. does it sag?", given: map[string]any{"load_kg": 7, "span_mm": 640, "width_mm": 180, "thickness_mm": 20}},
		},
		"coverage": {
			{text: "how much varnish for 3.2 square metres, 3 coats, 10 square metres to the litre", given: map[string]any{"area_m2": 3.2, "spread_m2_l": 10, "coats": 3}},
			{text: "six square metres to varnish, four coats, one is on already so three to go, how much varnish?", given: map[string]any{"area_m2": 6, "coats": 3, "quantity": nil}},
			{text: "2 brushes and a roller are bought. The bench top is 1.4 m by 0.5 m, 2 coats, how much oil?", given: map[string]any{"area_m2": 0.7, "coats": 2}},
		},
		"amount": {
			{text: "cost of 3 boards 2 m x 200 mm x 50 mm, the cubic metre is 1400 €, the delivery 45 €", given: map[string]any{"price": 1400, "quantity": 3}, values: map[string]any{"cost": 84}},
			{text: "what does the ash cost, 5 planks 2 m x 100 mm x 50 mm at 1200 € a cube, plus 30 € for the transport", given: map[string]any{"price": 1200}, values: map[string]any{"cost": 60}},
		},
	} {
		answered(t, topic, requests)
	}
	askedBack(t, "coverage", "how much varnish for the door? two coats, 11 square metres to the litre")
}
