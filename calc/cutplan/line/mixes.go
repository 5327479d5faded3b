package line

// mixesMost is up to which cost mixes are worked out.
const mixesMost = 1 << 21

// mixes knows which costs a plan can have at all: those of mixes of stock that together
// are as long as the pieces are. Limits on copies are left out of it.
type mixes struct {
	enough []bool // by cost
}

// mixesTo works the mixes out up to a cost; above mixesMost none are, and then every cost
// counts as possible.
func (t task) mixesTo(cost int64) mixes {
	if cost > mixesMost || cost*int64(len(t.stocks)) > 8*mixesMost {
		return mixes{}
	}
	var need float64
	for _, s := range t.sizes {
		need += float64(s.length) * float64(s.demand)
	}
	need *= 1 - 1e-12 // a sum in floating point, so on the safe side
	length := make([]float64, cost+1)
	m := mixes{enough: make([]bool, cost+1)}
	free := 0.0
	for _, s := range t.stocks {
		if s.Cost == 0 {
			free += float64(s.Length) * float64(s.Copies)
		}
	}
	for c := range length {
		length[c] = -1
		if c == 0 {
			length[c] = free
		}
		for _, s := range t.stocks {
			if k := int64(c) - s.Cost; s.Cost > 0 && k >= 0 && length[k] >= 0 {
				length[c] = max(length[c], length[k]+float64(s.Length))
			}
		}
		m.enough[c] = length[c] >= need
	}
	return m
}

// up is the least possible cost not under the given one.
func (m mixes) up(cost int64) int64 {
	for cost >= 0 && cost < int64(len(m.enough)) && !m.enough[cost] {
		cost++
	}
	return cost
}

// down is the largest possible cost not above the given one, or -1.
func (m mixes) down(cost int64) int64 {
	for cost >= 0 && cost < int64(len(m.enough)) && !m.enough[cost] {
		cost--
	}
	return cost
}
