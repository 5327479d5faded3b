package commands

import (
	"fmt"
	"slices"
	"strings"

	"fettle/calc/cutplan/blanks"
	"fettle/calc/joinery"
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
				{Weight: 9, Pattern: "what's|whats .. odd|wrong|amiss .. list|parts|plan|sizes"},
				{Weight: 9, Pattern: "is|does|if|whether the|our|my plan|list|cutlist|layout still|all? right|ok|okay|fine|good|correct|valid|hold|holds|stand|stands"},
				{Weight: 9, Pattern: "changed|change since the|our? .. plan|plans"},
				{Weight: 9, Pattern: "look|run|go|cast|glance .. over|through|at .. list|parts|plan|sizes .. wrong|amiss|odd|mistake|mistakes|fault|faults|right|missing"},
				{Weight: 9, Pattern: "anything|something|faults|fault|errors .. in|on|about|with the|our|my? list|parts|plan|sizes"},
				{Weight: 8, Pattern: "verify|validate|proof|proofread the|our|my|all|that? .. parts|list|plan|sizes|elements|pieces"},
				{Weight: 8, Pattern: "over the|our|my list|parts|plan .. wrong|amiss|odd|missing|mistakes"},
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
	in, err := a.planInput()
	if err != nil {
		return ask(store.Sentence(err))
	}
	measures, err := a.measures()
	if err != nil {
		return ask(store.Sentence(err))
	}
	if len(in.parts) == 0 {
		return say("Nothing to check: no parts on the list yet")
	}
	plan, err := a.oddPlan(&in)
	if err != nil {
		return ask(store.Sentence(err))
	}
	c := a.lookingOver(&in, measures, plan.leftOut)
	odd := c.findings()
	for _, m := range measures {
		if m.Is.Doubt != nil {
			odd = append(odd, a.measureText(m))
		}
	}
	groups, err := a.joineryGroups()
	if err != nil {
		return ask(store.Sentence(err))
	}
	odd = append(append(odd, a.oddMade(c, groups)...), plan.odd...)
	ans := say(fmt.Sprintf("Nothing odd in %s", totals(in.parts)))
	if len(odd) > 0 {
		ans = say(fmt.Sprintf("%s in %s", plural(len(odd), "thing to look at", "things to look at"), totals(in.parts)))
	}
	ans.echo = true
	for _, f := range odd {
		ans.line("- " + f)
	}
	if names := unmeasured(in.parts, groups); len(names) > 0 {
		ans.line("Nobody measured these on site: " + shorten(strings.Join(names, ", "), 300) + ".")
	}
	if plan.word != "" {
		ans.line(plan.word)
	}
	ans.Values["findings"] = len(odd)
	return ans
}

// lookingOver gathers what is looked over. Of the timber nothing is said where none is on hand, nor of
// parts that are sawn or that the plan has given its reason for.
func (a *Ask) lookingOver(in *planInput, measures []book.Named[book.Measure], planned map[string]bool) *lookedOver {
	shortest, _ := a.Settings.length("machine_minimum")
	job, _ := in.job()
	return &lookedOver{out: a.System, parts: in.parts, measures: measures, shortest: shortest, lack: func(name string) string {
		i := slices.IndexFunc(job.Parts, func(p blanks.Part) bool { return p.Name == name })
		if len(job.Boards) == 0 || i < 0 || job.Parts[i].Quantity == 0 || planned[store.Fold(name)] {
			return ""
		}
		return job.Lack(i)
	}}
}

// oddMade finds what does not agree between the parts, what was asked for and what was measured.
func (a *Ask) oddMade(c *lookedOver, groups []madeGroup) (odd []string) {
	for _, g := range groups {
		if !slices.ContainsFunc(c.parts, func(p book.Named[book.Part]) bool { return p.Is.From == g.Name }) {
			continue
		}
		made, m, _, err := a.remade(g.Name, nil)
		if err != nil {
			odd = append(odd, fmt.Sprintf("The %s can't be made as it was asked for: %s.", g.Name, strings.TrimSuffix(err.Error(), ".")))
			continue
		}
		as := madeAs{name: g.Name, parts: made, item: itemHeight(g, m)}
		if shelf, ok := partOfKind(made, "shelf"); ok {
			as.board = shelf.Is.Thickness
		}
		odd = append(odd, c.notAsMade(as)...)
		if g.Is["read_as"].Word == "" && isSize[g.Is["what"].Word] == nil {
			odd = append(odd, c.otherOpening(g.Name, openingAgainst(g, c.measures))...)
		}
	}
	width, height := openingOnSite(c.measures)
	return append(append(odd, c.doorOnSite(width, height)...), c.doorByItself()...)
}

// itemHeight is how high what a rack keeps is, as it was said or else assumed; 0 of what keeps nothing.
func itemHeight(g madeGroup, m joinery.Made) book.MM {
	if s, said := g.Is["item_height_mm"]; said && s.Num != nil {
		return bookMM(s.Float())
	}
	for _, s := range m.Assumptions {
		if s.Need == "item_height_mm" {
			return bookMM(s.Figure.Value)
		}
	}
	return 0
}

// openingAgainst puts the opening that was said beside the one that was measured.
func openingAgainst(g madeGroup, measures []book.Named[book.Measure]) (out []measureChange) {
	for _, m := range doorOpening(measures).measures {
		if c, ok := sizeOfOpening(g, m); ok {
			out = append(out, c)
		}
	}
	return out
}

// openingOnSite gives the least width and the greatest height that were measured of the opening,
// 0 for what was not.
func openingOnSite(measures []book.Named[book.Measure]) (width, height book.MM) {
	for _, m := range doorOpening(measures).measures {
		switch shapeNeed(m) {
		case "height_mm", "left_mm", "right_mm":
			height = max(height, m.Is.Size)
		case "width_mm", "top_mm", "bottom_mm":
			if width == 0 || m.Is.Size < width {
				width = m.Is.Size
			}
		}
	}
	return width, height
}
