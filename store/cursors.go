package store

import "fmt"

// SetCursor notes how far a place has been read, in the place's own count. It never moves back.
func (t *Tx) SetCursor(place string, pos int64) error {
	_, err := t.exec(`
		INSERT INTO cursors (place, position) VALUES (?, ?)
		ON CONFLICT (place) DO UPDATE SET position = max(position, excluded.position)`, place, pos)
	if err != nil {
		return fmt.Errorf("cursor of %s: %w", place, err)
	}
	return nil
}

// Cursors returns how far each place whose name begins with prefix has been read.
func (t *Tx) Cursors(prefix string) (map[string]int64, error) {
	type cursor struct {
		place string
		pos   int64
	}
	all, err := list(t, func(scan scanner) (c cursor, err error) {
		return c, scan(&c.place, &c.pos)
	}, "SELECT place, position FROM cursors WHERE substr(place, 1, length(?)) = ?", prefix, prefix)
	if err != nil {
		return nil, fmt.Errorf("cursors: %w", err)
	}
	cursors := make(map[string]int64, len(all))
	for _, c := range all {
		cursors[c.place] = c.pos
	}
	return cursors, nil
}
