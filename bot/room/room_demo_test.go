package room_test

import (
	"context"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"fettle/bot/demo"
)

// played opens a room in which the week of the demo was said.
func played(t *testing.T) *hut {
	t.Helper()
	noon := time.Date(2026, 3, 7, 15, 0, 0, 0, time.UTC)
	began := time.Now()
	return build(t, func(h *hut) {
		h.cfg.Demo = true
		h.cfg.Now = func() time.Time { return noon.Add(time.Since(began)) }
		h.cfg.Seed = func(ctx context.Context, place, project string) error {
			return demo.Play(ctx, h.desk, place, project, noon, time.UTC)
		}
	})
}

// TestTheDemo looks at every page of the demo, on a phone, a small phone and a laptop.
func TestTheDemo(t *testing.T) {
	b := browser(t)
	h := played(t)
	for _, size := range []struct {
		name          string
		width, height int64
	}{{"phone", 390, 844}, {"small", 360, 640}, {"laptop", 1280, 800}} {
		p := newPhone(h, b, "Petra", size.width, size.height)
		p.join()
		p.await("the banner", "document.querySelector('.demo').innerText.includes('demo')")
		p.sees("9 mugs 84 wide in 860")
		p.shot("demo-chat-" + size.name)
		p.do(chromedp.Evaluate("[...document.querySelectorAll('article .drawing')].at(-1).scrollIntoView()", nil))
		p.await("the drawing", "[...document.querySelectorAll('article .drawing img')].at(-1).naturalWidth > 0")
		p.shot("demo-drawing-" + size.name)
		p.do(chromedp.Evaluate("document.querySelector('article .touch').closest('article').scrollIntoView()", nil))
		p.shot("demo-sheet-" + size.name)
		for _, page := range []string{"parts", "stock", "plan", "clamps", "book", "door"} {
			p.open("/room/1/" + page)
			p.await("the page", "document.querySelector('h2')")
			p.shot("demo-" + page + "-" + size.name)
		}
		p.fine()
	}
}
