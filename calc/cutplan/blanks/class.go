package blanks

import (
	"cmp"
	"fmt"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
)

// demand is pieces of one part that are to come from boards thicker than above.
type demand struct {
	part, quantity int
	above          measure.Length
}

// class is the boards that a part is given: those of one thickness.
type class struct {
	thickness measure.Length
	sheet     bool
	species   string         // of the sheet, else the part's
	longest   measure.Length // of the class's boards, ends trimmed
	widest    measure.Length
	stave     Staves // of a part that is glued up
}

// classOf gives a part the thinnest boards that are thick enough and have room for its blank; a
// sheet must have the finished thickness itself, as it is not planed. Where there is none it says
// what stands in the way.
func (j *Job) classOf(d demand) (best class, reason string) {
	p := &j.Parts[d.part]
	switch {
	case p.Length <= 0 || p.Width <= 0 || p.Thickness <= 0:
		return class{}, "One of its sizes is not known."
	case len(j.Boards) == 0:
		return class{}, "There are no boards."
	}
	found := false
	for i := range j.Boards {
		b := &j.Boards[i]
		if b.Thickness > d.above && goesWith(p, b) && j.fits(p, b) && (!found || b.Thickness < best.thickness) {
			best, found = class{thickness: b.Thickness, sheet: b.Sheet, species: p.Species}, true
			if b.Sheet {
				best.species = b.Species
			}
		}
	}
	if !found && j.Shop.GlueUp {
		best, found = j.gluedUp(d)
	}
	if !found {
		return class{}, j.lack(p)
	}
	for i := range j.Boards {
		b := &j.Boards[i]
		if b.Thickness == best.thickness && b.Sheet == best.sheet && goesWith(p, b) {
			best.longest = max(best.longest, b.Length-2*j.Shop.Trim)
			best.widest = max(best.widest, b.Width)
		}
	}
	return best, ""
}

func goesWith(p *Part, b *cutplan.Board) bool {
	return p.Species == "" || b.Species == "" || p.Species == b.Species
}

func (j *Job) thickEnough(p *Part, b *cutplan.Board) bool {
	if b.Sheet {
		return b.Thickness == p.Thickness
	}
	return b.Thickness >= p.Thickness+j.Shop.Allow.Thickness
}

// fits says whether a board has room for the blank of a single piece, faults aside.
func (j *Job) fits(p *Part, b *cutplan.Board) bool {
	l, w := j.single(p, b.Sheet)
	room := b.Length - 2*j.Shop.Trim
	return j.thickEnough(p, b) && (l <= room && w <= b.Width || b.Sheet && p.Free && w <= room && l <= b.Width)
}

// single is the blank of one piece. A sheet is cut to size, without allowances.
func (j *Job) single(p *Part, sheet bool) (length, width measure.Length) {
	if sheet {
		return p.Length, p.Width
	}
	return max(p.Length+j.Shop.Allow.Length, j.Shop.Limits.MachineMinimum), p.Width + j.Shop.Allow.Width
}

// Lack says why no board does for a part by its index, faults aside, as a sentence; "" where one
// does.
func (j *Job) Lack(part int) string {
	_, reason := j.classOf(demand{part: part})
	return reason
}

// lack says why no board does for a part: the first thing that all of them lack.
func (j *Job) lack(p *Part) string {
	timber, thick, long := false, false, false
	for i := range j.Boards {
		b := &j.Boards[i]
		l, _ := j.single(p, b.Sheet)
		timber = timber || goesWith(p, b)
		thick = thick || goesWith(p, b) && j.thickEnough(p, b)
		long = long || goesWith(p, b) && j.thickEnough(p, b) && l <= b.Length-2*j.Shop.Trim
	}
	l, w := j.single(p, false)
	text := func(l measure.Length) string { return cmp.Or(j.Out, measure.Metric).Text(l, measure.Up) }
	switch {
	case !timber:
		return fmt.Sprintf("There is no %s.", p.Species)
	case !thick:
		return fmt.Sprintf("No board of it is thick enough: it takes %s.", text(p.Thickness+j.Shop.Allow.Thickness))
	case !long:
		return fmt.Sprintf("No board that is thick enough is long enough: it takes %s.", text(l))
	}
	return fmt.Sprintf("No board that is thick and long enough is wide enough: it takes %s.", text(w))
}
