package line

import (
	"cmp"
	"math"
	"slices"
)

// dive looks for a plan by fixing patterns of the linear program's solution one after
// another and solving again for what is left (a diving heuristic with limited
// discrepancies: Sadykov, Vanderbeck, Pessoa, Tahiri, Uchoa, INFORMS J. Computing 31, 2019).
type dive struct {
	*search
	budget  int64
	windows []window // as in a question
	tabu    []int    // patterns not to be fixed further down
}

// down solves for what is needed, fixes, and goes down; turns is how often it may take
// another than the first choice.
func (d *dive) down(m *master, n need, fixed []use, turns int, depth int) {
	spent := d.cost(fixed)
	for {
		if d.over() || d.budget <= 0 {
			return
		}
		if n.pieces() == 0 {
			d.offer(fixed)
			return
		}
		d.bar(m, n)
		d.budget--
		bound, done := d.solve(m, n, d.windows, d.cutoff()-spent, false)
		if !done || spent+bound >= d.cutoff() {
			return
		}
		fixed = slices.Clip(d.fixWhole(m, &n, fixed))
		d.greedy(fixed, n)
		choices := d.choices(m, n)
		if len(choices) == 0 {
			d.offer(d.finish(fixed, n))
			return
		}
		d.tryOthers(m, n, fixed, choices, turns, depth)
		fixed = d.fix(m, &n, fixed, choices[0], 1)
		spent = d.cost(fixed)
	}
}

// tryOthers goes down the choices after the first, each with one turn less, before the
// first is gone down with.
func (d *dive) tryOthers(m *master, n need, fixed []use, choices []int, turns, depth int) {
	if turns == 0 || len(choices) < 2 || depth > 40 {
		return
	}
	mark := len(d.tabu)
	d.tabu = append(d.tabu, choices[0])
	for _, j := range choices[1:min(len(choices), 2)] {
		if d.over() || d.budget <= 0 {
			break
		}
		mm, nn := m.clone(), n.clone()
		rest := d.fix(mm, &nn, fixed, j, 1)
		d.down(mm, nn, rest, turns-1, depth+1)
		d.tabu = append(d.tabu, j)
	}
	d.tabu = d.tabu[:mark]
}

// finish fills up greedily.
func (d *dive) finish(fixed []use, n need) []use {
	rest := d.fillFull(n)
	if rest == nil {
		return nil
	}
	return slices.Concat(fixed, rest)
}

// bar shuts out patterns that yield more than is wanted, and the tabu ones.
func (d *dive) bar(m *master, n need) {
	m.grow()
	for j, p := range m.patterns {
		m.barred[j] = !p.fits(n.demand) || !d.available(n, p.stock) || d.windows != nil && !d.open(p, d.windows)
	}
	for _, j := range d.tabu {
		m.barred[j] = true
	}
	m.reprice()
}

func (d *dive) fix(m *master, n *need, fixed []use, j, copies int) []use {
	p := m.patterns[j]
	m.fix(j, copies)
	p.spend(n, copies)
	return append(slices.Clip(fixed), use{p, copies})
}

// fixWhole fixes the whole part of every pattern in the solution.
func (d *dive) fixWhole(m *master, n *need, fixed []use) []use {
	for r, b := range m.basis {
		if b.kind != cutting || m.barred[b.of] {
			continue
		}
		whole := min(int(math.Floor(m.x[r]+1e-4)), m.patterns[b.of].times(n.demand))
		if s := m.patterns[b.of].stock; d.stocks[s].Copies > 0 {
			whole = min(whole, n.copies[s])
		}
		if whole > 0 {
			fixed = d.fix(m, n, fixed, b.of, whole)
		}
	}
	return fixed
}

// choices are the patterns in the solution by falling fraction, those that can be cut.
func (d *dive) choices(m *master, n need) []int {
	type choice struct {
		of int
		x  float64
	}
	var all []choice
	for r, b := range m.basis {
		if b.kind == cutting && !m.barred[b.of] && m.x[r] > 1e-4 &&
			m.patterns[b.of].fits(n.demand) && d.available(n, m.patterns[b.of].stock) {
			all = append(all, choice{b.of, m.x[r]})
		}
	}
	slices.SortStableFunc(all, func(a, b choice) int { return cmp.Compare(b.x, a.x) })
	of := make([]int, len(all))
	for k, c := range all {
		of[k] = c.of
	}
	return of
}
