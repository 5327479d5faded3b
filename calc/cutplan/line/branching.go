package line

// coarse is into how many steps a stick too long for a table is divided, at most.
const coarse = 4000

// branching is the knapsack by depth first, from the longest size to the shortest, for
// sticks too long for a table. It is cut off by the table of a coarser knapsack, lengths in
// steps rounded down, which is worth no less.
type branching struct {
	q      question
	step   int64 // of the coarser table
	rows   [][]int64
	chosen []take
	left   int // steps until it gives up
	best   int64
	kept   pattern
	stock  int
}

func (p *pricer) askBranching(q question) answer {
	b := branching{q: q, step: 1}
	for _, s := range q.stocks {
		b.step = max(b.step, s.Length/min(coarse, tableMost/int64(len(q.sizes)+1))+1)
	}
	rough := q
	rough.window = nil
	rough.sizes, rough.demand = make([]size, len(q.sizes)), make([]int, len(q.sizes))
	for i, s := range q.sizes {
		rough.sizes[i].length = s.length / b.step
		rough.demand[i] = int(min(int64(q.demand[i]), b.step*coarse/s.length))
	}
	rough.stocks = make([]Stock, len(q.stocks))
	for k, s := range q.stocks {
		rough.stocks[k] = Stock{Length: max(0, s.Length) / b.step}
	}
	p.fill(rough)
	b.rows = p.rows
	a := answer{most: make([]int64, len(q.stocks))}
	for s := range q.stocks {
		if q.use[s] {
			b.ask(s, &a)
		}
	}
	return a
}

// ask is the answer for one stock: for each size that may be the longest on it a dearest
// pattern.
func (b *branching) ask(s int, a *answer) {
	b.stock, b.left = s, b.q.steps
	length, most := b.q.stocks[s].Length, b.q.least[s]
	for i := range b.q.sizes {
		b.best, b.kept = b.q.least[s], pattern{stock: s}
		b.with(i, length, 0)
		most = max(most, b.best)
		if len(b.kept.takes) > 0 {
			a.found = append(a.found, priced{b.kept, b.best})
		}
		if b.left <= 0 {
			most = b.rows[0][length/b.step]
			break
		}
	}
	a.most[s] = most
}

// with takes size i, as many as go first, and then shorter ones.
func (b *branching) with(i int, length, worth int64) {
	price, one := b.q.prices[i], b.q.sizes[i].length
	if b.q.idle(i) || b.q.shut(i, length) {
		return
	}
	for n := min(int64(b.q.demand[i]), length/one); n > 0; n-- {
		rest, sum := length-n*one, worth+n*price
		if sum+b.rows[i+1][rest/b.step] <= b.best {
			continue
		}
		b.chosen = append(b.chosen, take{i, int(n)})
		if sum > b.best {
			b.best, b.kept.takes = sum, append([]take(nil), b.chosen...)
		}
		for k := i + 1; k < len(b.q.sizes) && b.left > 0; k++ {
			if sum+b.rows[k][rest/b.step] <= b.best {
				break
			}
			b.left--
			b.with(k, rest, sum)
		}
		b.chosen = b.chosen[:len(b.chosen)-1]
	}
}
