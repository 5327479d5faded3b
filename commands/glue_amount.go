package commands

import (
	"fmt"
	"math/big"
	"strings"

	"fettle/calc/glue"
	"fettle/calc/measure"
	"fettle/commands/speech"
)

func glueAmount() *Topic {
	needs := append(glueNeeds(""),
		speech.Need{Name: "quantity", Kind: speech.KindCount, Label: "quantity", Min: 1, Max: 5000,
			Roles: []string{"# =joint|joints|glueline|gluelines|glue-lines", "# glue|edge|face|bond lines|line|joints|joint", "# is|are still? left", "# joints|lines|of left|more|still to? glue|do|go?"}},
		speech.Need{Name: "length_mm", Kind: measure.KindLength, Label: "length", Min: 10, Max: 12000, Roles: lengthRoles},
		speech.Need{Name: "width_mm", Kind: measure.KindLength, Label: "width", Min: 3, Max: 3000, Roles: append([]string{"# deep|high"}, append(widthRoles, thicknessRoles...)...)},
		speech.Need{Name: "area_m2", Kind: measure.KindArea, Label: "area", Min: 0.0001, Max: 200},
		speech.Need{Name: "spread_g_m2", Kind: measure.KindMass, Label: "spread", Own: true, Min: 20, Max: 2000},
		speech.Need{Name: "counted", Kind: speech.KindWord, Label: "counted", Own: true},
		speech.Need{Name: "faces", Kind: speech.KindWord, Label: "faces", Vocab: facesWords},
		useNeed,
	)
	return &Topic{
		Title:    "how much glue",
		Examples: []string{"how much epoxy for 3 joints 900 by 45", "PVA for 0.85 square metres", "how many grams of polyurethane for 7 glue lines 2250 x 44"},
		Form: speech.Form{
			Name: "glue-amount", Exact: true,
			Cues: []speech.Cue{
				{Weight: 4, Pattern: "how much|many .. glue|epoxy|pva|polyurethane|pu|pur|resin|resorcinol|adhesive|sealant|uf|d3|d4|polymer"},
				{Weight: 4, Pattern: "grams|gram|g|kilos|weight|amount|quantity of glue|epoxy|pva|polyurethane|pu|pur|resin|resorcinol|adhesive|sealant"},
				{Weight: 4, Pattern: "stick|stuck|bond|bonded|bonding|glued .. down|together|on|onto .. #"},
				{Weight: 4, Pattern: "to stick|bond|laminate|glue .. #size"},
				{Weight: 4, Pattern: "glue|epoxy|pva|polyurethane|pu|pur|resin|resorcinol|adhesive|uf|d3|d4 .. #area"},
				{Weight: 3, Pattern: "glue|epoxy|pva|polyurethane|pu|pur|resin|resorcinol|adhesive|uf|d3|d4 needed|required|need|wanted"},
				{Weight: 3, Pattern: "glueline|gluelines|glue-lines"},
				{Weight: 3, Pattern: "panel|lamination|top from|of|out # .. glue|pva|epoxy|polyurethane|pu|resin"},
				{Weight: 3, Pattern: "how much|many to mix|spread|stick|bond|laminate|glue"},
				{Weight: 3, Pattern: "glue|epoxy|pva|polyurethane|pu|pur|resin|resorcinol|adhesive|sealant|uf|d3|d4|hide for? .. # .. joint|joints|line|lines|glueline|gluelines|area|bonding|gluing|plies|strips|lamination|faces|panel|metres"},
				{Weight: 3, Pattern: "glue|epoxy|pva|polyurethane|pu|pur|resin|adhesive|d3|d4 for #"},
				{Weight: 3, Pattern: "glue|epoxy|pva|polyurethane|resin|adhesive quantity|amount|needed|need|required"},
				{Weight: 3, Pattern: "mix|mixing|batch .. epoxy|resin|glue|resorcinol|uf"},
				{Weight: 2, Pattern: "how much|many"},
				{Weight: 2, Pattern: "# .. .|,|- glue|epoxy|pva|polyurethane|pu|pur|resin|resorcinol ? $"},
				{Weight: 1, Pattern: "glue|epoxy|pva|polyurethane|pu|pur|resin|resorcinol|adhesive|sealant|uf|d3|d4|hide|polymer"},
				{Weight: 1, Pattern: "joint|joints|line|lines|grams|spread"},
				{Weight: -6, Pattern: "coat|coats"},
				{Weight: -3, Pattern: "how long|soon"},
				{Weight: -8, Pattern: "=coats|varnish|lacquer|paint|primer|stain|sealer"},
				{Weight: -9, Pattern: "how many|much clamp|clamps|cramp|cramps|time|hours|minutes|days"},
				{Weight: -4, Pattern: "open|clamp|cramp time"},
			},
			Needs:  needs,
			Sizes:  []string{"length_mm", "width_mm"},
			Before: readSpread,
			After:  needArea,
		},
		Answer: answerGlueAmount,
	}
}

var facesWords = speech.NewVocabulary("faces", map[string][]string{
	"both": {"both faces", "both sides", "double spread", "each face", "two faces", "double"},
	"one":  {"one face", "single spread", "one side", "single"},
})

// readSpread takes grams per square metre for the spread, not for a mass of something.
func readSpread(r *speech.Reading) {
	readUse(r)
	passBeside(r)
	readHowMany(r)
	readOneJoint(r)
	if r.Says("# =strips|plies|layers|laminations|laminates|staves|strakes") || r.Says("# =boards|planks edge|side|together|glued") || r.Says("panel|top|board from|of|out # =boards|planks|staves|strips") {
		r.Word("counted", "layers")
	}
	readGlueFaces(r)
	for i := range r.Items {
		if !r.Free(i) {
			continue
		}
		q := *r.Items[i].Q
		if q.Kind == measure.KindMass && len(q.Per) == 1 && q.Per[0] == "m2" {
			q.Value = new(big.Rat).Mul(q.Base(), big.NewRat(1000, 1))
			q.Unit = nil
			q.Kind = measure.KindNumber
			r.Put("spread_g_m2", q)
			r.Claim(i)
		}
	}
}

// readOneJoint takes "it's one joint" for the count, which a larger number of boards would hide.
func readOneJoint(r *speech.Reading) {
	if !r.Request.Has("quantity") && r.Says("it's|its|is|only|just|makes|for|so =one|a|single glue? =joint|line|glueline") && r.Says("# =boards|pieces|planks|strips|halves|faces|sides") {
		r.Put("quantity", speech.Quantity{Kind: speech.KindCount, Value: big.NewRat(1, 1), Integer: true})
	}
}

// needArea asks for the glue and for the joints when they were not said.
func needArea(r *speech.Reading) {
	askWhichFigure(r)
	r.AskFor("length_mm", "How long and how wide is the joint, and how many of them?", "area_m2", "length_mm")
	if r.Request.Has("length_mm") && !r.Request.Has("area_m2") {
		r.AskFor("width_mm", "How wide is the glue line?", "width_mm")
	}
}

func answerGlueAmount(a *Ask) Answer {
	area, said := a.Float("area_m2")
	if !said {
		l, _ := a.Float("length_mm")
		w, _ := a.Float("width_mm")
		area = l * w / 1e6
	}
	lines, counted := a.glueLines()
	area *= float64(lines)
	g, known := a.glueOf()
	rate, stated := a.Float("spread_g_m2")
	if !known && !stated {
		return askFor("adhesive", "Which glue?")
	}
	faces := map[string]glue.Faces{"both": glue.BothFaces, "one": glue.OneFace}[a.Word("faces")]
	m, err := g.Amount(glue.Spreading{AreaM2: area, Faces: faces, GM2: rate})
	if err != nil {
		return ask(err.Error())
	}
	name := midSentence(g.Name)
	if !known {
		name = "glue"
	}
	spread := "single spread"
	if m.BothFaces {
		spread = "both faces spread"
	}
	ans := say(fmt.Sprintf("%s g of %s for %s m²", gramsText(m.Grams), name, measure.Decimal(m.AreaM2, 3)))
	ans.Values["area_m2"], ans.Values["glue_g"] = m.AreaM2, m.Grams
	source := "common practice; the data sheet comes first"
	if stated {
		source = "as you said"
	}
	if counted != "" {
		ans.line(counted)
	}
	ans.line(fmt.Sprintf("%s g/m² of joint, %s (%s), each joint counted once, and 10 %% for pot and brush.", measure.Decimal(m.GM2, 0), spread, source))
	a.useCaution(&ans)
	rateFrom := g.SpreadGM2
	if m.BothFaces {
		rateFrom = g.BothGM2
	}
	from := knownBy(rateFrom)
	if stated {
		from = "as you said"
	}
	ans.because(
		fmt.Sprintf("%s m² × %s g/m² × %s = %s g.", measure.Decimal(m.AreaM2, 4), measure.Decimal(m.GM2, 0), measure.Decimal(1+glue.WasteShare, 2), measure.Decimal(m.Grams, 1)),
		"Spread: "+from+".", "Rule of thumb, no source: a tenth stays in pot and brush.")
	for _, c := range g.Cautions {
		ans.caution(c)
	}
	return ans
}

// glueLines counts the glue lines. Strips and boards glued to one another have one line fewer
// than there are of them.
func (a *Ask) glueLines() (lines int, counted string) {
	n := a.Count()
	if a.Word("counted") == allTogether && !a.Has("area_m2") {
		return 1, "The length is that of all joints together."
	}
	if a.Word("counted") == "layers" && n > 1 && !a.Has("area_m2") {
		return n - 1, fmt.Sprintf("%d of them have %s between them.", n, plural(n-1, "glue line", "glue lines"))
	}
	return n, ""
}

// midSentence writes a name as it stands inside a sentence: acronyms keep their capitals.
func midSentence(name string) string {
	if len(name) > 1 && name[1] >= 'a' && name[1] <= 'z' {
		return strings.ToLower(name[:1]) + name[1:]
	}
	return name
}

// gramsText rounds up to 5 g, above a kilogram to 50 g.
func gramsText(g float64) string {
	step := 5.0
	if g > 1000 {
		step = 50
	}
	return measure.Decimal(roundUp(g, step), 0)
}

func roundUp(v, step float64) float64 {
	n := v / step
	if whole := float64(int64(n)); n-whole < 1e-9 {
		return whole * step
	}
	return (float64(int64(n)) + 1) * step
}
