package commands

import (
	"cmp"
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"

	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

// mendSaid is what a short message says of parts that were added together: "no, 1702", "the second
// one is 1702", "sorry, the rail 612 not 640".
type mendSaid struct {
	marked bool             // it says that something was wrong: no, sorry
	place  int              // which of them, from 1; -1 the last, 0 not said
	all    bool             // both, all
	names  []refWord        // words of their names
	sizes  []mendSize       // what it is to be
	was    *speech.Quantity // what it is not
	wood   string
}

// mendSize is one figure, with what it is of if that is said.
type mendSize struct {
	q    speech.Quantity
	need string
}

var (
	mendMarks  = set("no nope nah sorry oops whoops actually wait correction meant mean")
	mendSmall  = set("the a an i it it's its that that's one ones one's is are was be been should must to of for and but make made it's now only then please pls have has need needs mm part piece item by not instead at in with off them those these they say said")
	mendPlaces = map[string]int{"first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "last": -1}
	mendDims   = map[string]string{"long": "length_mm", "length": "length_mm", "wide": "width_mm", "width": "width_mm", "broad": "width_mm", "thick": "thickness_mm", "thickness": "thickness_mm", "deep": "thickness_mm"}
	mendCounts = set("off pcs pieces pc")
)

// mendIn reads such a message; ok is false where it holds anything else.
func mendIn(text string, named func(refWord) bool) (m mendSaid, ok bool) {
	s := speech.Read(text)
	dim := "" // said before its figure
	for i := 0; i < len(s.Items); i++ {
		it := s.Items[i]
		switch q := it.Q; {
		case q != nil && q.Kind == speech.KindOrdinal && atMost(q.Value, mostOff):
			m.place = int(q.Value.Num().Int64())
		case q != nil && q.Value != nil && q.High == nil && (q.Bare() || q.Kind == measure.KindLength || q.Kind == speech.KindCount):
			if i > 0 && mendPlaces[s.Items[i-1].Text] != 0 && q.Value.Cmp(big.NewRat(1, 1)) == 0 { // the second one
				continue
			}
			m.figure(s, i, dim, named)
			dim = ""
		case q != nil:
			return m, false
		case it.Text == "×" || !wordy(it.Text):
		case mendPlaces[it.Text] != 0:
			m.place = mendPlaces[it.Text]
		case mendDims[it.Text] != "":
			dim = mendDims[it.Text]
			if n := len(m.sizes); n > 0 && i > 0 && s.Items[i-1].Q != nil { // 612 long
				m.sizes[n-1].need, dim = dim, ""
			}
		case mendMarks[it.Text]:
			m.marked = true
		case it.Text == "both" || it.Text == "all" || it.Text == "each":
			m.all = true
		case named(refWord{text: it.Text, stem: speech.Stem(it.Text)}):
			m.names = append(m.names, refWord{text: it.Text, stem: speech.Stem(it.Text)})
		case mendSmall[it.Text] || mendCounts[it.Text]:
		default:
			w, n := speciesWords.At(s, i)
			if n == 0 {
				return m, false
			}
			m.wood = w
			i += n - 1
		}
	}
	return m, (m.marked || m.place != 0) && (len(m.sizes) > 0 || m.wood != "")
}

// figure takes a number of the message: what it is to be, what it was, or how many.
func (m *mendSaid) figure(s speech.Sentence, i int, dim string, named func(refWord) bool) {
	word := func(k int) string {
		if k < 0 || k >= len(s.Items) {
			return ""
		}
		return s.Items[k].Text
	}
	q := *s.Items[i].Q
	next := word(i + 1)
	size := mendSize{q: q, need: dim}
	switch {
	case word(i-1) == "not" || word(i-1) == "from" || word(i-2) == "instead" && word(i-1) == "of",
		word(i-1) == "the" && named(refWord{text: next, stem: speech.Stem(next)}): // the 1720 stile
		m.was = &q
		return
	case q.Kind == speech.KindCount, mendCounts[next], next == "of" && word(i+2) == "them",
		q.Integer && q.Bare() && next != "" && named(refWord{text: next, stem: speech.Stem(next)}) && manyWord(next):
		size.need = "quantity"
	}
	m.sizes = append(m.sizes, size)
	if word(i+1) != "×" && len(m.sizes) > 1 && word(i-1) == "×" { // 612 × 95
		for k, d := range dimensions[:min(len(m.sizes), len(dimensions))] {
			m.sizes[k].need = d.name + "_mm"
		}
	}
}

// mendsParts hears a message that corrects one of several parts that were just added together. It
// gives a request that changes the part that is meant, or asks which.
func (h *Heard) mendsParts(last *store.Entry, ctx speech.Context) (u speech.Understanding, ok bool, err error) {
	if ctx.Open != nil {
		return u, false, nil
	}
	var added []book.Named[book.Part]
	named := func(w refWord) bool {
		return slices.ContainsFunc(added, func(p book.Named[book.Part]) bool { return slices.Contains(stemsOf(p.Name), w.stem) })
	}
	if last != nil && last.Topic == "part" && h.turn.Now.Sub(last.At) <= QuestionLife {
		if added, err = h.addedBy(last.ID); err != nil {
			return u, false, err
		}
	}
	m, ok := mendIn(h.turn.Text, named)
	if len(added) < 2 && saysPlace(h.turn.Text) { // the second one: of what somebody added a while ago
		if added, err = h.addedLately(); err != nil {
			return u, false, err
		}
		m, ok = mendIn(h.turn.Text, named)
		ok = ok && m.place != 0
	}
	if !ok || len(added) < 2 {
		return u, false, nil
	}
	r := m.request(added, ctx.System)
	return speech.Understanding{Manner: speech.FollowUp, Request: r, Sure: r.Open == nil}, true, nil
}

// saysPlace says whether a message counts things: the second one, the last.
func saysPlace(text string) bool {
	return slices.ContainsFunc(speech.Read(text).Items, func(it speech.Item) bool {
		return mendPlaces[it.Text] != 0 || it.Q != nil && it.Q.Kind == speech.KindOrdinal
	})
}

// addedLately lists the parts that were added together last at the place.
func (h *Heard) addedLately() ([]book.Named[book.Part], error) {
	before := h.turn.Before
	for range mendBack {
		e, ok, err := h.turn.Tx.LastRequestOfAnyone(h.turn.Place, before)
		if err != nil || !ok || h.turn.Now.Sub(e.At) > QuestionLife || countsOthers[e.Topic] {
			return nil, err
		}
		if added, err := h.addedBy(e.ID); err != nil || len(added) > 1 {
			return added, err
		}
		before = e.ID
	}
	return nil, nil
}

// countsOthers are the topics after which the second one is no part that was added before.
var countsOthers = set("board stock measure joinery plan run-sheet glue-up timers note")

// mendBack is how many messages may lie between what was added and what is said of it.
const mendBack = 12

// addedBy lists the parts that an entry added, in the order of its words, as they stand now.
func (h *Heard) addedBy(entry int64) (out []book.Named[book.Part], err error) {
	cs, err := h.turn.Tx.ChangesBy(entry)
	if err != nil {
		return nil, err
	}
	for _, c := range cs {
		if c.What != book.WhatPart || c.Op != store.Added || c.Undone || c.Undoes != 0 || c.Project != h.Project.ID {
			continue
		}
		p, there, err := book.One[book.Part](h.turn.Tx, c.Project, book.WhatPart, c.Name)
		if err != nil {
			return nil, err
		}
		if there {
			out = append(out, p)
		}
	}
	return out, nil
}

// mendChoice is a part and the need of it that a figure may be meant for.
type mendChoice struct {
	part book.Named[book.Part]
	need string
	off  float64 // the ratio between the figure and what stands there, at least 1
}

// request makes the change, or the question which part is meant.
func (m mendSaid) request(added []book.Named[book.Part], system measure.System) speech.Request {
	if m.place > len(added) {
		return m.which(fmt.Sprintf("There are only %d of them. Which do you mean?", len(added)), system, added, nil)
	}
	parts := m.meant(added)
	if len(m.sizes) == 1 && m.wood == "" {
		return m.oneFigure(parts, system)
	}
	if len(parts) == 1 || m.all {
		return m.change(system, parts, nil)
	}
	return m.which("Which of them do you mean?", system, parts, nil)
}

// meant are the parts that the message can be about.
func (m mendSaid) meant(added []book.Named[book.Part]) []book.Named[book.Part] {
	switch {
	case m.place == -1:
		return added[len(added)-1:]
	case m.place > 0 && m.place <= len(added) && len(m.names) == 0:
		return added[m.place-1 : m.place]
	}
	named := slices.DeleteFunc(slices.Clone(added), func(p book.Named[book.Part]) bool {
		return slices.ContainsFunc(m.names, func(w refWord) bool { return !slices.Contains(stemsOf(p.Name), w.stem) })
	})
	switch {
	case m.place > 0 && m.place <= len(named):
		return named[m.place-1 : m.place]
	case len(named) == 0:
		return added
	}
	return named
}

// oneFigure finds what a single figure is to be: the size that lies clearly nearest to it, else it
// is asked.
func (m mendSaid) oneFigure(parts []book.Named[book.Part], system measure.System) speech.Request {
	var fit []mendChoice
	for _, p := range parts {
		fit = append(fit, m.choicesOf(p, system)...)
	}
	slices.SortStableFunc(fit, func(a, b mendChoice) int { return cmp.Compare(a.off, b.off) })
	if len(fit) > 0 {
		best := fit[0].off
		fit = slices.DeleteFunc(fit, func(c mendChoice) bool { return c.off > farOff || c.off > best*clearly })
		if other := slices.DeleteFunc(slices.Clone(fit), func(c mendChoice) bool { return c.off == 1 && m.was == nil }); len(other) > 0 {
			fit = other // what it is already needs no correction
		}
	}
	switch {
	case len(fit) == 0:
		return m.which("Which of them do you mean, and which size of it?", system, parts, nil)
	case len(fit) == 1:
		return m.change(system, []book.Named[book.Part]{fit[0].part}, []string{fit[0].need})
	case (m.all || m.many()) && !slices.ContainsFunc(fit, func(c mendChoice) bool { return c.need != fit[0].need }) && len(fit) == len(parts):
		return m.change(system, parts, []string{fit[0].need})
	}
	var meant []book.Named[book.Part]
	var needs []string
	for _, c := range fit {
		meant, needs = append(meant, c.part), append(needs, c.need)
	}
	return m.which("Which of them do you mean?", system, meant, needs)
}

// farOff is the ratio beyond which a figure corrects nothing that is there.
const farOff = 3

// many says whether the names stand in the plural.
func (m mendSaid) many() bool {
	return slices.ContainsFunc(m.names, func(w refWord) bool { return manyWord(w.text) })
}

// choicesOf lists what of a part the figure can be meant for.
func (m mendSaid) choicesOf(p book.Named[book.Part], system measure.System) (out []mendChoice) {
	size := m.sizes[0]
	for _, n := range []struct {
		need string
		was  float64
	}{{"quantity", float64(p.Is.Quantity)}, {"length_mm", p.Is.Length.MM()}, {"width_mm", p.Is.Width.MM()}, {"thickness_mm", p.Is.Thickness.MM()}} {
		count := n.need == "quantity"
		now := slotSaid(size.q, system, count).Float()
		switch {
		case size.need != "" && size.need != n.need, count && (!size.q.Integer || size.q.Unit != nil), now <= 0 || n.was <= 0:
		case m.was != nil && math.Abs(slotSaid(*m.was, system, count).Float()-n.was) > 0.05:
		case m.was != nil:
			out = append(out, mendChoice{p, n.need, 1})
		default:
			out = append(out, mendChoice{p, n.need, max(now/n.was, n.was/now)})
		}
	}
	return out
}

// slotSaid reads a quantity as a size or a number of pieces.
func slotSaid(q speech.Quantity, system measure.System, count bool) speech.Slot {
	s := speech.Slot{Num: q.Value, Said: q.Value}
	switch {
	case count:
	case q.Unit != nil:
		s.Unit, s.Num = q.Unit.Symbol, q.Unit.Base(q.Value)
	default:
		s.Bare, s.Unit = true, string(system)
		if u, ok := measure.UnitNamed(s.Unit); ok {
			s.Num = u.Base(q.Value)
		}
	}
	return s
}

// change is the request that puts what was said into parts. needs says what the only figure is of.
func (m mendSaid) change(system measure.System, parts []book.Named[book.Part], needs []string) speech.Request {
	names := make([]string, len(parts))
	for i, p := range parts {
		names[i] = p.Name
	}
	r := speech.Request{Topic: "part", Slots: map[string]speech.Slot{"action": {Word: "change"}, "name": {Word: strings.Join(names, " and ")}}}
	for _, s := range m.sizes {
		need := s.need
		if need == "" && len(needs) > 0 {
			need = needs[0]
		}
		if need == "" {
			need = "size_mm"
		}
		r.Slots[need] = slotSaid(s.q, system, need == "quantity")
	}
	if m.wood != "" {
		r.Slots["species"] = speech.Slot{Word: m.wood}
	}
	return r
}

// which asks which of several parts is meant; needs, if given, says what of each.
func (m mendSaid) which(text string, system measure.System, parts []book.Named[book.Part], needs []string) speech.Request {
	var options []speech.Option
	for i, p := range parts[:min(len(parts), mostOffered)] {
		of, label := []string(nil), p.Name
		if needs != nil {
			of, label = needs[i:i+1], fmt.Sprintf("%s, %s (%s now)", p.Name, strings.TrimSuffix(needs[i], "_mm"), valueOf(p.Is, needs[i]))
		}
		option := speech.Option{Label: label, Request: m.change(system, []book.Named[book.Part]{p}, of)}
		if slices.Index(parts, p) == i {
			option.Words = []string{strings.ToLower(p.Name)}
		}
		options = append(options, option)
	}
	if len(parts) > 1 && len(parts) < mostOffered && (needs == nil || len(slices.Compact(slices.Clone(needs))) == 1) {
		all := "all of them"
		if len(parts) == 2 {
			all = "both"
		}
		options = append(options, speech.Option{Label: all, Words: []string{"both", "all", "all of them"}, Request: m.change(system, parts, needs)})
	}
	r := m.change(system, parts[:1], needs)
	delete(r.Slots, "name")
	r.Open = speech.Choice(text, options...)
	r.Open.Need = "name"
	return r
}

// valueOf prints what stands for a need of a part.
func valueOf(p book.Part, need string) string {
	switch need {
	case "quantity":
		return fmt.Sprint(p.Quantity)
	case "length_mm":
		return inMM(p.Length)
	case "width_mm":
		return inMM(p.Width)
	}
	return inMM(p.Thickness)
}
