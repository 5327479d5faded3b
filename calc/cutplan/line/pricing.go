package line

// prices are what the pieces of each size are worth, in whole numbers, so that what a
// knapsack says of them is exact. priceUnit is the worth of the dearest stock.
const (
	priceUnit = int64(1) << 32
	priceMost = priceUnit * dear
)

// tableMost is the largest table (sizes by lengths) the knapsack is solved in; above, or
// where no table pays, by branching.
const tableMost = 6 << 20

// question is one pricing: the dearest patterns of each stock under the prices, with no
// more than demand of a size in one pattern and, where window is set, a size cut only
// when what is left of the stick lies in its window.
type question struct {
	sizes  []size
	prices []int64
	demand []int
	stocks []Stock
	use    []bool  // which stocks may be used
	least  []int64 // of each stock, the worth below which a pattern is of no interest
	steps  int     // where branching gives up
	window []window
}

// idle says whether a size has no place in a dearest pattern: it is worth nothing, nor is
// it of use to bring others to their windows.
func (q question) idle(i int) bool {
	return q.demand[i] <= 0 || q.prices[i] <= 0 && q.window == nil
}

// shut says whether a size may not be cut with c left of the stick.
func (q question) shut(i int, c int64) bool {
	return q.window != nil && (c < q.window[i].low || c > q.window[i].high)
}

// window says for how much left of the stick, before it is cut, a size may be cut.
type window struct{ low, high int64 }

// answer is what pricing found: most is for each stock a worth no pattern of it is above
// (equal to the dearest pattern's unless branching was cut short), and found some of the
// dearest patterns with their worth, where it is above what is of interest.
type answer struct {
	most  []int64
	found []priced
}

type priced struct {
	pattern pattern
	worth   int64
}

// pricer answers questions, keeping its tables from one to the next.
type pricer struct {
	cells []int64
	rows  [][]int64
}

// byTable says whether questions over these sizes and stocks are answered with a table.
func byTable(sizes []size, stocks []Stock) bool {
	var long int64
	for _, s := range stocks {
		long = max(long, s.Length)
	}
	return long < tableMost && (long+1)*int64(len(sizes)+1) <= tableMost
}

func (p *pricer) ask(q question) answer {
	if byTable(q.sizes, q.stocks) {
		return p.askTable(q)
	}
	return p.askBranching(q)
}

// askTable reads the answer off the table.
func (p *pricer) askTable(q question) answer {
	p.fill(q)
	a := answer{most: make([]int64, len(q.stocks))}
	for s, stock := range q.stocks {
		if q.use[s] {
			a.most[s] = p.rows[0][stock.Length]
			a.found = append(a.found, p.byLongest(q, s)...)
		}
	}
	return a
}

// fill is dynamic programming from the shortest size to the longest: rows[i][c] becomes the
// most that sizes i and after are worth on c of stick.
func (p *pricer) fill(q question) {
	var long int64
	for _, s := range q.stocks {
		long = max(long, s.Length)
	}
	n, width := len(q.sizes), int(long)+1
	if len(p.cells) < (n+1)*width {
		p.cells = make([]int64, (n+1)*width)
	}
	p.rows = append(p.rows[:0], make([][]int64, n+1)...)
	p.rows[n] = p.cells[:width]
	clear(p.rows[n])
	filled := 1
	for i := n - 1; i >= 0; i-- {
		if q.idle(i) {
			p.rows[i] = p.rows[i+1]
			continue
		}
		p.rows[i] = p.cells[filled*width : (filled+1)*width]
		filled++
		fillRow(p.rows[i], p.rows[i+1], q, i)
	}
}

// fillRow adds one size to the table.
func fillRow(row, below []int64, q question, i int) {
	length, price, most := int(q.sizes[i].length), q.prices[i], q.demand[i]
	if length == 0 { // only in a coarser table
		for c := range row {
			row[c] = below[c] + int64(most)*price
		}
		return
	}
	copy(row, below)
	if q.window != nil {
		// A windowed size is a single piece.
		low, high := max(q.window[i].low, int64(length)), min(q.window[i].high, int64(len(row)-1))
		for c := int(low); c <= int(high); c++ {
			row[c] = max(row[c], below[c-length]+price)
		}
		return
	}
	if most >= (len(row)-1)/length {
		for c := length; c < len(row); c++ {
			row[c] = max(row[c], row[c-length]+price)
		}
		return
	}
	for k := 1; k <= most; k++ {
		worth, step := int64(k)*price, k*length
		from := below[:len(row)-step]
		for c, v := range from {
			if v += worth; v > row[step+c] {
				row[step+c] = v
			}
		}
	}
}

// byLongest is, for each size that may be the longest on the stick, a dearest pattern with
// it. One table so yields patterns of all kinds, which saves rounds.
func (p *pricer) byLongest(q question, s int) []priced {
	long := q.stocks[s].Length
	var all []priced
	for i := range q.sizes {
		if n, worth := p.count(q, i, long, 1); n > 0 {
			all = append(all, priced{p.read(q, s, i, n), worth})
		}
	}
	return all
}

// count is how many pieces of size i, at least the given number, are best taken on c of
// stick when only sizes i and after are left, and the worth then; it prefers many.
func (p *pricer) count(q question, i int, c int64, least int) (best int, worth int64) {
	length, price := q.sizes[i].length, q.prices[i]
	if least == 0 {
		worth = p.rows[i+1][c]
	}
	if q.idle(i) || q.shut(i, c) {
		return 0, worth
	}
	for k := int64(max(1, least)); k <= int64(q.demand[i]) && k*length <= c; k++ {
		if w := k*price + p.rows[i+1][c-k*length]; w >= worth {
			best, worth = int(k), w
		}
	}
	return best, worth
}

// read follows the table down from n pieces of size i.
func (p *pricer) read(q question, s, i, n int) pattern {
	t := pattern{stock: s, takes: []take{{i, n}}}
	c := q.stocks[s].Length - int64(n)*q.sizes[i].length
	for i++; i < len(q.sizes) && p.rows[i][c] > 0; i++ {
		if p.rows[i][c] == p.rows[i+1][c] {
			continue
		}
		n, _ := p.count(q, i, c, 0)
		t.takes = append(t.takes, take{i, n})
		c -= int64(n) * q.sizes[i].length
	}
	return t
}
