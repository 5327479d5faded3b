package cutplan_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
)

// faultsOf lists what is wrong with a plan: parts off their boards, on faults or closer than a
// kerf, wrong sizes and counts, boards used twice, sums that do not add up.
func faultsOf(job cutplan.Job, plan cutplan.Plan) (wrong []string) {
	say := func(format string, args ...any) { wrong = append(wrong, fmt.Sprintf(format, args...)) }
	count := make([]int, len(job.Parts))
	seen := map[string]bool{}
	cost := 0.0
	for _, b := range plan.Boards {
		board := job.Boards[b.Board]
		if b.Copy < 1 || b.Copy > board.Quantity || seen[b.Name] {
			say("board %s, copy %d is used, of %d", b.Name, b.Copy, board.Quantity)
		}
		seen[b.Name] = true
		if plan.Priced {
			cost += board.Price
		} else {
			cost += board.Length.MM() * board.Width.MM() / 1e6
		}
		for i, p := range b.Parts {
			count[p.Part]++
			say2 := partFaults(job, board, b, p)
			wrong = append(wrong, say2...)
			for _, q := range b.Parts[:i] {
				if !apart(p, q, job.Kerf) {
					say("%s: %+v and %+v are closer than the kerf", b.Name, p, q)
				}
			}
		}
		wrong = append(wrong, areaFaults(job, b)...)
	}
	for _, l := range plan.LeftOut {
		count[l.Part] += l.Quantity
		if l.Reason == "" {
			say("%s is left out without a reason", l.Name)
		}
	}
	for i, n := range count {
		if n != job.Parts[i].Quantity {
			say("%d pieces of %s, want %d", n, job.Parts[i].Name, job.Parts[i].Quantity)
		}
	}
	if d := cost - plan.Cost; d > 1e-6 || d < -1e-6 || plan.Bound > plan.Cost+1e-6 {
		say("cost %g bound %g, the boards cost %g", plan.Cost, plan.Bound, cost)
	}
	return wrong
}

func partFaults(job cutplan.Job, board cutplan.Board, b cutplan.SawnBoard, p cutplan.Placed) (wrong []string) {
	part := job.Parts[p.Part]
	l, w := part.Length, part.Width
	if p.Turned {
		l, w = w, l
	}
	if p.Length != l || p.Width != w || p.Turned && !(part.Free && board.Sheet) || part.Thickness != board.Thickness {
		wrong = append(wrong, fmt.Sprintf("%s: %+v is not %+v", b.Name, p, part))
	}
	if p.X < job.Trim || p.Y < 0 || p.X+p.Length > board.Length-job.Trim || p.Y+p.Width > board.Width {
		wrong = append(wrong, fmt.Sprintf("%s: %+v is not on the board", b.Name, p))
	}
	for _, f := range board.Faults {
		if f.Copy == b.Copy && f.X < p.X+p.Length && p.X < f.X+f.Length && f.Y < p.Y+p.Width && p.Y < f.Y+f.Width {
			wrong = append(wrong, fmt.Sprintf("%s: %+v is on fault %+v", b.Name, p, f))
		}
	}
	return wrong
}

// apart says whether two pieces stand a kerf apart in one direction.
func apart(p, q cutplan.Placed, kerf measure.Length) bool {
	return p.X+p.Length+kerf <= q.X || q.X+q.Length+kerf <= p.X || p.Y+p.Width+kerf <= q.Y || q.Y+q.Width+kerf <= p.Y
}

// areaFaults replays the cuts on a pile of pieces and compares what is left with the parts and
// offcuts.
func areaFaults(job cutplan.Job, b cutplan.SawnBoard) (wrong []string) {
	pile := map[cutplan.Rect]bool{{Length: b.Length, Width: b.Width}: true}
	stage := 0
	for i, c := range b.Cuts {
		if !pile[c.Piece] || c.Order != i+1 || c.Stage < stage || c.Across != (c.Stage%2 == 1) || c.Stage == 4 && !job.LastRip {
			wrong = append(wrong, fmt.Sprintf("%s: cut %+v has nothing to cut or is out of order", b.Name, c))
		}
		stage = c.Stage
		delete(pile, c.Piece)
		for _, r := range fall(c, job.Kerf) {
			pile[r] = true
		}
	}
	for _, p := range b.Parts {
		r := cutplan.Rect{X: p.X, Y: p.Y, Length: p.Length, Width: p.Width}
		if !pile[r] {
			wrong = append(wrong, fmt.Sprintf("%s: %+v is not sawn out by %+v", b.Name, p, b.Cuts))
		}
		delete(pile, r)
	}
	for _, o := range b.Offcuts {
		if !pile[o] {
			wrong = append(wrong, fmt.Sprintf("%s: offcut %+v is not sawn", b.Name, o))
		}
		delete(pile, o)
	}
	if len(pile) > 0 {
		wrong = append(wrong, fmt.Sprintf("%s: %v is left over", b.Name, pile))
	}
	return wrong
}

// fall is what a cut leaves of its piece.
func fall(c cutplan.Cut, kerf measure.Length) (all []cutplan.Rect) {
	p := c.Piece
	near, far := c.At, c.At+kerf
	if c.Starts {
		near, far = c.At-kerf, c.At
	}
	if c.Across {
		all = []cutplan.Rect{{X: p.X, Y: p.Y, Length: near - p.X, Width: p.Width}, {X: far, Y: p.Y, Length: p.X + p.Length - far, Width: p.Width}}
	} else {
		all = []cutplan.Rect{{X: p.X, Y: p.Y, Length: p.Length, Width: near - p.Y}, {X: p.X, Y: far, Length: p.Length, Width: p.Y + p.Width - far}}
	}
	var kept []cutplan.Rect
	for _, r := range all {
		if r.Length > 0 && r.Width > 0 {
			kept = append(kept, r)
		}
	}
	return kept
}

// anyJob draws a small job of all that jobs may have.
func anyJob(t *rapid.T) cutplan.Job {
	mm := func(name string, lo, hi int) measure.Length {
		return measure.Length(rapid.IntRange(lo, hi).Draw(t, name)) * measure.Millimetre
	}
	job := cutplan.Job{Kerf: mm("kerf", 0, 5), Trim: mm("trim", 0, 8), LastRip: rapid.Bool().Draw(t, "last rip")}
	for i := range rapid.IntRange(1, 4).Draw(t, "boards") {
		b := cutplan.Board{
			Name: fmt.Sprint("B", i), Quantity: rapid.IntRange(1, 3).Draw(t, "copies"),
			Length: mm("length", 50, 300), Width: mm("width", 20, 120), Thickness: mm("thickness", 10, 11),
			Price: float64(rapid.IntRange(0, 50).Draw(t, "price")), Priced: true, Sheet: rapid.Bool().Draw(t, "sheet"),
		}
		for range rapid.IntRange(0, 3).Draw(t, "faults") {
			f := cutplan.Fault{Copy: rapid.IntRange(1, b.Quantity).Draw(t, "copy"), X: mm("x", 0, 40), Y: mm("y", 0, 10)}
			f.Length, f.Width = mm("fault", 1, 10), mm("fault", 1, 10)
			b.Faults = append(b.Faults, f)
		}
		job.Boards = append(job.Boards, b)
	}
	for i := range rapid.IntRange(1, 6).Draw(t, "parts") {
		job.Parts = append(job.Parts, cutplan.Part{
			Name: fmt.Sprint("P", i), Quantity: rapid.IntRange(1, 5).Draw(t, "quantity"),
			Length: mm("length", 10, 200), Width: mm("width", 5, 90), Thickness: mm("thickness", 10, 11),
			Free: rapid.Bool().Draw(t, "free"),
		})
	}
	return job
}

// TestAnyPlanIsValid plans jobs of all kinds and replays the plans.
func TestAnyPlanIsValid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := anyJob(t)
		plan, err := cutplan.Make(t.Context(), job, cutplan.Limits{Nodes: 5000})
		if err != nil {
			t.Fatal(err)
		}
		for _, wrong := range faultsOf(job, plan) {
			t.Error(wrong)
		}
	})
}

// TestSameAgain holds that a plan depends on the seed and the nodes only.
func TestSameAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := anyJob(t)
		limits := cutplan.Limits{Nodes: 20_000, Seed: rapid.Int64().Draw(t, "seed")}
		a, err := cutplan.Make(t.Context(), job, limits)
		if err != nil {
			t.Fatal(err)
		}
		b, err := cutplan.Make(t.Context(), job, limits)
		if err != nil || fmt.Sprint(a) != fmt.Sprint(b) {
			t.Errorf("the first plan is %v, the second %v (%v)", a, b, err)
		}
	})
}
