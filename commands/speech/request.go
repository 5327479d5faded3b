package speech

import (
	"encoding/json"
	"fmt"
	"math/big"
	"slices"

	"fettle/calc/measure"
)

// Slot holds what was said for one need.
type Slot struct {
	Num  *big.Rat // in the base unit of the need's kind
	Said *big.Rat // as said, in Unit
	Unit string   // the symbol of the unit that was said or taken
	Bare bool     // no unit was said: Unit is the project's
	Word string   // of a word
	List []Slot   // of a list
}

// Float gives the number in the base unit.
func (s Slot) Float() float64 {
	if s.Num == nil {
		return 0
	}
	f, _ := s.Num.Float64()
	return f
}

type slotJSON struct {
	Num  string `json:"n,omitempty"`
	Said string `json:"s,omitempty"`
	Unit string `json:"u,omitempty"`
	Bare bool   `json:"b,omitempty"`
	Word string `json:"w,omitempty"`
	List []Slot `json:"l,omitempty"`
}

// MarshalJSON keeps the exact number as a fraction.
func (s Slot) MarshalJSON() ([]byte, error) {
	j := slotJSON{Unit: s.Unit, Bare: s.Bare, Word: s.Word, List: s.List}
	if s.Num != nil {
		j.Num = s.Num.RatString()
	}
	if s.Said != nil {
		j.Said = s.Said.RatString()
	}
	return json.Marshal(j)
}

// UnmarshalJSON reads what MarshalJSON wrote.
func (s *Slot) UnmarshalJSON(data []byte) error {
	var j slotJSON
	if err := json.Unmarshal(data, &j); err != nil {
		return err
	}
	*s = Slot{Unit: j.Unit, Bare: j.Bare, Word: j.Word, List: j.List}
	var err error
	if s.Num, err = stored(j.Num); err != nil {
		return err
	}
	s.Said, err = stored(j.Said)
	return err
}

func stored(text string) (*big.Rat, error) {
	if text == "" {
		return nil, nil
	}
	n, ok := new(big.Rat).SetString(text)
	if !ok {
		return nil, fmt.Errorf("read stored number %q", text)
	}
	return n, nil
}

// Request is what was understood of a message.
type Request struct {
	Topic string          `json:"topic"`
	Slots map[string]Slot `json:"slots,omitempty"`
	Items []Request       `json:"items,omitempty"` // several sizes in one message
	Text  string          `json:"text,omitempty"`  // of a topic that takes what is said as it stands
	Out   string          `json:"out,omitempty"`   // the unit in which the results are wanted
	Open  *Question       `json:"open,omitempty"`  // what was asked back and is not answered yet
}

// Question is what must be known before a request can be answered safely.
type Question struct {
	Text    string   `json:"text"`
	Need    string   `json:"need,omitempty"`    // the need that the answer fills
	Options []Option `json:"options,omitempty"` // readings to choose from
}

// Option is one reading that a question offers.
type Option struct {
	Label   string   `json:"label"`
	Words   []string `json:"words,omitempty"` // besides the label and its number, what chooses it
	Request Request  `json:"request"`
}

// clone copies a request so that changing the copy leaves the first as it was.
func (r Request) clone() Request {
	c := r
	c.Open = nil
	c.Slots = make(map[string]Slot, len(r.Slots))
	for k, v := range r.Slots {
		c.Slots[k] = v
	}
	c.Items = slices.Clone(r.Items)
	return c
}

// Has says whether the need was filled.
func (r Request) Has(name string) bool { _, ok := r.Slots[name]; return ok }

// Float gives the number of a need in its base unit, and whether it was said.
func (r Request) Float(name string) (float64, bool) {
	s, ok := r.Slots[name]
	return s.Float(), ok && s.Num != nil
}

// Length gives a length that was said, exactly, and whether it was said.
func (r Request) Length(name string) (measure.Length, bool) {
	s, ok := r.Slots[name]
	if !ok || s.Num == nil {
		return 0, false
	}
	l, err := measure.Times(s.Num, measure.Millimetre)
	return l, err == nil
}

// Word gives the word of a need, or "".
func (r Request) Word(name string) string { return r.Slots[name].Word }
