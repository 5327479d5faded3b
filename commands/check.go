package commands

import (
	"fmt"
	"strings"

	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

func check() *Topic {
	return &Topic{
		Title:    "what is wrong or odd with the list of parts",
		Examples: []string{"anything odd on the list?", "check the parts before I cut"},
		Form: speech.Form{
			Name: "check",
			Cues: []speech.Cue{
				{Weight: 9, Pattern: "check|recheck the|our|my|all? plan|parts|list|sizes|cutlist|everything|numbers"},
				{Weight: 9, Pattern: "anything|something|what .. odd|wrong|amiss|off|funny|strange|missing .. list|parts|plan|sizes"},
				{Weight: 9, Pattern: "sanity check"},
				{Weight: 9, Pattern: "double check the?|our? parts|list|plan|sizes|everything"},
				{Weight: 9, Pattern: "did|have we|i forget|forgot|forgotten|miss|missed something|anything"},
				{Weight: 9, Pattern: "does|do|will it|that|this|they|everything all? fit on|in|out"},
				{Weight: 7, Pattern: "mistake|mistakes|error|errors .. list|parts|plan"},
				{Weight: -9, Pattern: "note|remember|remind|square|diagonals"},
			},
		},
		Answer: answerCheck,
	}
}

func answerCheck(a *Ask) Answer {
	parts, err := a.parts()
	if err != nil {
		return ask(store.Sentence(err))
	}
	boards, err := a.stocked()
	if err != nil {
		return ask(store.Sentence(err))
	}
	measures, err := a.measures()
	if err != nil {
		return ask(store.Sentence(err))
	}
	if len(parts) == 0 {
		return say("Nothing to check: no parts on the list yet")
	}
	x := a.allowances()
	shortest, _ := a.Settings.length("machine_minimum")
	odd := findings(parts, boards, book.Part{Length: book.MM(x.Length), Width: book.MM(x.Width), Thickness: book.MM(x.Thickness)}, shortest)
	for _, m := range measures {
		if m.Is.Doubt != nil {
			odd = append(odd, a.measureText(m))
		}
	}
	ans := say(fmt.Sprintf("Nothing odd in %s", totals(parts)))
	if len(odd) > 0 {
		ans = say(fmt.Sprintf("%s in %s", plural(len(odd), "thing to look at", "things to look at"), totals(parts)))
	}
	ans.echo = true
	for _, f := range odd {
		ans.line("- " + f)
	}
	if names := unmeasured(parts); len(names) > 0 {
		ans.line("Nobody measured these on site: " + shorten(strings.Join(names, ", "), 300) + ".")
	}
	ans.Values["findings"] = len(odd)
	return ans
}
