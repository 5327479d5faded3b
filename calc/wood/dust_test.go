package wood_test

import (
	"testing"

	"fettle/calc/wood"
)

// HSE names western red cedar, iroko and teak; pine and ash stand in no list that was read.
func TestDust(t *testing.T) {
	for name, want := range map[string]bool{"wrc": true, "iroko": true, "burma teak": true, "lapacho": true, "cedar": true, "pine": false, "ash": false} {
		s, ok := wood.Find(name)
		if !ok {
			t.Fatalf("no timber %q", name)
		}
		if text, got := s.Dust(); got != want || got != (text != "") {
			t.Errorf("%s: %q, %v", name, text, got)
		}
	}
}
