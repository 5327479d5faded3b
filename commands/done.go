package commands

import (
	"fmt"
	"maps"
	"strings"
	"time"

	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

func done() *Topic {
	return &Topic{
		Title:    "what is finished, or is not after all, how many of them, and what was spoiled",
		Examples: []string{"rails are cut", "5 of 6 slats planed", "cut one rail short", "the trim is fitted"},
		Form: speech.Form{
			Name: "done", Writes: true,
			Cues: []speech.Cue{
				{Weight: 4, Pattern: "is|are|all|both|was|were|been|now|got|have|has|i've|we've|just|half|them =" + strings.ReplaceAll(stagePattern, "|", "|=")},
				{Weight: 4, Pattern: "is|are|all|both|have|been|now|has =cut|=done|=made|=ready|=complete|=completed|=sawn"},
				{Weight: 5, Pattern: "# of|out of? # .. =" + strings.ReplaceAll(stagePattern, "|", "|=") + "|=cut|=done|=made|=ready"},
				{Weight: 4, Pattern: "^ i've|i|we|we've|just|now|have? just|now|already? =finished|=planed|=sanded|=ripped|=thicknessed|=fitted|=machined|=crosscut|=roughed|=drilled|=cut|=made|=sawn|=mitred # more|of|slats|rails"},
				{Weight: 4, Pattern: "^ =planed|=sanded|=ripped|=thicknessed|=fitted|=machined|=crosscut|=roughed|=drilled|=mitred #"},
				{Weight: 5, Pattern: "=spoiled|=spoilt|=ruined|=botched|=wrecked|=scrapped|=snapped|=split|=broke|=cracked #"},
				{Weight: 5, Pattern: "# .. =spoiled|=spoilt|=ruined|=botched|=wrecked|=snapped|=scrap|=split|=broke|=broken|=cracked"},
				{Weight: 4, Pattern: "# .. =cut|=planed|=done|=made|=sanded|=fitted|=finished|=ripped|=thicknessed"},
				{Weight: 4, Pattern: "=cut|=planed|=made|=sanded|=fitted|=ripped # of|more"},
				{Weight: 4, Pattern: "^ =finished|=planed|=sanded|=ripped|=thicknessed|=fitted|=machined|=crosscut|=roughed|=drilled|=routed|=oiled|=varnished|=mitred|=hung the|all|both|my|bench|rack|last"},
				{Weight: 4, Pattern: "i've|we've|i|we|gil|petra|have|has|i'm|we're just|now|finally|also|all|both? =finished|=planed|=sanded|=cut|=ripped|=thicknessed|=fitted|=machined|=crosscut|=roughed|=drilled|=made|=done"},
				{Weight: 4, Pattern: "=ripped|=planed|=thicknessed|=roughed|=crosscut|=faced|=sanded|=machined and|, .."},
				{Weight: 4, Pattern: "last|other|remaining|rest|another .. =cut|=planed|=done|=made|=sanded|=fitted|=finished|=ripped|=thicknessed"},
				{Weight: 4, Pattern: "=cut|=planed|=made|=sanded|=fitted|=ripped all|both|the|last .."},
				{Weight: 6, Pattern: "=cut|=planed|=made|=sawed|=ripped|=trimmed|=drilled .. too|to =short|=narrow|=thin|=small|=deep"},
				{Weight: 6, Pattern: "=cut|=planed|=made|=sawed .. =short|=wrong"},
				{Weight: 6, Pattern: "=spoiled|=spoilt|=ruined|=botched|=wrecked|=scrapped|=snapped|=messed|=split|=broke|=broken|=cracked|=scrap .. the|a|my|one|it|up"},
				{Weight: 5, Pattern: "a|one|the .. =spoiled|=spoilt|=ruined|=botched|=wrecked|=snapped|=scrap|=split|=broke|=broken|=cracked"},
				{Weight: 5, Pattern: "needs|need|must|have|has making|remaking|doing|made|done|to again|be"},
				{Weight: 4, Pattern: "all|both|everything|half|rest .. =cut|=done|=made|=" + strings.ReplaceAll(stagePattern, "|", "|=")},
				{Weight: 4, Pattern: "are|is run|cut on|in both|all|the"},
				{Weight: 4, Pattern: "are|is in .. and|flush|flushed|off"},
				{Weight: 4, Pattern: "=done|=finished with the|all|both|my"},
				{Weight: 3, Pattern: "=done|=cut|=ready|=made|=" + strings.ReplaceAll(stagePattern, "|", "|=") + " $"},
				{Weight: 5, Pattern: "is|are|was|were|has|have|been|my not|never been|really|actually|yet? =cut|=done|=made|=ready|=complete|=sawn|=" + strings.ReplaceAll(stagePattern, "|", "|=")},
				{Weight: 5, Pattern: "isn't|aren't|wasn't|weren't|hasn't|haven't|isnt|arent been|really|actually|yet? =cut|=done|=made|=ready|=complete|=sawn|=" + strings.ReplaceAll(stagePattern, "|", "|=")},
				{Weight: 5, Pattern: partNouns + " not =cut|=done|=made|=ready|=sawn|=" + strings.ReplaceAll(stagePattern, "|", "|=")},
				{Weight: 16, Pattern: "^ untick|uncheck the|my|our|both|all .."},
				{Weight: 9, Pattern: "take|remove the|that tick|ticks|check off|from|back .."},
				{Weight: -20, Pattern: "untick|uncheck|tick the? step|steps|next|last|#"},
				{Weight: -9, Pattern: "^ show|list|tell|give|count|see"},
				{Weight: -9, Pattern: "^ what|who|when|how|which|where|is|are|did|do|does|has|have|can|could|should|shall|will|any|anything|must|may|wot"},
				{Weight: -9, Pattern: "?"},
				{Weight: -20, Pattern: "would|could|should|might|may|can have|be|get"},
				{Weight: -12, Pattern: "board|boards|plank|planks|sheet|sheets|offcut|timber|stock"},
				{Weight: -12, Pattern: "a|the|one split|crack|knot|shake|wane|hole"},
				{Weight: -12, Pattern: "# in? from|off the? left|right|top|bottom|end|edge|one"},
				{Weight: -9, Pattern: "note|remember|remind|fyi|i'll|we'll|going|if|when|then|will|shall"},
				{Weight: -7, Pattern: "clamps|cramps|clamp|epoxy|pva|polyurethane|glue"},
				{Weight: -9, Pattern: "finished|done|planed|sanded|rough|sawn|finish size|sizes|length|width|thickness|thick|at|is|to #length|#size"},
				{Weight: -6, Pattern: "#size"},
				{Weight: -6, Pattern: "#length"},
				{Weight: -4, Pattern: "volume|weight|price|each|many|much|kg|degrees|angle|mm"},
				{Weight: -12, Pattern: "lunch|dinner|supper|breakfast|soup|cake|bread|food|car|van|bike|phone|mum|dad|kids|house|homework|school|exam|train|washing|dishes|laundry|shopping|shower|beer|wine|pizza|sandwich|fingers|knee|back|wrist|lawn"},
				{Weight: -6, Pattern: "kettle|tea|coffee|bus|for today|tonight|hair|grass|hedge|finger|thumb|hand|day"},
				{Weight: -4, Pattern: "add|need|want|make|order|buy|put down"},
			},
			Needs: []speech.Need{
				{Name: "name", Kind: speech.KindWord, Label: "what", Own: true},
				{Name: "what", Kind: speech.KindWord, Own: true},
				{Name: "quantity", Kind: speech.KindCount, Label: "how many", Min: 1, Max: 10000, Own: true},
			},
			Before: readDone,
		},
		Answer: answerDone,
	}
}

func readDone(r *speech.Reading) {
	said := doneIn(r.Text)
	if len(said) == 0 || unticks.MatchString(r.Text) {
		said = notDoneIn(r.Text)
	}
	if r.Replying && len(said) == 0 {
		r.Word("name", r.Rest(0))
		return
	}
	if len(said) == 0 { // no, 4
		for i := range r.Items {
			if r.Free(i) && r.Alone(i) && r.Items[i].Q.Integer {
				r.Set("quantity", i)
				return
			}
		}
	}
	if len(said) == 1 {
		maps.Copy(r.Request.Slots, said[0].slots())
		r.Word("how", said[0].how)
		if said[0].some == "" {
			r.Drop("some")
		}
		return
	}
	for _, d := range said {
		r.Request.Items = append(r.Request.Items, speech.Request{Topic: r.Form.Name, Slots: d.slots()})
	}
}

func answerDone(a *Ask) Answer {
	asks := []*Ask{a}
	if len(a.Request.Items) > 0 {
		asks = nil
		for _, it := range a.Request.Items {
			one := *a
			one.Request = it
			asks = append(asks, &one)
		}
	}
	ans := say("")
	ans.echo = true
	for _, one := range asks {
		if err := one.countedUp(); err != nil {
			return ask(store.Sentence(err))
		}
	}
	if q := a.asksAboutNot(asks); q != nil {
		return *q
	}
	var heads []string
	state := map[string]book.Done{}
	for _, one := range asks {
		if one.Word("what") == "" && one.Word("how") != "spoiled" && one.Word("how") != untick {
			ans := ask("What is done with it: cut, planed, fitted, finished?")
			ans.shy = true
			return ans
		}
		names, problem, ok := one.workNamed("Shall I keep it as a task that is done?")
		if !ok && len(asks) > 1 {
			return a.someUnknown(asks, problem)
		}
		if !ok {
			return problem
		}
		head, problem, ok := one.progress(&ans, names, state)
		if !ok {
			return problem
		}
		heads = append(heads, head)
	}
	ans.Answer = shorten(capital(strings.Join(heads, "; ")), MaxHeadline)
	ans.shy = len(ans.effects) == 0 // nothing was ticked that isn't so: they tell each other
	ans.because("As you said it, on the list of parts; a later stage means that those before it are over (common practice, no source).")
	return ans
}

// countedUp takes the number behind a name for a part of it where a part is called so: slat 2 is one
// part, and no two slats.
func (a *Ask) countedUp() error {
	n, said := a.Float("quantity")
	name := fmt.Sprintf("%s %g", a.Word("name"), n)
	if !said || a.Has("of") || !strings.Contains(store.Fold(a.Typed), store.Fold(name)) {
		return nil
	}
	parts, err := a.parts()
	if p, there := partNamed(parts, name); there {
		a.Request.Slots["name"] = speech.Slot{Word: p.Name}
		delete(a.Request.Slots, "quantity")
	}
	return err
}

// progress writes what a message says of parts or a task.
func (a *Ask) progress(ans *Answer, names []work, state map[string]book.Done) (head string, problem Answer, ok bool) {
	done, err := a.doneSoFar()
	if err != nil {
		return "", ask(store.Sentence(err)), false
	}
	if n, some := a.Float("quantity"); some && len(names) > 1 && a.Word("how") != "all" {
		return "", a.whichWork(int(n), names), false
	}
	var heads []string
	for _, w := range names {
		was, told := state[w.name]
		if !told {
			was = stored(done, w.name)
		}
		now, text, problem, ok := a.further(ans, w, was)
		if !ok {
			return "", problem, false
		}
		if a.takesBack() && sameDone(was, now) {
			heads = append(heads, text)
			continue
		}
		now.Who, now.At = a.Who, a.Now.Format(time.RFC3339)
		state[w.name] = now
		ans.effects = append(ans.effects, put(a.Project.ID, book.WhatDone, w.name, now))
		ans.about(book.WhatPart, w.name)
		heads = append(heads, text)
	}
	return strings.Join(heads, ", "), problem, true
}

// whichWork asks which of several parts a count is about.
func (a *Ask) whichWork(n int, names []work) Answer {
	var options []speech.Option
	for _, w := range names {
		options = append(options, speech.Option{Label: w.name, Words: []string{strings.ToLower(w.name)}, Request: a.withName(w.name)})
	}
	ans := ask("")
	ans.open = speech.Choice(fmt.Sprintf("Of which of them are there %d?", n), options...)
	ans.open.Need = "name"
	ans.Question, ans.echo = ans.open.Text, true
	return ans
}

// further works out how far one part or task is now.
func (a *Ask) further(ans *Answer, w work, d book.Done) (now book.Done, head string, problem Answer, ok bool) {
	total := 1
	if w.part != nil {
		total = w.part.Quantity
	}
	if a.takesBack() {
		now, head = a.takeTick(w, d, total)
		return now, head, problem, true
	}
	n, said := a.Float("quantity")
	count := int(n)
	if a.Word("how") == "spoiled" {
		if !said {
			count = 1
		}
		if count > total {
			return d, "", ask(fmt.Sprintf("There are only %d of %s. How many were spoiled?", total, w.name)), false
		}
		return a.spoil(ans, w, d, count, total)
	}
	if of, ok := a.Float("of"); ok && w.part != nil && int(of) != total {
		return d, "", ask(fmt.Sprintf("The list has %d of %s, not %d. How many are %s?", total, w.name, int(of), a.Word("what"))), false
	}
	if a.Word("how") == "half" && total%2 != 0 {
		return d, "", askFor("quantity", fmt.Sprintf("There are %d of %s: how many are %s?", total, w.name, a.Word("what"))), false
	}
	if d.Stages == nil {
		d.Stages = map[string]int{}
	}
	var texts []string
	for _, stage := range strings.Fields(a.Word("what")) {
		was := reached(d, stage)
		is := a.countNow(was, count, total, said)
		if is > total {
			return d, "", ask(fmt.Sprintf("The list has only %d × %s, and %d of it %s already. How many is it altogether?", total, w.name, was, stage)), false
		}
		if stage == stageFinished {
			d.Quantity = is
		} else {
			d.Stages[stage] = is
		}
		texts = append(texts, stage)
		if is < was { // said to be fewer than before: what comes later can't be more
			d = noMore(d, stage, is)
		}
		count, said = is, true
	}
	if len(d.Stages) == 0 {
		d.Stages = nil
	}
	last := texts[len(texts)-1]
	if w.part == nil || total == 1 {
		return d, fmt.Sprintf("%s %s", w.name, strings.Join(texts, " and ")), problem, true
	}
	ans.Values["done"], ans.Values["left"] = reached(d, last), total-reached(d, last)
	return d, fmt.Sprintf("%s %s: %d of %d", w.name, strings.Join(texts, " and "), reached(d, last), total), problem, true
}

// countNow gives how many pieces are at a stage now: all, so many altogether, or so many more.
func (a *Ask) countNow(was, count, total int, said bool) int {
	switch a.Word("how") {
	case "of":
		return count
	case "half":
		return total / 2
	case "but":
		return max(0, total-count)
	case "more":
		return was + count
	case "last":
		if !said || was+count >= total || was == 0 {
			return total
		}
		return was + count
	}
	switch {
	case !said:
		return total
	case count > was:
		return count
	case a.Word("how") == "all":
		return total
	}
	return was + count
}
