package tables

import (
	"io"
	"slices"
	"strings"
)

// Kind is what a list is of.
type Kind int

// The kinds of lists.
const (
	NoList   Kind = iota // no list of pieces: a size has no column, or it can't be read
	OfParts              // pieces to make
	OfBoards             // timber on hand
	OfEither             // it speaks for both
)

// Words in the name of a file, or of each piece in it, that speak for one kind. Drop boards are
// parts and boards are timber, so a name alone settles nothing against the columns.
var (
	boardish = strings.Fields("board boards plank planks sheet sheets stock timber offcut offcuts")
	partish  = strings.Fields("part parts piece pieces cut cutlist cutting")
)

// KindOf finds out what a file is a list of: timber has a price, parts belong to something or have
// a grain; without any of those columns it is a list of parts, unless it is called otherwise.
func KindOf(file string, r io.Reader) Kind {
	t, err := open(file, r, []string{"length", "width", "thickness"})
	if err != nil || len(t.rows) == 0 {
		return NoList
	}
	boards := t.has("price") || named(file, boardish) || t.allNamed(boardish)
	parts := !boards || t.has("grain") || t.has("group") || named(file, partish)
	switch {
	case boards && parts, boards && !t.has("price"):
		return OfEither
	case boards:
		return OfBoards
	}
	return OfParts
}

func (t *table) has(column string) bool {
	_, ok := t.columns[column]
	return ok
}

// named says whether one of the words stands in a name.
func named(name string, words []string) bool {
	return slices.ContainsFunc(strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return strings.ContainsRune(" _-.()0123456789", r) }),
		func(w string) bool { return slices.Contains(words, w) })
}

// allNamed says whether every piece has one of the words in its name.
func (t *table) allNamed(words []string) bool {
	return !slices.ContainsFunc(t.rows, func(r row) bool { return !named(t.text(r, "name"), words) })
}
