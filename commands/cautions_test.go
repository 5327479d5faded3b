package commands_test

import (
	"strings"
	"testing"
)

func TestCautionsWhereTheyApply(t *testing.T) {
	const short, thin, asthma, sea, load, isocyanate, skin = "use push blocks", "Thin or narrow stock", "bring on asthma", "ISO 12216", "carries a load", "isocyanate", "sensitise the skin"
	for _, c := range []struct {
		text      string
		says, not []string
	}{
		{"rough size for 1200 x 90 x 30 oak", nil, []string{"⚠"}},
		{"rough size for 150 x 90 x 30", []string{short}, []string{thin}},
		{"rough size for 1200 x 90 x 6", []string{thin}, []string{short}},
		{"rough size for 1200 x 20 x 20", []string{thin}, nil},
		{"rough size for 1200 x 90 x 30 in western red cedar", []string{asthma}, nil},
		{"finished size of a 280 x 120 x 27 cedar board", []string{short, asthma}, nil},
		{"finished size of a 1200 x 120 x 12 board", []string{thin}, nil},
		{"rough size for a washboard on the boat 500 x 400 x 20 teak", []string{sea, "Dust of teak"}, nil},
		{"open time for polyurethane at 12 degrees", []string{isocyanate}, nil},
		{"how much epoxy for 3 joints 900 by 45", []string{skin}, nil},
		{"which clamp time for epoxy at 15 degrees on a load bearing joint", []string{load}, nil},
		{"clamps for a 900 long edge joint, boards 70 wide, oak", nil, []string{"⚠"}},
	} {
		got := petra(t, c.text)[0]
		meets(t, c.text, request{says: c.says, not: c.not}, got)
		if n := strings.Count(got.Text, "⚠"); n > 2 {
			t.Errorf("%q: %d cautions", c.text, n)
		}
	}
}

// Several short parts are warned of once.
func TestCautionsOfSeveralItemsAreSaidOnce(t *testing.T) {
	got := petra(t, "rough sizes for 6 at 150 x 90 x 30 and 4 at 180 x 90 x 30")[0]
	if n := strings.Count(got.Text, "use push blocks"); n != 1 {
		t.Errorf("said %d times:\n%s", n, got.Text)
	}
}

func TestACautionIsGivenOnceADay(t *testing.T) {
	got := petra(t, "how much oil, two coats on 9 square metres", "how much oil, two coats on 5 square metres")
	if !strings.Contains(got[0].Text, "catch fire") || strings.Contains(got[1].Text, "catch fire") {
		t.Errorf("%s\n%s", got[0].Text, got[1].Text)
	}
}
