package mattermost

import (
	"strings"
)

// A span is a range of bytes in a text.
type span struct{ from, to int }

// codeSpans lists the parts of a Markdown text that are code: fenced blocks with their
// fences, and code between backquotes with the backquotes. Indented code is not listed.
func codeSpans(text string) []span {
	var found []span
	var fence string
	paragraph, opened, pos := 0, 0, 0
	for line := range strings.Lines(text) {
		end := pos + len(line)
		switch {
		case fence != "":
			if closesFence(line, fence) {
				found = append(found, span{opened, end})
				fence, paragraph = "", end
			}
		case opensFence(line) != "":
			found = append(found, quotedSpans(text, paragraph, pos)...)
			fence, opened = opensFence(line), pos
		case strings.TrimSpace(line) == "":
			found = append(found, quotedSpans(text, paragraph, end)...)
			paragraph = end
		}
		pos = end
	}
	if fence != "" {
		return append(found, span{opened, len(text)})
	}
	return append(found, quotedSpans(text, paragraph, len(text))...)
}

// quotedSpans finds code between backquotes: as many of them close it as opened it.
func quotedSpans(text string, from, to int) []span {
	var found []span
	for i := from; i < to; {
		if text[i] == '\\' {
			i += 2
			continue
		}
		n := backquotes(text[i:to])
		if n == 0 {
			i++
			continue
		}
		if end := closingQuotes(text[:to], i+n, n); end > 0 {
			found = append(found, span{i, end})
			i = end
		} else {
			i += n
		}
	}
	return found
}

func closingQuotes(text string, from, n int) int {
	for i := from; i < len(text); {
		m := backquotes(text[i:])
		if m == n {
			return i + m
		}
		i += max(m, 1)
	}
	return 0
}

func backquotes(text string) int {
	return len(text) - len(strings.TrimLeft(text, "`"))
}

// opensFence gives the run of marks that opens a fenced block on this line, or "".
func opensFence(line string) string {
	line = strings.TrimLeft(line, " ")
	for _, mark := range []string{"`", "~"} {
		rest := strings.TrimLeft(line, mark)
		run := line[:len(line)-len(rest)]
		if len(run) >= 3 && (mark == "~" || !strings.Contains(rest, "`")) {
			return run
		}
	}
	return ""
}

func closesFence(line, fence string) bool {
	line = strings.TrimSpace(line)
	return len(line) >= len(fence) && strings.Trim(line, fence[:1]) == ""
}
