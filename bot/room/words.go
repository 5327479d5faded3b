package room

import (
	"bytes"
	"html/template"
	"regexp"
	"strings"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/renderer/html"
)

// markdown turns the Markdown of answers into HTML. HTML in it is left out, and so are links to
// anything that runs.
var markdown = goldmark.New(goldmark.WithExtensions(extension.Table), goldmark.WithRendererOptions(html.WithHardWraps()))

func rendered(text string) template.HTML {
	var b bytes.Buffer
	if markdown.Convert([]byte(text), &b) != nil {
		return template.HTML(template.HTMLEscapeString(text))
	}
	return template.HTML(together.ReplaceAllString(b.String(), "$1\u00a0$2"))
}

// together finds a number and its unit, which belong on one line.
var together = regexp.MustCompile(`(\d) (mm|cm|m|m²|m³|in|°C|°F|%|min|h|days?|kg|g|l|kN|N|MPa)\b`)

// inline is rendered without the paragraph around a single line.
func inline(text string) template.HTML {
	h := strings.TrimSpace(string(rendered(text)))
	if in, ok := strings.CutPrefix(h, "<p>"); ok && strings.Count(h, "<p>") == 1 {
		h = strings.TrimSuffix(in, "</p>")
	}
	return template.HTML(h)
}

// spoken is an answer's text taken apart, so that the page can give each part its weight.
type spoken struct {
	Late     string   // that it comes late
	Headline string   // Markdown
	Read     string   // what was understood
	Lines    []string // the details
	Cautions []string
	Amended  bool
}

const (
	lateMark    = "_Late: "
	readMark    = "Read: "
	cautionMark = "⚠ "
	amendedMark = "_(amended: the question was edited)_"
)

// takeApart reads an answer's text. Nothing of it is lost: what fits no part is a detail.
func takeApart(text string) spoken {
	var s spoken
	lines := strings.Split(strings.TrimSpace(text), "\n")
	if strings.HasPrefix(lines[0], lateMark) && len(lines) > 1 {
		s.Late, lines = strings.Trim(lines[0], "_"), lines[1:]
	}
	s.Headline, lines = lines[0], lines[1:]
	if bold, ok := strings.CutPrefix(s.Headline, "**"); ok && strings.HasSuffix(bold, "**") && bold != "**" {
		s.Headline = strings.TrimSuffix(bold, "**")
	}
	for _, line := range lines {
		switch {
		case line == amendedMark:
			s.Amended = true
		case s.Read == "" && len(s.Lines) == 0 && strings.HasPrefix(line, readMark):
			s.Read = strings.TrimPrefix(line, readMark)
		case strings.HasPrefix(line, cautionMark):
			s.Cautions = append(s.Cautions, strings.TrimPrefix(line, cautionMark))
		case strings.TrimSpace(line) != "" || len(s.Lines) > 0:
			s.Lines = append(s.Lines, line)
		}
	}
	return s
}

// listed says whether the details are what was asked for, as in a list, rather than how the
// headline came about.
func (s spoken) listed() bool {
	for _, l := range s.Lines {
		if strings.HasPrefix(l, "- ") || strings.HasPrefix(l, "|") {
			return true
		}
	}
	return false
}
