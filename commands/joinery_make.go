package commands

import (
	"fmt"
	"maps"
	"math"
	"strings"

	"fettle/calc/joinery"
	"fettle/calc/wood"
	"fettle/commands/book"
	"fettle/commands/speech"
)

// isSize are the needs of which one at least makes a message a wish of its own and not a change of
// what was made before, by what is wanted.
var isSize = map[string][]string{
	aBow: {"span_mm", "rise_mm"}, slattedTop: {"length_mm", "slats"}, aRack: {"width_mm", "height_mm", "items"},
}

// openingSizes are what an opening is measured by.
var openingSizes = []string{"width_mm", "height_mm", "top_mm", "bottom_mm", "left_mm", "right_mm"}

// joineryWhole completes the request: from what was made before, when it changes that; from the
// last opening, where it points to one. It gives a question where it can't.
func (a *Ask) joineryWhole() *Answer {
	groups, err := book.All[map[string]speech.Slot](a.Tx, a.Project.ID, book.WhatJoinery)
	if err != nil {
		q := ask("I can't read what was made before. Please say all of it again.")
		return &q
	}
	a.onlyChanged(groups)
	if old, ok := groupFor(groups, a.Word("what"), a.Word("name"), a.changeNeeds()); ok && !a.wholeWish() {
		a.over(old)
	}
	if a.Word("what") == "" {
		q := askFor("what", "Of what? Say a door, drop boards, a rack, a trim, a bow or a slatted top, with its size.")
		return &q
	}
	if q := a.settleWide(); q != nil {
		return q
	}
	if a.ofOpening() && a.Has("points") {
		a.openingFrom(groups)
	}
	delete(a.Request.Slots, "points")
	delete(a.Request.Slots, "opening_name")
	return a.joineryLacks()
}

// over puts what the message says over what was kept. A corner or a diagonal takes the place of all
// that were said before.
func (a *Ask) over(old book.Named[map[string]speech.Slot]) {
	corner, diagonal := false, a.Has("diagonal_mm")
	for _, c := range cornerPlaces {
		corner = corner || a.Has(c.need)
	}
	for n, s := range old.Is {
		switch {
		case (corner || diagonal) && (strings.HasSuffix(n, "t_deg") || n == "corner_side" || strings.HasPrefix(n, "diagonal")):
		case !a.Has(n) || n == "what":
			a.Request.Slots[n] = s
		}
	}
	a.Request.Slots["name"] = speech.Slot{Word: old.Name}
}

// onlyChanged finds that a message which goes on from the last request changes something that the
// thing asked for then has not: it is then about another one, and only what it says counts.
func (a *Ask) onlyChanged(groups []book.Named[map[string]speech.Slot]) {
	for _, g := range groups {
		if !strings.EqualFold(g.Name, a.Word("name")) || !a.goesOnFrom(g) {
			continue
		}
		said := map[string]speech.Slot{}
		var needs []string
		for n, s := range a.Request.Slots {
			if text(s) != text(g.Is[n]) {
				said[n] = s
				needs = append(needs, n)
			}
		}
		if _, other := groupFor(groups, "", "", needs); other && !hasAll(a.Word("what"), needs) {
			clear(a.Request.Slots)
			maps.Copy(a.Request.Slots, said)
		}
	}
}

// goesOnFrom says whether the request holds all that a group was made from.
func (a *Ask) goesOnFrom(g book.Named[map[string]speech.Slot]) bool {
	for n := range g.Is {
		if !a.Has(n) {
			return false
		}
	}
	return true
}

// text is what stands in a slot, to be compared.
func text(s speech.Slot) string { return fmt.Sprint(s.Word, saidText(s)) }

// wholeWish says whether the message has a size that makes it a wish of its own, and no change of
// what was made before.
func (a *Ask) wholeWish() bool {
	what := a.Word("what")
	sizes := isSize[what]
	if sizes == nil {
		sizes = openingSizes
	}
	return what != "" && (anyIn(a.Request.Slots, sizes) || a.Has("points"))
}

// settleWide gives "70 wide", said without of what, to what has such a width.
func (a *Ask) settleWide() *Answer {
	s, ok := a.Request.Slots["wide_mm"]
	if !ok {
		return nil
	}
	delete(a.Request.Slots, "wide_mm")
	switch a.Word("what") {
	case aTrim:
		a.Request.Slots["trim_mm"] = s
	case aBow:
		a.Request.Slots["bow_width_mm"] = s
	case slattedTop:
		a.Request.Slots["slat_mm"] = s
	default:
		q := ask(fmt.Sprintf("What of the %s is %s wide? Say for instance “stiles %s”, or the opening with its unit.", a.Word("name"), saidText(s), saidNumber(s)))
		q.echo = true
		return &q
	}
	return nil
}

func anyIn(slots map[string]speech.Slot, names []string) bool {
	for _, n := range names {
		if _, ok := slots[n]; ok {
			return true
		}
	}
	return false
}

// changeNeeds lists what the message itself says.
func (a *Ask) changeNeeds() []string {
	var out []string
	for n := range a.Request.Slots {
		if n != "what" && n != "name" && n != "points" && n != "opening_name" {
			out = append(out, n)
		}
	}
	return out
}

// fits are the needs that only some things have; a change of "stiles" is of the last thing that
// has stiles.
var fits = map[string]string{
	"stile_mm": "door", "rail_mm": "door", "bottom_rail_mm": "door", "tenon_mm": "door", "panel": "door", "panel_mm": "door", "split_mm": "stable", "boards": "boards", "bevel_deg": "boards", "hold": "boards", "top_gap_mm": "boards",
	"heights_mm": "boards", "trim_mm": "trim", "reveal_mm": "trim", "corners": "trim", "top_trim_mm": "trim", "side_trim_mm": "trim", "low_trim_mm": "trim", "shelves": "rack", "lip_mm": "rack", "back_mm": "rack", "items": "rack", "item_mm": "rack", "item_height_mm": "rack",
	"housing_mm": "rack", "no_lip": "rack", "no_back": "rack", "in_all": "rack", "depth_mm": "rack", "slat_mm": "slat", "slats": "slat", "bearers": "slat", "bearer_mm": "slat", "bearer_deep_mm": "slat", "gap_mm": "slat", "span_mm": "bow", "rise_mm": "bow",
}

// groupFor finds what a message changes: by its name, by what it is, else the last one that has
// what is changed.
func groupFor(groups []book.Named[map[string]speech.Slot], what, name string, needs []string) (book.Named[map[string]speech.Slot], bool) {
	for i := len(groups) - 1; i >= 0; i-- {
		if g := groups[i]; name != "" && strings.EqualFold(g.Name, name) {
			return g, true
		}
	}
	for i := len(groups) - 1; i >= 0; i-- {
		g := groups[i]
		if is := g.Is["what"].Word; what == is || what == "" && hasAll(is, needs) {
			return g, true
		}
	}
	return book.Named[map[string]speech.Slot]{}, false
}

func hasAll(what string, needs []string) bool {
	for _, n := range needs {
		if of := fits[n]; of != "" && !strings.Contains(what, of) {
			return false
		}
	}
	return true
}

// ofOpening says whether what is wanted goes into an opening or round one.
func (a *Ask) ofOpening() bool {
	switch a.Word("what") {
	case aBow, slattedTop, aRack:
		return false
	}
	return true
}

// joineryLacks asks for what can't be assumed.
func (a *Ask) joineryLacks() *Answer {
	has := func(names ...string) bool { return anyIn(a.Request.Slots, names) }
	lack := func(need, question string) *Answer { q := askFor(need, question); return &q }
	switch what := a.Word("what"); what {
	case aBow:
		switch {
		case !has("span_mm"):
			return lack("span_mm", "Over which span is the bow, and how far does it rise?")
		case !has("rise_mm"):
			return lack("rise_mm", "How far does the bow rise?")
		}
	case slattedTop:
		switch {
		case !has("length_mm"):
			return lack("length_mm", "How long is the top along the slats, and how wide across them?")
		case !has("width_mm", "slats"):
			return lack("width_mm", "How wide is the top across the slats?")
		}
	case aRack:
	default:
		switch {
		case !has("width_mm", "top_mm", "bottom_mm"):
			return lack("width_mm", fmt.Sprintf("How wide and how high is the opening for the %s?", what))
		case !has("height_mm", "left_mm", "right_mm"):
			return lack("height_mm", fmt.Sprintf("How high is the opening for the %s?", what))
		}
	}
	return nil
}

// joineryMade has the parts worked out.
func (a *Ask) joineryMade() (joinery.Made, error) {
	f := func(name string) float64 { v, _ := a.Float(name); return v }
	n := func(name string) int { return int(f(name)) }
	timber, _ := wood.Find(a.Word("species"))
	climate := joinery.Climate{FromPct: f("mc_from_pct"), WetPct: f("mc_to_pct"), DryPct: f("mc_dry_pct")}
	switch what := a.Word("what"); what {
	case dropBoards:
		return joinery.DropBoards{Words: a.words(), Opening: a.joineryOpening(), Count: n("boards"), HeightsMM: a.heights(), Joint: a.Word("joint"), Hold: a.Word("hold"), Timber: timber, ThicknessMM: f("thickness_mm"),
			GrooveMM: f("groove_mm"), ClearanceMM: f("clearance_mm"), TopMM: f("top_gap_mm"), BevelDeg: f("bevel_deg"), LapMM: f("lap_mm"), Climate: climate}.Make()
	case aRack:
		return joinery.Rack{Words: a.words(), WidthMM: f("width_mm"), ShelfWidth: a.Word("width_is") != "", HeightMM: f("height_mm"), DepthMM: f("depth_mm"), Shelves: n("shelves"), Items: n("items"), ItemMM: f("item_mm"), ItemHeightMM: f("item_height_mm"),
			InAll: a.Word("in_all") == "in all", ThicknessMM: f("thickness_mm"), HousingMM: f("housing_mm"), LipMM: f("lip_mm"), BackMM: f("back_mm"), NoLip: a.Has("no_lip"), NoBack: a.Has("no_back"), Timber: timber}.Make()
	case aTrim:
		return joinery.Trim{Words: a.words(), Opening: a.joineryOpening(), WidthMM: f("trim_mm"), TopWidthMM: f("top_trim_mm"), LowWidthMM: f("low_trim_mm"), LeftWidthMM: f("side_trim_mm"), RightMM: f("side_trim_mm"), RevealMM: f("reveal_mm"),
			ThicknessMM: f("thickness_mm"), Corners: a.Word("corners"), ThreeSides: a.Has("three_sides"), Timber: timber}.Make()
	case aBow:
		return joinery.Bow{Words: a.words(), SpanMM: f("span_mm"), RiseMM: f("rise_mm"), ThicknessMM: f("thickness_mm"), WidthMM: f("bow_width_mm"), Count: n("bows"), Timber: timber}.Make()
	case slattedTop:
		return joinery.SlatTop{Words: a.words(), LengthMM: f("length_mm"), WidthMM: f("width_mm"), SlatMM: f("slat_mm"), Slats: n("slats"), GapMM: f("gap_mm"), ThicknessMM: f("thickness_mm"), Bearers: n("bearers"), BearerMM: f("bearer_mm"), BearerDeep: f("bearer_deep_mm"), Timber: timber}.Make()
	default:
		return joinery.Door{Words: a.words(), Opening: a.joineryOpening(), Style: joinery.Style(what), Timber: timber, ThicknessMM: f("thickness_mm"), StileMM: f("stile_mm"), RailMM: f("rail_mm"), BottomMM: f("bottom_rail_mm"), TenonMM: f("tenon_mm"),
			GrooveMM: f("groove_mm"), ClearanceMM: f("clearance_mm"), LapMM: f("lap_mm"), SplitMM: f("split_mm"), Panel: a.Word("panel"), PanelMM: f("panel_mm"), Climate: climate}.Make()
	}
}

// words is in which unit what is made is worded.
func (a *Ask) words() joinery.Words { return joinery.Words{Out: a.Out()} }

// joineryOpening gathers the opening as it was measured.
func (a *Ask) joineryOpening() joinery.Opening {
	f := func(name string) float64 { v, _ := a.Float(name); return v }
	o := joinery.Opening{Words: a.words(), WidthMM: f("width_mm"), HeightMM: f("height_mm"), BottomMM: f("bottom_mm"), RightMM: f("right_mm"), TopMM: f("top_mm"), LeftMM: f("left_mm"),
		BottomLeftDeg: f("bottom_left_deg"), BottomRightDeg: f("bottom_right_deg"), TopRightDeg: f("top_right_deg"), TopLeftDeg: f("top_left_deg"), Lean: joinery.Lean(a.Word("lean")),
		RisingMM: f("diagonal_mm"), FallingMM: f("diagonal2_mm")}
	if a.Word("diagonal_from") == fromTopLeft {
		o.RisingMM, o.FallingMM = o.FallingMM, o.RisingMM
	}
	return o
}

func (a *Ask) heights() []float64 {
	var out []float64
	for _, s := range a.Request.Slots["heights_mm"].List {
		out = append(out, s.Float())
	}
	return out
}

func roundTenth(v float64) float64 { return math.Round(v*10) / 10 }
