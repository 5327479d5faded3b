package store

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Fold returns the form in which a name is looked up: lower case, only letters and digits, so
// that "Foo-Bar", "foo bar" and "foobar" are one name. Marks that belong to a letter stay, and an
// accent typed as a letter with a mark after it is the same as the letter that has it built in.
// A name without any letter or digit, such as "@", is looked up as it stands. Only a name that is
// empty or blank folds to "".
func Fold(name string) string {
	folded := strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsNumber(r) || unicode.IsMark(r) {
			return r
		}
		return -1
	}, norm.NFC.String(strings.ToLower(name)))
	if folded == "" {
		return strings.ToLower(strings.TrimSpace(name))
	}
	return folded
}
