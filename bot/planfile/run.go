package planfile

import (
	"context"
	"fmt"
	"io"
	"time"

	"fettle/calc/cutplan"
)

// Request is one call of the planner.
type Request struct {
	Files Files
	Job   cutplan.Job   // with kerf and trim; Read fills in the rest
	Limit time.Duration // above 0
	Exact bool
	JSON  bool
	Draw  string // a file for the drawing, or ""

	Now      func() time.Time
	Out      io.Writer
	Progress io.Writer // nil for none: where what is known so far is told
}

// Unusable is a call or a file that can't be used, as one line.
type Unusable struct{ error }

// Unwrap gives the reason.
func (e Unusable) Unwrap() error { return e.error }

// Run reads the files, plans until the limit or until the context ends, and writes the plan and
// the drawing. The error is Unusable when the call or a file is at fault.
func Run(ctx context.Context, r Request) error {
	if r.Limit <= 0 {
		return Unusable{fmt.Errorf("--limit %s: how long may it take? 10s, for example", r.Limit)}
	}
	if r.Draw != "" {
		if err := canDraw(r.Draw); err != nil {
			return Unusable{err}
		}
	}
	job, err := r.Files.Read(r.Job)
	if err != nil {
		return Unusable{err}
	}
	began := r.Now()
	limits := cutplan.Limits{Exact: r.Exact, Progress: r.ticker(began)}
	timed, stop := context.WithTimeout(ctx, r.Limit)
	plan, err := cutplan.Make(timed, job, limits)
	stop()
	if err != nil {
		return Unusable{err}
	}
	took := r.Now().Sub(began)
	if r.Progress != nil && took > quiet {
		fmt.Fprintf(r.Progress, "\r%60s\r", "")
	}
	if r.Draw != "" {
		if err := draw(r.Draw, plan, r.Now()); err != nil {
			return Unusable{err}
		}
	}
	if r.JSON {
		return writeJSON(r.Out, job, plan, took)
	}
	return writeText(r.Out, plan)
}

// quiet is how long it plans before it tells of it, and every how often.
const (
	quiet = time.Second
	every = 250 * time.Millisecond
)

// ticker tells what is known so far on one line, which it writes over and over.
func (r Request) ticker(began time.Time) func(cutplan.Progress) {
	if r.Progress == nil {
		return nil
	}
	told := began
	return func(p cutplan.Progress) {
		now := r.Now()
		if now.Sub(began) < quiet || now.Sub(told) < every {
			return
		}
		told = now
		fmt.Fprintf(r.Progress, "\r%-60s", fmt.Sprintf("%.0f s: %d boards, %.2f, not below %.2f (Ctrl-C takes it)", now.Sub(began).Seconds(), p.Boards, p.Cost, p.Bound))
	}
}
