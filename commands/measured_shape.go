package commands

import (
	"slices"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

// sharpestOnSite is the sharpest corner in degrees that is believed of an opening; a bare number in a
// corner's place is an angle from there on.
const sharpestOnSite = 45

// shapeWeight is the evidence of a message that tells or asks for a corner or a diagonal of a named place
// of the hut: more than a mitre or a check for squareness has of the same words.
const shapeWeight = 24

// shapedNouns are the places of the hut of which corners and diagonals are measured.
var shapedNouns = set("opening openings opening's doorway doorway's aperture window window's hatch hatch's recess reveal doorframe")

// notTold are words with which a message asks for something to be worked out or made.
var notTold = set(`mitre mitres miter miters mitred square squareness should make build need want draw cut saw swing trim trims for if rough taper which
	note remember remind stable rack shelves drop radius compound slope`)

// shapeMeasured weighs whether a message tells a corner or a diagonal of a place by its name, or asks for
// one that was told. Width and height with diagonals are a check for squareness, and a corner of nothing
// is a mitre's.
func shapeMeasured(s speech.Sentence) int {
	has := func(any string) bool {
		return slices.ContainsFunc(s.Items, func(it speech.Item) bool { return it.Q == nil && anyOf(it.Text, any) })
	}
	numbers := 0
	for _, it := range s.Items {
		switch {
		case it.Text == "×", it.Q == nil && notTold[it.Text]:
			return 0
		case it.Q != nil && (it.Q.Bare() || it.Q.Kind == measure.KindLength || it.Q.Kind == measure.KindAngle):
			numbers++
		}
	}
	place := slices.ContainsFunc(s.Items, func(it speech.Item) bool { return it.Q == nil && shapedNouns[it.Text] })
	angled := slices.ContainsFunc(s.Items, func(it speech.Item) bool { return it.Q != nil && it.Q.Kind == measure.KindAngle })
	corner := (angled || has("corner|corners")) && has("top|upper|bottom|lower") && has("left|right")
	diagonal := has("diagonal|diagonals|diag|diags")
	asks := has("what|what's|whats|how")
	switch {
	case asks && numbers == 0 && (corner && !has("out|off") || place && diagonal):
		return shapeWeight
	case asks || !place || numbers == 0:
		return 0
	case corner && has("wide|width") == has("high|tall|height"), diagonal && !has("wide|width|high|tall|height"):
		return shapeWeight
	}
	return 0
}

// readingNeed is the need that a number is for: the angle of a corner, else a size.
func readingNeed(name string, q *speech.Quantity) string {
	if q.Kind == measure.KindAngle {
		return "angle_deg"
	}
	if v, _ := q.Value.Float64(); hasWord(name, "corner") && q.Bare() && v >= sharpestOnSite && v <= 180-sharpestOnSite {
		return "angle_deg"
	}
	return "size_mm"
}
