// Package picture draws a cut plan, board by board, so that one can saw by it: parts with name
// and size, faults hatched, cuts numbered in sawing order and listed with their running measures.
package picture

import (
	"fmt"
	"math"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
	"fettle/calc/sketch"
)

// Phone draws each board of a plan on a sheet as wide as a phone: the board upright, its left
// end above, with the cuts and the parts listed below.
func Phone(plan cutplan.Plan, in measure.System) []sketch.Sheet {
	sheets := make([]sketch.Sheet, len(plan.Boards))
	for i := range plan.Boards {
		sheets[i] = phone(plan, i, in)
	}
	return sheets
}

const (
	edge      = 12.0 // of a sheet
	phoneText = 13.0
	headText  = 16.0
)

func phone(plan cutplan.Plan, i int, in measure.System) sketch.Sheet {
	b := plan.Boards[i]
	const left, right = 52.0, 84.0 // of the board: letters and grain, running measures
	n := phoneRatio(b, sketch.PhoneWidth-left-right)
	s := newSheet(plan, i, in, sketch.PhoneWidth)
	y := title(&s, plan, i, n, in, headText, phoneText)
	d := drawing{board: b, kerf: plan.Kerf, in: in, keys: keysOf(plan), text: sketch.LeastText, room: room{sheet: &s},
		frame: frame{upright: true, scale: pxPerMM / n, x: left, y: y + 16, width: b.Width.MM()}}
	d.draw()
	d.ruler()
	d.edges(30)
	y += 16 + b.Length.MM()*d.scale + 40
	y = legend(&s, edge, y, sketch.LeastText, d.scale, in) + 4
	y = column(&s, cutList(b, plan.Kerf, in), edge, y, s.Width-2*edge, phoneText) + 4
	s.Height = math.Ceil(column(&s, partList(b, d.keys, in), edge, y, s.Width-2*edge, phoneText) + edge)
	return s
}

// phoneRatio is the n of the scale 1:n: so large that the narrowest part takes a line of
// lettering, as far as the board then goes on a sheet that one still likes to scroll.
func phoneRatio(b cutplan.SawnBoard, width float64) float64 {
	const least, most, line = 900.0, 1800.0, sketch.LeastText * 1.1
	narrowest := math.Inf(1)
	for _, p := range b.Parts {
		narrowest = math.Min(narrowest, p.Width.MM())
	}
	want := math.Min(most, math.Max(least, line/narrowest*b.Length.MM()))
	return math.Max(ratio(b.Width.MM(), width), math.Floor(b.Length.MM()*pxPerMM/want))
}

// Paper draws a plan for A4 sheets that lie: a summary, and each board of its own, a page wide.
func Paper(plan cutplan.Plan, in measure.System) []sketch.Sheet {
	sheets := summary(plan, in)
	for i := range plan.Boards {
		sheets = append(sheets, paper(plan, i, in))
	}
	return sheets
}

// What fits on an A4 page (ISO 216, 297 by 210 mm) that lies, less margins of 12 mm and a line
// at the foot, in px.
const (
	paperWidth  = 1030.0
	paperHeight = 680.0
	paperText   = 11.0
)

func paper(plan cutplan.Plan, i int, in measure.System) sketch.Sheet {
	b := plan.Boards[i]
	const left, right, high = 24.0, 20.0, 330.0
	n := math.Max(ratio(b.Length.MM(), paperWidth-left-right), ratio(b.Width.MM(), high))
	s := newSheet(plan, i, in, paperWidth)
	y := title(&s, plan, i, n, in, headText, paperText)
	d := drawing{board: b, kerf: plan.Kerf, in: in, keys: keysOf(plan), text: 8.5, room: room{sheet: &s},
		frame: frame{scale: pxPerMM / n, x: left, y: y + 36, width: b.Width.MM()}}
	d.draw()
	d.ruler()
	d.edges(25)
	y += 36 + b.Width.MM()*d.scale + 38
	y = legend(&s, left, y, paperText, d.scale, in)
	s.Height = math.Ceil(columns(&s, append(cutList(b, plan.Kerf, in), partList(b, d.keys, in)...), left, y, paperWidth-left-right) + 8)
	return s
}

// columns lays a list out in four columns beside each other at most.
func columns(s *sketch.Sheet, items []item, x, y, width float64) (below float64) {
	const count, gap = 4, 24.0
	each := (width - (count-1)*gap) / count
	rows := max(5, (len(items)+count-1)/count)
	for len(broken(items, rows)) > count {
		rows++
	}
	for _, part := range broken(items, rows) {
		below = math.Max(below, column(s, part, x, y, each, paperText))
		x += each + gap
	}
	return below
}

// broken breaks a list after so many rows, or one earlier where a heading would be the last.
func broken(items []item, rows int) (out [][]item) {
	for len(items) > 0 {
		n := min(rows, len(items))
		if n > 1 && n < len(items) && items[n-1].heading {
			n--
		}
		out = append(out, items[:n])
		items = items[n:]
	}
	return out
}

func newSheet(plan cutplan.Plan, i int, in measure.System, width float64) sketch.Sheet {
	b := plan.Boards[i]
	return sketch.Sheet{Name: "board " + b.Name, Width: width,
		Title: fmt.Sprintf("Board %s, %s: %d parts, %d cuts", b.Name, in.Sizes(measure.Nearest, b.Length, b.Width, b.Thickness), len(b.Parts), len(b.Cuts))}
}

// title writes which board this is, and below it kerf and scale; it gives the place below.
func title(s *sketch.Sheet, plan cutplan.Plan, i int, n float64, in measure.System, large, small float64) float64 {
	b := plan.Boards[i]
	s.Add(startWords(edge, edge+large/2, large, shortened(Heading(b, in), large*1.06, s.Width-2*edge), true))
	about := fmt.Sprintf("board %d of %d, kerf %s, scale 1:%g", i+1, len(plan.Boards), in.Shown(plan.Kerf), n)
	if plan.Trim > 0 {
		about += ", " + in.Shown(plan.Trim) + " off each end"
	}
	s.Add(startWords(edge, edge+large+small*0.9, small, shortened(about, small, s.Width-2*edge), false))
	return edge + large + small*1.6
}

// keysOf gives the short names of all parts of a plan, the same on each board.
func keysOf(plan cutplan.Plan) map[string]string {
	var names []string
	for _, b := range plan.Boards {
		for _, p := range b.Parts {
			names = append(names, p.Name)
		}
	}
	return keys(names)
}

// Together puts sheets below each other on one.
func Together(name, title string, sheets []sketch.Sheet) sketch.Sheet {
	all := sketch.Sheet{Name: name, Title: title, Width: 1}
	for _, s := range sheets {
		if all.Height > 0 {
			all.Add(sketch.Path(sketch.Point{X: edge, Y: all.Height}, sketch.Point{X: s.Width - edge, Y: all.Height}))
		}
		for _, shape := range s.Shapes {
			moved := make([]sketch.Point, len(shape.Points))
			for i, p := range shape.Points {
				moved[i] = sketch.Point{X: p.X, Y: p.Y + all.Height}
			}
			shape.Points = moved
			all.Add(shape)
		}
		all.Width = math.Max(all.Width, s.Width)
		all.Height += s.Height
	}
	return all
}
