package speech

import (
	"math/big"
	"strconv"
	"strings"
)

// readGauge reads screw gauges: no 8, #8, 8g screws, gauge 8, 8 gauge.
func readGauge(ts []token, i int, _ []Item) (*Quantity, int) {
	gauge := func(at, used int) (*Quantity, int) {
		if at >= len(ts) || ts[at].form != integer || ts[at].num.Cmp(big.NewRat(30, 1)) > 0 {
			return nil, 0
		}
		return &Quantity{Kind: KindGauge, Value: ts[at].num, Integer: true}, used
	}
	w := textAt(ts, i)
	switch {
	case w == "gauge":
		return gauge(i+1, 2)
	case (w == "no" || w == "number" || w == "#" || w == "nr") && i > 0 && isNamed(ts[i-1].text):
		return nil, 0 // bow no 3
	case w == "#", w == "no" || w == "number" || w == "size" || w == "nr":
		at := i + 1
		if textAt(ts, at) == "." {
			at++
		}
		if next := textAt(ts, at+1); !strings.HasPrefix(next, "screw") && !strings.HasPrefix(textAt(ts, at+2), "screw") {
			return nil, 0
		}
		return gauge(at, at-i+1)
	case i < len(ts) && ts[i].form == integer:
		next := textAt(ts, i+1)
		if next == "gauge" || next == "g" && strings.HasPrefix(textAt(ts, i+2), "screw") {
			return gauge(i, 2)
		}
	}
	return nil, 0
}

// readCounted reads numbers that say how many: 4 off, 3no, 6 pcs, x6, 2nd and 14th.
func readCounted(ts []token, i int, before []Item) (*Quantity, int) {
	if textAt(ts, i) == "×" && i+1 < len(ts) && ts[i+1].form == integer && ts[i+1].glued && (len(before) == 0 || before[len(before)-1].Q == nil) {
		if textAt(ts, i+2) != "×" {
			return count(ts[i+1]), 2
		}
	}
	if ts[i].form != integer {
		return nil, 0
	}
	next := textAt(ts, i+1)
	glued := i+1 < len(ts) && ts[i+1].glued
	switch {
	case glued && (next == "st" || next == "nd" || next == "rd" || next == "th"):
		return &Quantity{Kind: KindOrdinal, Value: ts[i].num, Integer: true}, 2
	case next == "off" && !offWhat(textAt(ts, i+2)), next == "no" && (glued || !strings.HasPrefix(textAt(ts, i+2), "screw") && !(i+2 < len(ts) && ts[i+2].isNumber())):
		if next == "no" && textAt(ts, i+2) == "." && i+2 < len(ts) && ts[i+2].glued {
			return count(ts[i]), 3
		}
		return count(ts[i]), 2
	case next == "pc" && humidityAhead(textAt(ts, i+2)):
		return nil, 0
	case next == "nr", next == "nos", next == "pcs", next == "pieces", next == "pc", next == "times" && glued:
		return count(ts[i]), 2
	case next == "×" && ts[i+1].raw != "by" && (i+2 >= len(ts) || !startsQuantity(ts, i+2) && !labelled(ts, i+2)):
		return count(ts[i]), 2
	case strings.Contains(ts[i].text, "dozen") || strings.Contains(ts[i].text, "couple") || strings.Contains(ts[i].text, "pair"):
		return count(ts[i]), 1
	}
	return nil, 0
}

// humidityAhead says whether a word tells that "pc" before it is a share: 65pc RH.
func humidityAhead(w string) bool {
	return w == "rh" || w == "humidity" || w == "relative" || w == "mc" || w == "moisture"
}

// offWhat are the words behind "off" when something is taken away: 4 off the thickness.
func offWhat(w string) bool {
	switch w {
	case "the", "each", "every", "both", "either", "thickness", "width", "length", "its", "my", "square", "plumb", "vertical", "upright", "in", "a", "per":
		return true
	}
	return false
}

func startsQuantity(ts []token, i int) bool {
	return ts[i].isNumber() || ts[i].text == "a" || ts[i].text == "an"
}

// labelled says whether a number with its role in one letter starts at i: 782 × H 1745.
func labelled(ts []token, i int) bool {
	_, role := lettersBefore[textAt(ts, i)]
	if w := textAt(ts, i+1); w == "=" || w == ":" {
		i++
	}
	return role && i+1 < len(ts) && ts[i+1].isNumber()
}

func count(t token) *Quantity { return &Quantity{Kind: KindCount, Value: t.num, Integer: true} }

var currency = wordSet("£ $ € eur euro euros quid bucks pound_sterling pounds_sterling gbp usd dollar dollars zl pln zloty chf franc francs krona kronor krone kroner kr sek nok dkk isk rand rands rupee rupees lira forint koruna czk leu lei lev leva hryvnia real reais peso pesos yen shilling shillings")

// readPrice reads money: £41, 61 euro each, 1150 a cube.
func readPrice(ts []token, i int, _ []Item) (*Quantity, int) {
	start := i
	_, before := currency[textAt(ts, i)]
	if before {
		i++
	}
	if q, used := rands(ts, i); used > 0 {
		return q, used
	}
	n, f, used := number(ts, i)
	if used == 0 || f == fraction || f == mixed {
		return nil, 0
	}
	if !before && i > 0 && ts[i-1].text == "×" {
		return nil, 0 // 1150 by 20 each
	}
	i += used
	_, after := currency[textAt(ts, i)]
	after = after || poundsPaid(ts, i)
	if after && !before {
		i++
	}
	q := &Quantity{Kind: KindPrice, Value: n, Integer: n.IsInt()}
	if textAt(ts, i) == "for" || textAt(ts, i) == "the" && textAt(ts, i+1) != "cube" {
		if before || after {
			return q, i - start
		}
		return nil, 0
	}
	i += q.readPer(ts, i)
	if before || after || priced(q.Per) {
		return q, i - start
	}
	return nil, 0
}

// rands reads money with its letter before the figures, R18500 a cube, where what it is counted by tells it from
// a radius.
func rands(ts []token, i int) (*Quantity, int) {
	figures, ok := strings.CutPrefix(textAt(ts, i), "r")
	n, err := strconv.ParseInt(figures, 10, 64)
	if !ok || err != nil {
		return nil, 0
	}
	q := &Quantity{Kind: KindPrice, Value: big.NewRat(n, 1), Integer: true}
	used := 1 + q.readPer(ts, i+1)
	if !priced(q.Per) {
		return nil, 0
	}
	return q, used
}

// poundsPaid says whether pounds at i are money: nothing is weighed in pounds by the cubic metre, and who
// says “48 pound apiece” has paid it.
func poundsPaid(ts []token, i int) bool {
	w := textAt(ts, i)
	if w != "pound" && w != "pounds" {
		return false
	}
	symbol, _ := perAt(ts, i+1, false)
	return symbol == "m3" || symbol == "m" || symbol == "board" && w == "pound"
}

// priced says whether a bare number counted by this can only be money.
func priced(per []string) bool {
	if len(per) != 1 {
		return false
	}
	switch per[0] {
	case "m3", "board_foot", "bf", "board", "ft3", "m", "ft":
		return true
	}
	return false
}

var months = []string{"jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"}

// monthNamed gives the number of a month, 1 to 12, or 0.
func monthNamed(w string) int {
	full := [...]string{"january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"}
	for i, m := range months {
		if w == m || w == full[i] || w == "sept" && m == "sep" {
			return i + 1
		}
	}
	return 0
}

// readDate reads a day with its month: 3 May, May 3rd, the 14th of June.
func readDate(ts []token, i int, _ []Item) (*Quantity, int) {
	day := func(at int) (int, bool) {
		if at >= len(ts) || ts[at].form != integer || !ts[at].num.IsInt() || ts[at].num.Cmp(big.NewRat(31, 1)) > 0 {
			return 0, false
		}
		switch textAt(ts, at+1) {
		case "st", "nd", "rd", "th":
			return 2, true
		}
		return 1, true
	}
	if n, ok := day(i); ok {
		j := i + n
		if textAt(ts, j) == "of" {
			j++
		}
		if m := monthNamed(textAt(ts, j)); m > 0 {
			return &Quantity{Kind: KindDate, Value: ts[i].num, High: big.NewRat(int64(m), 1)}, j - i + 1
		}
		return nil, 0
	}
	if m := monthNamed(textAt(ts, i)); m > 0 && (textAt(ts, i) != "may" && textAt(ts, i) != "march" || ts[i].upper()) {
		if n, ok := day(i + 1); ok {
			return &Quantity{Kind: KindDate, Value: ts[i+1].num, High: big.NewRat(int64(m), 1)}, 1 + n
		}
	}
	return nil, 0
}

// readClock reads a time of day: 18:30, 2 pm, 10.45 after "at", quarter past 4, half past six.
// The value is in minutes after midnight.
func readClock(ts []token, i int, before []Item) (*Quantity, int) {
	at := func(minutes int64, used int) (*Quantity, int) {
		if minutes < 0 || minutes >= 24*60 {
			return nil, 0
		}
		return &Quantity{Kind: KindClock, Value: big.NewRat(minutes, 1)}, used
	}
	t := ts[i]
	switch {
	case t.form == clock:
		h, m := hourMinute(t.text, ":")
		add, used := halfOfDay(ts, i+1, h)
		return at(h*60+m+add, 1+used)
	case fourFigures(ts, i, before):
		return at(clockOf(t.text), 1)
	case t.text == "noon":
		return at(12*60, 1)
	case t.text == "midnight":
		return at(0, 1)
	case t.text == "quarter" || t.text == "half" || t.num != nil && (textAt(ts, i+1) == "past"):
		return pastHour(ts, i)
	case t.isNumber() && (t.form == integer || t.form == decimal):
		h, m := hourMinute(t.text, ".")
		if t.form == integer && t.num.IsInt() && t.num.Num().IsInt64() {
			h, m = t.num.Num().Int64(), 0
		}
		add, used := halfOfDay(ts, i+1, h)
		if used == 0 && len(before) > 0 && hourWord(before[len(before)-1].Text) {
			add, used = partOfDay(ts, i+1, h)
		}
		if used > 0 && h <= 12 && m < 60 {
			return at(h*60+m+add, 1+used)
		}
		if t.form == integer && h >= 1 && h <= 12 && timeTold(before) && noUnit(ts, i+1) {
			return at(h*60, 1)
		}
		if t.form == decimal && len(t.text) >= 4 && t.text[len(t.text)-3] == '.' && h < 24 && m < 60 && len(before) > 0 && clockWord(before[len(before)-1].Text) && noUnit(ts, i+1) {
			return at(h*60+m, 1)
		}
	}
	return nil, 0
}

// fourFigures says whether the number at i is a time of day as timetables have it, behind a day of the week:
// monday 1830 to 2130.
func fourFigures(ts []token, i int, before []Item) bool {
	t := ts[i]
	if t.form != integer || len(t.text) != 4 || clockOf(t.text) < 0 || len(before) == 0 || !noUnit(ts, i+1) {
		return false
	}
	last := before[len(before)-1]
	if last.Q != nil || !clockWord(last.Text) && last.Text != "to" && last.Text != "-" && last.Text != "and" && last.Text != ":" {
		if _, day := weekday(last.Text); !day {
			return false
		}
	}
	for k := len(before) - 1; k >= 0 && k >= len(before)-6; k-- {
		if _, day := weekday(before[k].Text); day && before[k].Q == nil {
			return true
		}
	}
	return false
}

// clockOf reads four figures as hours and minutes, in minutes after midnight, or gives -1. Workshops keep to fives.
func clockOf(text string) int64 {
	n, err := strconv.ParseInt(text, 10, 64)
	if err != nil || n/100 > 24 || n%100 >= 60 || n%5 != 0 {
		return -1
	}
	return n/100*60 + n%100
}

func noUnit(ts []token, i int) bool {
	_, used := unitAt(ts, i)
	w := textAt(ts, i)
	_, money := currency[w]
	return used == 0 && w != "×" && !isRoleWord(w) && !perWord(w) && !money
}

// goings are what people and shops do at some hour.
var goings = wordSet("back off home here there shuts shut closes close closing opens open comes come leaves leave leaving finish finishing starts start done knocking meet meeting pub tea lunch dinner supper school bus train arrives arriving due tonight tomorrow today")

// timeTold says whether the words before a small number make it an hour: "Gil's back at 4".
func timeTold(before []Item) bool {
	if len(before) < 2 {
		return false
	}
	switch before[len(before)-1].Text {
	case "at", "before", "till", "until", "around", "×": // "by" reads as the sign
	default:
		return false
	}
	w := before[len(before)-2].Text
	_, going := goings[w]
	_, day := weekday(w)
	return going || day
}

func clockWord(w string) bool {
	return w == "at" || w == "since" || w == "from" || w == "till" || w == "until" || w == "@" || w == "by" || w == "clamps"
}

// hourWord are the words before an hour alone of which the part of the day is said.
func hourWord(w string) bool {
	return w == "at" || w == "since" || w == "by" || w == "@" || w == "about" || w == "around"
}

func hourMinute(text, sep string) (int64, int64) {
	h, m, _ := strings.Cut(text, sep)
	return digits(h), digits(m)
}

func digits(s string) int64 {
	n := int64(0)
	for _, r := range s {
		if !isDigit(r) || n > 1000 {
			return 1 << 20
		}
		n = n*10 + int64(r-'0')
	}
	return n
}

// halfOfDay reads am, pm and o'clock behind an hour and gives the minutes to add.
func halfOfDay(ts []token, i int, hour int64) (int64, int) {
	switch textAt(ts, i) {
	case "pm":
		if hour == 12 {
			return 0, 1
		}
		return 12 * 60, 1
	case "am":
		if hour == 12 {
			return -12 * 60, 1
		}
		return 0, 1
	case "o'clock", "oclock":
		return 0, 1
	}
	return 0, 0
}

// partOfDay reads the part of the day behind an hour: in the afternoon, this morning, at night.
func partOfDay(ts []token, i int, hour int64) (int64, int) {
	if w := textAt(ts, i); w != "in" && w != "this" && w != "at" {
		return 0, 0
	}
	used := 1
	if textAt(ts, i+used) == "the" {
		used++
	}
	switch textAt(ts, i+used) {
	case "morning":
		return 0, used + 1
	case "afternoon", "evening", "night":
		if hour == 12 {
			return 0, used + 1
		}
		return 12 * 60, used + 1
	}
	return 0, 0
}

// pastHour reads quarter past 4, ten past six, half past nine, quarter to three and half six.
func pastHour(ts []token, i int) (*Quantity, int) {
	minutes, j := int64(0), i+1
	switch t := ts[i]; {
	case t.text == "quarter":
		minutes = 15
	case t.text == "half":
		minutes = 30
	default:
		minutes = t.num.Num().Int64()
	}
	link := textAt(ts, j)
	if link != "past" && link != "to" && ts[i].text != "half" {
		return nil, 0
	}
	if link == "past" || link == "to" {
		j++
	}
	if j >= len(ts) || ts[j].form != integer || ts[j].num.Cmp(big.NewRat(12, 1)) > 0 || ts[j].num.Sign() <= 0 || !noUnit(ts, j+1) {
		return nil, 0
	}
	if link == "to" {
		minutes = -minutes
	}
	hour := ts[j].num.Num().Int64()
	add, used := halfOfDay(ts, j+1, hour)
	return &Quantity{Kind: KindClock, Value: big.NewRat((hour*60+minutes+add+24*60)%(24*60), 1)}, j + 1 + used - i
}

var named = wordSet("bow board door window sheet shelf drawer panel bay frame leaf pane page row step plank job coat batch day week plan room grit bus platform route gate")

func isNamed(w string) bool { _, ok := named[w]; return ok }

// labels marks numbers that name a thing: bow 2, board no 3, 120 grit.
func (s Sentence) labels() {
	for i := range s.Items {
		q := s.Items[i].Q
		if q == nil || !q.Bare() || !q.Integer || q.High != nil {
			continue
		}
		if _, going := goings[s.word(i-2)]; noThings(s.word(i+1)) || going && s.word(i-1) == "in" && s.endsSize(i+1) { // be there in 20
			q.Kind = KindTold
			continue
		}
		p := i - 1
		if w := s.word(p); w == "no" || w == "number" || w == "#" || w == "nr" {
			p--
		}
		if s.word(i-1) == "(" && s.word(i+1) == ")" && s.word(i+2) != "" {
			q.Kind = KindCount // (4) drawer fronts
			continue
		}
		small := q.Value.Cmp(big.NewRat(40, 1)) <= 0 && q.Value.Sign() > 0
		if small && isNamed(s.word(p)) && !s.sized(i) && !s.ofWood(i, p) || s.word(i+1) == "grit" {
			q.Kind = KindLabel
		}
	}
}

// sized says whether the quantity at i is part of a size: 30 wide, 2 × 3.
// noThings says whether a noun names nothing that is made, bought, set out or stands on a shelf: thirty years.
func noThings(w string) bool {
	switch w {
	case "years", "months", "miles", "pints", "beers", "teas", "coffees", "biscuits", "pasties", "grandchildren", "friends", "trips":
		return true
	}
	return false
}

// ofWood says whether the number behind a noun is how thick that is: oak plank 24, into a frame.
func (s Sentence) ofWood(i, noun int) bool {
	switch s.word(i + 1) {
	case ",", "into", "onto", "on", "to", "through":
		return noun == i-1 && isWood(s.word(noun-1))
	}
	return false
}

func (s Sentence) sized(i int) bool {
	switch s.word(i + 1) {
	case "coat", "coats", "from", "in", "apart", "each", "to", "×", "wide", "thick", "long", "deep", "high", "across", "tall", "off", "of", "at":
		return true
	}
	return s.word(i-1) == "×"
}
