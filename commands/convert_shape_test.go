package commands_test

import "testing"

// A message that is a conversion from end to end is one, whatever units it names.
func TestWholeConversions(t *testing.T) {
	answered(t, "convert", []request{
		{text: "73 F in celsius", says: []string{"22.778 °C"}},
		{text: "4 lb 6 oz in kilos", says: []string{"1.984 kg"}},
		{text: "350 g in oz", says: []string{"12.346 oz"}},
		{text: "20 C in F?", says: []string{"68 °F"}},
		{text: "what is 9 stone in kg", says: []string{"57.153 kg"}},
		{text: "18 l in gallons please", says: []string{"4.755 gal"}},
	})
}

// A tolerance, and what a thing measured once, are not converted.
func TestConversionBesideOtherNumbers(t *testing.T) {
	answered(t, "convert", []request{
		{text: "863 mm in inches, nearest 1/16 will do", says: []string{"33.9764 in"}, not: []string{"0.0625"}},
		{text: `old hinge was 2 1/4", the new one is 2 3/8". the new one in mm?`, says: []string{"60.325 mm"}, not: []string{"57.15"}},
		{text: "the tape says 47 3/8 inches, good to a sixteenth. what's that in mm?", says: []string{"1203.325 mm"}, not: []string{"1.5875"}},
	})
}

// Behind "in" a dimension is what the number is of, where the sizes are metric.
func TestInLengthIsNoInch(t *testing.T) {
	answered(t, "rough-size", []request{
		{text: "600 in length, 45 in width finished, rough size?", given: map[string]any{"length_mm": 600, "width_mm": 45}},
		{text: "rough for 600 x 45, add 30 in length and 4 in width", given: map[string]any{"length_allowance_mm": 30, "width_allowance_mm": 4}},
		{text: "rough size for something 90 in width and 600 in length", given: map[string]any{"length_mm": 600, "width_mm": 90}},
		{text: "rough size for 30 in length by 4 in width", given: map[string]any{"length_mm": 762, "width_mm": 101.6}},
	})
}
