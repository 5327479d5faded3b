// Package amount measures timber: volume, board feet, weight and cost.
package amount

import (
	"cmp"
	"fmt"

	"fettle/calc/bounds"
	"fettle/calc/piece"
)

// M3PerBoardFoot is a board foot of 144 cubic inches in cubic metres; 1 in = 25.4 mm
// exactly. The definition is seen, and nominal: a board foot counts sawn sizes.
const M3PerBoardFoot = 144 * 25.4 * 25.4 * 25.4 / 1e9

// PricePer is what a price is for.
type PricePer string

// What a price can be for.
const (
	PerM3        PricePer = "m3"
	PerBoardFoot PricePer = "board_foot"
	PerMetre     PricePer = "metre"
	PerBoard     PricePer = "board"
)

// Boards is a number of equal pieces of timber.
type Boards struct {
	Quantity    int
	Size        piece.Size
	DensityKgM3 float64 // 0 when it is not known
	Price       float64 // 0 when it was not said
	Per         PricePer
}

// Amount is how much timber that is. What could not be worked out is 0.
type Amount struct {
	VolumeM3   float64
	BoardFeet  float64
	Metres     float64 // running length
	WeightKg   float64
	Cost       float64
	CostEach   float64
	PerM3      float64 // the price, turned into one a cubic metre
	PerBoardFt float64 // the price, turned into one a board foot
}

// Amount works out volume = quantity × length × width × thickness, board feet, running
// metres, weight = volume × density, and cost (geometry). A price by the board does without
// sizes, one by the metre without width and thickness. It fails on sizes, densities and
// prices that cannot be, and on a price for something unheard of.
func (b Boards) Amount() (Amount, error) {
	if err := b.check(); err != nil {
		return Amount{}, err
	}
	n := float64(b.Quantity)
	out := Amount{
		VolumeM3: n * b.Size.VolumeM3(),
		Metres:   n * b.Size.Length.MM() / 1000,
	}
	out.BoardFeet = out.VolumeM3 / M3PerBoardFoot
	out.WeightKg = out.VolumeM3 * b.DensityKgM3
	if b.Price > 0 {
		out.Cost = b.Price * b.units(out)
		out.CostEach = out.Cost / n
		if out.VolumeM3 > 0 {
			out.PerM3 = out.Cost / out.VolumeM3
			out.PerBoardFt = out.Cost / out.BoardFeet
		}
	}
	return out, nil
}

func (b Boards) check() error {
	if err := cmp.Or(
		bounds.Count("the quantity", b.Quantity, 1),
		b.sized(),
		bounds.Between("the density", b.DensityKgM3, 0, 1500, "kg/m³"),
		bounds.Between("the price", b.Price, 0, 1e9, ""),
	); err != nil {
		return err
	}
	switch b.Per {
	case PerM3, PerBoardFoot, PerMetre, PerBoard:
		return nil
	}
	if b.Price == 0 {
		return nil
	}
	return fmt.Errorf("the price is for %q; say whether it is a cubic metre, a board foot, a metre or a board", b.Per)
}

// sized refuses sizes that do not do for what is asked: a price by the board needs none, one
// by the metre the length alone, everything else all three.
func (b Boards) sized() error {
	if b.Price > 0 && b.Per == PerBoard && b.Size == (piece.Size{}) {
		return nil
	}
	if b.Price > 0 && b.Per == PerMetre && b.Size.Width == 0 && b.Size.Thickness == 0 {
		return bounds.Length("the length", b.Size.Length)
	}
	return b.Size.Whole()
}

// units is how many of what the price is for there are.
func (b Boards) units(a Amount) float64 {
	switch b.Per {
	case PerBoardFoot:
		return a.BoardFeet
	case PerMetre:
		return a.Metres
	case PerBoard:
		return float64(b.Quantity)
	}
	return a.VolumeM3
}
