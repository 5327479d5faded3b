package commands

import (
	"math/big"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

// Words of what is glued, and of what is glued together.
const (
	jointWords = "joint|joints|line|lines|glueline|gluelines|glue-line|glue-lines|lap|laps|scarf|scarfs|scarves|face|faces|seam|seams|tenon|tenons|bond"
	layerWords = "boards|planks|staves|strips|plies|layers|laminations|laminates|strakes"
)

// readGlueFaces reads the size of what is glued, said as 900 × 45, and sets aside the sizes of the wood
// around it: boards 110 wide, a ply 6 thick, rails 2 m long.
func readGlueFaces(r *speech.Reading) {
	readGlueTotal(r)
	if len(r.All("#area")) == 0 && severalJoints(r) {
		return
	}
	readJointCount(r)
	claimBoardWidth(r)
	first := jointSize(r)
	if first < 0 || len(r.All("#area")) > 0 {
		return
	}
	second := first + 2
	if joined(r, second, "×") {
		if !longerThan(r, first, second) {
			return // the first may be how many
		}
		countLayers(r)
		if third := second + 2; r.Says("edge|edges") || r.Request.Word("counted") == "layers" && !r.Says("lamination|laminate|laminated|bow|plies|ply|face") {
			second = third // of boards glued by their edges the line is as wide as they are thick
		}
	}
	shared := sharedUnit(r, []int{first, second}, 0)
	long, wide := r.Sized("length_mm", shared), r.Sized("width_mm", *r.Items[second].Q)
	if long.Num == nil || wide.Num == nil || shared.Fraction || r.Items[second].Q.Fraction || sizeWord(textAt(r, first+1)) || sizeWord(textAt(r, second+1)) {
		return
	}
	r.Put("length_mm", shared)
	r.Set("width_mm", second)
	for i := first; ; i += 2 {
		r.Claim(i)
		if !joined(r, i, "×") {
			break
		}
	}
	for i := range r.Items {
		if r.Free(i) && sizeWord(textAt(r, i+1)) && (r.Items[i].Q.Bare() || r.Items[i].Q.Kind == measure.KindLength) {
			r.Claim(i)
		}
	}
}

// longerThan says whether the number at a is at least that at b.
func longerThan(r *speech.Reading, a, b int) bool {
	x, y := r.Sized("length_mm", *r.Items[a].Q), r.Sized("length_mm", *r.Items[b].Q)
	return x.Num != nil && y.Num != nil && x.Num.Cmp(y.Num) >= 0
}

// countLayers reads how many boards of length, width and thickness there are: one without a number.
func countLayers(r *speech.Reading) {
	if r.Request.Has("quantity") {
		return
	}
	q := speech.Quantity{Kind: speech.KindCount, Value: big.NewRat(1, 1), Integer: true}
	for _, i := range r.All("# oak|ash|sapele|larch|pine|beech? =" + layerWords + "|pieces") {
		if r.Alone(i) && r.Items[i].Q.Integer {
			q.Value = r.Items[i].Q.Value
			r.Claim(i)
			if r.Says("edge|edges|panel|top|together|lamination|laminate|laminated|bow") {
				r.Word("counted", "layers")
			}
			break
		}
	}
	r.Put("quantity", q)
}

// claimBoardWidth sets aside how wide the boards are where the line of the joint is as wide as they are
// thick: 22 thick, boards 110 wide.
func claimBoardWidth(r *speech.Reading) {
	if len(r.All("# thick|thickness")) == 0 || r.Says("face to|- face") || r.Says("laminate|laminated|lamination|plies|layers") {
		return
	}
	for _, i := range r.All("# wide|broad") {
		if anyOf(ownerOf(r, i, jointWords+"|"+layerWords+"|"+stuffWords), layerWords+"|"+stuffWords) {
			r.Claim(i)
		}
	}
}

// jointSize finds the first number of the size of what is glued: the one said of a joint, or the first
// there is; -1 where there is none.
func jointSize(r *speech.Reading) int {
	found := -1
	for i := range r.Items {
		if !r.Free(i) || !joined(r, i, "×") || !r.Free(i+2) || before(r, i) == "×" {
			continue
		}
		if found < 0 || anyOf(ownerOf(r, i, jointWords+"|"+layerWords+"|"+stuffWords), jointWords) && !anyOf(ownerOf(r, found, jointWords+"|"+layerWords+"|"+stuffWords), jointWords) {
			found = i
		}
	}
	return found
}

// severalJoints adds up joints of several sizes, each with how many there are of it: 3 joints 900 × 20 and
// 2 of 600 × 20.
func severalJoints(r *speech.Reading) bool {
	counts := r.All("# .. #size")
	total, n := new(big.Rat), 0
	for _, c := range counts {
		at := c + 1
		for at < len(r.Items) && r.Items[at].Q == nil && at < c+4 {
			at++
		}
		if !r.Alone(c) || !r.Items[c].Q.Integer || !r.Free(at) || !joined(r, at, "×") || joined(r, at+2, "×") || !r.Free(at+2) {
			continue
		}
		if n > 0 || anyOf(textAt(r, c+1), jointWords) || anyOf(textAt(r, c+2), jointWords) {
			long, wide := r.Sized("length_mm", *r.Items[at].Q), r.Sized("width_mm", *r.Items[at+2].Q)
			if long.Num == nil || wide.Num == nil {
				return false
			}
			one := new(big.Rat).Mul(long.Num, wide.Num)
			total.Add(total, one.Mul(one, r.Items[c].Q.Value))
			n++
		}
	}
	if n < 2 {
		return false
	}
	m2, _ := measure.UnitNamed("m2")
	r.Put("area_m2", speech.Quantity{Kind: measure.KindArea, Unit: m2, Value: total.Quo(total, big.NewRat(1e6, 1))})
	for i := range r.Items {
		if r.Free(i) && (r.Items[i].Q.Bare() || r.Items[i].Q.Kind == measure.KindLength) {
			r.Claim(i)
		}
	}
	return true
}

// readGlueTotal reads a length that is that of all joints together, and numbers without a unit that stand
// beside an area and can be no size.
func readGlueTotal(r *speech.Reading) {
	for _, p := range []string{"# in =total|all", "# altogether|together|overall", "total|totalling|totaling|totals of? # ", "=total length|run of|is|:? #", "together|altogether|all are|make|come|is to? #length"} {
		for _, i := range r.All(p) {
			if q := r.Items[i].Q; q.Kind == measure.KindLength && !joined(r, i, "×") {
				r.Set("length_mm", i)
				r.Word("counted", allTogether)
				return
			}
		}
	}
	if len(r.All("#area")) == 0 {
		return
	}
	for i := range r.Items {
		if r.Free(i) && r.Alone(i) && !r.Items[i].Q.Integer {
			r.Claim(i)
		}
	}
}

// allTogether marks a length that is that of all joints.
const allTogether = "together"

// readJointCount reads how many joints there are where other things are counted beside them: 9 strips
// make 8 glue lines; 4 stiles, 2 edges each.
func readJointCount(r *speech.Reading) {
	const lines = "joint|joints|line|lines|glueline|gluelines|edge|edges|side|sides|end|ends|laps"
	for _, p := range []string{"# " + lines + " each ,|.|;|?|)", "# " + lines + " each $", "# " + lines + " apiece", "# " + lines + " per|on|to|a each|every? board|stile|rail|frame|panel|piece|leg|slat|shelf|one|tray|drawer"} {
		for _, i := range r.All(p) {
			if n, ok := thingsBeside(r, i); ok && r.Alone(i) && r.Items[i].Q.Integer {
				r.Put("quantity", speech.Quantity{Kind: speech.KindCount, Integer: true, Value: new(big.Rat).Mul(r.Items[i].Q.Value, r.Items[n].Q.Value)})
				r.Claim(i)
				r.Claim(n)
				return
			}
		}
	}
	for _, p := range []string{"# glue|bond|edge|face =lines|joints", "# =gluelines|glue-lines|joints", "=joints|gluelines|lines :|= #"} {
		for _, i := range r.All(p) {
			if q := r.Items[i].Q; q.Bare() && q.Integer && !r.Request.Has("quantity") && len(r.All("# =joints|gluelines|lines|glue-lines")) <= 1 {
				r.Set("quantity", i)
				if r.Request.Word("counted") == "layers" {
					r.Drop("counted")
				}
			}
		}
	}
	if i, ok := r.Find("# =ply|plies|strip|layer|board|stave lamination|panel|top|bow|laminate"); ok && !r.Request.Has("quantity") && r.Alone(i) && r.Items[i].Q.Integer && saidNumberAt(r, i) > 1 {
		r.Set("quantity", i)
		r.Word("counted", "layers")
	}
}

// thingsBeside finds another number that counts things than the one at item k.
func thingsBeside(r *speech.Reading, k int) (int, bool) {
	for _, i := range r.All("# oak|ash|sapele|larch|pine? =boards|stiles|rails|frames|panels|pieces|legs|slats|shelves|trays|drawers|battens|cleats|strips") {
		if i != k && r.Alone(i) && r.Items[i].Q.Integer {
			return i, true
		}
	}
	return 0, false
}
