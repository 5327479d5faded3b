package commands

import (
	"fmt"
	"math"

	"fettle/calc/angle"
	"fettle/calc/measure"
	"fettle/commands/speech"
)

func squareCheck() *Topic {
	side := func(name, label string, words string) speech.Need {
		return speech.Need{Name: name, Kind: measure.KindLength, Label: label, Min: 50, Max: 10000,
			Roles: []string{words + " side|rail|edge|jamb|stile|long|width|height|measures|is|of|:|=|at|reads? #", "# at|on|along|across the " + words, "# " + words}}
	}
	return &Topic{
		Title:    "is it square, by diagonals; which corner is out, and by how much",
		Examples: []string{"opening 812 by 1130, diagonals 1394 and 1389", "what should the diagonal be on 1180 by 520", "sill 900, post 1200, end to end 1512, what angle is the corner?"},
		Form: speech.Form{
			Name: "square-check", Exact: true,
			Cues: []speech.Cue{
				{Weight: 4, Pattern: "diagonal|diagonals|diags|diagonally"},
				{Weight: 6, Pattern: "what|how should|must|ought|would|does .. corner to corner"},
				{Weight: 4, Pattern: "is|are|was|isn't|check|whether|if .. =square|squareness"},
				{Weight: 5, Pattern: "is|was|are it|this|that|they|she|everything =square"},
				{Weight: 3, Pattern: "how far|much|square|out .. out of|from? =square"},
				{Weight: 3, Pattern: "how|which .. out of =square"},
				{Weight: 4, Pattern: "corner|end|ends|point|tip to corner|end|ends|point|tip #"},
				{Weight: 4, Pattern: "which|what|what's corner|corners .. out|off|tight|open|wide"},
				{Weight: 4, Pattern: "=bottom|top =left|right to =bottom|top =left|right"},
				{Weight: 5, Pattern: "end of .. end of"},
				{Weight: 4, Pattern: "angle|corner .. between"},
				{Weight: 3, Pattern: "bottom|sill .. # .. top|head .. # .. raked|sloping|slopes|leans|square|plumb"},
				{Weight: 3, Pattern: "top|head .. # .. bottom|sill .. # .. raked|sloping|slopes|leans|square|plumb"},
				{Weight: 3, Pattern: "raked|leaning side|jamb|edge|stile"},
				{Weight: 1, Pattern: "opening|frame|sill|post|=square|corner"},
				{Weight: -6, Pattern: "mitre|miter|mitres|mitred|compound|hopper|chord|radius|arc|taper|offset"},
				{Weight: -4, Pattern: "=square metre|metres|meter|meters|foot|feet|inch|inches|m|yards"},
				{Weight: -5, Pattern: "^ note|remember|add|bought"},
				{Weight: -5, Pattern: "clamp|clamps|cramp|cramps|glue|epoxy|pva|polyurethane|varnish|rough|weigh|cost|stable door"},
			},
			Needs: []speech.Need{
				{Name: "width_mm", Kind: measure.KindLength, Label: "width", Min: 50, Max: 10000,
					Roles: []string{"# wide|width|across|broad", "=width|sole of|is|:|=|at? #", "wide #", "one side|leg|stick|arm is|of|:? #", "# along one|a side|leg|edge|wall|arm"}},
				{Name: "height_mm", Kind: measure.KindLength, Label: "height", Min: 50, Max: 10000,
					Roles: []string{"# high|tall|height|=long|deep|up", "=height|post|upright|jamb|stud|stile|drop is|of|:|=|at|side? #", "high #", "other side|leg|stick|arm is|of|:? #", "# along the? other|second", "side|leg|stick|arm .. the? other one? is|of|at|:|,? #"}},
				{Name: "diagonal_mm", Kind: measure.KindLength, Label: "diagonal", Min: 60, Max: 15000},
				{Name: "diagonal2_mm", Kind: measure.KindLength, Label: "other diagonal", Min: 60, Max: 15000},
				side("bottom_mm", "bottom", "bottom|sill|base|threshold"),
				side("top_mm", "top", "top|head|lintel"),
				side("left_mm", "left side", "left|left-hand"),
				side("right_mm", "right side", "right-hand|right"),
			},
			Sizes:  []string{"width_mm", "height_mm"},
			Before: readSquare,
			After:  needSquare,
		},
		Answer: answerSquare,
	}
}

// answerSquare picks the kind of opening by what was measured.
func answerSquare(a *Ask) Answer {
	switch {
	case a.Has("top_mm") && a.Has("bottom_mm") && a.Has("left_mm") && a.Has("right_mm") && a.Has("diagonal_mm"):
		return a.fourSides()
	case a.Has("top_mm") && a.Has("bottom_mm") && !a.Has("diagonal_mm"):
		return a.raked()
	}
	o := angle.Opening{}
	o.WidthMM, _ = a.Float("width_mm")
	o.HeightMM, _ = a.Float("height_mm")
	o.DiagonalMM, _ = a.Float("diagonal_mm")
	o.OtherDiagonalMM, _ = a.Float("diagonal2_mm")
	s, err := o.Check()
	if err != nil {
		return askFor(wrongMeasure(o), plainly(err))
	}
	if q := a.hardToBelieve(o, s); q != nil {
		ans := ask(q.Text)
		ans.open = q
		return ans
	}
	ans := say("")
	ans.Values["diagonal_mm"] = s.DiagonalMM
	if o.DiagonalMM == 0 {
		a.diagonalOnly(&ans, o, s)
		return ans
	}
	ans.Values["corner_deg"], ans.Values["out_mm"] = s.CornerDeg, s.OutMM
	a.compared(&ans, o, s)
	return ans
}

// wrongMeasure names the need that an opening fails by: the second diagonal, if the first
// alone would do.
func wrongMeasure(o angle.Opening) string {
	if _, err := (angle.Opening{WidthMM: o.WidthMM, HeightMM: o.HeightMM, DiagonalMM: o.DiagonalMM}).Check(); err == nil {
		return "diagonal2_mm"
	}
	return "diagonal_mm"
}

// diagonalOnly says what both diagonals should be.
func (a *Ask) diagonalOnly(ans *Answer, o angle.Opening, s angle.Squareness) {
	out := a.Out()
	ans.Answer = fmt.Sprintf("Both diagonals %s if it is square", mmText(out, s.DiagonalMM, measure.Nearest))
	ans.line("Equal diagonals alone don't do: opposite sides have to be equal too. Tell me the diagonals as measured, and I say how far it is out.")
	ans.because(fmt.Sprintf("diagonal = √(w² + h²) = √(%s² + %s²) = %s mm.", measure.Decimal(o.WidthMM, 2), measure.Decimal(o.HeightMM, 2), measure.Decimal(s.DiagonalMM, 2)),
		"Geometry (Pythagoras); no rule of thumb in it.")
}

const (
	// squareEnough is how far an upright may lean, in mm, before it is called out of square: half
	// of what a tape shows. Common practice, no source.
	squareEnough = 0.5
	// sidesDisagree is by how many mm the second diagonal may miss what the first calls for before
	// it is pointed out: errors of a tape. Common practice, no source.
	sidesDisagree = 2
	// mostDisagree is the share of a diagonal by which the two may disagree before they are asked
	// about again: a slip of a digit. Common practice, no source.
	mostDisagree = 0.015
	// crookedest is how many degrees off square an opening is believed to be.
	crookedest = 20
)

// hardToBelieve asks for a measure again when the figures can't belong to one opening.
func (a *Ask) hardToBelieve(o angle.Opening, s angle.Squareness) *speech.Question {
	out := a.Out()
	text := func(mm float64) string { return mmText(out, mm, measure.Nearest) }
	if o.DiagonalMM == 0 || a.Has("sure") {
		return nil
	}
	sure := a.Request
	sure.Slots = map[string]speech.Slot{"sure": {Word: "yes"}}
	for k, v := range a.Request.Slots {
		sure.Slots[k] = v
	}
	asSaid := speech.Option{Label: "they stand", Words: []string{"yes", "right", "correct", "it stands", "as said"}, Request: sure}
	belongs, err := o.Other()
	switch {
	case err == nil && s.ErrorMM > mostDisagree*o.DiagonalMM:
		return &speech.Question{Need: "diagonal2_mm", Options: []speech.Option{asSaid},
			Text: fmt.Sprintf("With sides of %s and %s and one diagonal of %s the other would be about %s, not %s. Measure both diagonals again, then the sides.",
				text(o.WidthMM), text(o.HeightMM), text(o.DiagonalMM), text(belongs), text(o.OtherDiagonalMM))}
	case a.Word("rake") == "" && math.Abs(s.CornerDeg-90) > crookedest:
		return &speech.Question{Need: "diagonal_mm", Options: []speech.Option{asSaid},
			Text: fmt.Sprintf("A diagonal of %s puts that corner at %s; %s would be square. Measure the diagonal again, or say that it stands.", text(o.DiagonalMM), degText(s.CornerDeg), text(s.DiagonalMM))}
	}
	return nil
}

// compared says how far an opening with measured diagonals is out, where, and what that means
// for what is fitted into it.
func (a *Ask) compared(ans *Answer, o angle.Opening, s angle.Squareness) {
	out := a.Out()
	text := func(mm float64) string { return mmText(out, mm, measure.Nearest) }
	ans.because(squareReason(o, s), "Geometry (law of cosines), taking opposite sides as equal. Common practice: up to half a millimetre counts as square.")
	if s.ErrorMM > sidesDisagree {
		ans.line(fmt.Sprintf("Sides and diagonals disagree by %s: measure the sides again, opposite ones may differ. The figures here are from the diagonals.", text(s.ErrorMM)))
	}
	if s.OutMM <= squareEnough {
		ans.Answer = fmt.Sprintf("Square: the corner is %s, %s out", degExact(s.CornerDeg), text(s.OutMM))
		ans.line(fmt.Sprintf("A square one has diagonals of %s.", text(s.DiagonalMM)))
		return
	}
	ans.Answer = fmt.Sprintf("Out of square by %s over %s; the corner is %s", text(s.OutMM), text(o.HeightMM), degExact(s.CornerDeg))
	ans.line(fmt.Sprintf("That is the corner across from the first diagonal. %sA square one has diagonals of %s.", a.whichCorners(o, s), text(s.DiagonalMM)))
	if a.Word("rake") != "" || math.Abs(s.CornerDeg-90) > crookedest {
		return
	}
	ans.line(fmt.Sprintf("To fit a square leaf of that size: plane a wedge off one upright edge, nothing at its tight corner to %s at its open corner; the other edge then gaps by as much.", text(s.OutMM)))
	if o.OtherDiagonalMM > 0 {
		ans.line(fmt.Sprintf("If it's a loose frame: push the ends of the longer diagonal together until both read %s.", text(s.DiagonalMM)))
	}
}

// whichCorners names the tight and the open corners.
func (a *Ask) whichCorners(o angle.Opening, s angle.Squareness) string {
	tight, open := "the ends of the longer diagonal", "the other two"
	if from := a.Word("first_from"); from != "" {
		ends, across := "bottom left and top right", "bottom right and top left"
		if from == fromTopLeft {
			ends, across = across, ends
		}
		tight, open = ends, across
		if s.CornerDeg < 90 {
			tight, open = open, tight
		}
	}
	if o.OtherDiagonalMM == 0 && a.Word("first_from") == "" {
		return ""
	}
	off := math.Abs(90 - s.CornerDeg)
	return fmt.Sprintf("Tight (%s): %s; open (%s): %s. ", degExact(90-off), tight, degExact(90+off), open)
}

func squareReason(o angle.Opening, s angle.Squareness) string {
	n := func(v float64) string { return measure.Decimal(v, 1) }
	if o.OtherDiagonalMM > 0 {
		return fmt.Sprintf("cos corner = (e² − d²)/(4wh) = (%s² − %s²)/(4 × %s × %s): %s; lean = h × |cos| = %s mm.",
			n(o.OtherDiagonalMM), n(o.DiagonalMM), n(o.WidthMM), n(o.HeightMM), degExact(s.CornerDeg), n(s.OutMM))
	}
	return fmt.Sprintf("cos corner = (w² + h² − d²)/(2wh) with w %s, h %s, d %s: %s; lean = h × |cos| = %s mm.",
		n(o.WidthMM), n(o.HeightMM), n(o.DiagonalMM), degExact(s.CornerDeg), n(s.OutMM))
}

// fourSides gives the corners of four different sides with one diagonal.
func (a *Ask) fourSides() Answer {
	f := angle.Four{}
	f.BottomMM, _ = a.Float("bottom_mm")
	f.RightMM, _ = a.Float("right_mm")
	f.TopMM, _ = a.Float("top_mm")
	f.LeftMM, _ = a.Float("left_mm")
	f.DiagonalMM, _ = a.Float("diagonal_mm")
	mirrored := a.Word("first_from") == fromTopLeft
	if mirrored {
		f.LeftMM, f.RightMM = f.RightMM, f.LeftMM
	}
	c, err := f.Corners()
	if err != nil {
		return askFor("diagonal_mm", plainly(err))
	}
	lean := f.RightMM * math.Abs(math.Cos(c.BottomRightDeg*math.Pi/180))
	if mirrored {
		c.BottomLeftDeg, c.BottomRightDeg = c.BottomRightDeg, c.BottomLeftDeg
		c.TopLeftDeg, c.TopRightDeg = c.TopRightDeg, c.TopLeftDeg
	}
	out := a.Out()
	corner, deg := worstCorner(c)
	ans := say(fmt.Sprintf("Worst corner: %s at %s", corner, degExact(deg)))
	ans.Values["bottom_left_deg"], ans.Values["bottom_right_deg"] = c.BottomLeftDeg, c.BottomRightDeg
	ans.Values["top_left_deg"], ans.Values["top_right_deg"] = c.TopLeftDeg, c.TopRightDeg
	ans.Values["other_diagonal_mm"], ans.Values["area_m2"], ans.Values["out_mm"] = c.OtherDiagonalMM, c.AreaM2, lean
	ans.Values["corner_deg"] = c.BottomRightDeg
	if mirrored {
		ans.Values["corner_deg"] = c.BottomLeftDeg
	}
	ans.line(fmt.Sprintf("Bottom left %s, bottom right %s, top right %s, top left %s.", degExact(c.BottomLeftDeg), degExact(c.BottomRightDeg), degExact(c.TopRightDeg), degExact(c.TopLeftDeg)))
	ans.line(a.secondDiagonal(c.OtherDiagonalMM, out))
	if !a.Has("first_from") {
		ans.line("The diagonal is taken from bottom left to top right; say “top left to bottom right” if it's the other one.")
	}
	ans.because("Two triangles along the diagonal, by the law of cosines: cos = (a² + b² − d²)/(2ab). The corners add up to 360°.", "Geometry; no rule of thumb in it.")
	return ans
}

// secondDiagonal compares the diagonal that follows with the one measured, if there is one.
func (a *Ask) secondDiagonal(mm float64, out measure.System) string {
	follows := mmText(out, mm, measure.Nearest)
	measured, ok := a.Float("diagonal2_mm")
	switch {
	case !ok:
		return fmt.Sprintf("The other diagonal should read %s: measure it as a check.", follows)
	case math.Abs(measured-mm) > sidesDisagree:
		return fmt.Sprintf("The other diagonal should read %s, and you have %s: measure the sides and both diagonals again before you cut.", follows, mmText(out, measured, measure.Nearest))
	}
	return fmt.Sprintf("The other diagonal should read %s, and does.", follows)
}

func worstCorner(c angle.Corners) (string, float64) {
	name, worst := "bottom left", c.BottomLeftDeg
	for _, k := range []struct {
		name string
		deg  float64
	}{{"bottom right", c.BottomRightDeg}, {"top right", c.TopRightDeg}, {"top left", c.TopLeftDeg}} {
		if math.Abs(k.deg-90) > math.Abs(worst-90) {
			name, worst = k.name, k.deg
		}
	}
	return name, worst
}

// raked gives the sloping side of an opening whose top and bottom differ.
func (a *Ask) raked() Answer {
	o := angle.Raked{}
	o.BottomMM, _ = a.Float("bottom_mm")
	o.TopMM, _ = a.Float("top_mm")
	o.HeightMM, _ = a.Float("height_mm")
	r, err := o.Rake()
	if err != nil {
		return askFor("height_mm", plainly(err))
	}
	out := a.Out()
	text := func(mm float64) string { return mmText(out, mm, measure.Nearest) }
	run := math.Abs(o.BottomMM - o.TopMM)
	ans := say(fmt.Sprintf("The raked side leans %s over %s: %s from plumb, %s along it", text(run), text(o.HeightMM), degExact(r.RakeDeg), text(r.SideMM)))
	ans.Values["rake_deg"], ans.Values["side_mm"], ans.Values["out_mm"] = r.RakeDeg, r.SideMM, run
	ans.Values["corner_deg"], ans.Values["top_corner_deg"] = r.BottomDeg, r.TopDeg
	ans.Values["diagonal_mm"], ans.Values["diagonal2_mm"] = r.RisingMM, r.FallingMM
	ans.line(fmt.Sprintf("Its corners: %s at the bottom, %s at the top; the other two are taken as square.", degExact(r.BottomDeg), degExact(r.TopDeg)))
	ans.line(fmt.Sprintf("Check by the diagonals: %s from the foot of the square side, %s from its top.", text(r.RisingMM), text(r.FallingMM)))
	ans.because(fmt.Sprintf("rake = atan(|b − t|/h) = atan(%s/%s): %s; side = √(%s² + %s²).", measure.Decimal(run, 1), measure.Decimal(o.HeightMM, 1), degExact(r.RakeDeg), measure.Decimal(run, 1), measure.Decimal(o.HeightMM, 1)),
		"Geometry, with one side taken as square to top and bottom.")
	return ans
}
