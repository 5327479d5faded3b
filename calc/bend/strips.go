package bend

import (
	"cmp"
	"math"
	"slices"

	"fettle/calc/bounds"
	"fettle/calc/wood"
)

// InterlockedRatio is how many times thicker than a ply the radius has to be for hardwood whose
// grain interlocks and breaks out in a bend: common practice, no source.
const InterlockedRatio = 125

// interlocked are the timbers of the table that are described with interlocked grain, from
// memory of their species sheets.
func interlocked() []string {
	return []string{"iroko", "sapele", "utile", "african mahogany", "mahogany", "dark red meranti", "light red meranti", "white meranti",
		"yellow meranti", "meranti", "white lauan", "keruing", "afrormosia", "merbau", "ipe"}
}

// RatioOf is how many times thicker than a ply the radius has to be for a timber.
func RatioOf(s wood.Species) float64 {
	switch {
	case s.Softwood():
		return SoftwoodRatio
	case slices.Contains(interlocked(), s.ID):
		return InterlockedRatio
	}
	return HardwoodRatio
}

// Sawing losses where nothing was said, in mm; all are common practice, no source.
const (
	// PlaneMM is what planing both faces of a ply takes.
	PlaneMM = 1.5
	// CleanMM is what a strip is wider than the bow, so that both sides can be cleaned up.
	CleanMM = 6
	// SpareStrips are sawn for every bow, for the ply that breaks.
	SpareStrips = 1
)

// Sawing is how the strips are got out.
type Sawing struct {
	WidthMM float64 // of the finished bow
	KerfMM  float64
	PlaneMM float64 // planing loss of a ply, both faces; 0 takes PlaneMM
	CleanMM float64 // for cleaning up, both sides; 0 takes CleanMM
	Bows    int     // equal bows; 0 is one
}

// Strips is what to saw.
type Strips struct {
	Count    int     // with the spare ones
	ThickMM  float64 // sawn
	WidthMM  float64
	AcrossMM float64 // of board that all of them take side by side
}

// Strips works out, for n plies t thick of each bow:
//
//	sawn ply = t + planing, width = bow + cleaning up
//	across   = count × sawn ply + (count − 1) × kerf (geometry)
//
// It fails on sizes that cannot be.
func (p Plan) Strips(s Sawing) (Strips, error) {
	bows := max(1, s.Bows)
	if err := cmp.Or(
		bounds.Between("the width of the bow", s.WidthMM, 1, 1000, "mm"),
		bounds.Between("the kerf", s.KerfMM, 0, 20, "mm"),
		bounds.Between("the planing loss", s.PlaneMM, 0, 20, "mm"),
		bounds.Between("the allowance for cleaning up", s.CleanMM, 0, 100, "mm"),
		bounds.Count("the number of plies", p.Plies, 1),
		bounds.Count("the number of bows", bows, 1),
	); err != nil {
		return Strips{}, err
	}
	out := Strips{
		Count:   bows * (p.Plies + SpareStrips),
		ThickMM: p.PlyMM + cmp.Or(s.PlaneMM, PlaneMM),
		WidthMM: s.WidthMM + cmp.Or(s.CleanMM, CleanMM),
	}
	out.AcrossMM = float64(out.Count)*out.ThickMM + float64(out.Count-1)*s.KerfMM
	return out, nil
}

// How fast one person lays up a bow; common practice, no source.
const (
	SpreadM2Min = 0.15 // square metres of glue spread in a minute
	ClampMin    = 0.5  // minutes for a clamp
)

// LayUpMin is about how many minutes one person takes to spread an area of glue in m² and to put
// on the clamps: area / SpreadM2Min + clamps × ClampMin. It fails on what cannot be.
func LayUpMin(areaM2 float64, clamps int) (float64, error) {
	if err := cmp.Or(
		bounds.Between("the area", areaM2, 0, 1000, "m²"),
		bounds.Count("the number of clamps", clamps, 0),
	); err != nil {
		return 0, err
	}
	return math.Ceil(areaM2/SpreadM2Min + float64(clamps)*ClampMin), nil
}
