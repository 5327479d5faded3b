package cutplan

import "cmp"

// compare says whether a solution is better (negative): by what is left out, by cost, by the
// number of boards, by the largest single offcut, by how few settings of the saw it takes.
func (lt *lot) compare(a, b *solution) int {
	if c := a.compare(b); c != 0 || a == b {
		return c
	}
	return cmp.Or(apart(lt.offcut(b), lt.offcut(a)), cmp.Compare(lt.settings(a), lt.settings(b)))
}

// offcut is the area of the solution's largest offcut, in square metres.
func (lt *lot) offcut(sol *solution) float64 {
	if !sol.sawn {
		lt.measure(sol)
	}
	return sol.offcut
}

// settings is how many different stops and fences the solution's cuts need: a setting is what is
// kept beyond the blade, along the board or across it.
func (lt *lot) settings(sol *solution) int {
	if !sol.sawn {
		lt.measure(sol)
	}
	return sol.settings
}

func (lt *lot) measure(sol *solution) {
	sol.sawn = true
	seen := map[Cut]bool{}
	for _, p := range sol.patterns {
		cuts, offcuts := lt.saw(&lt.stocks[p.stock], lt.layoutOf(p))
		for _, o := range offcuts {
			sol.offcut = max(sol.offcut, squareMetres(o.Length, o.Width))
		}
		for _, c := range cuts {
			seen[Cut{Across: c.Across, At: c.kept()}] = true
		}
	}
	sol.settings = len(seen)
}
