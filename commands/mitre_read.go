package commands

import (
	"math"
	"math/big"
	"slices"
	"strconv"
	"strings"

	"fettle/calc/angle"
	"fettle/calc/measure"
	"fettle/commands/speech"
)

// readMitre reads the corner, the lengths and the widths, in that order: what is left after a
// corner and a length are widths.
func readMitre(r *speech.Reading) {
	if len(angles(r)) == 0 || !r.Says("# walls|wall") { // three walls at 135 degrees are no triangle
		readSides(r)
	}
	claimAsides(r)
	for _, i := range r.All("#length of it|them|this|that") {
		r.Claim(i)
	}
	claimSizesOf(r, "window|opening|door|doorway|hatch|wall|room|hut", trimWords+"|stuff|wood|timber|material", "wide|high|tall|×|across")
	passAll(r, "drywall|plaster|plasterboard|gap|reveal|margin|quirk|overlap is|are|of|:|=? #", "# thick? drywall|plaster|plasterboard|gap|reveal|margin|quirk|overlap|proud")
	readCertain(r)
	if n, ok := r.Request.Float("sides"); ok {
		if c, err := angle.Polygon(int(n)); err == nil {
			r.Put("angle_deg", degrees(c.AngleDeg))
		}
	}
	readTurn(r)
	readOffSquare(r)
	readPointLength(r)
	if r.Says("other|opposite end =is|cut? square") || r.Says("square at|on the other|# end") || r.Says("=only # end") || r.Says("# end =only|mitred|square") {
		r.Word("ends", "one end")
	}
	if i, ok := r.Find(trimWords + " is|are|:|=|of? # on? both|each|either|all"); ok && r.Items[i].Q.Bare() && saidNumberAt(r, i) >= smallestWidth {
		r.Set("width_mm", i) // "trim is 55 both sides" is no corner
	}
	readCorner(r)
	readCornerElsewhere(r)
	for _, i := range angles(r) {
		r.Claim(i)
		r.Word("several", "yes")
	}
	readTrimWidths(r)
	readSquareCorner(r)
	if !r.Request.Has("angle_deg") && !r.Request.Has("sides") {
		if i, ok := firstOf(r, "mitre|miter|mitres|corner for|of|at|on|:? #", "# mitre|miter"); ok {
			setCorner(r, i)
		}
	}
}

// readCertain reads the corner that counts of several that were measured: it's 86.5 for certain. The
// others, close to it, are set aside.
func readCertain(r *speech.Reading) {
	i, ok := firstOf(r, "# for certain|sure|definite", "# definitely|finally|certain|now", "definitely|actually|really|finally|settled|now it's|is|at|on|reads|says? #")
	if !ok || followedBySize(r, i) || saidNumberAt(r, i) < sharpestCorner || saidNumberAt(r, i) >= 180 {
		return
	}
	setCorner(r, i)
	for k := range r.Items {
		if q := r.Items[k].Q; r.Free(k) && (q.Bare() || q.Kind == measure.KindAngle) && !followedBySize(r, k) && math.Abs(saidNumberAt(r, k)-saidNumberAt(r, i)) <= nearbyCorner {
			r.Claim(k)
		}
	}
}

// sharpestCorner is the least bare number, in degrees, that is taken for a corner measured anew, and
// nearbyCorner how far from it an earlier reading of the same corner may lie.
const sharpestCorner, nearbyCorner = 30, 10

// readSquareCorner reads a corner that is said to be square, with no figure for it.
func readSquareCorner(r *speech.Reading) {
	if r.Request.Has("angle_deg") || r.Says("out|off|over|under|past|short|from|than|shy|isn't|not|if|whether of? =square") || r.Says("the|other|opposite|cut end|ends .. =square") {
		return
	}
	if r.Says("corner|corner's|corners|angle|frame|it's|they're|opening|joint is|are|being? dead|exactly|perfectly|true|truly|bang|spot|on|nice|and|a|perfect? =square|square-cornered") || r.Says("dead|true|perfectly|exactly|perfect|bang =square") || r.Says("right =angle") || r.Says("=square corner|corners") {
		r.Put("angle_deg", degrees(90))
	}
}

// readTurn reads by how much a line changes its direction: the corner is what is left to a
// straight line.
func readTurn(r *speech.Reading) {
	i, ok := firstOf(r, "=changes|change|turns|turn|bends|bend|kinks|kink|deviates|cranks direction|course? ×|of|through|about? #", "#angle turn|bend|kink|change|crank|deviation", "direction|course .. ×|of #")
	if !ok {
		return
	}
	if c, err := angle.Turn(saidNumberAt(r, i)); err == nil {
		r.Put("angle_deg", degrees(c.AngleDeg))
	}
	r.Set("turn_deg", i)
}

// readOffSquare reads a corner said by how far it is from square: 2 degrees over, 3 under. Said
// without a direction it may be either, and is asked about.
func readOffSquare(r *speech.Reading) {
	if i, ok := firstOf(r, "# over|past|beyond|above|more than? =square|right"); ok {
		r.Put("angle_deg", degrees(90+saidNumberAt(r, i)))
		r.Claim(i)
		return
	}
	if i, ok := firstOf(r, "# under|short|shy|below|less|inside of|than? =square|right"); ok {
		r.Put("angle_deg", degrees(90-saidNumberAt(r, i)))
		r.Claim(i)
		return
	}
	i, ok := firstOf(r, "# out|off of|from? true|square")
	if !ok {
		return
	}
	off := saidNumberAt(r, i)
	r.Claim(i)
	r.Put("angle_deg", degrees(90+off))
	r.Word("either", "yes")
}

// pointPatterns find a length by the points that it runs between.
var pointPatterns = []struct{ at, pattern string }{
	{"long points", "# long|length|mm? on|at|to|along|between|from|over? the? outside|outer|long|longer|longest|toe|tip|tips =point|points|edge|edges|side|sides|length|of|overall"},
	{"long points", "# long|length? on|at|to|along|between|from|over the? outside|outer|toes|tips"},
	{"long points", "outside|outer|long|longest point|points|edge|edges|length|side|measure|size of|is|:|=|at|to? #"},
	{"long points", "# =long|length? overall|outside|outer|tip"},
	{"short points", "# long|length|mm? on|at|to|along|between|from|over? the? inside|inner|short|shorter|shortest|heel|heels =point|points|edge|edges|side|sides|length"},
	{"short points", "# long|length? on|at|to|along|between|from|over the? inside|inner|heels|opening|glass|rebate"},
	{"short points", "inside|inner|short|shortest point|points|edge|edges|length|side|measure|size of|is|:|=|at|to? #"},
	{"short points", "# =long|length? inside|inner|opening|clear|sight"},
	{"", "# =long|length"},
	{"", "=length of|is|:|=? #"},
}

// readPointLength reads a length and where it was measured.
func readPointLength(r *speech.Reading) {
	for _, p := range pointPatterns {
		for _, i := range r.All(p.pattern) {
			if q := r.Items[i].Q; q.Kind != measure.KindLength && !q.Bare() || cornerFollows(r, i) {
				continue
			}
			r.Set("length_mm", i)
			if p.at != "" {
				r.Word("point", p.at)
			}
			return
		}
	}
}

// readCornerElsewhere notes a second reading of the corner, at its other end, that differs: 93 at the top
// and 91 at the bottom.
func readCornerElsewhere(r *speech.Reading) {
	corner, ok := r.Request.Float("angle_deg")
	for _, i := range r.All("and|,|but|/ # at|on|by the? top|bottom|foot|head|floor|ceiling|left|right|other") {
		if v := saidNumberAt(r, i); ok && r.Items[i].Q.Bare() && v != corner && math.Abs(v-corner) <= nearbyCorner {
			r.Claim(i)
			r.Word("several", "yes")
		}
	}
}

// cornerFollows says that the words behind the number are about a corner: 92 inside corner.
func cornerFollows(r *speech.Reading, i int) bool {
	for k := i + 1; k <= i+2 && k < len(r.Items); k++ {
		if t := r.Items[k].Text; t == "corner" || t == "corners" {
			return true
		}
	}
	return false
}

// readCorner reads the corner's angle. Of several angles the one beside the word counts; where
// that doesn't tell, the person is asked.
func readCorner(r *speech.Reading) {
	if r.Request.Has("angle_deg") {
		return
	}
	if i, ok := firstOf(r,
		"corner|corners|angle|template|bevel|gauge|protractor|it =is|are|reads|read|of|at|measures|measured|shows|says|reading|: about|exactly|just? #",
		"corner|angle|template|bevel|gauge .. =reads|read|measures|measured|shows|came|comes|is|at|out out? at|as|to? #",
		"# inside|outside|internal|external? corner|corners|angle", "corner|angle #", "out at #"); ok && !followedBySize(r, i) {
		setCorner(r, i)
		return
	}
	if list := angles(r); len(list) > 0 {
		setCorner(r, list[0])
	} else if i, ok := firstOf(r, "at #"); ok && !followedBySize(r, i) {
		setCorner(r, i)
	}
}

// followedBySize says that a bare number is a width or a length by the word behind it.
func followedBySize(r *speech.Reading, i int) bool {
	if !r.Items[i].Q.Bare() || i+1 >= len(r.Items) {
		return false
	}
	switch r.Items[i+1].Text {
	case "wide", "long", "thick", "broad", "×", "width", "length":
		return true
	}
	return false
}

// setCorner takes the number for the corner. An angle beyond a straight line was measured
// round the outside, when it was said so.
func setCorner(r *speech.Reading, i int) {
	deg := saidNumberAt(r, i)
	if w, _ := r.Named(cornerWords); deg > 180 && w == "outside corner" {
		if c, err := angle.Outside(deg); err == nil {
			r.Put("angle_deg", degrees(c.AngleDeg))
			r.Set("outside_deg", i)
			return
		}
	}
	r.Set("angle_deg", i)
}

// widthPatterns find the widths of the pieces.
var widthPatterns = []string{
	"# -? wide|broad|width|widths", "wide|width|widths of|is|are|:|=|being? #",
	trimWords + "|one|other|both|second|first|all|each|ones|them|others trims|pieces|bits|trim|piece|one|is|are|of|at|:|in|being|=? both|all? #",
	"# " + trimWords + "|faced|face",
	trimWords + "|both equal|same|alike|identical|both ,|:|at|of|,? #", "one|other|first|second wood|timber|moulding of|is|:|=? #",
	"both # $", "# on|at|for # side", "# on|at|for the? =other|second",
	"t'other|t'other's|tother|other's|other|second|2nd trim|one|piece|bit? is|at|being|,? #",
}

// smallestWidth is the least bare number that is taken for a width in mm: smaller ones count
// the pieces.
const smallestWidth = 6

// widestMitred is up to how wide, in mm, a size with a unit and no word for its width is taken for a
// trim: common practice, no source.
const widestMitred = 600

// widestBareTrim is up to how wide, in mm, a bare number "on the head" is taken for another width, where one
// was said: common practice, no source.
const widestBareTrim = 200

// leastSlashed is the least width in mm of two with a slash between: smaller ones are a fraction.
const leastSlashed = 10

// readSlashed reads two widths with a slash between, 60/40, which are no part of an inch.
func readSlashed(r *speech.Reading) {
	for i, it := range r.Items {
		if !r.Free(i) || !it.Q.Bare() && it.Q.Kind != measure.KindLength {
			continue
		}
		first, second, ok := strings.Cut(strings.TrimRightFunc(r.Text[it.Start:it.End], func(c rune) bool { return c < '0' || c > '9' }), "/")
		a, errA := strconv.Atoi(strings.TrimSpace(first))
		b, errB := strconv.Atoi(strings.TrimSpace(second))
		if !ok || errA != nil || errB != nil || a < leastSlashed || b < leastSlashed || a < b && b&(b-1) == 0 {
			continue
		}
		q := *it.Q
		q.Fraction = false
		for need, n := range map[string]int{"width_mm": a, "width2_mm": b} {
			q.Value = big.NewRat(int64(n), 1)
			r.Put(need, q)
		}
		r.Claim(i)
		return
	}
}

// readTrimWidths reads one width or two, in the order in which they were said. A number of a
// size, 60 × 20, is a width with a thickness behind it.
func readTrimWidths(r *speech.Reading) {
	wide := map[int]bool{}
	for _, p := range widthPatterns {
		for _, i := range r.All(p) {
			wide[i] = true
		}
	}
	for _, i := range r.All("# on|for|at the|its? " + trimWords) {
		if v := saidNumberAt(r, i); r.Items[i].Q.Bare() && v >= smallestWidth && v <= widestBareTrim && len(wide) > 0 {
			wide[i] = true
		}
	}
	bothLoose(r, wide)
	readSlashed(r)
	var found []int
	for i := range r.Items {
		if r.Request.Has("width2_mm") {
			break
		}
		if isTrimWidth(r, i, wide) {
			found = append(found, i)
		}
	}
	if i, ok := r.Find("other one|piece|moulding|trim|leg|side|casing? is|at|being|measures? only|just #"); ok && len(found) == 1 && found[0] != i && r.Alone(i) && !r.Request.Has("width2_mm") {
		r.Put("width_mm", *r.Items[found[0]].Q)
		r.Claim(found[0])
		r.Set("width2_mm", i)
		return
	}
	if i, ok := r.Find("meets|meeting|against|joins|onto a|an|the|another? narrow|narrower|broad|broader|wide|wider|thin|thinner|smaller|larger|second|other? one|trim|piece|moulding|casing|skirting of|is? #"); ok && r.Alone(i) && !r.Request.Has("width2_mm") {
		first := slices.DeleteFunc(append(found, r.All(trimWords+" of? #")...), func(k int) bool { return k == i })
		if len(first) > 0 && first[0] < i {
			r.Set("width_mm", first[0])
			r.Set("width2_mm", i)
			return
		}
	}
	second := r.Says("=second|other|2nd|next one|trim|piece|bit|is|to|at|: ..") && !r.Says("=first|one|head|both|all ..")
	for k, i := range found {
		switch {
		case k == 0 && second && len(found) == 1:
			r.Set("width2_mm", i)
		case k == 0:
			r.Put("width_mm", sharedUnit(r, found, k))
			r.Claim(i)
		case k == 1 && !r.Request.Has("width2_mm"):
			r.Set("width2_mm", i)
		}
	}
}

// bothLoose takes two numbers joined by "and" for widths, when nothing else spoke for them and
// the corner is known.
func bothLoose(r *speech.Reading, wide map[int]bool) {
	if !r.Request.Has("angle_deg") && !r.Request.Has("sides") {
		return
	}
	for i := range r.Items {
		if joined(r, i, "and|/|,|&|+|on|with|to|onto|meets|meeting|against") && r.Alone(i) && r.Alone(i+2) && saidNumberAt(r, i) >= smallestWidth && saidNumberAt(r, i+2) >= smallestWidth {
			wide[i], wide[i+2] = true, true
		}
	}
}

// isTrimWidth says whether the number at i is a width: by the words beside it, by its unit, or
// by the width that it is joined to.
func isTrimWidth(r *speech.Reading, i int, wide map[int]bool) bool {
	if !r.Free(i) {
		return false
	}
	q := r.Items[i].Q
	switch {
	case joined(r, i-2, "×"), anyOf(textAt(r, i+1), "thick|thickness"):
		r.Set("thickness_mm", i)
		return false
	case !wide[i] && q.Kind == measure.KindLength && r.Sized("width_mm", *q).Float() > widestMitred: // lengths that were bought
		return false
	case q.Kind == measure.KindLength, joined(r, i, "×"):
		wide[i] = true
	case !q.Bare() || r.System == measure.Metric && saidNumberAt(r, i) < smallestWidth:
		return false
	case !wide[i]:
		wide[i] = joined(r, i, "and|,|/|with|to|meets|meeting|onto|against|+|or|on") && r.Free(i+2) && wide[i+2] ||
			joined(r, i-2, "and|,|/|with|to|meets|meeting|onto|against|+|on") && wide[i-2]
	}
	return wide[i]
}

// joined says whether one of the words stands between the numbers at i and i+2.
func joined(r *speech.Reading, i int, words string) bool {
	return i >= 0 && i+2 < len(r.Items) && r.Items[i].Q != nil && r.Items[i+2].Q != nil && anyOf(r.Items[i+1].Text, words)
}

// sharedUnit gives a bare number the unit of the one behind it: 6 and 4.5 cm.
func sharedUnit(r *speech.Reading, found []int, k int) speech.Quantity {
	q := *r.Items[found[k]].Q
	if k+1 < len(found) && q.Bare() && !q.Fraction {
		if next := r.Items[found[k+1]].Q; next.Unit != nil {
			q.Unit, q.Kind = next.Unit, next.Kind
		}
	}
	return q
}

// mostTurnAgain is the largest angle, in degrees, that is taken for another turn when the last
// request was about a turn: corners are seldom so sharp.
const mostTurnAgain = 45

// needMitre drops what a later message replaced and asks for what is missing.
func needMitre(r *speech.Reading) {
	q, _ := r.Request.Float("angle_deg")
	if r.Request.Has("turn_deg") && r.Anew("angle_deg") && q <= mostTurnAgain {
		if c, err := angle.Turn(q); err == nil {
			r.Request.Slots["turn_deg"] = r.Request.Slots["angle_deg"]
			r.Put("angle_deg", degrees(c.AngleDeg))
			q = c.AngleDeg
		}
	}
	for name, of := range map[string]func(float64) (angle.Corner, error){
		"sides":       func(n float64) (angle.Corner, error) { return angle.Polygon(int(n)) },
		"turn_deg":    angle.Turn,
		"outside_deg": angle.Outside,
	} {
		if v, ok := r.Request.Float(name); ok {
			if c, err := of(v); err == nil && math.Abs(c.AngleDeg-q) > 1e-9 {
				r.Drop(name)
			}
		}
	}
	if r.Anew("width_mm") && r.Says("=both|all|equal|same") && !r.Anew("width2_mm") {
		r.Drop("width2_mm")
	}
	r.AskFor("angle_deg", "What is the corner's angle, or how many sides has the frame?", "angle_deg", "sides")
	askEither(r, q)
	if r.Request.Has("width2_mm") && !r.Request.Has("width_mm") {
		r.Question = &speech.Question{Text: "How wide is the first piece?", Need: "width_mm"}
	}
	if r.Request.Word("several") != "" {
		r.Question = &speech.Question{Text: "One corner at a time, please. What is its angle?", Need: "angle_deg"}
		r.Drop("several")
		r.Drop("angle_deg")
	}
	askPoint(r)
}

// askEither asks on which side of square a corner is that was said to be so much out.
func askEither(r *speech.Reading, over float64) {
	if r.Request.Word("either") == "" {
		return
	}
	r.Drop("either")
	under := 180 - over
	option := func(deg float64, words ...string) speech.Option {
		slot := r.Sized("angle_deg", degrees(deg))
		c := r.Moved(nil)
		c.Slots["angle_deg"] = slot
		return speech.Option{Label: degExact(deg), Words: words, Request: c}
	}
	r.Question = speech.Choice("Is the corner more or less than square?", option(over, "over", "more", "open", "obtuse", "wide"), option(under, "under", "less", "tight", "acute", "short"))
	r.Drop("angle_deg")
}

// askPoint asks where a length was measured, when a width makes the difference and a length is asked
// for: the angles don't hang on it.
func askPoint(r *speech.Reading) {
	lengthAsked := r.Says("how|what|which long|length|lengths|size|sizes") || r.Says("=lengths|points|point") || r.Says("cut|saw to length|size")
	if angleAsked := r.Says("what|what's|which|need .. angle|angles|mitre|mitres|miter|miters|setting|swing|saw|degrees") || r.Says("mitre|mitres|miter|miters|angle|angles|setting for|on|at each|both|every|ends") || r.Says("^ mitre|mitres|miter|miters|angle|angles|setting for|on|at") || r.Says("mitre|mitres|miter|miters|angle|angles|setting|swing|saw ?"); angleAsked && !lengthAsked {
		return
	}
	if !r.Request.Has("length_mm") || !r.Request.Has("width_mm") || r.Request.Has("point") {
		return
	}
	option := func(at string, words ...string) speech.Option {
		c := r.Moved(nil)
		c.Slots["point"] = speech.Slot{Word: at}
		return speech.Option{Label: at, Words: words, Request: c}
	}
	length := saidText(r.Request.Slots["length_mm"])
	r.Question = speech.Choice("Is "+length+" from short point to short point (inside), or from long point to long point (outside)?",
		option("short points", "short", "inside", "inner", "short point"), option("long points", "long", "outside", "outer", "long point"))
}
