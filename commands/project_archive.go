package commands

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"fettle/commands/speech"
	"fettle/store"
)

// projectState is what is kept of a project that was started.
type projectState struct {
	StartedBy  string `json:"started_by,omitempty"`
	ArchivedBy string `json:"archived_by,omitempty"` // who put it away; "": nobody
}

// archivedName is the name behind a verb, "it" and "this" for the project that is talked about.
func archivedName(r *speech.Reading, verb string) string {
	words := strings.Fields(restBehind(r, verb+" the?|our|my"))
	if len(words) > 1 && slices.Contains([]string{"the", "our", "my"}, words[0]) {
		words = words[1:]
	}
	text := strings.Join(words, " ")
	for _, end := range []string{" from the archive", " back", " project"} {
		text = strings.TrimSuffix(text, end)
	}
	text = strings.TrimPrefix(text, "project ")
	if slices.Contains([]string{"it", "this", "this one", "project", "that"}, text) {
		return ""
	}
	return text
}

// archiveProject puts a project away, out of the list and beyond switching to, or brings it back.
// Nothing of it is lost. The place's own project stays.
func (a *Ask) archiveProject(name string, away bool) Answer {
	switch {
	case name == "" && away:
		name = a.Project.Name
	case name == "":
		one, q := a.onlyArchived()
		if q != nil {
			return *q
		}
		name = one
	}
	if away && store.Fold(name) == store.Fold(a.Home) {
		return ask("The project " + shorten(a.Home, 60) + " belongs to this place and can't be put away. Which other one do you mean?")
	}
	thing, known, err := a.Tx.Thing(store.NoProject, whatProject, name)
	if err != nil {
		return ask(store.Sentence(err))
	}
	if !known {
		return a.switchProject(name)
	}
	var is projectState
	if err := json.Unmarshal(thing.Data, &is); err != nil {
		return ask("I can't read what is kept of the project " + shorten(thing.Name, 60) + ". Shall it be started anew?")
	}
	switch {
	case away && is.ArchivedBy != "":
		return a.echoed(fmt.Sprintf("The project %s is in the archive already", thing.Name))
	case !away && is.ArchivedBy == "":
		return a.use(thing.Name, "Now talking about the project "+thing.Name)
	case !away:
		is.ArchivedBy = ""
		ans := a.use(thing.Name, "Brought back the project "+thing.Name)
		ans.effects = append([]effect{put(store.NoProject, whatProject, thing.Name, is)}, ans.effects...)
		return ans
	}
	is.ArchivedBy = a.Who
	ans := a.echoed("Archived the project " + thing.Name)
	if store.Fold(a.Project.Name) == store.Fold(thing.Name) {
		ans = a.use(a.Home, fmt.Sprintf("Archived the project %s; now talking about %s", thing.Name, a.Home))
	}
	ans.line("Nothing of it is lost: “bring back " + thing.Name + "” opens it again.")
	ans.effects = append([]effect{put(store.NoProject, whatProject, thing.Name, is)}, ans.effects...)
	return ans
}

func (a *Ask) echoed(headline string) Answer {
	ans := say(shorten(headline, MaxHeadline))
	ans.echo = true
	return ans
}

// onlyArchived is the one project that was put away, or the question which one is meant.
func (a *Ask) onlyArchived() (string, *Answer) {
	things, err := a.Tx.Things(store.NoProject, whatProject)
	if err != nil {
		q := ask(store.Sentence(err))
		return "", &q
	}
	var names []string
	for _, t := range things {
		var is projectState
		if json.Unmarshal(t.Data, &is) == nil && is.ArchivedBy != "" {
			names = append(names, t.Name)
		}
	}
	switch len(names) {
	case 1:
		return names[0], nil
	case 0:
		q := ask("No project is in the archive. Which one shall be brought back?")
		return "", &q
	}
	q := ask(shorten("Which one shall be brought back: "+strings.Join(names, ", ")+"?", 200))
	q.echo = true
	return "", &q
}
