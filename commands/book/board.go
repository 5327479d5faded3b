package book

// Board is one line of the stock: boards, or sheets, of one size.
type Board struct {
	Quantity  int     `json:"quantity"`
	Length    MM      `json:"length_mm"`
	Width     MM      `json:"width_mm"`
	Thickness MM      `json:"thickness_mm"`
	Species   string  `json:"species,omitempty"`
	Price     float64 `json:"price,omitempty"`    // of one
	Unpriced  bool    `json:"unpriced,omitempty"` // nobody said a price: Price says nothing
	Sheet     bool    `json:"sheet,omitempty"`    // no grain that matters: parts may lie across
	Offcut    bool    `json:"offcut,omitempty"`   // came back from a board that was cut
	From      string  `json:"from,omitempty"`     // the board or the price list that it comes from
	ForSale   bool    `json:"for_sale,omitempty"` // stands in a merchant's list and is not on hand
	Faults    []Fault `json:"faults,omitempty"`
}

// Fault is a part of a board that no part may touch: x along the board from its left end, y
// across it from its lower edge.
type Fault struct {
	Copy   int    `json:"copy,omitempty"` // which of several boards, from 1; 0: the only one
	X      MM     `json:"x_mm"`
	Y      MM     `json:"y_mm"`
	Length MM     `json:"length_mm"`
	Width  MM     `json:"width_mm"`
	Kind   string `json:"kind,omitempty"` // knot, split, wane, sapwood ...
}
