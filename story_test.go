package main_test

import (
	"context"
	"encoding/json"
	"fmt"
	"log/slog"
	"math"
	"net/http"
	"net/http/httptest"
	"net/netip"
	"path/filepath"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"fettle/bot"
	"fettle/bot/fetch"
	"fettle/bot/mattermost"
	"fettle/bot/mattermost/mmtest"
	"fettle/store"
)

// story is two people who fit out a hut, talking on a real chat server; the program's clock can
// be put forward.
type story struct {
	*testing.T
	server  *mmtest.Server
	channel string
	desk    *bot.Desk
	ahead   *atomic.Int64
	heard   int // answers so far
}

// tell has somebody speak to the program and checks that each of wants stands in the answer.
func (s *story) tell(who *mmtest.Person, text string, wants ...string) string {
	s.Helper()
	who.Post(s.T, s.channel, "@fettle "+text)
	return s.next(text, wants...)
}

// next waits for the next answer.
func (s *story) next(to string, wants ...string) string {
	s.Helper()
	s.heard++
	got := s.server.AwaitAnswers(s.T, s.channel, s.heard)[s.heard-1].Message
	for _, w := range wants {
		if !strings.Contains(got, w) {
			s.Errorf("%q is answered without %q:\n%s", to, w, got)
		}
	}
	return got
}

// later puts the clock forward and lets what is due be called out.
func (s *story) later(d time.Duration) {
	s.Helper()
	s.ahead.Add(int64(d))
	if err := s.desk.Tick(s.Context()); err != nil {
		s.Fatal(err)
	}
}

// yardPage is a merchant's page; the prices of its boards are worked out by hand: 2.4 m at 11.50
// and 3 m at 9.20.
const yardPage = `<title>Hollow Lane timber</title><table>
<tr><th>Species<th>Thickness (mm)<th>Width (mm)<th>Length (m)<th>Price per metre</tr>
<tr><td>Sapele<td>52<td>210<td>2.4<td>11.50</tr>
<tr><td>Ash<td>27<td>150<td>3<td>9.20</tr></table>`

// begin starts the program on a real server, with a merchant's server beside it.
func begin(t *testing.T) (*story, string) {
	yard := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		fmt.Fprint(w, yardPage)
	}))
	t.Cleanup(yard.Close)
	server := mmtest.Start(t)
	s := &story{T: t, server: server, channel: server.Channel(t), ahead: &atomic.Int64{}}
	clock := func() time.Time { return time.Now().Add(time.Duration(s.ahead.Load())) }
	db, err := store.Open(t.Context(), filepath.Join(t.TempDir(), "hut.db"), clock)
	if err != nil {
		t.Fatal(err)
	}
	s.desk = bot.NewDesk(db, clock, time.UTC, slog.New(slog.DiscardHandler))
	at := netip.MustParseAddrPort(yard.Listener.Addr().String()).Addr()
	s.desk.Fetching(fetch.New(func(a netip.Addr) bool { return a == at }).Page)
	ctx, cancel := context.WithCancel(t.Context())
	over := make(chan error, 1)
	go func() {
		over <- mattermost.Run(ctx, mattermost.Config{URL: server.URL, Token: server.Bot.Token}, s.desk)
	}()
	t.Cleanup(func() {
		cancel()
		if err := <-over; err != nil {
			t.Errorf("the bot ended with %v", err)
		}
		if err := db.Close(); err != nil {
			t.Error(err)
		}
	})
	return s, yard.URL + "/prices"
}

// The opening of the story: 812 at the top, 806 at the bottom, 1760 high, both sides leaning
// alike.
const (
	openTop, openBottom, openHigh = 812.0, 806.0, 1760.0
	clearance, stiles, tenons     = 3.0, 70.0, 30.0
)

// railOver is how long a rail is over its tenons whose wider edge lies at y above the sill: the
// opening there, less clearance and stile on both sides measured along the rail, plus the tenons.
func railOver(y float64) float64 {
	lean := math.Atan((openTop - openBottom) / 2 / openHigh)
	return openBottom + (openTop-openBottom)*y/openHigh - 2*(clearance+stiles)/math.Cos(lean) + 2*tenons
}

// trimOutside is the outer edge of each side of a mitred trim round the opening, with its inner
// edge a reveal away: the sides of the opening moved out by reveal and width, and made to meet.
func trimOutside(reveal, width float64) (top, bottom, side float64) {
	d := reveal + width
	lean := math.Atan((openTop - openBottom) / 2 / openHigh)
	half := func(y float64) float64 { return (openBottom+(openTop-openBottom)*y/openHigh)/2 + d/math.Cos(lean) }
	return 2 * half(openHigh+d), 2 * half(-d), (openHigh + 2*d) / math.Cos(lean)
}

// TestStory plays a fit-out from the first measure to the book.
func TestStory(t *testing.T) {
	s, yard := begin(t)
	petra, gil := s.server.Petra, s.server.Gil

	s.tell(petra, "the opening is 812 at the top, 806 at the bottom, 1760 high on both sides", "812 mm", "806 mm", "1760 mm")
	s.tell(gil, "what was the opening at the top", "812 mm", "Petra")
	s.tell(petra, "a stable door for the opening, sapele", "out of square", "stile")
	s.tell(petra, "stiles 70", "stiles 70 mm")
	s.tell(petra, "tenons 30", "tenons 30 mm")
	s.tell(gil, "trim 60 wide round it with a 5 reveal", "Trim: 4 pieces")
	s.tell(petra, "a rack with two shelves 830 wide for nine mugs 84 wide, oak", "gaps of 7.4 mm") // (830 − 9 · 84) / 10
	s.tell(gil, "a laminated bow 1200 span 80 rise, 40 thick, ash", "radius 2290")                 // (600² + 80²) / (2 · 80)

	s.tell(gil, "we have 6 sapele boards 2600 x 210 x 52, 48 each", "sapele 1 to 6")
	s.tell(gil, "sapele 2 has a knot 900 in from the left, 60 across", "from 870 to 930")
	s.tell(gil, "got 3 oak boards 2400 x 180 x 27, 22 each", "oak 1 to 3")
	s.tell(petra, "price list from "+yard, "Take in 2 lines from Hollow Lane timber", "27.6 each") // 2.4 · 11.50; 3 · 9.20
	s.tell(petra, "yes", "2 lines")

	// The panels are wider than any board on hand: four staves
	// each, as boards of 210 less 20 for jointing hold a quarter of their 680 and 684 and not a third.
	s.tell(petra, "plan the cuts", "parts from", "sapele", "so glued up", "upper panel of 4 staves", "lower panel of 4 staves")
	if post := s.server.AwaitAnswers(t, s.channel, s.heard)[s.heard-1]; len(post.FileIds) == 0 {
		t.Error("the plan comes without a picture")
	}
	// The bow's ash is for sale: 8 plies of 45 × 5 and 1335 long, each 1435 × 65 rough, side by side
	// from boards 150 wide.
	s.tell(gil, "what do we need to buy", "2 boards for 55.2", "ash")
	sheet := s.tell(petra, "run sheet for tonight", "Crosscut at", "Rip, fence at", "Thickness to 40")
	first := strings.Index(sheet, "☐ 1.")
	if first < 0 {
		t.Fatalf("the run sheet has no first step:\n%s", sheet)
	}
	gil.React(t, s.server.AwaitAnswers(t, s.channel, s.heard)[s.heard-1], "white_check_mark")
	s.next("a check mark under the run sheet", "Ticked: 1.")
	s.tell(petra, "run sheet", "☑ 1.")
	s.tell(gil, "cut the upper top rail short", "1 × upper top rail to make again")

	s.tell(petra, "I'll take the rails", "rail")
	s.tell(gil, "who's on the rails", "Petra")
	s.tell(petra, "opening top is 818", "Petra measured 812", "Both are kept")
	s.tell(petra, "opening top 812 stands", "812 mm")

	s.tell(gil, "our glue: epoxy open 20, clamp 60, work after 120, full strength after 240 at 20 degrees", "open 20 min, clamp 60 min")
	s.tell(gil, "bow 1 was just glued with epoxy, 20 degrees", "Bow 1")
	s.later(61 * time.Minute)
	s.next("an hour later", "clamps can come off bow 1", "Gil")
	s.tell(petra, "what's in the clamps", "ow 1")

	s.tell(gil, "note: the hinge side is the left one", "Noted")
	s.tell(gil, "scratch that", "Taken back")
	s.tell(petra, "who measured the opening", "812 at the top")

	s.tell(petra, "send me the book as json", "Here is the book")
	s.checkBook(s.book())
}

// bookSection is one table of the book as it was exported.
type bookSection struct {
	Key   string              `json:"section"`
	Lines []map[string]string `json:"lines"`
}

// book fetches the book that hangs on the last answer.
func (s *story) book() map[string][]map[string]string {
	s.Helper()
	post := s.server.AwaitAnswers(s.T, s.channel, s.heard)[s.heard-1]
	if len(post.FileIds) != 1 {
		s.Fatalf("the answer has %d files", len(post.FileIds))
	}
	data, _, err := s.server.Petra.Client.GetFile(s.Context(), post.FileIds[0])
	if err != nil {
		s.Fatal(err)
	}
	var book struct {
		Sections []bookSection `json:"sections"`
	}
	if err := json.Unmarshal(data, &book); err != nil {
		s.Fatalf("the book is no JSON: %v", err)
	}
	out := map[string][]map[string]string{}
	for _, section := range book.Sections {
		out[section.Key] = section.Lines
	}
	return out
}

// checkBook compares the numbers of the book with what follows from the measures.
func (s *story) checkBook(book map[string][]map[string]string) {
	s.Helper()
	length := map[string]float64{}
	for _, part := range book["parts"] {
		l, err := strconv.ParseFloat(part["Length (mm)"], 64)
		if err != nil {
			s.Errorf("the length of %s is %q", part["Part"], part["Length (mm)"])
		}
		length[part["Part"]] = l
	}
	// Two leaves of 883: together the opening less 3 above and below, and the rebate of 15 with 3
	// between that they share. The rails' wider edges lie at the heights that follow.
	const leaf = (openHigh - 2*clearance + 15 - 3) / 2
	top, bottom, side := trimOutside(5, 60)
	for name, want := range map[string]float64{
		"lower bottom rail": railOver(clearance + 145),
		"lower top rail":    railOver(clearance + leaf),
		"upper bottom rail": railOver(openHigh - clearance - leaf + 95),
		"upper top rail":    railOver(openHigh - clearance),
		"top trim":          top, "bottom trim": bottom, "side trim": side,
	} {
		if got, ok := length[name]; !ok || math.Abs(got-want) > 0.26 { // the book rounds to half a millimetre
			s.Errorf("%s is %.2f long in the book, want %.2f", name, got, want)
		}
	}
	if len(book["stock"]) != 9 {
		s.Errorf("the book has %d boards on hand, want 9", len(book["stock"]))
	}
	if len(book["notes"]) != 0 {
		s.Errorf("a note that was taken back is in the book: %v", book["notes"])
	}
	for _, m := range book["measures"] {
		if m["What"] == "opening top" && m["Measure"] != "812 mm" {
			s.Errorf("the opening's top is %s in the book", m["Measure"])
		}
	}
	if n := len(book["log"]); n != s.heard-1 { // every message and the sign, but one answer was a call
		s.Errorf("the log has %d entries, want %d", n, s.heard-1)
	}
	if len(book["plan"]) == 0 || len(book["run-sheet"]) == 0 {
		s.Errorf("the book has %d lines of a plan and %d of a run sheet", len(book["plan"]), len(book["run-sheet"]))
	}
	if steps := book["run-sheet"]; len(steps) > 0 && !strings.Contains(steps[0]["Setting"], "Crosscut at") {
		s.Errorf("the first step is %q", steps[0]["Setting"])
	}
}
