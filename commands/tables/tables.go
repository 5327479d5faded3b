// Package tables reads lists of parts, boards and faults as spreadsheets write them: files with
// a line of column names, and tables pasted into a message. It guesses nothing: what can be read
// in two ways, or can't be, is refused in one sentence that names the file, the line and the column.
package tables

import (
	"fmt"
	"io"
	"strings"

	"fettle/calc/measure"
)

// PartRow is one line of a list of parts.
type PartRow struct {
	Line      int    // in the file or the message, from 1
	Name      string // "" in a pasted table that has no names
	Quantity  int
	Length    measure.Length
	Width     measure.Length
	Thickness measure.Length
	Species   string // as it was written, or ""
	Grain     string // as it was written, or ""
	Group     string // what it belongs to, or ""
}

// BoardRow is one line of a list of boards.
type BoardRow struct {
	Line      int
	Name      string
	Quantity  int
	Length    measure.Length
	Width     measure.Length
	Thickness measure.Length
	Price     float64 // of one
	Unpriced  bool    // the price was left empty
	Species   string
}

// DefectRow is one fault of a board, x along the board from its left end, y across it from its
// lower edge.
type DefectRow struct {
	Line   int
	Board  string // the board's name as it stands in the list of boards
	Copy   int    // which of several, from 1
	X, Y   measure.Length
	Length measure.Length
	Width  measure.Length
	Kind   string // knot, split, ... as it was written, or ""
}

// MostPieces is how many pieces one line may ask for: more is taken for a slip.
const MostPieces = 10_000

// What a size may be at most, so that a slip of the keys is noticed: common practice, no source.
const (
	longest  = 30 * measure.Metre
	widest   = 10 * measure.Metre
	thickest = measure.Metre
	dearest  = 1_000_000
)

// Fault is why a table can't be read, as one sentence with its place.
type Fault struct {
	File   string
	Line   int    // 0: the whole file
	Column string // the column's name, or ""
	Text   string // what is wrong
}

// Error puts place and reason in one line.
func (f *Fault) Error() string {
	var b strings.Builder
	b.WriteString(f.File)
	if f.Line > 0 {
		fmt.Fprintf(&b, ", line %d", f.Line)
	}
	if f.Column != "" {
		fmt.Fprintf(&b, ", column %s", f.Column)
	}
	return b.String() + ": " + f.Text
}

// The columns by the contract's names, and how else people head them.
var aliases = map[string]string{
	"name": "name", "part": "name", "piece": "name", "item": "name", "description": "name", "label": "name", "what": "name",
	"quantity": "quantity", "qty": "quantity", "pcs": "quantity", "pieces": "quantity", "number": "quantity", "no": "quantity", "count": "quantity", "off": "quantity",
	"length": "length", "len": "length", "long": "length", "l": "length",
	"width": "width", "wide": "width", "w": "width",
	"thickness": "thickness", "thick": "thickness", "th": "thickness", "t": "thickness",
	"price": "price", "cost": "price",
	"species": "species", "timber": "species", "wood": "species", "material": "species",
	"grain": "grain", "group": "group", "belongs to": "group",
	"board": "board", "x": "x", "y": "y", "kind": "kind", "fault": "kind",
}

var (
	partColumns   = []string{"name", "quantity", "length", "width", "thickness"}
	boardColumns  = []string{"name", "quantity", "length", "width", "thickness", "price"}
	defectColumns = []string{"board", "x", "y", "length", "width"}
)

// Parts reads a list of parts with the columns name, quantity, length, width and thickness, in
// mm where no unit is said, in any order; species, grain and group are read, other columns are
// not. The error is a *Fault.
func Parts(name string, r io.Reader) ([]PartRow, error) {
	t, err := open(name, r, partColumns)
	if err != nil {
		return nil, err
	}
	return t.parts(true)
}

// parts reads the rows, which must have names and quantities where whole is set.
func (t *table) parts(whole bool) ([]PartRow, error) {
	var out []PartRow
	seen := map[string]int{}
	for _, r := range t.rows {
		p, err := t.part(r, whole)
		if err != nil {
			return nil, err
		}
		if err := t.once(seen, r, p.Name); err != nil {
			return nil, err
		}
		out = append(out, p)
	}
	return out, nil
}

func (t *table) part(r row, whole bool) (p PartRow, err error) {
	p = PartRow{Line: r.line, Name: t.text(r, "name"), Species: t.text(r, "species"), Grain: t.text(r, "grain"), Group: t.text(r, "group")}
	if whole || p.Name != "" {
		if err := t.name(r, "name", p.Name); err != nil {
			return p, err
		}
	}
	if p.Quantity, err = t.quantity(r, !whole); err != nil {
		return p, err
	}
	return p, t.sizes(r, &p.Length, &p.Width, &p.Thickness)
}

// sizes reads the three sizes of a piece.
func (t *table) sizes(r row, length, width, thickness *measure.Length) (err error) {
	for _, s := range []struct {
		column string
		most   measure.Length
		to     *measure.Length
	}{{"length", longest, length}, {"width", widest, width}, {"thickness", thickest, thickness}} {
		if *s.to, err = t.size(r, s.column, s.most, false); err != nil {
			return err
		}
	}
	return nil
}

// Boards reads a list of boards with the columns of Parts and price; an empty price leaves the
// board unpriced. The error is a *Fault.
func Boards(name string, r io.Reader) ([]BoardRow, error) { return boards(name, r, boardColumns) }

// Stock is Boards for a list that may have no prices at all.
func Stock(name string, r io.Reader) ([]BoardRow, error) { return boards(name, r, partColumns) }

func boards(name string, r io.Reader, required []string) ([]BoardRow, error) {
	t, err := open(name, r, required)
	if err != nil {
		return nil, err
	}
	var out []BoardRow
	seen := map[string]int{}
	for _, r := range t.rows {
		b, err := t.board(r, true)
		if err != nil {
			return nil, err
		}
		if err := t.once(seen, r, b.Name); err != nil {
			return nil, err
		}
		out = append(out, b)
	}
	return out, nil
}

func (t *table) board(r row, whole bool) (b BoardRow, err error) {
	b = BoardRow{Line: r.line, Name: t.text(r, "name"), Species: t.text(r, "species")}
	if whole || b.Name != "" {
		if err := t.name(r, "name", b.Name); err != nil {
			return b, err
		}
	}
	if b.Quantity, err = t.quantity(r, !whole); err != nil {
		return b, err
	}
	if err := t.sizes(r, &b.Length, &b.Width, &b.Thickness); err != nil {
		return b, err
	}
	b.Price, b.Unpriced, err = t.price(r)
	return b, err
}

// Defects reads a list of faults with the columns board, x, y, length and width. A board is
// named as it stands in boards, name#2 the second of several; a fault on any other board, or one
// that lies outside its board, is refused. The error is a *Fault.
func Defects(name string, r io.Reader, boards []BoardRow) ([]DefectRow, error) {
	t, err := open(name, r, defectColumns)
	if err != nil {
		return nil, err
	}
	var out []DefectRow
	for _, r := range t.rows {
		d, err := t.defect(r, boards)
		if err != nil {
			return nil, err
		}
		out = append(out, d)
	}
	return out, nil
}

func (t *table) defect(r row, boards []BoardRow) (d DefectRow, err error) {
	d = DefectRow{Line: r.line, Kind: t.text(r, "kind")}
	b, copyNo, err := t.boardOf(r, boards)
	if err != nil {
		return d, err
	}
	d.Board, d.Copy = b.Name, copyNo
	for _, s := range []struct {
		column string
		most   measure.Length
		zero   bool
		to     *measure.Length
	}{{"x", longest, true, &d.X}, {"y", widest, true, &d.Y}, {"length", longest, false, &d.Length}, {"width", widest, false, &d.Width}} {
		if *s.to, err = t.size(r, s.column, s.most, s.zero); err != nil {
			return d, err
		}
	}
	switch {
	case d.X+d.Length > b.Length:
		return d, t.fault(r, "x", "the fault reaches %s mm along, but %s is %s mm long", mm(d.X+d.Length), quote(b.Name), mm(b.Length))
	case d.Y+d.Width > b.Width:
		return d, t.fault(r, "y", "the fault reaches %s mm across, but %s is %s mm wide", mm(d.Y+d.Width), quote(b.Name), mm(b.Width))
	}
	return d, nil
}

func mm(l measure.Length) string { return measure.Decimal(l.MM(), 3) }
