package bot

import (
	"context"
	"encoding/json"
	"fmt"
	"strings"
	"sync"
	"time"

	"fettle/commands"
	"fettle/store"
)

// tickEvery is how often it is looked whether something is due, and afterFailure how long is
// waited when that can't be done.
const (
	tickEvery    = time.Second
	afterFailure = time.Minute
)

// Ticking calls out what is due until ctx ends or stop is called; stop returns when the last call
// is on record.
func (d *Desk) Ticking(ctx context.Context) (stop func()) {
	ctx, cancel := context.WithCancel(ctx)
	var running sync.WaitGroup
	running.Go(func() {
		for wait := time.Duration(0); sleep(ctx, wait) == nil; {
			wait = tickEvery
			if err := d.Tick(ctx); err != nil && ctx.Err() == nil {
				d.log.Error("what is due could not be called out", "error", err)
				wait = afterFailure
			}
		}
	})
	return func() {
		cancel()
		running.Wait()
	}
}

func sleep(ctx context.Context, d time.Duration) error {
	select {
	case <-time.After(d):
		return ctx.Err()
	case <-ctx.Done():
		return ctx.Err()
	}
}

// Tick calls out what is due of the glue-ups of all projects: each moment once ever, late
// rather than never. Each call is an entry in the log and waits in Pending for its place, in one
// transaction with the record that it was made.
func (d *Desk) Tick(ctx context.Context) error {
	now := d.now().In(d.zone)
	due := false
	err := d.store.Read(ctx, func(tx *store.Tx) error {
		calls, _, err := commands.Due(tx, now)
		due = len(calls) > 0
		return err
	})
	if err != nil || !due {
		return err
	}
	return d.store.Write(ctx, func(tx *store.Tx) error {
		calls, broken, err := commands.Due(tx, now)
		if err != nil {
			return err
		}
		for _, b := range broken {
			d.log.Error("a timer is left alone", "error", b)
		}
		for _, c := range calls {
			if err := d.call(tx, c); err != nil {
				return err
			}
		}
		return nil
	})
}

// call puts one call into the log and on its way.
func (d *Desk) call(tx *store.Tx, c commands.Call) error {
	data, err := json.Marshal(c.Answer)
	if err != nil {
		return fmt.Errorf("keep call: %w", err)
	}
	id, err := tx.Add(store.Entry{Project: c.Project, Place: c.Place, Who: fettle, Kind: store.Answer, At: d.now(),
		Text: c.Answer.Text, Topic: c.Answer.Topic, Answer: data})
	if err != nil {
		return err
	}
	if err := c.Note(tx, id); err != nil {
		return err
	}
	if strings.HasPrefix(c.Place, terminals) {
		return nil
	}
	return tx.Queue(store.Out{Entry: id, Place: c.Place})
}

// terminals is how the places begin at which nobody waits: a call for one of them stands in the
// log and goes nowhere.
const terminals = "terminal:"
