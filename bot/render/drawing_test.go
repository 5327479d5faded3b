package render_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"image"
	"image/png"
	"io"
	"math"
	"os"
	"regexp"
	"strings"
	"testing"
	"time"

	"fettle/bot/render"
	"fettle/calc/sketch"
)

var update = flag.Bool("update", false, "rewrite the golden drawing in testdata")

// small is a sheet with each fill, each kind of shape and the letters that people use.
func small() sketch.Sheet {
	s := sketch.Sheet{Name: "small", Title: "Five fills, a dimension & letters", Width: 220, Height: 150}
	for i, f := range []sketch.Fill{sketch.Paper, sketch.Wood, sketch.Waste, sketch.Hatched, sketch.Solid} {
		s.Add(sketch.Rect(10+40*float64(i), 10, 36, 40).Filled(f))
	}
	s.Add(sketch.Path(sketch.Point{X: 10, Y: 60}, sketch.Point{X: 210, Y: 60}).Dash())
	s.Add(sketch.Dimension(sketch.Point{X: 10, Y: 90}, sketch.Point{X: 210, Y: 90}, 12, "712 × 65")...)
	letters := sketch.Words(110, 115, 11, "½ ⅛ 88° “Größe” – café łąka tő 2 9/16″")
	bold := sketch.Words(10, 135, 13, "top rail → 1")
	bold.Bold, bold.Anchor = true, sketch.Start
	turned := sketch.Words(148, 30, 11, "knot")
	turned.Turn, turned.Halo = -90, true
	s.Add(letters, bold, turned)
	return s
}

func svg(t *testing.T, s sketch.Sheet) string {
	t.Helper()
	var b bytes.Buffer
	if err := render.SVG(&b, s); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestSVGGolden(t *testing.T) {
	got := svg(t, small())
	const golden = "testdata/small.svg"
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("the drawing is no longer that of %s; look at it and run with -update if it is good:\n%s", golden, got)
	}
}

// What people write as a name stays text.
func TestSVGHasNoScript(t *testing.T) {
	const evil = `"><script>alert(1)</script><image href='http://example.com/x'/>` + "\x00\x1b]]>\n&amp;"
	s := sketch.Sheet{Name: evil, Title: evil, Width: 100, Height: 100, Shapes: []sketch.Shape{sketch.Words(50, 50, 12, evil)}}
	text := svg(t, s)
	names := elements(t, text)
	elements(t, svg(t, small()))
	for _, n := range names {
		if n != "svg" && n != "title" && n != "rect" && n != "text" {
			t.Errorf("there is an element %s in %s", n, text)
		}
	}
	if len(names) != 4 {
		t.Errorf("%d elements, want svg, title, ground and label", len(names))
	}
}

var paints = regexp.MustCompile(`^(none|#[0-9a-f]{3}|#[0-9a-f]{6})$`)

// elements reads a document to its end and lists its elements.
func elements(t *testing.T, text string) (names []string) {
	t.Helper()
	for dec := xml.NewDecoder(strings.NewReader(text)); ; {
		token, err := dec.Token()
		if errors.Is(err, io.EOF) {
			return names
		}
		if err != nil {
			t.Fatalf("not well formed: %v\n%s", err, text)
		}
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		names = append(names, start.Name.Local)
		for _, a := range start.Attr {
			if strings.HasPrefix(a.Name.Local, "on") || strings.Contains(a.Name.Local, "href") || strings.Contains(a.Value, "url(") {
				t.Errorf("%s has the attribute %s=%q", start.Name.Local, a.Name.Local, a.Value)
			}
			if a.Name.Local == "fill" && !paints.MatchString(a.Value) {
				t.Errorf("%s is filled with %q", start.Name.Local, a.Value)
			}
		}
	}
}

func picture(t *testing.T, s sketch.Sheet, scale float64) image.Image {
	t.Helper()
	var b bytes.Buffer
	if err := render.PNG(&b, s, scale); err != nil {
		t.Fatal(err)
	}
	img, err := png.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	return img
}

// ink is the part of a rectangle (px of the sheet) that is dark, from 0 to 1.
func ink(img image.Image, scale float64, x, y, width, height float64) float64 {
	dark, all := 0.0, 0.0
	for py := int(y * scale); py < int((y+height)*scale); py++ {
		for px := int(x * scale); px < int((x+width)*scale); px++ {
			r, _, _, _ := img.At(px, py).RGBA()
			dark += 1 - float64(r)/0xffff
			all++
		}
	}
	return dark / all
}

// The five fills differ by how much black they have, so also on a black-and-white printer.
func TestPNGFillsDiffer(t *testing.T) {
	for _, scale := range []float64{1, 2, 3} {
		img := picture(t, small(), scale)
		if got, want := img.Bounds().Size(), image.Pt(int(220*scale), int(150*scale)); got != want {
			t.Fatalf("scale %g gives %v, want %v", scale, got, want)
		}
		for i, want := range [][2]float64{{0, 0}, {0.03, 0.1}, {0.015, 0.1}, {0.12, 0.4}, {1, 1}} {
			x := 13 + 40*float64(i)
			if i == 3 {
				x += 14 // beside the label
			}
			if got := ink(img, scale, x, 13, 14, 34); got < want[0] || got > want[1] {
				t.Errorf("scale %g: fill %d has %.3f of its area black, want %v", scale, i, got, want)
			}
		}
	}
}

// Every label leaves ink at its place, none the box of a letter that the font has not.
func TestPNGLetters(t *testing.T) {
	one := func(text string, bold bool) image.Image {
		l := sketch.Words(20, 20, 24, text)
		l.Bold = bold
		return picture(t, sketch.Sheet{Width: 40, Height: 40, Shapes: []sketch.Shape{l}}, 1)
	}
	for _, bold := range []bool{false, true} {
		missing := one("\uE000", bold)
		for _, r := range "×°½⅛¼¾⅜⅝⅞–—“”‘’„éßłőąčřžæøåαµ²³±″′→…·#/" {
			img := one(string(r), bold)
			if got := ink(img, 1, 5, 5, 30, 30); got < 0.004 {
				t.Errorf("%c leaves no ink: %.4f", r, got)
			}
			if same(img, missing) {
				t.Errorf("the letters have no %c", r)
			}
		}
	}
}

func same(a, b image.Image) bool {
	for y := range 40 {
		for x := range 40 {
			if a.At(x, y) != b.At(x, y) {
				return false
			}
		}
	}
	return true
}

// A label stands where its anchor says, and turned text runs upwards.
func TestPNGAnchorsAndTurn(t *testing.T) {
	label := func(a sketch.Anchor, turn float64) image.Image {
		l := sketch.Words(60, 60, 12, "MMMM")
		l.Anchor, l.Turn = a, turn
		return picture(t, sketch.Sheet{Width: 120, Height: 120, Shapes: []sketch.Shape{l}}, 1)
	}
	for _, c := range []struct {
		anchor                   sketch.Anchor
		turn                     float64
		left, right, above, down bool
	}{
		{sketch.Start, 0, false, true, false, false},
		{sketch.End, 0, true, false, false, false},
		{sketch.Middle, 0, true, true, false, false},
		{sketch.Start, -90, false, false, true, false},
		{sketch.End, -90, false, false, false, true},
	} {
		img := label(c.anchor, c.turn)
		for _, side := range []struct {
			name       string
			x, y, w, h float64
			want       bool
		}{
			{"left", 40, 55, 10, 10, c.left}, {"right", 70, 55, 10, 10, c.right},
			{"above", 55, 40, 10, 10, c.above}, {"below", 55, 70, 10, 10, c.down},
		} {
			if got := ink(img, 1, side.x, side.y, side.w, side.h) > 0.05; got != side.want {
				t.Errorf("anchor %q turned %g: ink %s of the place is %v", c.anchor, c.turn, side.name, got)
			}
		}
	}
}

var pageObject = regexp.MustCompile(`/Type /Page\b[^s]`)

func pdf(t *testing.T, sheets ...sketch.Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := render.PDF(&b, "Boards – é", time.Date(2026, 3, 7, 10, 0, 0, 0, time.UTC), sheets...); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestPDFPages(t *testing.T) {
	sheet := func(w, h float64) sketch.Sheet {
		return sketch.Sheet{Width: w, Height: h, Shapes: []sketch.Shape{sketch.Rect(0, 0, w, h).Filled(sketch.Hatched)}}
	}
	half := sheet(render.PaperWidth, render.PaperHeight/2-10)
	for _, c := range []struct {
		name   string
		sheets []sketch.Sheet
		pages  int
	}{
		{"one", []sketch.Sheet{small()}, 1},
		{"two that fill a half each", []sketch.Sheet{half, half}, 1},
		{"three that fill a half each", []sketch.Sheet{half, half, half}, 2},
		{"nine narrow ones in rows", []sketch.Sheet{small(), small(), small(), small(), small(), small(), small(), small(), small()}, 1},
		{"a page each", []sketch.Sheet{sheet(render.PaperWidth, render.PaperHeight), sheet(render.PaperWidth, render.PaperHeight)}, 2},
		{"an upright one, and one on its side", []sketch.Sheet{small(), sheet(render.LyingWidth, render.LyingHeight/2-10)}, 2},
		{"two on one page on its side", []sketch.Sheet{sheet(render.LyingWidth, render.LyingHeight/2-10), sheet(render.LyingWidth, render.LyingHeight/2-10)}, 1},
		{"one that is too large", []sketch.Sheet{sheet(9000, 9000)}, 1},
	} {
		file := pdf(t, c.sheets...)
		if !bytes.HasPrefix(file, []byte("%PDF-")) || !bytes.Contains(file, []byte("%%EOF")) {
			t.Errorf("%s: no PDF", c.name)
		}
		if got := len(pageObject.FindAll(file, -1)); got != c.pages {
			t.Errorf("%s: %d pages, want %d", c.name, got, c.pages)
		}
	}
}

// The same drawing is the same file, so that it can be kept once.
func TestPDFIsRepeatable(t *testing.T) {
	if !bytes.Equal(pdf(t, small()), pdf(t, small())) {
		t.Error("two files of one drawing differ")
	}
}

func TestRefused(t *testing.T) {
	for name, s := range map[string]sketch.Sheet{
		"no size":        {},
		"endless":        {Width: math.Inf(1), Height: 1},
		"no number":      {Width: 100, Height: math.NaN()},
		"unknown kind":   {Width: 100, Height: 100, Shapes: []sketch.Shape{{Kind: "cube"}}},
		"two corners":    {Width: 100, Height: 100, Shapes: []sketch.Shape{sketch.Polygon(sketch.Point{}, sketch.Point{})}},
		"no place":       {Width: 100, Height: 100, Shapes: []sketch.Shape{{Kind: sketch.Label}}},
		"far off":        {Width: 100, Height: 100, Shapes: []sketch.Shape{sketch.Rect(0, 0, 1e12, 1).Filled(sketch.Hatched)}},
		"negative width": {Width: 100, Height: 100, Shapes: []sketch.Shape{{Kind: sketch.Line, Stroke: -1, Points: make([]sketch.Point, 2)}}},
	} {
		var b bytes.Buffer
		if render.SVG(&b, s) == nil || render.PNG(&b, s, 1) == nil || render.PDF(&b, "", time.Time{}, s) == nil {
			t.Errorf("%s: drawn", name)
		}
		if b.Len() > 0 {
			t.Errorf("%s: refused, but something is written", name)
		}
	}
	for _, scale := range []float64{0, -1, math.NaN(), math.Inf(1), 1000} {
		if err := render.PNG(io.Discard, small(), scale); err == nil {
			t.Errorf("drawn %g times enlarged", scale)
		}
	}
	if err := render.PDF(io.Discard, "nothing", time.Time{}); err == nil {
		t.Error("a PDF of nothing is written")
	}
}

// Whatever people call a part, all three files can be written, and the SVG is well formed with
// the text in it as text.
func FuzzLabel(f *testing.F) {
	for _, s := range []string{"top rail", "<b>", "]]>&\"'", "Größe ½ × 88°", "\x00\xff\u202e", "🪚 saw", "\uFFFE\uD7FF", "עברית ا"} {
		f.Add(s, 12.0, -90.0)
	}
	f.Fuzz(func(t *testing.T, text string, size, turn float64) {
		l := sketch.Words(50, 50, size, text)
		l.Turn, l.Halo = turn, true
		s := sketch.Sheet{Name: text, Title: text, Width: 100, Height: 100, Shapes: []sketch.Shape{l}}
		var b bytes.Buffer
		if err := render.SVG(&b, s); err != nil {
			return // a size or turn out of range
		}
		if got := len(elements(t, b.String())); got != 5 {
			t.Errorf("%d elements for %q, want 5", got, text)
		}
		if err := render.PNG(io.Discard, s, 1); err != nil {
			t.Error(err)
		}
		if err := render.PDF(io.Discard, text, time.Time{}, s); err != nil {
			t.Error(err)
		}
	})
}
