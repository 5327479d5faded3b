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
	Place       string          `json:"place"`            // where it is called out
	Called      map[string]bool `json:"called,omitempty"` // which of the moments were called out, by the names in JSON
	Stopped     bool            `json:"stopped,omitempty"`
}
