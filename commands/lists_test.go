package commands_test

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"fettle/bot/accuracy/phrases"
)

// pastes has Petra send several lines as one message and gives the answer.
func (k *conversation) pastes(text string) phrases.Answer {
	k.Helper()
	k.out.Reset()
	if err := k.term.Ask(context.Background(), text); err != nil {
		k.Fatal(err)
	}
	a, err := phrases.Parse(bytes.TrimSpace(k.out.Bytes()))
	if err != nil {
		k.Fatalf("%q: %v", text, err)
	}
	return a
}

// A list is taken in as people and spreadsheets write it.
func TestListsArePasted(t *testing.T) {
	slatsAndSides := []string{"6 × rack slat 742 × 38 × 16 mm", "2 × rack side 480 × 130 × 18 mm"}
	for name, c := range map[string]struct {
		text  string
		parts []string
	}{
		"a Markdown table with words around it": {"here's the list\n| part | qty | length | width | thickness |\n|---|--:|:-:|---|---|\n| rack slat | 6 | 742 | 38 | 16 |\n| rack side | 2 | 480 | 130 | 18 |\nthanks", slatsAndSides},
		"a Markdown table with units and timber": {"| Part | Qty | L (mm) | W (mm) | T (mm) | Timber |\n|------|-----|--------|--------|--------|---|\n| top rail | 1 | 612 | 92 | 40 | sapele |\n| stile | 2 | 1720 | 92 | 40 | sapele |",
			[]string{"1 × top rail 612 × 92 × 40 mm, sapele", "2 × stile 1720 × 92 × 40 mm, sapele"}},
		"semicolons and decimal commas":     {"name;quantity;length;width;thickness\nrack slat;6;742,5;38;16\nrack side;2;480;130,5;18", []string{"6 × rack slat 742.5 × 38 × 16 mm", "2 × rack side 480 × 130.5 × 18 mm"}},
		"semicolons without heads":          {"parts:\nrack slat;6;742,5;38;16\nrack side;2;480;130,5;18", []string{"6 × rack slat 742.5 × 38 × 16 mm", "2 × rack side 480 × 130.5 × 18 mm"}},
		"commas":                            {"add these:\nname,quantity,length,width,thickness\nrack slat,6,742,38,16\nrack side,2,480,130,18", slatsAndSides},
		"cells of a spreadsheet":            {"Part\tNo.\tLength\tWidth\tThickness\nrack slat\t6\t742\t38\t16\nrack side\t2\t480\t130\t18", slatsAndSides},
		"cells of a spreadsheet, no heads":  {"rack slat\t6\t742\t38\t16\nrack side\t2\t480\t130\t18", slatsAndSides},
		"one a line":                        {"6 rack slats 742 x 38 x 16\n2 rack sides 480 x 130 x 18", slatsAndSides},
		"one a line, with bullets":          {"add these please:\n- 6 off rack slat 742 x 38 x 16\n- 2 off rack side 480 x 130 x 18", slatsAndSides},
		"one a line, numbered":              {"1. 6 rack slats 742 x 38 x 16\n2. 2 rack sides 480 x 130 x 18", slatsAndSides},
		"how many in brackets":              {"Rack parts\n\nrack slat 742 x 38 x 16 (6 off)\nrack side 480x130x18, 2 pcs\n", slatsAndSides},
		"how many behind a dash":            {"* rack slat - 742 x 38 x 16 - 6 pcs\n* rack side - 480 x 130 x 18 - 2", slatsAndSides},
		"how many as a fourth figure":       {"rack slat 742 x 38 x 16 x6\nrack side 480 x 130 x 18 x2", slatsAndSides},
		"how many as the first of four":     {"6x 742 x 38 x 16 rack slats\n2x 480 x 130 x 18 rack sides", slatsAndSides},
		"with a colon and an at":            {"rack slats: 6 @ 742 x 38 x 16\nrack sides: 2 @ 480 x 130 x 18", slatsAndSides},
		"sizes in words":                    {"rack slats 742 long 38 wide 16 thick, 6 of them\nrack sides 480 long, 130 wide, 18 thick, 2 of them", slatsAndSides},
		"a remark between":                  {"6 rack slats 742 x 38 x 16\n\n(measured on Sunday)\n2 rack sides 480 x 130 x 18", slatsAndSides},
		"one line in another unit":          {"6 rack slats 742 x 38 x 16\n2 rack sides 48 x 13 x 1.8 cm", slatsAndSides},
		"a sentence, the number behind":     {"add rack slats 742 x 38 x 16 x 6 and rack sides 480 x 130 x 18 - 2", slatsAndSides},
		"one sentence, the number behind":   {"add rack slats 742 x 38 x 16 x 6", slatsAndSides[:1]},
		"one sentence, a dash":              {"add rack slats 742 x 38 x 16 - 6 pcs", slatsAndSides[:1]},
		"one sentence, the number in front": {"add 6 x 742 x 38 x 16 rack slats", slatsAndSides[:1]},
	} {
		t.Run(name, func(t *testing.T) {
			k := talking(t)
			k.T = t
			a := k.pastes(c.text)
			if a.Topic != "part" || len(a.Changes) != len(c.parts) {
				t.Errorf("%s, %d changes: %s", a.Topic, len(a.Changes), a.Text)
			}
			list := k.says("show the parts").Text
			for _, p := range c.parts {
				if !strings.Contains(list+"\n", p+"\n") && !strings.Contains(list, p+"**") {
					t.Errorf("no %q in\n%s", p, list)
				}
			}
		})
	}
}

// A line that can't be read is named, and nothing is taken in.
func TestBadLinesAreNamed(t *testing.T) {
	for name, c := range map[string]struct{ text, says string }{
		"a size is missing":           {"6 rack slats 742 x 38 x 16\n2 rack sides 480 x 130\n1 top rail 612 x 92 x 40", "Line 2 (“2 rack sides 480 x 130”) has no thickness"},
		"no size":                     {"6 rack slats 742 x 38 x 16\nrack sides as before but 30 shorter\n1 top rail 612 x 92 x 40", "Line 2 (“rack sides as before but 30 shorter”) can't be read"},
		"two sizes":                   {"6 rack slats 742 x 38 x 16\n2 rack sides 480 x 130 x 18 and 1 lip 480 x 30 x 12", "Line 2 (“2 rack sides 480 x 130 x 18 and 1 lip 4…”) holds 2 sizes"},
		"a figure of nothing":         {"rail 2 612 x 92 x 40\nrail 3 640 x 92 x 40", "Line 1 (“rail 2 612 x 92 x 40”) holds a 2 that may be how many"},
		"four figures":                {"6 rack slats 742 x 38 x 16\nblocks 120 x 90 x 40 x 20", "Line 2 (“blocks 120 x 90 x 40 x 20”) has four figures. Which is how many? Write “120 off” or “20 off”"},
		"a word for a number":         {"name,quantity,length,width,thickness\nrack slat,6,742,38,16\nrack side,two,480,130,18", "line 3, column quantity: “two” is not a number"},
		"a letter in a number":        {"| name | qty | length | width | thickness |\n|--|--|--|--|--|\n| rail | 1 | 6l2 | 92 | 40 |", "line 3, column length: “6l2” is not a number"},
		"a cell is missing":           {"name;quantity;length;width;thickness\nrack slat;6;742,5;38;16\nrack side;2;480;130,5", "line 3, column thickness: the number is missing"},
		"a cell is missing, no heads": {"rack slat\t6\t742\t38\t16\nrack side\t2\t480\t130", "line 2, column thickness: the number is missing"},
		"nought":                      {"rack slat\t6\t742\t38\t16\nrack side\t2\t480\t130\t0", "line 2, column thickness: nought can't be"},
		"another order":               {"rack slat\t6\t742\t38\t16\nrack side\t2\t130\t480\t18", "line 2: the sizes do not stand as length, width and thickness"},
		"a sentence of four figures":  {"add 120 x 90 x 40 x 20 blocks", "four figures. Which is how many?"},
	} {
		t.Run(name, func(t *testing.T) {
			k := talking(t)
			k.T = t
			a := k.pastes(c.text)
			if a.Topic != "part" || a.Question == "" || !strings.Contains(a.Question, c.says) || len(a.Changes) > 0 {
				t.Errorf("%s: %s %v", a.Topic, a.Text, a.Changes)
			}
			k.wants("show the parts", "parts", "No parts on the list yet")
		})
	}
}

// A pasted table of timber is timber: by its prices, or by what is said of it.
func TestTablesOfBoardsArePasted(t *testing.T) {
	for text, want := range map[string][]string{
		"we have these boards:\nname;quantity;length;width;thickness;price\nsapele board;2;2600;210;32;31,20":                                                   {"sapele 1 to 2: 2600 × 210 × 32 mm, 31.2 each"},
		"| timber | qty | length | width | thickness | price |\n|--|--|--|--|--|--|\n| sapele | 2 | 2600 | 210 | 32 | 31.20 |\n| ash | 1 | 2400 | 190 | 52 | |": {"sapele 1 to 2: 2600 × 210 × 32 mm, 31.2 each", "ash 1: 2400 × 190 × 52 mm\n"},
		"stock:\ntimber\tqty\tlength\twidth\tthickness\nlarch\t3\t3000\t145\t28":                                                                                {"larch 1 to 3: 3000 × 145 × 28 mm"},
		"boards:\n2 sapele 2600 x 210 x 32\n1 ash 2400 x 190 x 52":                                                                                              {"sapele 1 to 2: 2600 × 210 × 32 mm", "ash 1: 2400 × 190 × 52 mm"},
	} {
		k := talking(t)
		a := k.pastes(text)
		for _, w := range want {
			if a.Topic != "board" || !strings.Contains(a.Text+"\n", w) {
				t.Errorf("%q: %s: no %q in %s", text, a.Topic, w, a.Text)
			}
		}
	}
	k := talking(t)
	if a := k.pastes("boards:\nname;quantity;length;width;thickness;price\nsapele;2;2600;2l0;32;31,20"); a.Question == "" || !strings.Contains(a.Text, "line 3, column width: “2l0” is not a number") {
		t.Error(a.Text)
	}
}

// How many boards there are is read wherever it stands.
func TestBoardsAreCounted(t *testing.T) {
	for text, want := range map[string]string{
		"bought 4 larch 3000 x 145 x 28": "larch 1 to 4:", "boards: 2 sapele 2600 x 210 x 32, 1 ash 2400 x 190 x 52": "sapele 1 to 2:", "stock: sapele 2600 x 210 x 32 (2), ash 2400 x 190 x 52 (3)": "ash 1 to 3:",
		"we have 3 oak planks 2400 x 190 x 52 and 2 sapele 2600 x 210 x 32": "sapele 1 to 2:", "bought larch boards 3000 x 145 x 28 - 4": "larch 1 to 4:", "bought 4 birch ply sheets 2440 x 1220 x 18": "plywood 1 to 4:",
		"another sapele board 2600 x 210 x 32": "sapele 1:", "we have a board 2600 x 210 x 32 sapele": "sapele 1:",
	} {
		k := talking(t)
		k.wants(text, "board", want)
	}
}
