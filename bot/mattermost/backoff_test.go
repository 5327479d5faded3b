package mattermost_test

import (
	"context"
	"errors"
	"testing"
	"testing/synctest"
	"time"

	"fettle/bot/mattermost"
)

func TestDelaysDoubleUpToHalfAMinuteWithJitter(t *testing.T) {
	differ := false
	for range 50 {
		for i, whole := range []time.Duration{1, 2, 4, 8, 16, 30, 30, 30} {
			whole *= time.Second
			got := mattermost.Delays(8)[i]
			if got < whole/2 || got > whole {
				t.Errorf("wait %d is %s, want %s to %s", i+1, got, whole/2, whole)
			}
			differ = differ || got != mattermost.Delays(8)[i]
		}
	}
	if !differ {
		t.Error("the waits have no jitter")
	}
}

// Two hours without the server: the attempts go on, half a minute apart at most, and the
// one after its return is made within that time.
func TestConnectingNeverGivesUp(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		ctx, cancel := context.WithCancel(t.Context())
		start, last := time.Now(), time.Now()
		attempts := 0
		mattermost.StayConnected(ctx, func(context.Context, func()) error {
			if gap := time.Since(last); gap > 30*time.Second {
				t.Errorf("%s without an attempt", gap)
			}
			last = time.Now()
			attempts++
			if time.Since(start) > 2*time.Hour {
				cancel()
			}
			return errors.New("refused")
		})
		if attempts < 240 || attempts > 500 {
			t.Errorf("%d attempts in two hours", attempts)
		}
	})
}

func TestTheWaitsBeginAnewAfterAGreetingOnly(t *testing.T) {
	for _, greeted := range []bool{true, false} {
		synctest.Test(t, func(t *testing.T) {
			ctx, cancel := context.WithCancel(t.Context())
			attempts := 0
			start := time.Now()
			mattermost.StayConnected(ctx, func(_ context.Context, healthy func()) error {
				if greeted {
					healthy()
				}
				if attempts++; attempts == 20 {
					cancel()
				}
				return errors.New("dropped at once")
			})
			took := time.Since(start)
			if greeted && took > 19*time.Second {
				t.Errorf("after greetings 20 attempts take %s, want at most a second each", took)
			}
			if !greeted && took < 4*time.Minute {
				t.Errorf("a server that drops at once gets 20 attempts in %s", took)
			}
		})
	}
}
