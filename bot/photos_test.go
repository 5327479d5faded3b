package bot_test

import (
	"context"
	"strings"
	"testing"
	"time"

	"fettle/store"
)

// shoots has somebody post a photo in a room, which keeps whatever is said there.
func (w *workshop) shoots(who, text, name string, at time.Time) {
	w.Helper()
	m := w.message(who, text)
	m.At, m.Kept = at, true
	m.Files = []store.File{{Name: name, Media: "image/jpeg", Ref: "test:" + name}}
	w.hear(m)
	w.sent()
}

// Photos are found by what was said with them, by whom, when, and by the part that they are of.
func TestPhotosAreFound(t *testing.T) {
	w := open(t)
	sunday, monday := noon.AddDate(0, 0, -6), noon.AddDate(0, 0, -5) // Sun 1 and Mon 2 March
	w.say("Petra", "@add 1 top rail 612 x 92 x 40 and 2 stiles 1720 x 92 x 40")
	w.wants(w.say("Petra", "@show the photos"), "No photos")
	w.shoots("Petra", "the sill is rotten at the left", "sill.jpg", sunday)
	w.shoots("Gil", "split in the top rail", "split.jpg", monday)
	w.shoots("Gil", "(a photo)", "hut.jpg", monday.Add(time.Hour))
	w.shoots("Petra", "", "stove.jpg", monday.Add(2*time.Hour))
	w.shoots("Gil", "@note: the stile wants a new tenon", "stile.jpg", noon)

	for asked, want := range map[string][]string{
		"@show the photos":                          {"5 photos", "sill.jpg", "split.jpg", "hut.jpg", "stove.jpg", "stile.jpg"},
		"@photos of the sill":                       {"1 photo", "Sun 1 Mar 12:00 Petra: the sill is rotten at the left", `\[sill.jpg\]`},
		"@any pictures of the top rail?":            {"1 photo", "Mon 2 Mar 12:00 Gil: split in the top rail \\[split.jpg\\]"},
		"@pictures from sunday":                     {"1 photo on Sun 1 Mar", "sill.jpg"},
		"@photos by gil":                            {"3 photos", "split.jpg", "hut.jpg", "stile.jpg"},
		"@what photos have we got from last monday": {"3 photos", "split.jpg", "stove.jpg"},
		"@pics":                           {"5 photos"},
		"@photos of the kettle":           {"No photos"},
		"@show me the photo of the stile": {"1 photo", "note: the stile wants a new tenon"},
	} {
		got := w.say("Petra", asked)
		for _, s := range want {
			w.wants(got, s)
		}
		for _, name := range []string{"sill.jpg", "split.jpg", "hut.jpg", "stove.jpg", "stile.jpg"} {
			if len(want) > 1 && want[0] != "5 photos" && want[0] != "3 photos" && strings.Contains(got, name) && !strings.Contains(strings.Join(want, " "), name) && name != "stile.jpg" {
				t.Errorf("%q shows %s: %s", asked, name, got)
			}
		}
	}
	story := w.say("Petra", "@what happened to the top rail")
	w.wants(story, "Photos:\n- Mon 2 Mar 12:00 Gil: split in the top rail \\[split.jpg\\]")
	if strings.Contains(story, "sill.jpg") {
		t.Errorf("the story shows a photo of something else: %s", story)
	}
}

// A photo without words goes with what the same person said a moment before or after.
func TestAPhotoGoesWithTheWordsBesideIt(t *testing.T) {
	w := open(t)
	w.say("Petra", "@add 1 top rail 612 x 92 x 40")
	say := func(who, text string, at time.Time) {
		m := w.message(who, text)
		m.At, m.Kept = at, true
		w.hear(m)
	}
	say("Gil", "this is the door", noon.Add(-time.Minute))
	w.shoots("Petra", "(a photo)", "knot.jpg", noon.Add(-time.Minute))
	say("Petra", "a knot has come out of the top rail", noon.Add(-time.Minute+20*time.Second))
	say("Petra", "soup's on", noon.Add(2*time.Minute))
	w.wants(w.say("Gil", "@photos of the top rail"), "Petra, beside “a knot has come out of the top rail” \\[knot.jpg\\]")
	w.wants(w.say("Gil", "@photos of the door"), "No photos")
	w.wants(w.say("Gil", "@what happened to the top rail"), "knot.jpg")
}

// A photo of a message that was taken back is not shown; one of an edited message has its new words.
func TestPhotosThatWereTakenBack(t *testing.T) {
	w := open(t)
	m := w.message("Petra", "the sil")
	m.Kept, m.Files = true, []store.File{{Name: "sill.jpg", Media: "image/jpeg", Ref: "test:sill.jpg"}}
	w.hear(m)
	m.Text, m.Files = "the sill", nil
	if err := w.desk.Amend(context.Background(), m); err != nil {
		t.Fatal(err)
	}
	w.wants(w.say("Gil", "@photos of the sill"), "the sill \\[sill.jpg\\]")
	m.Text = ""
	if err := w.desk.Withdraw(context.Background(), m); err != nil {
		t.Fatal(err)
	}
	w.wants(w.say("Gil", "@show the photos"), "No photos")
}
