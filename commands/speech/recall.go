package speech

import "strings"

var asking = wordSet("which what what's whats where where's who who's when how did is was were are does do has have why whose can")

// Asks gives the words that carry the meaning of a question, as stems, and none when the text
// asks nothing.
func Asks(text string) []string {
	s := Read(text)
	if _, ok := asking[s.word(s.first())]; !ok && !strings.HasSuffix(strings.TrimSpace(s.Text), "?") {
		return nil
	}
	return Meaningful(s, nil)
}

// Meaningful gives the stems of the words that carry meaning, leaving out the items given.
func Meaningful(s Sentence, without []int) []string {
	skip := map[int]bool{}
	for _, i := range without {
		skip[i] = true
	}
	var out []string
	for i, it := range s.Items {
		if skip[i] || it.Q != nil || !letters(it.Text) || isSmall(it.Text) && !isRoleWord(it.Text) || len(it.Text) < 3 {
			continue
		}
		if _, ok := asking[it.Text]; ok {
			continue
		}
		out = append(out, it.Stem)
	}
	return out
}

// Shared counts the stems that stand in a text.
func Shared(stems []string, text string) int {
	have := map[string]bool{}
	for _, it := range Read(text).Items {
		have[it.Stem] = true
	}
	n := 0
	for _, w := range stems {
		if have[w] {
			n++
		}
	}
	return n
}
