package store_test

import (
	"encoding/json"
	"errors"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"fettle/store"
)

func TestEntryComesBackAsItWasAdded(t *testing.T) {
	s := fresh(t)
	project := projectOf(t, s, "Hut")
	message := store.Entry{
		Project: project, Place: "terminal:hut", Thread: "root", WhoKey: "petra", Who: "Pétra", Kind: store.Message,
		Key: "terminal:1", At: time.Date(2026, 3, 1, 8, 30, 0, 123_456_789, time.FixedZone("", 3600)),
		Text: "2 legs, 83 \x00 cm\n\"oak\"", Topic: "rough", Request: json.RawMessage(`{"a":1}`),
	}
	message.ID = say(t, s, message)
	message.At = time.Date(2026, 3, 1, 7, 30, 0, 123_000_000, time.UTC)
	answer := store.Entry{Project: project, Kind: store.Answer, About: message.ID, Text: "108", Answer: json.RawMessage(`[1]`)}
	answer.ID = say(t, s, answer)
	answer.At = noon // none was given
	if answer.ID <= message.ID {
		t.Errorf("the answer's id %d is not above the message's %d", answer.ID, message.ID)
	}
	edit := store.Entry{Project: project, Kind: store.Edit, About: message.ID, At: noon}
	edit.ID = say(t, s, edit)
	read(t, s, func(tx *store.Tx) error {
		got, found, err := tx.EntryByKey("terminal:1")
		if !found || err != nil || !reflect.DeepEqual(got, message) {
			t.Errorf("EntryByKey = %+v, %t, %v, want %+v", got, found, err, message)
		}
		if got, found, err = tx.EntryByID(answer.ID); !found || err != nil || !reflect.DeepEqual(got, answer) {
			t.Errorf("EntryByID = %+v, %t, %v, want %+v", got, found, err, answer)
		}
		if got, found, err := tx.EntryByKey("terminal:2"); found || err != nil {
			t.Errorf("EntryByKey of an unknown key = %+v, %t, %v", got, found, err)
		}
		answers, err := tx.AnswersTo(message.ID)
		if err != nil || !slices.Equal(ids(answers), []int64{answer.ID}) {
			t.Errorf("AnswersTo = %v, %v", ids(answers), err)
		}
		about, err := tx.About(message.ID)
		if err != nil || !slices.Equal(ids(about), []int64{answer.ID, edit.ID}) {
			t.Errorf("About = %v, %v", ids(about), err)
		}
		return nil
	})
}

func TestKeyIsTakenOnce(t *testing.T) {
	s := fresh(t)
	project := projectOf(t, s, "Hut")
	first := say(t, s, store.Entry{Project: project, Key: "terminal:1", Text: "first"})
	write(t, s, func(tx *store.Tx) error {
		if id, err := tx.Add(store.Entry{Project: project, Kind: store.Message, Key: "terminal:1"}); !errors.Is(err, store.ErrDuplicate) {
			t.Errorf("Add = %d, %v, want ErrDuplicate", id, err)
		}
		_, err := tx.Add(store.Entry{Project: project, Kind: store.Message}) // the transaction goes on
		return err
	})
	say(t, s, store.Entry{Project: project}) // any number without a key
	if got := search(t, s, store.Query{Project: project, Words: []string{"first"}}); !slices.Equal(ids(got), []int64{first}) {
		t.Errorf("found %v, want %d", ids(got), first)
	}
}

func TestBadEntriesAreRefused(t *testing.T) {
	s := fresh(t)
	project := projectOf(t, s, "Hut")
	for name, e := range map[string]store.Entry{
		"kind":    {Project: project, Kind: "gossip"},
		"project": {Project: 99, Kind: store.Message},
		"about":   {Project: project, Kind: store.Answer, About: 99},
		"request": {Project: project, Kind: store.Message, Request: json.RawMessage("{")},
	} {
		err := s.Write(t.Context(), func(tx *store.Tx) error {
			_, err := tx.Add(e)
			return err
		})
		if err == nil {
			t.Errorf("an entry with a bad %s was added", name)
		}
	}
}

func TestLogAndChangesAreOnlyAddedTo(t *testing.T) {
	s := fresh(t)
	project := projectOf(t, s, "Hut")
	write(t, s, func(tx *store.Tx) error { return exchange(tx, project, 1) })
	for _, statement := range []string{
		"UPDATE entries SET text = 'never said'", "DELETE FROM entries",
		"UPDATE changes SET after = '0'", "DELETE FROM changes",
	} {
		if _, err := s.Writer().Exec(statement); err == nil {
			t.Errorf("accepted: %s", statement)
		}
	}
}

func TestLastRequest(t *testing.T) {
	s := fresh(t)
	project := projectOf(t, s, "Hut")
	asked := func(place, whoKey, kind, request string) int64 {
		return say(t, s, store.Entry{Project: project, Place: place, WhoKey: whoKey, Kind: kind, Request: json.RawMessage(request)})
	}
	first := asked("hut", "petra", store.Message, "{}")
	second := asked("hut", "petra", store.Edit, "{}")
	asked("hut", "petra", store.Message, "") // not understood
	gils := asked("hut", "gil", store.Message, "{}")
	asked("hut", "gil", store.Answer, "{}")
	asked("shed", "petra", store.Message, "{}")
	for _, row := range []struct {
		place, whoKey string
		before, want  int64
	}{
		{"hut", "petra", 0, second}, {"hut", "petra", second, first}, {"hut", "petra", first, 0},
		{"hut", "gil", 0, gils}, {"shed", "gil", 0, 0},
		{"hut", "", 0, gils}, {"hut", "", gils, second}, {"loft", "", 0, 0},
	} {
		read(t, s, func(tx *store.Tx) error {
			got, found, err := tx.LastRequest(row.place, row.whoKey, row.before)
			if row.whoKey == "" {
				got, found, err = tx.LastRequestOfAnyone(row.place, row.before)
			}
			if err != nil || got.ID != row.want || found != (row.want != 0) {
				t.Errorf("%+v: got %d, %t, %v", row, got.ID, found, err)
			}
			return nil
		})
	}
}

func TestProjectNames(t *testing.T) {
	s := fresh(t)
	write(t, s, func(tx *store.Tx) error {
		hut, err := tx.Project("Shepherd's Hut")
		if err != nil {
			return err
		}
		again, err := tx.Project("shepherds-hut")
		if err != nil || again != hut || again.Name != "Shepherd's Hut" {
			t.Errorf("Project = %+v, %v, want %+v", again, err, hut)
		}
		if byID, err := tx.ProjectByID(hut.ID); err != nil || byID != hut {
			t.Errorf("ProjectByID = %+v, %v, want %+v", byID, err, hut)
		}
		if _, err := tx.ProjectByID(99); !errors.Is(err, store.ErrNotFound) {
			t.Errorf("ProjectByID of none = %v, want ErrNotFound", err)
		}
		if _, err := tx.Project(" \t"); !errors.Is(err, store.ErrNoName) {
			t.Errorf("Project without a name = %v, want ErrNoName", err)
		}
		all, err := tx.Projects()
		if !slices.Equal(all, []store.Project{hut}) {
			t.Errorf("Projects = %+v", all)
		}
		return err
	})
}

func TestFold(t *testing.T) {
	for name, want := range map[string]string{
		"Foo-Bar": "foobar", " foo  bar ": "foobar", "Leg 2": "leg2", "BÖRD": "börd", "bo\u0308rd": "börd",
		"½ board": "½board", "@": "@", "🪑": "🪑", "": "", " \n": "", "की": "की",
	} {
		if got := store.Fold(name); got != want {
			t.Errorf("Fold(%q) = %q, want %q", name, got, want)
		}
	}
}

func TestQuestions(t *testing.T) {
	s := fresh(t)
	project := projectOf(t, s, "Hut")
	var asked []int64
	for range 4 {
		asked = append(asked, say(t, s, store.Entry{Project: project, Place: "hut"}))
	}
	open := func(tx *store.Tx, since time.Time) []int64 {
		got, err := tx.OpenQuestions("hut", since)
		if err != nil {
			t.Fatal(err)
		}
		return ids(got)
	}
	write(t, s, func(tx *store.Tx) error {
		for i, id := range asked[:3] {
			if err := tx.Ask(id, "hut", "petra", noon.Add(time.Duration(i)*time.Minute)); err != nil {
				return err
			}
		}
		if err := tx.Ask(asked[3], "shed", "petra", noon); err != nil {
			return err
		}
		if got := open(tx, noon); !slices.Equal(got, []int64{asked[2], asked[1], asked[0]}) {
			t.Errorf("open = %v", got)
		}
		if got := open(tx, noon.Add(time.Minute)); !slices.Equal(got, []int64{asked[2], asked[1]}) {
			t.Errorf("open since a minute later = %v", got)
		}
		if err := errors.Join(tx.Close(asked[1], asked[3]), tx.Close(asked[1], asked[2])); err != nil {
			t.Error(err)
		}
		if got := open(tx, noon); !slices.Equal(got, []int64{asked[2], asked[0]}) {
			t.Errorf("open after Close = %v", got)
		}
		if err := tx.Ask(asked[1], "hut", "petra", noon); err != nil {
			return err
		}
		if got := open(tx, noon); !slices.Equal(got, []int64{asked[2], asked[1], asked[0]}) {
			t.Errorf("open after asking again = %v", got)
		}
		if err := tx.Close(99, asked[0]); !errors.Is(err, store.ErrNotFound) {
			t.Errorf("Close of no question = %v, want ErrNotFound", err)
		}
		return nil
	})
}

func TestOutbox(t *testing.T) {
	s := fresh(t)
	project := projectOf(t, s, "Hut")
	earlier := noon.Add(-time.Hour)
	message := say(t, s, store.Entry{Project: project, Key: "chat:q", At: earlier})
	first := say(t, s, store.Entry{Project: project, Kind: store.Answer, About: message, Text: "108"})
	second := say(t, s, store.Entry{Project: project, Kind: store.Answer, Text: "the glue has set"})
	want := []store.Out{
		{Entry: first, Place: "chat:1", Thread: "root", ReplyTo: "chat:q", Amends: "old", Text: "108", At: earlier},
		{Entry: second, Place: "chat:2", Text: "the glue has set", At: noon},
	}
	waiting := func(tx *store.Tx, place string) []store.Out {
		got, err := tx.Waiting(place)
		if err != nil {
			t.Fatal(err)
		}
		return got
	}
	write(t, s, func(tx *store.Tx) error {
		if err := errors.Join(tx.Queue(want[1]), tx.Queue(want[0])); err != nil {
			return err
		}
		if got := waiting(tx, ""); !slices.Equal(got, want) {
			t.Errorf("waiting = %+v, want %+v", got, want)
		}
		if got := waiting(tx, "chat:2"); !slices.Equal(got, want[1:]) {
			t.Errorf("waiting for chat:2 = %+v", got)
		}
		if key, sent, err := tx.SentKey(first); sent || err != nil {
			t.Errorf("SentKey before sending = %q, %t, %v", key, sent, err)
		}
		if err := errors.Join(tx.Sent(first, "post1"), tx.Sent(first, "post2")); err != nil {
			return err
		}
		if key, sent, err := tx.SentKey(first); key != "post1" || !sent || err != nil {
			t.Errorf("SentKey = %q, %t, %v, want post1", key, sent, err)
		}
		if got := waiting(tx, ""); !slices.Equal(got, want[1:]) {
			t.Errorf("waiting after Sent = %+v", got)
		}
		if err := tx.Sent(99, "post"); !errors.Is(err, store.ErrNotFound) {
			t.Errorf("Sent of nothing = %v, want ErrNotFound", err)
		}
		for thread, want := range map[string]bool{"root": true, "other": false, "": false} {
			if got, err := tx.AnsweredThread("chat:1", thread); got != want || err != nil {
				t.Errorf("AnsweredThread(%q) = %t, %v", thread, got, err)
			}
		}
		return nil
	})
	err := s.Write(t.Context(), func(tx *store.Tx) error { return tx.Queue(want[0]) })
	if err == nil {
		t.Error("one answer was queued twice")
	}
}

func TestCursorsNeverMoveBack(t *testing.T) {
	s := fresh(t)
	write(t, s, func(tx *store.Tx) error {
		err := errors.Join(tx.SetCursor("chat:ä1", 5), tx.SetCursor("chat:ä1", 3), tx.SetCursor("chat:%", 7),
			tx.SetCursor("terminal:hut", -2))
		if err != nil {
			return err
		}
		for prefix, want := range map[string]map[string]int64{
			"chat:":   {"chat:ä1": 5, "chat:%": 7},
			"chat:ä":  {"chat:ä1": 5},
			"chat:%":  {"chat:%": 7},
			"":        {"chat:ä1": 5, "chat:%": 7, "terminal:hut": -2},
			"nowhere": {},
		} {
			if got, err := tx.Cursors(prefix); err != nil || !reflect.DeepEqual(got, want) {
				t.Errorf("Cursors(%q) = %v, %v, want %v", prefix, got, err, want)
			}
		}
		return nil
	})
}

// What people are told is a sentence, without a word of the machinery.
func TestSentencesAreForPeople(t *testing.T) {
	for _, err := range []error{
		store.ErrDuplicate, store.ErrNotFound, store.ErrNoName, store.ErrChangedSince, store.ErrLocked, store.ErrBusy,
		store.ErrFull, store.ErrReadOnly, store.ErrDisk, store.ErrDamaged, store.ErrForeign, store.ErrNewer, store.ErrOwnFile,
	} {
		said := store.Sentence(errors.Join(errors.New("sqlite: 0x5"), err))
		if said != err.Error() {
			t.Errorf("Sentence of %q = %q", err, said)
		}
		for _, word := range []string{"sql", "database is", "errno", "transaction", "constraint"} {
			if strings.Contains(strings.ToLower(said), word) {
				t.Errorf("%q says %q to people", said, word)
			}
		}
	}
	if said := store.Sentence(errors.New("anything else")); said != "" {
		t.Errorf("Sentence of a stranger's error = %q", said)
	}
}
