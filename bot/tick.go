package bot

import (
	"context"
	"encoding/json"
	"fmt"

	"fettle/commands"
	"fettle/store"
)

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
	return tx.Queue(store.Out{Entry: id, Place: c.Place})
}
