package commands

import (
	"fmt"
	"slices"
	"strings"

	"fettle/commands/book"
	"fettle/commands/speech"
)

// openingFrom takes what is not known of the opening from what was measured of one, from the last check
// for squareness, else from the last thing that was made for one: "round it", "for that opening". Of what
// was measured and what was checked the later counts, unless the opening is named and was measured.
func (a *Ask) openingFrom(groups []madeGroup) {
	if anyIn(a.Request.Slots, []string{"width_mm", "top_mm", "bottom_mm"}) && anyIn(a.Request.Slots, []string{"height_mm", "left_mm", "right_mm"}) {
		return
	}
	site, measured := a.siteMeant()
	if a.Word("points") == "opening" {
		checked, ok := a.lastChecked()
		switch {
		case measured && (a.Has("opening_name") || !ok):
			a.takeSite(site)
			return
		case ok:
			a.takeChecked(checked)
			return
		}
	}
	if a.takeLastMade(groups) || !measured {
		return
	}
	a.takeSite(site)
}

// takeLastMade takes the opening of the last thing that was made for one.
func (a *Ask) takeLastMade(groups []madeGroup) bool {
	opening := append([]string{"diagonal_mm", "diagonal2_mm", "diagonal_from", "lean", "corner_side"}, openingSizes...)
	for _, c := range cornerPlaces {
		opening = append(opening, c.need)
	}
	for _, g := range slices.Backward(groups) {
		if !anyIn(g.Is, openingSizes) || isSize[g.Is["what"].Word] != nil {
			continue
		}
		for _, n := range opening {
			if s, ok := g.Is[n]; ok && !a.Has(n) {
				a.Request.Slots[n] = s
			}
		}
		a.Request.Slots["read_as"] = speech.Slot{Word: "the opening of the " + g.Name}
		return true
	}
	return false
}

// measuredAs are the words of a measure's name that tell which size of an opening it is.
var measuredAs = []struct{ word, need string }{
	{"top", "top_mm"}, {"bottom", "bottom_mm"}, {"left", "left_mm"}, {"right", "right_mm"}, {"width", "width_mm"}, {"wide", "width_mm"}, {"height", "height_mm"}, {"high", "height_mm"},
}

// measuredWord opens the word that says which measures an opening was taken from.
const measuredWord = "measured: "

// siteMeant finds the opening that is meant of those that were measured: the one by the name that was
// said, else the one that was measured last.
func (a *Ask) siteMeant() (siteOpening, bool) {
	all, err := a.measures()
	if err != nil {
		return siteOpening{}, false
	}
	openings := slices.DeleteFunc(siteOpenings(all), func(o siteOpening) bool { return !o.isOpening() || !o.hasSides() })
	said := a.Word("opening_name")
	for _, o := range openings {
		if said != "" && sameMeasure(o.name, said) {
			return o, true
		}
	}
	if said != "" && !sameMeasure(said, "opening") || len(openings) == 0 {
		return siteOpening{}, false
	}
	return slices.MaxFunc(openings, func(p, q siteOpening) int { return strings.Compare(p.at(), q.at()) }), true
}

// hasSides says whether some width or some height of it was measured.
func (o siteOpening) hasSides() bool {
	s := o.shape()
	return slices.ContainsFunc(openingSizes, func(need string) bool { return s[need] > 0 })
}

// takeSite takes what was measured of an opening into the request, and notes what that takes for
// granted. A diagonal goes before corners; of several corners beside sides that differ the first counts.
func (a *Ask) takeSite(o siteOpening) {
	s := o.shape()
	fixed := slices.DeleteFunc(slices.Clone(fixedBy), func(need string) bool { return s[need] == 0 })
	different := s["top_mm"] != s["bottom_mm"] && s["top_mm"]*s["bottom_mm"] > 0 || s["left_mm"] != s["right_mm"] && s["left_mm"]*s["right_mm"] > 0
	var from []string
	for _, m := range o.measures {
		need := shapeNeed(m)
		i := slices.Index(fixed, need)
		switch {
		case need == "" || s[need] == 0 || a.Has(slotOf(need, "")):
			continue
		case i > 0 && strings.HasSuffix(need, "_deg") && (different || s[rising]+s[falling] > 0):
			continue
		}
		from = append(from, m.Name)
		if slot := slotOf(need, ""); s[rising] == 0 && need == falling {
			a.Request.Slots["diagonal_mm"], a.Request.Slots["diagonal_from"] = a.readingSlot(standing(m.Is)), speech.Slot{Word: fromTopLeft}
		} else {
			a.Request.Slots[slot] = a.readingSlot(standing(m.Is))
		}
	}
	a.Request.Slots["read_as"] = speech.Slot{Word: measuredWord + strings.Join(from, ", ")}
	a.granted = a.siteGranted(o, s)
	for _, m := range a.misfits(o) {
		a.granted = append(a.granted, m.text)
	}
}

// siteGranted says what is taken for granted of an opening beside what was measured.
func (a *Ask) siteGranted(o siteOpening, s map[string]float64) (out []string) {
	for _, m := range o.measures {
		if shapeNeed(m) == rising && s[rising] > 0 && !o.named(rising) {
			out = append(out, fmt.Sprintf("The %s is taken from bottom left to top right; “the diagonal of the %s from top left to bottom right is %s” says otherwise.", m.Name, o.name, a.readingText(standing(m.Is))))
		}
		if m.Is.Doubt != nil {
			out = append(out, a.measureText(m)+" The first is taken.")
		}
	}
	if s["height_mm"] > 0 && s["top_mm"] != s["bottom_mm"] && s["left_mm"]+s["right_mm"] == 0 {
		out = append(out, "The one height is taken for both sides.")
	}
	if s["height_mm"] == 0 && (s["left_mm"] == 0) != (s["right_mm"] == 0) {
		out = append(out, "Only one side was measured; the other is taken as long.")
	}
	if s["width_mm"] == 0 && (s["top_mm"] == 0) != (s["bottom_mm"] == 0) {
		out = append(out, "Top or bottom was measured alone; the other is taken as wide.")
	}
	if !slices.ContainsFunc(fixedBy, func(need string) bool { return s[need] > 0 }) && s["top_mm"] == s["bottom_mm"] && s["left_mm"] == s["right_mm"] {
		out = append(out, "No diagonal or corner was measured, so it is taken as square.")
	}
	return out
}

// checkedBack is how many requests back a check is looked for.
const checkedBack = 12

// lastChecked finds the last check for squareness at the place, if that was a short while ago and no
// opening was measured since.
func (a *Ask) lastChecked() (*speech.Request, bool) {
	before := a.before
	for range checkedBack {
		e, ok, err := a.Tx.LastRequestOfAnyone(a.Place, before)
		if err != nil || !ok || a.Now.Sub(e.At) > QuestionLife {
			return nil, false
		}
		r := request(&e)
		switch {
		case r == nil || r.Open != nil:
		case r.Topic == "square-check" && anyIn(r.Slots, openingSizes):
			return r, true
		case r.Topic == "measure" && r.Word("action") == "keep" && slices.ContainsFunc(append(r.Items, *r), func(it speech.Request) bool { return (siteOpening{name: thingShaped(it.Word("name"))}).isOpening() }):
			return nil, false
		}
		before = e.ID
	}
	return nil, false
}

// takeChecked takes the opening of a check for squareness.
func (a *Ask) takeChecked(r *speech.Request) {
	for _, need := range append([]string{"diagonal_mm", "diagonal2_mm"}, openingSizes...) {
		if s, ok := r.Slots[need]; ok && !a.Has(need) {
			a.Request.Slots[need] = s
		}
	}
	if r.Word("first_from") == fromTopLeft {
		a.Request.Slots["diagonal_from"] = speech.Slot{Word: fromTopLeft}
	}
	a.Request.Slots["read_as"] = speech.Slot{Word: "the one that was checked for square"}
	if a.Has("diagonal_mm") && r.Word("first_from") == "" {
		a.granted = append(a.granted, "The first diagonal is taken from bottom left to top right.")
	}
}

// openingLike is a name with every word for the opening of a door as the one: the doorway and the door
// opening are the opening.
func openingLike(name string) string {
	words := strings.Fields(strings.ToLower(name))
	for i, w := range words {
		switch w {
		case "doorway", "aperture", "openings":
			words[i] = "opening"
		case "upper":
			words[i] = "top"
		case "lower":
			words[i] = "bottom"
		}
	}
	return strings.ReplaceAll(strings.Join(words, " "), "door opening", "opening")
}

// doorOpening is the opening of the door among those that were measured.
func doorOpening(all []book.Named[book.Measure]) siteOpening {
	for _, o := range siteOpenings(all) {
		if sameMeasure(o.name, "opening") {
			return o
		}
	}
	return siteOpening{}
}
