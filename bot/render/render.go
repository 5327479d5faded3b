// Package render turns an answer into what a place shows: Markdown as it is, plain text for a
// terminal, JSON for programs. It turns a drawing into SVG, PNG and PDF.
package render

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"

	"fettle/commands"
)

// JSON is the answer object on one line. Text that people wrote keeps its characters.
func JSON(a commands.Answer) (string, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(a); err != nil {
		return "", fmt.Errorf("write answer: %w", err)
	}
	return strings.TrimSuffix(b.String(), "\n"), nil
}

// marks are the Markdown that answers use, taken out for a terminal.
var marks = strings.NewReplacer("**", "", `\*`, "*", `\_`, "_", "\\`", "`", `\~`, "~", `\|`, "|", `\[`, "[", `\]`, "]", `\#`, "#", `\\`, `\`)

// Plain is the answer as text for a terminal.
func Plain(a commands.Answer) string { return marks.Replace(a.Text) }
