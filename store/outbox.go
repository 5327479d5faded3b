package store

import (
	"fmt"
	"time"
)

// Out is an answer on its way out.
type Out struct {
	Entry   int64  // the answer in the log
	Place   string // where it goes
	Thread  string // the root to answer under, or ""
	ReplyTo string // the key of the message that it answers, or ""
	Amends  string // the source's id of the post that it replaces, or ""
	Sign    string // a sign to put on the message instead of posting the answer: "thumbsup"; or ""

	Text string    // the answer's text; filled in by Waiting
	At   time.Time // of the message that it answers, else its own; filled in by Waiting
}

// Queue puts an answer, which must be in the log, on its way out. Text and At are not looked at.
func (t *Tx) Queue(o Out) error {
	_, err := t.exec(`
		INSERT INTO outbox (entry_id, place, thread, reply_to, amends, sign, state, source_key)
		VALUES (?, ?, ?, ?, ?, ?, 'waiting', '')`, o.Entry, o.Place, o.Thread, o.ReplyTo, o.Amends, o.Sign)
	if err != nil {
		return fmt.Errorf("queue answer %d: %w", o.Entry, err)
	}
	return nil
}

// Waiting returns the answers that wait to be sent to a place, or to every place if it is "",
// oldest first.
func (t *Tx) Waiting(place string) ([]Out, error) {
	all, err := list(t, func(scan scanner) (o Out, err error) {
		var ms int64
		err = scan(&o.Entry, &o.Place, &o.Thread, &o.ReplyTo, &o.Amends, &o.Sign, &o.Text, &ms)
		o.At = fromMillis(ms)
		return o, err
	}, `
		SELECT o.entry_id, o.place, o.thread, o.reply_to, o.amends, o.sign, e.text, coalesce(m.at_ms, e.at_ms)
		FROM outbox o JOIN entries e ON e.id = o.entry_id LEFT JOIN entries m ON m.id = e.about
		WHERE o.state = 'waiting' AND (? = '' OR o.place = ?) ORDER BY o.entry_id`, place, place)
	if err != nil {
		return nil, fmt.Errorf("waiting answers: %w", err)
	}
	return all, nil
}

// Sent notes that an answer was posted, and under which id of the source. Noting it twice keeps
// the first id. ErrNotFound if the answer was never queued.
func (t *Tx) Sent(entry int64, sourceKey string) error {
	n, err := t.exec(`
		UPDATE outbox SET state = 'sent', source_key = iif(state = 'sent', source_key, ?)
		WHERE entry_id = ?`, sourceKey, entry)
	if err == nil && n == 0 {
		err = ErrNotFound
	}
	if err != nil {
		return fmt.Errorf("note answer %d as sent: %w", entry, err)
	}
	return nil
}

// SentKey returns the source's id of an answer, and whether it was sent.
func (t *Tx) SentKey(entry int64) (string, bool, error) {
	var key string
	sent, err := t.row("SELECT source_key FROM outbox WHERE entry_id = ? AND state = 'sent'", []any{entry}, &key)
	if err != nil {
		return "", false, fmt.Errorf("source key of answer %d: %w", entry, err)
	}
	return key, sent, nil
}

// AnswerSentAs returns the answer that stands under an id of the source, and whether there is one.
func (t *Tx) AnswerSentAs(place, sourceKey string) (Entry, bool, error) {
	return t.oneEntry("answer by its post", "SELECT "+entryColumns+` FROM entries e JOIN outbox o ON o.entry_id = e.id
		WHERE o.place = ? AND o.source_key = ? AND o.source_key <> '' ORDER BY e.id DESC LIMIT 1`, place, sourceKey)
}

// AnsweredThread reports whether an answer went, or waits to go, into a thread. Top level ("") is
// no thread.
func (t *Tx) AnsweredThread(place, thread string) (bool, error) {
	var one int
	found, err := t.row("SELECT 1 FROM outbox WHERE place = ? AND thread = ? AND thread <> '' LIMIT 1",
		[]any{place, thread}, &one)
	if err != nil {
		return false, fmt.Errorf("answered thread: %w", err)
	}
	return found, nil
}
