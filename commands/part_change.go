package commands

import (
	"encoding/json"
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"

	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

// ratMM gives a length as an exact number of millimetres.
func ratMM(l measure.Length) *big.Rat { return big.NewRat(int64(l), int64(measure.Millimetre)) }

// referred finds the parts that the request names, or gives the question that must be asked.
func (a *Ask) referred() ([]book.Named[book.Part], *Answer) {
	found, q, err := a.findParts(a.Word("name"))
	if err != nil {
		ans := ask(store.Sentence(err))
		return nil, &ans
	}
	if q != nil {
		ans := ask(q.Text)
		ans.open, ans.echo = q, true
		return nil, &ans
	}
	return found, nil
}

// changeParts gives the parts that are named another size, number, timber or name.
func (a *Ask) changeParts() Answer {
	found, question := a.referred()
	if question != nil {
		return *question
	}
	ans := say("")
	ans.echo = true
	var texts []string
	for _, p := range found {
		was := p.Is
		if q := a.change(&p, &ans); q != nil {
			return *q
		}
		if p.Is == was && a.Word("new_name") == "" {
			continue
		}
		ans.about(book.WhatPart, p.Name)
		texts = append(texts, a.changedText(p, was))
		ans.effects = append(ans.effects, a.replaced(&p)...)
	}
	if len(texts) == 0 {
		return ask("What shall it be? Say the size, how many, or the timber.")
	}
	ans.Answer = shorten("Changed: "+strings.Join(texts, "; "), MaxHeadline)
	return ans
}

// replaced writes a part, under its new name where it gets one.
func (a *Ask) replaced(p *book.Named[book.Part]) []effect {
	if to := strings.TrimSpace(a.Word("new_name")); to != "" && store.Fold(to) != store.Fold(p.Name) {
		return []effect{remove(a.Project.ID, book.WhatPart, p.Name), put(a.Project.ID, book.WhatPart, to, p.Is)}
	}
	return []effect{put(a.Project.ID, book.WhatPart, p.Name, p.Is)}
}

// change puts what was said into a part. A size that was said without its dimension is the one
// that it is nearest to.
func (a *Ask) change(p *book.Named[book.Part], ans *Answer) *Answer {
	sizes := map[string]*book.MM{"length_mm": &p.Is.Length, "width_mm": &p.Is.Width, "thickness_mm": &p.Is.Thickness}
	for need, to := range sizes {
		if l, ok := a.Length(need); ok {
			*to = book.MM(l)
			p.Is.Stale = ""
		}
	}
	if n, ok := a.Float("quantity"); ok {
		p.Is.Quantity = int(n)
	}
	if s := a.Word("species"); s != "" {
		p.Is.Species = s
	}
	l, ok := a.Length("size_mm")
	if !ok {
		return nil
	}
	need := nearestSize(p.Is, l)
	if need == "" {
		q := a.whichSize(p.Name, l)
		return &q
	}
	*sizes[need] = book.MM(l)
	p.Is.Stale = ""
	ans.Given[need] = l.MM()
	return nil
}

// clearly is how much nearer a size must lie to one dimension than to the next: common practice
// of this program, no source.
const clearly = 1.6

// nearestSize names the dimension that a new size is nearest to, as a ratio; "" where two come
// about as near, or none does.
func nearestSize(p book.Part, l measure.Length) string {
	best, second, name := math.Inf(1), math.Inf(1), ""
	for _, d := range []struct {
		need string
		was  book.MM
	}{{"length_mm", p.Length}, {"width_mm", p.Width}, {"thickness_mm", p.Thickness}} {
		if d.was <= 0 || l <= 0 {
			continue
		}
		ratio := d.was.MM() / l.MM()
		if ratio = max(ratio, 1/ratio); ratio < best {
			best, second, name = ratio, best, d.need
		} else {
			second = min(second, ratio)
		}
	}
	if second < best*clearly || best > 3 {
		return ""
	}
	return name
}

// whichSize asks which dimension a size is.
func (a *Ask) whichSize(name string, l measure.Length) Answer {
	var options []speech.Option
	for _, d := range dimensions {
		r := a.withName(name)
		r.Slots[d.name+"_mm"] = r.Slots["size_mm"]
		delete(r.Slots, "size_mm")
		options = append(options, speech.Option{Label: d.name, Request: r})
	}
	q := speech.Choice(fmt.Sprintf("Which size of the %s is %s now?", name, a.Out().Text(l, measure.Nearest)), options...)
	ans := ask(q.Text)
	ans.open, ans.echo = q, true
	return ans
}

// changedText says a part as it is now, and what it was.
func (a *Ask) changedText(p book.Named[book.Part], was book.Part) string {
	text := a.partText(p)
	if p.Is.Length != was.Length || p.Is.Width != was.Width || p.Is.Thickness != was.Thickness {
		text += " (was " + a.partSizes(was) + ")"
	}
	if to := a.Word("new_name"); to != "" {
		text += ", called " + to
	}
	return text
}

// dropParts takes the parts that are named off the list.
func (a *Ask) dropParts() Answer {
	found, question := a.referred()
	if question != nil {
		return *question
	}
	return a.drop(found)
}

func (a *Ask) drop(found []book.Named[book.Part]) Answer {
	ans := say("")
	ans.echo = true
	var texts []string
	for _, p := range found {
		texts = append(texts, a.partText(p))
		ans.effects = append(ans.effects, remove(a.Project.ID, book.WhatPart, p.Name))
	}
	ans.Answer = shorten("Off the list: "+strings.Join(texts, "; "), MaxHeadline)
	ans.line("“Scratch that” puts it back.")
	return ans
}

// storyOf tells what happened to a part: by whom it was added, changed, worked on.
func (a *Ask) storyOf(words string) Answer {
	found, question := a.referred()
	if question != nil {
		return *question
	}
	p := found[0]
	ans := say(shorten("The story of "+a.partText(p), MaxHeadline))
	ans.echo = true
	ans.about(book.WhatPart, p.Name)
	for _, what := range []string{book.WhatPart, book.WhatClaim, book.WhatDone} {
		cs, err := a.Tx.ChangesTo(a.Project.ID, what, p.Name)
		if err != nil {
			return ask(store.Sentence(err))
		}
		for _, c := range cs {
			line, err := a.storyLine(c)
			if err != nil {
				return ask(store.Sentence(err))
			}
			ans.line(line)
		}
	}
	if p.Is.Stale != "" {
		ans.line("⚠ " + p.Is.Stale)
	}
	photos, err := a.photosOf(store.Query{Project: a.Project.ID})
	if err != nil {
		return ask(store.Sentence(err))
	}
	photos = slices.DeleteFunc(photos, func(o posted) bool { return !slices.Contains(o.about, p.Name) })
	if len(photos) > 0 {
		ans.line("Photos:")
		slices.Reverse(photos)
		a.shows(&ans, photos[max(0, len(photos)-mostLines):])
	}
	return ans
}

// storyLine says one change of a part: when, who, and in which words.
func (a *Ask) storyLine(c store.Change) (string, error) {
	e, _, err := a.Tx.EntryByID(c.Entry)
	if err != nil {
		return "", err
	}
	how := map[string]string{store.Added: "added", store.Changed: "changed", store.Removed: "taken off"}[c.Op]
	switch {
	case c.Undoes != 0:
		how = "taken back"
	case c.What == book.WhatClaim:
		how = "claimed"
	case c.What == book.WhatDone && tickTaken(c):
		how = "tick taken back"
	case c.What == book.WhatDone:
		how = "worked on" + stagesOf(c.After)
	}
	return fmt.Sprintf("- %s %s by %s: %s", a.when(e), how, e.Who, shorten(e.Text, 120)), nil
}

// stagesOf names how far the work has come.
func stagesOf(after json.RawMessage) string {
	var d book.Done
	if json.Unmarshal(after, &d) != nil || len(d.Stages) == 0 {
		return ""
	}
	var out []string
	for _, stage := range []string{"roughed", "machined", "cut", "glued", "sanded", "fitted"} {
		if n := d.Stages[stage]; n > 0 {
			out = append(out, fmt.Sprintf("%d %s", n, stage))
		}
	}
	if len(out) == 0 {
		return ""
	}
	return " (" + strings.Join(out, ", ") + ")"
}
