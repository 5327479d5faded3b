package tables

import (
	"regexp"
	"slices"
	"strings"
)

// Pasted reads the table of parts in a message: Markdown, tabs, semicolons or commas, with a line
// of column names or without one. Words around the table are left alone. Names and quantities may
// be missing. It says whether there is a table at all; the error is a *Fault.
func Pasted(message string) (rows []PartRow, found bool, err error) {
	lines := linesOf(message)
	for _, comma := range []rune{'|', '\t', ';', ','} {
		t, err := cutOut(lines, comma)
		if err != nil {
			return nil, true, err
		}
		if t == nil {
			continue
		}
		rows, err := t.parts(false)
		return rows, true, err
	}
	return nil, false, nil
}

// PastedBoards is Pasted for a table of boards, which may have prices. timber says whether its
// columns speak for timber: a price has a column.
func PastedBoards(message string) (rows []BoardRow, timber bool, err error) {
	lines := linesOf(message)
	for _, comma := range []rune{'|', '\t', ';', ','} {
		t, err := cutOut(lines, comma)
		if err != nil {
			return nil, false, err
		}
		if t == nil {
			continue
		}
		for _, r := range t.rows {
			b, err := t.board(r, false)
			if err != nil {
				return nil, t.has("price"), err
			}
			rows = append(rows, b)
		}
		return rows, t.has("price"), nil
	}
	return nil, false, nil
}

func linesOf(message string) []string {
	return strings.Split(strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(message), "\n")
}

// theList is what a pasted table is called in a sentence about it.
const theList = "your list"

// cutOut takes from the lines those that make a table with this separator: nil if none do.
func cutOut(lines []string, comma rune) (*table, error) {
	t := &table{file: theList}
	loose := 0 // the first line below the table that may belong to it
	for i, l := range lines {
		cells := cellsOf(l, comma)
		switch {
		case cells == nil || rule(cells):
			if len(t.rows) > 0 && loose == 0 && strings.ContainsAny(l, "0123456789") && !rule(cells) {
				loose = i + 1
			}
		case len(t.rows) == 0 && !headed(cells) && !bare(cells):
		case loose > 0:
			return nil, &Fault{File: theList, Line: loose, Text: "does not fit the table around it"}
		default:
			t.rows = append(t.rows, row{line: i + 1, cells: cells})
		}
	}
	if len(t.rows) == 0 || headed(t.rows[0].cells) && len(t.rows) == 1 {
		return nil, nil
	}
	if loose > 0 {
		return nil, &Fault{File: theList, Line: loose, Text: "does not fit the table above it"}
	}
	if headed(t.rows[0].cells) {
		return t, t.named([]string{"length", "width", "thickness"})
	}
	return t, t.unnamed()
}

// cellsOf cuts a line at the separator; nil if it does not stand there.
func cellsOf(line string, comma rune) []string {
	if comma != '\t' {
		line = strings.TrimSpace(line)
	}
	if comma == '|' {
		line = strings.TrimSuffix(strings.TrimPrefix(line, "|"), "|")
	}
	if !strings.ContainsRune(line, comma) {
		return nil
	}
	cells := strings.Split(line, string(comma))
	for i := range cells {
		cells[i] = strings.TrimSpace(strings.Trim(oneLine(cells[i]), `"*`))
	}
	for len(cells) > 0 && cells[len(cells)-1] == "" {
		cells = cells[:len(cells)-1]
	}
	if len(cells) < 3 {
		return nil
	}
	return cells
}

var dashes = regexp.MustCompile(`^:?-+:?$`)

// rule says whether the cells are the line under the heads of a Markdown table.
func rule(cells []string) bool {
	return len(cells) > 0 && !slices.ContainsFunc(cells, func(c string) bool { return !dashes.MatchString(c) })
}

// headed says whether the cells name columns: the three sizes at least.
func headed(cells []string) bool {
	n := 0
	for _, c := range cells {
		switch name, _, _ := head(c); name {
		case "length", "width", "thickness":
			n++
		}
	}
	return n >= 3
}

var numberCell = regexp.MustCompile(`^[+-]?[0-9][0-9., /]*(?: ?(?:mm|cm|m|in|"))?$`)

// bare says whether the cells are a row of a table without heads: three sizes at least.
func bare(cells []string) bool {
	n := 0
	for _, c := range cells {
		if numberCell.MatchString(c) {
			n++
		}
	}
	return n >= 3
}

// unnamed finds out what the columns of a table without heads are. The sizes stand as length,
// width and thickness, so they get smaller from left to right in every row; a fourth number in
// front of them or behind is how many. What can be read in both ways is refused.
func (t *table) unnamed() error {
	first := t.rows[0]
	var numbers, words []int
	for i, c := range first.cells {
		switch {
		case numberCell.MatchString(c):
			numbers = append(numbers, i)
		case c != "":
			words = append(words, i)
		}
	}
	orders := map[int][][]string{
		3: {{"length", "width", "thickness"}},
		4: {{"quantity", "length", "width", "thickness"}, {"length", "width", "thickness", "quantity"}},
	}[len(numbers)]
	var fit []map[string]int
	reached, why := -1, error(nil)
	for _, order := range orders {
		columns := map[string]int{}
		for k, name := range order {
			columns[name] = numbers[k]
		}
		switch n, err := t.descends(columns); {
		case err == nil:
			fit = append(fit, columns)
		case n > reached:
			reached, why = n, err
		}
	}
	if len(fit) == 0 && reached > 0 { // the lines before fit, so it is this one
		return why
	}
	if len(fit) != 1 {
		return &Fault{File: t.file, Line: first.line, Text: "it is not plain which column is which; write a first line that names them: name, quantity, length, width, thickness"}
	}
	t.columns, t.units = fit[0], map[string]string{}
	for k, name := range []string{"name", "species"} {
		if k < len(words) {
			t.columns[name] = words[k]
		}
	}
	return t.fitting(len(first.cells))
}

// descends says whether the sizes get no larger from left to right in every row, and the number
// of pieces is one that people ask for: else after how many rows that ends, and why.
func (t *table) descends(columns map[string]int) (rows int, err error) {
	reading := &table{file: t.file, columns: columns}
	for i, r := range t.rows {
		p, err := reading.part(r, false)
		switch {
		case err != nil:
			return i, err
		case p.Quantity > mostUnnamed:
			return i, t.fault(r, "", "%d pieces are more than people ask for; write a first line that names the columns", p.Quantity)
		case p.Length < p.Width || p.Width < p.Thickness:
			return i, t.fault(r, "", "the sizes do not stand as length, width and thickness there; write a first line that names the columns")
		}
	}
	return len(t.rows), nil
}

// mostUnnamed is how many pieces a row without heads may ask for: beyond, it may be a size.
const mostUnnamed = 200
