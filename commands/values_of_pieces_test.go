package commands_test

import "testing"

// Plain sums: what is said is added or taken off, once or for each side.
func TestAllowancesInListsAndInOrder(t *testing.T) {
	answered(t, "rough-size", []request{
		{text: "rough for three ledgers, each 524 by 63 by 21, add 30 to the length and 9 to the width and 5 thick",
			given:  map[string]any{"quantity": 3, "length_mm": 524, "width_mm": 63, "thickness_mm": 21},
			values: map[string]any{"rough_length_mm": 554, "rough_width_mm": 72, "rough_thickness_mm": 26}},
		{text: "Finished: 990 / 74 / 26. Allowance length: 70. Allowance width: 12. What do I saw it out at?",
			given: map[string]any{"length_mm": 990}, values: map[string]any{"rough_length_mm": 1060, "rough_width_mm": 86}},
		{text: "Rough size, fin. L = 1420, W = 66, T = 33. Allowances +40 / +7 / +6.", values: map[string]any{"rough_length_mm": 1460, "rough_width_mm": 73, "rough_thickness_mm": 39}},
		{text: "rough size for 640 x 52 x 24, allow 45, 8 and 4", values: map[string]any{"rough_length_mm": 685, "rough_width_mm": 60, "rough_thickness_mm": 28}},
		{text: "rough dimensions for a rail of 700 by 58 by 19, allowing 35 upon the length", values: map[string]any{"rough_length_mm": 735}},
	})
	answered(t, "finished-size", []request{
		{text: "Unplaned board of 2 m x 18 cm x 4 cm. The planer eats 4 mm of the thickness in total and 7 mm of the width in total, the length stays. What size is left?",
			values: map[string]any{"finished_length_mm": 2000, "finished_width_mm": 173, "finished_thickness_mm": 36}},
		{text: "rough plank 1900 long, 140 wide and 30 thick, 2 mm from each face, from the length goes nothing. What does it finish at?",
			values: map[string]any{"finished_length_mm": 1900, "finished_thickness_mm": 26}},
		{text: "the board is 31 mm rough by 120 mm, it goes in a 22 mm groove. what will it finish at?", given: map[string]any{"thickness_mm": 31, "width_mm": 120}},
	})
}

func TestPiecesAreAskedAboutWhereAFigureHasNoPlace(t *testing.T) {
	askedBack(t, "rough-size", "rough size for 640 x 52 x 24, allow 6", "rough size for a ledger finishing at 480 or maybe 495 by 55 by 20",
		"rough size for 640 x 52 x 24, add 40", "rough size of 6 rails, 640 by 52 by 24 finished, half of them 20 mm longer")
	askedBack(t, "finished-size", "what will it finish at? rough board, paid 35 for 2 of them, 2 mm off a face")
	askedBack(t, "coverage", "how much paint for 3 coats? the tin is 750 ml, covers 9 m2 and costs 15.50", "varnish for 5 m2, 2 coats or 3 coats")
}

// Sums: 0.9 × 0.12 × 0.03 m = 0.00324 m³; 6 × 2.5 × 0.04 × 0.02 m = 0.012 m³ and 15 m; 2 × 10 ft × 8 in
// × 2 in = 26.67 board feet.
func TestAmountBesideOtherFigures(t *testing.T) {
	answered(t, "amount", []request{
		{text: "pieces: 6; length: 2500; width: 40; thickness: 20; wood: larch; price: 1000 per m3; total cost?", given: map[string]any{"quantity": 6}, values: map[string]any{"cost": 12}},
		{text: "what do 6 lengths of larch cost, 2.5 m each, 40 x 20, at 2.20 a metre? I have 40 on me", values: map[string]any{"cost": 33}},
		{text: "what do 6 sticks of larch 20x40, 2.5 m long come to at 2.20 a metre", given: map[string]any{"width_mm": 40, "thickness_mm": 20}, values: map[string]any{"cost": 33}},
		{text: "weight of an ash rail 900 x 120 x 30, density 700", values: map[string]any{"weight_kg": 2.268}},
		{text: "How heavy is an oak rail 900 x 120 x 30 at 700 kg per cubic metre? it's £18 and there's two of us", values: map[string]any{"weight_kg": 2.268}},
		{text: "Ash at 6 the board foot. 2 planks of 10 ft x 8 in x 2 inches. What must I pay?", values: map[string]any{"cost": 160}},
		{text: "How much costs 6 boards of larch of 2500 x 40 x 20 if the cubic metre is 1000?", values: map[string]any{"cost": 12}},
		{text: "volume of 6 boards, 2.5 m x 40 mm x 20 mm (two of them are cracked but count them)", given: map[string]any{"quantity": 6}, values: map[string]any{"volume_m3": 0.012}},
		{text: "cost of 6 boards 2500 x 40 x 20 larch at 1000 a cube, 20% VAT", values: map[string]any{"cost": 14.4}},
		{text: "cost of 6 boards 2500 x 40 x 20 larch, 1000 per m3, 10 % discount", values: map[string]any{"cost": 10.8}},
	})
}

// 1 in = 25.4 mm by definition.
func TestConversionsWithBothUnitsBeforeTheNumbers(t *testing.T) {
	answered(t, "convert", []request{
		{text: "mm -> in: 25.4 / 508 / 127", says: []string{"1 in", "20 in", "5 in"}},
		{text: "inches to mm: 2, 4 1/2", says: []string{"50.8 mm", "114.3 mm"}},
		{text: "what's one and 3/8 inch in mm", values: map[string]any{"mm": 34.925}},
		{text: "whats 1 metre 27 in inches", values: map[string]any{"in": 50}},
	})
}

// Sums: 3 × 2 × 1.5 − 0.5 × 0.4 = 8.8 m²; 4 × 2 − 2 × 0.5 × 0.6 = 7.4 m²; 6 × 1.5 × 0.1 = 0.9 m².
func TestCoverageOfWhatIsLeft(t *testing.T) {
	answered(t, "coverage", []request{
		{text: "Paint, 2 coats, three walls each 2 m by 1.5 m, less one window 0.5 m by 0.4 m. How many litres?", given: map[string]any{"area_m2": 8.8}},
		{text: "how much paint for a wall 4 m by 2 m minus two windows 0.5 m by 0.6 m, 2 coats", given: map[string]any{"area_m2": 7.4}},
		{text: "paint for a wall 4 m x 2 m with a window of 60 x 50 cm in it, 2 coats", given: map[string]any{"area_m2": 7.7}},
		{text: "paint for 9 m2 less 1.5 m2 of glass, 2 coats, 10 m2 a litre", given: map[string]any{"area_m2": 7.5}, values: map[string]any{"finish_l": 1.65}},
		{text: "6 slats 1.5 m long and 100 mm wide, oil one face, 2 coats, how much", given: map[string]any{"area_m2": 0.9}},
		{text: "oil for 5 shelves, each 0.2 m2 a side, both sides, 2 coats", given: map[string]any{"area_m2": 2, "coats": 2}},
		{text: "need varnish for 6 m2, we had 4 coats planned but will do 2", given: map[string]any{"coats": 2}},
		{text: "how much oil for half of 5 m2, 2 coats", given: map[string]any{"area_m2": 2.5}},
		{text: "paint for the ceiling, 8 m2, twice over", given: map[string]any{"coats": 2}},
		{text: "primer and paint: 8 m2, one coat primer, two coats paint. litres of paint?", given: map[string]any{"area_m2": 8, "coats": 2, "finish": "paint"}},
	})
}
