package speech

import (
	"regexp"
	"strings"
)

// habits are ways of writing numbers that only the letters around them tell from others, with the plain way.
var habits = []struct {
	write *regexp.Regexp
	plain string
}{
	{regexp.MustCompile(`\b(\d{1,2})m(\d{2})\b`), "$1.$2 m"},                                                                                   // 2m40
	{regexp.MustCompile(`\b(\d{1,2})ft(\d{1,2})\b`), "$1 ft $2 in"},                                                                            // 5ft4
	{regexp.MustCompile(`(\d)\s*(?:…|\.\.\.?)\s*\+?(-?\d)`), "$1 to $2"},                                                                       // -10…+30
	{regexp.MustCompile(`\b([1-9]\d{0,2})\.(\d{3}) ?(€|eur\b|euros?\b)`), "$1$2 $3"},                                                           // 1.250 €
	{regexp.MustCompile(`(?i)\b(length|long|span|spans|spanning|chord|radius|width|wide|rise|rises|:|=) ([1-9]) (\d{3}) ?mm\b`), "$1 $2$3 mm"}, // span 1 050 mm
}

// pointedThousands are sizes in millimetres with a point behind the thousands, and pointed the numbers that
// are written so in a message that has one.
var (
	pointedThousands = regexp.MustCompile(`\b[1-9]\.\d{3} ?(?:mm\b|[×x*] ?\d{2,4} ?(?:mm\b|[×x*] ?\d{1,4} ?mm\b))`)
	pointed          = regexp.MustCompile(`\b([1-9])\.(\d{3})\b`)
)

// written puts numbers that are written after the habits of a trade or a country in the plain way.
func written(text string) string {
	if !strings.ContainsAny(text, "0123456789") {
		return text
	}
	for _, h := range habits {
		text = h.write.ReplaceAllString(text, h.plain)
	}
	if strings.Contains(text, "mm") && pointedThousands.MatchString(text) {
		text = pointed.ReplaceAllString(text, "$1$2")
	}
	return text
}
