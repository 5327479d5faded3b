package speech

import "github.com/kljensen/snowball/english"

// stem takes a word to its root, so that planed, planing and planes are one word.
func stem(word string) string { return english.Stem(word, false) }

// Stem takes a word to its root, so that planed, planing and planes are one word.
func Stem(word string) string { return stem(word) }

// Says tells whether a pattern stands in the sentence.
func (s Sentence) Says(source string) bool {
	p := compileOnce(source)
	_, _, _, ok := p.find(&s)
	return ok
}

// Stands finds the first place where a pattern stands: its first item, the item behind it and the
// item that its first # met.
func (s Sentence) Stands(source string) (from, to, marked int, ok bool) {
	return compileOnce(source).find(&s)
}
