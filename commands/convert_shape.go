package commands

import (
	"strings"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

// convertedWeight is the evidence of a message that is a conversion from end to end.
const convertedWeight = 10

// besideConverted are words that may stand around a conversion and say nothing more.
var besideConverted = set(`what what's whats is are how much many please pls plz convert in to into as = ? . , the a an that makes make would be hi hey hello quick quickly`)

// shapeConverted weighs a message that is nothing but a number with its unit and another unit of
// the same kind, whatever units they are: "73 F in celsius".
func shapeConverted(s speech.Sentence) int {
	var from, to *measure.Unit
	joined := false
	for i := 0; i < len(s.Items); i++ {
		it := s.Items[i]
		if it.Q != nil {
			if it.Q.Unit == nil || it.Q.Value == nil || len(it.Q.Per) > 0 {
				return 0
			}
			from = it.Q.Unit
			continue
		}
		if n, u := unitFrom(s, i); u != nil && (joined || i == 0 || anyOf(s.Items[i-1].Text, "many|much")) {
			to, joined = u, false
			i += n - 1
			continue
		}
		if !besideConverted[it.Text] {
			return 0
		}
		joined = joined || from != nil && anyOf(it.Text, "in|to|into|as|=")
	}
	if from == nil || to == nil || from.Kind != to.Kind || from.Symbol == to.Symbol {
		return 0
	}
	return convertedWeight
}

// unitFrom finds the unit that one or two words from item i name.
func unitFrom(s speech.Sentence, i int) (int, *measure.Unit) {
	name := ""
	best, found := 0, (*measure.Unit)(nil)
	for n := 1; n <= 2 && i+n <= len(s.Items) && s.Items[i+n-1].Q == nil; n++ {
		name = strings.TrimSpace(name + " " + s.Items[i+n-1].Text)
		if u, ok := measure.UnitNamed(name); ok {
			best, found = n, u
		}
	}
	return best, found
}
