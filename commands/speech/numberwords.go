package speech

import (
	"math/big"
	"strings"
)

var ones = map[string]int64{
	"zero": 0, "nought": 0, "naught": 0, "nil": 0,
	"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
	"ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
	"seventeen": 17, "eighteen": 18, "nineteen": 19,
}

var tens = map[string]int64{
	"twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
}

// parts are the names of fractions, in the singular.
var parts = map[string]int64{
	"half": 2, "halve": 2, "third": 3, "quarter": 4, "fourth": 4, "fifth": 5, "sixth": 6, "eighth": 8, "tenth": 10,
	"sixteenth": 16, "thirtysecond": 32, "sixtyfourth": 64,
}

// spell replaces number words by numbers: "four hundred and ninety five", "two and a quarter",
// "one twenty five" (said as people say sizes), "half a dozen", "naught point five".
func spell(in []token) []token {
	out := make([]token, 0, len(in))
	for i := 0; i < len(in); {
		n, f, used := spelled(in[i:])
		if used == 1 && in[i].text == "one" && i > 0 && pointsAt(in[i-1].text) && !measured(in[i+1:]) {
			used = 0 // that one, the last one
		}
		if used == 0 {
			n, f, used = fractionAfter(in[i:])
		}
		if used == 0 {
			out = append(out, in[i])
			i++
			continue
		}
		if f == fraction {
			used += ofOne(in[i+used:])
		}
		first, last := in[i], in[i+used-1]
		words := make([]string, used)
		for k := range words {
			words[k] = in[i+k].text
		}
		first.text, first.num, first.form, first.end = strings.Join(words, " "), n, f, last.end
		out = append(out, first)
		i += used
	}
	return out
}

// measured says whether what stands behind "one" makes it a number whatever stands before it: one and
// 5/16, one inch.
func measured(behind []token) bool {
	w := textAt(behind, 0)
	return w == "and" && len(behind) > 1 && behind[1].form == fraction || w == "inch" || w == "metre" || w == "meter" || w == "coat"
}

// pointsAt says whether "one" behind the word is a pronoun.
func pointsAt(w string) bool {
	switch w {
	case "can", "may", "must", "should", "does", "could", "would", "might", "will", "that", "this", "which", "last", "wrong", "other", "another", "first", "second", "third", "new", "old", "no", "any", "every", "each", "the", "long", "short", "big", "small", "'s":
		return true
	}
	return strings.HasSuffix(w, "'s")
}

// spelled reads a number in words at the start of the tokens and tells how many it took.
func spelled(ts []token) (*big.Rat, form, int) {
	if n, f, used := dozen(ts); used > 0 {
		return n, f, used
	}
	if n, used := leadingFraction(ts); used > 0 {
		return n, fraction, used
	}
	whole, used := wholeWords(ts)
	if used == 0 {
		return nil, noNumber, 0
	}
	n := new(big.Rat).SetInt64(whole)
	if d, more := pointWords(ts[used:]); more > 0 {
		return n.Add(n, d), decimal, used + more
	}
	if p, more := plainFraction(ts[used:]); more > 0 && whole > 0 {
		return n.Mul(n, p), fraction, used + more // five eighths
	}
	if p, more := andFraction(ts[used:]); more > 0 {
		return n.Add(n, p), mixed, used + more
	}
	return n, integer, used
}

// fractionAfter reads "2 and a half" and "2 and three quarters" behind a number in figures.
func fractionAfter(ts []token) (*big.Rat, form, int) {
	if len(ts) < 2 || !ts[0].isNumber() || ts[0].form != integer {
		return nil, noNumber, 0
	}
	p, used := andFraction(ts[1:])
	if used == 0 {
		return nil, noNumber, 0
	}
	return p.Add(p, ts[0].num), mixed, used + 1
}

func textAt(ts []token, i int) string {
	if i < len(ts) {
		return ts[i].text
	}
	return ""
}

// wholeWords reads hundreds, tens and ones. Sizes are also said in pairs: "seven forty two".
func wholeWords(ts []token) (int64, int) {
	total, used := int64(0), 0
	if w := textAt(ts, 0); (w == "a" || w == "an") && (textAt(ts, 1) == "hundred" || textAt(ts, 1) == "thousand") {
		total, used = 1, 1
	} else if total, used = belowHundred(ts); used == 0 {
		return 0, 0
	}
	if more, n := belowHundred(ts[used:]); n > 0 && more >= 10 && total > 0 && total < 100 && (total < 20 || total%10 == 0) && total != 10 {
		return total*100 + more, used + n
	}
	if n := ones[textAt(ts, used+1)]; textAt(ts, used) == "oh" && total > 0 && total < 100 && n > 0 && n < 10 {
		return total*100 + n, used + 2 // eleven oh five
	}
	if textAt(ts, used) == "hundred" {
		total, used = total*100, used+1
		skip := joinsNumber(ts[used:])
		if more, n := belowHundred(ts[used+skip:]); n > 0 {
			total, used = total+more, used+skip+n
		}
	}
	if textAt(ts, used) == "thousand" {
		total, used = total*1000, used+1
		skip := joinsNumber(ts[used:])
		if more, n := wholeWords(ts[used+skip:]); n > 0 && more < 1000 {
			total, used = total+more, used+skip+n
		}
	}
	return total, used
}

// joinsNumber skips an "and" that stands between a hundred and a number word, unless a
// fraction follows.
func joinsNumber(ts []token) int {
	if textAt(ts, 0) != "and" {
		return 0
	}
	if _, n := andFraction(ts); n > 0 {
		return 0
	}
	return 1
}

func belowHundred(ts []token) (int64, int) {
	w := textAt(ts, 0)
	if n, ok := ones[w]; ok {
		return n, 1
	}
	n, ok := tens[w]
	if !ok {
		return 0, 0
	}
	next := 1
	if textAt(ts, 1) == "-" && len(ts) > 2 && ts[1].glued && ts[2].glued {
		next = 2
	}
	if one, ok := ones[textAt(ts, next)]; ok && one > 0 && one < 10 {
		return n + one, next + 1
	}
	return n, 1
}

// pointWords reads "point five", "point two five".
func pointWords(ts []token) (*big.Rat, int) {
	if textAt(ts, 0) != "point" {
		return nil, 0
	}
	sum, scale, used := new(big.Rat), big.NewRat(1, 1), 1
	for {
		d, ok := ones[textAt(ts, used)]
		if !ok || d > 9 {
			break
		}
		scale.Mul(scale, big.NewRat(1, 10))
		sum.Add(sum, new(big.Rat).Mul(scale, new(big.Rat).SetInt64(d)))
		used++
	}
	if used == 1 {
		return nil, 0
	}
	return sum, used
}

// plainFraction reads "eighths", "- eighths", "quarters": the name of a part behind a number.
func plainFraction(ts []token) (*big.Rat, int) {
	used := 0
	if textAt(ts, 0) == "-" {
		used = 1
	}
	w := textAt(ts, used)
	if strings.HasPrefix(textAt(ts, used+1), "sawn") || strings.HasPrefix(textAt(ts, used+1), "past") {
		return nil, 0
	}
	d, ok := parts[strings.TrimSuffix(w, "s")]
	if !ok || w == "second" {
		return nil, 0
	}
	return big.NewRat(1, d), used + 1
}

// andFraction reads "and a quarter", "and a half", "and three eighths".
func andFraction(ts []token) (*big.Rat, int) {
	if w := textAt(ts, 0); w != "and" && (w != "an" && w != "n" && w != "&" || textAt(ts, 1) != "a") {
		return nil, 0
	}
	return properFraction(ts, 1)
}

// properFraction reads "a quarter" or "three eighths" from the given token on.
func properFraction(ts []token, from int) (*big.Rat, int) {
	count, used := int64(1), from
	switch w := textAt(ts, from); {
	case w == "a" || w == "an":
		used++
	case w == "half" && from > 0 && textAt(ts, from+1) != "past" && textAt(ts, from+1) != "a":
		return big.NewRat(1, 2), from + 1 // two and half
	case ones[w] > 0 && ones[w] < 64:
		count, used = ones[w], from+1
	default:
		return nil, 0
	}
	if used >= len(ts) {
		return nil, 0
	}
	p, more := plainFraction(ts[used:])
	if more == 0 {
		return nil, 0
	}
	return p.Mul(p, new(big.Rat).SetInt64(count)), used + more
}

// leadingFraction reads a fraction that opens: "a quarter", "half an inch", "half a degree",
// "a half". A bare "half" or "quarter" is a word, as in "quarter sawn" and "half past".
func leadingFraction(ts []token) (*big.Rat, int) {
	w := textAt(ts, 0)
	if w == "a" || w == "an" {
		if p, used := properFraction(ts, 0); used > 0 && !timeFollows(ts[used:]) && !waysOfWork(ts[used:]) {
			return p, used
		}
		return nil, 0
	}
	d, ok := parts[w]
	if !ok || w != "half" && w != "quarter" {
		return nil, 0
	}
	switch next := textAt(ts, 1); {
	case next == "of" && ofOne(ts[1:]) > 0:
		return big.NewRat(1, d), 1
	case next == "a" || next == "an":
		if _, isUnit := unitWords[textAt(ts, 2)]; isUnit {
			return big.NewRat(1, d), 2
		}
	case next == "inch" || next == "mm" || next == "metre" || next == "hour" || next == "degree" || next == "litre":
		return big.NewRat(1, d), 1
	}
	return nil, 0
}

// ofOne counts the words between a fraction and the unit that it is a part of: a quarter of a
// degree.
func ofOne(ts []token) int {
	if w := textAt(ts, 1); textAt(ts, 0) != "of" || w != "a" && w != "an" {
		return 0
	}
	if _, isUnit := unitWords[textAt(ts, 2)]; !isUnit {
		return 0
	}
	return 2
}

// unitWords may follow "half a".
var unitWords = map[string]struct{}{
	"inch": {}, "metre": {}, "meter": {}, "millimetre": {}, "millimeter": {}, "mm": {}, "mil": {}, "foot": {}, "degree": {}, "litre": {}, "liter": {},
	"hour": {}, "square": {}, "cube": {}, "cubic": {}, "kilo": {}, "kg": {}, "percent": {}, "yard": {}, "pint": {}, "pound": {}, "day": {}, "minute": {},
}

// waysOfWork says whether what follows makes a fraction a way of sawing or joining: a quarter-sawn panel, a half lap.
func waysOfWork(ts []token) bool {
	i := 0
	if textAt(ts, 0) == "-" {
		i++
	}
	switch textAt(ts, i) {
	case "sawn", "cut", "sawed", "round", "lap", "lapped", "moon", "turn", "blind":
		return true
	}
	return false
}

func timeFollows(ts []token) bool {
	w := textAt(ts, 0)
	return w == "past" || w == "to" && ones[textAt(ts, 1)] > 0
}

// dozen reads "half a dozen", "a dozen", "a couple of", "a pair of", "two pairs of".
func dozen(ts []token) (*big.Rat, form, int) {
	count, used := big.NewRat(1, 1), 0
	switch w := textAt(ts, 0); {
	case w == "half" && textAt(ts, 1) == "a":
		count, used = big.NewRat(1, 2), 2
	case w == "a":
		used = 1
	case ones[w] > 0:
		count, used = big.NewRat(ones[w], 1), 1
	case len(ts) > 0 && ts[0].isNumber() && ts[0].form == integer:
		count, used = new(big.Rat).Set(ts[0].num), 1
	}
	size, ok := map[string]int64{"dozen": 12, "dozens": 12, "couple": 2, "pair": 2, "pairs": 2}[textAt(ts, used)]
	if !ok || used == 0 {
		return nil, noNumber, 0
	}
	used++
	if textAt(ts, used) == "of" {
		used++
	}
	return count.Mul(count, new(big.Rat).SetInt64(size)), integer, used
}
