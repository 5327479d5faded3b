package mattermost_test

import (
	"fmt"
	"strings"
	"testing"
	"unicode/utf8"

	"fettle/bot/mattermost"

	"pgregory.net/rapid"
)

// document draws an answer of paragraphs, lists, tables and code, in which every word that
// carries something is there only once: w0ß, w1ß, ...
func document(t *rapid.T) string {
	words := 0
	sentence := func(longest int) string {
		n := rapid.IntRange(1, longest).Draw(t, "words")
		said := make([]string, n)
		for i := range said {
			said[i] = fmt.Sprintf("w%dß", words)
			words++
		}
		return strings.Join(said, " ")
	}
	block := rapid.Custom(func(t *rapid.T) string {
		n := rapid.IntRange(1, 12).Draw(t, "lines")
		var lines []string
		kind := rapid.SampledFrom([]string{"paragraph", "list", "table", "code", "tilde"}).Draw(t, "kind")
		for range n {
			switch kind {
			case "paragraph":
				lines = append(lines, sentence(40))
			case "list":
				lines = append(lines, "- "+sentence(8))
			case "table":
				lines = append(lines, "| "+sentence(1)+" | "+sentence(2)+" |")
			default:
				lines = append(lines, sentence(8))
			}
		}
		switch kind {
		case "table":
			lines = append([]string{"| part | size |", "|:-----|-----:|"}, lines...)
		case "code":
			lines = append(append([]string{"```text"}, lines...), "```")
		case "tilde":
			lines = append(append([]string{"~~~~"}, lines...), "~~~~")
		}
		return strings.Join(lines, "\n")
	})
	return strings.Join(rapid.SliceOfN(block, 1, 12).Draw(t, "blocks"), "\n\n")
}

// carried gives the words of a text that are not repeated by design.
func carried(text string) []string {
	var words []string
	for _, word := range strings.Fields(text) {
		if strings.HasPrefix(word, "w") {
			words = append(words, word)
		}
	}
	return words
}

func TestSplitKeepsEverythingInOrderAndWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := document(t)
		limit := rapid.IntRange(64, 900).Draw(t, "limit")
		parts := mattermost.Split(text, limit)
		if got, want := strings.Join(carried(strings.Join(parts, "\n")), " "), strings.Join(carried(text), " "); got != want {
			t.Fatalf("the words are\n%s\nwant\n%s", got, want)
		}
		for i, part := range parts {
			if n := utf8.RuneCountInString(part); n > limit {
				t.Errorf("part %d has %d runes, limit %d", i, n, limit)
			}
			checkWhole(t, part)
		}
	})
}

// checkWhole fails a part in which a code block is open at the end or empty, or a table's
// rows have no header.
func checkWhole(t *rapid.T, part string) {
	open, previous := "", ""
	header := false
	for line := range strings.SplitSeq(part, "\n") {
		switch {
		case open == "" && (strings.HasPrefix(line, "```") || strings.HasPrefix(line, "~~~~")):
			open = line[:3]
		case open != "" && strings.HasPrefix(line, open):
			if strings.HasPrefix(previous, open) {
				t.Errorf("an empty code block in\n%s", part)
			}
			open = ""
		case strings.HasPrefix(line, "|:--"):
			header = true
		case strings.HasPrefix(line, "| w") && !header:
			t.Errorf("a row without its header in\n%s", part)
		case line == "":
			header = false
		}
		previous = line
	}
	if open != "" {
		t.Errorf("an open code block in\n%s", part)
	}
}

func TestSplitCutsBetweenParagraphs(t *testing.T) {
	long := strings.Repeat("saw ", 20)
	parts := mattermost.Split(long+"\n\n"+long+"\n\n"+long, 200)
	if len(parts) != 2 || strings.TrimSpace(parts[1]) != strings.TrimSpace(long) {
		t.Errorf("Split cuts into %q", parts)
	}
}

func TestSplitLeavesAShortTextAlone(t *testing.T) {
	text := "  Rough 680 × 60 mm\n\n\n```\nnot closed"
	if parts := mattermost.Split(text, 100); len(parts) != 1 || parts[0] != text {
		t.Errorf("Split(%q) = %q", text, parts)
	}
}

func TestPartsStayWithinTheLimitThoughMadeHarmless(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(rapid.SampledFrom([]string{"@all ", "@petra", "`", "```\n", "\n", "ß ", "word "}), 0, 400).Draw(t, "text"), "")
		limit := rapid.IntRange(130, 400).Draw(t, "limit")
		for _, part := range mattermost.Parts(text, limit) {
			if n := utf8.RuneCountInString(part); n > limit {
				t.Errorf("a part has %d runes, limit %d: %q", n, limit, part)
			}
			if mattermost.CallsSomebody(part) {
				t.Errorf("a part calls somebody: %q", part)
			}
		}
	})
}

func FuzzSplit(f *testing.F) {
	f.Add("| a | b |\n|---|---|\n| 1 | 2 |\n\n```go\nx\n```\n", uint16(64))
	f.Add(strings.Repeat("`````````````", 30), uint16(70))
	f.Add("```"+strings.Repeat("x", 200)+"\n~~~\n```", uint16(64))
	f.Fuzz(func(t *testing.T, text string, limit uint16) {
		n := max(int(limit)%2000, 64)
		parts := mattermost.Split(text, n)
		for _, part := range parts {
			if got := utf8.RuneCountInString(part); got > n {
				t.Errorf("a part has %d runes, limit %d", got, n)
			}
		}
		if len(parts) > 1+2*utf8.RuneCountInString(text) {
			t.Errorf("%d parts", len(parts))
		}
	})
}
