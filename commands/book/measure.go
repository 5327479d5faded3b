package book

// Measure is one distance or angle that was taken on site.
type Measure struct {
	Size    MM        `json:"size_mm,omitempty"`
	Deg     float64   `json:"angle_deg,omitempty"`
	Who     string    `json:"who"`
	At      string    `json:"at"`                // RFC 3339
	Earlier []Reading `json:"earlier,omitempty"` // what was measured before, oldest first
	Doubt   *Reading  `json:"doubt,omitempty"`   // a later reading that contradicts, until somebody says which stands
}

// Reading is one taking of a measure.
type Reading struct {
	Size MM      `json:"size_mm,omitempty"`
	Deg  float64 `json:"angle_deg,omitempty"`
	Who  string  `json:"who"`
	At   string  `json:"at"` // RFC 3339
}
