package mattermost

import (
	"iter"
	"regexp"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/mattermost/mattermost/server/public/shared/markdown"
)

// fullWidthAt is what some keyboards type for @. The server does not take it for a mention,
// but the person meant one.
const fullWidthAt = "＠"

// readMention says whether a message names the account, and gives the text without the name.
//
// A name counts as the server counts it: any case; marks such as . : - _ may follow; not in
// code; not :name: (an emoji) and not the beginning of a longer name. What the server itself
// says about an event's mentions is not asked: it also counts @all, and a message that is
// fetched later does not say it, so that the same message would be read in two ways.
func readMention(text, name string) (rest string, mentioned bool) {
	want := "@" + strings.ToLower(name)
	for _, run := range plainRuns(strings.ReplaceAll(text, fullWidthAt, "@")) {
		for word := range addressWords(run) {
			if strings.ToLower(word) == want {
				return cutMention(text, name), true
			}
		}
	}
	return text, false
}

// plainRuns gives the pieces of a Markdown message that are not code, address or markup,
// joined as the server joins them. The parser is the server's own; it panics on some texts,
// which are taken as they stand.
func plainRuns(text string) (runs []string) {
	defer func() {
		if recover() != nil {
			runs = []string{text}
		}
	}()
	var run strings.Builder
	markdown.Inspect(text, func(node any) bool {
		if plain, ok := node.(*markdown.Text); ok {
			run.WriteString(plain.Text)
			return false
		}
		runs = append(runs, run.String())
		run.Reset()
		return true
	})
	return append(runs, run.String())
}

// addressWords yields what the server compares with names: every word, the word without the
// marks that may end a sentence, and the words that such marks join.
// Source: app/mention_parser_standard.go of the server.
func addressWords(run string) iter.Seq[string] {
	return func(yield func(string) bool) {
		for _, word := range strings.FieldsFunc(run, func(c rune) bool {
			return !strings.ContainsRune(":.-_@", c) && !unicode.IsLetter(c) && !unicode.IsNumber(c)
		}) {
			if word[0] == ':' && word[len(word)-1] == ':' {
				continue
			}
			word = strings.TrimLeft(word, ":.-_")
			candidates := []string{word}
			for short := word; short != "" && strings.ContainsAny(short[len(short)-1:], ".-:_"); {
				short = short[:len(short)-1]
				candidates = append(candidates, short)
			}
			if !strings.HasPrefix(word, "@") {
				candidates = append(candidates, strings.FieldsFunc(word, func(c rune) bool {
					return c == '.' || c == '-' || c == ':'
				})...)
			}
			for _, candidate := range candidates {
				if !yield(candidate) {
					return
				}
			}
		}
	}
}

// cutMention takes the name out wherever it stands outside code, with the comma or colon
// after it and the brackets or stars around it.
func cutMention(text, name string) string {
	named := regexp.MustCompile(`(?i)[@` + fullWidthAt + `]` + regexp.QuoteMeta(name))
	code := codeSpans(text)
	found := named.FindAllStringIndex(text, -1)
	for i := len(found) - 1; i >= 0; i-- { // from the end, so that the places before stay true
		at := span{found[i][0], found[i][1]}
		if !within(code, at.from) && standsAlone(text, at) {
			text = cut(text, at)
		}
	}
	return strings.TrimSpace(text)
}

func within(spans []span, at int) bool {
	for _, s := range spans {
		if s.from <= at && at < s.to {
			return true
		}
	}
	return false
}

// standsAlone says that a name is not a part of a longer one.
func standsAlone(text string, at span) bool {
	before, _ := utf8.DecodeLastRuneInString(text[:at.from])
	marks := strings.TrimLeft(text[at.to:], ".:-_")
	after, _ := utf8.DecodeRuneInString(marks)
	emoji := before == ':' && strings.HasPrefix(text[at.to:], ":")
	return !emoji && !nameRune(before) && !nameRune(after)
}

func nameRune(r rune) bool {
	return r == '@' || r != utf8.RuneError && (unicode.IsLetter(r) || unicode.IsNumber(r))
}

// around lists what goes with a name when it encloses it.
var around = []string{"**", "__", "~~", "()"}

func cut(text string, at span) string {
	for at.from > 0 && at.to < len(text) && slices.Contains(around, text[at.from-1:at.from]+text[at.to:at.to+1]) {
		at = span{at.from - 1, at.to + 1}
	}
	before := strings.TrimRight(text[:at.from], " \t")
	after := strings.TrimLeft(text[at.to:], " \t")
	if after != "" && (after[0] == ',' || after[0] == ':') {
		after = strings.TrimLeft(after[1:], " \t")
	}
	switch {
	case before == "" || strings.HasSuffix(before, "\n"):
		return before + after
	case after == "" || strings.ContainsRune("\n.?!", rune(after[0])):
		return strings.TrimRight(before, ",") + after
	default:
		return before + " " + after
	}
}
