package speech

import "github.com/kljensen/snowball/english"

// stem takes a word to its root, so that planed, planing and planes are one word.
func stem(word string) string { return english.Stem(word, false) }
