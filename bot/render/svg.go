package render

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"strconv"
	"strings"

	"fettle/calc/sketch"
)

// SVG writes a sheet as a picture for a page: text that can be read out and searched, no script,
// nothing fetched from elsewhere, no ids that could clash with the page's. It fails on a sheet
// without a size or with a shape that can't be drawn, and when it can't be written.
func SVG(w io.Writer, s sketch.Sheet) error {
	if err := check(s); err != nil {
		return err
	}
	letters, err := newLettering()
	if err != nil {
		return err
	}
	out := &svgCanvas{out: bufio.NewWriter(w)}
	fmt.Fprintf(out.out, `<svg xmlns="http://www.w3.org/2000/svg" role="img" width="%s" height="%s" viewBox="0 0 %[1]s %[2]s" font-family="Go, Helvetica, Arial, sans-serif">`+"\n",
		number(s.Width), number(s.Height))
	fmt.Fprintf(out.out, "<title>%s</title>\n", escaped(oneLine(s.Title)))
	fmt.Fprintf(out.out, `<rect width="%s" height="%s" fill="#fff"/>`+"\n", number(s.Width), number(s.Height))
	paint(out, s, letters)
	fmt.Fprint(out.out, "</svg>\n")
	if err := out.out.Flush(); err != nil {
		return fmt.Errorf("write the drawing %q: %w", s.Name, err)
	}
	return nil
}

// svgCanvas keeps the first error of its writer until it is flushed.
type svgCanvas struct{ out *bufio.Writer }

func (c *svgCanvas) fill(corners []sketch.Point, ink shade) {
	fmt.Fprintf(c.out, `<path d="%sZ" fill="#%02x%02[2]x%02[2]x"/>`+"\n", way(corners), ink)
}

func (c *svgCanvas) stroke(lines [][]sketch.Point, p pen) {
	var d, more strings.Builder
	for _, l := range lines {
		d.WriteString(way(l))
		if p.closed {
			d.WriteString("Z")
		}
	}
	if len(p.dash) > 0 {
		fmt.Fprintf(&more, ` stroke-dasharray="%s %s"`, number(p.dash[0]), number(p.dash[1]))
	}
	if p.round {
		more.WriteString(` stroke-linecap="round"`)
	}
	fmt.Fprintf(c.out, `<path d="%s" fill="none" stroke="#000" stroke-width="%s"%s/>`+"\n", d.String(), number(p.width), more.String())
}

func (c *svgCanvas) text(_ sketch.Point, s sketch.Shape) {
	// The letters of the reader's machine may be wider, so the place is the anchor, not the start.
	at, anchor, more := s.Points[0], "middle", ""
	if s.Anchor != sketch.Middle {
		anchor = string(s.Anchor)
	}
	if s.Bold {
		more = ` font-weight="bold"`
	}
	if s.Turn != 0 {
		more += fmt.Sprintf(` transform="rotate(%s %s %s)"`, number(s.Turn), number(at.X), number(at.Y))
	}
	fmt.Fprintf(c.out, `<text x="%s" y="%s" font-size="%s" text-anchor="%s"%s>%s</text>`+"\n",
		number(at.X), number(at.Y+middle*s.Size), number(s.Size), anchor, more, escaped(oneLine(s.Text)))
}

// way is a path through points.
func way(points []sketch.Point) string {
	var b strings.Builder
	for i, p := range points {
		b.WriteString(map[bool]string{true: "M", false: "L"}[i == 0])
		b.WriteString(number(p.X) + " " + number(p.Y))
	}
	return b.String()
}

// number prints px to a hundredth, which no screen shows.
func number(v float64) string {
	text := strconv.FormatFloat(v, 'f', 2, 64)
	text = strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
	if text == "-0" {
		return "0"
	}
	return text
}

func escaped(text string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(text)) // a Builder never fails
	return b.String()
}
