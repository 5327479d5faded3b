package commands

import (
	"fmt"
	"math"
	"strings"

	"fettle/calc/evidence"
	coating "fettle/calc/finish"
	"fettle/calc/measure"
	"fettle/commands/speech"
)

// finishWords are the kinds of finish with the ways of naming them.
var finishWords = speech.NewVocabulary("finish", map[string][]string{
	"varnish":        {"yacht varnish", "spar varnish", "polyurethane varnish", "pu varnish", "clear varnish", "floor varnish", "oil varnish", "clearcoat", "clear coat"},
	"lacquer":        {"cellulose lacquer", "clear lacquer"},
	"paint":          {"gloss", "eggshell", "emulsion", "enamel", "gloss paint", "oil paint", "topcoat", "top coat", "milk paint"},
	"primer":         {"undercoat", "primer undercoat", "wood primer"},
	"sealer":         {"sanding sealer", "shellac", "shellac sealer", "wood sealer"},
	"oil":            {"danish oil", "linseed oil", "linseed", "tung oil", "teak oil", "hardwax oil", "hard wax oil", "decking oil", "wood oil", "oiling"},
	"stain":          {"wood stain", "woodstain"},
	"wood preserver": {"preserver", "preservative", "wood preservative"},
	"wax":            {"wax polish", "beeswax"},
})

const finishNames = "varnish|lacquer|paint|primer|undercoat|sealer|shellac|oil|stain|preserver|preservative|wax|emulsion|eggshell|linseed"

func coverage() *Topic {
	return &Topic{
		Title:    "how much paint, varnish or oil, and when the next coat",
		Examples: []string{"varnish for 2.4 square metres, 5 coats", "oil for a table top 1200 by 750, both sides, 2 coats", "only a 250 ml tin of oil: 1.8 m², two coats, enough?"},
		Form: speech.Form{
			Name: "coverage", Exact: true,
			Cues: []speech.Cue{
				{Weight: 6, Pattern: "how much|many .. " + finishNames},
				{Weight: 5, Pattern: finishNames + " .. for|on|over|to|cover|enough .. #"},
				{Weight: 4, Pattern: "# =coats of? .. " + finishNames},
				{Weight: 4, Pattern: finishNames + " .. # =coats|coat"},
				{Weight: 3, Pattern: "#area .. # =coats|coat"},
				{Weight: 3, Pattern: "# =coats .. #area"},
				{Weight: 4, Pattern: "tin|tins|can|cans|litre|litres|bottle of " + finishNames},
				{Weight: 3, Pattern: "enough " + finishNames},
				{Weight: 4, Pattern: "how much|many .. =cover|paint|varnish|oil|coat"},
				{Weight: 3, Pattern: "how many =tins|litres|cans"},
				{Weight: 8, Pattern: "how long|soon .. between =coats"},
				{Weight: 8, Pattern: "recoat|recoating|overcoat|re-coat"},
				{Weight: 5, Pattern: "when|how|long|soon .. next|second|another|last|final|more coat"},
				{Weight: 8, Pattern: "how long|soon|when .. " + finishNames + " .. =dry|dries|drying|cure|cures|cured|hard|harden|hardened"},
				{Weight: 8, Pattern: "=dry|drying|cure|curing|recoat time|times .. " + finishNames},
				{Weight: 5, Pattern: finishNames + " =dry|dries|drying|cure|cures|curing"},
				{Weight: 2, Pattern: "# =coats"},
				{Weight: 1, Pattern: finishNames},
				{Weight: -6, Pattern: "^ i|we|gil|petra|i've|we've|just|she|he put|gave|did|painted|varnished|oiled|applied|have|has|are|is|finished|started|bought|got"},
				{Weight: -6, Pattern: "glue|glued|pegs|hooks|note|remember|log"},
				{Weight: -8, Pattern: "bought|ordered|fetched|paid|collected"},
				{Weight: -4, Pattern: "what did|who|yesterday"},
			},
			Needs:  coverageNeeds(),
			Sizes:  []string{"length_mm", "width_mm", "thickness_mm"},
			Items:  true,
			Before: readCoverage,
			After:  needCoverage,
		},
		Answer: answerCoverage,
	}
}

func coverageNeeds() []speech.Need {
	return []speech.Need{
		{Name: "area_m2", Kind: measure.KindArea, Label: "area", Min: 0.005, Max: 2000},
		{Name: "quantity", Kind: speech.KindCount, Label: "quantity", Min: 1, Max: 1000, Roles: []string{"# of them|these|those|each"}},
		{Name: "length_mm", Kind: measure.KindLength, Label: "length", Min: 30, Max: 30000, Roles: lengthRoles},
		{Name: "width_mm", Kind: measure.KindLength, Label: "width", Min: 10, Max: 20000, Roles: append([]string{"# =high|deep", "=height of|is|:? #"}, widthRoles...)},
		{Name: "thickness_mm", Kind: measure.KindLength, Label: "thickness", Min: 2, Max: 300, Roles: thicknessRoles},
		{Name: "coats", Kind: speech.KindCount, Label: "coats", Min: 1, Max: 20, Roles: []string{"# =coats|coat|applications|application|passes", "# =thin|light|heavy|more|full|good|brushed|further coats|coat", "=coats : #", "=coats #", "# =times|layers"}},
		{Name: "finish", Kind: speech.KindWord, Label: "finish", Vocab: finishWords},
		{Name: "spread_m2_l", Kind: measure.KindNumber, Label: "m² a litre", Min: 0.5, Max: 60, Roles: []string{"tin|can|label says|said|gives #"}},
		{Name: "have_l", Kind: measure.KindVolume, Label: "at hand", Min: 0.01, Max: 1000, Own: true},
		{Name: "less_m2", Kind: measure.KindNumber, Label: "area left out", Min: 0, Max: 2000, Own: true},
		{Name: "thin_pct", Kind: measure.KindPercent, Label: "thinner in the first coat", Max: 100, Own: true},
		{Name: "faces", Kind: speech.KindWord, Own: true},
		{Name: "surface", Kind: speech.KindWord, Label: "surface", Own: true},
		{Name: "wanted", Kind: speech.KindWord, Own: true},
	}
}

func answerCoverage(a *Ask) Answer {
	f, known := coating.Find(a.Word("finish"))
	if a.Word("wanted") == wantTimes {
		return answerDrying(f)
	}
	area, how, err := a.coated()
	if err != nil {
		return ask(plainly(err))
	}
	s := coating.Surface{AreaM2: area, Rough: a.Word("surface") == surfaceRough}
	coats, _ := a.Float("coats")
	s.Coats = int(coats)
	s.M2PerLitre, _ = a.Float("spread_m2_l")
	s.ThinPct, _ = a.Float("thin_pct")
	if !known {
		f = coating.Finish{Name: "finish", Coats: 1}
	}
	n, err := f.Need(s)
	if err != nil {
		return ask(plainly(err))
	}
	ans := say(a.coverageHeadline(f, n, area))
	ans.Given["area_m2"] = area
	ans.Values["finish_l"], ans.Values["coats"], ans.Values["litres_per_coat"] = n.Litres, n.Coats, n.FirstLitres
	a.coverageLines(&ans, f, s, n, how, known)
	if f.Caution != "" {
		ans.caution(f.Caution)
	}
	return ans
}

// coated is the area: the one said, else that of the sizes.
func (a *Ask) coated() (m2 float64, how string, err error) {
	m2, how, err = a.whole()
	less, said := a.Float("less_m2")
	if !said || err != nil {
		return m2, how, err
	}
	if a.Word("faces") == facesBoth {
		less *= 2
	}
	if less >= m2 {
		return 0, "", fmt.Errorf("%s m² left out of %s m² leaves nothing; what are the sizes", measure.Decimal(less, 2), measure.Decimal(m2, 2))
	}
	return m2 - less, strings.TrimPrefix(how+", ", ", ") + measure.Decimal(less, 2) + " m² left out", nil
}

// whole is the area with what is to be left out of it.
func (a *Ask) whole() (m2 float64, how string, err error) {
	if m2, said := a.Float("area_m2"); said {
		n := a.Count()
		if a.Word("faces") == facesBoth {
			m2 *= 2
			how = "both faces"
		}
		return m2 * float64(n), how, nil
	}
	items := a.Request.Items
	if len(items) == 0 {
		items = []speech.Request{a.Request}
	}
	for _, it := range items {
		one := *a
		one.Request = it
		l, _ := one.Float("length_mm")
		w, _ := one.Float("width_mm")
		t, _ := one.Float("thickness_mm")
		p := coating.Piece{LengthM: l / 1000, WidthM: w / 1000, ThicknessM: t / 1000, Faces: 1}
		switch a.Word("faces") {
		case facesBoth:
			p.Faces = 2
		case facesAll:
			p.Faces, p.Edges = 2, t > 0
		}
		area, err := p.AreaM2()
		if err != nil {
			return 0, "", err
		}
		m2 += area * float64(one.Count())
	}
	how = map[string]string{facesBoth: "both faces", facesAll: "all round"}[a.Word("faces")]
	if how == "" {
		how = "one face"
	}
	return m2, how, nil
}

// coverageHeadline says how much to get or, where it was said how much there is, whether that
// is enough.
func (a *Ask) coverageHeadline(f coating.Finish, n coating.Need, area float64) string {
	need := fmt.Sprintf("%s of %s for %s m², %s", litresUp(n.Litres), strings.ToLower(f.Name), measure.Decimal(area, 2), plural(n.Coats, "coat", "coats"))
	have, said := a.Float("have_l")
	switch {
	case !said:
		return need
	case a.Word("wanted") == wantTins:
		tins := int(rounded(n.Litres/have, measure.Up))
		return fmt.Sprintf("%s of %s: %s", plural(tins, "tin", "tins"), litresText(have), need)
	case have >= n.Litres:
		return fmt.Sprintf("Yes, %s is enough: %s", litresText(have), need)
	case have*(1+coating.WasteShare) >= n.Litres:
		return fmt.Sprintf("Only just: %s is there, and it takes %s with what the brush keeps", litresText(have), litresUp(n.Litres))
	}
	return fmt.Sprintf("No: %s of %s needed, %s there; %s short", litresUp(n.Litres), strings.ToLower(f.Name), litresText(have), litresUp(n.Litres-have))
}

func (a *Ask) coverageLines(ans *Answer, f coating.Finish, s coating.Surface, n coating.Need, how string, known bool) {
	if have, said := a.Float("have_l"); said && a.Word("wanted") == wantTins {
		ans.Values["tins"] = int(rounded(n.Litres/have, measure.Up))
	} else if coats := int(rounded(have/n.FirstLitres, measure.Down)); said && have < n.Litres && coats > 0 {
		ans.line(fmt.Sprintf("What is there does %s.", plural(coats, "coat", "coats")))
	}
	from := "common practice for planed wood"
	switch {
	case s.M2PerLitre > 0:
		from = "as you said"
	case s.Rough:
		from = "sawn wood, which takes twice as much"
	}
	text := fmt.Sprintf("%s m² a litre and coat (%s), and a tenth for brush and tin", measure.Decimal(n.M2PerLitre, 1), from)
	if how != "" {
		text = capital(how) + "; " + text
	}
	ans.line(text + ".")
	if s.Coats == 0 {
		ans.line(fmt.Sprintf("Coats not said: %d assumed.", n.Coats))
	}
	switch {
	case s.ThinPct > 0:
		ans.Values["thinner_l"] = n.ThinnerLitres
		ans.line(fmt.Sprintf("First coat: %s of finish and %s of thinner, which saves no finish: bare wood drinks it.", litresUp(n.FirstLitres), litresUp(n.ThinnerLitres)))
	case f.ID == "varnish" || f.ID == "sealer" || f.ID == "lacquer":
		ans.line("On bare wood thin the first coat as the tin says.")
	case f.Soaks:
		ans.line("The first coat takes most; wipe off what has not gone in.")
	}
	if known {
		addDrying(ans, f)
		ans.line(dryingLine(f))
	}
	coverageReasons(ans, f, s, n, known)
}

func coverageReasons(ans *Answer, f coating.Finish, s coating.Surface, n coating.Need, known bool) {
	ans.because(fmt.Sprintf("%s m² × %s / %s m² a litre × %s = %s l.", measure.Decimal(s.AreaM2, 3), plural(n.Coats, "coat", "coats"),
		measure.Decimal(n.M2PerLitre, 2), measure.Decimal(1+coating.WasteShare, 2), measure.Decimal(n.Litres, 3)))
	figure := f.Smooth
	if s.Rough {
		figure = f.Rough
	}
	source := knownBy(figure)
	if s.M2PerLitre > 0 {
		source = "as you said"
	}
	ans.because("What a litre covers: " + source + ".")
	if known {
		ans.because("Drying: " + knownBy(f.Recoat.Low) + ".")
	}
	ans.because("Rule of thumb, no source: a tenth stays in brush and tin, and the usual number of coats.")
}

// answerDrying says when the next coat can go on and when it is hard.
func answerDrying(f coating.Finish) Answer {
	ans := say(fmt.Sprintf("%s: next coat after %s h, full hardness after %s days", f.Name, spanText(f.Recoat), spanText(f.Cure)))
	addDrying(&ans, f)
	ans.line("At about 20 °C and in dry air; cold and damp make it longer. The tin's own times come first.")
	ans.because("Ranges, not worked out: "+knownBy(f.Recoat.Low)+".", "Products of one kind differ by so much; the tin's own times are the ones that count.")
	if f.Caution != "" {
		ans.caution(f.Caution)
	}
	return ans
}

func addDrying(ans *Answer, f coating.Finish) {
	minutes := func(r coating.Range, each float64) []float64 {
		return []float64{r.Low.Value * each, r.High.Value * each}
	}
	ans.Values["recoat_min"], ans.Values["cure_min"] = minutes(f.Recoat, 60), minutes(f.Cure, 24*60)
}

func dryingLine(f coating.Finish) string {
	return fmt.Sprintf("Next coat after %s h, full hardness after %s days at about 20 °C; the tin's own times come first.", spanText(f.Recoat), spanText(f.Cure))
}

func spanText(r coating.Range) string { return figureText(r.Low) + "–" + figureText(r.High) }

func figureText(f evidence.Figure) string { return measure.Decimal(f.Value, 1) }

// litresUp prints what to get, rounded up to 10 ml, above a litre to 50 ml.
func litresUp(l float64) string {
	if l < 1 {
		return litresText(rounded(l*100, measure.Up) / 100)
	}
	return litresText(rounded(l*20, measure.Up) / 20)
}

func litresText(l float64) string {
	if l < 1 {
		return measure.Decimal(math.Round(l*1e6)/1e3, 1) + " ml"
	}
	return measure.Decimal(l, 2) + " l"
}
