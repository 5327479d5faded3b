package cutplan

// pattern is a way to saw up one board of a stock.
type pattern struct {
	stock int
	count []int16 // pieces of each kind
	steps []step  // how it is filled, left to right, bottom to top
	value float64 // by the weights it was sought with
}

// step puts one piece on a board.
type step struct {
	item int // index in the stock's items
	how  how
	x, y int
}

// how says which cut comes before a piece.
type how uint8

const (
	noCut      how = iota // nothing lies there yet
	sameStrip             // a crosscut of the strip
	newStrip              // a rip of the section
	newSection            // a crosscut of the board
	newBoard              // the next board is taken
)

// fitsIn says whether the pattern asks for no more than what is still wanted.
func (p *pattern) fitsIn(demand []int) bool {
	for k, n := range p.count {
		if int(n) > demand[k] {
			return false
		}
	}
	return true
}

// take lowers the demand by what the pattern gives.
func (p *pattern) take(demand []int) {
	for k, n := range p.count {
		demand[k] = max(0, demand[k]-int(n))
	}
}

// only is the pattern without the pieces beyond what is wanted, which it takes off the demand.
func (lt *lot) only(p *pattern, demand []int) *pattern {
	if p.fitsIn(demand) {
		p.take(demand)
		return p
	}
	out := &pattern{stock: p.stock, count: make([]int16, len(p.count))}
	how := newSection // the first cut that a piece left out would have brought
	for _, st := range p.steps {
		how = max(how, st.how)
		k := lt.stocks[p.stock].items[st.item].kind
		if demand[k] == 0 {
			continue
		}
		demand[k]--
		out.count[k]++
		st.how = how
		out.steps = append(out.steps, st)
		how = sameStrip
	}
	return out
}

// giveBack undoes a take of a pattern that asked for no more than was wanted.
func (p *pattern) giveBack(demand, supply []int) {
	for k, n := range p.count {
		demand[k] += int(n)
	}
	supply[p.stock]++
}

// key tells patterns of one stock apart by what they give.
func (p *pattern) key(salt []uint64) uint64 {
	sum := uint64(p.stock)
	for k, n := range p.count {
		sum += uint64(n) * salt[k]
	}
	return mix(sum)
}
