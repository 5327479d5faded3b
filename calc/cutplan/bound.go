package cutplan

import (
	"cmp"
	"slices"
)

// A bound rests on weights for the pieces and, for each stock, a ceiling on the weight that one
// board of it can hold: any plan's boards together have ceilings of at least the weight of all
// pieces, so no plan costs less than the cheapest boards that have. The weights are areas, or
// the prices of the linear program.

// areaBound takes the pieces' areas, pieces and boards enlarged by the kerf.
func (s *search) areaBound() {
	k := s.lot.kerf
	weight := make([]float64, len(s.lot.kinds))
	for i := range weight {
		weight[i] = float64(s.lot.kinds[i].l+k) * float64(s.lot.kinds[i].w+k)
	}
	ceilings := make([]float64, len(s.lot.stocks))
	for i := range s.lot.stocks {
		ceilings[i] = s.lot.usable(&s.lot.stocks[i])
	}
	s.raise(weight, ceilings)
}

// usable is the area of a board, enlarged by the kerf, less what is surely lost to its faults.
func (lt *lot) usable(s *stock) float64 {
	k := lt.kerf
	lost := 0.0
	for i, f := range s.faults {
		apart := !slices.ContainsFunc(s.faults[:i], func(g rect) bool {
			return f.x0 < g.x1 && g.x0 < f.x1 && f.y0 < g.y1 && g.y0 < f.y1
		})
		f.x0, f.x1 = max(f.x0+k, s.x0), min(f.x1, s.x1+k)
		f.y0 += k
		if apart && f.x1 > f.x0 && f.y1 > f.y0 {
			lost += float64(f.x1-f.x0) * float64(f.y1-f.y0)
		}
	}
	return float64(s.x1-s.x0+k)*float64(s.w+k) - lost
}

// lastBound makes sure that there is a bound, also where time was up before there was one, or
// where pieces are left out and it speaks of the others.
func (s *search) lastBound() float64 {
	if s.best.missing > 0 {
		s.bound = 0
	}
	if s.bound == 0 {
		s.areaBound()
	}
	return min(s.bound, s.best.cost)
}

// raise lifts the bound to what weights and ceilings prove.
func (s *search) raise(weight, ceilings []float64) {
	need := 0.0
	for k, n := range s.placed() {
		need += float64(n) * weight[k]
	}
	if b := s.lot.cover(need*(1-1e-9), ceilings, s.best.cost); b > s.bound {
		s.bound = b
	}
}

// placed is how many pieces of each kind the best solution has a place for: the bound speaks of
// those only.
func (s *search) placed() []int {
	n := make([]int, len(s.lot.kinds))
	for _, p := range s.best.patterns {
		for k, c := range p.count {
			n[k] += int(c)
		}
	}
	return n
}

// most nodes of the search for the cheapest cover, and most of its choices.
const coverNodes = 200_000

// coverer seeks the cheapest boards whose ceilings reach a need.
type coverer struct {
	cost, ceiling []float64
	copies        []int
	best          float64
	nodes         int
}

// cover is the least cost of boards with ceilings that reach the need, but no more than the
// limit; where that is too long to find, a bound below it.
func (lt *lot) cover(need float64, ceilings []float64, limit float64) float64 {
	order := make([]int, 0, len(ceilings))
	for i := range ceilings {
		if ceilings[i] > 0 {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(lt.stocks[a].cost*ceilings[b], lt.stocks[b].cost*ceilings[a])
	})
	c := coverer{best: limit}
	for _, i := range order {
		c.cost = append(c.cost, lt.stocks[i].cost)
		c.ceiling = append(c.ceiling, ceilings[i])
		c.copies = append(c.copies, len(lt.stocks[i].copies))
	}
	poured := c.pour(0, need)
	if c.search(0, 0, need); c.nodes >= coverNodes {
		return min(poured, limit)
	}
	return c.best
}

// pour is the cost of the need from the i-th kind of board on, if boards could be had in parts.
func (c *coverer) pour(i int, need float64) float64 {
	cost := 0.0
	for ; i < len(c.cost) && need > 0; i++ {
		n := min(float64(c.copies[i]), need/c.ceiling[i])
		cost += n * c.cost[i]
		need -= n * c.ceiling[i]
	}
	if need > 1e-9 {
		return c.best
	}
	return cost
}

// search tries all numbers of the i-th kind of board, the most first.
func (c *coverer) search(i int, cost, need float64) {
	if c.nodes++; c.nodes > coverNodes {
		return
	}
	if need <= 0 {
		c.best = min(c.best, cost)
		return
	}
	if i == len(c.cost) || cost+c.pour(i, need) >= c.best*(1-1e-12) {
		return
	}
	most := int(min(float64(c.copies[i]), need/c.ceiling[i]+1))
	for n := most; n >= 0; n-- {
		c.search(i+1, cost+float64(n)*c.cost[i], need-float64(n)*c.ceiling[i])
	}
}
