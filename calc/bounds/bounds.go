// Package bounds turns a value that cannot be into a sentence for the person at the saw.
package bounds

import (
	"fmt"
	"math"
	"strconv"

	"fettle/calc/measure"
)

// MaxLength is the longest length any calculation takes; beyond it a unit was mistaken.
const MaxLength = measure.Kilometre

// MaxCount is the largest number of things any calculation takes.
const MaxCount = 10_000

// MM writes a length in millimetres to the thousandth, without trailing zeros.
func MM(l measure.Length) string {
	return Number(l.MM()) + " mm"
}

// Number writes a value to the thousandth, without trailing zeros.
func Number(v float64) string {
	return strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64)
}

// Length refuses lengths that are not above zero or are longer than MaxLength. The name
// is a phrase that starts a sentence, such as "the span".
func Length(name string, l measure.Length) error {
	if l <= 0 {
		return fmt.Errorf("%s is %s; it has to be more than nothing", name, MM(l))
	}
	return long(name, l)
}

// Allowance refuses lengths below zero or longer than MaxLength; nothing at all is allowed.
func Allowance(name string, l measure.Length) error {
	if l < 0 {
		return fmt.Errorf("%s is %s; it can be nothing, but not less", name, MM(l))
	}
	return long(name, l)
}

func long(name string, l measure.Length) error {
	if l > MaxLength {
		return fmt.Errorf("%s is %s; that is longer than anything in a workshop, check the unit", name, MM(l))
	}
	return nil
}

// Count refuses numbers of things below least or above MaxCount.
func Count(name string, n, least int) error {
	if n < least {
		return fmt.Errorf("%s is %d; it has to be %d or more", name, n, least)
	}
	if n > MaxCount {
		return fmt.Errorf("%s is %d; that is more than can be worked out in one go", name, n)
	}
	return nil
}

// Positive refuses values that are not above zero, not finite, or not a number.
func Positive(name string, v float64, unit string) error {
	if err := finite(name, v); err != nil {
		return err
	}
	if v <= 0 {
		return fmt.Errorf("%s is %s; it has to be more than nothing", name, withUnit(v, unit))
	}
	return nil
}

// Between refuses values outside lo to hi (both allowed), and what is not a number.
func Between(name string, v, lo, hi float64, unit string) error {
	if err := finite(name, v); err != nil {
		return err
	}
	if v < lo || v > hi {
		return fmt.Errorf("%s is %s; it has to be between %s and %s",
			name, withUnit(v, unit), Number(lo), withUnit(hi, unit))
	}
	return nil
}

func finite(name string, v float64) error {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return fmt.Errorf("%s is not a number; say it again", name)
	}
	return nil
}

func withUnit(v float64, unit string) string {
	if unit == "" {
		return Number(v)
	}
	return Number(v) + " " + unit
}
