package commands

import (
	"math/big"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

// diagonalWords name diagonals.
const diagonalWords = "=diagonal|=diagonals|=diag|=diags"

// readNamedDiagonals reads diagonals that are named one by one, said to be alike, or said one way and the
// other. It says whether it did.
func readNamedDiagonals(r *speech.Reading) bool {
	readLetterHeight(r)
	claimDifference(r)
	pair := numberedDiagonals(r)
	if asksDiagonal(r) && lengths(r) <= 2 {
		return false
	}
	for _, i := range alikeDiagonals(r) {
		if !inSize(r, i) && r.Sized("diagonal_mm", *r.Items[i].Q).Num != nil {
			r.Put("diagonal2_mm", *r.Items[i].Q)
			r.Set("diagonal_mm", i)
			return true
		}
	}
	for _, i := range r.All(diagonalWords + " of|are|is|read|:|=? #") {
		if q := *r.Items[i].Q; q.High != nil { // diagonals 1394 - 1389
			second := q
			second.Value, second.High, q.High = q.High, nil, nil
			r.Put("diagonal_mm", q)
			r.Put("diagonal2_mm", second)
			r.Claim(i)
			return true
		}
	}
	if len(pair) != 2 {
		pair = diagonalPair(r)
	}
	if pair == nil {
		return false
	}
	r.Put("diagonal_mm", sharedUnit(r, pair, 0))
	r.Claim(pair[0])
	r.Set("diagonal2_mm", pair[1])
	return true
}

// numberedDiagonals finds what stands behind diagonal 1 and diagonal two, and sets aside those numbers.
func numberedDiagonals(r *speech.Reading) (found []int) {
	for i := range r.Items {
		if !anyOf(wordAt(r, i-1), "diagonal|diag") || r.Items[i].Q == nil || !r.Alone(i) || saidNumberAt(r, i) > 2 {
			continue
		}
		r.Claim(i)
		for k := i + 1; k <= i+2; k++ {
			if r.Free(k) {
				found = append(found, k)
				break
			}
		}
	}
	return found
}

// alikeDiagonals finds the number that both diagonals are said to have.
func alikeDiagonals(r *speech.Reading) []int {
	var out []int
	for _, p := range []string{
		"both|each|equal|same|identical|the? " + diagonalWords + " are|is|of|at|read|reads|measure|measures|:|=|come|came? out? to|at|both|each|equal|all? #",
		diagonalWords + " are|is|read|measure|come|came|: both|each|equal|identical|the|alike|same at|to|,|out|same? #",
		"# on|in|for? =both|each way|ways|diagonal|diagonals|diags|corners", "both|each ways|way corner? to? corner? is|are|reads|:|,? #",
	} {
		for _, i := range r.All(p) {
			if r.Says("both|each|equal|same|identical|alike") && !joined(r, i, "and|/|&|vs|;|,|-|×") && r.Free(i) {
				out = append(out, i)
			}
		}
	}
	return out
}

// diagonalPair finds two numbers that are named as the diagonals: diagonal: 1506; diagonal: 1509 · 1485 one
// way, 1479 the other · diagonals 1394/1389 beside the sides · 628 before, now 630 and 626.
func diagonalPair(r *speech.Reading) []int {
	for _, of := range []string{"of|is|was|reads|at", "a|b|one|two|no"} {
		named := r.All(diagonalWords + " " + of + "? :|=|,? # ")
		if len(named) == 2 && !inSize(r, named[0]) && !inSize(r, named[1]) && !joined(r, named[0], "and|/|&") && !joined(r, named[1], "and|/|&") {
			return named
		}
	}
	if one, other := append(r.All("# the? one way|diagonal"), r.All("# # way")...), r.All("# the|on|for? =other|t'other|tother|second|2nd"); len(one) == 1 && len(other) == 1 && one[0] != other[0] {
		return []int{one[0], other[0]}
	}
	if !r.Says(diagonalWords+"|diagonally") && !r.Says("corner to corner|corner") && !r.Says("across the? corners") || lengths(r) < 4 {
		return nil
	}
	for _, p := range []string{diagonalWords + " are|is|read|:|=|of|measure|measures|reads|measured? # - #length", diagonalWords + " are|is|read|:|=|of|measure|measures|reads|measured? #", "# across|corner", "# diagonally"} {
		for _, i := range r.All(p) {
			at := i
			if joined(r, i-2, "×") {
				at = i - 2
			}
			if joined(r, at, "×|-") && r.Free(at) && r.Free(at+2) && nearlyEqual(r, at, at+2) && !joined(r, at+2, "×") {
				return []int{at, at + 2}
			}
		}
	}
	for _, i := range r.All("now|today # and|/|&|, #") {
		if joined(r, i, "and|/|&|,|×") && r.Free(i+2) && nearlyEqual(r, i, i+2) {
			return []int{i, i + 2}
		}
	}
	return nil
}

// nearlyEqual says whether two numbers differ by so little as diagonals of one opening may: a twentieth.
func nearlyEqual(r *speech.Reading, a, b int) bool {
	x, y := r.Sized("diagonal_mm", sharedUnit(r, []int{a, b}, 0)), r.Sized("diagonal_mm", *r.Items[b].Q)
	if x.Num == nil || y.Num == nil || x.Num.Sign() <= 0 {
		return false
	}
	ratio := new(big.Rat).Quo(y.Num, x.Num)
	return ratio.Cmp(big.NewRat(20, 21)) >= 0 && ratio.Cmp(big.NewRat(21, 20)) <= 0
}

// readLetterHeight reads W 812 H 1760, where the H stands behind a number as hours do.
func readLetterHeight(r *speech.Reading) {
	for i := range r.Items {
		if !r.Free(i) || r.Items[i].Q.Unit == nil || r.Items[i].Q.Unit.Symbol != "h" || wordAt(r, i-1) != "width" || !r.Free(i+1) {
			continue
		}
		wide := *r.Items[i].Q
		wide.Unit, wide.Kind = nil, measure.KindNumber
		r.Put("width_mm", wide)
		r.Claim(i)
		r.Set("height_mm", i+1)
	}
}

// claimDifference sets aside how much the diagonals differ, and asks what one of them reads where none is
// told.
func claimDifference(r *speech.Reading) {
	for _, p := range []string{diagonalWords + " differ|differing|differs|are|is|off|out out|off|different? by #", diagonalWords + " are|is|come? # apart|different|out|off", "# difference|differing between|in|on|of the|my|our? " + diagonalWords, "difference of|is # .. " + diagonalWords, diagonalWords + " .. difference of|is|: #"} {
		for _, i := range r.All(p) {
			r.Claim(i)
			if lengths(r) <= 3 {
				r.Question = &speech.Question{Text: "What does one of the diagonals read? Their difference alone goes with any size.", Need: "diagonal_mm"}
			}
		}
	}
}
