package bot

import (
	"bytes"
	"encoding/json"
	"fmt"

	"fettle/bot/export"
	"fettle/calc/sketch"
	"fettle/commands"
	"fettle/store"
)

// attach hangs on an answer's entry what goes with it: drawings, as data, of which the place that
// sends them makes pictures, and the project's book.
func (d *Desk) attach(tx *store.Tx, answer int64, project store.Project, ans commands.Answer) error {
	for _, s := range ans.Drawings {
		data, err := json.Marshal(s)
		if err != nil {
			return fmt.Errorf("keep drawing %q: %w", s.Name, err)
		}
		if err := tx.Attach(answer, store.File{Name: s.Name, Media: sketch.MediaType, Data: data}); err != nil {
			return err
		}
	}
	if ans.Book == "" {
		return nil
	}
	paper, err := commands.WritePaper(tx, project, d.now().In(d.zone))
	if err != nil {
		return err
	}
	var b bytes.Buffer
	if err := export.Write(&b, ans.Book, paper); err != nil {
		return fmt.Errorf("attach the book: %w", err)
	}
	return tx.Attach(answer, store.File{Name: project.Name + " book." + ans.Book, Media: export.Media(ans.Book), Data: b.Bytes()})
}
