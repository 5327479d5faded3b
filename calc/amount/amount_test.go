package amount_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/amount"
	"fettle/calc/checktest"
	"fettle/calc/measure"
	"fettle/calc/piece"
)

const mm = measure.Millimetre

func must(t testing.TB, b amount.Boards) amount.Amount {
	t.Helper()
	got, err := b.Amount()
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// BF02 and BF03 are computed from the definition of the board foot, 144 cubic inches (BF01, seen).
func TestBoardFoot(t *testing.T) {
	checks := checktest.Read(t)
	checks.Holds(t, "BF02", amount.M3PerBoardFoot)
	board := amount.Boards{Quantity: 1, Size: piece.Size{Length: 10 * measure.Foot, Width: 8 * measure.Inch, Thickness: 2 * measure.Inch}}
	checks.Holds(t, "BF03", must(t, board).BoardFeet)
	// A board of twelve board feet that is nowhere a foot wide or an inch thick.
	stout := must(t, amount.Boards{Quantity: 1, Size: piece.Size{Length: 72 * measure.Inch, Width: 8 * measure.Inch, Thickness: 3 * measure.Inch}})
	checks.Holds(t, "BF01", 72*8*3/stout.BoardFeet)
}

func TestAmount(t *testing.T) {
	size := func(l, w, th measure.Length) piece.Size {
		return piece.Size{Length: l * mm, Width: w * mm, Thickness: th * mm}
	}
	for _, c := range []struct {
		name   string
		boards amount.Boards
		want   amount.Amount
	}{
		{
			"the reference's example: 2.4 × 0.2 × 0.032 at 673 kg/m³ is 10.3 kg",
			amount.Boards{Quantity: 1, Size: size(2400, 200, 32), DensityKgM3: 673},
			amount.Amount{VolumeM3: 0.01536, BoardFeet: 0.01536 * 423.776, Metres: 2.4, WeightKg: 10.337},
		},
		{
			"by the cubic metre",
			amount.Boards{Quantity: 12, Size: size(1000, 50, 25), Price: 900, Per: amount.PerM3},
			amount.Amount{VolumeM3: 0.015, BoardFeet: 0.015 * 423.776, Metres: 12, Cost: 13.5, CostEach: 1.125, PerM3: 900, PerBoardFt: 2.12376},
		},
		{
			"by the metre",
			amount.Boards{Quantity: 3, Size: size(2000, 100, 20), Price: 4.5, Per: amount.PerMetre},
			amount.Amount{VolumeM3: 0.012, BoardFeet: 0.012 * 423.776, Metres: 6, Cost: 27, CostEach: 9, PerM3: 2250, PerBoardFt: 5.30941},
		},
		{
			"by the board",
			amount.Boards{Quantity: 4, Size: size(2000, 100, 20), Price: 12, Per: amount.PerBoard},
			amount.Amount{VolumeM3: 0.016, BoardFeet: 0.016 * 423.776, Metres: 8, Cost: 48, CostEach: 12, PerM3: 3000, PerBoardFt: 7.07921},
		},
		{
			"by the board, without sizes",
			amount.Boards{Quantity: 5, Price: 18, Per: amount.PerBoard},
			amount.Amount{Cost: 90, CostEach: 18},
		},
		{
			"by the metre, without a section",
			amount.Boards{Quantity: 2, Size: size(6000, 0, 0), Price: 6.5, Per: amount.PerMetre},
			amount.Amount{Metres: 12, Cost: 78, CostEach: 39},
		},
		{
			"by the board foot",
			amount.Boards{Quantity: 1, Size: piece.Size{Length: measure.Foot, Width: measure.Foot, Thickness: measure.Inch}, Price: 8, Per: amount.PerBoardFoot},
			amount.Amount{VolumeM3: 0.002359737, BoardFeet: 1, Metres: 0.3048, Cost: 8, CostEach: 8, PerM3: 3390.21, PerBoardFt: 8},
		},
	} {
		got := must(t, c.boards)
		for _, f := range [][2]float64{
			{got.VolumeM3, c.want.VolumeM3}, {got.BoardFeet, c.want.BoardFeet}, {got.Metres, c.want.Metres}, {got.WeightKg, c.want.WeightKg},
			{got.Cost, c.want.Cost}, {got.CostEach, c.want.CostEach}, {got.PerM3, c.want.PerM3}, {got.PerBoardFt, c.want.PerBoardFt},
		} {
			if math.Abs(f[0]-f[1]) > 1e-4*max(1e-6, math.Abs(f[1])) {
				t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
			}
		}
	}
}

// A price turned into another unit of sale buys the same boards for the same money.
func TestPricesAgreeWithEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		length := func(name string, most int64) measure.Length {
			return measure.Length(rapid.Int64Range(int64(mm), most).Draw(t, name))
		}
		b := amount.Boards{
			Quantity: rapid.IntRange(1, 500).Draw(t, "quantity"),
			Size: piece.Size{
				Length: length("length", int64(6*measure.Metre)), Width: length("width", int64(measure.Metre)), Thickness: length("thickness", int64(200*mm)),
			},
			Price: rapid.Float64Range(0.01, 5000).Draw(t, "price"),
			Per:   rapid.SampledFrom([]amount.PricePer{amount.PerM3, amount.PerBoardFoot, amount.PerMetre, amount.PerBoard}).Draw(t, "per"),
		}
		first, err := b.Amount()
		if err != nil {
			t.Fatal(err)
		}
		for per, price := range map[amount.PricePer]float64{
			amount.PerM3: first.PerM3, amount.PerBoardFoot: first.PerBoardFt, amount.PerBoard: first.CostEach, amount.PerMetre: first.Cost / first.Metres,
		} {
			b.Per, b.Price = per, price
			again, err := b.Amount()
			if err != nil {
				t.Skip("a sliver at this price makes a cubic metre dearer than any price allowed")
			}
			if math.Abs(again.Cost-first.Cost) > 1e-9*first.Cost {
				t.Fatalf("by the %s it costs %v, before %v", per, again.Cost, first.Cost)
			}
		}
	})
}

func TestAmountRefusesWhatCannotBe(t *testing.T) {
	good := amount.Boards{Quantity: 2, Size: piece.Size{Length: measure.Metre, Width: 100 * mm, Thickness: 20 * mm}, Price: 9, Per: amount.PerM3}
	for name, spoil := range map[string]func(*amount.Boards){
		"no quantity":            func(b *amount.Boards) { b.Quantity = 0 },
		"no width":               func(b *amount.Boards) { b.Size.Width = 0 },
		"negative thickness":     func(b *amount.Boards) { b.Size.Thickness = -mm },
		"density no number":      func(b *amount.Boards) { b.DensityKgM3 = math.NaN() },
		"price below nothing":    func(b *amount.Boards) { b.Price = -1 },
		"price no number":        func(b *amount.Boards) { b.Price = math.NaN() },
		"price per what":         func(b *amount.Boards) { b.Per = "" },
		"price per fathom":       func(b *amount.Boards) { b.Per = "fathom" },
		"density of heavy metal": func(b *amount.Boards) { b.DensityKgM3 = 11340 },
	} {
		b := good
		spoil(&b)
		if got, err := b.Amount(); err == nil {
			t.Errorf("%s: %+v, want an error", name, got)
		}
	}
}
