// Package demo plays a week of an example project through the desk, as its two people said it.
package demo

import (
	"bufio"
	"context"
	_ "embed"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"

	"fettle/bot"
)

//go:embed week.txt
var week string

// Desk is who is told what they say.
type Desk interface {
	Hear(context.Context, bot.Message) error
}

// line is "DAYS TIME WHO> TEXT". A time with a sign is hours before now.
var line = regexp.MustCompile(`^(-?\d+) (-?)(\d+):(\d\d) (\w+)> (.+)$`)

// Play has the week said in a place, as it would have been up to now in the zone. It fails where
// the desk does.
func Play(ctx context.Context, desk Desk, place, project string, now time.Time, zone *time.Location) error {
	lines := bufio.NewScanner(strings.NewReader(week))
	for n := 1; lines.Scan(); n++ {
		m := line.FindStringSubmatch(lines.Text())
		if m == nil {
			continue // a remark
		}
		err := desk.Hear(ctx, bot.Message{Key: "demo:" + strconv.Itoa(n), Place: place, Project: project,
			WhoKey: strings.ToLower(m[5]), Who: m[5], Text: m[6], At: at(m, now.In(zone)), Kept: true})
		if err != nil {
			return fmt.Errorf("play line %d of the week: %w", n, err)
		}
	}
	return lines.Err()
}

// at is when a line was said. What was said today stays before now.
func at(m []string, now time.Time) time.Time {
	days, _ := strconv.Atoi(m[1]) // the pattern lets digits through alone
	hours, _ := strconv.Atoi(m[3])
	minutes, _ := strconv.Atoi(m[4])
	if m[2] != "" {
		return now.Add(-time.Duration(hours)*time.Hour - time.Duration(minutes)*time.Minute)
	}
	return time.Date(now.Year(), now.Month(), now.Day()+days, hours, minutes, 0, 0, now.Location())
}
