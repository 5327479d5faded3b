package commands_test

import (
	"strings"
	"testing"
	"time"
)

// sheet is a data sheet with times that are easily counted.
const sheet = "our glue: epoxy open 20, clamp 60, work after 120, full strength after 240 at 20 degrees"

// at is a time of the Wednesday, or of the day before it.
func at(clock string) string {
	day := "2026-03-11"
	if rest, ok := strings.CutPrefix(clock, "-"); ok {
		day, clock = "2026-03-10", rest
	}
	return day + "T" + clock + ":00Z"
}

// The start is what was said: now, so long ago, a time of day. Said at 14:20.
func TestWhenAGlueUpBegan(t *testing.T) {
	for line, want := range map[string]string{
		"bow 1 was just glued with epoxy, 20 degrees":                   at("14:20"),
		"just glued bow 1, epoxy, 20 degrees":                           at("14:20"),
		"glued bow 1 with epoxy twenty minutes ago, 20 degrees":         at("14:00"),
		"bow 1 was glued with epoxy an hour and a half ago, 20 degrees": at("12:50"),
		"bow 1 glued half an hour ago, epoxy, 20 C":                     at("13:50"),
		"bow 1 went in the clamps at 10.45, epoxy, 20C":                 at("10:45"),
		"bow 1 is in cramps since quarter to three, epoxy, 20 degrees":  at("02:45"),
		"bow 1 is in the clamps since ten past two, epoxy, 20 degrees":  at("14:10"),
		"epoxy on bow 1 9:05, 20deg":                                    at("09:05"),
		"glued bow 1 at 2 pm with epoxy, 20 degrees":                    at("14:00"),
		"glued bow 1 at 14:20 with epoxy, 20 degrees":                   at("14:20"),
		"glued bow 1 at 2:25 with epoxy, 20 degrees":                    at("14:20"), // the clock in the workshop is ahead
		"yesterday at 18:00 i glued bow 1 with epoxy, 20 degrees":       at("-18:00"),
		"glued bow 1 yesterday at 6 in the evening, epoxy, 20 degrees":  at("-18:00"),
		"glued bow 1 this morning at 9, epoxy, 20 degrees":              at("09:00"),
		"bow 1 was glued tuesday at 11:30 with epoxy, 20 degrees":       at("-11:30"),
		"glued bow 1 last night at 9, epoxy, 20 degrees":                at("-21:00"),
		"bow 1 is in the clamps since 8 pm, epoxy, 20 degrees":          "",
		"bow 1 is glued with epoxy at 15:10, 20 degrees":                "",
		"glued bow 1 with epoxy at 23:50, 20 degrees":                   "",
		"glued bow 1 with epoxy yesterday, 20 degrees":                  "",
	} {
		k := talking(t)
		k.says(sheet)
		a := k.says(line)
		switch {
		case a.Topic != "glue-up":
			t.Errorf("%q: topic %s", line, a.Topic)
		case want == "" && (a.Question == "" || len(a.Changes) > 0 || len(a.Times) > 0):
			t.Errorf("%q was not asked about: %s", line, a.Text)
		case want != "" && a.Given["at"] != want:
			t.Errorf("%q: from %v, want %v (%s)", line, a.Given["at"], want, a.Text)
		case want != "" && a.Given["name"] != "bow 1":
			t.Errorf("%q: what was glued is %v", line, a.Given["name"])
		}
	}
}

// The moments are the start and the times of the sheet, colder twice as long for ten degrees; the
// time to close up is rounded down, waiting is rounded up.
func TestTheMomentsOfAGlueUp(t *testing.T) {
	for _, c := range []struct {
		line string
		want map[string]string
	}{
		{"just glued bow 1 with epoxy, 20 degrees", map[string]string{"open_until": at("14:40"), "clamps_off": at("15:20"), "workable": at("16:20"), "cured": at("18:20")}},
		{"just glued bow 1 with epoxy, 10 degrees", map[string]string{"open_until": at("14:40"), "clamps_off": at("16:20"), "workable": at("18:20"), "cured": at("22:20")}},
		// 60 × 2^(3/10) = 73.87 min and 120 × 2^(3/10) = 147.74 min
		{"just glued bow 1 with epoxy, 17 degrees", map[string]string{"open_until": at("14:40"), "clamps_off": at("15:34"), "workable": at("16:48")}},
	} {
		k := talking(t)
		k.says(sheet)
		a := k.says(c.line)
		for name, want := range c.want {
			if a.Times[name] != want {
				t.Errorf("%q: %s %s, want %s", c.line, name, a.Times[name], want)
			}
		}
		k.changed(a, "timer add bow 1")
	}
}

func TestAGlueUpThatCannotHold(t *testing.T) {
	k := talking(t)
	k.wants("just glued the door with pva, 3 degrees", "glue-up", "?", "does not bond at 3 °C")
	k.wants("what's in the clamps", "timers", "Nothing is in the clamps")
	k.wants("just glued the door", "glue-up", "?", "Which glue")
	k.now = k.now.Add(4 * time.Minute)
	a := k.wants("epoxy, 20 degrees", "glue-up", "from 14:20") // when it was said that it was glued
	k.changed(a, "timer add door")
}

func TestTheOpenTimeIsWatched(t *testing.T) {
	k := talking(t)
	k.says(sheet)
	k.wants("glued bow 1 with epoxy ten minutes ago, 20 degrees", "glue-up", "Close it up by 14:30 (10 min left)")
	k.wants("glued bow 2 with epoxy 40 minutes ago, 20 degrees", "glue-up", "open time ended 14:00")
}

// A project's own glue needs no naming, nor does its temperature; “same glue” takes both from before.
func TestAGlueUpTakesWhatIsKnown(t *testing.T) {
	k := talking(t)
	k.says(sheet)
	k.says("the shed is at 12 degrees")
	k.wants("just glued bow 1", "glue-up", "Epoxy (your data sheet) at 12 °C", "setting")
	k.wants("just glued bow 2 with polyurethane, 16 degrees", "glue-up", "One-part polyurethane at 16 °C")
	k.wants("bow 3 went in five minutes ago, same glue", "glue-up", "One-part polyurethane at 16 °C", "14:15")
}

func TestAGlueUpIsCorrected(t *testing.T) {
	k := talking(t)
	k.says(sheet)
	k.says("glued bow 1 with epoxy ten minutes ago, 20 degrees")
	k.now = k.now.Add(5 * time.Minute)
	a := k.wants("no, 10 degrees", "glue-up", "at 10 °C", "from 14:10", "clamps off 16:10")
	k.changed(a, "timer change bow 1")
	k.wants("why", "glue-up", "60 min × 2 = 2 h at 10 °C", "as you said")
	a = k.wants("sorry, it was twenty minutes ago", "glue-up", "from 14:05", "at 10 °C")
	k.changed(a, "timer change bow 1")
	k.wants("undo", "undo", "Taken back: bow 1")
	k.wants("how long has bow 1 to go", "timers", "clamps off 16:10")
}

func TestOneGlueUpTwiceTold(t *testing.T) {
	k := talking(t)
	k.says(sheet)
	k.says("glued bow 1 with epoxy ten minutes ago, 20 degrees")
	a := k.wants("Gil> bow 1 is glued with epoxy at 14:00, 20 degrees", "glue-up", "replaces its timer from 14:10")
	k.changed(a, "timer change bow 1")
	k.now = k.now.Add(3 * time.Hour)
	a = k.wants("just glued bow 1 with epoxy, 20 degrees", "glue-up", "Bow 1 (2)") // its other half
	k.changed(a, "timer add bow 1 (2)")
}

func TestWhatIsInTheClamps(t *testing.T) {
	k := talking(t)
	k.says(sheet)
	k.wants("what's in the clamps", "timers", "Nothing is in the clamps")
	k.wants("when can I sand", "timers", "Nothing is waiting for glue")
	k.says("just glued bow 1 with epoxy, 20 degrees")
	k.says("Gil> glued the door half an hour ago with pva, 20 degrees")
	k.wants("what's in the clamps", "timers", "Bow 1: clamps off 15:20 (1 h to go); door: clamps off 15:20 (1 h to go)")
	k.wants("is the epoxy ready yet?", "timers", "Bow 1: clamps off 15:20", "!door (")
	k.wants("when can I sand bow 1", "timers", "sand or plane it from 16:20 (2 h to go)")
	k.wants("is bow 2 ready?", "timers", "No timer is running for bow 2")
	k.now = k.now.Add(70 * time.Minute)
	k.wants("is bow 1 ready?", "timers", "clamps can come off since 15:20")
	k.wants("took bow 1 out of the clamps", "timers", "Bow 1 is out of the clamps; work it from 16:20", "!too soon")
	k.wants("how long has bow 1 to go", "timers", "sand or plane it from 16:20 (50 min to go)")
	k.wants("leave the door in till 8", "timers", "clamps off 20:00")
	k.wants("door needs another 20 minutes", "timers", "clamps off 20:20", "20 min later")
	k.wants("undo", "undo", "Taken back: door")
	k.wants("when do the clamps come off the door", "timers", "clamps off 20:00")
	k.now = k.now.Add(20 * time.Hour)
	k.wants("is bow 1 ready?", "timers", "cured since 18:20 yesterday")
}

func TestWhichTimerIsAsked(t *testing.T) {
	k := talking(t)
	k.says(sheet)
	k.says("just glued bow 1 with epoxy, 20 degrees")
	k.says("just glued bow 2 with epoxy, 20 degrees")
	k.wants("give the bow another half hour", "timers", "?", "1 bow 1 · 2 bow 2")
	k.wants("the second", "timers", "Bow 2: clamps off 15:50")
	k.wants("stop the timer", "timers", "?", "Which one")
	k.wants("bow 1", "timers", "Stopped the timer of bow 1")
	k.wants("undo", "undo", "Taken back")
	a := k.wants("stop all timers", "timers", "bow 1, bow 2")
	k.changed(a, "timer change bow 1", "timer change bow 2")
	k.wants("what's in the clamps", "timers", "Nothing")
	k.wants("stop the timer", "timers", "No timer is running")
}

func TestWhatWasGlued(t *testing.T) {
	for line, want := range map[string]string{
		"just glued the top half of the door with pva, 17 degrees in here": "top half of the door",
		"bow no 3 went in the clamps at 10.45, epoxy, 15C":                 "bow no 3",
		"glued up the bench ends twenty minutes ago, polyurethane, 63 F":   "bench ends",
		"PU on the larch frame 9:05, 14deg, 60% rh":                        "larch frame",
		"rack sides are in cramps since ten past two, hide glue, 20 deg":   "rack sides",
		"door's in the clamps, pva, 19 degrees":                            "door",
		"bows 1 and 2 glued together with pva, 20 degrees":                 "bows 1 and 2",
		"just glued with pva, 20 degrees":                                  "glue-up",
	} {
		k := talking(t)
		a := k.wants(line, "glue-up")
		k.changed(a, "timer add "+want)
	}
}
