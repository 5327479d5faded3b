package cutplan

// layout is a pattern as its cuts see it: sections from left to right, each of strips from its
// lower edge up, each of pieces from left to right.
type layout []section

type section struct {
	x0, x1 int
	strips []strip
}

type strip struct {
	y0, y1 int
	pieces []piece
}

// piece is where an item lies.
type piece struct {
	item int
	rect
}

// layoutOf gathers a pattern's steps into sections and strips.
func (lt *lot) layoutOf(p *pattern) layout {
	s := &lt.stocks[p.stock]
	var lay layout
	for _, st := range p.steps {
		it := &s.items[st.item]
		lay = lay.with(piece{st.item, rect{st.x, st.y, st.x + it.l, st.y + it.w}}, st.how)
	}
	return lay
}

// with adds a piece after the cut.
func (lay layout) with(p piece, h how) layout {
	if h == newSection {
		lay = append(lay, section{x0: p.x0, x1: p.x1})
	}
	sec := &lay[len(lay)-1]
	if h >= newStrip {
		sec.strips = append(sec.strips, strip{y0: p.y0, y1: p.y1})
	}
	st := &sec.strips[len(sec.strips)-1]
	st.pieces = append(st.pieces, p)
	st.y0, st.y1 = min(st.y0, p.y0), max(st.y1, p.y1)
	sec.x0, sec.x1 = min(sec.x0, p.x0), max(sec.x1, p.x1)
	return lay
}
