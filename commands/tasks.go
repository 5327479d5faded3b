package commands

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

// work is a part or a task that people may be on.
type work struct {
	name string
	part *book.Part // nil: a task that is no part
}

// workNamed finds the parts or the task that a request names. What is neither on the list nor a
// task already is asked about, and may be kept as a task.
func (a *Ask) workNamed(keep string) (names []work, problem Answer, ok bool) {
	want := a.Word("name")
	if want == "" {
		return nil, askFor("name", "What is that about? Name a part or a task."), false
	}
	if task, found, err := a.task(want); err != nil {
		return nil, ask(store.Sentence(err)), false
	} else if found || a.Word("task") != "" {
		if !found {
			task = want
		}
		return []work{{name: task}}, problem, true
	}
	parts, q, err := a.findParts(want)
	switch {
	case err != nil:
		return nil, ask(store.Sentence(err)), false
	case q != nil:
		return nil, a.orTask(q, want, keep), false
	}
	for _, p := range parts {
		names = append(names, work{name: p.Name, part: &p.Is})
	}
	return names, problem, true
}

// task finds a task that is no part by its name: one that somebody is on, or that was done.
func (a *Ask) task(want string) (string, bool, error) {
	parts, err := a.parts()
	if err != nil {
		return "", false, err
	}
	onList := map[string]bool{}
	for _, p := range parts {
		onList[store.Fold(p.Name)] = true
	}
	claims, err := a.claims()
	if err != nil {
		return "", false, err
	}
	done, err := a.doneSoFar()
	if err != nil {
		return "", false, err
	}
	var tasks []string
	for _, c := range claims {
		if c.Is.Of == "" {
			tasks = append(tasks, c.Name)
		}
	}
	for _, d := range done {
		tasks = append(tasks, d.Name)
	}
	words := nameWords(want)
	for _, t := range tasks {
		if !onList[store.Fold(t)] && slices.Equal(nameWords(t), words) {
			return t, true, nil
		}
	}
	return "", false, nil
}

// orTask offers to keep what is no part as a task, beside the parts that it may be.
func (a *Ask) orTask(q *speech.Question, want, keep string) Answer {
	r := a.Request
	r.Slots = maps.Clone(r.Slots)
	r.Slots["task"] = speech.Slot{Word: "yes"}
	ans := ask("")
	ans.echo, ans.shy = true, len(q.Options) == 0
	switch {
	case strings.HasPrefix(q.Text, "Which"):
		ans.open = q
	case len(q.Options) == 0:
		text := fmt.Sprintf("There is no part %s on the list. %s", quoted(want), keep)
		ans.open = &speech.Question{Text: text, Need: "name", Options: []speech.Option{{Label: "as a task", Words: []string{"yes", "task", "keep it", "please"}, Request: r}}}
	default:
		options := append(slices.Clone(q.Options), speech.Option{Label: "keep it as a task", Words: []string{"task", "as a task"}, Request: r})
		ans.open = speech.Choice(fmt.Sprintf("There is no part %s on the list. Do you mean one of these?", quoted(want)), options...)
		ans.open.Need = "name"
	}
	ans.Question = ans.open.Text
	return ans
}

// someUnknown asks about the things of a message that are not on the list, all at once.
func (a *Ask) someUnknown(asks []*Ask, first Answer) Answer {
	r := a.Request
	r.Items = slices.Clone(r.Items)
	var unknown []string
	for i, one := range asks {
		_, problem, ok := one.workNamed("")
		switch {
		case ok:
			continue
		case problem.open == nil || len(problem.open.Options) != 1:
			first.open = nil
			return first
		}
		unknown = append(unknown, quoted(one.Word("name")))
		r.Items[i].Slots = maps.Clone(r.Items[i].Slots)
		r.Items[i].Slots["task"] = speech.Slot{Word: "yes"}
	}
	ans := ask(fmt.Sprintf("There is no part %s on the list. Shall I keep that as tasks of their own?", strings.Join(unknown, " or ")))
	ans.echo, ans.shy = true, true
	ans.open = &speech.Question{Text: ans.Question, Options: []speech.Option{{Label: "as tasks", Words: []string{"yes", "as a task", "keep it", "keep them"}, Request: r}}}
	return ans
}

func listed(names []work) string {
	var out []string
	for _, w := range names {
		text := w.name
		if w.part != nil && w.part.Quantity > 1 {
			text = fmt.Sprintf("%d × %s", w.part.Quantity, w.name)
		}
		out = append(out, text)
	}
	return strings.Join(out, ", ")
}
