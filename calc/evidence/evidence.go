// Package evidence says how well a figure of the trade is known: read in a published
// text, recalled from one, or plain workshop habit.
package evidence

// Status is how a figure came to be known.
type Status string

// The ways in which a figure can be known, best first.
const (
	// Seen was read in the text named as its source.
	Seen Status = "seen"
	// Derived was calculated from figures that were seen.
	Derived Status = "derived"
	// Memory is recalled from the text named; the text itself was not at hand.
	Memory Status = "memory"
	// Practice is a common shop rule for which no published authority was found.
	Practice Status = "practice"
	// Stated was given by the person who asked, for instance from a data sheet.
	Stated Status = "stated"
)

// Figure is one value with where it comes from. The unit stands in the name of the
// field that holds it.
type Figure struct {
	Value  float64
	Status Status
	Source string
}

// SeenIn makes a figure that was read in the source named.
func SeenIn(source string, value float64) Figure { return Figure{value, Seen, source} }

// Recalled makes a figure remembered from the source named.
func Recalled(source string, value float64) Figure { return Figure{value, Memory, source} }

// Habit makes a figure of common practice, which has no source.
func Habit(value float64) Figure { return Figure{value, Practice, "common practice, no source"} }

// Said makes a figure that a person gave.
func Said(source string, value float64) Figure { return Figure{value, Stated, source} }
