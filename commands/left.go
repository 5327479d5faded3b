package commands

import (
	"fmt"
	"slices"
	"strings"

	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

func left() *Topic {
	return &Topic{
		Title:    "what is left to do, and what is next for you",
		Examples: []string{"what's left", "what's next for me", "what's left for Petra", "how many slats still to do"},
		Form: speech.Form{
			Name: "left",
			Cues: []speech.Cue{
				{Weight: 7, Pattern: "what|what's|whats|wot|how|which|anything|much|many|lot|whatever .. =left|outstanding|remaining|remains|undone|unfinished to|for|on|2|do|?"},
				{Weight: 6, Pattern: "what|what's|whats|wot is|are|'s? =left"},
				{Weight: 7, Pattern: "what|what's|whats|wot is|are|do|does|should|shall|can|could? i|we|gil|petra|the|my|up|do|coming? =next"},
				{Weight: 7, Pattern: "=next for|job|jobs|task|up|please|step me|us|gil|petra|him|her|?"},
				{Weight: 7, Pattern: "what|what's|whats on|for my|our|your|gil's|petra's plate"},
				{Weight: 7, Pattern: "what|what's|whats .. must|has|needs =still .. happen|done|doing|do"},
				{Weight: 7, Pattern: "what =still needs|must|has|wants .. doing|done|happen|do|finishing"},
				{Weight: 7, Pattern: "what must|has there? =still|yet .. happen|do|done|be|at|on"},
				{Weight: 5, Pattern: "^ =next $"},
				{Weight: 7, Pattern: "what|what's|which|anything .. need|needs|wants doing|making|cutting|planing|finishing"},
				{Weight: 5, Pattern: "^ and? what now $"},
				{Weight: 24, Pattern: "what .. can|could|should i|we =do|make|start while|until|till|meanwhile"},
				{Weight: 7, Pattern: "what|what's|which|anything .. =still|yet|need|needs|missing|open|to to|open|be|do|done|make|made|cut|missing"},
				{Weight: 7, Pattern: "how many|much .. =still|left|remain|remaining|open|more|to to|do|open|go|make|cut|on|for|?"},
				{Weight: 6, Pattern: "how many|much .. to|left do|go|make|cut|plane"},
				{Weight: 7, Pattern: "which|what|any|anything .. aren't|arent|isn't|isnt|not|haven't|havent|unmade made|done|cut|been|finished|planed|yet|fitted"},
				{Weight: 7, Pattern: "what|which .. have|has|do|must|should|need|can|could|shall i|we|gil|petra .. to|left =do|make|cut|plane|start"},
				{Weight: 6, Pattern: "what|which should|shall|can|could|do|must i|we|gil|petra do|start|work|make|get .."},
				{Weight: 6, Pattern: "anything|something|what outstanding|left|open|for|to for|do|me|gil|petra|us .."},
				{Weight: 6, Pattern: "outstanding|to-do|todo|unfinished"},
				{Weight: 6, Pattern: "how far|are|is are|is|have we|i|the|it|petra|gil|with .. along|got|on|far|with|?"},
				{Weight: 6, Pattern: "are|is|have|has we|i|it|the|that|everything|all .. done|finished|nearly|there yet|?"},
				{Weight: 6, Pattern: "where are|do we|i|things with|on|stand|at"},
				{Weight: 5, Pattern: "=left =to =do"},
				{Weight: -9, Pattern: "clamps|cramps|glue|epoxy|pva|timer|timers|dry|cured"},
				{Weight: -9, Pattern: "boards|board|timber|stock|sheets|wood|offcut|offcuts .. have|left|got|in"},
				{Weight: -9, Pattern: "left|remaining of|in the? oak|ash|sapele|larch|pine|timber|wood|boards|stock|plank|planks"},
				{Weight: -9, Pattern: "left|right hand|stile|rail|side|end|edge|batten|one|corner|hinge is|was|has|at|to? #?"},
				{Weight: -6, Pattern: "#length"},
				{Weight: -6, Pattern: "#size"},
				{Weight: -9, Pattern: "when are|is|do|can we|i|it|the in|open|there"},
				{Weight: -9, Pattern: "open|fits|fit|squeeze|long have"},
				{Weight: -6, Pattern: "did|was|happened|bought|said|buy|order|coats|clamps"},
				{Weight: -9, Pattern: "note|remember|notes|log|settings|project|help|can you"},
				{Weight: -7, Pattern: "how much|many .. #"},
				{Weight: -7, Pattern: "long|longer|time"},
				{Weight: -6, Pattern: "set|setting the? saw|fence|machine|stop"},
			},
			Needs: []speech.Need{
				{Name: "name", Kind: speech.KindWord, Label: "what", Own: true},
				{Name: "who", Kind: speech.KindWord, Own: true},
			},
			Before: readLeft,
		},
		Answer: answerLeft,
	}
}

// leftWords are the words of such a question that name neither a part nor a person.
var leftWords = set(`what what's whats wot how many much which anything something left to do too for the a an of on in is are aren't arent isn't isnt still open outstanding remaining remains yet need needs missing
	be done make made cut plane planed next up coming job jobs task tasks i me my we us our can could should shall must does have has been haven't havent not go any please pls tonight today now then more 2 parts part pieces piece
	bits things all everything finished fitted whatever lot start starting work stands stand things with where at so far along got getting nearly there it that tell show list step undone unfinished todo and or teh still's
	am i'm s whole altogether total just need give hi hello hey fettle doing making while until till meanwhile glue dries dry dried drying list lists`)

func readLeft(r *speech.Reading) {
	if r.Says("=next") || r.Says("should|shall|must|can|could i|we .. do|start|make|work") {
		r.Word("action", "next")
	}
	if r.Says("=made|=make|=cut|=planed|=crosscut|=ripped|=sawn|cutting|making|planing") {
		r.Word("only", "make")
	}
	for _, p := range []string{"for|is|does|has|should|must|can me|i", "what|have|should|shall|must|do|can am|do|can|have? i", "my"} {
		if r.Says(p) {
			r.Word("who", "i")
		}
	}
	var name []string
	for i, it := range r.Items {
		text := r.Text[it.Start:it.End]
		switch {
		case it.Q != nil && (it.Q.Kind == speech.KindLabel || len(name) > 0 && it.Q.Bare()):
			name = append(name, text)
		case it.Q != nil || leftWords[it.Text] || !wordy(it.Text):
		case i > 0 && (r.Items[i-1].Text == "for" || r.Items[i-1].Text == "should" || r.Items[i-1].Text == "must" || r.Items[i-1].Text == "does" || r.Items[i-1].Text == "has" || strings.HasSuffix(it.Text, "'s")) && !r.Request.Has("who") && strings.ToUpper(text[:1]) == text[:1]:
			r.Word("who", strings.TrimSuffix(text, "'s"))
		default:
			name = append(name, text)
		}
	}
	if len(name) > 0 {
		r.Word("name", strings.Join(name, " "))
	}
}

func answerLeft(a *Ask) Answer {
	jobs, err := a.jobs()
	if err != nil {
		return ask(store.Sentence(err))
	}
	about := ""
	who := ""
	if a.Has("who") {
		problem := ""
		if who, _, problem = a.person(); problem != "" {
			return ask(problem)
		}
	}
	if a.Word("name") != "" {
		names, problem, ok := a.workNamed("")
		if !ok {
			if w, known := a.somebody(a.Word("name")); known {
				who = w
			} else if problem.open == nil || len(problem.open.Options) < 2 {
				return a.notOnList()
			} else {
				return problem
			}
		} else {
			about = a.Word("name")
			jobs = slices.DeleteFunc(jobs, func(j job) bool {
				return !slices.ContainsFunc(names, func(w work) bool { return store.Fold(w.name) == store.Fold(j.name) })
			})
		}
	}
	if a.Word("only") != "" {
		jobs = slices.DeleteFunc(jobs, func(j job) bool { return j.part != nil && j.stage == stageFitted })
	}
	if a.Word("action") == "next" {
		if who == "" {
			who = a.Who
		}
		return a.nextFor(jobs, who)
	}
	if who != "" {
		jobs = slices.DeleteFunc(jobs, func(j job) bool { return !isOn(j, who) })
	}
	return a.listLeft(jobs, about, who)
}

// somebody finds a person by the last word of what was taken for a part.
func (a *Ask) somebody(words string) (string, bool) {
	claims, err := a.claims()
	for _, c := range claims {
		if err == nil && store.Fold(c.Is.Who) == store.Fold(words) {
			return c.Is.Who, true
		}
	}
	found, err := a.Tx.Search(store.Query{Project: a.Project.ID, Who: words, Kinds: []string{store.Message}, Limit: 1})
	if err != nil || len(found) == 0 {
		return "", false
	}
	return found[0].Who, true
}

func (a *Ask) notOnList() Answer {
	ans := say(shorten("Nothing is on the list for "+quoted(a.Word("name")), MaxHeadline), "“show the parts” lists what there is.")
	ans.echo, ans.shy = true, true
	return ans
}

// listLeft lists what is left by part.
func (a *Ask) listLeft(jobs []job, about, who string) Answer {
	of := ""
	if about != "" {
		of = " of " + about
	}
	if who != "" {
		of += " for " + who
	}
	if len(jobs) == 0 {
		ans := say(shorten("Nothing is left"+of, MaxHeadline))
		ans.echo = true
		if parts, err := a.parts(); err == nil && len(parts) == 0 {
			ans.Answer = "Nothing is left" + of + ": no parts are on the list yet"
		}
		ans.Values["left"] = 0
		ans.because("0 pieces: the list of parts less what was said to be done, as you said it.")
		return ans
	}
	pieces := 0
	heads := make([]string, len(jobs))
	for i, j := range jobs {
		pieces += j.count
		heads[i] = j.short()
	}
	ans := say(shorten(fmt.Sprintf("Left%s: %s", of, strings.Join(heads, ", ")), MaxHeadline))
	ans.echo = true
	ans.Values["left"] = pieces
	for _, j := range jobs {
		ans.line("- " + a.jobLine(j))
		ans.about(book.WhatPart, j.name)
	}
	ans.because(fmt.Sprintf("%d pieces of %d parts and tasks: the list less what was said to be done, as you said it; the next stage of each in the order of the machines (common practice, no source).", pieces, len(jobs)))
	return ans
}
