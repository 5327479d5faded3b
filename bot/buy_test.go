package bot_test

import (
	"fmt"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"testing"

	"fettle/bot/fetch"
)

// oakYard is a workshop that has the price list of a merchant with oak in two sizes.
func oakYard(t *testing.T) *workshop {
	t.Helper()
	s := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		fmt.Fprint(w, `<title>Hollow Lane timber</title><table><tr><th>Species<th>Thickness (mm)<th>Width (mm)<th>Length (m)<th>Price each</tr>
			<tr><td>Sapele<td>32<td>210<td>2.6<td>31.20</tr><tr><td>Oak<td>27<td>150<td>3<td>20</tr><tr><td>Oak<td>27<td>200<td>2.4<td>22</tr></table>`)
	}))
	t.Cleanup(s.Close)
	at := netip.MustParseAddrPort(s.Listener.Addr().String()).Addr()
	w := open(t)
	w.desk.Fetching(fetch.New(func(a netip.Addr) bool { return a == at }).Page)
	w.say("Petra", "@price list from "+s.URL)
	w.wants(w.say("Petra", "@yes"), "3 lines")
	return w
}

// A slat's blank is 930 × 130 × 27, so that a board of 3000 × 150 holds three and one of 2400 × 200
// two: 24 slats less the four of the boards on hand are 7 of the first, 140. With 10 % spare 20 blanks are
// 0.0718 m³, which 7 boards (0.0851) hold. With 50 % they are 0.0979 m³: more than 7 boards
// (0.0851) and less than 9 (0.1094); with 100 % 0.1306 m³, which 11 boards (0.1337) hold first.
func TestWhatIsBoughtFromAPriceList(t *testing.T) {
	w := oakYard(t)
	w.say("Petra", "@add 24 slats 830 x 110 x 20 oak")
	w.wants(w.say("Petra", "@got 2 oak boards 2600 x 210 x 27"), "oak 1 to 2")
	for _, c := range []struct{ spare, want string }{{"0", "Buy 7 boards for 140"}, {"10", "Buy 7 boards for 140"}, {"50", "Buy 9 boards for 180"}, {"100", "Buy 11 boards for 220"}} {
		w.say("Petra", "@allow "+c.spare+" % spare timber")
		w.wants(w.say("Petra", "@what do we need to buy"), c.want)
	}
}
