package commands

import (
	"encoding/json"
	"fmt"
	"regexp"
	"strings"

	"fettle/commands/speech"
	"fettle/store"
)

func project() *Topic {
	return &Topic{
		Title:    "projects: start one, switch, list them",
		Examples: []string{"start a project called wagon", "switch to doors", "which project is this?"},
		Quiet:    true,
		Form: speech.Form{
			Name: "project",
			Cues: []speech.Cue{
				{Weight: 6, Pattern: "start|new|create|open|begin|make|set|another .. project"},
				{Weight: 6, Pattern: "start|new|create|open|begin .. job|build called|named|:"},
				{Weight: 6, Pattern: "project called|named|:"},
				{Weight: 6, Pattern: "which|what|what's|whats .. project|projects"},
				{Weight: 6, Pattern: "list|show|many .. projects"},
				{Weight: 5, Pattern: "^ projects|project"},
				{Weight: 5, Pattern: "^ switch|go|change|back|swap|move|return over|back? over|to|on"},
				{Weight: 4, Pattern: "switch|change|swap over|back|to|project|projects .."},
				{Weight: 3, Pattern: "project"},
				{Weight: 8, Pattern: "^ archive|unarchive the|this|our|my? .."},
				{Weight: 8, Pattern: "^ bring back the|our|my? .."},
				{Weight: 7, Pattern: "^ bring the|our|it .. back $"},
				{Weight: -8, Pattern: "to|in|use mm|inches|millimetres|millimeters|metric|imperial|cm"},
				{Weight: -4, Pattern: "change .. to #"},
				{Weight: -6, Pattern: "note|log|settings"},
			},
			Needs:  []speech.Need{{Name: "action", Kind: speech.KindWord, Own: true}, {Name: "name", Kind: speech.KindWord, Own: true}},
			Before: readProject,
			After: func(r *speech.Reading) {
				if a := r.Request.Word("action"); (a == "start" || a == "") && r.Request.Word("name") == "" {
					r.Question = &speech.Question{Text: "What shall the project be called?", Need: "name"}
				}
			},
		},
		Answer: answerProject,
	}
}

// Patterns behind which the name of a project stands, by what is to be done with it.
var (
	startPatterns = []string{
		"project called|named|=name|titled|: :?", "start|new|create|open|begin|make|another a|an|the? project", "start|new|create|open|begin|make|another .. project for|: the?", "call|name it|this|that", "start|create|begin|open project", "new|another project", "=named|=called", "project - ",
	}
	switchPatterns = []string{
		"switch|go|change|swap|move|return|back .. to|on|into the? project", "switch|go|change|swap|move|return over|back? over|back? to|on|into the?", "^ back to the?", "^ switch project? the?", "^ open the? project", "change|switch project to",
	}
)

// longestReply is how many words a reply may have that are taken for a project's name whatever they are:
// more may be talk.
const longestReply = 3

func readProject(r *speech.Reading) {
	switch {
	case r.Says("^ archive"):
		r.Word("action", "archive")
		r.Word("name", archivedName(r, "archive"))
	case r.Says("^ unarchive|bring"):
		r.Word("action", "bring back")
		r.Word("name", archivedName(r, "unarchive|bring back?"))
	case r.Says("list|show|all .. projects") || r.Says("^ projects $") || r.Says("what|which|many =projects"):
		r.Word("action", "list")
	case r.Says("which|what|what's|whats .. project") || r.Says("where am|are i|we"):
		r.Word("action", "which")
	case r.Says("switch|go|change|swap|move|return|back .. to|over|on") && !r.Says("start|new|create|begin"):
		r.Word("action", "switch")
		nameAfter(r, switchPatterns)
	case r.Says("start|new|create|open|begin|make|another|set .. project|one") || r.Says("project called|named|titled|:|-") || r.Says("^ project"):
		r.Word("action", "start")
		nameAfter(r, startPatterns)
	case r.Replying && len(r.Items) > 0:
		r.Word("name", projectName(r.Rest(0)))
		if len(r.Items) <= longestReply && !r.Says("is|are|was|ready|i|i'm|we|you|it|ok|okay|yes|no|thanks|tea") {
			for i := range r.Items {
				r.Claim(i)
			}
		}
	}
}

func answerProject(a *Ask) Answer {
	name := strings.TrimSpace(a.Word("name"))
	switch a.Word("action") {
	case "list":
		return a.listProjects()
	case "start":
		return a.startProject(name)
	case "archive", "bring back":
		return a.archiveProject(name, a.Word("action") == "archive")
	case "switch":
		return a.switchProject(name)
	}
	ans := say("This is the project " + shorten(a.Project.Name, 60))
	ans.echo = true
	return ans
}

// liveProjects are the names of the place's own project and of those that were started.
func (a *Ask) liveProjects() ([]string, error) {
	things, err := a.Tx.Things(store.NoProject, whatProject)
	if err != nil {
		return nil, err
	}
	names := []string{a.Home}
	for _, t := range things {
		var is projectState
		if err := json.Unmarshal(t.Data, &is); err != nil {
			return nil, fmt.Errorf("read project %q: %w", t.Name, err)
		}
		if store.Fold(t.Name) != store.Fold(a.Home) && is.ArchivedBy == "" {
			names = append(names, t.Name)
		}
	}
	return names, nil
}

func (a *Ask) listProjects() Answer {
	names, err := a.liveProjects()
	if err != nil {
		return ask(store.Sentence(err))
	}
	ans := say(shorten(fmt.Sprintf("%s: %s", plural(len(names), "project", "projects"), strings.Join(names, ", ")), MaxHeadline))
	ans.echo = true
	for _, n := range names {
		line := "- " + n
		if store.Fold(n) == store.Fold(a.Project.Name) {
			line += " (here)"
		}
		ans.line(line)
	}
	return ans
}

// longestName bounds the name of a project.
const longestName = 60

func (a *Ask) startProject(name string) Answer {
	switch {
	case name == "" || store.Fold(name) == "":
		return ask("What shall the project be called?")
	case len([]rune(name)) > longestName:
		return ask(fmt.Sprintf("A project's name may have %d characters. What shall it be called?", longestName))
	}
	if _, known, err := a.Tx.Thing(store.NoProject, whatProject, name); err != nil {
		return ask(store.Sentence(err))
	} else if known {
		return a.use(name, "There is a project "+name+" already: now talking about it")
	}
	ans := a.use(name, "Started the project "+name)
	ans.effects = append([]effect{put(store.NoProject, whatProject, name, projectState{StartedBy: a.Who})}, ans.effects...)
	return ans
}

func (a *Ask) switchProject(name string) Answer {
	names, err := a.liveProjects()
	if err != nil {
		return ask(store.Sentence(err))
	}
	for _, n := range names {
		if store.Fold(n) == store.Fold(name) || store.Fold(n) == store.Fold(strings.TrimSuffix(name, " project")) {
			return a.use(n, "Now talking about the project "+n)
		}
	}
	ans := ask(shorten("There is no project of that name. I know: "+strings.Join(names, ", "), 200))
	ans.echo = true
	if name != "" {
		start := a.Request
		start.Slots = map[string]speech.Slot{"action": {Word: "start"}, "name": {Word: name}}
		ans.Question = shorten(fmt.Sprintf("There is no project %s. Shall I start it? I know: %s", name, strings.Join(names, ", ")), 300)
		ans.open = &speech.Question{Text: ans.Question, Options: []speech.Option{{Label: "start it", Words: []string{"start"}, Request: start}}}
	}
	return ans
}

// use makes a project the one that is talked about in this place.
func (a *Ask) use(name, headline string) Answer {
	ans := say(shorten(headline, MaxHeadline))
	ans.echo = true
	place, err := LoadPlace(a.Tx, a.Place, a.Project.Name)
	if err != nil {
		return ask(store.Sentence(err))
	}
	place.Project = name
	ans.effects = append(ans.effects, put(store.NoProject, whatPlace, a.Place, place))
	return ans
}

// nameAfter takes the words behind the longest pattern that stands in the message for the
// project's name.
func nameAfter(r *speech.Reading, patterns []string) {
	best, end := -1, 0
	for _, p := range patterns {
		if from, to, ok := r.Stands(p); ok && to > end {
			best, end = from, to
		}
	}
	if best < 0 {
		return
	}
	if name := projectName(r.Rest(end)); name != "" {
		r.Word("name", name)
	}
}

// Behind the name of a project: another sentence, and the words of courtesy.
var (
	nextSentence = regexp.MustCompile(`[!?;]\s|\pL{4,}\.\s`)
	saidBehind   = regexp.MustCompile(`(?i)(?:^|[ ,]+)(?:please|pls|plz|thanks|thank you|ta|(?:will|would|could|can|shall) (?:you|we)|for (?:me|us)|if you (?:can|like|please|would|don't mind))$`)
)

// noProjectName are words that speak of a project and name none: "started", "the name comes later".
var noProjectName = set(`please pls plz thanks thank ta you me us we i i'll i'd i've will would could can shall may for a an the one it its that this project job build started going up set made opened created now then
	today later soon name names named called title comes come coming follows follow have has haven't don't know yet think of tell give when is to be in minute minutes moment after tea with without no still not decided what gil petra and hi hello hey here ready new another fresh let let's`)

// projectName takes off what is said behind the name of a project; what names none is nothing.
func projectName(said string) string {
	if at := nextSentence.FindStringIndex(said); at != nil {
		said = strings.TrimRight(said[:at[1]], " .!?;")
	}
	for {
		rest := strings.Trim(saidBehind.ReplaceAllString(said, ""), " ,\"“”")
		if rest == said {
			break
		}
		said = rest
	}
	for _, w := range strings.Fields(strings.ToLower(said)) {
		if w = strings.Trim(w, ",.:;!?\"“”'"); w != "" && !noProjectName[w] {
			return said
		}
	}
	return ""
}
