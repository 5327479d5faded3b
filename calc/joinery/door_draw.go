package joinery

import "fmt"

// draw shows the door from the front.
func (d Door) draw(m *Made, leaves []leaf) {
	low, high := span(append(all(m.Pieces), m.Opening[:]...)...)
	name := string(d.Style)
	p := newPicture(d.Words, name, fmt.Sprintf("A %s from the front, in an opening %s wide and %s high", name, d.number(m.Opening.Side(Bottom)), d.number(m.Opening.Side(Left))), low, high, 2)
	p.pieces([]Piece{{Outline: m.Opening[:], Kind: Space}})
	p.pieces(m.Pieces)
	p.around(m.Opening, far)
	p.corners(m.Opening, d.lights(m.Opening), 16)
	for _, l := range leaves {
		light := l.at.Inset(l.low, d.StileMM, l.top, d.StileMM)
		p.words(middle(light[0], light[2]), join(l.name, d.Panel))
		p.words(middle(middle(l.at[2], l.at[3]), middle(light[2], light[3])), d.number(l.top))
		p.words(middle(middle(l.at[0], l.at[1]), middle(light[0], light[1])), d.number(l.low))
		p.words(middle(middle(l.at[0], l.at[3]), middle(light[0], light[3])), d.number(d.StileMM))
	}
	d.leafMeasures(p, leaves)
	p.below(1, "Dashed, bottom and left: the opening. "+d.unit()+", to scale.")
	p.below(0, fmt.Sprintf("Clearance %s all round, rails run %s into the stiles.", d.number(d.ClearanceMM), d.number(d.TenonMM)))
	m.Drawing = p.sheet
}

// lights is the field within the outermost stiles and rails.
func (d Door) lights(q Quad) Quad {
	c := d.ClearanceMM
	return q.Inset(d.BottomMM+c, d.StileMM+c, d.RailMM+c, d.StileMM+c)
}

// leafMeasures writes the size of each leaf beside it.
func (d Door) leafMeasures(p *picture, leaves []leaf) {
	for i, l := range leaves {
		if d.Style != PairDoor || i == len(leaves)-1 {
			p.measure(l.at[2], l.at[1], near, d.number(l.at.Side(Right)))
		}
		if d.Style == PairDoor || i == len(leaves)-1 {
			p.measure(l.at[3], l.at[2], near, d.number(l.at.Side(Top)))
		}
	}
}
