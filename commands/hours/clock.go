// Package hours is the arithmetic of opening times: which days and times of day a workshop is
// open, with exceptions, and what that means on the calendar. It knows no clock of its own.
package hours

import (
	"fmt"
	"time"
)

// Clock is a time of day in minutes after midnight, 0 to 1440; 1440 is the midnight that ends
// the day.
type Clock int

// Midnight ends a day.
const Midnight Clock = 24 * 60

// String writes the time as on a 24-hour clock: 18:30.
func (c Clock) String() string { return fmt.Sprintf("%02d:%02d", int(c)/60, int(c)%60) }

// MarshalText writes the time as String does.
func (c Clock) MarshalText() ([]byte, error) { return []byte(c.String()), nil }

// UnmarshalText reads what MarshalText wrote; anything else is an error.
func (c *Clock) UnmarshalText(text []byte) error {
	var h, m int
	if n, err := fmt.Sscanf(string(text), "%d:%d", &h, &m); err != nil || n != 2 || h < 0 || m < 0 || m > 59 || h*60+m > int(Midnight) {
		return fmt.Errorf("read time of day %q: not hours and minutes", text)
	}
	*c = Clock(h*60 + m)
	return nil
}

// On gives the moment of a day, in the day's zone, at which clocks on the wall show the time.
// Where the clocks skip it, it is as far into the day as time.Date puts it.
func (c Clock) On(day time.Time) time.Time {
	return time.Date(day.Year(), day.Month(), day.Day(), 0, int(c), 0, 0, day.Location())
}

// Span is a stretch of a day. A To of 0 was not said.
type Span struct {
	From Clock `json:"from"`
	To   Clock `json:"to,omitempty"`
}

// String writes the span as people read it.
func (s Span) String() string {
	if s.To == 0 {
		return "from " + s.From.String()
	}
	return s.From.String() + "–" + s.To.String()
}

// Sound says whether the span ends after it begins, or has no end said, within one day.
func (s Span) Sound() bool {
	return s.From >= 0 && s.From < Midnight && (s.To == 0 || s.From < s.To && s.To <= Midnight)
}
