package mattermost_test

import (
	"cmp"
	"context"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"

	"fettle/bot"
	"fettle/store"
)

// desk is a stand-in for the real desk that keeps the same promises: a key is heard once,
// an answer waits until it was sent. It answers a message that is meant for the bot with
// "heard: TEXT" unless reply says something else.
type desk struct {
	mu      sync.Mutex
	heard   []bot.Message
	changed []bot.Message // Amend and Withdraw that changed something
	calls   map[string]int
	outbox  []bot.Outgoing
	sent    map[int64]string
	last    int64
	reply   func(bot.Message) string
	hear    func(context.Context, bot.Message) error // runs first
	places  map[string]int64

	reactions []bot.Reaction
	sign      func(bot.Message) string
	files     func(bot.Message) []store.File
}

func newDesk() *desk {
	return &desk{calls: map[string]int{}, sent: map[int64]string{}, places: map[string]int64{},
		reply: func(m bot.Message) string { return "heard: " + m.Text }}
}

func (d *desk) Hear(ctx context.Context, m bot.Message) error {
	if d.hear != nil {
		if err := d.hear(ctx, m); err != nil {
			return err
		}
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	d.calls["hear "+m.Key]++
	if d.find(m.Key) != nil {
		return nil
	}
	d.heard = append(d.heard, m)
	d.places[m.Place] = max(d.places[m.Place], m.Cursor)
	if m.Mentioned || m.Direct {
		d.answer(m, "")
	}
	return nil
}

func (d *desk) answer(m bot.Message, amends string) {
	d.last++
	sign := ""
	if d.sign != nil {
		sign = d.sign(m)
	}
	var files []store.File
	if d.files != nil {
		files = d.files(m)
	}
	d.outbox = append(d.outbox, bot.Outgoing{
		ID: d.last, Files: files, Place: m.Place, Thread: m.Thread, ReplyTo: m.Key,
		Text: d.reply(m), Sign: sign, Amends: amends, At: m.At,
	})
}

func (d *desk) find(key string) *bot.Message {
	for i := range d.heard {
		if d.heard[i].Key == key {
			return &d.heard[i]
		}
	}
	return nil
}

func (d *desk) Amend(_ context.Context, m bot.Message) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.calls["amend "+m.Key]++
	old := d.find(m.Key)
	if old == nil || old.Text == m.Text {
		return nil
	}
	old.Text = m.Text
	d.changed = append(d.changed, m)
	if m.Mentioned || m.Direct {
		d.answer(m, d.sentFor(m.Key))
	}
	return nil
}

// sentFor gives the post that answers a message.
func (d *desk) sentFor(key string) string {
	for _, out := range slices.Backward(d.outbox) {
		if out.ReplyTo == key && d.sent[out.ID] != "" {
			return d.sent[out.ID]
		}
	}
	return ""
}

func (d *desk) Withdraw(_ context.Context, m bot.Message) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.calls["withdraw "+m.Key]++
	if d.find(m.Key) != nil {
		d.changed = append(d.changed, m)
	}
	return nil
}

func (d *desk) Pending(_ context.Context, place string) ([]bot.Outgoing, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	var waiting []bot.Outgoing
	for _, out := range d.outbox {
		if d.sent[out.ID] == "" && (place == "" || out.Place == place) {
			waiting = append(waiting, out)
		}
	}
	return waiting, nil
}

func (d *desk) Sent(_ context.Context, id int64, key string) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	if d.sent[id] != "" {
		return fmt.Errorf("answer %d is sent already", id)
	}
	d.sent[id] = key
	return nil
}

func (d *desk) Places(_ context.Context, prefix string) (map[string]int64, error) {
	d.mu.Lock()
	defer d.mu.Unlock()
	known := map[string]int64{}
	for place, cursor := range d.places {
		if strings.HasPrefix(place, prefix) {
			known[place] = cursor
		}
	}
	return known, nil
}

// messages gives what was heard in a channel, in the order of hearing.
func (d *desk) messages(channel string) []bot.Message {
	d.mu.Lock()
	defer d.mu.Unlock()
	return slices.DeleteFunc(slices.Clone(d.heard), func(m bot.Message) bool { return m.Place != "mattermost:"+channel })
}

func (d *desk) changes() []bot.Message {
	d.mu.Lock()
	defer d.mu.Unlock()
	return slices.Clone(d.changed)
}

func (d *desk) count(call string) int {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.calls[call]
}

func (d *desk) allSent() bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	return len(d.sent) == len(d.outbox)
}

// remind puts an answer into the outbox that no message has brought.
func (d *desk) remind(channel, text string) {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.last++
	d.outbox = append(d.outbox, bot.Outgoing{ID: d.last, Place: "mattermost:" + channel, Text: text, At: time.Now()})
}

func texts(messages []bot.Message) string {
	said := make([]string, len(messages))
	for i, m := range messages {
		said[i] = cmp.Or(m.Text, "-")
	}
	return strings.Join(said, " | ")
}

// React keeps what it is told, once a key.
func (d *desk) React(_ context.Context, r bot.Reaction) error {
	d.mu.Lock()
	defer d.mu.Unlock()
	if !slices.ContainsFunc(d.reactions, func(old bot.Reaction) bool { return old.Key == r.Key }) {
		d.reactions = append(d.reactions, r)
	}
	return nil
}

func (d *desk) signs() []bot.Reaction {
	d.mu.Lock()
	defer d.mu.Unlock()
	return slices.Clone(d.reactions)
}
