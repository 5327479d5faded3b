package mattermost_test

import (
	"net/http"
	"testing"
	"time"

	"fettle/bot/mattermost"

	"github.com/mattermost/mattermost/server/public/model"
	"pgregory.net/rapid"
)

func TestQuietFor(t *testing.T) {
	now := time.Date(2026, 3, 7, 9, 0, 0, 0, time.UTC)
	for _, row := range []struct {
		name, value string
		want        time.Duration
	}{
		{"Retry-After", "7", 7 * time.Second},
		{"Retry-After", now.Add(20 * time.Second).Format(http.TimeFormat), 20 * time.Second},
		{"X-RateLimit-Reset", "3", 3 * time.Second},
		{"X-RateLimit-Reset", "1772874005", 5 * time.Second}, // 2026-03-07 09:00:05 UTC
		{"Retry-After", "soon", time.Second},
		{"Retry-After", "-5", 100 * time.Millisecond},
		{"Retry-After", "99999999999", 5 * time.Minute},
		{"X-Other", "", time.Second},
	} {
		header := http.Header{}
		header.Set(row.name, row.value)
		if got := mattermost.QuietFor(header, now); got != row.want {
			t.Errorf("QuietFor(%s: %s) = %s, want %s", row.name, row.value, got, row.want)
		}
	}
}

// After any crash, reading again from the last mark brings every post that was not handled.
func TestMarksNeverPassWhatIsStillToCome(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		read := rapid.Int64Range(0, 50).Draw(t, "read")
		var posts []*model.Post
		for range rapid.IntRange(1, 20).Draw(t, "posts") {
			posts = append(posts, &model.Post{UpdateAt: rapid.Int64Range(read+1, 200).Draw(t, "updated")})
		}
		marks := mattermost.Marks(posts, read)
		latest := read
		for i, mark := range marks {
			if mark < latest {
				t.Errorf("mark %d goes back from %d to %d", i, latest, mark)
			}
			latest = mark
			for _, post := range posts[i+1:] {
				if post.UpdateAt <= mark {
					t.Errorf("mark %d is %d, but a post of %d comes after it", i, mark, post.UpdateAt)
				}
			}
		}
		for _, post := range posts {
			if post.UpdateAt > latest {
				t.Errorf("the last mark is %d, before %d", latest, post.UpdateAt)
			}
		}
	})
}

func TestAnchorInLeavesNoMillisecondHalfRead(t *testing.T) {
	page := []*model.Post{{Id: "a", CreateAt: 5}, {Id: "b", CreateAt: 5}, {Id: "c", CreateAt: 6}, {Id: "d", CreateAt: 7}}
	if got := mattermost.AnchorIn(page); got != "c" {
		t.Errorf("AnchorIn = %s, want c: what is before c holds all of millisecond 5", got)
	}
}
