package cutplan

import (
	"context"
	"math"

	"fettle/calc/cutplan/line"
)

// isLine says whether the lot is one of sticks: no faults, nothing turns, every piece fits every
// board that is long enough, and no two fit side by side.
func (lt *lot) isLine() bool {
	if len(lt.kinds) == 0 {
		return false
	}
	narrow := lt.kinds[0].w
	for _, k := range lt.kinds {
		narrow = min(narrow, k.w)
	}
	for i := range lt.stocks {
		s := &lt.stocks[i]
		if len(s.faults) > 0 || s.w >= 2*narrow+lt.kerf {
			return false
		}
		fits := 0
		for _, k := range lt.kinds {
			if k.l <= s.x1-s.x0 {
				fits++
			}
		}
		for _, it := range s.items {
			if !it.turned {
				fits--
			}
		}
		if fits != 0 {
			return false
		}
	}
	return true
}

// asLine plans a lot of sticks in one dimension, where nearly always the best plan is found and
// proved. False if it can't be put so or there is no full plan.
func (s *search) asLine(ctx context.Context, nodes int64) bool {
	unit := s.lot.costUnit()
	if !s.lot.isLine() || unit == 0 {
		return false
	}
	var p line.Problem
	var of []int
	for i := range s.lot.stocks {
		if st := &s.lot.stocks[i]; len(st.items) > 0 {
			of = append(of, i)
			p.Stocks = append(p.Stocks, line.Stock{Length: int64(st.x1 - st.x0 + s.lot.kerf), Cost: int64(math.Round(st.cost * unit)), Copies: len(st.copies)})
		}
	}
	for _, k := range s.lot.kinds {
		p.Items = append(p.Items, line.Item{Length: int64(k.l + s.lot.kerf), Quantity: k.demand})
	}
	r, err := line.Solve(ctx, p, line.Limits{Nodes: nodes})
	if err != nil {
		return false // too few boards, or numbers too large: the other search leaves out the least
	}
	var all []*pattern
	for _, l := range r.Patterns {
		for range l.Copies {
			all = append(all, s.stick(of[l.Stock], l.Counts))
		}
	}
	s.learn(all...)
	s.offer(all)
	s.bound = max(s.bound, float64(r.Bound)/unit)
	return true
}

// costUnit is a number that makes the cost of every board whole; 0 if there is none.
func (lt *lot) costUnit() float64 {
	for _, unit := range []float64{1, 100, 10_000, 1_000_000} {
		whole := true
		for i := range lt.stocks {
			c := lt.stocks[i].cost * unit
			whole = whole && math.Abs(c-math.Round(c)) < 1e-6*math.Max(1, unit/1e4) && c < 1<<30
		}
		if whole {
			return unit
		}
	}
	return 0
}

// stick is the pattern of pieces one behind the other.
func (s *search) stick(stock int, counts []int) *pattern {
	st := &s.lot.stocks[stock]
	p := &pattern{stock: stock, count: make([]int16, len(s.lot.kinds))}
	x := st.x0
	for i, it := range st.items {
		if it.turned {
			continue
		}
		for range counts[it.kind] {
			p.count[it.kind]++
			p.steps = append(p.steps, step{item: i, how: newSection, x: x})
			x += it.l + s.lot.kerf
		}
	}
	return p
}
