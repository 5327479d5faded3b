package speech

import (
	"math/big"
	"slices"
	"strings"

	"fettle/calc/measure"
)

// unitAt reads the unit behind a number at token i and tells how many tokens it took.
func unitAt(ts []token, i int) (*measure.Unit, int) {
	skip := 0
	if w := textAt(ts, i); w == "-" || w == "[" || w == "(" && len(ts) > i+2 && ts[i+2].text == ")" {
		skip = 1
	}
	for n := 3; n >= 1; n-- {
		j := i + skip
		if j+n > len(ts) {
			continue
		}
		if n > 1 && (ts[j+n-1].isNumber() || ts[j+n-1].text == ".") {
			continue // the stop ends the sentence: 30 degrees. In here ...
		}
		words := make([]string, n)
		for k := range words {
			words[k] = strings.TrimSuffix(ts[j+k].text, ".")
		}
		u, ok := measure.UnitNamed(strings.Join(words, " "))
		if !ok || !unitMeant(ts, j, n, u, skip > 0) {
			continue
		}
		used := skip + n
		switch end := textAt(ts, i+used); {
		case skip == 1 && (end == "]" || end == ")"):
			used++
		case end == "." && len(words[n-1]) <= 3 && i+used+1 < len(ts) && (!sealed(u.Symbol) || isRoleWord(textAt(ts, i+used+1))): // 3 in. wide
			used++
		}
		return u, used
	}
	return misspeltUnit(ts, i+skip, skip)
}

// sealed says whether a unit is written without a stop, so that one behind it ends the sentence.
func sealed(symbol string) bool {
	switch symbol {
	case "mm", "cm", "m", "m2", "m3", "kg", "g", "l", "ml", "c", "f", "pct":
		return true
	}
	return false
}

// longUnits are the names of units that are long enough to be told with a slip of one letter.
var longUnits = []string{"millimetres", "millimeters", "millimetre", "centimetres", "centimeters", "metres", "inches", "degrees", "percent", "litres",
	"minutes", "grams", "kilos", "celsius", "fahrenheit"}

// misspeltUnit reads the name of a unit with a slip of one letter.
func misspeltUnit(ts []token, i, skip int) (*measure.Unit, int) {
	w := textAt(ts, i)
	if len(w) < shortestMisspelt || isCommon(w) || skip > 0 && !ts[i].glued {
		return nil, 0
	}
	for _, name := range longUnits {
		if slip(w, name) {
			u, ok := measure.UnitNamed(name)
			if ok {
				return u, skip + 1
			}
		}
	}
	return nil, 0
}

// unitMeant tells words that are units here from the same words used otherwise: "in" is also
// a preposition, a lone letter may be anything unless it is written as a unit is.
func unitMeant(ts []token, j, n int, u *measure.Unit, hyphen bool) bool {
	t := ts[j]
	if n > 1 {
		return true
	}
	switch t.text {
	case "in":
		return inchesMeant(ts, j, hyphen)
	case "c", "f":
		return t.glued || t.upper() || swings(textAt(ts, j+1))
	case "n", "t", "s", "pt", "second", "quart":
		return t.glued
	case "'":
		return t.glued && !(j+1 < len(ts) && ts[j+1].glued && ts[j+1].text == "s")
	case "cube", "cubes":
		return !perWord(textAt(ts, j-1))
	}
	return true
}

// swings are the words behind a temperature of which only the letter of the scale was said.
func swings(w string) bool {
	switch w {
	case "swing", "range", "difference", "rise", "drop", "change":
		return true
	}
	return false
}

// inchesMeant says whether "in" behind a number is the unit. Before a unit, a number or a
// word that a place starts with it is the preposition: 742 in inches, 58 wide in 760,
// 40 in from each end.
func inchesMeant(ts []token, j int, hyphen bool) bool {
	if ts[j].glued || hyphen {
		return true
	}
	next := textAt(ts, j+1)
	if next == "." {
		next = textAt(ts, j+2)
	}
	if _, ok := afterPreposition[next]; ok || misspeltWood(next) {
		return woodOrAnd(next) && ts[j-1].num.Cmp(longestInches) <= 0 && otherInches(ts, j)
	}
	if _, ok := dimensions[next]; ok && (metricSizes(ts) || leastInSize(ts).Cmp(leastMetric) >= 0) {
		return false
	}
	if ts[j-1].num != nil && ts[j-1].num.Cmp(longestInches) > 0 && letters(next) && !isRoleWord(next) && next != "of" && next != "span" {
		return false // 310 in the middle, however that is spelled
	}
	if next == "" || next == "," || endSign(next) {
		for k := j - 2; k >= 0 && k >= j-7; k-- {
			switch ts[k].text {
			case "first", "last", "outer", "outermost", "end", "ends", "start", "starting", "begin", "beginning":
				return false // the first one 50 in
			}
		}
	}
	if j+1 < len(ts) && ts[j+1].isNumber() {
		return false
	}
	if u, ok := measure.UnitNamed(next); ok && u.Symbol != "in" && len(next) > 1 || next == "inches" || next == "inch" {
		return false
	}
	return true
}

// woodOrAnd says whether a word may follow a size in inches as well as the preposition: 32 in oak, 76 in and.
func woodOrAnd(w string) bool {
	return w == "and" || w == "white" || w == "red" || w == "black" || isWood(w)
}

// isWood says whether a word is the name of a timber that is told apart from other words.
func isWood(w string) bool {
	return slices.Contains(longWoods, w) || w == "oak" || w == "ash" || w == "pine" || w == "fir" || w == "hardwood" || w == "softwood"
}

// otherInches says whether another number of the message is one of inches beyond doubt, and none
// metric, so that "in" behind the number before token j is too.
func otherInches(ts []token, j int) bool {
	if metricSizes(ts) {
		return false
	}
	for k := 1; k < len(ts); k++ {
		if k == j || !ts[k-1].isNumber() {
			continue
		}
		switch next := textAt(ts, k+1); {
		case ts[k].text == "inch" || ts[k].text == "inches" || ts[k].text == `"`:
			return true
		case ts[k].text == "in" && (isRoleWord(next) || next == "×" || next == "." || next == "," || next == "" || next == "?"):
			return true
		}
	}
	return false
}

// dimensions are the words for a size that may stand behind the preposition: 600 in length.
var dimensions = wordSet("length width breadth thickness depth height diameter")

// longestInches is the largest number that may be one of inches in a message about parts.
var longestInches = big.NewRat(130, 1)

// leastMetric is from which number on "60 in width" is one of millimetres, where no smaller one stands so. Common
// practice, no source.
var leastMetric = big.NewRat(25, 1)

// leastInSize gives the smallest number in front of "in width" and the like.
func leastInSize(ts []token) *big.Rat {
	least := longestInches
	for i := 2; i < len(ts); i++ {
		if _, ok := dimensions[ts[i].text]; ok && ts[i-1].text == "in" && ts[i-2].isNumber() && ts[i-2].num.Cmp(least) < 0 {
			least = ts[i-2].num
		}
	}
	return least
}

// metricSizes says whether a message tells its sizes in metric units: by a unit, or by a number
// that is too large for inches.
func metricSizes(ts []token) bool {
	return slices.ContainsFunc(ts, func(t token) bool {
		return t.text == "mm" || t.text == "cm" || t.isNumber() && t.num.Cmp(longestInches) > 0
	})
}

// longWoods are names of timber that are long enough to be told with a slip of one letter.
var longWoods = []string{"sapele", "larch", "beech", "maple", "walnut", "cherry", "mahogany", "spruce", "iroko", "meranti", "douglas", "plywood", "cedar", "birch"}

// misspeltWood says whether a word is a timber's name with a slip of one letter.
func misspeltWood(w string) bool {
	return slices.ContainsFunc(longWoods, func(name string) bool { return Misspelt(w, name) })
}

// afterPreposition are words that follow "in" when it is no unit.
var afterPreposition = wordSet(`from the a an each all our my your this that here there it its total stock place order half
	which what one western red white black yellow european american african english hard soft douglas scots norway cedar spruce fir birch cherry mahogany utile meranti ipe oak ash sapele larch pine iroko teak beech maple walnut clamps cramps decimal decimals fractions
	metric imperial millimetres millimeters feet both either every at and off between hardwood softwood wood timber ply plywood mdf
	epoxy pva polyurethane pu pur resorcinol resin glue
	groove grooves rebate rebates rabbet channel channels summer winter unheated heated damp wet`)

func wordSet(words string) map[string]struct{} {
	m := map[string]struct{}{}
	for _, w := range strings.Fields(words) {
		m[w] = struct{}{}
	}
	return m
}

// perUnits are the words of "a cube", "each", "per board foot" that are no units of measure,
// or are named otherwise when something is counted by them.
var perUnits = []struct{ words, symbol string }{
	{"board foot", "board_foot"}, {"board feet", "board_foot"}, {"bd ft", "board_foot"}, {"bf", "board_foot"}, {"foot board measure", "board_foot"},
	{"running metre", "m"}, {"running meter", "m"}, {"linear metre", "m"}, {"linear meter", "m"}, {"lin m", "m"}, {"metre run", "m"},
	{"running foot", "ft"}, {"linear foot", "ft"},
	{"board", "board"}, {"plank", "board"}, {"piece", "board"}, {"length", "board"}, {"pop", "board"}, {"apiece", "board"}, {"stick", "board"},
	{"face", "face"}, {"edge", "edge"}, {"end", "end"}, {"side", "side"}, {"joint", "joint"}, {"line", "joint"}, {"coat", "coat"},
	{"deg c", "c"}, {"degree", "c"}, {"k", "c"},
}

func perWord(w string) bool {
	return w == "per" || w == "a" || w == "an" || w == "/" || w == "the" || w == "each"
}

// readPer reads what a number counts by: "180 grams a square metre", "900 a cube", "48 each".
func (q *Quantity) readPer(ts []token, i int) int {
	used := 0
	for {
		symbol, more := perAt(ts, i+used, len(q.Per) > 0)
		if more == 0 {
			return used
		}
		q.Per = append(q.Per, symbol)
		used += more
	}
}

func perAt(ts []token, i int, again bool) (string, int) {
	link := textAt(ts, i)
	if link == "each" || link == "apiece" {
		return eachOf(ts, i)
	}
	if symbol, used := everyArea(ts, i); used > 0 {
		return symbol, used
	}
	if link != "per" && link != "a" && link != "an" && link != "/" && link != "the" {
		return "", 0
	}
	for _, p := range perUnits {
		n := strings.Count(p.words, " ") + 1
		if phrase(ts, i+1, n) == p.words && (link == "per" || link == "/" || link == "a" && p.symbol != "face") {
			return p.symbol, n + 1
		}
	}
	if link == "the" && textAt(ts, i+1) != "cube" {
		return "", 0
	}
	for n := 2; n >= 1; n-- {
		if u, ok := measure.UnitNamed(phrase(ts, i+1, n)); ok && perMeant(u, link, again) {
			return u.Symbol, n + 1
		}
	}
	return "", 0
}

// everyArea reads an area that is counted by with another word than "per": 200 g for square metre, 10 to the
// square metre, 150 on every m2.
func everyArea(ts []token, i int) (string, int) {
	switch textAt(ts, i) {
	case "for", "to", "on", "every", "each", "in":
	default:
		return "", 0
	}
	used := 1
	for w := textAt(ts, i+used); w == "the" || w == "a" || w == "each" || w == "every" || w == "one"; w = textAt(ts, i+used) {
		used++
	}
	for n := 2; n >= 1; n-- {
		if u, ok := measure.UnitNamed(phrase(ts, i+used, n)); ok && u.Kind == measure.KindArea {
			return u.Symbol, used + n
		}
	}
	return "", 0
}

// perMeant keeps "2 m a day" and the like out: after an article only what timber, glue and
// finish are sold or spread by counts.
func perMeant(u *measure.Unit, link string, again bool) bool {
	if link == "per" || link == "/" || again {
		return true
	}
	switch u.Symbol {
	case "m2", "m3", "m", "l", "ft", "ft2", "ft3", "bf", "kg", "gal":
		return true
	}
	return false
}

// eachOf reads "each" with what it is each of: face, edge, end; alone it is a piece.
func eachOf(ts []token, i int) (string, int) {
	switch strings.TrimSuffix(textAt(ts, i+1), "s") {
	case "face", "edge", "end", "side":
		return "", 0 // a place, read by the topic
	case "board", "plank", "piece", "length", "one":
		return "board", 2
	}
	return "board", 1
}

func phrase(ts []token, i, n int) string {
	if i+n > len(ts) {
		return ""
	}
	words := make([]string, n)
	for k := range words {
		words[k] = ts[i+k].text
	}
	return strings.Join(words, " ")
}
