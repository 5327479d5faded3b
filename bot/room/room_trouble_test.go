package room_test

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/chromedp"

	"fettle/store"
)

// TestTheNetworkGoes cuts the network while Petra writes, closes and opens her page, and mends it:
// each message is there once, in order, and answered once.
func TestTheNetworkGoes(t *testing.T) {
	b := browser(t)
	h := build(t)
	petra, gil := newPhone(h, b, "Petra", 390, 844), newPhone(h, b, "Gil", 360, 640)
	petra.join()
	gil.join()
	petra.say("rough size for 600 by 45 finished")
	gil.sees("Rough 700 × 65 mm")
	h.wifi.cut()
	petra.await("to be told", "document.getElementById('state').innerText.includes('No connection')")
	for n := range 3 {
		petra.say(fmt.Sprintf("rough size for %d by 45 finished", 610+n))
	}
	petra.await("the messages to wait", "document.querySelectorAll('#waiting .pending').length === 3 && document.getElementById('waiting').innerText.includes('waits for the network')")
	petra.shot("offline")
	h.wifi.mend()
	for _, p := range []*phone{petra, gil} {
		for n := range 3 {
			p.sees(fmt.Sprintf("Rough %d × 65 mm", 710+n))
		}
	}
	petra.await("nothing to wait any more", "document.querySelectorAll('#waiting .pending').length === 0")
	petra.open("/room/1")
	petra.sees("Rough 712 × 65 mm")
	want := []string{"600", "610", "611", "612"}
	for _, p := range []*phone{petra, gil} {
		words := p.texts("article.said .words")
		if len(words) != len(want) {
			t.Errorf("%s sees %d messages, want %d: %q", p.name, len(words), len(want), words)
			continue
		}
		for i, n := range want {
			if words[i] != "rough size for "+n+" by 45 finished" {
				t.Errorf("%s sees %q as message %d, want the one for %s", p.name, words[i], i, n)
			}
		}
		if got := p.count("article.answer"); got != len(want) {
			t.Errorf("%s sees %d answers to %d messages", p.name, got, len(want))
		}
		p.fine()
	}
}

// TestTheReplyIsLost has the room keep a message and the phone never hear of it: the second
// attempt is known by its key.
func TestTheReplyIsLost(t *testing.T) {
	b := browser(t)
	h := build(t)
	petra := newPhone(h, b, "Petra", 390, 844)
	petra.join()
	// The page sends its messages through fetch; the first replies are thrown away on the way back.
	petra.do(chromedp.Evaluate(`(() => {
		const real = fetch;
		let lost = 2;
		window.fetch = async (...a) => {
			const reply = await real(...a);
			if (String(a[0]).endsWith("/say") && lost-- > 0) throw new TypeError("lost");
			return reply;
		};
	})()`, nil))
	petra.say("note: the hinge side is the left one")
	petra.sees("Noted")
	petra.await("the queue to be empty", "(localStorage.getItem('fettle:waiting:1') || '[]') === '[]'")
	petra.say("show the notes")
	petra.sees("1 note")
	if got := petra.count("article.said"); got != 2 {
		t.Errorf("%d messages are shown, want 2: %q", got, petra.texts("article.said .words"))
	}
	petra.fine()
}

// TestTheBrowserIsOffline uses the browser's own switch, as in flight mode, and loads the page anew.
func TestTheBrowserIsOffline(t *testing.T) {
	b := browser(t)
	h := build(t)
	petra := newPhone(h, b, "Petra", 390, 844)
	petra.join()
	petra.say("rough size for 600 by 45 finished")
	petra.sees("Rough 700 × 65 mm")
	petra.await("the worker", "navigator.serviceWorker.ready.then(r => true)")
	petra.open("/room/1") // with the worker, which keeps it
	petra.sees("Rough 700 × 65 mm")
	petra.await("the page to be kept", "caches.open('fettle-pages').then(c => c.keys()).then(k => k.length > 0)")
	petra.offline(true)
	h.wifi.cut()
	petra.open("/room/1")
	petra.sees("Rough 700 × 65 mm")
	petra.say("rough size for 610 by 45 finished")
	petra.await("the message to wait", "document.querySelectorAll('#waiting .pending').length === 1")
	petra.open("/room/1") // closed and opened, still without a network
	petra.await("the message to be kept", "document.querySelectorAll('#waiting .pending').length === 1")
	h.wifi.mend()
	petra.offline(false)
	petra.sees("Rough 710 × 65 mm")
	if got := petra.count("article.said"); got != 2 {
		t.Errorf("%d messages are shown, want 2", got)
	}
}

// offline is the browser's flight mode.
func (p *phone) offline(on bool) {
	p.Helper()
	p.do(network.EmulateNetworkConditions(on, 0, -1, -1))
}

// TestTheProgramRestarts leaves a page open while the program ends and starts again: the session
// holds, and the page goes on by itself.
func TestTheProgramRestarts(t *testing.T) {
	b := browser(t)
	h := build(t)
	petra := newPhone(h, b, "Petra", 390, 844)
	petra.join()
	petra.say("rough size for 600 by 45 finished")
	petra.sees("Rough 700 × 65 mm")
	h.restart()
	petra.say("rough size for 610 by 45 finished")
	petra.sees("Rough 710 × 65 mm")
	if got := petra.count("article.said"); got != 2 {
		t.Errorf("%d messages are shown, want 2", got)
	}
	petra.fine()
}

// TestWrongCodes tries five wrong codes, and then the right one, which has to wait as well.
func TestWrongCodes(t *testing.T) {
	b := browser(t)
	h := build(t)
	eve := newPhone(h, b, "Eve", 360, 640)
	eve.open("/")
	for n := range 5 {
		eve.enter("Eve", fmt.Sprintf("guess-%d", n))
		eve.await("to be turned away", "document.querySelector('.error')?.innerText.includes('isn’t the code') && document.querySelector('#code').value === ''")
	}
	eve.shot("wrong-code")
	eve.enter("Eve", theCode)
	eve.await("to be told to wait", "document.querySelector('.error')?.innerText.includes('Too many')")
	eve.open("/room/1")
	eve.await("the door", "document.querySelector('#code')")
	eve.fine()
}

// TestNamesAndWordsRunNothing has somebody come in under a name, and write words, that would run
// if a page took them for more than text.
func TestNamesAndWordsRunNothing(t *testing.T) {
	b := browser(t)
	h := build(t)
	mallory := newPhone(h, b, `<img src=x onerror=alert(1)>"'`, 390, 844)
	mallory.join()
	gil := newPhone(h, b, "Gil", 390, 844)
	gil.join()
	words := []string{
		`<script>alert(1)</script>`, `<svg/onload=alert(1)>`, `"><img src=x onerror=alert(1)>`, `javascript:alert(1)`,
		`fettle, note: [x](javascript:alert(1)) <img src=x onerror=alert(1)> **b** {{.}} ${alert(1)}`, `fettle, start a project called <b onmouseover=alert(1)>x`,
		"fettle, what did we write", `rough size for 600 by 45 "><script>alert(1)</script>`,
	}
	for _, w := range words {
		mallory.say(w)
	}
	for _, p := range []*phone{mallory, gil} {
		p.await("all of it", fmt.Sprintf("document.querySelectorAll('article.said').length >= %d", len(words)))
		for _, path := range []string{"", "/room/1/book", "/room/1/door", "/room/1"} {
			if path != "" {
				p.open(path)
			}
			if got := p.count("main script, main svg:not(.qr), main b[onmouseover], main img[src='x'], a[href^='javascript']"); got != 0 {
				t.Errorf("on %s's page %q, %d things came from words", p.name, path, got)
			}
		}
		if shown := strings.Join(p.texts("article.said .words"), "\n"); !strings.Contains(shown, "<script>alert(1)</script>") {
			t.Errorf("the words are not shown as they were written: %s", shown)
		}
		p.fine()
	}
}

// TestMending edits a message and takes one back: both phones see it.
func TestMending(t *testing.T) {
	b := browser(t)
	h := build(t)
	petra, gil := newPhone(h, b, "Petra", 390, 844), newPhone(h, b, "Gil", 390, 844)
	petra.join()
	gil.join()
	petra.say("kerf is 2.8")
	gil.sees("2.8 mm")
	petra.do(click(".mine .mend summary"))
	petra.shot("mend")
	petra.do(chromedp.SetValue(".mine .mend textarea", "kerf is 3.2"), click(".mine .mend button.main"))
	for _, p := range []*phone{petra, gil} {
		p.sees("3.2 mm")
		p.await("one answer", "document.querySelectorAll('article.answer').length === 1 && document.querySelector('article.answer').innerText.includes('amended')")
	}
	petra.do(click(".mine .mend summary"), click(".mine .mend button.quiet"))
	for _, p := range []*phone{petra, gil} {
		p.sees("took this message back")
		p.sees("scratch that")
		p.fine()
	}
	if got := gil.count(".mend"); got != 0 {
		t.Errorf("Gil may change %d of Petra's messages", got)
	}
}

// TestAPhoto sends one with the place where it was taken in it: what is kept is the picture alone.
func TestAPhoto(t *testing.T) {
	b := browser(t)
	h := build(t)
	petra, gil := newPhone(h, b, "Petra", 390, 844), newPhone(h, b, "Gil", 390, 844)
	petra.join()
	gil.join()
	file := filepath.Join(t.TempDir(), "bow.jpg")
	if err := os.WriteFile(file, withEXIF(t, 2400, 1800), 0o600); err != nil {
		t.Fatal(err)
	}
	petra.do(typed("the bow in its clamps"), chromedp.SetUploadFiles("#photo", []string{file}))
	for _, p := range []*phone{petra, gil} {
		p.sees("the bow in its clamps")
		p.await("the photo", "document.querySelector('article .photograph img')?.naturalWidth > 0")
	}
	gil.shot("photo")
	if err := h.db.Read(t.Context(), func(tx *store.Tx) error {
		entries, err := tx.Talk("room:1", 1, 0, 1)
		if err != nil || len(entries) != 1 {
			return fmt.Errorf("%d entries: %w", len(entries), err)
		}
		files, err := tx.Files(entries[0].ID)
		if len(files) != 1 || files[0].Media != "image/jpeg" || !strings.HasPrefix(files[0].Ref, "room:") || files[0].Data != nil {
			t.Errorf("on the entry hangs %+v", files)
		}
		return err
	}); err != nil {
		t.Error(err)
	}
	if w := eval[int](gil, "document.querySelector('article .photograph img').naturalWidth"); w != 1280 {
		t.Errorf("the photo is %d px wide, want 1280", w)
	}
	kept, err := filepath.Glob(h.file + ".photos/*.jpg")
	if err != nil || len(kept) != 1 {
		t.Fatalf("%d photos are kept (%v)", len(kept), err)
	}
	data, err := os.ReadFile(kept[0])
	if err != nil || bytes.Contains(data, []byte("Exif")) || bytes.Contains(data, []byte(secretPlace)) {
		t.Errorf("the photo tells more than the picture (%v)", err)
	}
	petra.fine()
	gil.fine()
}

const secretPlace = "51.5007N"

// withEXIF makes a JPEG with a note in it of where it was taken.
func withEXIF(t *testing.T, w, h int) []byte {
	t.Helper()
	picture := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			picture.Set(x, y, color.RGBA{uint8(x * 255 / w), uint8(y * 255 / h), 120, 255})
		}
	}
	var b bytes.Buffer
	if err := jpeg.Encode(&b, picture, nil); err != nil {
		t.Fatal(err)
	}
	note := append([]byte("Exif\x00\x00"), secretPlace...)
	head := []byte{0xff, 0xd8, 0xff, 0xe1, byte((len(note) + 2) >> 8), byte(len(note) + 2)}
	return append(append(head, note...), b.Bytes()[2:]...)
}

// TestScrollingBack loads earlier talk as somebody scrolls up, each message once and in order.
func TestScrollingBack(t *testing.T) {
	b := browser(t)
	h := build(t)
	const many = 150
	if err := h.db.Write(t.Context(), func(tx *store.Tx) error {
		for n := range many {
			if _, err := tx.Add(store.Entry{Project: 1, Place: "room:1", WhoKey: "gil", Who: "Gil", Kind: store.Message, At: time.Now().Add(time.Duration(n-many) * time.Minute), Text: fmt.Sprintf("message %d", n)}); err != nil {
				return err
			}
		}
		return nil
	}); err != nil {
		t.Fatal(err)
	}
	petra := newPhone(h, b, "Petra", 390, 844)
	petra.join()
	petra.sees("message 149")
	if petra.count("article.said") > 60 {
		t.Errorf("all of the talk is loaded at once: %d messages", petra.count("article.said"))
	}
	for end := time.Now().Add(patience); petra.count("article.said") < many && time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		petra.do(chromedp.Evaluate("document.querySelector('main').scrollTop = 0", nil))
	}
	words := petra.texts("article.said .words")
	if len(words) != many {
		t.Fatalf("%d messages after scrolling back, want %d", len(words), many)
	}
	for n, w := range words {
		if w != fmt.Sprintf("message %d", n) {
			t.Fatalf("message %d reads %q", n, w)
		}
	}
	petra.fine()
}

// TestUnread marks what came while the page was closed.
func TestUnread(t *testing.T) {
	b := browser(t)
	h := build(t)
	petra, gil := newPhone(h, b, "Petra", 390, 844), newPhone(h, b, "Gil", 390, 844)
	petra.join()
	gil.join()
	gil.say("kettle's on")
	petra.sees("kettle's on")
	petra.open("/room/1/door")
	petra.await("Door", "document.querySelector('.code')")
	if n := petra.count(".rooms .new"); n != 0 {
		t.Errorf("%d rooms are marked while all is read", n)
	}
	gil.say("and the cake is cut")
	gil.sees("cake")
	petra.open("/room/1/door")
	petra.await("a mark at the room", "document.querySelector('.rooms .new')")
	petra.shot("rooms")
	petra.open("/room/1")
	petra.await("the mark before the new message", "document.querySelector('.unread')?.nextElementSibling.innerText.includes('cake')")
	petra.shot("unread")
	petra.open("/room/1")
	petra.sees("cake")
	petra.await("no mark any more", "!document.querySelector('.unread')")
}

// TestAskingAgain takes three touches: the kind of question, more, ask.
func TestAskingAgain(t *testing.T) {
	b := browser(t)
	h := build(t)
	petra := newPhone(h, b, "Petra", 360, 640)
	petra.join()
	petra.say("rough size for 600 by 45 finished")
	petra.sees("Rough 700 × 65 mm")
	petra.do(click("#chips button[data-kind='rough size']"))
	petra.await("the sheet", "document.getElementById('sheet').open")
	petra.shot("sheet")
	petra.do(click("#sheet-words .number button:last-of-type"), click("#sheet-ask"))
	petra.sees("rough size for 605 by 45 finished")
	petra.sees("Rough 705 × 65 mm")
	petra.fine()
}

// TestANewCodeThrowsOut changes the code: Gil is out, Petra stays, the old code is worth nothing.
func TestANewCodeThrowsOut(t *testing.T) {
	b := browser(t)
	h := build(t)
	petra, gil := newPhone(h, b, "Petra", 390, 844), newPhone(h, b, "Gil", 390, 844)
	petra.join()
	gil.join()
	petra.open("/room/1/door")
	petra.shot("door")
	petra.do(chromedp.SetValue("#newcode", "larch-hinge-08"), click("form[action='/code'] button"))
	petra.await("the new code", "document.querySelector('.code').innerText === 'larch-hinge-08'")
	gil.await("to be out", "document.getElementById('state').innerText.includes('not in the room any more')")
	gil.open("/room/1")
	gil.enter("Gil", theCode)
	gil.await("the old code to be refused", "document.querySelector('.error')")
	h.restart() // with the old code in the settings, which was changed since
	gil.enter("Gil", theCode)
	gil.await("the old code to be refused", "document.querySelector('.error')")
	gil.enter("Gil", "Larch hinge 08")
	gil.await("the room", "document.getElementById('talk')")
}

// TestReadingWithoutScripts shows the talk, and even takes a message, with scripts forbidden.
func TestReadingWithoutScripts(t *testing.T) {
	b := browser(t)
	h := build(t)
	petra := newPhone(h, b, "Petra", 390, 844)
	petra.join()
	petra.say("rough size for 600 by 45 finished")
	petra.sees("Rough 700 × 65 mm")
	petra.scripts(false)
	petra.open("/room/1")
	petra.shot("no-scripts")
	petra.do(typed("and 700?"), click("#say button.main"))
	petra.sees("and 700?")
	petra.open("/room/1/book")
	petra.await("the book", "document.body.innerText.includes('rough size for 600 by 45 finished')")
}

// TestAList sends a list of parts from the phone: they are in the book, and the other phone sees
// what they came from. What is no list is refused.
func TestAList(t *testing.T) {
	b := browser(t)
	h := build(t)
	petra, gil := newPhone(h, b, "Petra", 390, 844), newPhone(h, b, "Gil", 360, 640)
	petra.join()
	gil.join()
	file := filepath.Join(t.TempDir(), "rack parts.csv")
	if err := os.WriteFile(file, []byte("name,quantity,length,width,thickness\nslat,6,830,70,22\nrail,2,712,65,22\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	petra.do(typed("fettle, add these parts"), chromedp.SetUploadFiles("#photo", []string{file}))
	for _, p := range []*phone{petra, gil} {
		p.await("the list", "document.querySelector('article .file')?.innerText === 'rack parts.csv'")
		p.sees("Added 2 parts")
	}
	gil.shot("list")
	bad := filepath.Join(t.TempDir(), "plan.csv")
	if err := os.WriteFile(bad, bytes.Repeat([]byte("a,b,c\n"), 200_000), 0o600); err != nil {
		t.Fatal(err)
	}
	petra.do(chromedp.SetUploadFiles("#photo", []string{bad}))
	petra.await("to be refused", "document.getElementById('state').innerText.includes('larger than 1 MiB')")
	petra.fine()
	gil.fine()
}
