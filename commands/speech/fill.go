package speech

import (
	"math/big"
	"slices"
	"sort"
	"strings"
	"sync"

	"fettle/calc/measure"
)

var compiled sync.Map // source → pattern

func compileOnce(source string) pattern {
	if p, ok := compiled.Load(source); ok {
		return p.(pattern)
	}
	p := compile(source)
	compiled.Store(source, p)
	return p
}

// fill meets the form's needs from the sentence: what the topic reads itself, words of
// vocabularies, numbers with a role, sizes of several numbers, counts, numbers whose unit
// says what they are, and what is left by order.
func (r *Reading) fill() {
	if r.Form.Before != nil {
		r.Form.Before(r)
	}
	r.fillWords()
	r.fillRoles()
	r.fillGroups()
	r.fillCounts()
	r.fillKinds()
	r.fillLoose()
}

func (r *Reading) open(n *Need) bool { return !n.Own && !r.Request.Has(n.Name) }

// fillWords looks for words of the needs' vocabularies.
func (r *Reading) fillWords() {
	for i := range r.Form.Needs {
		n := &r.Form.Needs[i]
		if n.Vocab == nil || !r.open(n) {
			continue
		}
		if w, at, used := n.Vocab.findBest(r.Sentence); used > 0 {
			r.Request.Slots[n.Name] = Slot{Word: w}
			r.told, r.spoke = true, true
			for k := at; k < at+used; k++ {
				r.Claim(k)
			}
		}
	}
}

// findBest finds the longest phrase of the vocabulary in the sentence, the first of equals;
// where none stands exactly, a misspelt one.
func (v *Vocabulary) findBest(s Sentence) (word string, at, used int) {
	for i := range s.Items {
		if w, n := v.At(s, i); n > used {
			word, at, used = w, i, n
		}
	}
	if used == 0 {
		return v.findMisspelt(s)
	}
	return word, at, used
}

// role is one way in which a number of the sentence could fill a need.
type role struct {
	need   *Need
	item   int
	place  int // of the role's word
	after  bool
	weight int
}

// fillRoles gives numbers the roles that words beside them say: 70 wide, length 600. The more
// a pattern says, the sooner it is heard; among equals the sentence is read from the left.
func (r *Reading) fillRoles() {
	var found []role
	for i := range r.Form.Needs {
		n := &r.Form.Needs[i]
		if n.Own {
			continue
		}
		for _, source := range n.Roles {
			p := compileOnce(source)
			p.tight = true
			found = r.roles(found, n, p)
		}
	}
	sort.SliceStable(found, func(a, b int) bool {
		x, y := found[a], found[b]
		if x.weight != y.weight {
			return x.weight > y.weight
		}
		if x.place != y.place {
			return x.place < y.place
		}
		return !x.after && y.after
	})
	r.fillQuarters()
	words := map[int]bool{}
	for _, f := range found {
		if !r.Free(f.item) || words[f.place] && f.place >= 0 {
			continue
		}
		if !r.open(f.need) {
			r.contradiction(f)
			continue
		}
		r.Set(f.need.Name, f.item)
		r.spoke = true
		words[f.place] = true
	}
}

// fillQuarters takes the trade's quarters of an inch for a sawn thickness: 5/4, 8/4.
func (r *Reading) fillQuarters() {
	n := r.Form.need("thickness_mm")
	if n == nil || !r.open(n) {
		return
	}
	for i := range r.Items {
		if r.Free(i) && r.Items[i].Q.Quarters {
			r.Set(n.Name, i)
			return
		}
	}
}

func (r *Reading) roles(found []role, n *Need, p pattern) []role {
	for i := range r.Items {
		end, m, ok := p.match(&r.Sentence, i)
		if !ok || m < 0 || !n.accepts(r.Items[m].Q) || n.Kind == measure.KindLength && r.counts(m) && !r.sized(m) {
			continue
		}
		f := role{need: n, item: m, weight: p.weight(), after: m > i, place: i}
		if m == i {
			f.place = end - 1
		}
		found = append(found, f)
	}
	return found
}

// contradiction notes that a need was given two numbers that differ.
func (r *Reading) contradiction(f role) {
	q := r.Items[f.item].Q
	if q.High != nil || f.need.Kind != measure.KindLength {
		return
	}
	old := r.Request.Slots[f.need.Name]
	if now := r.slot(f.need, *q); old.Num != nil && now.Num != nil && old.Num.Cmp(now.Num) != 0 {
		r.Request.Slots[twice+f.need.Name] = now
		r.Claim(f.item)
	}
}

// twice marks the second of two numbers for one need.
const twice = "twice:"

// group is a size of several numbers: the items of 600 × 45 × 22.
type group []int

// groups finds the sizes of the sentence.
func (r *Reading) groups() []group {
	var out []group
	for i := 0; i < len(r.Items); i++ {
		if r.Items[i].Q == nil {
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

var roleWords = wordSet("long wide thick deep high tall across length width thickness depth height broad")

func isRoleWord(w string) bool { _, ok := roleWords[w]; return ok }

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
	for _, i := range g {
		q := r.Items[i].Q
		if !q.Bare() {
			continue
		}
		switch {
		case units == 1 && last.Unit != nil && last.Kind == measure.KindLength && r.fits(g, last.Unit):
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
	next := 0
	if len(r.Form.Sizes) == 3 && len(g) == 3 && r.grows(g) {
		slices.Reverse(g)
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
	if r.open(n) || old.Num == nil || old.Num.Sign() <= 0 || !r.Free(item) {
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

// fillCounts looks for how many.
func (r *Reading) fillCounts() {
	n := r.Form.need("quantity")
	if n == nil || !r.open(n) {
		return
	}
	for i := range r.Items {
		if r.Free(i) && r.Items[i].Q.Kind == KindCount {
			r.Set(n.Name, i)
			return
		}
	}
	single := -1 // "1 table top" counts too, where nothing else does
	for i := range r.Items {
		if !r.Free(i) || !r.counts(i) {
			continue
		}
		if r.Items[i].Q.Value.Cmp(big.NewRat(1, 1)) != 0 {
			r.Set(n.Name, i)
			return
		}
		single = i
	}
	if single >= 0 {
		r.Set(n.Name, single)
	}
}

// counts says whether the bare number at i says how many: 6 rack slats, 12 of 1000 × 50, but
// not "a 610 shelf".
func (r *Reading) counts(i int) bool {
	q := r.Items[i].Q
	if !q.Bare() || !q.Integer || q.High != nil {
		return false
	}
	if w := r.word(i - 1); article(w) || w == "×" || w == "at" && r.word(i+1) != "of" {
		return false
	}
	next := r.word(i + 1)
	if next == "of" || (next == "at" || next == "@" || next == ":") && i+2 < len(r.Items) && r.Items[i+2].Q != nil {
		return q.Value.Cmp(big.NewRat(1000, 1)) <= 0
	}
	if mark := r.word(i + 2); (mark == "at" || mark == "of" || mark == "@" || mark == ":") && next != "" && r.word(i+4) == "×" && r.Items[i+3].Q != nil {
		return q.Value.Cmp(big.NewRat(200, 1)) <= 0 // 6 oak at 1000 × 50
	}
	if one := q.Value.Cmp(big.NewRat(1, 1)) == 0; one && next != "" && letters(next) && !isRoleWord(next) && !stopsNoun(next) {
		return true
	}
	return r.pluralAhead(i + 1)
}

func article(w string) bool {
	switch w {
	case "a", "an", "the", "this", "that", "my", "our", "its":
		return true
	}
	return false
}

// pluralAhead looks for the noun that a number counts, over at most three words before it.
func (r *Reading) pluralAhead(i int) bool {
	for k := i; k < i+4 && k < len(r.Items); k++ {
		it := r.Items[k]
		if it.Q != nil || it.Text == "" || isRoleWord(it.Text) || stopsNoun(it.Text) {
			return false
		}
		if plural(it.Text) {
			return true
		}
	}
	return false
}

var nounStops = wordSet("of in at for from to on into with and or by × , . ? ! : ; ( ) - / is are was were be been the a an i we you it they them do does did can will would need needs needed have has had per each both if so how what which long wide thick between along over across apart")

func stopsNoun(w string) bool { _, ok := nounStops[w]; return ok }

var notPlural = wordSet("is was has its this us yes does goes less plus across thus always degrees sides radius axis")

func plural(w string) bool {
	if _, ok := notPlural[w]; ok {
		return false
	}
	return len(w) > 2 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") && !strings.HasSuffix(w, "'s")
}

// fillKinds meets needs whose kind a number's unit says: a temperature, a percentage.
func (r *Reading) fillKinds() {
	for k := range r.Form.Needs {
		n := &r.Form.Needs[k]
		if !r.open(n) || n.Kind == measure.KindLength || n.Kind == KindCount || n.Kind == KindWord || n.Kind == measure.KindNumber {
			continue
		}
		for i := range r.Items {
			if r.Free(i) && n.exactly(r.Items[i].Q) {
				r.Set(n.Name, i)
				break
			}
		}
	}
}

// fillLoose gives numbers that nothing spoke for to the sizes that are still open, in order.
// Beside a size of several numbers a bare one is left alone: it may be anything.
func (r *Reading) fillLoose() {
	sized := len(r.groups()) > 0
	for _, name := range r.Form.Sizes {
		n := r.Form.need(name)
		if !r.open(n) {
			continue
		}
		for i := range r.Items {
			if r.Free(i) && r.loose(n, i) && !(sized && r.Items[i].Q.Bare()) {
				r.Set(name, i)
				r.guessed = append(r.guessed, name)
				break
			}
		}
	}
}

func (r *Reading) loose(n *Need, i int) bool {
	q := r.Items[i].Q
	if !n.accepts(q) || q.Kind == measure.KindLength && q.Unit == nil || len(q.Per) > 0 {
		return false
	}
	return q.High == nil
}
