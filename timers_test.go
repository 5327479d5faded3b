package main_test

import (
	"context"
	"log/slog"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"fettle/bot"
	"fettle/bot/mattermost"
	"fettle/bot/mattermost/mmtest"
	"fettle/store"
)

// A glue-up is called out in the channel in which it was told of, once, by name, and after a
// restart late: on a real chat server, with a clock that the test puts forward.
func TestCallsOutOnARealServer(t *testing.T) {
	s := mmtest.Start(t)
	channel := s.Channel(t)
	var ahead atomic.Int64
	clock := func() time.Time { return time.Now().Add(time.Duration(ahead.Load())) }
	path := filepath.Join(t.TempDir(), "hut.db")
	begin := func() (desk *bot.Desk, end func()) {
		db, err := store.Open(t.Context(), path, clock)
		if err != nil {
			t.Fatal(err)
		}
		desk = bot.NewDesk(db, clock, time.UTC, slog.New(slog.DiscardHandler))
		ctx, cancel := context.WithCancel(t.Context())
		over := make(chan error, 1)
		go func() { over <- mattermost.Run(ctx, mattermost.Config{URL: s.URL, Token: s.Bot.Token}, desk) }()
		return desk, func() {
			cancel()
			if err := <-over; err != nil {
				t.Errorf("the bot ended with %v", err)
			}
			if err := db.Close(); err != nil {
				t.Error(err)
			}
		}
	}
	tick := func(desk *bot.Desk, at time.Duration) {
		ahead.Store(int64(at))
		if err := desk.Tick(t.Context()); err != nil {
			t.Fatal(err)
		}
	}

	desk, end := begin()
	s.Petra.Post(t, channel, "@fettle our glue: epoxy open 20, clamp 60, work after 120, full strength after 240 at 20 degrees")
	s.AwaitAnswers(t, channel, 1)
	s.Gil.Post(t, channel, "@fettle bow 1 was just glued with epoxy, 20 degrees")
	s.AwaitAnswers(t, channel, 2)
	tick(desk, 61*time.Minute)
	tick(desk, 62*time.Minute)
	if got := s.AwaitAnswers(t, channel, 3)[2].Message; !strings.Contains(got, "Gil: clamps can come off bow 1") {
		t.Errorf("called out %q", got)
	}
	end()

	ahead.Store(int64(3 * time.Hour))
	desk, end = begin()
	defer end()
	tick(desk, 3*time.Hour)
	got := s.AwaitAnswers(t, channel, 4)[3].Message
	for _, want := range []string{"Gil: bow 1 may be sanded or planed", "Late: this was due", "I was not running"} {
		if !strings.Contains(got, want) {
			t.Errorf("called out %q, want %q in it", got, want)
		}
	}
	s.Petra.Post(t, channel, "@fettle how long has bow 1 to go")
	if last := s.AwaitAnswers(t, channel, 5)[4].Message; !strings.Contains(last, "Bow 1") {
		t.Errorf("the fifth post is %q, want the answer to the question", last)
	}
}
