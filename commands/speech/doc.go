// Package speech turns what people type into a request: characters into tokens, tokens into
// numbers with their kind and unit, words into a topic by its cues and the odds of a trained
// model, and both into the needs that the topic declares. It knows no topic by name; a topic tells it in a Form what points to it and
// what it needs. What can be read in two ways comes back as a question, never as a guess.
package speech
