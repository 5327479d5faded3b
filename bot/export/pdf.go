package export

import (
	"io"
	"strings"
	"unicode/utf8"

	"fettle/bot/render"
	"fettle/calc/sketch"
	"fettle/commands/book"
)

// How the book stands on a page: sizes in px, letters as wide as the font's average.
const (
	lineHeight = 15.0
	textSize   = 11.0
	headSize   = 16.0
	letter     = 0.56 * textSize // the average of the font's lower case
	gap        = 8.0             // between columns
)

// pdf writes the book as a document: its tables page by page, then the drawings.
func pdf(w io.Writer, p book.Paper) error {
	s := &setter{title: p.Project}
	s.words(headSize, true, 0, p.Project)
	s.words(textSize, false, 0, made(p))
	for _, section := range p.Sections {
		s.section(section)
	}
	s.finish()
	sheets := s.pages
	for _, section := range p.Sections {
		sheets = append(sheets, section.Drawings...)
	}
	return render.PDF(w, p.Project+": the book", p.Made, sheets...)
}

// setter sets lines on pages.
type setter struct {
	title string
	pages []sketch.Sheet
	sheet *sketch.Sheet
	y     float64
}

// room turns the page if less than so much is left on it.
func (s *setter) room(height float64) {
	if s.sheet != nil && s.y+height <= render.PaperHeight {
		return
	}
	s.finish()
	s.sheet = &sketch.Sheet{Name: "page", Title: s.title, Width: render.PaperWidth, Height: render.PaperHeight}
	s.y = 0
}

func (s *setter) finish() {
	if s.sheet != nil {
		s.pages = append(s.pages, *s.sheet)
		s.sheet = nil
	}
}

// words sets one line.
func (s *setter) words(size float64, bold bool, x float64, text string) {
	height := max(lineHeight, size*1.5)
	s.room(height)
	s.put(size, bold, x, s.y+height/2, text)
	s.y += height
}

func (s *setter) put(size float64, bold bool, x, y float64, text string) {
	if strings.TrimSpace(text) == "" {
		return
	}
	l := sketch.Words(x, y, size, text)
	l.Anchor, l.Bold = sketch.Start, bold
	s.sheet.Add(l)
}

func (s *setter) section(t book.Section) {
	s.room(5 * lineHeight)
	s.y += lineHeight
	s.words(headSize-2, true, 0, t.Title)
	if len(t.Rows) == 0 {
		for _, l := range wrap(t.Empty, render.PaperWidth) {
			s.words(textSize, false, 0, l)
		}
		return
	}
	widths := columnWidths(t)
	s.row(t.Columns, widths, true)
	for _, r := range t.Rows {
		s.row(r.Cells, widths, false)
	}
}

// row sets a line of a table, each cell in as many lines as it takes, over pages if it must.
func (s *setter) row(cells []string, widths []float64, bold bool) {
	lines := make([][]string, len(cells))
	tall := 1
	for i, c := range cells {
		lines[i] = wrap(c, widths[i])
		tall = max(tall, len(lines[i]))
	}
	s.room(min(float64(tall), 4) * lineHeight)
	for n := range tall {
		s.room(lineHeight)
		x := 0.0
		for i := range cells {
			if n < len(lines[i]) {
				s.put(textSize, bold, x, s.y+lineHeight/2, lines[i][n])
			}
			x += widths[i] + gap
		}
		s.y += lineHeight
	}
	rule := sketch.Path(sketch.Point{X: 0, Y: s.y}, sketch.Point{X: render.PaperWidth, Y: s.y})
	rule.Stroke = 0.4
	s.sheet.Add(rule)
	s.y += 2
}

// columnWidths shares the page among the columns by what stands in them.
func columnWidths(t book.Section) []float64 {
	want := make([]float64, len(t.Columns))
	sum := 0.0
	for i, c := range t.Columns {
		longest := utf8.RuneCountInString(c)
		for _, r := range t.Rows {
			if i < len(r.Cells) {
				longest = max(longest, min(utf8.RuneCountInString(r.Cells[i]), 60))
			}
		}
		want[i] = float64(max(longest, 3)) * letter
		sum += want[i]
	}
	room := render.PaperWidth - gap*float64(len(want)-1)
	if sum <= room {
		return want
	}
	// The short columns keep their width; the long ones share what is left.
	share := room / float64(len(want))
	short := 0.0
	for _, w := range want {
		if w <= share {
			short += w
		}
	}
	for i, w := range want {
		if w > share {
			want[i] = w * (room - short) / (sum - short)
		}
	}
	return want
}

// wrap cuts a text into lines that fit, at spaces where it can.
func wrap(text string, width float64) []string {
	most := max(int(width/letter), 3)
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		for utf8.RuneCountInString(word) > most {
			if line != "" {
				lines, line = append(lines, line), ""
			}
			r := []rune(word)
			lines, word = append(lines, string(r[:most])), string(r[most:])
		}
		switch {
		case line == "":
			line = word
		case utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) <= most:
			line += " " + word
		default:
			lines, line = append(lines, line), word
		}
	}
	return append(lines, line)
}
