package store_test

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode"

	"pgregory.net/rapid"

	"fettle/store"
)

func TestSearchWords(t *testing.T) {
	s := fresh(t)
	hut, shed := projectOf(t, s, "Hut"), projectOf(t, s, "Shed")
	oak := say(t, s, store.Entry{Project: hut, Text: "Oak legs, 83 x 45 mm; glued-up ON the bench"})
	walnut := say(t, s, store.Entry{Project: hut, Text: "Böard of walnut, 830 long, oaky smell"})
	say(t, s, store.Entry{Project: shed, Text: "oak board"})
	for _, row := range []struct {
		words []string
		want  []int64
	}{
		{[]string{"oak"}, []int64{walnut, oak}},
		{[]string{"OAK", "leg"}, []int64{oak}},
		{[]string{"oak leg"}, []int64{oak}},
		{[]string{"board"}, []int64{walnut}},
		{[]string{"BÖARD"}, []int64{walnut}},
		{[]string{"bo\u0308ard"}, []int64{walnut}},
		{[]string{"83"}, []int64{oak}},
		{[]string{"830"}, []int64{walnut}},
		{[]string{"glued-up"}, []int64{oak}},
		{[]string{"lnut"}, nil},
		{[]string{"oak", "beech"}, nil},
		{[]string{"legs OR walnut"}, nil},
		{[]string{"on"}, []int64{oak}},
		{[]string{"NOT"}, nil},
		{[]string{`oak" OR "walnut`}, nil},
		{[]string{"text:oak"}, nil},
		{[]string{"-oak"}, []int64{walnut, oak}},
		{[]string{"oak*", "("}, []int64{walnut, oak}},
		{[]string{"×", "&"}, nil},
		{[]string{""}, nil},
		{nil, []int64{walnut, oak}},
	} {
		got := ids(search(t, s, store.Query{Project: hut, Words: row.words}))
		if !slices.Equal(got, row.want) {
			t.Errorf("words %q find %v, want %v", row.words, got, row.want)
		}
	}
}

// Search finds what a plain walk over all entries finds, whatever is asked together.
func TestSearchAgainstAPlainWalk(t *testing.T) {
	s := open(t, filepath.Join(t.TempDir(), "hut.db"))
	defer closeStore(t, s)
	projects := []int64{projectOf(t, s, "Hut"), projectOf(t, s, "Shed")}
	people := []string{"Petra", "Gil", "petra-"}
	topics := []string{"", "glue", "rough"}
	words := []string{"oak", "oaken", "leg", "83"}
	kinds := []string{store.Message, store.Answer, store.Edit}
	var all []store.Entry
	add := func(i int) {
		e := store.Entry{
			Project: projects[i/3%2], Who: people[i*7%3], Topic: topics[i*5%3], Kind: kinds[i%11%3],
			// Late ones come in between, and a few come in the same millisecond.
			At:   noon.Add(time.Duration(i/2-(i%13/12)*20) * time.Millisecond),
			Text: words[i%4] + " " + words[i*3%4] + " " + words[i/5%4],
		}
		e.ID = say(t, s, e)
		all = append(all, e)
	}
	for i := range 150 {
		add(i)
	}
	maybe := func(t *rapid.T, from []string, label string) string {
		return rapid.SampledFrom(append([]string{""}, from...)).Draw(t, label)
	}
	moment := func(t *rapid.T, label string) time.Time {
		n := rapid.IntRange(-30, 90).Draw(t, label)
		if n < -10 {
			return time.Time{}
		}
		return noon.Add(time.Duration(n)*time.Millisecond + time.Duration(n%2)*time.Microsecond)
	}
	rapid.Check(t, func(t *rapid.T) {
		q := store.Query{
			Project: rapid.SampledFrom(projects).Draw(t, "project"),
			From:    moment(t, "from"), To: moment(t, "to"),
			Who: maybe(t, people, "who"), Topic: maybe(t, topics[1:], "topic"),
			Words:  rapid.SliceOfN(rapid.SampledFrom(words), 0, 2).Draw(t, "words"),
			Kinds:  rapid.SliceOfN(rapid.SampledFrom(kinds), 0, 2).Draw(t, "kinds"),
			Limit:  rapid.IntRange(0, 5).Draw(t, "limit"),
			Before: rapid.Int64Range(0, 150).Draw(t, "before"),
		}
		var want []int64
		for _, e := range slices.Backward(all) {
			if (q.Limit == 0 || len(want) < q.Limit) && matches(e, q) {
				want = append(want, e.ID)
			}
		}
		var got []int64
		if err := s.Read(t.Context(), func(tx *store.Tx) error {
			found, err := tx.Search(q)
			got = ids(found)
			return err
		}); err != nil {
			t.Fatal(err)
		}
		if !slices.Equal(got, want) {
			t.Fatalf("%+v finds %v, want %v", q, got, want)
		}
	})
	sound(t, s)
}

// matches says whether an entry is what q asks for, in the plainest way.
func matches(e store.Entry, q store.Query) bool {
	for _, word := range q.Words {
		if !slices.ContainsFunc(strings.Fields(e.Text), func(w string) bool { return strings.HasPrefix(w, word) }) {
			return false
		}
	}
	return e.Project == q.Project &&
		(q.From.IsZero() || !e.At.Before(q.From)) && (q.To.IsZero() || e.At.Before(q.To)) &&
		(q.Who == "" || store.Fold(e.Who) == store.Fold(q.Who)) &&
		(q.Topic == "" || e.Topic == q.Topic) &&
		(len(q.Kinds) == 0 || slices.Contains(q.Kinds, e.Kind)) &&
		(q.Before == 0 || e.ID < q.Before)
}

// Nothing that people write is an error, and none of it reaches another project. A text of plain
// letters and digits is found by its own words.
func FuzzSearchWords(f *testing.F) {
	for _, words := range []string{
		"oak", `"`, `oak" OR "x`, "a* -b", "NEAR/2", "(((", "text:oak", "\x00", "½ × 2", "e\u0301", "\xff\xfe", "लकड़ी", "🪑 chair", "p1", "\ue0001",
	} {
		f.Add(words)
	}
	s := open(f, filepath.Join(f.TempDir(), "hut.db"))
	f.Cleanup(func() { closeStore(f, s) })
	hut, shed := projectOf(f, s, "Hut"), projectOf(f, s, "Shed")
	say(f, s, store.Entry{Project: shed, Text: "oak x a b near 2 text p1 1 chair e"})
	f.Fuzz(func(t *testing.T, words string) {
		id := say(t, s, store.Entry{Project: hut, Text: words})
		found := search(t, s, store.Query{Project: hut, Words: []string{words}, Limit: 3})
		for _, e := range found {
			if e.Project != hut {
				t.Errorf("%q found entry %d of another project", words, e.ID)
			}
		}
		plain := !strings.ContainsFunc(words, func(r rune) bool { return r > unicode.MaxASCII || r == 0 })
		spoken := strings.ContainsFunc(words, func(r rune) bool { return unicode.IsLetter(r) || unicode.IsNumber(r) })
		if plain && spoken && (len(found) == 0 || found[0].ID != id) {
			t.Errorf("%q does not find itself", words)
		}
	})
}
