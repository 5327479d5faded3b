package picture

import (
	"fmt"
	"slices"
	"strconv"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
)

// Step is one cut as it is done at the saw: which piece is taken in hand, and where it is marked.
type Step struct {
	Order  int            // from 1, as in the drawing
	Stage  int            // 1 to 4, as cutplan.Cut
	Across bool           // a crosscut; else a rip
	Piece  string         // "" the whole board, "A" its first length, "A2" the second strip of that
	At     measure.Length // from the left end of that piece (a crosscut) or its lower edge (a rip)
	Gives  measure.Length // length or width of what falls off before the mark; 0 where that is waste
	Beyond bool           // what lies beyond the mark is kept, so the blade runs before it
	Part   string         // the part that a last rip brings to its width
	Makes  string         // the strip that a rip before its mark gives; "" of waste and of other cuts
}

// Steps lists the cuts of a board in sawing order.
func Steps(b cutplan.SawnBoard, kerf measure.Length) []Step {
	p := piecesOf(b, kerf)
	steps := make([]Step, len(b.Cuts))
	for i, c := range b.Cuts {
		name, from := p.inHand(c)
		steps[i] = Step{Order: c.Order, Stage: c.Stage, Across: c.Across, Piece: name, At: c.At - start(from, c.Across), Beyond: c.Starts}
		if !c.Starts {
			steps[i].Gives = c.At - start(c.Piece, c.Across)
		}
		switch c.Stage {
		case 2:
			steps[i].Makes = p.strip(c)
		case 4:
			steps[i].Part = partIn(b, from)
		}
	}
	return steps
}

// strip names the strip that falls off before the mark of a rip.
func (p pieces) strip(c cutplan.Cut) string {
	low := c.Piece
	low.Width = c.At - c.Piece.Y
	if i := slices.IndexFunc(p.strips, func(s piece) bool { return s.rect == low }); i >= 0 && !c.Starts {
		return p.strips[i].name
	}
	return ""
}

// Text is the step in a few words: "crosscut at 712", "rip A at 85".
func (s Step) Text(in measure.System) string {
	verb := "rip"
	if s.Across {
		verb = "crosscut"
	}
	if s.Piece != "" {
		verb += " " + s.Piece
	}
	return verb + " at " + in.Number(s.At, measure.Nearest)
}

// Result says what the step gives: "712 long", "65 wide", "keep beyond".
func (s Step) Result(in measure.System) string {
	switch {
	case s.Beyond && s.Part != "":
		return "keep beyond: " + s.Part
	case s.Beyond:
		return "keep beyond"
	case s.Part != "":
		return s.Part
	case s.Across:
		return in.Number(s.Gives, measure.Nearest) + " long"
	}
	return in.Number(s.Gives, measure.Nearest) + " wide"
}

// Heading says what the cuts of a stage have in common, above all from where they are measured.
func (s Step) Heading() string {
	switch {
	case s.Stage == 1:
		return "Crosscut the board, from its left end"
	case s.Stage == 2:
		return "Rip, from the lower edge"
	case s.Stage == 3:
		return "Crosscut strips, from their left end"
	}
	return "Rip to width, from the lower edge"
}

// pieces are what a board is in after its crosscuts, and after its rips.
type pieces struct {
	board   cutplan.Rect
	lengths []piece
	strips  []piece
	blocks  []cutplan.Rect
}

type piece struct {
	name string
	rect cutplan.Rect
}

// piecesOf replays the cuts and names what they give: lengths by letters from the left end,
// strips by numbers from the lower edge. What is left over has no name.
func piecesOf(b cutplan.SawnBoard, kerf measure.Length) pieces {
	p := pieces{board: cutplan.Rect{Length: b.Length, Width: b.Width}}
	after := []cutplan.Rect{p.board}
	replay := func(stage int) {
		for _, c := range b.Cuts {
			if c.Stage == stage {
				after = split(after, c, kerf)
			}
		}
	}
	replay(1)
	lengths := used(after, b.Offcuts, true)
	for i, r := range lengths {
		name := letters(i)
		if len(lengths) == 1 && r == p.board {
			name = ""
		}
		p.lengths = append(p.lengths, piece{name, r})
	}
	replay(2)
	for _, l := range p.lengths {
		strips := used(within(l.rect, after), b.Offcuts, false)
		for i, r := range strips {
			name := l.name + strconv.Itoa(i+1)
			if l.name == "" {
				name = "strip " + name
			}
			if len(strips) == 1 && r == l.rect {
				name = l.name
			}
			p.strips = append(p.strips, piece{name, r})
		}
	}
	replay(3)
	p.blocks = after
	return p
}

// split replaces the piece that a cut goes through by the two that it gives.
func split(pieces []cutplan.Rect, c cutplan.Cut, kerf measure.Length) []cutplan.Rect {
	i := slices.IndexFunc(pieces, func(r cutplan.Rect) bool { return holds(r, c.Piece) })
	if i < 0 {
		return pieces
	}
	before, beyond := c.At, c.At+kerf
	if c.Starts {
		before, beyond = c.At-kerf, c.At
	}
	low, high := pieces[i], pieces[i]
	if c.Across {
		low.Length = before - low.X
		high.X, high.Length = beyond, high.X+high.Length-beyond
	} else {
		low.Width = before - low.Y
		high.Y, high.Width = beyond, high.Y+high.Width-beyond
	}
	pieces = slices.Delete(pieces, i, i+1)
	for _, r := range []cutplan.Rect{low, high} {
		if r.Length > 0 && r.Width > 0 {
			pieces = append(pieces, r)
		}
	}
	return pieces
}

// used leaves out the offcuts, and sorts from the left end or from the lower edge.
func used(pieces, offcuts []cutplan.Rect, along bool) (out []cutplan.Rect) {
	for _, r := range pieces {
		if !slices.Contains(offcuts, r) {
			out = append(out, r)
		}
	}
	slices.SortFunc(out, func(a, b cutplan.Rect) int {
		return int(start(a, along)/measure.Micrometre - start(b, along)/measure.Micrometre)
	})
	return out
}

func within(outer cutplan.Rect, pieces []cutplan.Rect) (out []cutplan.Rect) {
	for _, r := range pieces {
		if holds(outer, r) {
			out = append(out, r)
		}
	}
	return out
}

func holds(outer, r cutplan.Rect) bool {
	return r.X >= outer.X && r.Y >= outer.Y && r.X+r.Length <= outer.X+outer.Length && r.Y+r.Width <= outer.Y+outer.Width
}

// start is where a piece begins, along the board or across it.
func start(r cutplan.Rect, along bool) measure.Length {
	if along {
		return r.X
	}
	return r.Y
}

// inHand is the piece that lies on the saw for a cut, from whose end or edge it is measured.
func (p pieces) inHand(c cutplan.Cut) (name string, r cutplan.Rect) {
	in := map[int][]piece{2: p.lengths, 3: p.strips, 4: p.strips}[c.Stage]
	i := slices.IndexFunc(in, func(l piece) bool { return holds(l.rect, c.Piece) })
	if i < 0 {
		return "", p.board
	}
	name, r = in[i].name, in[i].rect
	if c.Stage == 4 {
		if j := slices.IndexFunc(p.blocks, func(b cutplan.Rect) bool { return holds(b, c.Piece) }); j >= 0 {
			r = p.blocks[j]
		}
	}
	return name, r
}

func partIn(b cutplan.SawnBoard, r cutplan.Rect) string {
	for _, p := range b.Parts {
		if holds(r, rectOf(p)) {
			return p.Name
		}
	}
	return ""
}

func rectOf(p cutplan.Placed) cutplan.Rect {
	return cutplan.Rect{X: p.X, Y: p.Y, Length: p.Length, Width: p.Width}
}

// letters counts A to Z, then AA, AB and so on.
func letters(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return letters(i/26-1) + letters(i%26)
}

// size prints length × width without a unit.
func size(in measure.System, length, width measure.Length) string {
	return fmt.Sprintf("%s × %s", in.Number(length, measure.Nearest), in.Number(width, measure.Nearest))
}

// Heading is a board's name and size.
func Heading(b cutplan.SawnBoard, in measure.System) string {
	return b.Name + "   " + in.Sizes(measure.Nearest, b.Length, b.Width, b.Thickness)
}
