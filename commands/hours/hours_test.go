package hours_test

import (
	"encoding/json"
	"slices"
	"testing"
	"time"
	_ "time/tzdata"

	"pgregory.net/rapid"

	"fettle/commands/hours"
)

// zones change their clocks in different ways: by an hour, by half an hour, at midnight, never.
var zones = []string{"UTC", "Europe/Vienna", "America/New_York", "Australia/Lord_Howe", "America/Santiago", "Asia/Kathmandu", "Pacific/Apia"}

func anyZone(t *rapid.T) *time.Location {
	z, err := time.LoadLocation(rapid.SampledFrom(zones).Draw(t, "zone"))
	if err != nil {
		t.Fatal(err)
	}
	return z
}

func anySpan(t *rapid.T) hours.Span {
	from := rapid.IntRange(0, int(hours.Midnight)-1).Draw(t, "from")
	to := 0
	if rapid.IntRange(0, 4).Draw(t, "end said") > 0 {
		to = rapid.IntRange(from+1, int(hours.Midnight)).Draw(t, "to")
	}
	return hours.Span{From: hours.Clock(from), To: hours.Clock(to)}
}

func anyWeek(t *rapid.T, around time.Time) hours.Week {
	w := hours.Week{Dates: map[string][]hours.Span{}}
	spans := func(most int) (out []hours.Span) {
		for range rapid.IntRange(0, most).Draw(t, "spans") {
			out = append(out, anySpan(t))
		}
		return out
	}
	for d := range w.Days {
		w.Days[d] = spans(2)
	}
	for range rapid.IntRange(0, 4).Draw(t, "exceptions") {
		w.Dates[hours.DateName(around.AddDate(0, 0, rapid.IntRange(0, 14).Draw(t, "day")))] = spans(2)
	}
	return w
}

func anyMoment(t *rapid.T) time.Time {
	from := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC).Unix()
	return time.Unix(from+rapid.Int64Range(0, 2*366*24*3600).Draw(t, "second"), 0).In(anyZone(t))
}

// The next opening is not over, and no opening lies before it: looked at minute by minute over
// the days between, the workshop is closed until it begins.
func TestNextIsTheFirst(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		now := anyMoment(t)
		w := anyWeek(t, now)
		next, ok := w.Next(now)
		if !ok {
			if !w.Empty() && slices.ContainsFunc(w.Days[:], func(d []hours.Span) bool { return len(d) > 0 }) {
				t.Fatalf("nothing found at %s in %+v", now, w)
			}
			return
		}
		end := next.To
		if end.IsZero() {
			end = hours.Midnight.On(next.From)
		}
		if !end.After(now) {
			t.Fatalf("%v–%v is over at %v", next.From, next.To, now)
		}
		for at := now; at.Before(next.From); at = at.Add(17 * time.Minute) {
			for _, win := range w.On(at) {
				if win.Holds(at) {
					t.Fatalf("open at %v already: %v–%v, before %v", at, win.From, win.To, next.From)
				}
			}
		}
	})
}

// Whatever the clocks do that day, an opening begins and ends when clocks on the wall say so,
// unless they skip that very time, and it never ends before it begins.
func TestOpeningsGoByTheClockOnTheWall(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		day := anyMoment(t)
		s := anySpan(t)
		w := hours.Week{}
		w.Days[day.Weekday()] = []hours.Span{s}
		for _, win := range w.On(day) {
			for _, c := range []struct {
				at   time.Time
				want hours.Clock
			}{{win.From, s.From}, {win.To, s.To}} {
				if c.at.IsZero() {
					continue
				}
				shown := hours.Clock(c.at.Hour()*60 + c.at.Minute())
				skipped := !time.Date(day.Year(), day.Month(), day.Day(), 0, int(c.want), 0, 0, time.UTC).Equal(wall(c.at))
				if shown != c.want%hours.Midnight && !skipped {
					t.Fatalf("%v shows %v, want %v", c.at, shown, c.want)
				}
				if skipped && !changes(day) {
					t.Fatalf("%v shows %v, want %v, on a day on which no clock is changed", c.at, shown, c.want)
				}
			}
			if !win.To.IsZero() && !win.From.Before(win.To) {
				t.Fatalf("ends before it begins: %v–%v", win.From, win.To)
			}
		}
	})
}

// wall is what the clock shows, as if there were no zones.
func wall(t time.Time) time.Time {
	return time.Date(t.Year(), t.Month(), t.Day(), t.Hour(), t.Minute(), 0, 0, time.UTC)
}

// changes says whether the clocks are changed on a day.
func changes(day time.Time) bool {
	_, before := time.Date(day.Year(), day.Month(), day.Day(), 0, 0, 0, 0, day.Location()).Add(-time.Minute).Zone()
	_, after := time.Date(day.Year(), day.Month(), day.Day()+1, 0, 0, 0, 0, day.Location()).Add(time.Minute).Zone()
	return before != after
}

// What begins at the latest moment is over exactly when the workshop closes: a minute later
// would be too late, and real time is counted, also where the clocks are changed between.
func TestLatestIsOverAtTheEnd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		day := anyMoment(t)
		s := anySpan(t)
		w := hours.Week{}
		w.Days[day.Weekday()] = []hours.Span{s}
		takes := time.Duration(rapid.IntRange(1, 26*60).Draw(t, "minutes")) * time.Minute
		for _, win := range w.On(day) {
			at, ok := win.Latest(takes, win.From)
			switch {
			case win.To.IsZero() && ok:
				t.Fatal("a latest moment before an end that nobody said")
			case ok && !at.Add(takes).Equal(win.To):
				t.Fatalf("begun at %v it ends at %v, not at %v", at, at.Add(takes), win.To)
			case ok && at.Before(win.From), !ok && !win.To.IsZero() && win.To.Sub(win.From) >= takes:
				t.Fatalf("%v into %v–%v: %v, %v", takes, win.From, win.To, at, ok)
			}
		}
	})
}

// The night in which clocks go forward in Vienna has 23 hours (EU directive 2000/84/EC: the last
// Sunday in March at 01:00 UTC).
func TestASpringNightIsShort(t *testing.T) {
	z, err := time.LoadLocation("Europe/Vienna")
	if err != nil {
		t.Fatal(err)
	}
	w := hours.Week{}
	w.Days[time.Sunday] = []hours.Span{{From: 0, To: 6 * 60}}
	win, ok := w.Next(time.Date(2026, 3, 28, 12, 0, 0, 0, z))
	if left, said := win.Left(win.From); !ok || !said || left != 5*time.Hour {
		t.Errorf("midnight to six lasts %v, want 5 h", left)
	}
}

func TestExceptionsBeatTheWeek(t *testing.T) {
	w := hours.Week{Dates: map[string][]hours.Span{"2026-11-27": {}, "2026-11-28": {{From: 10 * 60, To: 14 * 60}}}}
	w.Days[time.Friday] = []hours.Span{{From: 18 * 60, To: 21 * 60}}
	thursday := time.Date(2026, 11, 26, 12, 0, 0, 0, time.UTC)
	first, _ := w.Next(thursday)
	if want := time.Date(2026, 11, 28, 10, 0, 0, 0, time.UTC); !first.From.Equal(want) {
		t.Errorf("open next at %v, want %v", first.From, want)
	}
	second, _ := w.After(first.From)
	if want := time.Date(2026, 12, 4, 18, 0, 0, 0, time.UTC); !second.From.Equal(want) {
		t.Errorf("and then at %v, want %v", second.From, want)
	}
}

func TestClocksAreKeptAsTheyAreRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		was := anySpan(t)
		data, err := json.Marshal(was)
		if err != nil {
			t.Fatal(err)
		}
		var is hours.Span
		if err := json.Unmarshal(data, &is); err != nil || is != was {
			t.Fatalf("%v was kept as %s and came back as %v (%v)", was, data, is, err)
		}
	})
	var c hours.Clock
	for _, bad := range []string{"", "25:00", "12:60", "-1:30", "six", "24:01"} {
		if c.UnmarshalText([]byte(bad)) == nil {
			t.Errorf("%q was read as %v", bad, c)
		}
	}
}
