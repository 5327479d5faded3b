package commands_test

import (
	"strings"
	"testing"
)

// talk has Petra say lines in one conversation and gives the texts of the answers.
func talk(t *testing.T, lines ...string) []string {
	t.Helper()
	var out []string
	for _, a := range cutTalk(t, lines...) {
		text := a.Text
		if a.Question != "" {
			text = a.Question
		}
		out = append(out, text)
	}
	return out
}

func hold(t *testing.T, got []string, want ...string) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%d answers, want %d", len(got), len(want))
	}
	for i, w := range want {
		for _, part := range strings.Split(w, " & ") {
			if !strings.Contains(got[i], part) {
				t.Errorf("answer %d lacks %q:\n%s", i+1, part, got[i])
			}
		}
	}
}

// Each board is remembered by itself, so that a fault is on one of them.
func TestBoardsAreKeptEachByItself(t *testing.T) {
	hold(t, talk(t,
		"got 3 sapele boards 2600 x 210 x 52, 48 each", "and 2 ash 2400 x 190 x 27", "what timber have we got",
		"the second board has a knot 900 in from the left, about 60 across", "sapele 3 has a split 150 in from the right end",
		"ash 1 has sapwood 20 wide along the bottom edge", "the long ash board has a knot at 400", "ash 2", "stock?"),
		"sapele 1 to 3 & 48 each", "ash 1 to 2: 2400 × 190 × 27 mm", "5 boards on hand",
		"Sapele 2: knot from 870 to 930 along, 0 to 210", "Sapele 3: split from 2450 to 2600",
		"Ash 1: sapwood from 0 to 2400 along, 0 to 20", "Which board? 1 ash 1 · 2 ash 2", "Ash 2: knot from 375 to 425",
		"sapele 2: 2600 × 210 × 52 mm, 48 each, knot at 900 mm & ash 2: 2400 × 190 × 27 mm, knot at 400 mm")
}

// A price for a cube, a metre or a board foot is turned into one for the board.
func TestPricesOfBoards(t *testing.T) {
	for text, want := range map[string]string{
		"bought 2 oak boards 2400 x 200 x 50 at 1500 a cube":        "36 each",   // 2.4 · 0.2 · 0.05 m³ · 1500
		"got an ash board 3 m x 150 x 27 at 9.50 a metre":           "28.5 each", // 3 m · 9.50
		"we have 4 larch boards 3000 x 125 x 38, 14.50 a board":     "14.5 each", //
		"bought 1 walnut board 8 ft x 6 in x 1 in, 12 a board foot": "48 each",   // 8 · 6 · 1 / 12 = 4 board feet
	} {
		hold(t, talk(t, text), want)
	}
}

// Sizes that only fit in another unit, and faults outside the board, are asked about.
func TestBoardsThatCannotBe(t *testing.T) {
	askedBack(t, "board", "we have 3 sapele boards 260 x 21 x 3.2", "got an oak board", "second ash board has a knot 900 from the left end")
	hold(t, talk(t, "got a sapele board 2600 x 210 x 32", "sapele 1 has a knot at 2900", "900"), "sapele 1", "outside the board", "875 to 925")
	hold(t, talk(t, "got 200 oak boards 2600 x 210 x 32"), "at most 60 at a time")
}

func TestBoardsGoAndComeBack(t *testing.T) {
	hold(t, talk(t, "got 2 oak boards 2600 x 210 x 32", "oak 1 is used up", "any oak?", "scratch that", "any oak?"),
		"oak 1 to 2", "Off the list: oak 1", "1 board on hand", "Taken back", "2 boards on hand")
}
