package picture

import "strings"

// textWidth estimates how wide text is in px, a little more than most sans-serif letters need,
// since the letters are chosen by whoever shows the drawing.
func textWidth(text string, size float64, bold bool) float64 {
	sum := 0.0
	for _, r := range text {
		switch {
		case strings.ContainsRune("iljft.,:;'|!()[]/ ·", r):
			sum += 0.32
		case strings.ContainsRune("mwMW@—%", r):
			sum += 0.88
		case r >= 'A' && r <= 'Z':
			sum += 0.68
		case r >= '0' && r <= '9' || r >= 'a' && r <= 'z':
			sum += 0.565
		default:
			sum += 0.65
		}
	}
	if bold {
		sum *= 1.06
	}
	return sum * size
}

// shortened cuts text to a width, with … where something is missing.
func shortened(text string, size, width float64) string {
	if textWidth(text, size, false) <= width {
		return text
	}
	letters := []rune(text)
	for len(letters) > 1 && textWidth(string(letters)+"…", size, false) > width {
		letters = letters[:len(letters)-1]
	}
	return strings.TrimRight(string(letters), " ") + "…"
}

// wrapped breaks text into lines of at most a width, at spaces where there are any.
func wrapped(text string, size, width float64) (lines []string) {
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && textWidth(line+" "+word, size, false) > width {
			lines = append(lines, line)
			line = ""
		}
		line = strings.TrimLeft(line+" "+shortened(word, size, width), " ")
	}
	return append(lines, line)
}

// keys abbreviates names to the first letters of their words, with more letters where two
// would be alike: "bunk rail" is br.
func keys(names []string) map[string]string {
	out, taken := map[string]string{}, map[string]bool{}
	for _, name := range names {
		if _, known := out[name]; known {
			continue
		}
		key := initials(name)
		for n := 2; taken[key]; n++ {
			key = longer(name, n)
		}
		out[name], taken[key] = key, true
	}
	return out
}

func initials(name string) string {
	var b strings.Builder
	for _, word := range strings.Fields(name) {
		b.WriteRune([]rune(word)[0])
	}
	return b.String()
}

// longer is the initials with further letters of the last word, and a number when there are none.
func longer(name string, n int) string {
	words := strings.Fields(name)
	if len(words) == 0 {
		return strings.Repeat("?", n)
	}
	last := []rune(words[len(words)-1])
	first := initials(strings.Join(words[:len(words)-1], " "))
	if n <= len(last) {
		return first + string(last[:n])
	}
	return first + string(last) + strings.Repeat("'", n-len(last))
}
