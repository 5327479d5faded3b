package commands_test

import "testing"

// g names numbers and words.
type g = map[string]any

// The numbers of these messages stand beside others that are of something else, or have to be worked
// out first. What is expected was worked out by hand.
func TestNumbersOfShapesBesideOthers(t *testing.T) {
	answered(t, "mitre", []request{
		{text: "corner 97°, linings 60/40. Which mitres?", given: g{"angle_deg": 97, "width_mm": 60, "width2_mm": 40}},
		{text: "mitre for a 92 corner, architrave 58 wide on both, plasterboard 12 proud", given: g{"angle_deg": 92, "width_mm": 58}, values: g{"mitre_deg": 46}},
		{text: "six-sided tray, sides 240 long and 30 wide, what mitre on each end?", given: g{"sides": 6, "width_mm": 30}, values: g{"mitre_deg": 60, "saw_deg": 30}},
		{text: "mitre at 91 degrees, 60 wide on the leg and 40 on the head", given: g{"width_mm": 60, "width2_mm": 40}},
	})
	askedBack(t, "mitre", "the corner is 93 at the top and 91 at the bottom, trim 60 wide. mitre?")
	answered(t, "taper", []request{
		{text: "bevel gauge says 93, stile is 88 wide by 32 thick, what offset across it?", given: g{"angle_deg": 93, "width_mm": 88}, values: g{"offset_mm": 4.6118}},
		{text: "offset across the 45 side of a 70 x 45 rail at 87 degrees", given: g{"angle_deg": 87, "width_mm": 45}, values: g{"offset_mm": 2.3583}},
		{text: "offset for a fall of 1 in 60 over 1200", given: g{"width_mm": 1200}, values: g{"offset_mm": 20}},
		{text: "taper a leg from 45 to 28 over the bottom 600 of 720", given: g{"from_mm": 45, "to_mm": 28, "width_mm": 600}, values: g{"offset_mm": 17}},
	})
	answered(t, "compound", []request{
		{text: "compound mitre: n = 8, slope 20° from upright", given: g{"sides": 8, "slope_deg": 20}},
		{text: "tray with sides tilted 30 deg, 4 of them, 40 high, compound angles?", given: g{"sides": 4, "slope_deg": 30}},
	})
	answered(t, "arc", []request{
		{text: "half the span is 480, so 960 across in all, rise 75, radius?", given: g{"chord_mm": 960, "rise_mm": 75}, values: g{"radius_mm": 1573.5}},
		{text: "half the span is 480, rise 75, radius?", given: g{"chord_mm": 960}, values: g{"radius_mm": 1573.5}},
		{text: "door head: width 800, rise = 1/8 of the width. radius?", given: g{"chord_mm": 800}, values: g{"rise_mm": 100, "radius_mm": 850}},
		{text: "radius of the bow 2.1 m, end to end it's 1.6 m, how high is the arc?", given: g{"chord_mm": 1600, "radius_mm": 2100}, values: g{"rise_mm": 158.35}},
		{text: "arc R1000 chord 1200, rise?", given: g{"chord_mm": 1200, "radius_mm": 1000}, values: g{"rise_mm": 200}},
	})
	answered(t, "lamination", []request{
		{text: "laminated bow, ash, 38 thick, R1800: how many plies?", given: g{"radius_mm": 1800, "thickness_mm": 38}},
		{text: "laminated curve diameter 900, 30 thick oak, plies?", given: g{"radius_mm": 450, "thickness_mm": 30}},
		{text: "laminated ash bow 40 thick to fit a chord of 1900 with 250 rise, plies?", given: g{"radius_mm": 1930, "thickness_mm": 40}},
		{text: "bow springback, 32 thick, 8 plies, radius 1200", given: g{"plies": 8, "ply_mm": 4}},
	})
}

func TestNumbersOfWoodAndAirBesideOthers(t *testing.T) {
	answered(t, "movement", []request{
		{text: "top is 3 boards of 140 flatsawn red oak glued edge to edge, 7 to 12% how much does the whole thing move?", given: g{"width_mm": 420}, values: g{"movement_mm": 7.749}},
		{text: "3 flatsawn red oak boards 140 wide each, 7 to 12 percent, how much does each one swell", given: g{"width_mm": 140}, values: g{"movement_mm": 2.583}},
		{text: "larch boards 96 wide, groove 8 deep, from 9 to 13 %, how much do they move?", given: g{"width_mm": 96}},
		{text: "MC was 14 % when bought, now 11, will be 8 in the hut. flat-sawn red oak 250 wide: how much more will it move?", given: g{"mc_from_pct": 11, "mc_to_pct": 8}, values: g{"movement_mm": 2.7675}},
		{text: "flatsawn ash 180 wide, MC 8→12 ± 1 %, movement?", given: g{"mc_from_pct": 8, "mc_to_pct": 12}},
		{text: "ash flat sawn 240 wide goes from 45% RH to 70% RH, how much does it move", given: g{"air_from_pct": 45, "air_to_pct": 70}},
	})
	askedBack(t, "movement", "ash flat sawn 240 wide goes from 45% to 70%, how much does it move")
	answered(t, "moisture", []request{
		{text: "emc 12.5 °C, 80 % humidity, outside it is 4 °C", given: g{"temperature_c": 12.5, "humidity_pct": 80}},
		{text: "humidity used to be 70, with the heater on it is 50 now at 20 deg C. emc?", given: g{"temperature_c": 20, "humidity_pct": 50}},
		{text: "8 °C outside and 20 inside, RH 45 inside, emc indoors?", given: g{"temperature_c": 20, "humidity_pct": 45}},
		{text: "the boards (10 %) are in the hut at 14°, 72 %, what do they settle at?", given: g{"mc_pct": 10, "humidity_pct": 72}},
	})
	answered(t, "expansion", []request{
		{text: "2 aluminium strips 900 each end to end, temperature swings by 40 degrees, expansion of the lot?", given: g{"length_mm": 1800}},
		{text: "gap for a 700 acrylic sheet between winter -8 and summer 32? sheet cost 45", given: g{"length_mm": 700, "temperature_range_c": 40}},
		{text: "aluminium strip L=2000 ΔT=40, expansion?", given: g{"length_mm": 2000, "temperature_range_c": 40}},
	})
	answered(t, "sag", []request{
		{text: "oak shelf is 900 long but the supports are 780 apart, 18 thick, 240 deep, 12 kg, sag?", given: g{"span_mm": 780}},
		{text: "oak shelf sag, 12 books at 1.2 kg, span 760 depth 230 thickness 19", given: g{"load_kg": 14.4}},
		{text: "ash slats 70 x 22 across 830, 6 slats share 90 kg, how much does each sag?", given: g{"load_kg": 15}},
	})
}
