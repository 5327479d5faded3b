package store

import "fmt"

// File hangs on an entry of the log.
type File struct {
	Name  string // as it was called: "parts.csv"
	Media string // its media type
	Ref   string // where it is kept, if not here: "mattermost:FILEID"
	Data  []byte // what is in it, if it is kept here
}

// Attach hangs files on an entry, in order.
func (t *Tx) Attach(entry int64, files ...File) error {
	for _, f := range files {
		if _, err := t.exec("INSERT INTO files (entry_id, name, media, ref, data) VALUES (?, ?, ?, ?, ?)",
			entry, f.Name, f.Media, f.Ref, f.Data); err != nil {
			return fmt.Errorf("attach %q to entry %d: %w", f.Name, entry, err)
		}
	}
	return nil
}

// Files returns what hangs on an entry, in order.
func (t *Tx) Files(entry int64) ([]File, error) {
	all, err := list(t, func(scan scanner) (f File, err error) {
		err = scan(&f.Name, &f.Media, &f.Ref, &f.Data)
		return f, err
	}, "SELECT name, media, ref, data FROM files WHERE entry_id = ? ORDER BY id", entry)
	if err != nil {
		return nil, fmt.Errorf("files of entry %d: %w", entry, err)
	}
	return all, nil
}
