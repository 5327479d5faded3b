package speech

import (
	"math/big"
	"strings"
)

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
	if theFew(r, i) {
		return true
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
	return r.pluralAhead(i+1) || r.sizeAhead(i)
}

// mostNamed is up to which number "the 4 battens" says how many there are.
const mostNamed = 20

// theFew says whether the number at i counts things that are known, before their noun: the 4 battens.
func theFew(r *Reading, i int) bool {
	w := r.word(i - 1)
	_, timber := boardNouns[r.word(i+1)]
	return (w == "the" || w == "these" || w == "those" || w == "our" || w == "my") && plural(r.word(i+1)) && (!timber || r.Items[i].Q.Value.Cmp(big.NewRat(10, 1)) <= 0) && r.Items[i].Q.Value.Cmp(big.NewRat(mostNamed, 1)) <= 0
}

// sizeAhead says whether the number stands before a thing whose size follows: 2 oak 2400 × 180 × 32,
// 12 joints 1150 long.
func (r *Reading) sizeAhead(i int) bool {
	if r.Items[i].Q.Value.Cmp(big.NewRat(200, 1)) > 0 {
		return false
	}
	for k := i + 1; k < i+4 && k < len(r.Items); k++ {
		it := r.Items[k]
		if it.Text == "," && k > i+1 && r.chainAt(k+1) {
			return true // 16 larch, 3600 × 150 × 38
		}
		if it.Q != nil {
			return k > i+1 && (r.word(k+1) == "×" || isRoleWord(r.word(k+1)) && !r.claimed[k-1] && !r.inRole(r.Items[k-1].Stem))
		}
		if !letters(it.Text) || isRoleWord(it.Text) || stopsNoun(it.Text) {
			return false
		}
	}
	return false
}

// tells says whether the bare number at i belongs to a noun in the plural right behind it that no
// board is called by, so that it is no size: five years old, 3 windows to do.
func (r *Reading) tells(i int) bool {
	_, timber := boardNouns[r.word(i+1)]
	return r.counts(i) && !timber && (plural(r.word(i+1)) || r.word(i+1) == "of")
}

// boardNouns are what is called by its size as often as it is counted: 22 boards, oak.
var boardNouns = wordSet("boards planks slats battens posts beams panels plies edges faces joints strips sticks")

// chainAt says whether a size of several numbers starts at item i.
func (r *Reading) chainAt(i int) bool {
	return i < len(r.Items) && r.Items[i].Q != nil && r.word(i+1) == "×"
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
