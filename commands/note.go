package commands

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"fettle/commands/speech"
	"fettle/store"
)

// noteOpenings are the ways of opening a note; what follows is the note.
var noteOpenings = []string{
	"remind me|us :|,|-? that|to?", "for the notes|note :|,|-? that?", "=note : that?", "notice|note .. for later :|,|-? that?", "keep|make|take a? note of? that? :|,|-? that?", "please|kindly notice|note :|,|-? that?", "note to self|us|all? :|,|-? that?", "make|take|put|add a? note of? that? :|,|-? that?", "^ note|notes|nb|n.b|memo|reminder :|,|-|down|that? that?",
	"^ note|memo", "write|jot|put this|that|it|the|following? down :|,|-? that?", "write|jot down :|,|-? that?", "remember that|: that?", "^ remember :|,|that? ", "^ for the record|records|log|notes :|,|-? that?", "for the record|records|log :|,|- that?", "for the record|log that",
	"write|leave|make|take|jot|keep me|us? a|another =note|=memo for|to|of? me|us|gil|petra|later? :|,|-? that?", "write|note|jot|remember|take =something =down? for? me|us|gil|petra|later? :?",
	"^ fyi :|,|-?", "keep in mind|note that?", "don't|dont|do not forget :|,|that? that?", "^ record|log that|: ", "bear in mind that? :?", "so we don't forget :|,|-? that?", "note for|to petra|gil|later|tomorrow|next :|,|-? that?",
}

func note() *Topic {
	return &Topic{
		Title:    "notes for the two of you",
		Examples: []string{"note: the hinge side is the left one", "remember that the stove side wants 50 clear", "show the notes"},
		Form: speech.Form{
			Name: "note", Text: true,
			Cues: append(noteCues(), []speech.Cue{
				{Weight: 30, Pattern: "show|list|read|see|what|which|any .. =notes"},
				{Weight: 8, Pattern: "^ =notes $"},
				{Weight: 4, Pattern: "what|which .. noted|note down"},
				{Weight: -20, Pattern: "^ what|who|which|when|where|did|has|have"},
				{Weight: -9, Pattern: "^ remember when|what|how|who"},
				{Weight: -9, Pattern: "^ do|did|does you|we|i .. remember"},
			}...),
			Needs:  []speech.Need{{Name: "action", Kind: speech.KindWord, Own: true}},
			Before: readNote,
			After: func(r *speech.Reading) {
				switch text := r.Request.Text; {
				case r.Request.Has("action"):
				case text == "":
					r.Question = &speech.Question{Text: "What shall I note?"}
				case onlyNamed(text):
					r.Question = &speech.Question{Text: "How much is it? Say for instance “the window height is 1120”."}
				}
			},
		},
		Answer: answerNote,
	}
}

func noteCues() []speech.Cue {
	cues := make([]speech.Cue, len(noteOpenings))
	for i, p := range noteOpenings {
		cues[i] = speech.Cue{Weight: 9, Pattern: p}
	}
	return cues
}

// readNote takes what stands behind the opening, as it was typed.
func readNote(r *speech.Reading) {
	if r.Says("show|list|read|see|what|which|any .. =notes") || r.Says("^ =notes $") || r.Says("what|which .. noted|note down") {
		r.Word("action", "list")
		return
	}
	start, end := len(r.Items), 0
	for _, p := range noteOpenings {
		if from, to, ok := r.Stands(p); ok && (from < start || from == start && to > end) {
			start, end = from, to
		}
	}
	r.Request.Text = r.Rest(end)
	if (end == 0 || r.Items[end-1].Text != ":") && saysNothing(r.Request.Text) {
		r.Request.Text = ""
	}
	if before := r.Upto(start); r.Request.Text == "" && !saysNothing(before) { // "…, note that"
		r.Request.Text = before
	}
}

// asksToNote are the words with which a note is asked for, and those of courtesy: alone they are none.
var asksToNote = set(`please pls plz for me us you your yourself we i i'd i'll i've can could would will may might shall want need like a an the this that it one note notes memo something anything
	write make take leave put jot add keep down up to of at in now later quickly just then so and ok okay hi hello hey thanks thank ta let let's lets have got another new to here again gil petra fettle there do`)

// saysNothing says whether a text is only the asking for a note: "could you … for me please".
func saysNothing(text string) bool {
	for _, it := range speech.Read(text).Items {
		if it.Q != nil || isLetters(it.Text) && !asksToNote[it.Text] {
			return false
		}
	}
	return true
}

// onlyNamed says whether a text names a measure and holds no number: "the window height", "I measured
// the sill, please".
func onlyNamed(text string) bool {
	s := speech.Read(text)
	measure := false
	for _, it := range s.Items {
		switch {
		case it.Q != nil:
			return false
		case dimensionNouns[it.Text] != "", it.Text == "measured":
			measure = true
		case !isLetters(it.Text), asksToNote[it.Text], notMeasured[it.Text], placing[it.Text], slices.Contains(strings.Split(strings.ReplaceAll(measuredNouns, "=", ""), "|"), it.Text):
		default:
			return false
		}
	}
	return measure
}

// storedNote is a note as it is kept.
type storedNote struct {
	Text string `json:"text"`
	Who  string `json:"who"`
	At   string `json:"at"`
}

func answerNote(a *Ask) Answer {
	if a.Has("action") {
		return a.listNotes()
	}
	text := strings.TrimSpace(a.Request.Text)
	if text == "" {
		return ask("What shall I note?")
	}
	name, err := a.noteName()
	if err != nil {
		return ask(store.Sentence(err))
	}
	ans := say(shorten("Noted: "+text, MaxHeadline))
	ans.echo = true
	ans.effects = append(ans.effects, put(a.Project.ID, whatNote, name, storedNote{Text: text, Who: a.Who, At: a.Now.Format("2006-01-02 15:04")}))
	return ans
}

// noteName counts the notes up: a name is never used again, not even after an undo.
func (a *Ask) noteName() (string, error) {
	notes, err := a.Tx.Things(a.Project.ID, whatNote)
	if err != nil {
		return "", err
	}
	last := 0
	for _, n := range notes {
		var k int
		if _, err := fmt.Sscanf(n.Name, "note %d", &k); err == nil {
			last = max(last, k)
		}
	}
	return fmt.Sprintf("note %d", last+1), nil
}

func (a *Ask) listNotes() Answer {
	notes, err := notesOf(a.Tx, a.Project.ID)
	if err != nil {
		return ask(store.Sentence(err))
	}
	if len(notes) == 0 {
		return say("No notes yet")
	}
	ans := say(plural(len(notes), "note", "notes"))
	ans.echo = true
	for _, n := range notes {
		ans.line(fmt.Sprintf("- %s (%s, %s)", n.Text, n.Who, n.At))
	}
	return ans
}

func notesOf(tx *store.Tx, project int64) ([]storedNote, error) {
	things, err := tx.Things(project, whatNote)
	if err != nil {
		return nil, err
	}
	out := make([]storedNote, len(things))
	for i, t := range things {
		if err := json.Unmarshal(t.Data, &out[i]); err != nil {
			return nil, fmt.Errorf("read %s: %w", t.Name, err)
		}
	}
	return out, nil
}

// recall answers a question that no topic understood from a note that holds at least half of
// its words. It is sure of that when the note holds two of them or all.
func recall(tx *store.Tx, project int64, text string) (ans Answer, found, sure bool, err error) {
	words := speech.Asks(text)
	if len(words) == 0 {
		return Answer{}, false, false, nil
	}
	notes, err := notesOf(tx, project)
	if err != nil {
		return Answer{}, false, false, err
	}
	best, hits := -1, 0
	for i, n := range notes {
		if h := speech.Shared(words, n.Text); h >= hits && h > 0 {
			best, hits = i, h
		}
	}
	if best < 0 || 2*hits < len(words) {
		return Answer{}, false, false, nil
	}
	n := notes[best]
	ans = say(shorten(n.Text, MaxHeadline), fmt.Sprintf("Noted by %s, %s.", n.Who, n.At))
	ans.echo = true
	ans.Topic = "note"
	return ans, true, hits == len(words) || hits > 1, nil
}

// shorten cuts a text to so many characters.
func shorten(text string, most int) string {
	r := []rune(strings.Join(strings.Fields(text), " "))
	if len(r) <= most {
		return string(r)
	}
	return string(r[:most-1]) + "…"
}
