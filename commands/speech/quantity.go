package speech

import (
	"math/big"
	"regexp"
	"strings"

	"fettle/calc/measure"
)

// Kinds of number beside those of measure: recognised first, so that they are never taken
// for sizes.
const (
	KindCount     measure.Kind = "count"     // 4 off, 3no, half a dozen, x6
	KindGauge     measure.Kind = "gauge"     // no 8 screw, 8g
	KindClock     measure.Kind = "clock"     // 18:30, half past four
	KindDate      measure.Kind = "date"      // 3 May
	KindOrdinal   measure.Kind = "ordinal"   // 2nd
	KindLabel     measure.Kind = "label"     // bow 2
	KindPrice     measure.Kind = "price"     // 41 quid, 900 a cube
	KindBefore    measure.Kind = "before"    // was to be 18, now 22
	KindTolerance measure.Kind = "tolerance" // ± 2, good to a sixteenth
	KindTold      measure.Kind = "told"      // thirty years
	KindUnread    measure.Kind = "unread"    // 1e400
)

// Quantity is a number that was said, with its unit and what kind of number it is.
type Quantity struct {
	Kind     measure.Kind
	Value    *big.Rat      // in Unit; of a range the lower end, nil if only the upper was said
	High     *big.Rat      // of a range the upper end
	Open     bool          // "at least": a range without an upper end
	Unit     *measure.Unit // nil: a bare number
	Per      []string      // "per" and "a": symbols of units, or each, board, board_foot
	Fraction bool          // written as a fraction and without a unit: inches, most likely
	Quarters bool          // 5/4 and its like, the trade's name for a sawn thickness
	Integer  bool
}

// Bare says that no unit was said.
func (q Quantity) Bare() bool { return q.Unit == nil && q.Kind == measure.KindNumber }

// Base is the value in the base unit of its kind (mm, m2, l, kg, deg, c, pct, min).
func (q Quantity) Base() *big.Rat {
	if q.Unit == nil {
		return q.Value
	}
	return q.Unit.Base(q.Value)
}

// Item is a word, a sign or a quantity of a sentence.
type Item struct {
	Text  string    // of a word or a sign, lower case
	Stem  string    // of a word
	Q     *Quantity // of a quantity
	Start int       // byte offsets in the sentence's text
	End   int
	upper bool
	glued bool
}

// Sentence is a text that has been read as far as words and quantities go.
type Sentence struct {
	Raw   string // as it came in, lines and all
	Text  string
	Items []Item
}

// Read cuts a text into words and quantities.
func Read(raw string) Sentence {
	text := written(normal(raw))
	ts := spell(mendExact(tokens(text)))
	s := Sentence{Raw: raw, Text: text, Items: make([]Item, 0, len(ts))}
	for i := 0; i < len(ts); {
		it, used := readItem(ts, i, s.Items)
		it.Start, it.End = ts[i].start, ts[i+used-1].end
		it.glued, it.upper = ts[i].glued, ts[i].upper()
		s.Items = append(s.Items, it)
		i += used
	}
	return s.joined()
}

// Quantities lists the quantities of a text in order.
func Quantities(text string) []Quantity {
	var out []Quantity
	for _, it := range Read(text).Items {
		if it.Q != nil {
			out = append(out, *it.Q)
		}
	}
	return out
}

func readItem(ts []token, i int, before []Item) (Item, int) {
	if ts[i].unread {
		_, unit := unitAt(ts, i+1)
		return Item{Q: &Quantity{Kind: KindUnread}}, 1 + unit
	}
	for _, read := range []func([]token, int, []Item) (*Quantity, int){
		readClock, readDate, readGauge, readCounted, readPrice, readMeasured,
	} {
		if q, used := read(ts, i, before); used > 0 {
			return Item{Q: q}, used
		}
	}
	t := ts[i].text
	return Item{Text: t, Stem: stem(t)}, 1
}

// readMeasured reads a number with its unit, or a bare one.
func readMeasured(ts []token, i int, before []Item) (*Quantity, int) {
	n, f, used := number(ts, i)
	if used == 0 {
		return readOneOf(ts, i, before)
	}
	q := &Quantity{Kind: measure.KindNumber, Value: n, Integer: n.IsInt()}
	q.Quarters = used == 1 && f == fraction && ts[i].num.Cmp(big.NewRat(1, 1)) >= 0 && (hasQuarters(ts[i].text) || strings.HasSuffix(ts[i].text, " quarter"))
	if u, more := unitBehind(ts, i+used, n); more > 0 {
		q.Unit, q.Kind = u, u.Kind
		if u.Symbol == "m" && used == 1 && decimalComma.MatchString(ts[i].text) {
			q.Value = new(big.Rat).Quo(n, big.NewRat(1000, 1)) // 1,755 m
		}
		used += more
		used = thickInches(q, ts, i, used)
	} else if hi, more := rangeEnd(ts, i+used); more > 0 {
		used += more
		q.High = hi
		if u, more := unitAt(ts, i+used); more > 0 {
			q.Unit, q.Kind = u, u.Kind
			used += more
		}
	}
	q.Fraction = q.Unit == nil && (f == fraction || f == mixed) && inchFractionOf(q.Value)
	used += q.readPer(ts, i+used)
	return q, used
}

// decimalComma is a number that may be one of thousands or have three places behind a comma. Metres have the places.
var decimalComma = regexp.MustCompile(`^[1-9],\d{3}$`)

// unitBehind reads the unit behind a number, also where the number is a part of one: 0.4 of a square metre.
func unitBehind(ts []token, i int, n *big.Rat) (*measure.Unit, int) {
	u, used := unitAt(ts, i)
	if used > 0 || n.Cmp(big.NewRat(1, 1)) >= 0 || textAt(ts, i) != "of" || textAt(ts, i+1) != "a" && textAt(ts, i+1) != "an" {
		return u, used
	}
	if u, used = unitAt(ts, i+2); used == 0 {
		return nil, 0
	}
	return u, used + 2
}

// thickInches adds "and a quarter" said behind the unit: "an inch and a quarter".
func thickInches(q *Quantity, ts []token, i, used int) int {
	at := i + used
	if textAt(ts, at) != "and" || at+1 >= len(ts) || ts[at+1].form != fraction || ts[at+1].num.Cmp(big.NewRat(1, 1)) >= 0 {
		return used
	}
	if _, unit := unitAt(ts, at+2); unit > 0 {
		return used
	}
	q.Value = new(big.Rat).Add(q.Value, ts[at+1].num)
	return used + 2
}

// readOneOf reads a unit with an article for one of it: "an inch and a quarter", "a litre".
func readOneOf(ts []token, i int, before []Item) (*Quantity, int) {
	if w := ts[i].text; w == "inch" || w == "foot" {
		return oneInch(ts, i)
	} else if w != "a" && w != "an" {
		return nil, 0
	}
	if len(before) > 0 && before[len(before)-1].Q != nil {
		return nil, 0
	}
	if i+1 >= len(ts) || len(ts[i+1].text) < 2 {
		return nil, 0
	}
	u, more := unitAt(ts, i+1)
	if more == 0 || u.Symbol == "stone" || u.Symbol == "thou" || ts[i+1].text == "pt" || ts[i+1].text == "second" || ts[i+1].text == "day" || ts[i+1].text == "week" {
		return nil, 0
	}
	q := &Quantity{Kind: u.Kind, Unit: u, Value: big.NewRat(1, 1), Integer: true}
	used := thickInches(q, ts, i, 1+more)
	return q, used
}

// oneInch reads an inch that nobody counts: "inch and a quarter oak", "inch thick".
func oneInch(ts []token, i int) (*Quantity, int) {
	u, ok := measure.UnitNamed(ts[i].text)
	if !ok {
		return nil, 0
	}
	q := &Quantity{Kind: u.Kind, Unit: u, Value: big.NewRat(1, 1), Integer: true}
	used := thickInches(q, ts, i, 1)
	if used == 1 && !isRoleWord(textAt(ts, i+1)) {
		return nil, 0
	}
	return q, used
}

func hasQuarters(text string) bool { return len(text) >= 3 && text[len(text)-2:] == "/4" }

// inchFractionOf says whether the denominator is one that an inch rule shows.
func inchFractionOf(n *big.Rat) bool {
	d := n.Denom()
	if !d.IsInt64() {
		return false
	}
	v := d.Int64()
	return v >= 2 && v <= 64 && v&(v-1) == 0
}

// number reads a numeral at i: a sign in words, whole inches before a fraction.
func number(ts []token, i int) (*big.Rat, form, int) {
	start := i
	minus := textAt(ts, i) == "minus" && i+1 < len(ts) && ts[i+1].isNumber()
	if minus {
		i++
	}
	if i >= len(ts) || !ts[i].isNumber() || ts[i].form == clock {
		return nil, noNumber, 0
	}
	n, f := new(big.Rat).Set(ts[i].num), ts[i].form
	i++
	if f == integer {
		j := i
		if textAt(ts, j) == "-" && ts[j].glued && j+1 < len(ts) && ts[j+1].glued || textAt(ts, j) == "and" {
			j++
		}
		if j < len(ts) && ts[j].form == fraction && ts[j].num.Cmp(big.NewRat(1, 1)) < 0 && ts[j].num.Sign() > 0 {
			n.Add(n, ts[j].num)
			f, i = mixed, j+1
		}
	}
	if minus {
		n.Neg(n)
	}
	return n, f, i - start
}

// rangeEnd reads "-40" and "to six" behind a number.
func rangeEnd(ts []token, i int) (*big.Rat, int) {
	if textAt(ts, i) != "-" {
		return nil, 0
	}
	n, f, used := number(ts, i+1)
	if used == 0 || f == fraction {
		return nil, 0
	}
	return n, used + 1
}

// joined puts together what several items say: 6 ft 2, 1 hour and thirty, between 5 and 6 mm.
func (s Sentence) joined() Sentence {
	out := s.Items[:0:0]
	for i := 0; i < len(s.Items); i++ {
		it := s.Items[i]
		if it.Q != nil && len(out) > 0 {
			if used := addSmaller(out, it, s.word(i+1), s.metresBeside(out, i)); used {
				continue
			}
		}
		out = append(out, it)
	}
	s.Items = out
	s.slashes()
	s.unitsAhead()
	s.amended()
	s.ranges()
	s.lists()
	s.abbreviated()
	s.years()
	s.labels()
	s.tolerances()
	s.superseded()
	return s
}

// slashes makes a size of lengths with slashes between: 3.6 m / 20 cm / 38 mm.
func (s *Sentence) slashes() {
	length := func(q *Quantity) bool { return q != nil && q.Kind == measure.KindLength && len(q.Per) == 0 }
	for i := 1; i+1 < len(s.Items); i++ {
		if s.word(i) == "/" && length(s.quantity(i-1)) && length(s.quantity(i+1)) {
			s.Items[i].Text, s.Items[i].Stem = "×", "×"
		}
	}
}

// unitsAhead gives a bare number, or a size of several, the unit that stands before it with a colon: "square metres: 1.1".
func (s *Sentence) unitsAhead() {
	for i := range s.Items {
		q := s.quantity(i)
		if q == nil || !q.Bare() || q.High != nil || s.word(i-1) != ":" && s.word(i-1) != "=" {
			continue
		}
		if w := s.word(i + 1); letters(w) && !isRoleWord(w) && !stopsNoun(w) {
			continue // board feet: 6 planks
		}
		name := s.word(i - 2)
		if len(name) < 2 || name == "in" || name == "min" || name == "pc" {
			continue
		}
		u, ok := measure.UnitNamed(s.word(i-3) + " " + name)
		if !ok {
			u, ok = measure.UnitNamed(name)
		}
		for j := i; ok && s.quantity(j) != nil && s.Items[j].Q.Bare(); j += 2 {
			s.Items[j].Q.Unit, s.Items[j].Q.Kind = u, u.Kind
			if s.word(j+1) != "×" {
				break
			}
		}
	}
}

// smaller lists which unit may follow which within one quantity.
var smaller = map[string][]string{
	"ft": {"in"}, "yd": {"ft", "in"}, "m": {"cm", "mm", "dm"}, "cm": {"mm"}, "km": {"m"},
	"h": {"min"}, "min": {"s"}, "kg": {"g"}, "lb": {"oz"}, "stone": {"lb"}, "l": {"ml"},
}

// bareSmaller is the unit of a bare number behind: six foot two, 1 hour and thirty.
var bareSmaller = map[string]string{"ft": "in", "h": "min"}

// addSmaller adds the item to the quantity before it when both say one: it looks past an
// "and" or, for kilometres, a comma. Bare tens behind metres are centimetres where the word
// after them says that they are a size: one metre ten long.
func addSmaller(out []Item, it Item, next string, sized bool) bool {
	k := len(out) - 1
	link := ""
	if out[k].Q == nil {
		link = out[k].Text
		k--
	}
	if k < 0 || out[k].Q == nil || out[k].Q.Unit == nil || it.Q.Value == nil || it.Q.High != nil || out[k].Q.Per != nil {
		return false
	}
	big1, small := out[k].Q, it.Q
	if link == "" && minutesOfArc(big1, small, next) {
		big1.Value = new(big.Rat).Add(big1.Value, new(big.Rat).Quo(small.Value, big.NewRat(60, 1)))
		big1.Integer = false
		out[k].End = it.End
		return true
	}
	u := small.Unit
	if small.Bare() && !small.Quarters {
		u, _ = measure.UnitNamed(bareSmaller[big1.Unit.Symbol])
		if big1.Unit.Symbol == "m" && small.Integer && small.Value.Cmp(big.NewRat(10, 1)) >= 0 && (sized || isRoleWord(next) || spanWord(next)) {
			u, _ = measure.UnitNamed("cm")
		}
	}
	if u == nil || !allowedSmaller(big1, u, small, link) {
		return false
	}
	total := new(big.Rat).Add(big1.Base(), u.Base(small.Value))
	big1.Value = big1.Unit.FromBase(total)
	big1.Integer = big1.Value.IsInt()
	big1.Per = small.Per
	out[k].End = it.End
	if link != "" {
		out[len(out)-1] = Item{Text: "", Start: out[k].End, End: out[k].End}
	}
	return true
}

// leastWithMinutes is from how many degrees on minutes behind them are taken for parts of a degree: of a shed
// it is the time.
const leastWithMinutes = 30

// minutesOfArc says whether a number of minutes is a part of the degrees before it: 94 degrees 30 minutes, 94° 30'.
func minutesOfArc(whole, small *Quantity, next string) bool {
	if whole.Unit.Symbol != "deg" || small.Unit == nil || small.Unit.Symbol != "min" && small.Unit.Symbol != "ft" || !whole.Integer || !small.Integer {
		return false
	}
	if small.Unit.Symbol == "ft" { // 12°30'
		return small.Value.Cmp(big.NewRat(60, 1)) < 0 && small.Value.Sign() > 0
	}
	return whole.Value.Cmp(big.NewRat(leastWithMinutes, 1)) >= 0 && small.Value.Cmp(big.NewRat(60, 1)) < 0 && small.Value.Sign() > 0 &&
		(next == "" || endSign(next) || next == "corner" || next == "angle" || next == "and")
}

// metresBeside says whether the bare number at i goes with the metres before it because the other side of a size
// is said the same way: three metres sixty by one metre ninety.
func (s Sentence) metresBeside(out []Item, i int) bool {
	metres := func(q *Quantity) bool { return q != nil && q.Unit != nil && q.Unit.Symbol == "m" }
	if s.word(i+1) == "×" {
		return i+3 < len(s.Items) && metres(s.quantity(i+2)) && s.Items[i+3].Q != nil && s.Items[i+3].Q.Bare()
	}
	k := len(out) - 1
	if k >= 0 && metres(out[k].Q) && s.word(i+1) == "," && strings.Contains(s.Text[out[k].Start:out[k].End], "met") {
		return true // a radius of one metre eighty, 36 thick
	}
	return (s.word(i+1) == "" || endSign(s.word(i+1))) && k >= 2 && metres(out[k].Q) && out[k-1].Text == "×" && metres(out[k-2].Q) && !out[k-2].Q.Integer
}

// spanWord says whether a word tells that the number before it is how far something reaches.
func spanWord(w string) bool {
	return w == "span" || w == "apart" || w == "clear" || w == "opening" || w == "run" || w == "between" || w == "chord" || w == "radius"
}

func allowedSmaller(whole *Quantity, u *measure.Unit, small *Quantity, link string) bool {
	listed := false
	for _, s := range smaller[whole.Unit.Symbol] {
		listed = listed || s == u.Symbol
	}
	if !listed || !whole.Integer || small.Value.Sign() < 0 || u.Base(small.Value).Cmp(whole.Unit.Factor) >= 0 && whole.Unit.Symbol != "yd" {
		return false
	}
	switch link {
	case "":
		return !small.Bare() || whole.Unit.Symbol == "ft" || whole.Unit.Symbol == "m"
	case "and":
		if whole.Unit.Symbol == "m" && u.Symbol == "cm" && !small.Bare() {
			return true // one metre and ten centimetres
		}
		return whole.Unit.Kind == measure.KindDuration || whole.Unit.Kind == measure.KindMass || (whole.Unit.Symbol == "ft" || whole.Unit.Symbol == "yd") && !small.Bare()
	case "-":
		return whole.Unit.Symbol == "ft" && !small.Bare() // 1'-6 1/2"
	case ",":
		return whole.Unit.Symbol == "km"
	}
	return false
}

// ranges puts together "between 5 and 6" and marks "at least 5", "lower than 3", "2 below zero".
func (s *Sentence) ranges() {
	for i := 0; i < len(s.Items); i++ {
		q := s.Items[i].Q
		if q == nil || q.Value == nil {
			continue
		}
		a, b := s.word(i-2), s.word(i-1)
		switch {
		case b == "between" && s.word(i+1) == "and" && s.quantity(i+2) != nil:
			hi := s.quantity(i + 2)
			q.High = hi.Value
			if q.Unit == nil {
				q.Unit, q.Kind = hi.Unit, hi.Kind
			}
			s.cut(i, i+3)
		case s.word(i+1) == "below" && s.quantity(i+2) != nil && s.quantity(i+2).Value.Sign() == 0:
			q.Value, q.Kind = new(big.Rat).Neg(q.Value), measure.KindTemperature
			s.cut(i, i+3)
		case a == "at" && b == "least", a == "no" && b == "less", a == "more" && b == "than":
			q.Open = true
		case (a == "less" || a == "lower" || a == "under") && b == "than", a == "at" && b == "most":
			q.High, q.Value = q.Value, nil
		}
	}
}

// cut makes one item, the first, of the items from one up to another.
func (s *Sentence) cut(from, to int) {
	s.Items[from].End = s.Items[to-1].End
	s.Items = append(s.Items[:from+1], s.Items[to:]...)
}

// quantity gives the measured number at item i, or nil.
func (s Sentence) quantity(i int) *Quantity {
	if i < 0 || i >= len(s.Items) || s.Items[i].Q == nil || s.Items[i].Q.Value == nil {
		return nil
	}
	return s.Items[i].Q
}

func (s Sentence) word(i int) string {
	if i < 0 || i >= len(s.Items) {
		return ""
	}
	return s.Items[i].Text
}
