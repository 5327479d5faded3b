package commands_test

import (
	"strings"
	"testing"

	"fettle/bot/accuracy/phrases"
)

// door has three boards for two stiles and three rails.
var door = []string{"got 3 sapele boards 2600 x 210 x 52, 48 each", "add 2 stiles 1720 x 92 x 40 sapele and 3 rails 640 x 92 x 40 sapele"}

func after(t *testing.T, begin []string, lines ...string) []phrases.Answer {
	t.Helper()
	return petra(t, append(append([]string{}, begin...), lines...)...)[len(begin):]
}

// A stile's blank is 1820 × 112 and a rail's 740 × 112, so that 2600 × 210 holds one of each at
// 1820 + 3 + 740 = 2563; two rails fit side by side at 92 + 3 + 92 + 20 = 207. Five in two boards
// of 48.
func TestThePlanOfADoor(t *testing.T) {
	got := after(t, door, "plan the cuts please", "redo it with less waste", "plan again")
	for _, a := range got {
		if a.Topic != "plan" || len(a.Changes) != 0 || a.Values["boards"] != 2.0 || a.Values["cost"] != 96.0 || a.Values["parts"] != 5.0 || a.Values["left_out"] != 0.0 {
			t.Errorf("%s: %v, changes %v", a.Topic, a.Values, a.Changes)
		}
		for _, s := range []string{"5 parts from 2 of 3 boards", "rail ×2", "crosscut at 2563", "Proved", "100 mm on the length", "kerf 3 mm", "side by side", "from 52 mm"} {
			if !strings.Contains(a.Text, s) {
				t.Errorf("%q is not said in\n%s", s, a.Text)
			}
		}
	}
	if !strings.Contains(got[1].Text, "nothing better") {
		t.Errorf("the second plan is not held against the first:\n%s", got[1].Text)
	}
}

func TestPlansFollowTheBook(t *testing.T) {
	got := after(t, door, "plan the cuts", "sapele 1 has a knot at 900, 60 across", "draw board 1", "plan it again", "add 1 panel 900 x 300 x 20 oak", "nest everything on the boards",
		"allow 10 on width", "plan again", "drop the panel", "the stiles are ripped", "replan", "all rails are planed", "plan the cuts")
	hold(t, texts(got), "5 parts", "knot", "The plan does not use sapele 1; this is number 1", "from 2 of 3 & sapele 3 & nothing better", "panel", "Left out: 1 × panel. There is no oak. & The parts have changed",
		"10 mm", "The settings have changed", "panel", "stile", "3 parts from 1 of 3", "rail", "Nothing left to plan: all 5 parts are sawn")
}

func texts(all []phrases.Answer) (out []string) {
	for _, a := range all {
		out = append(out, a.Text)
	}
	return out
}

func TestWhatIsMissingForAPlan(t *testing.T) {
	hold(t, talk(t, "plan the cuts", "add 2 rails 640 x 92 x 40 oak", "plan the cuts", "got an ash board 2600 x 210 x 52", "plan the cuts"),
		"no parts and no boards", "rail", "No boards to plan 2 parts on", "ash 1", "No board on hand gives any of 2 parts & There is no oak")
	hold(t, talk(t, "got an ash board 2600 x 210 x 52", "plan the cuts"), "ash 1", "no parts are on the list")
}

func TestOneBoardIsDrawn(t *testing.T) {
	got := after(t, door, "plan the cuts", "draw sapele 2", "draw board 7", "draw sapele 3")
	hold(t, texts(got), "5 parts", "Sapele 2: stile, rail & 1 crosscut at 2563", "does not use board 7", "does not use sapele 3 & It uses sapele 1, sapele 2")
}

// A plan is no change that is told, but it can be taken back.
func TestAPlanIsTakenBack(t *testing.T) {
	hold(t, texts(after(t, door, "plan the cuts", "scratch that", "parts?")), "5 parts", "Taken back: the cut plan", "2 × stile")
}

func TestWaysOfAskingForAPlan(t *testing.T) {
	for _, text := range []string{"plan the cuts", "pls plan out the cutting", "make a cutting plan", "show me the plan", "cut plan?", "lay the pieces out on the boards", "how should we get these out of the sapele",
		"what comes out of which board", "draw the second board", "sketch the plan", "can you plan it again", "replan", "optimise the layout", "plan again with as little waste as possible",
		"which parts come from board 2", "nest all parts", "do a new plan", "arrange the parts on the planks", "redraw board 2"} {
		if got := after(t, door, text)[0]; got.Topic != "plan" {
			t.Errorf("%q is heard as %s: %s", text, got.Topic, got.Answer)
		}
	}
}

// The first board gives two rails side by side and a stile, and 1820 × 95 is left.
func TestABoardIsSawn(t *testing.T) {
	got := after(t, door, "plan the cuts", "sapele 1 is sawn up", "stock", "show the plan", "plan again", "board 1 is cut", "plan the cuts", "scratch that", "stock", "sapele 3 is cut")
	hold(t, texts(got), "5 parts", "Sapele 1 is sawn: 3 parts roughed out, 1 offcut kept & sapele 4: 1820 × 95 & Still to saw: sapele 2", "sapele 4: 1820 × 95 × 52 mm, offcut",
		"sapele 1 (sawn)", "2 parts from 1 of 3 & sapele 2: stile, rail", "Sapele 2 is sawn: 2 parts", "Nothing left to plan", "Taken back", "sapele 2: 2600", "does not use sapele 3")
	if c := got[1].Changes; len(c) != 4 || c[0]["what"] != "done" || c[2]["op"] != "add" || c[3]["op"] != "remove" {
		t.Errorf("changes %v", c)
	}
}

// A rail that is spoiled while the first board is sawn fits on the second beside the other; a
// stile's blank of 1820 × 112 takes another board, as no offcut is wide enough.
func TestWhatASpoiledPartTakes(t *testing.T) {
	got := after(t, door, "plan the cuts", "cut one rail short", "sapele 1 is cut", "draw the plan", "cut one stile short", "plan again")
	hold(t, texts(got), "5 parts", "came out of sapele 1 & no further board & sapele 2: rail ×2, stile", "2 parts roughed out & 1 × rail of it was spoiled",
		"3 parts from 1 of 3", "takes 1 board more, 0.55 m², 48 & sapele 3: stile & nothing that is sawn moves", "4 parts from 2 of 3 & nothing better")
}

// With one board only there is none for another stile.
func TestWhatCannotBeMadeAgain(t *testing.T) {
	hold(t, talk(t, "got a sapele board 2600 x 210 x 52", "add 1 stile 1720 x 92 x 40", "plan the cuts", "sapele 1 is cut", "spoiled a stile"),
		"sapele 1", "stile", "1 part from 1 of 1", "Sapele 1 is sawn", "Left out: 1 × stile & does not give it again")
}

// Of sapele 1 the rails are out by the ticks (crosscut at 740 and ripped at 207), and 2563 − 743 = 1820
// × 210 is left of the crosscuts; the spoiled rail is made on a board that is whole, and what is
// sawn does not move. All of it is taken back exactly.
func TestASpoiledPartOfABoardSawnInPart(t *testing.T) {
	got := after(t, door, "plan the cuts", "tick 1, 3", "plan again", "cut one rail short", "stock", "plan again", "scratch that", "scratch that", "stock")
	hold(t, texts(got), "5 parts", "Ticked", "The plan stands, as sapele 1 is sawn in part", "Sapele 1 is sawn in part & 2 × rail out & sapele 4 1820 × 210 & no further board & nothing that is sawn moves",
		"sapele 2: 2600 & sapele 4: 1820 × 210", "4 parts from 2 of 3 boards & nothing better", "Taken back", "Taken back", "sapele 1: 2600 & sapele 2: 2600 & sapele 3: 2600")
	for _, c := range got[3].Changes {
		if c["name"] == "rail" {
			if stages, _ := c["stages"].(map[string]any); stages["roughed"] != 1.0 || c["spoiled"] != 1.0 {
				t.Errorf("of two rails that are out one is spoiled, and they are %v", c)
			}
		}
	}
}

// The ticks show the two rails of sapele 1 cut out; the third comes out of sapele 2. What is lost beyond
// the ticks is put down to boards by the plan, and that is said.
func TestMoreIsLostThanTicked(t *testing.T) {
	got := after(t, door, "plan the cuts", "tick 1, 3", "cut 3 rails short")
	hold(t, texts(got), "5 parts", "Ticked", "3 × rail to make again & By your ticks 2 × rail are cut out, and 3 are lost, so I take it that they came out of sapele 1 and sapele 2 & Say “sapele 1 is cut”")
	got = after(t, door, "plan the cuts", "cut one rail short")
	hold(t, texts(got), "5 parts", "No board of it is said or ticked to be sawn, so I take it that it came out of sapele 1, and that the whole of what the plan has there is sawn")
	got = after(t, door, "plan the cuts", "sapele 2 is used up", "cut 3 rails short")
	hold(t, texts(got), "5 parts", "Off the list", "came out of sapele 1 & Sapele 1 holds only 2 of it by the plan: say which boards the others came from")
}

// A new plan keeps what is sawn: after one crosscut at 2563 sapele 2 is a piece of 2563 × 210, and
// of sapele 1 the two rails, side by side in one blank, are out.
func TestANewPlanMovesNothingThatIsSawn(t *testing.T) {
	got := after(t, door, "plan the cuts", "tick 1, 2, 3", "add 1 sapele shelf 500 x 92 x 40", "plan again", "stock", "run sheet", "scratch that", "run sheet")
	hold(t, texts(got), "5 parts", "Ticked", "shelf", "4 parts from & The parts have changed & 2 × rail out of it & no part out of it", "sapele 3: 2600 & sapele 4: 1820 × 210 & sapele 5: 2563 × 210",
		"☐ 1. & rail ×3", "Taken back", "☑ 1. & ☑ 2. & ☑ 3. & ☐ 4.")
}

// A stile's blank of 2520 fits a board of 2600 with 40 off each end, and not with 41.
func TestBoardEndsAreTrimmed(t *testing.T) {
	got := talk(t, "got 2 sapele boards 2600 x 210 x 52", "add 1 stile 2420 x 92 x 40 sapele", "trim 40 off each end of the boards", "plan the cuts", "trim the ends of all boards by 41", "plan the cuts", "what's the end trim", "end trim 0", "plan the cuts")
	hold(t, got, "sapele 1", "stile", "Set: trimmed off each end of a board 40 mm", "1 part from 1 of 2 & 40 mm comes off each end", "41 mm", "Left out: 1 × stile & long enough", "41 mm", "0 mm", "1 part from 1 of 2")
	for _, text := range []string{"trim 60 wide round an opening 610 by 455", "cut 20 off the end of the rail", "i trimmed 5 off the end of board 2", "cut 20 off each end of the slats"} {
		if a := petra(t, text)[0]; a.Given["end_trim_mm"] != nil {
			t.Errorf("%q sets the trim of boards: %s", text, a.Answer)
		}
	}
}
