package render

import (
	"fmt"
	"math"
	"strings"
	"unicode"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"fettle/calc/sketch"
)

// lettering measures and draws text. The letters are the Go fonts by Bigelow & Holmes, which come
// with golang.org/x/image under its BSD licence and are embedded in the program.
type lettering struct {
	regular, bold *sfnt.Font
	buffer        sfnt.Buffer
}

func newLettering() (*lettering, error) {
	regular, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		return nil, fmt.Errorf("read the letters: %w", err)
	}
	bold, err := sfnt.Parse(gobold.TTF)
	if err != nil {
		return nil, fmt.Errorf("read the bold letters: %w", err)
	}
	return &lettering{regular: regular, bold: bold}, nil
}

func (l *lettering) font(bold bool) *sfnt.Font {
	if bold {
		return l.bold
	}
	return l.regular
}

// middle is how far the middle of the lettering is above its base line, as a part of its size.
const middle = 0.35

// fine is the size at which letters are measured; larger than any that is drawn, for exactness.
const fine = 1024

// width of a label's text in px.
func (l *lettering) width(s sketch.Shape) float64 {
	f, sum := l.font(s.Bold), fixed.Int26_6(0)
	for _, r := range oneLine(s.Text) {
		g, err := f.GlyphIndex(&l.buffer, r)
		if err != nil {
			continue
		}
		if a, err := f.GlyphAdvance(&l.buffer, g, fixed.I(fine), font.HintingNone); err == nil {
			sum += a
		}
	}
	return float64(sum) / 64 / fine * s.Size
}

// start is where the base line of a label begins.
func (l *lettering) start(s sketch.Shape) sketch.Point {
	return along(s, -l.before(s), middle*s.Size)
}

// before is the part of a label's width that lies before its place.
func (l *lettering) before(s sketch.Shape) float64 {
	switch s.Anchor {
	case sketch.Start:
		return 0
	case sketch.End:
		return l.width(s)
	}
	return l.width(s) / 2
}

// ground is the rectangle on which a label stands.
func (l *lettering) ground(s sketch.Shape) []sketch.Point {
	left, right, half := -l.before(s)-2, l.width(s)-l.before(s)+2, s.Size*0.55
	return []sketch.Point{along(s, left, -half), along(s, right, -half), along(s, right, half), along(s, left, half)}
}

// along gives the point so far along the text of a label, and so far below it.
func along(s sketch.Shape, x, y float64) sketch.Point {
	sin, cos := math.Sincos(s.Turn * math.Pi / 180)
	at := s.Points[0]
	return sketch.Point{X: at.X + x*cos - y*sin, Y: at.Y + x*sin + y*cos}
}

// oneLine is text as it can stand in one line of any format: what can't be shown is a space, and
// what lies outside the basic plane (emoji) or is no character is a replacement mark.
func oneLine(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case unicode.IsControl(r) || unicode.IsSpace(r):
			return ' '
		case r > 0xFFFF || r == 0xFFFE || r == 0xFFFF:
			return '\uFFFD'
		case unicode.Is(unicode.Cf, r): // marks that turn the direction of writing, and the like
			return -1
		}
		return r
	}, text)
}
