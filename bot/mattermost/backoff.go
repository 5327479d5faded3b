package mattermost

import (
	"cmp"
	"context"
	"math/rand/v2"
	"time"
)

const (
	firstDelay   = time.Second
	longestDelay = 30 * time.Second
)

// backoff is the waiting between attempts: each wait is about twice as long as the one
// before, up to half a minute, and a random part of it is left out so that many clients of
// a server that comes back do not all come at once. The zero value is ready.
type backoff struct {
	first time.Duration // instead of a second, if not 0
	next  time.Duration
}

// delay gives the next wait: between a half and the whole of 1 s, 2 s, 4 s, ... 30 s.
func (b *backoff) delay() time.Duration {
	whole := cmp.Or(b.next, b.first, firstDelay)
	b.next = min(2*whole, longestDelay)
	return whole/2 + rand.N(whole/2+1)
}

func (b *backoff) reset() { b.next = 0 }

// pause waits for the next delay and returns early, with its error, when ctx ends.
func (b *backoff) pause(ctx context.Context) error {
	return sleep(ctx, b.delay())
}

func sleep(ctx context.Context, d time.Duration) error {
	timer := time.NewTimer(d)
	defer timer.Stop()
	select {
	case <-timer.C:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}
