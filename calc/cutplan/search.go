package cutplan

import (
	"context"
	"slices"
)

// search looks for ever better solutions of one lot. Each step of it is one of: solutions built
// board by board; patterns for the linear program; a dive, which fixes patterns of the linear
// program one by one; a repair, which takes some boards out of the best solution and plans
// their pieces anew.
type search struct {
	*filler
	random  uint64
	penalty []float64 // for a piece without a place, by kind
	pool    []*pattern
	known   map[uint64]bool
	best    *solution
	current *solution // as good, from which to go on
	steps   int
	banned  map[uint64]bool // patterns that the dive goes on without
	root    *master         // the linear program of the whole lot
	spent   [6]int64
	tight   *squeeze
	refined int     // times that equal solutions were sought
	told    int     // so much of the pool is known to the other searches
	wild    bool    // chance has a say from the start
	bound   float64 // no plan that places as much costs less
}

func newSearch(ctx context.Context, lt *lot, seed int64) *search {
	s := &search{filler: newFiller(ctx, lt), random: mix(uint64(seed)), known: map[uint64]bool{}, banned: map[uint64]bool{}}
	total := 1.0
	for i := range lt.stocks {
		total += lt.stocks[i].cost * float64(min(len(lt.stocks[i].copies), 20))
	}
	largest := 0.0
	for _, k := range lt.kinds {
		largest = max(largest, k.area)
	}
	for _, k := range lt.kinds {
		s.penalty = append(s.penalty, total*(1+k.area/largest))
	}
	s.best = lt.weigh(nil)
	s.current = s.best
	return s
}

// chance is a number in [0, 1).
func (s *search) chance() float64 {
	s.random++
	return float64(mix(s.random)>>11) / (1 << 53)
}

func (s *search) intn(n int) int { return int(s.chance() * float64(n)) }

// stop says whether time is up.
func (s *search) stop() bool { return s.ctx.Err() != nil }

// learn adds patterns to the pool.
func (s *search) learn(patterns ...*pattern) {
	for _, p := range patterns {
		if key := p.key(s.salt); !s.known[key] {
			s.known[key] = true
			s.pool = append(s.pool, p)
		}
	}
}

// offer keeps a solution if it is the best so far. One that is as good in what is left out and
// in cost becomes the one from which to go on, rather if its boards are filled more unevenly, as
// one board is then nearer to being saved.
func (s *search) offer(patterns []*pattern) {
	sol := s.lot.weigh(patterns)
	if s.lot.compare(sol, s.best) < 0 {
		if sol.compare(s.best) < 0 {
			s.current = sol
		}
		s.best = sol
	}
	if sol.compare(s.current) == 0 && (s.lot.uneven(sol) >= s.lot.uneven(s.current) || s.chance() < 0.2) {
		s.current = sol
	}
}

// uneven is the sum of the squares of what lies on the boards.
func (lt *lot) uneven(sol *solution) float64 {
	sum := 0.0
	for _, p := range sol.patterns {
		full := 0.0
		for k, n := range p.count {
			full += float64(n) * lt.kinds[k].area
		}
		sum += full * full
	}
	return sum
}

// below is the limit for solutions that cost less than the given, or, now and then, no more.
func (s *search) below(cost float64) float64 {
	if s.chance() < 0.3 {
		return cost * (1 + 1e-9)
	}
	return cost - s.lot.granule*0.8
}

// proved says that nothing cheaper can be.
func (s *search) proved() bool {
	return s.best.missing == 0 && apart(s.bound, s.best.cost) >= 0
}

// settled says that nothing cheaper can be, and that among equals enough have been looked at.
func (s *search) settled() bool { return s.proved() && s.refined >= refinements }

// step does one piece of work, of the kind that has had the least for its share.
func (s *search) step() {
	s.steps++
	before := s.nodes
	if s.steps <= starts {
		s.start(s.steps)
		return
	}
	if s.steps == starts+1 {
		s.areaBound()
	}
	if s.proved() {
		s.refine()
		return
	}
	shares := s.shares()
	next := -1
	for i, share := range shares {
		if share > 0 && (next < 0 || s.spent[i]*shares[next] < s.spent[next]*share) {
			next = i
		}
	}
	switch next {
	case 0:
		s.improveRoot()
	case 1:
		s.regroup()
	case 2:
		s.repair()
	case 3:
		s.refine()
	case 4:
		s.squeeze()
	default:
		s.offer(s.dive(s.lot.demand(), s.lot.supply(), s.limit(), 0.3))
	}
	s.spent[next] += s.nodes - before + 100
}

// starts is how many solutions are built before anything else.
const starts = 6

// shares is what each kind of work gets of the rest. Where very many pieces go on a board, as
// many patterns are as good, and the linear program says little.
func (s *search) shares() [6]int64 {
	pieces := 0
	for i := range s.lot.kinds {
		pieces += s.lot.kinds[i].demand
	}
	many, alike := pieces > 12*len(s.best.patterns), s.alike()
	switch {
	case many && alike:
		return [...]int64{0, 2, 0, 1, 24, 0}
	case many:
		return [...]int64{1, 16, 1, 1, 0, 1}
	case alike:
		return [...]int64{6, 8, 4, 1, 24, 3}
	}
	return [...]int64{8, 8, 6, 1, 0, 4}
}

// start builds a solution with weights that grow with area, the more so the later.
func (s *search) start(turn int) {
	weight := make([]float64, len(s.lot.kinds))
	for k := range weight {
		area := s.lot.kinds[k].area
		weight[k] = area * (1 + 0.15*float64(turn-1)*area/s.lot.stocks[0].area())
	}
	b := builder{filler: s.filler, guide: guide{beam: 5 * turn, large: 1}}
	if s.wild {
		b.guide = s.guide(5 * turn)
	}
	patterns := b.build(s.lot.demand(), s.lot.supply(), weight)
	s.learn(patterns...)
	s.offer(patterns)
}

// improveRoot seeks patterns for the linear program of the whole lot. When no more are found its
// prices go into the bound, and all work of this kind is done.
func (s *search) improveRoot() {
	demand, supply := s.lot.demand(), s.lot.supply()
	first := s.root == nil
	if first {
		s.root = s.master(demand, supply)
	}
	done := s.generate(s.root, demand, supply, 2+60/len(supply), 64)
	if first || done {
		s.patternBound()
	}
	if done {
		s.spent[0] = 1 << 50
	}
}

// patternBound takes the prices of the linear program for weights.
func (s *search) patternBound() {
	weight := make([]float64, s.root.kinds)
	for k := range weight {
		weight[k] = max(0, s.root.price[k])
	}
	if ceilings, ok := s.ceilings(weight); ok {
		s.raise(weight, ceilings)
	}
}

// master is the linear program over what the pool has for the demand.
func (s *search) master(demand, supply []int) *master {
	m := newMaster(s.lot, demand, supply, s.penalty)
	for _, p := range s.pool {
		if supply[p.stock] > 0 && p.fitsIn(demand) && (len(s.banned) == 0 || !s.banned[p.key(s.salt)]) {
			m.add(p, s.lot.stocks[p.stock].cost)
		}
	}
	return m
}

// generate solves the program, and as long as patterns are found that lower its cost takes them
// in, so many rounds at most. In a round that finds none the search goes wider, up to the beam
// that is asked for; it is done when none is found in the widest.
func (s *search) generate(m *master, demand, supply []int, rounds, widest int) (done bool) {
	solve := func() {
		before := m.work
		m.solve(s.stop)
		s.nodes += m.work - before
	}
	solve()
	beam, dry := 8, 0
	for i := 0; rounds > 0 && !s.stop(); i++ {
		stock := i % len(supply)
		if stock == 0 {
			rounds--
		}
		if supply[stock] > 0 && s.price(m, stock, demand, beam) {
			dry = 0
			solve()
			continue
		}
		if dry++; dry >= len(supply) {
			if beam *= 2; beam > widest {
				return true
			}
			dry = 0
		}
	}
	return false
}

// price seeks patterns of one stock that lower the program's cost.
func (s *search) price(m *master, stock int, demand []int, beam int) bool {
	cost := s.lot.stocks[stock].cost
	threshold := cost - m.price[m.kinds+stock] + 1e-6*(1+cost)
	r := &request{row: []int{stock}, demand: demand, weight: m.price[:m.kinds], guide: s.guide(beam)}
	if len(s.fill(r)) == 0 {
		return false
	}
	found := s.more(r, threshold, 6)
	if len(s.banned) > 0 {
		found = slices.DeleteFunc(found, func(p *pattern) bool { return s.banned[p.key(s.salt)] })
	}
	s.learn(found...)
	for _, p := range found {
		m.add(p, cost)
	}
	return len(found) > 0
}

// guide draws a way to judge boards begun.
func (s *search) guide(beam int) guide {
	switch s.intn(4) {
	case 0:
		return guide{beam: beam, slope: 1}
	case 1:
		return guide{beam: beam, large: 1}
	case 2:
		return guide{beam: beam, large: 1.25}
	}
	return guide{beam: beam, large: 1.5}
}

// dive serves a demand by fixing patterns that the linear program uses most, one after the
// other. When the cost can't stay within the limit it takes the last one back and goes on
// without it, a few times.
func (s *search) dive(demand, supply []int, limit, noise float64) []*pattern {
	demand, supply = slices.Clone(demand), slices.Clone(supply)
	defer clear(s.banned)
	var fixed []*pattern
	spent := 0.0
	for backs := 6; wanted(demand) && !s.stop(); {
		m := s.master(demand, supply)
		s.generate(m, demand, supply, 4, 16)
		var chosen []*pattern
		if spent+m.objective() <= limit+1e-6 {
			chosen = s.choose(m, noise)
		}
		if len(chosen) == 0 {
			if backs--; backs < 0 || len(fixed) == 0 {
				return nil
			}
			last := fixed[len(fixed)-1]
			fixed = fixed[:len(fixed)-1]
			s.banned[last.key(s.salt)] = true
			spent -= s.lot.stocks[last.stock].cost
			last.giveBack(demand, supply)
		}
		for _, p := range chosen {
			fixed = append(fixed, p)
			spent += s.lot.stocks[p.stock].cost
			p.take(demand)
			supply[p.stock]--
		}
	}
	return fixed
}

// choose picks the patterns to fix next: all that are used whole, or else the one most used.
func (s *search) choose(m *master, noise float64) []*pattern {
	var whole []*pattern
	var most *pattern
	best := 0.0
	m.amounts(func(p *pattern, amount float64) {
		for n := amount; n > 0.999; n-- {
			whole = append(whole, p)
		}
		if a := amount * (1 + noise*s.chance()); a > best {
			best, most = a, p
		}
	})
	if len(whole) > 0 || most == nil {
		return whole
	}
	return []*pattern{most}
}

func wanted(demand []int) bool {
	return slices.ContainsFunc(demand, func(n int) bool { return n > 0 })
}

// limit is what a whole solution may cost.
func (s *search) limit() float64 {
	if s.best.missing > 0 {
		return noLimit
	}
	return s.below(s.best.cost)
}

// noLimit is more than anything costs, even pieces without a place.
const noLimit = 1e18

// repair takes a few boards out of the current solution and plans their pieces anew.
func (s *search) repair() {
	n := len(s.current.patterns)
	if n == 0 {
		return
	}
	kept, demand, supply, limit := s.without(2 + s.intn(4))
	if again := s.dive(demand, supply, limit, 0.1); again != nil {
		s.offer(append(kept, again...))
	}
}

// without takes so many boards out of the current solution: what is kept, what is then wanted,
// what boards there are for it, and what they may cost.
func (s *search) without(boards int) (kept []*pattern, demand, supply []int, limit float64) {
	kept, freed := s.free(s.current, boards)
	demand, supply = s.lot.demand(), s.lot.supply()
	for _, p := range kept {
		p.take(demand)
		supply[p.stock]--
	}
	if s.current.missing > 0 {
		return kept, demand, supply, noLimit
	}
	for _, p := range freed {
		limit += s.lot.stocks[p.stock].cost
	}
	return kept, demand, supply, s.below(limit)
}
