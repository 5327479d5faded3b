package book_test

import (
	"encoding/json"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/measure"
	"fettle/commands/book"
)

// A length comes out of the book as it went in, to the nanometre.
func TestLengthsAreKeptExactly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		was := book.MM(rapid.Int64Range(-int64(100*measure.Metre), int64(100*measure.Metre)).Draw(t, "nm"))
		data, err := json.Marshal(was)
		if err != nil {
			t.Fatal(err)
		}
		var is book.MM
		if err := json.Unmarshal(data, &is); err != nil || is != was {
			t.Fatalf("%d nm was kept as %s and came back as %d nm (%v)", was, data, is, err)
		}
	})
}

func TestLengthsReadAsMillimetres(t *testing.T) {
	for text, want := range map[string]measure.Length{
		"612": 612 * measure.Millimetre, "0.396875": measure.Inch / 64, "1e3": measure.Metre, "-2.5": -2500 * measure.Micrometre,
	} {
		var is book.MM
		if err := json.Unmarshal([]byte(text), &is); err != nil || is.Length() != want {
			t.Errorf("%s: %d nm, want %d (%v)", text, is, want, err)
		}
	}
	for _, text := range []string{`"612 mm"`, "1e30", "true", "{}"} {
		var is book.MM
		if json.Unmarshal([]byte(text), &is) == nil {
			t.Errorf("%s was read as %d nm", text, is)
		}
	}
}
