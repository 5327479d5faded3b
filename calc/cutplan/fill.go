package cutplan

import (
	"cmp"
	"context"
	"math"
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

	shelves []shelf
	tree    []node    // all kept nodes, parents first
	used    []int16   // pieces of each kind of each kept node
	on      *shelf    // where the next children go
	spare   [][]child // room that shelves no longer need
	scale   scale
	rank    []rank
	best    int // node of the last fill
	seen    map[uint64]int32
}

// node is a row of boards begun.
type node struct {
	front
	parent int32
	step   step
	value  float64
	hash   uint64 // of what is used
	peer   int32  // kept with it before, with the same used; -1 if none
}

// front is where the next piece may go.
type front struct {
	board  int   // index in the row of boards
	x0, x1 int   // the current section
	y0, y1 int   // the current strip
	x      int   // where the strip's next piece may start
	last   int32 // the strip's last item
	fixed  bool  // a piece lies at the strip's upper edge, so the strip can't grow
}

// child is a piece that might be put down next.
type child struct {
	front
	parent int32
	step   step
	value  float64
	score  float64
}

// guide says which boards begun are promising. All lose area to offcuts, the less the better.
type guide struct {
	beam   int     // so many boards begun are kept
	slope  float64 // above 0: an area lost counts so many times what its like is worth on average
	levels int     // above 0: boards begun are compared at so many levels of value, not by number of pieces
	large  float64 // else the area spent is held against the value to this power: above 1, large pieces go first
}

// request is what boards are to be filled with.
type request struct {
	row    []int // stocks, to be filled one after the other
	demand []int
	weight []float64
	guide
	dense  bool      // no piece goes on a later board while one has room on this
	wanted [][]int32 // items by board
	before []float64 // area of the boards before each
	price  float64
	total  float64 // weight of all that is wanted
	power  curve   // of a value, as the guide says
}

func newFiller(ctx context.Context, lt *lot) *filler {
	f := &filler{ctx: ctx, lot: lt, salt: make([]uint64, len(lt.kinds)), seen: map[uint64]int32{}}
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

// one fills a single board. No pattern when nothing of weight fits.
func (f *filler) one(stock int, demand []int, weight []float64, g guide) *pattern {
	if all := f.fill(&request{row: []int{stock}, demand: demand, weight: weight, guide: g}); len(all) > 0 {
		return all[0]
	}
	return nil
}

// fill gives the best way found to fill the boards of a row, one after the other, with wanted
// pieces, weighed by kind.
func (f *filler) fill(r *request) []*pattern {
	if !f.prepare(r) {
		return nil
	}
	f.tree = append(f.tree[:0], node{parent: -1, front: f.edge(r, 0)})
	f.used = append(f.used[:0], make([]int16, len(f.lot.kinds))...)
	f.best = 0
	f.clearShelves(r)
	f.climb(r)
	return f.patternsOf(r, f.best)
}

// climb goes from boards with little on them to boards with much, level by level: by number of
// pieces, or by value whatever the number of pieces.
func (f *filler) climb(r *request) {
	f.grow(r, 0, 0)
	for level := 1; level < len(f.shelves) && f.ctx.Err() == nil; level++ {
		from := len(f.tree)
		f.keep(r, f.shelves[level].children)
		f.spare = append(f.spare, f.shelves[level].children[:0])
		f.shelves[level].children = nil
		for i := from; i < len(f.tree) && f.ctx.Err() == nil; i++ {
			f.grow(r, i, level)
		}
	}
}

// shelf holds the children of one level until it is their turn.
type shelf struct {
	children []child
	floor    float64 // a child that scores no more has no prospect
}

// clearShelves makes an empty shelf for each level.
func (f *filler) clearShelves(r *request) {
	n := r.levels
	if n == 0 {
		for _, d := range r.demand {
			n += d
		}
	}
	for len(f.shelves) <= n {
		f.shelves = append(f.shelves, shelf{})
	}
	f.shelves = f.shelves[:n+1]
	if len(f.spare) > 2 {
		f.spare = f.spare[:2:2] // what a great effort needed is not kept for small ones
	}
	for i := range f.shelves {
		f.shelves[i] = shelf{floor: math.Inf(-1)}
	}
}

// shelf is where a child of a value goes whose parent is of a level.
func (f *filler) shelf(r *request, level int, value float64) *shelf {
	to := level + 1
	if r.levels > 0 {
		to = max(to, int(value/r.total*float64(r.levels)))
	}
	return &f.shelves[min(to, len(f.shelves)-1)]
}

// thin keeps the best n children.
func (f *filler) thin(on *shelf, n int) {
	f.rank = f.rank[:0]
	for i := range on.children {
		f.rank = append(f.rank, rank{on.children[i].score, int32(i)})
	}
	bestFirst(f.rank, n)
	on.floor = f.rank[n-1].score
	slices.SortFunc(f.rank[:n], func(a, b rank) int { return cmp.Compare(a.at, b.at) })
	for i, k := range f.rank[:n] {
		on.children[i] = on.children[k.at]
	}
	on.children = on.children[:n]
}

// more gives up to n patterns of the last fill of a single board that are worth more than the
// threshold, the best first.
func (f *filler) more(r *request, threshold float64, n int) []*pattern {
	f.rank = f.rank[:0]
	clear(f.seen)
	for i := range f.tree {
		if f.tree[i].value > threshold {
			f.rank = append(f.rank, rank{f.tree[i].value, int32(i)})
		}
	}
	bestFirst(f.rank, 4*n)
	var all []*pattern
	for _, k := range f.rank[:min(len(f.rank), 4*n)] {
		hash := f.tree[k.at].hash
		if _, ok := f.seen[hash]; !ok {
			f.seen[hash] = k.at
			all = append(all, f.patternsOf(r, int(k.at))...)
		}
		if len(all) == n {
			break
		}
	}
	return all
}

// edge is the front of a board on which nothing lies.
func (f *filler) edge(r *request, board int) front {
	s := &f.lot.stocks[r.row[board]]
	return front{board: board, x0: s.x0, x1: s.x0 - f.lot.kerf, y1: s.w}
}

// prepare fills in the request. False when nothing of weight fits.
func (f *filler) prepare(r *request) bool {
	some := false
	area := 0.0
	for _, b := range r.row {
		s := &f.lot.stocks[b]
		items := f.wanted(s, r)
		some = some || len(items) > 0
		r.wanted = append(r.wanted, items)
		r.before = append(r.before, area)
		area += float64(s.x1-s.x0+f.lot.kerf) * float64(s.w+f.lot.kerf)
	}
	if some && r.slope > 0 {
		r.price = r.slope * f.density(r)
	}
	for k, n := range r.demand {
		r.total += float64(n) * max(0, r.weight[k])
	}
	r.power = newCurve(r.total, func(value float64) float64 { return math.Pow(value, r.large) })
	return some
}

// wanted lists the stock's items that are wanted and weigh something, by index.
func (f *filler) wanted(s *stock, r *request) []int32 {
	items := make([]int32, 0, len(s.items))
	for i := range s.items {
		if k := s.items[i].kind; r.demand[k] > 0 && r.weight[k] > 0 {
			items = append(items, int32(i))
		}
	}
	return items
}

// density is the weight on a unit of area if pieces could be poured into the first board.
func (f *filler) density(r *request) float64 {
	s := &f.lot.stocks[r.row[0]]
	area := func(i int32) float64 {
		it := &s.items[i]
		return float64(it.l+f.lot.kerf) * float64(it.w+f.lot.kerf)
	}
	dense := func(i int32) float64 { return r.weight[s.items[i].kind] / area(i) }
	order := slices.Clone(r.wanted[0])
	slices.SortStableFunc(order, func(a, b int32) int { return cmp.Compare(dense(b), dense(a)) })
	room := float64(s.x1-s.x0+f.lot.kerf) * float64(s.w+f.lot.kerf)
	left, sum := room, 0.0
	poured := map[int]bool{}
	for _, i := range order {
		if k := s.items[i].kind; !poured[k] {
			poured[k] = true
			n := min(float64(r.demand[k]), left/area(i))
			sum += n * r.weight[k]
			left -= n * area(i)
		}
	}
	return sum / room
}

// grow finds all pieces that can be put down next on a board begun of a level.
func (f *filler) grow(r *request, at, level int) {
	n := &f.tree[at]
	s := &f.lot.stocks[r.row[n.board]]
	before := f.nodes
	f.each(r, at, n.board, level, func(c child, it *item) {
		if n.step.how != noCut {
			f.intoStrip(r, s, n, c, it)
			f.ontoStrip(r, s, n, c, it)
		}
		f.intoSection(r, s, &n.front, c, it, newSection)
	})
	next := n.board + 1
	if next == len(r.row) || r.dense && f.nodes > before {
		return // what has room on this board need not go on a later one
	}
	s, edge := &f.lot.stocks[r.row[next]], f.edge(r, next)
	f.each(r, at, next, level, func(c child, it *item) {
		f.intoSection(r, s, &edge, c, it, newBoard)
	})
}

// each lets every item that is wanted on a board after a node be put down.
func (f *filler) each(r *request, at, board, level int, put func(c child, it *item)) {
	used := f.used[at*len(f.lot.kinds):]
	for _, i := range r.wanted[board] {
		it := &f.lot.stocks[r.row[board]].items[i]
		if int(used[it.kind]) >= r.demand[it.kind] {
			continue
		}
		value := f.tree[at].value + r.weight[it.kind]
		f.on = f.shelf(r, level, value)
		f.scale = r.scale(value)
		if last := len(f.spare) - 1; f.on.children == nil && last >= 0 {
			f.on.children, f.spare = f.spare[last], f.spare[:last]
		}
		put(child{parent: int32(at), value: value, step: step{item: int(i)}}, it)
		if len(f.on.children) >= 14*r.beam {
			f.thin(f.on, 4*r.beam)
		}
	}
}

// scale turns the area spent on a value into a score.
type scale struct{ base, factor float64 }

func (r *request) scale(value float64) scale {
	if r.slope > 0 {
		return scale{value, r.price}
	}
	return scale{0, 1 / r.power.of(value)}
}

// spent is the area of the board that no later piece can use.
func (f *filler) spent(s *stock, fr *front) float64 {
	k := f.lot.kerf
	sections := float64(fr.x0-s.x0) * float64(s.w+k)
	strips := float64(fr.x1+k-fr.x0) * float64(fr.y0)
	return sections + strips + float64(fr.x-fr.x0)*float64(fr.y1+k-fr.y0)
}

// intoStrip adds the piece to the current strip, at its lower edge or else at its upper one.
func (f *filler) intoStrip(r *request, s *stock, n *node, c child, it *item) {
	if len(s.faults) == 0 && int32(c.step.item) < n.last {
		return // the order within a strip is free, so the widest come first
	}
	h := n.y1 - n.y0
	if it.w > h && (n.fixed || !f.lot.lastRip) || it.w < h && !f.lot.lastRip {
		return
	}
	c.step.how = sameStrip
	c.front = n.front
	x, ok := s.free(n.x, n.y0, it.l, it.w)
	if ok {
		f.put(r, s, c, it, x, n.y0)
	}
	if len(s.faults) == 0 || it.w >= h {
		return
	}
	if top, fits := s.free(n.x, n.y1-it.w, it.l, it.w); fits && (!ok || top < x) {
		c.fixed = true
		f.put(r, s, c, it, top, n.y1-it.w)
	}
}

// put takes the child in, with its piece in the strip of its front, if it has a prospect.
func (f *filler) put(r *request, s *stock, c child, it *item, x, y int) {
	f.nodes++
	c.x = x + it.l + f.lot.kerf
	c.x1 = max(c.x1, x+it.l)
	c.y1 = max(c.y1, y+it.w)
	c.score = f.scale.base - f.scale.factor*(r.before[c.board]+f.spent(s, &c.front))
	if c.score <= f.on.floor {
		return
	}
	c.step.x, c.step.y = x, y
	c.last = int32(c.step.item)
	f.on.children = append(f.on.children, c)
}

// ontoStrip starts a new strip in the current section. Strips of a section come in any order: a
// rule for it would spare work, but finds less.
func (f *filler) ontoStrip(r *request, s *stock, n *node, c child, it *item) {
	c.step.how = newStrip
	c.front = front{board: n.board, x0: n.x0, x1: n.x1, x: n.x0}
	f.startStrips(r, s, c, it, n.y1+f.lot.kerf)
}

// intoSection starts a new section beyond the front's.
func (f *filler) intoSection(r *request, s *stock, fr *front, c child, it *item, h how) {
	c.step.how = h
	x := fr.x1 + f.lot.kerf
	c.front = front{board: fr.board, x0: x, x1: x, x: x}
	f.startStrips(r, s, c, it, 0)
}

// startStrips starts a strip at the height, and above each fault where that brings the piece
// further to the left.
func (f *filler) startStrips(r *request, s *stock, c child, it *item, y int) {
	c.y0, c.y1 = y, y
	least := s.x1
	if x, ok := s.free(c.x0, y, it.l, it.w); ok {
		f.put(r, s, c, it, x, y)
		least = x
	}
	for _, fault := range s.faults {
		if fault.y1 <= y || least == c.x0 {
			continue
		}
		c.y0, c.y1 = fault.y1, fault.y1
		if x, ok := s.free(c.x0, fault.y1, it.l, it.w); ok && x < least {
			f.put(r, s, c, it, x, fault.y1)
		}
	}
}

// keep turns the best children into nodes, leaving out those that come to no more than others.
func (f *filler) keep(r *request, children []child) {
	f.rank = f.rank[:0]
	for i := range children {
		f.rank = append(f.rank, rank{children[i].score, int32(i)})
	}
	sorted := 0
	clear(f.seen)
	for i, room := 0, r.beam; i < len(f.rank) && room > 0; i++ {
		if i == sorted {
			bestFirst(f.rank[i:], 2*r.beam)
			sorted = min(len(f.rank), i+2*r.beam)
		}
		if f.keepOne(r, &children[f.rank[i].at]) {
			room--
		}
	}
}

// keepOne turns a child into a node if it is not dominated.
func (f *filler) keepOne(r *request, c *child) bool {
	s := &f.lot.stocks[r.row[c.board]]
	kind := s.items[c.step.item].kind
	hash := f.tree[c.parent].hash + f.salt[kind]
	peer, ok := f.seen[hash]
	if !ok {
		peer = -1
	}
	if f.dominated(&c.front, peer, len(s.faults) == 0) {
		return false
	}
	f.seen[hash] = int32(len(f.tree))
	f.tree = append(f.tree, node{front: c.front, parent: c.parent, step: c.step, value: c.value, hash: hash, peer: peer})
	if c.value > f.tree[f.best].value+1e-12 {
		f.best = len(f.tree) - 1
	}
	kinds := len(f.lot.kinds)
	at := int(c.parent) * kinds
	f.used = append(f.used, f.used[at:at+kinds]...)
	f.used[len(f.used)-kinds+kind]++
	return true
}

// dominated says whether one of the peers leaves at least as much room as the front.
func (f *filler) dominated(fr *front, peer int32, clear bool) bool {
	for ; peer >= 0; peer = f.tree[peer].peer {
		if f.tree[peer].front.dominates(fr, f.lot.kerf, clear) {
			return true
		}
	}
	return false
}

// dominates says whether all that can follow on the other front can follow on this one, the same
// being used. On a board with faults nothing is said but of fronts alike.
func (fr *front) dominates(other *front, kerf int, clear bool) bool {
	switch {
	case fr.board != other.board:
		return fr.board < other.board
	case !clear:
		return fr.x0 == other.x0 && fr.x1 == other.x1 && fr.y0 == other.y0 && fr.y1 == other.y1 && fr.x == other.x
	case fr.x0 != other.x0:
		return fr.x1+kerf <= other.x0
	}
	return fr.x1 <= other.x1 && fr.y0 <= other.y0 && fr.y1 <= other.y1 && fr.x <= other.x
}

// patternsOf writes down how a node came about, a pattern for each board on which something lies.
func (f *filler) patternsOf(r *request, at int) []*pattern {
	var steps []step
	var boards []int
	for ; f.tree[at].parent >= 0; at = int(f.tree[at].parent) {
		steps = append(steps, f.tree[at].step)
		boards = append(boards, f.tree[at].board)
	}
	slices.Reverse(steps)
	slices.Reverse(boards)
	var all []*pattern
	for i, st := range steps {
		if i == 0 || boards[i] != boards[i-1] {
			all = append(all, &pattern{stock: r.row[boards[i]], count: make([]int16, len(f.lot.kinds))})
		}
		if st.how == newBoard {
			st.how = newSection
		}
		p := all[len(all)-1]
		k := f.lot.stocks[p.stock].items[st.item].kind
		p.steps = append(p.steps, st)
		p.count[k]++
		p.value += r.weight[k]
	}
	return all
}
