package picture

import (
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
	"fettle/calc/sketch"
)

// An offcut at least so long and so wide is worth keeping; common practice, no source.
const (
	KeptLength = 250 * measure.Millimetre
	KeptWidth  = 40 * measure.Millimetre
)

// kept says whether an offcut is worth keeping: large enough, and so much of its length clear
// of faults.
func kept(b cutplan.SawnBoard, r cutplan.Rect) bool {
	if r.Length < KeptLength || r.Width < KeptWidth {
		return false
	}
	faults := slices.Clone(b.Faults)
	slices.SortFunc(faults, func(a, b cutplan.Fault) int { return cmp.Compare(a.X, b.X) })
	clear := r.X
	for _, f := range faults {
		if f.Y >= r.Y+r.Width || f.Y+f.Width <= r.Y || f.X+f.Length <= r.X {
			continue
		}
		if min(f.X, r.X+r.Length)-clear >= KeptLength {
			return true
		}
		clear = max(clear, f.X+f.Length)
	}
	return r.X+r.Length-clear >= KeptLength
}

// drawing is one board on its way to a sheet.
type drawing struct {
	room
	frame
	board cutplan.SawnBoard
	kerf  measure.Length
	in    measure.System
	keys  map[string]string
	text  float64 // size of the lettering on the board
}

// draw paints the board: what it is in, the cuts, and then the words, where there is room.
func (d *drawing) draw() {
	whole := d.box(cutplan.Rect{Length: d.board.Length, Width: d.board.Width})
	d.sheet.Add(whole.area().Filled(sketch.Waste))
	for _, p := range d.board.Parts {
		d.sheet.Add(d.box(rectOf(p)).area().Filled(sketch.Wood))
	}
	for _, r := range d.board.Offcuts {
		if kept(d.board, r) {
			d.sheet.Add(d.box(r).area().Filled(sketch.Paper).Dash())
		}
	}
	for _, f := range d.board.Faults {
		d.sheet.Add(d.box(cutplan.Rect{X: f.X, Y: f.Y, Length: f.Length, Width: f.Width}).area().Filled(sketch.Hatched))
	}
	for _, c := range d.board.Cuts {
		d.sheet.Add(d.box(d.sawdust(c)).area().Filled(sketch.Solid))
	}
	outline := whole.area()
	outline.Stroke = 2
	d.sheet.Add(outline)
	d.numbers()
	d.stripNames()
	for _, p := range d.board.Parts {
		d.name(p)
	}
	d.offcuts()
}

// sawdust is what a cut takes away, as thick as a line at least.
func (d *drawing) sawdust(c cutplan.Cut) cutplan.Rect {
	r, at, kerf := c.Piece, c.At, d.kerf
	if c.Starts {
		at -= kerf
	}
	if c.Across {
		r.X, r.Length = at, min(kerf, r.X+r.Length-at)
	} else {
		r.Y, r.Width = at, min(kerf, r.Y+r.Width-at)
	}
	return r
}

// numbers puts the number of each cut on its line; those of the crosscuts through the whole
// board stand beside it, with the running measure.
func (d *drawing) numbers() {
	cuts := slices.Clone(d.board.Cuts)
	slices.SortStableFunc(cuts, func(a, b cutplan.Cut) int { return d.run(a) - d.run(b) }) // the shorter has less choice
	for _, c := range cuts {
		if c.Stage > 1 {
			d.badge(d.places(c), strconv.Itoa(c.Order), d.text)
		}
	}
}

// stripNames writes by which name the list speaks of a strip near the strip's left end.
func (d *drawing) stripNames() {
	for _, s := range piecesOf(d.board, d.kerf).strips {
		in := d.box(s.rect)
		long, across := d.spans(in)
		name := strings.TrimPrefix(s.name, "strip ")
		if width := textWidth(name, d.text, true); name == "" || across < d.text || long < 3*width {
			continue
		}
		label := sketch.Words(0, 0, d.text, name)
		label.Bold, label.Turn, label.Halo = true, d.turn(), true
		var places []sketch.Point
		half := textWidth(name, d.text, true)/2 + 3
		for i := range 20 {
			places = append(places, d.beside(d.at(s.rect.X, s.rect.Y+s.rect.Width/2), half+float64(i)*4, 0))
		}
		cover := func(p sketch.Point) box { label.Points[0] = p; return boxOf(label) }
		at, free := d.settle(places, cover)
		if !free {
			continue
		}
		d.taken = append(d.taken, cover(at))
		d.sheet.Add(label)
	}
}

// run is how long a cut is, in px.
func (d *drawing) run(c cutplan.Cut) int {
	along, across := d.spans(d.box(d.sawdust(c)))
	return int(math.Max(along, across))
}

// places are the points of a cut's line where its number may stand: of a crosscut from the
// middle outwards, of a rip from its beginning on.
func (d *drawing) places(c cutplan.Cut) (out []sketch.Point) {
	const steps = 40
	r := d.sawdust(c)
	for i := range steps + 1 {
		if !c.Across {
			at := measure.Length(float64(r.Length) * math.Min(1, (float64(i)+0.5)/steps))
			out = append(out, d.at(r.X+at, r.Y+r.Width/2))
			continue
		}
		off := float64((i+1)/2) / steps * float64(1-i%2*2)
		out = append(out, d.at(r.X+r.Length/2, r.Y+measure.Length(float64(r.Width)*(0.5+off*0.9))))
	}
	return out
}

// words is one way to write what a part or an offcut is: lines, the first of them bold.
type words struct {
	lines []string
	turn  float64
	size  float64
}

// extent is what the lines cover on the sheet.
func (w words) extent() (width, height float64) {
	long := 0.0
	for i, l := range w.lines {
		long = math.Max(long, textWidth(l, w.size, i == 0))
	}
	high := float64(len(w.lines)) * w.size * 1.15
	if w.turn == 90 {
		return high, long
	}
	return long, high
}

// name writes a part's name and size on it, shorter where there is less room.
func (d *drawing) name(p cutplan.Placed) {
	key, dims := d.keys[p.Name], size(d.in, p.Length, p.Width)
	var ways []words
	for _, lines := range [][]string{{p.Name, dims}, {p.Name + " " + dims}, {key + " " + dims}, {key, dims}, {key}} {
		ways = append(ways, words{lines, 0, d.text})
		if d.upright {
			ways = append(ways, words{lines, 90, d.text})
		}
	}
	if d.write(d.box(rectOf(p)), ways) {
		return
	}
	// Too narrow for lettering: over the edges, but on a white ground.
	at := d.box(rectOf(p)).middle()
	label := sketch.Words(at.X, at.Y, d.text, key)
	label.Bold, label.Halo, label.Turn = true, true, d.turn()
	places := d.spread(d.box(rectOf(p)), 0, 0)
	label.Points[0], _ = d.settle(places, func(p sketch.Point) box { label.Points[0] = p; return boxOf(label) })
	d.taken = append(d.taken, boxOf(label))
	d.sheet.Add(label)
}

// offcuts writes the size on what is worth keeping.
func (d *drawing) offcuts() {
	for _, r := range d.board.Offcuts {
		if !kept(d.board, r) {
			continue
		}
		dims := size(d.in, r.Length, r.Width)
		var ways []words
		for _, lines := range [][]string{{"keep", dims}, {"keep " + dims}, {dims}} {
			ways = append(ways, words{lines, 0, d.text})
			if d.upright {
				ways = append(ways, words{lines, 90, d.text})
			}
		}
		d.write(d.box(r), ways)
	}
}

// write writes the first of several ways that finds a free place in a box.
func (d *drawing) write(in box, ways []words) bool {
	for _, w := range ways {
		width, height := w.extent()
		if width > in.x1-in.x0-3 || height > in.y1-in.y0-1 {
			continue
		}
		cover := func(p sketch.Point) box {
			return box{p.X - width/2, p.Y - height/2, p.X + width/2, p.Y + height/2}
		}
		if at, free := d.settle(d.spread(in, width, height), cover); free {
			d.taken = append(d.taken, cover(at))
			d.lines(at, w)
			return true
		}
	}
	return false
}

// spread are the places for the middle of a label in a box, from the middle outwards along the
// board.
func (d *drawing) spread(in box, width, height float64) (out []sketch.Point) {
	const steps = 30
	m := in.middle()
	spare := (in.y1 - in.y0 - height) / 2
	if !d.upright {
		spare = (in.x1 - in.x0 - width) / 2
	}
	for i := range steps + 1 {
		off := float64((i+1)/2) / (steps / 2) * float64(1-i%2*2) * math.Max(0, spare-2)
		if d.upright {
			out = append(out, sketch.Point{X: m.X, Y: m.Y + off})
		} else {
			out = append(out, sketch.Point{X: m.X + off, Y: m.Y})
		}
	}
	return out
}

// lines paints the lines of a label around its middle.
func (d *drawing) lines(at sketch.Point, w words) {
	for i, text := range w.lines {
		down := (float64(i) - float64(len(w.lines)-1)/2) * w.size * 1.15
		p := sketch.Point{X: at.X, Y: at.Y + down}
		if w.turn == 90 {
			p = sketch.Point{X: at.X - down, Y: at.Y}
		}
		label := sketch.Words(p.X, p.Y, w.size, text)
		label.Turn, label.Bold = w.turn, i == 0
		d.sheet.Add(label)
	}
}
