package cutplan

import (
	"cmp"
	"context"
	"slices"
)

// filler fills single boards by beam search: pieces are put down one by one, each into the
// current strip, a new strip of the current section or a new section, and of all boards begun
// with equally many pieces the most promising are kept.
type filler struct {
	ctx   context.Context
	lot   *lot
	nodes int64 // pieces tried so far
	salt  []uint64

	tree []node  // all kept nodes, parents first
	used []int16 // pieces of each kind of each kept node
	next []child
	seen map[uint64]struct{}
}

// node is a board begun.
type node struct {
	front
	parent int
	step   step
	value  float64
	hash   uint64 // of what is used
}

// front is where the next piece may go.
type front struct {
	x0, x1 int   // the current section
	y0, y1 int   // the current strip
	x      int   // where the strip's next piece may start
	last   int32 // the strip's last item, and
	first  int32 // its first
	fixed  bool  // a piece lies at the strip's upper edge, so the strip can't grow
}

// child is a piece that might be put down next.
type child struct {
	front
	parent int
	step   step
	value  float64
	score  float64
}

func newFiller(ctx context.Context, lt *lot) *filler {
	f := &filler{ctx: ctx, lot: lt, salt: make([]uint64, len(lt.kinds)), seen: map[uint64]struct{}{}}
	for i := range f.salt {
		f.salt[i] = mix(uint64(i) + 1)
	}
	return f
}

// mix scatters the bits of a number (the finaliser of splitmix64, Steele, Lea and Flood 2014).
func mix(x uint64) uint64 {
	x += 0x9e3779b97f4a7c15
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	return x ^ x>>31
}

// fill gives the best way found to fill a board of the stock with wanted pieces, weighed by kind.
// It keeps so many boards begun, and prefers those that lose little of the board's area at slope
// times the price of the average piece. No pattern when nothing of weight fits.
func (f *filler) fill(stock int, demand []int, weight []float64, beam int, slope float64) *pattern {
	s := &f.lot.stocks[stock]
	items := f.wanted(s, demand, weight)
	if len(items) == 0 {
		return nil
	}
	price := slope * f.density(s, items, demand, weight)
	f.tree = append(f.tree[:0], node{parent: -1, front: front{x0: s.x0, x1: s.x0 - f.lot.kerf, y1: s.w}})
	f.used = append(f.used[:0], make([]int16, len(f.lot.kinds))...)
	best := 0
	for from, to := 0, 1; from < to && f.ctx.Err() == nil; {
		f.next = f.next[:0]
		for i := from; i < to; i++ {
			f.grow(s, i, items, demand, weight, price)
		}
		f.keep(s, beam)
		from, to = to, len(f.tree)
		for i := from; i < to; i++ {
			if f.tree[i].value > f.tree[best].value+1e-12 {
				best = i
			}
		}
	}
	return f.patternOf(stock, best)
}

// wanted lists the stock's items that are wanted and weigh something, by index.
func (f *filler) wanted(s *stock, demand []int, weight []float64) []int32 {
	items := make([]int32, 0, len(s.items))
	for i := range s.items {
		if k := s.items[i].kind; demand[k] > 0 && weight[k] > 0 {
			items = append(items, int32(i))
		}
	}
	return items
}

// density is the weight on a unit of area if pieces could be poured into the board.
func (f *filler) density(s *stock, items []int32, demand []int, weight []float64) float64 {
	area := func(i int32) float64 {
		it := &s.items[i]
		return float64(it.l+f.lot.kerf) * float64(it.w+f.lot.kerf)
	}
	dense := func(i int32) float64 { return weight[s.items[i].kind] / area(i) }
	order := slices.Clone(items)
	slices.SortStableFunc(order, func(a, b int32) int { return cmp.Compare(dense(b), dense(a)) })
	room := float64(s.x1-s.x0+f.lot.kerf) * float64(s.w+f.lot.kerf)
	left, sum := room, 0.0
	poured := map[int]bool{}
	for _, i := range order {
		if k := s.items[i].kind; !poured[k] {
			poured[k] = true
			n := min(float64(demand[k]), left/area(i))
			sum += n * weight[k]
			left -= n * area(i)
		}
	}
	return sum / room
}

// grow lists all pieces that can be put down next on a board begun.
func (f *filler) grow(s *stock, at int, items []int32, demand []int, weight []float64, price float64) {
	n := &f.tree[at]
	used := f.used[at*len(f.lot.kinds):]
	for _, i := range items {
		it := &s.items[i]
		if int(used[it.kind]) >= demand[it.kind] {
			continue
		}
		c := child{parent: at, value: n.value + weight[it.kind], step: step{item: int(i)}}
		before := len(f.next)
		if n.parent >= 0 {
			f.intoStrip(s, n, c, it)
			f.ontoStrip(s, n, c, it)
		}
		f.intoSection(s, n, c, it)
		f.nodes += int64(len(f.next) - before)
		for j := before; j < len(f.next); j++ {
			f.next[j].score = f.next[j].value - price*f.spent(s, &f.next[j].front)
		}
	}
}

// spent is the area that no later piece can use.
func (f *filler) spent(s *stock, fr *front) float64 {
	k := f.lot.kerf
	sections := float64(fr.x0-s.x0) * float64(s.w+k)
	strips := float64(fr.x1+k-fr.x0) * float64(fr.y0)
	return sections + strips + float64(fr.x-fr.x0)*float64(fr.y1+k-fr.y0)
}

// intoStrip adds the piece to the current strip, at its lower edge or else at its upper one.
func (f *filler) intoStrip(s *stock, n *node, c child, it *item) {
	i := int32(c.step.item)
	if len(s.faults) == 0 && i < n.last {
		return // the order within a strip is free, so the widest come first
	}
	h := n.y1 - n.y0
	if it.w > h && (n.fixed || !f.lot.lastRip) || it.w < h && !f.lot.lastRip {
		return
	}
	x, ok := s.free(n.x, n.y0, it.l, it.w)
	if ok {
		f.next = append(f.next, f.placed(c, n.front, it, x, n.y0))
	}
	if len(s.faults) == 0 || it.w >= h {
		return
	}
	if top, fits := s.free(n.x, n.y1-it.w, it.l, it.w); fits && (!ok || top < x) {
		next := f.placed(c, n.front, it, top, n.y1-it.w)
		next.fixed = true
		f.next = append(f.next, next)
	}
}

// placed is the child with its piece in the strip of the front.
func (f *filler) placed(c child, fr front, it *item, x, y int) child {
	c.front = fr
	c.step.x, c.step.y = x, y
	c.x = x + it.l + f.lot.kerf
	c.x1 = max(c.x1, x+it.l)
	c.y1 = max(c.y1, y+it.w)
	c.last = int32(c.step.item)
	return c
}

// ontoStrip starts a new strip in the current section.
func (f *filler) ontoStrip(s *stock, n *node, c child, it *item) {
	i := int32(c.step.item)
	if len(s.faults) == 0 && i < n.first {
		return // the order of the strips is free as well
	}
	c.step.how = newStrip
	f.startStrips(s, c, it, front{x0: n.x0, x1: n.x1, x: n.x0, first: i}, n.y1+f.lot.kerf)
}

// intoSection starts a new section.
func (f *filler) intoSection(s *stock, n *node, c child, it *item) {
	c.step.how = newSection
	x := n.x1 + f.lot.kerf
	f.startStrips(s, c, it, front{x0: x, x1: x, x: x, first: int32(c.step.item)}, 0)
}

// startStrips starts a strip at the height, and above each fault where that brings the piece
// further to the left.
func (f *filler) startStrips(s *stock, c child, it *item, fr front, y int) {
	fr.y0, fr.y1 = y, y
	least := s.x1
	if x, ok := s.free(fr.x0, y, it.l, it.w); ok {
		f.next = append(f.next, f.placed(c, fr, it, x, y))
		least = x
	}
	for _, fault := range s.faults {
		if fault.y1 <= y || least == fr.x0 {
			continue
		}
		fr.y0, fr.y1 = fault.y1, fault.y1
		if x, ok := s.free(fr.x0, fault.y1, it.l, it.w); ok && x < least {
			f.next = append(f.next, f.placed(c, fr, it, x, fault.y1))
		}
	}
}

// keep turns the best children into nodes, leaving out those that come to the same.
func (f *filler) keep(s *stock, beam int) {
	slices.SortStableFunc(f.next, func(a, b child) int { return cmp.Compare(b.score, a.score) })
	clear(f.seen)
	kinds := len(f.lot.kinds)
	for i := range f.next {
		c := &f.next[i]
		kind := s.items[c.step.item].kind
		hash := f.tree[c.parent].hash + f.salt[kind]
		front := mix(hash ^ mix(uint64(c.x0)^mix(uint64(c.x1)^mix(uint64(c.y0)^mix(uint64(c.y1)^mix(uint64(c.x)))))))
		if _, ok := f.seen[front]; ok {
			continue
		}
		f.seen[front] = struct{}{}
		f.tree = append(f.tree, node{front: c.front, parent: c.parent, step: c.step, value: c.value, hash: hash})
		f.used = append(f.used, f.used[c.parent*kinds:(c.parent+1)*kinds]...)
		f.used[len(f.used)-kinds+kind]++
		if beam--; beam <= 0 {
			return
		}
	}
}

// patternOf writes down how a node came about.
func (f *filler) patternOf(stock, at int) *pattern {
	kinds := len(f.lot.kinds)
	p := &pattern{stock: stock, value: f.tree[at].value, count: slices.Clone(f.used[at*kinds : (at+1)*kinds])}
	for ; f.tree[at].parent >= 0; at = f.tree[at].parent {
		p.steps = append(p.steps, f.tree[at].step)
	}
	slices.Reverse(p.steps)
	return p
}
