package line

import (
	"maps"
	"slices"
)

// What diving leaves open is settled by branching on where in its stick a piece lies: a
// stick is cut from its longest piece to its shortest, and what is left of it before a
// piece is cut is that piece's place. Every node says for each piece in which window its
// place lies; two windows, one below and one from a place on, share out all plans. When
// every piece has one place, sticks can be read off, since flow through places is whole
// (Valerio de Carvalho, Annals of Operations Research 86, 1999, branches on such places).

// proveMost is how many pieces branching is tried with, each of them a row.
const proveMost = 600

// prove searches all plans cheaper than the best; ended, the best is proved.
func (s *search) prove() {
	if s.need().pieces() > proveMost {
		return
	}
	single, of := s.single()
	sub := newSearch(s.ctx, single, s.limits)
	sub.nodes, sub.bestCost, sub.bound, sub.mixes = s.nodes, s.bestCost, s.bound, s.mixes
	start := sub.need()
	sub.seed(start)
	b := brancher{search: sub, complete: true}
	b.node(newMaster(sub.pool, start), start, sub.widest(), 0)
	s.nodes = sub.nodes
	if sub.best != nil {
		s.offer(merged(sub.best, of))
	}
	if b.complete {
		s.raise(s.bestCost)
	}
}

// single is the task with a size of its own for every piece, and the size each was.
func (t task) single() (single task, of []int) {
	single.stocks = t.stocks
	for i, s := range t.sizes {
		for range s.demand {
			single.sizes = append(single.sizes, size{s.length, 1})
			of = append(of, i)
		}
	}
	return single, of
}

// merged writes a plan of single pieces as one of the sizes they were.
func merged(plan []use, of []int) []use {
	all := make([]use, len(plan))
	for k, u := range plan {
		p := pattern{stock: u.pattern.stock}
		for _, t := range u.pattern.takes {
			if n := len(p.takes); n > 0 && p.takes[n-1].size == of[t.size] {
				p.takes[n-1].n += t.n
				continue
			}
			p.takes = append(p.takes, take{of[t.size], t.n})
		}
		all[k] = use{p, u.copies}
	}
	return all
}

// widest are windows that shut nothing out.
func (t task) widest() []window {
	var long int64
	for _, s := range t.stocks {
		long = max(long, s.Length)
	}
	all := make([]window, len(t.sizes))
	for i, s := range t.sizes {
		all[i] = window{s.length, long}
	}
	return all
}

// open says whether every piece of a pattern lies in its window.
func (t task) open(p pattern, windows []window) bool {
	left := t.stocks[p.stock].Length
	for _, k := range p.takes {
		if w := windows[k.size]; left < w.low || left > w.high {
			return false
		}
		left -= t.sizes[k.size].length
	}
	return true
}

// order narrows windows of equal pieces, which may be named in the order of their places;
// it fails when a window is empty.
func (t task) order(windows []window) bool {
	for i := 1; i < len(windows); i++ {
		if t.sizes[i].length == t.sizes[i-1].length {
			windows[i].high = min(windows[i].high, windows[i-1].high)
		}
	}
	for i := len(windows) - 1; i > 0; i-- {
		if t.sizes[i].length == t.sizes[i-1].length {
			windows[i-1].low = max(windows[i-1].low, windows[i].low)
		}
	}
	for _, w := range windows {
		if w.low > w.high {
			return false
		}
	}
	return true
}

// brancher walks the nodes, depth first.
type brancher struct {
	*search
	complete bool // no node was given up
}

// node settles all plans within the windows.
func (b *brancher) node(m *master, n need, windows []window, depth int) {
	if b.closed(m, n, windows, depth) {
		return
	}
	i, at, mostly := b.split(m)
	if i < 0 {
		b.complete = false
		return
	}
	low, high := slices.Clone(windows), slices.Clone(windows)
	low[i].high, high[i].low = at-1, at
	sides := [2][]window{low, high}
	if mostly {
		sides = [2][]window{high, low}
	}
	for _, w := range sides {
		if b.order(w) {
			b.node(m.clone(), n, w, depth+1)
		}
	}
}

// closed solves a node and, now and then or where there is nothing to split, dives from it;
// it says whether the node needs no branching.
func (b *brancher) closed(m *master, n need, windows []window, depth int) bool {
	d := dive{search: b.search, windows: windows, budget: 30}
	for {
		if b.over() {
			b.complete = b.complete && b.bound >= b.bestCost
			return true
		}
		d.bar(m, n)
		bound, done := b.solve(m, n, windows, b.cutoff(), false)
		if bound >= b.cutoff() {
			return true
		}
		if !done {
			b.complete = false
			return true
		}
		before := b.bestCost
		if i, _, _ := b.split(m); i < 0 || depth%8 == 0 {
			d.down(m.clone(), n.clone(), nil, 0, 0)
			d.budget = 30
		}
		if b.bestCost == before {
			return false
		}
		// Better than before: what was solved far enough may not be so now.
	}
}

// split chooses a piece and a place that part its places in the solution most evenly:
// below the place, and from it on. It also says whether most lies from it on.
func (b *brancher) split(m *master) (piece int, at int64, mostly bool) {
	shares := make([]map[int64]float64, len(b.sizes))
	for r, v := range m.basis {
		if v.kind != cutting || m.barred[v.of] || m.x[r] < 1e-7 {
			continue
		}
		p := m.patterns[v.of]
		left := b.stocks[p.stock].Length
		for _, t := range p.takes {
			if shares[t.size] == nil {
				shares[t.size] = map[int64]float64{}
			}
			shares[t.size][left] += m.x[r]
			left -= b.sizes[t.size].length
		}
	}
	piece = -1
	most := 1e-5
	for i, share := range shares {
		place, from, below := evenly(share)
		if v := min(from, below); v > most+1e-6 {
			piece, at, mostly, most = i, place, from > below, v
		}
	}
	return piece, at, mostly
}

// evenly is the place that parts the shares most evenly.
func evenly(share map[int64]float64) (at int64, from, below float64) {
	places := slices.Sorted(maps.Keys(share))
	total := 0.0
	for _, p := range places {
		total += share[p]
	}
	sum := 0.0
	for _, p := range places {
		if v := min(sum, total-sum); v > min(from, below) {
			at, from, below = p, total-sum, sum
		}
		sum += share[p]
	}
	return at, from, below
}
