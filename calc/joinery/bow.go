package joinery

import (
	"cmp"
	"fmt"
	"math"

	"fettle/calc/arc"
	"fettle/calc/bend"
	"fettle/calc/evidence"
	"fettle/calc/wood"
)

// Bow is a laminated bow over a span. Sizes that are 0 are assumed.
type Bow struct {
	Words
	SpanMM, RiseMM float64 // of the inner face
	ThicknessMM    float64
	WidthMM        float64
	Count          int // equal bows; 0 is one
	Timber         wood.Species
}

// Make works out the arc of the inner face (arc.Given) and the plies, form and strips for it
// (bend.Bow). The rise is the inner face's, the bow's ends are cut square to the curve. It fails on
// an arc or a bow that cannot be.
func (b Bow) Make() (Made, error) {
	m := Made{words: b.Words}
	if err := b.sizes(b.SpanMM, b.RiseMM, b.ThicknessMM, b.WidthMM); err != nil {
		return m, err
	}
	b.Count = max(1, b.Count)
	b.ThicknessMM = m.assume(b.ThicknessMM, "thickness_mm", "bow thick", "make the bow %s thick", evidence.Habit(30))
	b.WidthMM = m.assume(b.WidthMM, "bow_width_mm", "bow wide", "make the bow %s wide", evidence.Habit(45))
	if err := cmp.Or(b.positive("the span", b.SpanMM), b.positive("the rise", b.RiseMM), b.between("the rise", b.RiseMM, 0, b.SpanMM/2)); err != nil {
		return m, err
	}
	a, err := arc.Given{ChordMM: b.SpanMM, RiseMM: b.RiseMM}.Arc()
	if err != nil {
		return m, err
	}
	bow := bend.Bow{ThicknessMM: b.ThicknessMM, RadiusMM: a.RadiusMM, AngleDeg: a.AngleDeg}
	if len(b.Timber.Rows) > 0 {
		bow.Ratio = bend.RatioOf(b.Timber)
	}
	plan, err := bow.Plan()
	if err != nil {
		return m, err
	}
	m.add(Part{Name: "ply", Quantity: b.Count * plan.Plies, LengthMM: plan.StripLengthMM, EdgeMM: plan.StripLengthMM, WidthMM: b.WidthMM, ThicknessMM: plan.PlyMM,
		LeftDeg: 90, RightDeg: 90, Material: b.Timber.Name, Note: fmt.Sprintf("%d for each bow; saw a spare, and %s wider to clean up.", plan.Plies, b.number(bend.CleanMM))})
	b.tell(&m, a, plan)
	b.draw(&m, a, plan)
	return m, nil
}

func (b Bow) tell(m *Made, a arc.Arc, p bend.Plan) {
	m.note(fmt.Sprintf("Span and rise are taken as the inner face's: radius %s, %s through %s; form %s, it springs open by %s.", b.number(a.RadiusMM), b.number(p.OutsideMM), degText(a.AngleDeg), b.number(p.FormRadiusMM), b.number(p.SpringMM)))
	m.note("Bend one dry ply first and make a trial piece: bows also creep, and move with damp.")
	m.because(fmt.Sprintf("R = c²/(8 s) + s/2 = %s²/(8 × %s) + %s/2 = %s: geometry; form = R (1 − 1/%d²) = %s as for laminations.", b.number(b.SpanMM), b.number(b.RiseMM), b.number(b.RiseMM), b.size(a.RadiusMM), p.Plies, b.number(p.FormRadiusMM)))
	m.because("Thickness and width of the bow where not said: common practice, no source.")
	m.caution("A bend on a form stores force: clamp from one end on, stand aside, release in the reverse order.")
}

// bowSteps is how many straight steps draw a curve.
const bowSteps = 40

func (b Bow) draw(m *Made, a arc.Arc, plan bend.Plan) {
	curve := func(radius float64) []Point {
		var out []Point
		centre := Point{a.ChordMM / 2, a.RiseMM - a.RadiusMM}
		for i := range bowSteps + 1 {
			out = append(out, polar(centre, 90+a.AngleDeg/2-a.AngleDeg*float64(i)/bowSteps, radius))
		}
		return out
	}
	inner, outer := curve(a.RadiusMM), curve(a.RadiusMM+b.ThicknessMM)
	outline := append([]Point(nil), inner...)
	for i := len(outer) - 1; i >= 0; i-- {
		outline = append(outline, outer[i])
	}
	m.place("ply", Timber, outline...)
	low, high := span(outline...)
	p := newPicture(b.Words, "bow", fmt.Sprintf("A laminated bow over a span of %s, rising %s", b.number(b.SpanMM), b.number(b.RiseMM)), low, high, 3)
	p.pieces(m.Pieces)
	for i := 1; i < plan.Plies && plan.PlyMM*p.fit.Scale >= 2; i++ {
		p.line(curve(a.RadiusMM + float64(i)*plan.PlyMM))
	}
	left, right := Point{0, 0}, Point{a.ChordMM, 0}
	p.measure(right, left, near, b.number(b.SpanMM))
	p.measure(Point{right.X, a.RiseMM}, right, far, b.number(b.RiseMM))
	p.below(2, fmt.Sprintf("%d plies of %s, inner radius %s, %s through.", plan.Plies, b.number(plan.PlyMM), b.number(a.RadiusMM), degText(a.AngleDeg)))
	p.below(1, fmt.Sprintf("Form radius %s; strips %s long.", b.number(plan.FormRadiusMM), b.number(math.Ceil(plan.StripLengthMM))))
	p.below(0, "Span and rise of the inner face. "+b.unit()+", to scale.")
	m.Drawing = p.sheet
}
