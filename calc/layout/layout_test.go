package layout_test

import (
	"errors"
	"math/big"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/layout"
	"fettle/calc/measure"
)

const mm = measure.Millimetre

func lengths(t testing.TB, mms ...float64) []measure.Length {
	t.Helper()
	var out []measure.Length
	for _, v := range mms {
		l, err := measure.FromMM(v)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, l)
	}
	return out
}

func TestRow(t *testing.T) {
	for _, c := range []struct {
		name       string
		spacing    layout.Spacing
		pitch, gap float64
		centres    []float64
		starts     []float64
	}{
		{
			name:    "the reference's example: 7 things 45 wide in 1400",
			spacing: layout.Spacing{Span: 1400 * mm, Item: 45 * mm, Count: 7},
			pitch:   180.625, gap: 135.625,
			starts:  []float64{135.625, 316.25, 496.875, 677.5, 858.125, 1038.75, 1219.375},
			centres: []float64{158.125, 338.75, 519.375, 700, 880.625, 1061.25, 1241.875},
		},
		{
			name:    "points with a margin: 5 holes along 880, 40 in from each end",
			spacing: layout.Spacing{Span: 880 * mm, Count: 5, Ends: layout.MarginEnds, End: 40 * mm},
			pitch:   200, gap: 200,
			starts:  []float64{40, 240, 440, 640, 840},
			centres: []float64{40, 240, 440, 640, 840},
		},
		{
			name:    "points without a margin stand off the ends as from each other",
			spacing: layout.Spacing{Span: 600 * mm, Count: 5},
			pitch:   100, gap: 100,
			starts:  []float64{100, 200, 300, 400, 500},
			centres: []float64{100, 200, 300, 400, 500},
		},
		{
			name:    "flush: 6 slats 95 wide over 640",
			spacing: layout.Spacing{Span: 640 * mm, Item: 95 * mm, Count: 6, Ends: layout.FlushEnds},
			pitch:   109, gap: 14,
			starts:  []float64{0, 109, 218, 327, 436, 545},
			centres: []float64{47.5, 156.5, 265.5, 374.5, 483.5, 592.5},
		},
		{
			name:    "things with a margin: to the near edge",
			spacing: layout.Spacing{Span: 500 * mm, Item: 50 * mm, Count: 3, Ends: layout.MarginEnds, End: 25 * mm},
			pitch:   200, gap: 150,
			starts:  []float64{25, 225, 425},
			centres: []float64{50, 250, 450},
		},
		{
			name:    "a single thing stands in the middle",
			spacing: layout.Spacing{Span: 500 * mm, Item: 100 * mm, Count: 1},
			pitch:   0, gap: 200,
			starts:  []float64{200},
			centres: []float64{250},
		},
		{
			name:    "a pitch and a count: the row is centred",
			spacing: layout.Spacing{Span: 1000 * mm, Item: 20 * mm, Count: 4, Pitch: 250 * mm},
			pitch:   250, gap: 230,
			starts:  []float64{115, 365, 615, 865},
			centres: []float64{125, 375, 625, 875},
		},
		{
			name:    "a pitch and a margin: as many as fit from the one end",
			spacing: layout.Spacing{Span: 1000 * mm, Pitch: 300 * mm, Ends: layout.MarginEnds, End: 50 * mm},
			pitch:   300, gap: 300,
			starts:  []float64{50, 350, 650, 950},
			centres: []float64{50, 350, 650, 950},
		},
		{
			name:    "no gap above 100: 9 things, as in the reference",
			spacing: layout.Spacing{Span: 1400 * mm, Item: 45 * mm, MostGap: 100 * mm},
			pitch:   144.5, gap: 99.5,
			starts:  []float64{99.5, 244, 388.5, 533, 677.5, 822, 966.5, 1111, 1255.5},
			centres: []float64{122, 266.5, 411, 555.5, 700, 844.5, 989, 1133.5, 1278},
		},
		{
			name:    "things that just fill the span have no gap",
			spacing: layout.Spacing{Span: 300 * mm, Item: 100 * mm, Count: 3},
			pitch:   100, gap: 0,
			starts:  []float64{0, 100, 200},
			centres: []float64{50, 150, 250},
		},
	} {
		got, err := c.spacing.Row()
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		want := lengths(t, c.pitch, c.gap)
		if got.Pitch != want[0] || got.Gap != want[1] {
			t.Errorf("%s: pitch %v gap %v", c.name, got.Pitch, got.Gap)
		}
		if !slices.Equal(got.Starts, lengths(t, c.starts...)) || !slices.Equal(got.Centres, lengths(t, c.centres...)) {
			t.Errorf("%s: starts %v, centres %v", c.name, got.Starts, got.Centres)
		}
		if got.Count != len(c.starts) {
			t.Errorf("%s: count %d", c.name, got.Count)
		}
	}
}

// Each position is the exact fraction, rounded once: no error adds up along the row.
func TestPositionsNeverDrift(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 300).Draw(t, "count")
		item := measure.Length(rapid.Int64Range(0, int64(50*mm)).Draw(t, "item"))
		spare := measure.Length(rapid.Int64Range(int64(mm), int64(9*measure.Metre)).Draw(t, "spare"))
		s := layout.Spacing{Span: measure.Length(n)*item + spare, Item: item, Count: n}
		s.Ends = rapid.SampledFrom([]layout.Ends{layout.EqualEnds, layout.FlushEnds, layout.MarginEnds}).Draw(t, "ends")
		if s.Ends == layout.MarginEnds {
			s.End = measure.Length(rapid.Int64Range(0, int64(spare/2-1)).Draw(t, "end"))
		}
		row, err := s.Row()
		if err != nil {
			t.Fatal(err)
		}
		gaps := int64(n - 1)
		if s.Ends == layout.EqualEnds {
			gaps = int64(n + 1)
		}
		gap := big.NewRat(int64(spare-2*s.End), gaps)
		at := new(big.Rat).SetInt64(int64(s.End))
		if s.Ends == layout.EqualEnds {
			at.Set(gap)
		}
		for i, start := range row.Starts {
			nearly(t, "start", i, start, at)
			centre := new(big.Rat).Add(at, big.NewRat(int64(item), 2))
			nearly(t, "centre", i, row.Centres[i], centre)
			at.Add(at, gap)
			at.Add(at, new(big.Rat).SetInt64(int64(item)))
		}
		// Mirrored, the row is the same row.
		if d := row.End - row.FarEnd; d < -1 || d > 1 {
			t.Fatalf("%v at the one end, %v at the other", row.End, row.FarEnd)
		}
	})
}

func nearly(t *rapid.T, what string, i int, got measure.Length, want *big.Rat) {
	d := new(big.Rat).Sub(new(big.Rat).SetInt64(int64(got)), want)
	if d.Abs(d).Cmp(big.NewRat(1, 2)) > 0 {
		t.Fatalf("%s %d is %d, exactly %s", what, i, got, want.FloatString(3))
	}
}

func TestFewestKeepsTheGapAndIsFewest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := layout.Spacing{
			Span:    measure.Length(rapid.Int64Range(100, 3000).Draw(t, "span")) * mm,
			Item:    measure.Length(rapid.Int64Range(1, 90).Draw(t, "item")) * mm,
			MostGap: measure.Length(rapid.Int64Range(1, 200).Draw(t, "gap")) * mm,
			Ends:    rapid.SampledFrom([]layout.Ends{layout.EqualEnds, layout.FlushEnds}).Draw(t, "ends"),
		}
		row, err := s.Row()
		if err != nil {
			var tight *layout.TooTightError
			if !errors.As(err, &tight) {
				t.Fatal(err)
			}
			t.Skip("the things needed do not fit side by side")
		}
		if row.Gap > s.MostGap {
			t.Fatalf("a gap of %v", row.Gap)
		}
		least := 1
		if s.Ends == layout.FlushEnds {
			least = 2
		}
		if row.Count == least {
			return
		}
		s.Count = row.Count - 1
		if fewer, err := s.Row(); err == nil && fewer.Gap <= s.MostGap {
			t.Fatalf("%d would keep the gap too, %d were taken", s.Count, row.Count)
		}
	})
}

func TestThingsThatDoNotFit(t *testing.T) {
	for _, c := range []struct {
		spacing layout.Spacing
		short   measure.Length
	}{
		{layout.Spacing{Span: 760 * mm, Item: 58 * mm, Count: 14}, 52 * mm},
		{layout.Spacing{Span: 860 * mm, Item: 130 * mm, Count: 9}, 310 * mm},
		{layout.Spacing{Span: 100 * mm, Count: 3, Ends: layout.MarginEnds, End: 60 * mm}, 20 * mm},
		{layout.Spacing{Span: 100 * mm, Count: 3, Ends: layout.MarginEnds, End: 50 * mm}, 0},
		{layout.Spacing{Span: 1000 * mm, Count: 6, Pitch: 250 * mm}, 250 * mm},
		{layout.Spacing{Span: 1000 * mm, Item: 60 * mm, Count: 2, Pitch: 50 * mm}, 10 * mm},
	} {
		got, err := c.spacing.Row()
		var tight *layout.TooTightError
		if !errors.As(err, &tight) {
			t.Errorf("%+v: %+v, %v; want a TooTightError", c.spacing, got, err)
			continue
		}
		if tight.Short() != c.short {
			t.Errorf("%+v: %v too little, want %v", c.spacing, tight.Short(), c.short)
		}
		if !strings.Contains(err.Error(), "do not fit") {
			t.Errorf("%+v: %s", c.spacing, err)
		}
	}
}

func TestSpacingRefusesWhatCannotBe(t *testing.T) {
	for name, s := range map[string]layout.Spacing{
		"nothing":                  {},
		"no count":                 {Span: 900 * mm},
		"no span":                  {Count: 4},
		"negative span":            {Span: -900 * mm, Count: 4},
		"negative item":            {Span: 900 * mm, Count: 4, Item: -1},
		"negative count":           {Span: 900 * mm, Count: -4},
		"negative margin":          {Span: 900 * mm, Count: 4, Ends: layout.MarginEnds, End: -1},
		"margin and flush":         {Span: 900 * mm, Count: 4, Ends: layout.FlushEnds, End: 40 * mm},
		"margin and equal":         {Span: 900 * mm, Count: 4, End: 40 * mm},
		"pitch and flush":          {Span: 900 * mm, Count: 4, Ends: layout.FlushEnds, Pitch: 100 * mm},
		"one thing at both ends":   {Span: 900 * mm, Count: 1, Ends: layout.MarginEnds, End: 40 * mm},
		"far too many":             {Span: 900 * mm, Count: 1_000_000},
		"far too many by pitch":    {Span: 900 * mm, Pitch: 1},
		"far too many by a gap":    {Span: 900 * mm, MostGap: 1},
		"longer than a kilometre":  {Span: 2 * measure.Kilometre, Count: 3},
		"negative pitch":           {Span: 900 * mm, Count: 3, Pitch: -1},
		"negative limit for a gap": {Span: 900 * mm, Count: 3, MostGap: -1},
	} {
		if got, err := s.Row(); err == nil {
			t.Errorf("%s: %+v, want an error", name, got)
		}
	}
}
