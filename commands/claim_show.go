package commands

import (
	"fmt"
	"slices"
	"strings"

	"fettle/commands/book"
	"fettle/store"
)

// on lists the claims on a part or a task.
func on(claims []book.Named[book.Claim], name string) (out []book.Named[book.Claim]) {
	for _, c := range claims {
		if store.Fold(c.Name) == store.Fold(name) || store.Fold(c.Is.Of) == store.Fold(name) {
			out = append(out, c)
		}
	}
	return out
}

// whoIsOn answers who is on what.
func (a *Ask) whoIsOn() Answer {
	claims, err := a.claims()
	if err != nil {
		return ask(store.Sentence(err))
	}
	if w := a.Word("who"); w != "" && a.Word("name") == "" {
		who, _, problem := a.person()
		if problem != "" {
			return ask(problem)
		}
		return a.onList(who+" is on", slices.DeleteFunc(claims, func(c book.Named[book.Claim]) bool { return store.Fold(c.Is.Who) != store.Fold(who) }))
	}
	if a.Word("name") == "" {
		return a.onList("On it", claims)
	}
	names, problem, ok := a.workNamed("Who is on it nobody has said.")
	if !ok {
		if problem.open != nil && strings.HasSuffix(problem.Question, "nobody has said.") {
			ans := say(shorten("Nobody has said who is on "+quoted(a.Word("name")), MaxHeadline), "There is no such part on the list either.")
			ans.echo, ans.shy = true, true
			return ans
		}
		return problem
	}
	var found []book.Named[book.Claim]
	var free []string
	for _, w := range names {
		c := on(claims, w.name)
		found = append(found, c...)
		if len(c) == 0 {
			free = append(free, w.name)
		}
	}
	if len(found) == 0 {
		ans := say(shorten("Nobody is on "+listed(names)+" yet", MaxHeadline), "“I'll take it” changes that.")
		ans.echo = true
		for _, w := range names {
			ans.about(book.WhatPart, w.name)
		}
		return ans
	}
	ans := a.onList("", found)
	if len(free) > 0 {
		ans.line("- free: " + strings.Join(free, ", "))
	}
	for _, w := range names {
		ans.about(book.WhatPart, w.name)
	}
	return ans
}

// onList lists claims by person.
func (a *Ask) onList(head string, claims []book.Named[book.Claim]) Answer {
	if len(claims) == 0 {
		if head == "On it" || head == "" {
			return say("Nobody is on anything yet")
		}
		ans := say(shorten(head+" nothing yet", MaxHeadline))
		ans.echo = true
		return ans
	}
	var order []string
	by := map[string][]string{}
	for _, c := range claims {
		name := c.Name
		if c.Is.Of != "" {
			name = fmt.Sprintf("%d of %s", c.Is.Count, c.Is.Of)
		}
		if by[c.Is.Who] == nil {
			order = append(order, c.Is.Who)
		}
		by[c.Is.Who] = append(by[c.Is.Who], name)
	}
	var heads []string
	for _, who := range order {
		heads = append(heads, who+": "+strings.Join(by[who], ", "))
	}
	ans := say(shorten(strings.Join(heads, "; "), MaxHeadline))
	ans.echo = true
	if strings.HasSuffix(ans.Answer, "…") {
		for _, h := range heads {
			ans.line("- " + h)
		}
	}
	for _, c := range claims {
		name := c.Name
		if c.Is.Of != "" {
			name = c.Is.Of
		}
		ans.about(book.WhatPart, name)
	}
	return ans
}
