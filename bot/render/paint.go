package render

import (
	"errors"
	"fmt"
	"math"

	"fettle/calc/sketch"
)

// canvas is what a file format must be able to do; paint does the rest, so that a drawing looks
// the same in all of them. Measures are those of the sheet.
type canvas interface {
	fill(corners []sketch.Point, ink shade)
	stroke(lines [][]sketch.Point, pen pen)
	text(place sketch.Point, label sketch.Shape)
}

// shade is a grey: 0 is black, 255 white.
type shade uint8

const (
	black shade = 0
	white shade = 255
	tint  shade = 238 // of wood: seen beside white, and black lettering stands out on it
)

// pen is how a line is drawn.
type pen struct {
	width  float64
	dash   []float64 // lengths on and off, none for a whole line
	closed bool
	round  bool // ends
}

// most is the longest side of a sheet in px; beyond it a picture is a mistake.
const most = 100_000

// check says whether a sheet can be drawn at all.
func check(s sketch.Sheet) error {
	if !(s.Width > 0 && s.Width <= most && s.Height > 0 && s.Height <= most) {
		return fmt.Errorf("the drawing %q is %g by %g px, which is no size for a sheet", s.Name, s.Width, s.Height)
	}
	for i, shape := range s.Shapes {
		if err := checkShape(shape); err != nil {
			return fmt.Errorf("shape %d of the drawing %q: %w", i+1, s.Name, err)
		}
	}
	return nil
}

func checkShape(s sketch.Shape) error {
	least, known := map[string]int{sketch.Area: 3, sketch.Line: 2, sketch.Label: 1}[s.Kind]
	if !known {
		return fmt.Errorf("there is no kind %q", s.Kind)
	}
	if len(s.Points) < least {
		return fmt.Errorf("%s with %d points", s.Kind, len(s.Points))
	}
	for _, p := range s.Points {
		if !(math.Abs(p.X) <= most && math.Abs(p.Y) <= most) {
			return errors.New("a point far off the sheet")
		}
	}
	if !(s.Stroke >= 0 && s.Stroke <= most && s.Size >= 0 && s.Size <= most && math.Abs(s.Turn) <= 360) {
		return errors.New("a width, size or turn out of range")
	}
	return nil
}

// paint puts the shapes of a checked sheet on a canvas.
func paint(c canvas, s sketch.Sheet, letters *lettering) {
	for _, shape := range s.Shapes {
		switch shape.Kind {
		case sketch.Area:
			paintArea(c, shape)
		case sketch.Line:
			paintLine(c, shape)
		case sketch.Label:
			if shape.Halo {
				c.fill(letters.ground(shape), white)
			}
			c.text(letters.start(shape), shape)
		}
	}
}

func paintArea(c canvas, s sketch.Shape) {
	switch s.Fill {
	case sketch.Paper, sketch.Hatched, sketch.Waste:
		c.fill(s.Points, white)
	case sketch.Wood:
		c.fill(s.Points, tint)
	case sketch.Solid:
		c.fill(s.Points, black)
	}
	if lines, p := pattern(s.Fill, s.Points); len(lines) > 0 {
		c.stroke(lines, p)
	}
	if s.Stroke > 0 {
		c.stroke([][]sketch.Point{s.Points}, pen{width: s.Stroke, dash: dashes(s), closed: true})
	}
}

func dashes(s sketch.Shape) []float64 {
	if !s.Dashed {
		return nil
	}
	return []float64{5, 3}
}

func paintLine(c canvas, s sketch.Shape) {
	if s.Stroke > 0 {
		c.stroke([][]sketch.Point{s.Points}, pen{width: s.Stroke, dash: dashes(s)})
	}
	if !s.Arrows {
		return
	}
	last := len(s.Points) - 1
	for _, end := range [][2]sketch.Point{{s.Points[1], s.Points[0]}, {s.Points[last-1], s.Points[last]}} {
		if head := arrow(end[0], end[1]); head != nil {
			c.fill(head, black)
		}
	}
}

// arrow is the head at the end of a line that comes from a point. It is shortened where the line is.
func arrow(from, tip sketch.Point) []sketch.Point {
	dx, dy := tip.X-from.X, tip.Y-from.Y
	l := math.Hypot(dx, dy)
	if l == 0 {
		return nil
	}
	long := math.Min(7, l/2)
	dx, dy = dx/l*long, dy/l*long
	x, y := tip.X-dx, tip.Y-dy
	return []sketch.Point{tip, {X: x - dy*0.35, Y: y + dx*0.35}, {X: x + dy*0.35, Y: y - dx*0.35}}
}
