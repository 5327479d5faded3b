package commands_test

import "testing"

// Areas are length × width × number; boards glued by their edges have one line fewer than there are of them.
func TestGlueGoesByTheFacesThatAreGlued(t *testing.T) {
	answered(t, "glue-amount", []request{
		{text: "epoxy for two scarf joints, glue face 240 x 50, boards themselves are 3 m long", given: map[string]any{"quantity": 2, "length_mm": 240, "width_mm": 50}, values: map[string]any{"area_m2": 0.024}},
		{text: "how much polyurethane for the 4 stiles of 1700 x 40, 2 edges each", values: map[string]any{"area_m2": 0.544}},
		{text: "how many grams PU for gluing ply 1200 x 600 onto the door, ply is 6 thick", given: map[string]any{"width_mm": 600}, values: map[string]any{"area_m2": 0.72}},
		{text: "how much PVA to glue up a panel of 5 oak boards 1000 x 120 x 20 edge to edge", given: map[string]any{"quantity": 5, "length_mm": 1000, "width_mm": 20}, values: map[string]any{"area_m2": 0.08}},
		{text: "Epoxy. 9 strips make 8 glue lines, each of those 2000 by 50. How much do I mix?", given: map[string]any{"quantity": 8}, values: map[string]any{"area_m2": 0.8}},
		{text: "PVA, sticking one 600x1200 ply panel flat onto another, how much?", given: map[string]any{"length_mm": 600, "width_mm": 1200}, values: map[string]any{"area_m2": 0.72}},
		{text: "epoxy for a 9 ply lamination, 2000 by 50", given: map[string]any{"quantity": 9}, values: map[string]any{"area_m2": 0.8}},
		{text: "how much PVA for 4 glue lines, each 1,25 m by 32 mm? (five boards, 110 wide)", given: map[string]any{"quantity": 4, "width_mm": 32}, values: map[string]any{"area_m2": 0.16}},
		{text: "6 joints of 800 x 40 in epoxy. how much glue", values: map[string]any{"area_m2": 0.192}},
		{text: "PVA 3 joints 900 x 20 and 2 joints 600 x 20", values: map[string]any{"area_m2": 0.078}},
		{text: "epoxy joints: 7; length: 2000; width: 50", given: map[string]any{"quantity": 7}, values: map[string]any{"area_m2": 0.7}},
		{text: "epoxy for 8 joints totalling 6.4 m, 50 wide", values: map[string]any{"area_m2": 0.32}},
		{text: "how much PVA for a joint 1000 long 22 thick, boards 110 wide", given: map[string]any{"width_mm": 22}},
	})
	askedBack(t, "glue-amount", "pva for 3 joints 900 long 20 or 22 thick")
}

func TestTheHeatOfThePotAndTheWidthOfTheTopAreOthers(t *testing.T) {
	answered(t, "glue-time", []request{
		{text: "working time of the hide glue with the pot at 60 degrees and the room at 19?", given: map[string]any{"temperature_c": 19}},
	})
	answered(t, "clamps", []request{
		{text: "clamps for gluing 5 boards 120 wide 22 thick into a 600 wide top, 1100 long", given: map[string]any{"length_mm": 1100, "width_mm": 120, "thickness_mm": 22}},
	})
}
