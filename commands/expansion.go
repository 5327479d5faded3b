package commands

import (
	"cmp"
	"fmt"
	"math/big"
	"strings"

	"fettle/calc/expand"
	"fettle/calc/measure"
	"fettle/calc/wood"
	"fettle/commands/speech"
)

var materialWords = speech.NewVocabulary("material", map[string][]string{
	"acrylic":          {"acrylic glass", "acrylic sheet", "pmma", "acryl", "acrilic"},
	"polycarbonate":    {"polycarb", "poly carbonate", "polycarbonat", "polycarbonate sheet"},
	"glass":            {"float glass", "window glass", "plate glass", "toughened glass"},
	"aluminium":        {"aluminum", "alu", "ally"},
	"stainless steel":  {"stainless", "inox"},
	"steel":            {"mild steel", "galvanised steel", "iron"},
	"brass":            {},
	"copper":           {},
	"pvc":              {"upvc", "rigid pvc", "vinyl"},
	"plywood":          {"ply", "birch ply", "marine ply"},
	expand.AlongGrain:  {"along the grain", "with the grain"},
	expand.AcrossGrain: {"solid wood", "wood", "timber", "solid timber", "across the grain"},
})

// The places that tell how warm and damp it gets.
const unheated, heated = "unheated", "heated"

var placeWords = speech.NewVocabulary("place", map[string][]string{
	unheated: {"not heated", "no heating", "outside", "outdoors", "outdoor", "exterior", "external", "in the open", "winter and summer", "summer and winter", "all year", "summer to winter", "winter to summer", "without heating"},
	heated:   {"indoors", "inside", "heated room", "heated hut", "interior"},
})

// placeRange is the range of temperature taken for a place when none was said, in °C: −10 to
// 40 unheated, 10 to 35 heated. Common practice, no source.
var placeRange = map[string]int64{unheated: 50, heated: 25}

const materialCue = "acrylic|pmma|polycarbonate|polycarb|glass|glazing|aluminium|aluminum|alu|steel|stainless|brass|copper|pvc|upvc|plywood|ply|pane|panes"

// growing are the words for what a pane does and for what it needs.
const growing = "gap|gaps|clearance|room|play|expansion|expand|expands|expanding|grow|grows|growing|shrink|shrinks|contract|contracts|longer|shorter|bigger|move|moves|movement|undersize|smaller"

func expansion() *Topic {
	return &Topic{
		Title:    "how much panes and metal grow with warmth, and the gap to leave",
		Examples: []string{"gap for 400 of acrylic over 40 degrees", "2 m aluminium trim, from -5 to 35, how much does it grow", "600 x 400 polycarbonate pane in a groove 10 deep, unheated hut, what gap"},
		Form: speech.Form{
			Name: "expansion", Exact: true,
			Cues: []speech.Cue{
				{Weight: 4, Pattern: growing + " .. " + materialCue},
				{Weight: 4, Pattern: materialCue + " .. " + growing},
				{Weight: 4, Pattern: "expansion|expand|expands|expanding|grow|grows|longer|shrink|shrinks|contract|contracts .. #angle"},
				{Weight: 4, Pattern: "expansion|expand|expands|expanding|grow|grows|longer|shrink|shrinks|contract|contracts .. #temperature"},
				{Weight: 3, Pattern: "thermal|expansion|expand|expands|expanding"},
				{Weight: 2, Pattern: "how much|far .. grow|grows|expand|expands|longer|shorter|bigger|smaller"},
				{Weight: 2, Pattern: "degrees|degree|temperature swing|difference|diff|range|rise|change"},
				{Weight: 2, Pattern: "swing|groove|grooves|rebate|rebates"},
				{Weight: 5, Pattern: "millionths|coefficient"},
				{Weight: 3, Pattern: "over|by|through a|about? #angle"},
				{Weight: 3, Pattern: "over|by|through a|about? #temperature"},
				{Weight: 2, Pattern: materialCue},
				{Weight: 1, Pattern: "gap|gaps|clearance"},
				{Weight: 1, Pattern: "#angle"},
				{Weight: 1, Pattern: "#temperature"},
				{Weight: -5, Pattern: "#percent to|- #"},
				{Weight: -5, Pattern: "# to|up|- #percent"},
				{Weight: -5, Pattern: "glue|epoxy|pva|polyurethane|clamp|clamps|open|cure|screw|screws|pilot|shelf|sag|weight|weigh|cost|price|volume|varnish|note|remember|radius|spring|laminate"},
			},
			Needs: []speech.Need{
				{Name: "length_mm", Kind: measure.KindLength, Label: "length", Min: 60, Max: 20000, Ask: "How long is it?",
					Roles: append([]string{"# pane|panes|sheet|panel|window|strip|trim|strap|bar|rail|piece|pipe|tube"}, lengthRoles...)},
				{Name: "width_mm", Kind: measure.KindLength, Label: "width", Min: 5, Max: 5000, Roles: widthRoles},
				{Name: "thickness_mm", Kind: measure.KindLength, Label: "thickness", Min: 0.5, Max: 50, Roles: thicknessRoles},
				{Name: "material", Kind: speech.KindWord, Label: "material", Vocab: materialWords},
				{Name: "species", Kind: speech.KindWord, Label: "timber", Vocab: speciesWords},
				{Name: "temperature_range_c", Kind: measure.KindTemperature, Label: "temperature range", Min: 0.5, Max: 150, Change: true,
					Roles: []string{"over|by|through|across a|an|about|some? #", "# of? swing|difference|diff|range|span|spread|change|rise|apart|warmer|colder|hotter", "swing|difference|diff|range|change|rise|spread of|is|: about? #", "swing|difference|diff|range|change #"}},
				{Name: "coldest_c", Kind: measure.KindTemperature, Label: "coldest", Min: -60, Max: 120, Sign: true, Own: true},
				{Name: "hottest_c", Kind: measure.KindTemperature, Label: "hottest", Min: -60, Max: 150, Sign: true, Own: true},
				{Name: "fit_c", Kind: measure.KindTemperature, Label: "fitted at", Min: -20, Max: 50, Sign: true, Own: true},
				{Name: "coefficient", Kind: measure.KindNumber, Label: "millionths a °C", Min: 0.1, Max: 400, Own: true},
				{Name: "groove_mm", Kind: measure.KindLength, Label: "groove", Min: 2, Max: 100,
					Roles: []string{"# deep? groove|grooves|rebate|rebates|rabbet|channel|slot", "groove|grooves|rebate|rebates|rabbet|channel|slot of|is|are|: # deep?", "groove|grooves|rebate|rebates|rabbet|channel|slot #", "groove|grooves|rebate|rebates|rabbet|channel .. # deep"}},
				{Name: "place", Kind: speech.KindWord, Label: "place", Vocab: placeWords},
				{Name: "damp", Kind: speech.KindWord, Label: "damp", Own: true},
				{Name: "dark", Kind: speech.KindWord, Label: "dark", Own: true},
			},
			Sizes:  []string{"length_mm", "width_mm", "thickness_mm"},
			Before: readExpansion,
			After:  needExpansion,
		},
		Answer: answerExpansion,
	}
}

// readExpansion reads what the general rules do not: a stated coefficient, two temperatures,
// the one it is fitted at, and what makes a pane grow more.
func readExpansion(r *speech.Reading) {
	passBeside(r)
	passAll(r, "cost|costs|costing|paid|price|priced us|me|is|was|of|at|:? #")
	passAll(r, "# screws|holes|bolts|rivets|screw|hole|slots", "holes|screws|bolts|rivets of|are|is|:|,? #")
	takeEndToEnd(r)
	takeOf(r, "length_mm")
	readCoefficient(r)
	readKelvin(r)
	readSheetThickness(r)
	readFit(r)
	p, ok := between(r, warmth)
	if !ok {
		p, ok = coldAndHot(r)
	}
	if ok {
		low, high := p.from, p.to
		if high.Base().Cmp(low.Base()) < 0 {
			low, high = high, low
		}
		r.Put("coldest_c", low)
		r.Put("hottest_c", high)
		swing := high
		swing.Value = new(big.Rat).Sub(high.Value, low.Value)
		r.Put("temperature_range_c", swing)
		for _, i := range p.items {
			r.Claim(i)
		}
	}
	if r.Says("damp|wet|humid|moist|rain|steam|steamy|shower|bathroom|condensation|wash") {
		r.Word("damp", "damp")
	}
	if r.Says("dark|black|smoked|tinted|brown|grey|gray") {
		r.Word("dark", "dark")
	}
}

// takeEndToEnd takes the length of several pieces in one line: 2 strips of 900 end to end.
func takeEndToEnd(r *speech.Reading) {
	if !r.Says("end|butted to =end|together") && !r.Says("in one|a line|row|run") {
		return
	}
	for i := range r.Items {
		n := r.Items[i].Q
		if !r.Free(i) || n.Value == nil || !n.Integer || n.Unit != nil && n.Kind != speech.KindCount || n.Value.Cmp(big.NewRat(1, 1)) <= 0 || n.Value.Cmp(big.NewRat(mostInLine, 1)) > 0 {
			continue
		}
		for k := i + 1; k <= i+5 && k < len(r.Items); k++ {
			q := r.Items[k].Q
			if q == nil {
				continue
			}
			if r.Free(k) && q.Value != nil && (q.Kind == measure.KindLength || q.Bare()) && k > i+1 && !joined(r, i, "×") {
				whole := *q
				whole.Value = new(big.Rat).Mul(q.Value, n.Value)
				r.Put("length_mm", whole)
				r.Claim(i)
				r.Claim(k)
				return
			}
			break
		}
	}
}

// mostInLine is the highest number of pieces in one line that is believed; common practice, no source.
const mostInLine = 20

// readKelvin takes a swing in kelvins, which are as large as degrees: 45 K, 45 kelvin.
func readKelvin(r *speech.Reading) {
	for _, i := range r.All("δt|∆t|dt|deltat of|is|=|:|about? #") {
		if q := r.Items[i].Q; q.Value != nil && (q.Bare() || q.Kind == measure.KindTemperature || q.Kind == measure.KindAngle) && !r.Request.Has("temperature_range_c") {
			r.Set("temperature_range_c", i)
		}
	}
	if i, ok := r.Find("# =k|kelvin|kelvins"); ok && r.Items[i].Q.Bare() && !r.Request.Has("temperature_range_c") {
		r.Set("temperature_range_c", i)
	}
}

// readFit reads how warm it is when the pane goes in.
func readFit(r *speech.Reading) {
	for _, p := range []string{"fit|fitted|fitting|installed|install|glazed|put|mounted|cut|made .. at about|around? #", "at about|around? #angle", "at about|around? #temperature"} {
		i, ok := r.Find(p)
		if ok && r.Items[i].Q.High == nil && (warmth(r.Items[i].Q) || r.Items[i].Q.Bare()) {
			r.Set("fit_c", i)
			return
		}
	}
}

// warmth accepts what can only be a temperature: by its unit, or below nought.
func warmth(q *speech.Quantity) bool {
	return q.Kind == measure.KindTemperature || q.Kind == measure.KindAngle || q.Bare() && q.Value != nil && q.Value.Sign() < 0
}

// readCoefficient reads 0.065 mm per metre per degree, 23 µm/m/K, 70 millionths and 70 × 10^-6.
// A degree F is worth less than a degree C.
func readCoefficient(r *speech.Reading) {
	for i := range r.Items {
		if r.Free(i) && r.Items[i].Q.Kind == speech.KindUnread && powerOfTen(r, i) {
			return
		}
		if !r.Free(i) || r.Items[i].Q.Value == nil {
			continue
		}
		q := *r.Items[i].Q
		switch {
		case q.Kind == measure.KindLength && len(q.Per) > 0:
			share := q.Base()
			for _, per := range q.Per {
				if u, ok := measure.UnitNamed(per); ok && u.Kind == measure.KindLength {
					share = new(big.Rat).Quo(share, u.Base(big.NewRat(1, 1)))
				} else if ok && u.Kind == measure.KindTemperature {
					share = new(big.Rat).Quo(share, u.Difference(big.NewRat(1, 1)))
				}
			}
			q.Value = new(big.Rat).Mul(share, big.NewRat(1_000_000, 1))
		case q.Bare() && i+1 < len(r.Items) && r.Items[i+1].Stem == speech.Stem("millionths"):
		case q.Bare() && power(r, i):
		default:
			continue
		}
		q.Unit, q.Kind, q.Per = nil, measure.KindNumber, nil
		r.Put("coefficient", q)
		r.Claim(i)
		return
	}
}

// millionth is the power of ten of the coefficients.
const millionth = "e-6"

// powerOfTen reads a coefficient as calculators write it: 12e-6 per K.
func powerOfTen(r *speech.Reading, i int) bool {
	said := strings.ToLower(r.Text[r.Items[i].Start:])
	digits, _, ok := strings.Cut(said, millionth)
	v, num := new(big.Rat).SetString(strings.TrimSpace(digits))
	if !ok || !num || v.Sign() <= 0 {
		return false
	}
	r.Put("coefficient", speech.Quantity{Kind: measure.KindNumber, Value: v})
	r.Claim(i)
	return true
}

// power claims the "× 10^-6" behind item i, if it stands there.
func power(r *speech.Reading, i int) bool {
	signs := []string{"×", "", "^", "-", ""}
	last := i
	for _, want := range signs {
		if want == "-" && last+1 < len(r.Items) && r.Items[last+1].Q != nil {
			continue // the minus belongs to the number
		}
		last++
		if last >= len(r.Items) || (want == "") != (r.Items[last].Q != nil) || want != "" && r.Items[last].Text != want {
			return false
		}
	}
	ten, six := r.Items[i+2].Q.Value, r.Items[last].Q.Value
	if ten == nil || six == nil || ten.Cmp(big.NewRat(10, 1)) != 0 || new(big.Rat).Abs(six).Cmp(big.NewRat(6, 1)) != 0 {
		return false
	}
	r.Claim(i + 2)
	r.Claim(last)
	return true
}

// thickestSheet is up to where a lone size before a sheet's material is its thickness:
// 4 mm acrylic. Common practice, no source.
const thickestSheet = 12

func readSheetThickness(r *speech.Reading) {
	i, ok := r.Find("# thick? stuff|sheet|" + materialCue)
	if !ok || !r.Alone(i) && r.Items[i].Q.Unit == nil {
		return
	}
	if l := r.Sized("thickness_mm", *r.Items[i].Q); l.Num != nil && l.Num.Cmp(big.NewRat(thickestSheet, 1)) <= 0 && l.Num.Sign() > 0 && before(r, i) != "×" {
		r.Set("thickness_mm", i)
	}
}

// needExpansion asks for what is missing, and lets go of temperatures that the range said
// later no longer fits.
func needExpansion(r *speech.Reading) {
	if l, ok := r.Request.Float("length_mm"); ok && l <= thickestSheet && r.OnlyGuessed("length_mm", "thickness_mm") {
		r.Request = r.Moved(map[string]string{"length_mm": "thickness_mm"})
	}
	if !r.Request.Has("length_mm") && r.Request.Has("width_mm") {
		r.Request = r.Moved(map[string]string{"width_mm": "length_mm"})
	}
	slots := r.Request.Slots
	if swing, ok := r.Request.Float("temperature_range_c"); ok {
		cold, _ := r.Request.Float("coldest_c")
		if hot, two := r.Request.Float("hottest_c"); two && !alike(hot-cold, swing) {
			delete(slots, "coldest_c")
			delete(slots, "hottest_c")
		}
	} else if k, ok := placeRange[r.Request.Word("place")]; !ok || k == 0 {
		r.AskFor("temperature_range_c", "Over which range of temperature: from how cold to how hot?")
	}
	if !r.Request.Has("coefficient") {
		r.AskFor("material", "Of which material?", "material", "species")
	}
	r.AskFor("length_mm", "How long is it?", "length_mm")
}

func alike(a, b float64) bool { return a-b < 0.01 && b-a < 0.01 }

func answerExpansion(a *Ask) Answer {
	m, named := a.material()
	if !named {
		return askFor("material", "Of which material?")
	}
	length, _ := a.Float("length_mm")
	swing, over := a.swing()
	p, fitted := a.pane(length, swing)
	room, err := m.Room(p)
	if err != nil {
		return ask(plainly(err))
	}
	thermal, err := m.Growth(length, swing, 0)
	if err != nil {
		return ask(plainly(err))
	}
	grows := room.GrowMM + room.DampMM
	ans := say(fmt.Sprintf("%s of %s over %s: grows %s, leave %s at each end", a.text(length, measure.Nearest), m.Name, over, a.text(grows, measure.Up), a.text(room.GapEachMM, measure.Up)))
	if fitted {
		ans.Answer = fmt.Sprintf("%s of %s put in at %s °C: leave %s at each end", a.text(length, measure.Nearest), m.Name, measure.Decimal(p.FitC, 1), a.text(room.GapEachMM, measure.Up))
		ans.Values["grow_mm"], ans.Values["shrink_mm"] = grows, room.ShrinkMM
		ans.line(fmt.Sprintf("From then on it grows %s up to %s °C and draws back %s down to %s °C.", a.text(grows, measure.Up), measure.Decimal(p.HottestC, 1),
			a.text(room.ShrinkMM, measure.Up), measure.Decimal(p.ColdestC, 1)))
	} else {
		ans.line("The gap is for one put in on the coldest day; put in warm, it needs less and draws back more.")
	}
	ans.Values["movement_mm"], ans.Values["gap_mm"], ans.Values["gap_each_mm"] = thermal, grows, room.GapEachMM
	a.otherWay(&ans, m, p, swing)
	a.dampLines(&ans, m, p, room)
	a.grooveLines(&ans, room)
	ans.because(fmt.Sprintf("length × coefficient × range = %s × %s millionths × %s °C = %s mm.", measure.Decimal(length, 1),
		measure.Decimal(m.High.Value, 1), measure.Decimal(swing, 1), measure.Decimal(thermal, 3)))
	a.coefficientReason(&ans, m)
	if m.Caution != "" {
		ans.caution(m.Caution)
	}
	return ans
}

func (a *Ask) coefficientReason(ans *Answer, m expand.Material) {
	if a.Has("coefficient") {
		ans.because("Coefficient: as you said.")
		return
	}
	ans.because(fmt.Sprintf("Coefficient: %s to %s millionths a °C, the higher one counts: %s.", measure.Decimal(m.Low.Value, 1), measure.Decimal(m.High.Value, 1), knownBy(m.High)))
}

// pane is the pane with the temperatures it sees. Where it was not said how warm it is when it
// goes in, that is the coldest day: the widest gap.
func (a *Ask) pane(length, swing float64) (p expand.Pane, fitted bool) {
	p = expand.Pane{LengthMM: length, HottestC: swing, Damp: a.damp(), Dark: a.Has("dark")}
	if !a.Has("fit_c") || !a.Has("coldest_c") || !a.Has("hottest_c") {
		return p, false
	}
	p.FitC, _ = a.Float("fit_c")
	p.ColdestC, _ = a.Float("coldest_c")
	p.HottestC, _ = a.Float("hottest_c")
	return p, true
}

// material is the one named, or solid wood where a timber was; a coefficient that was stated
// counts for it.
func (a *Ask) material() (expand.Material, bool) {
	id := a.Word("material")
	timber, isWood := wood.Find(a.Word("species"))
	if id == "" && isWood {
		id = expand.AcrossGrain
	}
	m, ok := expand.Find(id)
	if alpha, said := a.Float("coefficient"); said {
		stated := expand.Stated(cmp.Or(lower(m.Name), "the material"), alpha)
		stated.ID, stated.DampPct, stated.Caution = m.ID, m.DampPct, m.Caution
		return stated, true
	}
	if ok && isWood && (id == expand.AcrossGrain || id == expand.AlongGrain) {
		m.Name = timber.Name + m.Name[len("Wood"):]
	} else {
		m.Name = lower(m.Name)
	}
	return m, ok
}

// lower writes a material's name within a sentence; short names in capitals stay.
func lower(name string) string {
	if len(name) > 1 && name[1] >= 'a' {
		return string(name[0]|0x20) + name[1:]
	}
	return name
}

// swing is the range of temperature in °C and how it is said back.
func (a *Ask) swing() (c float64, text string) {
	if v, said := a.Float("temperature_range_c"); said {
		if s := a.Request.Slots["temperature_range_c"]; s.Unit == "f" {
			return v, saidText(s)
		}
		return v, measure.Decimal(v, 1) + " °C"
	}
	c = float64(placeRange[a.Word("place")])
	return c, measure.Decimal(c, 1) + " °C"
}

// damp says whether the pane will see damp air: where it was said, and in places without heat.
func (a *Ask) damp() bool { return a.Has("damp") || a.Word("place") == unheated }

// otherWay adds the movement of the second size.
func (a *Ask) otherWay(ans *Answer, m expand.Material, p expand.Pane, swing float64) {
	width, ok := a.Float("width_mm")
	if !ok {
		return
	}
	p.LengthMM = width
	room, err := m.Room(p)
	if err != nil {
		return
	}
	if ans.Values["width_movement_mm"], err = m.Growth(width, swing, 0); err != nil {
		return
	}
	ans.Values["width_gap_each_mm"] = room.GapEachMM
	ans.line(fmt.Sprintf("Across its %s: leave %s at each side.", a.text(width, measure.Nearest), a.text(room.GapEachMM, measure.Up)))
}

// dampLines says what was assumed of the place, and what sun and damp do.
func (a *Ask) dampLines(ans *Answer, m expand.Material, p expand.Pane, room expand.Room) {
	if !a.Has("temperature_range_c") {
		ans.line(fmt.Sprintf("%s: %d °C of range is assumed (common practice).", capital(a.Word("place")), placeRange[a.Word("place")]))
	}
	if p.Dark {
		ans.line(fmt.Sprintf("Dark in the sun: %s times the warmth's share.", measure.Decimal(expand.DarkShare, 1)))
	}
	switch {
	case room.DampMM > 0:
		ans.Values["damp_mm"] = room.DampMM
		ans.line(fmt.Sprintf("%s of it is for damp air.", a.text(room.DampMM, measure.Up)))
	case m.DampPct.Value > 0:
		ans.line(fmt.Sprintf("In damp air it takes %s more: say so if it gets wet or stays unheated.", a.text(m.DampPct.Value/100*p.LengthMM, measure.Up)))
	case m.ID == expand.AcrossGrain:
		ans.line("Damp moves the width of wood far more than warmth: ask for its movement from one moisture content to another.")
	}
}

// leastHold is what an edge must keep in its groove, in mm: common practice, no source.
const leastHold = 4

// grooveLines says whether the edges stay in their groove.
func (a *Ask) grooveLines(ans *Answer, room expand.Room) {
	depth, ok := a.Float("groove_mm")
	if !ok {
		return
	}
	if !a.Has("fit_c") {
		room.CoverEachMM = 0 // put in at its smallest
	}
	hold, err := room.Hold(depth)
	if err != nil {
		return
	}
	ans.Values["hold_mm"] = hold
	text := fmt.Sprintf("In grooves %s deep: cut it %s shorter than from bottom to bottom; at its smallest %s stay in.", a.text(depth, measure.Nearest),
		a.text(2*room.GapEachMM, measure.Up), a.text(max(0, hold), measure.Down))
	if hold < leastHold {
		text += fmt.Sprintf(" That is less than %d mm: make the grooves deeper.", leastHold)
	}
	ans.line(text)
}
