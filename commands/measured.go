package commands

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

// measuredNouns are what people measure on site.
const measuredNouns = "sill|=opening|=openings|reveal|window|doorway|door|wall|floor|side|height|width|depth|length|diagonal|diagonals|gap|recess|headroom|frame|hatch|corner|chimney|step|bed|bench|threshold|lintel"

func measured() *Topic {
	return &Topic{
		Title:    "what was measured on site, by whom and when",
		Examples: []string{"the opening is 812 at the top, 806 at the bottom", "the top left corner of the door opening is 88 degrees", "what was the sill width", "show the measurements"},
		Form: speech.Form{
			Name: "measure", Writes: true,
			Cues: []speech.Cue{
				{Weight: 6, Pattern: "measured the|a|our|it .. #"},
				{Weight: 5, Pattern: "^ measured|remeasured the|a|our|it .."},
				{Weight: 5, Pattern: measuredNouns + " measures|measured|measure # "},
				{Weight: 5, Pattern: measuredNouns + " width|height|top|bottom|depth|length|side|left|right|diagonal|head|foot is|was|are|now|reads|: #"},
				{Weight: 5, Pattern: measuredNouns + " width|height|top|bottom|depth|length|left|right|diagonal #"},
				{Weight: 4, Pattern: "^ the? sill|reveal|threshold|lintel|doorway|recess # $"},
				{Weight: 5, Pattern: "hinge|latch|stove|left|right|near|far|front|back side|end is|: # .. side|end is|: #"},
				{Weight: 5, Pattern: "hinge|latch|stove|left|right|near|far|front|back side|end # .. side|end #"},
				{Weight: 5, Pattern: measuredNouns + " is|are|was|reads|: # .. at|across|on|along the? .."},
				{Weight: 5, Pattern: measuredNouns + " is|are|reads|: # .. deep|high|wide|long|tall|mm|in|across $"},
				{Weight: 4, Pattern: "sill|=opening|reveal|window|doorway is|are|measures|reads|: # "},
				{Weight: 4, Pattern: "sill|reveal|=opening|doorway|recess # long|wide|deep|high|tall"},
				{Weight: 4, Pattern: "side height|width|depth #"},
				{Weight: 5, Pattern: "=opening|=openings|sill|window|doorway|reveal at|on|along the .. is|: #"},
				{Weight: 3, Pattern: "window|sill|doorway|reveal|recess # wide|high|deep|long"},
				{Weight: 7, Pattern: "what|how|whats|what's was|is|were|high|wide|deep|long|big|tall .. sill|=opening|reveal|window|doorway|diagonal|diagonals|recess|threshold|lintel|latch|hinge"},
				{Weight: 6, Pattern: "what was|were the .. height|width|depth|length|top|bottom"},
				{Weight: 5, Pattern: "sill|=opening|window|doorway|reveal at|on|across the .. ? $"},
				{Weight: 7, Pattern: "show|list|what|read|which .. measurements|measures|measured"},
				{Weight: 5, Pattern: "^ measurements|measures $"},
				{Weight: 6, Pattern: "# stands|holds"},
				{Weight: -9, Pattern: "square|diagonals|radius|chord|mitre|taper|degrees|stable|drop|trim|shelves|screw|clamps|rough|hold|sag|note|remember|move|much|rack|panel|glue|rail"},
				{Weight: -9, Pattern: "who|when measured"},
				{Weight: -9, Pattern: "add|cut|planed|glue|glued|who|when"},
				{Weight: -6, Pattern: "should|which side|which way"},
				{Weight: -8, Pattern: "did we|you|i do|say|get"},
			},
			Needs: []speech.Need{
				{Name: "name", Kind: speech.KindWord, Label: "measure", Own: true},
				{Name: "place", Kind: speech.KindWord, Label: "at", Own: true},
				{Name: "size_mm", Kind: measure.KindLength, Label: "size", Min: 1, Max: 30000},
				{Name: "angle_deg", Kind: measure.KindAngle, Label: "angle", Min: sharpestOnSite, Max: 180 - sharpestOnSite, Own: true},
				{Name: "action", Kind: speech.KindWord, Own: true},
			},
			Evidence: shapeMeasured,
			Before:   readMeasures,
			After: func(r *speech.Reading) {
				settleSizes(r)
				if r.Request.Word("action") == "keep" && len(r.Request.Items) == 0 && !r.Request.Has("size_mm") && !r.Request.Has("angle_deg") && r.Question == nil {
					what := "it"
					if name := r.Request.Word("name"); name != "" {
						what = "the " + harmless(name)
					}
					r.Question = &speech.Question{Text: "How much does " + what + " measure?", Need: "size_mm"}
				}
				if len(r.Request.Items) == 0 && !r.Request.Has("name") && !r.Request.Has("action") {
					r.Question = &speech.Question{Text: "What did you measure? Say for instance “the opening is 812 at the top”."}
				}
			},
		},
		Answer: answerMeasure,
	}
}

// dimensionNouns are the names of dimensions by the words that people use for them.
var dimensionNouns = map[string]string{
	"long": "length", "length": "length", "wide": "width", "width": "width", "deep": "depth", "depth": "depth",
	"high": "height", "tall": "height", "height": "height", "thick": "thickness", "thickness": "thickness", "broad": "width",
}

// notMeasured are words that are no part of the name of a measure.
var notMeasured = set(`no nope sorry i meant the a an our my of at on in is are was were be it its it's measured measures measure measuring reads again now and to from across along by we i got get only exactly about just comes please pls what what's whats how which who for here there so ok
	i've we've i'd have has had could can would will you your write wrote written put note keep save record jot store down book into in this that's morning today yesterday please just hi hello petra gil either or was maybe perhaps then mm cm did show list me us read tell that said yet angle degrees evening afternoon hiya hey night`)

// settleSizes puts a size that goes on from several measures where it belongs: to the one whose
// place was said, to the nearest where none was, or to a new place of the last of them.
func settleSizes(r *speech.Reading) {
	items := r.Request.Items
	if len(items) == 0 || !r.Said("size_mm") {
		return
	}
	now, place := r.Request.Slots["size_mm"], r.Request.Word("place")
	best, nearest := -1, math.Inf(1)
	for i, it := range items {
		was, sized := it.Float("size_mm")
		if !sized {
			continue
		}
		switch d := math.Abs(was - now.Float()); {
		case place != "" && sameMeasure(placed(it.Word("name"), place), it.Word("name")):
			best, nearest = i, -1
		case place == "" && d < nearest:
			best, nearest = i, d
		}
	}
	if best < 0 {
		r.Word("name", items[len(items)-1].Word("name"))
		r.Request.Items = nil
		return
	}
	items[best] = speech.Request{Topic: "measure", Slots: map[string]speech.Slot{"name": items[best].Slots["name"], "size_mm": now}}
	r.Drop("size_mm")
	r.Drop("place")
}

// stretch is the name in some words: dimensions by their nouns, "top of the opening" turned round.
func stretch(items []speech.Item) string {
	var words, front []string
	for _, it := range items {
		w := strings.TrimSuffix(it.Text, "'s")
		switch {
		case it.Q != nil && it.Q.Kind == speech.KindLabel:
			words = append(words, it.Q.Value.RatString())
		case it.Text == "of" && len(words) > 0:
			front, words = append(front, words...), nil
		case it.Q != nil || !isLetters(w) || notMeasured[w]:
		case dimensionNouns[w] != "":
			words = append(words, dimensionNouns[w])
		case shapeWord(w) == "diagonal":
			words = append(words, shapeWord(w))
		default:
			words = append(words, w)
		}
	}
	return strings.Join(append(words, front...), " ")
}

// readMeasures reads names and sizes: the name stands in front of the number, where it was taken
// or which way behind it.
func readMeasures(r *speech.Reading) {
	var at []int
	for i := range r.Items {
		if q := r.Items[i].Q; q != nil && q.Value != nil && q.High == nil && (q.Bare() || q.Kind == measure.KindLength || q.Kind == measure.KindAngle) {
			at = append(at, i)
		}
	}
	switch {
	case r.Says("# stands|holds") && len(at) == 1:
		r.Word("action", "stands")
		r.Word("name", stretch(r.Items[:at[0]]))
		r.Set(readingNeed(r.Request.Word("name"), r.Items[at[0]].Q), at[0])
	case r.Says("show|list|read|which .. measurements|measures") || r.Says("what .. measurements|measures") || r.Says("what .. we|you measured") || r.Says("^ measurements|measures $"):
		r.Word("action", "list")
	case len(at) == 0 && keepsMeasure(r):
		r.Word("action", "keep")
		if name := stretch(r.Items); name != "" {
			r.Word("name", name)
		}
	case len(at) == 0:
		name := stretch(r.Items)
		if name == "" {
			return
		}
		need := "name"
		if r.Says("^ and|what|how at|about|on|the? ..") && !r.Says("^ what|how was|is|were|high|wide|deep|long|tall") {
			need = "place"
		}
		r.Word(need, name)
		r.Word("action", "ask")
	case eitherOf(r, at):
		r.Word("action", "keep")
		behindIt, _ := placeBehind(r.Items, at[1]+1, len(r.Items))
		if name := strings.TrimSpace(stretch(r.Items[:at[1]]) + " " + behindIt); name != "" {
			r.Word("name", name)
		}
	default:
		r.Word("action", "keep")
		readSizes(r, at)
	}
	for i := range r.Items {
		r.Claim(i)
	}
}

// keepsMeasure says whether a message without a number tells that something was measured or wants it
// written down.
func keepsMeasure(r *speech.Reading) bool {
	return !r.Says("^ what|what's|whats|which|who|how|when|where|did|do|does|have|has|is|are|was|were|show|list|read|tell") && !r.Says("what|how|which") &&
		(r.Says("i|we|i've|we've|have|just|petra|gil|^ just? measured|remeasured") || r.Says("is|are|was|been measured") || r.Says("write|put|note|save|keep|record|jot .. down|it|that|width|height|length|depth|size|in"))
}

// eitherOf says whether the two numbers of a message are two figures for one thing: 768 or 786.
func eitherOf(r *speech.Reading, at []int) bool {
	if len(at) != 2 || r.Question != nil {
		return false
	}
	if _, _, ok := oneOrOther(r.Items, at[0]); !ok {
		return false
	}
	r.Question = whichFigure(r, "size_mm", at[0], at[1])
	return true
}

// readSizes gives each number its name.
func readSizes(r *speech.Reading, at []int) {
	base, from := "", 0
	var items []speech.Request
	for k, i := range at {
		next := len(r.Items)
		if k+1 < len(at) {
			next = at[k+1]
		}
		ahead := stretch(r.Items[from:i])
		behindIt, end := placeBehind(r.Items, i+1, next)
		from = end
		switch {
		case ahead == "":
		case base == "" || !onlyPlaces(ahead):
			base = ahead
			ahead = ""
		}
		name := placed(base, ahead)
		if strings.HasSuffix(ahead, "side") { // hinge side height 1712, latch side 1705
			name = strings.Join(append([]string{ahead}, dimensionsOf(base)...), " ")
		}
		if behindIt != "" {
			name = strings.TrimSpace(name + " " + behindIt)
		} else if chained(r.Items, i) && ahead == "" {
			name += " " + []string{"width", "height", "depth"}[min(placeInChain(r.Items, i), 2)]
		}
		q := *r.Items[i].Q
		if u := unitOfChain(r.Items, i); q.Unit == nil && u != nil {
			q.Unit, q.Kind = u, measure.KindLength
		}
		need := readingNeed(name, &q)
		items = append(items, speech.Request{Topic: "measure", Slots: map[string]speech.Slot{"name": {Word: name}, need: r.Sized(need, q)}})
	}
	numberAlike(items)
	if len(items) > 1 {
		r.Request.Items = items
		return
	}
	for need, s := range items[0].Slots {
		if need == "name" && (s.Word == "" || onlyPlaces(s.Word)) {
			need = "place"
		}
		if s.Word != "" || s.Num != nil {
			r.Request.Slots[need] = s
		}
	}
}

// dimensionsOf gives the words of a name that say which way.
func dimensionsOf(name string) []string {
	return slices.DeleteFunc(strings.Fields(name), func(w string) bool { return dimensionNouns[w] == "" })
}

// placeBehind reads "at the top", "deep" or "on the left side" behind a number.
func placeBehind(items []speech.Item, from, to int) (string, int) {
	end := from
	for end < to && items[end].Q == nil && items[end].Text != "," && items[end].Text != "." && items[end].Text != "and" && items[end].Text != "×" && items[end].Text != ";" {
		end++
	}
	return stretch(items[from:end]), end
}

// onlyPlaces says whether words only say where or which way: bottom, left, height.
func onlyPlaces(words string) bool {
	return !slices.ContainsFunc(strings.Fields(words), func(w string) bool {
		return !placing[w] && dimensionNouns[w] == "" && w != "side" && shapeWord(w) == ""
	})
}

func chained(items []speech.Item, i int) bool {
	return i > 0 && items[i-1].Text == "×" || i+1 < len(items) && items[i+1].Text == "×"
}

func placeInChain(items []speech.Item, i int) int {
	n := 0
	for ; i >= 2 && items[i-1].Text == "×"; i -= 2 {
		n++
	}
	return n
}

func unitOfChain(items []speech.Item, i int) *measure.Unit {
	for i+2 < len(items) && items[i+1].Text == "×" && items[i+2].Q != nil {
		i += 2
		if items[i].Q.Unit != nil {
			return items[i].Q.Unit
		}
	}
	return nil
}

// numberAlike tells apart several sizes of one name: diagonal 1, diagonal 2.
func numberAlike(items []speech.Request) {
	count := map[string]int{}
	for _, it := range items {
		count[it.Word("name")]++
	}
	seen := map[string]int{}
	for _, it := range items {
		if n := it.Word("name"); count[n] > 1 {
			seen[n]++
			it.Slots["name"] = speech.Slot{Word: fmt.Sprintf("%s %d", singular(n), seen[n])}
		}
	}
}

func answerMeasure(a *Ask) Answer {
	all, err := a.measures()
	if err != nil {
		return ask(store.Sentence(err))
	}
	switch a.Word("action") {
	case "list":
		return a.listMeasures(all)
	case "stands":
		return a.settleMeasure(all)
	case "keep", asSaid:
		return a.keepMeasures(all)
	}
	return a.askMeasure(all)
}

// placed gives a name another place: the opening top, and "bottom", is the opening bottom.
func placed(name, place string) string {
	if place == "" {
		return name
	}
	shaped := slices.ContainsFunc(strings.Fields(place), func(w string) bool { return shapeWord(w) != "" })
	kept := slices.DeleteFunc(strings.Fields(name), func(w string) bool {
		return placing[w] || dimensionNouns[w] != "" && (dimensionNouns[place] != "" || shaped) || shapeWord(w) != "" && shaped
	})
	return strings.Join(append(kept, place), " ")
}

// apart is from how far apart two readings contradict each other.
const apart = 2 * measure.Millimetre

func (a *Ask) keepMeasures(all []book.Named[book.Measure]) Answer {
	items := a.measuredItems()
	if q := a.slip(all, items); q != nil {
		return *q
	}
	ans := say("")
	ans.echo = true
	var heads, names []string
	for _, it := range items {
		now, ok := readingIn(it)
		name := placed(it.Word("name"), it.Word("place"))
		if name == "" || !ok {
			return ask("What is it that measures that? Say for instance “the opening is 812 at the top”.")
		}
		var head string
		all, head = a.keep(&ans, all, name, now)
		heads, names = append(heads, head), append(names, name)
	}
	if err := a.markMade(&ans, all, asStored(all, names)); err != nil {
		return ask(store.Sentence(err))
	}
	for _, o := range siteOpenings(all) {
		for _, m := range a.misfitsNow(o, names) {
			ans.line(m)
		}
	}
	ans.Answer = shorten(strings.Join(heads, "; "), MaxHeadline)
	ans.because("Kept as you said it. Later readings, and what sides, diagonals and corners make of each other, contradict it from " + a.Out().Shown(apart) + " or " + degExact(apartDeg) + " on: common practice, no source.")
	return ans
}

// readingIn is what was read, of a request of this topic.
func readingIn(r speech.Request) (book.Reading, bool) {
	if deg, ok := r.Float("angle_deg"); ok {
		return book.Reading{Deg: deg}, true
	}
	l, ok := r.Length("size_mm")
	return book.Reading{Size: book.MM(l)}, ok
}

// standing is the reading of a measure that stands.
func standing(m book.Measure) book.Reading {
	return book.Reading{Size: m.Size, Deg: m.Deg, Who: m.Who, At: m.At}
}

// contradicts says whether two readings are too far apart to be of one thing.
func contradicts(r, o book.Reading) bool {
	return (r.Deg == 0) != (o.Deg == 0) || math.Abs(r.Deg-o.Deg) > apartDeg || !within(r.Size, o.Size, book.MM(apart))
}

func sameReading(r, o book.Reading) bool { return r.Size == o.Size && r.Deg == o.Deg }

// readingText prints a reading as it was taken.
func (a *Ask) readingText(r book.Reading) string {
	if r.Deg != 0 {
		return degExact(r.Deg)
	}
	return a.Out().Exact(r.Size.Length())
}

// valueOf puts a reading among the values of an answer.
func (ans *Answer) valueOf(r book.Reading) {
	if r.Deg != 0 {
		ans.Values["angle_deg"] = r.Deg
		return
	}
	ans.Values["size_mm"] = r.Size.MM()
}

// asStored gives names of measures as they are stored.
func asStored(all []book.Named[book.Measure], names []string) (out []string) {
	for _, m := range all {
		if slices.ContainsFunc(names, func(n string) bool { return sameMeasure(n, m.Name) }) {
			out = append(out, m.Name)
		}
	}
	return out
}

// keep writes down one reading. One that contradicts what stands is kept beside it until
// somebody says which stands. It gives all measures as they are then, and the text for it.
func (a *Ask) keep(ans *Answer, all []book.Named[book.Measure], name string, now book.Reading) ([]book.Named[book.Measure], string) {
	now.Who, now.At = a.Who, a.Now.Format(time.RFC3339)
	ans.about(book.WhatMeasure, name)
	if len(a.Request.Items) < 2 {
		ans.valueOf(now)
	}
	text := a.readingText(now)
	i := slices.IndexFunc(all, func(m book.Named[book.Measure]) bool { return sameMeasure(m.Name, name) })
	if i < 0 {
		m := book.Named[book.Measure]{Name: name, Is: book.Measure{Size: now.Size, Deg: now.Deg, Who: now.Who, At: now.At}}
		ans.effects = append(ans.effects, put(a.Project.ID, book.WhatMeasure, name, m.Is))
		return append(all, m), capital(name) + " " + text
	}
	m := &all[i]
	if was := standing(m.Is); contradicts(was, now) {
		m.Is.Doubt = &now
		ans.effects = append(ans.effects, put(a.Project.ID, book.WhatMeasure, m.Name, m.Is))
		ans.line(fmt.Sprintf("Both are kept. Which stands? Say “%s %s stands” or “%s %s stands”.", m.Name, a.readingText(was), m.Name, text))
		return all, fmt.Sprintf("%s: %s now, but %s measured %s %s", capital(m.Name), text, m.Is.Who, a.readingText(was), a.saidWhen(m.Is.At))
	}
	return all, a.restate(ans, m, now)
}

// restate makes a reading the one that stands. It gives the text for it.
func (a *Ask) restate(ans *Answer, m *book.Named[book.Measure], now book.Reading) string {
	was := standing(m.Is)
	m.Is = book.Measure{Size: now.Size, Deg: now.Deg, Who: now.Who, At: now.At, Earlier: append(slices.Clone(m.Is.Earlier), was)}
	ans.effects = append(ans.effects, put(a.Project.ID, book.WhatMeasure, m.Name, m.Is))
	if sameReading(now, was) && a.again {
		return capital(m.Name) + " " + a.readingText(now)
	}
	if sameReading(now, was) {
		return capital(m.Name) + " " + a.readingText(now) + ", as before"
	}
	return fmt.Sprintf("%s %s (was %s)", capital(m.Name), a.readingText(now), a.readingText(was))
}

// settleMeasure takes the reading that a person says stands; the other is kept as an earlier one.
func (a *Ask) settleMeasure(all []book.Named[book.Measure]) Answer {
	said, _ := readingIn(a.Request)
	name := a.Word("name")
	for i, m := range all {
		d := m.Is.Doubt
		if d == nil || name != "" && !sameMeasure(m.Name, name) || !sameReading(*d, said) && !sameReading(standing(m.Is), said) {
			continue
		}
		ans := say("")
		ans.echo = true
		ans.valueOf(said)
		ans.about(book.WhatMeasure, m.Name)
		m.Is.Doubt = nil
		if sameReading(*d, said) {
			ans.Answer = shorten(a.restate(&ans, &all[i], *d), MaxHeadline)
			if err := a.markMade(&ans, all, []string{m.Name}); err != nil {
				return ask(store.Sentence(err))
			}
			return ans
		}
		m.Is.Earlier = append(slices.Clone(m.Is.Earlier), *d)
		ans.Answer = shorten(fmt.Sprintf("%s stays %s", capital(m.Name), a.readingText(said)), MaxHeadline)
		ans.effects = append(ans.effects, put(a.Project.ID, book.WhatMeasure, m.Name, m.Is))
		return ans
	}
	return ask("No measure is in doubt between that and something else. Which one do you mean?")
}

// sameMeasure says whether two names have the same words, in whatever order. The door opening is the
// opening.
func sameMeasure(a, b string) bool {
	x, y := stemsOf(openingLike(a)), stemsOf(openingLike(b))
	slices.Sort(x)
	slices.Sort(y)
	return slices.Equal(x, y)
}

func (a *Ask) saidWhen(at string) string {
	t, err := time.Parse(time.RFC3339, at)
	if err != nil {
		return ""
	}
	return t.In(a.Now.Location()).Format("Mon 2 Jan 15:04")
}

// askMeasure gives what was measured: the measures that have every word that was asked for, else
// those of which every word was asked for and whose dimension nobody said.
func (a *Ask) askMeasure(all []book.Named[book.Measure]) Answer {
	name := placed(a.Word("name"), a.Word("place"))
	wanted := stemsOf(openingLike(name))
	var hits, loose []book.Named[book.Measure]
	for _, m := range all {
		have := stemsOf(openingLike(m.Name))
		missing := slices.DeleteFunc(slices.Clone(wanted), func(w string) bool { return slices.Contains(have, w) })
		switch {
		case len(wanted) > 0 && len(missing) == 0:
			hits = append(hits, m)
		case len(missing) < len(wanted) && !slices.ContainsFunc(missing, func(w string) bool { return !isDimension(w) }) && !slices.ContainsFunc(have, isDimension):
			loose = append(loose, m)
		}
	}
	if len(hits) == 0 {
		hits = loose
	}
	if len(hits) == 0 {
		return a.notMeasured(name)
	}
	if len(hits) > 1 {
		return a.listMeasures(hits)
	}
	m := hits[0]
	ans := say(shorten(a.measureText(m), MaxHeadline))
	ans.echo = true
	ans.valueOf(standing(m.Is))
	ans.about(book.WhatMeasure, m.Name)
	for _, e := range m.Is.Earlier {
		ans.line(fmt.Sprintf("Before: %s (%s, %s)", a.readingText(e), e.Who, a.saidWhen(e.At)))
	}
	return ans
}

// isDimension says whether a stem is that of a dimension: length, width ...
func isDimension(stem string) bool {
	for _, noun := range dimensionNouns {
		if speech.Stem(noun) == stem {
			return true
		}
	}
	return false
}

// notMeasured looks for a part of that name before it says that nobody measured it.
func (a *Ask) notMeasured(name string) Answer {
	words := strings.Fields(name)
	words = slices.DeleteFunc(words, func(w string) bool { return dimensionNouns[w] != "" })
	if len(words) > 0 {
		if found, q, err := a.findParts(strings.Join(words, " ")); err == nil && q == nil {
			return a.showParts(found)
		}
	}
	ans := say(shorten("Nobody has measured the "+name+" yet", MaxHeadline))
	ans.echo = true
	return ans
}

func (a *Ask) measureText(m book.Named[book.Measure]) string {
	text := fmt.Sprintf("%s %s (%s, %s)", capital(m.Name), a.readingText(standing(m.Is)), m.Is.Who, a.saidWhen(m.Is.At))
	if d := m.Is.Doubt; d != nil {
		text += fmt.Sprintf(", but %s measured %s %s: which stands?", d.Who, a.readingText(*d), a.saidWhen(d.At))
	}
	return text
}

func (a *Ask) listMeasures(all []book.Named[book.Measure]) Answer {
	if len(all) == 0 {
		return say("Nothing has been measured yet")
	}
	ans := say(plural(len(all), "measure", "measures"))
	ans.echo = true
	for _, m := range all {
		ans.line("- " + a.measureText(m))
		ans.about(book.WhatMeasure, m.Name)
	}
	return ans
}
