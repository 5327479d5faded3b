package rough_test

import (
	"errors"
	"slices"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/checktest"
	"fettle/calc/measure"
	"fettle/calc/piece"
	"fettle/calc/rough"
)

const mm = measure.Millimetre

func TestRough(t *testing.T) {
	allowed := func(l, w, th measure.Length) rough.Allowances {
		return rough.Allowances{Length: l * mm, Width: w * mm, Thickness: th * mm}
	}
	size := func(l, w, th measure.Length) piece.Size {
		return piece.Size{Length: l * mm, Width: w * mm, Thickness: th * mm}
	}
	for _, c := range []struct {
		name     string
		finished piece.Size
		allow    rough.Allowances
		want     piece.Size
	}{
		{"the reference's example: 600 × 70 × 22 with 50, 6 and 5", size(600, 70, 22), allowed(50, 6, 5), size(650, 76, 27)},
		{"the defaults", size(600, 45, 20), rough.Default(), size(700, 65, 25)},
		{"two sizes only", size(600, 45, 0), rough.Default(), size(700, 65, 0)},
		{"no allowance at all", size(600, 45, 20), rough.Allowances{}, size(600, 45, 20)},
	} {
		got, err := rough.Rough(c.finished, c.allow)
		if err != nil || got != c.want {
			t.Errorf("%s: %v, %v; want %v", c.name, got, err, c.want)
		}
	}
}

func TestRoughAndFinishedAreOpposites(t *testing.T) {
	length := rapid.Custom(func(t *rapid.T) measure.Length {
		return measure.Length(rapid.Int64Range(1, int64(5*measure.Metre)).Draw(t, "nm"))
	})
	allowance := rapid.Custom(func(t *rapid.T) measure.Length {
		return measure.Length(rapid.Int64Range(0, int64(200*mm)).Draw(t, "nm"))
	})
	rapid.Check(t, func(t *rapid.T) {
		finished := piece.Size{Length: length.Draw(t, "l"), Width: length.Draw(t, "w"), Thickness: length.Draw(t, "t")}
		a := rough.Allowances{Length: allowance.Draw(t, "al"), Width: allowance.Draw(t, "aw"), Thickness: allowance.Draw(t, "at")}
		big, err := rough.Rough(finished, a)
		if err != nil {
			t.Fatal(err)
		}
		back, err := rough.Finished(big, a)
		if err != nil || back != finished {
			t.Fatalf("%v came back as %v, %v", finished, back, err)
		}
	})
}

func TestFinishedSaysWhatIsUsedUp(t *testing.T) {
	_, err := rough.Finished(piece.Size{Length: 900 * mm, Width: 20 * mm}, rough.Default())
	var nothing *rough.NothingLeftError
	if !errors.As(err, &nothing) || nothing.Dimension != "width" {
		t.Fatalf("a 20 mm board that loses 20 mm gives %v", err)
	}
	if got := err.Error(); !strings.Contains(got, "20 mm") {
		t.Errorf("the sentence names no size: %s", got)
	}
}

func TestSizesThatCannotBe(t *testing.T) {
	for _, s := range []piece.Size{
		{}, {Length: -600 * mm}, {Length: 600 * mm, Width: -1}, {Length: 2 * measure.Kilometre},
	} {
		if got, err := rough.Rough(s, rough.Default()); err == nil {
			t.Errorf("Rough(%v) = %v, want an error", s, got)
		}
		if got, err := rough.Finished(s, rough.Default()); err == nil {
			t.Errorf("Finished(%v) = %v, want an error", s, got)
		}
	}
	if got, err := rough.Rough(piece.Size{Length: 600 * mm}, rough.Allowances{Length: -mm}); err == nil {
		t.Errorf("an allowance below nothing gives %v", got)
	}
}

// PS01 to PS11: softwood planed on two faces loses 3 mm up to 100 mm and 5 mm above, EN 336
// target sizes in a building handbook (seen).
func TestFinishedAgreesWithPlanedSizes(t *testing.T) {
	checks := checktest.Read(t)
	for _, r := range checks.Topic(t, "planed sizes") {
		sawnText, ok := strings.CutPrefix(r.Inputs, "softwood sawn ")
		if !ok {
			continue
		}
		sawn, err := strconv.Atoi(strings.Fields(sawnText)[0])
		if err != nil {
			t.Fatal(err)
		}
		loss := 3 * mm
		if sawn > 100 {
			loss = 5 * mm
		}
		got, err := rough.Finished(piece.Size{Width: measure.Length(sawn) * mm}, rough.Allowances{Width: loss})
		if err != nil {
			t.Fatal(err)
		}
		checks.Holds(t, r.ID, got.Width.MM())
	}
}

// SS02: EN 1313-2, from memory.
func TestSawnThicknesses(t *testing.T) {
	var want []measure.Length
	for _, f := range strings.Fields(checktest.Read(t).Expected(t, "SS02")) {
		n, err := strconv.Atoi(f)
		if err != nil {
			t.Fatal(err)
		}
		want = append(want, measure.Length(n)*mm)
	}
	if got := rough.SawnThicknesses(); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestNextSawn(t *testing.T) {
	sizes := []measure.Length{50 * mm, 20 * mm, 32 * mm, 27 * mm}
	for _, c := range []struct {
		need, want measure.Length
		ok         bool
	}{
		{21 * mm, 27 * mm, true}, {27 * mm, 27 * mm, true}, {27*mm + 1, 32 * mm, true}, {51 * mm, 0, false}, {0, 20 * mm, true},
	} {
		got, ok := rough.NextSawn(c.need, sizes)
		if got != c.want || ok != c.ok {
			t.Errorf("NextSawn(%v) = %v, %v; want %v, %v", c.need, got, ok, c.want, c.ok)
		}
	}
}
