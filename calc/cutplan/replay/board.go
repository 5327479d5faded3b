package replay

import (
	"fmt"
	"slices"

	"fettle/calc/cutplan"
)

// board checks one board that is used: that there is such a one, its parts, and its cuts.
func (c *checker) board(b *cutplan.SawnBoard) {
	if b.Board < 0 || b.Board >= len(c.job.Boards) {
		c.fault("board %s is number %d of %d", b.Name, b.Board, len(c.job.Boards))
		return
	}
	kind := &c.job.Boards[b.Board]
	c.identity(kind, b)
	for i := range b.Parts {
		if p := &b.Parts[i]; c.known(b, p) {
			c.part(kind, b, p)
		}
		c.neighbours(b, i)
	}
	c.saw(kind, b)
}

// identity holds a used board against the one in the job.
func (c *checker) identity(kind *cutplan.Board, b *cutplan.SawnBoard) {
	name := kind.Name
	if kind.Quantity > 1 {
		name = fmt.Sprintf("%s#%d", kind.Name, b.Copy)
	}
	if b.Name != name {
		c.fault("board %s is called %s", name, b.Name)
	}
	if b.Copy < 1 || b.Copy > kind.Quantity {
		c.fault("%s is copy %d, but there are %d", name, b.Copy, kind.Quantity)
	}
	if me := (copyOf{b.Board, b.Copy}); c.used[me] {
		c.fault("%s is used twice", name)
	} else {
		c.used[me] = true
	}
	if b.Length != kind.Length || b.Width != kind.Width || b.Thickness != kind.Thickness || b.Price != kind.Price {
		c.fault("%s has not the size or the price of its board", name)
	}
	if !slices.Equal(b.Faults, faultsOn(kind, b.Copy)) {
		c.fault("%s does not list the faults of its board", name)
	}
	if len(b.Parts) == 0 {
		c.fault("%s is used for nothing", name)
	}
}

func faultsOn(kind *cutplan.Board, number int) (all []cutplan.Fault) {
	for _, f := range kind.Faults {
		if f.Copy == number {
			all = append(all, f)
		}
	}
	return all
}

// known counts a piece, when it is of a part that was asked for.
func (c *checker) known(b *cutplan.SawnBoard, p *cutplan.Placed) bool {
	if p.Part < 0 || p.Part >= len(c.job.Parts) {
		c.fault("%s: part %s is number %d of %d", b.Name, p.Name, p.Part, len(c.job.Parts))
		return false
	}
	c.count[p.Part]++
	return true
}

// part holds a piece against its part and its board.
func (c *checker) part(kind *cutplan.Board, b *cutplan.SawnBoard, p *cutplan.Placed) {
	want := &c.job.Parts[p.Part]
	if p.Name != want.Name {
		c.fault("%s: %s is called %s", b.Name, want.Name, p.Name)
	}
	l, w := want.Length, want.Width
	if p.Turned {
		l, w = w, l
	}
	if p.Length != l || p.Width != w {
		c.fault("%s: %s is %s, not of its size", b.Name, p.Name, words(lies(p)))
	}
	if p.Turned && !(want.Free && kind.Sheet) {
		c.fault("%s: %s is turned across the grain", b.Name, p.Name)
	}
	if want.Thickness != kind.Thickness {
		c.fault("%s: %s is of another thickness", b.Name, p.Name)
	}
	if want.Species != "" && kind.Species != "" && want.Species != kind.Species {
		c.fault("%s: %s is of another species", b.Name, p.Name)
	}
	if !within(lies(p), c.room(kind)) {
		c.fault("%s: %s (%s) is not on the board within its trim", b.Name, p.Name, words(lies(p)))
	}
	for _, f := range faultsOn(kind, b.Copy) {
		if touch(lies(p), spot(f)) {
			c.fault("%s: %s (%s) is on the fault %s", b.Name, p.Name, words(lies(p)), words(spot(f)))
		}
	}
}

// room is what trimming leaves of a board.
func (c *checker) room(kind *cutplan.Board) cutplan.Rect {
	return cutplan.Rect{X: c.job.Trim, Length: kind.Length - 2*c.job.Trim, Width: kind.Width}
}

func spot(f cutplan.Fault) cutplan.Rect {
	return cutplan.Rect{X: f.X, Y: f.Y, Length: f.Length, Width: f.Width}
}

// neighbours holds a piece against those before it on the board.
func (c *checker) neighbours(b *cutplan.SawnBoard, i int) {
	p := &b.Parts[i]
	for k := range i {
		q := &b.Parts[k]
		switch {
		case touch(lies(p), lies(q)):
			c.fault("%s: %s (%s) and %s (%s) overlap", b.Name, q.Name, words(lies(q)), p.Name, words(lies(p)))
		case !apart(lies(p), lies(q), c.job.Kerf):
			c.fault("%s: %s (%s) and %s (%s) leave no room for the saw", b.Name, q.Name, words(lies(q)), p.Name, words(lies(p)))
		}
	}
}
