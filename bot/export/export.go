// Package export writes a project's book for reading elsewhere: as Markdown, CSV, one HTML page,
// PDF and JSON.
package export

import (
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"fettle/commands/book"
)

// The formats of a book.
const (
	Markdown = "md"
	CSV      = "csv"
	HTML     = "html"
	PDF      = "pdf"
	JSON     = "json"
)

// media are the media types of the formats.
var media = map[string]string{Markdown: "text/markdown", CSV: "text/csv", HTML: "text/html", PDF: "application/pdf", JSON: "application/json"}

// Formats lists the formats.
func Formats() []string { return []string{Markdown, CSV, HTML, PDF, JSON} }

// Media gives the media type of a format, "" for one that there is not.
func Media(format string) string { return media[format] }

// Write writes a book in one of the formats.
func Write(w io.Writer, format string, p book.Paper) error {
	switch format {
	case Markdown:
		return markdown(w, p)
	case CSV:
		return table(w, p)
	case HTML:
		return html(w, p)
	case PDF:
		return pdf(w, p)
	case JSON:
		return data(w, p)
	}
	return fmt.Errorf("there is no format %q: it may be %s", format, strings.Join(Formats(), ", "))
}

func markdown(w io.Writer, p book.Paper) error {
	var b strings.Builder
	fmt.Fprintf(&b, "# %s\n\n%s\n", plain(p.Project), made(p))
	for _, s := range p.Sections {
		fmt.Fprintf(&b, "\n## %s\n\n", s.Title)
		if len(s.Rows) == 0 {
			fmt.Fprintf(&b, "%s\n", plain(s.Empty))
			continue
		}
		line(&b, s.Columns)
		line(&b, slices.Repeat([]string{"---"}, len(s.Columns)))
		for _, r := range s.Rows {
			line(&b, r.Cells)
		}
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func made(p book.Paper) string { return "As of " + p.Made.Format("Monday 2 January 2006, 15:04") + "." }

func line(b *strings.Builder, cells []string) {
	for _, c := range cells {
		b.WriteString("| " + plain(c) + " ")
	}
	b.WriteString("|\n")
}

// plain writes what people typed so that Markdown takes it as it stands, on one line.
func plain(text string) string {
	return markdownSigns.Replace(strings.Join(strings.Fields(text), " "))
}

var markdownSigns = strings.NewReplacer(`\`, `\\`, "|", `\|`, "*", `\*`, "_", `\_`, "`", "\\`", "<", "&lt;", ">", "&gt;", "[", `\[`, "]", `\]`, "#", `\#`, "~", `\~`)

// table writes every line of the book as one line of a table: its section, then its cells with
// the names of their columns before them.
func table(w io.Writer, p book.Paper) error {
	out := csv.NewWriter(w)
	most := 0
	for _, s := range p.Sections {
		most = max(most, len(s.Columns))
	}
	for _, s := range p.Sections {
		if err := out.Write(append(append([]string{"section"}, s.Columns...), make([]string, most-len(s.Columns))...)); err != nil {
			return err
		}
		for _, r := range s.Rows {
			cells := make([]string, 0, most+1)
			cells = append(cells, s.Key)
			for _, c := range r.Cells {
				cells = append(cells, harmless(c))
			}
			if err := out.Write(append(cells, make([]string, max(0, most+1-len(cells)))...)); err != nil {
				return err
			}
		}
	}
	out.Flush()
	return out.Error()
}

// harmless keeps a spreadsheet from taking a text for a formula (OWASP, CSV injection): one that
// begins like one gets an apostrophe before it. Numbers stay numbers.
func harmless(cell string) string {
	if cell != "" && strings.ContainsRune("=+-@\t\r", rune(cell[0])) && !isNumber(cell) {
		return "'" + cell
	}
	return cell
}

func isNumber(text string) bool {
	return json.Valid([]byte(text)) && strings.Trim(text, "-0123456789.eE") == ""
}

// data writes the book as JSON: the sections with their lines as objects by the names of the
// columns.
func data(w io.Writer, p book.Paper) error {
	type section struct {
		Key   string              `json:"section"`
		Title string              `json:"title"`
		Lines []map[string]string `json:"lines"`
	}
	out := struct {
		Project  string    `json:"project"`
		Made     string    `json:"made"`
		Sections []section `json:"sections"`
	}{Project: p.Project, Made: p.Made.Format("2006-01-02T15:04:05Z07:00"), Sections: []section{}}
	for _, s := range p.Sections {
		lines := make([]map[string]string, len(s.Rows))
		for i, r := range s.Rows {
			if len(r.Cells) != len(s.Columns) {
				return errors.New("a line of the book has not as many cells as there are columns: " + s.Title)
			}
			lines[i] = map[string]string{}
			for k, c := range r.Cells {
				lines[i][s.Columns[k]] = c
			}
		}
		out.Sections = append(out.Sections, section{Key: s.Key, Title: s.Title, Lines: lines})
	}
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	return enc.Encode(out)
}
