package commands

import "strings"

// harmless escapes what people wrote, so that it goes out as text: no mention, no link, no
// table, no formatting, no HTML. A mention is broken by a full-width sign, which reads the
// same.
func harmless(text string) string {
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		bullet := ""
		if rest, ok := strings.CutPrefix(l, "- "); ok {
			bullet, l = "- ", rest
		}
		lines[i] = bullet + escape(l)
	}
	return strings.Join(lines, "\n")
}

var escaper = strings.NewReplacer(
	`\`, `\\`, "*", `\*`, "_", `\_`, "`", "\\`", "~", `\~`, "|", `\|`, "[", `\[`, "]", `\]`, "<", "‹", ">", "›", "#", `\#`,
	"@", "(at)", "＠", "(at)",
)

func escape(l string) string { return escaper.Replace(l) }
