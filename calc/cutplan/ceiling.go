package cutplan

import (
	"cmp"
	"slices"
)

// largestGrid is the most work, in single steps, that ceilings are worth.
const largestGrid = 150_000_000

// ceilings gives for each stock a weight that no pattern of it can exceed: the best three-stage
// pattern without faults in which only a strip, not the whole board, heeds how many pieces there
// are of a kind (after Gilmore and Gomory 1965). The sizes are enlarged by the kerf, so that
// there is none. False if no piece has weight, if that is too much work, or time is up.
func (s *search) ceilings(weight []float64) ([]float64, bool) {
	long, wide := s.extent()
	strips := s.stripsFor(weight)
	if len(strips) == 0 || float64(long)*float64(len(strips))*float64(wide) > largestGrid {
		return nil, false
	}
	g := newGrid(strips, long)
	byWidth := map[int][]float64{} // the best section of each length, by the board's width
	for i := range s.lot.stocks {
		byWidth[s.lot.stocks[i].w+s.lot.kerf] = make([]float64, long+1)
	}
	section := make([]float64, wide+1)
	for x := 1; x <= long; x++ {
		if s.stop() {
			return nil, false
		}
		if g.section(x, section) {
			s.nodes += int64(len(strips) * wide / 100)
			for w, best := range byWidth {
				best[x] = section[w]
			}
			continue
		}
		for _, best := range byWidth {
			best[x] = best[x-1]
		}
	}
	return s.boards(byWidth, long), true
}

// boards is the best row of sections for each stock.
func (s *search) boards(byWidth map[int][]float64, long int) []float64 {
	whole := map[int][]float64{}
	for w, sections := range byWidth {
		whole[w] = sideBySide(sections, long)
	}
	out := make([]float64, len(s.lot.stocks))
	for i := range out {
		st := &s.lot.stocks[i]
		out[i] = whole[st.w+s.lot.kerf][st.x1-st.x0+s.lot.kerf] * (1 + 1e-9)
	}
	return out
}

// sideBySide is the most that sections side by side give in each length.
func sideBySide(sections []float64, long int) []float64 {
	best := make([]float64, long+1)
	for x := 1; x <= long; x++ {
		if sections[x] <= sections[x-1] {
			continue
		}
		v := sections[x]
		for c := x; c <= long; c++ {
			best[c] = max(best[c], best[c-x]+v)
		}
	}
	return best
}

// extent is the largest board's length and width, with the kerf.
func (s *search) extent() (long, wide int) {
	for i := range s.lot.stocks {
		long = max(long, s.lot.stocks[i].x1-s.lot.stocks[i].x0+s.lot.kerf)
		wide = max(wide, s.lot.stocks[i].w+s.lot.kerf)
	}
	return long, wide
}

// bar is a piece as it may lie, enlarged by the kerf.
type bar struct {
	l, w, most int
	value      float64
}

// stripsFor lists the pieces of weight in every way that they may lie, widest first.
func (s *search) stripsFor(weight []float64) []bar {
	seen := map[item]bool{}
	var all []bar
	for i := range s.lot.stocks {
		for _, it := range s.lot.stocks[i].items {
			if !seen[it] && weight[it.kind] > 0 {
				seen[it] = true
				all = append(all, bar{it.l + s.lot.kerf, it.w + s.lot.kerf, s.lot.kinds[it.kind].demand, weight[it.kind]})
			}
		}
	}
	sortBars(all)
	return all
}

// grid holds, for each piece as the widest of a strip, the best strip of each length.
type grid struct {
	bars  []bar
	strip [][]float64
	split [][]int // the numbers of strips to try at once, so that any number up to the most can be had
}

func newGrid(bars []bar, long int) *grid {
	g := &grid{bars: bars, strip: make([][]float64, len(bars)), split: make([][]int, len(bars))}
	rest := make([]float64, long+1) // the best of the narrower pieces
	for j := len(bars) - 1; j >= 0; j-- {
		b := bars[j]
		for n, left := 1, b.most; left > 0; n *= 2 {
			g.split[j] = append(g.split[j], min(n, left))
			left -= n
		}
		with := append([]float64(nil), rest...)
		for n, left := 1, b.most-1; left > 0; n *= 2 {
			addTo(with, min(n, left)*b.l, float64(min(n, left))*b.value)
			left -= n
		}
		g.strip[j] = make([]float64, long+1)
		for x := b.l; x <= long; x++ {
			g.strip[j][x] = with[x-b.l] + b.value
			rest[x] = max(rest[x], g.strip[j][x])
		}
	}
	return g
}

// addTo offers a thing of a size once to the best of each capacity.
func addTo(best []float64, size int, value float64) {
	for x := len(best) - 1; x >= size; x-- {
		best[x] = max(best[x], best[x-size]+value)
	}
}

// section fills in the most that strips of a length on top of each other give in each width.
// False if that is no more than with one less of length.
func (g *grid) section(x int, best []float64) bool {
	changed := false
	for j := range g.bars {
		changed = changed || g.strip[j][x] > g.strip[j][x-1]
	}
	if !changed {
		return false
	}
	clear(best)
	for j, b := range g.bars {
		if g.strip[j][x] == 0 {
			continue
		}
		for _, n := range g.split[j] {
			if n*b.w < len(best) {
				addTo(best, n*b.w, float64(n)*g.strip[j][x])
			}
		}
	}
	return true
}

func sortBars(all []bar) {
	slices.SortStableFunc(all, func(a, b bar) int { return cmp.Compare(b.w, a.w) })
}
