package speech

import (
	"math/big"
	"slices"

	"fettle/calc/measure"
)

// group is a size of several numbers: the items of 600 × 45 × 22.
type group []int

// groups finds the sizes of the sentence.
func (r *Reading) groups() []group {
	var out []group
	for i := 0; i < len(r.Items); i++ {
		if r.Items[i].Q == nil || r.Items[i].Q.Kind == KindBefore {
			continue
		}
		g := group{i}
		for next := r.nextOfSize(i); next > 0; next = r.nextOfSize(g[len(g)-1]) {
			g = append(g, next)
		}
		if len(g) > 1 {
			out = append(out, g)
		}
		i = g[len(g)-1]
	}
	return out
}

// nextOfSize finds the number that goes on the size of the number at i: behind a × sign, with
// at most a role word between: 91 cm long × 6 cm wide.
func (r *Reading) nextOfSize(i int) int {
	j := i + 1
	if r.word(j) != "×" && isRoleWord(r.word(j)) {
		j++
	}
	if r.word(j) == "×" && j+1 < len(r.Items) && r.Items[j+1].Q != nil {
		return j + 1
	}
	return 0
}

// fillGroups gives the sizes their roles by order.
func (r *Reading) fillGroups() {
	gs := r.groups()
	for k := range gs {
		gs[k] = r.countFirst(gs[k])
		r.shareUnit(gs[k])
	}
	gs = slices.DeleteFunc(gs, func(g group) bool { return !r.Free(g[0]) && !r.Free(g[len(g)-1]) })
	if len(gs) == 0 || len(r.Form.Sizes) == 0 {
		return
	}
	if len(gs) > 1 && r.Form.Items {
		r.fillItems(gs)
		return
	}
	r.spoke = true
	r.byOrder(gs[0])
}

// countFirst takes the first of 6 × 830 × 70 × 22 for how many.
func (r *Reading) countFirst(g group) group {
	n := r.Form.need("quantity")
	if n == nil || len(g) != len(r.Form.Sizes)+1 || !r.open(n) {
		return g
	}
	q := r.Items[g[0]].Q
	if !q.Bare() || !q.Integer {
		return g
	}
	r.Set("quantity", g[0])
	return g[1:]
}

// shareUnit gives the unit of the last number of a size to the bare ones before it: 61 × 45 cm.
// A size with fractions and no unit is in inches throughout.
func (r *Reading) shareUnit(g group) {
	last := r.Items[g[len(g)-1]].Q
	fractions, units := 0, 0
	for _, i := range g {
		q := r.Items[i].Q
		if q.Fraction {
			fractions++
		}
		if q.Unit != nil && q.Kind == measure.KindLength {
			units++
		}
	}
	inch, _ := measure.UnitNamed("in")
	between := false
	for _, i := range g {
		q := r.Items[i].Q
		if !q.Bare() {
			between = true
			continue
		}
		switch {
		case (units == 1 || between && !q.Fraction) && last.Unit != nil && last.Kind == measure.KindLength && r.fits(g, last.Unit):
			q.Unit, q.Kind = last.Unit, measure.KindLength
		case fractions > 0 && (units == 0 || q.Fraction) && (q.Fraction || q.Value.Cmp(big.NewRat(200, 1)) < 0):
			q.Unit, q.Kind, q.Fraction = inch, measure.KindLength, false
		}
	}
}

// fits says whether every bare number of the size is plausible in the unit.
func (r *Reading) fits(g group, u *measure.Unit) bool {
	for k, i := range g {
		if q := r.Items[i].Q; q.Bare() && k < len(r.Form.Sizes) {
			if n := r.Form.need(r.Form.Sizes[k]); n != nil && !n.plausible(u.Base(q.Value)) {
				return false
			}
		}
	}
	return true
}

func (n *Need) plausible(base *big.Rat) bool {
	if n.Min == 0 && n.Max == 0 {
		return true
	}
	v, _ := base.Float64()
	return v >= n.Min*(1-1e-9) && v <= n.Max*(1+1e-9)
}

// byOrder gives the free numbers of a size to the open needs in the form's order. A size
// that grows from number to number was said the other way round: thickness, width, length.
func (r *Reading) byOrder(g group) {
	if names := r.sizeOrder(g); names != nil {
		for k, i := range g {
			if n := r.Form.need(names[k]); n != nil && r.open(n) && r.Free(i) && n.accepts(r.Items[i].Q) {
				r.Set(n.Name, i)
			}
		}
		return
	}
	next := 0
	if len(r.Form.Sizes) == 3 && len(g) == 3 && r.grows(g) {
		slices.Reverse(g)
	}
	if r.section(g) {
		next = 1
	}
	if r.twiceSaid(g[0]) {
		g = g[1:]
		next = 1
	}
	for _, i := range g {
		if !r.Free(i) {
			continue
		}
		for next < len(r.Form.Sizes) {
			n := r.Form.need(r.Form.Sizes[next])
			next++
			if r.open(n) && n.accepts(r.Items[i].Q) {
				r.Set(n.Name, i)
				break
			}
		}
	}
}

// nearlyAgain bounds the ratio at which the first number of a size is a second figure for
// what a role has said already: 600 by 45, 700 long.
const nearlyAgain = 1.34

// twiceSaid notes a contradiction between the first number of a size and the first need, when
// a role met that with about as much.
func (r *Reading) twiceSaid(item int) bool {
	n := r.Form.need(r.Form.Sizes[0])
	old := r.Request.Slots[n.Name]
	if r.open(n) || old.Num == nil || old.Num.Sign() <= 0 || !r.Free(item) || !r.saidHere(old) {
		return false
	}
	now := r.slot(n, *r.Items[item].Q)
	if now.Num == nil || now.Num.Sign() <= 0 {
		return false
	}
	ratio := ratFloat(new(big.Rat).Quo(now.Num, old.Num))
	if ratio > nearlyAgain || ratio < 1/nearlyAgain {
		return false
	}
	r.contradiction(role{need: n, item: item})
	r.Claim(item)
	return true
}

// saidHere says whether the number of a slot was said in the stretch that is looked at: another
// sentence may speak of another board.
func (r *Reading) saidHere(s Slot) bool {
	return slices.ContainsFunc(r.Items[r.part.from:r.part.to], func(it Item) bool { return it.Q != nil && it.Q.Value == s.Said })
}

// muchLonger is how much longer than a section a number beside it must be to be its length.
const muchLonger = 3

// widestSection is how wide a section is believed to be, in mm: common practice, no source.
const widestSection = 350

// section says whether a size of two is a width and a thickness because the one other number
// of the message can only be the length: a 50 × 50 post 1800. That number is then the length.
func (r *Reading) section(g group) bool {
	n := r.Form.need(r.Form.Sizes[0])
	if len(r.Form.Sizes) != 3 || len(g) != 2 || !r.open(n) || !r.Free(g[0]) || !r.Free(g[1]) {
		return false
	}
	other := -1
	for i := range r.Items {
		if i == g[0] || i == g[1] || !r.Free(i) || !n.accepts(r.Items[i].Q) || r.Items[i].Q.High != nil || r.counts(i) {
			continue
		}
		if other >= 0 {
			return false
		}
		other = i
	}
	if other < 0 {
		return false
	}
	long := r.slot(n, *r.Items[other].Q)
	for _, i := range g {
		side := r.slot(n, *r.Items[i].Q)
		if long.Num == nil || side.Num == nil || side.Num.Sign() <= 0 || ratFloat(side.Num) > widestSection || long.Num.Cmp(new(big.Rat).Mul(side.Num, big.NewRat(muchLonger, 1))) < 0 {
			return false
		}
	}
	if !n.plausible(long.Num) {
		return false
	}
	r.Set(n.Name, other)
	return true
}

func (r *Reading) grows(g group) bool {
	for k := 1; k < len(g); k++ {
		a, b := r.slot(&Need{Kind: measure.KindLength}, *r.Items[g[k-1]].Q), r.slot(&Need{Kind: measure.KindLength}, *r.Items[g[k]].Q)
		if a.Num == nil || b.Num == nil || a.Num.Cmp(b.Num) >= 0 {
			return false
		}
	}
	return true
}

// fillItems reads each of several sizes as an item of its own.
func (r *Reading) fillItems(gs []group) {
	from := 0
	for k, g := range gs {
		to := len(r.Items)
		if k+1 < len(gs) {
			to = r.itemEnd(g[len(g)-1]+1, gs[k+1][0])
		}
		part := newReading(Sentence{Text: r.Text, Items: r.Items[from:to]}, r.Form, r.System)
		part.stated = r.stated
		copy(part.claimed, r.claimed[from:to])
		part.fillWords()
		for j := range g {
			g[j] -= from
		}
		part.byOrder(g)
		part.fillCounts()
		r.Request.Items = append(r.Request.Items, part.Request)
		for i := from; i < to; i++ {
			r.claimed[i] = r.claimed[i] || part.claimed[i-from]
		}
		from = to
	}
	r.told = true
}

// itemEnd is where the next item starts: behind the last comma or "and" before its size.
func (r *Reading) itemEnd(from, to int) int {
	for i := from; i < to; i++ {
		if w := r.word(i); w == "and" || w == "," || w == "plus" || w == ";" || w == "&" {
			return i
		}
	}
	return from
}
