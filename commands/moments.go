package commands

import (
	"fmt"
	"time"

	"fettle/calc/measure"
	"fettle/commands/hours"
)

// minutes makes a waiting time of minutes, rounded up to the next whole one.
func minutes(min float64) time.Duration {
	d := time.Duration(min * float64(time.Minute))
	return (d + time.Minute - 1).Truncate(time.Minute)
}

// durationText prints a stretch of time to the minute, rounded down.
func durationText(d time.Duration) string {
	m := int(d / time.Minute)
	switch {
	case m < 60:
		return fmt.Sprintf("%d min", m)
	case m%60 == 0 && m < 48*60:
		return fmt.Sprintf("%d h", m/60)
	case m < 48*60:
		return fmt.Sprintf("%d h %d min", m/60, m%60)
	}
	return measure.Decimal(float64(m/720)/2, 1) + " days"
}

// clockText names a moment by its time, and by its day where that is not today.
func (a *Ask) clockText(t time.Time) string {
	t = t.In(a.Now.Location())
	switch hours.DateName(t) {
	case hours.DateName(a.Now):
		return t.Format("15:04")
	case hours.DateName(a.Now.AddDate(0, 0, 1)):
		return t.Format("15:04") + " tomorrow"
	case hours.DateName(a.Now.AddDate(0, 0, -1)):
		return t.Format("15:04") + " yesterday"
	}
	return t.Format("Mon 2 Jan 15:04")
}
