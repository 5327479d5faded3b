package commands

import (
	"fmt"
	"math"
	"math/big"
	"strconv"
	"strings"

	"fettle/calc/arc"
	"fettle/calc/measure"
	"fettle/commands/speech"
)

func arcOf() *Topic {
	return &Topic{
		Title:    "arcs: radius, rise, length and ordinates to mark them",
		Examples: []string{"radius for a 1200 chord rising 80", "arc length for a 2 m radius over a 1.5 m chord", "ordinates every 100 for an arc 1200 across rising 150"},
		Form: speech.Form{
			Name: "arc", Exact: true,
			Cues: []speech.Cue{
				{Weight: 3, Pattern: "what|what's|which|find|calculate|need|same .. radius|chord|rise|sagitta"},
				{Weight: 3, Pattern: "radius|chord|chords|sagitta .. #"},
				{Weight: 3, Pattern: "# .. radius|chord|chords|sagitta"},
				{Weight: 3, Pattern: "arc|arcs|ordinate|ordinates across|of|for|with|length|over|chord|on|at|every|:"},
				{Weight: 3, Pattern: "arc|arcs|ordinates #"},
				{Weight: 3, Pattern: "rise|rises|rising|raises|raise of|is|×|by|to|:? #"},
				{Weight: 3, Pattern: "# of? rise|camber"},
				{Weight: 2, Pattern: "radius|sagitta|chord|chords|arc|arcs|ordinate|ordinates"},
				{Weight: 2, Pattern: "same .. rise|radius|chord"},
				{Weight: 1, Pattern: "rise|rises|rising|raises|raise"},
				{Weight: 3, Pattern: "=bow|curve|arch|hoop|segment|head .. rise|rises|rising|raises|wide|across|radius|high"},
				{Weight: 3, Pattern: "how long|far .. round|around|along|is the? curve|bow|arch"},
				{Weight: 2, Pattern: "curve|curved|arch|arched|=bow"},
				{Weight: -14, Pattern: "laminate|laminated|laminating|lamination|plies|ply|springback|strips"},
				{Weight: -6, Pattern: "mitre|miter|mitres|compound|diagonal|diagonals|glue|glued|clamp|clamps|epoxy|sag"},
				{Weight: -5, Pattern: "^ note|remember|add|cut|bought"},
				{Weight: -3, Pattern: "rough|volume|cost|weigh"},
			},
			Needs: []speech.Need{
				{Name: "chord_mm", Kind: measure.KindLength, Label: "chord", Min: 20, Max: 20000,
					Roles: []string{"# chord|across|wide|width|span|broad|opening", "=chord|width|span|across of|is|:|=|at? #", "across|over|spanning an|a|the? #", "# -? wide", "chord .. of|is|: #", "end|tip|foot|side|wall|jamb|corner|springing|post to end|tip|foot|side|wall|jamb|corner|springing|post is|:|=|it|it's? #", "# from|between? end|tip|foot|side|wall|jamb|corner|springing|post to =end|tip|foot|side|wall|jamb|corner|springing|post"}},
				{Name: "rise_mm", Kind: measure.KindLength, Label: "rise", Min: 1, Max: 10000,
					Roles: []string{"rise|rises|rising|raises|raise|sagitta|crown|camber|height of|is|:|=|×|by|to|at|about|with|it? #", "# of? rise|rising|high|sagitta|crown|camber|deep|tall|up", "# -? rise", "high|height|up|middle|centre|crown .. #"}},
				{Name: "radius_mm", Kind: measure.KindLength, Label: "radius", Min: 10, Max: 100000,
					Roles: []string{"radius|r of|is|:|=|×|about? #", "# radius|rad|r", "# -? radius", "=radius of|for the|our|a|my =bow|arch|arc|curve|circle|head|hoop is|:|=|,? #"}},
				{Name: "angle_deg", Kind: measure.KindAngle, Label: "angle", Min: 0.5, Max: 355},
				{Name: "pitch_mm", Kind: measure.KindLength, Label: "pitch", Min: 1, Max: 5000, Aside: true,
					Roles: []string{"every|each #", "ordinates|ordinate|points|offsets|=heights|steps at|of|in # ", "# apart|=centres|pitch|intervals|steps|spacing", "pitch|intervals|steps|spacing of|: #"}},
				{Name: "diameter_mm", Kind: measure.KindLength, Label: "diameter", Min: 20, Max: 200000, Own: true},
				{Name: "rise_share", Kind: measure.KindNumber, Label: "rise as a part of the chord", Min: 0.001, Max: 1, Own: true},
				{Name: "want", Kind: speech.KindWord, Own: true, Aside: true},
			},
			Sizes:  []string{"chord_mm", "rise_mm"},
			Before: readArc,
			After:  needArc,
		},
		Answer: answerArc,
	}
}

// readArc reads a diameter as two radii, and what of the arc is wanted.
func readArc(r *speech.Reading) {
	passAll(r, "spring|springs|springing|starts at|from #") // a height in the wall
	claimAsides(r)
	claimSizesOf(r, flatStuff+"|trim", "arch|arc|head|bow|opening|doorway|door|window|curve|hoop|it|chord|rise|rises|roof", "wide|width|long|length|thick|deep|high|tall|across|×")
	if i, ok := r.Find("# across"); ok && r.Alone(i) { // "radius for a bow 1600 across" is no radius yet
		r.Set("chord_mm", i)
	}
	for _, i := range r.All("made|cut|sawn|laminated|bent of|from|out of? #size") {
		r.Claim(i)
		r.Claim(i + 2)
	}
	readHalfChord(r)
	for _, i := range r.All("rise|rises|rising|high|height|crown|camber of|is|:|=|×|by? # of the|its? =span|chord|width|opening") {
		if r.Items[i].Q.Fraction && r.Items[i].Q.Bare() {
			r.Set("rise_share", i)
		}
	}
	readRound(r)
	claimSection(r)
	switch {
	case r.Says("how long|far .. round|around|along|curve|arc|bow") || r.Says("arc|curve length") || r.Says("length of|along|round|around the? arc|curve|bow") || r.Says("round|around|along the curve|outside|top"):
		r.Word("want", "length")
	case r.Says("ordinates|ordinate|offsets|heights|points .. mark|set|every|at|for|#") || r.Says("ordinates|ordinate") || r.Says("mark|draw|set it|out|the out|curve|arc .. every"):
		r.Word("want", "ordinates")
	case r.Says("what|which|how|how|much|the rise|high|height|sagitta") || r.Says("how much|high|far .. rise|rises|up"):
		r.Word("want", "rise")
	case r.Says("what|which|how chord|wide|width"):
		r.Word("want", "chord")
	case r.Says("what|which|how many angle|degrees"):
		r.Word("want", "angle")
	}
}

// readHalfChord takes twice half the chord, or, where the whole is said as well, sets the half aside.
func readHalfChord(r *speech.Reading) {
	for _, p := range []string{"half the|its|my|our? =span|chord|width|opening is|=|:|of? #", "# is|=|for half the|its|my|our? =span|chord|width|opening"} {
		for _, i := range r.All(p) {
			q := *r.Items[i].Q
			if q.Value == nil || q.Kind != measure.KindLength && !q.Bare() {
				continue
			}
			r.Claim(i)
			q.Value = new(big.Rat).Mul(q.Value, big.NewRat(2, 1))
			r.Put("chord_mm", q)
			for k := range r.Items {
				if r.Free(k) && r.Sized("chord_mm", *r.Items[k].Q).Float() == r.Sized("chord_mm", q).Float() {
					r.Set("chord_mm", k)
				}
			}
			return
		}
	}
}

// leastLettered is the least radius in mm that is read behind its letter: R1200.
const leastLettered = 30

// lettered finds a size as drawings write it, with its letter glued to it: R1200. One with a point or a
// unit behind it is left alone.
func lettered(r *speech.Reading, letter string) (speech.Quantity, bool) {
	for i, it := range r.Items {
		digits, ok := strings.CutPrefix(it.Text, letter)
		n, err := strconv.Atoi(digits)
		if !ok || it.Q != nil || err != nil || n < leastLettered || textAt(r, i+1) == "." && i+2 < len(r.Items) && r.Items[i+2].Q != nil {
			continue
		}
		return speech.Quantity{Kind: measure.KindNumber, Value: big.NewRat(int64(n), 1), Integer: true}, true
	}
	return speech.Quantity{}, false
}

// readRound reads a radius with its letter glued to it, and a diameter as two radii.
func readRound(r *speech.Reading) {
	if q, ok := lettered(r, "r"); ok && !r.Request.Has("radius_mm") {
		r.Put("radius_mm", q)
	}
	if q, ok := lettered(r, "ø"); ok && !r.Request.Has("radius_mm") {
		r.Put("diameter_mm", q)
		q.Value = halved(q)
		r.Put("radius_mm", q)
	}
	for _, p := range []string{"# in? =diameter|dia|ø|⌀", "=diameter|dia|ø|⌀ of|is|:|=|about? #"} {
		for _, i := range r.All(p) {
			q := *r.Items[i].Q
			if r.Request.Has("radius_mm") || q.Value == nil || q.Kind != measure.KindLength && !q.Bare() {
				continue
			}
			r.Set("diameter_mm", i)
			q.Value = halved(q)
			r.Put("radius_mm", q)
		}
	}
}

// arcSaid are the measures of an arc by their own names.
var arcSaid = map[string][]string{
	"chord":  {"=chord of|is|:|=|at? #", "# chord"},
	"rise":   {"rise|rises|rising|raises|raise|sagitta|camber of|is|:|=|×|by|to|at|about|with|it? #", "# of? rise|sagitta|camber"},
	"radius": {"radius|r|rad of|is|:|=|×|about? #", "# radius|rad|r", "=radius of|for the|our|a|my =bow|arch|arc|curve|circle|head|hoop is|:|=|,? #"},
}

// claimSection sets aside the thickness, and, where two measures are said by name, every
// other size: it is that of the wood.
func claimSection(r *speech.Reading) {
	for _, p := range []string{"# thick|thickness", "thick|thickness of|is|:|=? #"} {
		for _, i := range r.All(p) {
			r.Claim(i)
		}
	}
	named := map[int]bool{}
	known := 0
	for _, patterns := range arcSaid {
		found := 0
		for _, p := range patterns {
			for _, i := range r.All(p) {
				if !joined(r, i, "×") && !joined(r, i-2, "×") {
					named[i] = true
					found++
				}
			}
		}
		known += min(found, 1)
	}
	if known < 2 {
		return
	}
	for _, p := range []string{"# =wide|width|deep|high|tall|long", "=width|w|b|h|t|l of|is|:|=? #", "#size"} {
		for _, i := range r.All(p) {
			if named[i] {
				continue
			}
			r.Claim(i)
			for joined(r, i, "×") {
				i += 2
				r.Claim(i)
			}
		}
	}
}

// arcNames are the measures of an arc, in the order in which older ones are kept.
var arcNames = []string{"chord_mm", "rise_mm", "radius_mm", "angle_deg"}

// needArc keeps two measures where a later message brought another one, and asks for what is
// missing or hard to believe.
func needArc(r *speech.Reading) {
	if share := r.Request.Slots["rise_share"].Num; share != nil {
		if chord := r.Request.Slots["chord_mm"].Num; chord != nil {
			r.Put("rise_mm", speech.Quantity{Kind: measure.KindNumber, Value: new(big.Rat).Mul(share, chord)})
		}
		r.Drop("rise_share")
	}
	keepTwo(r)
	if r.Request.Has("diameter_mm") && (!r.Request.Has("radius_mm") || r.Anew("radius_mm")) {
		r.Drop("diameter_mm")
	}
	known := 0
	for _, n := range arcNames {
		if r.Request.Has(n) {
			known++
		}
	}
	switch {
	case known == 0:
		r.Question = &speech.Question{Text: "How wide is the arc (its chord), and how much does it rise?", Need: "chord_mm"}
	case known == 1 && r.Request.Has("chord_mm"):
		r.Question = &speech.Question{Text: "How much does it rise, or what is the radius?", Need: "rise_mm"}
	case known == 1 && r.Request.Has("radius_mm"), known == 1 && r.Request.Has("rise_mm"):
		r.Question = &speech.Question{Text: "How wide is it across (its chord)?", Need: "chord_mm"}
	case known == 1:
		r.Question = &speech.Question{Text: "How wide is it across (its chord), or what is the radius?", Need: "chord_mm"}
	default:
		doubtArc(r)
	}
}

// keepTwo drops measures of the request before, once this message has said enough with them.
func keepTwo(r *speech.Reading) {
	var anew, old []string
	for _, n := range arcNames {
		switch {
		case !r.Request.Has(n):
		case r.Anew(n) || n == "radius_mm" && r.Anew("diameter_mm"):
			anew = append(anew, n)
		default:
			old = append(old, n)
		}
	}
	for len(old) > 0 && len(anew) > 0 && len(anew)+len(old) > 2 {
		r.Drop(old[len(old)-1])
		old = old[:len(old)-1]
	}
}

// smallestBow is the least chord in mm that is believed of a roof bow or a door head when no
// unit was said; common practice, no source.
const smallestBow = 300

// doubtArc asks about sizes that can't be told from slips: a roof bow of 195 mm, a rise of
// more than half the chord.
func doubtArc(r *speech.Reading) {
	chord, hasChord := r.Request.Float("chord_mm")
	rise, hasRise := r.Request.Float("rise_mm")
	bare := r.Request.Slots["chord_mm"].Bare
	if hasChord && bare && chord < smallestBow && r.Says("roof|bow|door|doorway|window|hut|ceiling|porch|hoop") {
		r.Question = speech.Choice("That is small for such an arc. Which unit is it in?", inUnits(r, "cm", "in", "mm")...)
		return
	}
	if !hasChord || !hasRise || r.Request.Word("sure") != "" || rise <= chord/2*(1+1e-9) {
		return
	}
	sure := r.Moved(nil)
	sure.Slots["sure"] = speech.Slot{Word: "yes"}
	asSaid := speech.Option{Label: "as said", Words: []string{"as is", "yes", "right", "correct"}, Request: sure}
	if chord > rise/2 {
		r.Question = speech.Choice("That rises more than a half circle does over its chord. Is it right?", asSaid)
		return
	}
	swapped := r.Moved(map[string]string{"chord_mm": "rise_mm", "rise_mm": "chord_mm"})
	r.Question = speech.Choice("That rises more than a half circle does over its chord. Which is right?",
		speech.Option{Label: "swap chord and rise", Words: []string{"swap", "swapped", "the other way round"}, Request: swapped}, asSaid)
}

func answerArc(a *Ask) Answer {
	g := arc.Given{}
	g.ChordMM, _ = a.Float("chord_mm")
	g.RiseMM, _ = a.Float("rise_mm")
	g.RadiusMM, _ = a.Float("radius_mm")
	g.AngleDeg, _ = a.Float("angle_deg")
	c, err := g.Arc()
	if err != nil {
		need := "radius_mm"
		if g.RadiusMM == 0 {
			need = "rise_mm"
		}
		return askFor(need, plainly(err))
	}
	out := a.Out()
	ans := say("")
	ans.Values["chord_mm"], ans.Values["rise_mm"], ans.Values["radius_mm"] = c.ChordMM, c.RiseMM, c.RadiusMM
	ans.Values["arc_mm"], ans.Values["angle_deg"] = c.LengthMM, c.AngleDeg
	ans.Answer = a.arcHeadline(c, out)
	ans.line(fmt.Sprintf("Chord %s, rise %s, radius %s, %s along the curve, %s at the centre.", mmText(out, c.ChordMM, measure.Nearest), mmText(out, c.RiseMM, measure.Nearest),
		mmText(out, c.RadiusMM, measure.Nearest), mmText(out, c.LengthMM, measure.Nearest), degExact(c.AngleDeg)))
	a.ordinates(&ans, c, out)
	ans.because(arcReason(g, c), fmt.Sprintf("Along the curve = radius × angle = %s × %s.", measure.Decimal(c.RadiusMM, 1), degExact(c.AngleDeg)),
		"Geometry of the circle. Rule of thumb: only the pitch of the ordinates when none was said.")
	return ans
}

// arcHeadline says first what was wanted.
func (a *Ask) arcHeadline(c arc.Arc, out measure.System) string {
	text := func(mm float64) string { return mmText(out, mm, measure.Nearest) }
	switch a.Word("want") {
	case "length":
		return fmt.Sprintf("%s along the curve (radius %s)", text(c.LengthMM), text(c.RadiusMM))
	case "rise":
		return fmt.Sprintf("Rise %s over a chord of %s (radius %s)", text(c.RiseMM), text(c.ChordMM), text(c.RadiusMM))
	case "chord":
		return fmt.Sprintf("Chord %s, rising %s (radius %s)", text(c.ChordMM), text(c.RiseMM), text(c.RadiusMM))
	case "angle":
		return fmt.Sprintf("%s at the centre (radius %s)", degExact(c.AngleDeg), text(c.RadiusMM))
	case "ordinates":
		return fmt.Sprintf("Ordinates below, for a radius of %s", text(c.RadiusMM))
	}
	return fmt.Sprintf("Radius %s; %s along the curve", text(c.RadiusMM), text(c.LengthMM))
}

// pitches are the steps in mm from which one is picked when none was said.
var pitches = map[measure.System][]float64{
	measure.Metric:   {5, 10, 20, 25, 50, 100, 200, 250, 500, 1000},
	measure.Imperial: {25.4 / 4, 25.4 / 2, 25.4, 2 * 25.4, 3 * 25.4, 4 * 25.4, 6 * 25.4, 12 * 25.4, 24 * 25.4},
}

// ordinates lists the heights above the chord, stepped off from the middle.
func (a *Ask) ordinates(ans *Answer, c arc.Arc, out measure.System) {
	pitch, said := a.Float("pitch_mm")
	if !said {
		pitch = c.SensiblePitch(pitches[out]...)
	}
	points, err := c.Pitched(pitch)
	if err != nil {
		ans.line(plainly(err))
		return
	}
	heights, along := make([]float64, len(points)), make([]float64, len(points))
	for i, p := range points {
		heights[i], along[i] = p.HeightMM, p.AlongMM
	}
	ans.Values["ordinates_mm"], ans.Values["positions_mm"], ans.Values["pitch_mm"] = heights, along, pitch
	var parts []string
	for i := len(points) / 2; i < len(points); i++ {
		if len(parts) == mostListed/2 {
			parts = append(parts, fmt.Sprintf("… (%d more)", len(points)-i))
			break
		}
		parts = append(parts, numberText(out, points[i].AlongMM-c.ChordMM/2)+" → "+numberText(out, points[i].HeightMM))
	}
	ans.line(fmt.Sprintf("From the middle both ways, the height above the chord (%s): %s", out, strings.Join(parts, " · ")))
}

func numberText(out measure.System, mm float64) string {
	l, err := measure.FromMM(mm)
	if err != nil {
		return measure.Decimal(mm, 1)
	}
	return out.Number(l, measure.Nearest)
}

func arcReason(g arc.Given, c arc.Arc) string {
	n := func(mm float64) string { return measure.Decimal(mm, 1) }
	switch {
	case g.ChordMM > 0 && g.RiseMM > 0:
		return fmt.Sprintf("radius = c²/(8s) + s/2 = %s²/(8 × %s) + %s/2 = %s mm.", n(g.ChordMM), n(g.RiseMM), n(g.RiseMM), n(c.RadiusMM))
	case g.ChordMM > 0 && g.RadiusMM > 0:
		return fmt.Sprintf("rise = R − √(R² − c²/4) = %s − √(%s² − %s²/4) = %s mm.", n(g.RadiusMM), n(g.RadiusMM), n(g.ChordMM), n(c.RiseMM))
	case g.RiseMM > 0 && g.RadiusMM > 0:
		return fmt.Sprintf("chord = 2 √(s (2R − s)) = 2 √(%s × (2 × %s − %s)) = %s mm.", n(g.RiseMM), n(g.RadiusMM), n(g.RiseMM), n(c.ChordMM))
	case g.ChordMM > 0:
		return fmt.Sprintf("radius = c/(2 sin a/2) = %s/(2 sin %s) = %s mm.", n(g.ChordMM), degExact(g.AngleDeg/2), n(c.RadiusMM))
	case g.RiseMM > 0:
		return fmt.Sprintf("radius = s/(1 − cos a/2) = %s/(1 − cos %s) = %s mm.", n(g.RiseMM), degExact(g.AngleDeg/2), n(c.RadiusMM))
	}
	return fmt.Sprintf("chord = 2R sin a/2 = 2 × %s × sin %s = %s mm.", n(g.RadiusMM), degExact(math.Abs(g.AngleDeg)/2), n(c.ChordMM))
}
