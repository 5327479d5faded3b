package mattermost

import (
	"context"
	"fmt"
	"log/slog"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"time"

	"github.com/mattermost/mattermost/server/public/model"
)

// prefix stands before a channel's id in a place's name and before a post's id in a key.
const prefix = "mattermost:"

// account is the bot's account during one Run.
type account struct {
	cfg    Config
	desk   Desk
	pace   pace
	log    *slog.Logger
	rest   *rest
	people *people

	ctx  context.Context // ends when no new work is to be begun
	hard context.Context // ends when what is in hand must be dropped too

	id      string // the account's user id
	name    atomic.Pointer[string]
	maxPost atomic.Int64
	began   beginning

	mu       sync.Mutex
	channels map[string]*channel
	doubtful map[int64]bool // answers that may stand in the channel already

	relist  chan struct{} // wakes the listing of channels
	running sync.WaitGroup
}

// beginning is what was known when the Run began.
type beginning struct {
	read  map[string]int64 // how far each place was read
	awake int64            // the latest time up to which an earlier run has read anything, or this run's start
	first bool             // no earlier run has read anything
}

func newAccount(ctx context.Context, end context.CancelCauseFunc, cfg Config, desk Desk, pace pace) *account {
	hard, drop := context.WithCancel(context.WithoutCancel(ctx))
	context.AfterFunc(ctx, func() { time.AfterFunc(pace.shutdown, drop) })
	a := &account{
		cfg: cfg, desk: desk, pace: pace, log: cfg.Logger, ctx: ctx, hard: hard,
		channels: map[string]*channel{}, doubtful: map[int64]bool{}, relist: make(chan struct{}, 1),
	}
	a.rest = newRest(hard, cfg, pace, func() { end(ErrToken) })
	a.people = newPeople(a.rest)
	a.maxPost.Store(model.PostMessageMaxRunesV2)
	return a
}

func (a *account) close() {
	a.running.Wait()
	a.rest.close()
}

// live finds out who the bot is and what waits, and then works until ctx ends.
func (a *account) live(ctx context.Context) error {
	if err := a.rest.call(ctx, "ask who the token belongs to", a.introduce); err != nil {
		return err
	}
	if err := a.recall(ctx); err != nil {
		return err
	}
	a.log.Info("living on Mattermost", "server", a.cfg.URL, "as", *a.name.Load())
	a.running.Go(func() { a.every(a.pace.sweep, a.catchUpAll) })
	a.running.Go(func() { a.every(a.pace.outbox, a.lookForAnswers) })
	a.running.Go(a.listChannels)
	a.lookForAnswers()
	stayConnected(ctx, a.log, backoff{first: a.pace.retry}, a.connect)
	return nil
}

// introduce asks for the account and for the server's limits.
func (a *account) introduce(ctx context.Context, client *model.Client4) (*model.Response, error) {
	me, response, err := client.GetMe(ctx, "")
	if err != nil {
		return response, err
	}
	if a.id == "" {
		a.id = me.Id
		a.began.awake = serverTime(response.Header, a.cfg.Now())
	}
	a.name.Store(&me.Username)
	settings, response, err := client.GetClientConfig(ctx, "")
	if err != nil {
		return response, err
	}
	if n, err := strconv.ParseInt(settings["MaxPostSize"], 10, 64); err == nil && n > 0 {
		a.maxPost.Store(n)
	}
	return response, nil
}

// serverTime is the server's clock in milliseconds, to the second.
func serverTime(header http.Header, otherwise time.Time) int64 {
	if at, err := http.ParseTime(header.Get("Date")); err == nil {
		return at.UnixMilli()
	}
	return otherwise.UnixMilli()
}

// recall asks the desk how far it has read, and which answers an earlier run has left; those
// may have been posted without the desk's learning of it.
func (a *account) recall(ctx context.Context) error {
	read, err := a.desk.Places(ctx, prefix)
	if err != nil {
		return fmt.Errorf("recall the places: %w", err)
	}
	a.began.read, a.began.first = read, len(read) == 0
	if !a.began.first {
		a.began.awake = 0
	}
	for _, at := range read {
		a.began.awake = max(a.began.awake, at)
	}
	pending, err := a.desk.Pending(ctx, "")
	if err != nil {
		return fmt.Errorf("recall the answers that wait: %w", err)
	}
	for _, answer := range pending {
		a.doubt(answer.ID)
	}
	return nil
}

func (a *account) doubt(answer int64) {
	a.mu.Lock()
	defer a.mu.Unlock()
	a.doubtful[answer] = true
}

func (a *account) isDoubtful(answer int64) bool {
	a.mu.Lock()
	defer a.mu.Unlock()
	return a.doubtful[answer]
}

func (a *account) settled(answer int64) {
	a.mu.Lock()
	defer a.mu.Unlock()
	delete(a.doubtful, answer)
}

// every does something at intervals until the end.
func (a *account) every(d time.Duration, do func()) {
	for sleep(a.ctx, d) == nil {
		do()
	}
}

// channel gives the channel's queue, opened if it is new.
func (a *account) channel(id string) *channel {
	a.mu.Lock()
	defer a.mu.Unlock()
	c := a.channels[id]
	if c == nil {
		c = newChannel(a, id)
		a.channels[id] = c
		if a.ctx.Err() == nil {
			a.running.Go(c.work)
		}
	}
	return c
}

// catchUpAll has every channel read again before anything else is done in it, and the
// channels listed afresh.
func (a *account) catchUpAll() {
	a.mu.Lock()
	for _, c := range a.channels {
		c.askCatchUp()
	}
	a.mu.Unlock()
	select {
	case a.relist <- struct{}{}:
	default: // it is asked for already
	}
}

// listChannels lists the account's channels whenever it is asked to: it may have been
// invited somewhere while nobody was listening.
func (a *account) listChannels() {
	for {
		select {
		case <-a.ctx.Done():
			return
		case <-a.relist:
		}
		var list []*model.Channel
		err := a.rest.call(a.ctx, "list the channels", func(ctx context.Context, client *model.Client4) (response *model.Response, err error) {
			list, response, err = client.GetChannelsForUserWithLastDeleteAt(ctx, a.id, 0)
			return response, err
		})
		if err != nil {
			a.log.Warn("the channels cannot be listed", "error", err)
			continue
		}
		for _, info := range list {
			a.channel(info.Id).returned()
		}
	}
}

// lookForAnswers finds answers that no message of ours has just brought: those left by an
// earlier run, and reminders.
func (a *account) lookForAnswers() {
	pending, err := a.desk.Pending(a.hard, "")
	if err != nil {
		a.log.Error("the desk does not say which answers wait", "error", err)
		return
	}
	for _, answer := range pending {
		if id, ours := strings.CutPrefix(answer.Place, prefix); ours {
			a.channel(id).askDeliver()
		}
	}
}
