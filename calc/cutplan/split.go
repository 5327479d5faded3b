package cutplan

import (
	"math"
	"slices"

	"fettle/calc/measure"
)

// mates says whether a part may come from a board, size apart.
func mates(p *Part, b *Board) bool {
	return p.Thickness == b.Thickness && (p.Species == "" || b.Species == "" || p.Species == b.Species)
}

// group is the indices of parts and boards that have to be looked at together.
type group struct{ parts, boards []int }

// groups splits the job into groups that share nothing. Parts without any board stay away.
func groups(job *Job) []group {
	root := make([]int, len(job.Boards)+len(job.Parts))
	for i := range root {
		root[i] = i
	}
	find := func(i int) int {
		for root[i] != i {
			i = root[i]
		}
		return i
	}
	mated := make([]bool, len(job.Parts))
	for p := range job.Parts {
		for b := range job.Boards {
			if mates(&job.Parts[p], &job.Boards[b]) {
				root[find(len(job.Boards)+p)] = find(b)
				mated[p] = true
			}
		}
	}
	byRoot := map[int]int{}
	var all []group
	for p := range job.Parts {
		if !mated[p] {
			continue
		}
		r := find(len(job.Boards) + p)
		if _, ok := byRoot[r]; !ok {
			byRoot[r] = len(all)
			all = append(all, group{})
		}
		g := &all[byRoot[r]]
		g.parts = append(g.parts, p)
	}
	for b := range job.Boards {
		if i, ok := byRoot[find(b)]; ok {
			all[i].boards = append(all[i].boards, b)
		}
	}
	return all
}

// scaleOf is the greatest common divisor of all lengths of the group.
func scaleOf(job *Job, g group) measure.Length {
	d := gcd(job.Kerf, job.Trim)
	for _, p := range g.parts {
		d = gcd(d, gcd(job.Parts[p].Length, job.Parts[p].Width))
	}
	for _, i := range g.boards {
		b := &job.Boards[i]
		d = gcd(d, gcd(b.Length, b.Width))
		for _, f := range b.Faults {
			d = gcd(d, gcd(gcd(f.X, f.Y), gcd(f.Length, f.Width)))
		}
	}
	return d
}

func gcd(a, b measure.Length) measure.Length {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// lotOf makes a lot of a group. Parts that fit no board of it are not in it.
func lotOf(job *Job, g group, priced bool) *lot {
	lt := &lot{lastRip: job.LastRip, scale: scaleOf(job, g)}
	lt.kerf = int(job.Kerf / lt.scale)
	for _, b := range g.boards {
		lt.addBoard(job, b, priced)
	}
	lt.granule = lt.leastStep()
	parts := slices.DeleteFunc(slices.Clone(g.parts), func(p int) bool { return !lt.fitsAny(job, p) })
	mateless := lt.addKinds(job, parts)
	for i := range lt.stocks {
		s := &lt.stocks[i]
		b := &job.Boards[s.board]
		s.items = s.itemsFor(lt.kinds,
			func(k int) bool { return mates(mateless[k], b) },
			func(k int) bool { return b.Sheet && mateless[k].Free })
	}
	return lt
}

// addBoard adds a board's copies: the sound ones as one stock, each faulty one as its own.
func (lt *lot) addBoard(job *Job, index int, priced bool) {
	b := &job.Boards[index]
	faulty := map[int][]rect{}
	for _, f := range b.Faults {
		r := rect{x0: lt.scaled(f.X), y0: lt.scaled(f.Y), x1: lt.scaled(f.X + f.Length), y1: lt.scaled(f.Y + f.Width)}
		faulty[f.Copy] = append(faulty[f.Copy], r)
	}
	s := stock{board: index, x0: lt.scaled(job.Trim), x1: lt.scaled(b.Length - job.Trim), w: lt.scaled(b.Width)}
	s.cost = b.Length.MM() * b.Width.MM() / 1e6
	if priced {
		s.cost = b.Price
	}
	sound := s
	for c := 1; c <= b.Quantity; c++ {
		if len(faulty[c]) == 0 {
			sound.copies = append(sound.copies, c)
			continue
		}
		one := s
		one.copies, one.faults = []int{c}, faulty[c]
		lt.stocks = append(lt.stocks, one)
	}
	if len(sound.copies) > 0 {
		lt.stocks = append(lt.stocks, sound)
	}
}

func (lt *lot) scaled(l measure.Length) int { return int(l / lt.scale) }

// fitsAny says whether a part has a place on some board of the lot.
func (lt *lot) fitsAny(job *Job, part int) bool {
	p := &job.Parts[part]
	l, w := lt.scaled(p.Length), lt.scaled(p.Width)
	for i := range lt.stocks {
		s := &lt.stocks[i]
		b := &job.Boards[s.board]
		if mates(p, b) && (s.holds(l, w) || p.Free && b.Sheet && s.holds(w, l)) {
			return true
		}
	}
	return false
}

// addKinds gathers parts that differ in name only, and gives a part of each kind.
func (lt *lot) addKinds(job *Job, parts []int) []*Part {
	var of []*Part
	for _, i := range parts {
		p := &job.Parts[i]
		k := slices.IndexFunc(of, func(q *Part) bool {
			return p.Length == q.Length && p.Width == q.Width && p.Species == q.Species && p.Free == q.Free
		})
		if k < 0 {
			k = len(of)
			of = append(of, p)
			l, w := lt.scaled(p.Length), lt.scaled(p.Width)
			lt.kinds = append(lt.kinds, kind{l: l, w: w, area: float64(l) * float64(w)})
		}
		lt.kinds[k].demand += p.Quantity
		lt.kinds[k].members = append(lt.kinds[k].members, member{part: i, quantity: p.Quantity})
	}
	return of
}

// leastStep is what all boards' costs are whole multiples of, 0 if that isn't found.
func (lt *lot) leastStep() float64 {
	unit := lt.costUnit()
	if unit == 0 {
		return 0
	}
	var d measure.Length
	for i := range lt.stocks {
		d = gcd(d, measure.Length(math.Round(lt.stocks[i].cost*unit)))
	}
	return float64(d) / unit
}
