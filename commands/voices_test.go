package commands_test

import "testing"

// People of many tongues and trades; the figures are sums of what they say themselves, an allowance
// for each face or edge counted twice, and 25.4 mm to the inch.
func TestSizesInManyVoices(t *testing.T) {
	petraSays(t, one(
		exchange{say: "Slats, eight of, 640 by 58 by 16 planed. Plus 50 long, plus 8 wide, plus 4 thick. What to saw?", topic: "rough-size",
			values: map[string]float64{"rough_length_mm": 690, "rough_width_mm": 66, "rough_thickness_mm": 20}, given: map[string]any{"quantity": 8}},
		exchange{say: "drawer sides 4 no 380 x 95 x 12 finish allow 25 long 6 wide and 4 thick what do I rip", topic: "rough-size",
			values: map[string]float64{"rough_length_mm": 405, "rough_width_mm": 101, "rough_thickness_mm": 16}},
		exchange{say: "I must make 5 legs, ready they are 720 x 55 x 55. I give 30 to length, 5 to width and 5 to thickness. How big I saw?", topic: "rough-size",
			values: map[string]float64{"rough_length_mm": 750, "rough_width_mm": 60, "rough_thickness_mm": 60}},
		exchange{say: `Need 6 rails finishing 25 1/2" x 2 3/4" x 1 1/8". Add 1 1/2" length, 1/4" width, 1/4" thickness. Rough size?`, topic: "rough-size",
			values: map[string]float64{"rough_length_mm": 27 * 25.4, "rough_width_mm": 3 * 25.4, "rough_thickness_mm": 1.375 * 25.4}},
		exchange{say: "Gil paid 48 quid. What rough for 2 shelves 890 x 240 x 22, the length I don't touch, 6 over on width", topic: "rough-size",
			values: map[string]float64{"rough_length_mm": 890, "rough_width_mm": 246}},
		exchange{say: "Larch as sawn 3000 x 150 x 25: width stays, lose 3 on thickness in all, 80 off the length. Clean size?", topic: "finished-size",
			values: map[string]float64{"finished_length_mm": 2920, "finished_width_mm": 150, "finished_thickness_mm": 22}},
		exchange{say: "sawn board 2,1 m x 175 mm x 38 mm, I plane 2 mm from each face, 4 from each edge, the length I leave. what stays?", topic: "finished-size",
			values: map[string]float64{"finished_length_mm": 2100, "finished_width_mm": 167, "finished_thickness_mm": 34}},
		exchange{say: "We got sawn ash 8 foot by 7 inches by 1 1/2 inches, length unchanged, 3/16 off each face, 1/4 off each edge. what do I finish at?", topic: "finished-size",
			values: map[string]float64{"finished_length_mm": 96 * 25.4, "finished_width_mm": 6.5 * 25.4, "finished_thickness_mm": 1.125 * 25.4}},
		exchange{say: "rough oak 1800 long 160 wide 32 thick what will it finish at less 60 length 10 width 6 thickness", topic: "finished-size",
			values: map[string]float64{"finished_length_mm": 1740, "finished_width_mm": 150, "finished_thickness_mm": 26}},
	)...)
}

func TestJointsInManyVoices(t *testing.T) {
	petraSays(t, one(
		exchange{say: "how many cramps for a 2400 sapele edge joint, boards 120 wide and 28 thick", topic: "clamps", given: map[string]any{"length_mm": 2400, "width_mm": 120, "thickness_mm": 28}},
		exchange{say: `need clamps for 6 ft maple glue joint, 5" wide boards, 7/8" thick`, topic: "clamps", given: map[string]any{"length_mm": 1828.8, "width_mm": 127, "thickness_mm": 22.225}},
		exchange{say: "clamps for 22 mm oak edge joints 900 long, boards 80 wide", topic: "clamps", given: map[string]any{"length_mm": 900, "thickness_mm": 22}},
		exchange{say: "I glue two ash board on the edge, long 1,35 m, wide 11 cm, thick 2,4 cm. how many clamp I need?", topic: "clamps", given: map[string]any{"length_mm": 1350, "width_mm": 110, "thickness_mm": 24}},
		exchange{say: "clamps for a 1400 oak edge joint, joint length 900, boards 70 wide", topic: "clamps", asks: true},
	)...)
}

// The coefficients are those of the USDA Wood Handbook (2010), Table 13-5: oak 0.00369 (red, flat),
// white oak 0.00365; those of sapele and ash stay as the program has them.
func TestMovementInManyVoices(t *testing.T) {
	petraSays(t, one(
		exchange{say: "the oak panel is 620 wide and was at 13 percent in spring, now it is 9, how much it become smaller", topic: "movement",
			given: map[string]any{"width_mm": 620, "mc_from_pct": 13, "mc_to_pct": 9}, values: map[string]float64{"movement_mm": 620 * 0.00369 * 4}},
		exchange{say: "white oak, plainsawn, 14 in wide, came in at 11 pct, dries to 6 pct. How much will she shrink?", topic: "movement",
			given: map[string]any{"mc_from_pct": 11, "mc_to_pct": 6}, values: map[string]float64{"movement_mm": 355.6 * 0.00365 * 5}},
		exchange{say: "quarter sawn sapele top is five hundred wide it goes from ten percent to fourteen how much does it swell", topic: "movement",
			given: map[string]any{"width_mm": 500, "mc_from_pct": 10, "mc_to_pct": 14}},
		exchange{say: "ash shelf 280 wide, flat, was 15 % when bought, is 10 % now, how much narrower is it", topic: "movement", given: map[string]any{"width_mm": 280, "mc_from_pct": 15, "mc_to_pct": 10}},
	)...)
}

// The range is the warmer temperature less the colder one; a degree F is five ninths of a degree C.
func TestTwoSeasonsMakeARange(t *testing.T) {
	petraSays(t, one(
		exchange{say: "Copper pipe 10 ft, winter low 5 F, summer high 105 F, how much does she move?", topic: "expansion", given: map[string]any{"temperature_range_c": 55.556}},
		exchange{say: "alu bar 3 m, summer 45 degrees winter minus 15, expansion please", topic: "expansion", given: map[string]any{"temperature_range_c": 60}},
		exchange{say: "steel strap 2200, down to -8 and up to 34 degrees, how much does it grow", topic: "expansion", given: map[string]any{"temperature_range_c": 42}},
		exchange{say: "polycarbonate sheet 1600 x 900, sees -10 and 45 degrees, what gap", topic: "expansion", given: map[string]any{"temperature_range_c": 55, "width_mm": 900}},
		exchange{say: "acrylic pane 920 long, -5 at night and 35 by day, gap?", topic: "expansion", given: map[string]any{"temperature_range_c": 40}},
		exchange{say: "Brass rail one point four metres, coldest night minus 12, hottest day 38. how much longer it becomes?", topic: "expansion", given: map[string]any{"temperature_range_c": 50, "length_mm": 1400}},
		exchange{say: "glass 1200 wide, 4 mm, in winter it is minus five and in summer thirty, how much grow", topic: "expansion",
			given: map[string]any{"temperature_range_c": 35, "length_mm": 1200, "thickness_mm": 4}},
		exchange{say: "aluminium trim 2,5 m: min -12, max 48. how much does it stretch", topic: "expansion", given: map[string]any{"temperature_range_c": 60}},
		exchange{say: "PVC pipe 2 m fitted at 15 degrees, -5 in winter, 40 in summer, gap", topic: "expansion", given: map[string]any{"temperature_range_c": 45, "fit_c": 15}},
		exchange{say: "acrylic pane 920 long, -5 at night, gap?", topic: "expansion", asks: true},
	)...)
}

// Litres are area × coats / spread and a tenth for brush and tin.
func TestCoverageInManyVoices(t *testing.T) {
	answered(t, "coverage", []request{
		{text: "paint: both gables, fourteen square metre in total, 3 coats, with 1 litre we do 10 m2", values: map[string]any{"finish_l": 4.62}},
		{text: "from a litre I get 9 m2. Walls 13 m2, primer, one coat. How many litres?", values: map[string]any{"finish_l": 13. / 9 * 1.1}},
		{text: "what oil do I need for three doors all together 7,5 m2, two coats, one litre does 12 m2", values: map[string]any{"finish_l": 1.375}},
		{text: "the four windows and the door want painting it is six square metres altogether and we do two coats how much paint", values: map[string]any{"finish_l": 1.32}},
		{text: "varnish 5 m2, 4 coats, two are already on, how much for the rest", given: map[string]any{"coats": 2}},
		{text: "linseed on 2 benches, 1.6 m2 each, two coats", given: map[string]any{"area_m2": 3.2}},
		{text: "Undercoat for the hut, 31 m2 in all less 4 windows, single coat, 11 m2 to the litre", values: map[string]any{"finish_l": 3.1}},
	})
}

func TestAirAndUnitsInManyVoices(t *testing.T) {
	petraSays(t, one(
		exchange{say: "thermometer says fifteen and the hygrometer says sixty five what moisture will the timber end at", topic: "moisture", given: map[string]any{"temperature_c": 15, "humidity_pct": 65}},
		exchange{say: "bought at 14 %, hut has 19 degrees and 55 % damp, where do the boards settle", topic: "moisture", given: map[string]any{"humidity_pct": 55, "mc_pct": 14}},
		exchange{say: "I have drawing in inches: 17 5/16, what is this in mm", topic: "convert", given: map[string]any{"to": "mm"}, values: map[string]float64{"mm": 439.74}},
	)...)
}

// What counts is what is so now, and here.
func TestNowAndHereInManyVoices(t *testing.T) {
	petraSays(t, one(
		exchange{say: "oak shelf 900 x 200 x 18 was holding 10 kg, now it holds 22 kg, sag?", topic: "sag", given: map[string]any{"load_kg": 22}},
		exchange{say: "oak shelf 900 x 200 x 18 with 10 kg of jars and 12 kg of plates, sag?", topic: "sag", given: map[string]any{"load_kg": 22}},
		exchange{say: "how long must epoxy stay pressed, the thermometer shows 14, yesterday 9", topic: "glue-time", given: map[string]any{"temperature_c": 14}},
		exchange{say: "polyurethane, five below outside but 16 in the hut, how long in the clamps", topic: "glue-time", given: map[string]any{"temperature_c": 16}},
	)...)
}
