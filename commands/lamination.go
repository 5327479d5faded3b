package commands

import (
	"fmt"
	"math"
	"math/big"

	"fettle/calc/arc"
	"fettle/calc/bend"
	"fettle/calc/clamp"
	"fettle/calc/glue"
	"fettle/calc/measure"
	"fettle/calc/wood"
	"fettle/commands/speech"
)

func lamination() *Topic {
	return &Topic{
		Title:    "plies, form and strips of a laminated bow",
		Examples: []string{"laminate a bow 40 thick to 1800 radius in ash", "how many plies for 36 thick oak on a 1.9 m radius, 45 wide, 2.3 m round", "bow 30 thick, radius 900, sapele: what springback, does epoxy stay open long enough"},
		Form: speech.Form{
			Name: "lamination", Exact: true,
			Cues: []speech.Cue{
				{Weight: -5, Pattern: "quantity|amount|grams|much of? glue|epoxy|pva|polyurethane|pu|resin|adhesive"},
				{Weight: 3, Pattern: "how thin"},
				{Weight: 2, Pattern: "strips|plies|laminae|layers"},
				{Weight: 4, Pattern: "laminate|laminated|laminating|laminates"},
				{Weight: 3, Pattern: "lamination|laminations"},
				{Weight: 5, Pattern: "how many|much|thick|thin plies|ply|layers|laminae|laminations|veneers|strips"},
				{Weight: 4, Pattern: "how thick|thin|many .. strips|strip|plies|ply|layers|laminae|veneers"},
				{Weight: 4, Pattern: "strips|plies|layers|laminae .. radius|bend|bow|bows|bent|curve|curved"},
				{Weight: 4, Pattern: "bow|bows|bend|bent|bending|curve|curved .. strips|plies|layers|laminae"},
				{Weight: 5, Pattern: "springback|spring-back"},
				{Weight: 5, Pattern: "spring -? back|open"},
				{Weight: 3, Pattern: "bow|bows|bend|bent|bending .. radius"},
				{Weight: 3, Pattern: "thick .. radius"},
				{Weight: 2, Pattern: "bend|bends|bent|bending|form|former|plies|laminae"},
				{Weight: 1, Pattern: "bow|bows|radius"},
				{Weight: -6, Pattern: "clamps|cramps|clamp|cramp for|to|do|enough|need|spacing"},
				{Weight: -6, Pattern: "how many|much clamps|cramps|glue|epoxy|pva|resin"},
				{Weight: -6, Pattern: "how long|soon|when"},
				{Weight: -6, Pattern: "open time"},
				{Weight: -4, Pattern: "chord|ordinates|mitre"},
				{Weight: -6, Pattern: "add|drop|note|remember|glued|is|are cut|sag|shelf|rough"},
			},
			Needs: append(bowNeeds(), useNeed, speech.Need{Name: "kerf_mm", Kind: measure.KindLength, Label: "kerf", Min: 0.5, Max: 8, Roles: []string{"kerf of|is? #", "# kerf"}},
				speech.Need{Name: "angle_deg", Kind: measure.KindAngle, Label: "angle", Min: 1, Max: 360, Roles: []string{"through|over|of|for #angle", "#angle bend|arc|turn"}}),
			Sizes:  []string{"thickness_mm", "width_mm"},
			Before: readBow,
			After:  needBow,
		},
		Answer: answerLamination,
	}
}

func bowNeeds() []speech.Need {
	return []speech.Need{
		{Name: "quantity", Kind: speech.KindCount, Label: "bows", Min: 1, Max: 100, Roles: []string{"# =bows|bends|ribs|hoops|frames|arches"}},
		{Name: "thickness_mm", Kind: measure.KindLength, Label: "thickness", Min: 5, Max: 300,
			Roles: append([]string{"# deep", "# thick .. bow|lamination", "=moulded|molded|molding of|is|:|to? #", "# =moulded|molded", "laminate|laminating|bend|bending|it|bow # to"}, thicknessRoles...)},
		{Name: "radius_mm", Kind: measure.KindLength, Label: "radius", Min: 100, Max: 50000,
			Roles: []string{"# in? =radius|rad|r", "radius|rad|r of|is|:|=|about|a? #", "=radius of|for|at the|our|its|a? inside|inner? =curve|bend|bow|former|form|face? is|:|=? #", "to|on|round|around a|an|the? #", "bent|bend|curve|curved to|round|around a|an|the? #", "to|on|round|around a|an|the? .. # radius"}},
		{Name: "diameter_mm", Kind: measure.KindLength, Label: "diameter", Min: 200, Max: 100000, Own: true},
		{Name: "width_mm", Kind: measure.KindLength, Label: "width", Min: 6, Max: 600, Roles: append([]string{"=sided of|is|:|to? #", "# =sided"}, widthRoles...)},
		{Name: "length_mm", Kind: measure.KindLength, Label: "length round the curve", Min: 100, Max: 20000,
			Roles: append([]string{"# round|around|along the|its? curve|outside|form|bend|arc", "# round|around", "# along|round it", "# =along", "=length along|round|around of|is|:|=? #", "curve|arc of|is #", "length round|around|along|on the|its? curve|outside|form|bend|arc of|is|:|=? #"}, lengthRoles...)},
		{Name: "ply_mm", Kind: measure.KindLength, Label: "ply at hand", Min: 0.4, Max: 60,
			Roles: []string{"# plies|ply|strips|strip|layers|veneers|veneer|laminae|lams", "#length .. plies|strips|veneers|laminae", "plies|strips|layers|veneers of|at|are # thick?"}},
		{Name: "plies", Kind: speech.KindCount, Label: "plies", Min: 2, Max: 500, Own: true},
		{Name: "species", Kind: speech.KindWord, Label: "timber", Vocab: speciesWords},
		{Name: "adhesive", Kind: speech.KindWord, Label: "glue", Vocab: glueWords},
		{Name: "temperature_c", Kind: measure.KindTemperature, Label: "temperature", Min: coldestC, Max: warmestC, Sign: true, Own: true},
	}
}

// readBow reads "8 plies of 5": that many, so thick, which make the bow's thickness when it
// is not said; the warmth of the shop; and what the bow is for.
func readBow(r *speech.Reading) {
	readUse(r)
	claimAsides(r)
	passAll(r, "bow|rib|hoop|beam|arch # of #")
	readRadius(r)
	for need, p := range map[string]string{"thickness_mm": "# ( =thick|thickness|t|h", "width_mm": "# ( =w|wide|width|b"} {
		if i, ok := r.Find(p); ok {
			r.Set(need, i)
		}
	}
	if i, ok := r.Find("# plies|layers|laminae|veneers|lams of|at|, #length"); ok {
		r.Set("plies", i)
	} else if i, ok := r.Find("# plies|layers|laminae|veneers|strips of|at #"); ok && r.Alone(i) && r.Items[i].Q.Integer {
		r.Set("plies", i)
	} else if i, ok := r.Find("# =plies|laminae|laminations|layers"); ok && r.Alone(i) && r.Items[i].Q.Integer && r.Says("# =thick|thk") {
		r.Set("plies", i)
	}
	readRadiusOfArc(r)
	for _, p := range []string{"at|in|is about|around? #temperature", "#temperature", "at about|around? #angle"} {
		if i, ok := r.Find(p); ok && !r.Request.Has("temperature_c") && r.Sized("temperature_c", *r.Items[i].Q).Float() <= warmestC {
			r.Set("temperature_c", i)
		}
	}
}

// readRadius reads the radius by its own name before anything else takes its number.
func readRadius(r *speech.Reading) {
	for _, i := range r.All("=radius of|is|:|=|about|a? #") {
		if q := r.Items[i].Q; !r.Request.Has("radius_mm") && (q.Bare() || q.Kind == measure.KindLength) && !joined(r, i, "×") {
			r.Set("radius_mm", i)
		}
	}
	readRound(r)
}

// readRadiusOfArc works out the radius of a bow that was said by its chord and its rise.
func readRadiusOfArc(r *speech.Reading) {
	said := func(patterns []string) int {
		for _, p := range patterns {
			for _, i := range r.All(p) {
				if q := r.Items[i].Q; q.Value != nil && (q.Bare() || q.Kind == measure.KindLength) && !joined(r, i, "×") {
					return i
				}
			}
		}
		return -1
	}
	chord, rise := said(arcSaid["chord"]), said(arcSaid["rise"])
	if r.Request.Has("radius_mm") || chord < 0 || rise < 0 || chord == rise {
		return
	}
	c, h := r.Sized("radius_mm", *r.Items[chord].Q).Float(), r.Sized("radius_mm", *r.Items[rise].Q).Float()
	if got, err := (arc.Given{ChordMM: c, RiseMM: h}).Arc(); err == nil {
		u, _ := measure.UnitNamed("mm")
		n, _ := new(big.Rat).SetString(measure.Decimal(got.RadiusMM, 4))
		r.Put("radius_mm", speech.Quantity{Kind: measure.KindLength, Value: n, Unit: u})
		r.Claim(chord)
		r.Claim(rise)
	}
}

// tightBow is how many times its thickness a bow's radius is at least, for a bare number to be
// taken as it stands: common practice, no source.
const tightBow = 8

func needBow(r *speech.Reading) {
	thick, hasThick := r.Request.Length("thickness_mm")
	ply, hasPly := r.Request.Float("ply_mm")
	plies, counted := r.Request.Float("plies")
	switch {
	case hasThick && counted && plies > 0 && !hasPly:
		n, _ := new(big.Rat).SetString(measure.Decimal(thick.MM()/plies, 4))
		r.Request.Slots["ply_mm"] = speech.Slot{Num: n, Said: n, Unit: "mm"}
	case hasThick:
	case hasPly && counted:
		n, _ := new(big.Rat).SetString(measure.Decimal(ply*plies, 4))
		r.Request.Slots["thickness_mm"] = speech.Slot{Num: n, Said: n, Unit: "mm"}
	default:
		r.AskFor("thickness_mm", "How thick is the bow in all, and to which radius?", "thickness_mm")
	}
	if r.Request.Has("diameter_mm") && r.Anew("radius_mm") {
		r.Drop("diameter_mm")
	}
	radius := r.Request.Slots["radius_mm"]
	if !hasThick || radius.Num == nil || !radius.Bare || radius.Float() >= tightBow*thick.MM() || radius.Float()*10 > 50000 {
		return
	}
	as := func(unit string) speech.Request {
		c := r.Moved(nil)
		u, _ := measure.UnitNamed(unit)
		c.Slots["radius_mm"] = speech.Slot{Num: u.Base(radius.Said), Said: radius.Said, Unit: unit}
		return c
	}
	said, _ := radius.Said.Float64()
	r.Question = speech.Choice(fmt.Sprintf("A radius of %s is tight for that thickness. In which unit is it?", measure.Decimal(said, 2)),
		speech.Option{Label: "mm", Words: unitSayings["mm"], Request: as("mm")}, speech.Option{Label: "cm", Words: unitSayings["cm"], Request: as("cm")})
}

func answerLamination(a *Ask) Answer {
	fromArc := a.bowOfArc()
	if !a.Has("radius_mm") {
		return askFor("radius_mm", "To which radius, on the inner face?")
	}
	b, timber := a.bow()
	p, err := b.Plan()
	if err != nil {
		return ask(plainly(err))
	}
	ans := say(fmt.Sprintf("%s of %s; form radius %s, springs open by %s", plural(p.Plies, "ply", "plies"), a.plyText(p.PlyMM),
		a.text(p.FormRadiusMM, measure.Nearest), a.text(p.SpringMM, measure.Nearest)))
	ans.Values["plies"], ans.Values["ply_mm"], ans.Values["spring_mm"], ans.Values["form_radius_mm"] = p.Plies, p.PlyMM, p.SpringMM, p.FormRadiusMM
	if fromArc != "" {
		ans.line(fromArc)
	}
	a.useCaution(&ans)
	ans.caution("A bend on a form stores force: clamp from one end on, stand aside, release in the reverse order.")
	a.plyLines(&ans, b, p, timber)
	a.stripLines(&ans, b, p)
	if p.PlyMM < thinPly {
		ans.caution("Saw thin plies so that they fall free on the outer side of the blade, or with a thin-strip jig; push stick.")
	}
	a.bowReasons(&ans, b, p)
	return ans
}

// thinPly is below what a strip is apt to be thrown or shattered, in mm: common practice.
const thinPly = 8

// bowOfArc takes radius and angle from the person's last arc where no radius was said, and
// keeps them for what follows.
func (a *Ask) bowOfArc() string {
	if a.Has("radius_mm") {
		return ""
	}
	found, ok := a.lastArc()
	if !ok {
		return ""
	}
	slot := func(v float64, unit string) speech.Slot {
		n, _ := new(big.Rat).SetString(measure.Decimal(v, 4))
		return speech.Slot{Num: n, Said: n, Unit: unit}
	}
	a.Request.Slots["radius_mm"] = slot(found.RadiusMM, "mm")
	if !a.Has("length_mm") && !a.Has("angle_deg") {
		a.Request.Slots["angle_deg"] = slot(found.AngleDeg, "deg")
	}
	return fmt.Sprintf("Radius and length are those of your last arc, chord %s and rise %s.", a.text(found.ChordMM, measure.Nearest), a.text(found.RiseMM, measure.Nearest))
}

// mostBack bounds how many of the person's requests are looked through for an arc.
const mostBack = 10

// lastArc is the last arc that the person asked for at this place.
func (a *Ask) lastArc() (arc.Arc, bool) {
	before := int64(0)
	for range mostBack {
		e, ok, err := a.Tx.LastRequest(a.Place, a.WhoKey, before)
		if err != nil || !ok {
			return arc.Arc{}, false
		}
		if r := request(&e); r != nil && r.Topic == "arc" {
			chord, _ := r.Float("chord_mm")
			rise, _ := r.Float("rise_mm")
			radius, _ := r.Float("radius_mm")
			got, err := arc.Given{ChordMM: chord, RiseMM: rise, RadiusMM: radius}.Arc()
			return got, err == nil
		}
		before = e.ID
	}
	return arc.Arc{}, false
}

// bow gathers what was said of it.
func (a *Ask) bow() (b bend.Bow, timber wood.Species) {
	b.ThicknessMM, _ = a.Float("thickness_mm")
	b.RadiusMM, _ = a.Float("radius_mm")
	b.PlyMM, _ = a.Float("ply_mm")
	b.OutsideMM, _ = a.Float("length_mm")
	if b.OutsideMM == 0 {
		b.AngleDeg, _ = a.Float("angle_deg")
	}
	if s, ok := wood.Find(a.Word("species")); ok {
		timber = s
		b.Ratio = bend.RatioOf(s)
	}
	return b, timber
}

// plyText prints a ply to a tenth of a millimetre: a thicknesser is set finer than a rule is read.
func (a *Ask) plyText(mm float64) string {
	if a.Out() == measure.Imperial {
		return a.drill(mm)
	}
	return measure.Decimal(mm, 1) + " mm"
}

// plyLines says what sets the number of plies.
func (a *Ask) plyLines(ans *Answer, b bend.Bow, p bend.Plan, timber wood.Species) {
	ratio, of := b.Ratio, timber.Name
	if ratio == 0 {
		ratio, of = bend.HardwoodRatio, "Timber not said: a hardwood"
	}
	limit := b.RadiusMM / ratio
	ans.Values["ply_limit_mm"] = limit
	ans.line(fmt.Sprintf("%s: plies up to 1/%s of the radius, %s. The radius is the inner face's.", capital(of), measure.Decimal(ratio, 0), a.plyText(limit)))
	if b.PlyMM > limit {
		ans.line(fmt.Sprintf("Plies of %s are too thick for this bend.", a.plyText(b.PlyMM)))
	}
	if share := p.SpringMM / b.RadiusMM; share > bend.SpringShare+1e-9 {
		ans.line(fmt.Sprintf("Too thin a bow for more plies: it opens by %s %% of its radius.", measure.Decimal(100*share, 1)))
	}
	ans.line("Bend one dry ply first and make a trial piece: bows also creep, and move with damp.")
}

// stripLines says what to saw, and, where the sizes are known, glue and clamps.
func (a *Ask) stripLines(ans *Answer, b bend.Bow, p bend.Plan) {
	if p.StripLengthMM > 0 {
		ans.Values["strip_length_mm"], ans.Values["outside_mm"] = p.StripLengthMM, p.OutsideMM
	}
	width, hasWidth := a.Float("width_mm")
	if !hasWidth {
		length := ""
		if p.StripLengthMM > 0 {
			length = fmt.Sprintf(" of %s", a.text(p.StripLengthMM, measure.Up))
		}
		ans.line(fmt.Sprintf("Strips%s: %d and a spare for each bow. Say width%s for sawn sizes, glue and clamps.", length, p.Plies, orLength(p)))
		return
	}
	kerf, _ := a.Settings.length("kerf")
	if k, said := a.Length("kerf_mm"); said {
		kerf = k
	}
	s, err := p.Strips(bend.Sawing{WidthMM: width, KerfMM: kerf.MM(), Bows: a.Count()})
	if err != nil {
		ans.line(plainly(err))
		return
	}
	ans.Values["strips"], ans.Values["strip_thickness_mm"], ans.Values["strip_width_mm"], ans.Values["board_width_mm"] = s.Count, s.ThickMM, s.WidthMM, s.AcrossMM
	length := ""
	if p.StripLengthMM > 0 {
		length = a.text(p.StripLengthMM, measure.Up) + " × "
	}
	ans.line(fmt.Sprintf("Saw %d strips (a spare for each bow) %s%s × %s; with a %s kerf they take %s of board across.", s.Count, length,
		a.text(s.WidthMM, measure.Up), a.plyText(s.ThickMM), a.text(kerf.MM(), measure.Nearest), a.text(s.AcrossMM, measure.Up)))
	ans.line(fmt.Sprintf("That leaves %s to plane off a ply and %s of width to clean up.", a.plyText(bend.PlaneMM), a.text(bend.CleanMM, measure.Nearest)))
	if p.OutsideMM == 0 {
		ans.line("Say the length round the curve for strips, glue and clamps.")
		return
	}
	a.layUp(ans, b, p, s)
}

func orLength(p bend.Plan) string {
	if p.StripLengthMM > 0 {
		return ""
	}
	return " and length round the curve"
}

// layUp counts the clamps round the form and the glue, and says whether its open time does.
func (a *Ask) layUp(ans *Answer, b bend.Bow, p bend.Plan, s bend.Strips) {
	g, known := a.glueOf()
	j := clamp.Joint{LengthMM: p.OutsideMM, GlueWidthMM: s.WidthMM, ThroughMM: b.ThicknessMM, ForceN: a.Settings.clampForce()}
	_, j.DensityKgM3, _ = a.density()
	if need, err := clamp.PressureMPa(j.DensityKgM3); err == nil && known && g.HighMPa.Value > 0 {
		j.PressureMPa = min(need, g.HighMPa.Value)
	}
	c, err := j.Clamps()
	if err != nil {
		return
	}
	ans.Values["clamps"], ans.Values["spacing_mm"] = c.Clamps, c.SpacingMM
	ans.line(fmt.Sprintf("%s round the form, about %s apart, over a bending batten or strap.", plural(c.Clamps, "clamp", "clamps"), a.text(c.SpacingMM, measure.Down)))
	lines := float64(p.Plies - 1)
	area := lines * p.StripLengthMM * s.WidthMM / 1e6
	if !known {
		ans.line(fmt.Sprintf("%s m² of glue line a bow; name the glue for how much, and whether it stays open long enough.", measure.Decimal(area, 2)))
		return
	}
	m, err := g.Amount(glue.Spreading{AreaM2: area})
	if err != nil {
		return
	}
	ans.Values["area_m2"], ans.Values["glue_g"] = area*float64(a.Count()), m.Grams*float64(a.Count())
	ans.line(fmt.Sprintf("Glue: %s g of %s for the %d lines of a bow.", gramsText(m.Grams), midSentence(g.Name), p.Plies-1))
	a.openLongEnough(ans, g, area, c.Clamps)
}

// openLongEnough compares the glue's open time with what the lay-up takes.
func (a *Ask) openLongEnough(ans *Answer, g glue.Glue, area float64, clamps int) {
	temp, assumed := a.temperature(g)
	times, err := g.At(temp, math.NaN())
	if err != nil {
		ans.line("Don't glue: " + err.Error())
		return
	}
	takes, err := bend.LayUpMin(area, clamps)
	if err != nil {
		return
	}
	ans.Values["open_min"], ans.Values["lay_up_min"] = times.OpenMin, takes
	verdict := "it does."
	switch {
	case takes > 2*times.OpenMin:
		verdict = "it does not. Take a slower glue, or glue up in stages of a few plies."
	case takes > times.OpenMin:
		verdict = "alone you are too slow. Two people spreading, a roller and clamps laid ready, or a slower glue."
	}
	ans.line(fmt.Sprintf("%sOpen %s at %s °C against about %s to spread and clamp alone: %s", assumed, minutesDown(times.OpenMin), measure.Decimal(temp, 1), minutesText(takes), verdict))
	for _, c := range g.Cautions {
		ans.caution(c)
	}
}

func (a *Ask) bowReasons(ans *Answer, b bend.Bow, p bend.Plan) {
	n2 := p.Plies * p.Plies
	ans.because(fmt.Sprintf("Form = R × (1 − 1/n²) = %s × (1 − 1/%d) = %s mm: elastic plies and a stiff glue line, worked out; boatbuilders print the same for a camber (read there).",
		measure.Decimal(b.RadiusMM, 1), n2, measure.Decimal(p.FormRadiusMM, 1)))
	ans.because(fmt.Sprintf("Plies: radius over 100 for hardwood and 125 for softwood as in structural glulam (from memory), 125 for interlocked grain (common practice); %s %% of stretch at their face. Enough of them that the spring stays under %s %%.",
		measure.Decimal(p.StrainPct, 2), measure.Decimal(100*bend.SpringShare, 0)))
	ans.because("Planing, cleaning up, spare strip, clamps and lay-up time: common practice, no source.")
}
