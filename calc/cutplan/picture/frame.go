package picture

import (
	"math"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
	"fettle/calc/sketch"
)

// pxPerMM is a sheet's own size: 96 px to an inch of 25.4 mm.
const pxPerMM = 96 / 25.4

// frame carries a board's coordinates to the sheet. Lying, the board's left end is on the left
// and its lower edge below; upright, the left end is above and the lower edge on the left, as
// when the sheet is turned by a quarter to the right.
type frame struct {
	upright bool
	scale   float64 // px for a mm
	x, y    float64 // upper left corner of the board
	width   float64 // of the board in mm
}

func (f frame) at(x, y measure.Length) sketch.Point {
	if f.upright {
		return sketch.Point{X: f.x + y.MM()*f.scale, Y: f.y + x.MM()*f.scale}
	}
	return sketch.Point{X: f.x + x.MM()*f.scale, Y: f.y + (f.width-y.MM())*f.scale}
}

func (f frame) box(r cutplan.Rect) box {
	a, b := f.at(r.X, r.Y), f.at(r.X+r.Length, r.Y+r.Width)
	return box{math.Min(a.X, b.X), math.Min(a.Y, b.Y), math.Max(a.X, b.X), math.Max(a.Y, b.Y)}
}

func (b box) area() sketch.Shape { return sketch.Rect(b.x0, b.y0, b.x1-b.x0, b.y1-b.y0) }

func (b box) middle() sketch.Point { return sketch.Point{X: (b.x0 + b.x1) / 2, Y: (b.y0 + b.y1) / 2} }

// spans are how long a box is along the board and across it.
func (f frame) spans(b box) (along, across float64) {
	if f.upright {
		return b.y1 - b.y0, b.x1 - b.x0
	}
	return b.x1 - b.x0, b.y1 - b.y0
}

// turn is that of text along the board.
func (f frame) turn() float64 {
	if f.upright {
		return 90
	}
	return 0
}

// beside moves a place along the board, and across it to the left of text that runs along it.
func (f frame) beside(p sketch.Point, along, up float64) sketch.Point {
	if f.upright {
		return sketch.Point{X: p.X + up, Y: p.Y + along}
	}
	return sketch.Point{X: p.X + along, Y: p.Y - up}
}

// ratio is the n of a scale 1:n at which at least so many mm fit into the px, a whole number.
func ratio(mm, px float64) float64 { return math.Max(1, math.Ceil(mm*pxPerMM/px-1e-9)) }
