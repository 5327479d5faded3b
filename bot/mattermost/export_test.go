package mattermost

import (
	"context"
	"log/slog"
	"time"
)

// For the tests in package mattermost_test.
var (
	ReadMention   = readMention
	Harmless      = harmless
	CallsSomebody = callsSomebody
	Split         = split
	Parts         = parts
	CodeSpans     = func(text string) int { return len(codeSpans(text)) }
	QuietFor      = quietFor
	Marks         = marks
	AnchorIn      = anchorIn
)

// StayConnected is the loop around connections.
func StayConnected(ctx context.Context, connect func(ctx context.Context, healthy func()) error) {
	stayConnected(ctx, slog.New(slog.DiscardHandler), backoff{}, connect)
}

// Delays gives the first n waits of a back-off.
func Delays(n int) []time.Duration {
	var b backoff
	delays := make([]time.Duration, n)
	for i := range delays {
		delays[i] = b.delay()
	}
	return delays
}

// Pace changes how long a Run waits for things; zero fields keep the usual.
type Pace struct {
	Call, Hello, Sweep, Outbox, Typing, Retyping, Retry time.Duration
}

// RunAt is Run at another pace.
func RunAt(ctx context.Context, cfg Config, desk Desk, p Pace) error {
	pace := usualPace
	for _, change := range []struct {
		to   *time.Duration
		from time.Duration
	}{
		{&pace.call, p.Call}, {&pace.hello, p.Hello}, {&pace.sweep, p.Sweep},
		{&pace.outbox, p.Outbox}, {&pace.typing, p.Typing}, {&pace.retyping, p.Retyping}, {&pace.retry, p.Retry},
	} {
		if change.from != 0 {
			*change.to = change.from
		}
	}
	return run(ctx, cfg, desk, pace)
}
