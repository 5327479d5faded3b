// Package piece describes a straight piece of timber by its three sizes.
package piece

import (
	"cmp"
	"errors"

	"fettle/calc/bounds"
	"fettle/calc/measure"
)

// Size is the length along the grain, the width and the thickness of a piece. A size of
// zero was not said.
type Size struct {
	Length, Width, Thickness measure.Length
}

// Check refuses sizes below zero and a piece of which nothing was said.
func (s Size) Check() error {
	if s == (Size{}) {
		return errors.New("no size was given; say the length, the width or the thickness")
	}
	return cmp.Or(
		bounds.Allowance("the length", s.Length),
		bounds.Allowance("the width", s.Width),
		bounds.Allowance("the thickness", s.Thickness),
	)
}

// Whole refuses a piece of which one of the three sizes is missing or below zero.
func (s Size) Whole() error {
	return cmp.Or(
		bounds.Length("the length", s.Length),
		bounds.Length("the width", s.Width),
		bounds.Length("the thickness", s.Thickness),
	)
}

// VolumeM3 is length × width × thickness in cubic metres, 0 when a size was not said.
func (s Size) VolumeM3() float64 {
	return s.Length.MM() * s.Width.MM() * s.Thickness.MM() / 1e9
}
