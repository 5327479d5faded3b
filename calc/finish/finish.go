// Package finish says how much varnish, oil or paint a surface takes.
package finish

import (
	"cmp"

	"fettle/calc/bounds"
	"fettle/calc/evidence"
)

// WasteShare is what stays in brush, tin and tray, as a share: common practice, no source.
const WasteShare = 0.10

// Finish is one kind, with how far a litre goes in one coat, in m² a litre. The first coat on
// bare open-pored wood takes more.
type Finish struct {
	ID      string // a plain word, the value of given.finish
	Name    string // as it is printed
	Smooth  evidence.Figure
	Rough   evidence.Figure // on sawn wood
	Coats   int             // usual
	Caution string
}

const (
	labels    = "general run of labels: 10 to 14 m²/l"
	extension = "extension-derived text, 300 to 400 ft² a US gallon smooth, 150 to 200 rough (doityourself.com/stry/ststain)"
	rags      = "Spread oily rags out flat outdoors to dry, or soak them in water: in a heap they can catch fire."
	solvent   = "Ventilate, and no flame near it while it dries."
)

// Table is the kinds that are known. Where published figures spread, the lower one is taken,
// so that a tin is rather too big than too small.
func Table() []Finish {
	film := func(id, name string, coats int, caution string) Finish {
		return Finish{
			ID: id, Name: name, Coats: coats, Caution: caution,
			Smooth: evidence.Recalled(labels, 10), Rough: evidence.Habit(5),
		}
	}
	soak := func(id, name string, coats int, caution string) Finish {
		return Finish{
			ID: id, Name: name, Coats: coats, Caution: caution,
			Smooth: evidence.SeenIn(extension, 7.4), Rough: evidence.SeenIn(extension, 3.7),
		}
	}
	return []Finish{
		film("varnish", "Varnish", 3, solvent),
		film("lacquer", "Lacquer", 3, solvent),
		film("paint", "Paint", 3, ""),
		film("primer", "Primer", 1, ""),
		soak("oil", "Oil", 2, rags),
		soak("stain", "Stain", 2, ""),
		soak("wood preserver", "Wood preserver", 2, solvent),
		film("wax", "Wax", 2, ""),
	}
}

// Find gives the finish with the ID, and false when there is none.
func Find(id string) (Finish, bool) {
	for _, f := range Table() {
		if f.ID == id {
			return f, true
		}
	}
	return Finish{}, false
}

// Surface is what is to be covered.
type Surface struct {
	AreaM2     float64
	Coats      int     // 0 takes the usual number
	Rough      bool    // sawn and not planed
	M2PerLitre float64 // how far a litre goes, when the tin says; 0 takes the table's
}

// Need is how much to get.
type Need struct {
	Litres     float64 // with the waste
	Coats      int
	M2PerLitre float64
}

// Need works out litres = area × coats / coverage × (1 + WasteShare). It fails on areas,
// coats and coverages that cannot be.
func (f Finish) Need(s Surface) (Need, error) {
	coverage := f.Smooth.Value
	if s.Rough {
		coverage = f.Rough.Value
	}
	n := Need{Coats: cmp.Or(s.Coats, f.Coats), M2PerLitre: cmp.Or(s.M2PerLitre, coverage)}
	if err := cmp.Or(
		bounds.Positive("the area", s.AreaM2, "m²"),
		bounds.Between("the area", s.AreaM2, 0, 100_000, "m²"),
		bounds.Between("the number of coats", float64(n.Coats), 1, 50, ""),
		bounds.Between("what a litre covers", n.M2PerLitre, 0.1, 100, "m²"),
	); err != nil {
		return Need{}, err
	}
	n.Litres = s.AreaM2 * float64(n.Coats) / n.M2PerLitre * (1 + WasteShare)
	return n, nil
}
