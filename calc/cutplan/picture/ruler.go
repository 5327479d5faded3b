package picture

import (
	"strconv"

	"fettle/calc/measure"
	"fettle/calc/sketch"
)

// ruler puts the running measures of the crosscuts beside the board, all from its left end, each
// with the number of its cut, and marks the corner from which everything is measured.
func (d *drawing) ruler() {
	d.tick(0, "", d.in.Number(0, measure.Nearest))
	for _, c := range d.board.Cuts {
		if c.Stage == 1 {
			d.tick(c.At, strconv.Itoa(c.Order), d.in.Number(c.At, measure.Nearest))
		}
	}
	d.tick(d.board.Length, "", d.in.Number(d.board.Length, measure.Nearest))
	for _, l := range piecesOf(d.board, d.kerf).lengths {
		d.letter(l)
	}
}

// tick is one running measure: above a board that lies, to the right of one that stands.
func (d *drawing) tick(at measure.Length, number, text string) {
	edge := d.at(at, d.board.Width)
	if d.upright {
		d.tickRight(edge, number, text)
		return
	}
	half := textWidth(text, d.text, false) / 2
	cover := func(p sketch.Point) box { return box{p.X - half - 2, p.Y - 6, p.X + half + 2, p.Y + 6} }
	level := edge.Y - 28
	if number == "" {
		level = edge.Y - 12
	}
	p, _ := d.settle([]sketch.Point{{X: edge.X, Y: level}, {X: edge.X + half, Y: level}, {X: edge.X - half, Y: level},
		{X: edge.X, Y: level - 14}, {X: edge.X, Y: level - 28}}, cover)
	d.taken = append(d.taken, cover(p))
	d.sheet.Add(thin(edge, sketch.Point{X: edge.X, Y: edge.Y - 6}), sketch.Words(p.X, p.Y, d.text, text))
	if number != "" {
		d.badge([]sketch.Point{{X: edge.X, Y: edge.Y - 12}, {X: edge.X + 12, Y: edge.Y - 12}, {X: edge.X - 12, Y: edge.Y - 12}, {X: edge.X + 24, Y: edge.Y - 12}}, number, d.text)
	}
}

// tickRight pushes a measure down the sheet where the one before stands in its place.
func (d *drawing) tickRight(edge sketch.Point, number, text string) {
	x := edge.X + 34
	width := textWidth(text, d.text, false)
	cover := func(p sketch.Point) box { return box{edge.X + 12, p.Y - 8, x + width, p.Y + 8} }
	var places []sketch.Point
	for i := range 6 {
		places = append(places, sketch.Point{X: x, Y: edge.Y + float64(i)*9}, sketch.Point{X: x, Y: edge.Y - float64(i)*9})
	}
	p, _ := d.settle(places, cover)
	label := sketch.Words(x, p.Y, d.text, text)
	label.Anchor = sketch.Start
	d.sheet.Add(thin(edge, sketch.Point{X: edge.X + 5, Y: edge.Y}, sketch.Point{X: edge.X + 13, Y: p.Y}), label)
	if number != "" {
		d.badge([]sketch.Point{{X: edge.X + 22, Y: p.Y}}, number, d.text)
	} else {
		d.sheet.Add(thin(sketch.Point{X: edge.X + 13, Y: p.Y}, sketch.Point{X: x - 3, Y: p.Y}))
	}
	d.taken = append(d.taken, cover(p))
}

// letter is the name of a length, in the margin on the side of the lower edge.
func (d *drawing) letter(l piece) {
	if l.name == "" {
		return
	}
	p := d.beside(d.at(l.rect.X+l.rect.Length/2, 0), 0, -10)
	label := sketch.Words(p.X, p.Y, d.text+3, l.name)
	label.Bold = true
	d.sheet.Add(label)
}

// edges says where the left end and the lower edge are, and which way the grain runs.
func (d *drawing) edges(away float64) {
	from, to := d.beside(d.at(0, 0), 0, -away), d.beside(d.at(d.board.Length, 0), 0, -away)
	line := sketch.Path(from, to)
	line.Arrows, line.Stroke = true, 0.7
	d.sheet.Add(line)
	begin := sketch.Words(0, 0, d.text, "left end")
	begin.Points[0], begin.Anchor = d.beside(from, 12, 0), sketch.Start
	middle := sketch.Words((from.X+to.X)/2, (from.Y+to.Y)/2, d.text, "lower edge, grain along it")
	for _, label := range []sketch.Shape{begin, middle} {
		label.Turn, label.Halo = d.turn(), true
		d.sheet.Add(label)
	}
	a, b, c := d.at(0, 0), d.beside(d.at(0, 0), 8, -0.5), d.beside(d.at(0, 0), -0.5, -8)
	d.sheet.Add(sketch.Polygon(a, b, c).Filled(sketch.Solid))
}

func thin(points ...sketch.Point) sketch.Shape {
	s := sketch.Path(points...)
	s.Stroke = 0.7
	return s
}
