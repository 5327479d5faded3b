package rough_test

import (
	"errors"
	"math/big"
	"regexp"
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

// inches reads "1-5/16", "3/8" and "2" as they stand in the table.
func inches(t *testing.T, text string) measure.Length {
	t.Helper()
	whole, part, mixed := strings.Cut(text, "-")
	if !mixed {
		whole, part = "0", text
	}
	total := new(big.Rat)
	for _, s := range []string{whole, part} {
		r, ok := new(big.Rat).SetString(s)
		if !ok {
			t.Fatalf("%q is no size in inches", text)
		}
		total.Add(total, r)
	}
	out, err := measure.Times(total, measure.Inch)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// HT01 to HT10 are hardwood surfaced on two faces (two tables, seen), HT11 is from memory: rough
// boards lose 3/16 in up to 1 1/2 in thick and 1/4 in above, to the nanometre.
func TestFinishedAgreesWithSurfacedHardwood(t *testing.T) {
	checks := checktest.Read(t)
	sizes := regexp.MustCompile(`^(?:rough )?([0-9/-]+) .*(?:S2S|surfaced two sides)$`)
	done := 0
	for _, r := range checks.Topic(t, "hardwood thickness") {
		m := sizes.FindStringSubmatch(r.Inputs)
		if m == nil {
			continue // HT12 is how far below its size a dry board may be
		}
		board, loss := inches(t, m[1]), 3*measure.Inch/16
		if board > 3*measure.Inch/2 {
			loss = measure.Inch / 4
		}
		got, err := rough.Finished(piece.Size{Thickness: board}, rough.Allowances{Thickness: loss})
		if err != nil {
			t.Fatal(err)
		}
		if want := inches(t, checks.Expected(t, r.ID)); got.Thickness != want {
			t.Errorf("check %s: %v, want %v", r.ID, got.Thickness, want)
		}
		done++
	}
	if done != 11 {
		t.Errorf("%d sizes compared, want 11", done)
	}
}

// millimetres gives the list of sizes that a row expects.
func millimetres(t *testing.T, id string) []measure.Length {
	t.Helper()
	var out []measure.Length
	for _, f := range strings.Fields(checktest.Read(t).Expected(t, id)) {
		n, err := strconv.Atoi(f)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, measure.Length(n)*mm)
	}
	return out
}

// SS02: EN 1313-2, from memory.
func TestSawnThicknesses(t *testing.T) {
	want := millimetres(t, "SS02")
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

// SS01: the hardwood that is sold in Britain (an architects' journal, seen), as the list of a
// project: each size does for itself, and a hair more takes the next.
func TestNextSawnOfBritishSizes(t *testing.T) {
	sizes := millimetres(t, "SS01")
	for i, size := range sizes {
		if got, ok := rough.NextSawn(size, sizes); !ok || got != size {
			t.Errorf("%v: %v, %v", size, got, ok)
		}
		got, ok := rough.NextSawn(size+1, sizes)
		if last := i == len(sizes)-1; ok == last || !last && got != sizes[i+1] {
			t.Errorf("above %v: %v, %v", size, got, ok)
		}
	}
	// 22 finished and 5 for planing: 27 is not sold, and 38 is the next.
	need, err := rough.Rough(piece.Size{Thickness: 22 * mm}, rough.Default())
	if err != nil {
		t.Fatal(err)
	}
	if got, ok := rough.NextSawn(need.Thickness, sizes); !ok || got != 38*mm {
		t.Errorf("22 finished comes out of %v, %v", got, ok)
	}
}
