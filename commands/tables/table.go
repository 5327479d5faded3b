package tables

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"golang.org/x/text/transform"
	"golang.org/x/text/unicode/norm"
)

// table is a list with named columns, as text still.
type table struct {
	file    string
	columns map[string]int    // by the contract's names
	units   map[string]string // of a column, where its head says one
	rows    []row
}

// row is one line that holds something.
type row struct {
	line  int
	cells []string
}

// mostBytes bounds what is read of a file: a thousand times what a fit-out needs.
const mostBytes = 8 << 20

// separators are what spreadsheets put between cells, the likeliest first.
var separators = []rune{',', ';', '\t', '|'}

// open reads a file whose first line that holds something names the columns.
func open(file string, r io.Reader, required []string) (*table, error) {
	file = oneLine(file)
	whole, err := io.ReadAll(io.LimitReader(r, mostBytes+1))
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", file, err)
	}
	if len(whole) > mostBytes {
		return nil, &Fault{File: file, Text: "is too large for a list"}
	}
	text, err := plainText(whole)
	if err != nil {
		return nil, &Fault{File: file, Text: "holds no text that can be read; save it as CSV in UTF-8"}
	}
	text, skipped, told := toldSeparator(text)
	if told != 0 {
		t, err := split(file, text, told, skipped)
		if err != nil {
			return nil, err
		}
		return t, t.named(required)
	}
	return guessed(file, text, required)
}

// guessed takes the separator with which the first line names most of the columns.
func guessed(file, text string, required []string) (*table, error) {
	var best *table
	var first error
	most := -1
	for _, comma := range separators {
		t, err := split(file, text, comma, 0)
		if err != nil {
			if first == nil {
				first = err
			}
			continue
		}
		if n := t.known(required); n > most {
			best, most = t, n
		}
	}
	if best == nil {
		return nil, first
	}
	return best, best.named(required)
}

// plainText takes away marks of byte order and gives line ends one form. Text that is no UTF-8
// is taken for the Western code page that older spreadsheets write.
func plainText(whole []byte) (string, error) {
	switch {
	case bytes.HasPrefix(whole, []byte{0xFF, 0xFE}), bytes.HasPrefix(whole, []byte{0xFE, 0xFF}):
		out, _, err := transform.Bytes(unicode.UTF16(unicode.LittleEndian, unicode.UseBOM).NewDecoder(), whole)
		if err != nil {
			return "", fmt.Errorf("decode: %w", err)
		}
		whole = out
	case !utf8.Valid(whole):
		out, err := charmap.Windows1252.NewDecoder().Bytes(whole)
		if err != nil {
			return "", fmt.Errorf("decode: %w", err)
		}
		whole = out
	}
	if bytes.IndexByte(whole, 0) >= 0 {
		return "", errors.New("binary")
	}
	text := strings.TrimPrefix(string(whole), "\ufeff")
	return strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n"), nil
}

// toldSeparator reads the line "sep=;" that some spreadsheets write first.
func toldSeparator(text string) (rest string, lines int, told rune) {
	line, rest, _ := strings.Cut(text, "\n")
	sep, ok := strings.CutPrefix(strings.ToLower(strings.Trim(line, "\" \t")), "sep=")
	if !ok {
		return text, 0, 0
	}
	if sep == "" {
		return rest, 1, '\t'
	}
	r, _ := utf8.DecodeRuneInString(sep)
	if !slices.Contains(separators, r) {
		return text, 0, 0
	}
	return rest, 1, r
}

// split cuts a text into rows of cells, skipping lines that hold nothing.
func split(file, text string, comma rune, skipped int) (*table, error) {
	t := &table{file: file}
	c := csv.NewReader(strings.NewReader(text))
	c.Comma, c.FieldsPerRecord, c.TrimLeadingSpace = comma, -1, comma != '\t'
	for {
		cells, err := c.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		var bad *csv.ParseError
		if errors.As(err, &bad) {
			return nil, &Fault{File: file, Line: bad.Line + skipped, Text: "a quotation mark is out of place"}
		}
		if err != nil {
			return nil, fmt.Errorf("read %s: %w", file, err)
		}
		line, _ := c.FieldPos(0)
		for i := range cells {
			cells[i] = oneLine(cells[i])
		}
		if slices.ContainsFunc(cells, func(s string) bool { return s != "" }) {
			t.rows = append(t.rows, row{line: line + skipped, cells: cells})
		}
	}
	if len(t.rows) == 0 {
		return nil, &Fault{File: file, Text: "is empty"}
	}
	return t, nil
}

// oneLine puts a cell in one line with single spaces, without signs that can't be seen.
func oneLine(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case r == '\u00a0' || r == '\u202f' || r == '\n' || r == '\t' || r == '\r':
			return ' '
		case r < ' ' || r == '\u007f' || r == '\ufeff' || r == '\u200b' || r == utf8.RuneError:
			return -1
		}
		return r
	}, s)
	return norm.NFC.String(strings.Join(strings.Fields(s), " "))
}

// known counts how many of the columns the first line names.
func (t *table) known(columns []string) int {
	n := 0
	seen := map[string]bool{}
	for _, cell := range t.rows[0].cells {
		if name, _, ok := head(cell); ok && slices.Contains(columns, name) && !seen[name] {
			seen[name] = true
			n++
		}
	}
	return n
}

// head reads the head of a column: its name, and the unit of a size.
func head(cell string) (name, unit string, ok bool) {
	words := strings.FieldsFunc(strings.ToLower(cell), func(r rune) bool { return strings.ContainsRune(" _()[]/.:-", r) })
	if len(words) == 0 {
		return "", "", false
	}
	if name, ok = aliases[strings.Join(words, " ")]; ok {
		return name, "", true
	}
	last := words[len(words)-1]
	if _, ok := unitNamed(last); !ok || len(words) < 2 {
		return "", "", false
	}
	name, ok = aliases[strings.Join(words[:len(words)-1], " ")]
	return name, last, ok
}

// named takes the first line as the names of the columns, of which none may be missing.
func (t *table) named(required []string) error {
	t.columns, t.units = map[string]int{}, map[string]string{}
	first := t.rows[0]
	t.rows = t.rows[1:]
	for i, cell := range first.cells {
		name, unit, ok := head(cell)
		if !ok {
			continue
		}
		if _, twice := t.columns[name]; twice {
			return &Fault{File: t.file, Line: first.line, Column: name, Text: "two columns have this name; keep one"}
		}
		t.columns[name], t.units[name] = i, unit
	}
	var missing []string
	for _, name := range required {
		if _, ok := t.columns[name]; !ok {
			missing = append(missing, name)
		}
	}
	if len(missing) > 0 {
		return &Fault{File: t.file, Line: first.line, Column: missing[0],
			Text: fmt.Sprintf("no column is called %s; the first line must name %s", listed(missing), listed(required))}
	}
	return t.fitting(len(first.cells))
}

// fitting refuses lines that have more cells than there are columns: a decimal comma that was
// taken for a separator would move every number behind it.
func (t *table) fitting(columns int) error {
	for _, r := range t.rows {
		for i := columns; i < len(r.cells); i++ {
			if r.cells[i] != "" {
				return &Fault{File: t.file, Line: r.line, Text: fmt.Sprintf("has %d cells where the first line has %d; if a number has a decimal comma, put it in quotation marks", len(r.cells), columns)}
			}
		}
	}
	return nil
}

func listed(names []string) string {
	if len(names) == 1 {
		return names[0]
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}

func quote(s string) string {
	if r := []rune(s); len(r) > 40 {
		s = string(r[:39]) + "…"
	}
	return "“" + s + "”"
}

func (t *table) fault(r row, column, text string, args ...any) error {
	return &Fault{File: t.file, Line: r.line, Column: column, Text: fmt.Sprintf(text, args...)}
}
