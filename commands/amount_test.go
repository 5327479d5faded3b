package commands_test

import (
	"testing"
)

// BF03: 8/4 × 8 in × 10 ft is 13.333 board feet (computed from the definition, seen). The other
// costs and volumes are sums done by hand; the weight at another moisture goes by mass.
func TestAmountAddsUpAndPrices(t *testing.T) {
	answered(t, "amount", []request{
		{text: "8/4 ash 8 in x 10 ft, board feet at 7.50 a board foot", values: map[string]any{"board_feet": 13.3333, "cost": 100}},
		{text: "volume of 12 of 1000 x 50 x 25 ash at 900 a cube", values: map[string]any{"volume_m3": 0.015, "cost": 13.5}},
		{text: "cost of 12 m of 100 x 25 oak at 6.50 a metre", values: map[string]any{"cost": 78, "volume_m3": 0.03}},
		{text: "what do 12 m of larch cost at 4.20 a metre", values: map[string]any{"cost": 50.4, "volume_m3": nil}},
		{text: "5 boards at 18 each, cost", values: map[string]any{"cost": 90}, says: []string{"**Cost 90.00**"}},
		{text: "14 boards 2.4 m x 150 x 27 larch at 11 each, cost and weight", values: map[string]any{"cost": 154, "volume_m3": 14 * 2.4 * 0.15 * 0.027}},
		{text: "6 oak at 1000 x 50 x 25 and 4 ash at 800 x 40 x 20, weight and cost at 1100 a cube",
			values: map[string]any{"volume_m3": 6*0.00125 + 4*0.00064, "cost": 1100 * (6*0.00125 + 4*0.00064)}, says: []string{"**In all", "6 off, 1000 × 50 × 25 mm, oak: 0.0075 m³"}},
		{text: "what does an oak shelf 900x200x18 weigh", values: map[string]any{"volume_m3": 0.00324}},
	})
	dry := petra(t, "weight of an oak board 2400 x 200 x 32")[0].Values["weight_kg"].(float64)
	damp := petra(t, "weight of an oak board 2400 x 200 x 32 at 20 % moisture")[0].Values["weight_kg"]
	if !same(dry*1.20/1.12, damp) {
		t.Errorf("%v kg dry, %v at 20 %%", dry, damp)
	}
	askedBack(t, "amount", "weight of 4 oak boards 2400 x 200 x 32 at 40 % moisture", "what does oak cost at 900 a cube")
}
