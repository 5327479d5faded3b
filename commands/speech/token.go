package speech

import (
	"math/big"
	"strings"
	"unicode"
	"unicode/utf8"
)

// token is a run of characters that belong together: a word, a number or a sign.
type token struct {
	text   string   // lower case, as typed otherwise
	raw    string   // as typed
	num    *big.Rat // of a number
	form   form     // how the number was written
	glued  bool     // nothing stood between it and the token before
	start  int      // byte offsets in the normalised text
	end    int
	unread bool // looks like a number and can't be one: 1e400
}

// form is how a number was written.
type form int

const (
	noNumber form = iota
	integer
	decimal
	fraction // 7/8, ½, "three eighths"
	mixed    // 2 1/4, 29½
	clock    // 18:30
)

func (t token) isNumber() bool { return t.num != nil }

// normal maps characters that phones and spreadsheets put in to the ones meant, and drops
// control characters and marks of writing direction.
func normal(text string) string {
	var b strings.Builder
	b.Grow(len(text))
	for _, r := range text {
		switch {
		case r == '\n' || r == '\t' || r == '\r':
			b.WriteByte(' ')
		case unicode.Is(unicode.Cf, r) || unicode.IsControl(r) || r == utf8.RuneError:
		case unicode.IsSpace(r):
			b.WriteByte(' ')
		case r >= '０' && r <= '９':
			b.WriteRune(r - '０' + '0')
		default:
			if s, ok := plain[r]; ok {
				b.WriteString(s)
			} else {
				b.WriteRune(r)
			}
		}
	}
	return b.String()
}

var plain = map[rune]string{
	'’': "'", '‘': "'", '′': "'", '`': "'", '´': "'", 'ʹ': "'",
	'”': `"`, '“': `"`, '″': `"`, '„': `"`, '＂': `"`,
	'×': "×", '✕': "×", '✖': "×", '⨯': "×", '·': "×",
	'–': "-", '—': "-", '−': "-", '‐': "-", '‑': "-",
	'²': "2", '³': "3", '⁄': "/", '∕': "/", '⅟': "1/",
}

// vulgar are the fractions that have a character of their own.
var vulgar = map[rune][2]int64{
	'½': {1, 2}, '⅓': {1, 3}, '⅔': {2, 3}, '¼': {1, 4}, '¾': {3, 4}, '⅕': {1, 5}, '⅖': {2, 5},
	'⅗': {3, 5}, '⅘': {4, 5}, '⅙': {1, 6}, '⅚': {5, 6}, '⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8},
}

// tokens cuts a normalised text into tokens.
func tokens(text string) []token {
	var out []token
	glued := false
	for i := 0; i < len(text); {
		r, size := utf8.DecodeRuneInString(text[i:])
		if r == ' ' {
			glued = false
			i += size
			continue
		}
		t := scan(text, i, r, size, out, glued)
		t.glued = glued && len(out) > 0
		if n := len(out); t.isNumber() && t.glued && n > 1 && out[n-1].text == "/" && out[n-1].glued && out[n-2].isNumber() && out[n-2].form == integer {
			out[n-1].text = "×" // 2700/145/30
		}
		out = append(out, t)
		i = t.end
		glued = true
	}
	return out
}

func scan(text string, i int, r rune, size int, before []token, glued bool) token {
	switch {
	case isDigit(r), r == '.' && startsDigit(text[i+size:]) && !glued, isVulgar(r):
		return scanNumber(text, i)
	case r == '-' && startsNumber(text[i+size:]) && signAllowed(before, glued):
		t := scanNumber(text, i+size)
		if t.num != nil {
			t.num.Neg(t.num)
		}
		t.start, t.raw = i, text[i:t.end]
		return t
	case (r == 'x' || r == 'X') && startsNumber(text[i+size:]):
		return sign(text, i, i+size, "×")
	case unicode.IsLetter(r) || r == 'µ':
		return scanWord(text, i)
	case r == '\'' && strings.HasPrefix(text[i:], "''"):
		return sign(text, i, i+2, `"`)
	default:
		s := string(r)
		if r == '*' {
			s = "×"
		}
		return sign(text, i, i+size, s)
	}
}

func sign(text string, start, end int, as string) token {
	return token{text: as, raw: text[start:end], start: start, end: end}
}

// signAllowed says whether a dash before a number can be a minus: at the start, or after a
// space when the token before is not itself a number.
func signAllowed(before []token, glued bool) bool {
	if len(before) == 0 {
		return true
	}
	last := before[len(before)-1]
	return !glued && !last.isNumber() || last.text == "×" || last.text == "("
}

func scanWord(text string, i int) token {
	end := i
	for end < len(text) {
		r, size := utf8.DecodeRuneInString(text[end:])
		inner := r == '\'' && end+size < len(text) && startsLetter(text[end+size:])
		if !unicode.IsLetter(r) && !unicode.IsMark(r) && !isDigit(r) && !inner {
			break
		}
		if end > i && r == 'x' && isDigit(rune(text[end-1])) && startsDigit(text[end+size:]) {
			break
		}
		end += size
	}
	if strings.EqualFold(text[i:end], "an") && end < len(text) && text[end] == '\'' {
		return token{text: "and", raw: text[i : end+1], start: i, end: end + 1} // two an' a half
	}
	raw := text[i:end]
	lower := strings.ToLower(raw)
	if strings.HasPrefix(text[end:], "'") {
		if whole, ok := clipped[lower]; ok { // an' = and
			return token{text: whole, raw: text[i : end+1], start: i, end: end + 1}
		}
	}
	if len(lower) > 3 && strings.HasPrefix(lower, "t'") {
		lower = lower[2:] // t'board
	}
	if whole, ok := shorthand[lower]; ok {
		lower = whole
	}
	if lower == "x" || lower == "by" {
		lower = "×"
	}
	return token{text: lower, raw: raw, start: i, end: end}
}

// clipped are words that are said without their last letter.
var clipped = map[string]string{"an": "and", "o": "of", "i": "in", "wi": "with", "th": "the", "t": "the", "makin": "making", "gluin": "gluing", "goin": "going", "laminatin": "laminating"}

func isDigit(r rune) bool        { return r >= '0' && r <= '9' }
func startsDigit(s string) bool  { return s != "" && isDigit(rune(s[0])) }
func isVulgar(r rune) bool       { _, ok := vulgar[r]; return ok }
func startsLetter(s string) bool { r, _ := utf8.DecodeRuneInString(s); return unicode.IsLetter(r) }
func startsNumber(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return isDigit(r) || isVulgar(r) || r == '.' && startsDigit(s[1:])
}
