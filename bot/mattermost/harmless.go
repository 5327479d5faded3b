package mattermost

import (
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// apart is a space of no width. The server ends a word at it, so that an @ before it calls
// nobody, and people see no difference. (The server reads \@all, **@all** and @ALL as calls.)
const apart = "\u200b"

// atSign matches an @ in every form that the server's Markdown reads as one.
var atSign = regexp.MustCompile(`[@＠]|&#0*(?:64|65312);|&#[xX]0*(?:40|[fF][fF]20);|&commat;`)

// harmless makes sure that a text calls nobody: whoever posts it, @all or @petra in it
// notifies no one. Code stays as it is, for nobody is called from there. The desk already
// sees to people's words; this is the last line of defence.
func harmless(text string) string {
	code := codeSpans(text)
	mild := defuse(text, func(at span) bool {
		next, _ := utf8.DecodeRuneInString(text[at.to:])
		return !unicode.IsSpace(next) && !within(code, at.from) && !endsInASCIIWord(text[:at.from])
	})
	if !callsSomebody(mild) {
		return mild
	}
	// The server's parser joins what some marks keep apart, a bare carriage return among them.
	return defuse(text, func(span) bool { return true })
}

// defuse sets a space of no width behind each @ that is followed by something and meant.
func defuse(text string, meant func(span) bool) string {
	var out strings.Builder
	done := 0
	for _, found := range atSign.FindAllStringIndex(text, -1) {
		out.WriteString(text[done:found[1]])
		done = found[1]
		if done < len(text) && meant(span{found[0], found[1]}) && !strings.HasPrefix(text[done:], apart) {
			out.WriteString(apart)
		}
	}
	out.WriteString(text[done:])
	return out.String()
}

// endsInASCIIWord is true before the @ of an e-mail address, which must stay usable.
func endsInASCIIWord(text string) bool {
	if text == "" {
		return false
	}
	last := text[len(text)-1]
	return last < utf8.RuneSelf && (unicode.IsLetter(rune(last)) || unicode.IsDigit(rune(last)))
}

func callsSomebody(text string) bool {
	for _, run := range plainRuns(text) {
		for word := range addressWords(run) {
			if len(word) > 1 && word[0] == '@' {
				return true
			}
		}
	}
	return false
}
