package replay_test

import (
	"math"
	"strings"
	"testing"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/replay"
	"fettle/calc/measure"
)

const mm = measure.Millimetre

func rect(x, y, l, w int) cutplan.Rect {
	at := func(n int) measure.Length { return measure.Length(n) * mm }
	return cutplan.Rect{X: at(x), Y: at(y), Length: at(l), Width: at(w)}
}

func placed(part int, name string, r cutplan.Rect, turned bool) cutplan.Placed {
	return cutplan.Placed{Part: part, Name: name, X: r.X, Y: r.Y, Length: r.Length, Width: r.Width, Turned: turned}
}

// goodJob is two sheets of 1000 × 200 in oak, the second with a knot near its left end, and a
// board of ash that no part needs.
func goodJob() cutplan.Job {
	return cutplan.Job{
		Kerf: 4 * mm, Trim: 10 * mm, LastRip: true,
		Boards: []cutplan.Board{
			{Name: "long", Quantity: 2, Length: 1000 * mm, Width: 200 * mm, Thickness: 20 * mm, Species: "oak", Price: 30, Priced: true, Sheet: true,
				Faults: []cutplan.Fault{{Copy: 2, X: 20 * mm, Y: 10 * mm, Length: 30 * mm, Width: 30 * mm}}},
			{Name: "spare", Quantity: 1, Length: 100 * mm, Width: 100 * mm, Thickness: 20 * mm, Species: "ash", Price: 5, Priced: true},
		},
		Parts: []cutplan.Part{
			{Name: "rail", Quantity: 2, Length: 400 * mm, Width: 60 * mm, Thickness: 20 * mm, Species: "oak"},
			{Name: "cleat", Quantity: 1, Length: 50 * mm, Width: 100 * mm, Thickness: 20 * mm, Free: true, Species: "oak"},
			{Name: "beam", Quantity: 1, Length: 1000 * mm, Width: 60 * mm, Thickness: 20 * mm, Species: "oak"},
		},
	}
}

// goodPlan saws goodJob out of the first sheet, by hand: both ends trimmed, a length of 400 off,
// ripped into a rail, a rail, and a strip of 68 that gives the turned cleat, trimmed from 68 to 50.
func goodPlan() cutplan.Plan {
	cut := func(order, stage, at int, starts bool, piece cutplan.Rect) cutplan.Cut {
		return cutplan.Cut{Order: order, Stage: stage, Across: stage%2 == 1, At: measure.Length(at) * mm, Starts: starts, Piece: piece}
	}
	return cutplan.Plan{
		Kerf: 4 * mm, Trim: 10 * mm, Priced: true, StockArea: 0.2, PartsArea: 0.053, Cost: 30, Bound: 30, Proved: true,
		LeftOut: []cutplan.LeftOut{{Part: 2, Name: "beam", Quantity: 1, Reason: "No board is long enough."}},
		Boards: []cutplan.SawnBoard{{
			Board: 0, Copy: 1, Name: "long#1", Length: 1000 * mm, Width: 200 * mm, Thickness: 20 * mm, Price: 30,
			Parts: []cutplan.Placed{
				placed(0, "rail", rect(10, 0, 400, 60), false), placed(0, "rail", rect(10, 64, 400, 60), false),
				placed(1, "cleat", rect(10, 128, 100, 50), true),
			},
			Cuts: []cutplan.Cut{
				cut(1, 1, 10, true, rect(0, 0, 1000, 200)),
				cut(2, 1, 410, false, rect(10, 0, 990, 200)),
				cut(3, 2, 60, false, rect(10, 0, 400, 200)),
				cut(4, 2, 124, false, rect(10, 64, 400, 136)),
				cut(5, 2, 196, false, rect(10, 128, 400, 72)),
				cut(6, 3, 110, false, rect(10, 128, 400, 68)),
				cut(7, 4, 178, false, rect(10, 128, 100, 68)),
			},
			Offcuts: []cutplan.Rect{rect(0, 0, 6, 200), rect(414, 0, 586, 200), rect(114, 128, 296, 68), rect(10, 182, 100, 14)},
		}},
	}
}

func TestGoodPlan(t *testing.T) {
	if err := replay.Check(goodJob(), goodPlan()); err != nil {
		t.Error(err)
	}
}

// TestRefused spoils the good job or plan in one way at a time; each has to be found by the rule
// that is there for it.
func TestRefused(t *testing.T) {
	for _, c := range []struct {
		name, want string
		spoil      func(job *cutplan.Job, plan *cutplan.Plan, b *cutplan.SawnBoard)
	}{
		{"no such board", "number 7 of 2", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Board = 7 }},
		{"board's name", "long#1 is called long", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Name = "long" }},
		{"no such copy", "is copy 3, but there are 2", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Copy = 3 }},
		{"board twice", "used twice", func(_ *cutplan.Job, p *cutplan.Plan, b *cutplan.SawnBoard) { p.Boards = append(p.Boards, *b) }},
		{"board for nothing", "used for nothing", func(_ *cutplan.Job, p *cutplan.Plan, b *cutplan.SawnBoard) { b.Parts = nil }},
		{"board's size", "not the size", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Width++ }},
		{"board's price", "not the size or the price", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Price++ }},
		{"faults untold", "does not list the faults", func(j *cutplan.Job, _ *cutplan.Plan, _ *cutplan.SawnBoard) {
			j.Boards[0].Faults[0] = cutplan.Fault{Copy: 1, X: 900 * mm, Length: mm, Width: mm}
		}},
		{"on a fault", "is on the fault", func(j *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) {
			j.Boards[0].Faults[0].Copy = 1
			b.Faults = j.Boards[0].Faults
		}},
		{"no such part", "number 9 of 3", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Parts[0].Part = 9 }},
		{"part's name", "rail is called stile", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Parts[0].Name = "stile" }},
		{"part too small", "not of its size", func(j *cutplan.Job, _ *cutplan.Plan, _ *cutplan.SawnBoard) { j.Parts[0].Width++ }},
		{"turned with grain", "turned across the grain", func(j *cutplan.Job, _ *cutplan.Plan, _ *cutplan.SawnBoard) { j.Boards[0].Sheet = false }},
		{"turned though bound", "turned across the grain", func(j *cutplan.Job, _ *cutplan.Plan, _ *cutplan.SawnBoard) { j.Parts[1].Free = false }},
		{"thickness", "another thickness", func(j *cutplan.Job, _ *cutplan.Plan, _ *cutplan.SawnBoard) { j.Parts[1].Thickness++ }},
		{"species", "another species", func(j *cutplan.Job, _ *cutplan.Plan, _ *cutplan.SawnBoard) { j.Parts[1].Species = "ash" }},
		{"trim", "within its trim", func(j *cutplan.Job, p *cutplan.Plan, _ *cutplan.SawnBoard) { j.Trim, p.Trim = 11*mm, 11*mm }},
		{"outside", "is not on the board", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Parts[1].Y = 150 * mm }},
		{"overlap", "overlap", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Parts[1].Y = 30 * mm }},
		{"no kerf between", "no room for the saw", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Parts[1].Y = 63 * mm }},
		{"one too few", "1 pieces of rail", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) {
			b.Parts = b.Parts[1:]
			b.Offcuts = append(b.Offcuts, rect(10, 0, 400, 60))
		}},
		{"one too many", "but 1 are asked for", func(j *cutplan.Job, _ *cutplan.Plan, _ *cutplan.SawnBoard) { j.Parts[0].Quantity = 1 }},
		{"cut's number", "has the number 9", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Cuts[2].Order = 9 }},
		{"stage after", "of stage 2 after stage 3", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) {
			c := b.Cuts
			c[4], c[5] = cutplan.Cut{Order: 5, Stage: 3, Across: true, At: 110 * mm, Piece: rect(10, 128, 400, 72)},
				cutplan.Cut{Order: 6, Stage: 2, At: 196 * mm, Piece: rect(10, 128, 100, 72)}
			b.Offcuts[2].Width = 72 * mm
		}},
		{"last rip not allowed", "there are 3", func(j *cutplan.Job, _ *cutplan.Plan, _ *cutplan.SawnBoard) { j.LastRip = false }},
		{"stage nought", "of stage 0", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Cuts[0].Stage = 0 }},
		{"wrong way", "goes the wrong way", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Cuts[2].Across = true }},
		{"not edge to edge", "edge to edge", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Cuts[2].Piece.Length -= mm }},
		{"two pieces at once", "edge to edge", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Cuts[3].Piece = rect(10, 0, 400, 200) }},
		{"cut at the edge", "not within its piece", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Cuts[6].At = 196 * mm }},
		{"cut before the edge", "not within its piece", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Cuts[6].At = 128 * mm }},
		{"kerf on the wrong side", "not sawn out", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Cuts[2].Starts = true }},
		{"kerf not taken off", "is not left by the cuts", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Offcuts[1] = rect(410, 0, 590, 200) }},
		{"part not cut off", "not sawn out", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Cuts = b.Cuts[:6] }},
		{"last rip of a strip", "trims nothing to a part", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) {
			b.Cuts[6].At = 180 * mm
		}},
		{"last rip parts two", "from another part", twoByLastRip},
		{"offcut forgotten", "neither part nor offcut", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) { b.Offcuts = b.Offcuts[1:] }},
		{"offcut twice", "is not left by the cuts", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) {
			b.Offcuts = append(b.Offcuts, b.Offcuts[0])
		}},
		{"part in an offcut", "is not left by the cuts", func(_ *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) {
			b.Offcuts = append(b.Offcuts, rect(10, 0, 400, 60))
		}},
		{"left out, no such part", "number 5 of 3", func(_ *cutplan.Job, p *cutplan.Plan, _ *cutplan.SawnBoard) { p.LeftOut[0].Part = 5 }},
		{"left out, name", "called plank", func(_ *cutplan.Job, p *cutplan.Plan, _ *cutplan.SawnBoard) { p.LeftOut[0].Name = "plank" }},
		{"left out, none", "0 pieces of rail", func(_ *cutplan.Job, p *cutplan.Plan, _ *cutplan.SawnBoard) {
			p.LeftOut = append(p.LeftOut, cutplan.LeftOut{Name: "rail", Reason: "Why not."})
		}},
		{"left out, no reason", "without a reason", func(_ *cutplan.Job, p *cutplan.Plan, _ *cutplan.SawnBoard) { p.LeftOut[0].Reason = " " }},
		{"left out, yet fits", "fits on long (copy 2)", func(j *cutplan.Job, _ *cutplan.Plan, _ *cutplan.SawnBoard) { j.Parts[2].Length = 980 * mm }},
		{"left out, yet fits turned", "fits on long (copy 2)", func(j *cutplan.Job, _ *cutplan.Plan, _ *cutplan.SawnBoard) {
			j.Parts[2].Length, j.Parts[2].Width, j.Parts[2].Free = 60*mm, 980*mm, true
		}},
		{"left out and proved", "leaves out what fits on a board", func(j *cutplan.Job, _ *cutplan.Plan, _ *cutplan.SawnBoard) {
			j.Parts[2].Length = 980 * mm
			j.Boards[0].Quantity = 2
		}},
		{"kerf", "kerf or trim", func(_ *cutplan.Job, p *cutplan.Plan, _ *cutplan.SawnBoard) { p.Kerf = 3 * mm }},
		{"trim told", "kerf or trim", func(_ *cutplan.Job, p *cutplan.Plan, _ *cutplan.SawnBoard) { p.Trim = 0 }},
		{"priced", "boards are priced", func(j *cutplan.Job, _ *cutplan.Plan, _ *cutplan.SawnBoard) { j.Boards[1].Priced = false }},
		{"stock area", "stock area is given", func(_ *cutplan.Job, p *cutplan.Plan, _ *cutplan.SawnBoard) { p.StockArea = 0.21 }},
		{"parts area", "parts' area is given", func(_ *cutplan.Job, p *cutplan.Plan, _ *cutplan.SawnBoard) { p.PartsArea = 0.05 }},
		{"cost", "cost is given", func(_ *cutplan.Job, p *cutplan.Plan, _ *cutplan.SawnBoard) { p.Cost = 29 }},
		{"no cost", "cost is given", func(_ *cutplan.Job, p *cutplan.Plan, _ *cutplan.SawnBoard) { p.Cost = math.NaN() }},
		{"bound above", "the bound is 31", func(_ *cutplan.Job, p *cutplan.Plan, _ *cutplan.SawnBoard) { p.Bound = 31 }},
		{"bound below nothing", "the bound is -1", func(_ *cutplan.Job, p *cutplan.Plan, _ *cutplan.SawnBoard) { p.Bound, p.Proved = -1, false }},
		{"no bound", "the bound is NaN", func(_ *cutplan.Job, p *cutplan.Plan, _ *cutplan.SawnBoard) { p.Bound, p.Proved = math.NaN(), false }},
		{"proved beyond the bound", "said to be proved", func(_ *cutplan.Job, p *cutplan.Plan, _ *cutplan.SawnBoard) { p.Bound = 29 }},
	} {
		t.Run(c.name, func(t *testing.T) {
			job, plan := goodJob(), goodPlan()
			c.spoil(&job, &plan, &plan.Boards[0])
			if err := replay.Check(job, plan); err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("the check says %v, want %q", err, c.want)
			}
		})
	}
}

// twoByLastRip makes the strip's rest a second cleat of 14, so that the last rip yields two parts.
func twoByLastRip(j *cutplan.Job, _ *cutplan.Plan, b *cutplan.SawnBoard) {
	j.Parts = append(j.Parts, cutplan.Part{Name: "lath", Quantity: 1, Length: 100 * mm, Width: 14 * mm, Thickness: 20 * mm})
	b.Parts = append(b.Parts, placed(3, "lath", rect(10, 182, 100, 14), false))
	b.Offcuts = b.Offcuts[:3]
}

// TestAllFaults holds that one fault does not hide another.
func TestAllFaults(t *testing.T) {
	job, plan := goodJob(), goodPlan()
	plan.Cost, plan.LeftOut[0].Reason = 7, ""
	err := replay.Check(job, plan)
	if err == nil || !strings.Contains(err.Error(), "cost is given") || !strings.Contains(err.Error(), "without a reason") {
		t.Errorf("the check says %v, want both faults", err)
	}
}

// TestGuillotine tells layouts that a saw can do in so many stages from those it can't.
func TestGuillotine(t *testing.T) {
	pinwheel := []cutplan.Rect{rect(0, 0, 60, 30), rect(64, 0, 30, 60), rect(34, 64, 60, 30), rect(0, 34, 30, 60)}
	trimmed := []cutplan.Rect{rect(0, 0, 40, 30), rect(44, 10, 40, 20)} // the second has its top with the first's
	inside := []cutplan.Rect{rect(0, 0, 40, 30), rect(44, 5, 40, 20)}   // the second touches neither edge of the strip
	tall := []cutplan.Rect{rect(0, 0, 84, 20)}                          // a long one above makes it one length
	for _, c := range []struct {
		name   string
		parts  []cutplan.Rect
		stages int
		want   bool
	}{
		{"none", nil, 1, true},
		{"the whole board", []cutplan.Rect{rect(0, 0, 100, 100)}, 1, true},
		{"one, crosscut", []cutplan.Rect{rect(0, 0, 50, 100)}, 1, true},
		{"one, ripped, in one stage", []cutplan.Rect{rect(0, 0, 50, 50)}, 1, false},
		{"one, ripped, in two", []cutplan.Rect{rect(10, 20, 50, 50)}, 2, true},
		{"pinwheel", pinwheel, 4, false},
		{"pinwheel less one", pinwheel[:3], 4, true},
		{"strip in two stages", append(lift(trimmed[:1]), append(lift(trimmed[1:]), tall...)...), 2, false},
		{"trimmed in three stages", append(lift(trimmed), tall...), 3, false},
		{"trimmed in four stages", append(lift(trimmed), tall...), 4, true},
		{"trimmed on both sides", append(lift(inside), tall...), 4, false},
		{"no kerf between", []cutplan.Rect{rect(0, 0, 50, 100), rect(53, 0, 40, 100)}, 4, false},
		{"just a kerf between", []cutplan.Rect{rect(0, 0, 50, 100), rect(54, 0, 40, 100)}, 1, true},
		{"overlap", []cutplan.Rect{rect(0, 0, 50, 50), rect(40, 40, 50, 50)}, 4, false},
		{"twice the same", []cutplan.Rect{rect(0, 0, 50, 50), rect(0, 0, 50, 50)}, 4, false},
		{"outside", []cutplan.Rect{rect(60, 0, 50, 100)}, 4, false},
		{"nothing of a part", []cutplan.Rect{rect(60, 0, 0, 100)}, 4, false},
	} {
		if got := replay.Guillotine(rect(0, 0, 100, 100), c.parts, 4*mm, c.stages); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// lift puts parts above the long one of 20, with a kerf between.
func lift(parts []cutplan.Rect) (all []cutplan.Rect) {
	for _, p := range parts {
		p.Y += 24 * mm
		all = append(all, p)
	}
	return all
}
