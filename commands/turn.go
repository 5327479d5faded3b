package commands

import (
	"cmp"
	"encoding/json"
	"fmt"
	"strconv"
	"strings"
	"time"

	"fettle/commands/speech"
	"fettle/store"
)

// QuestionLife is how long a question stays open.
const QuestionLife = 30 * time.Minute

// Unknown is the topic of a message in which no request was found.
const Unknown = "unknown"

// Turn is one message of a conversation, with the memory that it is to be heard in.
type Turn struct {
	Tx      *store.Tx
	Project string // the place's project, unless another was switched to there
	Place   string
	WhoKey  string
	Who     string
	Text    string
	Files   []store.File // what hangs on the message
	Now     time.Time
	Before  int64 // for a message that was edited: only what came before this entry counts
}

// Heard is a message that was understood, with its answer, before anything is written.
type Heard struct {
	Project store.Project
	Manners Place
	Answer  Answer
	Sure    bool // certain enough to speak up unasked
	Request json.RawMessage

	turn     Turn
	manner   speech.Manner
	question *store.Entry // whose question this answers, or the person's own that this overtakes
	corrects *store.Entry // the message that this corrects
	instead  []int64      // the entries that this takes the place of, oldest first

	// Of those the one that this corrects and what that one had corrected, oldest first: taking back a
	// correction puts in force again what it had taken back.
	corrected []int64
}

// Hear understands a message in its context and works out the answer. Nothing is written.
func Hear(t Turn) (*Heard, error) {
	h := &Heard{turn: t}
	ctx, last, open, others, settings, err := h.context()
	if err != nil {
		return nil, err
	}
	if ctx.Last != nil && ctx.Last.Open == nil && asksWhy(t.Text) {
		h.manner, h.Sure = speech.FollowUp, true
		return h, h.explain(*ctx.Last, settings)
	}
	if t.Text == ListAlone && len(t.Files) == 0 {
		if h.turn.Files, err = lastList(t, h.Project.ID); err != nil {
			return h, err
		}
	}
	u, mends, err := h.mendsParts(last, ctx)
	if err != nil {
		return h, err
	}
	if !mends {
		u = all.language.Understand(t.Text, ctx)
	}
	h.manner, h.Sure = u.Manner, u.Sure
	if r, sure, ok := h.listRequest(u, open, ctx.System); ok {
		u = speech.Understanding{Manner: cmp.Or(h.manner, speech.Fresh), Request: r, Sure: sure}
		h.manner, h.Sure = u.Manner, u.Sure
	}
	switch {
	case u.Theirs:
		h.question = others
	case open != nil && u.Manner != speech.Nothing:
		h.question = open
	}
	if err := h.settleCorrection(&u, ctx, last); err != nil {
		return h, err
	}
	if u.Declined {
		h.Answer = finish(say("All right, I leave that"), u.Request.Topic, nil, nil)
		return h, nil
	}
	if u.Manner == speech.Nothing || u.Guessed && speech.Asks(t.Text) != nil && remembered(u.Request.Topic) {
		if found, err := h.recalls(); found || err != nil {
			return h, err
		}
	}
	if u.Manner == speech.Nothing || u.Guessed && u.Request.Topic == "note" && speech.Asks(t.Text) != nil {
		h.manner = speech.Nothing
		return h, h.nothing(u)
	}
	if err := h.takesPlaceOf(); err != nil {
		return h, err
	}
	if h.turn.Files, err = h.files(); err != nil {
		return h, err
	}
	if err := h.compute(u.Request, settings); err != nil {
		return h, err
	}
	if r, ok := h.listInstead(u, ctx.System); ok {
		return h, h.compute(r, settings)
	}
	return h, nil
}

// takesPlaceOf notes which entries will be taken back before this message's effects: the one that
// it corrects, and the earlier versions of a message that was edited.
func (h *Heard) takesPlaceOf() error {
	if h.turn.Before != 0 {
		about, err := h.turn.Tx.About(h.turn.Before)
		if err != nil {
			return err
		}
		h.instead = append(h.instead, h.turn.Before)
		for _, e := range about {
			if e.Kind == store.Edit {
				h.instead = append(h.instead, e.ID)
			}
		}
	}
	if h.corrects != nil {
		earlier, err := h.turn.Tx.TakenBackBy(h.corrects.ID)
		if err != nil {
			return err
		}
		h.instead = append(h.instead, earlier...)
		h.instead = append(h.instead, h.corrects.ID)
		h.corrected = append(earlier, h.corrects.ID)
	}
	return nil
}

// context loads what was said before.
func (h *Heard) context() (ctx speech.Context, last, open, others *store.Entry, settings Settings, err error) {
	t := h.turn
	if h.Manners, err = LoadPlace(t.Tx, t.Place, t.Project); err != nil {
		return
	}
	if h.Project, err = t.Tx.Project(h.Manners.Project); err != nil {
		return
	}
	if settings, err = LoadSettings(t.Tx, h.Project.ID); err != nil {
		return
	}
	ctx.System = settings.System()
	e, ok, err := t.Tx.LastRequest(t.Place, t.WhoKey, t.Before)
	if err != nil {
		return
	}
	if ok {
		last = &e
		ctx.Last = request(&e)
	} else if ctx.Anyone, err = h.lastOfAnyone(); err != nil {
		return
	}
	questions, err := t.Tx.OpenQuestions(t.Place, t.Now.Add(-QuestionLife))
	if err != nil {
		return
	}
	for i := range questions {
		q := &questions[i]
		switch {
		case t.Before != 0 && q.ID >= t.Before:
		case q.WhoKey == t.WhoKey && open == nil:
			open, ctx.Open = q, openRequest(q)
		case q.WhoKey != t.WhoKey && others == nil:
			others, ctx.Others = q, openRequest(q)
		}
	}
	return
}

// lastOfAnyone gives what was asked last at the place, if that was a short while ago: who has
// asked nothing there yet may go on from it.
func (h *Heard) lastOfAnyone() (*speech.Request, error) {
	e, ok, err := h.turn.Tx.LastRequestOfAnyone(h.turn.Place, h.turn.Before)
	if err != nil || !ok || h.turn.Now.Sub(e.At) > QuestionLife {
		return nil, err
	}
	return request(&e), nil
}

func request(e *store.Entry) *speech.Request {
	var r speech.Request
	if json.Unmarshal(e.Request, &r) != nil || r.Topic == "" {
		return nil
	}
	return &r
}

func openRequest(e *store.Entry) *speech.Request {
	r := request(e)
	if r == nil || r.Open == nil {
		return nil
	}
	return r
}

// remembered says whether a topic tells what was noted before, where a message asks for that.
func remembered(topic string) bool { return topic == "note" || topic == "measure" || topic == "log" }

// recalls answers from a note that holds what is asked for, if there is one.
func (h *Heard) recalls() (bool, error) {
	ans, found, sure, err := recall(h.turn.Tx, h.Project.ID, h.turn.Text)
	if err != nil || !found {
		return false, err
	}
	h.manner, h.Sure = speech.Fresh, sure
	h.Answer = finish(ans, ans.Topic, nil, nil)
	return true, nil
}

// nothing answers a message in which no topic found a request: with what comes nearest.
func (h *Heard) nothing(u speech.Understanding) error {
	if ans, ok := courtesy(h.turn.Text); ok {
		h.Answer = finish(ans, Unknown, nil, nil)
		return nil
	}
	var near []string
	for _, name := range u.Nearest {
		if t, ok := all.named(name); ok {
			near = append(near, "“"+t.Examples[0]+"”")
		}
	}
	if len(near) == 0 {
		near = []string{"“" + all.topics[0].Examples[0] + "”", "“help”"}
	}
	h.Answer = finish(say("I didn't get that", "Try for instance "+strings.Join(near, " or ")), Unknown, nil, nil)
	return nil
}

// compute has the topic answer, unless something must be asked first.
func (h *Heard) compute(r speech.Request, settings Settings) error {
	topic, ok := all.named(r.Topic)
	if !ok {
		return fmt.Errorf("no topic %q", r.Topic)
	}
	t := h.turn
	if topic.Text && r.Text == "" && topic.Before == nil {
		r.Text = t.Text
	}
	a := h.asking(r, topic, settings)
	ans := Answer{}
	if r.Open != nil {
		ans = ask(r.Open.Text)
	} else if ans = topic.Answer(a); ans.open != nil {
		r.Open = ans.open
	}
	if err := h.cautionOnce(&ans); err != nil {
		return err
	}
	h.Sure = h.Sure && !topic.Shy && !ans.shy && !(ans.Question != "" && silent(t.Text))
	h.Answer = finish(ans, topic.Name, &r, &topic.Form)
	if topic.Restates && h.Answer.Question == "" {
		h.Answer.Text = wording(h.Answer, "")
	}
	if topic.Quiet && r.Open == nil {
		return nil
	}
	if r.Open != nil && h.corrects != nil {
		correcting(&r, h.corrects.ID)
	}
	var err error
	h.Request, err = json.Marshal(r)
	return err
}

// asking puts a request to a topic, with everything it may look at.
func (h *Heard) asking(r speech.Request, topic *Topic, settings Settings) *Ask {
	t := h.turn
	said := t.Now
	if h.manner == speech.Reply && h.question != nil {
		said = h.question.At.In(t.Now.Location())
	}
	return &Ask{Request: r, Form: &topic.Form, Settings: settings, System: settings.System(),
		Now: t.Now, Said: said, Who: t.Who, WhoKey: t.WhoKey, Place: t.Place, Project: h.Project, Home: t.Project, Files: t.Files, Tx: t.Tx, Typed: t.Text, house: all,
		before: t.Before, instead: h.instead}
}

// finish puts an answer together: what was understood, the headline, the whole text.
func finish(a Answer, topic string, r *speech.Request, f *speech.Form) Answer {
	a.Topic = topic
	said := ""
	if r != nil {
		for name, v := range given(*r, f) {
			if _, set := a.Given[name]; !set {
				a.Given[name] = v
			}
		}
		said = understood(*r, f)
		if q := choices(r.Open); q != nil {
			a.Signs = q
		}
	}
	if a.Question != "" {
		a.Answer = shorten(a.Question, MaxHeadline)
		a.Values, a.Changes, a.effects = map[string]any{}, []map[string]any{}, nil
		a.Text = a.Question
		if a.echo {
			a.Text = harmless(a.Text)
		}
		if said != "" {
			a.Text += "\n\nSo far: " + said
		}
		return a
	}
	if topic == Unknown {
		a.Text = a.Answer + ". " + strings.Join(a.details, " ")
		return a
	}
	a.Text = wording(a, said)
	return a
}

// choices says which sign under a question is which answer to it.
func choices(q *speech.Question) map[string]string {
	switch {
	case q == nil || len(q.Options) == 0:
		return nil
	case len(q.Options) == 1:
		return map[string]string{"1": "yes", SignCheck: "yes", SignThumb: "yes"}
	}
	signs := map[string]string{}
	for i := range q.Options[:min(len(q.Options), 10)] {
		n := strconv.Itoa(i + 1)
		signs[n] = n
	}
	return signs
}

// wording puts the whole reply together: the headline, what was understood, the details, the
// cautions.
func wording(a Answer, said string) string {
	text := func(s string) string { return s }
	if a.echo {
		text = harmless
	}
	var b strings.Builder
	fmt.Fprintf(&b, "**%s**", text(a.Answer))
	if said != "" {
		fmt.Fprintf(&b, "\nRead: %s", said)
	}
	for _, l := range a.details {
		b.WriteString("\n" + text(l))
	}
	for _, c := range a.Cautions {
		b.WriteString("\n⚠ " + c)
	}
	return b.String()
}

// Understood says whether the message holds a request at all.
func (h *Heard) Understood() bool { return h.manner != speech.Nothing }

// Wants is the address of a page that must be fetched before the message can be answered, or "".
// With the page among its files the message is to be heard again.
func (h *Heard) Wants() string { return h.Answer.wants }

// Silent empties the answer of a message that deserves none.
func (h *Heard) Silent() {
	h.Answer = empty(Unknown)
}

// Apply carries out what the answer changes, on behalf of the message's entry, and gives the
// answer as it stands afterwards. A correction first takes back what the message that it
// corrects had changed.
func (h *Heard) Apply(entry int64) (Answer, error) {
	tx := h.turn.Tx
	if h.question != nil && h.manner != speech.Nothing {
		if err := tx.Close(h.question.ID, entry); err != nil {
			return Answer{}, fmt.Errorf("close question: %w", err)
		}
	}
	if h.Answer.Question != "" {
		if err := tx.Ask(entry, h.turn.Place, h.turn.WhoKey, h.turn.Now); err != nil {
			return Answer{}, fmt.Errorf("ask back: %w", err)
		}
		return h.Answer, nil
	}
	effects := h.Answer.effects
	if len(effects) > 0 {
		for _, earlier := range h.corrected {
			effects = append([]effect{takeBack(earlier)}, effects...)
		}
	}
	var cs []store.Change
	for _, do := range effects {
		done, err := do(tx, entry)
		if text, ok := overtaken(err); ok {
			ans := say(text)
			ans.echo = true
			return finish(ans, h.Answer.Topic, nil, nil), nil
		}
		if err != nil {
			return Answer{}, fmt.Errorf("change the project: %w", err)
		}
		cs = append(cs, done...)
	}
	h.Answer.Changes = append(h.Answer.Changes, changed(cs)...)
	return h.Answer, nil
}
