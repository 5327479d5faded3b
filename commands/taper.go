package commands

import (
	"fmt"

	"fettle/calc/angle"
	"fettle/calc/measure"
	"fettle/commands/speech"
)

func taper() *Topic {
	return &Topic{
		Title:    "how far a line out of square runs off, and tapers",
		Examples: []string{"87.5 degrees across 60 wide, what's the offset", "how far does a 610 shelf run off at half a degree", "taper from 45 to 30 over 600"},
		Form: speech.Form{
			Name: "taper", Exact: true,
			Cues: []speech.Cue{
				{Weight: 5, Pattern: "taper|tapers|tapered|tapering"},
				{Weight: 7, Pattern: "#angle .. across|over|on|along|in a|an|the|my|our? #"},
				{Weight: 3, Pattern: "offset|run-out|runout"},
				{Weight: 3, Pattern: "run|runs|running|goes out|off"},
				{Weight: 3, Pattern: "how much|far|many .. difference|longer|shorter|offset|off|out|drop|lose"},
				{Weight: 4, Pattern: "at #angle .. # wide|deep|across"},
				{Weight: 3, Pattern: "how far .. step|run|set it|that? off|out|over"},
				{Weight: 4, Pattern: "drop|step|difference across|over|between it|the|its edges|width?"},
				{Weight: 2, Pattern: "what|what's|whats|which .. difference|offset"},
				{Weight: 2, Pattern: "#angle off|out of? square|plumb|level|true"},
				{Weight: 3, Pattern: "# wide|deep|=long|across .. at #angle"},
				{Weight: 6, Pattern: "what|what's|which|how many? angle|slope|degrees .. # out|off|up|down? in|over|across #"},
				{Weight: 6, Pattern: "# mm? out|off|drop|drops|down|up|short? in|over|across # .. angle|degrees|slope"},
				{Weight: -6, Pattern: "mitre|miter|mitres|mitred|compound|hopper|sided|=sides"},
				{Weight: -3, Pattern: "corner|corners"},
				{Weight: -6, Pattern: "diagonal|diagonals|chord|radius|arc|rise|rising"},
				{Weight: -7, Pattern: "glue|epoxy|pva|polyurethane|resin|humidity|celsius|emc|moisture|acrylic|workshop|clamp|clamps|varnish|cure|temperature"},
				{Weight: -5, Pattern: "^ note|remember"},
			},
			Needs: []speech.Need{
				{Name: "angle_deg", Kind: measure.KindAngle, Label: "angle", Min: 0.02, Max: 135, Leads: true},
				{Name: "off_deg", Kind: measure.KindAngle, Label: "off square", Min: 0.02, Max: 80},
				{Name: "width_mm", Kind: measure.KindLength, Label: "across", Min: 3, Max: 6500,
					Roles: []string{"across|over|on|along|in a|an|the|my|our|this|full? #", "# wide|width|across|broad|=long|tall|high|deep", "=width|length of|is|:|=? #", "# rail|shelf|board|stile|door|panel|piece|top|sill|head"}},
				{Name: "out_mm", Kind: measure.KindLength, Label: "runs off", Min: 0.1, Max: 2000, Own: true},
				{Name: "from_mm", Kind: measure.KindLength, Label: "wide end", Min: 2, Max: 2000, Own: true},
				{Name: "to_mm", Kind: measure.KindLength, Label: "narrow end", Min: 1, Max: 2000, Own: true},
			},
			Sizes:  []string{"width_mm"},
			Before: readTaper,
			After:  needTaper,
		},
		Answer: answerTaper,
	}
}

// readTaper reads a taper from one width to another, a run-off whose angle is asked for, or an
// angle, as said or as off square.
func readTaper(r *speech.Reading) {
	claimAsides(r)
	if readEnds(r) {
		if i, ok := r.Find("over|in|along the? bottom|top|last|first|lower|upper|final|end # of # "); ok {
			r.Set("width_mm", i)
			r.Claim(i + 2)
		}
		if r.Says("over|in a|an|the? #") {
			claimLong(r)
		}
		return
	}
	claimLengthwise(r)
	readAcrossSide(r)
	if readGradient(r) {
		return
	}
	list := angles(r)
	if len(list) == 0 && r.Says("what|what's|which|how many? the? angle|degrees|taper|slope") && readRunOff(r) {
		return
	}
	if i, ok := firstOf(r, "# slope|lean|rake|fall|pitch", "# off|out|from of|from? square|plumb|level|true|vertical|upright|perpendicular", "off|out of? square|plumb|level|true ×|of|is|:? #",
		"slope|slopes|sloping|lean|leaning|leans|rake|raked|fall of|at|is|×|: #", "slope|slopes|sloping|lean|leaning|leans|rake|rakes|fall|falls|drop|drops #angle"); ok {
		need := "off_deg"
		if saidNumberAt(r, i) > unclearTo { // a head that rakes at 88 degrees
			need = "angle_deg"
		}
		r.Set(need, i)
		return
	}
	for _, i := range append(r.All("#angle out $"), r.All("#angle out ,|.|;|?|on|at|of|over|across")...) {
		if saidNumberAt(r, i) <= unclearTo {
			r.Set("off_deg", i)
			return
		}
	}
	if len(list) > 0 {
		r.Set("angle_deg", list[0])
		return
	}
	if i, ok := firstOf(r, "angle|at is|of|:|= #", "# across|over|on|along a|an|the|my|our? #", "angle|at #",
		"corner|bevel|gauge|gage|protractor|square|template|it says|said|reads|read|shows|showed|gives|gave|measures|measured|is|at|on|: about|exactly? #", "corner #"); ok && !followedBySize(r, i) {
		r.Set("angle_deg", i)
	}
}

// claimLengthwise sets aside the other sizes of a piece whose width was said: a cut runs across it,
// and the thickness never is what it crosses.
func claimLengthwise(r *speech.Reading) {
	wide := r.Says("# =wide|width|across|broad") || r.Says("=width|across of|is|:|=|the|a? #")
	atEnd := r.Says("end|ends|end's cut|sawn|is|are|at|to") || r.Says("cut|cutting|saw|sawing|trim the|its|one|each|an|both? end|ends")
	for _, i := range r.All("# =long|length|tall|high|thick|thickness") {
		if anyOf(textAt(r, i+1), "thick|thickness") || wide || anyOf(textAt(r, i+1), "long|length") && atEnd {
			r.Claim(i)
		}
	}
	if !wide {
		return
	}
	for _, i := range r.All("=length|thickness of|is|:|=? #") {
		r.Claim(i)
	}
}

// readGradient reads a slope of one in so many: a fall of 1 in 40.
func readGradient(r *speech.Reading) bool {
	const slopes = "slope|slopes|sloping|fall|falls|falling|lean|leans|leaning|rake|rakes|raked|pitch|taper|tapers|tapered|gradient|batter"
	for _, p := range []string{"# in|: # " + slopes, slopes + " of|at|is|×|down|out|: # in|: #"} {
		for _, i := range r.All(p) {
			if !joined(r, i, "in|:") || !r.Items[i].Q.Bare() || !r.Items[i+2].Q.Bare() || !r.Free(i+2) || saidNumberAt(r, i) <= 0 || saidNumberAt(r, i) >= saidNumberAt(r, i+2) {
				continue
			}
			off, err := angle.OffBy(saidNumberAt(r, i), saidNumberAt(r, i+2))
			if err != nil {
				continue
			}
			r.Put("off_deg", degrees(off))
			r.Claim(i)
			r.Claim(i + 2)
			return true
		}
	}
	return false
}

// readAcrossSide takes the one measure of a section across which the line runs: over the 45 side of a
// 70 × 45 rail. The section's other measure doesn't count.
func readAcrossSide(r *speech.Reading) {
	for _, across := range r.All("across|over|on|along the|its #") {
		for i := range r.Items {
			if across == i || across == i+2 || !r.Free(i) || !joined(r, i, "×") || !r.Free(i+2) {
				continue
			}
			if v := saidNumberAt(r, across); v != saidNumberAt(r, i) && v != saidNumberAt(r, i+2) {
				continue
			}
			r.Set("width_mm", across)
			r.Claim(i)
			r.Claim(i + 2)
			return
		}
	}
}

// claimLong sets aside a length beside the one over which a piece tapers.
func claimLong(r *speech.Reading) {
	for _, i := range r.All("# =long|length|overall in|over? all?") {
		if !anyOf(before(r, i), "over|in|a|an|the") {
			r.Claim(i)
		}
	}
}

// readEnds reads "from 45 to 30 over 600".
func readEnds(r *speech.Reading) bool {
	ends := append(r.All("# =wide|down|up? to #"), r.All("# at|on the? top|foot|bottom|head|wide|thick|butt|heel end? down? to #")...)
	for _, i := range ends {
		k := i + 1
		for r.Items[k].Q == nil {
			k++
		}
		if !r.Items[i].Q.Bare() && r.Items[i].Q.Kind != measure.KindLength || !r.Items[k].Q.Bare() && r.Items[k].Q.Kind != measure.KindLength {
			continue
		}
		if saidNumberAt(r, i) < saidNumberAt(r, k) {
			i, k = k, i
		}
		r.Put("from_mm", sharedUnit(r, []int{i, k}, 0))
		r.Claim(i)
		r.Set("to_mm", k)
		return true
	}
	return false
}

// readRunOff reads "3 over 900": so much over so far.
func readRunOff(r *speech.Reading) bool {
	for _, i := range r.All("# .. over|in|across|on|along a|an|the|my? #") {
		q := r.Items[i].Q
		if q.Kind != measure.KindLength && !q.Bare() {
			continue
		}
		r.Set("out_mm", i)
		return true
	}
	return false
}

// unclearFrom and unclearTo bound the angles, in degrees, that may be the angle itself or how
// far it is from square.
const unclearFrom, unclearTo = 20, 45

// needTaper drops what a later message replaced and asks for what is missing.
func needTaper(r *speech.Reading) {
	for _, pair := range [][2]string{{"angle_deg", "off_deg"}, {"off_deg", "angle_deg"}, {"angle_deg", "out_mm"}, {"off_deg", "out_mm"}, {"angle_deg", "from_mm"}, {"off_deg", "from_mm"}, {"out_mm", "angle_deg"}, {"out_mm", "off_deg"}} {
		if r.Anew(pair[0]) && !r.Anew(pair[1]) {
			r.Drop(pair[1])
		}
	}
	r.AskFor("angle_deg", "What is the angle, or how far off square?", "angle_deg", "off_deg", "out_mm", "from_mm")
	if !r.Request.Has("width_mm") {
		question := "Across what width?"
		if r.Request.Has("from_mm") {
			question = "Over what length does it taper?"
		}
		r.Question = &speech.Question{Text: question, Need: "width_mm"}
	}
	if v, ok := r.Request.Float("angle_deg"); ok && v > unclearFrom && v < unclearTo {
		off := r.Moved(map[string]string{"angle_deg": "off_deg"})
		square := r.Moved(nil)
		square.Slots["off_deg"] = r.Sized("off_deg", degrees(90-v))
		delete(square.Slots, "angle_deg")
		r.Question = speech.Choice(fmt.Sprintf("Is that %s off square, or a corner of %s?", degExact(v), degExact(v)),
			speech.Option{Label: "off square", Words: []string{"off", "square", "slope"}, Request: off},
			speech.Option{Label: "a corner", Words: []string{"corner", "angle"}, Request: square})
	}
}

func answerTaper(a *Ask) Answer {
	width, _ := a.Float("width_mm")
	if from, ok := a.Float("from_mm"); ok {
		to, _ := a.Float("to_mm")
		return a.tapering(angle.Tapering{WideMM: from, NarrowMM: to, LengthMM: width})
	}
	if out, ok := a.Float("out_mm"); ok {
		return a.runOff(out, width)
	}
	off, ok := a.Float("off_deg")
	if said, asAngle := a.Float("angle_deg"); !ok && asAngle {
		off = said
		if said > unclearTo {
			var err error
			if off, err = angle.Off(said); err != nil {
				return askFor("angle_deg", plainly(err))
			}
		}
	}
	offset, err := angle.Offset(off, width)
	if err != nil {
		return askFor("width_mm", plainly(err))
	}
	out := a.Out()
	across := mmText(out, width, measure.Nearest)
	ans := say(fmt.Sprintf("%s over %s (%s off square)", mmText(out, offset, measure.Nearest), across, degExact(off)))
	ans.Values["offset_mm"], ans.Values["off_deg"] = offset, off
	ans.line(fmt.Sprintf("One edge is longer by that much. Mark %s square off one edge, set %s along from it, and join the two.", across, mmText(out, offset, measure.Nearest)))
	ans.because(fmt.Sprintf("offset = width × tan(off square) = %s × tan %s = %s mm.", measure.Decimal(width, 2), degExact(off), measure.Decimal(offset, 3)),
		"Geometry; no rule of thumb in it.")
	return ans
}

// runOff gives the angle of a line that runs off by so much over so far.
func (a *Ask) runOff(offset, width float64) Answer {
	off, err := angle.OffBy(offset, width)
	if err != nil {
		return askFor("width_mm", plainly(err))
	}
	out := a.Out()
	ans := say(fmt.Sprintf("%s over %s is %s off square", mmText(out, offset, measure.Nearest), mmText(out, width, measure.Nearest), degExact(off)))
	ans.Values["off_deg"], ans.Values["angle_deg"], ans.Values["offset_mm"] = off, 90-off, offset
	ans.line(fmt.Sprintf("As an angle: %s or %s. Set the bevel by the two sizes rather than by the degrees.", degExact(90-off), degExact(90+off)))
	ans.because(fmt.Sprintf("tan(off square) = %s / %s: %s.", measure.Decimal(offset, 3), measure.Decimal(width, 2), degExact(off)), "Geometry; no rule of thumb in it.")
	return ans
}

// tapering gives the angle of a piece that narrows over its length.
func (a *Ask) tapering(p angle.Tapering) Answer {
	t, err := p.Taper()
	if err != nil {
		return askFor("width_mm", plainly(err))
	}
	out := a.Out()
	loss := p.WideMM - p.NarrowMM
	ans := say(fmt.Sprintf("%s off over %s: %s with one edge straight, %s a side with both", mmText(out, loss, measure.Nearest), mmText(out, p.LengthMM, measure.Nearest), degExact(t.AngleDeg), degExact(t.EachSide)))
	ans.Values["offset_mm"], ans.Values["off_deg"], ans.Values["each_side_deg"], ans.Values["per_100_mm"] = loss, t.AngleDeg, t.EachSide, t.PerHundred
	ans.line(fmt.Sprintf("It loses %s mm in every 100. Both edges alike: half of it from each.", measure.Decimal(t.PerHundred, 2)))
	ans.caution("Tapers tip and creep on a saw: use a taper jig with the work clamped in it, and stay out of the line of the blade.")
	ans.because(fmt.Sprintf("tan angle = (%s − %s) / %s: %s.", measure.Decimal(p.WideMM, 2), measure.Decimal(p.NarrowMM, 2), measure.Decimal(p.LengthMM, 2), degExact(t.AngleDeg)), "Geometry; no rule of thumb in it.")
	return ans
}
