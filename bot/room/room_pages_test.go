package room_test

import (
	"encoding/json"
	"fmt"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"fettle/calc/sketch"
	"fettle/commands/book"
	"fettle/store"
)

// put has Gil change something of the project, as a topic would.
func (h *hut) put(what, name string, data any) {
	h.Helper()
	err := h.db.Write(h.Context(), func(tx *store.Tx) error {
		id, err := tx.Add(store.Entry{Project: 1, Place: "room:1", WhoKey: "gil", Who: "Gil", Kind: store.Message, Text: "about " + name})
		if err == nil {
			_, err = tx.Put(id, 1, what, name, data)
		}
		return err
	})
	if err != nil {
		h.Fatal(err)
	}
}

const mm = 1_000_000 // of the book's lengths

// TestPagesFollow has the pages beside the talk show the book, and change by themselves when it
// changes; a tick is said in the chat.
func TestPagesFollow(t *testing.T) {
	b := browser(t)
	h := build(t)
	petra, gil := newPhone(h, b, "Petra", 390, 844), newPhone(h, b, "Gil", 360, 640)
	petra.join()
	gil.join()
	h.put(book.WhatPart, "rack slats", book.Part{Quantity: 6, Length: 830 * mm, Width: 70 * mm, Thickness: 22 * mm, Species: "oak", Group: "rack"})
	h.put(book.WhatPart, "rack rail", book.Part{Quantity: 2, Length: 712 * mm, Width: 65 * mm, Thickness: 22 * mm, Group: "rack", Stale: "the opening was measured again"})
	petra.open("/room/1/parts")
	petra.await("the parts", "document.getElementById('view').innerText.includes('830 × 70 × 22\u00a0mm')")
	h.put(book.WhatClaim, "rack slats", book.Claim{Who: "Gil"})
	petra.await("the claim", "document.getElementById('view').innerText.includes('Gil')")
	petra.do(click("button[value='rack slats finished']"))
	gil.sees("rack slats finished")
	petra.await("the tick", "document.querySelector('.touch.done')?.innerText.includes('rack slats')")
	petra.shot("parts")
	gil.open("/room/1/parts")
	gil.await("the tick", "document.querySelector('.touch.done')?.innerText.includes('rack slats')")
	gil.shot("parts-small")
	if got := gil.count("button[aria-checked='false']"); got != 1 {
		t.Errorf("%d parts are not finished, want 1", got)
	}
	h.put(book.WhatBoard, "larch 1", book.Board{Quantity: 1, Length: 2600 * mm, Width: 210 * mm, Thickness: 32 * mm, Species: "larch", Faults: []book.Fault{{X: 900 * mm, Length: 60 * mm, Kind: "knot"}}})
	petra.open("/room/1/stock")
	petra.await("the board", "document.getElementById('view').innerText.includes('knot at 900 to 960')")
	petra.fine()
	gil.fine()
}

// TestADrawing shows a drawing of an answer in the talk, and enlarges it.
func TestADrawing(t *testing.T) {
	b := browser(t)
	h := build(t)
	petra := newPhone(h, b, "Petra", 390, 844)
	petra.join()
	sheet := sketch.Sheet{Name: "board B1", Title: "Board B1 with two rails <b>", Width: sketch.PhoneWidth, Height: 150}
	sheet.Add(sketch.Rect(10, 30, 370, 60).Filled(sketch.Wood), sketch.Rect(10, 30, 100, 30), sketch.Words(60, 45, 12, "rail 712"))
	sheet.Add(sketch.Dimension(sketch.Point{X: 10, Y: 90}, sketch.Point{X: 110, Y: 90}, -20, "712")...)
	data, err := json.Marshal(sheet)
	if err != nil {
		t.Fatal(err)
	}
	if err := h.db.Write(t.Context(), func(tx *store.Tx) error {
		asked, err := tx.Add(store.Entry{Project: 1, Place: "room:1", WhoKey: "gil", Who: "Gil", Kind: store.Message, Text: "draw board 1", Topic: "plan"})
		if err != nil {
			return err
		}
		id, err := tx.Add(store.Entry{Project: 1, Place: "room:1", Who: "fettle", Kind: store.Answer, About: asked, Text: "**Board B1**", Topic: "plan", Answer: json.RawMessage(`{"topic":"plan","question":""}`)})
		if err != nil {
			return err
		}
		return tx.Attach(id, store.File{Name: "board B1", Media: sketch.MediaType, Data: data})
	}); err != nil {
		t.Fatal(err)
	}
	petra.sees("Board B1")
	petra.await("the drawing", "document.querySelector('article .drawing img')?.naturalWidth > 0")
	petra.shot("drawing")
	petra.do(click("article .drawing"))
	petra.await("the drawing, large", "document.getElementById('picture').open && document.getElementById('picture-img').naturalWidth > 0")
	was := eval[float64](petra, "document.getElementById('picture-img').getBoundingClientRect().width")
	petra.do(click("#picture [data-zoom='1.4']"))
	if is := eval[float64](petra, "document.getElementById('picture-img').getBoundingClientRect().width"); is < was*1.3 {
		t.Errorf("the drawing was %.0f px wide and is %.0f", was, is)
	}
	petra.shot("drawing-large")
	petra.do(click("#picture-close"))
	petra.fine()
}

// TestThePlanIsTicked has a plan made in the talk: its page has the drawings and a box for each
// board, and a tick there is said in the chat.
func TestThePlanIsTicked(t *testing.T) {
	b := browser(t)
	h := build(t)
	petra, gil := newPhone(h, b, "Petra", 390, 844), newPhone(h, b, "Gil", 360, 640)
	petra.join()
	gil.join()
	h.put(book.WhatPart, "rack slats", book.Part{Quantity: 6, Length: 830 * mm, Width: 70 * mm, Thickness: 22 * mm, Species: "oak"})
	for _, name := range []string{"oak 1", "oak 2"} {
		h.put(book.WhatBoard, name, book.Board{Quantity: 1, Length: 2600 * mm, Width: 210 * mm, Thickness: 32 * mm, Species: "oak"})
	}
	petra.say("plan the cuts")
	petra.await("the drawing", "document.querySelector('article .drawing img')?.naturalWidth > 0")
	petra.say("run sheet for tonight")
	const step = "article .touch button[value='tick step 1']"
	petra.await("a box at the first step", "document.querySelector(\""+step+"\")?.innerText.startsWith('1. ')")
	gil.open("/room/1/plan")
	gil.await("the drawing on its page", "document.querySelector('.drawing img')?.naturalWidth > 0")
	gil.do(click("button[value='tick step 1']"))
	gil.await("the tick", "document.querySelector(\"button[value='untick step 1'][aria-checked='true']\")")
	petra.await("the tick in the talk", "document.querySelector(\"article .touch.done button[value='untick step 1']\")")
	petra.do(click("article .touch button[value='untick step 1']"))
	gil.await("no tick", "document.querySelector(\"button[value='tick step 1'][aria-checked='false']\")")
	petra.await("no tick in the talk", "document.querySelector(\""+step+"\")")
	petra.shot("run-sheet")
	const box = "button[value='oak 1 is cut']"
	gil.await("a box", "document.querySelector(\""+box+"\").getAttribute('aria-checked') === 'false'")
	gil.do(click(box))
	petra.sees("oak 1 is cut")
	gil.await("the tick", "document.querySelector('.touch.done button').innerText.includes('oak 1')")
	gil.shot("plan")
	petra.fine()
	gil.fine()
}

// TestClampsCountDown counts down to when the clamps come off, and calls out. The room's clock is
// put forward, which the page must follow.
func TestClampsCountDown(t *testing.T) {
	b := browser(t)
	var ahead atomic.Int64
	h := build(t, func(h *hut) { h.cfg.Now = func() time.Time { return time.Now().Add(time.Duration(ahead.Load())) } })
	petra := newPhone(h, b, "Petra", 390, 844)
	petra.join()
	petra.do(chromedp.Evaluate("navigator.vibrate = (p) => { window.shaken = (window.shaken || 0) + 1; return true; }", nil))
	now := time.Now()
	h.put(book.WhatTimer, "bow", book.Timer{What: "the bow", Adhesive: "epoxy", Who: "Gil", Place: "room:1", Start: now.Add(-7 * time.Hour),
		OpenUntil: now.Add(-6 * time.Hour), ClampsOff: now.Add(time.Hour), Workable: now.Add(26 * time.Hour), Cured: now.Add(150 * time.Hour)})
	petra.await("the clock", "document.getElementById('clamps').innerText.includes('the bow') && /in 59:\\d\\d/.test(document.getElementById('clamps').innerText)")
	petra.shot("clock")
	ahead.Store(int64(time.Until(now.Add(time.Hour - 6*time.Second))))
	h.put(book.WhatClaim, "bow", book.Claim{Who: "Gil"}) // something to tell the page
	petra.await("to be called", "window.shaken === 1")
	petra.await("what comes next", fmt.Sprintf("document.getElementById('clamps').innerText.includes(%q)", "plane or sand"))
	petra.open("/room/1/clamps")
	petra.await("the page", "/in 1 d \\d+ h/.test(document.getElementById('view').innerText)")
	petra.shot("clamps")
	petra.fine()
}

// TestTicksAreSeen has a list that can be ticked by its signs: the boxes stand at their lines, a tick
// is said in the chat, and the other phone sees it.
func TestTicksAreSeen(t *testing.T) {
	b := browser(t)
	h := build(t)
	petra, gil := newPhone(h, b, "Petra", 390, 844), newPhone(h, b, "Gil", 360, 640)
	petra.join()
	gil.join()
	h.answer("what is there to do", "**2 things to do**\n_At the bench_\n☐ 1. Sharpen the chisels \\<b>\n☐ 2. Wax the drawers\n☑ 3. Sweep", map[string]string{
		"1": "note: the chisels are sharp", "2": "note: the drawers are waxed", "check": "note: something of the list is done"})
	const box = "article .touch button"
	for _, p := range []*phone{petra, gil} {
		p.await("the boxes", "document.querySelectorAll('"+box+"').length === 3")
		if got, want := p.texts(box), "1. Sharpen the chisels <b>"; got[0] != want {
			t.Errorf("%s's first box reads %q, want %q", p.name, got[0], want)
		}
	}
	petra.shot("ticks")
	gil.do(click(box))
	for _, p := range []*phone{petra, gil} {
		p.sees("note: the chisels are sharp")
		p.await("the tick", "document.querySelector('"+box+"').getAttribute('aria-checked') === 'true' && document.querySelector('"+box+"').disabled")
		if n := p.count(box + "[aria-checked='false']"); n != 2 {
			t.Errorf("%s sees %d boxes without a tick, want 2", p.name, n)
		}
	}
	gil.shot("ticked-small")
	petra.fine()
	gil.fine()
}

// answer puts a question of Gil's and the answer to it into the log, as a topic would.
func (h *hut) answer(asked, text string, signs map[string]string) {
	h.Helper()
	data, err := json.Marshal(map[string]any{"topic": "list", "question": "", "signs": signs})
	if err != nil {
		h.Fatal(err)
	}
	err = h.db.Write(h.Context(), func(tx *store.Tx) error {
		id, err := tx.Add(store.Entry{Project: 1, Place: "room:1", WhoKey: "gil", Who: "Gil", Kind: store.Message, Text: asked})
		if err != nil {
			return err
		}
		_, err = tx.Add(store.Entry{Project: 1, Place: "room:1", Who: "fettle", Kind: store.Answer, About: id, Text: text, Answer: data})
		return err
	})
	if err != nil {
		h.Fatal(err)
	}
}
