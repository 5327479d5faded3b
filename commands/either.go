package commands

import (
	"fmt"
	"strings"

	"fettle/commands/speech"
)

// oneOrOther finds the number that a speaker wavers to from the one at i: 768 or 786, 812 (or was
// it 821?). Words between that say anything else make it another matter.
func oneOrOther(items []speech.Item, i int) (first, second int, ok bool) {
	wavers := false
	for k := i + 1; k < len(items) && k <= i+8; k++ {
		if items[k].Q != nil {
			return i, k, wavers
		}
		switch items[k].Text {
		case "or":
			wavers = true
		case "was", "is", "it", "it's", "maybe", "perhaps", "even", "possibly", "rather", "could", "be", "might", ",", "-", "(", "/", "long", "wide", "high", "deep", "thick", "tall", "mm", "cm", "i", "not", "sure":
		default:
			return 0, 0, false
		}
	}
	return 0, 0, false
}

// whichFigure asks which of the numbers at two items stands for a need.
func whichFigure(r *speech.Reading, need string, first, second int) *speech.Question {
	said := func(i int) string { return strings.TrimSpace(r.Text[r.Items[i].Start:r.Items[i].End]) }
	return &speech.Question{Text: fmt.Sprintf("Which is it: %s or %s?", said(first), said(second)), Need: need}
}

// askWhichFigure asks where the number of a need is one of two figures for the same thing, and takes it
// out of what was understood.
func askWhichFigure(r *speech.Reading) {
	if r.Replying || r.Question != nil {
		return
	}
	for i := range r.Items {
		if r.Items[i].Q == nil {
			continue
		}
		first, second, ok := oneOrOther(r.Items, i)
		if !ok {
			continue
		}
		for _, n := range r.Form.Needs {
			said := r.Request.Slots[n.Name].Said
			if said == nil || said != r.Items[first].Q.Value && said != r.Items[second].Q.Value {
				continue
			}
			if r.Question == nil {
				r.Question = whichFigure(r, n.Name, first, second)
			}
			r.Drop(n.Name)
		}
		if r.Question != nil {
			return
		}
	}
}
