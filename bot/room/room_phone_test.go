package room_test

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"log/slog"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/cdproto/target"
	"github.com/chromedp/chromedp"

	"fettle/bot"
	"fettle/bot/room"
	"fettle/store"
)

// go test ./bot/room -update takes the pictures in testdata/screens anew.
var update = flag.Bool("update", false, "take the pictures in testdata/screens anew")

const theCode = "oak-wedge-47"

// hut is a room that is served, with a network between it and the phones that can be cut.
type hut struct {
	testing.TB
	wifi *wifi
	desk *bot.Desk
	db   *store.Store
	cfg  room.Config
	file string
	stop func()
}

// build opens a room on a database of its own.
func build(t testing.TB, change ...func(*hut)) *hut {
	t.Helper()
	h := &hut{TB: t, file: filepath.Join(t.TempDir(), "hut.db"), wifi: newWifi(t)}
	h.cfg = room.Config{Listen: "127.0.0.1:0", Code: theCode, Project: "hut", Zone: time.UTC, Now: time.Now, Logger: slog.New(slog.NewTextHandler(io.Discard, nil))}
	for _, c := range change {
		c(h)
	}
	h.open()
	t.Cleanup(func() { h.stop() })
	return h
}

var printed = regexp.MustCompile(`(?m)^  https?://(\S+)/$`)

// open starts the program on its database, as after a restart.
func (h *hut) open() {
	h.Helper()
	var err error
	if h.db, err = store.Open(context.Background(), h.file, h.cfg.Now); err != nil {
		h.Fatal(err)
	}
	h.desk = bot.NewDesk(h.db, h.cfg.Now, h.cfg.Zone, h.cfg.Logger)
	ctx, cancel := context.WithCancel(context.Background())
	out := &said{}
	h.cfg.Out = out
	done := make(chan error, 1)
	go func() { done <- room.Run(ctx, h.cfg, h.db, h.desk) }()
	h.stop = sync.OnceFunc(func() {
		cancel()
		if err := <-done; err != nil {
			h.Errorf("the room ended with %v", err)
		}
		h.db.Close()
	})
	for deadline := time.Now().Add(20 * time.Second); ; time.Sleep(5 * time.Millisecond) {
		if m := printed.FindStringSubmatch(out.String()); m != nil {
			h.wifi.to(m[1])
			return
		}
		if time.Now().After(deadline) {
			h.Fatalf("the room does not open: %s", out)
		}
	}
}

func (h *hut) restart() {
	h.Helper()
	h.stop()
	h.open()
}

// said collects what is printed.
type said struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (s *said) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.Write(p)
}

func (s *said) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.text.String()
}

// wifi carries bytes between the phones and the room, at one address all the time.
type wifi struct {
	listener net.Listener
	mu       sync.Mutex
	room     string
	down     bool
	open     map[net.Conn]bool
}

func newWifi(t testing.TB) *wifi {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	w := &wifi{listener: l, open: map[net.Conn]bool{}}
	var carrying sync.WaitGroup
	carrying.Go(func() {
		for {
			c, err := l.Accept()
			if err != nil {
				return
			}
			carrying.Go(func() { w.carry(c) })
		}
	})
	t.Cleanup(func() {
		l.Close()
		w.cut()
		carrying.Wait()
	})
	return w
}

func (w *wifi) url() string { return "http://" + w.listener.Addr().String() }

func (w *wifi) to(address string) {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.room = address
}

// cut drops all that is under way, and whatever is tried until mend.
func (w *wifi) cut() {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.down = true
	for c := range w.open {
		c.Close()
	}
}

func (w *wifi) mend() {
	w.mu.Lock()
	defer w.mu.Unlock()
	w.down = false
}

func (w *wifi) carry(phone net.Conn) {
	defer phone.Close()
	w.mu.Lock()
	address, down := w.room, w.down
	w.mu.Unlock()
	if down {
		return
	}
	there, err := net.Dial("tcp", address)
	if err != nil {
		return
	}
	defer there.Close()
	w.mu.Lock()
	w.open[phone], w.open[there] = true, true
	down = w.down
	w.mu.Unlock()
	defer func() {
		w.mu.Lock()
		delete(w.open, phone)
		delete(w.open, there)
		w.mu.Unlock()
	}()
	if down {
		return
	}
	done := make(chan struct{}, 2)
	pipe := func(to, from net.Conn) {
		_, _ = io.Copy(to, from)
		to.Close()
		done <- struct{}{}
	}
	go pipe(there, phone)
	go pipe(phone, there)
	<-done
	<-done
}

// browser starts one Chromium for a test. Without the Debian package there is no test, and in CI
// no excuse.
func browser(t *testing.T) context.Context {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("chromium is missing")
		}
		t.Skip("needs the Debian package chromium")
	}
	if testing.Short() {
		t.Skip("takes a browser")
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(path), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("hide-scrollbars", true),
		chromedp.Flag("font-render-hinting", "none"), chromedp.UserDataDir(profile(t)), chromedp.WSURLReadTimeout(time.Minute))
	ctx, cancel := chromedp.NewExecAllocator(context.Background(), options...)
	t.Cleanup(cancel)
	ctx, stop := chromedp.NewContext(ctx, chromedp.WithErrorf(func(string, ...any) {}))
	t.Cleanup(stop)
	if err := chromedp.Run(ctx); err != nil {
		t.Fatalf("start chromium: %v", err)
	}
	return ctx
}

// profile is a folder for the browser, which writes there for a moment after its end.
func profile(t *testing.T) string {
	t.Helper()
	folder, err := os.MkdirTemp("", "fettle-room-browser")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		for range 100 {
			if os.RemoveAll(folder) == nil {
				return
			}
			time.Sleep(20 * time.Millisecond)
		}
	})
	return folder
}

// phone is a page of its own, with its own memory, as on a phone.
type phone struct {
	testing.TB
	ctx    context.Context
	url    string
	name   string
	mu     sync.Mutex
	errors []string
}

// patience is how long a thing may take on a machine that has much else to do.
const patience = 45 * time.Second

// newPhone gives somebody a phone of a size.
func newPhone(h *hut, in context.Context, name string, width, height int64) *phone {
	h.Helper()
	ctx, cancel := chromedp.NewContext(in, chromedp.WithTargetID(window(h.TB, in)))
	h.Cleanup(cancel)
	p := &phone{TB: h.TB, ctx: ctx, url: h.wifi.url(), name: name}
	chromedp.ListenTarget(ctx, p.overhear)
	mobile := width < 700
	scale := 1.0
	if mobile {
		scale = 2
	}
	p.do(network.Enable(), runtime.Enable(),
		emulation.SetDeviceMetricsOverride(width, height, scale, mobile), emulation.SetTouchEmulationEnabled(mobile))
	return p
}

// window opens a window that shares nothing with the others.
func window(t testing.TB, in context.Context) target.ID {
	t.Helper()
	ctx := cdp.WithExecutor(in, chromedp.FromContext(in).Browser)
	apart, err := target.CreateBrowserContext().Do(ctx)
	if err != nil {
		t.Fatalf("make a place apart in the browser: %v", err)
	}
	id, err := target.CreateTarget("about:blank").WithBrowserContextID(apart).WithNewWindow(true).Do(ctx)
	if err != nil {
		t.Fatalf("open a window: %v", err)
	}
	return id
}

// overhear collects what the page complains about.
func (p *phone) overhear(event any) {
	p.mu.Lock()
	defer p.mu.Unlock()
	if e, ok := event.(*runtime.EventExceptionThrown); ok {
		p.errors = append(p.errors, e.ExceptionDetails.Error())
	}
	if _, ok := event.(*page.EventJavascriptDialogOpening); ok {
		p.errors = append(p.errors, "a dialog was opened by a script")
	}
}

// fine fails the test if the page has complained.
func (p *phone) fine() {
	p.Helper()
	p.mu.Lock()
	defer p.mu.Unlock()
	for _, e := range p.errors {
		p.Errorf("on %s's phone: %s", p.name, e)
	}
}

func (p *phone) do(actions ...chromedp.Action) {
	p.Helper()
	ctx, cancel := context.WithTimeout(p.ctx, patience)
	defer cancel()
	if err := chromedp.Run(p.ctx, deadline{ctx, actions}); err != nil {
		p.Fatalf("on %s's phone: %v", p.name, err)
	}
}

// deadline runs actions in the page's own context, for no longer than another one lasts.
type deadline struct {
	until   context.Context
	actions chromedp.Tasks
}

func (d deadline) Do(ctx context.Context) error {
	ctx, cancel := context.WithCancelCause(ctx)
	defer cancel(nil)
	defer context.AfterFunc(d.until, func() { cancel(fmt.Errorf("takes longer than %v", patience)) })()
	if err := d.actions.Do(ctx); err != nil {
		if cause := context.Cause(ctx); cause != nil {
			return cause
		}
		return err
	}
	return nil
}

// eval runs a script in the page and reads what it gives.
func eval[T any](p *phone, script string) (result T) {
	p.Helper()
	p.do(chromedp.Evaluate(script, &result, func(e *runtime.EvaluateParams) *runtime.EvaluateParams { return e.WithAwaitPromise(true) }))
	return result
}

// await waits until a script says true.
func (p *phone) await(what, script string) {
	p.Helper()
	var shown string
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(15 * time.Millisecond) {
		var is bool
		if err := chromedp.Run(p.ctx, chromedp.Evaluate("Boolean("+script+")", &is)); err == nil && is {
			return
		}
	}
	_ = chromedp.Run(p.ctx, chromedp.Evaluate("document.body.innerText", &shown))
	p.shotTo(filepath.Join(os.TempDir(), "fettle-room-failed.png"))
	p.Fatalf("on %s's phone: waited in vain for %s; the page says:\n%s", p.name, what, shown)
}

// sees waits until a text stands in the talk.
func (p *phone) sees(text string) {
	p.Helper()
	p.await(fmt.Sprintf("%q", text), fmt.Sprintf("document.getElementById('talk').innerText.replaceAll('\u00a0', ' ').includes(%q)", text))
}

func (p *phone) open(path string) {
	p.Helper()
	p.do(chromedp.Navigate(p.url + path))
}

// join comes in by typing name and code.
func (p *phone) join() {
	p.Helper()
	p.open("/")
	p.enter(p.name, theCode)
	// Only the page's own connection puts its own name there, so the scripts run.
	p.await("the connection", fmt.Sprintf("document.readyState === 'complete' && document.getElementById('here')?.textContent.includes(%q)", p.name))
}

func (p *phone) enter(name, code string) {
	p.Helper()
	p.await("the door", "document.querySelector('.join form') && document.readyState === 'complete'")
	p.do(chromedp.Evaluate(fmt.Sprintf(`{
		document.getElementById("name").value = %q;
		document.getElementById("code").value = %q;
		document.querySelector(".join form").requestSubmit();
	}`, name, code), nil))
}

// say types a message and sends it.
func (p *phone) say(text string) {
	p.Helper()
	p.do(typed(text), click("#say button.main"))
}

// typed types a text into the message field.
func typed(text string) chromedp.Action {
	return chromedp.Tasks{chromedp.Evaluate("document.getElementById('text').focus()", nil), input.InsertText(text)}
}

// count counts what a selector finds.
func (p *phone) count(selector string) int {
	p.Helper()
	return eval[int](p, fmt.Sprintf("document.querySelectorAll(%q).length", selector))
}

func (p *phone) dark(on bool) {
	p.Helper()
	scheme := "light"
	if on {
		scheme = "dark"
	}
	p.do(emulation.SetEmulatedMedia().WithFeatures([]*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}))
}

// screens is where the pictures lie that the README shows.
const screens = "testdata/screens"

var keptShots = []string{"choices", "demo-chat-phone", "demo-parts-phone", "demo-plan-phone", "demo-drawing-phone", "demo-sheet-phone", "demo-clamps-phone", "sheet"}

// shot takes a picture of the page, if pictures are asked for, and always sees to it that
// nothing sticks out at the side.
func (p *phone) shot(name string) {
	p.Helper()
	p.await("an end of motion", "document.getAnimations().length === 0")
	if over := eval[int](p, "document.documentElement.scrollWidth - innerWidth"); over > 0 {
		p.Errorf("%s: the page is %d px wider than the screen", name, over)
	}
	if below := eval[int](p, "document.querySelector('body.chat') ? document.documentElement.scrollHeight - innerHeight : 0"); below > 0 {
		p.Errorf("%s: the page is %d px taller than the screen, so the talk can be scrolled away", name, below)
	}
	if out := eval[string](p, cutOff); out != "" {
		p.Errorf("%s: cut off: %s", name, out)
	}
	switch {
	case *update && slices.Contains(keptShots, name):
		p.shotTo(filepath.Join(screens, name+".png"))
	case *update:
		p.shotTo(filepath.Join(os.TempDir(), "fettle-screens", name+".png")) // to be looked at, not kept
	}
}

// cutOff lists what sticks out of the screen at the side, but for what can be scrolled to.
const cutOff = `Array.from(document.querySelectorAll("main *, footer *, header *")).filter(e => {
	if (!e.checkVisibility() || e.closest("#chips, .top ul, .skip, .unseen, dialog:not([open])")) return false;
	const b = e.getBoundingClientRect();
	return b.width > 1 && (b.left < -1 || b.right > innerWidth + 1);
}).map(e => e.tagName + "." + e.className + " " + e.textContent.slice(0, 30)).join("; ")`

func (p *phone) shotTo(file string) {
	var picture []byte
	if err := chromedp.Run(p.ctx, chromedp.CaptureScreenshot(&picture)); err != nil {
		p.Errorf("take a picture: %v", err)
		return
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		p.Fatal(err)
	}
	if err := os.WriteFile(file, picture, 0o644); err != nil {
		p.Fatal(err)
	}
}

// texts gives the text of each thing that a selector finds.
func (p *phone) texts(selector string) []string {
	p.Helper()
	return strings.Split(eval[string](p, fmt.Sprintf("Array.from(document.querySelectorAll(%q), e => e.innerText.trim()).join('\\u0000')", selector)), "\x00")
}

// click clicks what a selector finds first, once it can be touched there: nothing lies over it. It
// goes by the place, as a finger does; the browser's numbers of nodes change with each page.
func click(selector string) chromedp.Action {
	where := fmt.Sprintf(`(() => {
		const e = document.querySelector(%q);
		if (!e || !e.checkVisibility()) return [];
		e.scrollIntoView({block: "center"});
		const r = e.getBoundingClientRect(), x = r.x + r.width / 2, y = r.y + Math.min(r.height, innerHeight) / 2;
		return e.contains(document.elementFromPoint(x, y)) ? [x, y] : [];
	})()`, selector)
	return chromedp.ActionFunc(func(ctx context.Context) error {
		for {
			var at []float64
			if err := chromedp.Evaluate(where, &at).Do(ctx); err == nil && len(at) == 2 {
				return chromedp.MouseClickXY(at[0], at[1]).Do(ctx)
			}
			select {
			case <-ctx.Done():
				return fmt.Errorf("%q cannot be touched: %w", selector, ctx.Err())
			case <-time.After(15 * time.Millisecond):
			}
		}
	})
}

// scripts allows the page's own scripts, or forbids them.
func (p *phone) scripts(on bool) {
	p.Helper()
	p.do(emulation.SetScriptExecutionDisabled(!on))
}

// elsewhere is a message to the program about the hut that was not written in the room.
func elsewhere(place, text string) bot.Message {
	return bot.Message{Key: place + text, Place: place, Project: "hut", WhoKey: "u1", Who: "Gil", Text: text, At: time.Now(), Mentioned: true}
}
