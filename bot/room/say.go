package room

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"net/http"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"fettle/bot"
	"fettle/commands"
	"fettle/store"
)

const (
	longestText = 4000 // characters of a message
	longestWait = 14 * 24 * time.Hour
	latePause   = 2 * time.Minute // that a message may have waited on a phone before it counts as late
)

// said is a message as a phone sends it.
type said struct {
	Key  string // the phone's own id of it, the same at every attempt
	Text string
	Ask  bool          // put to the program: by a button, or by its name
	Aged time.Duration // how long it has waited on the phone

	Files []store.File // what hangs on it
}

var keyForm = regexp.MustCompile(`^[0-9a-f-]{16,40}$`)

func readSaid(r *http.Request) (said, error) {
	s := said{Key: r.FormValue("key"), Text: strings.TrimSpace(strings.ToValidUTF8(r.FormValue("text"), "")), Ask: r.FormValue("ask") != ""}
	if !keyForm.MatchString(s.Key) {
		return s, refusal("That page is too old. Load it again.")
	}
	if utf8.RuneCountInString(s.Text) > longestText {
		return s, refusal(fmt.Sprintf("A message may have %d characters. Say it in two.", longestText))
	}
	ms, err := strconv.ParseInt(cmp.Or(r.FormValue("aged"), "0"), 10, 64)
	if err == nil {
		s.Aged = min(max(time.Duration(ms)*time.Millisecond, 0), longestWait)
	}
	return s, nil
}

// keyOf makes a phone's id of a message one that nobody else's can meet.
func keyOf(p person, key string) string { return prefix + p.key() + ":" + key }

// hear tells the desk what somebody said.
func (r *Room) hear(ctx context.Context, p person, in store.Project, s said) error {
	text, named := readName(s.Text)
	if len(s.Files) > 0 && onlyName(s.Text) { // a file for the program, and not a word more
		text, named = wordless(s.Files[0]), true
	}
	alone, err := r.alone(ctx, p, in)
	if err != nil {
		return err
	}
	m := bot.Message{Key: keyOf(p, s.Key), Place: place(in.ID), Project: in.Name, WhoKey: p.key(), Who: p.Name, Text: text,
		At: r.cfg.Now().Add(-s.Aged), Mentioned: named || s.Ask, Direct: alone, Kept: true, Late: s.Aged > latePause, Files: s.Files}
	if err := r.desk.Hear(ctx, m); err != nil {
		return err
	}
	return r.deliver(ctx, in.ID)
}

// signMark stands before the id of an answer that is a sign where there are signs, and a small
// line here.
const signMark = "sign:"

// deliver notes the answers that wait for a room as sent, for what is in the log is on the pages.
func (r *Room) deliver(ctx context.Context, project int64) error {
	waiting, err := r.desk.Pending(ctx, place(project))
	if err != nil {
		return err
	}
	for _, o := range waiting {
		key := cmp.Or(o.Amends, prefix+"answer:"+strconv.FormatInt(o.ID, 10))
		if o.Sign != "" {
			key = signMark + key
		}
		if err := r.desk.Sent(ctx, o.ID, key); err != nil {
			return err
		}
	}
	r.bell.ring()
	return nil
}

// company is how long somebody who spoke in a room counts as of its company.
const (
	company    = 14 * 24 * time.Hour
	lookedBack = 2000 // messages at most
)

// alone says whether somebody has the room to themselves, so that everything they say is meant
// for the program.
func (r *Room) alone(ctx context.Context, p person, in store.Project) (alone bool, err error) {
	if r.bell.others(in.ID, p.key()) {
		return false, nil
	}
	err = r.store.Read(ctx, func(tx *store.Tx) error {
		spoke, err := tx.Talkers(place(in.ID), r.cfg.Now().Add(-company), lookedBack)
		alone = !slices.ContainsFunc(spoke, func(key string) bool { return key != p.key() && key != keeper })
		return err
	})
	return alone, err
}

// byName finds the program's name where people put it to speak to it.
var byName = regexp.MustCompile(`(?i)^\s*@?fettle\b\s*[,:;!]?\s*|\s*@fettle\b`)

// readName cuts the program's name out of what was said to it.
func readName(text string) (rest string, named bool) {
	rest = strings.TrimSpace(byName.ReplaceAllString(text, ""))
	if rest == "" || !byName.MatchString(text) {
		return text, false
	}
	return rest, true
}

// onlyName says whether somebody said the program's name and nothing else.
func onlyName(text string) bool {
	return byName.MatchString(text) && strings.TrimSpace(byName.ReplaceAllString(text, "")) == ""
}

// wordless is the text of a file that came without a word.
func wordless(f store.File) string {
	if f.Data == nil {
		return commands.PhotoAlone
	}
	return commands.ListAlone
}

// own finds a message that a person wrote in a room.
func (r *Room) own(ctx context.Context, p person, in store.Project, id int64) (e store.Entry, err error) {
	err = r.store.Read(ctx, func(tx *store.Tx) error {
		found := false
		e, found, err = tx.EntryByID(id)
		if err == nil && (!found || e.Kind != store.Message || e.Place != place(in.ID) || e.WhoKey != p.key()) {
			err = refusal("That message isn’t yours to change.")
		}
		return err
	})
	return e, err
}

// change amends a message, or takes it back if there is no text.
func (r *Room) change(ctx context.Context, p person, in store.Project, id int64, text string) error {
	e, err := r.own(ctx, p, in, id)
	if err != nil {
		return err
	}
	alone, err := r.alone(ctx, p, in)
	if err != nil {
		return err
	}
	m := bot.Message{Key: e.Key, Place: e.Place, Project: in.Name, WhoKey: p.key(), Who: p.Name, At: e.At, Direct: alone, Kept: true}
	m.Text, m.Mentioned = readName(text)
	if text == "" {
		err = r.desk.Withdraw(ctx, m)
	} else {
		err = r.desk.Amend(ctx, m)
	}
	if err != nil {
		return err
	}
	return r.deliver(ctx, in.ID)
}

// sentence is what a person is told about an error.
func sentence(err error) (text string, status int) {
	var no refusal
	switch {
	case errors.As(err, &no):
		return string(no), http.StatusUnprocessableEntity
	case store.Sentence(err) != "":
		return store.Sentence(err), http.StatusServiceUnavailable
	}
	return "That could not be saved just now. It is tried again.", http.StatusServiceUnavailable
}
