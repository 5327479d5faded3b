package room

import (
	"cmp"
	"encoding/json"
	"fmt"
	"hash/fnv"
	"maps"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"fettle/calc/sketch"
	"fettle/commands"
	"fettle/commands/book"
	"fettle/store"
)

// tab is one of the pages of a room.
type tab struct{ Name, Title string }

// tabs lists the pages, the talk first.
func tabs() []tab {
	return []tab{{"chat", "Chat"}, {"parts", "Parts"}, {"stock", "Stock"}, {"plan", "Plan"}, {"clamps", "Clamps"}, {"book", "Book"}, {"door", "Door"}}
}

// view is a page beside the talk: the same state, looked at in another way.
type view struct {
	Visit    visit
	Tab      string
	Heading  string
	Here     []string
	Last     int64
	Sections []section
	Empty    string // what to say where there is nothing yet
	Hint     string // a sentence that would put something there
	Foot     string // a remark under the page
	Next     int64
}

// Title names the page.
func (v view) Title() string { return v.Heading }

// section is a part of a page.
type section struct {
	Heading  string
	Columns  []string
	Rows     []row
	Lines    []touch
	Drawings []drawing
}

// row is one line of a table.
type row struct {
	Cells []string
	Note  string
	Ends  *deadline // when something of it ends
}

// deadline is a moment that is counted down to.
type deadline struct {
	Millis int64
	Text   string
}

// look is what a page is made from.
type look struct {
	room   *Room
	tx     *store.Tx
	in     store.Project
	exact  func(book.MM) string // prints a size in the project's unit
	before int64
}

// views make the pages, by the name of the tab.
var views = map[string]func(look, *view) error{
	"parts": partsView, "stock": stockView, "plan": planView, "clamps": clampsView, "book": bookView,
}

func (r *Room) view(w http.ResponseWriter, req *http.Request, v visit) {
	fill, ok := views[req.PathValue("page")]
	if !ok {
		http.NotFound(w, req)
		return
	}
	page := view{Visit: v, Tab: req.PathValue("page"), Here: r.bell.here(v.Project.ID)}
	err := r.store.Read(req.Context(), func(tx *store.Tx) (err error) {
		if page.Last, err = tx.LastEntry(); err != nil {
			return err
		}
		in, err := current(tx, v.Project)
		if err != nil {
			return err
		}
		settings, err := commands.LoadSettings(tx, in.ID)
		if err != nil {
			return err
		}
		system := settings.System()
		exact := func(m book.MM) string { return system.Exact(m.Length()) }
		return fill(look{room: r, tx: tx, in: in, exact: exact, before: number(req.URL.Query().Get("before"))}, &page)
	})
	if err != nil {
		r.trouble(w, req, err)
		return
	}
	r.show(w, http.StatusOK, "view", page)
}

// current is the project that is talked about in a room: its own, unless another was switched to.
func current(tx *store.Tx, home store.Project) (store.Project, error) {
	at, err := commands.LoadPlace(tx, place(home.ID), home.Name)
	if err != nil || store.Fold(at.Project) == store.Fold(home.Name) {
		return home, err
	}
	all, err := tx.Projects()
	for _, p := range all {
		if store.Fold(p.Name) == store.Fold(at.Project) {
			return p, nil
		}
	}
	return home, err
}

// size prints the three sizes of a part or a board in the project's unit, which is said once.
func (l look) size(length, width, thickness book.MM) string {
	const unit = " mm"
	var sizes []string
	for _, m := range []book.MM{length, width, thickness} {
		if m != 0 {
			sizes = append(sizes, l.exact(m))
		}
	}
	for i := range sizes {
		if i < len(sizes)-1 && strings.HasSuffix(sizes[len(sizes)-1], unit) {
			sizes[i] = strings.TrimSuffix(sizes[i], unit)
		}
	}
	return strings.ReplaceAll(strings.Join(sizes, " × "), unit, "\u00a0mm")
}

// partsView is the list of parts, group by group, with how far each has come.
func partsView(l look, page *view) error {
	page.Heading, page.Empty, page.Hint = "Parts", "No parts yet.", "add 6 rack slats 830 x 70 x 22 oak"
	parts, err := book.Parts(l.tx, l.in.ID)
	if err != nil {
		return err
	}
	claims, err := named(book.Claims(l.tx, l.in.ID))
	if err != nil {
		return err
	}
	done, err := named(book.DoneSoFar(l.tx, l.in.ID))
	if err != nil {
		return err
	}
	at := map[string]int{}
	for _, p := range parts {
		i, known := at[p.Is.Group]
		if !known {
			i = len(page.Sections)
			at[p.Is.Group] = i
			page.Sections = append(page.Sections, section{Heading: p.Is.Group})
		}
		s := &page.Sections[i]
		line := l.part(p, claims[store.Fold(p.Name)], done[store.Fold(p.Name)])
		line.Room = page.Visit.Project.ID
		s.Lines = append(s.Lines, line)
	}
	if len(page.Sections) > 0 {
		page.Foot = "Ticked by mistake? Touch it again."
	}
	return nil
}

// named makes a list a table of what stands under each name.
func named[T any](list []book.Named[T], err error) (map[string]T, error) {
	all := map[string]T{}
	for _, n := range list {
		all[store.Fold(n.Name)] = n.Is
	}
	return all, err
}

func (l look) part(p book.Named[book.Part], claim book.Claim, done book.Done) touch {
	to := touch{Label: plain(several(p.Is.Quantity, p.Name)), Done: done.Quantity >= max(1, p.Is.Quantity), Say: p.Name + " finished"}
	to.Note = joined(l.size(p.Is.Length, p.Is.Width, p.Is.Thickness), claim.Who)
	if to.Done {
		to.Say = p.Name + " is not done"
	} else {
		to.Note = joined(to.Note, progress(done))
	}
	to.Note = joined(to.Note, cmp.Or(p.Is.Stale, p.Is.Note))
	return to
}

// several names a line of a list, with how many there are.
func several(n int, name string) string {
	if n <= 1 {
		return name
	}
	return fmt.Sprintf("%d × %s", n, name)
}

// progress words how far the work on a part has come.
func progress(d book.Done) (text string) {
	for _, stage := range slices.Sorted(maps.Keys(d.Stages)) {
		text = joined(text, fmt.Sprintf("%d %s", d.Stages[stage], stage))
	}
	if d.Quantity > 0 {
		text = joined(text, fmt.Sprintf("%d finished", d.Quantity))
	}
	if d.Spoiled > 0 {
		text = joined(text, fmt.Sprintf("%d spoiled", d.Spoiled))
	}
	return text
}

func joined(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + " · " + b
}

// stockView is the timber on hand, and what stands in a merchant's list.
func stockView(l look, page *view) error {
	page.Heading, page.Empty, page.Hint = "Stock", "No timber is written down.", "we have 3 boards 2600 x 210 x 32 sapele"
	boards, err := book.Boards(l.tx, l.in.ID)
	if err != nil {
		return err
	}
	hand, sale := section{Heading: "On hand"}, section{Heading: "For sale"}
	for _, b := range boards {
		line := touch{Label: plain(several(b.Is.Quantity, b.Name)), Note: joined(l.size(b.Is.Length, b.Is.Width, b.Is.Thickness), b.Is.Species)}
		in := &hand
		if b.Is.ForSale {
			in = &sale
			if !b.Is.Unpriced {
				line.Note = joined(line.Note, fmt.Sprintf("%.2f each", b.Is.Price))
			}
		} else if b.Is.Offcut {
			line.Note = joined(line.Note, "offcut")
		}
		line.Note = joined(line.Note, faults(b.Is))
		in.Lines = append(in.Lines, line)
	}
	page.Sections = nonEmpty(hand, sale)
	return nil
}

func faults(b book.Board) string {
	switch len(b.Faults) {
	case 0:
		return ""
	case 1:
		f := b.Faults[0]
		return cmp.Or(f.Kind, "a fault") + fmt.Sprintf(" at %.0f to %.0f mm", f.X.MM(), (f.X+f.Length).MM())
	}
	return fmt.Sprintf("%d faults", len(b.Faults))
}

func nonEmpty(sections ...section) (out []section) {
	for _, s := range sections {
		if len(s.Rows)+len(s.Lines) > 0 {
			out = append(out, s)
		}
	}
	return out
}

// planView is the plan that holds, with its drawings, and the run sheet: what the export shows.
func planView(l look, page *view) error {
	page.Heading, page.Empty, page.Hint = "Plan", "No plan yet.", "plan the cuts"
	paper, err := commands.WritePlan(l.tx, l.in, l.room.cfg.Now().In(l.room.cfg.Zone))
	for _, s := range paper.Sections {
		if len(s.Rows)+len(s.Phone) > 0 {
			page.Sections = append(page.Sections, onPage(s, page.Visit.Project.ID))
		}
	}
	return err
}

// onPage shows a section of the book's paper, each row as a line for a thumb.
func onPage(s book.Section, room int64) section {
	out := section{Heading: s.Title}
	for i, sheet := range s.Phone {
		out.Drawings = append(out.Drawings, drawing{Title: sheet.Title, URL: fmt.Sprintf("/drawing/room/%d/%s/%d.svg?%s", room, s.Key, i, imprint(sheet))})
	}
	for _, r := range s.Rows {
		out.Lines = append(out.Lines, lineOf(s.Columns, r, room))
	}
	return out
}

// imprint changes with a drawing, so that nobody is shown the one before.
func imprint(sheet sketch.Sheet) string {
	h := fnv.New64a()
	_ = json.NewEncoder(h).Encode(sheet) // a hash takes all that is written to it
	return strconv.FormatUint(h.Sum64(), 36)
}

// clampsView is what is glued up, with each time of it.
func clampsView(l look, page *view) error {
	page.Heading, page.Empty, page.Hint = "Clamps", "Nothing is in the clamps.", "bow is glued with epoxy at 14:20, 18 degrees"
	clocks, err := l.room.clocks(l.tx, l.in.ID)
	for _, c := range clocks {
		s := section{Heading: c.What}
		for _, m := range [][2]string{{"Glued", l.room.when(c.Start, l.room.cfg.Now()) + " by " + c.Who},
			{"Closed up by", c.Close}, {"Clamps off", c.Off}, {"Plane or sand", c.Work}, {"Hard", c.Cured}} {
			r := row{Cells: m[:]}
			if c.Next != "" && strings.EqualFold(m[0], c.Next) {
				r.Cells, r.Ends = []string{m[0]}, &deadline{Millis: c.Ends.UnixMilli(), Text: c.At}
			}
			s.Rows = append(s.Rows, r)
		}
		page.Sections = append(page.Sections, s)
	}
	return err
}

const bookLength = 100 // entries on one page of the book

// bookView is the project's book: the notes and measures, then what was said and done, newest first.
func bookView(l look, page *view) error {
	page.Heading = "Book"
	page.Empty, page.Hint = "Nothing was said yet.", "note: the hinge side is the left one"
	if l.before == 0 {
		measures, err := book.Measures(l.tx, l.in.ID)
		if err != nil {
			return err
		}
		page.Sections = nonEmpty(l.measured(measures))
	}
	entries, err := l.tx.Search(store.Query{Project: l.in.ID, Kinds: []string{store.Message, store.Edit, store.Deletion}, Before: l.before, Limit: bookLength})
	if err != nil {
		return err
	}
	if len(entries) == bookLength {
		page.Next = entries[bookLength-1].ID
	}
	days, err := l.days(entries)
	page.Sections = append(page.Sections, days...)
	return err
}

func (l look) measured(measures []book.Named[book.Measure]) section {
	s := section{Heading: "Measured", Columns: []string{"What", "Size", "Who"}}
	for _, m := range measures {
		size := l.size(m.Is.Size, 0, 0)
		if m.Is.Size == 0 && m.Is.Deg != 0 {
			size = strconv.FormatFloat(m.Is.Deg, 'f', -1, 64) + "°"
		}
		r := row{Cells: []string{m.Name, size, m.Is.Who}}
		if m.Is.Doubt != nil {
			r.Note = "measured again with another result"
		}
		s.Rows = append(s.Rows, r)
	}
	return s
}

// days puts entries under the days on which they were made.
func (l look) days(entries []store.Entry) (days []section, err error) {
	for _, e := range entries {
		if e.WhoKey == keeper {
			continue
		}
		at := e.At.In(l.room.cfg.Zone)
		day := at.Format("Monday 2 January 2006")
		if len(days) == 0 || days[len(days)-1].Heading != day {
			days = append(days, section{Heading: day, Columns: []string{"When", "Who", "What"}})
		}
		last := &days[len(days)-1]
		last.Rows = append(last.Rows, row{Cells: []string{at.Format("15:04"), e.Who, inBook(e)}})
	}
	return days, nil
}

// inBook words an entry for the book.
func inBook(e store.Entry) string {
	switch e.Kind {
	case store.Edit:
		return "changed it to: " + e.Text
	case store.Deletion:
		return "took a message back"
	}
	return e.Text
}
