package commands

import (
	"fmt"
	"strings"

	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

func partsList() *Topic {
	return &Topic{
		Title:    "the list of parts, whole or by timber, group or name",
		Examples: []string{"show the parts", "what's on the list", "list all the pieces in ash"},
		Form: speech.Form{
			Name: "parts",
			Cues: []speech.Cue{
				{Weight: 7, Pattern: "show|list|see|read|give|print|tell me|us|back? .. =parts|pieces|bits|cutlist"},
				{Weight: 7, Pattern: "what|which =parts|pieces have|are|do"},
				{Weight: 7, Pattern: "show|see|read|give|print|send|pull .. piece|pieces|element|elements|part list"},
				{Weight: 7, Pattern: "show|see|read|give|print|list all|every|the .. =parts|pieces|elements .. list"},
				{Weight: 6, Pattern: "^ all|every =parts|pieces|elements thinner|thicker|longer|shorter|wider|narrower|under|over|made|from|in|of"},
				{Weight: 7, Pattern: "show|see|read|give|print|send me|us|back? the|our|my|whole|full =parts? list"},
				{Weight: 6, Pattern: "^ show|read|see me|us? the? list"},
				{Weight: 7, Pattern: "what|whats|what's|anything|which .. on the|our|my list"},
				{Weight: 6, Pattern: "^ all|the|our? =parts|cutlist|list list? $"},
				{Weight: 6, Pattern: "how many =parts|pieces|bits"},
				{Weight: 6, Pattern: "what|which|how many =parts|pieces .. have|got|are|is|there"},
				{Weight: 7, Pattern: "what|which =length|width|thickness|size is|are|do|does the|our|my|those .. " + partNouns},
				{Weight: 6, Pattern: "how long|wide|thick|big is|are the|our|those .. " + partNouns},
				{Weight: -8, Pattern: "done|left|made|cut|sawn|planed|missing|outstanding|open"},
				{Weight: -8, Pattern: "check|mistake|mistakes|odd|wrong|error|errors"},
				{Weight: -8, Pattern: "board|boards|stock|timber|note|notes|log|glue|rough|opening|window|project|projects"},
				{Weight: -8, Pattern: "^ add|put|#"},
				{Weight: -6, Pattern: "was|did"},
			},
			Needs: []speech.Need{
				{Name: "species", Kind: speech.KindWord, Label: "timber", Vocab: speciesWords},
				{Name: "name", Kind: speech.KindWord, Label: "part", Own: true},
			},
			Before: func(r *speech.Reading) {
				if n := restBehind(r, "=length|width|thickness|size is|are|do|does the|our|my|those|all?", "how long|wide|thick|big is|are the|our|those", "for|of|in|on the|our|my"); n != "" && !strings.HasPrefix(n, "list") {
					r.Word("name", n)
				} else if n := nameIn(r, 0, len(r.Items)); n != "" && r.Says("show|list|see|read|give .. "+partNouns) && !r.Says("show|list|see|read|give .. =parts|pieces|list|bits|cutlist") {
					r.Word("name", n)
				}
			},
		},
		Answer: answerParts,
	}
}

// mostPartLines is how many parts one answer shows.
const mostPartLines = 40

func answerParts(a *Ask) Answer {
	list, err := a.parts()
	if err != nil {
		return ask(store.Sentence(err))
	}
	if len(list) == 0 {
		return say("No parts on the list yet")
	}
	if name := idleEnd(a.Word("name")); name != "" {
		found, q, err := a.findParts(name)
		switch {
		case err != nil:
			return ask(store.Sentence(err))
		case q != nil && len(q.Options) > 0 && len(q.Options) < len(list):
			ans := ask(q.Text)
			ans.open, ans.echo = q, true
			return ans
		case q != nil && !strings.Contains(a.Word("name"), "list"):
			ans := say(shorten("Nothing on the list is called "+name, MaxHeadline), "On the list: "+totals(list)+".")
			ans.echo = true
			return ans
		case q == nil:
			list = found
		}
	}
	if s := a.Word("species"); s != "" {
		list = ofTimber(list, s)
	}
	return a.showParts(list)
}

// idleEnd takes from a name what people add to a question.
func idleEnd(name string) string {
	for {
		i := strings.LastIndex(name, " ")
		switch last := name[i+1:]; last {
		case "now", "please", "pls", "then", "again", "long", "so", "far", "exactly", "have", "total":
			name = strings.TrimSpace(name[:max(i, 0)])
		default:
			return name
		}
	}
}

func ofTimber(list []book.Named[book.Part], species string) (out []book.Named[book.Part]) {
	for _, p := range list {
		if strings.Contains(p.Is.Species, species) {
			out = append(out, p)
		}
	}
	return out
}

func (a *Ask) showParts(list []book.Named[book.Part]) Answer {
	if len(list) == 0 {
		return say("No such part on the list")
	}
	ans := say(capital(totals(list)))
	if len(list) == 1 {
		ans = say(shorten(a.partText(list[0]), MaxHeadline))
	}
	ans.echo = true
	pieces := 0
	for i, p := range list {
		pieces += p.Is.Quantity
		ans.about(book.WhatPart, p.Name)
		if i < mostPartLines && (len(list) > 1 || p.Is.Stale != "" || p.Is.Group != "") {
			ans.line(a.listLine(p))
		}
	}
	if more := len(list) - mostPartLines; more > 0 {
		ans.line(fmt.Sprintf("and %d more: ask by timber, group or name", more))
	}
	ans.Values["parts"], ans.Values["pieces"] = len(list), pieces
	return ans
}

// listLine says a part with what it is for and what is doubtful.
func (a *Ask) listLine(p book.Named[book.Part]) string {
	text := "- " + a.partText(p)
	if p.Is.Group != "" {
		text += ", " + p.Is.Group
	}
	if p.Is.Stale != "" {
		text += " — " + p.Is.Stale
	}
	return text
}
