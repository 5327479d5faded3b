package bot_test

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"

	"fettle/bot"
	"fettle/store"
)

var noon = time.Date(2026, 3, 7, 12, 0, 0, 0, time.UTC)

// workshop is a desk on a database of its own, with a channel that two people write in.
type workshop struct {
	*testing.T
	desk *bot.Desk
	db   *store.Store
	n    int
	last string // the id under which the last answer was sent
}

func open(t *testing.T) *workshop {
	t.Helper()
	db, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "hut.db"), func() time.Time { return noon })
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	return &workshop{T: t, db: db, desk: bot.NewDesk(db, func() time.Time { return noon.Add(time.Hour) }, time.UTC, slog.New(slog.NewTextHandler(io.Discard, nil)))}
}

// message makes a message in the channel; the marks "@" and "/" before the text mean that the
// bot is mentioned and that it is in the thread "root".
func (w *workshop) message(who, text string) bot.Message {
	w.n++
	m := bot.Message{Key: fmt.Sprintf("test:%d", w.n), Place: "test:hut", Project: "hut", WhoKey: strings.ToLower(who), Who: who,
		At: noon.Add(time.Duration(w.n) * time.Second), Cursor: int64(w.n)}
	if rest, ok := strings.CutPrefix(text, "/"); ok {
		m.Thread, text = "root", rest
	}
	if rest, ok := strings.CutPrefix(text, "@"); ok {
		m.Mentioned, text = true, rest
	}
	m.Text = text
	return m
}

func (w *workshop) hear(m bot.Message) {
	w.Helper()
	if err := w.desk.Hear(context.Background(), m); err != nil {
		w.Fatalf("Hear(%q): %v", m.Text, err)
	}
}

// say has somebody write, and gives the answer that went out, or "".
func (w *workshop) say(who, text string) string {
	w.Helper()
	w.hear(w.message(who, text))
	return w.sent()
}

// sent takes what waits to be sent, as the adapter does.
func (w *workshop) sent() string {
	w.Helper()
	out, err := w.desk.Pending(context.Background(), "")
	if err != nil {
		w.Fatal(err)
	}
	var texts []string
	for _, o := range out {
		texts, w.last = append(texts, o.Text), fmt.Sprintf("post-%d", o.ID)
		if err := w.desk.Sent(context.Background(), o.ID, w.last); err != nil {
			w.Fatal(err)
		}
	}
	return strings.Join(texts, "\n---\n")
}

func (w *workshop) wants(got, want string) {
	w.Helper()
	if want == "" && got != "" || !strings.Contains(got, want) {
		w.Errorf("answered %q, want %q in it", got, want)
	}
}

func TestAnswersOnlyWhenAddressed(t *testing.T) {
	w := open(t)
	w.wants(w.say("Petra", "rough size for 600 by 45 finished"), "")
	w.wants(w.say("Petra", "@rough size for 600 by 45 finished"), "700 × 65 mm")
	w.wants(w.say("Gil", "@what did we do today"), "rough size for 600 by 45")
	if log := w.say("Gil", "@show the log"); strings.Count(log, "600 by 45") != 1 {
		t.Errorf("the log holds what nobody said to the bot: %q", log)
	}
}

// A place without a memory of its own has everything kept, and answered no sooner than elsewhere.
func TestKeepsWhatNobodyElseKeeps(t *testing.T) {
	w := open(t)
	m := w.message("Petra", "rough size for 600 by 45 finished")
	m.Kept = true
	w.hear(m)
	w.wants(w.sent(), "")
	w.wants(w.say("Gil", "@show me the log for rough"), "600 by 45")
}

func TestListensWhereAsked(t *testing.T) {
	w := open(t)
	w.wants(w.say("Petra", "@listen here"), "Listening here")
	w.wants(w.say("Petra", "rough size for 600 by 45 finished"), "700 × 65 mm")
	for _, chatter := range []string{"kettle's on", "see you at 6", "2 of us", "back in 10", "mum's 60 on the 14th, cake at 3", "1150", "ok thanks", "that one looks good at 40"} {
		w.wants(w.say("Gil", chatter), "")
	}
	w.wants(w.say("Gil", "@show me the log for the kettle"), "kettle")
	w.wants(w.say("Gil", "@stop listening"), "only when I am asked")
	w.wants(w.say("Petra", "rough size for 600 by 45 finished"), "")
}

func TestFollowsUpInAThreadThatItAnsweredIn(t *testing.T) {
	w := open(t)
	w.wants(w.say("Petra", "/rough size for 600 by 45 finished"), "")
	w.wants(w.say("Petra", "/@rough size for 600 by 45 finished"), "700 × 65 mm")
	w.wants(w.say("Petra", "/and at 32 thick?"), "700 × 65 × 40 mm")
	w.wants(w.say("Petra", "/nice one"), "")
}

func TestEachMessageOnce(t *testing.T) {
	w := open(t)
	m := w.message("Petra", "@kerf is 2.8")
	for range 3 {
		w.hear(m)
	}
	w.wants(w.sent(), "2.8 mm")
	w.hear(m)
	w.wants(w.sent(), "")
}

func TestAnAnswerWaitsUntilItIsSent(t *testing.T) {
	w := open(t)
	w.hear(w.message("Petra", "@open time for epoxy at 18"))
	first, err := w.desk.Pending(context.Background(), "test:hut")
	if err != nil || len(first) != 1 {
		t.Fatalf("waiting: %v, %v", first, err)
	}
	again, err := w.desk.Pending(context.Background(), "")
	if err != nil || len(again) != 1 || !reflect.DeepEqual(again[0], first[0]) {
		t.Fatalf("waiting again: %v, %v, want %v", again, err, first)
	}
	at, err := w.desk.Places(context.Background(), "test:")
	if err != nil || at["test:hut"] != 1 {
		t.Fatalf("read up to %v, %v, want 1", at, err)
	}
}

func TestAnEditReplacesWhatItSaid(t *testing.T) {
	w := open(t)
	m := w.message("Petra", "@kerf is 2.8")
	w.hear(m)
	w.wants(w.sent(), "2.8 mm")
	m.Text, m.Cursor = "kerf is 3.2", 50
	for range 2 { // the second time it is the same text
		if err := w.desk.Amend(context.Background(), m); err != nil {
			t.Fatal(err)
		}
	}
	out, err := w.desk.Pending(context.Background(), "")
	if err != nil || len(out) != 1 {
		t.Fatalf("waiting: %v, %v, want one answer", out, err)
	}
	if !strings.HasPrefix(out[0].Amends, "post-") || !strings.Contains(out[0].Text, "3.2 mm") || !strings.Contains(out[0].Text, "amended") {
		t.Errorf("the answer is not amended in place: %+v", out[0])
	}
	w.sent()
	w.wants(w.say("Gil", "@what's the kerf"), "3.2 mm")
	w.wants(w.say("Petra", "@undo"), "Taken back")
	w.wants(w.say("Gil", "@what's the kerf"), "3 mm (default)")
}

func TestAnEditKeepsItsPlaceInTheConversation(t *testing.T) {
	w := open(t)
	w.wants(w.say("Petra", "@rough size for 600 by 45 by 22"), "700 × 65 × 27 mm")
	m := w.message("Petra", "@and at 32 thick")
	w.hear(m)
	w.wants(w.sent(), "700 × 65 × 40 mm")
	w.wants(w.say("Petra", "@5 holes along 880, 40 in from each end"), "200 mm centres")
	m.Text = "and at 40 thick"
	if err := w.desk.Amend(context.Background(), m); err != nil {
		t.Fatal(err)
	}
	w.wants(w.sent(), "700 × 65 × 50 mm")
}

func TestAnEditDoesNotTrampleOnOthers(t *testing.T) {
	w := open(t)
	m := w.message("Petra", "@kerf is 2.8")
	w.hear(m)
	w.sent()
	w.wants(w.say("Gil", "@kerf is 3.5"), "3.5 mm")
	m.Text = "kerf is 2.9"
	if err := w.desk.Amend(context.Background(), m); err != nil {
		t.Fatal(err)
	}
	w.wants(w.sent(), "changed again since")
	w.wants(w.say("Gil", "@what's the kerf"), "3.5 mm")
}

func TestADeletedMessageStands(t *testing.T) {
	w := open(t)
	m := w.message("Petra", "@note: the hinge side is the left one")
	w.hear(m)
	w.sent()
	m.Text = ""
	for range 2 {
		if err := w.desk.Withdraw(context.Background(), m); err != nil {
			t.Fatal(err)
		}
	}
	got := w.sent()
	w.wants(got, "scratch that")
	if strings.Count(got, "scratch that") != 1 {
		t.Errorf("said more than once: %q", got)
	}
	w.wants(w.say("Gil", "@show the notes"), "hinge side")
	w.wants(w.say("Petra", "@scratch that"), "Taken back")
	w.wants(w.say("Gil", "@show the notes"), "No notes")
}

func TestTwoPeopleDoNotFinishEachOthersQuestion(t *testing.T) {
	w := open(t)
	w.wants(w.say("Petra", "@rough size 74.2 x 3.8 x 1.6"), "which unit")
	w.wants(w.say("Gil", "@5 holes along 880, 40 in from each end"), "200 mm")
	w.wants(w.say("Petra", "@cm"), "842")
}

func TestAQuestionClosesAfterHalfAnHour(t *testing.T) {
	w := open(t)
	w.wants(w.say("Petra", "@rough size 74.2 x 3.8 x 1.6"), "which unit")
	m := w.message("Petra", "@cm")
	m.At = noon.Add(31 * time.Minute)
	w.hear(m)
	w.wants(w.sent(), "didn't get that")
}

func TestLateAnswersSaySo(t *testing.T) {
	w := open(t)
	m := w.message("Petra", "@rough size for 600 by 45")
	m.Late = true
	w.hear(m)
	w.wants(w.sent(), "Late: this was asked Sat 7 Mar 12:00")
}

func TestWordsOfPeopleGoOutHarmless(t *testing.T) {
	w := open(t)
	for _, text := range []string{"@note: @all **@channel** <b>x</b> | a [x](http://y) #tag `@here`", "@start a project called @all | x", "@switch to @everyone", "@show the notes", "@what happened today", "@undo"} {
		got := w.say("Petra", text)
		if strings.ContainsAny(got, "@<>") || strings.Contains(strings.ReplaceAll(got, `\|`, ""), "| a") || strings.Contains(got, "[x](") {
			t.Errorf("%q is answered with active words: %q", text, got)
		}
	}
}

// TestManyAtOnce has two people write at the same moment: nothing is lost.
func TestManyAtOnce(t *testing.T) {
	w := open(t)
	var group sync.WaitGroup
	for i := range 60 {
		who := []string{"Petra", "Gil"}[i%2]
		m := w.message(who, fmt.Sprintf("@note: number %d", i))
		group.Go(func() {
			if err := w.desk.Hear(context.Background(), m); err != nil {
				t.Error(err)
			}
		})
	}
	group.Wait()
	w.sent()
	w.wants(w.say("Petra", "@show the notes"), "60 notes")
}
