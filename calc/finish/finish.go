// Package finish says how much varnish, oil or paint a surface takes.
package finish

import (
	"cmp"

	"fettle/calc/bounds"
	"fettle/calc/evidence"
)

// WasteShare is what stays in brush, tin and tray, as a share: common practice, no source.
const WasteShare = 0.10

// Finish is one kind, with how far a litre goes in one coat, in m² a litre, and how long it
// takes to dry at about 20 °C. The first coat on bare open-pored wood takes more.
type Finish struct {
	ID      string // a plain word, the value of given.finish
	Name    string // as it is printed
	Smooth  evidence.Figure
	Rough   evidence.Figure // on sawn wood
	Coats   int             // usual
	Recoat  Range           // hours until the next coat
	Cure    Range           // days until it is as hard as it gets
	Soaks   bool            // goes into the wood: what is left standing is wiped off
	Caution string
}

// Range is a time that products of a kind take at about 20 °C; the tin's own comes first.
type Range struct{ Low, High evidence.Figure }

const (
	labels    = "general run of labels: 10 to 14 m²/l"
	extension = "extension-derived text, 300 to 400 ft² a US gallon smooth, 150 to 200 rough (doityourself.com/stry/ststain)"
	drying    = "general run of data sheets"
	rags      = "Spread oily rags out flat outdoors to dry, or soak them in water: in a heap they can catch fire."
	solvent   = "Ventilate, and no flame near it while it dries."
)

// Table is the kinds that are known. Where published figures spread, the lower one is taken,
// so that a tin is rather too big than too small.
func Table() []Finish {
	film := func(id, name string, coats int, recoat, cure Range, caution string) Finish {
		return Finish{
			ID: id, Name: name, Coats: coats, Recoat: recoat, Cure: cure, Caution: caution,
			Smooth: evidence.Recalled(labels, 10), Rough: evidence.Habit(5),
		}
	}
	soak := func(id, name string, coats int, recoat, cure Range, caution string) Finish {
		return Finish{
			ID: id, Name: name, Coats: coats, Recoat: recoat, Cure: cure, Soaks: true, Caution: caution,
			Smooth: evidence.SeenIn(extension, 7.4), Rough: evidence.SeenIn(extension, 3.7),
		}
	}
	return []Finish{
		film("varnish", "Varnish", 3, about(6, 24), about(7, 30), solvent),
		film("lacquer", "Lacquer", 3, about(1, 4), about(3, 14), solvent),
		film("paint", "Paint", 3, about(4, 24), about(7, 30), ""),
		film("primer", "Primer", 1, about(4, 24), about(1, 7), ""),
		film("sealer", "Sealer", 1, about(2, 12), about(3, 14), solvent),
		soak("oil", "Oil", 2, about(12, 48), about(7, 30), rags),
		soak("stain", "Stain", 2, about(4, 24), about(1, 7), ""),
		soak("wood preserver", "Wood preserver", 2, about(24, 48), about(2, 14), solvent),
		film("wax", "Wax", 2, about(1, 12), about(1, 7), ""),
	}
}

func about(low, high float64) Range {
	return Range{evidence.Recalled(drying, low), evidence.Recalled(drying, high)}
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
	ThinPct    float64 // thinner added to the first coat, per cent of the finish; 0 is none
}

// Need is how much to get.
type Need struct {
	Litres        float64 // with the waste
	FirstLitres   float64 // of that, for the first coat
	ThinnerLitres float64 // to add to the first coat
	Coats         int
	M2PerLitre    float64
}

// Need works out litres = area × coats / coverage × (1 + WasteShare). Thinner goes on top of
// the first coat and saves no finish, for bare wood drinks more (practice). It fails on areas,
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
		bounds.Between("the thinner", s.ThinPct, 0, 100, "%"),
	); err != nil {
		return Need{}, err
	}
	n.FirstLitres = s.AreaM2 / n.M2PerLitre * (1 + WasteShare)
	n.Litres = n.FirstLitres * float64(n.Coats)
	n.ThinnerLitres = n.FirstLitres * s.ThinPct / 100
	return n, nil
}

// Piece is a flat part that is coated, sizes in metres.
type Piece struct {
	LengthM, WidthM, ThicknessM float64
	Faces                       int  // 1 or 2 large faces
	Edges                       bool // the four narrow sides as well
}

// AreaM2 is the surface of the part that is coated (geometry). It fails on sizes that cannot
// be, and on edges without a thickness.
func (p Piece) AreaM2() (float64, error) {
	if err := cmp.Or(
		bounds.Positive("the length", p.LengthM, "m"),
		bounds.Positive("the width", p.WidthM, "m"),
		bounds.Between("the thickness", p.ThicknessM, 0, 1, "m"),
		bounds.Between("the number of faces", float64(p.Faces), 1, 2, ""),
	); err != nil {
		return 0, err
	}
	area := float64(p.Faces) * p.LengthM * p.WidthM
	if p.Edges {
		if err := bounds.Positive("the thickness", p.ThicknessM, "m"); err != nil {
			return 0, err
		}
		area += 2 * (p.LengthM + p.WidthM) * p.ThicknessM
	}
	return area, nil
}
