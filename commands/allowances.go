package commands

import (
	"math/big"
	"strings"

	"fettle/calc/measure"
	"fettle/calc/rough"
	"fettle/commands/speech"
)

// dimensions are the three sizes that allowances belong to, with the words for them and for
// the places where they are taken off.
var dimensions = []struct{ name, words string }{
	{"length", " length lengths long lengthwise end ends l "},
	{"width", " width widths wide edge edges breadth w "},
	{"thickness", " thickness thicknesses thick face faces depth surface side sides t "},
}

func dimensionOf(word string) string {
	for _, d := range dimensions {
		if strings.Contains(d.words, " "+word+" ") {
			return d.name
		}
	}
	return ""
}

// readAllowances reads what is to be added or taken off per dimension: "50 on the length",
// "3 each face", "6 in all off the thickness", "ends stay as they are". What is said for each
// face, edge or end counts twice.
func readAllowances(r *speech.Reading) {
	readAllowanceList(r)
	readInOrder(r)
	readAllowanceOfTwo(r)
	for i := range r.Items {
		if !r.Free(i) {
			continue
		}
		q := r.Items[i].Q
		if q.Kind != measure.KindNumber && q.Kind != measure.KindLength && q.Kind != speech.KindCount {
			continue
		}
		if dimension, twice, ok := allowanceAt(r, i); ok {
			take(r, i, dimension, twice)
		}
	}
	if r.Says("ends|length stay|stays|are|is|left|remain as|untouched|alone") || r.Says("ends|length untouched|uncut") || r.Says("leave the? ends") {
		nothing(r, "length")
	}
	for _, d := range dimensions {
		readUntouched(r, d.name, "="+strings.ReplaceAll(strings.TrimSpace(d.words), " ", "|="))
		if r.Says("nothing|none|nowt|no off|on|from|at? the? =" + strings.ReplaceAll(strings.TrimSpace(d.words), " ", "|=")) {
			nothing(r, d.name)
		}
	}
}

// readUntouched reads that a dimension stays as it is: "length stays", "leave the width alone". "The
// width stays at 140" tells a size and no allowance.
func readUntouched(r *speech.Reading, dimension, words string) {
	for _, p := range []string{
		words + " stay|stays|remain|remains", words + " is|are unchanged|untouched", words + " unchanged|untouched", "off|from the? " + words + " goes|comes|is|gets|take|takes nothing|none|nowt|no", words + " i|we leave|keep|don't|never|won't",
		"leave|leaves|keep|keeps the? " + words + " alone|untouched|as|full|be", "not|don't|never|without touch|touching|cut|cutting|trim|trimming the? " + words,
	} {
		if _, to, ok := r.Stands(p); ok && (to >= len(r.Items) || r.Items[to].Q == nil) && !anyOf(wordAt(r, to), "at|between|within") {
			nothing(r, dimension)
			return
		}
	}
}

// mostAllowed bounds an allowance that is told as a size is, in mm: add 40 length, 6 width. Common
// practice, no source.
const mostAllowed = 150

// readAllowanceList reads the allowances of a list that opens with a word for adding or taking off:
// "add 40 length, 6 width, 5 thick", "plus length 40, width 6". There "40 long" is no size.
func readAllowanceList(r *speech.Reading) {
	for i := range r.Items {
		if !anyOf(wordAt(r, i), "add|adding|allow|allowing|plus|allowance|allowances|extra|oversize|overs|losing|less|minus") {
			continue
		}
		from := i + 1
		for anyOf(wordAt(r, from), ":|about|me|us|another|an|extra|of|are|is|in") {
			from++
		}
		if pairs, mixed := listedAllowances(r, from); len(pairs) > 0 && othersBeside(r, pairs) >= max(len(pairs), sizesToldFor(mixed)) {
			for item, dimension := range pairs {
				take(r, item, dimension, false)
			}
			return
		}
	}
}

// sizesToldFor is how many sizes a message must have beside a list that links some of its numbers to
// their dimension and others not: all three, for "70 wide" may else be the size.
func sizesToldFor(mixed bool) int {
	if mixed {
		return len(dimensions)
	}
	return 0
}

// readAllowanceOfTwo reads one allowance of two dimensions: "8 on both the width and the thickness".
func readAllowanceOfTwo(r *speech.Reading) {
	for i := range r.Items {
		if !r.Free(i) || !listedAllowance(r, i) {
			continue
		}
		k, linked := i+1, false
		for anyOf(wordAt(r, k), "on|for|off|from|to|in|at|both|the|extra|more|over") {
			linked = linked || anyOf(wordAt(r, k), "on|for|off|from|over")
			k++
		}
		first := dimensionOf(wordAt(r, k))
		if k++; first == "" || !linked || !anyOf(wordAt(r, k), "and|&") {
			continue
		}
		if k++; wordAt(r, k) == "the" || wordAt(r, k) == "on" {
			k++
		}
		second := dimensionOf(wordAt(r, k))
		if second == "" || second == first || k+1 < len(r.Items) && r.Items[k+1].Q != nil {
			continue
		}
		take(r, i, first, false)
		take(r, i, second, false)
	}
}

// listedAllowances gives the numbers of a list with the dimensions beside them. It says whether some
// are linked to theirs and others not: 40 to the length, 6 thick.
func listedAllowances(r *speech.Reading, from int) (out map[int]string, mixed bool) {
	out = map[int]string{}
	links := 0
	for i := from; i+1 < len(r.Items); {
		number, word := i, i+1
		if r.Items[i].Q == nil {
			number, word = i+1, i
		} else {
			for anyOf(wordAt(r, word), "on|onto|upon|to|for|in|extra|more|the") {
				word++
			}
		}
		d := dimensionOf(wordAt(r, word))
		if d == "" || !r.Free(number) || !listedAllowance(r, number) {
			break
		}
		if word > number+1 {
			links++
		}
		out[number] = d
		for i = max(number, word) + 1; anyOf(wordAt(r, i), ",|and|plus|&"); {
			i++
		}
	}
	return out, links > 0 && links < len(out)
}

// readInOrder takes allowances that stand in the order of the sizes, with no dimension named: three
// of them behind a word for allowing where all three sizes were said, +60 / +8 / +5. One alone, or
// two, may be for any dimension: that is asked.
func readInOrder(r *speech.Reading) {
	for i := range r.Items {
		if !anyOf(wordAt(r, i), "allow|allowing|allowance|allowances|add|adding|plus|extra") || anyOf(wordAt(r, i-1), "length|width|thickness") {
			continue
		}
		run := runOfNumbers(r, i+1)
		listed := map[int]string{}
		for k, item := range run {
			listed[item] = dimensions[k%len(dimensions)].name
		}
		switch {
		case len(run) == 0 || othersBeside(r, listed) < len(run):
		case len(run) == len(dimensions):
			for item, dimension := range listed {
				take(r, item, dimension, false)
			}
		case r.Question == nil:
			r.Question = &speech.Question{Text: "Which is that allowance for: the length, the width or the thickness?"}
		}
		return
	}
}

// runOfNumbers gives the allowances from item i on that follow each other with no word of a dimension
// or a place before or behind them.
func runOfNumbers(r *speech.Reading, i int) []int {
	var run []int
	for ; i < len(r.Items); i++ {
		switch w := wordAt(r, i); {
		case r.Free(i) && listedAllowance(r, i) && len(run) < len(dimensions):
			run = append(run, i)
		case r.Items[i].Q != nil:
			return nil
		case anyOf(w, "+|/|×|,|and|&|:|=|of|is|are|about|me|us|another"):
		case w == "." || w == "?" || w == ";" || w == ")" || anyOf(w, "resp|respectively|please|pls|what|how|in"):
			return run
		default:
			return nil
		}
	}
	return run
}

func listedAllowance(r *speech.Reading, i int) bool {
	q := r.Items[i].Q
	if q.Value == nil || q.High != nil || len(q.Per) > 0 || !q.Bare() && q.Kind != measure.KindLength {
		return false
	}
	l := r.Sized("length_allowance_mm", *q)
	return l.Num != nil && l.Num.Cmp(big.NewRat(mostAllowed, 1)) <= 0
}

// othersBeside counts the numbers of the message beside the listed ones that may be sizes.
func othersBeside(r *speech.Reading, listed map[int]string) int {
	n := 0
	for i := range r.Items {
		if _, in := listed[i]; !in && r.Free(i) && r.Items[i].Q.Value != nil && (r.Items[i].Q.Bare() || r.Items[i].Q.Kind == measure.KindLength) {
			n++
		}
	}
	return n
}

func nothing(r *speech.Reading, dimension string) {
	r.Put(dimension+"_allowance_mm", speech.Quantity{Kind: measure.KindNumber, Value: new(big.Rat)})
}

func take(r *speech.Reading, i int, dimension string, twice bool) {
	q := *r.Items[i].Q
	if q.Kind == speech.KindCount { // "4 off" before a place
		q.Kind = measure.KindNumber
	}
	q.Per = nil
	if twice {
		q.Value = new(big.Rat).Add(q.Value, q.Value)
	}
	r.Put(dimension+"_allowance_mm", q)
	r.Claim(i)
}

// allowanceAt says whether the number at i is an allowance, for what, and whether it counts
// twice. A place that follows without a link is a plain size: 70 wide.
func allowanceAt(r *speech.Reading, i int) (dimension string, twice, ok bool) {
	if wordAt(r, i+1) == "from" && wordAt(r, i+3) == "to" && wordAt(r, i+2) == wordAt(r, i+4) {
		return "", false, false // 2150 from end to end is the length itself
	}
	for _, per := range r.Items[i].Q.Per {
		if d := dimensionOf(per); d != "" {
			return d, true, true
		}
	}
	if d, ok := allowanceBefore(r, i); ok {
		return d, false, true
	}
	if d, twice, ok := placeBefore(r, i); ok {
		return d, twice, true
	}
	linked := false
	for k := i + 1; k < len(r.Items) && k <= i+8; k++ {
		it := r.Items[k]
		if it.Q != nil && it.Q.Bare() && dimensionOf(wordAt(r, k+1)) != "" && it.Q.Value != nil && it.Q.Value.Cmp(big.NewRat(2, 1)) == 0 {
			r.Claim(k)
			continue // each of the two faces
		}
		if it.Q != nil || it.Text == "×" || it.Text == "." || it.Text == ";" || it.Text == "?" {
			return "", false, false
		}
		switch it.Text {
		case "each", "every", "per", "either", "both", "a", "an":
			linked, twice = true, true
		case "on", "onto", "upon", "off", "for", "at", "from", "over", "extra", "more", "to", "spare", "oversize":
			linked = true
		case "in", "of":
			linked = linked || addedTo(r, i) // "600 in length" is the size itself
		case "all", "total", "altogether", "overall":
			twice = false
		case ",", "and":
			return "", false, false
		}
		if d := dimensionOf(it.Text); d != "" {
			if k == i+1 {
				return d, false, wordAt(r, k+1) == "allowance"
			}
			return d, twice, linked
		}
	}
	return "", false, false
}

// addedTo says whether a word for adding or taking off stands before the number at i in its sentence.
func addedTo(r *speech.Reading, i int) bool {
	for k := i - 1; k >= 0 && !anyOf(wordAt(r, k), ".|;|?|!"); k-- {
		if anyOf(wordAt(r, k), "add|adding|allow|allowing|plus|allowance|allowances|extra|oversize|over|overs|more|leave|leaving|spare|lose|losing|loses|take|takes|eat|eats|remove|removes") {
			return true
		}
	}
	return false
}

// placeBefore finds the place that stands before a number, with the word that takes off or adds
// between: "at each end I cut 15 off", "each face loses 2", "off the thickness goes 3".
func placeBefore(r *speech.Reading, i int) (dimension string, twice, ok bool) {
	cutting := false
	for k := i - 1; k >= 0 && k >= i-6; k-- {
		w := wordAt(r, k)
		d := dimensionOf(w)
		if d == "" {
			if !anyOf(w, "i|we|you|they|it|away|cut|cuts|take|takes|plane|planes|lose|loses|looses|saw|trim|remove|add|allow|leave|leaves|about|comes|come|goes|go|gets|get|another|further|:|want|have|off|planer|the|eats|needs") {
				return "", false, false
			}
			cutting = cutting || anyOf(w, "cut|cuts|take|takes|trim|saw|lose|loses|plane|planes|remove")
			continue
		}
		each := anyOf(wordAt(r, k-1), "each|every|either|per")
		off := anyOf(wordAt(r, k-1), "off|from") || wordAt(r, k-1) == "the" && anyOf(wordAt(r, k-2), "off|from")
		off = off || cutting && anyOf(wordAt(r, k-1), "in|on")
		plain := k < i-1 || i+1 == len(r.Items) || anyOf(wordAt(r, i+1), ",|and|.|:|;|?") || wordAt(r, i+1) == "in" && anyOf(wordAt(r, i+2), "total|all") // "each edge 5, " but "each edge 5 off each face"
		return d, each, plain && (each || off)
	}
	return "", false, false
}

// allowanceBefore finds "length allowance 80", "make the width allowance 12" and "allowance on
// the length is 80".
func allowanceBefore(r *speech.Reading, i int) (string, bool) {
	seen := false
	for k := i - 1; k >= 0 && k >= i-6; k-- {
		it := r.Items[k]
		if it.Q != nil || it.Text == "," || it.Text == "." {
			return "", false
		}
		if it.Text == "allowance" || it.Text == "allowances" {
			if d := dimensionOf(wordAt(r, k-1)); d != "" {
				return d, true
			}
			seen = true
		}
		if d := dimensionOf(it.Text); d != "" && seen {
			return d, true
		}
		if d := dimensionOf(it.Text); d != "" {
			if anyOf(wordAt(r, k-1), "allowance|allowances|extra") || strings.HasPrefix(wordAt(r, k-1), "on") && strings.HasPrefix(wordAt(r, k-2), "allowance") || wordAt(r, k-1) == "the" && wordAt(r, k-3) == "allowance" {
				return d, true
			}
			return "", false
		}
	}
	return "", false
}

func wordAt(r *speech.Reading, i int) string {
	if i < 0 || i >= len(r.Items) || r.Items[i].Q != nil {
		return ""
	}
	return r.Items[i].Text
}

// allowances are the ones that hold for a request: said, else the project's, else the
// program's own. own says which of them are not the program's.
type allowances struct {
	rough.Allowances
	own    map[string]bool
	said   map[string]bool
	system measure.System // the project's
}

func (a *Ask) allowances() allowances {
	out := allowances{own: map[string]bool{}, said: map[string]bool{}, system: a.System}
	for dimension, to := range map[string]*measure.Length{"length": &out.Length, "width": &out.Width, "thickness": &out.Thickness} {
		l, said := a.Length(dimension + "_allowance_mm")
		set, own := a.Settings.length(dimension + "_allowance")
		if !said {
			l = set
		}
		*to = l
		out.said[dimension] = said
		out.own[dimension] = said || own
	}
	return out
}

// describe says in a few words which allowances were used, for the sizes that were said. A project in mm
// keeps its own in mm where one answer is wanted in inches.
func (x allowances) describe(s measure.System, sizes map[string]bool) string {
	var parts []string
	source := ""
	for _, d := range dimensions {
		if !sizes[d.name] {
			continue
		}
		l := map[string]measure.Length{"length": x.Length, "width": x.Width, "thickness": x.Thickness}[d.name]
		text := s.Exact(l)
		if x.system == measure.Imperial {
			text = s.Shown(l)
		}
		parts = append(parts, text+" on the "+d.name)
		switch {
		case x.said[d.name]:
			source = join(source, "as you said")
		case x.own[d.name]:
			source = join(source, "your setting")
		default:
			source = join(source, "common practice")
		}
	}
	return strings.Join(parts, ", ") + " (" + source + ")"
}

func join(list, word string) string {
	if list == "" || strings.Contains(list, word) {
		return word
	}
	return list + " and " + word
}
