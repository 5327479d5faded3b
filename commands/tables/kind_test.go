package tables_test

import (
	"strings"
	"testing"

	"fettle/commands/tables"
)

func TestKindOf(t *testing.T) {
	const sizes = "length,width,thickness"
	for name, c := range map[string]struct {
		file, text string
		want       tables.Kind
	}{
		"parts":                         {"parts.csv", "name,quantity," + sizes + "\nrail,2,612,92,40", tables.OfParts},
		"any name":                      {"list.csv", "name,quantity," + sizes + "\nrail,2,612,92,40", tables.OfParts},
		"prices":                        {"list.csv", "name,quantity," + sizes + ",price\nsapele,2,2600,210,32,31.2", tables.OfBoards},
		"semicolons":                    {"boards.csv", "name;quantity;length;width;thickness;price\nsapele;2;2600;210;32;31,2", tables.OfBoards},
		"boards without prices":         {"boards.csv", "name,quantity," + sizes + "\nsapele,2,2600,210,32", tables.OfEither},
		"all called boards":             {"list.csv", "name,quantity," + sizes + "\nsapele board,2,2600,210,32\nash plank,1,2400,190,52", tables.OfEither},
		"one called a board":            {"list.csv", "name,quantity," + sizes + "\nrail,2,612,92,40\ndrop board,4,612,190,22", tables.OfParts},
		"parts with prices":             {"cut list.csv", "name,quantity," + sizes + ",price\nrail,2,612,92,40,3", tables.OfEither},
		"groups and prices":             {"list.csv", "name,quantity," + sizes + ",price,group\nrail,2,612,92,40,3,door", tables.OfEither},
		"drop boards that have a group": {"drop boards.csv", "name,quantity," + sizes + ",group\nboard,4,612,190,22,hatch", tables.OfEither},
		"no thickness":                  {"list.csv", "name,length,width\nrail,612,92", tables.NoList},
		"no row":                        {"list.csv", "name,quantity," + sizes + "\n", tables.NoList},
		"nothing":                       {"list.csv", "", tables.NoList},
		"something else":                {"hours.csv", "day,from,to\nTue,18,21", tables.NoList},
		"no text":                       {"list.csv", "\x00\x01", tables.NoList},
	} {
		if got := tables.KindOf(c.file, strings.NewReader(c.text)); got != c.want {
			t.Errorf("%s: %d, want %d", name, got, c.want)
		}
	}
}

// A list without prices is stock as well; what it is called changes nothing.
func TestStockNeedsNoPrices(t *testing.T) {
	rows, err := tables.Stock("boards.csv", strings.NewReader("name,quantity,length,width,thickness\nsapele,2,2600,210,32"))
	if err != nil || len(rows) != 1 || !rows[0].Unpriced || rows[0].Quantity != 2 {
		t.Errorf("%+v, %v", rows, err)
	}
	if _, err := tables.Boards("boards.csv", strings.NewReader("name,quantity,length,width,thickness\nsapele,2,2600,210,32")); err == nil {
		t.Error("a list of boards for a plan has no prices, and is not refused")
	}
}
