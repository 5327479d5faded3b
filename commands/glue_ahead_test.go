package commands_test

import "testing"

// A glue-up that is still to come starts no timer, nor does one at a time of day that is none; said at
// 14:20 on a Wednesday.
func TestGlueUpToCome(t *testing.T) {
	for _, line := range []string{
		"Glue-up tomorrow 09:30: lamination 2, epoxy, 17 °C. Start the timers.",
		"We glue the shelf next Sunday at 3 pm with PU glue, it'll be about 20 degrees then. Please start the timer for it.",
		"glueing the bow on friday at 10 with epoxy 18 degrees, start the timer",
		"bow 1 will be glued tonight at eight, pva, 19 degrees, set the timers",
		"we'll glue the sill with epoxy in an hour, 17 degrees, start the timer then",
		"Glue-up Friday 10:00: door leaf, epoxy, 18 °C.",
		"start the timer at 19:00 for the bow, epoxy, 18 degrees",
		"glued the frame at 18:75 with pva, 20 degrees",
		"glued the frame at 25:10 with epoxy, 18 degrees",
	} {
		k := talking(t)
		if a := k.says(line); a.Topic != "glue-up" || a.Question == "" || len(a.Changes) > 0 || len(a.Times) > 0 {
			t.Errorf("%q: topic %s, question %q, changes %v", line, a.Topic, a.Question, a.Changes)
		}
	}
}

// What is asked about a glue-up to come can be answered.
func TestGlueUpToComeIsGluedAfterAll(t *testing.T) {
	for answer, want := range map[string]string{"now": at("14:20"), "at 13:40": at("13:40"), "10 minutes ago": at("14:10")} {
		k := talking(t)
		k.says("Glue-up tomorrow 09:30: lamination 2, epoxy, 17 °C. Start the timers.")
		if a := k.says(answer); a.Question != "" || a.Given["at"] != want || a.Given["name"] != "lamination 2" {
			t.Errorf("%q: at %v, want %s; name %v, question %q", answer, a.Given["at"], want, a.Given["name"], a.Question)
		}
	}
}

// A score, a price or a number of clamps is no temperature, and a story before it names nothing.
func TestGlueUpAmongOtherNumbers(t *testing.T) {
	for line, want := range map[string]struct {
		name string
		temp float64
	}{
		"The radio was on, the football stood at 2-1, and Petra said now or never: so just now we glued the seat frame with PVA, 21 degrees and 55 % humidity.": {"seat frame", 21},
		"It was 3-0 at half time when Gil glued both stiles with epoxy, 16 degrees in here, 10 minutes ago":                                                     {"stiles", 16},
		"we beat them 4-2 and glued the shelf with pva just now, 18 degrees":                                                                                    {"shelf", 18},
		"cake cost 4.50, then I glued the top half of the door with PU, 19 degrees":                                                                             {"top half of the door", 19},
		"glued the bunk rail, epoxy 100 g at 38 euros, it's 15 degrees in the hut":                                                                              {"bunk rail", 15},
		"bow 1 is glued with epoxy, 22 degrees, 6 clamps on it":                                                                                                 {"bow 1", 22},
	} {
		k := talking(t)
		if a := k.says(line); a.Question != "" || a.Given["name"] != want.name || a.Given["temperature_c"] != want.temp {
			t.Errorf("%q: %v at %v, want %v; question %q", line, a.Given["name"], a.Given["temperature_c"], want, a.Question)
		}
	}
}

// A timer for nothing in particular is asked about.
func TestTimerForNothing(t *testing.T) {
	askedBack(t, "timers", "Can you set a timer for the glue, please?", "set a timer", "start a timer please", "set a timer for 20 minutes", "set the timer for the bow", "could you put a timer on for the glue-up")
}

// No opening time is made of what is no time of day.
func TestNoTimeOfDay(t *testing.T) {
	askedBack(t, "hours", "workshop open thu 18:75 to 21:00", "workshop is open tuesdays from 6 until 25", "open mon 18:00 to 21:60", "the workshop opens at 9:99 on saturdays", "fridays 26 to 28", "workshop open wed from 13 to 31", "open tuesday 24:30 to 25:00")
	answered(t, "hours", []request{{text: "open thu 18:15 to 21:00"}, {text: "sunday 9 to 4"}, {text: "open saturdays from 9.30 till 13.00"}, {text: "open monday 18:00 to 24:00"}})
}
