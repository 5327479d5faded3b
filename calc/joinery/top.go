package joinery

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"fettle/calc/bounds"
	"fettle/calc/evidence"
	"fettle/calc/layout"
	"fettle/calc/measure"
	"fettle/calc/wood"
)

// SlatTop is a top of slats on bearers. Sizes that are 0 are assumed or follow.
type SlatTop struct {
	Words
	LengthMM    float64 // along the slats
	WidthMM     float64 // across them
	SlatMM      float64 // width of a slat
	Slats       int
	GapMM       float64 // the widest between slats
	ThicknessMM float64 // of the slats
	Bearers     int
	BearerMM    float64 // width of a bearer
	BearerDeep  float64 // its thickness
	Timber      wood.Species
}

// farBearers is how far apart bearers stand at most, and bearerInMM how far the outer ones stay in
// from the slats' ends, in mm; wideSlat is from where a slat takes two screws at each bearer. All
// are common practice, no source.
const (
	farBearers = 450
	bearerInMM = 60
	wideSlatMM = 60
)

func (s SlatTop) assumed(m *Made) SlatTop {
	h := evidence.Habit
	s.SlatMM = m.assume(s.SlatMM, "slat_mm", "slats wide", "slats %s wide", h(45))
	s.ThicknessMM = m.assume(s.ThicknessMM, "thickness_mm", "slats thick", "slats %s thick", h(20))
	if s.Slats == 0 || s.WidthMM == 0 {
		s.GapMM = m.assume(s.GapMM, "gap_mm", "gaps at most", "gaps %s", h(6))
	}
	if s.WidthMM == 0 && s.Slats > 0 {
		s.WidthMM = float64(s.Slats)*s.SlatMM + float64(s.Slats-1)*s.GapMM
	}
	s.Bearers = m.count(s.Bearers, "bearers", "bearers", "%s bearers", max(2, 1+int(math.Ceil((s.LengthMM-2*bearerInMM)/farBearers))), h)
	s.BearerMM = m.assume(s.BearerMM, "bearer_mm", "bearers wide", "bearers %s wide", h(45))
	s.BearerDeep = m.assume(s.BearerDeep, "bearer_deep_mm", "bearers thick", "bearers %s thick", h(32))
	return s
}

// Make works out the slats, flush with both edges and evenly between (layout.FlushEnds; where their
// number was not said, the fewest with no gap above GapMM, or as many as fit), and bearers of the whole width across
// them. It fails on sizes that cannot be, and when the slats do not fit.
func (s SlatTop) Make() (Made, error) {
	m := Made{words: s.Words}
	if err := s.sizes(s.LengthMM, s.WidthMM, s.SlatMM, s.GapMM, s.ThicknessMM, s.BearerMM, s.BearerDeep); err != nil {
		return m, err
	}
	s = s.assumed(&m)
	if err := cmp.Or(
		s.between("the length", s.LengthMM, 50, 6000),
		s.between("the width", s.WidthMM, 30, 3000),
		s.between("the slats", s.SlatMM, 8, s.WidthMM),
		s.between("the gaps", s.GapMM, 0, 200),
		bounds.Between("the number of bearers", float64(s.Bearers), 2, 40, ""),
		s.between("the bearers", s.BearerMM, 8, s.LengthMM/2),
	); err != nil {
		return m, err
	}
	row, err := s.row()
	if err != nil {
		return m, err
	}
	across, err := s.bearers()
	if err != nil {
		return m, err
	}
	square := func(name string, n int, length, width, thick float64) {
		m.add(Part{Name: name, Quantity: n, LengthMM: length, WidthMM: width, ThicknessMM: thick, EdgeMM: length, LeftDeg: 90, RightDeg: 90, Material: s.Timber.Name})
	}
	square("slat", row.Count, s.LengthMM, s.SlatMM, s.ThicknessMM)
	square("bearer", s.Bearers, s.WidthMM, s.BearerMM, s.BearerDeep)
	for _, at := range across.Starts {
		x := at.MM()
		m.place("bearer", Hidden, Point{x, 0}, Point{x + s.BearerMM, 0}, Point{x + s.BearerMM, s.WidthMM}, Point{x, s.WidthMM})
	}
	for _, at := range row.Starts {
		y := at.MM()
		m.place("slat", Timber, Point{0, y}, Point{s.LengthMM, y}, Point{s.LengthMM, y + s.SlatMM}, Point{0, y + s.SlatMM})
	}
	s.tell(&m, row, across)
	s.draw(&m, row, across)
	return m, nil
}

func (s SlatTop) row() (layout.Row, error) {
	span, err := measure.FromMM(s.WidthMM)
	if err != nil {
		return layout.Row{}, err
	}
	item, err := measure.FromMM(s.SlatMM)
	if err != nil {
		return layout.Row{}, err
	}
	gap, err := measure.FromMM(s.GapMM)
	if err != nil {
		return layout.Row{}, err
	}
	row, err := layout.Spacing{Span: span, Item: item, Count: s.Slats, MostGap: gap, Ends: layout.FlushEnds}.Row()
	var tight *layout.TooTightError
	if most := int(span / item); s.Slats == 0 && most >= 2 && errors.As(err, &tight) {
		return layout.Spacing{Span: span, Item: item, Count: most, Ends: layout.FlushEnds}.Row()
	}
	return row, err
}

func (s SlatTop) bearers() (layout.Row, error) {
	span, err := measure.FromMM(s.LengthMM)
	if err != nil {
		return layout.Row{}, err
	}
	item, err := measure.FromMM(s.BearerMM)
	if err != nil {
		return layout.Row{}, err
	}
	end, err := measure.FromMM(math.Min(bearerInMM, s.LengthMM/8))
	if err != nil {
		return layout.Row{}, err
	}
	return layout.Spacing{Span: span, Item: item, Count: s.Bearers, Ends: layout.MarginEnds, End: end}.Row()
}

func (s SlatTop) tell(m *Made, row, across layout.Row) {
	screws := 1
	if s.SlatMM >= wideSlatMM {
		screws = 2
	}
	m.note(fmt.Sprintf("Gaps of %s; near edges of the slats from one edge at %s.", s.size(row.Gap.MM()), s.runs(row.Starts)))
	m.note(fmt.Sprintf("Bearers' near edges from one end of the slats at %s.", s.runs(across.Starts)))
	m.note(fmt.Sprintf("%d screws in all: %d in each slat at each bearer, from below, on the slat's middle or a quarter in from its edges.", screws*row.Count*across.Count, screws))
	m.because(fmt.Sprintf("Gap %s = (%s − %d × %s) / %d, the outer slats flush: geometry.", s.number(row.Gap.MM()), s.number(s.WidthMM), row.Count, s.number(s.SlatMM), row.Count-1))
	m.because("Bearers up to " + s.size(farBearers) + " apart, and other sizes not said: common practice, no source.")
}

func (s SlatTop) draw(m *Made, row, across layout.Row) {
	p := newPicture(s.Words, "slatted top", fmt.Sprintf("A slatted top from above, %s by %s", s.number(s.LengthMM), s.number(s.WidthMM)), Point{}, Point{s.LengthMM, s.WidthMM}, 2)
	n := len(across.Starts)
	p.pieces(m.Pieces[n:])
	p.pieces(m.Pieces[:n])
	p.around(Quad{{0, 0}, {s.LengthMM, 0}, {s.LengthMM, s.WidthMM}, {0, s.WidthMM}}, far)
	last := row.Starts[len(row.Starts)-1].MM()
	p.words(Point{s.LengthMM / 2, last + s.SlatMM/2}, s.number(s.SlatMM))
	for i, at := range across.Starts {
		centre := at.MM() + s.BearerMM/2
		if i < 6 {
			p.words(Point{centre, s.WidthMM / 2}, s.number(centre))
		}
	}
	p.below(1, fmt.Sprintf("From above: %d slats, gaps of %s. %s, to scale.", row.Count, s.number(row.Gap.MM()), s.unit()))
	p.below(0, "Dashed: bearers below, with their centres from the left end.")
	m.Drawing = p.sheet
}
