package speech_test

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

// FuzzRead reads any text: it must neither fail nor lose its place, and every quantity must
// be sound.
func FuzzRead(f *testing.F) {
	for _, s := range seeds(f) {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s := speech.Read(text)
		last := 0
		for _, it := range s.Items {
			if it.Start < last || it.End < it.Start || it.End > len(s.Text) {
				t.Fatalf("Read(%q): item %q lies at %d to %d of %d, after %d", text, it.Text, it.Start, it.End, len(s.Text), last)
			}
			last = it.Start
			sound(t, text, it.Q)
		}
		if !utf8.ValidString(s.Text) {
			t.Fatalf("Read(%q) keeps text that is not UTF-8", text)
		}
	})
}

func sound(t *testing.T, text string, q *speech.Quantity) {
	t.Helper()
	if q == nil || q.Kind == speech.KindUnread {
		return
	}
	if q.Value == nil && q.High == nil {
		t.Fatalf("Read(%q): a %s without a number", text, q.Kind)
	}
	if q.Unit != nil && q.Kind != q.Unit.Kind && q.Kind != measure.KindTemperature {
		t.Fatalf("Read(%q): a %s in %s", text, q.Kind, q.Unit.Symbol)
	}
	if q.Kind == measure.KindNumber && q.Unit != nil {
		t.Fatalf("Read(%q): a bare number with the unit %s", text, q.Unit.Symbol)
	}
}

func seeds(t testing.TB) []string {
	t.Helper()
	f, err := os.Open("../../testdata/quantities.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := []string{"", "1e400", "2' 7 1/2\" x 3-1/4 in by ½", "and no 8 screw at 10.45 for 900 a cube", "\x00\u202e%s", strings.Repeat("1/2 ", 300)}
	for _, r := range rows[1:] {
		out = append(out, r[0])
	}
	return out
}
