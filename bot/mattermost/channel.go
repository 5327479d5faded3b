package mattermost

import (
	"context"
	"errors"
	"runtime/debug"
	"strings"
	"sync"
	"time"

	"fettle/bot"

	"github.com/mattermost/mattermost/server/public/model"
)

const (
	longestQueue = 2000 // events; more are dropped and fetched instead
	mostSeen     = 2000 // posts remembered as handled
)

// channel is one channel's queue: what happens in it is handled one after the other, in its
// own goroutine, so that nobody waits for another channel.
type channel struct {
	a     *account
	id    string
	place string

	mu      sync.Mutex
	events  []event
	late    bool // events may have been missed: read the channel first
	deliver bool
	gone    bool // the server does not let us read it
	wake    chan struct{}

	// The rest belongs to the worker.
	known   bool   // the next two are
	direct  bool   // we are alone with one person
	project string // the channel is this project
	read    int64  // everything changed up to then has been handled, in the server's milliseconds
	floor   int64  // what was written before then is none of our business
	invited string // the post by which we were mentioned while being invited
	seen    map[string]seen
	order   []string       // the keys of seen, oldest first
	failed  map[string]int // how often the desk could not store a post
}

// event is something that happened in a channel: a post, or a sign put under one.
type event struct {
	post     *model.Post
	reaction *model.Reaction
}

// seen is what has been handled of a post.
type seen struct {
	text    string
	deleted bool
}

func newChannel(a *account, id string) *channel {
	return &channel{
		a: a, id: id, place: prefix + id, late: true, wake: make(chan struct{}, 1),
		read: a.began.read[prefix+id], seen: map[string]seen{}, failed: map[string]int{},
	}
}

// add queues an event. It never waits: when too many are queued they are all dropped, and
// the channel is read instead.
func (c *channel) add(e event) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.late = c.late || c.gone
	c.gone = false
	c.events = append(c.events, e)
	if len(c.events) > longestQueue {
		c.events, c.late = nil, true
	}
	c.nudge()
}

func (c *channel) askCatchUp() { c.ask(func() { c.late = c.late || !c.gone }) }
func (c *channel) askDeliver() { c.ask(func() { c.deliver = true }) }

// returned is called for a channel that we are in.
func (c *channel) returned() {
	c.ask(func() {
		c.late = c.late || c.gone
		c.gone = false
	})
}

func (c *channel) ask(change func()) {
	c.mu.Lock()
	defer c.mu.Unlock()
	change()
	c.nudge()
}

func (c *channel) nudge() {
	select {
	case c.wake <- struct{}{}:
	default: // it is awake already
	}
}

// work handles what is queued until the end; what is in hand then is finished.
func (c *channel) work() {
	for c.a.ctx.Err() == nil {
		if job := c.next(); job != nil {
			c.guard("work in a channel", job)
			continue
		}
		select {
		case <-c.wake:
		case <-c.a.ctx.Done():
		}
	}
}

func (c *channel) next() (job func()) {
	c.mu.Lock()
	defer c.mu.Unlock()
	switch {
	case c.late:
		c.late = false
		return c.catchUp
	case len(c.events) > 0:
		e := c.events[0]
		c.events = c.events[1:]
		return func() {
			if e.reaction != nil {
				c.react(e.reaction)
				return
			}
			c.handle(e.post, occasion{cursor: c.read, since: c.read - overlap})
		}
	case c.deliver:
		c.deliver = false
		return c.sendPending
	default:
		return nil
	}
}

// An occasion is how a post came to us.
type occasion struct {
	late   bool
	cursor int64 // what the channel has been read to when the post is done
	since  int64 // posts from before then that we have not seen were handled in an earlier run
}

// guard does something that must not take the whole program along when it panics.
func (c *channel) guard(what string, do func()) {
	defer func() {
		if r := recover(); r != nil {
			c.a.log.Error("a panic cost one piece of work", "what", what, "channel", c.id, "panic", r, "stack", string(debug.Stack()))
		}
	}()
	do()
}

// handle deals with one post and says whether it is done with. One that panics is: it would
// again. One that the desk cannot store is tried on later occasions, but not for ever.
func (c *channel) handle(post *model.Post, on occasion) (done bool) {
	done = true
	c.guard("a post "+post.Id, func() {
		err := c.consider(post, on)
		if err == nil {
			delete(c.failed, post.Id)
			return
		}
		c.failed[post.Id]++
		done = c.failed[post.Id] >= mostFailures
		c.a.log.Error("a post was not handled", "post", post.Id, "given up", done, "error", err)
	})
	if done {
		delete(c.failed, post.Id)
		c.remember(post)
	}
	return done
}

// consider tells the desk what is new about a post and sends what the desk answers.
func (c *channel) consider(post *model.Post, on occasion) error {
	if post.UserId == c.a.id {
		c.reactTo(post)
		return nil
	}
	if !personal(post) {
		return nil
	}
	ctx := c.a.ctx
	writer, err := c.a.people.who(ctx, post.UserId)
	if err != nil || writer.alien {
		return err
	}
	old, known := c.seen[post.Id]
	m := c.message(post, writer, on)
	if !known && post.DeleteAt == 0 {
		m.Files = c.filesOf(ctx, post)
	}
	stopTyping := c.showTyping(m)
	defer stopTyping()
	switch {
	case post.DeleteAt != 0 && old.deleted:
		return nil
	case post.DeleteAt != 0:
		err = c.tell(ctx, m, c.a.desk.Withdraw)
	case !known && (post.CreateAt >= c.floor && post.CreateAt > on.since || post.Id == c.invited):
		err = c.tell(ctx, m, c.a.desk.Hear)
		if err == nil && post.EditAt != 0 { // an earlier run may have heard another text
			err = c.tell(ctx, m, c.a.desk.Amend)
		}
	case known && old.text != post.Message, !known && post.EditAt != 0 && post.CreateAt >= c.floor:
		err = c.tell(ctx, m, c.a.desk.Amend)
	default:
		return nil
	}
	if err != nil {
		return err
	}
	c.sendPending()
	return nil
}

func (c *channel) message(post *model.Post, writer person, on occasion) bot.Message {
	said := post.Message
	if post.MessageSource != "" {
		said = post.MessageSource
	}
	text, mentioned := readMention(said, *c.a.name.Load())
	if post.DeleteAt != 0 {
		text = ""
	}
	return bot.Message{
		Key: prefix + post.Id, Place: c.place, Project: c.project, Thread: post.RootId,
		WhoKey: post.UserId, Who: writer.name, Text: text,
		At:        time.UnixMilli(post.CreateAt),
		Mentioned: mentioned, Direct: c.direct,
		Late: on.late, Cursor: on.cursor,
	}
}

const (
	mostTries    = 5 // to store a message, one after the other
	mostFailures = 3 // of that, minutes apart
)

// tell hands a message to the desk, again if the desk cannot store it just now. If it stays
// so, whoever asked is told, rather than left to think that it was noted.
func (c *channel) tell(ctx context.Context, m bot.Message, desk func(context.Context, bot.Message) error) error {
	wait := backoff{first: c.a.pace.retry}
	for try := 1; ; try++ {
		err := desk(c.a.hard, m)
		if err == nil {
			return nil
		}
		c.a.log.Error("the desk could not store a message", "post", m.Key, "try", try, "error", err)
		if try == mostTries {
			c.apologise(ctx, m)
			return err
		}
		if stopped := wait.pause(ctx); stopped != nil {
			return errors.Join(err, stopped)
		}
	}
}

func (c *channel) apologise(ctx context.Context, m bot.Message) {
	if !m.Mentioned && !m.Direct || c.failed[key(m.Key)] > 0 {
		return
	}
	err := c.a.rest.once(ctx, "say that a message was not saved", func(ctx context.Context, client *model.Client4) (*model.Response, error) {
		_, response, err := client.CreatePost(ctx, &model.Post{
			ChannelId: c.id, RootId: m.Thread,
			Message:       "I could not save that just now, so nothing is noted. Please say it again in a few minutes.",
			PendingPostId: c.a.id + ":unsaved:" + m.Key,
		})
		return response, err
	})
	if err != nil {
		c.a.log.Error("nobody could be told that a message was not saved", "error", err)
	}
}

func (c *channel) remember(post *model.Post) {
	if _, known := c.seen[post.Id]; !known {
		c.order = append(c.order, post.Id)
	}
	c.seen[post.Id] = seen{text: post.Message, deleted: post.DeleteAt != 0}
	if len(c.order) > mostSeen {
		delete(c.seen, c.order[0])
		c.order = c.order[1:]
	}
}

// showTyping shows that we are at it when something that was asked of us takes a while.
func (c *channel) showTyping(m bot.Message) (stop func()) {
	if m.Late || !m.Mentioned && !m.Direct {
		return func() {}
	}
	ctx, cancel := context.WithCancel(c.a.hard)
	var running sync.WaitGroup
	running.Go(func() {
		for d := c.a.pace.typing; sleep(ctx, d) == nil; d = c.a.pace.retyping {
			// Not worth a second attempt: the answer comes, or the next sign.
			_ = c.a.rest.once(ctx, "show typing", func(limited context.Context, client *model.Client4) (*model.Response, error) {
				limited, stop := context.WithCancel(limited)
				defer stop()
				defer context.AfterFunc(ctx, stop)()
				return client.PublishUserTyping(limited, c.a.id, model.TypingRequest{ChannelId: c.id, ParentId: m.Thread})
			})
		}
	})
	return func() {
		cancel()
		running.Wait()
	}
}

// key is a post's id from what the desk keeps of it.
func key(kept string) string { return strings.TrimPrefix(kept, prefix) }
