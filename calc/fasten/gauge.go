package fasten

import (
	"math"

	"fettle/calc/bounds"
)

// sold are the gauges that ASME B18.6.1 lists (from memory).
func sold() []int { return []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 16, 18, 20, 24} }

// GaugeOf gives the gauge that a screw of a thickness in mm is sold as: the nearest of the
// standard ones, and of two that are as near the even one, which is what shops keep.
// Metric 3, 3.5, 4, 5 and 6 are then 4, 6, 8, 10 and 14, as a table of equivalents prints but for
// the last, which it gives as 6.5 (seen). It fails outside 1.3 to 9.8 mm.
func GaugeOf(mm float64) (int, error) {
	if err := bounds.Between("the screw", mm, 1.3, 9.8, "mm"); err != nil {
		return 0, err
	}
	best, least := 0, math.Inf(1)
	for _, n := range sold() {
		d, err := GaugeMM(n)
		if err != nil {
			return 0, err
		}
		away := math.Abs(d - mm)
		if n%2 != 0 {
			away += 0.005 // as near within the tolerance of a screw
		}
		if away < least {
			best, least = n, away
		}
	}
	return best, nil
}

// Edges is how far a screw stays from where wood splits, in mm.
type Edges struct {
	EndMM   float64 // from the end of the board, along the grain
	EdgeMM  float64 // from its edge
	ApartMM float64 // from the next screw along the grain
}

// EdgesOf gives 10, 4 and 7 times the thickness of the screw: the distances of an evaluation
// report of structural wood screws pulled straight out (ESR-4948, table 6, seen). Screws loaded
// sideways towards an end need up to twice that by the same table. It fails on a thickness
// outside 1 to 20 mm.
func EdgesOf(diameterMM float64) (Edges, error) {
	if err := bounds.Between("the screw", diameterMM, 1, 20, "mm"); err != nil {
		return Edges{}, err
	}
	return Edges{EndMM: 10 * diameterMM, EdgeMM: 4 * diameterMM, ApartMM: 7 * diameterMM}, nil
}
