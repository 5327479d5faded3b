package published

import (
	"bufio"
	"fmt"
	"io"
	"strconv"

	"fettle/calc/cutplan/line"
)

// most is how many instances or pieces a file may announce; the published ones have a
// thousand at most.
const most = 100_000

// BinPacking reads instances in the OR-Library's text format for bin packing: how many
// instances; for each its name, then capacity, number of pieces and best known number of
// bins (0 where unknown), then one size a piece. An error names the word it stopped at.
func BinPacking(r io.Reader) ([]Line, error) {
	w := newWords(r)
	n := w.number("number of instances", 0, most)
	var all []Line
	for k := int64(0); k < n && w.err == nil; k++ {
		name := w.next("name of an instance")
		capacity := w.number("capacity", 1, line.MaxLength)
		pieces := w.number("number of pieces", 0, most)
		w.number("best known number of bins", 0, most)
		p := line.Problem{Stocks: []line.Stock{{Length: capacity, Cost: 1}}}
		p.Items = w.pieces(pieces)
		all = append(all, Line{name, p})
	}
	return all, w.end()
}

// SeveralStocks reads one instance with several stock lengths: how many stocks; length and
// cost of each; number of pieces; one size a piece. An error names the word it stopped at.
func SeveralStocks(r io.Reader) (line.Problem, error) {
	w := newWords(r)
	var p line.Problem
	n := w.number("number of stocks", 1, most)
	for k := int64(0); k < n && w.err == nil; k++ {
		length := w.number("stock length", 1, line.MaxLength)
		cost := w.number("stock cost", 1, line.MaxCost)
		p.Stocks = append(p.Stocks, line.Stock{Length: length, Cost: cost})
	}
	p.Items = w.pieces(w.number("number of pieces", 0, most))
	return p, w.end()
}

// words reads a text word by word and keeps the first error.
type words struct {
	scan  *bufio.Scanner
	count int
	err   error
}

func newWords(r io.Reader) *words {
	s := bufio.NewScanner(r)
	s.Split(bufio.ScanWords)
	return &words{scan: s}
}

func (w *words) next(what string) string {
	if w.err != nil {
		return ""
	}
	if !w.scan.Scan() {
		if w.err = w.scan.Err(); w.err == nil {
			w.err = io.ErrUnexpectedEOF
		}
		w.err = fmt.Errorf("read the %s, word %d: %w", what, w.count+1, w.err)
		return ""
	}
	w.count++
	return w.scan.Text()
}

func (w *words) number(what string, low, high int64) int64 {
	word := w.next(what)
	if w.err != nil {
		return 0
	}
	n, err := strconv.ParseInt(word, 10, 64)
	if err != nil || n < low || n > high {
		w.err = fmt.Errorf("read the %s, word %d: %q is not a whole number in %d to %d", what, w.count, word, low, high)
		return 0
	}
	return n
}

func (w *words) pieces(n int64) []line.Item {
	var items []line.Item
	for k := int64(0); k < n && w.err == nil; k++ {
		items = append(items, line.Item{Length: w.number("size of a piece", 1, line.MaxLength), Quantity: 1})
	}
	return items
}

// end is the first error, or that there is more than was announced.
func (w *words) end() error {
	if w.err == nil && w.scan.Scan() {
		return fmt.Errorf("more than was announced, from word %d: %q", w.count+1, w.scan.Text())
	}
	return w.err
}
