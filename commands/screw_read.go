package commands

import (
	"math/big"
	"regexp"
	"strconv"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

// screwNames are how a screw is called in one word: M8 by its millimetres, no8 and no8s by its gauge.
var screwNames = regexp.MustCompile(`^(m|no)(\d{1,2})s?$`)

// readScrewWords reads the screws that are called by one word, and the length that stands behind: M8 × 100.
func readScrewWords(r *speech.Reading) {
	for i := range r.Items {
		found := screwNames.FindStringSubmatch(wordAt(r, i))
		if found == nil {
			continue
		}
		n, err := strconv.ParseInt(found[2], 10, 64)
		if err != nil {
			continue
		}
		need, q := "gauge", speech.Quantity{Kind: speech.KindGauge, Value: big.NewRat(n, 1), Integer: true}
		if found[1] == "m" {
			mm, _ := measure.UnitNamed("mm")
			need, q.Kind, q.Unit = "screw_mm", measure.KindLength, mm
		}
		r.Put(need, q)
		if textAt(r, i+1) == "×" && r.Free(i+2) {
			r.Set("screw_length_mm", i+2)
		}
		return
	}
}

// pluralScrews makes numbers of what was read as seconds or as a name, 4 × 50s and plank 24 on, and a
// gauge of 8's.
func pluralScrews(r *speech.Reading) {
	for i := range r.Items {
		if !r.Free(i) {
			continue
		}
		q := r.Items[i].Q
		if q.Kind == speech.KindLabel && q.Unit == nil && anyOf(textAt(r, i+1), joinWords) {
			q.Kind = measure.KindNumber // plank 24 on frame 45: no plank is numbered here
		}
		if before(r, i) == "×" && q.Unit != nil && q.Unit.Symbol == "s" {
			q.Unit, q.Kind = nil, measure.KindNumber
		}
		if q.Bare() && q.Integer && textAt(r, i+1) == "'" && textAt(r, i+2) == "s" && saidNumberAt(r, i) <= mostGauge {
			q.Kind = speech.KindGauge
		}
	}
}

// claimHoles sets aside what a hole measures that somebody drills or has drilled: is a 3 mm pilot all right.
func claimHoles(r *speech.Reading) {
	for _, p := range []string{"pilot|hole|holes|drill|drilled|bit|predrill hole|bit|depth|deep|size? of|is|at|with|to|:|a? # ", "# mm? pilot|hole|bit|drill", "# deep pilot|hole|holes"} {
		for _, i := range r.All(p) {
			deep := r.Says("depth|deep")
			if size := r.Sized("screw_mm", *r.Items[i].Q); size.Num == nil || size.Float() > screwThickest && !deep {
				continue
			}
			if _, wood := speciesWords.At(r.Sentence, i+1); wood == 0 && r.Items[i].Q.Kind != speech.KindGauge && !joined(r, i, "×") && !anyOf(textAt(r, i+1), "screw|screws|coach|lag|csk|countersunk|wood|brass|steel|stainless|gauge|thick|into|onto|on|through|mdf|ply|plywood|rail|board|batten|slat|diameter|dia|or|plugs|plug|pellets|pellet|bungs|x") {
				r.Claim(i)
			}
		}
	}
}

// Words that may stand between a number and the word that says where its piece is.
const (
	pieceWords = "a|an|the|my|our|of|thick|mm|piece|pieces|board|boards|boarding|cladding|lining|batten|battens|rail|rails|slat|slats|plank|planks|strip|cleat|stile|post|posts|joist|joists|stud|studs|frame|bearer|beam|ledger|leg|sheet|panel|shelf|top|stock|timber|wood|another|other"
	joinWords  = "on|onto|to|into|in|against"
)

// readHeldOn reads the two pieces on both sides of on, to, into or in, whatever the timbers between are
// called: oak 20 on oak 30, through a 24 oak board in a 44 oak post.
func readHeldOn(r *speech.Reading) {
	for k := range r.Items {
		if !anyOf(wordAt(r, k), joinWords) {
			continue
		}
		held, base := pieceSize(r, k, -1), pieceSize(r, k, 1)
		if held < 0 || base < 0 {
			continue
		}
		if !r.Request.Has("thickness_mm") {
			r.Set("thickness_mm", held)
		}
		if !r.Request.Has("into_mm") {
			r.Set("into_mm", base)
		}
		return
	}
}

// pieceSize finds the size of a piece next to item k, before or behind it, or gives -1.
func pieceSize(r *speech.Reading, k, step int) int {
	for i := k + step; i >= 0 && i < len(r.Items) && i >= k-6 && i <= k+6; i += step {
		if q := r.Items[i].Q; q != nil {
			s := r.Sized("thickness_mm", *q)
			if !r.Free(i) || !q.Bare() && q.Kind != measure.KindLength || q.High != nil || s.Num == nil || s.Float() < thinnestHeld || joined(r, i, "×") || joined(r, i-2, "×") || anyOf(textAt(r, i+1), "wide|long|high|tall|screw|screws|from|apart|centres") || r.Items[i].Q.Kind == speech.KindGauge {
				return -1
			}
			return i
		}
		if _, wood := speciesWords.At(r.Sentence, i); wood > 0 || anyOf(r.Items[i].Text, pieceWords) {
			continue
		}
		if _, sheet := baseWords.At(r.Sentence, i); sheet > 0 {
			continue
		}
		return -1
	}
	return -1
}

// thinnestHeld is the thinnest piece, in mm, that a bare number is believed to mean beside a screw's own size.
const thinnestHeld = 5

// readTopAndBehind reads "32 on top, 45 behind" and "22 board, 50 post".
func readTopAndBehind(r *speech.Reading) {
	set := func(need, pattern, not string) {
		for _, i := range r.All(pattern) {
			q := r.Items[i].Q
			if !r.Request.Has(need) && (q.Bare() || q.Kind == measure.KindLength) && !joined(r, i-2, "×") && !anyOf(textAt(r, i+2), not) {
				r.Set(need, i)
			}
		}
	}
	set("thickness_mm", "# on =top", "of")
	set("thickness_mm", "# in =front", "of")
	set("into_mm", "# behind|below|underneath|beneath|under", "the|a|an|edge|surface")
	if r.Says("# post|joist|stud|bearer|ledger|beam|leg") {
		set("thickness_mm", "# board|slat|cladding|lining|boarding|panel|sheet|strip|cleat|batten ,|;|.|/|and|+|&", "screw|screws")
	}
}

// readScrewCorrected reads the screw that somebody puts in the place of the one just said: a 6 mm screw,
// no wait, five.
func readScrewCorrected(r *speech.Reading) {
	for _, i := range r.All("screw|screws -|,|(|…? no|er|oh|um? ,? sorry|wait|mean|rather|that ,|-? a? # -|,|)|through|into|in|mm|.") {
		size := r.Sized("screw_mm", *r.Items[i].Q)
		if size.Num == nil || size.Float() <= 0 || size.Float() > screwThickest || r.Items[i].Q.Kind == speech.KindGauge {
			continue
		}
		r.Set("screw_mm", i)
		for _, k := range r.All("# screw|screws") {
			if k < i {
				r.Claim(k)
			}
		}
	}
}
