package commands

import (
	"regexp"
	"slices"
	"strings"
	"time"

	"fettle/commands/hours"
	"fettle/commands/speech"
)

// hoursSaid is what a sentence says of opening times.
type hoursSaid struct {
	days     []daySaid
	doubtful string // a time of day of which the half is not clear
	unsound  string // a span that ends before it begins
	none     string // what is written as a time of day and is none
}

// daySaid is one day of a sentence, with the times that belong to it.
type daySaid struct {
	as      string // as it was said
	weekday time.Weekday
	once    bool // one day of the calendar, not every week
	ahead   int  // of a weekday: weeks beyond the next such day; else days from today
	today   bool // counted from today
	month   time.Month
	day     int
	spans   []hours.Span
	until   hours.Clock // the end alone was said
	closed  bool
}

// named gives the name of the day in the book, and the first such day from today on.
func (d daySaid) named(now time.Time) (name string, date time.Time) {
	today := time.Date(now.Year(), now.Month(), now.Day(), 12, 0, 0, 0, now.Location())
	switch {
	case d.month != 0:
		date = time.Date(now.Year(), d.month, d.day, 12, 0, 0, 0, now.Location())
		if date.Before(today) {
			date = date.AddDate(1, 0, 0)
		}
	case d.today:
		date = today.AddDate(0, 0, d.ahead)
	default:
		date = today.AddDate(0, 0, (int(d.weekday)-int(today.Weekday())+7)%7+7*d.ahead)
	}
	if d.once {
		return hours.DateName(date), date
	}
	return dayName(d.weekday), date
}

// hoursReader goes through a sentence once: days and spans stand in groups, and each group of
// the kind that comes second belongs to the group before it.
type hoursReader struct {
	speech.Sentence
	half   string // "am" or "pm", said for all
	closed bool
	once   bool
	ahead  int
	out    hoursSaid
	open   []daySaid    // days whose times have not come yet
	spans  []hours.Span // times whose days have not come yet
	until  hours.Clock
	timed  bool // the open days have had times
	last   int  // where in open the days named last begin
}

func readHours(s speech.Sentence) hoursSaid {
	r := &hoursReader{Sentence: s}
	always := s.Says("from now on|onwards") || s.Says("any more|longer") || s.Says("always|every|each|anymore|weekly")
	r.closed = s.Says("closed|shut|off|no|not|never|nobody|cancelled|can't|won't|isn't|aren't")
	r.once = s.Says("this|next week") || s.Says("only|just this|once") || s.Says("exceptionally")
	if s.Says("next week") {
		r.ahead = 1
	}
	switch {
	case s.Says("all in the morning"), s.Says("mornings"):
		r.half = "am"
	case s.Says("evening|evenings|tonight|afternoon|afternoons"):
		r.half = "pm"
	}
	for i := 0; i < len(s.Items); {
		i += max(1, r.at(i, always))
	}
	r.flush()
	if text, none := noTimeOfDay(s.Text); none {
		r.out.none = text
	} else if text, none := noHour(s.Text); none && !r.holdsDate() {
		r.out.none = text
	}
	return r.out
}

// holdsDate says whether a day of the calendar is named: then a number may be that of a day.
func (r *hoursReader) holdsDate() bool {
	return slices.ContainsFunc(r.Items, func(it speech.Item) bool { return it.Q != nil && it.Q.Kind == speech.KindDate })
}

// at reads what stands at item i and says how many items that took.
func (r *hoursReader) at(i int, always bool) int {
	if days, used := r.daysAt(i, always); used > 0 {
		r.add(days)
		return used
	}
	if span, until, used := r.spanAt(i); used > 0 {
		r.keepLast(i)
		r.addSpan(span, until)
		return used
	}
	return 0
}

// add takes days: those before had their times, or these belong to the times before.
func (r *hoursReader) add(days []daySaid) {
	if r.timed {
		r.flush()
	}
	r.last = len(r.open)
	r.open = append(r.open, days...)
}

// keepLast gives the days named so far the times before them, but for the last, when the times at item
// i stand right behind it: six till nine Monday to Thursday, and Saturday mornings eight till twelve.
func (r *hoursReader) keepLast(i int) {
	if len(r.spans) == 0 || r.timed || r.last == 0 || r.last >= len(r.open) {
		return
	}
	for i > 0 && slices.Contains([]string{"morning", "mornings", "evening", "evenings", "afternoon", "afternoons", "from", "at", "between", ":"}, r.word(i-1)) {
		i--
	}
	if _, _, day := speech.Weekday(r.word(i - 1)); !day {
		return
	}
	own := slices.Clone(r.open[r.last:])
	r.open = r.open[:r.last]
	r.flush()
	r.open, r.last = own, 0
}

// halfAt is the half of the day that is said of the times at item i: "mornings" holds for the times
// beside it alone.
func (r *hoursReader) halfAt(i int) string {
	if r.half != "am" || r.Says("all in the morning") {
		return r.half
	}
	for k := max(0, i-3); k < i+7 && k < len(r.Items); k++ {
		if r.word(k) == "mornings" {
			return r.half
		}
		if _, _, day := speech.Weekday(r.word(k)); day && k > i && r.word(k+1) != "mornings" {
			break
		}
	}
	return ""
}

func (r *hoursReader) addSpan(span hours.Span, until hours.Clock) {
	if len(r.open) > 0 && len(r.spans) > 0 && !r.timed { // the days belong to the times before them
		r.flush()
	}
	r.timed = len(r.open) > 0
	if until != 0 {
		r.until = until
		return
	}
	if !span.Sound() && r.out.unsound == "" {
		r.out.unsound = span.String()
	}
	r.spans = append(r.spans, span)
}

// flush gives the open days their times.
func (r *hoursReader) flush() {
	for _, d := range r.open {
		d.spans, d.until = r.spans, r.until
		d.closed = r.closed && len(r.spans) == 0
		r.out.days = append(r.out.days, d)
	}
	r.open, r.spans, r.until, r.timed = nil, nil, 0, false
}

// daysAt reads a day, or several that one word or a span of days names.
func (r *hoursReader) daysAt(i int, always bool) ([]daySaid, int) {
	it := r.Items[i]
	if q := it.Q; q != nil {
		if q.Kind != speech.KindDate {
			return nil, 0
		}
		return []daySaid{{as: "that day", once: true, month: time.Month(q.High.Num().Int64()), day: int(q.Value.Num().Int64())}}, 1
	}
	switch it.Text {
	case "today", "tonight":
		return []daySaid{{as: it.Text, once: true, today: true}}, 1
	case "tomorrow":
		return []daySaid{{as: it.Text, once: true, today: true, ahead: 1}}, 1
	case "weekdays", "weekday":
		return r.span(time.Monday, time.Friday), 1
	case "weekend", "weekends":
		return r.span(time.Saturday, time.Sunday), 1
	case "daily", "everyday":
		return r.span(time.Monday, time.Sunday), 1
	}
	day, every, ok := speech.Weekday(it.Text)
	if !ok {
		if it.Text == "every" && r.word(i+1) == "day" {
			return r.span(time.Monday, time.Sunday), 2
		}
		return nil, 0
	}
	if link := r.word(i + 1); link == "-" || link == "to" || link == "till" || link == "until" || link == "through" || link == "thru" || link == "while" {
		if last, _, ok := speech.Weekday(r.word(i + 2)); ok {
			return r.span(day, last), 3
		}
	}
	d := daySaid{as: it.Text, weekday: day, once: r.once, ahead: r.ahead}
	switch before := r.word(i - 1); {
	case before == "this" || before == "coming":
		d.once = true
	case before == "next":
		d.once = true
	case r.closed && !every && !always:
		d.once = true
	}
	return []daySaid{d}, 1
}

func (r *hoursReader) word(i int) string {
	if i < 0 || i >= len(r.Items) {
		return ""
	}
	return r.Items[i].Text
}

func (r *hoursReader) span(from, to time.Weekday) (out []daySaid) {
	for d := from; ; d = (d + 1) % 7 {
		out = append(out, daySaid{as: "those days", weekday: d, once: r.once, ahead: r.ahead})
		if d == to {
			return out
		}
	}
}

// halfTime is a time of day of which the half may not be known: the hours from one to twelve.
type halfTime struct {
	at    hours.Clock
	exact bool
}

// spanAt reads from when till when: 18:30 to 21:00, half six to nine, 7-9.30pm, from six, till ten.
func (r *hoursReader) spanAt(i int) (span hours.Span, until hours.Clock, used int) {
	from, to, n := r.timesAt(i)
	if n == 0 {
		return span, 0, 0
	}
	text := strings.TrimSpace(r.Text[r.Items[i].Start:r.Items[i+n-1].End])
	half := r.halfAt(i)
	if w := r.word(i + n); w == "pm" || w == "am" {
		half, n = w, n+1
	}
	if to == nil {
		switch r.word(i - 1) {
		case "till", "until", "til", "by":
			return span, r.end(0, *from, half), n
		case "from", "after", "at", "since", "starting":
			return hours.Span{From: r.begin(*from, half, text)}, 0, n
		}
		if from.exact && n == 1 {
			return hours.Span{From: from.at}, 0, n
		}
		return span, 0, 0
	}
	begin := r.both(*from, *to, half, text)
	return hours.Span{From: begin, To: r.end(begin, *to, half)}, 0, n
}

const noon = 12 * 60

// begin decides the half of the day of an opening time that stands alone.
func (r *hoursReader) begin(t halfTime, half, text string) hours.Clock {
	switch {
	case t.exact, half == "am":
		return t.at
	case half == "pm" || t.at < 7*60:
		return t.at%noon + noon
	case t.at < 9*60:
		r.doubt(text)
	}
	return t.at
}

// both decides the half of the day of an opening time by the closing time as well.
func (r *hoursReader) both(from, to halfTime, half, text string) hours.Clock {
	early, late := from.at, from.at%noon+noon
	if to.exact && to.at == 0 {
		to.at = hours.Midnight
	}
	switch {
	case from.exact, half == "am":
		return early
	case to.exact && to.at <= late, half == "pm" && !to.exact && to.at%noon+noon <= late:
		return early // 9 to 5 pm
	case to.exact && to.at <= early, to.exact && late < to.at && early < 7*60, half == "pm":
		return late
	case early < 7*60:
		return late
	case early < 9*60 && to.at > early && to.at < noon:
		r.doubt(text)
	}
	return early
}

// end decides the half of the day of a closing time: the first one after the opening.
func (r *hoursReader) end(begin hours.Clock, t halfTime, half string) hours.Clock {
	switch {
	case t.at == 0 && t.exact:
		return hours.Midnight
	case t.exact || t.at > begin && half != "pm" && begin != 0 || half == "am":
		return t.at
	case t.at < noon && (t.at <= begin || half == "pm" || begin == 0):
		return t.at + noon
	}
	return t.at
}

func (r *hoursReader) doubt(text string) {
	if r.out.doubtful == "" {
		r.out.doubtful = text
	}
}

// timesAt reads one time of day or two with what joins them.
func (r *hoursReader) timesAt(i int) (from, to *halfTime, used int) {
	q := r.Items[i].Q
	if q == nil {
		return nil, nil, 0
	}
	text := r.Text[r.Items[i].Start:r.Items[i].End]
	if q.High != nil && q.Value != nil && q.Unit == nil {
		parts := strings.FieldsFunc(text, func(c rune) bool { return c == '-' })
		if len(parts) != 2 {
			parts = []string{"", ""}
		}
		f, okFrom := timeOf(q.Kind == speech.KindClock, q.Value.Num().Int64(), q.Value.IsInt(), parts[0])
		t, okTo := timeOf(q.Kind == speech.KindClock, q.High.Num().Int64(), q.High.IsInt(), parts[1])
		if okFrom && okTo {
			return &f, &t, 1
		}
		return nil, nil, 0
	}
	f, ok := r.timeAt(i)
	if !ok {
		return nil, nil, 0
	}
	joined := []string{"to", "till", "until", "til", "'til", "while", "thru", "through", "-"}
	if r.word(i-1) == "between" {
		joined = append(joined, "and")
	}
	next := i + 1
	if w := r.word(next); (w == "am" || w == "pm") && !f.exact {
		next++
	}
	if slices.Contains(joined, r.word(next)) && next+1 < len(r.Items) {
		if t, ok := r.timeAt(next + 1); ok {
			return &f, &t, next + 2 - i
		}
	}
	return &f, nil, 1
}

func (r *hoursReader) timeAt(i int) (halfTime, bool) {
	q := r.Items[i].Q
	if q == nil || q.Value == nil || q.High != nil || q.Kind != speech.KindClock && !q.Bare() {
		return halfTime{}, false
	}
	return timeOf(q.Kind == speech.KindClock, q.Value.Num().Int64(), q.Value.IsInt(), r.Text[r.Items[i].Start:r.Items[i].End])
}

// clockLike are times of day by how they are written, and the numbers behind words that stand before a
// time of day.
var (
	clockLike = regexp.MustCompile(`(?:^|[^\d:.,])(\d{1,2}):(\d{2})(?:$|[^\d:])`)
	hourLike  = regexp.MustCompile(`(?i)(?:\b(?:from|to|till|until|by|at)|-) ?(\d{1,2})(?:\.(\d{2}))?(?:$|[\s,;!?]|\.\s|\.$)`)
)

// noTimeOfDay finds what is written as a time of day and is none: 18:75, 25:00.
func noTimeOfDay(text string) (string, bool) { return noTimeLike(clockLike, text) }

// noHour finds a number that stands where an hour stands and is none: until 25.
func noHour(text string) (string, bool) { return noTimeLike(hourLike, text) }

func noTimeLike(form *regexp.Regexp, text string) (string, bool) {
	for at := 0; ; {
		m := form.FindStringSubmatchIndex(text[at:])
		if m == nil {
			return "", false
		}
		hour, minute := small(text[at+m[2]:at+m[3]]), 0
		end := at + m[3]
		if m[4] >= 0 {
			minute, end = small(text[at+m[4]:at+m[5]]), at+m[5]
		}
		if hour > 24 || minute > 59 || hour == 24 && minute > 0 {
			return text[at+m[2] : end], true
		}
		at = end
	}
}

// timeOf reads a number as a time of day: minutes after midnight where it was recognised as one,
// else whole hours, or hours and minutes with a point between.
func timeOf(clock bool, n int64, whole bool, text string) (halfTime, bool) {
	text = strings.TrimSpace(text)
	h, m, pointed := strings.Cut(text, ".")
	switch {
	case clock && n >= 24 || clock && strings.ContainsAny(text, ":m"):
		return halfTime{hours.Clock(n), exactly(text, n)}, n <= int64(hours.Midnight)
	case pointed && len(m) == 2:
		hour, minute := small(h), small(m)
		return halfTime{hours.Clock(hour*60 + minute), hour > 12}, hour < 24 && minute < 60
	case whole && n >= 0 && n <= 24:
		return halfTime{hours.Clock(n * 60), n > 12 || n == 0}, true
	}
	return halfTime{}, false
}

// exactly says whether a time leaves no doubt about the half of the day: it lies beyond noon, has
// am or pm behind it, or a nought before it.
func exactly(text string, minutes int64) bool {
	return minutes >= 13*60 || minutes < 60 || strings.HasSuffix(text, "m") || strings.HasPrefix(text, "0") ||
		strings.HasSuffix(text, "noon") || strings.HasSuffix(text, "midnight")
}

func small(digits string) int {
	n := 0
	for _, d := range digits {
		if d < '0' || d > '9' || n > 99 {
			return 99
		}
		n = n*10 + int(d-'0')
	}
	return n
}
