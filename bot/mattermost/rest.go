package mattermost

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net/http"
	"strconv"
	"sync"
	"time"

	"github.com/mattermost/mattermost/server/public/model"
)

// A refusal is the server's final no to one request: asked again, it would say no again.
type refusal struct {
	status int
	id     string // the server's name for the reason
	what   string
}

func (r *refusal) Error() string {
	return fmt.Sprintf("%s: the server refuses it with %d (%s)", r.what, r.status, r.id)
}

// rest makes the REST calls: each with a deadline, none while the server has asked for quiet.
type rest struct {
	client  *model.Client4
	log     *slog.Logger
	pace    pace
	hard    context.Context // outlives the bot's stopping by the time to finish what is in hand
	refused func()          // told when the token is not accepted
	quiet   quiet
}

func newRest(hard context.Context, cfg Config, pace pace, refused func()) *rest {
	client := model.NewAPIv4Client(cfg.URL)
	client.HTTPClient = &http.Client{Transport: &http.Transport{
		Proxy:               http.ProxyFromEnvironment,
		MaxIdleConnsPerHost: 4,
		IdleConnTimeout:     time.Minute,
	}}
	client.SetToken(cfg.Token)
	return &rest{client: client, log: cfg.Logger, pace: pace, hard: hard, refused: refused, quiet: quiet{now: cfg.Now}}
}

func (r *rest) close() { r.client.HTTPClient.CloseIdleConnections() }

// A request is one call of the client.
type request func(ctx context.Context, client *model.Client4) (*model.Response, error)

// once makes a request, again only where the server has not looked at it because it came too
// often. The error is a *refusal or ErrToken, which are final, or something that may pass.
// When ctx ends a running request is still given its time, but nothing is waited for.
func (r *rest) once(ctx context.Context, what string, do request) error {
	for {
		if err := r.quiet.wait(ctx); err != nil {
			return err
		}
		limited, cancel := context.WithTimeout(r.hard, r.pace.call)
		response, err := do(limited, r.client)
		cancel()
		if err == nil {
			return nil
		}
		switch status := statusOf(response); {
		case status == http.StatusTooManyRequests:
			d := quietFor(response.Header, r.quiet.now())
			r.log.Warn("the server asks for quiet", "for", d, "at", what)
			r.quiet.keep(d)
		case status == http.StatusUnauthorized:
			r.refused()
			return ErrToken
		case status >= 400 && status < 500 && status != http.StatusRequestTimeout:
			return &refusal{status: status, id: reason(err), what: what}
		default:
			return fmt.Errorf("%s: %w", what, err)
		}
	}
}

// call makes a request that may be made any number of times until it is done or finally
// refused, or ctx ends.
func (r *rest) call(ctx context.Context, what string, do request) error {
	wait := backoff{first: r.pace.retry}
	for {
		err := r.once(ctx, what, do)
		if err == nil || final(err) {
			return err
		}
		r.log.Warn("a request has failed and is made again", "error", err)
		if stopped := wait.pause(ctx); stopped != nil {
			return err
		}
	}
}

func final(err error) bool {
	var no *refusal
	return errors.As(err, &no) || errors.Is(err, ErrToken)
}

func statusOf(response *model.Response) int {
	if response == nil {
		return 0
	}
	return response.StatusCode
}

// reason gives the server's name for what went wrong, such as api.post.create_post.root_id.app_error.
func reason(err error) string {
	var said *model.AppError
	if errors.As(err, &said) {
		return said.Id
	}
	return "no reason given"
}

// quiet holds back all requests for as long as the server has asked for.
type quiet struct {
	now   func() time.Time
	mu    sync.Mutex
	until time.Time // by this machine's monotonic clock
}

func (q *quiet) keep(d time.Duration) {
	q.mu.Lock()
	defer q.mu.Unlock()
	if end := time.Now().Add(d); end.After(q.until) {
		q.until = end
	}
}

func (q *quiet) left() time.Duration {
	q.mu.Lock()
	defer q.mu.Unlock()
	return time.Until(q.until)
}

func (q *quiet) wait(ctx context.Context) error {
	for left := q.left(); left > 0; left = q.left() {
		if err := sleep(ctx, left); err != nil {
			return err
		}
	}
	return nil
}

const longestQuiet = 5 * time.Minute

// quietFor reads how long the server wants to be left alone. X-RateLimit-Reset counts
// seconds from now on this server, and since 1970 on others.
func quietFor(header http.Header, now time.Time) time.Duration {
	const since1970 = 1_000_000_000
	d := time.Second
	if at, err := http.ParseTime(header.Get("Retry-After")); err == nil {
		d = at.Sub(now)
	} else if n, err := strconv.Atoi(header.Get("Retry-After")); err == nil {
		d = time.Duration(min(n, since1970)) * time.Second
	} else if n, err := strconv.ParseInt(header.Get("X-RateLimit-Reset"), 10, 64); err == nil && n < since1970 {
		d = time.Duration(n) * time.Second
	} else if err == nil {
		d = time.Unix(n, 0).Sub(now)
	}
	return min(max(d, 100*time.Millisecond), longestQuiet)
}
