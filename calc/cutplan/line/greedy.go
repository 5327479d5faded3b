package line

// bestFit fills what is needed with the given stock, longest pieces first, each where it
// leaves least; it returns nil when the copies do not suffice. It is for few pieces: every
// piece looks at every stick.
func (t task) bestFit(n need, stock int) []use {
	type stick struct {
		left  int64
		takes []take
	}
	var open []stick
	for i, d := range n.demand {
		for range d {
			length, at := t.sizes[i].length, -1
			for k := range open {
				if open[k].left >= length && (at < 0 || open[k].left < open[at].left) {
					at = k
				}
			}
			if at < 0 {
				if t.stocks[stock].Copies > 0 && len(open) == n.copies[stock] || length > t.stocks[stock].Length {
					return nil
				}
				at = len(open)
				open = append(open, stick{left: t.stocks[stock].Length})
			}
			s := &open[at]
			s.left -= length
			if k := len(s.takes) - 1; k >= 0 && s.takes[k].size == i {
				s.takes[k].n++
			} else {
				s.takes = append(s.takes, take{i, 1})
			}
		}
	}
	plan := make([]use, len(open))
	for k, s := range open {
		plan[k] = use{pattern{stock, s.takes}, 1}
	}
	return plan
}

// fillFull fills one stick after another as full as it goes, always with the longest piece
// left; of the stocks it takes the one that costs least by length used. It returns nil
// when the stock runs out.
func (s *search) fillFull(n need) []use {
	n = n.clone()
	var plan []use
	for {
		first := 0
		for first < len(n.demand) && n.demand[first] == 0 {
			first++
		}
		if first == len(n.demand) {
			return plan
		}
		p, ok := s.fullest(n, first)
		if !ok {
			return nil
		}
		copies := p.times(n.demand)
		if s.stocks[p.stock].Copies > 0 {
			copies = min(copies, n.copies[p.stock])
		}
		p.spend(&n, copies)
		plan = append(plan, use{p, copies})
	}
}

// fullest is a pattern with the given size that costs least by length used.
func (s *search) fullest(n need, first int) (best pattern, ok bool) {
	q := question{sizes: s.sizes, prices: make([]int64, len(s.sizes)), demand: n.demand, steps: 20000,
		stocks: append([]Stock(nil), s.stocks...), use: make([]bool, len(s.stocks)), least: make([]int64, len(s.stocks))}
	for i, size := range s.sizes {
		q.prices[i] = size.length
	}
	length := s.sizes[first].length
	n.demand[first]--
	defer func() { n.demand[first]++ }()
	rate := 0.0
	better := func(p pattern, used int64) {
		if r := float64(s.stocks[p.stock].Cost) / float64(used); !ok || r < rate {
			best, rate, ok = p, r, true
		}
	}
	for k := range s.stocks {
		q.stocks[k].Length -= length
		if q.use[k] = s.available(n, k) && q.stocks[k].Length >= 0; q.use[k] {
			better(pattern{k, []take{{first, 1}}}, length)
		}
	}
	for _, f := range s.pricer.ask(q).found {
		better(f.pattern.with(first), f.worth+length)
	}
	return best, ok
}
