package commands_test

import (
	"fmt"
	"math/rand/v2"
	"os"
	"regexp"
	"strconv"
	"strings"
	"unicode"
)

// A law is a way of saying the same thing otherwise: given a message it makes another that means
// the same, or none where it does not apply.
type law struct {
	name string
	say  func(text string, r *rand.Rand) string
}

// laws are the ways in which a message may be typed without its meaning another thing.
var laws = []law{
	{"in capitals", func(s string, _ *rand.Rand) string { return strings.ToUpper(s) }},
	{"in small letters", func(s string, _ *rand.Rand) string { return strings.ToLower(s) }},
	{"as a title", func(s string, _ *rand.Rand) string { return capitals(s) }},
	{"without a mark at the end", func(s string, _ *rand.Rand) string { return strings.TrimRight(s, "?.! ") }},
	{"with other marks at the end", func(s string, r *rand.Rand) string {
		return strings.TrimRight(s, "?.! ") + []string{"?", "!", ".", "??", "...", " ?"}[r.IntN(6)]
	}},
	{"with wide spaces", func(s string, _ *rand.Rand) string { return strings.ReplaceAll(s, " ", "  ") }},
	{"with a greeting", func(s string, r *rand.Rand) string {
		return []string{"please ", "hi, ", "ok so ", "hello fettle, ", "um ", "right, "}[r.IntN(6)] + s
	}},
	{"with thanks", func(s string, r *rand.Rand) string {
		return strings.TrimRight(s, "?.! ") + []string{" please", ", thanks", " please, thank you", ", ta"}[r.IntN(4)]
	}},
	{"with units otherwise", otherUnits},
	{"in words", inWords},
	{"in another order", turned},
}

func capitals(s string) string {
	out, start := []rune(s), true
	for i, r := range out {
		if start {
			out[i] = unicode.ToUpper(r)
		}
		start = r == ' '
	}
	return string(out)
}

var longWord = regexp.MustCompile(`[A-Za-z]{5,}`)

// slipped puts one wrong letter into one word of five letters or more: two swapped, one left out,
// one doubled, or the neighbour on the keyboard.
func slipped(s string, r *rand.Rand) string {
	at := longWord.FindAllStringIndex(s, -1)
	if len(at) == 0 {
		return ""
	}
	w := at[r.IntN(len(at))]
	word := s[w[0]:w[1]]
	i := 1 + r.IntN(len(word)-2)
	switch r.IntN(4) {
	case 0:
		if word[i] == word[i+1] {
			return ""
		}
		word = word[:i] + word[i+1:i+2] + word[i:i+1] + word[i+2:]
	case 1:
		word = word[:i] + word[i+1:]
	case 2:
		word = word[:i] + word[i:i+1] + word[i:]
	case 3:
		next, ok := neighbours[word[i]]
		if !ok {
			return ""
		}
		word = word[:i] + next[r.IntN(len(next)):][:1] + word[i+1:]
	}
	if ordinary[strings.ToLower(word)] {
		return ""
	}
	return s[:w[0]] + word + s[w[1]:]
}

// ordinary are words that a slip may make of another: nobody can tell then.
var ordinary = func() map[string]bool {
	list, err := os.ReadFile(lookalikeFile)
	if err != nil {
		panic(err)
	}
	out := map[string]bool{}
	for _, w := range strings.Fields(string(list)) {
		out[w] = true
	}
	return out
}()

// neighbours are the letters beside a letter on the keyboard.
var neighbours = map[byte]string{'a': "sq", 'b': "vn", 'c': "xv", 'd': "sf", 'e': "wr", 'f': "dg", 'g': "fh", 'h': "gj", 'i': "uo", 'k': "jl", 'l': "k", 'm': "n",
	'n': "bm", 'o': "ip", 'p': "o", 'r': "et", 's': "ad", 't': "ry", 'u': "yi", 'v': "cb", 'w': "qe", 'y': "tu"}

var spelledUnit = regexp.MustCompile(`(\d) ?(mm|cm|kg|degrees|inches|%)\b|(\d) ?%`)

// unitSpellings are five ways of writing each unit.
var unitSpellings = map[string][]string{
	"mm": {"mm", " mm", " millimetres", " millimeters", "MM"}, "cm": {"cm", " cm", " centimetres", " centimeters", "CM"},
	"kg": {"kg", " kg", " kilos", " kilograms", "KG"}, "degrees": {" degrees", " degree", "°", " deg", " Degrees"},
	"inches": {" inches", " inch", "in", `"`, " INCHES"}, "%": {"%", " %", " percent", " per cent", " PERCENT"},
}

func otherUnits(s string, r *rand.Rand) string {
	out := spelledUnit.ReplaceAllStringFunc(s, func(m string) string {
		unit := strings.TrimLeft(m, "0123456789 ")
		ways := unitSpellings[unit]
		return m[:1] + ways[r.IntN(len(ways))]
	})
	if out == s {
		return ""
	}
	return out
}

var wholeNumber = regexp.MustCompile(`(^|[ (])(\d{1,4})($|[ ?)]|, )`)

// inWords writes one whole number of the message in words.
func inWords(s string, r *rand.Rand) string {
	at := wholeNumber.FindAllStringSubmatchIndex(s, -1)
	if len(at) == 0 {
		return ""
	}
	m := at[r.IntN(len(at))]
	n, err := strconv.Atoi(s[m[4]:m[5]])
	if err != nil || n == 0 {
		return ""
	}
	return s[:m[4]] + spoken(n) + s[m[5]:]
}

var small = strings.Fields("zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen")
var tens = strings.Fields("- - twenty thirty forty fifty sixty seventy eighty ninety")

func spoken(n int) string {
	switch {
	case n < 20:
		return small[n]
	case n < 100 && n%10 == 0:
		return tens[n/10]
	case n < 100:
		return tens[n/10] + " " + small[n%10]
	case n < 1000 && n%100 == 0:
		return small[n/100] + " hundred"
	case n < 1000:
		return small[n/100] + " hundred and " + spoken(n%100)
	case n%1000 == 0:
		return spoken(n/1000) + " thousand"
	case n%1000 < 100:
		return fmt.Sprintf("%s thousand and %s", spoken(n/1000), spoken(n%1000))
	}
	return spoken(n/1000) + " thousand " + spoken(n%1000)
}

// turned puts what stands behind the comma before what stands in front of it.
func turned(s string, _ *rand.Rand) string {
	parts := strings.Split(strings.TrimRight(s, "?.! "), ", ")
	if len(parts) != 2 || strings.HasPrefix(parts[1], "and ") {
		return ""
	}
	return parts[1] + ", " + parts[0]
}
