package commands

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

func claim() *Topic {
	return &Topic{
		Title:    "who is on what: take parts or tasks, give them back",
		Examples: []string{"I'll take the rails", "Gil does the bows and I do the door", "who's on the trim", "I give the rails back"},
		Form: speech.Form{
			Name: "claim", Writes: true,
			Cues: []speech.Cue{
				{Weight: 6, Pattern: "i'll|we'll|he'll|she'll|i|we|gil|petra will|shall|can|could|would|also|just|then? take|takes|do|have|claim|handle|make|start|cut|plane|sand|rip the|my|both|all|some|half|those|these"},
				{Weight: 6, Pattern: "i'll|we'll|he'll|she'll take|do|have|claim|handle|make|start|get|see"},
				{Weight: 5, Pattern: "i|we|he|she|they|gil|petra =do|=does|=take|=takes|=claim|=claims the|my|both|all"},
				{Weight: 5, Pattern: "i|we|he|she|they|gil|petra =do|=does|=take|=takes|=claim|=claims #"},
				{Weight: 5, Pattern: "i'm|i|we're|gil|petra am|is|are|was? =on|doing|taking|making the|all|both|my"},
				{Weight: 6, Pattern: "is|are|be|stay|stays|all|both =mine|=yours"},
				{Weight: 6, Pattern: "=mine =then|now|please $"},
				{Weight: 6, Pattern: "leave|give|hand|pass|put .. to|for|with me|him|her|gil|petra"},
				{Weight: 6, Pattern: "put me|gil|petra|us down|on|for"},
				{Weight: 5, Pattern: "is|are|goes|go for|to|with me|gil|petra"},
				{Weight: 6, Pattern: "let me|us|gil|petra do|take|have|make|handle"},
				{Weight: 6, Pattern: "ill|im|ive =take|=do|doing|=have|=make|on the|my|both|all|some"},
				{Weight: 6, Pattern: ": =mine"},
				{Weight: 6, Pattern: "^ whose"},
				{Weight: 6, Pattern: "isn't|aren't|not|won't|can't|cannot|don't|longer doing|taking|making|=on|do|take|manage|make the|my|both|all|any"},
				{Weight: 6, Pattern: "somebody|someone|anyone|anybody else take|takes|do|does|have|can|could|please"},
				{Weight: 6, Pattern: "dibs|bagsy|bags|claim|claims|claimed|unclaim"},
				{Weight: 7, Pattern: "who|who's|whos|whose|anyone|anybody|someone|nobody is|are|has|have|does|do|will|was|got|it|that? =on|=has|doing|=does|taking|=takes|=got|making|=have|with|turn|job"},
				{Weight: 6, Pattern: "who's|whos|whose|who =on|=has|doing|taking|making|=got|is|job|does|takes"},
				{Weight: 7, Pattern: "who is|does|takes|has|makes|'s? doing|the|which|what|on"},
				{Weight: 5, Pattern: "what am|is|are|have|has i|gil|petra|we =on|got|doing|claimed|taken"},
				{Weight: 7, Pattern: "give|hand|giving back|up"},
				{Weight: 5, Pattern: "give|hand|giving the|my|both|them|those .. back|up"},
				{Weight: 6, Pattern: "i|i'm|i'll|we|gil|petra|can't|won't|not not|can't|cannot|won't|don't|no? manage|do|doing|make|take|taking the .. after|any|anymore|now|myself|tonight|this"},
				{Weight: 6, Pattern: "can't|cannot|won't =do|manage|=take|make|finish the|my|both|all"},
				{Weight: 6, Pattern: "take me|gil|petra off"},
				{Weight: 6, Pattern: "free|=up for =again|grabs"},
				{Weight: 6, Pattern: "swap|swapping|trade"},
				{Weight: -9, Pattern: "who has|have|had =measured|=cut|=glued|=made|=said|=noted|=written|=bought"},
				{Weight: -6, Pattern: "who did|measured|cut|glued|made|said|wrote|was|were|put|bought"},
				{Weight: -6, Pattern: "did|yesterday|last|when|ago"},
				{Weight: -9, Pattern: "note|remember|remind"},
				{Weight: -9, Pattern: "#duration longer|more|to"},
				{Weight: -6, Pattern: "take|takes # off|from|kg|kilos"},
				{Weight: -6, Pattern: "clamps|cramps|undo|scratch|settings|project|allowance|kerf"},
				{Weight: -5, Pattern: "that|it|this back"},
				{Weight: -5, Pattern: "left|next|outstanding|still for|to"},
				{Weight: -5, Pattern: "we have|got"},
				{Weight: -4, Pattern: "#size"},
				{Weight: -5, Pattern: "#length"},
				{Weight: -4, Pattern: "kettle|tea|coffee|bus|train|lunch|dinner|dog|kids|car|van|holiday|shopping|day off"},
			},
			Needs: []speech.Need{
				{Name: "who", Kind: speech.KindWord, Own: true},
				{Name: "name", Kind: speech.KindWord, Label: "what", Own: true},
				{Name: "quantity", Kind: speech.KindCount, Label: "how many", Min: 1, Max: 10000, Own: true},
			},
			Before: readClaim,
		},
		Answer: answerClaim,
	}
}

// readClaim reads who takes what: of one clause into the request itself, of several into its items.
func readClaim(r *speech.Reading) {
	said := claimsIn(r.Text)
	if len(said) == 1 {
		said[0].into(r.Request.Slots)
		r.Word("action", said[0].action)
		return
	}
	if len(said) == 0 && !r.Replying {
		r.Question = &speech.Question{Text: "Who takes what? Say for instance “Gil takes the rails”, or ask “who's on the rails”."}
	}
	for _, c := range said {
		it := speech.Request{Topic: r.Form.Name, Slots: map[string]speech.Slot{"action": {Word: c.action}}}
		c.into(it.Slots)
		r.Request.Items = append(r.Request.Items, it)
	}
}

func (c claimSaid) into(slots map[string]speech.Slot) {
	if c.who != "" {
		slots["who"] = speech.Slot{Word: c.who}
	}
	what, count := countedOf(c.what)
	if rest, ok := halfOf(what); ok {
		what = rest
		slots["half"] = speech.Slot{Word: "yes"}
	}
	if what != "" {
		slots["name"] = speech.Slot{Word: what}
	}
	if count != nil {
		slots["quantity"] = *count
	}
}

// halfOf takes the half from in front of what.
func halfOf(what string) (rest string, ok bool) {
	if !strings.HasPrefix(strings.ToLower(what), "half ") {
		return what, false
	}
	return articles.ReplaceAllString(strings.TrimPrefix(what[len("half "):], "of "), ""), true
}

// countedOf takes how many from in front of what: "3 of the slats", "two rails".
func countedOf(what string) (rest string, count *speech.Slot) {
	s := speech.Read(what)
	if len(s.Items) < 2 || s.Items[0].Q == nil || !s.Items[0].Q.Integer || s.Items[0].Q.Value == nil || s.Items[0].Q.High != nil ||
		!s.Items[0].Q.Bare() && s.Items[0].Q.Kind != speech.KindCount || s.Items[1].Q != nil {
		return what, nil
	}
	if n := s.Items[0].Q.Value; n.Sign() <= 0 || n.Num().Int64() > 60 { // "the 612 rail" is a size
		return what, nil
	}
	k := 1
	for k < len(s.Items)-1 && (s.Items[k].Text == "of" || s.Items[k].Text == "the" || s.Items[k].Text == "my" || s.Items[k].Text == "more") {
		k++
	}
	q := s.Items[0].Q.Value
	return s.Text[s.Items[k].Start:], &speech.Slot{Num: q, Said: q}
}

func answerClaim(a *Ask) Answer {
	if len(a.Request.Items) == 0 {
		if a.Word("action") == "ask" || a.Word("name") == "" && a.Word("action") == "" {
			return a.whoIsOn()
		}
		return a.takes(a)
	}
	var asks []*Ask
	for _, it := range a.Request.Items {
		one := *a
		one.Request = it
		asks = append(asks, &one)
	}
	return a.takes(asks...)
}

// takes carries out what is said of who takes what; one thing that can't be settled is asked, and
// nothing is changed then.
func (a *Ask) takes(asks ...*Ask) Answer {
	claims, err := a.claims()
	if err != nil {
		return ask(store.Sentence(err))
	}
	ans := say("")
	ans.echo = true
	var heads []string
	for _, one := range asks {
		who, key, problem := one.person()
		if problem != "" {
			return ask(problem)
		}
		if len(asks) == 1 {
			ans.Given["who"] = who
		}
		names, problemAnswer, ok := one.workNamed("Shall I keep it as a task of its own?")
		if !ok && len(asks) > 1 {
			return a.someUnknown(asks, problemAnswer)
		}
		if !ok {
			return problemAnswer
		}
		var head string
		if one.Word("action") == "free" {
			head, claims = one.giveBack(&ans, names, claims)
		} else if head, claims, problemAnswer, ok = one.take(&ans, names, who, key, claims); !ok {
			return problemAnswer
		}
		heads = append(heads, head)
	}
	ans.Answer = shorten(strings.Join(heads, "; "), MaxHeadline)
	return ans
}

// person gives who takes it, as that person is known here.
func (a *Ask) person() (who, key, problem string) {
	switch w := strings.ToLower(a.Word("who")); w {
	case "", "i", "me":
		return a.Who, a.WhoKey, ""
	case "we", "us", "both":
		return "both", "", ""
	case "he", "she", "they", "you", "somebody", "someone":
		return "", "", "Who is that? Say the name, for instance “Gil takes the rails”."
	}
	who, key = a.known(a.Word("who"))
	return who, key, ""
}

// known gives the name and the key of somebody who has written here, or the name as it was said.
func (a *Ask) known(name string) (who, key string) {
	if store.Fold(name) == store.Fold(a.Who) {
		return a.Who, a.WhoKey
	}
	found, err := a.Tx.Search(store.Query{Project: a.Project.ID, Who: name, Kinds: []string{store.Message}, Limit: 1})
	if err != nil || len(found) == 0 {
		return capital(name), ""
	}
	return found[0].Who, found[0].WhoKey
}

// take puts somebody on parts or a task. What somebody else is on is asked about first, unless
// that person hands it over or only some of several pieces are meant.
func (a *Ask) take(ans *Answer, names []work, who, key string, claims []book.Named[book.Claim]) (head string, now []book.Named[book.Claim], problem Answer, ok bool) {
	n, some := a.Float("quantity")
	count := int(n)
	if a.Word("half") != "" && len(names) == 1 && names[0].part != nil {
		total := names[0].part.Quantity
		if count, some = total/2, true; total%2 != 0 {
			return "", claims, askFor("quantity", fmt.Sprintf("There are %d of %s. How many?", total, names[0].name)), false
		}
	}
	if some && len(names) > 1 {
		return "", claims, ask(fmt.Sprintf("Which of them: %s?", listed(names))), false
	}
	for _, w := range names {
		if some && w.part != nil && count >= w.part.Quantity {
			if count > w.part.Quantity {
				return "", claims, ask(fmt.Sprintf("There are only %d of %s. How many?", w.part.Quantity, w.name)), false
			}
			some = false
		}
		others := slices.DeleteFunc(on(claims, w.name), func(c book.Named[book.Claim]) bool { return store.Fold(c.Is.Who) == store.Fold(who) })
		if problem, busy := a.taken(w, others, some, count); busy {
			return "", claims, problem, false
		}
		c := book.Claim{Who: who, WhoKey: key, At: a.Now.Format(time.RFC3339)}
		name := w.name
		if some {
			c.Count, c.Of, name = count, w.name, w.name+", "+who
		} else {
			for _, o := range on(claims, w.name) {
				if store.Fold(o.Name) != store.Fold(name) {
					ans.effects = append(ans.effects, remove(a.Project.ID, book.WhatClaim, o.Name))
				}
			}
			claims = slices.DeleteFunc(slices.Clone(claims), func(o book.Named[book.Claim]) bool { return len(on([]book.Named[book.Claim]{o}, w.name)) > 0 })
		}
		ans.effects = append(ans.effects, put(a.Project.ID, book.WhatClaim, name, c))
		claims = append(slices.Clone(claims), book.Named[book.Claim]{Name: name, Is: c})
		ans.about(book.WhatPart, w.name)
	}
	what := listed(names)
	if some {
		what = fmt.Sprintf("%d of %s", count, what)
	}
	return fmt.Sprintf("%s: %s", who, what), claims, problem, true
}

// taken asks whether something that somebody else is on is to be taken over.
func (a *Ask) taken(w work, others []book.Named[book.Claim], some bool, count int) (Answer, bool) {
	if len(others) == 0 || a.Word("over") != "" {
		return Answer{}, false
	}
	mine := !slices.ContainsFunc(others, func(c book.Named[book.Claim]) bool { return c.Is.WhoKey != a.WhoKey || a.WhoKey == "" })
	if mine { // handed over by the one who was on it
		return Answer{}, false
	}
	spoken := 0
	for _, o := range others {
		if o.Is.Count == 0 && w.part != nil {
			spoken = w.part.Quantity
		}
		spoken += o.Is.Count
	}
	if some && w.part != nil && spoken+count <= w.part.Quantity {
		return Answer{}, false
	}
	r := a.Request
	r.Slots = maps.Clone(r.Slots)
	r.Slots["over"] = speech.Slot{Word: "yes"}
	ans := ask(fmt.Sprintf("%s is on %s. Take it over?", others[0].Is.Who, w.name))
	ans.echo = true
	ans.open = &speech.Question{Text: ans.Question, Options: []speech.Option{{Label: "take it over", Words: []string{"yes", "take over"}, Request: r}}}
	return ans, true
}

// giveBack frees parts or a task.
func (a *Ask) giveBack(ans *Answer, names []work, claims []book.Named[book.Claim]) (head string, now []book.Named[book.Claim]) {
	freed := 0
	for _, w := range names {
		for _, c := range on(claims, w.name) {
			ans.effects = append(ans.effects, remove(a.Project.ID, book.WhatClaim, c.Name))
			claims = slices.DeleteFunc(slices.Clone(claims), func(o book.Named[book.Claim]) bool { return o.Name == c.Name })
			freed++
		}
		ans.about(book.WhatPart, w.name)
	}
	if freed == 0 {
		return "Nobody was on " + listed(names), claims
	}
	return "Free again: " + listed(names), claims
}
