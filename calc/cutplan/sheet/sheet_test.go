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
		got := map[string]int{}
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
		}
		for name, n := range want {
			if got[name] != n {
				t.Fatalf("%s has %d cuts and %d on the sheet", name, n, got[name])
			}
		}
	})
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
