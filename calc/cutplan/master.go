package cutplan

import "math"

// master is the linear program over known patterns: how many of each (fractions allowed), at
// least cost, give all that is wanted from the boards there are. Pieces may go without at a
// penalty. It is solved by the revised simplex method with an explicit inverse, and grows by
// columns (Gilmore and Gomory 1961).
type master struct {
	kinds, rows int // a row a kind, then a row a stock
	penalty     []float64
	right       []float64 // right-hand sides, a little perturbed against cycling
	columns     []column
	basis       []int     // the variable of each row
	inverse     []float64 // of the basis, row by row
	value       []float64 // of the basis's variables
	price       []float64 // of each row: what a piece may cost, what one board less would cost
	basic       []bool    // of the columns
	work        int64     // in the unit of a node, about
}

// column is a pattern in the program.
type column struct {
	*pattern
	cost float64
	row  []int32
	coef []float64
}

// Variables are numbered: pieces without a place, by kind, and boards unused, by stock; then
// pieces too many, by kind; then the columns.

// newMaster makes the program with no pattern in it.
func newMaster(lt *lot, demand, supply []int, penalty []float64) *master {
	m := &master{kinds: len(demand), rows: len(demand) + len(supply), penalty: make([]float64, len(demand))}
	for k, n := range demand {
		if n > 0 {
			m.penalty[k] = penalty[k]
		}
	}
	m.right = make([]float64, 0, m.rows)
	for i, n := range append(append([]int(nil), demand...), supply...) {
		shift := float64(mix(uint64(i))>>40) / (1 << 24) // in [0, 1)
		m.right = append(m.right, float64(n)+1e-7*(1+shift))
	}
	m.basis = make([]int, m.rows)
	m.inverse = make([]float64, m.rows*m.rows)
	m.value = append([]float64(nil), m.right...)
	m.price = make([]float64, m.rows)
	for i := range m.basis {
		m.basis[i] = i
		m.inverse[i*m.rows+i] = 1
		m.price[i] = m.cost(i)
	}
	return m
}

// add puts a pattern into the program.
func (m *master) add(p *pattern, cost float64) {
	c := column{pattern: p, cost: cost}
	for k, n := range p.count {
		if n > 0 {
			c.row = append(c.row, int32(k))
			c.coef = append(c.coef, float64(n))
		}
	}
	c.row = append(c.row, int32(m.kinds+p.stock))
	c.coef = append(c.coef, 1)
	m.columns = append(m.columns, c)
	m.basic = append(m.basic, false)
}

// cost of a variable.
func (m *master) cost(v int) float64 {
	switch {
	case v < m.kinds:
		return m.penalty[v]
	case v < m.rows+m.kinds:
		return 0
	}
	return m.columns[v-m.rows-m.kinds].cost
}

// reduced is a column's cost less what its rows pay for it.
func (m *master) reduced(c *column) float64 {
	d := c.cost
	for i, r := range c.row {
		d -= m.price[r] * c.coef[i]
	}
	return d
}

// entering finds the variable whose entry lowers the cost fastest, if any.
func (m *master) entering() (v int, gain float64) {
	v, gain = -1, -1e-7
	for i := range m.rows {
		d := m.cost(i) - m.price[i]
		if d < gain {
			v, gain = i, d
		}
		if i < m.kinds && m.price[i] < gain {
			v, gain = m.rows+i, m.price[i]
		}
	}
	for i := range m.columns {
		if !m.basic[i] {
			if d := m.reduced(&m.columns[i]); d < gain {
				v, gain = m.rows+m.kinds+i, d
			}
		}
	}
	return v, gain
}

// direction is the inverse times a variable's column.
func (m *master) direction(v int, out []float64) {
	for i := range out {
		row := m.inverse[i*m.rows : (i+1)*m.rows]
		switch {
		case v < m.rows:
			out[i] = row[v]
		case v < m.rows+m.kinds:
			out[i] = -row[v-m.rows]
		default:
			c := &m.columns[v-m.rows-m.kinds]
			sum := 0.0
			for j, r := range c.row {
				sum += row[r] * c.coef[j]
			}
			out[i] = sum
		}
	}
}

// solve brings the program to its optimum over the columns at hand. It gives up, with what it
// has, when stop says so or after very many steps.
func (m *master) solve(stop func() bool) {
	out := make([]float64, m.rows)
	for range 50 * (m.rows + 20) {
		v, gain := m.entering()
		if v < 0 || stop() {
			return
		}
		m.work += int64(m.rows*m.rows+6*len(m.columns))/150 + 1
		m.direction(v, out)
		leave, ratio := -1, math.Inf(1)
		for i, d := range out {
			if d > 1e-9 {
				if q := m.value[i] / d; q < ratio {
					leave, ratio = i, q
				}
			}
		}
		if leave < 0 {
			return
		}
		m.pivot(v, leave, ratio, gain, out)
	}
}

// pivot exchanges the variable of a row.
func (m *master) pivot(v, leave int, ratio, gain float64, out []float64) {
	pivotRow := m.inverse[leave*m.rows : (leave+1)*m.rows]
	scale := 1 / out[leave]
	for j := range pivotRow {
		pivotRow[j] *= scale
	}
	for i, d := range out {
		if i == leave || d == 0 {
			continue
		}
		row := m.inverse[i*m.rows : (i+1)*m.rows]
		for j, x := range pivotRow {
			row[j] -= d * x
		}
		m.value[i] = max(0, m.value[i]-d*ratio)
	}
	m.value[leave] = ratio
	for j, x := range pivotRow {
		m.price[j] += gain * x
	}
	first := m.rows + m.kinds
	if old := m.basis[leave]; old >= first {
		m.basic[old-first] = false
	}
	if m.basis[leave] = v; v >= first {
		m.basic[v-first] = true
	}
}

// objective is the cost of the program's present solution.
func (m *master) objective() float64 {
	sum := 0.0
	for i, v := range m.basis {
		sum += m.cost(v) * m.value[i]
	}
	return sum
}

// amounts calls back for each pattern in use, with how many of it.
func (m *master) amounts(each func(p *pattern, amount float64)) {
	first := m.rows + m.kinds
	for i, v := range m.basis {
		if v >= first && m.value[i] > 1e-6 {
			each(m.columns[v-first].pattern, m.value[i])
		}
	}
}
