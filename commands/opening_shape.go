package commands

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fettle/calc/joinery"
	"fettle/calc/measure"
	"fettle/commands/book"
)

// openingNouns are what an opening is called on site.
var openingNouns = set("opening openings doorway aperture window hatch hole")

// siteOpening is one opening, or whatever else has corners and diagonals, by what was measured of it.
type siteOpening struct {
	name     string // the door opening
	measures []book.Named[book.Measure]
}

// thingShaped is the name of a measure without what says which of the thing's sizes, corners or
// diagonals it is.
func thingShaped(name string) string {
	words := strings.Fields(strings.ToLower(thingMeasured(name)))
	return strings.Join(slices.DeleteFunc(words, func(w string) bool {
		return shapeWord(w) != "" || aboutShape[w] || strings.Trim(w, "0123456789") == ""
	}), " ")
}

// aboutShape are further words that say which size of a thing a measure is: high on both sides.
var aboutShape = set("upper lower both sides side each all inside outside clear overall edge edges jamb jambs end ends")

// shapeWord gives the one form of the words for corners and diagonals, "" for other words.
func shapeWord(w string) string {
	switch w {
	case "corner", "corners":
		return "corner"
	case "diagonal", "diagonals", "diag", "diags", "diagonally":
		return "diagonal"
	}
	return ""
}

// siteOpenings sorts what was measured by the things that it was measured of.
func siteOpenings(all []book.Named[book.Measure]) (out []siteOpening) {
	for _, m := range all {
		name := thingShaped(m.Name)
		i := slices.IndexFunc(out, func(o siteOpening) bool { return sameMeasure(o.name, name) })
		if i < 0 {
			i, out = len(out), append(out, siteOpening{name: name})
		}
		out[i].measures = append(out[i].measures, m)
	}
	return out
}

// isOpening says whether a thing is an opening by its name.
func (o siteOpening) isOpening() bool {
	return slices.ContainsFunc(strings.Fields(o.name), func(w string) bool { return openingNouns[w] })
}

// at is when something of it was measured last, as RFC 3339 has it.
func (o siteOpening) at() (last string) {
	for _, m := range o.measures {
		last = max(last, m.Is.At)
	}
	return last
}

// The two diagonals of an opening, as needs that only this file has.
const (
	rising  = "rising"  // from bottom left to top right
	falling = "falling" // from top left to bottom right
)

// shapeNeed tells which size, diagonal or corner of an opening a measure is, by its name; "" for none.
// A diagonal of which nobody said where it starts is taken for the rising one, the second of two for
// the falling one.
func shapeNeed(m book.Named[book.Measure]) string {
	words := strings.Fields(strings.ToLower(m.Name))
	has := func(any string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return anyOf(w, any) })
	}
	if slices.ContainsFunc(words, func(w string) bool { return shapeWord(w) == "diagonal" }) {
		return diagonalNamed(words)
	}
	if m.Is.Deg > 0 {
		for _, c := range cornerPlaces {
			if has(c.level) && has(c.side) {
				return c.need
			}
		}
		return ""
	}
	for _, w := range measuredAs {
		if has(w.word) && m.Is.Size > 0 {
			return w.need
		}
	}
	return ""
}

func diagonalNamed(words []string) string {
	level := slices.IndexFunc(words, func(w string) bool { return anyOf(w, "top|upper|bottom|lower") })
	switch {
	case level >= 0 && level+1 < len(words) && anyOf(words[level+1], "left|right"):
		if anyOf(words[level], "top|upper") == (words[level+1] == "left") {
			return falling
		}
	case slices.Contains(words, "2") || slices.Contains(words, "second") || slices.Contains(words, "other"):
		return falling
	}
	return rising
}

// shape gathers what was measured by need, in mm and degrees.
func (o siteOpening) shape() map[string]float64 {
	out := map[string]float64{}
	for _, m := range o.measures {
		if need := shapeNeed(m); need != "" && out[need] == 0 {
			out[need] = m.Is.Size.MM()
			if m.Is.Deg > 0 {
				out[need] = m.Is.Deg
			}
		}
	}
	if out[falling] == out[rising] && !o.named(rising) && o.named(falling) { // said again with where it starts
		delete(out, rising)
	}
	return out
}

// named says whether a diagonal was measured with where it starts.
func (o siteOpening) named(diagonal string) bool {
	return slices.ContainsFunc(o.measures, func(m book.Named[book.Measure]) bool {
		return shapeNeed(m) == diagonal && slices.ContainsFunc(strings.Fields(m.Name), func(w string) bool { return placing[w] })
	})
}

// openingOf is an opening of measures by need.
func (a *Ask) openingOf(s map[string]float64) joinery.Opening {
	return joinery.Opening{Words: a.words(), WidthMM: s["width_mm"], HeightMM: s["height_mm"], BottomMM: s["bottom_mm"], RightMM: s["right_mm"], TopMM: s["top_mm"], LeftMM: s["left_mm"],
		RisingMM: s[rising], FallingMM: s[falling], BottomLeftDeg: s["bottom_left_deg"], BottomRightDeg: s["bottom_right_deg"], TopRightDeg: s["top_right_deg"], TopLeftDeg: s["top_left_deg"]}
}

// cornersOfQuad are the corners of a quad by need.
var cornersOfQuad = []string{"bottom_left_deg", "bottom_right_deg", "top_right_deg", "top_left_deg"}

// fixedBy are the measures that fix an opening beside its sides, the surest first.
var fixedBy = []string{rising, falling, "top_left_deg", "top_right_deg", "bottom_left_deg", "bottom_right_deg"}

// apartDeg is from how many degrees apart two readings of an angle contradict each other: half a
// degree is what a bevel and a protractor are good for. Common practice, no source.
const apartDeg = 0.5

// misfit is a measure of an opening that contradicts the others.
type misfit struct{ need, by, text string }

// misfits says where measures of an opening contradict each other: by the sides and one of the other
// measures a diagonal or a corner is more than 2 mm or half a degree off what was measured.
func (a *Ask) misfits(o siteOpening) (out []misfit) {
	s := o.shape()
	sides := map[string]float64{}
	for _, w := range measuredAs {
		sides[w.need] = s[w.need]
	}
	i := slices.IndexFunc(fixedBy, func(need string) bool { return s[need] > 0 })
	if i < 0 || !o.hasSides() {
		return nil
	}
	by := fixedBy[i]
	sides[by] = s[by]
	q, _, err := a.openingOf(sides).Quad()
	if err != nil {
		return []misfit{{by, by, fmt.Sprintf("The sides and %s of the %s don't go together: %s.", fixedName(by, s), o.name, err)}}
	}
	for _, m := range a.misfitsBy(q, s) {
		if m.need != by {
			m.by, m.text = by, fmt.Sprintf("By the sides and %s of the %s, %s Which one is wrong?", fixedName(by, s), o.name, m.text)
			out = append(out, m)
		}
	}
	return out
}

// misfitsBy lists the diagonals and corners that were measured otherwise than a quad has them.
func (a *Ask) misfitsBy(q joinery.Quad, s map[string]float64) (out []misfit) {
	is := map[string]float64{rising: distance(q[0], q[2]), falling: distance(q[3], q[1])}
	for _, need := range []string{rising, falling} {
		if s[need] > 0 && math.Abs(s[need]-is[need]) > apart.MM() {
			out = append(out, misfit{need: need, text: fmt.Sprintf("the diagonal %s is %s, and it measures %s.", diagonalFrom[need], a.plain(is[need]), a.plain(s[need]))})
		}
	}
	for i, need := range cornersOfQuad {
		if s[need] > 0 && math.Abs(s[need]-q.CornerDeg(i)) > apartDeg {
			out = append(out, misfit{need: need, text: fmt.Sprintf("the %s is %s, and it measures %s.", cornerText(need), degText1(q.CornerDeg(i)), degExact(s[need]))})
		}
	}
	return out
}

// misfitsNow are the contradictions that measures just told bring about: their own, or all where a side
// or what fixes the opening was told.
func (a *Ask) misfitsNow(o siteOpening, names []string) (out []string) {
	told := map[string]bool{}
	for _, m := range o.measures {
		if slices.ContainsFunc(names, func(n string) bool { return sameMeasure(n, m.Name) }) {
			told[shapeNeed(m)] = true
		}
	}
	side := slices.ContainsFunc(openingSizes, func(need string) bool { return told[need] })
	for _, m := range a.misfits(o) {
		if side || told[m.need] || told[m.by] {
			out = append(out, m.text)
		}
	}
	return out
}

func distance(p, q joinery.Point) float64 { return math.Hypot(p.X-q.X, p.Y-q.Y) }

var diagonalFrom = map[string]string{rising: "from bottom left to top right", falling: "from top left to bottom right"}

// fixedName is a diagonal or a corner in words.
func fixedName(need string, s map[string]float64) string {
	switch {
	case diagonalFrom[need] == "":
		return "the " + cornerText(need)
	case s[rising] > 0 && s[falling] > 0:
		return "the diagonal " + diagonalFrom[need]
	}
	return "the diagonal"
}

func cornerText(need string) string {
	return strings.ReplaceAll(strings.TrimSuffix(need, "_deg"), "_", " ") + " corner"
}

// degText1 prints an angle that was worked out to a tenth.
func degText1(deg float64) string { return degExact(roundTenth(deg)) }

// plain prints a size in mm as it is measured: to half a mm or a thirty-second.
func (a *Ask) plain(mm float64) string { return mmText(a.System, mm, measure.Nearest) }
