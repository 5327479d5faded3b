package book

import "time"

// Timer is a glue-up: when it began, and when each thing may happen.
type Timer struct {
	What        string          `json:"what"` // what was glued, as it was said
	Adhesive    string          `json:"adhesive"`
	Temperature float64         `json:"temperature_c"`
	Start       time.Time       `json:"start"`
	OpenUntil   time.Time       `json:"open_until"` // closed up by then
	ClampsOff   time.Time       `json:"clamps_off"`
	Workable    time.Time       `json:"workable"` // may be planed and sanded
	Cured       time.Time       `json:"cured"`
	Who         string          `json:"who"`
	WhoKey      string          `json:"who_key,omitempty"`
	Place       string          `json:"place"`              // where it is called out
	Called      map[string]bool `json:"called,omitempty"`   // moments that need no calling out, by the names in JSON: they were past, or somebody told us
	TakenOff    time.Time       `json:"taken_off,omitzero"` // when the clamps were taken off, as somebody said
	Stopped     bool            `json:"stopped,omitempty"`
}

// Called is which of a timer's moments were called out, by their names, each with the time that it
// was called out for: a moment that was put off is called out anew. It stands apart from the timer,
// so that what people did to the timer can still be taken back.
type Called map[string]time.Time

// The moments of a timer, by the names in JSON, in the order in which they come.
const (
	OpenUntil = "open_until"
	ClampsOff = "clamps_off"
	Workable  = "workable"
	Cured     = "cured"
)

// Moments lists the names of a timer's moments in order.
func Moments() []string { return []string{OpenUntil, ClampsOff, Workable, Cured} }

// At gives one of the moments, the zero time for a name that is none.
func (t Timer) At(moment string) time.Time {
	switch moment {
	case OpenUntil:
		return t.OpenUntil
	case ClampsOff:
		return t.ClampsOff
	case Workable:
		return t.Workable
	case Cured:
		return t.Cured
	}
	return time.Time{}
}
