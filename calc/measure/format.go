package measure

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// System is the way sizes are printed.
type System string

// The two ways: millimetres to half a millimetre, inches to a thirty-second.
const (
	Metric   System = "mm"
	Imperial System = "in"
)

// Rounding says which way a printed size may go when a rule can't show it.
type Rounding int

// Nearest is for sizes to mark; Up for clearances and rough sizes; Down for limits.
const (
	Nearest Rounding = iota
	Up
	Down
)

// Step is the finest size that is printed in the system.
func (s System) Step() Length {
	if s == Imperial {
		return Inch / 32
	}
	return Millimetre / 2
}

// Round takes a length to the system's step.
func (s System) Round(l Length, r Rounding) Length {
	step := s.Step()
	n := l / step
	rest := l - n*step
	switch {
	case rest == 0:
	case r == Up && l > 0, r == Down && l < 0:
		n += sign(l)
	case r == Nearest && abs(rest)*2 >= step:
		n += sign(l)
	}
	return n * step
}

func sign(l Length) Length {
	if l < 0 {
		return -1
	}
	return 1
}

func abs(l Length) Length {
	if l < 0 {
		return -l
	}
	return l
}

// Number prints a length without its unit, to the system's step: "65", "12.5", "2 9/16".
func (s System) Number(l Length, r Rounding) string {
	l = s.Round(l, r)
	if s == Imperial {
		return inchFraction(l)
	}
	return Decimal(l.MM(), 1)
}

// Text prints a length with its unit: "65 mm", "2 9/16 in".
func (s System) Text(l Length, r Rounding) string { return s.Number(l, r) + " " + string(s) }

// Exact prints a length with its unit and without rounding to the step: "2.8 mm", "1/8 in",
// and in millimetres where no inch rule shows it. Settings are printed so.
func (s System) Exact(l Length) string {
	if s == Imperial {
		if text, exact := NearestSixtyFourth(l); exact {
			return text + " in"
		}
	}
	return Decimal(l.MM(), 3) + " mm"
}

// Shown prints a length with its unit as Exact does, but in the system's own unit where no rule shows
// it: inches to a thousandth, "0.118 in". What nobody said in millimetres is printed so.
func (s System) Shown(l Length) string {
	if s == Imperial {
		if text, exact := NearestSixtyFourth(l); exact {
			return text + " in"
		}
		return Decimal(float64(l)/float64(Inch), 3) + " in"
	}
	return s.Exact(l)
}

// Sizes prints a size of several lengths: "700 × 65 × 27 mm".
func (s System) Sizes(r Rounding, ls ...Length) string {
	parts := make([]string, len(ls))
	for i, l := range ls {
		parts[i] = s.Number(l, r)
	}
	return strings.Join(parts, " × ") + " " + string(s)
}

// inchFraction prints whole inches and the fraction in lowest terms.
func inchFraction(l Length) string {
	minus := ""
	if l < 0 {
		minus, l = "-", -l
	}
	whole, rest := l/Inch, l%Inch
	if rest == 0 {
		return minus + strconv.FormatInt(int64(whole), 10)
	}
	num, den := int64(rest*64/Inch), int64(64)
	for num%2 == 0 {
		num, den = num/2, den/2
	}
	if whole == 0 {
		return fmt.Sprintf("%s%d/%d", minus, num, den)
	}
	return fmt.Sprintf("%s%d %d/%d", minus, whole, num, den)
}

// NearestSixtyFourth prints a length in inches as the nearest sixty-fourth, and says whether
// that is exact.
func NearestSixtyFourth(l Length) (text string, exact bool) {
	step := Inch / 64
	n := Length(math.Round(float64(l) / float64(step)))
	return inchFraction(n * step), n*step == l
}

// Decimal prints a number with at most so many decimal places and no trailing zeros.
func Decimal(v float64, places int) string {
	text := strconv.FormatFloat(v, 'f', places, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	if text == "-0" {
		return "0"
	}
	return text
}
