package commands_test

import (
	"strings"
	"testing"
)

// A correction of a correction leaves one part, and undo goes back by one word at a time.
func TestCorrectionsOfCorrections(t *testing.T) {
	k := talking(t)
	k.says("add 2 stiles 1720 x 92 x 40")
	for _, size := range []string{"1702", "1703", "1704", "1705"} {
		k.wants("no, "+size, "part", "Added 2 × stile "+size+" × 92 × 40 mm", "1 part, 2 pieces", "!already")
	}
	k.wants("show the parts", "parts", "2 × stile 1705", "!stile 2")
	k.wants("undo", "undo", "Taken back: stile")
	k.wants("show the parts", "parts", "2 × stile 1704", "!stile 2")

	k.says("add 3 rails 640 x 92 x 40")
	k.wants("no, 4", "part", "4 × rail 640")
	k.wants("no, 95", "part", "4 × rail 640 × 95")
	k.wants("sorry, 610 long", "part", "4 × rail 610 × 95")
	if list := k.says("show the parts").Text; strings.Count(list, "rail") != 1 || !strings.Contains(list, "4 × rail 610 × 95 × 40") {
		t.Error(list)
	}
	k.says("sill measures 915")
	k.says("no, 925")
	k.wants("no, 935", "measure", "935", "!which stands")
}

// A word about one of several parts that were added together changes that part, or asks which.
func TestOneOfSeveralIsCorrected(t *testing.T) {
	const added = "add 2 stiles 1720 x 92 x 40 and 3 rails 640 x 92 x 40"
	stile, rail := "2 × stile 1720 × 92 × 40 mm", "3 × rail 640 × 92 × 40 mm"
	for said, want := range map[string][2]string{
		"no, 1702":                        {"2 × stile 1702 × 92 × 40 mm", rail},
		"no, 612":                         {stile, "3 × rail 612 × 92 × 40 mm"},
		"i meant 61.2 cm":                 {stile, "3 × rail 612 × 92 × 40 mm"},
		"the second one is 612":           {stile, "3 × rail 612 × 92 × 40 mm"},
		"the 2nd should be 612 long":      {stile, "3 × rail 612 × 92 × 40 mm"},
		"no, the rail is 612":             {stile, "3 × rail 612 × 92 × 40 mm"},
		"no, the rails are 612":           {stile, "3 × rail 612 × 92 × 40 mm"},
		"sorry, the last one is 612 x 95": {stile, "3 × rail 612 × 95 × 40 mm"},
		"actually the stile is 1702":      {"2 × stile 1702 × 92 × 40 mm", rail},
		"no, 1702 not 1720":               {"2 × stile 1702 × 92 × 40 mm", rail},
		"no, the 1720 stiles are 1702":    {"2 × stile 1702 × 92 × 40 mm", rail},
		"oops, the first one 1702":        {"2 × stile 1702 × 92 × 40 mm", rail},
		"no, 4 rails":                     {stile, "4 × rail 640 × 92 × 40 mm"},
		"no, the rails are ash":           {stile, "3 × rail 640 × 92 × 40 mm, ash"},
		"no, both 95 wide":                {"2 × stile 1720 × 95 × 40 mm", "3 × rail 640 × 95 × 40 mm"},
		"no, 3 of them":                   {"3 × stile 1720 × 92 × 40 mm", rail},
	} {
		k := talking(t)
		k.says(added)
		a := k.says(said)
		list := k.says("show the parts").Text
		if a.Question != "" || !strings.Contains(list, want[0]+"\n") || !strings.HasSuffix(list, want[1]) {
			t.Errorf("%q: %s\n%s", said, a.Text, list)
		}
		for _, c := range a.Changes {
			if c["op"] != "change" {
				t.Errorf("%q: changes %v", said, c)
			}
		}
		k.says("undo")
		if list := k.says("show the parts").Text; !strings.Contains(list, stile+"\n") || !strings.HasSuffix(list, rail) {
			t.Errorf("%q and undo: %s", said, list)
		}
	}
	for said, choices := range map[string]string{
		"no, 95":                 "1 stile, width (92 now) · 2 rail, width (92 now) · 3 both",
		"no, 1070":               "1 stile, length (1720 now) · 2 rail, length (640 now) · 3 both",
		"sorry, 45 thick":        "1 stile, thickness (40 now) · 2 rail, thickness (40 now)",
		"no, 4":                  "1 rail, quantity (3 now) · 2 stile, quantity (2 now)",
		"the third one is 612":   "There are only 2 of them. Which do you mean? 1 stile · 2 rail",
		"no, the rail is 6 long": "1 rail",
	} {
		k := talking(t)
		k.says(added)
		k.wants(said, "part", "?", choices)
		if list := k.says("show the parts").Text; !strings.Contains(list, stile+"\n") || !strings.HasSuffix(list, rail) {
			t.Errorf("%q: %s", said, list)
		}
	}
	k := talking(t)
	k.says(added)
	k.says("no, 95")
	k.wants("the rail", "part", "Changed: 3 × rail 640 × 95 × 40 mm")
	k.wants("no, 60 wide", "part", "Changed: 3 × rail 640 × 60 × 40 mm")
	k.wants("the stile should be 1702", "part", "Changed: 2 × stile 1702 × 92 × 40 mm")
	k.wants("the second one is 612", "part", "Changed: 3 × rail 612 × 60 × 40 mm")
	k.wants("Gil> the first one is 1699", "part", "Changed: 2 × stile 1699")
	k.says("rough size for 600 by 45")
	k.wants("the first one is oak", "part", "Changed: 2 × stile 1699 × 92 × 40 mm, oak")
	k.says("bought 2 sapele boards 2600 x 210 x 32")
	if a := k.says("the second one is 2580"); a.Topic == "part" {
		t.Error(a.Text)
	}
}

// What is meant for something else is not taken for a correction of parts.
func TestOtherWordsAfterSeveralParts(t *testing.T) {
	for _, said := range []string{"no, kerf is 3", "no, gil has 2", "wait 20 min", "no, see you at 6", "no thanks", "sorry, the stove is 612 from the wall"} {
		k := talking(t)
		k.says("add 2 stiles 1720 x 92 x 40 and 3 rails 640 x 92 x 40")
		if a := k.says(said); a.Topic == "part" {
			t.Errorf("%q: %s", said, a.Text)
		}
	}
}

// A change of one thing after another was added leaves what was added, and takes nothing over from it.
func TestAChangeAfterAnAddTakesNothingBack(t *testing.T) {
	k := talking(t)
	k.says("add 2 stiles 1720 x 92 x 40")
	k.says("add 3 rails 640 x 92 x 30")
	k.wants("no, the stile is 1702", "part", "Changed: 2 × stile 1702 × 92 × 40 mm")
	k.wants("show the parts", "parts", "2 × stile 1702 × 92 × 40 mm", "3 × rail 640 × 92 × 30 mm")
}

// The answer to a question about a correction corrects as well.
func TestACorrectionThatIsAskedAbout(t *testing.T) {
	k := talking(t)
	k.says("add 3 rails 640 x 92 x 40")
	k.wants("no, 60", "part", "?", "1 thickness · 2 width")
	k.wants("2", "part", "3 × rail 640 × 60 × 40 mm", "!rail 2")
	k.wants("show the parts", "parts", "3 × rail 640 × 60 × 40 mm", "!rail 2")
}
