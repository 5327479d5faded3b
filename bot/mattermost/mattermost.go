// Package mattermost lets the bot live on a Mattermost server as a bot account. Events come
// in over a WebSocket, everything else goes over REST. Each channel that the account is in
// is a place of its own: its messages are handed to the desk one after the other, and the
// desk's answers are posted where they were asked for.
//
// Nothing is lost and nothing is said twice over outages, restarts and crashes: whenever
// events may have been missed the channels are read again from where the desk's record
// ends, and an answer whose posting was left in doubt is looked for before it is posted
// again.
package mattermost

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net/url"
	"strings"
	"time"

	"fettle/bot"
)

// ErrToken is returned when the server does not accept the bot's token: asking again will
// not help, somebody has to act.
var ErrToken = errors.New("the Mattermost server refuses the bot's token: make a new one for the bot account and start again with it")

// Desk is who is told what people write, and who knows what to answer.
type Desk interface {
	// Hear stores a message and the answer that it deserves; a Key heard before changes nothing.
	Hear(ctx context.Context, m bot.Message) error
	// Amend says that the text of a message is another one now.
	Amend(ctx context.Context, m bot.Message) error
	// Withdraw says that a message was deleted.
	Withdraw(ctx context.Context, m bot.Message) error
	// React says that somebody put a sign under an answer; a Key heard before changes nothing.
	React(ctx context.Context, r bot.Reaction) error
	// Pending gives the answers that wait for a place, or for every place if it is empty, oldest first.
	Pending(ctx context.Context, place string) ([]bot.Outgoing, error)
	// Sent says under which post id an answer stands now.
	Sent(ctx context.Context, id int64, key string) error
	// Places gives the places known whose names start with the prefix, and how far each was read.
	Places(ctx context.Context, prefix string) (map[string]int64, error)
}

// Config says where the server is and who the bot is there.
type Config struct {
	URL    string           // the server's address, http or https, with its path if it has one
	Token  string           // the bot account's access token; it appears in no log and no error
	Logger *slog.Logger     // nil: nothing is logged
	Now    func() time.Time // the clock, for when the server does not tell the time; nil: time.Now
}

// Run is the bot's life on the server until ctx ends; then what is in hand is finished, for
// up to 8 seconds, and nil returned. Outages of any length are waited out. It gives up early
// only for a Config that cannot work and for a refused token (ErrToken).
func Run(ctx context.Context, cfg Config, desk Desk) error {
	return run(ctx, cfg, desk, usualPace)
}

// A pace is what the adapter waits for and how long.
type pace struct {
	call     time.Duration // one REST call, or the dialling of the socket
	hello    time.Duration // the server's greeting on a new socket
	shutdown time.Duration // what is in hand when the end comes
	sweep    time.Duration // between two readings of every channel, in case the socket is deaf
	outbox   time.Duration // between two looks for answers that no message has brought
	typing   time.Duration // before "is typing" is shown
	retyping time.Duration // before it is shown again
	retry    time.Duration // the first wait before something that has failed is tried again
}

var usualPace = pace{
	call:     10 * time.Second,
	hello:    10 * time.Second,
	shutdown: 8 * time.Second,
	sweep:    3 * time.Minute,
	outbox:   2 * time.Second,
	typing:   time.Second,
	retyping: 5 * time.Second,
	retry:    firstDelay,
}

func (cfg Config) complete() (Config, error) {
	address, err := url.Parse(cfg.URL)
	if err != nil || address.Host == "" || address.Scheme != "http" && address.Scheme != "https" {
		return cfg, errors.New("the Mattermost server's address must look like https://chat.example.org")
	}
	if cfg.Token == "" {
		return cfg, errors.New("the Mattermost bot account's token is missing")
	}
	if cfg.Now == nil {
		cfg.Now = time.Now
	}
	handler := slog.DiscardHandler
	if cfg.Logger != nil {
		handler = cfg.Logger.Handler()
	}
	cfg.Logger = slog.New(discreet{handler, cfg.Token})
	cfg.URL = strings.TrimRight(cfg.URL, "/")
	return cfg, nil
}

func run(ctx context.Context, cfg Config, desk Desk, pace pace) error {
	cfg, err := cfg.complete()
	if err != nil {
		return err
	}
	ctx, end := context.WithCancelCause(ctx)
	defer end(nil)
	b := newAccount(ctx, end, cfg, desk, pace)
	defer b.close()
	err = b.live(ctx)
	if errors.Is(context.Cause(ctx), ErrToken) {
		return ErrToken
	}
	if err != nil && ctx.Err() == nil {
		return errors.New(hide(fmt.Sprintf("serve Mattermost: %v", err), cfg.Token))
	}
	return nil
}
