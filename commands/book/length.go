package book

import (
	"encoding/json"
	"fmt"
	"math/big"
	"strings"

	"fettle/calc/measure"
)

// MM is an exact length that stands in the book as a decimal number of millimetres. Every
// sixty-fourth of an inch has six decimals and is kept exactly.
type MM measure.Length

// Length gives the length as the rest of the program knows it.
func (m MM) Length() measure.Length { return measure.Length(m) }

// MM gives the length in millimetres.
func (m MM) MM() float64 { return measure.Length(m).MM() }

// MarshalJSON writes millimetres with as many of six decimals as it takes.
func (m MM) MarshalJSON() ([]byte, error) {
	text := new(big.Rat).SetFrac64(int64(m), int64(measure.Millimetre)).FloatString(6)
	return []byte(strings.TrimSuffix(strings.TrimRight(text, "0"), ".")), nil
}

// UnmarshalJSON reads a number of millimetres, to a nanometre. It fails on anything else and
// beyond a thousand kilometres.
func (m *MM) UnmarshalJSON(data []byte) error {
	var n json.Number
	if err := json.Unmarshal(data, &n); err != nil {
		return fmt.Errorf("read length: %w", err)
	}
	r, ok := new(big.Rat).SetString(n.String())
	if !ok {
		return fmt.Errorf("read length %q: not a number", n)
	}
	l, err := measure.Times(r, measure.Millimetre)
	if err != nil {
		return fmt.Errorf("read length %q: %w", n, err)
	}
	*m = MM(l)
	return nil
}
