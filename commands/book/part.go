package book

// Part is one line of the list of parts: pieces of one size, finished. Its story is the
// history of the thing in the store and the log.
type Part struct {
	Quantity  int     `json:"quantity"`
	Length    MM      `json:"length_mm"`
	Width     MM      `json:"width_mm"`
	Thickness MM      `json:"thickness_mm"`
	Species   string  `json:"species,omitempty"`   // timber or material, as the topics' vocabulary has it
	Grain     string  `json:"grain,omitempty"`     // "" along the length, "free" where it does not matter
	Group     string  `json:"group,omitempty"`     // the door, rack or trim that it belongs to
	From      string  `json:"from,omitempty"`      // the measure or joinery that it was made from, if it was
	Measured  bool    `json:"measured,omitempty"`  // its size was taken on site or comes from a measure that was
	Stale     string  `json:"stale,omitempty"`     // why its size may not hold any more, as a sentence
	LeftDeg   float64 `json:"left_deg,omitempty"`  // the angle at its left end, 0: square
	RightDeg  float64 `json:"right_deg,omitempty"` // at its right end
	Note      string  `json:"note,omitempty"`
}

// Done is how far the work on a part has come, or that a task is finished.
type Done struct {
	Quantity int            `json:"quantity"`         // finished altogether
	Stages   map[string]int `json:"stages,omitempty"` // pieces by stage: roughed, machined, cut, glued, fitted ...
	Spoiled  int            `json:"spoiled,omitempty"`
	Who      string         `json:"who"`
	At       string         `json:"at"` // RFC 3339
}

// Claim says who is on a part or a task.
type Claim struct {
	Who    string `json:"who"`
	WhoKey string `json:"who_key,omitempty"`
	At     string `json:"at"`                 // RFC 3339
	Count  int    `json:"quantity,omitempty"` // of how many, 0: all
	Of     string `json:"of,omitempty"`       // of which part, where somebody is on some of its pieces only; the claim's name holds the person then
}
