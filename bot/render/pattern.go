package render

import (
	"math"
	"slices"

	"fettle/calc/sketch"
)

// pattern gives the lines that fill an area, and how they are drawn: slanting ones for a fault,
// rows of dots for waste. They lie on one grid for the whole sheet. As lines, not as a pattern
// of the file format, they print alike everywhere.
func pattern(fill sketch.Fill, corners []sketch.Point) ([][]sketch.Point, pen) {
	switch fill {
	case sketch.Hatched:
		return rows(corners, -45, 5), pen{width: 1}
	case sketch.Waste:
		return rows(corners, 0, 6), pen{width: 1.3, dash: []float64{0.1, 5.9}, round: true}
	}
	return nil, pen{}
}

// rows are parallel lines at an angle (degrees clockwise) and a distance (px), cut off where
// they leave the area.
func rows(corners []sketch.Point, deg, apart float64) (lines [][]sketch.Point) {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	turned := make([]sketch.Point, len(corners))
	low, high := math.Inf(1), math.Inf(-1)
	for i, p := range corners {
		turned[i] = sketch.Point{X: p.X*cos + p.Y*sin, Y: p.Y*cos - p.X*sin}
		low, high = math.Min(low, turned[i].Y), math.Max(high, turned[i].Y)
	}
	back := func(x, y float64) sketch.Point { return sketch.Point{X: x*cos - y*sin, Y: x*sin + y*cos} }
	for n := math.Ceil(low/apart - 0.5); (n+0.5)*apart < high; n++ {
		y := (n + 0.5) * apart
		at := crossings(turned, y)
		for i := 0; i+1 < len(at); i += 2 {
			lines = append(lines, []sketch.Point{back(at[i], y), back(at[i+1], y)})
		}
	}
	return lines
}

// crossings are the places, from left to right, where a level line meets the outline.
func crossings(corners []sketch.Point, y float64) (at []float64) {
	for i, a := range corners {
		b := corners[(i+1)%len(corners)]
		if (a.Y <= y) != (b.Y <= y) {
			at = append(at, a.X+(b.X-a.X)*(y-a.Y)/(b.Y-a.Y))
		}
	}
	slices.Sort(at)
	return at
}
