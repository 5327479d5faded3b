package bot

import (
	"context"
	"errors"
	"slices"
	"strings"

	"fettle/commands"
	"fettle/store"
)

// Amend is told when a message was edited. What the message had changed is replaced by what
// the new text says, and its answer is amended in place. A text that is the same as before
// changes nothing; a message that was never kept is heard as a new one.
func (d *Desk) Amend(ctx context.Context, m Message) error {
	unknown := false
	err := d.guarded(ctx, m, func(tx *store.Tx) error {
		first, known, err := tx.EntryByKey(m.Key)
		if err != nil || !known {
			unknown = !known
			return err
		}
		versions, err := versionsOf(tx, first)
		if err != nil {
			return err
		}
		if gone(versions) || versions[len(versions)-1].Text == m.Text {
			return nil
		}
		if m.Files, err = stillHanging(tx, first, m.Files); err != nil {
			return err
		}
		return d.amend(tx, m, first, versions)
	})
	if err == nil && unknown {
		return d.Hear(ctx, m)
	}
	return err
}

// versionsOf lists a message and its edits and deletion, oldest first.
func versionsOf(tx *store.Tx, first store.Entry) ([]store.Entry, error) {
	about, err := tx.About(first.ID)
	if err != nil {
		return nil, err
	}
	out := []store.Entry{first}
	for _, e := range about {
		if e.Kind != store.Answer {
			out = append(out, e)
		}
	}
	return out, nil
}

// stillHanging gives what hangs on a message that was edited: only its words can change. A page that
// was fetched for the first wording may not be the one that the new wording names.
func stillHanging(tx *store.Tx, first store.Entry, told []store.File) ([]store.File, error) {
	if len(told) > 0 {
		return told, nil
	}
	files, err := tx.Files(first.ID)
	return slices.DeleteFunc(files, func(f store.File) bool { return f.Media == commands.RefusedPage || strings.HasPrefix(f.Ref, "http") }), err
}

func gone(versions []store.Entry) bool { return versions[len(versions)-1].Kind == store.Deletion }

func (d *Desk) amend(tx *store.Tx, m Message, first store.Entry, versions []store.Entry) error {
	h, err := commands.Hear(d.turn(tx, m, first.ID))
	if err != nil {
		return err
	}
	speak, _, err := d.manners(tx, m, h)
	if err != nil {
		return err
	}
	entry, err := tx.Add(d.entry(m, h, store.Edit, first.ID))
	if err != nil {
		return err
	}
	for i := len(versions) - 1; i >= 0; i-- {
		if _, err := tx.Undo(entry, versions[i].ID); err != nil {
			if errors.Is(err, store.ErrChangedSince) {
				return d.leave(tx, m, h, first, "You edited this, but what it changed was changed again since, so I leave that. Say what it should be now.")
			}
			return err
		}
	}
	before, err := lastAnswer(tx, first.ID)
	if err != nil || !speak && before == "" {
		return err
	}
	ans, err := h.Apply(entry)
	if err != nil {
		return err
	}
	return d.answer(tx, m, h, ans, answering{to: first.ID, amends: before, queue: true})
}

// leave tells people that an edit or a deletion leaves the project as it is.
func (d *Desk) leave(tx *store.Tx, m Message, h *commands.Heard, first store.Entry, text string) error {
	ans := commands.Answer{Topic: h.Answer.Topic, Answer: text, Text: text}
	return d.answer(tx, m, h, ans, answering{to: first.ID, queue: true})
}

// lastAnswer gives the source's id of the post that answers a message now, or "".
func lastAnswer(tx *store.Tx, message int64) (string, error) {
	answers, err := tx.AnswersTo(message)
	if err != nil {
		return "", err
	}
	for i := len(answers) - 1; i >= 0; i-- {
		key, sent, err := tx.SentKey(answers[i].ID)
		if err != nil || sent {
			return key, err
		}
	}
	return "", nil
}

// Withdraw is told when a message was deleted. The log says so; what the message changed
// stands, and if it changed anything, people are told how to take that back.
func (d *Desk) Withdraw(ctx context.Context, m Message) error {
	return d.guarded(ctx, m, func(tx *store.Tx) error {
		first, known, err := tx.EntryByKey(m.Key)
		if err != nil || !known {
			return err
		}
		versions, err := versionsOf(tx, first)
		if err != nil || gone(versions) {
			return err
		}
		h, err := commands.Hear(d.turn(tx, m, first.ID))
		if err != nil {
			return err
		}
		h.Project.ID = first.Project
		if _, err := tx.Add(store.Entry{Project: first.Project, Place: m.Place, Thread: first.Thread, WhoKey: first.WhoKey, Who: first.Who,
			Kind: store.Deletion, About: first.ID, At: m.At}); err != nil {
			return err
		}
		stands, err := inForce(tx, versions)
		if err != nil || !stands {
			return err
		}
		m.Thread = first.Thread
		return d.leave(tx, m, h, first, "That message is gone, but what it changed stands. Say “scratch that” to take it back.")
	})
}

// inForce says whether anything that the versions of a message changed still stands.
func inForce(tx *store.Tx, versions []store.Entry) (bool, error) {
	for _, v := range versions {
		cs, err := tx.ChangesBy(v.ID)
		if err != nil {
			return false, err
		}
		for _, c := range cs {
			if c.Op != "" && !c.Undone {
				return true, nil
			}
		}
	}
	return false, nil
}
