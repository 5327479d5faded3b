package joinery

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"fettle/calc/evidence"
	"fettle/calc/wood"
)

// Style is how many leaves a door has.
type Style string

// The styles of a door.
const (
	SingleDoor Style = "door"
	PairDoor   Style = "pair of doors" // two leaves beside each other
	StableDoor Style = "stable door"   // two leaves above each other
)

// Door is a frame-and-panel door to make. Sizes that are 0 are assumed.
type Door struct {
	Words
	Opening     Opening
	Style       Style
	Timber      wood.Species // nothing in it: not said
	ThicknessMM float64
	StileMM     float64
	RailMM      float64 // top and meeting rails
	BottomMM    float64 // bottom rails
	TenonMM     float64
	GrooveMM    float64
	ClearanceMM float64 // round the leaves and between them
	LapMM       float64 // of the rebate between two leaves
	SplitMM     float64 // height of the middle of a stable door's joint above the bottom of the opening
	Panel       string  // "" is SolidWood
	PanelMM     float64 // its thickness
	Climate     Climate
}

// bigDoorMM is the height from which an opening takes a house door's sizes, not a cupboard's.
const bigDoorMM = 1200

// figures are the sizes assumed for a door of a height; all are common practice, no source.
type figures struct{ thickness, stile, bottom, tenon, groove, clearance, lap float64 }

func doorFigures(heightMM float64) figures {
	if heightMM < bigDoorMM {
		return figures{thickness: 22, stile: 60, bottom: 80, tenon: 25, groove: 10, clearance: 2, lap: 10}
	}
	return figures{thickness: 40, stile: 95, bottom: 145, tenon: 25, groove: 15, clearance: 3, lap: 15}
}

// panelMM is the assumed thickness of a panel: common practice, no source.
func panelMM(of string, heightMM float64) evidence.Figure {
	thick := map[string][2]float64{SolidWood: {10, 18}, Plywood: {6, 12}, Acrylic: {4, 6}, Glass: {4, 6}}[of]
	if heightMM < bigDoorMM {
		return evidence.Habit(thick[0])
	}
	return evidence.Habit(thick[1])
}

// assumed fills in what was not said.
func (d Door) assumed(m *Made, heightMM float64) Door {
	f := doorFigures(heightMM)
	d.Style = cmp.Or(d.Style, SingleDoor)
	h := evidence.Habit
	d.ThicknessMM = m.assume(d.ThicknessMM, "thickness_mm", "frame thick", "frame %s thick", h(f.thickness))
	d.StileMM = m.assume(d.StileMM, "stile_mm", "stiles", "stiles %s", h(f.stile))
	d.RailMM = m.assume(d.RailMM, "rail_mm", "rails", "rails %s", h(f.stile))
	d.BottomMM = m.assume(d.BottomMM, "bottom_rail_mm", "bottom rail", "bottom rail %s", h(f.bottom))
	d.TenonMM = m.assume(d.TenonMM, "tenon_mm", "tenons", "tenons %s", h(f.tenon))
	d.GrooveMM = m.assume(d.GrooveMM, "groove_mm", "groove", "groove %s", h(f.groove))
	d.ClearanceMM = m.assume(d.ClearanceMM, "clearance_mm", "clearance all round", "clearance %s", h(f.clearance))
	if d.Style != SingleDoor {
		d.LapMM = m.assume(d.LapMM, "lap_mm", "rebate between the leaves", "rebate %s", h(f.lap))
	}
	if d.Style == StableDoor {
		d.SplitMM = m.assume(d.SplitMM, "split_mm", "split at", "split at %s", h(math.Round(heightMM/10)*5))
	}
	if d.Panel == "" {
		d.Panel = SolidWood
		m.choose("panel", "panel", SolidWood, "plywood panel")
	}
	d.PanelMM = m.assume(d.PanelMM, "panel_mm", "panel thick", "panel %s thick", panelMM(d.Panel, heightMM))
	if d.Panel == SolidWood {
		d.Climate = m.climate(d.Climate)
	}
	return d
}

func (d Door) check() error {
	return cmp.Or(
		d.between("the thickness", d.ThicknessMM, 8, 120),
		d.between("the stiles", d.StileMM, 15, 400),
		d.between("the rails", d.RailMM, 15, 400),
		d.between("the bottom rail", d.BottomMM, 15, 600),
		d.between("the tenons", d.TenonMM, 3, d.StileMM),
		d.between("the groove", d.GrooveMM, 3, d.StileMM/2),
		d.between("the clearance", d.ClearanceMM, 0.2, 30),
		d.between("the rebate between the leaves", d.LapMM, 0, 60),
		d.between("the panel", d.PanelMM, 1, d.ThicknessMM),
	)
}

// leaf is one frame of a door.
type leaf struct {
	name     string  // "lower", "left leaf"; "" for the only one
	at       Quad    // over all, the tongue of a rebate included
	rebated  int     // the edge with the rebate, or -1
	face     string  // the face that the rebate is cut from
	top, low float64 // width of its top and its bottom rail
}

// Make works out leaves, frames and panels:
//
//	leaf            the opening, less the clearance at each edge
//	two leaves      each runs past the middle of the joint by (rebate − clearance)/2
//	stiles          through the whole height, their ends cut to the opening's corners
//	rails           between the stiles, their shoulders cut to the stiles' lean, with a tenon at
//	                each end
//	panel           the light between the frame, and into the groove all round, less its room
//
// All of that is geometry. It fails on openings and sizes that cannot be.
func (d Door) Make() (Made, error) {
	m := Made{words: d.Words}
	if err := d.sizes(d.ThicknessMM, d.StileMM, d.RailMM, d.BottomMM, d.TenonMM, d.GrooveMM, d.ClearanceMM, d.LapMM, d.SplitMM, d.PanelMM); err != nil {
		return m, err
	}
	q, how, err := d.Opening.Quad()
	if err != nil {
		return m, err
	}
	m.note(how)
	m.Opening = q
	low, high := span(q[:]...)
	d = d.assumed(&m, high.Y-low.Y)
	if err := d.check(); err != nil {
		return m, err
	}
	leaves, err := d.leaves(q)
	if err != nil {
		return m, err
	}
	var drafts []draft
	for _, l := range leaves {
		more, err := d.frame(&m, l)
		if err != nil {
			return m, err
		}
		drafts = append(drafts, more...)
	}
	m.settle(drafts)
	d.tell(&m, leaves)
	d.draw(&m, leaves)
	return m, nil
}

func (m *Made) note(text string) {
	if text != "" && !slices.Contains(m.Notes, text) {
		m.Notes = append(m.Notes, text)
	}
}

// leaves cuts the opening up.
func (d Door) leaves(q Quad) ([]leaf, error) {
	c := d.ClearanceMM
	in := q.Inset(c, c, c, c)
	past := (d.LapMM - c) / 2
	switch d.Style {
	case StableDoor:
		low, high := span(q[:]...)
		if err := d.between("the split", d.SplitMM, low.Y+d.BottomMM+d.RailMM, high.Y-2*d.RailMM); err != nil {
			return nil, err
		}
		joint := line{Point{0, d.SplitMM}, Point{-1, 0}} // the lower leaf on its left
		lower := cell(in.edge(Bottom), in.edge(Right), joint.off(-past), in.edge(Left))
		upper := cell(joint.back().off(-past), in.edge(Right), in.edge(Top), in.edge(Left))
		return sound(leaf{name: "lower", at: lower, rebated: Top, face: "outer", top: d.RailMM, low: d.BottomMM},
			leaf{name: "upper", at: upper, rebated: Bottom, face: "inner", top: d.RailMM, low: d.RailMM})
	case PairDoor:
		joint := through(middle(q[0], q[1]), middle(q[3], q[2])) // the left leaf on its left
		left := cell(in.edge(Bottom), joint.off(-past), in.edge(Top), in.edge(Left))
		right := cell(in.edge(Bottom), in.edge(Right), in.edge(Top), joint.back().off(-past))
		return sound(leaf{name: "left leaf", at: left, rebated: Right, face: "outer", top: d.RailMM, low: d.BottomMM},
			leaf{name: "right leaf", at: right, rebated: Left, face: "inner", top: d.RailMM, low: d.BottomMM})
	}
	return sound(leaf{at: in, rebated: -1, top: d.RailMM, low: d.BottomMM})
}

func middle(p, q Point) Point { return Point{(p.X + q.X) / 2, (p.Y + q.Y) / 2} }

func sound(leaves ...leaf) ([]leaf, error) {
	for _, l := range leaves {
		if !l.at.sound() {
			return nil, errNoRoom
		}
	}
	return leaves, nil
}

// frame works out the parts of a leaf.
func (d Door) frame(m *Made, l leaf) ([]draft, error) {
	q := l.at
	right, left := q.edge(Right).off(d.StileMM), q.edge(Left).off(d.StileMM)
	strips := [4]strip{
		Bottom: {q.edge(Bottom), l.low, left, right},
		Right:  {q.edge(Right), d.StileMM, q.edge(Bottom), q.edge(Top)},
		Top:    {q.edge(Top), l.top, right, left},
		Left:   {q.edge(Left), d.StileMM, q.edge(Top), q.edge(Bottom)},
	}
	names := [4][]string{
		Bottom: {"bottom rail", join(l.name, "bottom rail")},
		Right:  {"stile", join(l.name, "stile"), join(l.name, "right stile")},
		Top:    {"top rail", join(l.name, "top rail")},
		Left:   {"stile", join(l.name, "stile"), join(l.name, "left stile")},
	}
	if d.Style == PairDoor && l.rebated >= 0 {
		names[l.rebated] = []string{join(l.name, "meeting stile")}
	}
	var out []draft
	for _, edge := range []int{Left, Right, Top, Bottom} {
		tenon := 0.0
		if edge == Top || edge == Bottom {
			tenon = d.TenonMM
		}
		p, err := strips[edge].part(tenon)
		if err != nil {
			return nil, err
		}
		p.ThicknessMM, p.Material = d.ThicknessMM, d.Timber.Name
		if edge == l.rebated {
			p.Note = fmt.Sprintf("Rebate %s wide and %s deep from the %s face along the meeting edge.", d.size(d.LapMM), d.number(d.ThicknessMM/2), l.face)
		}
		o := strips[edge].outline()
		out = append(out, draft{names: names[edge], part: p, kind: Timber, outline: o[:]})
	}
	panel, err := d.panel(m, l)
	return append(out, panel), err
}

func (d Door) panel(m *Made, l leaf) (draft, error) {
	light := l.at.Inset(l.low, d.StileMM, l.top, d.StileMM)
	if !light.sound() {
		return draft{}, errNoRoom
	}
	ground := light.Inset(-d.GrooveMM, -d.GrooveMM, -d.GrooveMM, -d.GrooveMM)
	r, err := m.panelRoom(d.Panel, d.Timber, d.Climate, max(ground.Side(Bottom), ground.Side(Top)), max(ground.Side(Left), ground.Side(Right)), d.GrooveMM)
	if err != nil {
		return draft{}, err
	}
	q := ground.Inset(r.along, r.across, r.along, r.across)
	p := q.sheet(true)
	p.ThicknessMM, p.Material, p.AnyGrain = d.PanelMM, d.Panel, d.Panel == Acrylic || d.Panel == Glass
	if d.Panel == SolidWood {
		p.Material = d.Timber.Name
	}
	p.Note = fmt.Sprintf("Room %s at each side and %s above and below.", d.size(r.across), d.number(r.along))
	return draft{names: []string{"panel", join(l.name, "panel")}, part: p, kind: Infill, outline: light[:]}, nil
}

// cutMM is the length of the cut at an end of a piece of a width.
func cutMM(width, cornerDeg float64) float64 { return width / math.Sin(cornerDeg*math.Pi/180) }

func join(first, second string) string {
	if first == "" {
		return second
	}
	return first + " " + second
}

// tell says what to know at the bench.
func (d Door) tell(m *Made, leaves []leaf) {
	m.note(fmt.Sprintf("Rails run %s into the stiles at each end; mark shoulders to the angles given, not square.", d.size(d.TenonMM)))
	switch d.Panel {
	case SolidWood:
		m.note("Leave the panel dry in its groove: glue only the frame.")
	case Glass, Acrylic:
		m.note("The pane sits in a rebate as deep as the groove, with beads, so that it can be changed.")
	}
	if d.Style == StableDoor {
		m.note("The upper leaf laps over the outside of the lower one, so that water runs off.")
	}
	if d.Panel != SolidWood {
		m.because(fmt.Sprintf("Room round %s: at least %s (glass %s) at each edge, common practice, no source.", d.Panel, d.size(fitRoom().Value), d.number(glassRoom().Value)))
	}
	first := leaves[0].at
	m.because(fmt.Sprintf("Along the bottom: leaf %s = opening %s − clearance %s square off each side; rail between the shoulders = %s − stiles %s / sin %s − %s / sin %s = %s: geometry.",
		d.number(first.Side(Bottom)), d.number(first.Inset(0, -d.ClearanceMM, 0, -d.ClearanceMM).Side(Bottom)), d.number(d.ClearanceMM), d.number(first.Side(Bottom)), d.number(d.StileMM), degText(first.CornerDeg(0)), d.number(d.StileMM), degText(first.CornerDeg(1)),
		d.number(first.Side(Bottom)-cutMM(d.StileMM, first.CornerDeg(0))-cutMM(d.StileMM, first.CornerDeg(1)))))
	m.because("Widths, clearance, tenons and groove where not said: common practice, no source.")
	m.panelCaution(d.Panel)
}
