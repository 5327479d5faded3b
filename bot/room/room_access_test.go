package room_test

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/chromedp/chromedp"
)

// violation is what axe-core finds.
type violation struct {
	ID, Impact, Help string
	Nodes            []struct{ HTML string }
}

// accessible has axe-core look at the page as it is.
func (p *phone) accessible(what string) {
	p.Helper()
	axe, err := os.ReadFile("testdata/axe/axe.min.js")
	if err != nil {
		p.Fatal(err)
	}
	p.await("an end of motion", "document.getAnimations().length === 0")
	p.do(chromedp.Evaluate(string(axe)+";0", nil))
	var found struct {
		Violations []violation
		Passes     int
	}
	text := eval[string](p, "axe.run(document, {resultTypes: ['violations']}).then(r => JSON.stringify({Violations: r.violations, Passes: r.passes.length}))")
	if err := json.Unmarshal([]byte(text), &found); err != nil {
		p.Fatal(err)
	}
	if found.Passes < 10 {
		p.Errorf("%s: only %d rules were looked at", what, found.Passes)
	}
	for _, v := range found.Violations {
		if v.Impact != "serious" && v.Impact != "critical" && v.Impact != "moderate" {
			continue
		}
		for _, n := range v.Nodes {
			p.Errorf("%s: %s (%s): %s: %s", what, v.ID, v.Impact, v.Help, n.HTML)
		}
	}
}

// TestNobodyIsShutOut looks at every page, light and dark, with axe-core.
func TestNobodyIsShutOut(t *testing.T) {
	b := browser(t)
	h := played(t)
	p := newPhone(h, b, "Petra", 390, 844)
	p.open("/")
	p.accessible("the door")
	p.join()
	p.say("fettle, rough size 74.2 x 3.8 x 1.6")
	p.await("choices", "document.querySelector('.choices button')")
	for _, dark := range []bool{false, true} {
		p.dark(dark)
		for _, page := range []string{"", "/parts", "/stock", "/plan", "/clamps", "/book", "/door"} {
			p.open("/room/1" + page)
			p.await("the page", "document.documentElement.classList.contains('scripted')")
			p.accessible(map[bool]string{true: "dark "}[dark] + "page " + page)
		}
	}
	p.open("/room/1")
	p.await("a chip", "document.querySelector('#chips button') && document.documentElement.classList.contains('scripted')")
	p.do(click("#chips button"))
	p.await("the sheet", "document.getElementById('sheet').open")
	p.accessible("the sheet")
	p.fine()
}

// TestByKeyboard asks and answers a question without touching anything but keys.
func TestByKeyboard(t *testing.T) {
	b := browser(t)
	h := build(t)
	p := newPhone(h, b, "Petra", 1280, 800)
	p.join()
	p.do(chromedp.Focus("#text"), chromedp.KeyEvent("fettle, rough size 74.2 x 3.8 x 1.6\r"))
	p.await("choices", "document.querySelector('.choices button')")
	p.do(chromedp.Evaluate("document.getElementById('talk').focus()", nil))
	for range 30 {
		if eval[bool](p, "document.activeElement.matches('.choices button')") {
			break
		}
		p.do(chromedp.KeyEvent("\t"))
	}
	if !eval[bool](p, "getComputedStyle(document.activeElement).outlineStyle === 'solid'") {
		t.Error("the focus can't be seen")
	}
	p.do(chromedp.KeyEvent("\r"))
	p.sees("842 × 58")
	p.fine()
}
