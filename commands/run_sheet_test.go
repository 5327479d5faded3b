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

// One machine is named in few words, and its steps keep their numbers.
func TestOneMachineOfTheRunSheet(t *testing.T) {
	hold(t, texts(after(t, sawDoor, "run sheet", "for the table saw", "just the crosscuts", "now the planer")),
		"10 settings to do", "2 settings to do at the table saw & 3. Rip", "5 settings to do at the crosscuts & 5. Crosscut strips", "1 setting to do at the planer & 6. Face")
}

// A day in the message tells when the workshop is open then.
func TestTheRunSheetOfADay(t *testing.T) {
	lines := append([]string{"workshop is open tuesday and thursday from six to nine"}, sawDoor...)
	hold(t, texts(after(t, lines, "run sheet for thursday", "run sheet for sunday", "run sheet")), "18:00–21:00", "Closed on Sun & Open next", "10 settings to do")
}

// With the last cut of a board ticked its parts are roughed out and its offcut is stock; the numbers
// of the steps stay, its ticks stand, and an undo takes all of it back. 2600 − 740 − 3 − 1820 leaves
// no length beside the strip, 210 − 112 − 3 = 95 of the width.
func TestTheLastCutOfABoardIsTicked(t *testing.T) {
	got := texts(after(t, sawDoor, "tick 1", "3 and 4 done", "untick 3", "run sheet", "what timber have we got", "plan again", "run sheet"))
	hold(t, got, "Ticked: 1.", "Sapele 1 is sawn: 3 parts roughed out, 1 offcut kept & sapele 4: 1820 × 95 mm, offcut", "stays ticked",
		"☑ 3. & ☑ 4. & ☐ 5. & Face and edge: stile ×2, rail ×3", "sapele 4", "The plan stands, as sapele 2 is sawn in part", "Face and edge: stile ×2, rail ×3")
	got = texts(after(t, sawDoor, "tick 1, 3 and 4", "scratch that", "what timber have we got", "run sheet"))
	hold(t, got, "Sapele 1 is sawn", "Taken back", "3 boards on hand", "10 settings to do")
}

// Two boards that end with the same tick have offcuts of different names.
func TestTwoBoardsEndWithOneTick(t *testing.T) {
	got := texts(after(t, sawDoor, "tick 1, 2, 3, 4 and 5", "what timber have we got"))
	hold(t, got, "Sapele 1 is sawn & Sapele 2 is sawn & sapele 4: & sapele 5:", "3 boards on hand & sapele 4 & sapele 5")
	if strings.Contains(got[1], "sapele 1:") || strings.Contains(got[1], "sapele 2:") {
		t.Errorf("a board that is sawn is on hand:\n%s", got[1])
	}
}

// A strip with a knot in it is crosscut at running marks: no part is taken over the knot because
// it is the longer one.
func TestTheRunSheetGoesRoundAKnot(t *testing.T) {
	got := after(t, []string{"got 1 oak board 2600 x 210 x 27", "oak 1 has a knot 900 from the left, 60 across", "oak 1 has a split 300 in from the right end",
		"add 4 slats 700 x 30 x 20 oak and 2 rails 900 x 70 x 20 oak and 3 lips 400 x 20 x 20 oak", "plan the cuts"}, "run sheet")
	hold(t, texts(got), "Crosscut strips at 800, 930 (keep beyond), 1930 from their left end & from the lower edge, that edge on the fence")
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
