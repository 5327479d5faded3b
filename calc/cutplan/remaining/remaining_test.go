package remaining_test

import (
	"context"
	"math"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/remaining"
	"fettle/calc/measure"
)

const mm = measure.Millimetre

// Whatever is sawn, the offcuts are boards that a plan takes, and as much of each fault is on the
// offcuts as lay on them.
func TestOffcutsAreBoards(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string, lo, hi int) measure.Length {
			return measure.Length(rapid.IntRange(lo, hi).Draw(t, name)) * mm
		}
		job := cutplan.Job{Kerf: 3 * mm, LastRip: true,
			Boards: []cutplan.Board{{Name: "b", Quantity: 1, Length: 2600 * mm, Width: 210 * mm, Thickness: 32 * mm, Price: 48, Priced: true,
				Faults: []cutplan.Fault{{Copy: 1, X: length("x", 0, 2500), Y: length("y", 0, 150), Length: 60 * mm, Width: 40 * mm}}}},
			Parts: []cutplan.Part{{Name: "p", Quantity: rapid.IntRange(1, 4).Draw(t, "n"), Length: length("l", 200, 1200), Width: length("w", 40, 150), Thickness: 32 * mm}}}
		plan, err := cutplan.Make(context.Background(), job, cutplan.Limits{Nodes: 500})
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range plan.Boards {
			left := remaining.Offcuts(b, b.Offcuts, "oak", false)
			next := cutplan.Job{Boards: left, Parts: job.Parts}
			if err := next.Check(); err != nil && len(left) > 0 {
				t.Fatal(err)
			}
			var on, lay float64
			for i, o := range left {
				if o.Length != b.Offcuts[i].Length || o.Width != b.Offcuts[i].Width || o.Species != "oak" || o.Price != 0 {
					t.Fatalf("%+v of %+v", o, b.Offcuts[i])
				}
				for _, f := range o.Faults {
					on += f.Length.MM() * f.Width.MM()
				}
				for x := b.Faults[0].X; x < b.Faults[0].X+60*mm; x += mm {
					for y := b.Faults[0].Y; y < b.Faults[0].Y+40*mm; y += mm {
						if r := b.Offcuts[i]; x >= r.X && x < r.X+r.Length && y >= r.Y && y < r.Y+r.Width {
							lay++
						}
					}
				}
			}
			if math.Abs(on-lay) > 0.5 {
				t.Fatalf("faults of %v mm² on the offcuts, %v mm² lay there", on, lay)
			}
		}
	})
}

func TestWhatANewPlanTakesMore(t *testing.T) {
	board := func(name string, price float64) cutplan.SawnBoard {
		return cutplan.SawnBoard{Name: name, Length: 2000 * mm, Width: 200 * mm, Price: price}
	}
	before := cutplan.Plan{Boards: []cutplan.SawnBoard{board("a", 40), board("b", 40)}}
	after := cutplan.Plan{Boards: []cutplan.SawnBoard{board("b", 40), board("c", 30), board("offcut", 0)}}
	had := remaining.Whole(before, func(b cutplan.SawnBoard) bool { return b.Name != "a" })
	got := remaining.Whole(after, func(b cutplan.SawnBoard) bool { return b.Name != "offcut" }).Beyond(had)
	if want := (remaining.Timber{Boards: 1, Price: 30, Area: 0.4}); got.Boards != 1 || got.Price != 30 || math.Abs(got.Area-want.Area) > 1e-12 {
		t.Errorf("%+v, want %+v", got, want)
	}
}
