// Package angle is the geometry of cuts that are not square: tapers, mitres, openings out of
// square and the compound cuts of sloping sides. All of it is geometry.
//
// Angles are degrees. A mitre is measured between the cut and the edge of the piece; the
// saw's swing is measured from square, so swing = 90 − mitre.
package angle

import "math"

func rad(deg float64) float64 { return deg * math.Pi / 180 }
func deg(rad float64) float64 { return rad * 180 / math.Pi }
