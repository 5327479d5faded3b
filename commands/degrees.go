package commands

import (
	"math"
	"math/big"
	"slices"
	"strings"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

// halfDegree is the finest step that the scale of a saw shows.
const halfDegree = 0.5

// degText prints an angle as a saw's scale can be set: to half a degree.
func degText(deg float64) string {
	return measure.Decimal(math.Round(deg/halfDegree)*halfDegree, 1) + "°"
}

// degExact prints an angle to the hundredth, for a gauge with figures.
func degExact(deg float64) string { return measure.Decimal(deg, 2) + "°" }

// onScale says whether the angles all lie on a saw's scale, so that nothing is lost in print.
func onScale(degs ...float64) bool {
	for _, d := range degs {
		if math.Abs(math.Round(d/halfDegree)*halfDegree-d) > 0.02 {
			return false
		}
	}
	return true
}

// degrees makes a quantity of an angle that was worked out of what was said.
func degrees(deg float64) speech.Quantity {
	u, _ := measure.UnitNamed("deg")
	return speech.Quantity{Kind: measure.KindAngle, Value: new(big.Rat).SetFloat64(deg), Unit: u}
}

// saidNumberAt gives the number at an item, whatever its unit.
func saidNumberAt(r *speech.Reading, item int) float64 {
	v, _ := r.Items[item].Q.Value.Float64()
	return v
}

// firstOf finds the first of the patterns whose # is a free quantity that may be an angle.
func firstOf(r *speech.Reading, patterns ...string) (item int, ok bool) {
	for _, p := range patterns {
		for _, i := range r.All(p) {
			if q := r.Items[i].Q; q.Kind == measure.KindAngle || q.Bare() {
				return i, true
			}
		}
	}
	return 0, false
}

// angles lists the free quantities that were said in degrees.
func angles(r *speech.Reading) []int {
	var out []int
	for i := range r.Items {
		if r.Free(i) && r.Items[i].Q.Kind == measure.KindAngle {
			out = append(out, i)
		}
	}
	return out
}

// halved is half of a quantity's value, exactly.
func halved(q speech.Quantity) *big.Rat { return new(big.Rat).Quo(q.Value, big.NewRat(2, 1)) }

// inUnits makes one option for each unit, in which every bare length of the request is read.
func inUnits(r *speech.Reading, symbols ...string) []speech.Option {
	var out []speech.Option
	for _, symbol := range symbols {
		u, _ := measure.UnitNamed(symbol)
		c := r.Moved(nil)
		for name, s := range c.Slots {
			if s.Bare && s.Num != nil && strings.HasSuffix(name, "_mm") {
				s.Num, s.Unit, s.Bare = u.Base(s.Said), symbol, false
				c.Slots[name] = s
			}
		}
		out = append(out, speech.Option{Label: symbol, Words: unitSayings[symbol], Request: c})
	}
	return out
}

// anyOf says whether the word is one of those separated by |.
func anyOf(w, words string) bool { return slices.Contains(strings.Split(words, "|"), w) }

// mmText prints a length in mm as the system's rule shows it.
func mmText(out measure.System, mm float64, r measure.Rounding) string {
	l, err := measure.FromMM(mm)
	if err != nil {
		return measure.Decimal(mm, 1) + " mm"
	}
	return out.Text(l, r)
}
