// Package rough goes from the size of a finished part to the timber to start from, and back.
package rough

import (
	"cmp"
	"fmt"

	"fettle/calc/bounds"
	"fettle/calc/measure"
	"fettle/calc/piece"
)

// Allowances is what is taken off a rough piece until it is finished: in total for both
// ends, both edges and both faces.
type Allowances struct {
	Length, Width, Thickness measure.Length
}

// Default gives 100 mm on the length, 20 mm on the width and 5 mm on the thickness: common
// practice, no source. The length is generous so that the dip which a planer leaves at
// both ends of a piece is cut away afterwards.
func Default() Allowances {
	return Allowances{
		Length:    100 * measure.Millimetre,
		Width:     20 * measure.Millimetre,
		Thickness: 5 * measure.Millimetre,
	}
}

func (a Allowances) check() error {
	return cmp.Or(
		bounds.Allowance("the length allowance", a.Length),
		bounds.Allowance("the width allowance", a.Width),
		bounds.Allowance("the thickness allowance", a.Thickness),
	)
}

// Rough adds the allowances to a finished size: rough = finished + allowance, exactly
// (geometry). A size that was not said stays unsaid. It fails on sizes or allowances below
// zero, and when no size was said.
func Rough(finished piece.Size, a Allowances) (piece.Size, error) {
	if err := cmp.Or(finished.Check(), a.check()); err != nil {
		return piece.Size{}, err
	}
	add := func(l, allowance measure.Length) measure.Length {
		if l == 0 {
			return 0
		}
		return l + allowance
	}
	return piece.Size{
		Length:    add(finished.Length, a.Length),
		Width:     add(finished.Width, a.Width),
		Thickness: add(finished.Thickness, a.Thickness),
	}, nil
}

// Finished takes the allowances off a rough size: the exact opposite of Rough. A size that
// was not said stays unsaid. It fails with NothingLeftError when an allowance eats the
// whole size.
func Finished(rough piece.Size, a Allowances) (piece.Size, error) {
	if err := cmp.Or(rough.Check(), a.check()); err != nil {
		return piece.Size{}, err
	}
	left := rough
	for _, d := range []struct {
		name      string
		size      *measure.Length
		allowance measure.Length
	}{
		{"length", &left.Length, a.Length},
		{"width", &left.Width, a.Width},
		{"thickness", &left.Thickness, a.Thickness},
	} {
		if *d.size == 0 {
			continue
		}
		if *d.size <= d.allowance {
			return piece.Size{}, &NothingLeftError{d.name, *d.size, d.allowance}
		}
		*d.size -= d.allowance
	}
	return left, nil
}

// NothingLeftError says that machining takes as much as there is, or more.
type NothingLeftError struct {
	Dimension       string
	Size, Allowance measure.Length
}

// Error is a sentence for the person who asked.
func (e *NothingLeftError) Error() string {
	return fmt.Sprintf("nothing is left of the %s: there is %s and machining takes %s; start from a bigger piece or allow less",
		e.Dimension, bounds.MM(e.Size), bounds.MM(e.Allowance))
}

// Steps is the order of work from a sawn board to a finished part: common practice, no
// source. The length comes last so that ends spoiled by the planer are cut away.
func Steps() []string {
	return []string{
		"Crosscut to the rough length.",
		"Rip to the rough width.",
		"Flatten one face and square one edge to it.",
		"Bring it to the final thickness and the final width.",
		"Crosscut to the final length, from both ends.",
	}
}
