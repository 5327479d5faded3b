package commands

import (
	"errors"
	"fmt"
	"math/big"
	"strings"

	"fettle/calc/layout"
	"fettle/calc/measure"
	"fettle/commands/speech"
)

var endWords = speech.NewVocabulary("ends", map[string][]string{
	"flush": {"flush with the ends", "hard against the ends", "tight to the ends", "outer two flush", "flush at both ends", "flush to the ends",
		"hard at both ends", "touching the ends", "right at the ends", "at the very ends", "hard up against", "hard against", "at each end", "ends covered", "hard up to the edges", "hard up to the ends", "hard up to the sides", "right up to the ends", "right up to the edges", "tight up to the ends", "tight up to the edges", "tight against the ends", "tight to the sides", "tight to the edges", "against the ends", "butting the ends", "flush with the edges", "flush to the edges", "flush with the sides",
		"up against the ends", "start and finish with", "starting and ending with", "no gap at the ends", "no gaps at the ends", "without gaps at the ends", "outermost at the ends"},
	"equal": {"same gap at both ends", "equal gaps at the ends", "gap at both ends", "gaps at both ends", "equal at the ends", "same at the ends", "ends the same", "gap at each end", "ends too", "end gaps the same", "ends as well", "edges as well", "sides as well", "at the ends too", "sides too", "walls too", "edges too", "incl at the walls", "incl the ends", "incl at the ends", "incl . at the walls", "incl . at the ends", "including at the walls", "including at the ends", "at the walls as well", "also at the ends", "also at both ends", "and at the walls", "ends included", "two ends included", "including the ends", "including the two ends", "including both ends", "at the two ends"},
})

// mostSpaces is up to which number "910 equal gaps" counts the gaps; a larger one is a length that was named
// just before them. Common practice, no source.
const mostSpaces = 100

func spacing() *Topic {
	return &Topic{
		Title:    "even spacing, as running measures from one end",
		Examples: []string{"5 holes along 880, 40 in from each end", "9 mugs 84 wide in 860", "6 slats 95 wide over 640, the outer two flush"},
		Form: speech.Form{
			Name: "spacing", Exact: true,
			Cues: []speech.Cue{
				{Weight: 5, Pattern: "set|lay|mark out # .. over|along|across|in|on|between"},
				{Weight: 3, Pattern: "# equal|even? =spaces|gaps|divisions"},
				{Weight: 3, Pattern: "every # along|over|across|from"},
				{Weight: 5, Pattern: "space|spaced|spacing|spread|distribute|divide|spacings"},
				{Weight: 4, Pattern: "# in? from|at|on each|either|both|the|every end|ends"},
				{Weight: 4, Pattern: "first and? last|outer|outermost|ones? .. #"},
				{Weight: 4, Pattern: "outer|outermost|end|last ones|two|one .. from the|each end|ends"},
				{Weight: 2, Pattern: "how far|close apart|from|centre|center"},
				{Weight: 3, Pattern: "equal|even|evenly|equally|same gap|gaps|spaced|spacing|distance|distances"},
				{Weight: 3, Pattern: "evenly|equally|equidistant|pitch|centres|centers|equispaced"},
				{Weight: 4, Pattern: "# .. wide in|into|over|across|along|between|within|on a? #"},
				{Weight: 4, Pattern: "# .. along|over|across|between|into|in a|the? #"},
				{Weight: 3, Pattern: "what|which gap|gaps|spacing|pitch|interval|centres"},
				{Weight: 3, Pattern: "gap|gaps|apart between|for"},
				{Weight: 2, Pattern: "where .. drill|holes|pegs|hooks|screws|slats|go"},
				{Weight: 2, Pattern: "holes|hooks|pegs|slats|mugs|dowels|pins|screws|plugs|spindles|balusters|battens|rungs|cups|bars|posts|knobs|nails|rails|jars|plates|hangers|brackets|shelves|fixings"},
				{Weight: 1, Pattern: "each|either|both end|ends"},
				{Weight: 1, Pattern: "fit|fits|gap|gaps|apart"},
				{Weight: -4, Pattern: "clamp|clamps|cramp|cramps"},
				{Weight: -6, Pattern: "#size"},
				{Weight: -3, Pattern: "pilot|counterbore"},
				{Weight: -7, Pattern: "load|weight .. spread|evenly"},
				{Weight: -8, Pattern: "is|was|are it|this|that|they|she|everything =square"},
				{Weight: -8, Pattern: "^ good? =evening|=evenings"},
				{Weight: -7, Pattern: "spread|even .. load|weight"},
				{Weight: -3, Pattern: "ends? =fixed|clamped|rigid|free|resting"},
				{Weight: -3, Pattern: "=fixed|clamped|rigid|free|resting ends"},
				{Weight: -4, Pattern: "rough|sawn|volume|weigh|cost|price|board feet|foot"},
				{Weight: -4, Pattern: "glue|epoxy|pva|polyurethane|varnish|oil"},
				{Weight: -4, Pattern: "radius|chord|mitre|miter|diagonal|diagonals|opening|acrylic|sag|movement|move|plies|laminate|compound|slope"},
				{Weight: -3, Pattern: "add|bought|got|drop|change|put"},
			},
			Needs: []speech.Need{
				{Name: "quantity", Kind: speech.KindCount, Label: "quantity", Min: 1, Max: 1000,
					Roles: []string{"# holes|hooks|pegs|slats|mugs|dowels|pins|screws|plugs|spindles|balusters|battens|rungs|cups|bars|posts|knobs|nails|jars|plates|hangers|brackets|shelves|fixings|points|divisions",
						"=" + setOutThings + " :|= #", "number|no|qty|quantity|count of " + setOutThings + " :|=|is? #", "qty|quantity|count|number :|=|of? #"}},
				{Name: "span_mm", Kind: measure.KindLength, Label: "span", Min: 30, Max: 20000,
					Roles: []string{"# between|inside the|two|its|my|our? posts|walls|cheeks|uprights|jambs|sides|stiles|ends|rails", "posts|walls|cheeks|uprights|jambs|sides|stiles|ends # apart", "posts|walls|cheeks|uprights|jambs .. # apart", "along|over|across|between|within|into|in a|an|the|my|our? # ", "# =long|rail|board|span|length|opening|wall|batten|run|shelf|side|strip|bar|piece|total|overall|stile|rack|plank|beam|space", "on a|an|the|our # ", "a|an|the|my|our # =batten|lath|cleat|strip|rail|board|pole|plank", "opening|wall|board|rail|frame|width|length|space of # ", "span|length of|is|: #", "in|to fill # $", "# from? =end|wall|side|post to =end|wall|side|post", "span #", "along # long?", "=rail|board|batten|strip|lath|plank is|of|:|=? #", "total|overall length|width? of|is? #",
						"clear|total|overall|inside|full|whole distance|width|length|run|opening|height|space of|is|:|=? #", "# clear|inside|overall height|width|length|opening|distance"}},
				{Name: "end_mm", Kind: measure.KindLength, Label: "end distance", Min: 0, Max: 5000,
					Roles: []string{"# .. from|off each|either|both|the|every end|ends|edge|edges|side", "# in? from the? left|right|top|bottom|near|far end|ends|side|edge|one", "outer|outermost|end|last ones|two|one # ", "# in? from|off|at each|either|both|the|every end|ends|edge|edges|side|sides", "# of|from|off|at|to each|either|both|the extremity|extremities|tip|tips|border|borders|extreme|extremes", "from|at the|both|each border|borders|extremity|extremities|tips|=ends|edges of|by|:? #", "first .. # in? from|off", "# in at|from each|either|both", "# from|off|at ends|end", "# end distance|margin|margins", "ends? margin|margins|distance of|is? #", "=ends #", "first|last|outer|outermost .. # in|from", "first|last|outer|outermost .. # of|off|to the? =end|ends", "# in|inside each|either|both end|ends|side|sides", "=ends|end|margin|margins|inset|setback :|= #", "start|starting # in|from", "# in $", "# margin|clear|each at|end|each|either end|ends?",
						"# left|clear|free|spare over? at|on each|either|both|the end|ends|side|sides", "distance|gap|space|margin to|from|at the|each|either|both? border|edge|edges|end|ends|side|wall is|of|are|be|:|=? #", "# on both|each|either side|sides"}},
				{Name: "item_mm", Kind: measure.KindLength, Label: "width of one", Min: 1, Max: 2000,
					Roles: []string{"# wide|width|broad|across|diameter|dia|ø", "=" + setOutThings + " wide|broad #", "each|all # wide|across|broad", "width|diameter of? #", "# thick|thickness", "with|of #length =slats|battens|bars|rails|rungs|spindles|boards|strips", "#length =slats|battens|bars|rungs|spindles|balusters|strips", "# square|sq", "# per piece"}},
				{Name: "pitch_mm", Kind: measure.KindLength, Label: "pitch", Min: 1, Max: 5000,
					Roles: []string{"every|each # ", "# apart", "# =centres|centers|centre|center|pitch|spacing", "=pitch|spacing|centres of|at|is? #", "at # centres|centers", "# on|between centres|centers", "# c / c", "# c - c", "# o / c", "# oc|ctrs|ctr|crs|cc|c2c", "# centre|center to|- centre|center"}},
				{Name: "most_gap_mm", Kind: measure.KindLength, Label: "widest gap", Min: 1, Max: 5000,
					Roles: []string{"gap|gaps .. most|than|above|max|maximum # ", "no|none|not|never .. gap|gaps .. over # ", "gap|gaps not|never over #", "no|none|never .. over|above|than #", "most|max|maximum # between|apart|gap", "no gap over|above|wider|bigger than? #", "no|not more than # apart|between|gap"}},
				{Name: "ends", Kind: speech.KindWord, Label: "ends", Vocab: endWords},
			},
			Sizes:  []string{"span_mm"},
			After:  needSpan,
			Before: readSpacing,
		},
		Answer: answerSpacing,
	}
}

// rowWords are what a row stands in: their width is what is divided.
const rowWords = "opening|frame|wall|door|panel|shelf|space|gap|bay|alcove|recess|doorway|window|hatch|box|tray|drawer"

// setOutWords are what stands in a row.
const setOutWords = "holes|hooks|pegs|slats|slat|mugs|mug|dowels|pins|screws|plugs|spindles|spindle|balusters|baluster|battens|rungs|cups|cup|bars|bar|posts|post|knobs|nails|rails|jars|jar|plates|hangers|brackets|shelves|boards|strips|each|one|ones"

// readSpacing reads what only words around the numbers tell: how many there are of those at hand,
// and which sizes are those of the board and not of the things.
func readSpacing(r *speech.Reading) {
	outerFlush(r)
	claimAsides(r)
	readOnly(r)
	claimDrill(r)
	readThings(r)
	readRowStock(r)
	if bounds := "post|posts|wall|walls|cheek|cheeks|upright|uprights|jamb|jambs|newel|newels"; r.Says("between|inside the|two|its|my? newel? " + bounds) {
		claimSizesOf(r, bounds, setOutWords, "wide|thick|deep|high|tall|square")
	}
	readFromBoth(r)
	readRow(r)
}

// readFromBoth reads an end distance that is said of one end and of the other, or of both in one:
// 80 from the top and 80 from the bottom. Of one end alone it may be anything's place; two that
// differ are asked about.
func readFromBoth(r *speech.Reading) {
	const ends = "=top|bottom|foot|left|right|t'top|t'bottom|t'left|t'right|left-hand|right-hand|head"
	if i, ok := r.Find("# in? from|off|at|to|of the? " + ends + " and|&|n|or the? " + ends); ok {
		r.Set("end_mm", i)
		return
	}
	all := r.All("# in|up|down? from|off|to the? " + ends)
	if len(all) != 2 {
		return
	}
	first, second := r.Sized("end_mm", *r.Items[all[0]].Q), r.Sized("end_mm", *r.Items[all[1]].Q)
	if first.Num == nil || second.Num == nil {
		return
	}
	if first.Num.Cmp(second.Num) != 0 {
		r.Question = &speech.Question{Text: "The end distances differ, and I space a row with the same at both ends. Which one is it?", Need: "end_mm"}
	}
	r.Set("end_mm", all[0])
	r.Claim(all[1])
}

// claimDrill sets aside how thick holes are: they are marked by their centres.
func claimDrill(r *speech.Reading) {
	for _, p := range []string{"holes|hole of? dia|diameter|ø|drill|bit of|is|:|=? #", "dia|diameter|ø of|is|:|=? # mm? holes|hole", "# dia|diameter|ø holes|hole", "#length holes|hole"} {
		for _, i := range r.All(p) {
			r.Claim(i)
		}
	}
}

// readOnly reads how many are to be set out, where more are at hand: only 6 of them.
func readOnly(r *speech.Reading) {
	for _, p := range []string{"only|just # of|go|goes|fit|fits|stay|will|can|are|on|in|to", "only|just want|need|using|use|hang|fit|put|have # of|on|in|along|across|up|there|here", "# go|goes|belong on|in|along|across|here|this|that", "use|using|hang|take # of them|these|those",
		"it's|that's|leaves|makes|we've|i've # .. now|left", "=" + setOutThings + " , now only|just? #", "now only|just? # ,|each|of|instead"} {
		for _, i := range r.All(p) {
			if q := r.Items[i].Q; !r.Request.Has("quantity") && q.Bare() && q.Integer {
				r.Set("quantity", i)
				return
			}
		}
	}
}

// readRow sets aside the section of the board, and takes the width of an opening for the span
// where no length was said.
func readRow(r *speech.Reading) {
	for i := range r.Items {
		if !r.Free(i) || !sizeWord(textAt(r, i+1)) || anyOf(textAt(r, i+1), "long|length") {
			continue
		}
		of := ownerOf(r, i, stuffWords+"|"+rowWords+"|"+setOutWords)
		switch {
		case of == "" || severalOf(r, of) || anyOf(of, setOutWords):
		case anyOf(textAt(r, i+1), "thick|thickness|deep") || anyOf(of, stuffWords):
			r.Claim(i)
		case !anyOf(textAt(r, i+1), "wide|width|across|broad"):
		case r.Request.Has("span_mm") || r.Says("# =long") || r.Says("along|over|between|within a|an|the? #"):
			r.Claim(i)
		default:
			r.Set("span_mm", i)
		}
	}
}

// severalOf says whether a thing is also named in the plural: then it is what is set out.
func severalOf(r *speech.Reading, thing string) bool {
	return r.Says("=" + thing + "s|=" + strings.TrimSuffix(thing, "f") + "ves")
}

// outerFlush reads that the outermost things touch the ends, and spaces that are counted in
// place of the things between them.
func outerFlush(r *speech.Reading) {
	if i, ok := r.Find("# equal|even? =spaces|gaps|divisions"); ok && r.Alone(i) && saidNumberAt(r, i) <= mostSpaces { // one thing fewer than spaces
		q := *r.Items[i].Q
		q.Value = new(big.Rat).Sub(q.Value, big.NewRat(1, 1))
		r.Put("quantity", q)
		r.Word("ends", "equal")
		r.Claim(i)
		return
	}
	if r.Says("flush") || r.Says("hard|tight|right|up against|to|at the|both|each end|ends") || r.Says("one|slat|piece at|on each|either|both end") {
		r.Word("ends", "flush")
	}
}

// needSpan asks for what a row needs: along what, and how many or how far apart. A row
// cannot have both of two figures that fix the number.
func needSpan(r *speech.Reading) {
	readInFromEnds(r)
	askWhichFigure(r)
	r.AskFor("span_mm", "Along what length?", "span_mm")
	r.AskFor("quantity", "How many of them, or how far apart?", "quantity", "pitch_mm", "most_gap_mm")
}

func answerSpacing(a *Ask) Answer {
	out := a.Out()
	s := layout.Spacing{}
	s.Span, _ = a.Length("span_mm")
	s.Item, _ = a.Length("item_mm")
	s.Pitch, _ = a.Length("pitch_mm")
	s.MostGap, _ = a.Length("most_gap_mm")
	if _, said := a.Float("quantity"); said {
		s.Count = a.Count()
	}
	ends := a.ends(&s)
	row, err := s.Row()
	var tight *layout.TooTightError
	if errors.As(err, &tight) {
		return ask(capital(strings.TrimSuffix(err.Error(), ".")) + ". How many, or how wide?")
	}
	if err != nil {
		return ask(err.Error())
	}
	ans := say(a.spacingHeadline(out, row))
	ans.Values["pitch_mm"], ans.Values["gap_mm"] = row.Pitch.MM(), row.Gap.MM()
	ans.Values["positions_mm"] = millimetres(row.Centres)
	if s.Item > 0 {
		ans.Values["starts_mm"] = millimetres(row.Starts)
		ans.line("Near edges from one end: " + running(out, row.Starts))
	}
	ans.line("Centres from one end: " + running(out, row.Centres))
	ans.line(ends + " Mark all from the one end, so that errors don't add up.")
	ans.because(spacingSum(out, s, row), "Geometry; every position is measured from the one end and rounded once.")
	return ans
}

// spacingSum writes the gap as a sum, by what happens at the ends.
func spacingSum(out measure.System, s layout.Spacing, row layout.Row) string {
	things, gaps, margin := "", row.Count-1, ""
	if s.Item > 0 {
		things = fmt.Sprintf(" − %d × %s", row.Count, out.Exact(s.Item))
	}
	switch {
	case s.Pitch > 0:
		return fmt.Sprintf("%s apart as you said: %d of them take %s of %s, and the rest is left at the ends.", out.Exact(s.Pitch), row.Count, out.Exact(row.Centres[row.Count-1]-row.Centres[0]+s.Item), out.Exact(s.Span))
	case s.Ends == layout.MarginEnds:
		margin = fmt.Sprintf(" − 2 × %s", out.Exact(s.End))
	case s.Ends == layout.EqualEnds:
		gaps = row.Count + 1
	}
	if gaps < 1 {
		return fmt.Sprintf("One of them stands in %s, with nothing to divide.", out.Exact(s.Span))
	}
	sum := fmt.Sprintf("Gap = (%s%s%s) / %d = %s", out.Exact(s.Span), margin, things, gaps, out.Exact(row.Gap))
	if s.Item > 0 {
		sum += fmt.Sprintf("; pitch = gap + %s = %s", out.Exact(s.Item), out.Exact(row.Pitch))
	}
	if s.MostGap > 0 && s.Count == 0 {
		sum += fmt.Sprintf("; %d is the fewest with no gap over %s", row.Count, out.Exact(s.MostGap))
	}
	return sum + "."
}

// ends settles what happens at the ends and says it.
func (a *Ask) ends(s *layout.Spacing) string {
	margin, said := a.Length("end_mm")
	switch {
	case said:
		s.Ends, s.End = layout.MarginEnds, margin
		if s.Item > 0 {
			return "The end distance is to the first near edge."
		}
		return "The end distance is to the first centre."
	case a.Word("ends") == "flush":
		s.Ends = layout.FlushEnds
		return "The outermost touch the ends."
	case a.Word("ends") == "equal":
		return "The gaps at both ends equal the others."
	}
	return "The ends were not said: the gaps there equal the others."
}

func (a *Ask) spacingHeadline(out measure.System, row layout.Row) string {
	head := fmt.Sprintf("%d at %s centres", row.Count, out.Text(row.Pitch, measure.Nearest))
	if a.Has("item_mm") {
		head = fmt.Sprintf("Gap %s, pitch %s, %d in all", out.Text(row.Gap, measure.Nearest), out.Text(row.Pitch, measure.Nearest), row.Count)
	}
	if row.Count == 1 {
		head = "One, with its centre at " + out.Text(row.Centres[0], measure.Nearest)
	}
	return head
}

func millimetres(ls []measure.Length) []float64 {
	out := make([]float64, len(ls))
	for i, l := range ls {
		out[i] = l.MM()
	}
	return out
}

// mostListed bounds the positions that are listed in the text.
const mostListed = 60

func running(out measure.System, ls []measure.Length) string {
	parts := make([]string, 0, len(ls))
	for i, l := range ls {
		if i == mostListed {
			parts = append(parts, fmt.Sprintf("… (%d more)", len(ls)-i))
			break
		}
		parts = append(parts, out.Number(l, measure.Nearest))
	}
	return strings.Join(parts, " · ") + " " + string(out)
}
