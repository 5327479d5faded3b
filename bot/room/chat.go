package room

import (
	"bytes"
	"encoding/json"
	"errors"
	"html/template"
	"net/http"
	"net/url"
	"slices"
	"strconv"
	"strings"

	"fettle/bot/render"
	"fettle/calc/sketch"
	"fettle/commands"
	"fettle/store"
)

const pageLength = 40 // entries of the log on one page of talk

// itemView is an item as one person sees it.
type itemView struct {
	item
	Visit visit
}

// Mine says whether the person wrote it.
func (v itemView) Mine() bool {
	return v.Answer == nil && v.WhoKey == v.Visit.Person.key() && v.From == ""
}

// joinView is the door from outside.
type joinView struct {
	Build, Error, Name, To string
	Demo                   bool
}

// home leads whoever is in to their room, and shows everybody else the door.
func (r *Room) home(w http.ResponseWriter, req *http.Request) {
	if _, ok := r.door.who(req); ok {
		p, err := r.project(req.Context(), r.cfg.Project)
		if err != nil {
			r.trouble(w, req, err)
			return
		}
		http.Redirect(w, req, roomPath(p), http.StatusSeeOther)
		return
	}
	r.show(w, http.StatusOK, "join", joinView{Build: r.build, To: req.URL.Query().Get("to"), Demo: r.cfg.Demo})
}

func roomPath(p store.Project) string { return "/room/" + strings.TrimPrefix(place(p.ID), prefix) }

func (r *Room) join(w http.ResponseWriter, req *http.Request) {
	req.Body = http.MaxBytesReader(w, req.Body, 8<<10)
	name, to := req.FormValue("name"), req.FormValue("to")
	cookie, err := r.door.enter(req, req.FormValue("code"), name)
	var no refusal
	switch {
	case errors.As(err, &no):
		status := http.StatusForbidden
		if no == errTooOften {
			w.Header().Set("Retry-After", "60")
			status = http.StatusTooManyRequests
		}
		r.show(w, status, "join", joinView{Build: r.build, Error: string(no), Name: name, To: to, Demo: r.cfg.Demo})
	case err != nil:
		r.trouble(w, req, err)
	default:
		http.SetCookie(w, cookie)
		if !strings.HasPrefix(to, "/room/") || strings.Contains(to, "//") {
			to = "/"
		}
		http.Redirect(w, req, to, http.StatusSeeOther)
	}
}

func (r *Room) leave(w http.ResponseWriter, req *http.Request) {
	http.SetCookie(w, r.door.cookie("", -1))
	http.Redirect(w, req, "/", http.StatusSeeOther)
}

// chatView is the page of the talk.
type chatView struct {
	Visit  visit
	Tab    string
	Items  []itemView
	Next   int64 // where the page before this one ends, 0 if there is none
	Before int64 // the page shown is an earlier one
	Last   int64 // the newest entry of the log
	Asks   []chip
	Here   []string
	Clamps []clock
}

// chip asks again what was asked lately.
type chip struct{ Kind, Asked string }

// Title names the page.
func (v chatView) Title() string { return v.Visit.Project.Name }

func (r *Room) chat(w http.ResponseWriter, req *http.Request, v visit) {
	if err := r.opened(req.Context(), v.Project); err != nil {
		r.trouble(w, req, err)
		return
	}
	page, err := r.read(req, v)
	if err != nil {
		r.trouble(w, req, err)
		return
	}
	r.show(w, http.StatusOK, "chat", page)
}

// read gives the page of the talk that was asked for.
func (r *Room) read(req *http.Request, v visit) (page chatView, err error) {
	page = chatView{Visit: v, Tab: "chat", Before: number(req.URL.Query().Get("before")), Here: r.bell.here(v.Project.ID)}
	err = r.store.Read(req.Context(), func(tx *store.Tx) error {
		if page.Last, err = tx.LastEntry(); err != nil {
			return err
		}
		t, err := r.talk(tx, v.Project)
		if err != nil {
			return err
		}
		items, next, err := t.page(page.Before, pageLength)
		if err != nil {
			return err
		}
		for _, it := range items {
			page.Items = append(page.Items, itemView{item: it, Visit: v})
		}
		page.Next = next
		if page.Asks, err = t.lately(v.Person); err != nil {
			return err
		}
		page.Clamps, err = r.clocksIn(tx, v.Project)
		return err
	})
	return page, err
}

const (
	mostChips = 6
	mostBack  = 300 // entries looked through for kinds of question
)

// lately lists the kinds of question that were asked last, the newest first, each with the words
// that asked it; the person's own come first. Where nothing was asked yet it offers examples.
func (t *talk) lately(p person) (chips []chip, err error) {
	entries, err := t.tx.Talk(place(t.in.ID), t.in.ID, 0, mostBack)
	if err != nil {
		return nil, err
	}
	seen := map[string]bool{}
	add := func(topic, asked string) {
		kind, ok := repeatable(topic)
		if ok && !seen[topic] && len(chips) < mostChips && len([]rune(asked)) <= 200 {
			seen[topic] = true
			chips = append(chips, chip{Kind: kind, Asked: asked})
		}
	}
	for _, mine := range []bool{true, false} {
		for _, e := range entries {
			if e.Kind == store.Message && len(e.Request) > 0 && (e.WhoKey == p.key()) == mine && strings.ContainsAny(e.Text, "0123456789") {
				add(e.Topic, e.Text)
			}
		}
	}
	for _, topic := range commands.Topics() {
		add(topic.Name, topic.Examples[0])
	}
	return chips, nil
}

// earlier gives a page of talk to a page that is scrolled back.
func (r *Room) earlier(w http.ResponseWriter, req *http.Request, v visit) {
	page, err := r.read(req, v)
	if err != nil {
		r.trouble(w, req, err)
		return
	}
	pieces := []piece{}
	for _, it := range page.Items {
		var b strings.Builder
		if err := layouts.ExecuteTemplate(&b, "item", it); err != nil {
			r.trouble(w, req, err)
			return
		}
		pieces = append(pieces, piece{Slot: it.Slot, HTML: b.String()})
	}
	writeJSON(w, http.StatusOK, map[string]any{"items": pieces, "next": page.Next})
}

func (r *Room) say(w http.ResponseWriter, req *http.Request, v visit) {
	req.Body = http.MaxBytesReader(w, req.Body, 64<<10)
	s, err := readSaid(req)
	if err == nil && s.Text != "" {
		err = r.hear(req.Context(), v.Person, v.Project, s)
	}
	r.done(w, req, v, err)
}

// done answers a script with its word, and leads a page without one back to the talk.
func (r *Room) done(w http.ResponseWriter, req *http.Request, v visit, err error) {
	switch {
	case err != nil:
		r.trouble(w, req, err)
	case strings.Contains(req.Header.Get("Accept"), "text/html"):
		http.Redirect(w, req, roomPath(v.Project)+"#end", http.StatusSeeOther)
	default:
		writeJSON(w, http.StatusOK, map[string]bool{"kept": true})
	}
}

func (r *Room) edit(w http.ResponseWriter, req *http.Request, v visit) {
	req.Body = http.MaxBytesReader(w, req.Body, 64<<10)
	text := strings.TrimSpace(strings.ToValidUTF8(req.FormValue("text"), ""))
	if req.FormValue("gone") != "" {
		text = ""
	}
	if len([]rune(text)) > longestText {
		r.trouble(w, req, refusal("That is too long. Say it in two."))
		return
	}
	r.done(w, req, v, r.change(req.Context(), v.Person, v.Project, number(req.PathValue("entry")), text))
}

func (r *Room) showPhoto(w http.ResponseWriter, req *http.Request, _ visit) {
	path, ok := r.photos.path(req.PathValue("name"))
	if !ok {
		http.NotFound(w, req)
		return
	}
	w.Header().Set("Content-Type", "image/jpeg")
	w.Header().Set("Cache-Control", "private, max-age=31536000, immutable")
	http.ServeFile(w, req, path)
}

// showDrawing gives a drawing of an answer as SVG.
func (r *Room) showDrawing(w http.ResponseWriter, req *http.Request, _ visit) {
	r.showSheet(w, req, func(tx *store.Tx, n int) (sheet sketch.Sheet, err error) {
		files, err := tx.Files(number(req.PathValue("entry")))
		if err == nil && (n < 0 || n >= len(files) || files[n].Media != sketch.MediaType) {
			err = store.ErrNotFound
		}
		if err == nil {
			err = json.Unmarshal(files[n].Data, &sheet)
		}
		return sheet, err
	})
}

// showPlanDrawing gives a drawing of the plan that holds.
func (r *Room) showPlanDrawing(w http.ResponseWriter, req *http.Request, v visit) {
	r.showSheet(w, req, func(tx *store.Tx, n int) (sheet sketch.Sheet, err error) {
		in, err := current(tx, v.Project)
		if err != nil {
			return sheet, err
		}
		paper, err := commands.WritePlan(tx, in, r.cfg.Now().In(r.cfg.Zone))
		if err != nil {
			return sheet, err
		}
		sheets := paper.Section(req.PathValue("section")).Phone
		if n < 0 || n >= len(sheets) {
			return sheet, store.ErrNotFound
		}
		return sheets[n], nil
	})
}

// showSheet gives the drawing whose number is in the address.
func (r *Room) showSheet(w http.ResponseWriter, req *http.Request, find func(*store.Tx, int) (sketch.Sheet, error)) {
	n, err := strconv.Atoi(strings.TrimSuffix(req.PathValue("name"), ".svg"))
	if err != nil {
		http.NotFound(w, req)
		return
	}
	var sheet sketch.Sheet
	err = r.store.Read(req.Context(), func(tx *store.Tx) error {
		sheet, err = find(tx, n)
		return err
	})
	if errors.Is(err, store.ErrNotFound) {
		http.NotFound(w, req)
		return
	}
	var b bytes.Buffer
	if err == nil {
		err = render.SVG(&b, sheet)
	}
	if err != nil {
		r.trouble(w, req, err)
		return
	}
	w.Header().Set("Content-Type", "image/svg+xml")
	w.Header().Set("Cache-Control", "private, max-age=31536000, immutable")
	_, _ = w.Write(b.Bytes())
}

// doorView is the door from inside: who is here, how others come in, which rooms there are.
type doorView struct {
	Visit   visit
	Tab     string
	Here    []string
	Code    string
	Address string
	Link    string
	QR      template.HTMLAttr
	Size    int
	Rooms   []store.Project
	Newest  map[int64]int64 // what others said last in each room, 0 if nothing
	Error   string
}

// Title names the page.
func (v doorView) Title() string { return "Door" }

func (r *Room) doorPage(w http.ResponseWriter, req *http.Request, v visit) {
	page := doorView{Visit: v, Tab: "door", Here: r.bell.here(v.Project.ID), Code: r.door.keys.code(), Error: req.URL.Query().Get("error")}
	scheme := "http"
	if req.TLS != nil {
		scheme = "https"
	}
	page.Address = (&url.URL{Scheme: scheme, Host: req.Host, Path: "/"}).String()
	page.Link = r.link(page.Address)
	path, size, err := picture(page.Link)
	if err == nil {
		page.QR, page.Size = template.HTMLAttr(`d="`+path+`"`), size
		err = r.store.Read(req.Context(), func(tx *store.Tx) error {
			if page.Rooms, err = tx.Projects(); err != nil {
				return err
			}
			page.Newest, err = newest(tx, page.Rooms, v.Person)
			return err
		})
	}
	if err != nil {
		r.trouble(w, req, err)
		return
	}
	r.show(w, http.StatusOK, "door", page)
}

// newest finds what others said last in each room, among the last page of it.
func newest(tx *store.Tx, rooms []store.Project, p person) (map[int64]int64, error) {
	last := map[int64]int64{}
	for _, in := range rooms {
		entries, err := tx.Talk(place(in.ID), in.ID, 0, pageLength)
		if err != nil {
			return nil, err
		}
		i := slices.IndexFunc(entries, func(e store.Entry) bool {
			return e.Kind == store.Message && e.WhoKey != keeper && e.WhoKey != p.key()
		})
		if i >= 0 {
			last[in.ID] = entries[i].ID
		}
	}
	return last, nil
}

// changeCode makes a new code, or takes the one that was typed. Everybody else is out.
func (r *Room) changeCode(w http.ResponseWriter, req *http.Request, v visit) {
	req.Body = http.MaxBytesReader(w, req.Body, 8<<10)
	code := strings.Join(strings.Fields(req.FormValue("code")), " ")
	if code == "" {
		code = newCode()
	}
	if n := len([]rune(store.Fold(code))); n < leastCode || len(code) > 100 {
		r.trouble(w, req, refusal("A code needs 8 letters or digits, so that nobody guesses it."))
		return
	}
	if err := r.door.keys.change(code); err != nil {
		r.trouble(w, req, err)
		return
	}
	cookie, err := r.door.enter(req, code, v.Person.Name)
	if err != nil {
		r.trouble(w, req, err)
		return
	}
	http.SetCookie(w, cookie)
	r.bell.ring() // the others' pages find that they are out
	r.cfg.Logger.Info("the room's code was changed", "by", v.Person.Name)
	http.Redirect(w, req, backTo(req), http.StatusSeeOther)
}

// leastCode is how many letters and digits a code chosen by people has at least.
const leastCode = 8

// backTo is the page of ours that a form says it was on.
func backTo(req *http.Request) string {
	if id := number(req.FormValue("room")); id > 0 {
		return roomPath(store.Project{ID: id}) + "/door"
	}
	return "/"
}

// newRoom opens a room for a project, in the words in which one would start it in the chat.
func (r *Room) newRoom(w http.ResponseWriter, req *http.Request, v visit) {
	req.Body = http.MaxBytesReader(w, req.Body, 8<<10)
	name, ok := cleanName(req.FormValue("name"))
	if !ok {
		r.trouble(w, req, refusal("What shall the project be called? Up to 40 letters."))
		return
	}
	p, err := r.project(req.Context(), name)
	if err == nil {
		s := said{Key: "start:" + store.Fold(name), Text: "start a project called " + name, Ask: true}
		err = r.hear(req.Context(), v.Person, p, s)
	}
	if err != nil {
		r.trouble(w, req, err)
		return
	}
	http.Redirect(w, req, roomPath(p), http.StatusSeeOther)
}
