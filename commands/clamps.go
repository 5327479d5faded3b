package commands

import (
	"fmt"
	"math/big"
	"strings"

	"fettle/calc/clamp"
	"fettle/calc/measure"
	"fettle/calc/wood"
	"fettle/commands/speech"
)

func clamps() *Topic {
	return &Topic{
		Title:    "how many clamps, and where",
		Examples: []string{"clamps for a 900 long edge joint, boards 70 wide, oak", "how many cramps for ash boards 1100 long, 90 wide, 22 thick", "I've only got 6 clamps, do they do for 1700 long, 96 wide, 40 thick?"},
		Form: speech.Form{
			Name: "clamps", Exact: true,
			Cues: []speech.Cue{
				{Weight: 5, Pattern: "how many|much clamp|clamps|cramp|cramps|clamping"},
				{Weight: 4, Pattern: "clamp|clamps|cramp|cramps|clampe|klamps for|on|to|along|across|over|in"},
				{Weight: 3, Pattern: "number of clamps|cramps"},
				{Weight: 3, Pattern: "# clamps|cramps enough|do|ok|okay|suffice"},
				{Weight: 3, Pattern: "clamps|cramps .. enough|suffice|do|need|needed|apart|spacing|spaced|go|put"},
				{Weight: 3, Pattern: "need|needs|use|take|takes|got|have|own .. clamp|clamps|cramp|cramps"},
				{Weight: 3, Pattern: "clamp|clamping|cramp|cramping spacing|pressure|force|distance|count"},
				{Weight: 3, Pattern: "where .. clamps|cramps|clamp"},
				{Weight: 2, Pattern: "clamp|clamps|cramp|cramps"},
				{Weight: 1, Pattern: "how many|much"},
				{Weight: 1, Pattern: "edge|joint|panel|glue|boards|lamination|glueing|gluing"},
				{Weight: -4, Pattern: "how long .. clamp|clamps|cramps|cramp|clamped"},
				{Weight: -5, Pattern: "clamp|cramp|clamping time|times"},
				{Weight: -4, Pattern: "in the clamps|cramps"},
				{Weight: -4, Pattern: "clamps|cramps come|off|give"},
			},
			Needs: append([]speech.Need{
				{Name: "have", Kind: speech.KindCount, Label: "clamps at hand", Min: 1, Max: 200,
					Roles: []string{"got|have|own|with|only|just # .. clamps|cramps|clamp", "# of? the? clamps|cramps"}},
				{Name: "joints", Kind: speech.KindCount, Label: "joints", Min: 1, Max: 200, Roles: []string{"# =joints|panels|lines"}},
			}, clampNeeds()...),
			Sizes:  []string{"length_mm", "width_mm", "thickness_mm"},
			Before: readJoint,
			After:  needJoint,
		},
		Answer: answerClamps,
	}
}

func clampNeeds() []speech.Need {
	needs := partNeeds(30)
	for i := range needs {
		switch needs[i].Name {
		case "quantity":
			needs[i].Own = true
		case "length_mm":
			needs[i].Roles = append([]string{"# joint|panel|edge|seam|glue|run", "joint|joints|panel|edge of #"}, needs[i].Roles...)
		case "thickness_mm":
			needs[i].Roles = append([]string{"#length .. =edge|edges|stuff|stock"}, needs[i].Roles...)
		case "width_mm":
			needs[i].Roles = append([]string{"# deep"}, needs[i].Roles...)
		}
	}
	return append(needs, useNeed,
		speech.Need{Name: "joint", Kind: speech.KindWord, Own: true},
		speech.Need{Name: "layers", Kind: speech.KindWord, Own: true},
		speech.Need{Name: "plies", Kind: speech.KindCount, Label: "plies", Min: 2, Max: 100, Own: true},
		speech.Need{Name: "ply_mm", Kind: measure.KindLength, Label: "thickness of a ply", Min: 0.5, Max: 60, Own: true},
		speech.Need{Name: "caul_mm", Kind: measure.KindLength, Label: "caul", Min: 3, Max: 200, Roles: []string{"# caul|cauls|batten|battens", "cauls|caul|battens of # "}})
}

// answerClamps counts by spread and, where the thickness is known, by pressure as well.
func answerClamps(a *Ask) Answer {
	j, assumed := a.glueLine()
	timber, density, from := a.density()
	j.DensityKgM3 = density
	plan, err := j.Clamps()
	if err != nil {
		return ask(err.Error())
	}
	ans := say(fmt.Sprintf("%s, about %s apart, the first %s from each end", plural(plan.Clamps, "clamp", "clamps"), a.text(plan.SpacingMM, measure.Nearest), a.text(plan.EndMM, measure.Nearest)))
	ans.Values["clamps"], ans.Values["spacing_mm"], ans.Values["end_mm"] = plan.Clamps, plan.SpacingMM, plan.EndMM
	ans.Values["force_n"], ans.Values["pressure_mpa"] = plan.ForceN, plan.PressureMPa
	ans.line(fmt.Sprintf("%d by spread at 45° (%s a clamp), %d by pressure (%s MPa for %s, %s kN in all, %s kN a clamp); the larger counts.",
		plan.BySpread, a.text(plan.SpreadMM, measure.Nearest), plan.ByPressure, measure.Decimal(plan.PressureMPa, 2), timber,
		measure.Decimal(plan.ForceN/1000, 1), measure.Decimal(j.ForceN/1000, 1)))
	if assumed != "" {
		ans.line(assumed)
	}
	a.useCaution(&ans)
	a.jointLine(&ans, plan)
	a.fewer(&ans, j)
	a.clampReasons(&ans, j, plan, density, from)
	return ans
}

// jointLine says what kind of joint was counted for, and the caution that goes with it.
func (a *Ask) jointLine(ans *Answer, plan clamp.Plan) {
	joint := "Edge joint"
	if a.Word("joint") == faceJoint {
		joint = "Faces glued together"
		if plan.Clamps >= manyClamps && a.Word("layers") != boardLayers {
			ans.caution("A bend on a form stores force: clamp from one end on, stand aside, release in the reverse order.")
		}
	}
	ans.line(joint + "; spread and force are common practice. Put cauls under the pads and work from the middle outwards.")
}

// manyClamps is the number from which a lamination is warned of: common practice, no source.
const manyClamps = 6

// glueLine makes the joint that was said. Of an edge joint the glue line is as wide as the
// boards are thick, and the pads press through their width. Of faces it is as wide as the
// boards are, and the pads press through the outermost layer.
func (a *Ask) glueLine() (j clamp.Joint, assumed string) {
	j.ForceN = a.Settings.clampForce()
	j.LengthMM, _ = a.Float("length_mm")
	j.CaulMM, _ = a.Float("caul_mm")
	width, hasWidth := a.Float("width_mm")
	thickness, hasThickness := a.Float("thickness_mm")
	if a.Word("joint") == faceJoint {
		return a.faces(j, width, thickness)
	}
	j.ThroughMM, j.GlueWidthMM = width, thickness
	if !hasWidth {
		j.ThroughMM = assumedWidthMM
		assumed = fmt.Sprintf("Width not said: %s assumed.", a.text(assumedWidthMM, measure.Nearest))
	}
	if !hasThickness {
		j.GlueWidthMM = assumedThicknessMM
		assumed = strings.TrimSpace(assumed + fmt.Sprintf(" Thickness not said: %s assumed.", a.text(assumedThicknessMM, measure.Nearest)))
	}
	return j, assumed
}

// faces completes a joint of faces: the whole thickness is shared by the plies when their
// number was said.
func (a *Ask) faces(j clamp.Joint, width, thickness float64) (clamp.Joint, string) {
	var assumed []string
	j.GlueWidthMM = width
	plies, counted := a.Float("plies")
	layer, said := a.Float("ply_mm")
	switch {
	case said:
		j.ThroughMM = layer
	case counted && thickness > 0 && plies > 1:
		j.ThroughMM = thickness / plies
	case a.Word("layers") == boardLayers && thickness > 0:
		j.ThroughMM = thickness
	default:
		j.ThroughMM = assumedPlyMM
		assumed = append(assumed, fmt.Sprintf("Plies not said: %s thick assumed.", a.text(assumedPlyMM, measure.Nearest)))
	}
	if j.CaulMM == 0 && j.ThroughMM < assumedCaulMM {
		j.CaulMM = assumedCaulMM
		assumed = append(assumed, fmt.Sprintf("A caul or form %s thick under the pads is counted in; without one it takes many more.", a.text(assumedCaulMM, measure.Nearest)))
	}
	return j, strings.Join(assumed, " ")
}

func (a *Ask) clampReasons(ans *Answer, j clamp.Joint, p clamp.Plan, density float64, from string) {
	n := func(v float64) string { return measure.Decimal(v, 1) }
	ans.because(
		fmt.Sprintf("Spread: %s / (%d + 2 × (%s + %s)) mm = %s → %d (pad, caul and wood down to the glue line).", n(j.LengthMM), clamp.DefaultPadMM, n(j.CaulMM), n(j.ThroughMM),
			measure.Decimal(j.LengthMM/p.SpreadMM, 2), p.BySpread),
		fmt.Sprintf("Pressure: %s MPa × %s × %s mm = %s kN; / %s kN = %s → %d.", measure.Decimal(p.PressureMPa, 2), n(j.LengthMM), n(j.GlueWidthMM), n(p.ForceN/1000), n(j.ForceN/1000),
			measure.Decimal(p.ForceN/j.ForceN, 2), p.ByPressure),
		fmt.Sprintf("Pressure by density: %s MPa at 300 kg/m³ to %s at 1000, USDA Wood Handbook chapter 10 (from memory; aircraft repair manual AC 43.13-1B agrees, read there); here %s kg/m³%s.",
			measure.Decimal(clamp.LowestMPa, 1), measure.Decimal(clamp.HighestMPa, 1), measure.Decimal(density, 0), from),
		"Rule of thumb, no source: the 45° spread, and what one clamp gives (half it if unsure, or set it: “our clamps give 3 kN”).")
}

// assumedWidthMM and assumedThicknessMM stand in for sizes that were not said: a narrow and a
// thick board, which both ask for more clamps. Common practice, no source.
const assumedWidthMM, assumedThicknessMM = 50, 40

// assumedPlyMM and assumedCaulMM stand in for the plies of a lamination and for what lies
// between them and the pads. Common practice, no source.
const assumedPlyMM, assumedCaulMM = 5, 20

// density gives the timber's density, the heaviest of what the name may mean: more pressure.
func (a *Ask) density() (timber string, kgM3 float64, from string) {
	if s, ok := wood.Find(a.Word("species")); ok {
		if d, err := s.DensityKgM3(); err == nil {
			return s.Name, d.High.Value, ", " + knownBy(d.High, "density")
		}
	}
	return "a middling hardwood", clamp.DefaultDensityKgM3, ", assumed"
}

// Words of a request for clamps.
const (
	faceJoint, edgeJoint = "face", "edge"
	boardLayers          = "boards"
)

// readJoint tells faces from edges, and reads the plies of a lamination.
func readJoint(r *speech.Reading) {
	readUse(r)
	readLongJoint(r)
	if len(r.All("=boards|planks|staves|strips # wide|broad")) > 0 {
		passAll(r, "# wide|broad top|panel|tabletop|worktop|lid|door") // what the boards make together
	}
	boards := r.Says("face to|- face") || r.Says("face joint|joints|glued|gluing") || r.Says("double|doubled|doubling thickness|up")
	switch {
	case r.Says("edge|edges") && !boards, r.Says("panel|top") && !r.Says("laminate|lamination|laminated|bow|plies"):
		r.Word("joint", edgeJoint)
	case boards || r.Says("laminate|laminating|lamination|laminated|plies|ply|veneers|bow|laminates|laminations|strips|layers"):
		r.Word("joint", faceJoint)
	}
	if boards {
		r.Word("layers", boardLayers)
	}
	if i, ok := r.Find("# =plies|strips|layers|laminations|veneers"); ok && r.Items[i].Q.Integer && r.Items[i].Q.Unit == nil {
		r.Set("plies", i)
	}
	for _, p := range []string{"plies|strips|layers|veneers|laminations of|are|at|,|each? #length", "plies|strips|layers|veneers # thick", "# thick? =plies|strips|layers|veneers|ply"} {
		if i, ok := r.Find(p); ok && r.Items[i].Q.Kind != speech.KindCount && r.Alone(i) || ok && r.Items[i].Q.Unit != nil {
			r.Set("ply_mm", i)
			return
		}
	}
}

// readLongJoint takes the size before a joint for its length where it is too large for a thickness:
// a 5 foot oak edge joint.
// Where a length is said in so many words as well, the two are left to be compared.
func readLongJoint(r *speech.Reading) {
	if r.Says("# long") || r.Says("length of|is|:? #") {
		return
	}
	for _, i := range r.All("# .. edge|glue|butt|long|panel joint|joints|seam|line") {
		if anyOf(wordAt(r, i+1), "wide|thick|deep|broad|×") || !r.Alone(i) && r.Items[i].Q.Unit == nil || r.Items[i].Q.High != nil || r.Items[i].Q.Kind != measure.KindLength && !r.Items[i].Q.Bare() {
			continue
		}
		if l := r.Sized("length_mm", *r.Items[i].Q); l.Num != nil && l.Num.Cmp(big.NewRat(thickestPart, 1)) > 0 {
			r.Set("length_mm", i)
			return
		}
	}
}

// needJoint asks for the length, and for the width of faces: the pressure goes by it.
func needJoint(r *speech.Reading) {
	if r.Request.Word("joint") == faceJoint {
		r.AskFor("width_mm", "How wide are the faces that are glued?", "width_mm")
	}
	r.AskFor("length_mm", "How long is the joint, and how wide and thick are the boards?", "length_mm")
}

// fewer says what to do with the clamps that are there.
func (a *Ask) fewer(ans *Answer, j clamp.Joint) {
	have, ok := a.Float("have")
	if !ok {
		return
	}
	joints := 1
	if n, said := a.Float("joints"); said {
		joints = int(n)
	}
	f, err := j.With(int(have), joints)
	if err != nil {
		return
	}
	if f.Enough {
		ans.Answer = fmt.Sprintf("Yes, %d do: ", int(have)) + ans.Answer
		return
	}
	ans.Answer = fmt.Sprintf("No, %d are too few: ", int(have)) + ans.Answer
	for _, s := range f.Advice {
		ans.line(s)
	}
}
