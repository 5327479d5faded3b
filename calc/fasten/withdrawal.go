package fasten

import (
	"cmp"

	"fettle/calc/bounds"
)

// Withdrawal is how hard a screw holds against being pulled straight out of side grain.
type Withdrawal struct {
	UltimateN  float64 // when it comes out
	AllowableN float64 // what to load it with
}

// Pull works out, with G the ovendry specific gravity at 12 % moisture, d the shank and L the
// length of thread in the wood, both in mm:
//
//	ultimate  = 108.25 G² d L newtons (Wood Handbook (2010) equation 8-10, from memory)
//	allowable = 2850 G² d L pounds, d and L in inches (an older NDS form, seen)
//
// In end grain a screw holds three quarters of it at most (seen), and codes say not to count
// on it. Loads on people's lives are for an engineer. It fails on values that cannot be.
func Pull(gravity, diameterMM, threadMM float64) (Withdrawal, error) {
	if err := cmp.Or(
		bounds.Between("the specific gravity", gravity, 0.1, 1.2, ""),
		bounds.Between("the screw", diameterMM, 1, 20, "mm"),
		bounds.Positive("the thread in the wood", threadMM, "mm"),
		bounds.Between("the thread in the wood", threadMM, 0, 500, "mm"),
	); err != nil {
		return Withdrawal{}, err
	}
	const newtonsPerPound = 4.4482216152605 // exact
	g2 := gravity * gravity
	return Withdrawal{
		UltimateN:  108.25 * g2 * diameterMM * threadMM,
		AllowableN: 2850 * g2 * (diameterMM / 25.4) * (threadMM / 25.4) * newtonsPerPound,
	}, nil
}
