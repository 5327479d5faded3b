package tables_test

import (
	"reflect"
	"strings"
	"testing"

	"fettle/calc/measure"
	"fettle/commands/tables"
)

func size(line int, name string, q int, l, w, t measure.Length) tables.PartRow {
	return tables.PartRow{Line: line, Name: name, Quantity: q, Length: l * mm, Width: w * mm, Thickness: t * mm}
}

func TestPasted(t *testing.T) {
	two := []tables.PartRow{size(0, "rack slat", 6, 742, 38, 16), size(0, "rack side", 2, 480, 130, 18)}
	for name, message := range map[string]string{
		"Markdown":         "here's the list\n| part | qty | length | width | thickness |\n|---|--:|:-:|---|---|\n| rack slat | 6 | 742 | 38 | 16 |\n| rack side | 2 | 480 | 130 | 18 |\nthanks",
		"CSV":              "add these:\nname,quantity,length,width,thickness\nrack slat,6,742,38,16\nrack side,2,480,130,18",
		"spreadsheet":      "name\tlength\twidth\tthickness\tquantity\nrack slat\t742\t38\t16\t6\nrack side\t480\t130\t18\t2\n",
		"no heads":         "rack slat\t6\t742\t38\t16\nrack side\t2\t480\t130\t18",
		"no heads, last":   "rack slat\t742\t38\t16\t6\nrack side\t480\t130\t18\t2",
		"no heads, commas": "rack slat,6,742,38,16\nrack side,2,480,130,18",
		"semicolons":       "rack slat;6;742,0;38;16\nrack side;2;480;130;18",
		"fenced":           "```\nname;quantity;length;width;thickness\nrack slat;6;742;38;16\nrack side;2;480;130;18\n```",
		"count in front":   "6\track slat\t742\t38\t16\n2\track side\t480\t130\t18",
	} {
		t.Run(name, func(t *testing.T) {
			got, found, err := tables.Pasted(message)
			if err != nil || !found {
				t.Fatalf("found %v, %v", found, err)
			}
			for i := range got {
				got[i].Line = 0
			}
			if !reflect.DeepEqual(got, two) {
				t.Errorf("got %+v", got)
			}
		})
	}
}

func TestPastedWithTimberOrWithoutNames(t *testing.T) {
	got, _, err := tables.Pasted("slat\t6\t742\t38\t16\tash")
	if err != nil || len(got) != 1 || got[0].Species != "ash" || got[0].Quantity != 6 {
		t.Errorf("got %+v, %v", got, err)
	}
	got, _, err = tables.Pasted("length,width,thickness\n742,38,16")
	if err != nil || len(got) != 1 || got[0].Name != "" || got[0].Quantity != 1 {
		t.Errorf("got %+v, %v", got, err)
	}
}

func TestNoTable(t *testing.T) {
	for _, message := range []string{
		"", "add 6 rack slats 742 x 38 x 16 ash", "6 slats, 742 x 38 x 16, ash\n2 sides, 480 x 130 x 18, ash", "see you at 6, 7 or 8",
		"length, width, thickness", "a|b", "two\nlines",
	} {
		if rows, found, err := tables.Pasted(message); found || err != nil || rows != nil {
			t.Errorf("%q: found %+v, %v", message, rows, err)
		}
	}
}

func TestPastedRefusals(t *testing.T) {
	for message, want := range map[string]string{
		"a\t60\t60\t20\t20": "which column is which",
		"a\t6\t38\t742\t16": "which column is which",
		"a\t6\t742\t38\t16\nrail 612 x 92\nb\t2\t480\t130\t18":                       "line 2",
		"name,quantity,length,width,thickness\nrail,2,x,92,40":                       "line 2, column length",
		"name,quantity,length,width,thickness\nrail,2,612,92,40\nand a stile 1720":   "line 3",
		"| part | qty | length | width | thickness |\n|--|--|--|--|--|\n|a|1|0|9|9|": "line 3, column length",
		"a\t6\t742\t38\t16\na\t2\t480\t130\t18":                                      "line 2, column name",
	} {
		got, found, err := tables.Pasted(message)
		if !found || err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %+v, %v; want %q", message, got, err, want)
		}
	}
}

func FuzzPasted(f *testing.F) {
	f.Add("| part | qty | length | width | thickness |\n|---|---|---|---|---|\n| a | 6 | 742 | 38 | 16 |")
	f.Add("a\t6\t742\t38\t16\nb,1")
	f.Add("length;width;thickness\n1;1;1")
	f.Fuzz(func(t *testing.T, message string) {
		rows, found, err := tables.Pasted(message)
		if !found && (rows != nil || err != nil) || found && err == nil && len(rows) == 0 {
			t.Errorf("%q: %+v, %v, %v", message, rows, found, err)
		}
		for _, p := range rows {
			if err == nil && (p.Quantity < 1 || p.Length <= 0 || p.Width <= 0 || p.Thickness <= 0) {
				t.Errorf("%q was read as %+v", message, p)
			}
		}
	})
}

// Boards are read as parts are, and have a price where a column has one.
func TestPastedBoards(t *testing.T) {
	for message, want := range map[string]struct {
		rows   []tables.BoardRow
		timber bool
	}{
		"boards\nname;quantity;length;width;thickness;price\nsapele;2;2600;210;32;31,20": {[]tables.BoardRow{{Line: 3, Name: "sapele", Quantity: 2, Length: 2600 * mm, Width: 210 * mm, Thickness: 32 * mm, Price: 31.2}}, true},
		"| length | width | thickness | price |\n|--|--|--|--|\n| 2400 | 190 | 52 | |":   {[]tables.BoardRow{{Line: 3, Quantity: 1, Length: 2400 * mm, Width: 190 * mm, Thickness: 52 * mm, Unpriced: true}}, true},
		"larch\t3\t3000\t145\t28": {[]tables.BoardRow{{Line: 1, Name: "larch", Quantity: 3, Length: 3000 * mm, Width: 145 * mm, Thickness: 28 * mm, Unpriced: true}}, false},
		"no table":                {nil, false},
	} {
		rows, timber, err := tables.PastedBoards(message)
		if err != nil || timber != want.timber || !reflect.DeepEqual(rows, want.rows) {
			t.Errorf("%q: %+v, %v, %v", message, rows, timber, err)
		}
	}
	if _, _, err := tables.PastedBoards("length;width;thickness;price\n2600;2l0;32;1"); err == nil || !strings.Contains(err.Error(), "line 2, column width") {
		t.Errorf("a bad width is refused with %v", err)
	}
}

func FuzzPastedBoards(f *testing.F) {
	f.Add("name;quantity;length;width;thickness;price\nsapele;2;2600;210;32;31,20")
	f.Add("a\t6\t742\t38\t16\nb,1")
	f.Fuzz(func(t *testing.T, message string) {
		rows, _, err := tables.PastedBoards(message)
		for _, b := range rows {
			if err == nil && (b.Quantity < 1 || b.Length <= 0 || b.Width <= 0 || b.Thickness <= 0 || b.Price < 0) {
				t.Errorf("%q was read as %+v", message, b)
			}
		}
	})
}
