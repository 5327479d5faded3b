package commands

import (
	"fmt"
	"math"
	"strings"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

// fromTopLeft says that the first diagonal runs from top left to bottom right.
const fromTopLeft = "top left"

var diagonalPatterns = []string{
	"=bottom|top =left|right to|-|and? the? =bottom|top =left|right is|reads|:|=|measures|at? #", "tl|tr|bl|br -|to? tl|tr|bl|br is|:|=? #",
	"diagonal|diagonals|diags|diag one|first|both|each|the|of|is|are|=|:|at|measure|measures|measured|reads|read|came|come|comes|out|to|as|a|about|it|they? #",
	"diagonal|diagonals|diags|diag .. are|is|read|reads|measure|measures|measured|:|=|came|come|comes|out|of|at|give|gives|gave|giving|show|shows|showed|have|has|say|says out|to|at|as|me|us? #", "diagonal|diagonals one has|gives|shows #", "# in|on|along one|a|the? diagonal", "cross|crosswise|crossways measure|measures|is|reads|:? #",
	"marks|points|ends|tips is|measures|:|comes|reads #", "# across? from? end|corner|tip to end|corner|tip", "end|ends|corner|corners|tip to end|ends|corner|corners|tip is|reads|:|of|measures? #",
	"end of .. end of .. #", "to|and the? end|top|tip of|on the? other|second|post|upright|sill|rail is|measures|:|=|,? #", "top|end of .. to .. end|top of .. #", "across the? corners|diagonal is|:? #", "# corner|end to corner|end", "# diagonally|diagonal", "# across the? corners|corner",
	"corner|end to corner|end i|we? get|got|make|have|read|measure|both|each|ways|way|it|it's|is|,|:? # one|and|,|/|&", "corner|end to corner|end .. #", "# one way|diagonal .. # the? other", "way is|was|:|,|=? #", "# # way", "# from # corner to", "# from one|the|a corner to",
	"# and|/|,|&|vs|+|-|by # diagonals|diagonally|corner", "one diagonal #", "# one diagonal",
}

// readSquare reads the diagonals: what is left are sides.
func readSquare(r *speech.Reading) {
	if r.Says("=top =left to|and .. =bottom =right") || r.Says("=bottom =right to|and .. =top =left") || r.Says("tl to|-? br") {
		r.Word("first_from", fromTopLeft)
	} else if r.Says("=bottom =left to|and .. =top =right") || r.Says("=top =right to|and .. =bottom =left") || r.Says("bl to|-? tr") {
		r.Word("first_from", "bottom left")
	}
	if r.Says("raked|rake|sloping|slopes|slope|leans|leaning side|jamb|edge|stile|post|one? ..") || r.Says("end to end") || r.Says("end of") || r.Says("angle|corner .. between") {
		r.Word("rake", "yes")
	}
	claimPronouns(r)
	claimAsides(r)
	passAll(r, "go|goes|going|fit|fits|fitting|stand|stands|slide|slides in|into|inside a|an|the|our|its recess|alcove|gap|space|hole|niche of|is|:? #")
	for _, i := range r.All("# thick|thickness") {
		r.Claim(i)
	}
	claimFittings(r)
	if readNamedDiagonals(r) {
		claimSquareStock(r)
		readSidesOf(r)
		return
	}
	claimSquareStock(r)
	readSidesOf(r)
	first, ok := firstDiagonal(r)
	if i, only := otherOnly(r); only && (!ok || first == i) {
		r.Set("diagonal2_mm", i)
		return
	}
	if !ok {
		return
	}
	r.Put("diagonal_mm", sharedDiagonal(r, first))
	r.Claim(first)
	if second, ok := secondDiagonal(r, first); ok {
		r.Set("diagonal2_mm", second)
	}
}

// claimSquareStock sets aside the sizes of what the frame is made of and held by.
func claimSquareStock(r *speech.Reading) {
	claimSizesOf(r, "rail|stile|board|section|trim|wood|timber|stock|batten|hinge|hinges", "opening|frame|door|window|hatch|hole|panel|doorway|sill|head|top|bottom|it|left|right", "wide|deep|×")
}

// claimPronouns takes numbers in words that are no sizes out of the way: the end of one, one
// side, three sides.
func claimPronouns(r *speech.Reading) {
	for i := range r.Items {
		it := r.Items[i]
		if !r.Free(i) || !it.Q.Bare() || saidNumberAt(r, i) >= 10 || inSize(r, i) {
			continue
		}
		inWords := !strings.ContainsAny(r.Text[it.Start:it.End], "0123456789")
		if inWords || i+1 < len(r.Items) && anyOf(r.Items[i+1].Text, "sides|side|corners|corner|diagonals") {
			r.Claim(i)
		}
	}
}

// readSidesOf reads the one size of the message, 1350 × 1900, for width and height, whatever is said to
// have it, and sets a third number of it aside.
func readSidesOf(r *speech.Reading) {
	for i := range r.Items {
		if !joined(r, i, "×") || !r.Free(i) || !r.Free(i+2) || before(r, i) == "×" || anyOf(textAt(r, i+3), "diagonals|diagonally|corner") || sizeWord(textAt(r, i+3)) || anyOf(textAt(r, i+3), "w|h|l") {
			continue
		}
		if r.Items[i].Q.Bare() != r.Items[i+2].Q.Bare() {
			return // the unit of one may be that of both
		}
		r.Set("width_mm", i)
		r.Set("height_mm", i+2)
		if joined(r, i+2, "×") {
			r.Claim(i + 4)
		}
		return
	}
}

// claimFittings sets aside where things are fixed and how many there are: hinges 80 in from the ends, 3
// screws each.
func claimFittings(r *speech.Reading) {
	fittings := "hinge|hinges|screw|screws|bolt|bolts|latch|lock|hook|hooks|nail|nails|dowel|dowels|handle|knob"
	for _, p := range []string{"# in from|off", "# from|off each|either|both end|ends|edge|edges|side|sides", "# " + fittings, fittings + " at|are|is|of? #"} {
		for _, i := range r.All(p) {
			r.Claim(i)
		}
	}
}

// firstDiagonal finds the first number that is a diagonal, not a side: not part of a size and
// not asked for.
func firstDiagonal(r *speech.Reading) (int, bool) {
	for _, p := range diagonalPatterns {
		for _, i := range r.All(p) {
			q := r.Items[i].Q
			if q.Kind == measure.KindLength || q.Bare() {
				if !inSize(r, i) && !(asksDiagonal(r) && lengths(r) <= 2) {
					return i, true
				}
			}
		}
	}
	return 0, false
}

// asksDiagonal says whether the diagonal is what is asked for.
func asksDiagonal(r *speech.Reading) bool {
	if r.Says("far|long|much should|would|must|ought|does .. corner to corner") || r.Says("how far|long|much .. corner to corner") || r.Says("what|what's|which should|ought .. corner to corner") {
		return true
	}
	return r.Says("what|what's|which|how .. diagonal|diagonals") || r.Says("diagonal|diagonals for|of|on a|an|the? #")
}

// lengths counts the numbers that may be lengths.
func lengths(r *speech.Reading) int {
	n := 0
	for _, it := range r.Items {
		if it.Q != nil && (it.Q.Kind == measure.KindLength || it.Q.Bare()) {
			n++
		}
	}
	return n
}

// inSize says whether the number at i belongs to a size or is said to be a side.
func inSize(r *speech.Reading, i int) bool {
	if joined(r, i, "×") || joined(r, i-2, "×") {
		return true
	}
	return i+1 < len(r.Items) && anyOf(r.Items[i+1].Text, "wide|high|tall|long|deep|broad")
}

// otherPattern finds what is called the other diagonal.
const otherPattern = "=other|t'other|t'other's|tother|second|2nd|another diagonal|one|way? is|has|gives|shows|reads|at|:|=? #"

// otherOnly finds the other diagonal in a message that says nothing of the first.
func otherOnly(r *speech.Reading) (int, bool) {
	if r.Says("end|top|tip of ..") {
		return 0, false
	}
	for _, i := range r.All(otherPattern) {
		if !inSize(r, i) {
			return i, true
		}
	}
	return 0, false
}

// secondDiagonal finds the other diagonal behind the first one.
func secondDiagonal(r *speech.Reading, first int) (int, bool) {
	if next := first + 1; r.Free(next) && r.Alone(first) && r.Alone(next) && r.Says("diagonals|diags # #") {
		return next, true
	}
	for _, link := range []string{"and|/|,|&|vs|or|+|but|against|;"} {
		if joined(r, first, link) && r.Free(first+2) && !inSize(r, first+2) {
			return first + 2, true
		}
	}
	for _, p := range []string{otherPattern, "diagonal|diagonals .. # .. and|,|/ the? other|second|top|bottom|left|right .. #", "# the? =other|second|2nd", "# on|for|in|along the =other|second", "diagonal|diag =b|two is|reads|:|=|,? #", "=other|second|2nd way|diagonal|one|corner? is|was|at|,|:|=? #", "# and|,|& #"} {
		for _, i := range r.All(p) {
			if i > first && !inSize(r, i) {
				return i, true
			}
		}
	}
	return 0, false
}

// sharedDiagonal gives a bare diagonal the unit of the one behind it.
func sharedDiagonal(r *speech.Reading, first int) speech.Quantity {
	if second, ok := secondDiagonal(r, first); ok {
		return sharedUnit(r, []int{first, second}, 0)
	}
	return *r.Items[first].Q
}

// diagonalsLikeSides gives bare diagonals the unit of the sides where without it they are shorter than these:
// 61 × 45.5 cm, diagonals 76.3 and 75.9.
func diagonalsLikeSides(r *speech.Reading) {
	side := r.Request.Slots["width_mm"]
	if side.Num == nil || side.Bare || side.Unit == "" {
		return
	}
	for _, name := range []string{"diagonal_mm", "diagonal2_mm"} {
		d := r.Request.Slots[name]
		u, ok := measure.UnitNamed(side.Unit)
		if !ok || d.Num == nil || !d.Bare || d.Num.Cmp(side.Num) >= 0 || u.Base(d.Said).Cmp(side.Num) < 0 {
			continue
		}
		d.Num, d.Unit, d.Bare = u.Base(d.Said), side.Unit, false
		r.Request.Slots[name] = d
	}
}

// needSquare settles which sides were measured, and asks for what is missing.
func needSquare(r *speech.Reading) {
	settleSides(r)
	diagonalsLikeSides(r)
	has := r.Request.Has
	four := has("top_mm") && has("bottom_mm")
	switch {
	case four && has("left_mm") && has("right_mm"):
		if !has("diagonal_mm") {
			r.Question = &speech.Question{Text: "Four sides don't fix the shape. What is a diagonal, from bottom left to top right?", Need: "diagonal_mm"}
		}
	case four && has("height_mm"):
		if has("diagonal_mm") {
			r.Question = &speech.Question{Text: "With a diagonal I need both heights, left and right. What is the other height?", Need: "right_mm"}
		}
	case four:
		r.Question = &speech.Question{Text: "How high is it?", Need: "height_mm"}
	case !has("width_mm") && !has("height_mm"):
		r.Question = &speech.Question{Text: bySides(r), Need: "width_mm"}
	case !has("width_mm"):
		r.Question = &speech.Question{Text: "How wide is it?", Need: "width_mm"}
	case !has("height_mm"):
		r.Question = &speech.Question{Text: "How high is it, and what are its diagonals?", Need: "height_mm"}
	case r.Says("is|are|isn't|check|whether|if .. =square") && !has("diagonal_mm") && r.Request.Word("rake") == "" && !asksDiagonal(r) && r.Anew("width_mm"):
		r.Question = &speech.Question{Text: "What are its diagonals? Width and height alone don't tell whether it's square.", Need: "diagonal_mm"}
	}
}

// bySides asks for width and height, with what two diagonals alone tell.
func bySides(r *speech.Reading) string {
	d, one := r.Request.Float("diagonal_mm")
	e, two := r.Request.Float("diagonal2_mm")
	switch {
	case one && two && d != e:
		return fmt.Sprintf("The diagonals differ by %s mm, so it isn't square. How wide and high is it?", measure.Decimal(math.Abs(d-e), 1))
	case one && two:
		return "Equal diagonals: square, if opposite sides are equal. How wide and high is it?"
	}
	return "How wide and high is it?"
}

// settleSides makes a width and a height of single sides: a sill is a width, a left side a
// height; with top and bottom, one height stands for the square side.
func settleSides(r *speech.Reading) {
	move := func(from, to string) {
		if r.Request.Has(from) && !r.Request.Has(to) {
			r.Request = r.Moved(map[string]string{from: to})
		}
	}
	both := r.Request.Has("top_mm") && r.Request.Has("bottom_mm")
	if !both && r.Request.Has("width_mm") {
		move("width_mm", map[bool]string{true: "bottom_mm", false: "width_mm"}[r.Request.Has("top_mm")])
		both = r.Request.Has("top_mm") && r.Request.Has("bottom_mm")
	}
	if !both {
		move("bottom_mm", "width_mm")
		move("top_mm", "width_mm")
	}
	if !(r.Request.Has("left_mm") && r.Request.Has("right_mm")) {
		move("left_mm", "height_mm")
		move("right_mm", "height_mm")
	}
}
