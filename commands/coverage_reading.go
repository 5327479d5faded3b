package commands

import (
	"math/big"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

// Words of a request about a finish.
const (
	facesOne, facesBoth, facesAll   = "one", "both", "all"
	surfacePlaned, surfaceRough     = "planed", "sawn"
	wantAmount, wantTimes, wantTins = "amount", "times", "tins"
)

// readCoverage reads what only a finish has: how far a litre goes, what is in the tin, the
// faces, the surface, the thinner.
func readCoverage(r *speech.Reading) {
	passBeside(r)
	readLess(r)
	passTools(r)
	passPaid(r)
	passSomeOf(r)
	askWhichSize(r)
	readSeveralFinishes(r)
	readCoatsChanged(r)
	readTimesOver(r)
	readSpreadOfLitre(r)
	readTins(r)
	readEachArea(r)
	readCoatsLeft(r)
	if r.Says("thin|thinned|thinner|thinners|thinning|dilute|diluted|diluting") {
		for i := range r.Items {
			if r.Free(i) && r.Items[i].Q.Kind == measure.KindPercent {
				r.Set("thin_pct", i)
			}
		}
	}
	if high, ok := r.Find("# high|tall"); ok { // a wall is so wide and so high
		if wide, ok := r.Find("# wide|broad|long"); ok && wide != high {
			r.Set("length_mm", wide)
			r.Set("width_mm", high)
		}
	}
	one := claimSides(r)
	_ = r.Means("faces", facesOne, "faces|sides|both come|comes|total|totals|make|makes to|at|up? #area") ||
		r.Means("faces", facesAll, "all round|over|around|sides|faces", "every side|face") ||
		one && r.Means("faces", facesOne, "# side|face") ||
		r.Means("faces", facesBoth, "both|two|each sides|faces|side|face", "#number sides|faces", "inside|front|top and outside|back|bottom|underneath|underside") ||
		r.Means("faces", facesOne, "one|single|top|outer|each side|face", "one|top|only side|face only?")
	_ = r.Means("surface", surfaceRough, "sawn|rough|unplaned|rough-sawn") || r.Means("surface", surfacePlaned, "planed|smooth|sanded")
	readWantedOfFinish(r)
}

// passTools claims counts of what one paints with, and what an earlier job took.
func passTools(r *speech.Reading) {
	passAll(r, "cost|costs|costing|price|priced at|is|of|:? #number", "#number =brushes|brush|rollers|roller|cloths|rags|pads|hours|windows", "it|that|wall|side|which|last took|used|drank|swallowed|needed #volume")
}

// readEachArea takes an area that each of several has, and a single coat for one.
func readEachArea(r *speech.Reading) {
	for i := range r.Items {
		if q := r.Items[i].Q; r.Free(i) && q.Kind == measure.KindArea && q.Value != nil && len(q.Per) == 1 && anyOf(q.Per[0], "each|board|side|face") {
			one := *q
			one.Per = nil
			r.Put("area_m2", one)
			r.Claim(i)
			break
		}
	}
	if i, ok := r.Find("half of? the? #area"); ok && len(r.Items[i].Q.Per) == 0 {
		part := *r.Items[i].Q
		part.Value = new(big.Rat).Quo(part.Value, big.NewRat(2, 1))
		r.Put("area_m2", part)
		r.Claim(i)
	}
	if r.Says("single coat") {
		r.Put("coats", speech.Quantity{Kind: speech.KindCount, Value: big.NewRat(1, 1), Integer: true})
	}
}

// readCoatsLeft takes the coats that are still to go where some are on already.
func readCoatsLeft(r *speech.Reading) {
	if readRestOfCoats(r) {
		return
	}
	passAll(r, "#number is|are|was|were|already on|done|already")
	for _, p := range []string{"# more|further|left|still? =coats? to? go|do|come", "# to go", "# =coats left|more|to|still", "# left", "# more =coats"} {
		for _, i := range r.All(p) {
			if q := r.Items[i].Q; q.Integer && q.Unit == nil {
				r.Set("coats", i)
				passAll(r, "# =coats|coat")
				return
			}
		}
	}
}

// readRestOfCoats takes off the coats that are on where the rest is asked for: 4 coats, two are on already.
func readRestOfCoats(r *speech.Reading) bool {
	if !r.Says("rest|remaining|others|remainder") {
		return false
	}
	all, ok := r.Find("# =coats|coat")
	on, some := r.Find("#number of? them|those|these? is|are|was|were|already on|done|already")
	if !ok || !some || all == on || !r.Items[all].Q.Integer || r.Items[on].Q.Value.Cmp(r.Items[all].Q.Value) >= 0 {
		return false
	}
	r.Put("coats", speech.Quantity{Kind: speech.KindCount, Value: new(big.Rat).Sub(r.Items[all].Q.Value, r.Items[on].Q.Value), Integer: true})
	r.Claim(all)
	r.Claim(on)
	return true
}

// claimSides takes the number out of "two sides", which counts faces, not boards, and says whether it is one.
func claimSides(r *speech.Reading) bool {
	i, ok := r.Find("#number sides|faces")
	if ok {
		r.Claim(i)
	}
	return ok && r.Items[i].Q.Value.Cmp(big.NewRat(1, 1)) == 0
}

// readSpreadOfLitre takes how far a litre goes: 12 square metres a litre, 100 ml a square
// metre, a litre covers 12 square metres, coverage 12. Of a range the smaller one counts.
func readSpreadOfLitre(r *speech.Reading) {
	if i, ok := r.Find("#area to|for|from|out|with|of of? the|a|each|every|one? litre|liter|l"); ok { // 12 square metres to the litre
		putSpread(r, r.Items[i].Q.Base(), i)
		return
	}
	if i, ok := r.Find("#area to|for|from|out|with of? #volume"); ok {
		for k := i + 1; k <= i+3 && k < len(r.Items); k++ {
			if r.Free(k) && r.Items[k].Q.Kind == measure.KindVolume && r.Items[k].Q.Base().Sign() > 0 {
				putSpread(r, new(big.Rat).Quo(r.Items[i].Q.Base(), r.Items[k].Q.Base()), i, k)
				return
			}
		}
	}
	i, ok := r.Find("#volume covers|cover|does|do|goes|is .. #area")
	if !ok { // the tin is 750 ml, covers 9 m²
		i, ok = r.Find("#volume ,|and|( which|it|that? covers|cover|does|goes about? #area")
	}
	if !ok { // with one litre I cover 11 square metres
		i, ok = r.Find("#volume i|we|you|he|she|they|one|it can|could|will? =cover|covers|do|does|get|gets|paint|coat|varnish|manage about? #area")
	}
	if ok {
		for k := i + 1; k < len(r.Items); k++ {
			if r.Free(k) && r.Items[k].Q.Kind == measure.KindArea && r.Items[i].Q.Base().Sign() > 0 {
				putSpread(r, new(big.Rat).Quo(r.Items[k].Q.Base(), r.Items[i].Q.Base()), i, k)
				return
			}
		}
	}
	for i := range r.Items {
		if !r.Free(i) || r.Items[i].Q.Value == nil || len(r.Items[i].Q.Per) != 1 {
			continue
		}
		q := r.Items[i].Q
		per, ok := measure.UnitNamed(q.Per[0])
		if !ok {
			continue
		}
		one := per.Base(big.NewRat(1, 1))
		switch {
		case q.Kind == measure.KindArea && per.Kind == measure.KindVolume:
			area, items := q.Base(), []int{i}
			if low := lowerEnd(r, i); low != nil {
				area, items = q.Unit.Base(low), append(items, i-2)
			}
			putSpread(r, new(big.Rat).Quo(area, one), items...)
			return
		case q.Kind == measure.KindVolume && per.Kind == measure.KindArea && q.Value.Sign() > 0:
			putSpread(r, new(big.Rat).Quo(one, q.Base()), i)
			return
		}
	}
	if i, ok := r.Find("coverage|spread|spreading|spreads|covers rate? of|is|:|at|about? #"); ok && (r.Items[i].Q.Bare() || r.Items[i].Q.Kind == measure.KindArea) && r.Alone(i) {
		putSpread(r, r.Items[i].Q.Value, i)
	}
}

// lowerEnd finds the 12 of "12 to 14 m² a litre", at the 14.
func lowerEnd(r *speech.Reading, i int) *big.Rat {
	if w := wordAt(r, i-1); (w == "to" || w == "or" || w == "and") && r.Free(i-2) && r.Items[i-2].Q.Bare() && r.Items[i-2].Q.Value.Sign() > 0 {
		return r.Items[i-2].Q.Value
	}
	return nil
}

func putSpread(r *speech.Reading, m2PerLitre *big.Rat, items ...int) {
	r.Put("spread_m2_l", speech.Quantity{Kind: measure.KindNumber, Value: m2PerLitre})
	for _, i := range items {
		r.Claim(i)
	}
}

// readTins takes what is there: a 250 ml tin, 2 tins of 750 ml.
func readTins(r *speech.Reading) {
	for i := range r.Items {
		if !r.Free(i) || r.Items[i].Q.Kind != measure.KindVolume || len(r.Items[i].Q.Per) > 0 {
			continue
		}
		q := *r.Items[i].Q
		for _, p := range []string{"# =tins|cans|bottles|pots of|at|with? #volume", "# × #volume tins|cans|bottles", "# #volume =tins|cans|bottles"} {
			if n, ok := r.Find(p); ok && r.Items[n].Q.Integer && (r.Items[n].Q.Bare() || r.Items[n].Q.Kind == speech.KindCount) && n < i {
				r.Claim(n)
				q.Value = new(big.Rat).Mul(q.Value, r.Items[n].Q.Value)
				break
			}
		}
		r.Put("have_l", q)
		r.Claim(i)
		return
	}
}

func readWantedOfFinish(r *speech.Reading) {
	switch {
	case r.Says("how much") && !r.Says("how long|soon") && !r.Says("when"):
		r.Request.Slots["wanted"] = speech.Slot{Word: wantAmount}
	case r.Means("wanted", wantTins, "how many .. =tins|cans|bottles|pots"):
	case r.Means("wanted", wantTimes, "when|how .. recoat|recoating|overcoat|re-coat", "recoat|recoating|overcoat|re-coat", "how? long? between =coats", "when|soon|long .. next|second|another|last|final|more coat",
		"how long|soon .. =dry|dries|drying|cure|cures|cured|hard|harden|hardened", "when .. =dry|dries|cured|cure|hard|hardened", "=dry|drying|cure|curing|recoat time|times"):
	case r.Says("how much|many"), r.Says("enough"), r.Says("#area"), r.Says("# =coats"):
		r.Request.Slots["wanted"] = speech.Slot{Word: wantAmount}
	}
}

// lastOfAreaOrSizes drops an area where this message gives sizes, and sizes where it gives an area.
func lastOfAreaOrSizes(r *speech.Reading) {
	sizes := r.Said("length_mm") || r.Said("width_mm")
	for _, it := range r.Request.Items {
		sizes = sizes || r.Holds(it.Slots["length_mm"])
	}
	switch {
	case r.Said("area_m2"):
		r.Request.Items = nil
		for _, name := range []string{"length_mm", "width_mm", "thickness_mm", "quantity"} {
			if !r.Said(name) {
				delete(r.Request.Slots, name)
			}
		}
	case sizes:
		delete(r.Request.Slots, "area_m2")
	}
}

// passBesideArea lets go of numbers that only their order made a size where an area was said, and
// of a count where the area is that of all of them together.
func passBesideArea(r *speech.Reading) {
	if !r.Said("area_m2") {
		return
	}
	if r.OnlyGuessed("length_mm", "width_mm", "thickness_mm") {
		r.Drop("length_mm")
	}
	if (r.Says("together|altogether|total|totals|totalling|overall|combined") || r.Says("=in all") || r.Says("=all|both .. come|comes|make|makes|are|is about? #area")) && !r.Says("#area each") {
		r.Drop("quantity")
	}
}

// needCoverage asks for the finish and the area when they were not said.
func needCoverage(r *speech.Reading) {
	lastOfAreaOrSizes(r)
	passBesideArea(r)
	coatsNotPieces(r)
	if r.Request.Word("wanted") == wantTimes {
		r.AskFor("finish", "Which finish: varnish, paint, oil, sealer?", "finish")
		return
	}
	if r.Says("epoxy|resin") {
		r.AskFor("spread_m2_l", "How far does a litre of it go in one coat, in m²? The tin says so.", "finish", "spread_m2_l")
	} else {
		r.AskFor("finish", "Which finish: varnish, paint, oil, sealer?", "finish", "spread_m2_l")
	}
	if len(r.Request.Items) > 0 || r.Request.Has("area_m2") {
		return
	}
	r.AskFor("width_mm", "How wide is it?", "width_mm")
	r.AskFor("area_m2", "How large is the area: square metres, or length × width?", "length_mm", "width_mm")
}
