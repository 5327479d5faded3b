package cutplan

import (
	"cmp"
	"slices"
)

// squeeze is a try to do with one board less than the best solution, all boards being alike: so
// many boards are filled, some pieces are left over, and some of the boards are emptied and filled
// anew, over and over, so that less is left over.
type squeeze struct {
	patterns []*pattern
	left     []int   // pieces left over by kind
	area     float64 // of them
}

// alike says whether all boards are, so that only their number counts.
func (s *search) alike() bool {
	return len(s.lot.stocks) == 1 && len(s.lot.stocks[0].faults) == 0
}

// squeeze takes one step of the try.
func (s *search) squeeze() {
	s.nodes++
	if s.best.missing > 0 || len(s.best.patterns) < 2 {
		return
	}
	if s.tight == nil || len(s.tight.patterns) >= len(s.best.patterns) {
		s.tight = s.squeezed()
	}
	t := s.tight
	others, freed := s.free(&solution{patterns: t.patterns}, 1+s.intn(4))
	left := slices.Clone(t.left)
	for _, p := range freed {
		for k, n := range p.count {
			left[k] += int(n)
		}
	}
	again := s.pour(len(freed), left)
	for _, p := range again {
		p.take(left)
	}
	area := s.lot.areaOf(left)
	if area > t.area+slack*s.lot.stocks[0].area()*s.chance() {
		return
	}
	s.tight = &squeeze{append(others, again...), left, area}
	if area == 0 {
		s.offer(s.tight.patterns)
	}
}

// slack is how much more may be left over after a step, as a share of a board.
const slack = 0.01

// squeezed is the best solution without the board on which there is least.
func (s *search) squeezed() *squeeze {
	patterns := slices.Clone(s.best.patterns)
	slices.SortStableFunc(patterns, func(a, b *pattern) int { return cmp.Compare(s.lot.areaOn(b), s.lot.areaOn(a)) })
	patterns = patterns[:len(patterns)-1]
	left := s.lot.demand()
	for _, p := range patterns {
		p.take(left)
	}
	return &squeeze{patterns, left, s.lot.areaOf(left)}
}

// pour fills so many boards with as much as it can of the demand. The weights are never the same
// twice, so that each time another way is found.
func (s *search) pour(boards int, demand []int) []*pattern {
	weight := make([]float64, len(demand))
	pieces := 0
	for k, n := range demand {
		weight[k] = s.lot.kinds[k].area * (1 + 0.1*s.chance())
		pieces += n
	}
	g := guide{beam: s.effort(20, 5), large: 0.95 + 0.3*s.chance()}
	if s.chance() < 0.4 {
		g.levels = 2 * pieces
	}
	return s.fill(&request{row: make([]int, boards), demand: demand, weight: weight, guide: g, dense: true})
}

func (lt *lot) areaOf(count []int) (sum float64) {
	for k, n := range count {
		sum += float64(n) * lt.kinds[k].area
	}
	return sum
}

func (lt *lot) areaOn(p *pattern) (sum float64) {
	for k, n := range p.count {
		sum += float64(n) * lt.kinds[k].area
	}
	return sum
}
