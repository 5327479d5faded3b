package picture

import (
	"math"

	"fettle/calc/sketch"
)

// room is a sheet on which labels keep out of each other's way.
type room struct {
	sheet *sketch.Sheet
	taken []box
}

// box is an upright rectangle on the sheet.
type box struct{ x0, y0, x1, y1 float64 }

func (b box) overlap(o box) float64 {
	w := math.Min(b.x1, o.x1) - math.Max(b.x0, o.x0)
	h := math.Min(b.y1, o.y1) - math.Max(b.y0, o.y0)
	if w <= 0 || h <= 0 {
		return 0
	}
	return w * h
}

// boxOf is what a label covers.
func boxOf(s sketch.Shape) box {
	w, h := textWidth(s.Text, s.Size, s.Bold), s.Size
	left := w / 2
	switch s.Anchor {
	case sketch.Start:
		left = 0
	case sketch.End:
		left = w
	}
	at := s.Points[0]
	if s.Turn == 90 {
		return box{at.X - h/2, at.Y - left, at.X + h/2, at.Y - left + w}
	}
	return box{at.X - left, at.Y - h/2, at.X - left + w, at.Y + h/2}
}

// clash is how much of a box is taken already.
func (r *room) clash(b box) (sum float64) {
	for _, t := range r.taken {
		sum += b.overlap(t)
	}
	return sum
}

// settle moves a thing to the first place where it covers nothing, or the one where it covers
// least.
func (r *room) settle(places []sketch.Point, cover func(sketch.Point) box) (at sketch.Point, free bool) {
	least := math.Inf(1)
	for _, p := range places {
		c := r.clash(cover(p))
		if c < least {
			at, least = p, c
		}
		if c == 0 {
			break
		}
	}
	return at, least == 0
}

// badge paints a number in a circle at the best of some places.
func (r *room) badge(places []sketch.Point, number string, size float64) {
	radius := math.Max(size*0.72, textWidth(number, size, true)/2+size*0.2)
	at, _ := r.settle(places, func(p sketch.Point) box {
		return box{p.X - radius, p.Y - radius, p.X + radius, p.Y + radius}
	})
	r.taken = append(r.taken, box{at.X - radius, at.Y - radius, at.X + radius, at.Y + radius})
	label := sketch.Words(at.X, at.Y, size, number)
	label.Bold = true
	r.sheet.Add(circle(at, radius).Filled(sketch.Paper), label)
}

func circle(at sketch.Point, radius float64) sketch.Shape {
	const corners = 20
	points := make([]sketch.Point, corners)
	for i := range points {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / corners)
		points[i] = sketch.Point{X: at.X + radius*cos, Y: at.Y + radius*sin}
	}
	return sketch.Polygon(points...)
}
