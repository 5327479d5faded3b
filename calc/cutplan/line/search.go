package line

import (
	"cmp"
	"context"
	"slices"
)

// search holds what is known while a task is solved: the best plan and the bound, which
// meet when it is proved.
type search struct {
	task
	ctx      context.Context
	limits   Limits
	pool     *pool
	pricer   *pricer
	nodes    int64
	best     []use
	bestCost int64
	bound    int64
	mixes    mixes
}

// priceSteps is where a knapsack by branching gives up; its bound then stays valid.
const priceSteps = 1 << 21

func newSearch(ctx context.Context, t task, limits Limits) *search {
	return &search{task: t, ctx: ctx, limits: limits, pool: newPool(t), pricer: &pricer{}, bestCost: t.allCost() + 1}
}

// over says whether the search must end: proved, out of nodes, or told to.
func (s *search) over() bool {
	return s.bound >= s.bestCost || s.limits.Nodes > 0 && s.nodes >= s.limits.Nodes || s.ctx.Err() != nil
}

// offer takes a plan when it is better than the best.
func (s *search) offer(plan []use) {
	if plan == nil {
		return
	}
	if c := s.cost(plan); c < s.bestCost {
		s.best, s.bestCost = plan, c
	}
}

func (s *search) raise(bound int64) {
	s.bound = max(s.bound, s.mixes.up(bound))
}

// cutoff is the cost from which on no plan is of interest: one above the largest possible
// cost under the best.
func (s *search) cutoff() int64 {
	return s.mixes.down(s.bestCost-1) + 1
}

func (s *search) run() {
	start := s.need()
	s.raise(s.boundByLength(start))
	s.greedy(nil, start)
	s.offer(s.fillFull(start))
	s.mixes = s.mixesTo(s.bestCost)
	s.raise(s.bound)
	if s.over() {
		return
	}
	m := newMaster(s.pool, start)
	s.seed(start)
	bound, done := s.solve(m, start, nil, s.cutoff(), true)
	s.raise(bound)
	if s.over() || !done {
		return
	}
	for turns := 0; turns <= 2 && !s.over(); turns++ {
		d := &dive{search: s, budget: 40 + 150*int64(turns)}
		d.down(m.clone(), start.clone(), nil, turns, 0)
	}
	if !s.over() {
		s.prove()
	}
}

// smallEnough is how many pieces best fit is tried on.
const smallEnough = 3000

// greedy completes a plan by best fit, on each stock alone.
func (s *search) greedy(fixed []use, n need) {
	if n.pieces() > smallEnough {
		return
	}
	for k := range s.stocks {
		if rest := s.bestFit(n, k); rest != nil {
			s.offer(slices.Concat(fixed, rest))
		}
	}
}

// seed gives the master its first patterns: each size alone on each stock, and the best
// plan's.
func (s *search) seed(n need) {
	for k, stock := range s.stocks {
		for i, size := range s.sizes {
			if c := min(stock.Length/size.length, int64(n.demand[i])); c > 0 {
				s.pool.add(pattern{k, []take{{i, int(c)}}})
			}
		}
	}
	for _, u := range s.best {
		s.pool.add(u.pattern)
	}
}

// solve runs column generation on a master. It ends with bound, a cost that what is needed
// cannot be cut under. It is done when that reaches the cutoff, when the linear program is
// solved, or when its value is low enough that neither can happen any more: under the
// cutoff and, at least bound being asked for, rounding up to no more than the bound.
func (s *search) solve(m *master, n need, windows []window, cutoff int64, least bool) (bound int64, done bool) {
	s.nodes++
	for s.ctx.Err() == nil {
		m.improve()
		if v := m.value() - 1e-5; v <= float64(cutoff-1) && (!least || v <= float64(bound)) {
			return bound, true
		}
		q := s.question(m, n, windows)
		a := s.pricer.ask(q)
		bound = max(bound, s.boundBy(n, q.prices, a.most))
		if bound >= cutoff {
			return bound, true
		}
		if !s.learn(m, a) {
			return bound, true
		}
	}
	return bound, false
}

// question asks for patterns under the master's prices in whole numbers.
func (s *search) question(m *master, n need, windows []window) question {
	q := question{sizes: s.sizes, stocks: s.stocks, demand: n.demand, window: windows, steps: priceSteps,
		prices: make([]int64, len(s.sizes)), use: make([]bool, len(s.stocks)), least: make([]int64, len(s.stocks))}
	unit := float64(s.priceOfCost()) * m.scale
	for i := range q.prices {
		if n.demand[i] > 0 {
			q.prices[i] = int64(min(max(m.y[i]*unit, 0), float64(priceMost)))
		}
	}
	for k := range q.use {
		q.use[k] = s.available(n, k)
		q.least[k] = int64(max(0, m.worthCost(k)) * unit)
	}
	return q
}

// learnAtOnce is how many patterns are taken from one pricing.
const learnAtOnce = 16

// learn adds the patterns that would make the plan cheaper; none left means solved.
func (s *search) learn(m *master, a answer) bool {
	unit := float64(s.priceOfCost()) * m.scale
	gain := func(f priced) float64 {
		return float64(f.worth)/unit - m.worthCost(f.pattern.stock)
	}
	slices.SortStableFunc(a.found, func(f, g priced) int { return cmp.Compare(gain(g), gain(f)) })
	before := len(m.patterns)
	for k, f := range a.found {
		if k == learnAtOnce || gain(f) < 1e-8 {
			break
		}
		m.add(f.pattern)
	}
	return len(m.patterns) > before
}
