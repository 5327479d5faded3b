package joinery

import (
	"math"
	"strings"

	"fettle/calc/bounds"
	"fettle/calc/measure"
)

// Words is in which unit the sizes in notes, assumptions, errors and drawings are written; "" is mm.
// Sizes in mm are written to a tenth, in inches to a thirty-second.
type Words struct{ Out measure.System }

// number writes mm without their unit.
func (w Words) number(mm float64) string {
	if w.Out != measure.Imperial {
		return bounds.Number(math.Round(mm*10) / 10)
	}
	l, err := measure.FromMM(mm)
	if err != nil { // refused before it is written
		return bounds.Number(mm / inchMM)
	}
	return w.Out.Number(l, measure.Nearest)
}

// inchMM is an inch in mm, by definition.
const inchMM = 25.4

// unit is that of the numbers.
func (w Words) unit() string {
	if w.Out == measure.Imperial {
		return string(w.Out)
	}
	return string(measure.Metric)
}

// size writes mm with their unit.
func (w Words) size(mm float64) string { return w.number(mm) + " " + w.unit() }

// fine writes mm with their unit to the thousandth, as changes of a width are small.
func (w Words) fine(mm float64) string {
	if w.Out == measure.Imperial {
		return bounds.Number(mm/inchMM) + " " + w.unit()
	}
	return bounds.Number(mm) + " " + w.unit()
}

// between refuses a size outside lo to hi, all in mm.
func (w Words) between(name string, mm, lo, hi float64) error {
	by := 1.0
	if w.Out == measure.Imperial {
		by = inchMM
	}
	return bounds.Between(name, mm/by, lo/by, hi/by, w.unit())
}

// positive refuses a size that is not above nothing.
func (w Words) positive(name string, mm float64) error { return bounds.Positive(name, mm, w.unit()) }

// sizes refuses what can't be said of a size: less than nothing, endless, or no number.
func (w Words) sizes(mm ...float64) error {
	for _, v := range mm {
		if err := w.between("a size", v, 0, mostMM); err != nil {
			return err
		}
	}
	return nil
}

// runs writes running measures without their unit.
func (w Words) runs(of []measure.Length) string {
	texts := make([]string, len(of))
	for i, l := range of {
		texts[i] = w.number(l.MM())
	}
	return strings.Join(texts, " · ")
}
