package commands

import (
	"fmt"

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
			Name: "clamps",
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
			Sizes: []string{"length_mm", "width_mm", "thickness_mm"},
			After: func(r *speech.Reading) {
				r.AskFor("length_mm", "How long is the joint, and how wide and thick are the boards?", "length_mm")
			},
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
		case "width_mm":
			needs[i].Roles = append([]string{"# deep"}, needs[i].Roles...)
		}
	}
	return append(needs, speech.Need{Name: "caul_mm", Kind: measure.KindLength, Label: "caul", Min: 3, Max: 200, Roles: []string{"# caul|cauls|batten|battens", "cauls|caul|battens of # "}})
}

// answerClamps counts by spread and, where the thickness is known, by pressure as well.
func answerClamps(a *Ask) Answer {
	out := a.Out()
	j := clamp.Joint{ForceN: a.Settings.clampForce()}
	j.LengthMM, _ = a.Float("length_mm")
	width, hasWidth := a.Float("width_mm")
	thickness, hasThickness := a.Float("thickness_mm")
	j.CaulMM, _ = a.Float("caul_mm")
	j.ThroughMM, j.GlueWidthMM = width, thickness
	assumed := ""
	if !hasWidth {
		j.ThroughMM = assumedWidthMM
		assumed += fmt.Sprintf(" Width not said: %d mm assumed.", assumedWidthMM)
	}
	if !hasThickness {
		j.GlueWidthMM = assumedThicknessMM
		assumed += fmt.Sprintf(" Thickness not said: %d mm assumed.", assumedThicknessMM)
	}
	timber, density := a.density()
	j.DensityKgM3 = density
	plan, err := j.Clamps()
	if err != nil {
		return ask(err.Error())
	}
	mm := func(v float64) string {
		l, _ := measure.FromMM(v)
		return out.Text(l, measure.Nearest)
	}
	ans := say(fmt.Sprintf("%s, about %s apart, the first %s from each end", plural(plan.Clamps, "clamp", "clamps"), mm(plan.SpacingMM), mm(plan.EndMM)))
	ans.Values["clamps"], ans.Values["spacing_mm"], ans.Values["end_mm"] = plan.Clamps, plan.SpacingMM, plan.EndMM
	ans.Values["force_n"], ans.Values["pressure_mpa"] = plan.ForceN, plan.PressureMPa
	ans.line(fmt.Sprintf("%d by spread at 45° (%s a clamp), %d by pressure (%s MPa for %s, %s kN in all, %s kN a clamp); the larger counts.",
		plan.BySpread, mm(plan.SpreadMM), plan.ByPressure, measure.Decimal(plan.PressureMPa, 2), timber,
		measure.Decimal(plan.ForceN/1000, 1), measure.Decimal(j.ForceN/1000, 1)))
	if assumed != "" {
		ans.line(assumed[1:])
	}
	ans.line("Edge joint; spread and force are common practice. Put cauls under the pads and work from the middle outwards.")
	a.fewer(&ans, j)
	return ans
}

// assumedWidthMM and assumedThicknessMM stand in for sizes that were not said: a narrow and a
// thick board, which both ask for more clamps. Common practice, no source.
const assumedWidthMM, assumedThicknessMM = 50, 40

// density gives the timber's density, the heaviest of what the name may mean: more pressure.
func (a *Ask) density() (timber string, kgM3 float64) {
	if s, ok := wood.Find(a.Word("species")); ok {
		if d, err := s.DensityKgM3(); err == nil {
			return s.Name, d.High.Value
		}
	}
	return "a middling hardwood", clamp.DefaultDensityKgM3
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
