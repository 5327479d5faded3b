package commands

import (
	"fmt"
	"maps"
	"math/big"
	"regexp"
	"slices"
	"strings"

	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/commands/tables"
	"fettle/store"
)

// partNouns are what pieces of a fit-out are called.
const partNouns = "rail|rails|stile|stiles|slat|slats|batten|battens|cleat|cleats|trim|trims|ledge|ledger|ledgers|bearer|bearers|panel|panels|muntin|muntins|leg|legs|side|sides|end|ends|shelf|shelves|apron|aprons|lip|lips|post|posts|bow|bows|architrave|part|parts|piece|pieces|lath|laths|strip|strips|top|tops|drawer|frame|frames|head|sill|jamb|jambs|brace|braces|bead|beads|plug|runner|runners|support|supports|divider|dividers"

func part() *Topic {
	needs := append(partNeeds(shortestPart),
		speech.Need{Name: "size_mm", Kind: measure.KindLength, Label: "now", Max: longestPart},
		speech.Need{Name: "name", Kind: speech.KindWord, Label: "part", Own: true},
		speech.Need{Name: "group", Kind: speech.KindWord, Label: "for", Own: true},
		speech.Need{Name: "action", Kind: speech.KindWord, Own: true},
		speech.Need{Name: "new_name", Kind: speech.KindWord, Label: "called", Own: true},
	)
	return &Topic{
		Title:    "the list of parts: add, change, drop, by sentences or a pasted list",
		Examples: []string{"add 6 rack slats 830 x 70 x 22 oak", "put 2 stiles 1720 x 92 x 40 and 3 rails 640 x 92 x 40 on the list", "add 4 bench slats 1150 x 58 x 20 larch for the bench"},
		Form: speech.Form{
			Name: "part", Cues: partCues, Needs: needs, Sizes: []string{"length_mm", "width_mm", "thickness_mm"},
			Writes: true, Before: readPart, After: needPart, Evidence: listOfParts,
		},
		Answer: answerPart,
	}
}

var partCues = []speech.Cue{
	{Weight: 6, Pattern: "add|put|write|jot|enter .. #size"},
	{Weight: 5, Pattern: "^ add|put down? # .. #"},
	{Weight: 5, Pattern: "^ add a|an|another|some|the .. " + partNouns},
	{Weight: 6, Pattern: "#size .. for|on|onto|to the|our|my? =parts? list"},
	{Weight: 5, Pattern: "need|needs|want|make also? # .. #size"},
	{Weight: 4, Pattern: "need|needs|want .. #size .. too|also|please"},
	{Weight: 1, Pattern: "# .. " + partNouns + " .. #size"},
	{Weight: 1, Pattern: partNouns + " #size"},
	{Weight: 3, Pattern: "^ parts|part|list|cutlist : .. #size"},
	{Weight: 3, Pattern: "^ and|plus|also # " + partNouns + " #size"},
	{Weight: 6, Pattern: "^ add|take|read|enter|use|here|here's|heres|this .. list|csv|file|parts|these"},
	{Weight: 6, Pattern: "parts|part|cutlist|cutting . csv|tsv|txt"},
	{Weight: 6, Pattern: "change|alter|correct|resize|update the|all|both|those|them|it .. #"},
	{Weight: 6, Pattern: "put|set|change them|it|the|those .. back to #"},
	{Weight: 5, Pattern: "make|cut|set the|all|both|those .. " + partNouns + " .. #"},
	{Weight: 5, Pattern: partNouns + " should|must|need|needs|has|have to? be .. #"},
	{Weight: 5, Pattern: partNouns + " is|are now|only|really # "},
	{Weight: 6, Pattern: "lengthen|shorten|widen|narrow|thicken the|all|both .. #"},
	{Weight: 7, Pattern: "rename|call the|it|that .. to|: .."},
	{Weight: 7, Pattern: "^ drop|remove|delete|lose|strike|bin the|our|both|all|those|every .."},
	{Weight: 9, Pattern: "take|strike|cross|remove|drop|delete .. off|from|out the|my|our? =parts? list"},
	{Weight: 7, Pattern: "don't|dont|no need|want the|those .. any more|longer|anymore"},
	{Weight: 30, Pattern: "what|whatever happened to|with the|our|my .. " + partNouns},
	{Weight: 14, Pattern: "story|life of the|our|my|a .."},
	{Weight: -20, Pattern: "kerf|blade|allowance|allowances|glue|temperature|unit|units|project|minimum|radius|chord|note|notes|setting|timer"},
	{Weight: -20, Pattern: "drop|remove|delete|strike|bin .. last|change|entry|just|said|wrote"},
	{Weight: -8, Pattern: "rough|raw|sawn|weight|weigh|weighs|volume|cost|price|feet|how|clamps|screw|screws|pilot|glue|hold|sag|move|shrink|swell|convert|gap|spacing|degrees"},
	{Weight: -8, Pattern: "board|boards|plank|planks|sheet|sheets|offcut|stock"},
	{Weight: -8, Pattern: "^ what|which|how|who|when|where|did|does|do|is|are|was|why|if"},
	{Weight: -6, Pattern: "opening|measured|measures|measure|drop boards"},
	{Weight: -8, Pattern: "door|doors|rack|bookcase|trim .. opening|shelves|square|mitred"},
	{Weight: -8, Pattern: "make the parts"},
	{Weight: -8, Pattern: "note|remember|remind :"},
}

// listOfParts says whether the lines of a message are a list of parts.
func listOfParts(s speech.Sentence) int {
	if !strings.ContainsAny(s.Raw, "\n\t") {
		return 0
	}
	if _, found, _ := tables.Pasted(s.Raw); found && !s.Says("price|prices|stock|boards") {
		return 5
	}
	sized := 0
	for _, l := range strings.Split(s.Raw, "\n") {
		if line := speech.Read(l); chains(line) > 0 || sizedByWords(line) {
			sized++
		}
	}
	if sized < 2 {
		return 0
	}
	return 4
}

// sizedByWords says whether a sentence tells a size in words: 742 long, 38 wide and 16 thick.
func sizedByWords(s speech.Sentence) bool { return s.Says("# long .. # wide") }

// chains counts the sizes of several numbers in a sentence.
func chains(s speech.Sentence) int { return len(chainStarts(s.Items)) }

// chainStarts finds the first number of each size of several numbers.
func chainStarts(items []speech.Item) (starts []int) {
	for i := range items {
		if items[i].Text == "×" && i > 0 && (i < 3 || items[i-2].Text != "×") && i+1 < len(items) && items[i+1].Q != nil {
			start := i - 1
			for start > 0 && items[start].Q == nil {
				start--
			}
			if items[start].Q != nil && !slices.Contains(starts, start) && (start < 1 || items[start-1].Text != "×") {
				starts = append(starts, start)
			}
		}
	}
	return starts
}

// readPart finds out what is to be done, and to which part or parts.
func readPart(r *speech.Reading) {
	switch {
	case r.Says("what|whatever happened to|with") || r.Says("story|life of"):
		r.Word("action", "story")
		r.Word("name", restBehind(r, "happened to|with the?|our?|my?", "story|life of the?|our?|my?"))
	case r.Says("rename|call .. to|:"):
		readRename(r)
	case r.Says("^ drop|remove|delete|lose|strike|bin|cross|take") && chains(r.Sentence) == 0 || r.Says("don't|dont|no need|want the|those .. any|longer|anymore"):
		r.Word("action", "drop")
		r.Word("name", nameIn(r, 0, len(r.Items)))
		claimAll(r)
	case strings.Contains(strings.TrimSpace(r.Raw), "\n") || strings.Contains(r.Raw, "\t"):
		readList(r)
	case r.Says("change|alter|correct|resize|update|put|set|make|cut|lengthen|shorten|widen|should|must|needs|is|are .. #") && chains(r.Sentence) == 0 && !r.Says("^ add|put down") && addsAt(r) < 0:
		readChange(r)
	case len(chainStarts(r.Items)) > 1:
		readSeveral(r)
	default:
		readOne(r)
	}
}

// restBehind gives what stands behind one of the patterns, as it was typed.
func restBehind(r *speech.Reading, patterns ...string) string {
	for _, p := range patterns {
		if _, end, ok := r.Stands(p); ok {
			return r.Rest(end)
		}
	}
	return ""
}

func readRename(r *speech.Reading) {
	from, _, _ := r.Stands("rename|call")
	to, end, ok := r.Stands("to|:")
	if ok && to > from {
		r.Word("action", "change")
		r.Word("name", nameIn(r, from+1, to))
		r.Word("new_name", r.Rest(end))
	}
	claimAll(r)
}

// readChange reads which part gets which new size.
func readChange(r *speech.Reading) {
	r.Word("action", "change")
	end := len(r.Items)
	for i := range r.Items {
		w := r.Items[i].Text
		if r.Items[i].Q != nil && i > 0 && before(r, i) != "the" || i > 0 && (w == "to" || w == "should" || w == "must" || w == "is" || w == "are" || w == "from" || w == "back" || w == "now" || w == "need" || w == "needs") {
			end = i
			break
		}
	}
	r.Word("name", nameIn(r, 0, end))
	for i := range r.Items {
		if r.Free(i) && i < end { // the 612 rail
			r.Claim(i)
		}
	}
	if i, ok := r.Find("from # to|into #"); ok { // what it was
		r.Claim(i)
	}
	var bare []int
	for i := range r.Items {
		if r.Free(i) && (r.Items[i].Q.Bare() || r.Items[i].Q.Kind == measure.KindLength) {
			bare = append(bare, i)
		}
	}
	if len(bare) == 1 && !r.Says("# long|wide|thick|tall|broad") && !r.Says("=length|=width|=thickness") && !r.Says("# of them|off|pieces|pcs") {
		r.Set("size_mm", bare[0])
	}
}

// readOne reads the name of one part and what it is for; its numbers are read as those of any
// piece.
func readOne(r *speech.Reading) {
	if _, count, why := countBehind(r.Sentence); count != nil || why != "" {
		readCounted(r, why)
		return
	}
	if chains(r.Sentence) > 0 || r.Says("^ add|need|put") || addsAt(r) >= 0 {
		r.Word("action", "add")
	}
	leaveAside(r)
	it := r.Item(r.Sentence)
	nameOf(r, it)
}

// addsAt is the item at which a message says that something is to be added, or -1.
func addsAt(r *speech.Reading) int {
	for _, p := range []string{"add|put #", "add a|an|another|some", "put a|an|another on the? list"} {
		if i, _, ok := r.Stands(p); ok {
			return i
		}
	}
	return -1
}

// smallNumber is up to which a number beside no word of size is never one of a part, in whatever unit
// people work: five o'clock, the six mugs.
const smallNumber = 12

// leaveAside claims the numbers that are those of a story: what stands before "add", a score, and small
// ones that neither count nor measure.
func leaveAside(r *speech.Reading) {
	add := addsAt(r)
	if add < 0 && chains(r.Sentence) == 0 {
		return
	}
	for i := range r.Items {
		q := r.Items[i].Q
		by := i > 1 && r.Items[i-1].Text == "×" && r.Items[i-2].Q == nil && dimensionOf(r.Items[i-2].Text) == "" // by five
		if !r.Free(i) || q.Value == nil || !r.Alone(i) && !by {
			continue
		}
		small := q.Value.Cmp(big.NewRat(smallNumber, 1)) <= 0 && q.High == nil
		score := q.High != nil && q.High.Cmp(q.Value) < 0
		if anyOf(before(r, i), "quantity|qty|pieces|pcs|count|number|times") {
			continue
		}
		spoken := i+1 < len(r.Items) && isLetters(r.Items[i+1].Text)
		if i < add && chains(r.Sentence) == 0 || score || small && !spoken && dimensionOf(before(r, i)) == "" || small && strings.Contains(" at until till the before after ", " "+before(r, i)+" ") && dimensionOf(wordAt(r, i+1)) == "" {
			r.Claim(i)
		}
	}
}

// readCounted reads one part of which the number stands behind its sizes.
func readCounted(r *speech.Reading, why string) {
	it, _ := readItem(r, r.Sentence)
	claimAll(r)
	r.Request.Items = nil
	maps.Copy(r.Request.Slots, it.Request.Slots)
	r.Word("action", "add")
	if why != "" {
		r.Question = &speech.Question{Text: "That " + why}
	}
}

// nameOf gives a reading the name and the group that an item's words say.
func nameOf(to, it *speech.Reading) {
	if g, from, end := groupIn(it); g != "" {
		to.Word("group", g)
		for i := from; i < end; i++ {
			it.Claim(i)
		}
	}
	first := len(it.Items)
	for i := range it.Items {
		if it.Items[i].Q != nil && it.Used(i) && it.Items[i].Q.Kind != speech.KindCount && !saysHowMany(it, i) {
			first = i
			break
		}
	}
	for i := 0; i+1 < len(it.Items) && i < first && !it.Request.Has("quantity"); i++ { // 4 drawer sides
		if it.Free(i) && it.Alone(i) && it.Items[i].Q.Integer && isLetters(it.Items[i+1].Text) && before(it, i) != "the" {
			it.Set("quantity", i)
			if to != it {
				to.Set("quantity", i)
			}
		}
	}
	start := 0
	if add := addsAt(it); add >= 0 && add < first {
		start = add
	}
	for i := start; i < len(it.Items) && first == len(it.Items); i++ { // what stands behind is no name
		if strings.Contains(",.!?;:", it.Items[i].Text) && it.Items[i].Text != "" && it.Items[i].Q == nil && nameIn(it, start, i) != "" {
			first = i
		}
	}
	name := nameIn(it, start, first)
	if name == "" {
		name = nameIn(it, first, len(it.Items))
	}
	if name != "" {
		to.Word("name", singular(name))
	}
}

// saysHowMany says whether the number at i is the one that says how many.
func saysHowMany(it *speech.Reading, i int) bool {
	s, ok := it.Request.Slots["quantity"]
	return ok && s.Said == it.Items[i].Q.Value
}

// groupIn finds what a part is for: "for the door".
func groupIn(it *speech.Reading) (group string, from, end int) {
	from, at, ok := it.Stands("for|of|in|on the|our|my")
	if !ok {
		return "", 0, 0
	}
	var words []string
	end = at
	for ; end < len(it.Items) && len(words) < 2; end++ {
		w := it.Items[end].Text
		if it.Items[end].Q != nil || notName[w] || w == "" || !isLetters(w) || it.Used(end) {
			break
		}
		words = append(words, w)
	}
	return strings.Join(words, " "), from, end
}

func isLetters(w string) bool {
	return strings.IndexFunc(w, func(r rune) bool { return r >= 'a' && r <= 'z' || r > 127 && r != '×' }) == 0
}

// notName are words that are no part of a name.
var notName = set(`add put down note need needs needed want make new get also too more another please pls kindly list parts part cutlist we i us you to the a an for of in at on
	onto from with by and or is are be was it that them this those these each every off no long wide thick deep x size sizes finished mm cm all both other could can would should will
	write jot take there here our my some extra pcs pairs pair must back now change alter correct resize update set cut lengthen shorten widen drop remove delete lose strike bin cross
	sorry oops whoops wait actually rather mean meant correction nope nah naw not instead really
	out don't dont any anymore longer want still have has had to as enter so then well half dozen same wood timber species stuff material again ones one just hi ok hello hand let's lets thanks thank ta`)

// nameIn takes the last run of words that can be a name between two items; of a reference also
// "it" and "them".
func nameIn(it *speech.Reading, from, to int) string {
	var best, run []string
	for i := from; i < to; i++ {
		item := it.Items[i]
		switch {
		case item.Q != nil && item.Q.Value != nil && before(it, i) == "the" && item.Q.Bare(): // the 612 rail
			run = append(run, item.Q.Value.RatString())
		case item.Q != nil && item.Q.Kind == speech.KindLabel:
			run = append(run, item.Q.Value.RatString())
		case item.Q == nil && isLetters(item.Text) && (!notName[item.Text] || backOf(it, i, to)) && !it.Used(i):
			run = append(run, item.Text)
		case item.Text == "-" && len(run) > 0, item.Text == "":
		default:
			if len(run) > 0 {
				best, run = run, nil
			}
		}
	}
	if len(run) > 0 {
		best = run
	}
	if len(best) > 0 {
		return strings.Join(best, " ")
	}
	for i := from; i < to; i++ {
		if w := it.Items[i].Text; w == "it" || w == "them" || w == "that" || w == "those" {
			return w
		}
	}
	return ""
}

// backOf says whether "back" at an item is part of a name, as in a back rail: a word of a name follows.
func backOf(it *speech.Reading, i, to int) bool {
	return it.Items[i].Text == "back" && i+1 < to && it.Items[i+1].Q == nil && isLetters(it.Items[i+1].Text) && !notName[it.Items[i+1].Text] && !it.Says("put|bring|take|give|get back")
}

// irregular are plurals that do not just have an s.
var irregular = map[string]string{"shelves": "shelf", "halves": "half", "leaves": "leaf", "boxes": "box", "sashes": "sash", "pieces": "piece", "knives": "knife", "feet": "foot", "benches": "bench"}

// singular takes the name of several pieces to that of one.
func singular(name string) string {
	i := strings.LastIndex(name, " ") + 1
	last := name[i:]
	if one, ok := irregular[last]; ok {
		return name[:i] + one
	}
	if manyWord(last) && !strings.HasSuffix(last, "us") && !strings.HasSuffix(last, "is") {
		return strings.TrimSuffix(name, "s")
	}
	return name
}

// readSeveral reads several parts in one sentence: each size with the words around it.
func readSeveral(r *speech.Reading) {
	r.Word("action", "add")
	starts := chainStarts(r.Items)
	from := 0
	for k := range starts {
		to := len(r.Items)
		if k+1 < len(starts) {
			to = starts[k+1]
			for i := starts[k+1]; i > starts[k]; i-- {
				if w := r.Items[i].Text; w == "and" || w == "," || w == ";" || w == "plus" || w == "&" || w == "." || w == "+" {
					to = i
					break
				}
			}
		}
		if _, why := readItem(r, speech.Sentence{Text: r.Text, Items: r.Items[from:to]}); why != "" {
			r.Question = &speech.Question{Text: fmt.Sprintf("Part %d %s", k+1, why)}
		}
		from = to
	}
	claimAll(r)
	shareTimber(r)
}

// shareTimber gives the timber that stands behind all parts to those that have none: all ash.
func shareTimber(r *speech.Reading) {
	if !r.Says("all|both|everything|each in|of|is|are?") {
		return
	}
	items := r.Request.Items
	last, ok := items[len(items)-1].Slots["species"]
	for _, it := range items {
		if _, has := it.Slots["species"]; ok && !has {
			it.Slots["species"] = last
		}
	}
}

// readItem adds a part to a request. It gives what was read, and what is wrong with it.
func readItem(r *speech.Reading, s speech.Sentence) (it *speech.Reading, why string) {
	s, count, why := countBehind(s)
	it = r.Item(s)
	nameOf(it, it)
	if count != nil {
		it.Put("quantity", *count)
	}
	r.Request.Items = append(r.Request.Items, it.Request)
	return it, why
}

// readList reads a list by its lines: a table, or one part a line.
func readList(r *speech.Reading) {
	r.Word("action", "add")
	claimAll(r)
	rows, found, err := tables.Pasted(r.Raw)
	switch {
	case err != nil:
		r.Question = &speech.Question{Text: plainly(err)}
		return
	case found:
		for _, row := range rows {
			r.Request.Items = append(r.Request.Items, requestOf(row))
		}
		return
	}
	for n, line := range strings.Split(r.Raw, "\n") {
		s := speech.Read(bullet.ReplaceAllString(line, ""))
		var why string
		switch k := chains(s); {
		case k == 1 || sizedByWords(s):
			var it *speech.Reading
			if it, why = readItem(r, s); why == "" {
				why = lacksOf(it)
			}
		case k > 1:
			why = fmt.Sprintf("holds %d sizes. Put one part in a line, please.", k)
		case len(r.Request.Items) > 0 && strings.ContainsAny(line, "0123456789"):
			why = "can't be read as a part. How many, and length × width × thickness?"
		}
		if why != "" {
			r.Question = &speech.Question{Text: fmt.Sprintf("Line %d (%s) %s", n+1, quoted(harmless(strings.TrimSpace(line))), why)}
			return
		}
	}
}

// bullet is what stands before the lines of a list.
var bullet = regexp.MustCompile(`^\s*(?:[-*•]+|\d+[.)])?\s+|^\s*[-*•]+`)

// lacksOf says what a line of a list does not tell, or tells without saying of what.
func lacksOf(it *speech.Reading) string {
	for _, d := range dimensions {
		if !it.Request.Has(d.name + "_mm") {
			return fmt.Sprintf("has no %s. Please send the list again, each with length × width × thickness.", d.name)
		}
	}
	for i := range it.Items {
		if it.Free(i) && it.Items[i].Q.Bare() && !saysHowMany(it, i) {
			return fmt.Sprintf("holds a %s that may be how many or something else. Write “%[1]s off” if it is how many, please.", it.Text[it.Items[i].Start:it.Items[i].End])
		}
	}
	return ""
}

// requestOf makes a row of a table a request.
func requestOf(row tables.PartRow) speech.Request {
	size := func(l measure.Length) speech.Slot {
		n := ratMM(l)
		return speech.Slot{Num: n, Said: n, Unit: "mm"}
	}
	count := ratMM(measure.Length(row.Quantity) * measure.Millimetre)
	r := speech.Request{Topic: "part", Slots: map[string]speech.Slot{
		"quantity": {Num: count, Said: count}, "length_mm": size(row.Length), "width_mm": size(row.Width), "thickness_mm": size(row.Thickness),
	}}
	for need, word := range map[string]string{"name": row.Name, "group": row.Group, "species": timberNamed(row.Species), "grain": grainNamed(row.Grain)} {
		if word != "" {
			r.Slots[need] = speech.Slot{Word: word}
		}
	}
	return r
}

// grainNamed says by "free" that a part may lie across the grain, as lists write it.
func grainNamed(written string) string {
	switch strings.ToLower(written) {
	case "free", "any", "either", "none", "no":
		return "free"
	}
	return ""
}

// timberNamed gives a timber as the vocabulary has it, else as it was written.
func timberNamed(written string) string {
	if w, n := speciesWords.At(speech.Read(written), 0); n > 0 {
		return w
	}
	return written
}

// settleItems leaves either several parts or one: what was said of several in an earlier message
// is not said of the one that this message is about. The same wood is that of the request before.
func settleItems(r *speech.Reading) {
	if a := r.Request.Word("action"); r.Said("length_mm") || r.Said("size_mm") || a != "" && a != "add" {
		r.Request.Items = nil
		return
	}
	if len(r.Request.Items) == 0 {
		return
	}
	wood, same := r.Request.Slots["species"]
	for _, it := range r.Request.Items {
		if !it.Has("species") && same && r.Says("same wood|timber|species|stuff|material") {
			it.Slots["species"] = wood
		}
	}
	for need := range r.Request.Slots {
		if need != "action" {
			r.Drop(need)
		}
	}
}

// needPart asks for what a new part lacks. Sizes that are said anew are another part or other
// parts than those of the request before.
func needPart(r *speech.Reading) {
	if r.Question != nil {
		return
	}
	if r.Request.Word("action") == "" && r.Request.Has("name") && r.Request.Has("length_mm") {
		r.Word("action", "add")
	}
	settleItems(r)
	if a := r.Request.Word("action"); a != "" && a != "add" || r.Says("list|csv|file|attached|attachment|these") && len(r.Request.Items) == 0 && !r.Request.Has("length_mm") {
		return
	}
	for k, it := range r.Request.Items {
		for _, d := range dimensions {
			if !it.Has(d.name+"_mm") && r.Question == nil {
				r.Question = &speech.Question{Text: fmt.Sprintf("Part %d (%s) has no %s. Please say the list again, each with length × width × thickness.", k+1, harmless(it.Word("name")), d.name)}
			}
		}
	}
	askSizes(r, "What are its finished sizes: length × width × thickness?")
	askWhichFigure(r)
}

// askSizes asks for the first of the three sizes that is missing; all is the question where none
// was said.
func askSizes(r *speech.Reading, all string) {
	r.AskFor("length_mm", all, "length_mm")
	r.AskFor("width_mm", "How wide, and how thick?", "width_mm")
	r.AskFor("thickness_mm", "How thick?", "thickness_mm")
}

func answerPart(a *Ask) Answer {
	switch a.Word("action") {
	case "change":
		return a.changeParts()
	case "drop":
		return a.dropParts()
	case "story":
		return a.storyOf(a.Word("name"))
	}
	if f, ok := a.listBeside(); ok {
		return a.partsFromFile(f)
	}
	if len(a.Request.Items) == 0 && !a.Has("length_mm") {
		return ask("Which parts? Say them, paste the list, or attach a CSV file with name, quantity, length, width and thickness.")
	}
	items := a.Request.Items
	if len(items) == 0 {
		items = []speech.Request{a.Request}
	}
	return a.addParts(items)
}

// addParts puts parts on the list, each under a name of its own.
func (a *Ask) addParts(items []speech.Request) Answer {
	list, err := a.parts()
	if err != nil {
		return ask(store.Sentence(err))
	}
	ans := say("")
	ans.echo = true
	var added []string
	for _, it := range items {
		p := partOf(it)
		if p.Species == "" {
			p.Species = a.Word("species")
		}
		name := it.Word("name")
		if name == "" {
			name = "part"
		}
		free := freeName(list, name)
		if free != name {
			ans.line(fmt.Sprintf("There is a %s on the list already, so this one is “%s”.", name, free))
		}
		list = append(list, book.Named[book.Part]{Name: free, Is: p})
		added = append(added, a.partText(list[len(list)-1]))
		ans.about(book.WhatPart, free)
		ans.effects = append(ans.effects, put(a.Project.ID, book.WhatPart, free, p))
	}
	ans.Answer = shorten("Added "+strings.Join(added, ", "), MaxHeadline)
	if len(added) > 1 {
		ans.Answer = shorten(fmt.Sprintf("Added %d parts: %s", len(added), strings.Join(added, "; ")), MaxHeadline)
	}
	ans.line("On the list now: " + totals(list) + ".")
	return ans
}

func partOf(r speech.Request) book.Part {
	p := book.Part{Quantity: 1, Species: r.Word("species"), Group: r.Word("group"), Grain: r.Word("grain")}
	if n, ok := r.Float("quantity"); ok {
		p.Quantity = int(n)
	}
	for need, to := range map[string]*book.MM{"length_mm": &p.Length, "width_mm": &p.Width, "thickness_mm": &p.Thickness} {
		l, _ := r.Length(need)
		*to = book.MM(l)
	}
	return p
}

// freeName counts a name up until it is not on the list.
func freeName(list []book.Named[book.Part], name string) string {
	free := name
	for n := 2; slices.ContainsFunc(list, func(p book.Named[book.Part]) bool { return store.Fold(p.Name) == store.Fold(free) }); n++ {
		free = fmt.Sprintf("%s %d", name, n)
	}
	return free
}

// partText says a part in a short line: 6 × rack slat 742 × 38 × 16 mm, ash.
func (a *Ask) partText(p book.Named[book.Part]) string {
	text := fmt.Sprintf("%d × %s %s", p.Is.Quantity, p.Name, a.partSizes(p.Is))
	if p.Is.Species != "" {
		text += ", " + strings.ReplaceAll(p.Is.Species, "_", " ")
	}
	return text
}

// partSizes says the sizes as they are kept: what looks like a slip must be seen as it stands.
func (a *Ask) partSizes(p book.Part) string {
	if a.System == measure.Imperial {
		return a.System.Sizes(measure.Nearest, p.Length.Length(), p.Width.Length(), p.Thickness.Length())
	}
	return fmt.Sprintf("%s × %s × %s mm", inMM(p.Length), inMM(p.Width), inMM(p.Thickness))
}

func totals(list []book.Named[book.Part]) string {
	n := 0
	for _, p := range list {
		n += p.Is.Quantity
	}
	if len(list) == n {
		return plural(n, "part", "parts")
	}
	return fmt.Sprintf("%s, %s", plural(len(list), "part", "parts"), plural(n, "piece", "pieces"))
}
