package sheet_test

import (
	"context"
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/picture"
	"fettle/calc/cutplan/sheet"
	"fettle/calc/measure"
)

const mm = measure.Millimetre

// Every cut of a plan is on the sheet once, whatever the job; each machine comes once, in order,
// from the large setting to the small.
func TestEveryCutIsOnTheSheetOnce(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := cutplan.Job{Kerf: 3 * mm, LastRip: true}
		for i := range rapid.IntRange(1, 4).Draw(t, "boards") {
			job.Boards = append(job.Boards, cutplan.Board{Name: fmt.Sprint("B", i), Quantity: 1, Thickness: 27 * mm,
				Length: measure.Length(rapid.IntRange(800, 3000).Draw(t, "l")) * mm, Width: measure.Length(rapid.IntRange(100, 300).Draw(t, "w")) * mm})
		}
		for i := range rapid.IntRange(1, 6).Draw(t, "parts") {
			job.Parts = append(job.Parts, cutplan.Part{Name: fmt.Sprint("p", i), Quantity: rapid.IntRange(1, 4).Draw(t, "n"), Thickness: 27 * mm,
				Length: measure.Length(rapid.IntRange(150, 900).Draw(t, "pl")) * mm, Width: measure.Length(rapid.IntRange(30, 110).Draw(t, "pw")) * mm})
		}
		for i := range job.Boards {
			if rapid.Bool().Draw(t, "faulty") {
				x := measure.Length(rapid.IntRange(0, 700).Draw(t, "x")) * mm
				job.Boards[i].Faults = []cutplan.Fault{{Copy: 1, X: x, Length: 60 * mm, Width: job.Boards[i].Width}}
			}
		}
		plan, err := cutplan.Make(context.Background(), job, cutplan.Limits{Nodes: 300})
		if err != nil {
			t.Fatal(err)
		}
		want := map[string]int{}
		for _, b := range plan.Boards {
			for range picture.Steps(b, job.Kerf) {
				want[b.Name]++
			}
		}
		got, listed := map[string]int{}, map[sheet.Cut]bool{}
		batches := sheet.Saw(plan.Boards, job.Kerf)
		for i, b := range batches {
			if i > 0 {
				before := batches[i-1]
				if before.Machine > b.Machine || before.Machine == b.Machine && before.Setting < b.Setting {
					t.Fatalf("batch %d: %v at %v comes after %v at %v", i, b.Machine, b.Setting, before.Machine, before.Setting)
				}
			}
			for _, w := range b.Work {
				got[w.Board] += w.Quantity * max(1, len(b.Marks))
			}
			for _, c := range b.Cuts {
				if listed[c] {
					t.Fatalf("cut %d of %s is listed twice", c.Order, c.Board)
				}
				listed[c] = true
			}
		}
		for name, n := range want {
			if got[name] != n {
				t.Fatalf("%s has %d cuts and %d on the sheet", name, n, got[name])
			}
			for order := 1; order <= n; order++ {
				if !listed[sheet.Cut{Board: name, Order: order}] {
					t.Fatalf("cut %d of %s is not listed", order, name)
				}
			}
		}
	})
}

// faulty has a knot over the whole width at 870 to 930 and a split from 2300 on.
func faulty(t *testing.T) cutplan.Plan {
	t.Helper()
	whole := func(x, l measure.Length) cutplan.Fault {
		return cutplan.Fault{Copy: 1, X: x * mm, Length: l * mm, Width: 210 * mm}
	}
	plan, err := cutplan.Make(context.Background(), cutplan.Job{Kerf: 3 * mm, LastRip: true,
		Boards: []cutplan.Board{{Name: "oak 1", Quantity: 1, Length: 2600 * mm, Width: 210 * mm, Thickness: 27 * mm, Faults: []cutplan.Fault{whole(870, 60), whole(2300, 300)}}},
		Parts: []cutplan.Part{
			{Name: "slats", Quantity: 1, Length: 800 * mm, Width: 149 * mm, Thickness: 27 * mm},
			{Name: "rails", Quantity: 1, Length: 1000 * mm, Width: 163 * mm, Thickness: 27 * mm},
			{Name: "lips", Quantity: 1, Length: 1306 * mm, Width: 40 * mm, Thickness: 27 * mm}}}, cutplan.Limits{Nodes: 5000})
	if err != nil || len(plan.LeftOut) > 0 {
		t.Fatalf("%v, left out %v", err, plan.LeftOut)
	}
	return plan
}

// What is kept of a strip by following its marks is free of the faults, and long enough for what
// the plan has there: the longer piece is not taken first from over the knot.
func TestMarksGoRoundTheFaults(t *testing.T) {
	plan := faulty(t)
	kept := map[measure.Length]bool{}
	for _, b := range sheet.Saw(plan.Boards, plan.Kerf) {
		if b.Machine == sheet.Crosscut && b.Marks[0].Beyond {
			t.Fatalf("the strips no longer begin at the board's end: %v", b)
		}
		if b.Machine != sheet.Lengths {
			continue
		}
		from := measure.Length(0)
		for _, m := range b.Marks {
			if m.Beyond {
				from = m.At
				continue
			}
			if from < 930*mm && m.At > 870*mm || m.At > 2300*mm {
				t.Errorf("%v to %v is kept, with a fault in it: %v", from.MM(), m.At.MM(), b)
			}
			kept[m.At-from] = true
			from = m.At + plan.Kerf
		}
		if len(b.Marks) == 0 && b.Setting > 870*mm {
			t.Errorf("a stop at %v takes the knot along: %v", b.Setting.MM(), b)
		}
	}
	if !kept[800*mm] {
		t.Errorf("what is kept is %v", kept)
	}
}

// Parts of one setting share it; thick comes before thin and long before short.
func TestFinishSharesSettings(t *testing.T) {
	batches := sheet.Finish([]sheet.Piece{
		{Name: "slat", Quantity: 6, Length: 830 * mm, Width: 70 * mm, Thickness: 22 * mm},
		{Name: "stile", Quantity: 2, Length: 1720 * mm, Width: 92 * mm, Thickness: 40 * mm},
		{Name: "rail", Quantity: 3, Length: 640 * mm, Width: 92 * mm, Thickness: 40 * mm, LeftDeg: 88, RightDeg: 92},
		{Name: "none", Quantity: 0, Length: 100 * mm, Width: 10 * mm, Thickness: 10 * mm},
	})
	var got []string
	for _, b := range batches {
		text := fmt.Sprintf("%d %g:", b.Machine, b.Setting.MM())
		for _, w := range b.Work {
			text += fmt.Sprintf(" %d %s", w.Quantity, w.Part)
		}
		got = append(got, text)
	}
	want := []string{"4 0: 6 slat 2 stile 3 rail", "5 40: 2 stile 3 rail", "5 22: 6 slat", "6 92: 2 stile 3 rail", "6 70: 6 slat", "7 1720: 2 stile", "7 830: 6 slat", "7 640: 3 rail"}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("got  %v\nwant %v", got, want)
	}
}
