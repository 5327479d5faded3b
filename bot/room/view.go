package room

import (
	"html/template"
	"net/http"

	"fettle/store"
)

// tab is one of the pages of a room.
type tab struct {
	Name, Title string
	Print       bool
}

// tabs lists the pages, the talk first.
func tabs() []tab {
	return []tab{{Name: "chat", Title: "Chat"}, {Name: "parts", Title: "Parts"}, {Name: "stock", Title: "Stock"}, {Name: "plan", Title: "Plan"},
		{Name: "clamps", Title: "Clamps"}, {Name: "book", Title: "Book"}, {Name: "door", Title: "Door"}}
}

// view is a page beside the talk: the same state, looked at in another way.
type view struct {
	Visit    visit
	Tab      string
	Heading  string
	Last     int64
	Sections []section
	Empty    string // what to say where there is nothing yet
	Hint     string // a sentence that would put something there
	Next     int64
}

// Title names the page.
func (v view) Title() string { return v.Heading }

// section is a part of a page.
type section struct {
	Heading string
	Text    template.HTML
	Columns []string
	Rows    []row
}

// row is one line of a section. What can be done with it is a sentence that is said in the chat.
type row struct {
	Cells []string
	Done  bool
	Say   string // said when it is ticked
	Unsay string // said when the tick is taken away
}

// views make the pages, by the name of the tab.
var views = map[string]func(*Room, *store.Tx, *view, int64) error{
	"book": bookView,
}

func (r *Room) view(w http.ResponseWriter, req *http.Request, v visit) {
	make, ok := views[req.PathValue("page")]
	if !ok {
		http.NotFound(w, req)
		return
	}
	page := view{Visit: v, Tab: req.PathValue("page")}
	err := r.store.Read(req.Context(), func(tx *store.Tx) (err error) {
		if page.Last, err = tx.LastEntry(); err != nil {
			return err
		}
		return make(r, tx, &page, number(req.URL.Query().Get("before")))
	})
	if err != nil {
		r.trouble(w, req, err)
		return
	}
	r.show(w, http.StatusOK, "view", page)
}

const bookLength = 100 // entries on one page of the book

// bookView is the project's book: the notes, then what was said and done, newest first.
func bookView(r *Room, tx *store.Tx, page *view, before int64) error {
	page.Heading = "Book"
	page.Empty, page.Hint = "Nothing was said yet.", "note: the hinge side is the left one"
	entries, err := tx.Search(store.Query{Project: page.Visit.Project.ID, Kinds: []string{store.Message, store.Edit, store.Deletion}, Before: before, Limit: bookLength})
	if err != nil {
		return err
	}
	if len(entries) == bookLength {
		page.Next = entries[bookLength-1].ID
	}
	var days []section
	for _, e := range entries {
		if e.WhoKey == keeper {
			continue
		}
		at := e.At.In(r.cfg.Zone)
		day := at.Format("Monday 2 January 2006")
		if len(days) == 0 || days[len(days)-1].Heading != day {
			days = append(days, section{Heading: day, Columns: []string{"When", "Who", "What"}})
		}
		changes, err := tx.ChangesBy(e.ID)
		if err != nil {
			return err
		}
		last := &days[len(days)-1]
		last.Rows = append(last.Rows, row{Cells: []string{at.Format("15:04"), e.Who, inBook(e)}, Done: len(changes) > 0})
	}
	page.Sections = days
	return nil
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
