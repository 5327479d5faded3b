package speech

import (
	"math/big"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// maxDigits bounds a number that is believed: longer ones are no sizes.
const maxDigits = 15

// scanNumber reads a number written in figures: 742, 91,5, 12,567, 1.250,5, 13/16, 29½, 18:30.
func scanNumber(text string, i int) token {
	t := token{start: i}
	if n, size, ok := vulgarAt(text, i); ok {
		t.num, t.form, t.end = n, fraction, i+size
		return t.named(text)
	}
	end := i
	for end < len(text) && (isDigit(rune(text[end])) || isSeparator(text, end)) {
		end++
	}
	t.num, t.form = figures(text[i:end])
	t.end = end
	switch {
	case t.num == nil:
	case end+2 < len(text) && text[end] == ':' && t.form == integer && startsDigit(text[end+1:]) && isDigit(rune(text[end+2])):
		t.end, t.form = end+3, clock
	case end < len(text) && text[end] == '/' && t.form == integer && startsDigit(text[end+1:]) && !crossedBySlash(text[i:]) && (i == 0 || text[i-1] != '/'):
		t = t.over(text, end+1)
	default:
		if n, size, ok := vulgarAt(text, end); ok {
			t.num.Add(t.num, n)
			t.form, t.end = mixed, end+size
		}
	}
	return t.exponent(text).named(text)
}

func (t token) named(text string) token {
	t.raw = text[t.start:t.end]
	t.text = strings.ToLower(t.raw)
	if t.num == nil { // also when figures stood before an exponent
		t.unread, t.form = true, noNumber
	}
	return t
}

// over reads the lower half of a fraction.
func (t token) over(text string, i int) token {
	end := i
	for end < len(text) && isDigit(rune(text[end])) {
		end++
	}
	den, f := figures(text[i:end])
	t.end = end
	if f != integer || den.Sign() == 0 {
		t.num = nil
		return t
	}
	t.num.Quo(t.num, den)
	t.form = fraction
	return t
}

// slashed is a size of two or three numbers with slashes between: 2700/145/30.
var slashed = regexp.MustCompile(`^(\d+)/(\d+)(/\d+)?(?:[^\d/]|$)`)

// crossedBySlash says whether a text starts with a size that has slashes between its numbers. The first of three
// is beyond the days of a month, and one of two is no fraction of an inch.
func crossedBySlash(text string) bool {
	m := slashed.FindStringSubmatch(text)
	if m == nil {
		return false
	}
	first, err := strconv.Atoi(m[1])
	if err != nil {
		return false
	}
	if m[3] != "" {
		return first > lastOfMonth
	}
	second, err := strconv.Atoi(m[2])
	return err == nil && first >= leastCrossed && second > 0 && second&(second-1) != 0
}

const (
	lastOfMonth  = 31
	leastCrossed = 100
)

// exponent refuses 1e400 and its like: nobody measures so.
func (t token) exponent(text string) token {
	rest := text[t.end:]
	if len(rest) < 2 || rest[0]|0x20 != 'e' {
		return t
	}
	j := 1
	if rest[j] == '+' || rest[j] == '-' {
		j++
	}
	digits := j
	for j < len(rest) && isDigit(rune(rest[j])) {
		j++
	}
	if j == digits || j < len(rest) && startsLetter(rest[j:]) {
		return t
	}
	t.num, t.end = nil, t.end+j
	return t
}

func vulgarAt(text string, i int) (*big.Rat, int, bool) {
	if i >= len(text) {
		return nil, 0, false
	}
	r, size := utf8.DecodeRuneInString(text[i:])
	f, ok := vulgar[r]
	return big.NewRat(f[0], max(f[1], 1)), size, ok
}

// isSeparator is a point or a comma between two digits.
func isSeparator(text string, i int) bool {
	if text[i] == '\'' {
		return threeFigures(text[i+1:])
	}
	return (text[i] == '.' || text[i] == ',') && i+1 < len(text) && isDigit(rune(text[i+1]))
}

// threeFigures says whether exactly three figures start a text, as behind the mark of thousands in 1'040: nobody
// says so many inches.
func threeFigures(text string) bool {
	n := 0
	for n < len(text) && isDigit(rune(text[n])) {
		n++
	}
	return n == 3 && !strings.HasPrefix(text[n:], `"`)
}

// figures gives the value of digits with points and commas. A comma is a decimal mark
// (12,5), unless exactly three digits follow each comma and no nought leads (12,567). Where
// points and commas both stand, the last one is the decimal mark.
func figures(s string) (*big.Rat, form) {
	s = strings.ReplaceAll(s, "'", "")
	points, commas := strings.Count(s, "."), strings.Count(s, ",")
	switch {
	case points > 0 && commas > 0:
		if strings.LastIndexByte(s, ',') > strings.LastIndexByte(s, '.') {
			s = strings.Replace(strings.ReplaceAll(s, ".", ""), ",", ".", 1)
		} else {
			s = strings.ReplaceAll(s, ",", "")
		}
	case commas > 0 && thousands(s, ","):
		s = strings.ReplaceAll(s, ",", "")
	case commas > 0:
		s = strings.ReplaceAll(s, ",", ".")
	case points > 1 && thousands(s, "."):
		s = strings.ReplaceAll(s, ".", "")
	}
	if strings.Count(s, ".") > 1 || len(s) > maxDigits || s == "" {
		return nil, noNumber
	}
	n, ok := new(big.Rat).SetString(s)
	if !ok {
		return nil, noNumber
	}
	if strings.Contains(s, ".") {
		return n, decimal
	}
	return n, integer
}

func thousands(s, sep string) bool {
	groups := strings.Split(s, sep)
	if len(groups[0]) > 3 || strings.HasPrefix(groups[0], "0") {
		return false
	}
	for _, g := range groups[1:] {
		if len(g) != 3 {
			return false
		}
	}
	return true
}

// upper says whether a token was typed as a capital, as units of temperature are.
func (t token) upper() bool {
	r, _ := utf8.DecodeRuneInString(t.raw)
	return unicode.IsUpper(r)
}
