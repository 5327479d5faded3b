package room

import (
	"context"
	"encoding/json"
	"net/http"
	"slices"
	"strings"
	"sync"
	"time"

	"github.com/gorilla/websocket"

	"fettle/store"
)

// bell rings when something was said, so that each open page looks at the log. Whoever listens
// has a channel of one: a page that is slow misses rings, never what was said.
type bell struct {
	mu     sync.Mutex
	ears   map[chan struct{}]ear
	met    map[ear]bool // who has had a page open since the program started
	closed bool
}

// ear is an open page.
type ear struct {
	project int64
	name    string
}

func newBell() *bell { return &bell{ears: map[chan struct{}]ear{}, met: map[ear]bool{}} }

func (b *bell) listen(e ear) (heard chan struct{}, stop func()) {
	heard = make(chan struct{}, 1)
	b.mu.Lock()
	b.ears[heard], b.met[e] = e, true
	if b.closed {
		close(heard)
		delete(b.ears, heard)
	}
	b.mu.Unlock()
	b.ring() // the others see who is here
	return heard, func() {
		b.mu.Lock()
		delete(b.ears, heard)
		b.mu.Unlock()
		b.ring()
	}
}

func (b *bell) ring() {
	b.mu.Lock()
	defer b.mu.Unlock()
	for heard := range b.ears {
		select {
		case heard <- struct{}{}:
		default: // it rings already
		}
	}
}

// stop ends every page's connection.
func (b *bell) stop() {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.closed = true
	for heard := range b.ears {
		close(heard)
		delete(b.ears, heard)
	}
}

// here lists who has a room's page open, each once.
func (b *bell) here(project int64) (names []string) {
	b.mu.Lock()
	defer b.mu.Unlock()
	for _, e := range b.ears {
		if e.project == project && !slices.Contains(names, e.name) {
			names = append(names, e.name)
		}
	}
	slices.Sort(names)
	return names
}

// others says whether anybody of another name has had a room's page open.
func (b *bell) others(project int64, key string) bool {
	b.mu.Lock()
	defer b.mu.Unlock()
	for e := range b.met {
		if e.project == project && store.Fold(e.name) != key {
			return true
		}
	}
	return false
}

const (
	lookEvery  = time.Second // for what came to the log by another way
	pingEvery  = 20 * time.Second
	deadAfter  = 50 * time.Second
	writeLimit = 10 * time.Second
	mostAtOnce = 200 // items sent to a page that was away; with more it loads anew
)

// watch rings when the log has grown without us: by a timer, on Mattermost, at a terminal.
func (r *Room) watch(ctx context.Context) {
	tick := time.NewTicker(lookEvery)
	defer tick.Stop()
	var seen int64
	for {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		last, err := r.grown(ctx)
		if err != nil {
			r.cfg.Logger.Warn("the log cannot be looked at", "error", err)
			continue
		}
		if last != seen {
			seen = last
			r.bell.ring()
		}
	}
}

// grown gives the newest entry, and notes as sent what waits for any room.
func (r *Room) grown(ctx context.Context) (last int64, err error) {
	waiting, err := r.desk.Pending(ctx, "")
	if err != nil {
		return 0, err
	}
	for _, o := range waiting {
		if project, ok := projectOf(o.Place); ok {
			if err := r.deliver(ctx, project); err != nil {
				return 0, err
			}
		}
	}
	err = r.store.Read(ctx, func(tx *store.Tx) error {
		last, err = tx.LastEntry()
		return err
	})
	return last, err
}

// news is what a page is sent.
type news struct {
	Build  string   `json:"build"`
	Now    int64    `json:"now"` // our clock, in ms: a phone's may be wrong
	Here   []string `json:"here"`
	Last   int64    `json:"last"`   // the newest entry that is in it
	Items  []piece  `json:"items"`  // what to show, each in the place of what stands under its slot
	Clamps string   `json:"clamps"` // what is in the clamps, as HTML
	Anew   bool     `json:"anew,omitempty"`

	next time.Duration // until something in the clamps comes to its time; 0: nothing does
}

type piece struct {
	Slot int64  `json:"slot"`
	HTML string `json:"html"`
}

// upgrader takes connections from our own pages alone: the origin must be the host.
var upgrader = websocket.Upgrader{HandshakeTimeout: headersWithin, EnableCompression: true}

// live keeps a page up to date from the entry it has seen last.
func (r *Room) live(w http.ResponseWriter, req *http.Request, v visit) {
	after := number(req.URL.Query().Get("after"))
	conn, err := upgrader.Upgrade(w, req, nil)
	if err != nil {
		return // the upgrader has answered
	}
	defer conn.Close()
	heard, stop := r.bell.listen(ear{project: v.Project.ID, name: v.Person.Name})
	defer stop()
	gone := make(chan struct{})
	go func() { defer close(gone); drain(conn) }()
	ping := time.NewTicker(pingEvery)
	defer ping.Stop()
	before, quiet := news{Last: -1}, false
	for {
		if v.Person.Gen != r.door.generation() {
			shut(conn, closeOut, "let out")
			return
		}
		now, err := r.news(v, after)
		if err != nil {
			r.cfg.Logger.Warn("a page cannot be brought up to date", "error", err)
			return
		}
		if len(now.Items) > 0 || now.Anew || now.Clamps != before.Clamps || !slices.Equal(now.Here, before.Here) || before.Last < 0 || quiet {
			if send(conn, now) != nil {
				return
			}
		}
		before, after, quiet = now, now.Last, false
		var due <-chan time.Time
		if now.next > 0 {
			due = time.After(now.next)
		}
		select {
		case <-due:
		case <-gone:
			return
		case <-ping.C:
			if conn.WriteControl(websocket.PingMessage, nil, time.Now().Add(writeLimit)) != nil {
				return
			}
			quiet = true // a page can't see pings, and wants a sign of life
		case _, open := <-heard:
			if !open {
				shut(conn, websocket.CloseGoingAway, "closing")
				return
			}
		}
	}
}

// closeOut tells a page that the code was changed.
const closeOut = 4001

func shut(conn *websocket.Conn, code int, why string) {
	_ = conn.WriteControl(websocket.CloseMessage, websocket.FormatCloseMessage(code, why), time.Now().Add(writeLimit))
}

func send(conn *websocket.Conn, n news) error {
	text, err := json.Marshal(n)
	if err != nil {
		return err
	}
	_ = conn.SetWriteDeadline(time.Now().Add(writeLimit))
	return conn.WriteMessage(websocket.TextMessage, text)
}

// drain reads what pages have no business to send, so that pongs and the end are noticed.
func drain(conn *websocket.Conn) {
	conn.SetReadLimit(1024)
	alive := func(string) error { return conn.SetReadDeadline(time.Now().Add(deadAfter)) }
	_ = alive("")
	conn.SetPongHandler(alive)
	for {
		if _, _, err := conn.ReadMessage(); err != nil {
			return
		}
	}
}

func (r *Room) news(v visit, after int64) (n news, err error) {
	n = news{Build: r.build, Now: r.cfg.Now().UnixMilli(), Here: r.bell.here(v.Project.ID), Last: after, Items: []piece{}}
	err = r.store.Read(r.ctx, func(tx *store.Tx) error {
		t, err := r.talk(tx, v.Project)
		if err != nil {
			return err
		}
		items, last, err := t.since(after, mostAtOnce+1)
		if err != nil {
			return err
		}
		if len(items) > mostAtOnce {
			n.Anew = true
			return nil
		}
		n.Last = last
		clamps, err := r.clocksIn(tx, v.Project)
		if err != nil {
			return err
		}
		var clocks strings.Builder
		if err := layouts.ExecuteTemplate(&clocks, "clocks", clamps); err != nil {
			return err
		}
		n.Clamps = clocks.String()
		n.next = soonest(clamps, r.cfg.Now())
		for _, it := range items {
			var b strings.Builder
			if err := layouts.ExecuteTemplate(&b, "item", itemView{item: it, Visit: v}); err != nil {
				return err
			}
			n.Items = append(n.Items, piece{Slot: it.Slot, HTML: b.String()})
		}
		return nil
	})
	return n, err
}
