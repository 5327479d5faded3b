package joinery

// draft is a part before it has a name. Its names run from the one for all of its sort to the
// one for it alone: "stile", "lower stile", "lower left stile".
type draft struct {
	names   []string
	part    Part
	kind    Kind
	outline []Point
}

// settle names the drafts, each by the first of its names under which all are cut the same, and
// puts them on the list and in their places.
func (m *Made) settle(drafts []draft) {
	names := make([]string, len(drafts))
	all := make([]int, len(drafts))
	for i := range all {
		all[i] = i
	}
	settleFrom(drafts, all, 0, names)
	for i, d := range drafts {
		d.part.Name = names[i]
		m.add(d.part)
		m.place(names[i], d.kind, d.outline...)
	}
}

func settleFrom(drafts []draft, of []int, level int, names []string) {
	var order []string
	groups := map[string][]int{}
	for _, i := range of {
		n := drafts[i].names[min(level, len(drafts[i].names)-1)]
		if groups[n] == nil {
			order = append(order, n)
		}
		groups[n] = append(groups[n], i)
	}
	for _, n := range order {
		g := groups[n]
		first, same, last := drafts[g[0]].part, true, true
		for _, i := range g {
			same = same && first.sameCut(drafts[i].part)
			last = last && level >= len(drafts[i].names)-1
		}
		if !same && !last {
			settleFrom(drafts, g, level+1, names)
			continue
		}
		for _, i := range g {
			names[i] = n
		}
	}
}

// sheet measures a piece with four corners of its own. Its length runs up where the grain does.
func (q Quad) sheet(up bool) Part {
	low, high := span(q[:]...)
	p := Part{Quantity: 1, LengthMM: high.X - low.X, WidthMM: high.Y - low.Y, EdgeMM: q.Side(Bottom),
		LeftDeg: q.CornerDeg(0), RightDeg: q.CornerDeg(1), SidesMM: [4]float64{q.Side(Bottom), q.Side(Right), q.Side(Top), q.Side(Left)}}
	if up {
		p.LengthMM, p.WidthMM = p.WidthMM, p.LengthMM
	}
	return p
}
