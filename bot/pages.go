package bot

import (
	"context"

	"fettle/commands"
	"fettle/store"
)

// A Fetcher gets the page at an address. Its error is a sentence for the chat.
type Fetcher func(ctx context.Context, address string) (store.File, error)

// Fetching lets the desk fetch pages that people name. It is to be called before the desk is used.
func (d *Desk) Fetching(f Fetcher) { d.fetch = f }

// withPage fetches the page that a message needs, if it needs one, outside of any transaction:
// nobody else has to wait for a merchant's server.
func (d *Desk) withPage(ctx context.Context, m Message) (Message, error) {
	if d.fetch == nil || !commands.NamesPage(m.Text) {
		return m, nil
	}
	wants := ""
	err := d.store.Write(ctx, func(tx *store.Tx) error {
		if _, known, err := tx.EntryByKey(m.Key); err != nil || known && m.Key != "" {
			return err
		}
		h, err := commands.Hear(d.turn(tx, m, 0))
		if err != nil {
			return err
		}
		if speak, _, err := d.manners(tx, m, h); err != nil || !speak {
			return err
		}
		wants = h.Wants()
		return nil
	})
	if err != nil || wants == "" {
		return m, err
	}
	page, err := d.fetch(ctx, wants)
	if err != nil {
		page = store.File{Name: "page", Media: commands.RefusedPage, Ref: err.Error()}
	}
	m.Files = append(m.Files[:len(m.Files):len(m.Files)], page)
	return m, nil
}
