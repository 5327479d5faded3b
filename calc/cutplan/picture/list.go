package picture

import (
	"math"
	"slices"
	"strconv"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
	"fettle/calc/sketch"
)

// item is a line of a list under a drawing.
type item struct {
	number, text, right string
	heading             bool
}

// cutList are the cuts in sawing order, a heading over those of a stage.
func cutList(b cutplan.SawnBoard, kerf measure.Length, in measure.System) (items []item) {
	stage := 0
	for _, s := range Steps(b, kerf) {
		if s.Stage != stage {
			stage = s.Stage
			items = append(items, item{text: s.Heading(), heading: true})
		}
		items = append(items, item{number: strconv.Itoa(s.Order), text: s.Text(in), right: s.Result(in)})
	}
	if len(items) == 0 {
		return []item{{text: "No cut: the board is the part.", heading: true}}
	}
	if !slices.ContainsFunc(b.Cuts, func(c cutplan.Cut) bool { return c.Starts }) {
		return append(items, item{text: "The blade runs beyond the mark."})
	}
	return append(items, item{text: "The blade runs beyond the mark, but"}, item{text: "before it at “keep beyond”."})
}

// Count is how many pieces of a part, all of one size, come out of a board.
type Count struct {
	Name          string
	Quantity      int
	Length, Width measure.Length // as the part is said, not as it lies
}

// Counts are the parts of a board in the order of the job.
func Counts(b cutplan.SawnBoard) (out []Count) {
	at := map[int]int{}
	for _, p := range b.Parts {
		i, known := at[p.Part]
		if !known {
			i = len(out)
			at[p.Part] = i
			c := Count{Name: p.Name, Length: p.Length, Width: p.Width}
			if p.Turned {
				c.Length, c.Width = p.Width, p.Length
			}
			out = append(out, c)
		}
		out[i].Quantity++
	}
	return out
}

// partList is what the board gives, with the short names of the drawing.
func partList(b cutplan.SawnBoard, keys map[string]string, in measure.System) []item {
	items := []item{{text: "Parts", heading: true}}
	for _, c := range Counts(b) {
		items = append(items, item{number: keys[c.Name], text: strconv.Itoa(c.Quantity) + " " + c.Name, right: size(in, c.Length, c.Width)})
	}
	return items
}

// column paints items below each other; it gives the place below the last.
func column(s *sketch.Sheet, items []item, x, y, width, text float64) float64 {
	indent := text * 2.2
	for _, it := range items {
		if len([]rune(it.number)) > 2 {
			indent = max(indent, textWidth(it.number, text, true)+text*0.6)
		}
	}
	for i, it := range items {
		if it.heading {
			if i > 0 {
				y += text * 0.4
			}
			s.Add(startWords(x, y+text*0.7, text, shortened(it.text, text*1.06, width), true))
			y += text * 1.4
			continue
		}
		room := width - indent
		if it.right != "" {
			right := shortened(it.right, text, room/2)
			label := startWords(x+width, y+text*0.7, text, right, false)
			label.Anchor = sketch.End
			s.Add(label)
			room -= textWidth(right, text, false) + text
		}
		s.Add(startWords(x, y+text*0.7, text, it.number, true), startWords(x+indent, y+text*0.7, text, shortened(it.text, text, room), false))
		y += text * 1.4
	}
	return y
}

// startWords is a label that starts at its place.
func startWords(x, y, text float64, line string, bold bool) sketch.Shape {
	l := sketch.Words(x, y, text, line)
	l.Anchor, l.Bold = sketch.Start, bold
	return l
}

// legend tells what the fillings mean, with a bar of a round length for the scale.
func legend(s *sketch.Sheet, x, y, text float64, scale float64, in measure.System) float64 {
	for _, e := range []struct {
		fill sketch.Fill
		dash bool
		text string
	}{{sketch.Wood, false, "part"}, {sketch.Paper, true, "keep"}, {sketch.Waste, false, "waste"}, {sketch.Hatched, false, "fault"}} {
		swatch := sketch.Rect(x, y, 18, 12).Filled(e.fill)
		swatch.Dashed = e.dash
		s.Add(swatch, startWords(x+23, y+6, text, e.text, false))
		x += 23 + textWidth(e.text, text, false) + 12
	}
	bar := barLength(scale, s.Width-x-edge, in)
	line := sketch.Path(sketch.Point{X: x, Y: y + 6}, sketch.Point{X: x + bar.MM()*scale, Y: y + 6})
	line.Arrows = true
	s.Add(line, startWords(x+bar.MM()*scale+5, y+6, text, in.Exact(bar), false))
	return y + 18
}

// barLength is the longest round length whose bar fits, with its words, into a width.
func barLength(scale, width float64, in measure.System) measure.Length {
	const forWords, longest = 55, 150
	round, unit := []measure.Length{1000, 500, 200, 100, 50, 20, 10}, measure.Millimetre
	if in == measure.Imperial {
		round, unit = []measure.Length{36, 24, 12, 6, 3, 2, 1}, measure.Inch
	}
	for _, n := range round {
		if l := n * unit; l.MM()*scale <= math.Min(width-forWords, longest) {
			return l
		}
	}
	return round[len(round)-1] * unit
}
