package cutplan

import (
	"cmp"
	"slices"

	"fettle/calc/measure"
)

// sawyer saws up one board and writes down each cut and each piece that is left.
type sawyer struct {
	kerf    int
	scale   measure.Length
	cuts    []Cut
	offcuts []Rect
}

// saw gives the cuts, by stage and from the board's left end, and the offcuts of a laid out board.
func (lt *lot) saw(s *stock, lay layout) ([]Cut, []Rect) {
	w := &sawyer{kerf: lt.kerf, scale: lt.scale}
	board := w.trim(s)
	for _, sec := range lay {
		var part rect
		part, board = w.part(board, true, 1, sec.x0, sec.x1)
		for _, st := range sec.strips {
			var row rect
			row, part = w.part(part, false, 2, st.y0, st.y1)
			for _, p := range st.pieces {
				var block rect
				block, row = w.part(row, true, 3, p.x0, p.x1)
				w.last(block, p.rect)
			}
			w.left(row)
		}
		w.left(part)
	}
	w.left(board)
	slices.SortStableFunc(w.cuts, func(a, b Cut) int { return cmp.Compare(a.Stage, b.Stage) })
	for i := range w.cuts {
		w.cuts[i].Order = i + 1
	}
	return w.cuts, w.offcuts
}

// trim takes the ends off the board.
func (w *sawyer) trim(s *stock) rect {
	board := rect{0, 0, s.x1 + s.x0, s.w}
	if s.x0 == 0 {
		return board
	}
	whole, right := w.part(board, true, 1, s.x0, s.x1)
	w.left(right)
	return whole
}

// part parts the stretch from lo to hi from a piece, cutting before and beyond it where there is
// something to cut off, and gives it and what remains beyond it.
func (w *sawyer) part(piece rect, across bool, stage, lo, hi int) (kept, rest rect) {
	if lo > piece.from(across) {
		w.cut(piece, across, stage, lo, true)
		w.left(piece.between(across, piece.from(across), lo-w.kerf))
		piece = piece.between(across, lo, piece.to(across))
	}
	if hi < piece.to(across) {
		w.cut(piece, across, stage, hi, false)
	}
	return piece.between(across, lo, hi), piece.between(across, hi+w.kerf, piece.to(across))
}

// last rips a block to the width of its part, which lies at the block's lower or upper edge.
func (w *sawyer) last(block, part rect) {
	_, rest := w.part(block, false, 4, part.y0, part.y1)
	w.left(rest)
}

func (w *sawyer) cut(piece rect, across bool, stage, at int, starts bool) {
	w.cuts = append(w.cuts, Cut{Stage: stage, Across: across, At: w.length(at), Starts: starts, Piece: w.rect(piece)})
}

// left keeps a piece as an offcut, if the saw left any of it.
func (w *sawyer) left(r rect) {
	if r.x1 > r.x0 && r.y1 > r.y0 {
		w.offcuts = append(w.offcuts, w.rect(r))
	}
}

func (w *sawyer) length(n int) measure.Length { return measure.Length(n) * w.scale }

func (w *sawyer) rect(r rect) Rect {
	return Rect{w.length(r.x0), w.length(r.y0), w.length(r.x1 - r.x0), w.length(r.y1 - r.y0)}
}

// from is where a piece begins along the axis that a crosscut, or a rip, divides.
func (r rect) from(across bool) int {
	if across {
		return r.x0
	}
	return r.y0
}

func (r rect) to(across bool) int {
	if across {
		return r.x1
	}
	return r.y1
}

// between is the stretch of a piece from lo to hi along that axis.
func (r rect) between(across bool, lo, hi int) rect {
	if across {
		r.x0, r.x1 = lo, hi
	} else {
		r.y0, r.y1 = lo, hi
	}
	return r
}

// kept is the size of the side that a cut keeps.
func (c *Cut) kept() measure.Length {
	from, size := c.Piece.X, c.Piece.Length
	if !c.Across {
		from, size = c.Piece.Y, c.Piece.Width
	}
	if c.Starts {
		return from + size - c.At
	}
	return c.At - from
}
