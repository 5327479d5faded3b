package render

import (
	"errors"
	"fmt"
	"io"
	"math"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"fettle/calc/sketch"
)

// PaperWidth and PaperHeight are what a sheet may measure to fill the printed part of an upright
// A4 page at its own size, in px; LyingWidth and LyingHeight those of a page on its side.
const (
	PaperWidth  = (shortSide - 2*margin) * px
	PaperHeight = (longSide - 2*margin - footer) * px
	LyingWidth  = (longSide - 2*margin) * px
	LyingHeight = (shortSide - 2*margin - footer) * px
)

// An A4 page (ISO 216) and its margins in points of 1/72 inch.
const (
	shortSide, longSide = 210 * 72 / 25.4, 297 * 72 / 25.4
	margin              = 34.0 // 12 mm, which every printer leaves
	footer              = 16.0
	between             = 10.0     // two sheets on a page
	px                  = 96 / 72. // in a point
)

// PDF writes sheets one after the other on A4 pages, several on a page where they fit, with the
// title and the page's number at the foot of each. A sheet that is wide lies on a page on its
// side; one larger than a page is made smaller.
// made is the time that stands in the file. It fails without sheets and on one that can't be drawn.
func PDF(w io.Writer, title string, made time.Time, sheets ...sketch.Sheet) error {
	if len(sheets) == 0 {
		return errors.New("there is nothing to draw")
	}
	for _, s := range sheets {
		if err := check(s); err != nil {
			return err
		}
	}
	letters, err := newLettering()
	if err != nil {
		return err
	}
	pdf := newPDF(title, made)
	pages := paginate(sheets)
	for i, page := range pages {
		pdf.AddPageFormat(map[bool]string{true: "L", false: "P"}[page.lying], fpdf.SizeType{Wd: shortSide, Ht: longSide})
		for _, place := range page.places {
			c := &pdfCanvas{pdf: pdf, place: place}
			paint(c, sheets[place.sheet], letters)
		}
		foot(pdf, oneLine(title), fmt.Sprintf("page %d of %d", i+1, len(pages)))
	}
	if err := pdf.Output(w); err != nil {
		return fmt.Errorf("write the drawing as PDF: %w", err)
	}
	return nil
}

func newPDF(title string, made time.Time) *fpdf.Fpdf {
	pdf := fpdf.New("P", "pt", "A4", "")
	pdf.SetTitle(oneLine(title), true)
	pdf.SetCreator("fettle", true)
	pdf.SetCreationDate(made)
	pdf.SetModificationDate(made)
	pdf.SetCatalogSort(true) // so that the same drawing is the same file
	pdf.SetAutoPageBreak(false, 0)
	pdf.AddUTF8FontFromBytes("Go", "", goregular.TTF)
	pdf.AddUTF8FontFromBytes("Go", "B", gobold.TTF)
	pdf.SetDrawColor(0, 0, 0)
	pdf.SetTextColor(0, 0, 0)
	return pdf
}

func foot(pdf *fpdf.Fpdf, title, page string) {
	pdf.SetFont("Go", "", 9)
	width, height := pdf.GetPageSize()
	y, end := height-margin, pdf.GetStringWidth(page)
	pdf.Text(width-margin-end, y, page)
	for pdf.GetStringWidth(title) > width-2*margin-end-20 {
		letters := []rune(title)
		title = string(letters[:len(letters)-2]) + "…"
	}
	pdf.Text(margin, y, title)
}

// page is what stands on one.
type page struct {
	lying  bool
	places []place
}

// place is where a sheet lies on its page, in points, and how many points are a px of it.
type place struct {
	sheet       int
	x, y, scale float64
}

// room is what sheets may take up on a page, in points.
func (p page) room() (width, height float64) {
	if p.lying {
		return LyingWidth / px, LyingHeight / px
	}
	return PaperWidth / px, PaperHeight / px
}

// paginate lays sheets out in rows from top to bottom, in their order.
func paginate(sheets []sketch.Sheet) (pages []page) {
	const slack = 0.01
	x, y, row := 0.0, 0.0, 0.0
	for i, s := range sheets {
		p := page{lying: s.Width > PaperWidth+slack && s.Width > s.Height}
		width, height := p.room()
		scale := math.Min(1/px, math.Min(width/s.Width, height/s.Height))
		w, h := s.Width*scale, s.Height*scale
		if x > 0 && x+w > width+slack {
			x, y, row = 0, y+row+between, 0
		}
		if last := len(pages) - 1; last < 0 || pages[last].lying != p.lying || y+h > height+slack {
			pages = append(pages, p)
			x, y, row = 0, 0, 0
		}
		last := &pages[len(pages)-1]
		last.places = append(last.places, place{sheet: i, x: margin + x, y: margin + y, scale: scale})
		x, row = x+w+between, math.Max(row, h)
	}
	return pages
}

type pdfCanvas struct {
	pdf   *fpdf.Fpdf
	place place
}

func (c *pdfCanvas) at(p sketch.Point) (x, y float64) {
	return c.place.x + p.X*c.place.scale, c.place.y + p.Y*c.place.scale
}

func (c *pdfCanvas) way(points []sketch.Point) {
	for i, p := range points {
		if x, y := c.at(p); i == 0 {
			c.pdf.MoveTo(x, y)
		} else {
			c.pdf.LineTo(x, y)
		}
	}
}

func (c *pdfCanvas) fill(corners []sketch.Point, ink shade) {
	c.pdf.SetFillColor(int(ink), int(ink), int(ink))
	c.way(corners)
	c.pdf.ClosePath()
	c.pdf.DrawPath("F")
}

func (c *pdfCanvas) stroke(lines [][]sketch.Point, p pen) {
	c.pdf.SetLineWidth(p.width * c.place.scale)
	dash := make([]float64, len(p.dash))
	for i, d := range p.dash {
		dash[i] = d * c.place.scale
	}
	c.pdf.SetDashPattern(dash, 0)
	c.pdf.SetLineCapStyle(map[bool]string{true: "round", false: "butt"}[p.round])
	for _, l := range lines {
		c.way(l)
		if p.closed {
			c.pdf.ClosePath()
		}
	}
	c.pdf.DrawPath("D")
}

func (c *pdfCanvas) text(start sketch.Point, s sketch.Shape) {
	c.pdf.SetFont("Go", map[bool]string{true: "B", false: ""}[s.Bold], s.Size*c.place.scale)
	x, y := c.at(start)
	c.pdf.TransformBegin()
	c.pdf.TransformRotate(-s.Turn, x, y)
	c.pdf.Text(x, y, oneLine(s.Text))
	c.pdf.TransformEnd()
}
