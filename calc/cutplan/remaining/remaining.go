// Package remaining says what timber there is once some boards of a plan are sawn: their offcuts
// as boards of their own, and what a new plan takes beyond the old one. Nothing that is sawn moves.
package remaining

import (
	"fmt"

	"fettle/calc/cutplan"
)

// Offcuts makes boards of the pieces of a sawn board that are kept. They have its thickness and the
// faults that lie on them, from their own left end and lower edge, and are paid for: their price
// is 0. Species and Sheet are the board's, which a plan does not know.
func Offcuts(b cutplan.SawnBoard, kept []cutplan.Rect, species string, sheet bool) []cutplan.Board {
	out := make([]cutplan.Board, len(kept))
	for i, r := range kept {
		out[i] = cutplan.Board{Name: fmt.Sprintf("offcut %d of %s", i+1, b.Name), Quantity: 1, Length: r.Length, Width: r.Width, Thickness: b.Thickness,
			Species: species, Sheet: sheet, Priced: true}
		for _, f := range b.Faults {
			if on, ok := within(f, r); ok {
				out[i].Faults = append(out[i].Faults, on)
			}
		}
	}
	return out
}

// within is the part of a fault that lies on a piece, measured on the piece.
func within(f cutplan.Fault, r cutplan.Rect) (cutplan.Fault, bool) {
	left, right := max(f.X, r.X), min(f.X+f.Length, r.X+r.Length)
	low, high := max(f.Y, r.Y), min(f.Y+f.Width, r.Y+r.Width)
	return cutplan.Fault{Copy: 1, X: left - r.X, Y: low - r.Y, Length: right - left, Width: high - low}, right > left && high > low
}

// Timber is what is taken of whole boards.
type Timber struct {
	Boards int
	Price  float64 // 0 where none is known
	Area   float64 // m2
}

// Whole sums up the boards of a plan that count: those for which it is true.
func Whole(plan cutplan.Plan, counts func(cutplan.SawnBoard) bool) (t Timber) {
	for _, b := range plan.Boards {
		if counts(b) {
			t.Boards++
			t.Price += b.Price
			t.Area += b.Length.MM() * b.Width.MM() / 1e6
		}
	}
	return t
}

// Beyond is what is taken more than before; less where it is below 0.
func (t Timber) Beyond(before Timber) Timber {
	return Timber{t.Boards - before.Boards, t.Price - before.Price, t.Area - before.Area}
}
