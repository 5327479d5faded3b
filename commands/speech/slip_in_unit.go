package speech

import (
	"math/big"
	"strings"
)

// What a piece of timber is hardly ever as thin and as narrow as in mm, so that centimetres were
// likely meant: 168.5 × 9.4 × 4.2. Common practice, no source.
const (
	thinnest   = 6
	narrowest  = 16
	shortestMM = 1000 // a longer one is in mm whatever its section
)

// centimetresMeant asks whether a bare size is in centimetres, where in millimetres it is a mere
// lath and in centimetres an ordinary piece.
func (r *Reading) centimetresMeant() *Question {
	for k, it := range r.Request.Items {
		if q := slipInUnit(it, r.Form); q != nil {
			return ofItem(r.Request, k, q, r.Form)
		}
	}
	return slipInUnit(r.Request, r.Form)
}

// structural says whether a name is that of a piece which is never a mere lath.
func structural(name string) bool {
	for _, w := range strings.Fields(name) {
		switch w {
		case "stile", "rail", "leg", "post", "shelf", "board", "door", "panel", "top", "bearer", "beam", "joist", "step", "tread", "rafter":
			return true
		}
	}
	return false
}

func slipInUnit(req Request, f *Form) *Question {
	l, w, t := req.Slots["length_mm"], req.Slots["width_mm"], req.Slots["thickness_mm"]
	broken := structural(req.Word("name"))
	for _, s := range []Slot{l, w, t} {
		if s.Num == nil || !s.Bare || s.Unit != "mm" {
			return nil
		}
		broken = broken || !s.Num.IsInt()
	}
	below := func(s Slot, mm int64) bool { return s.Num.Cmp(big.NewRat(mm, 1)) < 0 }
	if !broken || !below(t, thinnest) || !below(w, narrowest) || !below(l, shortestMM) {
		return nil
	}
	in, ok := inOtherUnit(req, f, "length", "cm")
	if !ok {
		return nil
	}
	as := req.clone()
	for _, name := range []string{"length_mm", "width_mm", "thickness_mm"} {
		s := as.Slots[name]
		s.Bare = false
		as.Slots[name] = s
	}
	return Choice("Is that in mm or in cm?", Option{Label: "mm", Words: []string{"millimetres", "millimeters", "as said"}, Request: as},
		Option{Label: "cm", Words: []string{"centimetres", "centimeters"}, Request: in})
}
