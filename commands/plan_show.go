package commands

import (
	"fmt"
	"slices"
	"strings"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/blanks"
	"fettle/calc/cutplan/picture"
	"fettle/calc/measure"
	"fettle/commands/book"
)

const (
	mostSteps    = 40 // of one board, where it alone is shown
	fewSteps     = 6  // of each of several
	mostDrawings = 10
)

// shownPlan is the answer that tells a whole plan.
func (a *Ask) shownPlan(in *planInput, p storedPlan) Answer {
	pieces := p.pieces(p.Plan.Boards...)
	if pieces == 0 {
		ans := say(fmt.Sprintf("No board on hand gives any of %s", plural(p.missing(), "part", "parts")))
		ans.echo = true
		for _, l := range p.LeftOut {
			ans.line(l.text())
		}
		return ans
	}
	waste := 100 * (1 - p.Plan.PartsArea/p.Plan.StockArea)
	head := fmt.Sprintf("%s from %d of %s, %.0f %% waste", plural(pieces, "part", "parts"), len(p.Plan.Boards), plural(p.OnHand, "board", "boards"), waste)
	if n := p.missing(); n > 0 {
		head += fmt.Sprintf("; %d left out", n)
	}
	ans := say(head)
	ans.echo = true
	for _, l := range a.boardLines(&p) {
		ans.line(l)
	}
	for _, l := range p.LeftOut {
		ans.line(l.text())
	}
	ans.line(p.proof())
	for _, l := range a.planAssumptions(in, &p) {
		ans.line(l)
	}
	a.planValues(&ans, &p, pieces, waste)
	a.planReasons(&ans, &p)
	sheets := picture.Phone(p.Plan, a.Out())
	ans.Drawings = sheets[:min(len(sheets), mostDrawings)]
	return ans
}

func (l leftOut) text() string {
	text := fmt.Sprintf("Left out: %d × %s. %s", l.Quantity, l.Name, l.Reason)
	if l.Staves > 0 {
		text += fmt.Sprintf(" It could be glued up of %d staves: “glue up wide panels”.", l.Staves)
	}
	return text
}

func (a *Ask) planValues(ans *Answer, p *storedPlan, pieces int, waste float64) {
	ans.Values["parts"], ans.Values["left_out"] = pieces, p.missing()
	ans.Values["boards"], ans.Values["on_hand"] = len(p.Plan.Boards), p.OnHand
	ans.Values["waste_pct"], ans.Values["area_m2"] = waste, p.Plan.StockArea
	if p.Plan.Priced {
		ans.Values["cost"] = p.Plan.Cost
	}
	ans.Values["bound"] = p.Plan.Bound
}

// boardLines say the boards in short, those that are sawn alike together.
func (a *Ask) boardLines(p *storedPlan) (out []string) {
	alike := map[string][]string{}
	var texts []string
	for _, b := range p.Plan.Boards {
		text := fmt.Sprintf(": %s. %s", contents(b), a.cutText(b, p, fewSteps))
		if p.sawn(b) {
			text = " (sawn)" + text
		}
		if alike[text] == nil {
			texts = append(texts, text)
		}
		alike[text] = append(alike[text], b.Name)
	}
	for _, t := range texts {
		out = append(out, "- "+strings.Join(alike[t], ", ")+t)
	}
	return out
}

// cutText says the cuts of a board in order, and what is worth keeping.
func (a *Ask) cutText(b cutplan.SawnBoard, p *storedPlan, most int) string {
	steps := picture.Steps(b, p.Plan.Kerf)
	var texts []string
	for _, s := range steps[:min(most, len(steps))] {
		text := fmt.Sprintf("%d %s", s.Order, s.Text(a.Out()))
		if s.Beyond {
			text += " (keep beyond)"
		}
		texts = append(texts, text)
	}
	if more := len(steps) - most; more > 0 {
		texts = append(texts, fmt.Sprintf("%d more in the drawing", more))
	}
	if len(steps) == 0 {
		texts = append(texts, "no cut, the board is the part")
	}
	text := strings.Join(texts, "; ") + "."
	if keep := picture.Keeping(b, a.Out()); keep != "" {
		text += " Keep " + keep + "."
	}
	return text
}

// contents lists the blanks of a board: "2 × stile, rail ×2".
func contents(b cutplan.SawnBoard) string {
	var out []string
	for _, c := range picture.Counts(b) {
		if c.Quantity > 1 {
			c.Name = fmt.Sprintf("%d × %s", c.Quantity, c.Name)
		}
		out = append(out, c.Name)
	}
	return strings.Join(out, ", ")
}

// proof says in plain words how good the plan is known to be.
func (p *storedPlan) proof() string {
	what := measure.Decimal(p.Plan.Bound, 2) + " m² of board"
	if p.Plan.Priced {
		what = money(p.Plan.Bound) + " of board"
	}
	switch {
	case p.Plan.Proved:
		return "Proved: these blanks can't be had from less."
	case p.Plan.Bound <= 0 || p.Plan.Cost <= 0:
		return "How much less might do is not known."
	}
	return fmt.Sprintf("No plan gets these blanks from less than %s, so at most %.0f %% might be saved; “redo with less waste” looks longer.", what, 100*(p.Plan.Cost-p.Plan.Bound)/p.Plan.Cost)
}

// planAssumptions say what the plan takes for granted.
func (a *Ask) planAssumptions(in *planInput, p *storedPlan) (out []string) {
	_, own := a.Settings.length("kerf")
	kerf := "common practice"
	if own {
		kerf = "your setting"
	}
	sizes := map[string]bool{"length": true, "width": true, "thickness": true}
	out = append(out, fmt.Sprintf("Sizes are sawn sizes. Added: %s; kerf %s (%s).", a.allowances().describe(a.Out(), sizes), a.Out().Shown(p.Plan.Kerf), kerf))
	if p.Plan.Trim > 0 {
		out = append(out, fmt.Sprintf("%s comes off each end of every board first (your setting), of offcuts too.", a.Out().Shown(p.Plan.Trim)))
	}
	if t := a.sawnText(in, p); t != "" {
		out = append(out, t)
	}
	var ends, sides []string
	for _, b := range p.Blanks {
		switch {
		case len(b.Parts) < 2:
		case b.Way == blanks.Sides:
			sides = append(sides, b.Name)
		default:
			ends = append(ends, b.Name)
		}
	}
	if len(ends) > 0 {
		out = append(out, "In one blank end to end, as that takes less timber: "+strings.Join(ends, ", ")+". Crosscut after planing.")
	}
	if len(sides) > 0 {
		out = append(out, "In one blank side by side, as that takes less timber: "+strings.Join(sides, ", ")+". Rip apart after planing.")
	}
	if t := a.gluedUpText(p); t != "" {
		out = append(out, t)
	}
	if t := a.thicknessText(in, p); t != "" {
		out = append(out, t)
	}
	if slices.ContainsFunc(in.boards, func(b book.Named[book.Board]) bool { return b.Is.Unpriced }) && slices.ContainsFunc(in.boards, func(b book.Named[book.Board]) bool { return !b.Is.Unpriced && !b.Is.Offcut }) {
		out = append(out, "Not every board has a price, so the plan goes by area.")
	}
	return out
}

// sawnText says which parts are not planned again, and asks for the boards that they came from.
func (a *Ask) sawnText(in *planInput, p *storedPlan) string {
	var parts []string
	for _, part := range in.parts {
		if n := part.Is.Quantity - in.toSaw(part); n > 0 {
			parts = append(parts, fmt.Sprintf("%d × %s", n, part.Name))
		}
	}
	if len(parts) == 0 || p.Begun {
		return ""
	}
	return "Sawn already, so not planned: " + strings.Join(parts, ", ") + ". Say which boards are sawn, as in “" + in.boards[0].Name + " is cut”."
}

// gluedUpText says which parts are glued up, as no board is wide enough.
func (a *Ask) gluedUpText(p *storedPlan) string {
	var parts []string
	for _, b := range p.Blanks {
		if b.Staves > 0 {
			parts = append(parts, fmt.Sprintf("%s of %d staves, each sawn %s wide and jointed to %s", b.Parts[0], b.Staves, a.Out().Text(b.Width.Length(), measure.Nearest), a.Out().Text(b.Stave.Length(), measure.Nearest)))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "Wider than the boards, so glued up with the grain along the length: " + strings.Join(parts, "; ") + ". “Don't glue up wide panels” leaves them out."
}

// thicknessText says which parts come from boards thicker than they need, as there are none nearer.
func (a *Ask) thicknessText(in *planInput, p *storedPlan) string {
	var from []string
	for _, b := range p.Blanks {
		for _, part := range in.parts {
			need := part.Is.Thickness.Length() + p.Allow.Thickness
			text := fmt.Sprintf("%s from %s", part.Name, a.Out().Text(b.Thickness.Length(), measure.Nearest))
			if part.Name == b.Parts[0] && b.Thickness.Length() > need && !slices.Contains(from, text) {
				from = append(from, text)
			}
		}
	}
	if len(from) == 0 {
		return ""
	}
	return "The thinnest boards that are thick enough: " + strings.Join(from, ", ") + "."
}

func (a *Ask) planReasons(ans *Answer, p *storedPlan) {
	ans.because(fmt.Sprintf("Waste = 1 − blanks ÷ boards = 1 − %s ÷ %s m²; offcuts worth keeping count as waste.", measure.Decimal(p.Plan.PartsArea, 3), measure.Decimal(p.Plan.StockArea, 3)),
		fmt.Sprintf("A search over three-stage plans (crosscut, rip, crosscut), %d steps, and a bound from linear programs; ways of ganging parts were compared by the plan they give.", p.Plan.Nodes),
		"Rules of thumb (no source): blanks side by side up to "+a.Out().Shown(widestBlank)+" wide and parts up to "+a.Out().Shown(sideMost)+" long, as longer ones bow when they are ripped after planing.")
}
