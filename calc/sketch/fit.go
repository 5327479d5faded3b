package sketch

import "math"

// Fit carries points of what is drawn, in mm with y upwards, to a rectangle of a sheet, to scale.
type Fit struct {
	Scale  float64 // px for a mm
	left   float64
	bottom float64
	minX   float64
	minY   float64
}

// FitInto finds the largest scale at which what spans from min to max (mm) fits into a rectangle
// of a sheet (px), and centres it there. A span of nothing has the scale 1.
func FitInto(min, max Point, x, y, width, height float64) Fit {
	w, h := max.X-min.X, max.Y-min.Y
	scale := math.Min(ratio(width, w), ratio(height, h))
	if math.IsInf(scale, 1) {
		scale = 1
	}
	return Fit{Scale: scale, minX: min.X, minY: min.Y,
		left: x + (width-w*scale)/2, bottom: y + height - (height-h*scale)/2}
}

func ratio(room, need float64) float64 {
	if need <= 0 {
		return math.Inf(1)
	}
	return room / need
}

// At gives the place on the sheet of a point of what is drawn.
func (f Fit) At(x, y float64) Point {
	return Point{f.left + (x-f.minX)*f.Scale, f.bottom - (y-f.minY)*f.Scale}
}
