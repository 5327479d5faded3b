package commands_test

import "testing"

// The 70 F swing and the 800 pane are worked in the reference (computed); the metre of acrylic
// over 20 °C is a fabricator's value (seen): 1.5 mm. The other figures are length × the higher
// published coefficient × range.
func TestExpansion(t *testing.T) {
	petraSays(t, one(
		exchange{say: "expansion of 1 m of acrylic over 20 degrees", topic: "expansion", values: map[string]float64{"movement_mm": 1.5, "gap_each_mm": 0.75}, holds: []string{"leave 1 mm at each end"}},
		exchange{say: "gap for 24 in of acrylic, 70 F swing", topic: "expansion", given: map[string]any{"temperature_range_c": 38.889},
			values: map[string]float64{"movement_mm": 1.778}, holds: []string{"70 °F", "/32 in"}},
		exchange{say: "10 ft of alu angle, 20 F to 100 F, how much longer", topic: "expansion", given: map[string]any{"temperature_range_c": 44.444}, values: map[string]float64{"movement_mm": 3.2512}},
		exchange{say: "acrylic pane 800 long fitted at 15 degrees, between -10 and 50 degrees, 70 millionths, damp. gap?", topic: "expansion",
			values: map[string]float64{"gap_each_mm": 2.18, "grow_mm": 4.36, "shrink_mm": 1.4, "damp_mm": 2.4}},
		exchange{say: "how much does a 1500 brass rail grow from minus ten to plus thirty", topic: "expansion", values: map[string]float64{"movement_mm": 1500 * 20e-6 * 40}},
		exchange{say: "polycarbonate roof 2 m, 0.065 mm per metre per degree, swing 40. gap?", topic: "expansion", given: map[string]any{"coefficient": 65}, values: map[string]float64{"movement_mm": 5.2}},
		exchange{say: "acrylic 1000 long with coefficient 70 x 10^-6 per K, 40 degrees swing: expansion", topic: "expansion", given: map[string]any{"coefficient": 70}, values: map[string]float64{"movement_mm": 2.8}},
		exchange{say: "gap for 500 of titanium over 40 degrees, 9 millionths", topic: "expansion", values: map[string]float64{"movement_mm": 0.18}},
		exchange{say: "gap for a 500 acrylic window in the unheated hut", topic: "expansion",
			values: map[string]float64{"movement_mm": 500 * 75e-6 * 50, "damp_mm": 1.5, "gap_each_mm": (1.875 + 1.5) / 2}, holds: []string{"50 °C of range is assumed"}},
		exchange{say: "black acrylic 500 over 40 degrees, gap", topic: "expansion", values: map[string]float64{"movement_mm": 1.5, "gap_mm": 2.1}},
		exchange{say: "4 mm acrylic 600 x 400 in grooves 8 deep, -10 to 40 °C, what gap", topic: "expansion",
			given: map[string]any{"thickness_mm": 4, "length_mm": 600, "width_mm": 400, "groove_mm": 8}, values: map[string]float64{"hold_mm": 8 - 1.125, "width_movement_mm": 1.5}},
		exchange{say: "how much does 400 of oak expand over 30 degrees", topic: "expansion", values: map[string]float64{"movement_mm": 0.54}, holds: []string{"Damp moves the width of wood far more"}},
		exchange{say: "acrylic 400, less than 0.065 mm per metre per degree, gap?", topic: "expansion", asks: true},
		exchange{say: "gap round the acrylic window?", topic: "expansion", asks: true},
		exchange{say: "gap for a 400 acrylic pane", topic: "expansion", asks: true},
		exchange{say: "gap at 30 °C for a 480 acrylic pane", topic: "expansion", asks: true},
		exchange{say: "expansion of 500 titanium over 40 degrees", topic: "expansion", asks: true},
		exchange{say: "acrylic 48 from -10 to 40, gap?", topic: "expansion", asks: true, holds: []string{"cm"}},
	)...)
	petraSays(t, []exchange{
		{say: "gap for a 400 acrylic pane", topic: "expansion", asks: true},
		{say: "40 degrees", values: map[string]float64{"movement_mm": 1.2}},
		{say: "and 600 long?", values: map[string]float64{"movement_mm": 1.8}},
		{say: "and in polycarbonate?", values: map[string]float64{"movement_mm": 600 * 68e-6 * 40}},
		{say: "why", holds: []string{"600 × 68 millionths × 40 °C", "read there"}},
		{say: "and from -10 to 50", values: map[string]float64{"movement_mm": 600 * 68e-6 * 60}},
		{say: "and over 30 degrees", values: map[string]float64{"movement_mm": 600 * 68e-6 * 30}},
		{say: "same in inches", holds: []string{" in"}},
	})
}
