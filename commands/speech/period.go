package speech

import (
	"strings"
	"time"
)

// Period finds a span of days in the past that the sentence names: today, yesterday, last
// week, on Saturday, 3 May. The items that name it are given as well. now decides what the
// words mean, in its time zone.
func (s Sentence) Period(now time.Time) (from, to time.Time, used []int, ok bool) {
	today := time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, now.Location())
	span := func(start time.Time, days int, items ...int) (time.Time, time.Time, []int, bool) {
		return start, start.AddDate(0, 0, days), items, true
	}
	monday := today.AddDate(0, 0, -(int(today.Weekday())+6)%7)
	for i, it := range s.Items {
		if q := it.Q; q != nil {
			if q.Kind == KindDate {
				return dated(q, today, i)
			}
			continue
		}
		w := it.Text
		switch {
		case w == "today" || w == "tonight", (w == "morning" || w == "afternoon" || w == "evening") && s.word(i-1) == "this":
			return span(today, 1, i)
		case w == "yesterday" || w == "yesterday's":
			if s.word(i-1) == "before" {
				return span(today.AddDate(0, 0, -2), 1, i, i-1, i-2)
			}
			return span(today.AddDate(0, 0, -1), 1, i)
		case w == "week" && s.word(i-1) == "last":
			return span(monday.AddDate(0, 0, -7), 7, i, i-1)
		case w == "week" && s.word(i-1) == "this":
			return span(monday, 7, i, i-1)
		case w == "weekend":
			saturday := monday.AddDate(0, 0, 5)
			if today.Before(saturday) || s.word(i-1) == "last" {
				saturday = saturday.AddDate(0, 0, -7)
			}
			return span(saturday, 2, i, i-1)
		case w == "month" && (s.word(i-1) == "last" || s.word(i-1) == "this"):
			first := time.Date(today.Year(), today.Month(), 1, 0, 0, 0, 0, today.Location())
			if s.word(i-1) == "last" {
				first = first.AddDate(0, -1, 0)
			}
			return first, first.AddDate(0, 1, 0), []int{i, i - 1}, true
		}
		if day, found := weekday(w); found {
			back := (int(today.Weekday()) - int(day) + 7) % 7
			if back == 0 && s.word(i-1) == "last" {
				back = 7
			}
			return span(today.AddDate(0, 0, -back), 1, i)
		}
	}
	return time.Time{}, time.Time{}, nil, false
}

// dated is a day with its month: the last one that is not in the future.
func dated(q *Quantity, today time.Time, i int) (time.Time, time.Time, []int, bool) {
	month, day := int(q.High.Num().Int64()), int(q.Value.Num().Int64())
	d := time.Date(today.Year(), time.Month(month), day, 0, 0, 0, 0, today.Location())
	if int(d.Month()) != month {
		return time.Time{}, time.Time{}, nil, false
	}
	if d.After(today) {
		d = d.AddDate(-1, 0, 0)
	}
	return d, d.AddDate(0, 0, 1), []int{i}, true
}

// weekday knows the days by their names and their usual short forms.
func weekday(w string) (time.Weekday, bool) {
	w = strings.TrimSuffix(strings.TrimSuffix(w, "'s"), "s")
	for d := time.Sunday; d <= time.Saturday; d++ {
		name := strings.ToLower(d.String())
		if w == name || w == name[:3] || (w == "tue" || w == "wedne" || w == "thur" || w == "thu" || w == "tues" || w == "weds") && strings.HasPrefix(name, w[:3]) {
			return d, true
		}
	}
	return 0, false
}

// Weekday knows the days of the week by their names and short forms, and whether every one of
// them is meant: mondays.
func Weekday(word string) (day time.Weekday, every, ok bool) {
	day, ok = weekday(word)
	return day, strings.HasSuffix(word, "days"), ok
}
