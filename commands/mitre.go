package commands

import (
	"fmt"
	"math"

	"fettle/calc/angle"
	"fettle/calc/measure"
	"fettle/commands/speech"
)

var cornerWords = speech.NewVocabulary("corner", map[string][]string{
	"inside corner":  {"internal corner", "inner corner", "inside corners", "inside the corner"},
	"outside corner": {"external corner", "outer corner", "outside corners", "round the outside", "around the outside", "measured outside", "on the outside of the corner", "reflex"},
})

// trimWords name what is mitred. Without a # they give no number a role, but make the words
// known in follow-ups: the numbers are read by readMitre, which sees all of them at once.
const trimWords = "trim|lining|linings|beading|beads|capping|coving|cornice|dado|trims|piece|pieces|bit|bits|stock|architrave|architraves|casing|casings|moulding|mouldings|rail|rails|stile|stiles|head|side|leg|legs|jamb|jambs|board|boards|skirting|skirtings"

func mitre() *Topic {
	return &Topic{
		Title:    "mitres of corners that are not square, and of pieces of unequal width",
		Examples: []string{"mitre for a 97 degree corner, trims 60 and 40 wide", "what mitre for an eight-sided frame lying flat?", "mitres for a 92 degree corner, 58 wide, 600 on the inside"},
		Form: speech.Form{
			Name: "mitre", Exact: true,
			Cues: []speech.Cue{
				{Weight: -6, Pattern: "mitre|miter =saw was|is|cost|costs|came"},
				{Weight: 5, Pattern: "mitre|mitres|miter|miters|mitred|mitered|mitering|gehrung|mitor|meitre|mitter"},
				{Weight: 5, Pattern: "metre|meter|metres|meters .. corner|corners"},
				{Weight: 3, Pattern: "=changes|change|turns|turn|bends|bend|kinks|kink direction|course? ×|of|through|about? #"},
				{Weight: 4, Pattern: "inside|internal|outside|external|inner|outer corner|corners"},
				{Weight: 3, Pattern: "=set|swing .. saw|blade|fence|gauge|mitre"},
				{Weight: 3, Pattern: "octagon|octagonal|hexagon|hexagonal|pentagon|pentagonal|sided|ring|corner|corners .. set|swing|cut|mitre|frame"},
				{Weight: 3, Pattern: "set|swing|cut .. octagon|octagonal|hexagon|hexagonal|pentagon|pentagonal|sided|corner|corners"},
				{Weight: 2, Pattern: "#angle corner|bend|turn|kink"},
				{Weight: 2, Pattern: "corner|corners .. #angle"},
				{Weight: 2, Pattern: "corner|template|bevel|gauge reads|read|shows|came|measures|is"},
				{Weight: 2, Pattern: "trim|trims|architrave|architraves|moulding|mouldings|casing|skirting|frame .. meet|meets|meeting|joins|join|corner|corners"},
				{Weight: 2, Pattern: "# .. meeting|meets|meet .. #"},
				{Weight: 2, Pattern: "saw|cut|swing .. corner|corners|joint|frame|trim|trims|piece|pieces|end|ends|segment|segments"},
				{Weight: 2, Pattern: "sided|sides|hexagon|hexagonal|octagon|octagonal|pentagon|segment|segments .. flat|frame|ring|trim"},
				{Weight: 2, Pattern: "long|short|inner|outer point|points|heel|toe"},
				{Weight: 2, Pattern: "skirting|skirtings|architrave|architraves|casing|moulding"},
				{Weight: 1, Pattern: "corner|corners|trim|trims|swing"},
				{Weight: -6, Pattern: "slope|slopes|sloping|leaning|lean|leans|tilted|splayed|splay|upright|vertical|plumb|hopper|compound|bevel and"},
				{Weight: -4, Pattern: "diagonal|diagonals|from the|one? end|top of .. end|top of"},
				{Weight: -4, Pattern: "trim|frame|architrave all|round|around round|around|an|the opening|window|door|it"},
				{Weight: -6, Pattern: "rips|rip|crosscuts|tonight|plan"},
				{Weight: -5, Pattern: "clamp|clamps|glue|epoxy|pva|polyurethane"},
				{Weight: -4, Pattern: "^ note|remember|bought|ordered|cut|i've|finished|done|we've"},
			},
			Needs: []speech.Need{
				{Name: "angle_deg", Kind: measure.KindAngle, Label: "corner", Min: 5, Max: 179, Leads: true, Roles: []string{"out|over|under|past|short|of|true|square|corner"}},
				sidesNeed(""),
				{Name: "turn_deg", Kind: measure.KindAngle, Label: "turn", Min: 1, Max: 175, Own: true},
				{Name: "outside_deg", Kind: measure.KindAngle, Label: "measured outside", Min: 181, Max: 355, Own: true},
				{Name: "width_mm", Kind: measure.KindLength, Label: "width", Min: 6, Max: 600, Roles: []string{trimWords}},
				{Name: "width2_mm", Kind: measure.KindLength, Label: "other width", Min: 6, Max: 600, Roles: []string{"=second|other|2nd|next"}},
				{Name: "thickness_mm", Kind: measure.KindLength, Label: "thickness", Min: 2, Max: 200, Roles: thicknessRoles},
				{Name: "length_mm", Kind: measure.KindLength, Label: "length", Min: 20, Max: longestPart},
				{Name: "point", Kind: speech.KindWord, Label: "at", Own: true},
				{Name: "corner", Kind: speech.KindWord, Label: "corner", Vocab: cornerWords},
				{Name: "ends", Kind: speech.KindWord, Label: "ends", Own: true},
			},
			Before: readMitre,
			After:  needMitre,
		},
		Answer: answerMitre,
	}
}

func answerMitre(a *Ask) Answer {
	c := angle.Corner{}
	c.AngleDeg, _ = a.Float("angle_deg")
	c.WidthMM, _ = a.Float("width_mm")
	c.OtherWidthMM, _ = a.Float("width2_mm")
	m, err := c.Mitre()
	if err != nil {
		return askFor("angle_deg", plainly(err))
	}
	ans := say("")
	ans.Values["mitre_deg"], ans.Values["saw_deg"] = m.MitreDeg, m.SawDeg
	if c.WidthMM > 0 {
		ans.Values["cut_mm"] = m.CutMM
	}
	if a.Has("width2_mm") {
		ans.Values["mitre2_deg"], ans.Values["saw2_deg"] = m.OtherMitreDeg, m.OtherSawDeg
	}
	a.wordMitre(&ans, c, m)
	if problem := a.pointLengths(&ans, c, m); problem != "" {
		return askFor("length_mm", problem)
	}
	ans.line(a.whichFace())
	limits(&ans, m)
	ans.because(mitreReason(c, m), "Geometry: the cut runs from the inner to the outer corner. No rule of thumb in it; 90 − mitre is the swing from square.")
	return ans
}

// wordMitre words the headline and the lines about the settings.
func (a *Ask) wordMitre(ans *Answer, c angle.Corner, m angle.Mitre) {
	out := a.Out()
	if from := a.cornerFrom(c); from != "" {
		ans.line(from)
	}
	if c.OtherWidthMM == 0 || c.OtherWidthMM == c.WidthMM {
		ans.Answer = fmt.Sprintf("Swing the saw %s from square on both pieces (mitre %s to the edge)", degText(m.SawDeg), degText(90-shown90(m.SawDeg)))
		if !onScale(m.SawDeg) {
			ans.line(fmt.Sprintf("To the hundredth: saw %s, mitre %s.", degExact(m.SawDeg), degExact(m.MitreDeg)))
		}
		if c.WidthMM == 0 {
			ans.line("For two pieces of one width; if one is wider, say both widths.")
		}
		return
	}
	first, second := mmText(out, c.WidthMM, measure.Nearest), mmText(out, c.OtherWidthMM, measure.Nearest)
	ans.Answer = fmt.Sprintf("Saw from square: %s on the %s piece, %s on the %s piece", degText(m.SawDeg), first, degText(m.OtherSawDeg), second)
	ans.line(fmt.Sprintf("Between cut and edge: %s and %s. To the hundredth the saw is at %s and %s.",
		degText(90-shown90(m.SawDeg)), degText(90-shown90(m.OtherSawDeg)), degExact(m.SawDeg), degExact(m.OtherSawDeg)))
	ans.line(fmt.Sprintf("Both cuts are %s long; check that before you fix them.", mmText(out, m.CutMM, measure.Nearest)))
}

// shown90 is the swing as it is printed, so that swing and mitre add up to 90 in print too.
func shown90(saw float64) float64 { return math.Round(saw/halfDegree) * halfDegree }

// cornerFrom says how the corner came about, when it wasn't said itself.
func (a *Ask) cornerFrom(c angle.Corner) string {
	if n, ok := a.Float("sides"); ok {
		return fmt.Sprintf("%d equal sides meet at %s.", int(n), degExact(c.AngleDeg))
	}
	if t, ok := a.Float("turn_deg"); ok {
		return fmt.Sprintf("A turn of %s is a corner of %s.", degExact(t), degExact(c.AngleDeg))
	}
	if o, ok := a.Float("outside_deg"); ok {
		return fmt.Sprintf("%s round the outside is a corner of %s.", degExact(o), degExact(c.AngleDeg))
	}
	return ""
}

// pointLengths adds the lengths at both points of a piece of the first width; it gives a
// sentence when the piece can't be.
func (a *Ask) pointLengths(ans *Answer, c angle.Corner, m angle.Mitre) string {
	length, ok := a.Float("length_mm")
	switch {
	case !ok:
		return ""
	case a.Word("point") == "" && c.WidthMM > 0:
		ans.line(fmt.Sprintf("Say whether %s is at the long or at the short points, and I give the length at the others.", mmText(a.Out(), length, measure.Nearest)))
		return ""
	case c.WidthMM == 0:
		ans.line("Say the width of the piece, and I give the length at the long and the short points.")
		return ""
	case m.SawDeg < 0:
		ans.line("This piece is cut past square, so it has no long points; mark it from the outer corner.")
		return ""
	}
	other := m.SawDeg
	ends := "both ends mitred alike"
	if a.Word("ends") == "one end" {
		other, ends = 0, "the other end square"
	}
	long, short := length, length
	var err error
	if a.Word("point") == "long points" {
		short, err = angle.ShortPoint(length, c.WidthMM, m.SawDeg, other)
	} else {
		long, err = angle.LongPoint(length, c.WidthMM, m.SawDeg, other)
	}
	if err != nil {
		return plainly(err)
	}
	ans.Values["long_mm"], ans.Values["short_mm"] = long, short
	out := a.Out()
	ans.line(fmt.Sprintf("Length at the long points %s, at the short points %s (%s).", mmText(out, long, measure.Nearest), mmText(out, short, measure.Nearest), ends))
	return ""
}

func (a *Ask) whichFace() string {
	switch a.Word("corner") {
	case "outside corner":
		return "Outside corner: the long points are on the face. Try it on two scraps first."
	case "inside corner":
		return "Inside corner: the short points are on the face. Try it on two scraps first."
	}
	return "Try it on two scraps in the corner first."
}

// mostSwing is how far the common run of saws swings, in degrees: common practice, no source.
const mostSwing = 50

// limits says what the usual saw can't do.
func limits(ans *Answer, m angle.Mitre) {
	if m.SawDeg < 0 || m.OtherSawDeg < 0 {
		ans.line("Below nought the saw swings past square, to the other side.")
	}
	if m.SawDeg > mostSwing || m.OtherSawDeg > mostSwing {
		ans.line(fmt.Sprintf("Beyond %d° most saws need the piece stood against a jig, or a cut by hand to a line.", mostSwing))
		ans.caution("Steep mitres tip and creep: clamp the work to a jig, try scrap first, stay out of the line of the blade.")
	}
}

func mitreReason(c angle.Corner, m angle.Mitre) string {
	if c.OtherWidthMM == 0 || c.OtherWidthMM == c.WidthMM {
		return fmt.Sprintf("mitre = corner / 2 = %s / 2 = %s; saw = 90 − %s = %s.", degExact(c.AngleDeg), degExact(m.MitreDeg), degExact(m.MitreDeg), degExact(m.SawDeg))
	}
	return fmt.Sprintf("tan mitre = a sin q / (b + a cos q) with a %s, b %s mm, q %s: %s; the other %s − %s = %s.",
		measure.Decimal(c.WidthMM, 2), measure.Decimal(c.OtherWidthMM, 2), degExact(c.AngleDeg), degExact(m.MitreDeg),
		degExact(c.AngleDeg), degExact(m.MitreDeg), degExact(m.OtherMitreDeg))
}
