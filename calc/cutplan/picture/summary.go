package picture

import (
	"fmt"
	"math"
	"strings"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
	"fettle/calc/sketch"
)

// summary says, on as many pages as it takes, what comes out of which board, what is left out,
// and what it costs.
func summary(plan cutplan.Plan, in measure.System) (pages []sketch.Sheet) {
	rows := []row{{cells: [4]string{"Board", "Size", "Parts", "Worth keeping"}, bold: true}}
	for _, b := range plan.Boards {
		rows = append(rows, boardRow(b, plan.Priced, in))
	}
	head := append([]string{}, Verdict(plan, in)...)
	for _, l := range plan.LeftOut {
		head = append(head, fmt.Sprintf("Left out: %d %s. %s", l.Quantity, l.Name, l.Reason))
	}
	for first := true; first || len(rows) > 0; first = false {
		s := sketch.Sheet{Name: "summary", Title: "Cut plan: what comes out of which board", Width: paperWidth}
		y := edge
		if first {
			y = heads(&s, head)
		}
		for len(rows) > 0 && (y+rows[0].height() <= paperHeight || y == edge) {
			y = rows[0].paint(&s, y)
			rows = rows[1:]
		}
		s.Height = math.Ceil(math.Max(y+edge, paperHeight-1)) // a page of its own
		pages = append(pages, s)
	}
	return pages
}

func heads(s *sketch.Sheet, lines []string) float64 {
	y := edge + headText/2
	s.Add(startWords(edge, y, headText+2, "Cut plan", true))
	y += headText * 1.4
	for _, text := range lines {
		for _, line := range wrapped(text, phoneText, paperWidth-2*edge) {
			s.Add(startWords(edge, y, phoneText, line, false))
			y += phoneText * 1.4
		}
	}
	return y + 6
}

// columnsAt are the columns of the summary's table, in px from the left.
func columnsAt() [4]float64 { return [4]float64{edge, 110, 330, 760} }

// row is a line of the table.
type row struct {
	cells [4]string
	bold  bool
}

func (r row) lines(column int) []string {
	end := paperWidth - edge
	if column < 3 {
		end = columnsAt()[column+1] - 12
	}
	return wrapped(r.cells[column], paperText, end-columnsAt()[column])
}

func (r row) height() float64 {
	most := 1
	for c := range r.cells {
		most = max(most, len(r.lines(c)))
	}
	return float64(most)*paperText*1.35 + 6
}

func (r row) paint(s *sketch.Sheet, y float64) float64 {
	for c := range r.cells {
		for i, line := range r.lines(c) {
			s.Add(startWords(columnsAt()[c], y+8+float64(i)*paperText*1.35, paperText, line, r.bold || c == 0))
		}
	}
	below := y + r.height()
	s.Add(thin(sketch.Point{X: edge, Y: below - 1}, sketch.Point{X: paperWidth - edge, Y: below - 1}))
	return below
}

func boardRow(b cutplan.SawnBoard, priced bool, in measure.System) row {
	sizes := in.Sizes(measure.Nearest, b.Length, b.Width, b.Thickness)
	if priced {
		sizes += fmt.Sprintf(", price %.2f", b.Price)
	}
	return row{cells: [4]string{b.Name, sizes, Contents(b), Keeping(b, in)}}
}

// Contents lists the parts of a board: "2 bunk rail, 4 bunk post".
func Contents(b cutplan.SawnBoard) string {
	var out []string
	for _, c := range Counts(b) {
		out = append(out, fmt.Sprintf("%d %s", c.Quantity, c.Name))
	}
	return strings.Join(out, ", ")
}

// Keeping lists the offcuts of a board that are worth keeping, "" when there are none.
func Keeping(b cutplan.SawnBoard, in measure.System) string {
	var out []string
	for _, r := range Kept(b) {
		out = append(out, size(in, r.Length, r.Width))
	}
	return strings.Join(out, ", ")
}

// Kept are the offcuts of a board that are worth keeping.
func Kept(b cutplan.SawnBoard) (out []cutplan.Rect) {
	for _, r := range b.Offcuts {
		if kept(b, r) {
			out = append(out, r)
		}
	}
	return out
}

// Verdict says in a few sentences what a plan uses and how good it is known to be.
func Verdict(plan cutplan.Plan, in measure.System) []string {
	parts := 0
	for _, b := range plan.Boards {
		parts += len(b.Parts)
	}
	lines := []string{fmt.Sprintf("%s out of %s, kerf %s", count(parts, "part"), count(len(plan.Boards), "board"), in.Shown(plan.Kerf))}
	if plan.StockArea > 0 {
		lines[0] += fmt.Sprintf("; %.2f of %.2f m² of board become parts (%.0f %%)", plan.PartsArea, plan.StockArea, 100*plan.PartsArea/plan.StockArea)
	}
	what, unit := "Price of the boards", ""
	if !plan.Priced {
		what, unit = "Area of the boards", " m²"
	}
	lines = append(lines, fmt.Sprintf("%s: %.2f%s. %s", what, plan.Cost, unit, proof(plan, unit)))
	return lines
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

func proof(plan cutplan.Plan, unit string) string {
	switch {
	case len(plan.Boards) == 0:
		return "Nothing has a place."
	case plan.Proved:
		return "Proved: it can't be done with less."
	case plan.Bound <= 0:
		return "How much less might do is not known."
	}
	return fmt.Sprintf("No plan needs less than %.2f%s, so at most %.1f %% might be saved.", math.Floor(plan.Bound*100)/100, unit, 100*(plan.Cost-plan.Bound)/plan.Cost)
}
