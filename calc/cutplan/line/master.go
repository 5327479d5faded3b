package line

import "math"

// The linear program over known patterns: the least cost of patterns, in any fractions,
// that yield at least what is wanted and use no more of a limited stock than there is. It
// is solved by the revised simplex method with a dense inverse of the basis; rows are few
// (one a size), columns many.

// kind says what a basic variable stands for.
type kind int8

const (
	cutting   kind = iota // patterns[of] is cut
	surplus               // more of row of is yielded than wanted
	spare                 // less of a limited stock is used than there is
	missing               // row of is short: dear
	returning             // patterns[of] is given back: dear, to mend a plan with too much
	overdrawn             // more of a limited stock is used than there is: dear
)

type basic struct {
	kind kind
	of   int
}

// dear is the cost of what must not be in a plan; the dearest stock costs 1. The higher it
// is, the more is known of a plan that can't be made.
const dear = 256

// Tolerances of the floating-point work. They steer; nothing is claimed from them.
const (
	costTolerance  = 1e-9
	pivotTolerance = 1e-8
)

// pool holds every pattern made so far; it only grows and is shared by all masters of a
// task.
type pool struct {
	task     task
	rows     int   // sizes, then one row a limited stock
	stockRow []int // of each stock its row, or -1
	scale    float64
	patterns []pattern
	cost     []float64
	seen     map[string]int
}

func newPool(t task) *pool {
	p := &pool{task: t, rows: len(t.sizes), seen: map[string]int{}, scale: 1}
	for _, s := range t.stocks {
		row := -1
		if s.Copies > 0 {
			row = p.rows
			p.rows++
		}
		p.stockRow = append(p.stockRow, row)
		p.scale = max(p.scale, float64(s.Cost))
	}
	return p
}

// add keeps a pattern once and returns its index.
func (p *pool) add(t pattern) int {
	key := make([]byte, 0, 8+8*len(t.takes))
	key = appendNumber(key, t.stock)
	for _, k := range t.takes {
		key = appendNumber(appendNumber(key, k.size), k.n)
	}
	if j, ok := p.seen[string(key)]; ok {
		return j
	}
	p.seen[string(key)] = len(p.patterns)
	p.patterns = append(p.patterns, t)
	p.cost = append(p.cost, p.cost0(t.stock))
	return len(p.patterns) - 1
}

// cost0 is a stock's cost, the dearest stock's being 1.
func (p *pool) cost0(stock int) float64 {
	return float64(p.task.stocks[stock].Cost) / p.scale
}

func appendNumber(key []byte, n int) []byte {
	return append(key, byte(n), byte(n>>8), byte(n>>16))
}

// master is one linear program: what is wanted, which patterns are barred, and the basis.
type master struct {
	*pool
	barred []bool // by pattern; one in the basis is dear
	basis  []basic
	in     []bool    // by pattern: in the basis
	x      []float64 // basic variables
	y      []float64 // prices of the rows
	right  []float64 // what is wanted, minutely disturbed against cycling
	inv    []float64 // inverse of the basis, row after row
	w      []float64 // the entering column
	pivots int
}

func newMaster(p *pool, n need) *master {
	m := &master{pool: p, basis: make([]basic, p.rows), x: make([]float64, p.rows), y: make([]float64, p.rows),
		right: make([]float64, p.rows), inv: make([]float64, p.rows*p.rows), w: make([]float64, p.rows)}
	sum := 1e-7
	for i, d := range n.demand {
		m.right[i] = float64(d) + disturbance(i)
		sum += disturbance(i)
		m.basis[i] = basic{missing, i}
		m.inv[i*p.rows+i] = 1
	}
	for s, row := range p.stockRow {
		if row >= 0 {
			// As much more as all pieces' disturbances can ask for, lest they make it impossible.
			m.right[row] = float64(n.copies[s]) + sum
			m.basis[row] = basic{spare, row}
			m.inv[row*p.rows+row] = 1
		}
	}
	copy(m.x, m.right)
	m.reprice()
	return m
}

// disturbance is a fixed small number that differs from row to row.
func disturbance(i int) float64 {
	_, f := math.Modf(float64(i+1) * 0.6180339887498949)
	return 1e-7 * (0.5 + f)
}

func (m *master) clone() *master {
	c := *m
	c.barred = append([]bool(nil), m.barred...)
	c.basis = append([]basic(nil), m.basis...)
	c.in = append([]bool(nil), m.in...)
	c.x = append([]float64(nil), m.x...)
	c.y = append([]float64(nil), m.y...)
	c.right = append([]float64(nil), m.right...)
	c.inv = append([]float64(nil), m.inv...)
	c.w = make([]float64, m.rows)
	return &c
}

// grow makes room for patterns that were added to the pool.
func (m *master) grow() {
	for len(m.barred) < len(m.patterns) {
		m.barred = append(m.barred, false)
	}
	for len(m.in) < len(m.patterns) {
		m.in = append(m.in, false)
	}
}

func (m *master) costOf(b basic) float64 {
	switch b.kind {
	case cutting:
		if m.barred[b.of] {
			return dear
		}
		return m.cost[b.of]
	case missing, returning, overdrawn:
		return dear
	}
	return 0
}

// worthCost is what the pieces on a stick must be worth to pay for it.
func (m *master) worthCost(stock int) float64 {
	c := m.cost0(stock)
	if row := m.stockRow[stock]; row >= 0 {
		c -= m.y[row]
	}
	return c
}

// value is the cost of the plan in fractions, in the unit of the stocks' costs; infinite
// while it uses what must not be in a plan.
func (m *master) value() (sum float64) {
	for r, b := range m.basis {
		c := m.costOf(b)
		if c == dear && m.x[r] > 1e-6 {
			return math.Inf(1)
		}
		sum += c * m.x[r]
	}
	return sum * m.scale
}

// reprice works out the prices of the rows anew.
func (m *master) reprice() {
	clear(m.y)
	for r, b := range m.basis {
		if c := m.costOf(b); c != 0 {
			for k, v := range m.inv[r*m.rows : (r+1)*m.rows] {
				m.y[k] += c * v
			}
		}
	}
}

// each calls f with every row of a column and its entry there.
func (m *master) each(b basic, f func(row int, v float64)) {
	switch b.kind {
	case surplus, overdrawn:
		f(b.of, -1)
	case spare, missing:
		f(b.of, 1)
	default:
		sign := 1.0
		if b.kind == returning {
			sign = -1
		}
		p := m.patterns[b.of]
		for _, t := range p.takes {
			f(t.size, sign*float64(t.n))
		}
		if row := m.stockRow[p.stock]; row >= 0 {
			f(row, sign)
		}
	}
}

// improve runs the simplex method over the patterns known, to its end.
func (m *master) improve() {
	m.grow()
	for limit := 40*m.rows + 2000; limit > 0; limit-- {
		b, gain := m.entering()
		if gain >= -costTolerance {
			return
		}
		if !m.pivot(b, gain) {
			return
		}
	}
}

// entering is the variable whose cost falls most below what its rows are worth.
func (m *master) entering() (b basic, gain float64) {
	for j, p := range m.patterns {
		if m.in[j] || m.barred[j] {
			continue
		}
		g := m.cost[j]
		for _, t := range p.takes {
			g -= m.y[t.size] * float64(t.n)
		}
		if row := m.stockRow[p.stock]; row >= 0 {
			g -= m.y[row]
		}
		if g < gain {
			b, gain = basic{cutting, j}, g
		}
	}
	sizes := len(m.task.sizes)
	for i, y := range m.y {
		less, more := basic{surplus, i}, basic{missing, i}
		if i >= sizes {
			less, more, y = basic{spare, i}, basic{overdrawn, i}, -y
		}
		if y < gain {
			b, gain = less, y
		}
		if dear-y < gain { // no price is above what going without costs
			b, gain = more, dear-y
		}
	}
	return b, gain
}

// pivot brings a variable into the basis; it fails when nothing limits it.
func (m *master) pivot(b basic, gain float64) bool {
	n := m.rows
	clear(m.w)
	m.each(b, func(row int, v float64) {
		for r := range n {
			m.w[r] += m.inv[r*n+row] * v
		}
	})
	out := m.leaving()
	if out < 0 {
		return false
	}
	m.exchange(out, b)
	for k, v := range m.inv[out*n : (out+1)*n] {
		m.y[k] += gain * v
	}
	if m.pivots++; m.pivots%100 == 0 {
		m.refresh()
	}
	return true
}

// leaving is the row whose variable falls to zero first; of those at once the one with the
// largest pivot.
func (m *master) leaving() int {
	out, step := -1, math.Inf(1)
	for r, w := range m.w {
		if w <= pivotTolerance {
			continue
		}
		t := max(m.x[r], 0) / w
		if t < step-1e-12 || t <= step+1e-12 && w > m.w[out] {
			out, step = r, t
		}
	}
	return out
}

// exchange puts b in the basis at row out; w is its column.
func (m *master) exchange(out int, b basic) {
	n := m.rows
	row := m.inv[out*n : (out+1)*n]
	scale := 1 / m.w[out]
	for k := range row {
		row[k] *= scale
	}
	m.x[out] *= scale
	for r, w := range m.w {
		if r == out || w == 0 {
			continue
		}
		other := m.inv[r*n : (r+1)*n][:len(row)]
		for k, v := range row {
			other[k] -= w * v
		}
		m.x[r] -= w * m.x[out]
	}
	if old := m.basis[out]; old.kind == cutting {
		m.in[old.of] = false
	}
	if b.kind == cutting {
		m.in[b.of] = true
	}
	m.basis[out] = b
}

// refresh works the basic variables and the prices out anew, against rounding.
func (m *master) refresh() {
	n := m.rows
	if m.pivots%2000 == 0 {
		m.invert()
	}
	for r := range m.x {
		sum := 0.0
		for k, v := range m.inv[r*n : (r+1)*n] {
			sum += v * m.right[k]
		}
		m.x[r] = sum
	}
	m.reprice()
}

// invert works the inverse out anew from the basis, by elimination with pivoting; on a
// basis too close to singular the old inverse is kept.
func (m *master) invert() {
	n := m.rows
	a, inv := make([]float64, n*n), make([]float64, n*n)
	for c, b := range m.basis {
		m.each(b, func(row int, v float64) { a[row*n+c] = v })
		inv[c*n+c] = 1
	}
	for c := range n {
		p := c
		for r := c + 1; r < n; r++ {
			if math.Abs(a[r*n+c]) > math.Abs(a[p*n+c]) {
				p = r
			}
		}
		if math.Abs(a[p*n+c]) < 1e-10 {
			return
		}
		swapRows(a, n, p, c)
		swapRows(inv, n, p, c)
		scaleRow(a, n, c, 1/a[c*n+c], inv)
		for r := range n {
			if f := a[r*n+c]; r != c && f != 0 {
				for k := range n {
					a[r*n+k] -= f * a[c*n+k]
					inv[r*n+k] -= f * inv[c*n+k]
				}
			}
		}
	}
	m.inv = inv
}

func swapRows(a []float64, n, p, q int) {
	if p != q {
		for k := range n {
			a[p*n+k], a[q*n+k] = a[q*n+k], a[p*n+k]
		}
	}
}

func scaleRow(a []float64, n, c int, f float64, inv []float64) {
	for k := range n {
		a[c*n+k] *= f
		inv[c*n+k] *= f
	}
}

// fix takes copies of a pattern off what is wanted. What the basis can no longer do
// without going below zero is turned into giving back, which is dear and so driven out.
func (m *master) fix(j, copies int) {
	n := m.rows
	m.each(basic{cutting, j}, func(row int, v float64) {
		m.right[row] -= v * float64(copies)
		for r := range n {
			m.x[r] -= m.inv[r*n+row] * v * float64(copies)
		}
	})
	m.mend()
}

// mend makes the basic variables nonnegative again.
func (m *master) mend() {
	n := m.rows
	for r, b := range m.basis {
		if m.x[r] >= -1e-9 {
			continue
		}
		switch b.kind {
		case cutting:
			m.in[b.of] = false
			m.basis[r] = basic{returning, b.of}
		case surplus:
			m.basis[r] = basic{missing, b.of}
		case returning:
			m.in[b.of] = true
			m.basis[r] = basic{cutting, b.of}
		case missing:
			m.basis[r] = basic{surplus, b.of}
		case spare:
			m.basis[r] = basic{overdrawn, b.of}
		case overdrawn:
			m.basis[r] = basic{spare, b.of}
		}
		for k := range n {
			m.inv[r*n+k] = -m.inv[r*n+k]
		}
		m.x[r] = -m.x[r]
	}
}
