package remaining_test

import (
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/remaining"
	"fettle/calc/measure"
)

func anyPlan(t *rapid.T) cutplan.Plan {
	length := func(name string, lo, hi int) measure.Length {
		return measure.Length(rapid.IntRange(lo, hi).Draw(t, name)) * mm
	}
	job := cutplan.Job{Kerf: length("kerf", 0, 5), Trim: length("trim", 0, 20), LastRip: true,
		Boards: []cutplan.Board{{Name: "b", Quantity: 2, Length: length("L", 800, 3000), Width: length("W", 100, 300), Thickness: 27 * mm}}}
	for i := range rapid.IntRange(1, 4).Draw(t, "parts") {
		job.Parts = append(job.Parts, cutplan.Part{Name: string(rune('a' + i)), Quantity: rapid.IntRange(1, 5).Draw(t, "n"),
			Length: length("l", 100, 900), Width: length("w", 30, 140), Thickness: 27 * mm})
	}
	plan, err := cutplan.Make(context.Background(), job, cutplan.Limits{Nodes: 300})
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

// However many cuts are made, each part is cut out or in one piece that is still to be cut; nothing
// overlaps or sticks out; and with all cuts made everything is cut out and the offcuts are the plan's.
func TestHalfwayLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan := anyPlan(t)
		for _, b := range plan.Boards {
			made := map[int]bool{}
			for _, c := range b.Cuts {
				made[c.Order] = rapid.Bool().Draw(t, "made")
			}
			h := remaining.After(b, plan.Kerf, made)
			found := 0
			var all []cutplan.Rect
			for _, p := range h.Out {
				if !slices.Contains(b.Parts, p) {
					t.Fatalf("%+v is no part of the board", p)
				}
				found++
				all = append(all, cutplan.Rect{X: p.X, Y: p.Y, Length: p.Length, Width: p.Width})
			}
			for _, r := range h.Uncut {
				inside := 0
				for _, p := range b.Parts {
					if p.X >= r.X && p.Y >= r.Y && p.X+p.Length <= r.X+r.Length && p.Y+p.Width <= r.Y+r.Width {
						inside++
					}
				}
				if inside == 0 {
					t.Fatalf("%+v holds no part", r)
				}
				found += inside
			}
			if found != len(b.Parts) {
				t.Fatalf("%d of %d parts: %+v", found, len(b.Parts), h)
			}
			apart(t, b, append(append(all, h.Uncut...), h.Offcuts...))
		}
	})
}

func apart(t *rapid.T, b cutplan.SawnBoard, all []cutplan.Rect) {
	for i, r := range all {
		if r.X < 0 || r.Y < 0 || r.X+r.Length > b.Length || r.Y+r.Width > b.Width {
			t.Fatalf("%+v sticks out", r)
		}
		for _, o := range all[:i] {
			if r.X < o.X+o.Length && o.X < r.X+r.Length && r.Y < o.Y+o.Width && o.Y < r.Y+r.Width {
				t.Fatalf("%+v and %+v overlap", r, o)
			}
		}
	}
}

func TestAllCutsOrNone(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plan := anyPlan(t)
		for _, b := range plan.Boards {
			all := map[int]bool{}
			for _, c := range b.Cuts {
				all[c.Order] = true
			}
			h := remaining.After(b, plan.Kerf, all)
			if len(h.Out) != len(b.Parts) || len(h.Uncut) != 0 || len(h.Offcuts) != len(b.Offcuts) {
				t.Fatalf("after all cuts %+v, the board is %+v", h, b)
			}
			for _, o := range h.Offcuts {
				if !slices.Contains(b.Offcuts, o) {
					t.Fatalf("%+v is not among %+v", o, b.Offcuts)
				}
			}
			whole := cutplan.Rect{Length: b.Length, Width: b.Width}
			if h := remaining.After(b, plan.Kerf, nil); len(b.Cuts) > 0 && (len(h.Uncut) != 1 || h.Uncut[0] != whole) {
				t.Fatalf("before any cut %+v", h)
			}
		}
	})
}

// A board of 2600 × 210 is crosscut at 1820 and the long piece is ripped at 112: the first rip is
// made, so the crosscut was. The stile is out, 95 × 1820 is left of it, the short piece is whole.
func TestACutShowsThoseBeforeIt(t *testing.T) {
	b := cutplan.SawnBoard{Name: "b", Length: 2600 * mm, Width: 210 * mm,
		Parts: []cutplan.Placed{{Name: "stile", Length: 1820 * mm, Width: 112 * mm}, {Part: 1, Name: "rail", X: 1823 * mm, Length: 740 * mm, Width: 112 * mm}},
		Cuts: []cutplan.Cut{
			{Order: 1, Stage: 1, Across: true, At: 1820 * mm, Piece: cutplan.Rect{Length: 2600 * mm, Width: 210 * mm}},
			{Order: 2, Stage: 1, Across: true, At: 2563 * mm, Piece: cutplan.Rect{X: 1823 * mm, Length: 777 * mm, Width: 210 * mm}},
			{Order: 3, Stage: 2, At: 112 * mm, Piece: cutplan.Rect{Length: 1820 * mm, Width: 210 * mm}},
			{Order: 4, Stage: 2, At: 112 * mm, Piece: cutplan.Rect{X: 1823 * mm, Length: 740 * mm, Width: 210 * mm}}}}
	h := remaining.After(b, 3*mm, map[int]bool{3: true})
	if len(h.Out) != 1 || h.Out[0].Name != "stile" || len(h.Uncut) != 1 || len(h.Offcuts) != 1 {
		t.Fatalf("%+v", h)
	}
	if want := (cutplan.Rect{X: 1823 * mm, Length: 777 * mm, Width: 210 * mm}); h.Uncut[0] != want {
		t.Errorf("uncut is %+v, want %+v", h.Uncut[0], want)
	}
	if want := (cutplan.Rect{Y: 115 * mm, Length: 1820 * mm, Width: 95 * mm}); h.Offcuts[0] != want {
		t.Errorf("the offcut is %+v, want %+v", h.Offcuts[0], want)
	}
}
