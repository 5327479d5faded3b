package speech

import (
	"strings"

	"fettle/calc/measure"
)

// A pattern is a row of elements that a sentence may hold:
//
//	word|other   one of these words, in any inflection
//	word?        may be missing
//	=word|other  exactly these words, no inflections; word|=other only the second
//	..           up to eight items of the same clause
//	#            a quantity, or a size of several: 600 × 45 × 22
//	#price       a quantity of that kind; #size one of several numbers only
//	^ $          the start and the end of the sentence
type pattern struct {
	source string
	elems  []elem
	marked int  // index of the first #, or -1
	tight  bool // gaps do not pass over quantities
}

type elem struct {
	kind     elemKind
	words    []alternative
	of       measure.Kind // of a quantity: the kind it must be of
	optional bool
}

type alternative struct {
	text  string
	stem  string
	exact bool
}

type elemKind int

const (
	anyWord elemKind = iota
	gap
	number1
	atStart
	atEnd
)

const longestGap = 8

// sizeOnly marks #size.
const sizeOnly measure.Kind = "size"

// compile reads a pattern. Patterns are the program's own, so a bad one is a programmer's
// mistake and shows in the first test.
func compile(source string) *pattern {
	p := &pattern{source: source, marked: -1}
	for _, f := range strings.Fields(source) {
		e := elem{}
		switch {
		case f == "..":
			e.kind = gap
		case f[0] == '#' && (len(f) == 1 || len(f) > 3):
			e.kind, e.of = number1, measure.Kind(f[1:])
			if p.marked < 0 {
				p.marked = len(p.elems)
			}
		case f == "^":
			e.kind = atStart
		case f == "$":
			e.kind = atEnd
		default:
			words, exact := strings.CutPrefix(f, "=")
			e.optional = len(words) > 1 && strings.HasSuffix(words, "?")
			if e.optional {
				words = strings.TrimSuffix(words, "?")
			}
			for _, w := range strings.Split(words, "|") {
				one := len(w) > 1 && w[0] == '='
				if one {
					w = w[1:]
				}
				e.words = append(e.words, alternative{text: w, stem: stem(w), exact: exact || one})
			}
		}
		p.elems = append(p.elems, e)
	}
	return p
}

// words counts the elements that must match a word, as a measure of how much a pattern says.
func (p *pattern) weight() int {
	n := 0
	for _, e := range p.elems {
		if e.kind == anyWord && !e.optional || e.kind == number1 || e.kind == atStart || e.kind == atEnd {
			n++
		}
	}
	return n
}

// match tries the pattern at item i. It gives the item after the match and the item that
// the first # met.
func (p *pattern) match(s *Sentence, i int) (end, marked int, ok bool) {
	return p.elemsAt(p.elems, s, i, -1)
}

func (p *pattern) elemsAt(es []elem, s *Sentence, i, marked int) (int, int, bool) {
	if len(es) == 0 {
		return i, marked, true
	}
	e, rest := &es[0], es[1:]
	switch e.kind {
	case atStart:
		if i != s.first() {
			return 0, 0, false
		}
		return p.elemsAt(rest, s, i, marked)
	case atEnd:
		for i < len(s.Items) && endSign(s.Items[i].Text) {
			i++
		}
		if i != len(s.Items) {
			return 0, 0, false
		}
		return p.elemsAt(rest, s, i, marked)
	case gap:
		for n := 0; n <= longestGap && i+n <= len(s.Items); n++ {
			if n > 0 && (clauseEnd(s.Items[i+n-1].Text) || p.tight && s.Items[i+n-1].Q != nil) {
				break
			}
			if end, m, ok := p.elemsAt(rest, s, i+n, marked); ok {
				return end, m, true
			}
		}
		return 0, 0, false
	case number1:
		return p.numberAt(e, rest, s, i, marked)
	}
	if i < len(s.Items) && e.meets(&s.Items[i]) {
		if end, m, ok := p.elemsAt(rest, s, i+1, marked); ok {
			return end, m, true
		}
	}
	if e.optional {
		return p.elemsAt(rest, s, i, marked)
	}
	return 0, 0, false
}

// numberAt meets a quantity, and tries the whole size that it opens as well.
func (p *pattern) numberAt(e *elem, rest []elem, s *Sentence, i, marked int) (int, int, bool) {
	if i >= len(s.Items) || s.Items[i].Q == nil || e.of != "" && e.of != sizeOnly && s.Items[i].Q.Kind != e.of {
		return 0, 0, false
	}
	if marked < 0 {
		marked = i
	}
	if e.of != sizeOnly {
		if end, m, ok := p.elemsAt(rest, s, i+1, marked); ok {
			return end, m, true
		}
	}
	j := i
	for j+2 < len(s.Items) && s.Items[j+1].Text == "×" && s.Items[j+2].Q != nil {
		j += 2
	}
	if j == i {
		return 0, 0, false
	}
	return p.elemsAt(rest, s, j+1, marked)
}

func (e *elem) meets(it *Item) bool {
	if it.Q != nil {
		return false
	}
	for k := range e.words {
		w := &e.words[k]
		if it.Text == w.text || !w.exact && it.Stem == w.stem {
			return true
		}
	}
	return false
}

func clauseEnd(w string) bool { return w == "." || w == "?" || w == "!" || w == ";" }
func endSign(w string) bool   { return clauseEnd(w) || w == "," || w == ":" || w == ")" }

// first is the index of the first item that is a word or a quantity of weight: greetings and
// fillers before it do not count.
func (s *Sentence) first() int {
	i := 0
	for i < len(s.Items) && s.Items[i].Q == nil && (isFiller(s.Items[i].Text) || endSign(s.Items[i].Text)) {
		i++
	}
	return i
}

var fillers = wordSet("please pls plz hi hello hey hiya morning evening ok okay so well um uh er right now then oi and but also hmm oh hallo dear fettle")

func isFiller(w string) bool { _, ok := fillers[w]; return ok }

// find gives the first place where the pattern stands in the sentence.
func (p *pattern) find(s *Sentence) (start, end, marked int, ok bool) {
	for i := 0; i <= len(s.Items); i++ {
		if end, m, ok := p.match(s, i); ok {
			return i, end, m, true
		}
	}
	return 0, 0, 0, false
}

// stands says whether the pattern stands anywhere in the sentence.
func (p *pattern) stands(s *Sentence) bool {
	_, _, _, ok := p.find(s)
	return ok
}
