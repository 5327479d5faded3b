package tables_test

import (
	"errors"
	"fmt"
	"reflect"
	"strings"
	"testing"
	"unicode/utf16"

	"pgregory.net/rapid"

	"fettle/calc/measure"
	"fettle/commands/tables"
)

const mm = measure.Millimetre

func rail(line int) tables.PartRow {
	return tables.PartRow{Line: line, Name: "top rail", Quantity: 2, Length: 6125 * mm / 10, Width: 92 * mm, Thickness: 40 * mm}
}

// What spreadsheets make of the same two parts.
func TestPartsAsSpreadsheetsWriteThem(t *testing.T) {
	for name, file := range map[string]string{
		"plain":           "name,quantity,length,width,thickness\ntop rail,2,612.5,92,40\n",
		"byte order mark": "\ufeffname,quantity,length,width,thickness\r\ntop rail,2,612.5,92,40\r\n",
		"semicolons":      "Name;Quantity;Length;Width;Thickness\ntop rail;2;612,5;92;40\n",
		"told separator":  "sep=;\nname;quantity;length;width;thickness\ntop rail;2;612,5;92,0;40\n",
		"tabs":            "NAME\tQUANTITY\tLENGTH\tWIDTH\tTHICKNESS\ntop rail\t2\t612,5\t92\t40",
		"quoted":          "\"name\",\"quantity\",\"length\",\"width\",\"thickness\"\n\"top rail\",\"2\",\"612,5\",\"92\",\"40\"\n",
		"blank lines":     "\nname,quantity,length,width,thickness\n\n,,,,\n\ntop rail,2,612.5,92,40\n,,,,\n",
		"another order":   "thickness,name,length,colour,width,quantity\n40,top rail,612.5,red,92,2\n",
		"units in heads":  "name,qty,length_cm,width (mm),thickness [mm]\ntop rail,2,61.25,92,40\n",
		"units in cells":  "name,quantity,length,width,thickness\ntop rail,2,61.25 cm,92mm,4 cm\n",
		"old line ends":   "name,quantity,length,width,thickness\rtop rail,2,612.5,92,40\r",
		"sixteen bits":    sixteen("name\tquantity\tlength\twidth\tthickness\r\ntop rail\t2\t612,5\t92\t40\r\n"),
		"Western code":    "name,quantity,length,width,thickness,note\ntop rail,2,612.5,92,40,\xfc\n",
		"no break spaces": "name,quantity,length,width,thickness\n top\u00a0rail ,2, 612.5 ,92,40\n",
		"three decimals":  "name,quantity,length,width,thickness\ntop rail,2,612.500,92.000,40.000\n",
		"cells too many":  "name;quantity;length;width;thickness\ntop rail;2;612,5;92;40;;\n",
	} {
		t.Run(name, func(t *testing.T) {
			got, err := tables.Parts("parts.csv", strings.NewReader(file))
			if err != nil {
				t.Fatal(err)
			}
			want := rail(0)
			if len(got) == 1 {
				want.Line = got[0].Line
			}
			if !reflect.DeepEqual(got, []tables.PartRow{want}) {
				t.Errorf("got %+v, want %+v", got, want)
			}
		})
	}
}

// sixteen writes a text as some spreadsheets do: in units of sixteen bits, the low byte first.
func sixteen(text string) string {
	out := []byte{0xFF, 0xFE}
	for _, u := range utf16.Encode([]rune(text)) {
		out = append(out, byte(u), byte(u>>8))
	}
	return string(out)
}

func TestFurtherColumns(t *testing.T) {
	got, err := tables.Parts("parts.csv", strings.NewReader("name,quantity,length,width,thickness,Timber,grain,group\nstile,2,1720,92,40,sapele,free,door\n"))
	want := []tables.PartRow{{Line: 2, Name: "stile", Quantity: 2, Length: 1720 * mm, Width: 92 * mm, Thickness: 40 * mm, Species: "sapele", Grain: "free", Group: "door"}}
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v (%v), want %+v", got, err, want)
	}
}

// Inches are exact, and a decimal with three places that can't be a thousand is one.
func TestSizesAreExact(t *testing.T) {
	got, err := tables.Parts("parts.csv", strings.NewReader("name,quantity,length,width,thickness\na,1,\"29 1/2 in\",2.25 in,\"7/8\"\"\"\nb,1,\"1 200,5\",92,15.875\nc,1,\"1.200,5\",92,9\n"))
	if err != nil {
		t.Fatal(err)
	}
	if a := got[0]; a.Length != 59*measure.Inch/2 || a.Width != 9*measure.Inch/4 || a.Thickness != 7*measure.Inch/8 {
		t.Errorf("inches: %+v", a)
	}
	if b := got[1]; b.Length != 12005*mm/10 || b.Thickness != 5*measure.Inch/8 {
		t.Errorf("decimals: %+v", b)
	}
	if c := got[2]; c.Length != 12005*mm/10 {
		t.Errorf("thousands: %+v", c)
	}
}

func TestBoards(t *testing.T) {
	got, err := tables.Boards("boards.csv", strings.NewReader("name;quantity;length;width;thickness;price\nB1;3;2600;210;52;31,20\nB2;1;1800;150;27;\nB3;1;1800;150;27;€ 12\n"))
	want := []tables.BoardRow{
		{Line: 2, Name: "B1", Quantity: 3, Length: 2600 * mm, Width: 210 * mm, Thickness: 52 * mm, Price: 31.2},
		{Line: 3, Name: "B2", Quantity: 1, Length: 1800 * mm, Width: 150 * mm, Thickness: 27 * mm, Unpriced: true},
		{Line: 4, Name: "B3", Quantity: 1, Length: 1800 * mm, Width: 150 * mm, Thickness: 27 * mm, Price: 12},
	}
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v (%v), want %+v", got, err, want)
	}
}

var boards = []tables.BoardRow{{Name: "B1", Quantity: 3, Length: 2600 * mm, Width: 210 * mm, Thickness: 52 * mm}, {Name: "B#2", Quantity: 1, Length: 900 * mm, Width: 100 * mm}}

func TestDefects(t *testing.T) {
	got, err := tables.Defects("defects.csv", strings.NewReader("board,x,y,length,width,kind\nb1#2,900,0,60,210,knot\nB#2,0,0,10,10,\n"), boards)
	want := []tables.DefectRow{
		{Line: 2, Board: "B1", Copy: 2, X: 900 * mm, Length: 60 * mm, Width: 210 * mm, Kind: "knot"},
		{Line: 3, Board: "B#2", Copy: 1, Length: 10 * mm, Width: 10 * mm},
	}
	if err != nil || !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v (%v), want %+v", got, err, want)
	}
}

// What is refused, with the place that the sentence must name.
func TestRefusals(t *testing.T) {
	const heads = "name,quantity,length,width,thickness\nstile,1,1720,92,40\n"
	for file, want := range map[string][]string{
		heads + "rail,2,0,92,40\n":                      {"line 3", "length", "nought"},
		heads + "rail,2,-612,92,40\n":                   {"line 3", "length", "below nought"},
		heads + "rail,2,612,wide,40\n":                  {"line 3", "width", "“wide” is not a number"},
		heads + "rail,2,612,,40\n":                      {"line 3", "width", "missing"},
		heads + "rail,2,612,92\n":                       {"line 3", "thickness", "missing"},
		heads + "rail,2,NaN,92,40\n":                    {"line 3", "length", "not a number"},
		heads + "rail,2,1e3,92,40\n":                    {"line 3", "length", "not a number"},
		heads + "rail,2,0x10,92,40\n":                   {"line 3", "length", "not a number"},
		heads + "rail,2,99999,92,40\n":                  {"line 3", "length", "30000"},
		heads + "rail,0,612,92,40\n":                    {"line 3", "quantity", "nought"},
		heads + "rail,-1,612,92,40\n":                   {"line 3", "quantity", "below nought"},
		heads + "rail,1.5,612,92,40\n":                  {"line 3", "quantity", "whole"},
		heads + "rail,5000000,612,92,40\n":              {"line 3", "quantity", "10000"},
		heads + "rail,,612,92,40\n":                     {"line 3", "quantity", "missing"},
		heads + "rail,2,1.234,92,40\n":                  {"line 3", "length", "1234", "three decimals"},
		heads + "rail,2,\"1,234\",92,40\n":              {"line 3", "length", "1234", "three decimals"},
		heads + "rail,2,7/8,92,40\n":                    {"line 3", "length", "not a number"},
		heads + "STILE,2,612,92,40\n":                   {"line 3", "name", "line 2 already"},
		heads + ",2,612,92,40\n":                        {"line 3", "name", "missing"},
		heads + strings.Repeat("a", 99) + ",1,1,1,1\n":  {"line 3", "name", "too long"},
		heads + "rail,2,612,5,92,40\n":                  {"line 3", "6 cells"},
		heads + "\"rail,2,612,92,40\n":                  {"line 3", "quotation"},
		"name,quantity,length,width\nrail,2,612,92\n":   {"line 1", "thickness"},
		"rail,2,612,92,40\n":                            {"line 1", "no column is called"},
		"name,quantity,length,length,width,thickness\n": {"line 1", "length", "two columns"},
		"":         {"parts.csv: is empty"},
		"\n\n;;\n": {"parts.csv"},
		"\x00\x01": {"no text"},
	} {
		got, err := tables.Parts("parts.csv", strings.NewReader(file))
		refused(t, file, got, err, "parts.csv", want...)
	}
}

func refused(t *testing.T, file string, got any, err error, name string, want ...string) {
	t.Helper()
	var fault *tables.Fault
	if !errors.As(err, &fault) {
		t.Errorf("%q: got %+v and error %v, want a fault", file, got, err)
		return
	}
	for _, w := range append(want, name) {
		if !strings.Contains(err.Error(), w) || strings.ContainsAny(err.Error(), "\n\r") {
			t.Errorf("%q: %q does not say %q in one line", file, err, w)
		}
	}
}

func TestRefusedBoardsAndDefects(t *testing.T) {
	for file, want := range map[string][]string{
		"name,quantity,length,width,thickness\nB1,1,2600,210,52\n":             {"line 1", "price"},
		"name,quantity,length,width,thickness,price\nB1,1,2600,210,52,x\n":     {"line 2", "price", "not a number"},
		"name,quantity,length,width,thickness,price\nB1,1,2600,210,52,-1\n":    {"line 2", "price", "below"},
		"name,quantity,length,width,thickness,price\nB1,1,2600,210,52,1.500\n": {"line 2", "price", "1500"},
		"name,quantity,length,width,thickness,price\nB1,1,2600,210,52,9999999": {"line 2", "price", "too much"},
	} {
		got, err := tables.Boards("boards.csv", strings.NewReader(file))
		refused(t, file, got, err, "boards.csv", want...)
	}
	for file, want := range map[string][]string{
		"B9,0,0,10,10":      {"line 2", "board", "B9"},
		"B1#4,0,0,10,10":    {"line 2", "board", "only 3"},
		"B1#0,0,0,10,10":    {"line 2", "board"},
		"B1#x,0,0,10,10":    {"line 2", "board"},
		"B1,2595,0,10,10":   {"line 2", "x", "2605", "2600"},
		"B1,0,205,10,10":    {"line 2", "y", "215", "210"},
		"B1,-1,0,10,10":     {"line 2", "x", "below"},
		"B1,0,0,0,10":       {"line 2", "length", "nought"},
		"B1,0,0,10":         {"line 2", "width", "missing"},
		",0,0,10,10":        {"line 2", "board", "missing"},
		"B1,zero,0,10,10,1": {"line 2"},
	} {
		got, err := tables.Defects("defects.csv", strings.NewReader("board,x,y,length,width\n"+file+"\n"), boards)
		refused(t, file, got, err, "defects.csv", want...)
	}
}

// Whatever a list holds, it is read as it was written, with every separator.
func TestWrittenListsAreReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		comma := rapid.SampledFrom([]string{",", ";", "\t"}).Draw(t, "comma")
		n := rapid.IntRange(1, 6).Draw(t, "rows")
		text := strings.Join([]string{"name", "quantity", "length", "width", "thickness"}, comma) + "\n"
		var want []tables.PartRow
		for i := range n {
			p := tables.PartRow{Line: i + 2, Name: fmt.Sprintf("part %d", i), Quantity: rapid.IntRange(1, tables.MostPieces).Draw(t, "q")}
			var cells []string
			for _, s := range []struct {
				most int
				to   *measure.Length
			}{{30000, &p.Length}, {10000, &p.Width}, {1000, &p.Thickness}} {
				tenths := rapid.IntRange(1, s.most*10).Draw(t, "tenths")
				*s.to = measure.Length(tenths) * mm / 10
				cell := fmt.Sprintf("%d.%d", tenths/10, tenths%10)
				if comma != "," {
					cell = strings.Replace(cell, ".", ",", 1)
				}
				cells = append(cells, cell)
			}
			text += fmt.Sprintf("%s%s%d%s%s\n", p.Name, comma, p.Quantity, comma, strings.Join(cells, comma))
			want = append(want, p)
		}
		got, err := tables.Parts("parts.csv", strings.NewReader(text))
		if err != nil || !reflect.DeepEqual(got, want) {
			t.Fatalf("%s\n%v: got %+v, want %+v", text, err, got, want)
		}
	})
}

func FuzzParts(f *testing.F) {
	f.Add("name,quantity,length,width,thickness\nrail,2,612.5,92,40\n")
	f.Add("sep=;\nname;quantity;length;width;thickness\nrail;2;1.234;92;40\n")
	f.Add("\xff\xfen\x00")
	f.Add("name,quantity,length,width,thickness\n\"rail,2,612,92,40")
	f.Fuzz(func(t *testing.T, file string) {
		rows, err := tables.Parts("parts.csv", strings.NewReader(file))
		if err != nil {
			if strings.ContainsAny(err.Error(), "\n\r") || !strings.HasPrefix(err.Error(), "parts.csv") {
				t.Errorf("%q is refused with %q", file, err)
			}
			return
		}
		seen := map[string]bool{}
		for _, p := range rows {
			if p.Name == "" || seen[p.Name] || p.Quantity < 1 || p.Quantity > tables.MostPieces || p.Length <= 0 || p.Width <= 0 || p.Thickness <= 0 {
				t.Errorf("%q was read as %+v", file, p)
			}
			seen[p.Name] = true
		}
	})
}
