package commands_test

import (
	"strings"
	"testing"
)

// sawDoor is a plan to saw by.
var sawDoor = []string{"got 3 sapele boards 2600 x 210 x 52, 48 each", "add 2 stiles 1720 x 92 x 40 sapele and 3 rails 640 x 92 x 40 sapele", "plan the cuts"}

// The run sheet goes machine by machine, each setting once; the crosscut of the whole boards is
// measured from their left end. Finished sizes are those that were said.
func TestTheRunSheetOfADoor(t *testing.T) {
	all := after(t, sawDoor, "run sheet", "which passes on the thicknesser", "fence settings please")
	sheet := all[0].Text
	at := 0
	for _, want := range []string{"Crosscut at", "from the left end: sapele", "Rip, fence at", "Face and edge: stile ×2, rail ×3", "Thickness to 40: stile ×2, rail ×3",
		"Width to 92: stile ×2, rail ×3", "Cut to 1720 long: stile ×2", "Cut to 640 long: rail ×3"} {
		i := strings.Index(sheet[at:], want)
		if i < 0 {
			t.Fatalf("%q is missing, or before its turn:\n%s", want, sheet)
		}
		at += i
	}
	hold(t, texts(all), "settings to do", "2 settings to do at the thicknesser", "at the rips & fence at")
}

// Steps are ticked by saying so, and a tick is taken back exactly.
func TestStepsAreTicked(t *testing.T) {
	hold(t, texts(after(t, sawDoor, "tick 1", "step 2 is done", "untick 2", "scratch that", "tick the next step", "tick 40", "run sheet")),
		"Ticked: 1. & Next: 2.", "Ticked: 2. & Next: 3.", "Not done yet: 2.", "Taken back", "Ticked: 3.", "Which one is done?", "☑ 1. & ☑ 2. & ☑ 3.")
}

// A sign under the sheet ticks, too: the answer says which sign means what.
func TestSignsOfTheRunSheet(t *testing.T) {
	all := after(t, sawDoor, "run sheet", "tick 1", "run sheet")
	if first := all[0].Signs; first["check"] != "tick the next step" || first["2"] != "tick step 2" {
		t.Errorf("the signs are %v", first)
	}
	if last := all[2].Signs; last["1"] != "" {
		t.Errorf("a step that is ticked has a sign: %v", last)
	}
}

func TestNoRunSheetWithoutAPlan(t *testing.T) {
	hold(t, talk(t, "run sheet for thursday"), "no cut plan yet")
}
