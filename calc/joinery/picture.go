package joinery

import (
	"math"
	"unicode/utf8"

	"fettle/calc/bounds"
	"fettle/calc/sketch"
)

// The plan of a sheet, in px: a title above, room round the drawing for the measures, notes below.
const (
	sideRoom    = 58
	titleRoom   = 30
	topRoom     = 44
	bottomRoom  = 50
	lineHeight  = 16
	tallest     = 460 // of what is drawn
	sheetMargin = 4
	lettering   = sketch.LeastText + 1
)

// picture is a drawing that is being made.
type picture struct {
	in    Words
	sheet sketch.Sheet
	fit   sketch.Fit
}

// newPicture opens a sheet for what spans from low to high, with so many lines of text below.
func newPicture(in Words, name, title string, low, high Point, lines int) *picture {
	width, height := high.X-low.X, high.Y-low.Y
	room := float64(sketch.PhoneWidth - 2*sideRoom)
	deep := math.Min(tallest, math.Max(60, room*height/width))
	p := &picture{in: in, sheet: sketch.Sheet{Name: name, Title: title, Width: sketch.PhoneWidth}}
	p.sheet.Height = titleRoom + topRoom + deep + bottomRoom + float64(lines)*lineHeight + 10
	p.fit = sketch.FitInto(sketch.Point{X: low.X, Y: low.Y}, sketch.Point{X: high.X, Y: high.Y}, sideRoom, titleRoom+topRoom, room, deep)
	p.sheet.Add(sketch.Rect(0, 0, p.sheet.Width, p.sheet.Height).Filled(sketch.Paper))
	head := sketch.Words(sketch.PhoneWidth/2, 18, lettering+2, name)
	head.Bold = true
	p.label(head)
	return p
}

func (p *picture) at(q Point) sketch.Point { return p.fit.At(q.X, q.Y) }

func (p *picture) points(of []Point) []sketch.Point {
	out := make([]sketch.Point, len(of))
	for i, q := range of {
		out[i] = p.at(q)
	}
	return out
}

// pieces paints the parts in their places.
func (p *picture) pieces(of []Piece) {
	for _, c := range of {
		s := sketch.Polygon(p.points(c.Outline)...)
		switch c.Kind {
		case Timber:
			s = s.Filled(sketch.Wood)
		case Infill:
			s = s.Filled(sketch.Paper)
			s.Stroke = 0.75
		case Hidden:
			s = s.Dash()
			s.Stroke = 0.75
		case Space:
			s = s.Dash()
			s.Stroke = 0.5
		}
		p.sheet.Add(s)
	}
}

// wide is about how wide a text is, in px.
func wide(text string, size float64) float64 {
	return 0.6 * size * float64(utf8.RuneCountInString(text))
}

// label adds a text, moved so far that all of it is on the sheet.
func (p *picture) label(s sketch.Shape) {
	w, h := wide(s.Text, s.Size)/2, s.Size*0.6
	sin, cos := math.Sincos(s.Turn * math.Pi / 180)
	x, y := math.Abs(w*cos)+math.Abs(h*sin), math.Abs(w*sin)+math.Abs(h*cos)
	at := &s.Points[0]
	at.X = math.Min(math.Max(at.X, sheetMargin+x), p.sheet.Width-sheetMargin-x)
	at.Y = math.Min(math.Max(at.Y, sheetMargin+y), p.sheet.Height-sheetMargin-y)
	p.sheet.Add(s)
}

// words puts a text in the middle of a place, on a white ground.
func (p *picture) words(q Point, text string) {
	at := p.at(q)
	s := sketch.Words(at.X, at.Y, lettering-1, text)
	s.Halo = true
	p.label(s)
}

// measure draws a dimension to the left of the way from one place to the other.
func (p *picture) measure(from, to Point, away float64, text string) {
	for _, s := range sketch.Dimension(p.at(from), p.at(to), away, text) {
		if s.Kind == sketch.Label {
			p.label(s)
			continue
		}
		p.sheet.Add(s)
	}
}

// below writes a line of text under the drawing.
func (p *picture) below(line int, text string) {
	y := p.sheet.Height - 12 - float64(line)*lineHeight
	p.label(sketch.Words(sketch.PhoneWidth/2, y, lettering-1, text))
}

func degText(deg float64) string { return bounds.Number(math.Round(deg*10)/10) + "°" }

// The sides of the sheet where measures of a whole thing stand, in px off it.
const (
	near = 16
	far  = 34
)

// around measures a quad along its bottom and its left side, and the other two where they differ.
func (p *picture) around(q Quad, away float64) {
	p.measure(q[1], q[0], away, p.in.number(q.Side(Bottom)))
	p.measure(q[0], q[3], away, p.in.number(q.Side(Left)))
	if math.Abs(q.Side(Top)-q.Side(Bottom)) >= 0.05 {
		p.measure(q[3], q[2], away, p.in.number(q.Side(Top)))
	}
	if math.Abs(q.Side(Right)-q.Side(Left)) >= 0.05 {
		p.measure(q[2], q[1], away, p.in.number(q.Side(Right)))
	}
}

// corners writes the four corners of an opening that is out of square, each so far inside the
// corner of a field within it.
func (p *picture) corners(q, field Quad, inside float64) {
	square := true
	for i := range q {
		square = square && math.Abs(q.CornerDeg(i)-90) < 0.05
	}
	if square {
		return
	}
	centre := middle(middle(field[0], field[2]), middle(field[1], field[3]))
	for i := range q {
		d := centre.minus(field[i])
		way := Point{math.Copysign(1.4, d.X), math.Copysign(0.75, d.Y)}
		p.words(field[i].plus(way, inside/p.fit.Scale), degText(q.CornerDeg(i)))
	}
}

// all is every corner of the pieces.
func all(of []Piece) []Point {
	var out []Point
	for _, c := range of {
		out = append(out, c.Outline...)
	}
	return out
}

// line draws a thin line through places.
func (p *picture) line(of []Point) {
	s := sketch.Path(p.points(of)...)
	s.Stroke = 0.5
	p.sheet.Add(s)
}
