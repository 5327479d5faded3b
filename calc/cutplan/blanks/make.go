package blanks

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"slices"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
)

// mostTries bounds how many ways of ganging are planned before the best is taken, and thicker how
// often pieces without a place are tried on thicker boards.
const (
	mostTries = 16
	thicker   = 3
)

// wholeRounds is how often fewer pieces of a glued up part are tried before it is left out altogether.
const wholeRounds = 3

// Make finds blanks for the parts and plans them. Parts are ganged where the plan is better for it
// by the planner's own measure: fewest pieces left out, then least cost or area of the boards,
// fewest boards, then least area of blanks. The nodes must be limited, so that the same job comes
// out the same; half of them go into comparing ways of ganging. When the context ends first, the
// plan is the best so far. It fails, in a sentence, when the job is wrong.
func Make(ctx context.Context, job Job, limits cutplan.Limits) (Planned, error) {
	if limits.Nodes <= 0 {
		return Planned{}, errors.New("the nodes of a plan with blanks must be limited")
	}
	var wanted []demand
	for i, p := range job.Parts {
		if p.Quantity > 0 {
			wanted = append(wanted, demand{part: i, quantity: p.Quantity})
		}
	}
	best, err := job.ganged(ctx, wanted, limits)
	for round := 0; round < thicker && err == nil && ctx.Err() == nil; round++ {
		more := job.moved(wanted, &best)
		if more == nil {
			break
		}
		var next Planned
		if next, err = job.ganged(ctx, more, limits); err == nil && missing(&next) < missing(&best) {
			best, wanted = next, more
		} else {
			break
		}
	}
	var lack []LeftOut
	for round := 1; err == nil; round++ {
		fewer, less := job.whole(wanted, &best, round >= wholeRounds)
		if len(less) == 0 {
			break
		}
		wanted, lack = fewer, append(lack, less...)
		best, err = job.ganged(ctx, wanted, limits)
	}
	for _, l := range lack {
		best.leaveOut(l)
	}
	return best, err
}

// ganged tries ways of ganging, one section after the other, the largest first, and keeps what
// makes the plan better.
func (j *Job) ganged(ctx context.Context, wanted []demand, limits cutplan.Limits) (Planned, error) {
	sections, out := j.sections(wanted)
	slices.SortStableFunc(sections, func(a, b *section) int { return cmp.Compare(j.area(b), j.area(a)) })
	ways, tries := make([]Way, len(sections)), 1
	for i, s := range sections {
		ways[i] = j.ways(s)[0]
		tries += len(j.ways(s)) - 1
	}
	tries = min(tries, mostTries)
	share := limits
	share.Nodes = max(limits.Nodes/int64(2*tries), 1)
	best, err := j.plan(ctx, sections, ways, share)
	for i, s := range sections {
		for _, w := range j.ways(s)[1:] {
			if tries--; tries <= 0 || ctx.Err() != nil || err != nil {
				break
			}
			trial := slices.Clone(ways)
			trial[i] = w
			var p Planned
			if p, err = j.plan(ctx, sections, trial, share); err == nil && better(&p, &best) {
				best, ways = p, trial
			}
		}
	}
	if err == nil && ctx.Err() == nil && !best.Plan.Proved {
		limits.Nodes = max(limits.Nodes/2, 1)
		var p Planned
		if p, err = j.plan(ctx, sections, ways, limits); err == nil && !better(&best, &p) {
			best = p
		}
	}
	best.LeftOut = append(out, best.LeftOut...)
	return best, err
}

func (j *Job) area(s *section) (sum float64) {
	for _, p := range s.pieces {
		sum += squareMetres(j.Parts[p].Length, s.width)
	}
	return sum
}

// plan plans the sections' blanks, made in the ways given.
func (j *Job) plan(ctx context.Context, sections []*section, ways []Way, limits cutplan.Limits) (Planned, error) {
	out := Planned{Cut: cutplan.Job{Boards: j.Boards, Kerf: j.Shop.Kerf, Trim: j.Shop.Trim, LastRip: true}}
	apart := out.Cut
	apart.Boards = slices.Clone(j.Boards)
	for i := range apart.Boards {
		apart.Boards[i].Thickness = sheetsApart(apart.Boards[i].Thickness, apart.Boards[i].Sheet)
	}
	names := map[string]bool{}
	for i, s := range sections {
		for _, b := range j.blanksOf(s, ways[i]) {
			b.Name = unused(names, b)
			out.Blanks = append(out.Blanks, b)
			out.Cut.Parts = append(out.Cut.Parts, cutplan.Part{Name: b.Name, Quantity: b.Quantity, Length: b.Length, Width: b.Width, Thickness: b.Thickness, Species: b.Species, Free: b.Free})
			apart.Parts = append(apart.Parts, out.Cut.Parts[len(out.Cut.Parts)-1])
			apart.Parts[len(apart.Parts)-1].Thickness = sheetsApart(b.Thickness, s.sheet)
		}
	}
	var err error
	if out.Plan, err = cutplan.Make(ctx, apart, limits); err != nil {
		return out, fmt.Errorf("plan the blanks: %w", err)
	}
	for i := range out.Plan.Boards {
		out.Plan.Boards[i].Thickness = j.Boards[out.Plan.Boards[i].Board].Thickness
	}
	for _, l := range out.Plan.LeftOut {
		if out.Blanks[l.Part].Stave.Of > 0 {
			continue
		}
		for _, p := range out.Blanks[l.Part].Parts {
			out.leaveOut(LeftOut{Part: p, Quantity: l.Quantity, Reason: l.Reason})
		}
	}
	out.leaveOutStaves()
	return out, nil
}

// sheetsApart gives the thickness under which the planner knows a board: a sheet is a nanometre
// thicker to it. It tells by the thickness what goes together, and a part that is planed must not
// come from a sheet that is as thick as the board that it wants.
func sheetsApart(thickness measure.Length, sheet bool) measure.Length {
	if sheet {
		return thickness + 1
	}
	return thickness
}

// unused gives a blank a name that no other has: of two with one name, the later one's thickness
// is added.
func unused(names map[string]bool, b Blank) string {
	name := b.Name
	for n := 1; names[name]; n++ {
		name = fmt.Sprintf("%s (%s)", b.Name, measure.Decimal(b.Thickness.MM(), 2))
		if n > 1 {
			name = fmt.Sprintf("%s %d", name, n)
		}
	}
	names[name] = true
	return name
}

// leaveOut puts what is left out of one part for one reason together.
func (p *Planned) leaveOut(l LeftOut) {
	for i := range p.LeftOut {
		if o := &p.LeftOut[i]; o.Part == l.Part && o.Reason == l.Reason {
			o.Quantity += l.Quantity
			return
		}
	}
	p.LeftOut = append(p.LeftOut, l)
}

// moved asks for the pieces without a place from thicker boards, where there are any; nil where
// there are none.
func (j *Job) moved(wanted []demand, p *Planned) []demand {
	out, some := slices.Clone(wanted), false
	for _, l := range p.Plan.LeftOut {
		b := &p.Blanks[l.Part]
		for _, part := range b.Parts {
			d := demand{part: part, quantity: l.Quantity, above: b.Thickness}
			if b.Stave.Of > 0 {
				d.quantity = inPieces(l.Quantity, b)
			}
			if _, reason := j.classOf(d); reason != "" {
				continue
			}
			out, some = take(out, d, b.Thickness), true
		}
	}
	if !some {
		return nil
	}
	return slices.DeleteFunc(out, func(d demand) bool { return d.quantity == 0 })
}

// take moves pieces from the demand that gave them to one for thicker boards.
func take(all []demand, d demand, from measure.Length) []demand {
	for i := range all {
		if o := &all[i]; o.part == d.part && o.above < from && o.quantity >= d.quantity {
			o.quantity -= d.quantity
			return append(all, d)
		}
	}
	return all
}

func missing(p *Planned) (n int) {
	for _, l := range p.LeftOut {
		n += l.Quantity
	}
	return n
}

// better compares plans as the planner does, and then by the timber in the blanks.
func better(a, b *Planned) bool {
	return cmp.Or(cmp.Compare(missing(a), missing(b)), near(a.Plan.Cost, b.Plan.Cost), cmp.Compare(len(a.Plan.Boards), len(b.Plan.Boards)),
		near(a.Plan.PartsArea, b.Plan.PartsArea)) < 0
}

// near compares what is summed up in floating point.
func near(a, b float64) int {
	if d := a - b; d < 1e-9 && d > -1e-9 {
		return 0
	}
	return cmp.Compare(a, b)
}

func squareMetres(l, w measure.Length) float64 { return l.MM() * w.MM() / 1e6 }
