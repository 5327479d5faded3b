package room_test

import (
	"encoding/json"
	"fmt"
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
	petra.await("the tick", "document.querySelector('button[value=\"rack slats finished\"]').getAttribute('aria-checked') === 'true'")
	petra.shot("parts")
	gil.open("/room/1/parts")
	gil.await("the tick", "document.querySelector('button[value=\"rack slats finished\"]').getAttribute('aria-checked') === 'true'")
	gil.shot("parts-small")
	if got := gil.count("button[aria-checked='false']"); got != 1 {
		t.Errorf("%d parts are not finished, want 1", got)
	}
	h.put(book.WhatBoard, "larch 1", book.Board{Quantity: 1, Length: 2600 * mm, Width: 210 * mm, Thickness: 32 * mm, Species: "larch", Faults: []book.Fault{{X: 900 * mm, Kind: "knot"}}})
	petra.open("/room/1/stock")
	petra.await("the board", "document.getElementById('view').innerText.includes('knot at 900')")
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
	petra.open("/room/1/plan")
	petra.await("the drawing on its page", "document.querySelector('.drawing img')?.naturalWidth > 0")
	petra.shot("plan")
	petra.fine()
}

// TestClampsCountDown counts down to when the clamps come off, and calls out.
func TestClampsCountDown(t *testing.T) {
	b := browser(t)
	h := build(t)
	petra := newPhone(h, b, "Petra", 390, 844)
	petra.join()
	petra.do(chromedp.Evaluate("navigator.vibrate = (p) => { window.shaken = (window.shaken || 0) + 1; return true; }", nil))
	now := time.Now()
	h.put(book.WhatTimer, "bow", book.Timer{What: "the bow", Adhesive: "epoxy", Who: "Gil", Place: "room:1", Start: now.Add(-7 * time.Hour),
		OpenUntil: now.Add(-6 * time.Hour), ClampsOff: now.Add(4 * time.Second), Workable: now.Add(26 * time.Hour), Cured: now.Add(150 * time.Hour)})
	petra.await("the clock", "document.getElementById('clamps').innerText.includes('the bow') && /in 0:0\\d/.test(document.getElementById('clamps').innerText)")
	petra.shot("clock")
	petra.await("to be called", "window.shaken === 1")
	petra.await("what comes next", fmt.Sprintf("document.getElementById('clamps').innerText.includes(%q)", "plane or sand"))
	petra.open("/room/1/clamps")
	petra.await("the page", "/in 1 d \\d+ h/.test(document.getElementById('view').innerText)")
	petra.shot("clamps")
	petra.fine()
}
