package commands

import (
	"cmp"
	"fmt"
	"maps"
	"strconv"
	"strings"

	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

// calledBy is the word that a board's name begins with: the last of its timber's name.
func calledBy(b book.Board) string {
	words := strings.Fields(b.Species)
	if len(words) == 0 {
		return "board"
	}
	return words[len(words)-1]
}

// names gives out names that count up: sapele 1, sapele 2.
type names struct{ last map[string]int }

func newNames(boards []book.Named[book.Board]) *names {
	n := &names{last: map[string]int{}}
	for _, b := range boards {
		word, number, _ := strings.Cut(b.Name, " ")
		if k, err := strconv.Atoi(number); err == nil { // an offer is "oak 3000×150×27 from …"
			n.last[store.Fold(word)] = max(n.last[store.Fold(word)], k)
		}
	}
	return n
}

func (n *names) next(word string) string {
	key := store.Fold(word)
	n.last[key]++
	return fmt.Sprintf("%s %d", word, n.last[key])
}

// nameRange says names that count up in short: sapele 1 to 3.
func nameRange(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	last := names[len(names)-1]
	return names[0] + " to " + last[strings.LastIndex(last, " ")+1:]
}

// findBoard finds the board on hand that the message means: by name, by its number in the list or
// of its timber, by timber, by being the longest. Where that leaves none or several, it gives the
// question instead.
func (a *Ask) findBoard() (book.Named[book.Board], *Answer) {
	var none book.Named[book.Board]
	all, err := book.Boards(a.Tx, a.Project.ID)
	if err != nil {
		ans := ask(store.Sentence(err))
		return none, &ans
	}
	boards := onHand(all)
	if len(boards) == 0 {
		ans := ask("No boards are on the list yet. Which board is it: length × width × thickness, and which timber?")
		return none, &ans
	}
	left := narrowed(boards, speech.Read(cmp.Or(a.Word("board"), a.Word("sentence"))))
	switch {
	case len(left) == 1:
		return left[0], nil
	case len(left) == 0:
		left = boards
	}
	ans := a.whichBoard(left)
	return none, &ans
}

// mostAsked is how many boards a question offers.
const mostAsked = 8

func (a *Ask) whichBoard(boards []book.Named[book.Board]) Answer {
	options := make([]speech.Option, min(len(boards), mostAsked))
	for i := range options {
		r := a.Request
		r.Slots = maps.Clone(a.Request.Slots)
		r.Slots["board"] = speech.Slot{Word: boards[i].Name}
		options[i] = speech.Option{Label: boards[i].Name, Request: r}
	}
	q := speech.Choice("Which board?", options...)
	ans := ask(q.Text)
	ans.open, ans.echo = q, true
	return ans
}

// narrowed takes out the boards that the sentence can't mean.
func narrowed(boards []book.Named[book.Board], s speech.Sentence) []book.Named[book.Board] {
	text := " " + strings.Join(folded(s), " ") + " "
	for _, b := range boards {
		if strings.Contains(text, " "+strings.ToLower(b.Name)+" ") {
			return []book.Named[book.Board]{b}
		}
	}
	left := boards
	if timber, ok := timberIn(s); ok {
		left = keep(left, func(b book.Board) bool { return b.Species == timber })
	}
	if s.Says("offcut|offcuts") {
		left = keep(left, func(b book.Board) bool { return b.Offcut })
	}
	if s.Says("sheet|sheets") {
		left = keep(left, func(b book.Board) bool { return b.Sheet })
	}
	if n, ok := numberOfBoard(s); ok {
		switch {
		case n == -1 && len(left) > 0:
			n = len(left)
			fallthrough
		case n >= 1 && n <= len(left):
			return left[n-1 : n]
		}
		return nil
	}
	for _, by := range extremes {
		if s.Says(by.words) {
			return mostly(left, by.size)
		}
	}
	return left
}

// extremes are the ways of naming a board by being the most of something.
var extremes = []struct {
	words string
	size  func(book.Board) book.MM
}{
	{"long|longest|longer", func(b book.Board) book.MM { return b.Length }},
	{"short|shortest|shorter", func(b book.Board) book.MM { return -b.Length }},
	{"wide|widest|wider", func(b book.Board) book.MM { return b.Width }},
	{"narrow|narrowest|narrower", func(b book.Board) book.MM { return -b.Width }},
	{"thick|thickest|thicker", func(b book.Board) book.MM { return b.Thickness }},
	{"thin|thinnest|thinner", func(b book.Board) book.MM { return -b.Thickness }},
}

// mostly gives the boards that are the most of something; several if they are alike.
func mostly(boards []book.Named[book.Board], size func(book.Board) book.MM) []book.Named[book.Board] {
	var best []book.Named[book.Board]
	for _, b := range boards {
		switch {
		case len(best) == 0 || size(b.Is) > size(best[0].Is):
			best = []book.Named[book.Board]{b}
		case size(b.Is) == size(best[0].Is):
			best = append(best, b)
		}
	}
	return best
}

func keep(boards []book.Named[book.Board], want func(book.Board) bool) []book.Named[book.Board] {
	var out []book.Named[book.Board]
	for _, b := range boards {
		if want(b.Is) {
			out = append(out, b)
		}
	}
	return out
}

func timberIn(s speech.Sentence) (string, bool) {
	for i := range s.Items {
		if w, used := boardWords.At(s, i); used > 0 {
			return w, true
		}
	}
	return "", false
}

// folded gives the words and numbers of a sentence as names are folded.
func folded(s speech.Sentence) []string {
	out := make([]string, len(s.Items))
	for i, it := range s.Items {
		out[i] = cmp.Or(store.Fold(s.Text[it.Start:it.End]), "-")
	}
	return out
}

// numberOfBoard reads which of several boards is meant: second, board 2, the last (-1).
func numberOfBoard(s speech.Sentence) (int, bool) {
	if s.Says("last .. board|plank|sheet|one") {
		return -1, true
	}
	for i, it := range s.Items {
		if it.Q == nil || it.Q.Value == nil || !it.Q.Integer {
			continue
		}
		n := int(it.Q.Value.Num().Int64())
		behind := i > 0 && (s.Items[i-1].Stem == speech.Stem("board") || s.Items[i-1].Stem == speech.Stem("plank") || s.Items[i-1].Text == "no" || s.Items[i-1].Text == "number")
		if it.Q.Kind == speech.KindOrdinal || it.Q.Kind == speech.KindLabel || behind && (it.Q.Bare() || it.Q.Kind == speech.KindCount) {
			return n, true
		}
	}
	for n, w := range []string{"first", "second", "third", "fourth", "fifth", "sixth"} {
		if s.Says("=" + w) {
			return n + 1, true
		}
	}
	return 0, false
}
