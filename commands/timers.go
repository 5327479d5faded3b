package commands

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

const offWords = "off|out|free|unclamped|released"

func timers() *Topic {
	return &Topic{
		Title:    "what is in the clamps, when it is ready; stop or extend a timer",
		Examples: []string{"what's in the clamps", "when can I sand", "how long has bow 2 to go", "give the door another hour", "took bow 1 out of the clamps"},
		Form: speech.Form{
			Name: "timers", Writes: true,
			Cues: []speech.Cue{
				{Weight: 5, Pattern: "timer|timers"},
				{Weight: 9, Pattern: "what|what's|whats|which|anything|wot|something .. in|under the|our? clamps|cramps|press"},
				{Weight: 8, Pattern: "^ is|are|has|have .. =still|yet|already .. ?"},
				{Weight: 8, Pattern: "^ is|are .. in|under the? clamps|cramps|press"},
				{Weight: -8, Pattern: "time|minutes|hours|long|need|needs|want|wants|take|takes|enough .. in|under the? clamps|cramps|press"},
				{Weight: -8, Pattern: "#duration .. clamps|cramps|enough"},
				{Weight: -9, Pattern: "^ has|have|had you|we|they|everyone|everybody|anyone =eaten|=had|=seen|=heard|=been|=slept"},
				{Weight: 9, Pattern: "show|list|see|which|what .. running|active|open? =timers|=timer"},
				{Weight: 9, Pattern: "^ is|are .. ready|dry|set|hard|cured|off|sandable|safe yet|now|already|to|?"},
				{Weight: 7, Pattern: "when can|could|may|do|should|is|will|are|does i|we|bow|the|it|that|they|you|gil|petra .. sand|sanding|plane|planing|work|unclamp|out|off|machine|varnish|ready|dry|cured|hard|load|handle|move"},
				{Weight: 7, Pattern: "can|may|could i|we .. sand|sanding|plane|planing|unclamp|machine|load|off|out .. now|yet|already|?"},
				{Weight: 8, Pattern: "when do|does|can|will|should|are|is .. clamps|cramps|clamp .. off|out|go|free|come"},
				{Weight: 7, Pattern: "how long|much has|have|is|does|till|until|before|more|time|left .. to go|left|longer|more|ready|off|out|still"},
				{Weight: 6, Pattern: "how long .. =still|longer|left|more"},
				{Weight: 6, Pattern: "how much|many longer|more|minutes|hours till|until|before|has|does|for|in|left"},
				{Weight: -6, Pattern: "edge|side|longer|wider|shorter =is|than one|edge|the"},
				{Weight: 6, Pattern: "can|when|may .. come|take|get|go|comes|goes .. off|out"},
				{Weight: 7, Pattern: "stop|cancel|kill|end|delete|forget|clear|drop the|that|a|this|my|all .. timer|timers"},
				{Weight: 7, Pattern: "give|leave|keep|hold|allow|let .. another|more|longer|extra"},
				{Weight: 6, Pattern: "another|extra|longer hour|minutes|half"},
				{Weight: 6, Pattern: "another|extra|longer #duration"},
				{Weight: 7, Pattern: "extend|prolong"},
				{Weight: 8, Pattern: "what|what's|whats|anything|which .. =clamped"},
				{Weight: 7, Pattern: "^ has|have|did .. gone|set|cured|dried|hardened off? yet|?"},
				{Weight: 7, Pattern: "^ how? much? time left|remaining on|for"},
				{Weight: 6, Pattern: "another|extra hour|minutes|half|quarter for|on|to"},
				{Weight: 6, Pattern: "#duration longer|more|extra for|in|on|please?"},
				{Weight: 6, Pattern: "leave|keep .. in|clamped|clamps|on till|until"},
				{Weight: 6, Pattern: "^ i've|i|we|we've|just|have|finally? =just? =took|taken|pulled|got|taking|unclamped .. " + offWords},
				{Weight: 6, Pattern: "^ take .. " + offWords + " of|from? the? clamps|cramps"},
				{Weight: 6, Pattern: "clamps|cramps are|came|come|have .. =off|=out"},
				{Weight: 6, Pattern: "^ clamps|cramps off|out"},
				{Weight: 6, Pattern: "out|off|free of|from the? clamps|cramps"},
				{Weight: 5, Pattern: "unclamped|uncramped"},
				{Weight: 3, Pattern: "ready|dry yet|now"},
				{Weight: 3, Pattern: "to go ? $"},
				{Weight: -7, Pattern: "start|set|run a|the? timer"},
				{Weight: -7, Pattern: "how many|much clamps|cramps"},
				{Weight: -9, Pattern: "clamps|cramps for|enough|do|have we|i|you"},
				{Weight: -6, Pattern: "at # degrees|c|deg"},
				{Weight: -6, Pattern: "#temperature"},
				{Weight: -6, Pattern: "how long|soon|quickly|fast .. epoxy|pva|polyurethane|pu|pur|resorcinol|uf|urea|d3|d4|hide|sealant|polymer"},
				{Weight: -6, Pattern: "when|how .. with|using|of epoxy|pva|polyurethane|pu|pur|resorcinol|uf|urea|d3|d4|hide|sealant"},
				{Weight: -6, Pattern: "after #duration"},
				{Weight: -6, Pattern: "can|may|could|should .. with|using|of|if epoxy|pva|polyurethane|pu|pur|resorcinol|uf|urea|d3|d4|hide|sealant"},
				{Weight: -5, Pattern: "how long does|do|must|should|will|to"},
				{Weight: -6, Pattern: "varnish|lacquer|paint|oil|coat|coats|primer dry|dries|take|takes"},
				{Weight: -8, Pattern: "before|until|till we|it|the close|closes|shut|leave|go"},
				{Weight: -9, Pattern: "^ glued|just =glued?"},
				{Weight: -9, Pattern: "note|remember|remind : "},
				{Weight: -8, Pattern: "went in|into"},
				{Weight: -6, Pattern: "how long .. with|have i|we|you got|with"},
				{Weight: -6, Pattern: "did|was"},
				{Weight: -5, Pattern: "#length"},
				{Weight: -5, Pattern: "slats|rails|parts|pieces|cuts to do|make|cut|go"},
			},
			Needs: []speech.Need{
				{Name: "name", Kind: speech.KindWord, Label: "what", Own: true},
				{Name: "adhesive", Kind: speech.KindWord, Vocab: glueWords, Own: true},
				{Name: "more_min", Kind: measure.KindDuration, Label: "longer", Min: 1, Max: 7 * 24 * 60, Own: true},
			},
			Before: readTimers,
		},
		Answer: answerTimers,
	}
}

// The moments by the words that ask for them.
var momentWords = []struct{ moment, pattern string }{
	{book.Workable, "sand|sanding|plane|planing|work|worked|machine|scrape|workable|trim|varnish|rout"},
	{book.Cured, "cured|cure|hard|load|loaded|full|strength|stress|stressed|finish"},
	{book.ClampsOff, "clamps|cramps|clamp|out|off|unclamp|come"},
	{book.OpenUntil, "open|close|closed|assembly"},
}

func readTimers(r *speech.Reading) {
	more := -1
	for i, it := range r.Items {
		if it.Q != nil && it.Q.Kind == measure.KindDuration && r.Free(i) {
			more = i
		}
	}
	asks := r.Says("^ when|how|what|which|is|are|can|may|could|whats|what's|anything|does|has") || r.Says("?")
	switch {
	case !asks && r.Says("stop|cancel|kill|end|delete|forget|clear|drop|no .. timer|timers"):
		r.Word("action", "stop")
		if r.Says("all|every|everything") {
			r.Word("all", "yes")
		}
	case startsTimer(r):
		r.Word("action", "start")
	case !asks && (r.Says("another|longer|extra|more|extend|prolong") || r.Says("give|leave|keep|hold|allow|let")):
		r.Word("action", "extend")
		readLonger(r, more)
	case !asks && (r.Says("took|taken|pulled|taking|take|got|clamps|cramps|is|are|came|come .. "+offWords) || r.Says("unclamped|uncramped") || r.Says("^ "+offWords)):
		r.Word("action", "off")
	}
	for _, m := range momentWords {
		if r.Says(m.pattern) && !r.Request.Has("moment") {
			r.Word("moment", m.moment)
		}
	}
	if w, ok := r.Named(glueWords); ok {
		r.Word("adhesive", w)
	}
	if name := timerNamed(r); name != "" {
		r.Word("name", name)
	}
}

// startsTimer says whether a message wants a timer to be started.
func startsTimer(r *speech.Reading) bool {
	return r.Says("set|start|run|put|begin|want|need|make|give|have .. =timer|=timers|=stopwatch") && !r.Says("^ what|what's|which|when|how|show|list|is|are|did|do|has|stop|cancel") && !r.Says("another|longer|extra|more|already|running")
}

// asking are the words of such a question that name no glue-up.
var asking = strings.Fields(`what what's whats when how long much can could may should do does is are will which anything still left ready yet sand sanding plane planing work machine unclamp come
	take took taken taking pulled off out free cured hard dry set load full strength more another longer extra give leave keep hold allow let stop cancel kill end delete forget clear drop show list
	until till before or again them they anybody who go time cure open assembly close remaining any things thing currently moment safe handle move wait must yes thanks extend come comes came released unclamped running everything start begin
	coming going getting extend extended prolong needs wants gone dried hardened remaining by scrape trim varnish rout worked workable loaded stress finish press`)

// timerNamed gives what a message about timers says of a glue-up's name.
func timerNamed(r *speech.Reading) string {
	var words []string
	for i, it := range r.Items {
		if it.Q == nil && slices.Contains(asking, it.Text) || !ofName(r, i) && it.Q == nil {
			continue
		}
		if it.Q != nil && (len(words) == 0 || !r.Free(i) || !ofName(r, i)) {
			continue
		}
		words = append(words, r.Text[it.Start:it.End])
	}
	return strings.Join(words, " ")
}

// inClamps says whether a glue-up is still in the clamps by its times, and nobody said otherwise.
func inClamps(t book.Timer, now time.Time) bool {
	return !t.Stopped && t.TakenOff.IsZero() && now.Before(t.ClampsOff)
}

// ticking says whether a glue-up still has something to come.
func ticking(t book.Timer, now time.Time) bool { return !t.Stopped && now.Before(t.Cured) }

func answerTimers(a *Ask) Answer {
	all, err := a.timers()
	if err != nil {
		return ask(store.Sentence(err))
	}
	live := slices.DeleteFunc(slices.Clone(all), func(t book.Named[book.Timer]) bool { return !ticking(t.Is, a.Now) })
	found, named := a.choose(live)
	if a.Word("action") == "start" && len(found) == 0 {
		return ask("A timer for what? Say what was glued, with which glue and how warm it is: “bow 1 was just glued with epoxy, 18 degrees”.")
	}
	if named && len(found) == 0 {
		return a.noTimer(all, live)
	}
	switch a.Word("action") {
	case "stop":
		return a.stopTimers(found)
	case "extend":
		return a.one(found, a.extend)
	case "off":
		return a.one(found, a.takeOff)
	}
	return a.showTimers(found)
}

// choose gives the glue-ups that a request is about, and whether it named any.
func (a *Ask) choose(live []book.Named[book.Timer]) (found []book.Named[book.Timer], named bool) {
	want := nameWords(a.Word("name"))
	glue := a.Word("adhesive")
	for _, t := range live {
		has := nameWords(t.Name)
		holds := !slices.ContainsFunc(want, func(w string) bool { return !slices.Contains(has, w) })
		if holds && (glue == "" || glue == t.Is.Adhesive) {
			found = append(found, t)
		}
	}
	exact := slices.DeleteFunc(slices.Clone(found), func(t book.Named[book.Timer]) bool { return len(want) == 0 || len(nameWords(t.Name)) != len(want) })
	if len(exact) > 0 {
		found = exact
	}
	return found, len(want) > 0 || glue != ""
}

// nameWords are the words of a name that tell it from others, by their stems: the words between
// a thing and its number say nothing.
func nameWords(name string) []string {
	var out []string
	for _, w := range strings.FieldsFunc(strings.ToLower(name), func(c rune) bool { return strings.ContainsRune(" .,-#()&/", c) }) {
		switch w {
		case "no", "number", "nr", "the", "a", "of", "and":
		default:
			out = append(out, speech.Stem(w))
		}
	}
	return out
}

// noTimer answers about a glue-up that is not running.
func (a *Ask) noTimer(all, live []book.Named[book.Timer]) Answer {
	over, _ := a.choose(all)
	if len(over) > 0 {
		t := over[len(over)-1]
		if t.Is.Stopped {
			ans := say(shorten("The timer of "+t.Name+" was stopped", MaxHeadline))
			ans.echo = true
			return ans
		}
		ans := say(shorten(fmt.Sprintf("%s: cured since %s", capital(t.Name), a.clockText(t.Is.Cured)), MaxHeadline))
		ans.echo = true
		timesInto(&ans, "", t.Is)
		return ans
	}
	asked := a.Word("name")
	if asked == "" {
		asked = a.Word("adhesive")
	}
	if a.Word("action") == "" {
		ans := say(shorten("No timer is running for "+asked, MaxHeadline))
		ans.echo = true
		for _, t := range live {
			ans.line("- " + a.timerLine(t))
		}
		if len(live) == 0 {
			ans.line("“bow 1 was just glued with epoxy, 18 degrees” starts one.")
		}
		return ans
	}
	if len(live) == 0 {
		return ask("No timer is running. Which glue-up do you mean, and when was it glued with what?")
	}
	names := make([]string, len(live))
	for i, t := range live {
		names[i] = t.Name
	}
	ans := ask(shorten(fmt.Sprintf("I have no timer for “%s”. Which one: %s?", asked, strings.Join(names, ", ")), 300))
	ans.echo = true
	return ans
}
