package joinery

import (
	"errors"
	"math"
)

// Point is a place seen from the front, in mm, y upwards.
type Point struct{ X, Y float64 }

func (p Point) plus(q Point, by float64) Point { return Point{p.X + q.X*by, p.Y + q.Y*by} }
func (p Point) minus(q Point) Point            { return Point{p.X - q.X, p.Y - q.Y} }
func (p Point) dot(q Point) float64            { return p.X*q.X + p.Y*q.Y }
func (p Point) cross(q Point) float64          { return p.X*q.Y - p.Y*q.X }
func (p Point) to(q Point) float64             { return math.Hypot(q.X-p.X, q.Y-p.Y) }

// line is a straight line with a direction of length 1; what belongs to it lies on its left.
type line struct{ at, along Point }

func through(p, q Point) line {
	d := q.minus(p)
	l := math.Hypot(d.X, d.Y)
	return line{p, Point{d.X / l, d.Y / l}}
}

// off gives the parallel that lies so far to the left; a negative distance is to the right.
func (l line) off(mm float64) line {
	return line{l.at.plus(Point{-l.along.Y, l.along.X}, mm), l.along}
}

// back is the same line run the other way.
func (l line) back() line { return line{l.at, Point{-l.along.X, -l.along.Y}} }

// meet is where two lines cross. Lines of one opening are never parallel: Quad refuses such.
func (l line) meet(k line) Point {
	t := k.at.minus(l.at).cross(k.along) / l.along.cross(k.along)
	return l.at.plus(l.along, t)
}

// Quad is four corners: bottom left, bottom right, top right, top left.
type Quad [4]Point

// The edges of a Quad, in the order in which its corners run round it.
const (
	Bottom = iota
	Right
	Top
	Left
)

// edge is the line along an edge, with the inside on its left.
func (q Quad) edge(i int) line { return through(q[i], q[(i+1)%4]) }

// Side is the length of an edge in mm.
func (q Quad) Side(i int) float64 { return q[i].to(q[(i+1)%4]) }

// CornerDeg is the angle inside a corner: that of edge i and the one before it.
func (q Quad) CornerDeg(i int) float64 {
	a, b := q[(i+3)%4].minus(q[i]), q[(i+1)%4].minus(q[i])
	return math.Atan2(math.Abs(a.cross(b)), a.dot(b)) * 180 / math.Pi
}

// Inset moves each edge inwards by its own distance in mm, or outwards by a negative one.
func (q Quad) Inset(bottom, right, top, left float64) Quad {
	return cell(q.edge(Bottom).off(bottom), q.edge(Right).off(right), q.edge(Top).off(top), q.edge(Left).off(left))
}

// cell is what four lines enclose.
func cell(bottom, right, top, left line) Quad {
	return Quad{left.meet(bottom), bottom.meet(right), right.meet(top), top.meet(left)}
}

// sound says that the corners run round a field: none is turned in.
func (q Quad) sound() bool {
	for i := range q {
		a, b := q[(i+1)%4].minus(q[i]), q[(i+2)%4].minus(q[(i+1)%4])
		if !(a.cross(b) > 1e-9) || math.IsInf(a.cross(b), 0) {
			return false
		}
	}
	return true
}

// span is the smallest upright rectangle round the corners: its lower left and upper right.
func span(points ...Point) (low, high Point) {
	low, high = points[0], points[0]
	for _, p := range points {
		low.X, low.Y = min(low.X, p.X), min(low.Y, p.Y)
		high.X, high.Y = max(high.X, p.X), max(high.Y, p.Y)
	}
	return low, high
}

// strip is a piece of one width along a reference edge, cut off by a line at each end.
type strip struct {
	edge        line
	width       float64
	left, right line // at the start and at the end of the edge
}

func (s strip) outline() [4]Point {
	inner := s.edge.off(s.width)
	return [4]Point{s.edge.meet(s.left), s.edge.meet(s.right), inner.meet(s.right), inner.meet(s.left)}
}

// errNoRoom says that parts are wider than what they go round.
var errNoRoom = errors.New("the parts take more than there is; say narrower ones or a bigger opening")

// part measures the strip: edge, corners, and the length over all with so much tenon at each end.
// It fails when nothing is left between the ends.
func (s strip) part(tenon float64) (Part, error) {
	o := s.outline()
	d := s.edge.along
	if o[1].minus(o[0]).dot(d) <= 0 || o[2].minus(o[3]).dot(d) <= 0 {
		return Part{}, errNoRoom
	}
	corner := func(a, at, b Point) float64 {
		u, v := a.minus(at), b.minus(at)
		return math.Atan2(math.Abs(u.cross(v)), u.dot(v)) * 180 / math.Pi
	}
	long := strip{s.edge, s.width, s.left.off(-tenon), s.right.off(-tenon)}.outline()
	first, last := math.Inf(1), math.Inf(-1)
	for _, p := range long {
		at := p.dot(d)
		first, last = min(first, at), max(last, at)
	}
	return Part{
		Quantity: 1, LengthMM: last - first, WidthMM: s.width, EdgeMM: o[0].to(o[1]),
		LeftDeg: corner(o[3], o[0], o[1]), RightDeg: corner(o[0], o[1], o[2]), TenonMM: tenon,
	}, nil
}
