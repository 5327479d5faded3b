package replay

import "fettle/calc/cutplan"

// saw makes a board's cuts in their order and holds what is left against parts and offcuts.
func (c *checker) saw(kind *cutplan.Board, b *cutplan.SawnBoard) {
	pile := map[cutplan.Rect]int{{Length: kind.Length, Width: kind.Width}: 1}
	stage := 1
	for i := range b.Cuts {
		cut := &b.Cuts[i]
		if cut.Order != i+1 {
			c.fault("%s: cut %d has the number %d", b.Name, i+1, cut.Order)
		}
		c.stage(b, cut, stage)
		stage = max(stage, cut.Stage)
		if pile[cut.Piece] == 0 {
			c.fault("%s: cut %d has no piece %s to cut, so it is not from edge to edge of one", b.Name, cut.Order, words(cut.Piece))
			continue
		}
		take(pile, cut.Piece)
		kept, rest := c.fall(b, cut)
		c.last(b, cut, kept)
		for _, r := range []cutplan.Rect{kept, rest} {
			if r.Length > 0 && r.Width > 0 {
				pile[r]++
			}
		}
	}
	c.sort(b, pile)
}

// stage checks that cuts come stage by stage, each the way its stage cuts.
func (c *checker) stage(b *cutplan.SawnBoard, cut *cutplan.Cut, before int) {
	if cut.Stage < before {
		c.fault("%s: cut %d is of stage %d after stage %d", b.Name, cut.Order, cut.Stage, before)
	}
	most := 3
	if c.job.LastRip {
		most = 4
	}
	if cut.Stage < 1 || cut.Stage > most {
		c.fault("%s: cut %d is of stage %d, but there are %d", b.Name, cut.Order, cut.Stage, most)
	}
	if cut.Across != (cut.Stage == 1 || cut.Stage == 3) {
		c.fault("%s: cut %d goes the wrong way for stage %d", b.Name, cut.Order, cut.Stage)
	}
}

// fall is what a cut keeps and what else it leaves; the kerf is gone. Sizes may be below zero.
func (c *checker) fall(b *cutplan.SawnBoard, cut *cutplan.Cut) (kept, rest cutplan.Rect) {
	p := cut.Piece
	from, size := p.Y, p.Width
	if cut.Across {
		from, size = p.X, p.Length
	}
	if cut.At <= from || cut.At >= from+size {
		c.fault("%s: cut %d at %g is not within its piece %s", b.Name, cut.Order, cut.At.MM(), words(p))
	}
	lowEnd, highStart := cut.At, cut.At+c.job.Kerf
	if cut.Starts {
		lowEnd, highStart = cut.At-c.job.Kerf, cut.At
	}
	low, high := p, p
	if cut.Across {
		low.Length, high.X, high.Length = lowEnd-from, highStart, from+size-highStart
	} else {
		low.Width, high.Y, high.Width = lowEnd-from, highStart, from+size-highStart
	}
	if cut.Starts {
		return high, low
	}
	return low, high
}

// last checks that a fourth cut does nothing but bring a piece to its part's width.
func (c *checker) last(b *cutplan.SawnBoard, cut *cutplan.Cut, kept cutplan.Rect) {
	if cut.Stage != 4 {
		return
	}
	for i := range b.Parts {
		if lies(&b.Parts[i]) == kept {
			c.alone(b, cut, kept)
			return
		}
	}
	c.fault("%s: cut %d is a last rip that trims nothing to a part", b.Name, cut.Order)
}

// alone checks that no other part lies in the piece that a last rip trims.
func (c *checker) alone(b *cutplan.SawnBoard, cut *cutplan.Cut, kept cutplan.Rect) {
	for i := range b.Parts {
		if p := lies(&b.Parts[i]); p != kept && touch(p, cut.Piece) {
			c.fault("%s: cut %d is a last rip that parts %s from another part", b.Name, cut.Order, b.Parts[i].Name)
		}
	}
}

// sort takes parts and offcuts from the pile that was sawn; it is empty then.
func (c *checker) sort(b *cutplan.SawnBoard, pile map[cutplan.Rect]int) {
	for i := range b.Parts {
		p := &b.Parts[i]
		if !take(pile, lies(p)) {
			c.fault("%s: %s (%s) is not sawn out by the cuts", b.Name, p.Name, words(lies(p)))
		}
	}
	for _, o := range b.Offcuts {
		if !take(pile, o) {
			c.fault("%s: the offcut %s is not left by the cuts", b.Name, words(o))
		}
	}
	for r := range pile {
		c.fault("%s: a piece %s is left that is neither part nor offcut", b.Name, words(r))
	}
}

// take takes one piece from the pile, if it is there.
func take(pile map[cutplan.Rect]int, r cutplan.Rect) bool {
	if pile[r] == 0 {
		return false
	}
	if pile[r]--; pile[r] == 0 {
		delete(pile, r)
	}
	return true
}
