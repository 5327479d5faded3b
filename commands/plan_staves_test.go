package commands_test

import (
	"strings"
	"testing"
)

// A panel 470 wide from boards of 200 is three staves of 157, each sawn 157 + 20; with its ends they are
// 800 long. Two boards of 2000 hold the three and a blank of two stiles of 1000.
var wide = []string{"add 1 panel 700 x 470 x 18 oak, 2 stiles 900 x 60 x 18 oak", "got 2 oak boards 2000 x 200 x 27"}

func TestWidePanelsAreGluedUp(t *testing.T) {
	got := after(t, wide, "plan the cuts", "run sheet", "check the plan", "don't glue up wide panels", "plan the cuts", "check the plan", "please glue up wide panels from now on", "plan the cuts", "show the settings")
	hold(t, texts(got), "3 parts from 2 of 2 & panel of 3 staves, each sawn 177 mm wide and jointed to 157 mm & with the grain along the length & 2 × panel stave",
		"Rip, fence at 177 & Face and edge: panel (of 3 staves) & Width to 470: panel (of 3 staves) & Glue up panel of its 3 staves", "Nothing odd", "left out",
		"Left out: 1 × panel. No board that is thick and long enough is wide enough: it takes 490 mm. It could be glued up of 3 staves & The settings have changed", "The plan leaves out 1 × panel", "glued up",
		"3 parts from 2 of 2", "Panels wider than a board: glued up")
	if got[0].Values["parts"] != 3.0 || got[0].Values["left_out"] != 0.0 {
		t.Errorf("values %v", got[0].Values)
	}
}

// A panel is roughed out when its last stave is, wherever that lies and whatever is planned between.
func TestStavesOutOfSeveralBoards(t *testing.T) {
	got := after(t, wide, "plan the cuts", "oak 1 is cut", "parts?", "plan again", "oak 2 is cut", "plan again", "scratch that", "scratch that", "tick 1, 2, 3", "run sheet")
	hold(t, texts(got), "oak 2: 2 × panel stave", "2 parts roughed out & Panel: 1 of its 3 staves", "panel", "1 part from 1 of 2 & oak 2: 2 × panel stave", "1 part roughed out", "Nothing left to plan: all 3 parts are sawn",
		"", "", "Oak 2 is sawn: 1 part roughed out", "☑ 1. & ☑ 2. & ☑ 3.")
	for _, c := range got[1].Changes {
		if c["name"] == "panel" {
			t.Errorf("one of three staves changes the panel: %v", c)
		}
	}
	done := false
	for _, c := range got[4].Changes {
		done = done || c["what"] == "done" && c["name"] == "panel"
	}
	if !done {
		t.Errorf("the last staves do not rough the panel out: %v", got[4].Changes)
	}
}

// Staves of a board that is sawn in part are not sawn again.
func TestStavesOfABoardSawnInPart(t *testing.T) {
	got := after(t, wide, "plan the cuts", "tick 1, 2, 3", "add 1 shelf 300 x 60 x 18 oak", "plan again")
	last := got[len(got)-1].Text
	if strings.Contains(last, "panel stave. 1") || !strings.Contains(last, "panel stave out of it") {
		t.Errorf("the new plan:\n%s", last)
	}
}

func TestSheetsAreNotGluedUp(t *testing.T) {
	hold(t, talk(t, "got 2 sheets of plywood 1200 x 400 x 12", "add 1 panel 700 x 470 x 12 plywood", "plan the cuts"), "plywood", "panel", "No board on hand gives any of 1 part & wide enough")
}
