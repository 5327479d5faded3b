package remaining

import (
	"slices"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
)

// Halfway is what a board is in when some of its cuts are made.
type Halfway struct {
	Out     []cutplan.Placed // cut out
	Uncut   []cutplan.Rect   // pieces with parts that are still to be cut out of them
	Offcuts []cutplan.Rect   // pieces that no part was to come out of
}

// After replays those cuts of a board that are made, by their order. A cut that is made shows that
// those before it were made through which its piece came about. Kerf is the plan's.
func After(b cutplan.SawnBoard, kerf measure.Length, made map[int]bool) (h Halfway) {
	pieces := []cutplan.Rect{{Length: b.Length, Width: b.Width}}
	for i, c := range b.Cuts {
		if !implied(b.Cuts[i:], made) {
			continue
		}
		if at := slices.Index(pieces, c.Piece); at >= 0 {
			pieces = append(slices.Delete(pieces, at, at+1), halves(c, kerf)...)
		}
	}
	for _, r := range pieces {
		parts := slices.DeleteFunc(slices.Clone(b.Parts), func(p cutplan.Placed) bool { return !holds(r, rectOf(p)) })
		switch {
		case len(parts) == 0:
			h.Offcuts = append(h.Offcuts, r)
		case len(parts) == 1 && rectOf(parts[0]) == r:
			h.Out = append(h.Out, parts[0])
		default:
			h.Uncut = append(h.Uncut, r)
		}
	}
	return h
}

// implied says whether the first of the cuts is made, or a later one of a piece that it gave.
func implied(cuts []cutplan.Cut, made map[int]bool) bool {
	return slices.ContainsFunc(cuts, func(c cutplan.Cut) bool { return made[c.Order] && holds(cuts[0].Piece, c.Piece) })
}

// halves are the pieces that a cut gives: two, or one where the saw takes the rest.
func halves(c cutplan.Cut, kerf measure.Length) (out []cutplan.Rect) {
	before, beyond := c.At, c.At+kerf
	if c.Starts {
		before, beyond = c.At-kerf, c.At
	}
	low, high := c.Piece, c.Piece
	if c.Across {
		low.Length = before - low.X
		high.X, high.Length = beyond, high.X+high.Length-beyond
	} else {
		low.Width = before - low.Y
		high.Y, high.Width = beyond, high.Y+high.Width-beyond
	}
	for _, r := range []cutplan.Rect{low, high} {
		if r.Length > 0 && r.Width > 0 {
			out = append(out, r)
		}
	}
	return out
}

func holds(outer, r cutplan.Rect) bool {
	return r.X >= outer.X && r.Y >= outer.Y && r.X+r.Length <= outer.X+outer.Length && r.Y+r.Width <= outer.Y+outer.Width
}

func rectOf(p cutplan.Placed) cutplan.Rect {
	return cutplan.Rect{X: p.X, Y: p.Y, Length: p.Length, Width: p.Width}
}
