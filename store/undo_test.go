package store_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"fettle/store"
)

// partNames are spelled in two ways each, so that names meet that are one.
var partNames = []string{"Leg", "leg", "Top-Rail", "top rail", "Seat"}

// book is a plain model of one project: what stands, in which order, and, for each thing, the
// changes in force as a pile of which only the top can be taken off.
type book struct {
	data    map[string]string
	spelled map[string]string
	order   []string // folded names in the order of first adding
	piles   map[string][]layer
}

type layer struct {
	entry         int64
	before        string // "" for not there
	spelledBefore string
}

func newBook() *book {
	return &book{data: map[string]string{}, spelled: map[string]string{}, piles: map[string][]layer{}}
}

// set makes a thing stand as data, or be gone if it is "".
func (b *book) set(entry int64, name, data string) {
	folded := store.Fold(name)
	if b.data[folded] == data {
		return
	}
	b.piles[folded] = append(b.piles[folded], layer{entry, b.data[folded], b.spelled[folded]})
	if b.data[folded] == "" {
		b.spelled[folded] = name
	}
	b.data[folded] = data
	if !slices.Contains(b.order, folded) {
		b.order = append(b.order, folded)
	}
}

// undo takes an entry's layers off, unless another's lie on top of any.
func (b *book) undo(of int64) (layers int, ok bool) {
	isOurs := func(l layer) bool { return l.entry == of }
	for _, pile := range b.piles {
		lowest := slices.IndexFunc(pile, isOurs)
		if lowest >= 0 && slices.ContainsFunc(pile[lowest:], func(l layer) bool { return l.entry != of }) {
			return 0, false
		}
	}
	for folded, pile := range b.piles {
		lowest := slices.IndexFunc(pile, isOurs)
		if lowest < 0 {
			continue
		}
		layers += len(pile) - lowest
		b.data[folded], b.spelled[folded] = pile[lowest].before, pile[lowest].spelledBefore
		b.piles[folded] = pile[:lowest]
	}
	return layers, true
}

// things is what the store should return.
func (b *book) things() []string {
	var all []string
	for _, folded := range b.order {
		if b.data[folded] != "" {
			all = append(all, b.spelled[folded]+" "+b.data[folded])
		}
	}
	return all
}

// newestInForce is the newest entry that has something in force, 0 if there is none.
func (b *book) newestInForce() (newest int64) {
	for _, pile := range b.piles {
		for _, l := range pile {
			newest = max(newest, l.entry)
		}
	}
	return newest
}

func thingsOf(tx *store.Tx, project int64) ([]string, error) {
	things, err := tx.Things(project, "part")
	var all []string
	for _, thing := range things {
		all = append(all, thing.Name+" "+string(thing.Data))
	}
	return all, err
}

// inTurn runs one step of a property in a transaction of its own, on behalf of a new entry.
func inTurn(t *rapid.T, s *store.Store, project int64, fn func(tx *store.Tx, entry int64) error) {
	err := s.Write(t.Context(), func(tx *store.Tx) error {
		entry, err := tx.Add(store.Entry{Project: project, Kind: store.Message, WhoKey: "petra", Who: "Petra"})
		if err != nil {
			return err
		}
		return fn(tx, entry)
	})
	if err != nil {
		t.Fatal(err)
	}
}

// changeAtRandom makes a few changes on behalf of an entry, and tells each to did.
func changeAtRandom(t *rapid.T, tx *store.Tx, project, entry int64, did func(name, data string)) error {
	for range rapid.IntRange(1, 4).Draw(t, "changes") {
		name := rapid.SampledFrom(partNames).Draw(t, "name")
		if rapid.IntRange(0, 3).Draw(t, "remove") == 0 {
			if _, err := tx.Remove(entry, project, "part", name); err != nil && !errors.Is(err, store.ErrNotFound) {
				return err
			}
			did(name, "")
			continue
		}
		length := rapid.IntRange(1, 3).Draw(t, "length")
		if _, err := tx.Put(entry, project, "part", name, length); err != nil {
			return err
		}
		did(name, fmt.Sprint(length))
	}
	return nil
}

func TestUndoAgainstAModel(t *testing.T) {
	s := open(t, filepath.Join(t.TempDir(), "hut.db"))
	defer closeStore(t, s)
	projects := 0
	rapid.Check(t, func(t *rapid.T) {
		projects++
		project := newProject(t, s, projects)
		model := newBook()
		var entries []int64
		compare := func(tx *store.Tx) error {
			got, err := thingsOf(tx, project)
			if !slices.Equal(got, model.things()) {
				t.Fatalf("things = %q, want %q", got, model.things())
			}
			last, _, err2 := tx.LastUndoable(project, "", "petra", 0)
			if last.ID != model.newestInForce() {
				t.Fatalf("LastUndoable = %d, want %d", last.ID, model.newestInForce())
			}
			return errors.Join(err, err2)
		}
		undo := func(tx *store.Tx, by, of int64) error {
			layers, ok := model.undo(of)
			done, err := tx.Undo(by, of)
			if ok != (err == nil) || len(done) != layers {
				t.Fatalf("Undo(%d) = %d changes, %v; the model took off %d, %t", of, len(done), err, layers, ok)
			}
			if err != nil && !errors.Is(err, store.ErrChangedSince) {
				return err
			}
			return compare(tx)
		}
		for range rapid.IntRange(1, 12).Draw(t, "turns") {
			inTurn(t, s, project, func(tx *store.Tx, entry int64) error {
				if len(entries) > 0 && rapid.IntRange(0, 2).Draw(t, "undo") == 0 {
					return undo(tx, entry, rapid.SampledFrom(entries).Draw(t, "of"))
				}
				entries = append(entries, entry)
				err := changeAtRandom(t, tx, project, entry, func(name, data string) { model.set(entry, name, data) })
				return errors.Join(err, compare(tx))
			})
		}
		for model.newestInForce() != 0 {
			inTurn(t, s, project, func(tx *store.Tx, entry int64) error { return undo(tx, entry, model.newestInForce()) })
		}
		if left := model.things(); len(left) != 0 {
			t.Fatalf("everything was undone and %q is left", left)
		}
	})
	sound(t, s)
}

func newProject(t *rapid.T, s *store.Store, n int) (id int64) {
	err := s.Write(t.Context(), func(tx *store.Tx) error {
		p, err := tx.Project(fmt.Sprintf("Hut %d", n))
		id = p.ID
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return id
}

// Undo of anything, undos and undos of undos included, either changes nothing and says why, or
// makes each thing stand as it stood before the oldest change that it takes back. And the changes
// of a thing always hang together: each begins where the one before it ended.
func TestUndoOfUndos(t *testing.T) {
	s := open(t, filepath.Join(t.TempDir(), "hut.db"))
	defer closeStore(t, s)
	projects := 0
	rapid.Check(t, func(t *rapid.T) {
		projects++
		project := newProject(t, s, projects)
		var entries []int64
		for range rapid.IntRange(2, 14).Draw(t, "turns") {
			inTurn(t, s, project, func(tx *store.Tx, entry int64) error {
				var err error
				if len(entries) > 0 && rapid.IntRange(0, 1).Draw(t, "undo") == 0 {
					err = undoAndCompare(t, tx, project, entry, rapid.SampledFrom(entries).Draw(t, "of"))
				} else {
					err = changeAtRandom(t, tx, project, entry, func(string, string) {})
				}
				entries = append(entries, entry)
				return errors.Join(err, hangTogether(t, tx, project))
			})
		}
	})
	sound(t, s)
}

func undoAndCompare(t *rapid.T, tx *store.Tx, project, by, of int64) error {
	want, err := stateOf(tx, project)
	if err != nil {
		return err
	}
	changes, err := tx.ChangesBy(of)
	if err != nil {
		return err
	}
	done, err := tx.Undo(by, of)
	if err != nil && !errors.Is(err, store.ErrChangedSince) {
		return err
	}
	if err == nil {
		for _, c := range slices.Backward(changes) {
			if !c.Undone {
				want[store.Fold(c.Name)] = string(c.Before)
			}
		}
	} else if len(done) != 0 {
		t.Fatalf("Undo said %v and did %d changes", err, len(done))
	}
	maps.DeleteFunc(want, func(_, data string) bool { return data == "" })
	got, err := stateOf(tx, project)
	if !maps.Equal(got, want) {
		t.Fatalf("after Undo(%d): %v, want %v", of, got, want)
	}
	return err
}

func stateOf(tx *store.Tx, project int64) (map[string]string, error) {
	things, err := tx.Things(project, "part")
	state := map[string]string{}
	for _, thing := range things {
		state[store.Fold(thing.Name)] = string(thing.Data)
	}
	return state, err
}

func hangTogether(t *rapid.T, tx *store.Tx, project int64) error {
	state, err := stateOf(tx, project)
	if err != nil {
		return err
	}
	for _, name := range partNames {
		changes, err := tx.ChangesTo(project, "part", name)
		if err != nil {
			return err
		}
		stands := ""
		for _, c := range changes {
			if string(c.Before) != stands || (c.Op == store.Added) != (c.Before == nil) || (c.Op == store.Removed) != (c.After == nil) {
				t.Fatalf("%s stood as %q, but change %d is %s %q to %q", name, stands, c.ID, c.Op, c.Before, c.After)
			}
			stands = string(c.After)
		}
		if state[store.Fold(name)] != stands {
			t.Fatalf("%s stands as %q, but its last change left %q", name, state[store.Fold(name)], stands)
		}
	}
	return nil
}

// A message is corrected, and then the correction and the message are taken back one by one.
func TestUndoOfACorrection(t *testing.T) {
	s := fresh(t)
	project := projectOf(t, s, "Hut")
	write(t, s, func(tx *store.Tx) error {
		message := addEntry(t, tx, project, "petra", "Petra")
		put(t, tx, message, project, "Leg", 85)
		edit := addEntry(t, tx, project, "petra", "Petra")
		undo(t, tx, edit, message)
		put(t, tx, edit, project, "Leg", 83)
		wantThings(t, tx, project, "Leg 83")

		if last, _, err := tx.LastUndoable(project, "", "petra", 0); err != nil || last.ID != edit {
			t.Errorf("LastUndoable = %d, %v, want the edit %d", last.ID, err, edit)
		}
		undo(t, tx, addEntry(t, tx, project, "petra", "Petra"), edit)
		wantThings(t, tx, project, "Leg 85")
		if last, _, err := tx.LastUndoable(project, "", "petra", 0); err != nil || last.ID != message {
			t.Errorf("LastUndoable = %d, %v, want the message %d", last.ID, err, message)
		}
		undo(t, tx, addEntry(t, tx, project, "petra", "Petra"), message)
		wantThings(t, tx, project)
		if last, found, err := tx.LastUndoable(project, "", "", 0); err != nil || found {
			t.Errorf("LastUndoable = %d, %t, %v, want nothing", last.ID, found, err)
		}
		return nil
	})
}

func addEntry(t *testing.T, tx *store.Tx, project int64, whoKey, who string) int64 {
	t.Helper()
	id, err := tx.Add(store.Entry{Project: project, Kind: store.Message, WhoKey: whoKey, Who: who})
	if err != nil {
		t.Fatal(err)
	}
	return id
}

func put(t *testing.T, tx *store.Tx, entry, project int64, name string, data any) store.Change {
	t.Helper()
	c, err := tx.Put(entry, project, "part", name, data)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func undo(t *testing.T, tx *store.Tx, by, of int64) {
	t.Helper()
	if done, err := tx.Undo(by, of); err != nil || len(done) == 0 {
		t.Fatalf("Undo = %v, %v", done, err)
	}
}

func wantThings(t *testing.T, tx *store.Tx, project int64, want ...string) {
	t.Helper()
	if got, err := thingsOf(tx, project); err != nil || !slices.Equal(got, want) {
		t.Errorf("things = %q, %v, want %q", got, err, want)
	}
}

func TestUndoSaysWhatStandsInTheWay(t *testing.T) {
	s := fresh(t)
	project := projectOf(t, s, "Hut")
	write(t, s, func(tx *store.Tx) error {
		petras := addEntry(t, tx, project, "petra", "Petra")
		put(t, tx, petras, project, "Seat", 1)
		put(t, tx, petras, project, "Leg", 85)
		gils := addEntry(t, tx, project, "gil", "Gil")
		put(t, tx, gils, project, "leg", 83)

		by := addEntry(t, tx, project, "petra", "Petra")
		_, err := tx.Undo(by, petras)
		var changed *store.ChangedSince
		if !errors.As(err, &changed) || !errors.Is(err, store.ErrChangedSince) {
			t.Fatalf("Undo = %v, want ErrChangedSince", err)
		}
		want := store.ChangedSince{What: "part", Name: "Leg", Entry: gils, Who: "Gil", At: noon}
		if !reflect.DeepEqual(*changed, want) {
			t.Errorf("in the way: %+v, want %+v", *changed, want)
		}
		if said := store.Sentence(err); !strings.Contains(said, "part Leg was changed again by Gil on 14 Mar 2026 12:00 UTC") {
			t.Errorf("Sentence = %q", said)
		}
		wantThings(t, tx, project, "Seat 1", "Leg 83") // nothing of it was undone

		undo(t, tx, by, gils)
		undo(t, tx, by, petras)
		wantThings(t, tx, project)
		return nil
	})
}

func TestLastUndoable(t *testing.T) {
	s := fresh(t)
	hut, shed := projectOf(t, s, "Hut"), projectOf(t, s, "Shed")
	write(t, s, func(tx *store.Tx) error {
		petras := addEntry(t, tx, hut, "petra", "Petra")
		put(t, tx, petras, hut, "Leg", 1)
		place := addEntry(t, tx, hut, "petra", "Petra")
		if _, err := tx.Put(place, store.NoProject, "place", "terminal:hut", hut); err != nil {
			return err
		}
		gils := addEntry(t, tx, hut, "gil", "Gil")
		put(t, tx, gils, hut, "Rail", 1)
		addEntry(t, tx, hut, "petra", "Petra") // changes nothing
		elsewhere := addEntry(t, tx, shed, "petra", "Petra")
		put(t, tx, elsewhere, shed, "Door", 1)
		for _, row := range []struct {
			project int64
			whoKey  string
			before  int64
			want    int64
		}{
			{hut, "petra", 0, place}, {hut, "petra", place, petras}, {hut, "petra", petras, 0},
			{hut, "gil", 0, gils}, {hut, "", 0, gils}, {shed, "", 0, elsewhere}, {shed, "gil", 0, 0},
		} {
			got, found, err := tx.LastUndoable(row.project, "", row.whoKey, row.before)
			if err != nil || got.ID != row.want || found != (row.want != 0) {
				t.Errorf("LastUndoable(%d, %q, %d) = %d, %t, %v, want %d", row.project, row.whoKey, row.before, got.ID, found, err, row.want)
			}
		}
		return nil
	})
}

func TestThingsKeepTheirPlaceAndSpelling(t *testing.T) {
	s := fresh(t)
	project := projectOf(t, s, "Hut")
	write(t, s, func(tx *store.Tx) error {
		entry := addEntry(t, tx, project, "petra", "Petra")
		put(t, tx, entry, project, "Top-Rail", 1)
		put(t, tx, entry, project, "Leg", 2)
		if c := put(t, tx, entry, project, "toprail", 3); c.Op != store.Changed || c.Name != "Top-Rail" || string(c.Before) != "1" {
			t.Errorf("second Put = %+v", c)
		}
		if c := put(t, tx, entry, project, "TOP RAIL", 3); c.Op != "" || c.ID != 0 {
			t.Errorf("a Put that changes nothing = %+v", c)
		}
		wantThings(t, tx, project, "Top-Rail 3", "Leg 2")
		if _, err := tx.Remove(entry, project, "part", "top rail"); err != nil {
			return err
		}
		wantThings(t, tx, project, "Leg 2")
		if _, err := tx.Remove(entry, project, "part", "top rail"); !errors.Is(err, store.ErrNotFound) {
			t.Errorf("second Remove = %v, want ErrNotFound", err)
		}
		put(t, tx, entry, project, "top rail", 4)
		wantThings(t, tx, project, "top rail 4", "Leg 2")
		if _, err := tx.Put(entry, project, "part", "  ", 1); !errors.Is(err, store.ErrNoName) {
			t.Errorf("Put without a name = %v, want ErrNoName", err)
		}
		changes, err := tx.ChangesBy(entry)
		if len(changes) != 5 {
			t.Errorf("%d changes recorded, want 5", len(changes))
		}
		return err
	})
}

func TestDataComesBackAsItIsWritten(t *testing.T) {
	s := fresh(t)
	project := projectOf(t, s, "Hut")
	for _, data := range []any{nil, 12.5, "½ <b> & \u2028", []int{1, 2}, json.RawMessage(`{"b": 1, "a": 0.1}`), map[string]any{"due": time.UnixMilli(0).UTC()}} {
		want, err := json.Marshal(data)
		if err != nil {
			t.Fatal(err)
		}
		write(t, s, func(tx *store.Tx) error {
			c := put(t, tx, addEntry(t, tx, project, "petra", "Petra"), project, "Leg", data)
			thing, found, err := tx.Thing(project, "part", "leg")
			if !found || string(thing.Data) != string(want) || string(c.After) != string(want) {
				t.Errorf("Put(%v) gives %s and %s, want %s", data, thing.Data, c.After, want)
			}
			return err
		})
	}
}
