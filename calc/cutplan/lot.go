package cutplan

import (
	"cmp"
	"slices"

	"fettle/calc/measure"
)

// lot is a part of the job that shares no board with the rest. Lengths are whole multiples of
// its scale.
type lot struct {
	kinds   []kind
	stocks  []stock
	kerf    int
	lastRip bool
	scale   measure.Length
	granule float64 // costs of solutions differ by this or more
}

// kind is pieces alike, of one part or of several.
type kind struct {
	l, w    int
	demand  int
	area    float64 // of one, in scaled units
	members []member
}

// member is a part that a kind was made of.
type member struct{ part, quantity int }

// stock is boards alike, without faults or a single one with them.
type stock struct {
	board  int
	copies []int // which of the board's, from 1
	x0, x1 int   // usable length between the trimmed ends
	w      int
	faults []rect
	cost   float64
	items  []item // what fits on it, widest first
}

// item is a kind as it would lie on a stock.
type item struct {
	kind, l, w int
	turned     bool
}

// rect is a rectangle in scaled units; x1 and y1 lie just outside.
type rect struct{ x0, y0, x1, y1 int }

// area is that of the whole usable board, in scaled units.
func (s *stock) area() float64 { return float64(s.x1-s.x0) * float64(s.w) }

// free gives the first x not before from at which a piece lies within the board and touches no
// fault.
func (s *stock) free(from, y, l, w int) (x int, ok bool) {
	for i := 0; i < len(s.faults); i++ {
		f := &s.faults[i]
		if f.x1 > from && f.x0 < from+l && f.y1 > y && f.y0 < y+w {
			from, i = f.x1, -1
		}
	}
	return from, from+l <= s.x1 && y+w <= s.w
}

// holds says whether the stock has a place for a single such piece.
func (s *stock) holds(l, w int) bool {
	if _, ok := s.free(s.x0, 0, l, w); ok {
		return true
	}
	return slices.ContainsFunc(s.faults, func(f rect) bool {
		_, ok := s.free(s.x0, f.y1, l, w)
		return ok
	})
}

// itemsFor lists the kinds that fit on the stock, in every way they may lie there.
func (s *stock) itemsFor(kinds []kind, may, turn func(kind int) bool) []item {
	var items []item
	for i, k := range kinds {
		if !may(i) {
			continue
		}
		if s.holds(k.l, k.w) {
			items = append(items, item{kind: i, l: k.l, w: k.w})
		}
		if k.l != k.w && turn(i) && s.holds(k.w, k.l) {
			items = append(items, item{kind: i, l: k.w, w: k.l, turned: true})
		}
	}
	slices.SortStableFunc(items, func(a, b item) int {
		return cmp.Or(cmp.Compare(b.w, a.w), cmp.Compare(b.l, a.l))
	})
	return items
}
