package commands_test

import (
	"testing"
)

// The reference's example (BD06, BD07, computed; BC01, BC02, NDS 3.5.2, seen): a shelf 900 ×
// 250 × 20 of 12270 MPa under 27 kg. Held ends: a fifth and a quarter (BD03, seen).
func TestSag(t *testing.T) {
	const shelf = "shelf 900 span 250 deep 20 thick, E 12270 MPa, 27 kg"
	answered(t, "sag", []request{
		{text: shelf, given: map[string]any{"load": "spread", "moe_mpa": 12270, "load_kg": 27}, values: map[string]any{"sag_mm": 1.229, "creep_sag_mm": 1.844, "limit_mm": 3, "least_thickness_mm": 17.0},
			says: []string{"Good", "spread evenly"}},
		{text: shelf + " in the middle", given: map[string]any{"load": "point"}, values: map[string]any{"sag_mm": 1.966, "creep_sag_mm": 2.949}},
		{text: shelf + ", both ends fixed", values: map[string]any{"sag_mm": 1.229 / 5}, says: []string{"Ends seldom hold so fast"}},
		{text: "point load, " + shelf + ", ends clamped", values: map[string]any{"sag_mm": 1.966 / 4}},
		{text: shelf + " in a damp shed", values: map[string]any{"sag_mm": 1.229, "creep_sag_mm": 2.458}},
		{text: shelf + ", no more than 1.5 mm", given: map[string]any{"limit_mm": 1.5}, says: []string{"Too much", "thick would do"}},
		{text: "shelf 900 span 250 deep 20 thick, E 12270 MPa, 30 kg per metre", given: map[string]any{"load_kg": 27}, values: map[string]any{"sag_mm": 1.229}},
		{text: "how much can a shelf 900 span 250 deep 20 thick carry, E 12270 MPa", values: map[string]any{"load_limit_kg": 27 * 3 / 1.8436, "sag_mm": nil}},
		{text: "how thick for 27 kg, shelf 900 span 250 deep, E 12270 MPa", values: map[string]any{"least_thickness_mm": 17.0}, says: []string{"At least 17.5 mm thick"}},
		{text: "oak shelf 900 x 250 x 20, 27 kg, stiffness 12270 MPa", values: map[string]any{"sag_mm": 1.229}, says: []string{"as you said"}},
	})
}

func TestSagReadsAShelf(t *testing.T) {
	lip := map[string]any{"lip_mm": 45, "lip_thickness_mm": 20}
	answered(t, "sag", []request{
		{text: "oak shelf 1 m long 25 x 220 with 20kg on it, does it bend", given: map[string]any{"width_mm": 220, "thickness_mm": 25}},
		{text: "ash plank on edge 1200 long 30 wide 90 thick, 20 kg, sag?", given: map[string]any{"width_mm": 30, "thickness_mm": 90}},
		{text: "is a 20 mm oak shelf ok over 800 with 20 kg of plates, 250 deep", given: map[string]any{"span_mm": 800, "thickness_mm": 20}},
		{text: "ash shelf 900 x 200 x 18 with 5 kg of books and 9 kg of plates", given: map[string]any{"load_kg": 14, "load": "spread"}},
		{text: "ash shelf 900 x 200 x 18, will it hold 14 kg (31 lb)", given: map[string]any{"load_kg": 14}},
		{text: "6 jars at 1.2 kg each on an ash shelf 900 x 200 x 18, sag?", given: map[string]any{"load_kg": 7.2}},
		{text: "oak shelf 900 span 200 deep 18 thick with a 45 x 20 lip, 15 kg", given: lip, says: []string{"Lip 45 mm high and 20 mm thick"}},
		{text: "oak shelf 900 span 200 deep 18 thick, 15 kg, lip of 45 high 20 thick", given: lip},
		{text: "how much does a 3 ft pine shelf 3/4 in thick 8 in deep sag under 30 lbs", given: map[string]any{"span_mm": 914.4, "load_kg": 13.6078}, says: []string{" in, ", " lb."}},
		{text: "oak shelf moe 11 GPa 900 x 200 x 18 15 kg", given: map[string]any{"moe_mpa": 11000}},
	})
}

func TestSagOfWhatPeopleSitOn(t *testing.T) {
	answered(t, "sag", []request{
		{text: "Petra (62 kg) sits on a sapele bench 1100 x 300 x 32, will it hold?", given: map[string]any{"load": "point", "load_kg": 62}, says: []string{"By looks alone", "local codes"}},
		{text: "bench slat spanning 1150, larch 20 thick 58 wide, one person 85 kg on it ok?", given: map[string]any{"load": "point"}, says: []string{"Too much", "local codes"}},
		{text: "will a 900 shelf 18 thick 200 deep in oak take 15 kg", not: []string{"local codes"}},
	})
}

func TestSagAsksBack(t *testing.T) {
	askedBack(t, "sag",
		"will the shelf sag?", "sag of a shelf 78 span, 2 thick, 19 deep, ash, 14 kg", "sag of an oak shelf 900 span, 18 thick, 200 deep under -15 kg",
		"does an 18mm plywood shelf 800 span 250 deep take 20 kg", "will a 900 shelf 18 thick 200 deep hold 15 kg", "oak shelf 900 x 200 x 18, will it sag",
		"oak shelf 900 span 200 deep 18 thick, lip on the front, 15 kg", "sapele shelf 0 thick 900 long 200 deep 15 kg",
		"shelf with a bracket in the middle 1800 long 200 deep 18 thick oak 30kg", "cantilevered oak shelf 300 long 200 deep 18 thick 5 kg",
		"sag of an oak shelf 90000 span, 18 thick, 200 deep under 15 kg")
}

func TestSagFollowsUp(t *testing.T) {
	got := petra(t, "shelf 900 x 250 x 20 in oak, E 12270, 27 kg, sag?", "and in ash?", "as a point load", "both ends fixed?", "and 25 thick?", "how much can it take", "same in inches")
	for i, r := range []request{
		{values: map[string]any{"sag_mm": 1.229}},
		{given: map[string]any{"species": "ash", "moe_mpa": nil}, values: map[string]any{"sag_mm": 1.229 * 12270 / 12000}}, // the timber was said last
		{given: map[string]any{"load": "point", "load_kg": 27}, values: map[string]any{"sag_mm": 1.966 * 12270 / 12000}},
		{values: map[string]any{"sag_mm": 1.966 * 12270 / 12000 / 4}},
		{given: map[string]any{"thickness_mm": 25}, values: map[string]any{"sag_mm": 1.966 * 12270 / 12000 / 4 * 0.512}},
		{values: map[string]any{"sag_mm": nil}, says: []string{"in the middle, until it sags"}},
		{says: []string{" lb in the middle"}},
	} {
		if got[i].Topic != "sag" || got[i].Question != "" {
			t.Errorf("turn %d: topic %s, question %q", i+1, got[i].Topic, got[i].Question)
			continue
		}
		meets(t, got[i].Answer, r, got[i])
	}
}

func TestSagTakesTheAnswerToItsQuestion(t *testing.T) {
	got := petra(t, "does an 18mm plywood shelf 800 span 250 deep take 20 kg", "4000", "will the shelf sag?", "900 x 250 x 20", "27 kg", "oak")
	meets(t, "the stiffness", request{given: map[string]any{"moe_mpa": 4000, "span_mm": 800}, values: map[string]any{"limit_mm": 800. / 300}}, got[1])
	meets(t, "piece by piece", request{given: map[string]any{"span_mm": 900, "width_mm": 250, "thickness_mm": 20, "load_kg": 27}, values: map[string]any{"limit_mm": 3}}, got[5])
}
