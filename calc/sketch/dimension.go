package sketch

import "math"

// Dimension draws a measure between two places of a sheet: a line with arrows beside them, the
// two lines that lead to it, and the text at its middle. away is how far the line stands off to
// the left of the way from one place to the other, in px (negative: to the right).
func Dimension(from, to Point, away float64, text string) []Shape {
	dx, dy := to.X-from.X, to.Y-from.Y
	l := math.Hypot(dx, dy)
	if l == 0 {
		return nil
	}
	nx, ny := dy/l, -dx/l
	a := Point{from.X + nx*away, from.Y + ny*away}
	b := Point{to.X + nx*away, to.Y + ny*away}
	line := Path(a, b)
	line.Arrows = true
	label := Words((a.X+b.X)/2, (a.Y+b.Y)/2, LeastText+1, text)
	label.Halo = true
	label.Turn = upright(math.Atan2(dy, dx) * 180 / math.Pi)
	thin := func(p, q Point) Shape { s := Path(p, q); s.Stroke = 0.5; return s }
	return []Shape{thin(from, a), thin(to, b), line, label}
}

// upright turns a direction round where text along it would stand on its head.
func upright(deg float64) float64 {
	switch {
	case deg > 90:
		return deg - 180
	case deg <= -90 && deg != -90:
		return deg + 180
	}
	return deg
}
