// Package measure holds the quantities of the workshop: exact lengths, the units
// people say, and how a number is printed so that a rule can show it.
package measure

import (
	"fmt"
	"math"
	"math/big"
)

// Length is an exact count of nanometres, after the model of time.Duration.
// An inch is 25 400 000 of them (ISO 31-1: 1 in = 25.4 mm exactly), so that
// every sixty-fourth of an inch is a whole number. The range is ±9 million km.
type Length int64

// The units of length that people say. Nominal sizes (a "two by four") are not among them.
const (
	Nanometre  Length = 1
	Micrometre        = 1000 * Nanometre
	Millimetre        = 1000 * Micrometre
	Centimetre        = 10 * Millimetre
	Decimetre         = 100 * Millimetre
	Metre             = 1000 * Millimetre
	Kilometre         = 1000 * Metre
	Inch              = 25_400 * Micrometre
	Thou              = Inch / 1000
	Foot              = 12 * Inch
	Yard              = 3 * Foot
	Mile              = 1760 * Yard
)

// MM gives the length in millimetres.
func (l Length) MM() float64 { return float64(l) / float64(Millimetre) }

// Inches gives the length in inches.
func (l Length) Inches() float64 { return float64(l) / float64(Inch) }

// FromMM rounds millimetres to the nearest nanometre. It fails on NaN, on infinities and
// on lengths beyond a thousand kilometres.
func FromMM(mm float64) (Length, error) {
	if math.IsNaN(mm) || math.Abs(mm) > 1e9 {
		return 0, fmt.Errorf("length of %g mm is out of range", mm)
	}
	return Length(math.Round(mm * float64(Millimetre))), nil
}

// Times multiplies a count of units exactly and rounds once, half away from zero, to a
// nanometre. It fails beyond a thousand kilometres.
func Times(count *big.Rat, unit Length) (Length, error) {
	r := new(big.Rat).Mul(count, new(big.Rat).SetInt64(int64(unit)))
	limit := new(big.Rat).SetInt64(int64(1000 * Kilometre))
	if new(big.Rat).Abs(r).Cmp(limit) > 0 {
		return 0, fmt.Errorf("length is out of range")
	}
	num := new(big.Int).Mul(r.Num(), big.NewInt(2))
	den := new(big.Int).Mul(r.Denom(), big.NewInt(2))
	half := new(big.Int).Set(r.Denom())
	if num.Sign() < 0 {
		half.Neg(half)
	}
	num.Add(num, half)
	return Length(num.Quo(num, den).Int64()), nil
}
