// Package wood knows timbers: how heavy and stiff they are, how damp they get and how much
// they move. Figures are averages of clear wood; single boards differ by a fifth and more.
package wood

import (
	"cmp"
	"fmt"

	"fettle/calc/bounds"
	"fettle/calc/evidence"
)

// Spread is one property as the published rows of a species give it.
type Spread struct {
	Low, High evidence.Figure
}

// Disagree says that the sources, or the kinds a name may mean, differ.
func (s Spread) Disagree() bool { return s.Low.Value != s.High.Value }

// UnknownError says that no source in the table gives a property of a species.
type UnknownError struct {
	Species, Property string
}

// Error is a sentence for the person who asked.
func (e *UnknownError) Error() string {
	return fmt.Sprintf("no %s of %s is on record here; say it and it will be used", e.Property, e.Species)
}

// DensityKgM3 gives the density at 12 % moisture, lightest and heaviest row. It fails with
// an *UnknownError when no row has it.
func (s Species) DensityKgM3() (Spread, error) {
	return s.spread("density", func(r Row) evidence.Figure { return r.DensityKgM3 })
}

// MOEMPa gives the stiffness along the grain at 12 % moisture, softest and stiffest row; the
// softest is the safe one for sag. It fails with an *UnknownError when no row has it.
func (s Species) MOEMPa() (Spread, error) {
	return s.spread("stiffness", func(r Row) evidence.Figure { return r.MOEMPa })
}

// Softwood says that every kind which the name may mean is a softwood.
func (s Species) Softwood() bool {
	for _, r := range s.Rows {
		if !r.Softwood {
			return false
		}
	}
	return true
}

func (s Species) spread(property string, of func(Row) evidence.Figure) (Spread, error) {
	var out Spread
	for _, r := range s.Rows {
		f := of(r)
		if f.Status == "" {
			continue
		}
		if out.Low.Status == "" || f.Value < out.Low.Value {
			out.Low = f
		}
		if out.High.Status == "" || f.Value > out.High.Value {
			out.High = f
		}
	}
	if out.Low.Status == "" {
		return Spread{}, &UnknownError{Species: s.Name, Property: property}
	}
	return out, nil
}

// DensityAt gives the density in kg/m³ at a moisture content in per cent from the one at
// 12 %: ρ = ρ12 × (1 + M/100) / 1.12. Swelling is left out, which costs a few per cent at
// most (geometry of mass; range 0 to 25 %).
func DensityAt(density12KgM3, moisturePct float64) (float64, error) {
	if err := cmp.Or(
		bounds.Between("the density", density12KgM3, 50, 1500, "kg/m³"),
		bounds.Between("the moisture content", moisturePct, 0, 25, "%"),
	); err != nil {
		return 0, err
	}
	return density12KgM3 * (1 + moisturePct/100) / 1.12, nil
}
