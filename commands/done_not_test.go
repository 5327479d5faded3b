package commands_test

import (
	"testing"

	"fettle/bot/accuracy/phrases"
)

// What isn't done after all loses its tick, with what comes after it; undo puts it back.
func TestTicksAreTakenBack(t *testing.T) {
	for said, left := range map[string]string{
		"the rack slats are not cut": "rack slat cut 0 of 6 (was 6)", "the rack slats aren't cut after all": "rack slat cut 0 of 6 (was 6)",
		"untick the rack slats": "rack slat sanded 0 of 6 (was 6)", "rack slats not cut yet": "rack slat cut 0 of 6", "take the tick off the rack slats": "rack slat sanded 0 of 6",
		"I haven't sanded the rack slats after all": "rack slat sanded 0 of 6", "2 of the rack slats aren't cut": "rack slat cut 4 of 6 (was 6)",
		"the last rack slat isn't sanded": "rack slat sanded 5 of 6", "the rack slats haven't been cut": "rack slat cut 0 of 6",
	} {
		k := listing(t)
		k.says("the rack slats are cut")
		k.says("the rack slats are sanded")
		a := k.wants(said, "done", "Tick taken back: "+left)
		k.changed(a, "done change rack slat")
		k.wants("undo", "undo", "Taken back: rack slat")
		k.wants("untick the rack slats", "done", "sanded 0 of 6 (was 6)")
		k.wants("untick the rack slats", "done", "cut 0 of 6 (was 6)")
		k.wants("untick the rack slats", "done", "Rack slat was not ticked")
		k.wants("what happened to the rack slats", "part", "tick taken back by Petra: untick the rack slats")
	}
}

// What was never ticked changes nothing, and what can't be told is asked.
func TestNothingToTakeBack(t *testing.T) {
	k := listing(t)
	nothing := func(a phrases.Answer) {
		t.Helper()
		k.changed(a)
	}
	nothing(k.wants("the top rail is not cut", "done", "was not ticked as cut"))
	k.says("the top rail is cut")
	nothing(k.wants("the top rail is not done", "done", "was not ticked as finished, but cut"))
	k.wants("the top rail is not cut", "done", "Tick taken back: top rail not cut")
	k.says("the rack slats are cut")
	k.wants("not all the rack slats are cut", "done", "?", "How many are?")
	k.wants("the battens aren't cut after all", "done", "?", "no part “battens”")
	k.wants("the rail isn't cut", "done", "?", "1 top rail", "2 bottom rail")
	nothing(k.wants("what is not cut", "left"))
	k.wants("the rack slats are cut, not planed", "done", "Rack slat cut: 6 of 6")
	k.wants("untick step 3", "run-sheet")
	k.wants("untick 3", "run-sheet")
	k.says("the stiles are done")
	k.wants("stile is not done", "done", "stile finished 0 of 2 (was 2)") // as the pages say it
}

// A part that was counted up is ticked by its name, as the pages say it, and not so many of another.
func TestPartsThatWereCountedUpAreTicked(t *testing.T) {
	k := talking(t)
	k.says("add 4 slats 742 x 38 x 16")
	k.says("add 2 slats 700 x 38 x 16")
	k.wants("slat 2 is done", "done", "Slat 2 finished: 2 of 2", "!Slat finished")
	k.wants("slat 2 is not done", "done", "slat 2 finished 0 of 2 (was 2)")
	k.wants("slat 2 is cut", "done", "Slat 2 cut: 2 of 2")
	k.wants("2 of the 742 slats are planed", "done", "Slat machined: 2 of 4")
}
