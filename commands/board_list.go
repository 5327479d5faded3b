package commands

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"net/url"
	"path"
	"regexp"
	"slices"
	"strings"

	"fettle/commands/book"
	"fettle/commands/pricelist"
	"fettle/commands/speech"
	"fettle/store"
)

// mostOffers is how many lines of a price list are taken in.
const mostOffers = 300

var address = regexp.MustCompile(`https?://[^\s<>"')\]]+`)

// pageAddress is the address of a page that a message names, or "".
func pageAddress(text string) string { return strings.TrimRight(address.FindString(text), ".,;:!?") }

// NamesPage says whether a message names a page at all.
func NamesPage(text string) bool { return pageAddress(text) != "" }

// readPriceList shows what a merchant's list holds and asks whether to take it in.
func (a *Ask) readPriceList() Answer {
	i := slices.IndexFunc(a.Files, isPage)
	switch {
	case i < 0 && pageAddress(a.Word("sentence")) != "":
		ans := ask("I can't fetch pages here. Attach the page as an HTML file where there is a chat.")
		ans.wants = pageAddress(a.Word("sentence"))
		return ans
	case i < 0:
		return ask("Which page? Give its address, or attach it as an HTML file.")
	case a.Files[i].Data == nil:
		return ask(cmp.Or(a.Files[i].Ref, "That file can't be read. Attach the page as an HTML file of at most 1 MB."))
	}
	list, err := pricelist.Read(bytes.NewReader(a.Files[i].Data))
	if errors.Is(err, pricelist.ErrNoTable) {
		return ask("There is no table with thickness, width, length and price on that page. Is there another, or shall I be told board by board?")
	}
	if err != nil {
		return ask("That page can't be read. Is it an HTML page?")
	}
	return a.offerPriceList(list, a.Files[i])
}

func isPage(f store.File) bool {
	ext := strings.ToLower(path.Ext(f.Name))
	return ext == ".html" || ext == ".htm" || strings.HasPrefix(f.Media, "text/html") || f.Media == RefusedPage
}

// RefusedPage is the media type of a page that could not be fetched; its Ref says why, as a
// sentence.
const RefusedPage = "text/x-refused"

// offerPriceList asks whether to take in what was read; nothing is before somebody says yes.
func (a *Ask) offerPriceList(list pricelist.List, from store.File) Answer {
	if len(list.Offers) == 0 {
		ans := ask(fmt.Sprintf("Not one of %s on that page can be read for certain: %s. Attach a list with sizes and prices?", plural(len(list.Skipped), "line", "lines"), list.Skipped[0].Reason))
		ans.echo = true
		return ans
	}
	offers := list.Offers[:min(len(list.Offers), mostOffers)]
	boards := make([]book.Board, len(offers))
	for i, o := range offers {
		species := o.Species
		if w, ok := timberIn(speech.Read(o.Species)); ok {
			species = w
		}
		boards[i] = book.Board{Length: book.MM(o.Length), Width: book.MM(o.Width), Thickness: book.MM(o.Thickness),
			Species: shorten(species, 60), Price: o.Price, ForSale: true, Sheet: isSheet(species), From: sourceOf(list, from)}
	}
	data, err := json.Marshal(boards)
	if err != nil {
		return ask("That list can't be kept.")
	}
	take := speech.Request{Topic: "board", Slots: map[string]speech.Slot{"action": {Word: "take"}, "offers": {Word: string(data)}}}
	text := fmt.Sprintf("Take in %s from %s?", plural(len(boards), "line", "lines"), shorten(boards[0].From, 60))
	ans := ask(text)
	ans.echo = true
	ans.open = &speech.Question{Text: text + "\n" + a.offersText(boards, list.Skipped), Options: []speech.Option{{Label: "yes, take it in", Words: []string{"take it", "take it in", "take them"}, Request: take}}}
	ans.Question = ans.open.Text
	return ans
}

// offersText lists what was read, and what was not and why, so that it can be checked.
func (a *Ask) offersText(boards []book.Board, skipped []pricelist.Skipped) string {
	var b strings.Builder
	for _, o := range boards[:min(len(boards), 12)] {
		fmt.Fprintf(&b, "- %s %s\n", cmp.Or(o.Species, "timber"), a.boardText(o))
	}
	if n := len(boards) - 12; n > 0 {
		fmt.Fprintf(&b, "- and %d more\n", n)
	}
	for _, s := range skipped[:min(len(skipped), 4)] {
		fmt.Fprintf(&b, "- left out: %s (%s)\n", shorten(s.Line, 60), s.Reason)
	}
	if n := len(skipped) - 4; n > 0 {
		fmt.Fprintf(&b, "- left out: %d more\n", n)
	}
	return strings.TrimSpace(b.String())
}

// sourceOf names where a list is from: the page's title, or its address, or the file's name.
func sourceOf(list pricelist.List, from store.File) string {
	if list.Title != "" {
		return shorten(list.Title, 60)
	}
	if u, err := url.Parse(from.Ref); err == nil && u.Hostname() != "" {
		return u.Hostname()
	}
	return shorten(from.Name, 60)
}

// takePriceList takes in what was shown. A list from the same merchant replaces the one before.
func (a *Ask) takePriceList() Answer {
	var offers []book.Board
	if err := json.Unmarshal([]byte(a.Word("offers")), &offers); err != nil || len(offers) == 0 {
		return ask("That list is gone. Send it once more.")
	}
	boards, err := book.Boards(a.Tx, a.Project.ID)
	if err != nil {
		return ask(store.Sentence(err))
	}
	ans := say(fmt.Sprintf("Price list taken in: %s from %s", plural(len(offers), "line", "lines"), shorten(offers[0].From, 60)), "“What do we need to buy” reckons with it.")
	ans.echo = true
	for _, b := range boards {
		if b.Is.ForSale && b.Is.From == offers[0].From {
			ans.effects = append(ans.effects, remove(a.Project.ID, book.WhatBoard, b.Name))
		}
	}
	for _, o := range offers {
		name := fmt.Sprintf("%s %s from %s", calledBy(o), sizeName(o), shorten(o.From, 40))
		ans.effects = append(ans.effects, put(a.Project.ID, book.WhatBoard, name, o))
	}
	return ans
}

func sizeName(b book.Board) string {
	return fmt.Sprintf("%g×%g×%g", b.Length.MM(), b.Width.MM(), b.Thickness.MM())
}
