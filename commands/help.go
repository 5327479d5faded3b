package commands

import (
	"fmt"
	"strings"

	"fettle/commands/speech"
)

func help() *Topic {
	return &Topic{
		Title:    "what can be asked, with examples",
		Examples: []string{"help", "how do I ask for clamps", "which units do you understand?"},
		Quiet:    true,
		Shy:      true,
		Form: speech.Form{
			Name: "help",
			Cues: []speech.Cue{
				{Weight: -20, Pattern: "you think|reckon|fancy|bring|lift|carry|hold|pass|lend|come"},
				{Weight: -20, Pattern: "help me|us lift|carry|hold|move|with|get|load|fit"},
				{Weight: 8, Pattern: "^ what|how|which .. =type"},
				{Weight: 12, Pattern: "how do|does .. =work|works"},
				{Weight: 12, Pattern: "how =works|work .."},
				{Weight: 9, Pattern: "which|what|list|show .. commands|topics|questions|things"},
				{Weight: 9, Pattern: "no idea how|what .. use|ask|type|this|work|works|you"},
				{Weight: 9, Pattern: "what all? can|may|could one|i|we|you .. ask|do|say"},
				{Weight: 9, Pattern: "how to use"},
				{Weight: 9, Pattern: "do|can|does|will you|fettle|it understand|know|speak|take|read|handle"},
				{Weight: 9, Pattern: "can|could you do|calculate|handle|convert|work|compute"},
				{Weight: 9, Pattern: "what|which .. may|can|could|should|might one|i|we|you .. ask|say|type"},
				{Weight: 9, Pattern: "how do|should|would you want|like|need"},
				{Weight: 9, Pattern: "^ help|manual|usage|commands"},
				{Weight: 9, Pattern: "help me|with|please|on|about"},
				{Weight: 9, Pattern: "what|wot can|could|else|all? you|u|fettle|it|this|i|we do|ask|help|calculate|work|answer|understand|know"},
				{Weight: 9, Pattern: "what|which .. do|can|are you|u .. do|understand|know|good|for|able|handle"},
				{Weight: 9, Pattern: "how|what do|can|should|could|would i|we|you .. ask|type|tell|say|write|phrase|word|put|enter"},
				{Weight: 9, Pattern: "how .. ask|type|tell|say|write you|for|about|it"},
				{Weight: 9, Pattern: "how does|do this|it|you|the|fettle work|bot"},
				{Weight: 9, Pattern: "example|examples for|of|on|about|with|how|please"},
				{Weight: 9, Pattern: "give|show me|us .. example|examples|help"},
				{Weight: 9, Pattern: "who|what are|r you|u"},
				{Weight: 9, Pattern: "explain|show|tell .. how .. ask|use|works|work"},
				{Weight: 9, Pattern: "what|which =units"},
				{Weight: 12, Pattern: "how do|can|to|would|should i|we|you|one? undo|change|set|ask|correct|delete|start|switch|note|tell|get|make|put|record|talk"},
				{Weight: 6, Pattern: "topics|topic|instructions"},
				{Weight: -9, Pattern: "note|remember :"},
				{Weight: -9, Pattern: "what|which .. units .. work|working|set|using|use in|we|to|here|this|project|now"},
				{Weight: -9, Pattern: "how much|heavy can|will|could|does it|this|that|the|a"},
				{Weight: -6, Pattern: "with? #"},
			},
			Needs:  []speech.Need{{Name: "about", Kind: speech.KindWord, Own: true}},
			Before: readHelp,
		},
		Answer: answerHelp,
	}
}

var aboutPatterns = []string{"ask|help|example|examples|help me|know|works|work|explain .. about|for|of|on|with the? a?", "can|could you do|calculate|handle|work|convert the?|a?", "about|for|with|of|to the?|a?|an?"}

// readHelp finds out what the help is about: the words behind "about", "for" or "to".
func readHelp(r *speech.Reading) {
	r.Request.Text = r.Text
	if r.Says("units|unit") {
		r.Word("about", "units")
		return
	}
	for _, p := range aboutPatterns {
		if _, end, ok := r.Stands(p); ok {
			if rest := r.Rest(end); rest != "" && len(strings.Fields(rest)) <= 5 {
				r.Word("about", rest)
				return
			}
		}
	}
}

func answerHelp(a *Ask) Answer {
	about := a.Word("about")
	if t, ok := a.helpTopic(about); ok {
		ans := helpOn(t)
		ans.Given["about"] = t.Name
		return ans
	}
	switch {
	case about == "units":
		return say("mm, cm, m, inches with fractions, feet; °C and °F; kg, lb, g; m², ft², m³, board feet; minutes, hours",
			"For instance 91,5 cm · 2' 7 1/2\" · 29½ in · 1 3/8\" · six hundred by forty five · 64 F.",
			"A bare number is in the project's unit (mm unless you say \"we work in inches\").")
	case about != "":
		ans := say(shorten(fmt.Sprintf("I know nothing about %s yet", about), MaxHeadline))
		ans.echo = true
		ans.details = a.helpLines()
		return ans
	}
	return say("Ask me in plain words: sizes, glue, clamps, spacing, timber, and what was decided", a.helpLines()...)
}

// helpTopic finds the topic that the words are about, or failing that the rest of the message.
func (a *Ask) helpTopic(about string) (*Topic, bool) {
	if about == "units" {
		return nil, false
	}
	for _, words := range []string{about, a.Request.Text} {
		if name, ok := a.house.language.Topic(words, "help"); ok && words != "" {
			return a.house.named(name)
		}
	}
	return nil, false
}

func helpOn(t *Topic) Answer {
	lines := make([]string, len(t.Examples))
	for i, e := range t.Examples {
		lines[i] = "- " + e
	}
	return say(capital(t.Title)+". For instance:", lines...)
}

func (a *Ask) helpLines() []string {
	var out []string
	for _, t := range a.house.topics {
		out = append(out, fmt.Sprintf("- **%s**: %s. “%s”", strings.ReplaceAll(t.Name, "-", " "), t.Title, t.Examples[0]))
	}
	return out
}
