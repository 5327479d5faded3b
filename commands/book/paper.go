package book

import (
	"time"

	"fettle/calc/sketch"
)

// Paper is a project's book as people read it: on a page beside the chat, printed, exported.
type Paper struct {
	Project  string
	Made     time.Time // in the zone in which times are worded
	Sections []Section
}

// The sections of a paper, in their order.
const (
	SectionParts    = "parts"
	SectionStock    = "stock"
	SectionPlan     = "plan"
	SectionRunSheet = "run-sheet"
	SectionMeasures = "measures"
	SectionPeople   = "people"
	SectionClamps   = "clamps"
	SectionNotes    = "notes"
	SectionSettings = "settings"
	SectionLog      = "log"
)

// Section is one table of a paper, with its drawings.
type Section struct {
	Key      string // one of the constants
	Title    string
	Columns  []string
	Rows     []Row
	Empty    string         // what to say where there are no rows, and a sentence that would make some
	Drawings []sketch.Sheet // for a sheet of paper
	Phone    []sketch.Sheet // the same for the width of a phone
}

// Row is one line of a section. What can be done with it is a sentence that is said in the chat.
type Row struct {
	Cells []string
	Done  bool
	Say   string    // said when it is ticked, or ""
	Unsay string    // said when the tick is taken away, or ""
	Until time.Time // what it waits for, if for anything
}

// Section finds a section by its key; one that is not there is empty.
func (p Paper) Section(key string) Section {
	for _, s := range p.Sections {
		if s.Key == key {
			return s
		}
	}
	return Section{Key: key}
}
