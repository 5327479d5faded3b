package commands_test

import (
	"strings"
	"testing"
)

// onlyDoor is a door made from what was measured, of which each part has a name of its own.
func onlyDoor(t *testing.T) *conversation {
	k := talking(t)
	for _, l := range []string{"the opening is 812 wide", "the opening is 1760 high", "make a door for that opening, sapele"} {
		k.says(l)
	}
	k.wants("show the parts", "parts", "2 × stile 1754 × 95", "1 × top rail 666 × 95", "1 × bottom rail 666 × 145")
	return k
}

// What somebody changed by hand stays when a group is made again, and is named.
func TestChangesByHandStay(t *testing.T) {
	k := onlyDoor(t)
	k.says("the stiles should be 100 wide")
	k.says("rename the top rail to head rail")
	k.says("drop the panel")
	k.says("the opening is 806 wide")
	k.wants("opening width 806 stands", "measure", "New sizes", "head rail 660", "!stile 1754 × 95", "!panel")
	a := k.wants("remake the door", "joinery", "Kept as it was changed by hand", "stile: width 100", "head rail: its name", "panel is off the list and stays off", "- 2 × stile 1754 × 100 × 40")
	if a.Values["pieces"] != 4.0 {
		t.Errorf("pieces: %v", a.Values["pieces"])
	}
	k.wants("show the parts", "parts", "2 × stile 1754 × 100", "head rail 660 × 95", "bottom rail 660 × 145", "!panel", "!top rail")
	k.says("undo")
	k.wants("show the parts", "parts", "2 × stile 1754 × 100", "head rail 666 × 95")
}

// Where the new request would make otherwise what somebody changed, it is asked which stands.
func TestChangesByHandAreAskedAbout(t *testing.T) {
	for answer, want := range map[string]string{"1": "bottom rail 640 × 145", "keep it": "bottom rail 640 × 145", "2": "bottom rail 660 × 145", "take all as made now": "bottom rail 660 × 145"} {
		k := onlyDoor(t)
		k.says("change the bottom rail to 640")
		k.says("the opening is 806 wide")
		k.says("opening width 806 stands")
		k.wants("remake the door", "joinery", "?", "bottom rail (length 640, made as 660)", "1 keep what was changed · 2 take all as made now")
		k.wants("show the parts", "parts", "bottom rail 640", "top rail 666")
		k.says("remake the door")
		k.wants(answer, "joinery", "806 × 1760")
		k.wants("show the parts", "parts", want, "top rail 660 × 95")
		k.wants("remake the door", "joinery", "806 × 1760") // nothing is asked again
	}
}

// A change of the request alone asks nothing about what it leaves as it was.
func TestAChangeOfTheRequestKeepsChangesByHand(t *testing.T) {
	k := onlyDoor(t)
	k.says("change the bottom rail to 150 wide")
	k.wants("stiles 100", "joinery", "bottom rail: width 150", "1 × bottom rail 656 × 150")
	k.wants("show the parts", "parts", "2 × stile 1754 × 100", "bottom rail 656 × 150")
	k.wants("bottom rail 160", "joinery", "?", "bottom rail (width 150, made as 160)")
	k.says("2")
	k.wants("show the parts", "parts", "bottom rail 656 × 160")
	if a := k.says("no, 170"); strings.Contains(a.Text, "by hand") {
		t.Error(a.Text)
	}
}
