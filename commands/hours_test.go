package commands_test

import (
	"testing"
	"time"
)

// Opening times as people put them, and how they are shown.
func TestOpeningTimesInPlainWords(t *testing.T) {
	for line, want := range map[string]string{
		"workshop is open tuesday and thursday from six, sundays nine to four":              "Open Tue Thu from 18:00, Sun 09:00–16:00",
		"we can use the shed mondays and wednesdays 18:30 to 21:00 and saturdays 10 till 4": "Open Mon Wed 18:30–21:00, Sat 10:00–16:00",
		"heater only runs half six to nine tuesdays and fridays so those are our hours":     "Open Tue Fri 18:30–21:00",
		"workshop open Thu 7-9.30pm":                                                                                   "Open Thu 19:00–21:30",
		"we are there mon to fri 8 till 4":                                                                             "Open Mon–Fri 08:00–16:00",
		"opening hours: mon 9-12, wed 14:00-18:00":                                                                     "Open Mon 09:00–12:00, Wed 14:00–18:00",
		"the barn is open 10am to 4pm on sundays":                                                                      "Open Sun 10:00–16:00",
		"we work tuesdays from half past five till eight":                                                              "Open Tue 17:30–20:00",
		"the shed is open saturdays 9 to noon and 1 to 5":                                                              "Open Sat 09:00–12:00 and 13:00–17:00",
		"we're in the shed every tuesday and thursday evening 7 to 9":                                                  "Open Tue Thu 19:00–21:00",
		"workshop is open weekends 10 to 4":                                                                            "Open Sat Sun 10:00–16:00",
		"shed open 9pm-11pm fridays":                                                                                   "Open Fri 21:00–23:00",
		"workshop open sundays between nine and noon":                                                                  "Open Sun 09:00–12:00",
		"workshop is open fridays 8 till midnight, all in the evening":                                                 "Open Fri 20:00–24:00",
		"shop's open half five while nine Monday to Thursday, and Saturday mornings eight while twelve":                "Open Mon–Thu 17:30–21:00, Sat 08:00–12:00",
		"workshop's open six while ten Tuesdays":                                                                       "Open Tue 18:00–22:00",
		"Shop's open Tues thru Thurs 5:30-9 pm":                                                                        "Open Tue–Thu 17:30–21:00",
		"we can use the shed Saturdays from ten o'clock until four o'clock":                                            "Open Sat 10:00–16:00",
		"They charge us 30 a month and there's 2 of us; the workshop is open Wednesdays seven till ten in the evening": "Open Wed 19:00–22:00",
		"the shed is open weekday evenings six to eight and saturdays nine to one":                                     "Open Mon–Fri 18:00–20:00, Sat 09:00–13:00",
	} {
		k := talking(t)
		k.wants(line, "hours", want)
	}
}

func TestOpeningTimesThatAreAsked(t *testing.T) {
	k := talking(t)
	k.wants("workshop open thursdays 7 to 9", "hours", "?", "morning or in the evening")
	k.wants("evening", "hours", "Open Thu 19:00–21:00")
	k.wants("workshop open fridays 18:00 to 17:00", "hours", "?", "ends before it begins")
	k.wants("workshop is open tuesdays from six", "hours", "Open Tue from 18:00")
	k.now = time.Date(2026, 3, 17, 12, 0, 0, 0, time.UTC) // a Tuesday
	k.wants("what fits tonight", "hours", "?", "Until when")
	k.wants("tuesdays six till nine", "hours", "Tue 18:00–21:00")
	k.wants("what fits tonight", "hours", "Today 18:00–21:00: 3 h")
}

func TestExceptionsToTheOpeningTimes(t *testing.T) {
	k := talking(t) // Wednesday 11 March
	k.says("we're in wednesdays and fridays 18:00 to 21:00")
	a := k.wants("no workshop this friday", "hours", "Fri 13 Mar closed", "Open Wed Fri 18:00–21:00 otherwise")
	k.changed(a, "setting add 2026-03-13")
	k.wants("open saturday too this week 10-2", "hours", "Sat 14 Mar open 10:00–14:00")
	k.wants("when are we in next?", "hours", "Open next: today 18:00–21:00", "Sat 14 Mar 10:00–14:00")
	k.wants("are we open on friday", "hours", "Closed on Fri 13 Mar", "Sat 14 Mar")
	k.now = k.now.AddDate(0, 0, 7)
	k.wants("are we open on friday", "hours", "Fri 20 Mar 18:00–21:00")
	k.wants("no friday from now on", "hours", "Open Wed 18:00–21:00")
	k.wants("undo", "undo", "Taken back: friday")
	k.wants("which days was that now", "hours", "Wed Fri")
	k.wants("staying till ten tonight", "hours", "Wed 18 Mar open 18:00–22:00")
	k.wants("workshop closed on 24 december", "hours", "Thu 24 Dec closed")
	k.wants("tomorrow the shed is shut", "hours", "Thu 19 Mar closed")
}

// What fits is closing less what it takes: 60 min in the clamps by the sheet.
func TestWhatFitsBeforeClosing(t *testing.T) {
	k := talking(t)
	k.says(sheet)
	k.says("workshop is open wednesdays 14:00 to 18:00, saturdays 9 to 1")
	a := k.wants("latest time to glue so the clamps are off before we close", "hours", "Glue by 17:00", "off by 18:00")
	if a.Times["latest"] != at("17:00") || a.Values["clamp_min"] != 60.0 {
		t.Errorf("times %v, values %v", a.Times, a.Values)
	}
	k.wants("how long have we got tonight", "hours", "3 h 40 min")
	k.wants("what's the latest we can glue the door on saturday with epoxy", "hours", "Glue by Sat 14 Mar 12:00")
	k.now = k.now.Add(3 * time.Hour)
	k.wants("what fits tonight", "hours", "40 min", "60 min in the clamps does not fit", "Sat 14 Mar 09:00–13:00")
	k.wants("latest time to glue so the clamps are off before we close", "hours", "too long", "40 min")
	k.wants("no clamps on overnight", "setting", "clamps overnight not allowed")
	k.wants("latest time to glue so the clamps are off before we close", "hours", "may not stay on overnight")
	k.wants("clamps may stay on overnight", "setting", "clamps overnight allowed")
	k.wants("can we still glue tonight", "hours", "ready when you are in next")
}
