package render

import (
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"

	"git.sr.ht/~sbinet/gg"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"fettle/calc/sketch"
)

// MostPixels of a PNG keep it within what a phone can open, and its memory below 200 MB.
const MostPixels = 40_000_000

// PNG writes a sheet as pixels: scale of them for a px of the sheet, above 0; 2 is good for a
// phone. It fails on a sheet that can't be drawn, and on a picture of more than 40 million pixels.
func PNG(w io.Writer, s sketch.Sheet, scale float64) error {
	if err := check(s); err != nil {
		return err
	}
	if !(scale > 0 && s.Width*scale*s.Height*scale <= MostPixels) {
		return fmt.Errorf("the drawing %q of %.0f by %.0f px, %g times enlarged, is too large for a picture", s.Name, s.Width, s.Height, scale)
	}
	letters, err := newLettering()
	if err != nil {
		return err
	}
	im := image.NewRGBA(image.Rect(0, 0, int(math.Ceil(s.Width*scale)), int(math.Ceil(s.Height*scale))))
	dc := gg.NewContextForRGBA(im)
	dc.SetColor(color.White)
	dc.Clear()
	dc.Scale(scale, scale)
	paint(&pngCanvas{dc: dc, scale: scale, letters: letters}, s, letters)
	if err := png.Encode(w, grey(im)); err != nil {
		return fmt.Errorf("write the drawing %q: %w", s.Name, err)
	}
	return nil
}

// grey keeps one of the three colours, which are all alike: a quarter of the work and a smaller file.
func grey(im *image.RGBA) *image.Gray {
	out := image.NewGray(im.Rect)
	for i := range out.Pix {
		out.Pix[i] = im.Pix[4*i]
	}
	return out
}

type pngCanvas struct {
	dc      *gg.Context
	scale   float64
	letters *lettering
}

func (c *pngCanvas) fill(corners []sketch.Point, ink shade) {
	c.dc.ClearPath()
	c.way(corners)
	c.dc.ClosePath()
	c.dc.SetColor(color.Gray{Y: uint8(ink)})
	c.dc.Fill()
}

// stroke widens lines by the scale itself: the library scales places, but not widths.
func (c *pngCanvas) stroke(lines [][]sketch.Point, p pen) {
	c.dc.ClearPath()
	c.dc.SetColor(color.Black)
	c.dc.SetLineWidth(p.width * c.scale)
	dash := make([]float64, len(p.dash))
	for i, d := range p.dash {
		dash[i] = d * c.scale
	}
	c.dc.SetDash(dash...)
	c.dc.SetLineCap(map[bool]gg.LineCap{true: gg.LineCapRound, false: gg.LineCapButt}[p.round])
	for _, l := range lines {
		c.way(l)
		if p.closed {
			c.dc.ClosePath()
		}
	}
	c.dc.Stroke()
}

func (c *pngCanvas) way(points []sketch.Point) {
	c.dc.MoveTo(points[0].X, points[0].Y)
	for _, p := range points[1:] {
		c.dc.LineTo(p.X, p.Y)
	}
}

// text fills the outlines of the letters, which stay sharp at any turn.
func (c *pngCanvas) text(start sketch.Point, s sketch.Shape) {
	c.dc.ClearPath()
	c.dc.SetColor(color.Black)
	c.dc.SetFillRuleWinding()
	f, x := c.letters.font(s.Bold), 0.0
	line := sketch.Shape{Points: []sketch.Point{start}, Turn: s.Turn}
	for _, r := range oneLine(s.Text) {
		g, err := f.GlyphIndex(&c.letters.buffer, r)
		if err != nil {
			continue
		}
		outline, err := f.LoadGlyph(&c.letters.buffer, g, fixed.I(fine), nil)
		if err != nil {
			continue
		}
		c.letter(outline, func(p fixed.Point26_6) (float64, float64) {
			at := along(line, x+float64(p.X)/64/fine*s.Size, float64(p.Y)/64/fine*s.Size)
			return at.X, at.Y
		})
		if a, err := f.GlyphAdvance(&c.letters.buffer, g, fixed.I(fine), font.HintingNone); err == nil {
			x += float64(a) / 64 / fine * s.Size
		}
	}
	c.dc.Fill()
}

// letter adds one outline to the path.
func (c *pngCanvas) letter(outline sfnt.Segments, at func(fixed.Point26_6) (float64, float64)) {
	for _, part := range outline {
		x, y := at(part.Args[0])
		switch part.Op {
		case sfnt.SegmentOpMoveTo:
			c.dc.NewSubPath()
			c.dc.MoveTo(x, y)
		case sfnt.SegmentOpLineTo:
			c.dc.LineTo(x, y)
		case sfnt.SegmentOpQuadTo:
			x1, y1 := at(part.Args[1])
			c.dc.QuadraticTo(x, y, x1, y1)
		case sfnt.SegmentOpCubeTo:
			x1, y1 := at(part.Args[1])
			x2, y2 := at(part.Args[2])
			c.dc.CubicTo(x, y, x1, y1, x2, y2)
		}
	}
}
