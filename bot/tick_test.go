package bot_test

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fettle/bot"
	"fettle/store"
)

// clocked is a desk whose clock stands where the test puts it, and that can be started anew on
// the same file.
type clocked struct {
	*testing.T
	path string
	db   *store.Store
	desk *bot.Desk
	now  time.Time
	n    int
}

func clockedDesk(t *testing.T) *clocked {
	c := &clocked{T: t, path: filepath.Join(t.TempDir(), "hut.db"), now: noon}
	c.start()
	t.Cleanup(func() { c.db.Close() })
	return c
}

func (c *clocked) start() {
	c.Helper()
	db, err := store.Open(context.Background(), c.path, func() time.Time { return c.now })
	if err != nil {
		c.Fatal(err)
	}
	c.db, c.desk = db, bot.NewDesk(db, func() time.Time { return c.now }, time.UTC, slog.New(slog.NewTextHandler(io.Discard, nil)))
}

func (c *clocked) restart() {
	c.Helper()
	if err := c.db.Close(); err != nil {
		c.Fatal(err)
	}
	c.start()
}

// say has somebody speak to the bot, and gives what went out.
func (c *clocked) say(who, text string) string {
	c.Helper()
	c.n++
	err := c.desk.Hear(context.Background(), bot.Message{Key: fmt.Sprintf("test:%d", c.n), Place: "test:hut", Project: "hut",
		WhoKey: strings.ToLower(who), Who: who, Text: text, At: c.now, Direct: true})
	if err != nil {
		c.Fatal(err)
	}
	return c.sent()
}

func (c *clocked) sent() string {
	c.Helper()
	out, err := c.desk.Pending(context.Background(), "test:hut")
	if err != nil {
		c.Fatal(err)
	}
	var texts []string
	for _, o := range out {
		texts = append(texts, o.Text)
		if err := c.desk.Sent(context.Background(), o.ID, "post"); err != nil {
			c.Fatal(err)
		}
	}
	return strings.Join(texts, "\n---\n")
}

// at puts the clock to a time of that day and gives what is called out then.
func (c *clocked) at(after time.Duration) string {
	c.Helper()
	c.now = noon.Add(after)
	if err := c.desk.Tick(context.Background()); err != nil {
		c.Fatal(err)
	}
	return c.sent()
}

func (c *clocked) wants(got string, want ...string) {
	c.Helper()
	if len(want) == 0 && got != "" {
		c.Errorf("said %q, want nothing", got)
	}
	for _, w := range want {
		if !strings.Contains(got, w) {
			c.Errorf("said %q, want %q in it", got, w)
		}
	}
}

// sheet is a data sheet with times that are easily counted: open 20, clamp 60, work 120, cure 240.
const sheet = "our glue: epoxy open 20, clamp 60, work after 120, full strength after 240 at 20 degrees"

func TestEachMomentIsCalledOutOnce(t *testing.T) {
	c := clockedDesk(t)
	c.wants(c.say("Petra", sheet), "open 20 min")
	c.wants(c.say("Gil", "just glued bow 1 with epoxy, 20 degrees"), "clamps off 13:00", "work it from 14:00", "by 12:20")
	c.wants(c.at(14 * time.Minute))
	c.wants(c.at(15*time.Minute), "Gil", "bow 1", "12:20")
	c.wants(c.at(16 * time.Minute))
	c.restart()
	c.wants(c.at(30 * time.Minute))
	c.wants(c.at(60*time.Minute), "Gil", "clamps", "bow 1", "14:00")
	c.wants(c.at(60 * time.Minute))
	c.restart()
	c.wants(c.at(61 * time.Minute))
	c.wants(c.at(120*time.Minute), "sanded")
	c.wants(c.at(240*time.Minute), "full strength")
	c.wants(c.at(1000 * time.Minute))
}

func TestLateAfterARestartAndSaysSo(t *testing.T) {
	c := clockedDesk(t)
	c.say("Petra", sheet)
	c.say("Gil", "just glued bow 1 with epoxy, 20 degrees")
	c.now = noon.Add(3 * time.Hour)
	c.restart()
	got := c.at(3 * time.Hour)
	c.wants(got, "Gil", "sanded", "Late: this was due 14:00, I was not running", "due 13:00", "due 12:15")
	if strings.Contains(got, "---") {
		t.Errorf("one glue-up was called out in several messages: %q", got)
	}
	c.wants(c.at(3*time.Hour + time.Minute))
}

// A call that is a little late, as every call is, says nothing of it.
func TestAMinuteIsNotLate(t *testing.T) {
	c := clockedDesk(t)
	c.say("Petra", sheet)
	c.say("Gil", "just glued bow 1 with epoxy, 20 degrees")
	c.at(15 * time.Minute)
	if got := c.at(61 * time.Minute); strings.Contains(got, "Late") || got == "" {
		t.Errorf("said %q", got)
	}
}

func TestStoppedAndFreedTimersAreSilent(t *testing.T) {
	c := clockedDesk(t)
	c.say("Petra", sheet)
	c.say("Gil", "just glued bow 1 with epoxy, 20 degrees")
	c.say("Gil", "just glued bow 2 with epoxy, 20 degrees")
	c.at(15 * time.Minute)
	c.now = noon.Add(20 * time.Minute)
	c.wants(c.say("Petra", "stop the timer for bow 1"), "Stopped", "bow 1")
	c.now = noon.Add(50 * time.Minute)
	c.wants(c.say("Petra", "took bow 2 out of the clamps"), "10 min too soon")
	c.wants(c.at(60 * time.Minute))
	got := c.at(120 * time.Minute)
	c.wants(got, "bow 2 may be sanded")
	if strings.Contains(got, "bow 1") {
		t.Errorf("bow 1 was stopped: %q", got)
	}
}

func TestAnExtendedTimerCallsAtTheNewTime(t *testing.T) {
	c := clockedDesk(t)
	c.say("Petra", sheet)
	c.say("Gil", "just glued the door with epoxy, 20 degrees")
	c.at(15 * time.Minute)
	c.wants(c.at(60*time.Minute), "clamps can come off")
	c.wants(c.say("Petra", "give the door another hour"), "clamps off 14:00")
	c.wants(c.at(119 * time.Minute))
	c.wants(c.at(120*time.Minute), "clamps can come off")
}

// A check mark under the call says that the clamps are off.
func TestACheckMarkTakesTheClampsOff(t *testing.T) {
	c := clockedDesk(t)
	c.say("Petra", sheet)
	c.say("Gil", "just glued bow 1 with epoxy, 20 degrees")
	c.at(15 * time.Minute)
	c.wants(c.at(60*time.Minute), "clamps can come off bow 1")
	err := c.desk.React(context.Background(), bot.Reaction{Key: "test:sign", Place: "test:hut", Project: "hut", Post: "post",
		WhoKey: "petra", Who: "Petra", Sign: bot.SignCheck, At: c.now})
	if err != nil {
		t.Fatal(err)
	}
	c.wants(c.sent(), "Bow 1 is out of the clamps")
}

// What was called out stands apart from what people did, so that they can still take it back.
func TestAGlueUpIsTakenBackAfterACall(t *testing.T) {
	c := clockedDesk(t)
	c.say("Petra", sheet)
	c.say("Gil", "just glued bow 1 with epoxy, 20 degrees")
	c.wants(c.at(15*time.Minute), "bow 1")
	c.wants(c.say("Gil", "sorry, bow 1 was ten minutes ago"), "from 12:05", "clamps off 13:05")
	c.wants(c.at(66*time.Minute), "clamps can come off")
	c.wants(c.say("Gil", "undo"), "Taken back: bow 1") // the correction
	c.wants(c.say("Gil", "undo"), "Taken back: bow 1") // the glue-up
	c.wants(c.at(1000 * time.Minute))
	c.wants(c.say("Petra", "what's in the clamps"), "Nothing")
}

// An edited message starts its timer anew, also after a call.
func TestAnEditedGlueUpHasOneTimer(t *testing.T) {
	c := clockedDesk(t)
	c.say("Petra", sheet)
	m := bot.Message{Key: "test:edited", Place: "test:hut", Project: "hut", WhoKey: "gil", Who: "Gil", At: c.now, Direct: true,
		Text: "glued bow 1 with epoxy five minutes ago, 20 degrees"}
	if err := c.desk.Hear(context.Background(), m); err != nil {
		t.Fatal(err)
	}
	c.wants(c.sent(), "from 11:55", "clamps off 12:55")
	c.wants(c.at(10*time.Minute), "closed up by 12:15")
	m.Text = "glued bow 1 with epoxy fifteen minutes ago, 20 degrees"
	if err := c.desk.Amend(context.Background(), m); err != nil {
		t.Fatal(err)
	}
	c.wants(c.sent(), "from 11:45", "clamps off 12:45", "amended")
	c.wants(c.say("Petra", "timers"), "Bow 1: clamps off 12:45")
	c.wants(c.at(45*time.Minute), "clamps can come off")
	c.wants(c.at(55 * time.Minute))
}

// What was told of at a terminal stands in the log when it is due, and waits for nobody.
func TestATerminalIsNotCalled(t *testing.T) {
	c := clockedDesk(t)
	for i, text := range []string{sheet, "just glued bow 1 with epoxy, 20 degrees"} {
		_, err := c.desk.Reply(context.Background(), bot.Message{Key: fmt.Sprintf("terminal:%d", i), Place: "terminal:hut", Project: "hut", WhoKey: "gil", Who: "Gil", Text: text, At: c.now, Direct: true})
		if err != nil {
			t.Fatal(err)
		}
	}
	c.wants(c.at(time.Hour))
	waiting, err := c.desk.Pending(context.Background(), "")
	if err != nil || len(waiting) != 0 {
		t.Errorf("%d answers wait for ever, %v", len(waiting), err)
	}
	err = c.db.Read(context.Background(), func(tx *store.Tx) error {
		p, err := tx.Project("hut")
		if err != nil {
			return err
		}
		found, err := tx.Search(store.Query{Project: p.ID, Kinds: []string{store.Answer}, Topic: "timers", Limit: 5})
		if len(found) != 1 {
			t.Errorf("the log has %d calls, want 1", len(found))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// A glue-up that is told of afterwards calls out only what is still to come.
func TestWhatWasPastWhenToldIsNotCalled(t *testing.T) {
	c := clockedDesk(t)
	c.say("Petra", sheet)
	c.wants(c.say("Gil", "glued bow 1 with epoxy at 10:45, 20 degrees"), "open time ended 11:05", "from 10:45")
	c.wants(c.at(time.Minute))
	c.wants(c.at(45*time.Minute), "sanded")
}

// The loop calls out by itself, and stops when it is told to.
func TestTickingStops(t *testing.T) {
	c := clockedDesk(t)
	c.say("Petra", sheet)
	c.say("Gil", "just glued bow 1 with epoxy, 20 degrees")
	c.now = noon.Add(time.Hour)
	stop := c.desk.Ticking(context.Background())
	deadline := time.Now().Add(20 * time.Second)
	got := ""
	for got == "" && time.Now().Before(deadline) {
		got = c.sent()
		time.Sleep(10 * time.Millisecond)
	}
	stop()
	c.wants(got, "clamps can come off")
}
