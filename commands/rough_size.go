package commands

import (
	"fmt"
	"strings"

	"fettle/calc/measure"
	"fettle/calc/piece"
	"fettle/calc/rough"
	"fettle/commands/speech"
)

// Plausible sizes of parts and boards in a fit-out, in mm; common practice, no source.
const (
	shortestPart, longestPart  = 10, 6500
	narrowestPart, widestPart  = 8, 700
	thinnestPart, thickestPart = 4, 160
	mostParts                  = 10000
)

var (
	lengthRoles    = []string{"# long", "# in|of? the? =length", "# is|for|as|that's|, that's|that|is? the|its =length", "=length of|is|:|=|are|about? #", "=length of each|every|all|the|a joint|board|piece|glueline|one? is|:? #", "# from? =end|tip to =end|tip", "=length #", "long|length is|: #", "long #length", "# =tall"}
	widthRoles     = []string{"# wide", "# in|of? the? =width", "# is|for|as|that's|, that's|that|is? the|its =width", "=width of|is|:|=|are? #", "=width of each|every|all|the|a board|piece|plank|one? is|:? #", "=width #", "wide #", "# broad|breadth", "breadth of|is|:|=? #", "# across? the =face|grain", "# from? =edge to =edge"}
	thicknessRoles = []string{"# thick", "# rough|sawn? =stock|stuff", "# in|of? the? =thickness", "# is|for|as|that's|, that's|that|is? the|its =thickness", "=thickness of|is|:|=|are? #", "=thickness of each|every|all|the|a board|piece|plank|one? is|:? #", "=thickness #", "thick #"}
)

// partNeeds are the needs of a piece of timber. deep tells whether "deep" is its thickness.
func partNeeds(shortest float64) []speech.Need {
	return []speech.Need{
		{Name: "quantity", Kind: speech.KindCount, Label: "quantity", Min: 1, Max: mostParts, Roles: []string{"quantity|qty of|:? #", "pieces|pcs|count of|:|=? # $|,|.|;", "=pieces|pcs|planks|boards|number|count|lengths : #", "# of them|these|those|each"}},
		{Name: "length_mm", Kind: measure.KindLength, Label: "length", Min: shortest, Max: longestPart, Roles: lengthRoles},
		{Name: "width_mm", Kind: measure.KindLength, Label: "width", Min: narrowestPart, Max: widestPart, Roles: widthRoles},
		{Name: "thickness_mm", Kind: measure.KindLength, Label: "thickness", Min: thinnestPart, Max: thickestPart, Roles: thicknessRoles},
		{Name: "species", Kind: speech.KindWord, Label: "timber", Vocab: speciesWords},
	}
}

func roughSize() *Topic {
	return &Topic{
		Title:    "rough sizes to saw out, from finished sizes",
		Examples: []string{"rough size for 600 by 45 finished", "6 slats at 830 x 70 x 22, what rough?", "rough size for 600 x 45 x 22, allow 50 on the length"},
		Form: speech.Form{
			Name: "rough-size", Exact: true,
			Cues: []speech.Cue{
				{Weight: 4, Pattern: "in the =rough"},
				{Weight: 5, Pattern: "how much|what over|extra|oversize|allowance|spare|bigger .. leave|add|allow|have|on|for"},
				{Weight: 4, Pattern: "what|which sawn|rough|raw thickness|width|length|size"},
				{Weight: 4, Pattern: "#size .. when|once planed|finished|done|ready|machined"},
				{Weight: 3, Pattern: "rough|sawn|sawing|cutting list size|sizes"},
				{Weight: 4, Pattern: "what|which|how thick|thickness|wide|width .. start|need|buy|begin .. finished|clean|planed|done|ready"},
				{Weight: 5, Pattern: "^ rough|roughs|sawn|blank :"},
				{Weight: -5, Pattern: "rough|sawn board|plank|stock|beam|slab|timber .. finish|finishes|clean|plane|come|end at|to|up|out"},
				{Weight: 5, Pattern: "rough|raw|sawn|sawing|blank size|sizes|dims|dim|cut|measure|measures|measurement|measurements|dimension|dimensions"},
				{Weight: 4, Pattern: "what|which|how rough"},
				{Weight: 4, Pattern: "how big|large|long|wide|thick .. rough|saw|blank|blanks|raw"},
				{Weight: 4, Pattern: "cut|saw|leave|make it|them|this|these|that|those|one|her raw|rough|oversize"},
				{Weight: 4, Pattern: "what|which|where|how .. start from|with|out"},
				{Weight: 4, Pattern: "what|which|how .. saw|rough|cut|mill|machine it|them|this|these|that|those|one|her out|from"},
				{Weight: 4, Pattern: "saw|cut|rough it|them|this|these|out out? at|to|oversize"},
				{Weight: 3, Pattern: "roughed|rough|sawn|oversize out|cut|to|down at|to|for|from|size?"},
				{Weight: 3, Pattern: "what .. cut|saw|rough out|from|to|at"},
				{Weight: 3, Pattern: "how much|big|large oversize|over|bigger|extra"},
				{Weight: 3, Pattern: "size|sizes|dimensions|measure|board|timber|stock .. before planing|machining|finishing|planed"},
				{Weight: 3, Pattern: "size|stock|board|timber|blank|blanks|piece|plank to start|buy|saw|get|pull|take|pick|fetch|need"},
				{Weight: 3, Pattern: "rough .. for|from #"},
				{Weight: 3, Pattern: "# .. finished|planed|ready|par|pse .. rough|raw|sawn|oversize"},
				{Weight: 3, Pattern: "rough|sawn size|sizes? $"},
				{Weight: 3, Pattern: ",|- rough|sawn|raw $"},
				{Weight: 2, Pattern: "^ rough|roughs|roughing|sawn"},
				{Weight: 2, Pattern: "rough|raw|sawn .. finished|finish|planed|ready|done"},
				{Weight: 2, Pattern: "finish|finished|finishing|finishes at|to|size|sizes? #"},
				{Weight: 1, Pattern: "finished|finish|planed|nett|net|par|ready|done"},
			},
			Needs:  append(partNeeds(shortestPart), allowanceNeed("length"), allowanceNeed("width"), allowanceNeed("thickness"), useNeed),
			Sizes:  []string{"length_mm", "width_mm", "thickness_mm"},
			Items:  true,
			Before: readSizeRequest,
			After:  sizesOfPiece("What are the finished sizes: length × width × thickness?"),
		},
		Answer: answerRough,
	}
}

// readSizeRequest reads the allowances, and what the piece is for.
func readSizeRequest(r *speech.Reading) {
	readUse(r)
	passOpenings(r)
	passBeside(r)
	passPaid(r)
	passJoints(r)
	readAllowances(r)
	passSomeOf(r)
	readHowMany(r)
	askWhichSize(r)
	askUnlike(r)
}

// sizesOfPiece asks for the sizes of a piece when none were said, and sorts out two numbers
// that may be a length and a width or a width and a thickness.
func sizesOfPiece(question string) func(*speech.Reading) {
	return func(r *speech.Reading) {
		if len(r.Request.Items) > 0 {
			return
		}
		r.AskFor("length_mm", question, "length_mm", "width_mm", "thickness_mm")
		if one := asked(r); one != "" && r.OnlyGuessed("length_mm", "width_mm", "thickness_mm") {
			r.Request = r.Moved(map[string]string{"length_mm": one + "_mm"})
		} else if r.OnlyGuessed("length_mm", "width_mm", "thickness_mm") {
			r.AskFor("width_mm", "If that is the length: how wide, and how thick?", "width_mm")
		}
		pair(r)
		widerFirst(r)
	}
}

// asked names the dimension that alone is asked about ("what thickness do I start with for 35
// finished"), or that a single number before "board" or "plank" must be.
func asked(r *speech.Reading) string {
	if one := soleAllowance(r); one != "" {
		return one
	}
	for _, d := range []string{"thickness", "width", "length"} {
		if r.Says("what|which|how rough|sawn|raw? ="+d) || r.Says("rough|sawn|raw|finished ="+d+" for|of") || r.Says("how "+map[string]string{"thickness": "thick", "width": "wide", "length": "long"}[d]) {
			return d
		}
	}
	l, _ := r.Request.Length("length_mm")
	if l <= thickestStock && r.Says("# =plank|board|slab|stock|stuff|timber|oak|ash|larch|sapele|pine|planks|boards") {
		return "thickness"
	}
	return ""
}

// thickestStock is up to which a single number before "plank" is its thickness: common
// practice, no source.
const thickestStock = 110 * measure.Millimetre

// soleAllowance names the dimension when allowances were said for that one alone.
func soleAllowance(r *speech.Reading) string {
	one := ""
	for _, d := range dimensions {
		if r.Request.Has(d.name + "_allowance_mm") {
			if one != "" {
				return ""
			}
			one = d.name
		}
	}
	return one
}

// sectionWidest and sectionThickest bound what two bare numbers may be as a width and a
// thickness: common practice, no source.
var (
	sectionWidest   = 300 * measure.Millimetre
	sectionThickest = 60 * measure.Millimetre
)

// pair reads "150 by 27": where the losses named are those of faces and edges it is a
// section; where it may be either, the person is asked.
func pair(r *speech.Reading) {
	if !r.Paired("length_mm", "width_mm") && !pairWithUnits(r) || r.Request.Has("thickness_mm") {
		return
	}
	long, _ := r.Request.Length("length_mm")
	wide, _ := r.Request.Length("width_mm")
	section := func() speech.Request {
		return r.Moved(map[string]string{"length_mm": "width_mm", "width_mm": "thickness_mm"})
	}
	losses := r.Request.Has("thickness_allowance_mm") && !r.Request.Has("length_allowance_mm")
	either := wide < long && long <= sectionWidest && wide <= sectionThickest
	switch {
	case long < wide && long <= sectionThickest && wide <= sectionWidest: // 27 × 110
		r.Request = r.Moved(map[string]string{"length_mm": "thickness_mm", "width_mm": "width_mm"})
	case losses, either && (r.Says("plank|board|stick|baulk of? #size") || r.Says("#size plank|board")):
		r.Request = section()
	case either:
		r.Question = speech.Choice("Is that a width and a thickness, or a length and a width?",
			speech.Option{Label: "width × thickness", Words: []string{"section", "width and thickness", "thickness", "width by thickness"}, Request: section()},
			speech.Option{Label: "length × width", Words: []string{"length", "length and width", "length by width"}, Request: r.Moved(nil)})
	}
}

// pairWithUnits says whether a length and a width were said in a row with units and no role: 28 mm by 130 mm.
func pairWithUnits(r *speech.Reading) bool {
	length, width := r.Request.Slots["length_mm"], r.Request.Slots["width_mm"]
	return length.Num != nil && width.Num != nil && !length.Bare && !width.Bare && r.Holds(length) && r.Holds(width) && withoutRole(r, length) && withoutRole(r, width) && !r.Says("=long|length|tall")
}

// answerRough adds the allowances to every item and says what to saw out.
func answerRough(a *Ask) Answer {
	if len(a.Request.Items) > 0 {
		return answerRoughItems(a)
	}
	out := a.Out()
	x := a.allowances()
	finished := a.size()
	raw, err := rough.Rough(finished, x.Allowances)
	if err != nil {
		return ask(err.Error())
	}
	ans := say("")
	a.sawnFor(&ans, &raw, x, out)
	count := a.Count()
	values(&ans, "rough_", raw)
	if v := raw.VolumeM3(); v > 0 {
		ans.Values["volume_m3"] = v * float64(count)
	}
	head := "Rough " + sizeText(out, raw, measure.Up)
	if count > 1 {
		head += " each, " + fmt.Sprint(count) + " off"
	}
	ans.Answer = head
	ans.line("Allowances: " + x.describe(out, known(finished)) + ".")
	a.gang(&ans, finished, x, count, out)
	a.machineCautions(&ans, raw, finished)
	ans.because(sumText(out, finished, "+", x.Allowances, raw))
	a.sawnReason(&ans, finished, x, raw, out)
	ans.because(x.reason(), "Order of work (common practice): "+orderOfWork())
	return ans
}

// sumText writes the allowances as sums: 600 + 100 = 700 long.
func sumText(out measure.System, from piece.Size, sign string, x rough.Allowances, to piece.Size) string {
	var parts []string
	for _, d := range []struct {
		from, allowance, to measure.Length
		name                string
	}{{from.Length, x.Length, to.Length, "long"}, {from.Width, x.Width, to.Width, "wide"}, {from.Thickness, x.Thickness, to.Thickness, "thick"}} {
		if d.from == 0 {
			continue
		}
		exact, link := d.from+d.allowance, "="
		if sign == "−" {
			exact = d.from - d.allowance
		}
		if exact != d.to {
			link = "→" // the sawn size above it
		}
		parts = append(parts, fmt.Sprintf("%s %s %s %s %s %s", out.Exact(d.from), sign, out.Exact(d.allowance), link, out.Exact(d.to), d.name))
	}
	return strings.Join(parts, "; ") + "."
}

// reason says where the allowances are from.
func (x allowances) reason() string {
	for _, d := range dimensions {
		if !x.own[d.name] {
			return "Allowances that nobody set are a rule of thumb, common practice without a source."
		}
	}
	return "The allowances are your own."
}

// sawnReason says where the sawn thickness is from, and how short parts are ganged.
func (a *Ask) sawnReason(ans *Answer, finished piece.Size, x allowances, raw piece.Size, out measure.System) {
	if _, own := a.Settings.sawn(); own && raw.Thickness > 0 {
		ans.because("Sawn thicknesses: your merchant's, as you set them.")
	} else if raw.Thickness > finished.Thickness+x.Thickness {
		ans.because("Sawn thickness: the next one of EN 1313-2 (from memory).")
	}
	if n, ganged := ans.Values["per_blank"].(int); ganged {
		kerf, _ := a.Settings.length("kerf")
		ans.because(fmt.Sprintf("Blank: %d × %s + %d × %s kerf + %s for the ends, and never under the shortest piece for the machines (300 mm: HSE on the surface planer, read there).",
			n, out.Exact(finished.Length), n-1, out.Exact(kerf), out.Exact(x.Length)))
	}
}

// orderOfWork is the steps of machining in one line.
func orderOfWork() string {
	steps := rough.Steps()
	for i, s := range steps {
		steps[i] = strings.ToLower(s[:1]) + strings.TrimSuffix(s[1:], ".")
	}
	return strings.Join(steps, " → ") + "."
}

// size gives the three sizes that were said.
func (a *Ask) size() piece.Size {
	l, _ := a.Length("length_mm")
	w, _ := a.Length("width_mm")
	t, _ := a.Length("thickness_mm")
	return piece.Size{Length: l, Width: w, Thickness: t}
}

func known(s piece.Size) map[string]bool {
	return map[string]bool{"length": s.Length > 0, "width": s.Width > 0, "thickness": s.Thickness > 0}
}

// sizeText prints the sizes that are known.
func sizeText(out measure.System, s piece.Size, r measure.Rounding) string {
	var ls []measure.Length
	var names []string
	for _, d := range []struct {
		l    measure.Length
		name string
	}{{s.Length, "long"}, {s.Width, "wide"}, {s.Thickness, "thick"}} {
		if d.l > 0 {
			ls = append(ls, d.l)
			names = append(names, d.name)
		}
	}
	text := out.Sizes(r, ls...)
	if s.Length == 0 || s.Width == 0 {
		if len(names) == 1 {
			return text + " " + names[0]
		}
		return text + " (" + strings.Join(names, " × ") + ")"
	}
	return text
}

func values(ans *Answer, prefix string, s piece.Size) {
	for name, l := range map[string]measure.Length{"length_mm": s.Length, "width_mm": s.Width, "thickness_mm": s.Thickness} {
		if l > 0 {
			ans.Values[prefix+name] = l.MM()
		}
	}
}

// sawnFor takes the thickness up to the next sawn size. Where the people gave their own
// allowance and no sizes of their merchant, the sum stands and the sawn size is only named.
func (a *Ask) sawnFor(ans *Answer, raw *piece.Size, x allowances, out measure.System) {
	if raw.Thickness == 0 {
		return
	}
	sizes, ownSizes := a.Settings.sawn()
	next, ok := rough.NextSawn(raw.Thickness, sizes)
	if !ok {
		ans.caution(fmt.Sprintf("No sawn size is as thick as %s: glue it up, or ask the merchant.", out.Text(raw.Thickness, measure.Up)))
		return
	}
	ans.Values["sawn_thickness_mm"] = next.MM()
	if x.said["thickness"] || x.own["thickness"] && !ownSizes {
		ans.line("Next sawn thickness: " + out.Text(next, measure.Up) + ".")
		return
	}
	if next != raw.Thickness {
		ans.line(fmt.Sprintf("Thickness: at least %s, so the sawn size %s.", out.Text(raw.Thickness, measure.Up), out.Text(next, measure.Up)))
	}
	raw.Thickness = next
}

// gang says how short parts are machined together, and when that saves timber.
func (a *Ask) gang(ans *Answer, finished piece.Size, x allowances, count int, out measure.System) {
	if finished.Length == 0 {
		return
	}
	kerf, _ := a.Settings.length("kerf")
	minimum, _ := a.Settings.length("machine_minimum")
	longest, _ := a.Settings.length("longest_blank")
	g, err := rough.Gang{Quantity: count, Part: finished.Length, Kerf: kerf, EndAllowance: x.Length,
		Limits: rough.Limits{MachineMinimum: minimum, LongestBlank: longest}}.Plan()
	if err != nil {
		return
	}
	if g.Short {
		blank := g.Each[0].Length
		ans.Values["blanks"], ans.Values["per_blank"], ans.Values["blank_length_mm"] = g.Blanks, g.PerBlank, blank.MM()
		ans.line(fmt.Sprintf("Under %s a part is too short for the machines: machine %s and cut the parts out last.", out.Text(minimum, measure.Nearest), blanksText(g, out)))
		ans.caution(shortStock(out, minimum))
		return
	}
	if g.Saving > 0 && count > 1 {
		ans.line(fmt.Sprintf("End to end in %s saves %s of length.", blanksText(g, out), out.Text(g.Saving, measure.Down)))
	}
}

func blanksText(g rough.Ganging, out measure.System) string {
	var parts []string
	for _, b := range g.Each {
		parts = append(parts, fmt.Sprintf("%s of %s (%s each)", plural(b.Count, "blank", "blanks"), out.Text(b.Length, measure.Up), plural(b.Parts, "part", "parts")))
	}
	return strings.Join(parts, " and ")
}

// mostReasons bounds the items that are explained one by one.
const mostReasons = 4

// answerRoughItems answers several sizes at once; the values are the totals.
func answerRoughItems(a *Ask) Answer {
	ans := say("")
	var volume float64
	total := 0
	for k, it := range a.Request.Items {
		one := *a
		one.Request = it
		for name, s := range a.Request.Slots {
			if !it.Has(name) {
				one.Request.Slots[name] = s
			}
		}
		part := answerRough(&one)
		if part.Question != "" {
			return part
		}
		ans.line(understood(it, a.Form) + " → " + strings.TrimPrefix(part.Answer, "Rough "))
		for _, c := range part.Cautions {
			ans.caution(c)
		}
		if k < mostReasons {
			ans.because(part.reasons...)
		}
		total += one.Count()
		if v, ok := part.Values["volume_m3"].(float64); ok {
			volume += v
		}
	}
	ans.Answer = fmt.Sprintf("Rough sizes for %s below", plural(total, "part", "parts"))
	ans.Values["quantity"] = total
	if volume > 0 {
		ans.Values["volume_m3"] = volume
		ans.Answer += fmt.Sprintf(" (%s m³ in all)", measure.Decimal(volume, 4))
	}
	return ans
}
