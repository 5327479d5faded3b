package rough

import "fettle/calc/measure"

// SawnThicknesses are the preferred sawn thicknesses of hardwood in Europe: EN 1313-2, from
// memory; the standard itself was not at hand.
func SawnThicknesses() []measure.Length {
	mm := []measure.Length{20, 27, 32, 40, 50, 60, 65, 70, 80, 100}
	for i := range mm {
		mm[i] *= measure.Millimetre
	}
	return mm
}

// NextSawn gives the smallest of the sizes, in any order, that is not below what is needed,
// and false when none is big enough.
func NextSawn(need measure.Length, sizes []measure.Length) (measure.Length, bool) {
	var best measure.Length
	found := false
	for _, s := range sizes {
		if s >= need && (!found || s < best) {
			best, found = s, true
		}
	}
	return best, found
}
