package blanks

import "fettle/calc/measure"

// mostStaves is of how many staves a part is glued up at most: common practice, no source.
const mostStaves = 12

// staveStep is to what the width of a stave is rounded up, so that it can be set on a fence.
const staveStep = measure.Millimetre / 2

// gluedUp gives a part that is wider than its boards the thinnest of those that are thick and long
// enough, to be glued up of the fewest staves of one width, with the grain along the length. Each stave
// is sawn with the allowance on the width, for jointing its edges. Only solid wood is glued up: no
// sheet, and no part that may lie any way.
func (j *Job) gluedUp(d demand) (best class, ok bool) {
	p := &j.Parts[d.part]
	if p.Free || p.Length <= 0 || p.Width <= 0 || p.Thickness <= 0 {
		return class{}, false
	}
	length, _ := j.single(p, false)
	for i := range j.Boards {
		b := &j.Boards[i]
		if b.Sheet || b.Thickness <= d.above || !goesWith(p, b) || !j.thickEnough(p, b) || length > b.Length-2*j.Shop.Trim || b.Width <= j.Shop.Allow.Width {
			continue
		}
		if best.thickness == 0 || b.Thickness < best.thickness {
			best = class{thickness: b.Thickness, species: p.Species}
		}
		if b.Thickness == best.thickness {
			best.widest = max(best.widest, b.Width)
		}
	}
	if best.thickness == 0 {
		return class{}, false
	}
	most := best.widest - j.Shop.Allow.Width
	n := int((p.Width + most - 1) / most)
	if p.Loose.Of > n {
		n = p.Loose.Of
	}
	best.stave = Staves{Of: n, Width: staveOf(p.Width, n)}
	return best, n > 1 && n <= mostStaves && best.stave.Width <= most
}

// staveOf is the finished width of one of n staves.
func staveOf(width measure.Length, n int) measure.Length {
	of := (width + measure.Length(n) - 1) / measure.Length(n)
	return (of + staveStep - 1) / staveStep * staveStep
}

// Staves is of how many staves a part is glued up, by its index; 1 where it is sawn whole.
func (j *Job) Staves(part int) int {
	if c, reason := j.classOf(demand{part: part}); reason == "" {
		return max(c.stave.Of, 1)
	}
	return 1
}

// finishedWidth is what each of the blanks is to finish at in width.
func finishedWidth(p *Part, c class) measure.Length {
	if c.stave.Of > 0 {
		return c.stave.Width
	}
	return p.Width
}

// pieces is how many blanks the demand takes: staves, less those that are cut already.
func (d demand) pieces(p *Part, c class) int {
	if c.stave.Of == 0 {
		return d.quantity
	}
	n := d.quantity * c.stave.Of
	if p.Loose.Of == c.stave.Of && p.Loose.Width == c.stave.Width && d.above == 0 {
		n -= p.Loose.Count
	}
	return max(n, 0)
}

// inPieces is how many pieces lack so many staves.
func inPieces(staves int, b *Blank) int { return (staves + b.Stave.Of - 1) / b.Stave.Of }

// lackingStaves counts, by the index of a blank, the staves of it without a place.
func (p *Planned) lackingStaves() map[int]int {
	out := map[int]int{}
	for _, l := range p.Plan.LeftOut {
		if p.Blanks[l.Part].Stave.Of > 0 {
			out[l.Part] += l.Quantity
		}
	}
	return out
}

// leaveOutStaves notes the pieces of glued up parts that lack staves.
func (p *Planned) leaveOutStaves() {
	missing := p.lackingStaves()
	for _, l := range p.Plan.LeftOut {
		if n := missing[l.Part]; n > 0 {
			p.leaveOut(LeftOut{Part: p.Blanks[l.Part].Parts[0], Quantity: inPieces(n, &p.Blanks[l.Part]), Reason: l.Reason})
			delete(missing, l.Part)
		}
	}
}

// whole asks for no more of the parts that are glued up than there are staves for, or for none of those
// that lack some, so that none is sawn for nothing. It gives what is left out for that, nothing where no
// stave lacks.
func (j *Job) whole(wanted []demand, p *Planned, none bool) (out []demand, less []LeftOut) {
	missing := p.lackingStaves()
	for _, d := range wanted {
		c, _ := j.classOf(d)
		for i := range p.Blanks {
			b := &p.Blanks[i]
			if missing[i] == 0 || b.Parts[0] != d.part || b.Thickness != c.thickness {
				continue
			}
			fewer := min(d.quantity, inPieces(missing[i], b))
			if none {
				fewer = d.quantity
			}
			d.quantity -= fewer
			less = append(less, LeftOut{Part: d.part, Quantity: fewer, Reason: "All boards that its staves fit on are used up."})
		}
		if d.quantity > 0 {
			out = append(out, d)
		}
	}
	return out, less
}
