package joinery

import (
	"cmp"
	"fmt"
	"math"

	"fettle/calc/evidence"
	"fettle/calc/wood"
)

// The corners of a trim.
const (
	Mitred = "mitred"
	Butted = "butted" // top and bottom run through, the sides stand between them
)

// Trim goes round an opening. Sizes that are 0 are assumed; a side's own width goes before WidthMM.
type Trim struct {
	Words
	Opening     Opening
	WidthMM     float64
	TopWidthMM  float64
	LowWidthMM  float64 // of the bottom
	LeftWidthMM float64
	RightMM     float64 // width of the right one
	RevealMM    float64 // how far it stays back from the edge of the opening
	NoReveal    bool
	ThicknessMM float64
	Corners     string // Mitred or Butted
	ThreeSides  bool   // none at the bottom: the sides stand on the floor
	Timber      wood.Species
}

func (t Trim) assumed(m *Made) Trim {
	h := evidence.Habit
	if t.TopWidthMM == 0 || t.LeftWidthMM == 0 || t.RightMM == 0 || t.LowWidthMM == 0 && !t.ThreeSides {
		t.WidthMM = m.assume(t.WidthMM, "trim_mm", "trim wide", "trim %s wide", h(60))
	}
	t.TopWidthMM, t.LowWidthMM = cmp.Or(t.TopWidthMM, t.WidthMM), cmp.Or(t.LowWidthMM, t.WidthMM)
	t.LeftWidthMM, t.RightMM = cmp.Or(t.LeftWidthMM, t.WidthMM), cmp.Or(t.RightMM, t.WidthMM)
	if !t.NoReveal {
		t.RevealMM = m.assume(t.RevealMM, "reveal_mm", "reveal", "reveal %s", h(5))
	}
	t.ThicknessMM = m.assume(t.ThicknessMM, "thickness_mm", "trim thick", "trim %s thick", h(15))
	if t.Corners == "" {
		t.Corners = Mitred
		m.choose("corners", "corners", Mitred, "butted corners")
	}
	return t
}

// Make works out the pieces, their outer edges being the reference edges: the inner edge lies the
// reveal outside the opening, the outer one the width beyond; a mitre runs from the inner to the
// outer corner (geometry). It fails on openings and sizes that cannot be.
func (t Trim) Make() (Made, error) {
	m := Made{words: t.Words}
	if err := t.sizes(t.WidthMM, t.TopWidthMM, t.LowWidthMM, t.LeftWidthMM, t.RightMM, t.RevealMM, t.ThicknessMM); err != nil {
		return m, err
	}
	q, how, err := t.Opening.Quad()
	if err != nil {
		return m, err
	}
	m.note(how)
	m.Opening = q
	t = t.assumed(&m)
	if err := cmp.Or(
		t.between("the trim", min(t.TopWidthMM, t.LeftWidthMM, t.RightMM), 5, 600),
		t.between("the trim", max(t.TopWidthMM, t.LeftWidthMM, t.RightMM, t.LowWidthMM), 5, 600),
		t.between("the reveal", t.RevealMM, 0, 100),
		t.between("the thickness", t.ThicknessMM, 3, 100),
	); err != nil {
		return m, err
	}
	r, low := t.RevealMM, t.RevealMM
	if t.ThreeSides {
		low, t.LowWidthMM = 0, 0
	}
	inner := q.Inset(-low, -r, -r, -r)
	outer := inner.Inset(-t.LowWidthMM, -t.RightMM, -t.TopWidthMM, -t.LeftWidthMM)
	drafts, err := t.pieces(inner, outer)
	if err != nil {
		return m, err
	}
	m.settle(drafts)
	m.place("", Space, q[:]...)
	t.tell(&m)
	t.draw(&m, inner, outer)
	return m, nil
}

func (t Trim) pieces(inner, outer Quad) ([]draft, error) {
	widths := [4]float64{Bottom: t.LowWidthMM, Right: t.RightMM, Top: t.TopWidthMM, Left: t.LeftWidthMM}
	names := [4][]string{Bottom: {"bottom trim"}, Right: {"side trim", "right trim"}, Top: {"top trim"}, Left: {"side trim", "left trim"}}
	var out []draft
	for _, edge := range []int{Top, Left, Right, Bottom} {
		if edge == Bottom && t.ThreeSides {
			continue
		}
		next := (edge + 1) % 4
		s := strip{edge: outer.edge(edge), width: widths[edge], left: t.cut(inner, outer, edge, edge), right: t.cut(inner, outer, next, edge)}
		p, err := s.part(0)
		if err != nil {
			return nil, err
		}
		p.ThicknessMM, p.Material = t.ThicknessMM, t.Timber.Name
		o := s.outline()
		out = append(out, draft{names: names[edge], part: p, kind: Timber, outline: o[:]})
	}
	return out, nil
}

// cut is the line at a corner along which the piece on an edge ends.
func (t Trim) cut(inner, outer Quad, corner, edge int) line {
	level := edge == Top || edge == Bottom
	switch {
	case t.ThreeSides && !level && (corner == 0 || corner == 1):
		return outer.edge(Bottom)
	case t.Corners == Mitred:
		return through(inner[corner], outer[corner])
	case level && (corner == 0 || corner == 3):
		return outer.edge(Left)
	case level:
		return outer.edge(Right)
	case corner == 0 || corner == 1:
		return inner.edge(Bottom)
	}
	return inner.edge(Top)
}

func (t Trim) tell(m *Made) {
	for _, p := range m.Parts {
		inner := p.innerEdge()
		m.note(fmt.Sprintf("%s: long edge %s, short edge %s, saw swung %s and %s from square.", p.Name, t.number(max(p.EdgeMM, inner)), t.number(min(p.EdgeMM, inner)),
			degText(math.Abs(90-p.LeftDeg)), degText(math.Abs(90-p.RightDeg))))
	}
	m.note("Lengths are exact: cut the first corner, try it, then mark the next length from the opening itself.")
	top := m.Parts[0]
	m.because(fmt.Sprintf("%s: inner edge %s = opening %s + reveal %s at each end; outer edge = inner edge + %s × (cot %s + cot %s) = %s: geometry.", top.Name, t.number(top.innerEdge()), t.number(m.Opening.Side(Top)), t.number(t.RevealMM),
		t.number(top.WidthMM), degText(top.LeftDeg), degText(top.RightDeg), t.number(top.EdgeMM)))
	m.because("A mitre runs from the inner to the outer corner: tan a = w₁ sin q / (w₂ + w₁ cos q). Width and reveal where not said: common practice, no source.")
}

// innerEdge is the length of the edge across from the reference edge.
func (p Part) innerEdge() float64 {
	cot := func(deg float64) float64 { return 1 / math.Tan(deg*math.Pi/180) }
	return p.EdgeMM - p.WidthMM*(cot(p.LeftDeg)+cot(p.RightDeg))
}

func (t Trim) draw(m *Made, inner, outer Quad) {
	low, high := span(all(m.Pieces)...)
	p := newPicture(t.Words, "trim", fmt.Sprintf("A %s trim round an opening %s wide and %s high", t.Corners, t.number(m.Opening.Side(Bottom)), t.number(m.Opening.Side(Left))), low, high, 2)
	p.pieces(m.Pieces)
	p.around(outer, near)
	p.corners(m.Opening, m.Opening, 18)
	centre := middle(m.Opening[0], m.Opening[2])
	p.words(centre, fmt.Sprintf("opening %s × %s", t.number(m.Opening.Side(Bottom)), t.number(m.Opening.Side(Left))))
	p.words(middle(middle(inner[2], inner[3]), middle(outer[2], outer[3])), t.number(t.TopWidthMM))
	p.words(middle(middle(inner[0], inner[3]), middle(outer[0], outer[3])), t.number(t.LeftWidthMM))
	p.words(middle(middle(inner[1], inner[2]), middle(outer[1], outer[2])), t.number(t.RightMM))
	if !t.ThreeSides {
		p.words(middle(middle(inner[0], inner[1]), middle(outer[0], outer[1])), t.number(t.LowWidthMM))
	}
	p.below(1, "Dashed: the opening. Outside: the outer edges. "+t.unit()+".")
	p.below(0, fmt.Sprintf("Reveal %s, %s corners.", t.number(t.RevealMM), t.Corners))
	m.Drawing = p.sheet
}
