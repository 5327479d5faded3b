// Package pricelist reads a merchant's price list from a web page: tables of timber with
// thickness, width, length and price, as merchants write them. Units stand in the header or in
// the cell; a price is for one board, for a metre or for a cubic metre. What cannot be read with
// certainty is left out and said, never guessed.
package pricelist

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"github.com/PuerkitoBio/goquery"

	"fettle/calc/measure"
)

// Offer is one line of a price list.
type Offer struct {
	Species   string // as the merchant calls it, "" if the line does not say
	Length    measure.Length
	Width     measure.Length
	Thickness measure.Length
	Price     float64 // of one board, in the list's currency
	Said      string  // the price as it stands in the list, with what it is for
}

// Skipped is a line that could not be read, and why, as a sentence.
type Skipped struct {
	Line   string
	Reason string
}

// List is what a page offers.
type List struct {
	Title   string
	Offers  []Offer
	Skipped []Skipped
}

// ErrNoTable is returned for a page without a table that has sizes and prices.
var ErrNoTable = errors.New("there is no table with thickness, width, length and price on that page")

// Most limits of what is read, so that no page can keep the program busy.
const (
	mostTables = 200
	mostLines  = 5000
	mostCells  = 60
)

// Read reads a page. It fails if the page is no HTML or has no table with sizes and prices.
func Read(r io.Reader) (List, error) {
	doc, err := goquery.NewDocumentFromReader(r)
	if err != nil {
		return List{}, fmt.Errorf("read price list: %w", err)
	}
	list := List{Title: clean(doc.Find("title").First().Text())}
	found := false
	doc.Find("table").EachWithBreak(func(i int, t *goquery.Selection) bool {
		if t.Find("table").Length() == 0 { // the innermost holds the figures
			found = list.table(t) || found
		}
		return i < mostTables && len(list.Offers)+len(list.Skipped) < mostLines
	})
	if !found {
		return List{}, ErrNoTable
	}
	return list, nil
}

// table takes in the lines of one table, and says whether it is one of timber and prices.
func (l *List) table(t *goquery.Selection) bool {
	var head *columns
	caption := heading(t)
	t.Find("tr").EachWithBreak(func(_ int, tr *goquery.Selection) bool {
		cells := cellsOf(tr)
		switch {
		case len(cells) == 0 || blank(cells):
		case head == nil:
			head = readHeader(cells)
		case len(cells) == 1: // a line across the table names the timber of those below
			caption = cells[0]
		default:
			l.line(head, cells, caption)
		}
		return len(l.Offers)+len(l.Skipped) < mostLines
	})
	return head != nil
}

// heading is what stands over a table: its caption, or the heading before it.
func heading(t *goquery.Selection) string {
	if c := clean(t.Find("caption").First().Text()); c != "" {
		return c
	}
	return clean(t.PrevAllFiltered("h1, h2, h3, h4").First().Text())
}

func cellsOf(tr *goquery.Selection) []string {
	var cells []string
	tr.Find("th, td").Each(func(i int, td *goquery.Selection) {
		if i < mostCells {
			cells = append(cells, clean(td.Text()))
		}
	})
	return cells
}

func blank(cells []string) bool { return strings.Join(cells, "") == "" }

// clean puts a text on one line, without the spaces that a page has for its looks.
func clean(s string) string { return strings.Join(strings.Fields(s), " ") }

func (l *List) line(head *columns, cells []string, caption string) {
	offer, err := head.offer(cells, caption)
	if err != nil {
		l.Skipped = append(l.Skipped, Skipped{Line: short(strings.Join(cells, " | ")), Reason: err.Error()})
		return
	}
	l.Offers = append(l.Offers, offer)
}

func short(s string) string {
	if r := []rune(s); len(r) > 80 {
		return string(r[:79]) + "…"
	}
	return s
}
