package store_test

import (
	"cmp"
	"slices"
	"testing"
	"time"

	"fettle/store"
)

// What was said at a place or about a project, page by page and since: every entry once, in order,
// and nothing of other talk.
func TestTalkPageByPage(t *testing.T) {
	s := fresh(t)
	hut, other := projectOf(t, s, "Hut"), projectOf(t, s, "Doors")
	var ours, all []int64
	for i := range 20 {
		e := store.Entry{Project: hut, Place: "room:1", Kind: store.Message, Text: "words"}
		switch i % 4 {
		case 1:
			e.Place = "mattermost:x" // the same project elsewhere
		case 2:
			e.Project = other // the same place, another project
		case 3:
			e.Project, e.Place = other, "room:2"
		}
		id := say(t, s, e)
		if all = append(all, id); i%4 != 3 {
			ours = append(ours, id)
		}
	}
	edit := say(t, s, store.Entry{Project: hut, Place: "room:1", Kind: store.Edit, About: ours[0], Text: "other words"})
	read(t, s, func(tx *store.Tx) error {
		var paged []int64
		for before := int64(0); ; {
			page, err := tx.Talk("room:1", hut, before, 4)
			if err != nil {
				return err
			}
			if len(page) == 0 {
				break
			}
			for _, e := range page {
				paged = append(paged, e.ID)
			}
			before = page[len(page)-1].ID
		}
		slices.Reverse(paged)
		if !slices.Equal(paged, ours) {
			t.Errorf("paged through %v, want %v", paged, ours)
		}
		since, err := tx.TalkSince("room:1", hut, ours[13], 100)
		if err != nil {
			return err
		}
		var ids []int64
		for _, e := range since {
			ids = append(ids, e.ID)
		}
		if want := append(slices.Clone(ours[14:]), edit); !slices.Equal(ids, want) {
			t.Errorf("since the 14th %v, want %v", ids, want)
		}
		last, err := tx.LastEntry()
		if last != edit || last <= all[len(all)-1] {
			t.Errorf("newest entry %d, want %d", last, edit)
		}
		return err
	})
}

// Who spoke at a place lately: nobody from before, from elsewhere, or who was only answered.
func TestTalkers(t *testing.T) {
	s := fresh(t)
	hut := projectOf(t, s, "Hut")
	now := time.Date(2026, 3, 7, 15, 0, 0, 0, time.UTC)
	for _, e := range []store.Entry{
		{Place: "room:1", WhoKey: "odin", At: now.AddDate(0, 0, -30)}, {Place: "room:1", WhoKey: "gil", At: now.AddDate(0, 0, -2)},
		{Place: "room:2", WhoKey: "ines", At: now}, {Place: "room:1", WhoKey: "petra", At: now}, {Place: "room:1", WhoKey: "gil", At: now},
		{Place: "room:1", WhoKey: "fettle", At: now, Kind: store.Answer},
	} {
		e.Project, e.Kind = hut, cmp.Or(e.Kind, store.Message)
		say(t, s, e)
	}
	for last, want := range map[int][]string{100: {"gil", "petra"}, 1: {"gil"}} {
		read(t, s, func(tx *store.Tx) error {
			got, err := tx.Talkers("room:1", now.AddDate(0, 0, -7), last)
			slices.Sort(got)
			if !slices.Equal(got, want) {
				t.Errorf("of the last %d messages %v spoke, want %v", last, got, want)
			}
			return err
		})
	}
}
