package commands

import (
	"math/big"
	"slices"
	"strings"

	"fettle/calc/joinery"
	"fettle/calc/measure"
	"fettle/commands/speech"
)

// joineryKinds tell what is wanted, the surest first: a trim may go round a door's opening, and a
// door have shelves behind it.
var joineryKinds = []struct{ what, pattern string }{
	{dropBoards, "drop|wash|weather|storm board|boards"}, {dropBoards, "dropboards|dropboard|washboards|washboard"},
	{slattedTop, "slatted|slat top|table|bench|shelf|deck|seat|floor|base|tabletop|duckboard"}, {slattedTop, "slats .. bearers|battens"}, {slattedTop, "top|bench|table|tabletop .. slats"}, {slattedTop, "seat|floor|base|shelf|deck of|with|in slats"}, {slattedTop, "duckboard|duckboards"},
	{aTrim, trimNames + " .. round|around|opening|window|door|doorway|reveal"}, {aTrim, "round|around .. " + trimNames}, {aTrim, "=window|door|doorway|opening " + trimNames},
	{aBow, "bow|bows .. span|spanning|rise|rising"}, {aBow, "# span|rise|spanning .. bow|bows"}, {aBow, "laminated bow"},
	{aStableDoor, "stable|dutch|split|barn door|doors"}, {aStableDoor, "door|doors in # halves|parts"},
	{aPair, "pair of .. doors|door"}, {aPair, "double|pair doors|door"}, {aPair, "doors|door ,? double|pair|paired"}, {aPair, "doors|door pair"}, {aPair, "# leaves|leaf"},
	{aRack, "rack|racks|bookcase|bookshelf"}, {aDoor, "door|doors"},
}

// joineryNames are words before the kind that tell one thing from another of the same kind.
const joineryNames = "plate|mug|spice|bottle|cup|jar|book|wine|crockery|window|cupboard|bench|table|hatch|cabinet|left|right|front|back|loo|stove|kitchen|bed|wardrobe|porch|larder|shed"

// theOne stands for the only thing there is, where "remake it" names none.
const theOne = "it"

// readJoinery reads what is wanted, and what only the kind of thing can tell.
func readJoinery(r *speech.Reading) {
	if r.Says("^ remake") || r.Says("take|use|accept|apply the? new|changed =sizes|measures|measurements") {
		r.Word("remake", strings.TrimSpace(anyGroup+restBehind(r, "remake the|our|my", "sizes|measures|measurements of|for the?|our?")))
		if r.Says("^ remake it|that|this|them $") {
			r.Word("remake", theOne)
		}
		claimAll(r)
		return
	}
	readUse(r)
	for _, k := range joineryKinds {
		if r.Says(k.pattern) || k.what == aPair && pairOfDoors(r) {
			r.Request.Slots["what"] = speech.Slot{Word: k.what}
			break
		}
	}
	readJoineryName(r)
	readDiagonals(r)
	readCorners(r)
	readJoineryWays(r)
	switch r.Request.Word("what") {
	case dropBoards:
		readHeights(r)
	case slattedTop:
		readSlats(r)
	case aRack:
		readRack(r)
	case aTrim:
		readTrim(r)
	case aBow:
		if i, ok := lengthAt(r, "# wide"); ok {
			r.Set("bow_width_mm", i)
		}
	case "":
		if r.Says("heights") {
			readHeights(r)
		}
		readItems(r)
		if i, ok := lengthAt(r, "bow of|at|is|be? # wide"); ok {
			r.Set("bow_width_mm", i)
		} else if i, ok := lengthAt(r, "it|them|that be|is|are|to? # wide", "^ and|make|with|no|say? # wide"); ok && r.Sized("wide_mm", *r.Items[i].Q).Float() < 150 {
			r.Set("wide_mm", i)
		}
	}
	readPointing(r)
	readJoineryCounts(r)
	if r.Says("shelves|shelf of|at|each|are? # wide|long") || r.Says("# wide|long shelves|shelf") {
		r.Word("width_is", "shelves")
	}
}

// pairOfDoors says whether "a pair of", which is a number, stands before doors.
func pairOfDoors(r *speech.Reading) bool {
	for i, it := range r.Items {
		if it.Q == nil || !strings.Contains(strings.ToLower(r.Text[it.Start:it.End]), "pair") {
			continue
		}
		for _, next := range r.Items[i+1 : min(i+4, len(r.Items))] {
			if next.Text == "doors" || next.Text == "door" {
				r.Claim(i)
				return true
			}
		}
	}
	return false
}

// readPointing reads that the opening is one that was talked of before.
func readPointing(r *speech.Reading) {
	switch {
	case r.Request.Word("what") == "":
	case pointsToOpening(r):
		r.Word("points", "opening")
	case r.Says("round|around|for|in|to|into|of it|that|this|them|there $"), r.Says("round|around|for|in|to|into it|that|this|them|there with|and|, .."), r.Says("round|around it|that #"), r.Says("round|around the|that|this stable? door|doors|boards"):
		r.Word("points", "made")
	}
}

// pointsToOpening reads which opening is pointed to, where its sizes are not said: that opening, the window
// opening.
func pointsToOpening(r *speech.Reading) bool {
	from, to, ok := r.Stands("that|this|same|the|our door|window|hatch|front|back|left|right|stove|loo|side? opening|doorway|aperture|hole|hatch")
	if !ok {
		from, to, ok = r.Stands("round|around|for|of|in that|this|same|the|our window|hatch")
	}
	if !ok {
		return false
	}
	name := slices.DeleteFunc(slices.Clone(r.Items[from:to]), func(it speech.Item) bool { return anyOf(it.Text, "round|around|for|of|in|that|this|same") })
	if pointed := len(name) < to-from; !pointed || len(name) > 1 || !anyOf(name[0].Text, "opening|aperture|hole") {
		r.Word("opening_name", stretch(name))
	}
	return true
}

// needFrame asks whether a door of boards, which is not made here, may be a framed one.
func needFrame(r *speech.Reading) {
	if r.Says("ledged|braced|planked|boarded door|doors and|&?") || r.Says("ledged and|& braced") {
		r.Question = &speech.Question{Text: "I work out framed doors with panels, not ledged ones. Shall it be a framed one?",
			Options: []speech.Option{{Label: "framed", Request: r.Moved(nil)}}}
	}
}

func readJoineryName(r *speech.Reading) {
	what := r.Request.Word("what")
	from, to, ok := r.Stands("call|name it|this|them")
	if !ok {
		from, to, ok = r.Stands("called|named")
	}
	if ok && to < len(r.Items) {
		for i := from; i < len(r.Items); i++ {
			r.Claim(i)
		}
		if name := r.Rest(to); name != "" && len(name) <= 40 {
			r.Request.Slots["name"] = speech.Slot{Word: name}
			return
		}
	}
	if what == "" {
		return
	}
	name := what
	if from, _, ok := r.Stands(joineryNames + " top|table|rack|trim|door|doors|bookcase|boards"); ok && what != dropBoards && r.Items[from].Q == nil {
		name = r.Items[from].Text + " " + what
	}
	r.Request.Slots["name"] = speech.Slot{Word: name}
}

// readDiagonals reads one diagonal or two: the first runs from bottom left to top right, unless
// the message says that it starts at the top left.
func readDiagonals(r *speech.Reading) {
	i, ok := lengthAt(r, "diagonal|diagonals|diags of|is|are|:|=|one|both|measure|measured? #", "# and|/|& # diagonal|diagonals|diagonally", "# diagonal|diagonally")
	if !ok {
		return
	}
	r.Set("diagonal_mm", i)
	if r.Says("top =left to .. bottom right") || r.Says("from|at? top =left") && !r.Says("corner") {
		r.Word("diagonal_from", fromTopLeft)
	}
	if r.Free(i + 1) {
		r.Set("diagonal2_mm", i+1)
	} else if r.Free(i+2) && anyOf(r.Items[i+1].Text, "and|/|,|&|by|+") {
		r.Set("diagonal2_mm", i+2)
	}
}

// cornerPlaces are the four corners as they are named.
var cornerPlaces = []struct{ need, level, side string }{
	{"top_left_deg", "top|upper", "left|lh"}, {"top_right_deg", "top|upper", "right|rh"}, {"bottom_left_deg", "bottom|lower", "left|lh"}, {"bottom_right_deg", "bottom|lower", "right|rh"},
}

// readCorners reads the corners' angles. One whose side was not said is taken for the right one.
func readCorners(r *speech.Reading) {
	for _, c := range cornerPlaces {
		if i, ok := firstOf(r, c.level+" "+c.side+" corner? is|of|at|:|=|measures? #", "# degrees|° ? at|in|on the? "+c.level+" "+c.side, c.side+" "+c.level+" corner? is|of|at|:? #"); ok {
			r.Set(c.need, i)
		}
	}
	if i, ok := firstOf(r, "top|upper corners|corner is|are|of|at|:|=|measures|reads|about|both? #", "# at|in the top corner", "#angle top|corner"); ok {
		r.Set("top_right_deg", i)
		if r.Says("top|upper corners|both") && r.Says("both") {
			r.Put("top_left_deg", *r.Items[i].Q)
		} else {
			r.Word("corner_side", "right")
		}
	} else if i, ok := firstOf(r, "bottom|lower corner is|of|at|:|=|measures|reads? #"); ok {
		r.Set("bottom_right_deg", i)
		r.Word("corner_side", "right")
	} else if i, ok := firstOf(r, "corner is|of|at|:|=|measures|reads? #", "corner #"); ok {
		r.Set("top_right_deg", i)
		r.Word("corner_side", "right")
	}
	r.Means("lean", string(joinery.OneSide), "only? the|right|left|a? side|jamb|post only? leans|lean|leaning")
	r.Means("lean", string(joinery.SlopedTop), "only? the? top|head slopes|sloping|slope|sloped|rakes|raking", "sloping|sloped|raking top|head")
	r.Means("lean", string(joinery.Racked), "both|two sides|jambs lean", "leans over|sideways", "=racked")
}

// readJoineryWays reads the ways in which a thing is made.
func readJoineryWays(r *speech.Reading) {
	r.Means("panel", joinery.Plywood, "ply|plywood panel|panels?", "panel|panels of|in|is|are|: ply|plywood")
	r.Means("panel", joinery.Acrylic, "acrylic panel|panels|pane?", "perspex|plexiglass panel|pane?")
	r.Means("panel", joinery.Glass, "glass|glazed|glazing panel|panels|pane?")
	r.Means("panel", joinery.SolidWood, "solid wood|timber? panel|panels")
	r.Means("joint", joinery.Rebated, "rebated|shiplap|shiplapped|lapped joint|joints|edges?", "rebates between")
	r.Means("joint", joinery.Bevelled, "bevelled|beveled|bevels joint|joints|edges?")
	r.Means("hold", joinery.Cleats, "between|in|behind cleats|battens|strips|beads|cleat")
	r.Means("hold", joinery.Grooves, "in|into|sliding? =grooves|channels|slots")
	r.Means("corners", joinery.Mitred, "mitred|mitered|mitre|mitres|miters")
	r.Means("corners", joinery.Butted, "butted|butt|butts|square joints|corners?")
	r.Means("three_sides", "yes", "not|none|no|without .. bottom|sill|floor")
	if i, ok := r.Find("# sides|sided"); ok && saidNumberAt(r, i) == 3 {
		r.Word("three_sides", "yes")
		r.Claim(i)
	}
	r.Means("no_lip", "no lip", "no|without a? lip|lips")
	r.Means("no_back", "no back rail", "no|without a? back =rail|rails?")
	r.Means("in_all", "each shelf", "# on|per each|every? shelf", "each shelf")
	r.Means("in_all", "in all", "# in all|total", "=altogether")
}

// joineryCounts are how many there are of what; a number beyond the most is a size.
var joineryCounts = []struct {
	need, of, pattern string
	most              float64
}{
	{"boards", dropBoards, "# of them", 40}, {"boards", dropBoards, "# drop|wash|weather|storm|equal|larch|oak|sapele? boards|board|dropboards|washboards|dropboard|washboard", 40}, {"shelves", aRack, "# shelves|shelf|tiers|tier", 30},
	{"bearers", slattedTop, "# bearers|bearer|battens", 40}, {"slats", slattedTop, "# slats|slat", 60}, {"bows", aBow, "# bows", 100}, {"items", aRack, "# " + itemWords, 300}, {"items", aRack, "# on|per|a each|every|a? shelf", 300}, {"items", aRack, "# in all|total", 300},
}

// readJoineryCounts reads them, and then takes what other small numbers in words there are out of
// the way.
func readJoineryCounts(r *speech.Reading) {
	what := r.Request.Word("what")
	for _, c := range joineryCounts {
		if what != "" && what != c.of {
			continue
		}
		if i, ok := r.Find(c.pattern); ok && !r.Request.Has(c.need) && (r.Items[i].Q.Bare() || r.Items[i].Q.Kind == speech.KindCount) && saidNumberAt(r, i) <= c.most {
			r.Set(c.need, i)
		}
	}
	claimPronouns(r)
}

// readHeights reads the heights of drop boards, from below: "heights 150, 200 and the rest".
func readHeights(r *speech.Reading) {
	from, _, ok := r.Stands("heights of|are|:|=? #")
	if !ok {
		from, _, ok = r.Stands("boards|board of|at|: #")
	}
	if !ok {
		return
	}
	var list []speech.Slot
	for i := from; i < len(r.Items); i++ {
		it := r.Items[i]
		switch {
		case r.Free(i) && (it.Q.Kind == measure.KindLength || it.Q.Bare()):
			list = append(list, r.Sized("heights_mm", *it.Q))
			r.Claim(i)
		case i > from+2 && it.Q == nil && !anyOf(it.Text, ",|and|/|&|the|mm|then"):
			i = len(r.Items)
		}
	}
	if len(list) < 2 {
		return
	}
	r.List("heights_mm", list)
	if !r.Request.Has("boards") && r.Says("rest|remainder|remaining") {
		r.Put("boards", speech.Quantity{Kind: speech.KindCount, Value: big.NewRat(int64(len(list)+1), 1), Integer: true})
	}
}

// readSlats reads a top by its slats and bearers: "7 slats 1150 x 58 x 20 on 3 bearers 420 x 45 x
// 32", or by its size: length along the slats, width across them.
func readSlats(r *speech.Reading) {
	readJoineryCounts(r)
	readSized(r, "bearers|bearer of|at|are|:? # × #", "width_mm", "bearer_mm", "bearer_deep_mm")
	readSized(r, "slats|slat of|at|are|:? # × # ×", "length_mm", "slat_mm", "thickness_mm")
	readSized(r, "# × #", "length_mm", "width_mm")
	if i, ok := lengthAt(r, "slats|slat of|at|are|to|be? #"); ok && !inSize(r, i) {
		r.Set("slat_mm", i)
	}
}

// lengthAt finds the first of the patterns whose # is a free length or a bare number.
func lengthAt(r *speech.Reading, patterns ...string) (item int, ok bool) {
	for _, p := range patterns {
		for _, i := range r.All(p) {
			if q := r.Items[i].Q; q.Kind == measure.KindLength || q.Bare() {
				return i, true
			}
		}
	}
	return 0, false
}

// readSized gives the numbers of a size, from the one that the pattern marks, to needs in order.
func readSized(r *speech.Reading, pattern string, needs ...string) {
	i, ok := lengthAt(r, pattern)
	if !ok {
		return
	}
	for _, n := range needs {
		if r.Request.Has(n) || !r.Free(i) {
			return
		}
		r.Put(n, sizedUnit(r, i))
		r.Claim(i)
		if i+2 >= len(r.Items) || r.Items[i+1].Text != "×" {
			return
		}
		i += 2
	}
}

// sizedUnit gives a bare number of a size the unit at its end: 24 × 18 inches.
func sizedUnit(r *speech.Reading, i int) speech.Quantity {
	q := *r.Items[i].Q
	for k := i; q.Bare() && k+2 < len(r.Items) && r.Items[k+1].Text == "×" && r.Items[k+2].Q != nil; k += 2 {
		if next := r.Items[k+2].Q; next.Unit != nil {
			q.Unit, q.Kind = next.Unit, next.Kind
		}
	}
	return q
}

// readRack takes the third number of a size for the depth.
func readRack(r *speech.Reading) {
	readSized(r, "# × # × #", "width_mm", "height_mm", "depth_mm")
	readItems(r)
}

// readItems reads the width and height of what is kept.
func readItems(r *speech.Reading) {
	if i, ok := lengthAt(r, itemWords+" of|at|are|each|which|that|is|,? are|is? # wide|across|diameter|dia", "# wide|across|diameter|dia|mm "+itemWords, itemWords+" of|at|are? # ×|mm|each|cm", itemWords+" # $"); ok {
		r.Set("item_mm", i)
	}
	if i, ok := lengthAt(r, itemWords+" of|at|are|is|each? # high|tall", "# high|tall "+itemWords, itemWords+" .. wide|across and|,|by|×? # high|tall"); ok {
		r.Set("item_height_mm", i)
	}
}

// widestTrim is up to which a number at the top is the trim's width and not the opening's, in mm:
// common practice, no source.
const widestTrim = 140

// readTrim reads the size of the opening first, then the widths of the trim's sides; what is left of
// widths beside a whole opening is the trim's.
func readTrim(r *speech.Reading) {
	readSized(r, "opening|window|doorway|door|hatch|of|is|a|the|: # × #", "width_mm", "height_mm")
	readSized(r, "# × #", "width_mm", "height_mm")
	if i, ok := lengthAt(r, trimNames+" of|at|is|:? # wide|mm?", "# wide|mm? "+trimNames); ok {
		r.Set("trim_mm", i)
	} else {
		for _, i := range r.All("# wide") {
			if r.Sized("trim_mm", *r.Items[i].Q).Float() <= widestTrim {
				r.Set("trim_mm", i)
			}
		}
	}
	if i, ok := lengthAt(r, "# at|on? the? top|head", "top|head of|at|is|one|piece|trim? #"); ok && !inSize(r, i) && r.Sized("trim_mm", *r.Items[i].Q).Float() <= widestTrim {
		r.Set("top_trim_mm", i)
	}
	if i, ok := lengthAt(r, "# sides|legs", "sides|legs of|at|are? #"); ok && !inSize(r, i) && saidNumberAt(r, i) >= 10 {
		r.Set("side_trim_mm", i)
		if k, ok := lengthAt(r, "# bottom|sill", "bottom|sill of|at|is? #"); ok && !inSize(r, k) {
			r.Set("low_trim_mm", k)
		}
	}
}
