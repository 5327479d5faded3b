package cutplan_test

import (
	"testing"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
)

const millimetre = measure.Millimetre

// TestOneBoard plans two rails and a block out of one board, by hand: the rails side by side,
// the block behind them.
func TestOneBoard(t *testing.T) {
	job := cutplan.Job{
		Kerf: 3 * millimetre, LastRip: true,
		Boards: []cutplan.Board{{Name: "plank", Quantity: 1, Length: 1000 * millimetre, Width: 103 * millimetre, Thickness: 27 * millimetre, Price: 7.5, Priced: true}},
		Parts: []cutplan.Part{
			{Name: "rail", Quantity: 2, Length: 700 * millimetre, Width: 50 * millimetre, Thickness: 27 * millimetre},
			{Name: "block", Quantity: 1, Length: 297 * millimetre, Width: 103 * millimetre, Thickness: 27 * millimetre},
		},
	}
	plan, err := cutplan.Make(t.Context(), job, cutplan.Limits{Nodes: 1000})
	if err != nil {
		t.Fatal(err)
	}
	if len(plan.Boards) != 1 || len(plan.LeftOut) != 0 || plan.Cost != 7.5 {
		t.Fatalf("the plan is %+v, want one board at 7.5", plan)
	}
	if b := plan.Boards[0]; len(b.Parts) != 3 || len(b.Offcuts) != 0 || len(b.Cuts) != 2 {
		t.Errorf("the board has parts %v, offcuts %v, cuts %v; want 3, none, 2", b.Parts, b.Offcuts, b.Cuts)
	}
}
