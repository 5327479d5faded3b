package commands_test

import (
	"testing"
)

// The reference's example (computed): 4.5 m², 3 coats, 11 m² a litre and a tenth is 1.35 l.
// Without a spread: film 10 m² a litre (FC04, memory), oil 7.4 smooth and 3.7 sawn (FC01 and
// FC02, seen).
func TestCoverage(t *testing.T) {
	answered(t, "coverage", []request{
		{text: "varnish for 4.5 m², 3 coats, the tin says 11 square metres a litre", values: map[string]any{"finish_l": 1.35}, says: []string{"as you said"}},
		{text: "how much oil, two coats on 7.4 square metres", values: map[string]any{"finish_l": 2.2}, says: []string{"heap they can catch fire", "12–48 h", "7–30 days"}},
		{text: "oil on sawn larch boards, 7.4 m2, 2 coats", values: map[string]any{"finish_l": 4.4}},
		{text: "Paint for one outside wall, 4.2 m long by 1.9 m high, 3 coats", given: map[string]any{"area_m2": 7.98}, values: map[string]any{"finish_l": 2.6334}},
		{text: "Paint for walls 4.2 m by 1.9 m and 2.1 m by 1.9 m, 2 coats", given: map[string]any{"area_m2": 11.97}},
		{text: "how much danish oil for 4 boards 1200 x 200, both sides, 2 coats", given: map[string]any{"area_m2": 1.92, "finish": "oil"}},
		{text: "how much paint for 12 slats 800 x 70 x 22 all round, 2 coats", given: map[string]any{"area_m2": 12 * (2*0.8*0.07 + 2*0.87*0.022)}},
		{text: "varnish 100 ml per square metre, 3 m2, 2 coats", values: map[string]any{"finish_l": 0.66}},
		{text: "a litre covers 14 square metres, 4 m2, 3 coats of varnish", values: map[string]any{"finish_l": 4. * 3 / 14 * 1.1}},
		{text: "oil covers 12 to 14 m2 per litre, 3 m2 2 coats", values: map[string]any{"finish_l": 0.55}},
		{text: "paint 400 sq ft per US gallon, 60 sq ft two coats", values: map[string]any{"finish_l": 60. * 2 / 400 * 3.785411784 * 1.1}},
		{text: "varnish for 10 m2", given: map[string]any{"coats": nil}, says: []string{"Coats not said: 3 assumed"}},
		{text: "first coat of varnish thinned 20 %, 5 coats on 2.4 m2", values: map[string]any{"finish_l": 1.32, "thinner_l": 0.0528}},
		{text: "how much polyurethane varnish for 3 m2, 2 coats", given: map[string]any{"finish": "varnish"}},
	})
}

func TestCoverageSaysWhetherThereIsEnough(t *testing.T) {
	answered(t, "coverage", []request{
		{text: "only a 250 ml tin of oil left. 1.8 sqm two coats at 10 m2 per litre, enough?", values: map[string]any{"finish_l": 0.396}, says: []string{"**No: 400 ml", "does 1 coat"}},
		{text: "I've 1 litre of paint, 6 m2 one coat, enough?", says: []string{"**Yes"}},
		{text: "2 tins of 250 ml oil, 3.5 m2, 1 coat, do they do?", given: map[string]any{"have_l": 0.5}, says: []string{"**Only just"}},
		{text: "how many 750 ml tins of varnish for 5 m2, 3 coats", values: map[string]any{"tins": 3}},
	})
}

func TestCoverageSaysWhenTheNextCoatGoesOn(t *testing.T) {
	answered(t, "coverage", []request{
		{text: "how long between coats of varnish", says: []string{"next coat after 6–24 h"}},
		{text: "when can I recoat the oil?", says: []string{"next coat after 12–48 h", "catch fire"}},
		{text: "how long until the paint is fully cured", says: []string{"7–30 days"}},
		{text: "how long does polyurethane varnish take to dry"},
	})
}

func TestCoverageAsksBack(t *testing.T) {
	askedBack(t, "coverage", "how much varnish do I need to get", "varnish for 3 m2, 0 coats", "how much to cover 5 m2, 3 coats", "varnish for -3 m2, 2 coats",
		"how much paint for the door", "how much epoxy for 2 coats on 3 m2", "varnish for 4.2 by 1.9, 2 coats")
}

func TestCoverageLeavesChatterAlone(t *testing.T) {
	for _, text := range []string{"the ash looks gorgeous with oil on it", "we painted two coats on the door yesterday", "bought 2 tins of varnish", "we put oil on the shelf", "7 coat pegs along 1160, first and last 70 in from the ends"} {
		if got := petra(t, text)[0]; got.Topic == "coverage" {
			t.Errorf("%q: %s", text, got.Text)
		}
	}
}

func TestCoverageFollowsUp(t *testing.T) {
	got := petra(t, "how much oil, two coats on 9 square metres", "and three coats?", "varnish instead", "the tin says 12 square metres a litre", "only a 2 l tin, enough?", "3.2 m by 2 m", "both sides", "when can I recoat", "how much for 12 m2")
	for i, r := range []request{
		{values: map[string]any{"finish_l": 9. * 2 / 7.4 * 1.1}},
		{values: map[string]any{"finish_l": 9. * 3 / 7.4 * 1.1}},
		{values: map[string]any{"finish_l": 9. * 3 / 10 * 1.1}},
		{values: map[string]any{"finish_l": 9. * 3 / 12 * 1.1}},
		{says: []string{"**No: 2.5 l"}},
		{given: map[string]any{"area_m2": 6.4}, values: map[string]any{"finish_l": 6.4 * 3 / 12 * 1.1}},
		{given: map[string]any{"area_m2": 12.8}},
		{says: []string{"next coat after"}},
		{given: map[string]any{"length_mm": nil, "area_m2": 24}},
	} {
		if got[i].Topic != "coverage" || got[i].Question != "" {
			t.Errorf("turn %d: topic %s, question %q", i+1, got[i].Topic, got[i].Question)
			continue
		}
		meets(t, got[i].Answer, r, got[i])
	}
}
