package commands

import (
	"math/big"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

// Words of a request about sag.
const (
	spreadLoad, pointLoad            = "spread", "point"
	endsFree, endsFixed              = "free", "fixed"
	placeDry, placeDamp              = "dry", "damp"
	perMetre, inAll                  = "metre", "all"
	stiffnessSaid, stiffnessOfTimber = "said", "timber"
	wantSag, wantLoad, wantThickness = "sag", "load", "thickness"
)

// readShelf reads what only a shelf has: the load and how it lies, the ends, a lip, the limit,
// a stiffness that was said.
func readShelf(r *speech.Reading) {
	readUse(r)
	passBeside(r)
	passAll(r, "shelf|board|plank|slat|bench|itself itself|alone? weighs|weighing #mass", "cost|costs|costing|paid|price|priced us|me|is|was|of|at|:? #")
	readSpan(r)
	readLip(r)
	readLimit(r)
	readStiffness(r)
	readLoad(r)
	_ = r.Means("ends", endsFixed, "both? end|ends .. fixed|clamped|rigid|built|restrained", "fixed|clamped|rigid|built|encastre|encastered|restrained .. end|ends", "built|housed - in|into", "fixed|clamped|built at|in|into both") ||
		r.Means("ends", endsFree, "free|loose|resting|rest|rests|sits|simply .. ends|supports|supported|cleats|pegs|brackets", "ends free|loose|resting")
	_ = r.Means("place", placeDamp, "damp|wet|unseasoned|outside|outdoors|outdoor|unheated", "=green oak|larch|ash|timber|wood") ||
		r.Means("place", placeDry, "=dry|indoors|inside|seasoned|heated")
}

// readSpan takes the stretch between two supports for the span, and sets aside how long the board is in
// all where both are said.
func readSpan(r *speech.Reading) {
	const supports = "supports|brackets|bearers|cleats|uprights|walls|posts|legs|pegs|battens"
	for _, p := range []string{
		supports + " are|is|sit|at|set|stand|being|, only|about? # apart|=centres|between|c/c", "# between|apart|clear between|of? the|its|my|our|two|2? " + supports,
		"# apart|clear|c/c|=unsupported", "=span|spans|spanning of|is|:|=|a|about|only? #", "# =span",
	} {
		for _, i := range r.All(p) {
			if q := r.Items[i].Q; q.Value == nil || q.Kind != measure.KindLength && !q.Bare() || joined(r, i, "×") {
				continue
			}
			for _, other := range append(r.All("# =long|overall|length overall|in|over? all|total?"), r.All("=length|overall of|is|:|=? #")...) {
				if other != i && !joined(r, other, "×") {
					r.Set("span_mm", i)
					r.Claim(other)
				}
			}
			return
		}
	}
}

// readLoad takes the weights: several are added, one that is said by the metre or for each of
// several things is taken so many times.
func readLoad(r *speech.Reading) {
	var sum *big.Rat
	per := inAll
	passOtherLoads(r)
	for i := range r.Items {
		if !r.Free(i) || r.Items[i].Q.Kind != measure.KindMass || r.Items[i].Q.Value == nil {
			continue
		}
		q := *r.Items[i].Q
		kg := q.Base()
		if len(q.Per) == 1 && (q.Per[0] == "m" || q.Per[0] == "ft") {
			per = perMetre
			if q.Per[0] == "ft" {
				kg = new(big.Rat).Mul(kg, big.NewRat(10000, 3048))
			}
		}
		if len(q.Per) == 1 && q.Per[0] == "board" {
			kg = new(big.Rat).Mul(kg, howManyBefore(r, i))
		}
		if len(q.Per) == 0 {
			kg = new(big.Rat).Mul(kg, timesWeight(r, i))
		}
		r.Claim(i)
		if sum == nil {
			q.Per = nil
			r.Put("load_kg", q)
			sum = kg
		} else if !saidTwice(sum, kg) {
			sum = new(big.Rat).Add(sum, kg)
		}
	}
	if sum != nil {
		said := r.Request.Slots["load_kg"]
		if sum.Cmp(said.Num) != 0 {
			said.Num, said.Said, said.Unit = sum, sum, "kg"
			r.Request.Slots["load_kg"] = said
		}
		r.Word("load_per", per)
	}
	readPlaceOfLoad(r)
	readWanted(r, sum != nil)
}

// passOtherLoads claims the weights that are not to lie on this shelf: those beside one that is
// the whole load, what another shelf bore, and figures that a later one takes the place of.
func passOtherLoads(r *speech.Reading) {
	if _, ok := r.Find("now|today|currently .. #mass"); ok {
		passAll(r, "was|were|used to? hold|holding|held|carry|carrying|carried|bear|bearing|bore|take|taking|took? #mass", "held|carried|bore|took #mass before|earlier|yesterday|until")
	}
	whole := -1
	for _, p := range []string{"#mass in all|total", "#mass altogether|together|total|overall", "call|make|say it|that about|around? #mass", "together|altogether they|it|them? weigh|weighs|come|comes to|at|about? #mass", "weigh|weighs|weighing #mass together|altogether", "total|all load|weight|of|is|:? #mass"} {
		if i, ok := r.Find(p); ok && whole < 0 {
			whole = massFrom(r, i)
		}
	}
	for i := range r.Items {
		if !r.Free(i) || r.Items[i].Q.Kind != measure.KindMass || r.Items[i].Q.Value == nil || i == whole {
			continue
		}
		if whole >= 0 || otherShelf(r, i) {
			r.Claim(i)
		}
	}
}

// massFrom is the item of the weight at or behind an item.
func massFrom(r *speech.Reading, i int) int {
	for ; i < len(r.Items); i++ {
		if r.Free(i) && r.Items[i].Q.Kind == measure.KindMass {
			return i
		}
	}
	return -1
}

// otherShelf says whether the clauses up to a weight speak of another shelf, or of who weighs how much.
func otherShelf(r *speech.Reading, weight int) bool {
	from := weight
	for from > 0 && !anyOf(r.Items[from-1].Text, ".|?|!|;|but") {
		from--
	}
	for i := from; i < weight; i++ {
		if anyOf(wordAt(r, i), "last|old|other|previous|first|earlier") && anyOf(wordAt(r, i+1), "one|shelf|bench|slat|ones|time|plank|board|ledge|bearer|,") {
			return true
		}
	}
	return false
}

// saidTwice says whether two weights are the same one in other words: 14 kilos (31 lb).
func saidTwice(a, b *big.Rat) bool {
	x, _ := a.Float64()
	y, _ := b.Float64()
	return x != y && x > 0 && y/x > 0.98 && y/x < 1.02
}

// howManyBefore finds the number of things that a weight is said of each of.
func howManyBefore(r *speech.Reading, weight int) *big.Rat {
	for i := weight - 1; i >= 0 && i >= weight-6; i-- {
		q := r.Items[i].Q
		if q != nil && r.Free(i) && q.Integer && (q.Kind == speech.KindCount || q.Bare() && r.Alone(i)) {
			r.Claim(i)
			return q.Value
		}
	}
	return big.NewRat(1, 1)
}

// timesWeight is how often a weight lies on the shelf where it is said of one of several things, 12 books
// at 1.2 kg, or the part of it that one of several slats bears.
func timesWeight(r *speech.Reading, weight int) *big.Rat {
	const held = "books|loads|tins|jars|boxes|pots|plates|pans|mugs|bottles|bags|crates|baskets|sacks|tubs|weights|rows|piles|stacks"
	of := func(i int) (*big.Rat, bool) {
		q := r.Items[i].Q
		if q == nil || q.Value == nil || !q.Integer || q.Value.Sign() <= 0 || q.Unit != nil && q.Kind != speech.KindCount || !r.Free(i) {
			return nil, false
		}
		r.Claim(i)
		return q.Value, true
	}
	for _, i := range r.All("# " + held + " at|of|with|weighing|,|about|around? about|around? #mass") {
		if n, ok := of(i); ok && massFrom(r, i) == weight {
			return n
		}
	}
	for _, i := range r.All("# slats|boards|planks|shelves share|sharing|shared|carry|take =between? them? #mass") {
		if !r.Says("=share|sharing|shared") && !r.Says("=between them") {
			continue
		}
		if n, ok := of(i); ok && massFrom(r, i) == weight {
			return new(big.Rat).Inv(n)
		}
	}
	return big.NewRat(1, 1)
}

func readPlaceOfLoad(r *speech.Reading) {
	switch {
	case r.Means("load", spreadLoad, "evenly|uniformly|load|weight|equally spread|distributed", "spread|distributed evenly|uniformly|equally|out", "spread|evenly|uniform|uniformly|distributed|udl"):
	case r.Means("load", pointLoad, "point load|loaded", "concentrated|pointload", "in|at|on|over the? dead? middle|centre|center|midspan|mid-span|halfway", "mid|centre|center|central span|load"):
	case r.Request.Word(useNeed.Name) == forPeople && !r.Says("books|plates|crockery"):
		r.Word("load", pointLoad)
	}
}

// readWanted finds out what is asked for: the sag, the load that a shelf takes, or its
// thickness.
func readWanted(r *speech.Reading, weighed bool) {
	switch {
	case r.Says("how thick"), r.Says("what|which thickness"), r.Says("thickness .. need|needed|do|enough"):
		r.Request.Slots["wanted"] = speech.Slot{Word: wantThickness}
	case weighed:
		r.Request.Slots["wanted"] = speech.Slot{Word: wantSag}
	case r.Means("wanted", wantLoad, "how much|many|heavy .. =carry|hold|take|bear|support|weight|load|kilos|kg|put|stack", "what|which weight|load", "what .. carry|hold|take|bear"),
		r.Says("=carry|hold|take|bear|support|put|stack") && r.Means("wanted", wantLoad, "how much|heavy can|will|could|may|does|would"):
	}
}

// readLip takes the sizes of a strip along the front: 45 × 20 lip, lip of 40.
func readLip(r *speech.Reading) {
	i, ok := r.Find("# high|deep|tall|thick? front? " + lipWords)
	if !ok {
		i, ok = r.Find(lipWords + " of|is|:|,? #")
	}
	if !ok {
		return
	}
	r.Set("lip_mm", i)
	for k := i + 1; k <= i+3 && k < len(r.Items); k++ {
		if r.Free(k) && (wordAt(r, k-1) == "×" || wordAt(r, k+1) == "thick") && r.Items[k].Q.Kind != measure.KindMass {
			r.Set("lip_thickness_mm", k)
			return
		}
	}
}

// readLimit takes the sag that is allowed.
func readLimit(r *speech.Reading) {
	for _, p := range []string{"limit|tolerance of|is|:|to? #", "not|no|never more|over|beyond than? #length", "sag|sags|sagging|bend|bends .. most|than|over|within|under|max|maximum #length", "max|maximum|most sag|bend? of|is|:? #length", "# .. max|most|allowed|tolerable|maximum sag"} {
		if i, ok := r.Find(p); ok && r.Items[i].Q.Kind != measure.KindMass {
			r.Set("limit_mm", i)
			return
		}
	}
}

// readStiffness notes where the stiffness is from: said, the timber's, or that of a sheet.
func readStiffness(r *speech.Reading) {
	found := false
	for i := range r.Items {
		if r.Free(i) && r.Items[i].Q.Kind == measure.KindPressure {
			r.Set("moe_mpa", i)
			found = true
		}
	}
	if !found {
		if i, ok := r.Find("=moe|modulus|stiffness|e of|is|=|:? #number"); ok {
			r.Set("moe_mpa", i)
			found = true
		}
	}
	sheet, isSheet := r.Named(sheetWords)
	_, isTimber := r.Named(speciesWords)
	switch {
	case found:
		r.Word("stiffness", stiffnessSaid)
	case isSheet:
		r.Word("stiffness", sheet)
	case isTimber:
		r.Word("stiffness", stiffnessOfTimber)
	}
}

// needShelf sorts out the two sizes of the section and asks for what is missing. What was said
// last about the stiffness holds.
func needShelf(r *speech.Reading) {
	if r.Says("cantilever|cantilevered|overhang|overhanging|overhangs") || r.Says("held|fixed|supported at? one|1 end") {
		r.Question = &speech.Question{Text: "I can work out shelves that are held at both ends only. What is the span between two supports?", Need: "span_mm"}
	}
	if r.Says("bracket|support|leg|prop|upright|post .. in|at the? middle|centre|center") || r.Says("three|four|five|3|4|5|several more? brackets|supports|legs") {
		r.Question = &speech.Question{Text: "With supports in between: what is the longest stretch between two of them?", Need: "span_mm"}
		delete(r.Request.Slots, "span_mm")
	}
	sectionOfShelf(r)
	stiffness := r.Request.Word("stiffness")
	if stiffness == stiffnessOfTimber {
		delete(r.Request.Slots, "moe_mpa")
	}
	wanted := r.Request.Word("wanted")
	if wanted != wantLoad {
		r.AskFor("load_kg", "What weight is to lie on it?", "load_kg")
	}
	switch stiffness {
	case "":
		r.AskFor("species", "Which timber is it?", "species", "moe_mpa")
	case stiffnessSaid, stiffnessOfTimber:
	default:
		delete(r.Request.Slots, "species")
		r.AskFor("moe_mpa", "The stiffness of "+stiffness+" is on no record here. What does the data sheet say, in MPa?", "moe_mpa")
	}
	if wanted != wantThickness {
		r.AskFor("thickness_mm", "How thick is it?", "thickness_mm")
	}
	r.AskFor("width_mm", "How deep is it, front to back?", "width_mm")
	r.AskFor("span_mm", "What span is it, between the supports?", "span_mm")
	if r.Says(lipWords) {
		r.AskFor("lip_mm", "How high and how thick is the lip?", "lip_mm")
	}
}

// sectionOfShelf turns round two sizes without a role: of 25 × 220 the larger lies flat.
func sectionOfShelf(r *speech.Reading) {
	width, thickness := r.Request.Slots["width_mm"], r.Request.Slots["thickness_mm"]
	if width.Num == nil || thickness.Num == nil || thickness.Num.Cmp(width.Num) <= 0 || r.Says("on edge") {
		return
	}
	if withoutRole(r, width) && withoutRole(r, thickness) {
		r.Request.Slots["width_mm"], r.Request.Slots["thickness_mm"] = thickness, width
	}
}

// withoutRole says whether a number of this very message stands without a word that says what
// it is the size of.
func withoutRole(r *speech.Reading, s speech.Slot) bool {
	for i, it := range r.Items {
		if it.Q == nil || it.Q.Value == nil || it.Q.Value != s.Said {
			continue
		}
		switch wordAt(r, i+1) {
		case "wide", "thick", "deep", "high":
			return false
		}
		switch wordAt(r, i-1) {
		case "width", "thickness", "depth", "wide", "thick", "deep":
			return false
		}
		return true
	}
	return false
}
