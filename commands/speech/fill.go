package speech

import (
	"sync"

	"fettle/calc/measure"
)

var compiled sync.Map // source → *pattern

func compileOnce(source string) *pattern {
	if p, ok := compiled.Load(source); ok {
		return p.(*pattern)
	}
	p := compile(source)
	compiled.Store(source, p)
	return p
}

// fill meets the form's needs from the sentence: what the topic reads itself, words of
// vocabularies, numbers with a role, sizes of several numbers, counts, numbers whose unit
// says what they are, and what is left by order.
func (r *Reading) fill() {
	for _, g := range r.groups() { // what reads before the rules do sees the units too
		if len(g) <= len(r.Form.Sizes) {
			r.shareUnit(g)
		}
	}
	if r.Form.Before != nil {
		r.Form.Before(r)
	}
	r.fillWords()
	r.asides = r.parentheses()
	said := r.byWeight()
	for _, parts := range [][]bounds{said, r.asides} {
		for _, look := range []func(){r.fillRoles, r.fillGroups, r.fillCounts, r.fillKinds} {
			r.each(parts, look)
		}
	}
	r.each(append(said, r.asides...), r.fillLoose)
}

// each looks at every one of several stretches alone.
func (r *Reading) each(parts []bounds, look func()) {
	for _, b := range parts {
		r.within(b, look)
	}
}

// byWeight gives the sentences in the order in which they are heard: first the one that asks, then
// those before it, the nearest first, then those behind. What the question needs stands mostly
// in it or close by; a number further off is taken only for what is still open.
func (r *Reading) byWeight() []bounds {
	parts := r.sentences()
	if len(parts) < 2 || r.Form.Items || r.Form.Writes {
		return []bounds{{0, len(r.Items)}}
	}
	main := len(parts) - 1
	for i, b := range parts {
		if r.Items[b.to-1].Text == "?" {
			main = i
		}
	}
	out := []bounds{parts[main]}
	for i := main - 1; i >= 0; i-- {
		out = append(out, parts[i])
	}
	return append(out, parts[main+1:]...)
}

// parentheses finds what stands in brackets: it is heard after the rest.
func (r *Reading) parentheses() []bounds {
	var out []bounds
	open := -1
	for i := range r.Items {
		switch r.word(i) {
		case "(":
			open = i
		case ")":
			if open >= 0 && i > open+2 && !r.Form.Items && !r.Form.Writes {
				out = append(out, bounds{open, i + 1})
			}
			open = -1
		}
	}
	return out
}

// inBrackets says whether an item stands in brackets within a stretch that goes beyond them.
func (r *Reading) inBrackets(i int, b bounds) bool {
	for _, a := range r.asides {
		if i >= a.from && i < a.to && (b.from < a.from || b.to > a.to) {
			return true
		}
	}
	return false
}

// within has a stretch of the message looked at alone: the numbers outside it and those in brackets
// count as used.
func (r *Reading) within(b bounds, look func()) {
	whole := r.part
	r.part = b
	var hidden []int
	for i := range r.Items {
		if (i < b.from || i >= b.to || r.inBrackets(i, b)) && !r.claimed[i] {
			r.claimed[i] = true
			hidden = append(hidden, i)
		}
	}
	look()
	for _, i := range hidden {
		r.claimed[i] = false
	}
	r.part = whole
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

// fillKinds meets needs whose kind a number's unit says: a temperature, a percentage.
func (r *Reading) fillKinds() {
	for k := range r.Form.Needs {
		n := &r.Form.Needs[k]
		if !r.open(n) || n.Kind == measure.KindLength || n.Kind == KindCount || n.Kind == KindWord || n.Kind == measure.KindNumber {
			continue
		}
		byKind := false
		for i := range r.Items {
			switch {
			case !r.Free(i) || !n.exactly(r.Items[i].Q):
			case r.open(n):
				r.Set(n.Name, i)
				byKind = true
			case byKind && r.soleOfKind(n):
				r.orThis(n, i)
			}
		}
	}
}

// soleOfKind says whether no other need takes numbers of this one's kind.
func (r *Reading) soleOfKind(n *Need) bool {
	for k := range r.Form.Needs {
		if o := &r.Form.Needs[k]; o != n && o.Kind == n.Kind {
			return false
		}
	}
	return true
}

// orThis notes a second number of a kind of which one is needed, and nothing says which: inside
// 20 degrees, outside 12. The person is asked.
func (r *Reading) orThis(n *Need, item int) {
	was, now := r.Request.Slots[n.Name], r.slot(n, *r.Items[item].Q)
	if was.Num != nil && now.Num != nil && was.Num.Cmp(now.Num) != 0 {
		r.Request.Slots[twice+n.Name] = now
		r.Claim(item)
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
	return q.High == nil && !r.tells(i)
}
