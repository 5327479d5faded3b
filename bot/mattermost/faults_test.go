package mattermost_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"log/slog"
	"math/rand/v2"
	"net/http"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"fettle/bot"
	"fettle/bot/mattermost"

	"github.com/mattermost/mattermost/server/public/model"
)

// brisk waits for nothing longer than a test should.
var brisk = mattermost.Pace{Call: 300 * time.Millisecond, Hello: time.Second, Outbox: 50 * time.Millisecond, Retry: 10 * time.Millisecond}

func onFake(t *testing.T, f *fake, d *desk, pace mattermost.Pace) (stop func()) {
	t.Helper()
	before := f.greetings()
	stop = live(t, mattermost.Config{URL: f.URL, Token: marker}, d, pace)
	eventually(t, "the greeting", func() bool { return f.greetings() > before })
	return stop
}

func eventually(t *testing.T, what string, done func() bool) {
	t.Helper()
	for end := time.Now().Add(20 * time.Second); time.Now().Before(end); time.Sleep(5 * time.Millisecond) {
		if done() {
			return
		}
	}
	t.Fatalf("waited in vain for %s", what)
}

// numbered gives the answers to "@fettle 0" to "@fettle n-1".
func numbered(n int) []string {
	want := make([]string, n)
	for i := range want {
		want[i] = fmt.Sprintf("heard: %d", i)
	}
	return want
}

// expectOnce waits for all answers and then makes sure that none comes twice or out of order.
func expectOnce(t *testing.T, f *fake, d *desk, channel string, want []string) {
	t.Helper()
	eventually(t, fmt.Sprintf("%d answers", len(want)), func() bool { return len(f.answers(channel)) >= len(want) && d.allSent() })
	if got := f.answers(channel); !slices.Equal(got, want) {
		t.Errorf("the answers are %q, want %q", got, want)
	}
}

// Each fault meets the calls that post, each time the test says so.
func TestFaultsWhilePostingLoseAndDoubleNothing(t *testing.T) {
	every := func(n int64, what fault) func(r *http.Request) fault {
		var calls atomic.Int64
		return func(r *http.Request) fault {
			if r.Method == http.MethodPost && strings.HasSuffix(r.URL.Path, "/posts") && calls.Add(1)%n == 0 {
				return what
			}
			return fault{}
		}
	}
	rows := map[string]struct {
		fault  func(r *http.Request) fault
		forget bool
	}{
		"too many requests":     {fault: every(3, fault{status: 429, header: map[string]string{"X-RateLimit-Reset": "0"}})},
		"out of order":          {fault: every(2, fault{status: 500})},
		"overloaded":            {fault: every(2, fault{status: 503})},
		"line cut before":       {fault: every(2, fault{cutBefore: true})},
		"reply lost":            {fault: every(2, fault{cutAfter: true})},
		"reply lost, forgotten": {fault: every(2, fault{cutAfter: true}), forget: true},
	}
	for name, row := range rows {
		t.Run(name, func(t *testing.T) {
			f, d := newFake(t), newDesk()
			f.forget = row.forget
			channel := f.channel("c")
			onFake(t, f, d, brisk)
			f.order(row.fault)
			for i := range 10 {
				f.say(channel, fmt.Sprintf("@fettle %d", i))
			}
			expectOnce(t, f, d, channel, numbered(10))
		})
	}
}

func TestQuietHoldsBackEverythingAndKeepsTheOrder(t *testing.T) {
	f, d := newFake(t), newDesk()
	channels := []string{f.channel("a"), f.channel("b")}
	onFake(t, f, d, brisk)
	var calls atomic.Int64
	f.order(func(*http.Request) fault {
		if calls.Add(1)%3 == 0 {
			return fault{status: 429, header: map[string]string{"X-RateLimit-Reset": "0"}}
		}
		return fault{}
	})
	for i := range 5 {
		for _, channel := range channels {
			f.say(channel, fmt.Sprintf("@fettle %d", i))
		}
	}
	for _, channel := range channels {
		expectOnce(t, f, d, channel, numbered(5))
	}
}

// A post that never gets a reply holds up its own channel only, and only until the deadline.
func TestACallWithoutAReplyHoldsUpNobodyElse(t *testing.T) {
	f, d := newFake(t), newDesk()
	stuck, free := f.channel("stuck"), f.channel("free")
	onFake(t, f, d, brisk)
	release := make(chan struct{})
	defer close(release)
	var hung atomic.Bool
	f.order(func(r *http.Request) fault {
		if r.Method == http.MethodPost && strings.HasSuffix(r.URL.Path, "/posts") && hung.CompareAndSwap(false, true) {
			return fault{hang: release}
		}
		return fault{}
	})
	f.say(stuck, "@fettle 0")
	eventually(t, "the call to hang", hung.Load)
	f.say(free, "@fettle 0")
	expectOnce(t, f, d, free, numbered(1))
	expectOnce(t, f, d, stuck, numbered(1))
}

func TestADeafSocketIsMadeUpForByReading(t *testing.T) {
	f, d := newFake(t), newDesk()
	channel := f.channel("c")
	pace := brisk
	pace.Sweep = 100 * time.Millisecond
	onFake(t, f, d, pace)
	f.mu.Lock()
	f.deaf = true
	f.mu.Unlock()
	first := f.say(channel, "@fettle 0")
	expectOnce(t, f, d, channel, numbered(1))
	f.edit(first, "@fettle 7")
	eventually(t, "the edit", func() bool { return slices.Equal(f.answers(channel), []string{"heard: 7"}) })
	f.remove(first)
	eventually(t, "the deletion", func() bool { return d.count("withdraw mattermost:"+first.Id) == 1 })
}

func TestAMissingSequenceNumberIsAReasonToRead(t *testing.T) {
	f, d := newFake(t), newDesk()
	channel := f.channel("c")
	onFake(t, f, d, brisk)
	f.mu.Lock()
	f.deaf = true
	f.mu.Unlock()
	f.say(channel, "@fettle 0")
	f.mu.Lock()
	f.deaf = false
	f.mu.Unlock()
	f.skip()
	f.say(channel, "@fettle 1")
	expectOnce(t, f, d, channel, numbered(2))
}

func TestReconnectsAddNothing(t *testing.T) {
	f, d := newFake(t), newDesk()
	channel := f.channel("c")
	onFake(t, f, d, brisk)
	f.say(channel, "@fettle 0")
	expectOnce(t, f, d, channel, numbered(1))
	before := runtime.NumGoroutine()
	for range 10 {
		greeted := f.greetings()
		f.drop()
		eventually(t, "the next greeting", func() bool { return f.greetings() > greeted })
	}
	f.say(channel, "@fettle 1")
	expectOnce(t, f, d, channel, numbered(2))
	eventually(t, "the goroutines of old connections to end", func() bool { return runtime.NumGoroutine() <= before+6 })
}

func TestWhatIsSaidWhileTheLineIsDownIsHeardOnceInOrder(t *testing.T) {
	f, d := newFake(t), newDesk()
	channel := f.channel("c")
	onFake(t, f, d, brisk)
	for i := range 40 {
		f.say(channel, fmt.Sprintf("@fettle %d", i))
		if i%4 == 1 {
			f.drop()
		}
	}
	expectOnce(t, f, d, channel, numbered(40))
}

func TestARefusedTokenEndsTheRun(t *testing.T) {
	f := newFake(t)
	f.order(func(*http.Request) fault { return fault{status: 401} })
	var log bytes.Buffer
	cfg := mattermost.Config{URL: f.URL, Token: marker, Logger: slog.New(slog.NewTextHandler(&log, nil))}
	err := mattermost.RunAt(t.Context(), cfg, newDesk(), brisk)
	if !errors.Is(err, mattermost.ErrToken) {
		t.Errorf("Run = %v, want ErrToken", err)
	}
	if n := f.called("GET /api/v4/users/me"); n != 1 {
		t.Errorf("the token was tried %d times", n)
	}
	if strings.Contains(fmt.Sprint(err)+log.String(), marker) {
		t.Error("the token is in the error or the log")
	}
}

func TestATokenThatIsTakenBackEndsTheRun(t *testing.T) {
	f := newFake(t)
	channel := f.channel("c")
	ended := make(chan error, 1)
	go func() {
		ended <- mattermost.RunAt(t.Context(), mattermost.Config{URL: f.URL, Token: marker}, newDesk(), brisk)
	}()
	eventually(t, "the greeting", func() bool { return f.greetings() > 0 })
	f.order(func(*http.Request) fault { return fault{status: 401} })
	f.say(channel, "@fettle 0")
	if err := <-ended; !errors.Is(err, mattermost.ErrToken) {
		t.Errorf("Run = %v, want ErrToken", err)
	}
}

func TestAConfigThatCannotWorkIsRefused(t *testing.T) {
	for _, cfg := range []mattermost.Config{{}, {URL: "chat.example.org", Token: marker}, {URL: "https://chat.example.org"}, {URL: "ftp://x", Token: marker}} {
		if err := mattermost.Run(t.Context(), cfg, newDesk()); err == nil || strings.Contains(err.Error(), marker) {
			t.Errorf("Run(%v) = %v", cfg.URL, err)
		}
	}
}

// locked is a log to be read while it is written.
type locked struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (l *locked) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.Write(p)
}

func (l *locked) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.String()
}

func TestAPanicCostsOneMessageAndShowsNoToken(t *testing.T) {
	f, d := newFake(t), newDesk()
	channel := f.channel("c")
	d.hear = func(_ context.Context, m bot.Message) error {
		if strings.Contains(m.Text, "boom") {
			panic("with " + marker)
		}
		return nil
	}
	var log locked
	ctx, cancel := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() {
		ended <- mattermost.RunAt(ctx, mattermost.Config{URL: f.URL, Token: marker, Logger: slog.New(slog.NewTextHandler(&log, nil))}, d, brisk)
	}()
	eventually(t, "the greeting", func() bool { return f.greetings() > 0 })
	f.say(channel, "@fettle boom")
	f.say(channel, "@fettle 0")
	expectOnce(t, f, d, channel, numbered(1))
	cancel()
	if err := <-ended; err != nil {
		t.Errorf("Run = %v", err)
	}
	if !strings.Contains(log.String(), "panic") || strings.Contains(log.String(), marker) {
		t.Errorf("the log is\n%s", log.String())
	}
}

func TestAnAnswerThatCannotBePostedDoesNotBlockTheQueue(t *testing.T) {
	f, d := newFake(t), newDesk()
	channel := f.channel("c")
	onFake(t, f, d, brisk)
	var refused atomic.Bool
	f.order(func(r *http.Request) fault {
		if r.Method == http.MethodPost && strings.HasSuffix(r.URL.Path, "/posts") && refused.CompareAndSwap(false, true) {
			return fault{status: 403}
		}
		return fault{}
	})
	f.say(channel, "@fettle x")
	f.say(channel, "@fettle 0")
	expectOnce(t, f, d, channel, numbered(1))
	if got := d.sent[1]; got != "refused:1" {
		t.Errorf("the refused answer is marked %q", got)
	}
}

func TestAnAnswerThatMayNotBeChangedIsFollowedByAnother(t *testing.T) {
	f, d := newFake(t), newDesk()
	channel := f.channel("c")
	onFake(t, f, d, brisk)
	f.order(func(r *http.Request) fault {
		if r.Method == http.MethodPut {
			return fault{status: 403}
		}
		return fault{}
	})
	asked := f.say(channel, "@fettle 0")
	expectOnce(t, f, d, channel, numbered(1))
	f.edit(asked, "@fettle 1")
	expectOnce(t, f, d, channel, numbered(2))
}

// An edit is reported with the same text, for example because the post was pinned.
func TestAnEditThatChangesNoTextIsNotHandedOn(t *testing.T) {
	f, d := newFake(t), newDesk()
	channel := f.channel("c")
	onFake(t, f, d, brisk)
	asked := f.say(channel, "@fettle 0")
	expectOnce(t, f, d, channel, numbered(1))
	f.edit(asked, "@fettle 0")
	f.say(channel, "@fettle 1")
	expectOnce(t, f, d, channel, numbered(2))
	if n := d.count("amend mattermost:" + asked.Id); n != 0 {
		t.Errorf("the desk was told of %d edits", n)
	}
}

// While one channel is being handled slowly a thousand events arrive.
func TestASlowMessageLosesNothingAndHoldsUpNobodyElse(t *testing.T) {
	f, d := newFake(t), newDesk()
	slow, other := f.channel("slow"), f.channel("other")
	release := make(chan struct{})
	d.hear = func(_ context.Context, m bot.Message) error {
		if m.Text == "wait" {
			<-release
		}
		return nil
	}
	onFake(t, f, d, brisk)
	f.say(slow, "wait")
	for i := range 1000 {
		f.say(slow, fmt.Sprint(i))
	}
	f.say(other, "@fettle 0")
	expectOnce(t, f, d, other, numbered(1))
	if n := len(d.messages(slow)); n != 0 {
		t.Errorf("%d messages have overtaken the slow one", n)
	}
	close(release)
	eventually(t, "all messages", func() bool { return len(d.messages(slow)) == 1001 })
	for i, m := range d.messages(slow)[1:] {
		if m.Text != fmt.Sprint(i) {
			t.Fatalf("message %d is %q", i, m.Text)
		}
	}
}

// Fifteen hundred posts with edits, deletions and shared milliseconds are more than the
// server tells at once.
func TestALongAbsenceIsReadWholeAndInOrder(t *testing.T) {
	f, d := newFake(t), newDesk()
	channel := f.channel("c")
	stop := onFake(t, f, d, brisk)
	f.say(channel, "@fettle 0")
	expectOnce(t, f, d, channel, numbered(1))
	stop()
	var want []string
	f.mu.Lock()
	start := f.tick() + 100_000 // clear of the overlap
	f.mu.Unlock()
	for i := range 1500 {
		text := fmt.Sprintf("said %d", i)
		f.mu.Lock()
		f.clock = start + int64(i)
		post := f.store(&model.Post{ChannelId: channel, UserId: petraID, Message: text, CreateAt: start + int64(i/2)}).Clone()
		f.mu.Unlock()
		switch {
		case i%50 == 7:
			f.edit(post, text+" better")
			text += " better"
		case i%50 == 11:
			f.remove(post)
			continue
		}
		want = append(want, text)
	}
	onFake(t, f, d, brisk)
	eventually(t, "all messages", func() bool { return len(d.messages(channel)) >= len(want)+1 })
	got := d.messages(channel)[1:]
	if len(got) != len(want) {
		t.Fatalf("heard %d messages, want %d", len(got), len(want))
	}
	seen := map[string]int{}
	for i, m := range got {
		seen[m.Text]++
		if i > 0 && m.At.Before(got[i-1].At) {
			t.Fatalf("message %d is older than the one before", i)
		}
		if !m.Late {
			t.Fatalf("message %d is not marked late", i)
		}
	}
	for _, text := range want {
		if seen[text] != 1 {
			t.Errorf("%q was heard %d times", text, seen[text])
		}
	}
}

func TestEveryEventThriceAndShuffledIsHeardOnce(t *testing.T) {
	f, d := newFake(t), newDesk()
	channel := f.channel("c")
	onFake(t, f, d, brisk)
	f.say(channel, "@fettle 0")
	expectOnce(t, f, d, channel, numbered(1))
	f.mu.Lock()
	f.deaf = true
	f.mu.Unlock()
	var posts []*model.Post
	for i := range 30 {
		post := f.say(channel, fmt.Sprintf("%d", i))
		posts = append(posts, post, post, post)
	}
	rand.Shuffle(len(posts), func(i, j int) { posts[i], posts[j] = posts[j], posts[i] })
	for i, post := range posts {
		f.mu.Lock()
		f.deaf = false
		f.publish(model.WebsocketEventPosted, post)
		f.mu.Unlock()
		if i%20 == 10 {
			f.drop()
		}
	}
	eventually(t, "all messages", func() bool { return len(d.messages(channel)) >= 31 })
	for _, m := range d.messages(channel) {
		if n := d.count("hear " + m.Key); n != 1 {
			t.Errorf("%q was handed over %d times", m.Text, n)
		}
	}
}

func TestTypingIsShownOnlyWhenItTakesAWhile(t *testing.T) {
	f, d := newFake(t), newDesk()
	channel := f.channel("c")
	d.hear = func(_ context.Context, m bot.Message) error {
		if strings.HasSuffix(m.Text, "slow") {
			eventually(t, "typing", func() bool { return f.called("POST /api/v4/users/{id}/typing") >= 3 })
		}
		return nil
	}
	pace := brisk
	pace.Typing, pace.Retyping = 300*time.Millisecond, 20*time.Millisecond
	onFake(t, f, d, pace)
	f.say(channel, "@fettle 0")
	expectOnce(t, f, d, channel, numbered(1))
	if n := f.called("POST /api/v4/users/{id}/typing"); n != 0 {
		t.Errorf("typing was shown %d times for a quick answer", n)
	}
	f.say(channel, "@fettle slow")
	eventually(t, "the slow answer", func() bool { return len(f.answers(channel)) == 2 })
	shown := f.called("POST /api/v4/users/{id}/typing")
	f.say(channel, "@fettle 1")
	eventually(t, "the last answer", func() bool { return len(f.answers(channel)) == 3 })
	if n := f.called("POST /api/v4/users/{id}/typing"); n != shown {
		t.Error("typing goes on after the answer")
	}
}

func TestTheEndFinishesWhatIsInHand(t *testing.T) {
	f, d := newFake(t), newDesk()
	channel := f.channel("c")
	started := make(chan struct{})
	release := make(chan struct{})
	d.hear = func(ctx context.Context, m bot.Message) error {
		if strings.Contains(m.Text, "0") {
			close(started)
			<-release
		}
		return ctx.Err()
	}
	stop := onFake(t, f, d, brisk)
	f.say(channel, "@fettle 0")
	<-started
	f.say(channel, "@fettle 1") // not in hand yet
	go func() {
		time.Sleep(50 * time.Millisecond) // so that the end has come by then
		close(release)
	}()
	stop()
	expectOnce(t, f, d, channel, numbered(1))
	d.hear = nil
	onFake(t, f, d, brisk)
	expectOnce(t, f, d, channel, numbered(2))
}

func TestADeskThatCannotStoreIsTriedAgainAndSaidSo(t *testing.T) {
	f, d := newFake(t), newDesk()
	channel := f.channel("c")
	var tries atomic.Int64
	d.hear = func(_ context.Context, m bot.Message) error {
		if m.Text == "0" && tries.Add(1) <= 2 || m.Text == "never" {
			return errors.New("database is locked")
		}
		return nil
	}
	onFake(t, f, d, brisk)
	f.say(channel, "@fettle 0")
	f.say(channel, "@fettle never")
	f.say(channel, "@fettle 1")
	eventually(t, "three posts", func() bool { return len(f.answers(channel)) == 3 })
	got := f.answers(channel)
	if got[0] != "heard: 0" || !strings.Contains(got[1], "could not save") || got[2] != "heard: 1" {
		t.Errorf("the answers are %q", got)
	}
}
