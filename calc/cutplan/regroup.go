package cutplan

import "slices"

// regroup takes a few boards out of the current solution and looks for cheaper ones that hold the
// same pieces: for each choice of boards, in some order, all pieces are put down in one search.
func (s *search) regroup() {
	if len(s.current.patterns) == 0 {
		return
	}
	boards := 1 + s.intn(5)
	kept, demand, supply, limit := s.without(boards)
	rows := s.rows(demand, supply, limit, boards+1)
	for range min(6, len(rows)) {
		if again := s.pack(s.draw(rows), demand, s.effort(15, 7)); again != nil {
			s.offer(append(kept, again...))
			return
		}
	}
}

// refinements is how many equal solutions are looked at when nothing cheaper can be.
const refinements = 40

// refine takes a few boards out of the best solution and puts their pieces down anew on the same
// boards or fewer, hoping for a larger offcut.
func (s *search) refine() {
	s.refined++
	s.nodes += 100
	if len(s.best.patterns) == 0 || s.best.missing > 0 {
		return
	}
	kept, freed := s.free(s.best, 1+s.intn(2))
	demand := make([]int, len(s.lot.kinds))
	var row []int
	for _, p := range freed {
		row = append(row, p.stock)
		for k, c := range p.count {
			demand[k] += int(c)
		}
	}
	if again := s.pack(row, demand, s.effort(10, 3)); again != nil {
		s.offer(append(kept, again...))
	}
}

// free takes so many of a solution's patterns out by chance.
func (s *search) free(sol *solution, out int) (kept, freed []*pattern) {
	kept = slices.Clone(sol.patterns)
	out = min(out, len(kept))
	for i := range out {
		j := i + s.intn(len(kept)-i)
		kept[i], kept[j] = kept[j], kept[i]
	}
	return kept[out:], kept[:out]
}

// row is a choice of boards.
type row struct {
	stocks []int
	loose  float64 // area to spare, as a share
}

// rows lists the choices of at most so many boards that cost no more than the limit and have the
// area for the demand.
func (s *search) rows(demand, supply []int, limit float64, most int) []row {
	k := float64(s.lot.kerf)
	area := 0.0
	for i, n := range demand {
		area += float64(n) * (float64(s.lot.kinds[i].l) + k) * (float64(s.lot.kinds[i].w) + k)
	}
	var all []row
	var chosen []int
	var choose func(from int, room, cost float64)
	choose = func(from int, room, cost float64) {
		if room >= area {
			all = append(all, row{slices.Clone(chosen), room/area - 1})
			return
		}
		for i := from; i < len(supply) && len(chosen) < most && len(all) < 2000; i++ {
			st := &s.lot.stocks[i]
			if supply[i] == 0 || len(st.items) == 0 || cost+st.cost > limit+1e-6 {
				continue
			}
			chosen = append(chosen, i)
			supply[i]--
			choose(i, room+float64(st.x1-st.x0+s.lot.kerf)*float64(st.w+s.lot.kerf), cost+st.cost)
			supply[i]++
			chosen = chosen[:len(chosen)-1]
		}
	}
	choose(0, 0, 0)
	return all
}

// draw takes one of the rows, sooner one with room to spare, and shuffles it.
func (s *search) draw(rows []row) []int {
	best := s.intn(len(rows))
	for range 3 {
		if i := s.intn(len(rows)); rows[i].loose > rows[best].loose {
			best = i
		}
	}
	out := slices.Clone(rows[best].stocks)
	for i := range out {
		j := i + s.intn(len(out)-i)
		out[i], out[j] = out[j], out[i]
	}
	return out
}

// pack puts the whole demand on a row of boards, or gives nothing.
func (s *search) pack(row []int, demand []int, beam int) []*pattern {
	weight := make([]float64, len(demand))
	all := 0.0
	for k, n := range demand {
		weight[k] = s.lot.kinds[k].area
		all += float64(n) * weight[k]
	}
	g := guide{beam: beam, large: 0.9 + 0.6*s.chance()}
	if s.chance() < 0.8 {
		pieces := 0
		for _, n := range demand {
			pieces += n
		}
		g.levels = 2 * pieces
	}
	patterns := s.fill(&request{row: row, demand: demand, weight: weight, guide: g, dense: s.chance() < 0.5})
	s.learn(patterns...)
	for _, p := range patterns {
		all -= p.value
	}
	if all > 1e-6 {
		return nil
	}
	return patterns
}

// effort is a number that is doubled again and again, each time by even chance, so that as much
// work goes into a few great efforts as into many small ones (after Luby, Sinclair and
// Zuckerman 1993).
func (s *search) effort(n, most int) int {
	for ; most > 0 && s.chance() < 0.5; most-- {
		n *= 2
	}
	return n
}
