package commands

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"fettle/calc/fasten"
	"fettle/calc/measure"
	"fettle/calc/wood"
	"fettle/commands/speech"
)

// baseWords are kinds of stuff to screw into that are no timbers.
var baseWords = speech.NewVocabulary("base", map[string][]string{
	"hardwood":  {"hard wood", "a hardwood"},
	"softwood":  {"soft wood", "deal", "whitewood"},
	"plywood":   {"ply", "birch ply", "marine ply"},
	"mdf":       {"fibreboard", "fiberboard"},
	"chipboard": {"particle board", "particleboard", "osb"},
})

const askScrew = "Which screw: how thick in mm, or which gauge?"

func screw() *Topic {
	return &Topic{
		Title:    "pilot, clearance, plug and length of a screw",
		Examples: []string{"pilot for a 4 mm screw in sapele through 18 into 30", "no 8 screws, larch board 20 thick into a 40 joist, what drills", "counterbore for 10 mm pellets, 5 x 60 screws, rail 28 thick"},
		Form: speech.Form{
			Name: "screw", Exact: true,
			Cues: []speech.Cue{
				{Weight: 5, Pattern: "pilot|pilots|pilothole|predrill"},
				{Weight: 5, Pattern: "pre -? drill"},
				{Weight: 5, Pattern: "counterbore|counterbores|counterboring|counterbored|countersink|countersunk|csk"},
				{Weight: 4, Pattern: "clearance hole|holes|drill|bit"},
				{Weight: 4, Pattern: "screw|screws .. drill|drills|bit|bits|hole|split|splits|splitting|crack|cracks"},
				{Weight: 4, Pattern: "drill|drills|bit|bits|hole|holes|split|splits|splitting .. screw|screws"},
				{Weight: 4, Pattern: "what|which|how length|long|size|sizes|big|thick|gauge? .. screw|screws"},
				{Weight: 3, Pattern: "screw|screws into|through|onto"},
				{Weight: 3, Pattern: "screw|screws .. through|into|onto"},
				{Weight: 3, Pattern: "plug|plugs|pellet|pellets|bung|bungs size|sizes|for|over"},
				{Weight: 3, Pattern: "screw|screws .. size|sizes|long|length|enough|too"},
				{Weight: 3, Pattern: "coach|lag screw|screws"},
				{Weight: 5, Pattern: "#gauge"},
				{Weight: 2, Pattern: "screw|screws"},
				{Weight: 2, Pattern: "plug|plugs|pellet|pellets|bung|bungs|bunged|plugged"},
				{Weight: 5, Pattern: "through|thru # .. into|onto"},
				{Weight: 1, Pattern: "drill|drills|drilling|bit|size"},
				{Weight: -6, Pattern: "space|spaced|spacing|evenly|equally|apart|centres|centers|along|each|both|either end|ends|way"},
				{Weight: -4, Pattern: "evenly|equally|spacing|spaced"},
				{Weight: -6, Pattern: "note|remember|add|buy|cost|price|weigh|who|cut"},
				{Weight: -4, Pattern: "glue|epoxy|pva|polyurethane|clamp|clamps"},
			},
			Needs: append(screwNeeds(), []speech.Need{
				{Name: "plugged", Kind: speech.KindWord, Label: "plugged", Own: true},
				{Name: "coach", Kind: speech.KindWord, Label: "coach screw", Own: true},
				{Name: "held_species", Kind: speech.KindWord, Label: "held", Own: true},
				{Name: "base", Kind: speech.KindWord, Label: "base", Vocab: baseWords},
				{Name: "about", Kind: speech.KindWord, Own: true},
				useNeed,
			}...),
			Sizes:  []string{"thickness_mm"},
			Before: readScrew,
			After:  needScrew,
		},
		Answer: answerScrew,
	}
}

// screwThickest is the thickest screw, in mm; a bare size above it is a length.
const screwThickest = 12.5

func screwNeeds() []speech.Need {
	return []speech.Need{
		{Name: "quantity", Kind: speech.KindCount, Label: "quantity", Min: 1, Max: mostParts, Own: true},
		{Name: "gauge", Kind: speech.KindGauge, Label: "gauge", Min: 0, Max: 24, Roles: []string{"gauge of|is|:|=? #"}},
		{Name: "screw_mm", Kind: measure.KindLength, Label: "screw", Min: 1.4, Max: screwThickest,
			Roles: []string{"screw|screws size? is|are|of|: # ", "screw|screws size # ", "screw|screws # thick", "# screw|coach|lag|csk|countersunk|woodscrew", "# diameter|dia|ø|⌀", "diameter|dia|ø|⌀ of|:|=? #"}},
		{Name: "screw_length_mm", Kind: measure.KindLength, Label: "screw length", Min: 8, Max: 400, Roles: []string{"screw|screws .. # long", "# long screw|screws"}},
		{Name: "thickness_mm", Kind: measure.KindLength, Label: "thickness", Min: 2, Max: 200,
			Roles: append([]string{"through|thru a|an|the? #", "# rail|slat|board|batten|boarding|cladding|lining|sheet|strip|cleat|top .. to|into|onto|on|in", "# .. into|onto|to|on #", "fix|fixing|hold|holding|attach|screw|screwing a|an|the? #", "# stock|piece"}, thicknessRoles...)},
		{Name: "into_mm", Kind: measure.KindLength, Label: "into", Min: 2, Max: 500,
			Roles: []string{"# joist|post|stud|base|bearer|frame|ledger|beam"}},
		{Name: "sink_mm", Kind: measure.KindLength, Label: "counterbore depth", Min: 1, Max: 60, Roles: []string{"counterbore|counterbored|sunk|sink|counterboring of|to|by|is? # deep?", "# deep counterbore|pocket"}},
		{Name: "plug_mm", Kind: measure.KindLength, Label: "plug", Min: 4, Max: 60, Roles: []string{"# plug|plugs|pellet|pellets|bung|bungs", "plugs|pellets|bungs of|are|: #"}},
		{Name: "end_mm", Kind: measure.KindLength, Label: "from the end", Min: 1, Max: 2000, Roles: []string{"# in? from|off|to an|the|each? =end|ends"}},
		{Name: "edge_mm", Kind: measure.KindLength, Label: "from the edge", Min: 1, Max: 1000, Roles: []string{"# in? from|off|to an|the|each? =edge|edges|side"}},
		{Name: "species", Kind: speech.KindWord, Label: "timber", Vocab: speciesWords},
	}
}

// readScrew reads how screws are named, 4 × 50 and no 8, and which of two timbers the thread
// sits in.
func readScrew(r *speech.Reading) {
	readUse(r)
	claimAsides(r)
	claimPitch(r)
	readScrewCorrected(r)
	pluralScrews(r)
	readScrewWords(r)
	readGauges(r)
	readScrewSize(r)
	readScrewLength(r)
	readNamedScrew(r)
	claimHoles(r)
	readBase(r)
	readSections(r)
	readTopAndBehind(r)
	readHeldOn(r)
	readPieces(r)
	readLayers(r)
	for _, p := range []string{"into|onto a|an|the|my? #", "into|onto .. #", "into|in|onto|to|on a|an|the .. that|which|what is|are|measures #", "# over .. #", "# .. on|to a|an|the|my? #"} {
		if i, ok := behind(r, p); ok && !r.Request.Has("into_mm") {
			r.Set("into_mm", i)
		}
	}
	if r.Says("how far|close|near") || r.Says("split|splits|splitting") {
		r.Word("about", "edges")
	}
	if r.Says("plug|plugs|plugged|plugging|bung|bungs|bunged|pellet|pellets|counterbore|counterbored|counterboring|cover|covered|hide|hidden|sunk") {
		r.Word("plugged", "plugged")
	}
	if r.Says("coach|lag") {
		r.Word("coach", "coach")
	}
}

// claimPitch sets aside how far apart the screws stand.
func claimPitch(r *speech.Reading) {
	for _, p := range []string{"# apart|oc|ctrs|crs|centres|centers|pitch|spacing", "# c / c", "# o / c", "# centre|center to centre|center", "at|every # mm? intervals", "every|each #length"} {
		for _, i := range r.All(p) {
			r.Claim(i)
		}
	}
}

// readNamedScrew reads "the screw is a 4 mm".
func readNamedScrew(r *speech.Reading) {
	named := r.All("the|my|our|this|these screw|screws is|are|being? a|an|about? #")
	for _, i := range append(named, r.All("=screw's a|an|about? #")...) {
		if size := r.Sized("screw_mm", *r.Items[i].Q); !r.Request.Has("screw_mm") && size.Num != nil && size.Float() <= screwThickest && r.Items[i].Q.Kind != speech.KindGauge {
			r.Set("screw_mm", i)
		}
	}
}

// readLayers reads the two pieces by where they lie: the upper one is held, the lower one holds.
func readLayers(r *speech.Reading) {
	piece := " member|piece|board|part|one|layer|timber|bit? is|are|of|:|=|being? a|an? #"
	for _, p := range []struct{ need, pattern string }{
		{"thickness_mm", "upper|top|held|front|outer" + piece}, {"thickness_mm", "piece|board|member|one|bit|part on =top is|:|=|of? #"},
		{"into_mm", "lower|bottom|under|underneath|rear|inner|base" + piece}, {"into_mm", "piece|board|member|one|bit|part below|underneath|behind|under|beneath is|:|=|of? #"},
		{"into_mm", "joist|post|stud|bearer|frame|ledger|beam|bracket of|is|are|:|=|being? #"},
		{"thickness_mm", "# plank|board|piece|slat|strip on =top"},
		{"thickness_mm", "plank|planks|cleat|strip|slat|slats|board|boards|boarding|cladding|lining|shelf|deck|panel of|is|are|:|=|being? #"},
		{"into_mm", "rail|stile|leg|batten of|is|are|:|=|being? #"},
	} {
		if anyOf("rail", strings.Fields(p.pattern)[0]) && !r.Request.Has("thickness_mm") {
			continue // the one piece that is named may be either
		}
		for _, i := range r.All(p.pattern) {
			if q := r.Items[i].Q; !r.Request.Has(p.need) && (q.Bare() || q.Kind == measure.KindLength) && !anyOf(textAt(r, i+1), "wide|long|high|tall|deep") && !joined(r, i, "×") {
				r.Set(p.need, i)
			}
		}
	}
}

// readPieces reads "through one piece of 15 mm and in the other of 25": the one is held, the other holds.
func readPieces(r *speech.Reading) {
	const piece = "piece|board|plank|timber|wood"
	for _, i := range r.All("# " + piece + " of #length") {
		if saidNumberAt(r, i) == 1 { // the one piece is no size
			r.Claim(i)
		}
	}
	for _, p := range []struct{ need, pattern string }{
		{"into_mm", "other|another|second " + piece + "|one? of|is #length"}, {"thickness_mm", piece + " of #length"},
	} {
		for _, i := range r.All(p.pattern) {
			if p.need == "thickness_mm" && !r.Request.Has("into_mm") {
				return // the one piece that is named may be either
			}
			if !r.Request.Has(p.need) {
				r.Set(p.need, i)
			}
		}
	}
}

// mostGauge is the thickest screw that is numbered.
const mostGauge = 24

// readGauges takes "no 8", "#8" "8g" and "8s" for gauges: nothing else is numbered, weighed
// or timed here.
func readGauges(r *speech.Reading) {
	names := []string{"no", "number", "#", "nr", "gauge"}
	for i := range r.Items {
		if !r.Free(i) || r.Items[i].Q.Value == nil || !r.Items[i].Q.Integer || r.Items[i].Q.Value.Cmp(big.NewRat(mostGauge, 1)) > 0 {
			continue
		}
		q := r.Items[i].Q
		named := slices.Contains(names, before(r, i)) || before(r, i) == "." && before(r, i-1) == "no"
		if plural := q.Unit != nil && (q.Unit.Symbol == "g" || q.Unit.Symbol == "s"); plural || q.Bare() && named {
			q.Kind, q.Unit = speech.KindGauge, nil
		}
	}
}

// readScrewSize reads 4 × 50, thickness by length, and the trade's 8 × 1 1/2, gauge by inches.
func readScrewSize(r *speech.Reading) {
	for i := 0; i+2 < len(r.Items); i++ {
		if !r.Free(i) || r.Items[i+1].Text != "×" || !r.Free(i+2) || i+3 < len(r.Items) && r.Items[i+3].Text == "×" || before(r, i) == "×" {
			continue
		}
		first, second := *r.Items[i].Q, *r.Items[i+2].Q
		inches := second.Unit != nil && second.Unit.Symbol == "in" || second.Fraction || r.System == measure.Imperial && second.Bare()
		long := r.Sized("screw_length_mm", second)
		thick := r.Sized("screw_mm", first)
		switch {
		case long.Num == nil || thick.Num == nil:
			continue
		case first.Kind == speech.KindGauge, inches && first.Bare() && first.Integer && !first.Fraction:
			first.Kind = speech.KindGauge
			r.Put("gauge", first)
		case thick.Float() > screwThickest || long.Float() < 2.5*thick.Float():
			continue
		default:
			r.Put("screw_mm", first)
		}
		r.Put("screw_length_mm", second)
		r.Claim(i)
		r.Claim(i + 2)
		return
	}
}

// readSections takes the smaller of 45 × 20 for the way the screw goes: through the first
// section, into the one behind "into" or "onto".
func readSections(r *speech.Reading) {
	for i := 0; i+2 < len(r.Items); i++ {
		if !r.Free(i) || r.Items[i+1].Text != "×" || !r.Free(i+2) || before(r, i) == "×" {
			continue
		}
		thin := i
		if a, b := r.Sized("thickness_mm", *r.Items[i].Q), r.Sized("thickness_mm", *r.Items[i+2].Q); a.Num != nil && b.Num != nil && b.Num.Cmp(a.Num) < 0 {
			thin = i + 2
		}
		need := "thickness_mm"
		for k := i - 1; k >= 0 && k >= i-4; k-- {
			if w := r.Items[k].Text; w == "into" || w == "onto" || w == "to" || w == "on" {
				need = "into_mm"
			}
		}
		if !r.Request.Has(need) {
			r.Set(need, thin)
			r.Claim(i)
			r.Claim(i + 2)
		}
	}
}

// readScrewLength takes a size too long to be a thickness for the screw's length: 60 mm screws.
// A bare whole number before "screws" is how many there are.
func readScrewLength(r *speech.Reading) {
	before := r.All("# csk|countersunk|brass|stainless|steel|wood|coach|lag? screw")
	for _, i := range append(before, r.All("screw|screws size? #")...) {
		q := *r.Items[i].Q
		size := r.Sized("screw_mm", q)
		measured := q.Kind == measure.KindLength || q.Fraction
		leads := slices.Contains(before, i)
		switch {
		case !leads && (r.Request.Has("screw_mm") || anyOf(textAt(r, i+1), "from|in|off|apart|long|deep")):
		case !r.Free(i) || size.Num == nil || size.Num.Sign() <= 0 || !measured && q.Kind != measure.KindNumber:
		case leads && !measured && q.Integer && severalScrews(r, i):
			r.Set("quantity", i)
		case size.Float() <= screwThickest:
			r.Set("screw_mm", i)
		case measured && leads:
			r.Set("screw_length_mm", i)
		}
	}
}

// behind finds the last quantity of a pattern that is free: what something goes into.
func behind(r *speech.Reading, pattern string) (int, bool) {
	_, end, ok := r.Stands(pattern)
	return end - 1, ok && r.Free(end-1)
}

// severalScrews says whether the word behind the number is "screws".
func severalScrews(r *speech.Reading, i int) bool {
	for k := i + 1; k < len(r.Items) && k <= i+2; k++ {
		if r.Items[k].Text == "screws" {
			return true
		}
	}
	return false
}

// stuff is a timber or sheet named in a message.
type stuff struct {
	need, word string
	into       bool // behind "into" or "onto"
}

// readBase finds what the thread sits in: of two, the one behind "into" or "onto", or else the
// second.
func readBase(r *speech.Reading) {
	all := namedStuff(r)
	if len(all) < 2 || all[0].word == all[1].word {
		return
	}
	held, base := all[0], all[1]
	if held.into && !base.into {
		base, held = held, base
	}
	r.Word(base.need, base.word)
	if held.need == "species" {
		r.Word("held_species", held.word)
	}
}

func namedStuff(r *speech.Reading) []stuff {
	var all []stuff
	for i := 0; i < len(r.Items); i++ {
		need := "species"
		w, used := speciesWords.At(r.Sentence, i)
		if used == 0 {
			need = "base"
			w, used = baseWords.At(r.Sentence, i)
		}
		if used == 0 {
			continue
		}
		into := false
		for k := i - 1; k >= 0 && k >= i-4; k-- {
			into = into || slices.Contains([]string{"into", "onto", "in", "to", "on"}, r.Items[k].Text)
		}
		all = append(all, stuff{need, w, into})
		i += used - 1
	}
	return all
}

// needScrew keeps gauge and millimetres together, and asks for the screw.
func needScrew(r *speech.Reading) {
	askWhichFigure(r)
	thinSize(r)
	slots := r.Request.Slots
	gauge, numbered := slots["gauge"]
	mm, sized := slots["screw_mm"]
	now := slices.ContainsFunc(r.Items, func(it speech.Item) bool { return it.Q != nil && it.Q.Kind == speech.KindGauge })
	switch {
	case numbered && gauge.Num != nil && (now || !sized):
		if d, err := fasten.GaugeMM(int(gauge.Float())); err == nil {
			slots["screw_mm"] = inSystem(r.Request, d)
		}
	case sized && mm.Num != nil:
		delete(slots, "gauge")
		if n, err := fasten.GaugeOf(mm.Float()); err == nil {
			g := big.NewRat(int64(n), 1)
			slots["gauge"] = speech.Slot{Num: g, Said: g}
		}
	}
	r.AskFor("screw_mm", askScrew, "screw_mm", "gauge")
}

// thinSize takes a lone thin size with a unit for the screw, when none was named: "18 ply to 40
// pine, 4 mm".
func thinSize(r *speech.Reading) {
	for i := range r.Items {
		if !r.Free(i) || r.Items[i].Q.Kind != measure.KindLength || r.Request.Has("screw_mm") || r.Request.Has("gauge") {
			continue
		}
		if s := r.Sized("screw_mm", *r.Items[i].Q); s.Num != nil && s.Float() > 0 && s.Float() <= screwThickest {
			r.Set("screw_mm", i)
		}
	}
}

// inSystem makes a size that was worked out, in the unit in which the others were said.
func inSystem(req speech.Request, mm float64) speech.Slot {
	n, _ := new(big.Rat).SetString(measure.Decimal(mm, 4))
	if spoken(req, measure.Metric) == measure.Imperial {
		return speech.Slot{Num: n, Said: new(big.Rat).Quo(n, big.NewRat(254, 10)), Unit: "in"}
	}
	return speech.Slot{Num: n, Said: n, Unit: "mm"}
}

func answerScrew(a *Ask) Answer {
	s := fasten.Screw{Plugged: true, Coach: a.Has("coach")}
	s.DiameterMM, _ = a.Float("screw_mm")
	s.HeldMM, _ = a.Float("thickness_mm")
	s.IntoMM, _ = a.Float("into_mm")
	s.LengthMM, _ = a.Float("screw_length_mm")
	s.SinkMM, _ = a.Float("sink_mm")
	s.PlugMM, _ = a.Float("plug_mm")
	base := a.base(&s)
	plug, tooThin := s.Holes()
	s.Plugged = a.Has("plugged") || s.SinkMM > 0 || s.PlugMM > 0
	h, err := s.Holes()
	if err != nil {
		return ask(plainly(err))
	}
	ans := say(a.screwHeadline(s, h))
	ans.Values["pilot_mm"], ans.Values["clearance_mm"], ans.Values["head_mm"] = h.PilotMM, h.ClearanceMM, h.HeadMM
	if tooThin == nil {
		ans.Values["counterbore_mm"], ans.Values["counterbore_depth_mm"], ans.Values["plug_mm"] = plug.CounterMM, plug.CounterDepthMM, plug.CounterMM
	}
	a.useCaution(&ans)
	ans.line(base)
	a.plugLines(&ans, s, plug, tooThin)
	a.lengthLines(&ans, s, h)
	a.edgeLines(&ans, s)
	a.screwReasons(&ans, s, h)
	return ans
}

// base settles what the thread sits in and says it: hardwood unless it is known to be soft,
// for the wider pilot does not split.
func (a *Ask) base(s *fasten.Screw) string {
	soft := *s
	soft.Softwood, soft.HeldMM = true, 0
	soft.Plugged = false
	timber, ok := wood.Find(a.Word("species"))
	switch word := a.Word("base"); {
	case ok && (word == "" || a.Word("held_species") != a.Word("species")):
		s.Softwood = timber.Softwood()
		return fmt.Sprintf("Into %s: %s.", timber.Name, hardOrSoft(s.Softwood))
	case word == "softwood":
		s.Softwood = true
		return "Into softwood."
	case word != "":
		return fmt.Sprintf("Into %s: pilot as for hardwood, so that it does not split.", cmp.Or(map[string]string{"mdf": "MDF"}[word], word))
	}
	h, err := soft.Holes()
	if err != nil {
		return "Timber not said: hardwood taken."
	}
	return fmt.Sprintf("Timber not said: hardwood taken; in softwood the pilot is %s.", a.drill(h.PilotMM))
}

func hardOrSoft(soft bool) string {
	if soft {
		return "a softwood"
	}
	return "a hardwood"
}

// drill prints a drill's size: to half a millimetre, or to a sixty-fourth of an inch.
func (a *Ask) drill(mm float64) string {
	l, err := measure.FromMM(mm)
	if err != nil {
		return "none"
	}
	if a.Out() == measure.Imperial {
		text, _ := measure.NearestSixtyFourth(l)
		return text + " in"
	}
	return measure.Metric.Text(l, measure.Nearest)
}

func (a *Ask) screwHeadline(s fasten.Screw, h fasten.Holes) string {
	pilot := fmt.Sprintf("ilot %s, clearance %s", a.drill(h.PilotMM), a.text(h.ClearanceMM, measure.Up))
	if fits := fitting(s, h); h.Through && fits > 0 {
		return fmt.Sprintf("Too long, it comes through: take %s. P%s", a.text(fits, measure.Nearest), pilot)
	}
	if e, err := fasten.EdgesOf(s.DiameterMM); err == nil && a.Word("about") == "edges" {
		return fmt.Sprintf("At least %s from an end, %s from an edge; p%s", a.text(e.EndMM, measure.Up), a.text(e.EdgeMM, measure.Up), pilot)
	}
	head := "P" + pilot
	if h.CounterMM > 0 {
		head += fmt.Sprintf(", counterbore %s and %s deep", a.text(h.CounterMM, measure.Nearest), a.text(h.CounterDepthMM, measure.Nearest))
	}
	if h.LengthMM > 0 && h.InBaseMM > 0 && !a.Has("screw_length_mm") {
		head += fmt.Sprintf(", screw %s long", a.text(h.LengthMM, measure.Nearest))
	}
	return head
}

// fitting is the length of screw to take: the one at hand, or where that comes through the one
// that does not; 0 when there is none.
func fitting(s fasten.Screw, h fasten.Holes) float64 {
	if !h.Through {
		return h.LengthMM
	}
	s.LengthMM = 0
	fits, err := s.Holes()
	if err != nil {
		return 0
	}
	return fits.LengthMM
}

// plugLines says how the head is hidden, or could be.
func (a *Ask) plugLines(ans *Answer, s fasten.Screw, plug fasten.Holes, tooThin error) {
	switch {
	case tooThin != nil:
		ans.line("To plug it: " + tooThin.Error() + ".")
	case s.Plugged:
		ans.line(fmt.Sprintf("Plugs of %s, with their grain lined up with the board's; pare them flush. At least as much wood as the plug is deep stays under the head.", a.text(plug.CounterMM, measure.Nearest)))
	case s.Coach:
		ans.line(fmt.Sprintf("Washer under the head. To hide it: counterbore %s, so that the socket goes in.", a.text(plug.CounterMM, measure.Nearest)))
	default:
		ans.line(fmt.Sprintf("Countersink to %s. To plug it: counterbore and plug %s, %s deep.", a.text(plug.HeadMM, measure.Nearest), a.text(plug.CounterMM, measure.Nearest), a.text(plug.CounterDepthMM, measure.Nearest)))
	}
}

// lengthLines says how the screw's length comes about and whether it reaches.
func (a *Ask) lengthLines(ans *Answer, s fasten.Screw, h fasten.Holes) {
	if l := fitting(s, h); l > 0 {
		ans.Values["length_mm"] = l
	}
	if s.HeldMM == 0 {
		return
	}
	ans.Values["in_base_mm"] = h.InBaseMM
	text := fmt.Sprintf("Of %s, %s go into the base", a.text(h.LengthMM, measure.Nearest), a.text(h.InBaseMM, measure.Nearest))
	switch {
	case h.Through:
		text += ": it comes out or shows on the far side. Take a shorter one."
	case h.InBaseMM < h.WantedMM-0.5 && s.LengthMM > 0:
		text += fmt.Sprintf("; %s would hold better.", a.text(h.WantedMM, measure.Nearest))
	case h.InBaseMM < h.WantedMM-0.5:
		text += fmt.Sprintf("; %s would hold better, but no longer screw stays inside.", a.text(h.WantedMM, measure.Nearest))
	default:
		text += "."
	}
	ans.line(text)
	if s.IntoMM == 0 && s.LengthMM == 0 {
		ans.line("What it goes into was not said: see that it does not come out on the far side.")
	}
}

// denseKgM3 is from where wood is apt to split and to shear a screw off: common practice.
const denseKgM3 = 650

// edgeLines says how far from end and edge, and how to drive it without a split.
func (a *Ask) edgeLines(ans *Answer, s fasten.Screw) {
	e, err := fasten.EdgesOf(s.DiameterMM)
	if err != nil {
		return
	}
	ans.Values["end_distance_mm"], ans.Values["edge_distance_mm"] = e.EndMM, e.EdgeMM
	ans.line(fmt.Sprintf("At least %s from an end and %s from an edge. Drive the last turns by hand.", a.text(e.EndMM, measure.Up), a.text(e.EdgeMM, measure.Up)))
	end, nearEnd := a.Float("end_mm")
	edge, nearEdge := a.Float("edge_mm")
	if nearEnd && end < e.EndMM || nearEdge && edge < e.EdgeMM {
		ans.caution("That near the end or edge it is apt to split: drill the pilot to full depth, don't force it, or take a thinner screw or more distance.")
	}
	for _, word := range []string{a.Word("species"), a.Word("held_species")} {
		timber, ok := wood.Find(word)
		if !ok {
			continue
		}
		if d, err := timber.DensityKgM3(); err == nil && d.High.Value >= denseKgM3 {
			ans.caution(capital(timber.ID) + " is dense: pilot to full depth, wax on the thread, a steel screw first if yours are brass.")
		}
		if slices.Contains(rusting, timber.ID) {
			ans.caution("Stainless or brass in " + timber.ID + ": plain steel rusts and stains it.")
		}
	}
}

// rusting are timbers that rust and stain steel: cautions of the trade, from memory; utile is
// reported to corrode metals (USDA species sheet, seen).
var rusting = []string{"oak", "white oak", "red oak", "european oak", "western red cedar", "utile"}

func (a *Ask) screwReasons(ans *Answer, s fasten.Screw, h fasten.Holes) {
	if s.Coach {
		ans.because(fmt.Sprintf("Coach screw: pilot %s %% of the shank's %s mm = %s mm: middle of the range in the Wood Handbook (2010), chapter 8 (from memory).",
			measure.Decimal(100*h.PilotMM/s.DiameterMM, 1), measure.Decimal(s.DiameterMM, 2), measure.Decimal(h.PilotMM, 2)))
	} else {
		ans.because(fmt.Sprintf("Root about 2/3 × %s = %s mm (Wood Handbook 2010, p. 8-10); pilot %s %% of it = %s mm (NDS commentary; both read there).",
			measure.Decimal(s.DiameterMM, 2), measure.Decimal(fasten.RootShare*s.DiameterMM, 2), measure.Decimal(100*h.PilotMM/(fasten.RootShare*s.DiameterMM), 0), measure.Decimal(h.PilotMM, 2)))
	}
	if h.WantedMM > 0 {
		ans.because(fmt.Sprintf("Length: two thirds of it and at least 7 × %s mm in the base: common practice, no source.", measure.Decimal(s.DiameterMM, 2)))
	}
	ans.because("Counterbore and plug: common practice, no source. Ends 10 and edges 4 times the screw: evaluation report ESR-4948, for a straight pull (read there). What carries people is for an engineer.")
}
