package commands

import (
	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

// Remade lets tests have the parts of a group made again, with some sizes in mm changed.
func Remade(tx *store.Tx, project store.Project, group string, mm map[string]float64) ([]book.Named[book.Part], bool, error) {
	changed := map[string]speech.Slot{}
	for need, v := range mm {
		changed[need] = lengthOf(v)
	}
	parts, _, ok, err := (&Ask{Tx: tx, Project: project}).remade(group, changed)
	return parts, ok, err
}
