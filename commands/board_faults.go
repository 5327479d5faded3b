package commands

import (
	"fmt"

	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
)

// faultNouns are the words for what a board is not to be used for.
const faultNouns = "knot|knots|knothole|split|splits|crack|cracks|check|checks|shake|shakes|wane|waney|sapwood|rot|rotten|worm|wormhole|wormholes|nail|nails|resin|bark|damaged|fault|faults|defect|defects|bruise|dent"

var faultWords = speech.NewVocabulary("fault", map[string][]string{
	"knot": {"knots"}, "split": {"splits", "crack", "cracks", "check", "checks", "shake", "shakes"}, "wane": {"waney", "waney edge", "bark"},
	"sapwood": {}, "rot": {"rotten"}, "wormhole": {"worm", "wormholes"}, "nail": {"nails"}, "resin": {"resin pocket"}, "knothole": {},
	"damage": {"damaged", "bruise", "dent"}, "fault": {"faults", "defect", "defects"},
})

// readFault reads where a board has a fault: how far from which end, how much of the length,
// how much of the width from which edge.
func readFault(r *speech.Reading) bool {
	kind, ok := r.Named(faultWords)
	if !ok || r.Says("#size .. "+boardNouns+"|sapele|ash|oak|larch") && !r.Says("has|have|got a|an? "+faultNouns) {
		return false
	}
	r.Word("action", "fault")
	r.Word("fault", kind)
	r.Word("sentence", r.Text)
	for _, i := range r.All(timberNouns + "|board|plank|sheet|offcut|number|no # has|have|got|is") {
		r.Claim(i)
	}
	for _, f := range []struct {
		need     string
		patterns []string
	}{
		{"fault_length_mm", []string{"# across|long|over|big|round|dia|diameter", "# of the length", "over|for about? #", "first|last #", "across|long|diameter about|is|of? #"}},
		{"fault_width_mm", []string{"# wide|deep", "# in? from the? bottom|top|lower|upper edge", "# along|off the? bottom|top|lower|upper? edge", "wide about? #", "# on one|both|each edge"}},
		{"fault_at_mm", []string{"at|about|around|starts|starting|begins # .. from|in", "# in? from|off .. end|left|right|butt|top", "at|about|around #", "# along|in|up", "in|starting|starts|centred|centered .. #", "#"}},
	} {
		for _, p := range f.patterns {
			if i, ok := r.Find(p); ok && r.Free(i) && isLength(r, i) {
				r.Set(f.need, i)
				break
			}
		}
	}
	r.Means("fault_from", "right", "from|at|in|off the? right|top|far|other hand? end", "right hand? end", "from|off the? right", "last #")
	r.Means("fault_edge", "both", "both|each edges|edge")
	r.Means("fault_edge", "upper", "upper|top|back edge")
	r.Means("fault_edge", "lower", "lower|bottom|front|one edge", "along one|the? edge")
	claimAll(r)
	return true
}

// isLength says whether the number at item i may be a distance: one without a unit or with a
// length's, and not the number of a board.
func isLength(r *speech.Reading, i int) bool {
	q := r.Items[i].Q
	return q.Kind == measure.KindLength || q.Bare() && !r.Follows(i, "board") && !r.Follows(i, "plank")
}

// smallFault is how large a fault is taken where nobody says it.
const smallFault = 50 * measure.Millimetre

// addFault notes a fault on the board that is meant.
func (a *Ask) addFault() Answer {
	b, which := a.findBoard()
	if which != nil {
		return *which
	}
	f, assumed, why := a.faultOn(b.Is)
	if why != "" {
		delete(a.Request.Slots, "fault_at_mm")
		return askFor("fault_at_mm", why)
	}
	b.Is.Faults = append(b.Is.Faults, f)
	out := a.Out()
	number := func(m book.MM) string { return out.Number(m.Length(), measure.Nearest) }
	ans := say(shorten(fmt.Sprintf("%s: %s from %s to %s along, %s to %s across", capital(b.Name), f.Kind, number(f.X), number(f.X+f.Length), number(f.Y), out.Text((f.Y+f.Width).Length(), measure.Nearest)), MaxHeadline),
		"Measured from the left end and the lower edge. No part is laid there; a cut may pass through.")
	ans.echo = true
	for _, t := range assumed {
		ans.line(t)
	}
	ans.Given["name"] = b.Name
	ans.effects = append(ans.effects, put(a.Project.ID, book.WhatBoard, b.Name, b.Is))
	return ans
}

// faultOn makes the rectangle of a fault, larger rather than smaller where something was not said.
func (a *Ask) faultOn(b book.Board) (f book.Fault, assumed []string, why string) {
	f.Kind = a.Word("fault")
	at, hasAt := a.Length("fault_at_mm")
	length, hasLength := a.Length("fault_length_mm")
	width, hasWidth := a.Length("fault_width_mm")
	switch edge := a.Word("fault_edge"); {
	case !hasAt && !hasLength && (hasWidth || edge != ""): // along an edge, the whole length
		f.Length = b.Length
	case !hasAt && hasLength: // the first so much, from an end
		f.Length = book.MM(length)
		if a.Word("fault_from") == "right" {
			f.X = b.Length - f.Length
		}
	case !hasAt:
		return f, nil, "How far from the left end is it, and how much of the length does it take?"
	case !hasLength && f.Kind == "split": // it runs in from the end
		f.Length = book.MM(at)
		if a.Word("fault_from") == "right" {
			f.X = b.Length - f.Length
		}
	default:
		if !hasLength {
			length = smallFault
			assumed = append(assumed, fmt.Sprintf("Nobody said how large it is: I keep clear of %s.", a.Out().Text(length, measure.Nearest)))
		}
		if a.Word("fault_from") == "right" {
			at = b.Length.Length() - at
		}
		f.X, f.Length = book.MM(at-length/2), book.MM(length)
	}
	f.Width = b.Width
	switch {
	case hasWidth && a.Word("fault_edge") == "upper":
		f.Width, f.Y = book.MM(width), b.Width-book.MM(width)
	case hasWidth && a.Word("fault_edge") == "both":
		assumed = append(assumed, "Both edges: say it once more for the upper edge, I noted the lower.")
		f.Width = book.MM(width)
	case hasWidth && a.Word("fault_edge") == "lower":
		f.Width = book.MM(width)
	default:
		assumed = append(assumed, "Where it lies across was not said, so the whole width is kept clear there. “… 40 in from the lower edge” wins some back.")
	}
	if f.X < 0 {
		f.Length, f.X = f.Length+f.X, 0
	}
	f.Length = min(f.Length, b.Length-f.X)
	if f.Length <= 0 || f.Width <= 0 || f.Y < 0 || f.Y+f.Width > b.Width {
		return f, nil, fmt.Sprintf("That lies outside the board, which is %s. How far from the left end is it?", a.boardText(b))
	}
	return f, assumed, ""
}

// onHand leaves out what only stands in a merchant's list.
func onHand(boards []book.Named[book.Board]) []book.Named[book.Board] {
	return keep(boards, func(b book.Board) bool { return !b.ForSale })
}

// dropBoard takes a board off the list.
func (a *Ask) dropBoard() Answer {
	b, which := a.findBoard()
	if which != nil {
		return *which
	}
	ans := say(fmt.Sprintf("Off the list: %s, %s", b.Name, a.boardText(b.Is)))
	ans.echo = true
	ans.Given["name"] = b.Name
	ans.effects = append(ans.effects, remove(a.Project.ID, book.WhatBoard, b.Name))
	return ans
}
