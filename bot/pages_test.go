package bot_test

import (
	"context"
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"strings"
	"testing"

	"fettle/bot/fetch"
	"fettle/store"
)

type file = store.File

// yard is a merchant's server on this machine, and a workshop whose desk may reach it and no other.
func yard(t *testing.T) (*workshop, string) {
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		fmt.Fprint(w, `<title>Hollow Lane timber</title><table><tr><th>Species<th>Thickness (mm)<th>Width (mm)<th>Length (m)<th>Price per metre</tr>
			<tr><td>Sapele<td>32<td>210<td>2.6<td>12.00</tr><tr><td>Ash<td>27<td>150<td>3<td>9.50</tr><tr><td>Oak<td>27<td>random<td>3<td>9.50</tr></table>`)
	}))
	t.Cleanup(s.Close)
	at := netip.MustParseAddrPort(s.Listener.Addr().String()).Addr()
	w := open(t)
	w.desk.Fetching(fetch.New(func(a netip.Addr) bool { return a == at }).Page)
	return w, s.URL
}

// A price list is shown before anything is taken in, and taken in by a yes.
func TestAPriceListIsShownBeforeItIsTakenIn(t *testing.T) {
	w, url := yard(t)
	shown := w.say("Petra", "@price list from "+url+"/list.html please")
	for _, want := range []string{"Take in 2 lines from Hollow Lane timber", "2600 × 210 × 32 mm, 31.2 each", "left out: Oak", "random"} {
		w.wants(shown, want)
	}
	w.wants(w.say("Petra", "@what timber have we got"), "No boards on hand")
	w.wants(w.say("Petra", "@price list from "+url), "Take in 2 lines")
	w.wants(w.say("Petra", "@yes"), "Price list taken in: 2 lines from Hollow Lane timber")
	w.wants(w.say("Gil", "@what timber have we got"), "No boards on hand") // they are for sale, not here
	w.wants(w.say("Petra", "@scratch that"), "Taken back")
}

// Where the chat says it, private addresses are refused with what to do instead.
func TestAPrivatePageIsRefused(t *testing.T) {
	w := open(t)
	w.desk.Fetching(fetch.New(fetch.Public).Page)
	w.wants(w.say("Petra", "@price list http://127.0.0.1:80/list"), "private network")
	w.wants(w.say("Petra", "@price list file:///etc/passwd"), "Which page?")
}

// Nothing is fetched for a message that is not answered, or for an address in passing.
func TestNothingIsFetchedUnasked(t *testing.T) {
	w := open(t)
	fetched := 0
	w.desk.Fetching(func(_ context.Context, address string) (f file, err error) { fetched++; return f, fmt.Errorf("no") })
	w.say("Petra", "price list https://yard.example/list")
	w.say("Petra", "@rough size for 600 by 45, see https://yard.example/list")
	w.say("Petra", "@look at https://yard.example/photo.jpg")
	if fetched != 0 {
		t.Errorf("fetched %d pages", fetched)
	}
	if w.say("Petra", "@price list https://yard.example/list"); fetched != 1 {
		t.Errorf("fetched %d times, want once", fetched)
	}
}

// The price list of a page that is attached is read like one that is fetched.
func TestAnAttachedPriceList(t *testing.T) {
	w := open(t)
	m := w.message("Petra", "@here's the yard's price list")
	m.Files = []file{{Name: "list.html", Media: "text/html", Data: []byte(strings.Repeat(" ", 10) + `<table><tr><th>Size (mm)<th>Price each</tr><tr><td>2400 x 150 x 27<td>31,50</tr></table>`)}}
	w.hear(m)
	w.wants(w.sent(), "Take in 1 line from list.html")
	w.wants(w.say("Petra", "@1"), "Price list taken in")
}
