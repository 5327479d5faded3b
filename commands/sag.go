package commands

import (
	"cmp"
	"fmt"
	"math"

	"fettle/calc/measure"
	"fettle/calc/shelf"
	"fettle/calc/wood"
	"fettle/commands/speech"
)

// sheetWords are boards that are no timber: their stiffness is on no record here.
var sheetWords = speech.NewVocabulary("sheet", map[string][]string{
	"plywood": {"ply", "birch ply", "birch plywood", "marine ply"}, "MDF": {"mdf", "medium density fibreboard"},
	"chipboard": {"particle board", "particleboard"}, "OSB": {"osb", "oriented strand board"}, "blockboard": {},
})

const lipWords = "=lip|lips|edging|nosing|upstand|stiffener"

func sag() *Topic {
	return &Topic{
		Title:    "how much a shelf or slat sags, and what would do",
		Examples: []string{"will a 900 shelf 18 thick 200 deep in oak take 15 kg", "ash shelf 1100 long, 25 x 220, how much can it carry?", "how thick for an oak shelf 900 span, 250 deep, 30 kg"},
		Form: speech.Form{
			Name: "sag", Exact: true,
			Cues: []speech.Cue{
				{Weight: 5, Pattern: "sag|sags|sagging|saggy|droop|droops|deflect|deflects|deflection|flex"},
				{Weight: 3, Pattern: "shelf|shelves|slat|plank|board|bearer|ledge|batten|bench|worktop|mantel .. #mass"},
				{Weight: 3, Pattern: "#mass .. shelf|shelves|slat|plank|bearer|ledge|bench"},
				{Weight: 4, Pattern: "hold|holds|carry|carries|take|takes|support|supports|bear|bears|stand|cope #mass"},
				{Weight: 3, Pattern: "hold|holds|carry|carries|take|takes|support|supports|bear|bears|stand|cope .. #mass"},
				{Weight: 4, Pattern: "how much|many|heavy .. shelf|slat|plank|board|bearer|ledge|bench take|carry|hold|bear|support"},
				{Weight: 4, Pattern: "how much|heavy can|will|could|may|does|would a|an|the|this|that|it|we|i|oak|ash .. carry|hold|take|bear|support|put|stack"},
				{Weight: 3, Pattern: "how much|heavy|many can|will|could|may|does|would a|an|the|this|that|our shelf|slat|plank|ledge|bench|oak|ash|larch|sapele|pine"},
				{Weight: 5, Pattern: "what|which weight|load can|will|could|may|does|would|might"},
				{Weight: 3, Pattern: "how thick|what|which thickness? .. shelf|slat|bench|ledge|bearer"},
				{Weight: 3, Pattern: "shelf|slat|plank|board|bench|bearer|ledge .. =bend|bends|bending|give|gives|bow|bows|strong|stiff|safe"},
				{Weight: 2, Pattern: "=bend|bends|bending under|with #mass?"},
				{Weight: 2, Pattern: "#mass"},
				{Weight: 2, Pattern: "span|spans|spanning"},
				{Weight: 1, Pattern: "shelf|shelves|slat|bench|ledge|bearer"},
				{Weight: 1, Pattern: "thick|deep|load|loaded"},
				{Weight: -6, Pattern: "weigh|weight of|weighs|volume|cost|price|rough|sawn|finished|clamp|clamps|cramps|glue|grams|epoxy|varnish|paint|oil|space|spaced|spacing|gap|evenly #?"},
				{Weight: -5, Pattern: "move|movement|shrink|shrinks|swell|swells|laminate|lamination|radius|screw|pilot|convert|pounds|add|bought|cut|weigh"},
			},
			Needs:  sagNeeds(),
			Sizes:  []string{"span_mm", "width_mm", "thickness_mm"},
			Before: readShelf,
			After:  needShelf,
		},
		Answer: answerSag,
	}
}

func sagNeeds() []speech.Need {
	deep := []string{"# in? =deep|depth", "# front to back", "=depth|deep of|is|:|=? #", "# =tiefe"}
	return []speech.Need{
		{Name: "span_mm", Kind: measure.KindLength, Label: "span", Min: 150, Max: 6000,
			Roles: append([]string{"# =span", "=span|spans|spanning|spanned of|is|:|=|about? #", "# between|apart supports|brackets|bearers|cleats|uprights|ends|walls|them|posts", "supports|brackets|bearers|uprights|walls # apart", "every # ", "over|across # ", "# clear|free span"}, lengthRoles...)},
		{Name: "width_mm", Kind: measure.KindLength, Label: "depth", Min: 20, Max: 1500, Roles: append(deep, widthRoles...)},
		{Name: "thickness_mm", Kind: measure.KindLength, Label: "thickness", Min: 5, Max: 150, Roles: thicknessRoles},
		{Name: "species", Kind: speech.KindWord, Label: "timber", Vocab: speciesWords},
		{Name: "moe_mpa", Kind: measure.KindPressure, Label: "stiffness", Min: 500, Max: 40000},
		{Name: "stiffness", Kind: speech.KindWord, Own: true},
		{Name: "load_kg", Kind: measure.KindMass, Label: "load", Min: 0.05, Max: 2000},
		{Name: "load_per", Kind: speech.KindWord, Own: true},
		{Name: "load", Kind: speech.KindWord, Label: "load is", Own: true},
		{Name: "ends", Kind: speech.KindWord, Own: true},
		{Name: "place", Kind: speech.KindWord, Own: true},
		{Name: "lip_mm", Kind: measure.KindLength, Label: "lip", Min: 3, Max: 300},
		{Name: "lip_thickness_mm", Kind: measure.KindLength, Label: "thickness of the lip", Min: 3, Max: 100},
		{Name: "limit_mm", Kind: measure.KindLength, Label: "limit", Min: 0.1, Max: 100, Own: true},
		{Name: "wanted", Kind: speech.KindWord, Own: true},
		useNeed,
	}
}

func answerSag(a *Ask) Answer {
	s, from, err := a.shelf()
	if err != nil {
		return askFor("moe_mpa", plainly(err))
	}
	wanted := a.Word("wanted")
	if s.LoadKg == 0 {
		wanted, s.LoadKg = wantLoad, 1
	}
	if s.ThicknessMM == 0 {
		wanted, s.ThicknessMM = wantThickness, 20 // any will do to look for the least
	}
	got, err := s.Sag()
	if err != nil {
		return ask(plainly(err))
	}
	ans := say(a.sagHeadline(s, got, wanted))
	ans.Given["load"] = loadWord(s.Point)
	if a.Word("load_per") == perMetre {
		ans.Given["load_kg"] = s.LoadKg
	}
	sagValues(&ans, got, wanted)
	a.sagLines(&ans, s, got, wanted, from)
	a.useCaution(&ans)
	return ans
}

// shelf gathers what was said, and where the stiffness is from.
func (a *Ask) shelf() (s shelf.Shelf, from string, err error) {
	get := func(name string) float64 { v, _ := a.Float(name); return v }
	s = shelf.Shelf{
		SpanMM: get("span_mm"), DepthMM: get("width_mm"), ThicknessMM: get("thickness_mm"), LoadKg: get("load_kg"), LimitMM: get("limit_mm"),
		Point: a.Word("load") == pointLoad, Fixed: a.Word("ends") == endsFixed, Damp: a.Word("place") == placeDamp,
	}
	if a.Word("load_per") == perMetre {
		s.LoadKg *= s.SpanMM / 1000
	}
	if a.Has("lip_mm") {
		s.Lip = shelf.Lip{HeightMM: get("lip_mm"), ThicknessMM: cmp.Or(get("lip_thickness_mm"), s.ThicknessMM, 18)}
	}
	if moe, said := a.Float("moe_mpa"); said {
		s.MOEMPa = moe
		return s, "as you said", nil
	}
	timber, _ := wood.Find(a.Word("species"))
	moe, err := timber.MOEMPa()
	if err != nil {
		return s, "", err
	}
	s.MOEMPa = moe.Low.Value
	return s, knownBy(moe.Low, "MOE", "strength"), nil
}

func loadWord(point bool) string {
	if point {
		return pointLoad
	}
	return spreadLoad
}

func sagValues(ans *Answer, got shelf.Sag, wanted string) {
	ans.Values["limit_mm"] = got.LimitMM
	if wanted != wantLoad && wanted != wantThickness {
		ans.Values["sag_mm"], ans.Values["creep_sag_mm"] = got.NowMM, got.LaterMM
	}
	if wanted != wantThickness {
		ans.Values["load_limit_kg"] = got.MostKg
	}
	if wanted != wantLoad && !math.IsInf(got.LeastMM, 1) {
		ans.Values["least_thickness_mm"] = got.LeastMM
	}
}

func (a *Ask) sagHeadline(s shelf.Shelf, got shelf.Sag, wanted string) string {
	limit := "limit " + a.fine(got.LimitMM, measure.Nearest)
	least := a.thick(got.LeastMM)
	switch {
	case wanted == wantLoad:
		return fmt.Sprintf("About %s %s, until it sags %s in time", a.weightDown(got.MostKg), loadPlace(s.Point), a.fine(got.LimitMM, measure.Nearest))
	case wanted == wantThickness && least == "":
		return "No thickness keeps it straight enough: shorten the span"
	case wanted == wantThickness:
		return fmt.Sprintf("At least %s thick for %s (%s)", least, a.weight(s.LoadKg, measure.Nearest), limit)
	}
	sags := fmt.Sprintf("sags %s, %s in time (%s)", a.fine(got.NowMM, measure.Nearest), a.fine(got.LaterMM, measure.Nearest), limit)
	switch {
	case got.Good() && a.Word(useNeed.Name) != "":
		return "By looks alone it would do: " + sags
	case got.Good():
		return "Good: " + sags
	case least == "":
		return "Too much: " + sags + "; shorten the span"
	}
	return "Too much: " + sags + "; " + least + " thick would do"
}

func (a *Ask) sagLines(ans *Answer, s shelf.Shelf, got shelf.Sag, wanted, from string) {
	ans.line(fmt.Sprintf("Load %s, ends %s, stiffness %s MPa: %s.", loadPlace(s.Point), endsText(s.Fixed), measure.Decimal(s.MOEMPa, 0), a.ofTimber()))
	if s.Fixed {
		rest := s
		rest.Fixed = false
		if free, err := rest.Sag(); err == nil {
			ans.line(fmt.Sprintf("Ends seldom hold so fast: if they give, it sags up to %s, %s in time.", a.fine(free.NowMM, measure.Up), a.fine(free.LaterMM, measure.Up)))
		}
	}
	if s.Lip.HeightMM > 0 {
		ans.line(fmt.Sprintf("Lip %s high and %s thick, glued all along the front in the same timber; the back edge sags a little more.", a.fine(s.Lip.HeightMM, measure.Nearest), a.fine(s.Lip.ThicknessMM, measure.Nearest)))
	}
	if wanted != wantLoad && wanted != wantThickness {
		ans.line(fmt.Sprintf("It keeps the limit up to %s.", a.weightDown(got.MostKg)))
	}
	ans.line("Its own weight is left out; single boards differ by a fifth.")
	a.sagReasons(ans, s, got, from)
}

func (a *Ask) sagReasons(ans *Answer, s shelf.Shelf, got shelf.Sag, from string) {
	inertia := fmt.Sprintf("I = %s × %s³ / 12", measure.Decimal(s.DepthMM, 1), measure.Decimal(s.ThicknessMM, 1))
	if s.Lip.HeightMM > 0 {
		inertia = "I of shelf and lip about their common middle"
	}
	ans.because(
		fmt.Sprintf("%s × %s N × %s³ mm³ / (%s MPa × %s mm⁴) = %s mm, with %s.", shareText(s), measure.Decimal(s.LoadKg*shelf.GravityMS2, 1),
			measure.Decimal(s.SpanMM, 1), measure.Decimal(s.MOEMPa, 0), measure.Decimal(got.InertiaMM4, 0), measure.Decimal(got.NowMM, 3), inertia),
		fmt.Sprintf("In time × %s, for %s wood under a long load: %s mm.", measure.Decimal(got.Creep, 1), map[bool]string{true: "damp", false: "dry"}[s.Damp], measure.Decimal(got.LaterMM, 3)),
		"Sources: beam formulas of structural formula sheets (read); creep NDS 3.5.2 as explained by the American Wood Council (read); stiffness: "+from+".",
		"Rule of thumb, no source: the limit of span/300.",
	)
}

func shareText(s shelf.Shelf) string {
	switch {
	case s.Point && s.Fixed:
		return "1/192"
	case s.Point:
		return "1/48"
	case s.Fixed:
		return "1/384"
	}
	return "5/384"
}

func endsText(fixed bool) string {
	if fixed {
		return "held fast"
	}
	return "resting on supports"
}

func loadPlace(point bool) string {
	if point {
		return "in the middle"
	}
	return "spread evenly"
}

func (a *Ask) ofTimber() string {
	if a.Has("moe_mpa") {
		return "as you said"
	}
	s, _ := wood.Find(a.Word("species"))
	if m, err := s.MOEMPa(); err == nil && m.Disagree() {
		return s.Name + ", the softest of its published figures"
	}
	return s.Name
}

// fine prints a small length to a tenth of a millimetre or a hundredth of an inch.
func (a *Ask) fine(mm float64, r measure.Rounding) string {
	if a.Out() == measure.Imperial {
		return measure.Decimal(rounded(mm/25.4*100, r)/100, 2) + " in"
	}
	return measure.Decimal(rounded(mm*10, r)/10, 1) + " mm"
}

// rounded takes a number to a whole one; what floating point left a hair off a whole one is it.
func rounded(v float64, r measure.Rounding) float64 {
	const hair = 1e-9
	switch r {
	case measure.Up:
		return math.Ceil(v - hair)
	case measure.Down:
		return math.Floor(v + hair)
	}
	return math.Round(v)
}

// thick prints a thickness rounded up, or nothing when there is none.
func (a *Ask) thick(mm float64) string {
	if math.IsInf(mm, 1) {
		return ""
	}
	l, err := measure.FromMM(mm)
	if err != nil {
		return ""
	}
	return a.Out().Text(l, measure.Up)
}

func (a *Ask) weightDown(kg float64) string { return a.weight(kg, measure.Down) }

// weight prints a load in kilograms or pounds: to whole ones, small loads to a tenth.
func (a *Ask) weight(kg float64, r measure.Rounding) string {
	unit, v := "kg", kg
	if a.Out() == measure.Imperial {
		lb, _ := measure.UnitNamed("lb")
		one, _ := lb.Factor.Float64()
		unit, v = "lb", kg/one
	}
	if v < 20 {
		return measure.Decimal(rounded(v*10, r)/10, 1) + " " + unit
	}
	return measure.Decimal(rounded(v, r), 0) + " " + unit
}
