package commands_test

import "testing"

func TestWhoIsOnWhat(t *testing.T) {
	k := listing(t)
	k.changed(k.wants("Gil> I’ll take the sides", "claim", "Gil", "rack side"), "claim add rack side")
	k.changed(k.wants("slats are mine then", "claim", "Petra", "rack slat"), "claim add rack slat")
	k.wants("Gil> who's on the slats?", "claim", "Petra")
	k.changed(k.wants("Gil does the stiles and I do the rails", "claim", "Gil: 2 × stile", "Petra"), "claim add stile", "claim add top rail", "claim add bottom rail")
	k.wants("who is doing what?", "claim", "Gil: rack side, stile", "Petra: rack slat, top rail, bottom rail")
	k.wants("Gil> what am I on", "claim", "rack side", "!slat")
	k.changed(k.wants("I give the top rail back", "claim", "Free again: top rail"), "claim remove top rail")
	k.wants("who's on the top rail", "claim", "Nobody")
	k.wants("who has the door", "claim", "Gil", "Petra", "free: top rail")
}

func TestWhatSomebodyIsOnIsAskedAbout(t *testing.T) {
	k := listing(t)
	k.says("I'll take the stiles")
	k.wants("Gil> the stiles are mine", "claim", "?", "Petra is on stile")
	k.changed(k.wants("Gil> yes", "claim", "Gil: 2 × stile"), "claim change stile")
	k.changed(k.wants("Gil> give the stiles to Petra", "claim", "Petra: 2 × stile"), "claim change stile")
	k.wants("Gil> undo", "undo", "Taken back")
	k.wants("who's on the stiles", "claim", "Gil")
}

func TestSomePiecesOfAPart(t *testing.T) {
	k := listing(t)
	k.changed(k.wants("I'll take 4 of the slats", "claim", "Petra: 4 of 6 × rack slat"), "claim add rack slat, Petra")
	k.changed(k.wants("Gil> I'll do two slats", "claim", "Gil: 2 of"), "claim add rack slat, Gil")
	k.wants("who's on the slats", "claim", "Petra: 4 of rack slat", "Gil: 2 of rack slat")
	k.wants("Gil> I'll take 3 of the slats", "claim", "?", "Petra is on rack slat")
	k.wants("Gil> I'll take 9 of the slats", "claim", "?", "only 6")
}

func TestATaskThatIsNoPart(t *testing.T) {
	k := listing(t)
	k.wants("I'll do the trim", "claim", "?", "“trim”")
	k.changed(k.wants("yes", "claim", "Petra: trim"), "claim add trim")
	k.wants("Gil> who's on the trim", "claim", "Petra")
	k.wants("Gil> is anyone on the floor", "claim", "Nobody has said")
	k.wants("Gil does the bows and I do the hinges", "claim", "?", "“bows” or “hinges”")
	k.changed(k.wants("yes", "claim", "Gil: bows", "Petra: hinges"), "claim add bows", "claim add hinges")
	k.changed(k.wants("the trim is done", "done", "Trim finished"), "done add trim")
	k.wants("what's left for me", "left", "hinges", "!trim")
}

func TestNamesAndPronouns(t *testing.T) {
	k := listing(t)
	for line, want := range map[string]string{
		"put Gil on the sides":                    "Gil: 2 × rack side",
		"leave the sides to me, housings and all": "Petra: 2 × rack side",
		"we'll do the sides together":             "both",
		"Gil's doing the sides":                   "Gil: 2 × rack side",
		"the sides are for Gil":                   "Gil: 2 × rack side",
		"dibs on the sides":                       "Petra: 2 × rack side",
		"I'm on the sides":                        "Petra: 2 × rack side",
		"let Gil do the sides":                    "Gil: 2 × rack side",
		"sides and slats are mine":                "Petra: 2 × rack side; Petra: 6 × rack slat",
		"I'll take the sides and the slats":       "Petra: 2 × rack side; Petra: 6 × rack slat",
	} {
		k := listing(t)
		k.wants(line, "claim", want)
	}
	k.wants("he takes the sides", "claim", "?", "Who is that?")
}

func TestHowFarTheWorkHasCome(t *testing.T) {
	k := listing(t)
	a := k.wants("4 of 6 slats cut", "done", "cut: 4 of 6")
	k.changed(a, "done add rack slat")
	k.wants("Gil> how many slats still to do", "left", "2 × rack slat")
	k.changed(k.wants("last two slats are cut", "done", "6 of 6"), "done change rack slat")
	k.changed(k.wants("Gil> both sides cut and planed", "done", "Rack side cut and machined: 2 of 2"), "done add rack side")
	k.wants("rails ripped and thicknessed, not crosscut yet", "done", "Top rail", "bottom rail", "ripped and machined")
	k.wants("what's left of the door", "left", "top rail: cut to final length", "stile: rough crosscut, 2 of 2", "!slat")
	k.wants("5 of 7 slats planed", "done", "?", "has 6")
	k.wants("planed 8 slats", "done", "?", "only 6")
	k.wants("finished the stiles at last", "done", "Stile finished: 2 of 2")
	k.wants("undo", "undo", "Taken back: stile")
	k.wants("what's left of the door", "left", "2 × stile")
}

func TestASpoiledPiece(t *testing.T) {
	k := listing(t)
	k.wants("Gil> 5 of 6 slats planed", "done", "machined: 5 of 6")
	a := k.wants("Gil> cut one short, needs making again", "done", "1 × rack slat to make again", "842 × 58 × 21 mm", "ash")
	k.changed(a, "done change rack slat")
	k.wants("how many slats still to do", "left", "2 × rack slat", "1 spoiled")
	k.wants("what's left of the rack", "left", "rough crosscut, 2 of 6")
	k.wants("Gil> undo", "undo", "Taken back")
	k.wants("what's left of the rack", "left", "rough crosscut, 1 of 6")
	k.wants("cut one rail too short, sorry", "done", "?", "Which")
	k.wants("bottom rail", "done", "1 × bottom rail to make again")
}

func TestACorrectionOfACount(t *testing.T) {
	k := listing(t)
	k.wants("4 of 6 slats cut", "done", "4 of 6")
	k.changed(k.wants("no, 5 of 6 slats cut", "done", "5 of 6"), "done change rack slat")
}

func TestWhatIsNext(t *testing.T) {
	k := listing(t)
	k.says("Gil> I'll take the sides")
	k.says("stiles are mine")
	k.wants("what's next for me", "left", "Next for Petra: rough crosscut 2 × stile", "rack slat", "!rack side")
	k.says("stiles are ripped")
	k.wants("what's next for me", "left", "Next for Petra: face, edge and thickness 2 × stile")
	k.wants("Gil> what next", "left", "Next for Gil: rough crosscut 2 × rack side")
	k.says("just glued the stiles with pva, 20 degrees")
	k.wants("what's next for me", "left", "waits: stile: joints, glue, fit", "!Next for Petra: face")
	k.says("we're in wednesdays two till six")
	k.wants("what should I do next", "left", "3 h 40 min until 18:00")
	k.now = k.now.Add(100 * 60e9)
	k.wants("what's next for me", "left", "take stiles out of the clamps")
	k.wants("anything outstanding for Gil?", "left", "rack side", "!stile")
	k.wants("what's left", "left", "stile", "rack slat", "rack side")
}

func TestCountsInWords(t *testing.T) {
	for line, want := range map[string]string{
		"half the slats are cut":             "cut: 3 of 6",
		"all slats planed but one":           "machined: 5 of 6",
		"all but two of the slats are cut":   "cut: 4 of 6",
		"everything is cut":                  "Rack slat cut: 6 of 6, rack side cut: 2 of 2, top rail cut",
		"the bottom one is planed":           "Bottom rail machined",
		"cut two slats":                      "cut: 2 of 6",
		"half a dozen slats planed":          "machined: 6 of 6",
		"stiles: roughed, ripped and planed": "Stile roughed and ripped and machined: 2 of 2",
		"3 of the slats are oiled":           "coated: 3 of 6",
		"slats and sides are sanded":         "Rack slat sanded: 6 of 6, rack side sanded: 2 of 2",
		"two slats snapped":                  "2 × rack slat to make again",
	} {
		k := listing(t)
		k.wants(line, "done", want)
	}
	k := listing(t)
	k.wants("I'll take half the slats", "claim", "Petra: 3 of 6 × rack slat")
	k.wants("3 of the slats are oiled", "done", "3 of 6")
	k.changed(k.wants("no, 4", "done", "4 of 6"), "done change rack slat")
}

// Two people share the work on a rack, as they would say it.
func TestTwoPeopleOnARack(t *testing.T) {
	k := listing(t)
	k.changed(k.wants("Gil> I’ll take the sides", "claim"), "claim add rack side")
	k.changed(k.wants("slats are mine then", "claim"), "claim add rack slat")
	k.wants("Gil> who's on the slats?", "claim", "Petra")
	k.changed(k.wants("4 of 6 slats cut", "done"), "done add rack slat")
	k.wants("Gil> what's left for Petra", "left", "slat")
	k.changed(k.wants("last two slats are cut", "done", "6 of 6"), "done change rack slat")
	k.changed(k.wants("Gil> both sides cut and planed", "done"), "done add rack side")
	k.wants("who did the sides?", "log", "Gil")
}
