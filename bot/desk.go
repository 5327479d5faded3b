package bot

import (
	"context"
	"encoding/json"
	"fmt"
	"log/slog"
	"runtime/debug"
	"strings"
	"time"

	"fettle/commands"
	"fettle/store"
)

// Desk is where every message comes in, whatever place it was written in: it is understood,
// answered and remembered in one transaction, and its answer waits there until it was sent.
type Desk struct {
	store *store.Store
	now   func() time.Time
	zone  *time.Location
	log   *slog.Logger
	fetch Fetcher // nil where no page is fetched
}

// NewDesk makes a desk over a store, with a clock. Times are worded in the zone.
func NewDesk(s *store.Store, now func() time.Time, zone *time.Location, log *slog.Logger) *Desk {
	return &Desk{store: s, now: now, zone: zone, log: log}
}

// lateAfter is from when on an answer says that it comes late.
const lateAfter = 5 * time.Minute

// Hear stores a message, what it changes and its answer, if it deserves one, in one
// transaction; the answer then waits in Pending. A Key that was heard before changes nothing.
func (d *Desk) Hear(ctx context.Context, m Message) error {
	_, err := d.hear(ctx, m, true)
	return err
}

// Reply is Hear for a place that takes the answer at once.
func (d *Desk) Reply(ctx context.Context, m Message) (commands.Answer, error) {
	return d.hear(ctx, m, false)
}

func (d *Desk) hear(ctx context.Context, m Message, queue bool) (commands.Answer, error) {
	var ans commands.Answer
	m, err := d.withPage(ctx, m)
	if err != nil {
		return ans, err
	}
	err = d.guarded(ctx, m, func(tx *store.Tx) error {
		if _, known, err := tx.EntryByKey(m.Key); err != nil || known && m.Key != "" {
			return err
		}
		h, err := commands.Hear(d.turn(tx, m, 0))
		if err != nil {
			return err
		}
		speak, keep, err := d.manners(tx, m, h)
		if err != nil || !keep {
			return err
		}
		entry, err := tx.Add(d.entry(m, h, store.Message, 0))
		if err != nil {
			return err
		}
		if err := tx.Attach(entry, m.Files...); err != nil {
			return err
		}
		if !speak {
			return nil
		}
		if ans, err = h.Apply(entry); err != nil {
			return err
		}
		return d.answer(tx, m, h, ans, answering{to: entry, queue: queue, late: m.Late})
	})
	return ans, err
}

// manners decides whether a message is answered, and whether it is kept at all: of a place that
// is not listened to only what was said to the program is, unless nobody else keeps the rest.
func (d *Desk) manners(tx *store.Tx, m Message, h *commands.Heard) (speak, keep bool, err error) {
	if m.Mentioned || m.Direct {
		return true, true, nil
	}
	inThread := false
	if m.Thread != "" {
		if inThread, err = tx.AnsweredThread(m.Place, m.Thread); err != nil {
			return false, false, err
		}
	}
	if !inThread && !h.Manners.Listen {
		return false, m.Kept, nil
	}
	return h.Sure && h.Understood(), true, nil
}

func (d *Desk) turn(tx *store.Tx, m Message, before int64) commands.Turn {
	return commands.Turn{Tx: tx, Project: m.Project, Place: m.Place, WhoKey: m.WhoKey, Who: m.Who,
		Text: m.Text, Files: m.Files, Now: m.At.In(d.zone), Before: before}
}

func (d *Desk) entry(m Message, h *commands.Heard, kind string, about int64) store.Entry {
	e := store.Entry{Project: h.Project.ID, Place: m.Place, Thread: m.Thread, WhoKey: m.WhoKey, Who: m.Who,
		Kind: kind, About: about, At: m.At, Text: m.Text, Topic: h.Answer.Topic, Request: h.Request}
	if kind == store.Message {
		e.Key = m.Key
	}
	return e
}

// answering is how an answer goes out.
type answering struct {
	to     int64  // the message
	amends string // the post that it replaces
	queue  bool
	late   bool
}

// fettle is the name under which the answers stand in the log.
const fettle = "fettle"

func (d *Desk) answer(tx *store.Tx, m Message, h *commands.Heard, ans commands.Answer, how answering) error {
	if ans.Text == "" {
		return nil
	}
	text := ans.Text
	if how.late && d.now().Sub(m.At) > lateAfter {
		text = fmt.Sprintf("_Late: this was asked %s._\n%s", m.At.In(d.zone).Format("Mon 2 Jan 15:04"), text)
	}
	if how.amends != "" {
		text += "\n_(amended: the question was edited)_"
	}
	data, err := json.Marshal(ans)
	if err != nil {
		return fmt.Errorf("keep answer: %w", err)
	}
	id, err := tx.Add(store.Entry{Project: h.Project.ID, Place: m.Place, Thread: m.Thread, WhoKey: m.WhoKey, Who: fettle, Kind: store.Answer,
		About: how.to, At: m.At, Text: text, Topic: ans.Topic, Answer: data})
	if err != nil {
		return err
	}
	if err := d.attach(tx, id, h.Project, ans); err != nil || !how.queue {
		return err
	}
	thread := m.Thread
	if _, id, ok := strings.Cut(m.Key, ":"); ok && thread == "" && h.Manners.Threads && !m.Direct {
		thread = id
	}
	return tx.Queue(store.Out{Entry: id, Place: m.Place, Thread: thread, ReplyTo: m.Key, Amends: how.amends, Sign: ans.Sign})
}

// guarded runs one message's transaction and moves the place's cursor with it. A panic costs
// that message alone: it is kept without its meaning, so that it is not tried again for ever.
func (d *Desk) guarded(ctx context.Context, m Message, fn func(*store.Tx) error) (err error) {
	defer func() {
		if p := recover(); p != nil {
			d.log.Error("panic in a message", "key", m.Key, "panic", p, "stack", string(debug.Stack()))
			err = d.store.Write(ctx, func(tx *store.Tx) error { return d.givenUp(tx, m) })
		}
	}()
	return d.store.Write(ctx, func(tx *store.Tx) error {
		if err := fn(tx); err != nil {
			return err
		}
		return d.read(tx, m)
	})
}

func (d *Desk) read(tx *store.Tx, m Message) error {
	if m.Cursor == 0 {
		return nil
	}
	return tx.SetCursor(m.Place, m.Cursor)
}

// givenUp keeps a message that could not be handled, and says so where it was said.
func (d *Desk) givenUp(tx *store.Tx, m Message) error {
	p, err := tx.Project(m.Project)
	if err != nil {
		return err
	}
	e, err := tx.Add(store.Entry{Project: p.ID, Place: m.Place, Thread: m.Thread, WhoKey: m.WhoKey, Who: m.Who, Kind: store.Message,
		Key: m.Key, At: m.At, Text: m.Text, Topic: commands.Unknown})
	if err != nil {
		return err
	}
	id, err := tx.Add(store.Entry{Project: p.ID, Place: m.Place, Thread: m.Thread, Who: fettle, Kind: store.Answer, About: e, At: m.At,
		Text: "I stumbled over that message and left everything as it was. Please say it another way.", Topic: commands.Unknown})
	if err != nil {
		return err
	}
	if m.Mentioned || m.Direct {
		err = tx.Queue(store.Out{Entry: id, Place: m.Place, Thread: m.Thread, ReplyTo: m.Key})
	}
	if err != nil {
		return err
	}
	return d.read(tx, m)
}

// Pending lists the answers that wait to be sent to a place, or to every place if it is "",
// oldest first.
func (d *Desk) Pending(ctx context.Context, place string) (out []Outgoing, err error) {
	err = d.store.Read(ctx, func(tx *store.Tx) error {
		waiting, err := tx.Waiting(place)
		for _, w := range waiting {
			files, err := tx.Files(w.Entry)
			if err != nil {
				return err
			}
			out = append(out, Outgoing{ID: w.Entry, Place: w.Place, Thread: w.Thread, ReplyTo: w.ReplyTo, Text: w.Text,
				Sign: w.Sign, Files: files, Amends: w.Amends, At: w.At})
		}
		return err
	})
	return out, err
}

// Sent notes that an answer was posted, and under which id of the source.
func (d *Desk) Sent(ctx context.Context, id int64, key string) error {
	return d.store.Write(ctx, func(tx *store.Tx) error { return tx.Sent(id, key) })
}

// Places lists the places known whose name begins with prefix, with how far each was read.
func (d *Desk) Places(ctx context.Context, prefix string) (at map[string]int64, err error) {
	err = d.store.Read(ctx, func(tx *store.Tx) error {
		at, err = tx.Cursors(prefix)
		return err
	})
	return at, err
}
