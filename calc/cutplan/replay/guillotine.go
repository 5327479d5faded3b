package replay

import (
	"cmp"
	"slices"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
)

// Guillotine says by geometry alone whether parts can be sawn out of a board (less its trim) in
// so many stages, 1 to 4, with a kerf: crosscuts first, then rips, and so on by turns, each from
// edge to edge of a piece. A fourth stage only trims a piece at one edge to its one part. It needs
// no listed cuts: cutting close to the parts wherever a kerf goes between them never spoils a
// later cut.
func Guillotine(board cutplan.Rect, parts []cutplan.Rect, kerf measure.Length, stages int) bool {
	for _, p := range parts {
		if p.Length <= 0 || p.Width <= 0 || !within(p, board) {
			return false
		}
	}
	return sawable(board, parts, kerf, 1, stages)
}

func sawable(piece cutplan.Rect, parts []cutplan.Rect, kerf measure.Length, stage, stages int) bool {
	switch {
	case len(parts) == 0 || len(parts) == 1 && parts[0] == piece:
		return true
	case stage > stages || stage > 4:
		return false
	case stage == 4:
		return len(parts) == 1 && trims(piece, parts[0])
	}
	across := stage%2 == 1
	for _, group := range groups(parts, across, kerf) {
		if !sawable(stretch(piece, group, across), group, kerf, stage+1, stages) {
			return false
		}
	}
	return true
}

// trims says whether one rip takes a piece to a part at one of its edges.
func trims(piece, part cutplan.Rect) bool {
	return part.X == piece.X && part.Length == piece.Length &&
		(part.Y == piece.Y || part.Y+part.Width == piece.Y+piece.Width)
}

// groups divides parts wherever a saw cut can go between them.
func groups(parts []cutplan.Rect, across bool, kerf measure.Length) (all [][]cutplan.Rect) {
	sorted := slices.SortedFunc(slices.Values(parts), func(a, b cutplan.Rect) int {
		fromA, _ := span(a, across)
		fromB, _ := span(b, across)
		return cmp.Compare(fromA, fromB)
	})
	var end measure.Length
	for i, p := range sorted {
		from, to := span(p, across)
		if i == 0 || from >= end+kerf {
			all = append(all, nil)
		}
		all[len(all)-1] = append(all[len(all)-1], p)
		end = max(end, to)
	}
	return all
}

// stretch is what is left of a piece when it is cut close to a group of parts on both sides.
func stretch(piece cutplan.Rect, group []cutplan.Rect, across bool) cutplan.Rect {
	lo, hi := span(group[0], across)
	for _, p := range group {
		from, to := span(p, across)
		lo, hi = min(lo, from), max(hi, to)
	}
	if across {
		piece.X, piece.Length = lo, hi-lo
	} else {
		piece.Y, piece.Width = lo, hi-lo
	}
	return piece
}

func span(r cutplan.Rect, across bool) (from, to measure.Length) {
	if across {
		return r.X, r.X + r.Length
	}
	return r.Y, r.Y + r.Width
}
