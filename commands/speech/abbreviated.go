package speech

import (
	"math/big"

	"fettle/calc/measure"
)

// lettersAfter and lettersBefore are the roles that drawings and thumbs put in one letter: behind
// the number (68 w) and before it (W = 68, D1 1503).
var (
	lettersAfter  = map[string]string{"w": "wide", "l": "long", "h": "high", "t": "thick", "d": "deep"}
	lettersBefore = map[string]string{"w": "width", "l": "length", "h": "height", "t": "thickness", "r": "radius", "rh": "humidity", "d1": "diagonal", "d2": "diagonal", "temp": "temperature"}
)

// abbreviated spells out roles of one letter, where the letter can be nothing else.
func (s *Sentence) abbreviated() {
	s.litresMeantLong()
	for i := range s.Items {
		it := &s.Items[i]
		if it.Q != nil {
			continue
		}
		if role, ok := lettersAfter[it.Text]; ok && s.quantity(i-1) != nil && (it.glued || s.endsSize(i+1)) {
			it.Text, it.Stem = role, stem(role)
			continue
		}
		role, ok := lettersBefore[it.Text]
		if !ok || s.numberBehind(i+1) < 0 || !it.upper && len(it.Text) == 1 && s.word(i+1) != "=" && s.word(i+1) != ":" {
			continue
		}
		if it.Text == "t" && !s.labelled() {
			role = "temperature"
		}
		it.Text, it.Stem = role, stem(role)
	}
}

// endsSize says whether what stands at i can follow the role of a number: another number of the
// size, a sign, or the end.
func (s *Sentence) endsSize(i int) bool {
	if i >= len(s.Items) || s.Items[i].Q != nil {
		return true
	}
	switch s.word(i) {
	case "×", ",", ".", "?", "!", ";", ":", ")", "-", "/", "&", "and", "+":
		return true
	}
	return false
}

// numberBehind finds the number at i or behind one sign, or gives -1.
func (s *Sentence) numberBehind(i int) int {
	if w := s.word(i); w == "=" || w == ":" {
		i++
	}
	if s.quantity(i) != nil {
		return i
	}
	return -1
}

// labelled says whether lengths or widths are named by a letter, so that T is a thickness.
func (s *Sentence) labelled() bool {
	for i, it := range s.Items {
		if it.Q == nil && (it.Text == "l" || it.Text == "w" || it.Text == "length" || it.Text == "width") && s.numberBehind(i+1) >= 0 {
			return true
		}
	}
	return false
}

// longestLitres is from how many litres, or hours, a number beside other sizes is a length or a
// height: 1430 l, 1420 h.
const longestLitres = 50

func (s *Sentence) litresMeantLong() {
	sizes := 0
	for i, it := range s.Items {
		if _, ok := lettersAfter[it.Text]; it.Q == nil && (isRoleWord(it.Text) || ok) && s.quantity(i-1) != nil || it.Text == "×" {
			sizes++
		}
	}
	if sizes == 0 {
		return
	}
	for i := 0; i < len(s.Items); i++ {
		q := s.Items[i].Q
		if q == nil || q.Unit == nil || q.High != nil || q.Value == nil || len(q.Per) > 0 || q.Unit.Symbol != "l" && q.Unit.Symbol != "h" ||
			q.Value.Cmp(big.NewRat(longestLitres, 1)) < 0 {
			continue
		}
		letter := q.Unit.Symbol
		q.Unit, q.Kind = nil, measure.KindNumber
		role := Item{Text: letter, Start: s.Items[i].End - 1, End: s.Items[i].End, glued: true}
		s.Items[i].End--
		s.Items = append(s.Items[:i+1], append([]Item{role}, s.Items[i+1:]...)...)
	}
}

// sizeOrder gives the roles that a size is announced in: "L × T × W: 2440 × 38 × 140".
func (s *Sentence) sizeOrder(g group) []string {
	var names []string
	i := g[0] - 1
	if w := s.word(i); w == ":" || w == "=" || w == "," || w == ")" {
		i--
	}
	for ; i >= 0; i -= 2 {
		name, ok := dimensionNamed[s.word(i)]
		if !ok {
			break
		}
		names = append([]string{name}, names...)
		if s.word(i-1) != "×" {
			break
		}
	}
	if len(names) != len(g) || len(names) < 2 {
		return nil
	}
	return names
}

var dimensionNamed = map[string]string{"l": "length_mm", "length": "length_mm", "w": "width_mm", "width": "width_mm", "t": "thickness_mm", "thk": "thickness_mm",
	"thickness": "thickness_mm", "thick": "thickness_mm", "h": "height_mm", "height": "height_mm"}

// lists gives the unit of the last number of a list to the bare ones before it: 12, 18 and 35 mm.
func (s *Sentence) lists() {
	for i := range s.Items {
		q := s.Items[i].Q
		if q == nil || q.Unit == nil || q.Kind != measure.KindLength || q.High != nil || len(q.Per) > 0 {
			continue
		}
		if w := s.word(i - 1); w != "and" && w != "or" && w != "&" {
			continue
		}
		for j := i - 2; j >= 0 && s.quantity(j) != nil && s.Items[j].Q.Bare() && s.Items[j].Q.High == nil && !isTally(s.word(j-1)); j -= 2 {
			s.Items[j].Q.Unit, s.Items[j].Q.Kind = q.Unit, q.Kind
			if s.word(j-1) != "," {
				break
			}
		}
	}
}

func isTally(w string) bool { return w == "quantity" || w == "off" || w == "count" }

// years marks the numbers that are years of something told: it was built in 1998.
func (s *Sentence) years() {
	past := false
	for i, it := range s.Items {
		if clauseEnd(it.Text) {
			past = false
		}
		if it.Q == nil {
			past = past || len(it.Text) > 4 && it.Text[len(it.Text)-2:] == "ed" || isPast(it.Text)
			continue
		}
		in := s.word(i-1) == "in" || s.word(i-1) == "since"
		if q := it.Q; in && (past || isPast(s.word(i+1))) && q.High == nil && q.mayBeYear() && (s.endsSize(i+1) || isPast(s.word(i+1))) {
			q.Kind = KindDate
		}
	}
}

// mayBeYear says whether a number can be a year that somebody speaks of.
func (q *Quantity) mayBeYear() bool {
	return q.Bare() && q.Integer && q.Value.Cmp(big.NewRat(1900, 1)) >= 0 && q.Value.Cmp(big.NewRat(2099, 1)) <= 0
}

var pastWords = wordSet("was were had did got made built bought cut broke left put went came took gave been bow last old first first-one paid sold hung stood dropped lost borrowed spoiled spoilt used wrecked burnt nicked")

func isPast(w string) bool { _, ok := pastWords[w]; return ok }
