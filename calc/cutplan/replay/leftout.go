package replay

import (
	"strings"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
)

// leftOut checks that what is left out says why, and would not fit on a board that lies unused.
func (c *checker) leftOut() {
	for _, l := range c.plan.LeftOut {
		if l.Part < 0 || l.Part >= len(c.job.Parts) {
			c.fault("%s is left out, number %d of %d parts", l.Name, l.Part, len(c.job.Parts))
			continue
		}
		p := &c.job.Parts[l.Part]
		c.count[l.Part] += l.Quantity
		if l.Name != p.Name || l.Quantity < 1 {
			c.fault("%d pieces of %s, called %s, are left out", l.Quantity, p.Name, l.Name)
		}
		if strings.TrimSpace(l.Reason) == "" {
			c.fault("%s is left out without a reason", p.Name)
		}
		c.unused(p)
	}
}

// unused looks for a board that a part which is left out would fit on.
func (c *checker) unused(p *cutplan.Part) {
	for i := range c.job.Boards {
		kind := &c.job.Boards[i]
		for number := 1; number <= kind.Quantity; number++ {
			if !c.fitsCopy(p, kind, number) {
				continue
			}
			c.fits = true
			if !c.used[copyOf{i, number}] {
				c.fault("%s is left out, but fits on %s (copy %d), which is not used", p.Name, kind.Name, number)
				return
			}
		}
	}
}

// fitsCopy says whether a part fits on a board by itself. One part can always be sawn out where
// it lies, by two crosscuts and two rips.
func (c *checker) fitsCopy(p *cutplan.Part, kind *cutplan.Board, number int) bool {
	if p.Thickness != kind.Thickness || p.Species != "" && kind.Species != "" && p.Species != kind.Species {
		return false
	}
	faults := faultsOn(kind, number)
	if place(c.room(kind), faults, p.Length, p.Width) {
		return true
	}
	return p.Free && kind.Sheet && place(c.room(kind), faults, p.Width, p.Length)
}

// place looks for a place between faults. If there is one, there is one that touches the room's
// edge or a fault's far edge both ways.
func place(room cutplan.Rect, faults []cutplan.Fault, length, width measure.Length) bool {
	xs, ys := []measure.Length{room.X}, []measure.Length{room.Y}
	for _, f := range faults {
		xs, ys = append(xs, max(room.X, f.X+f.Length)), append(ys, f.Y+f.Width)
	}
	for _, x := range xs {
		for _, y := range ys {
			if free(cutplan.Rect{X: x, Y: y, Length: length, Width: width}, room, faults) {
				return true
			}
		}
	}
	return false
}

func free(r, room cutplan.Rect, faults []cutplan.Fault) bool {
	if !within(r, room) {
		return false
	}
	for _, f := range faults {
		if touch(r, spot(f)) {
			return false
		}
	}
	return true
}
