package speech

import (
	"sort"

	"fettle/calc/measure"
)

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
			p := *compileOnce(source)
			p.tight = true
			found = r.roles(found, n, &p)
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
	words, now := map[int]bool{}, map[*Need]bool{}
	for _, f := range found {
		if !r.Free(f.item) || words[f.place] && f.place >= 0 {
			continue
		}
		if !r.open(f.need) {
			if now[f.need] { // a sentence further off speaks of something else
				r.contradiction(f)
			}
			continue
		}
		r.Set(f.need.Name, f.item)
		now[f.need] = true
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

func (r *Reading) roles(found []role, n *Need, p *pattern) []role {
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
	r.orThis(f.need, f.item)
}

// twice marks the second of two numbers for one need.
const twice = "twice:"

var roleWords = wordSet("long wide thick deep high tall across length width thickness depth height broad")

func isRoleWord(w string) bool { _, ok := roleWords[w]; return ok }
