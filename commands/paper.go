package commands

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/store"
)

// mostLogged is how many entries of the log a paper holds, the newest.
const mostLogged = 5000

// paperSections make the sections of a paper, in order.
var paperSections = []func(*paperWriter) (book.Section, error){
	partsSection, stockSection, planSection, runSheetSection, measuresSection, peopleSection, clampsSection, notesSection, settingsSection, logSection,
}

// planSections are those of what is to be sawn.
var planSections = []func(*paperWriter) (book.Section, error){planSection, runSheetSection}

// paperWriter is what a section is made from.
type paperWriter struct {
	tx       *store.Tx
	project  store.Project
	settings Settings
	out      measure.System
	now      time.Time
}

// WritePaper puts a project's book on paper. Times are worded in now's zone.
func WritePaper(tx *store.Tx, project store.Project, now time.Time) (book.Paper, error) {
	return writePaper(tx, project, now, paperSections)
}

// WritePlan puts on paper what is to be sawn and how far that has come, and nothing else.
func WritePlan(tx *store.Tx, project store.Project, now time.Time) (book.Paper, error) {
	return writePaper(tx, project, now, planSections)
}

func writePaper(tx *store.Tx, project store.Project, now time.Time, sections []func(*paperWriter) (book.Section, error)) (book.Paper, error) {
	p := book.Paper{Project: project.Name, Made: now}
	settings, err := LoadSettings(tx, project.ID)
	if err != nil {
		return p, fmt.Errorf("write the book: %w", err)
	}
	w := &paperWriter{tx: tx, project: project, settings: settings, out: settings.System(), now: now}
	for _, section := range sections {
		s, err := section(w)
		if err != nil {
			return p, fmt.Errorf("write the book: %w", err)
		}
		p.Sections = append(p.Sections, s)
	}
	return p, nil
}

// size prints a size as it can be set, nought as nothing.
func (w *paperWriter) size(m book.MM) string {
	if m == 0 {
		return ""
	}
	return w.out.Number(m.Length(), measure.Nearest)
}

// day words a time that was stored as RFC 3339.
func (w *paperWriter) day(at string) string {
	t, err := time.Parse(time.RFC3339, at)
	if err != nil {
		return at
	}
	return w.moment(t)
}

func (w *paperWriter) moment(t time.Time) string {
	return t.In(w.now.Location()).Format("Mon 2 Jan 15:04")
}

// inUnit is a column of sizes.
func (w *paperWriter) inUnit(name string) string { return fmt.Sprintf("%s (%s)", name, w.out) }

func partsSection(w *paperWriter) (book.Section, error) {
	s := book.Section{Key: book.SectionParts, Title: "Parts",
		Columns: []string{"Part", "Quantity", w.inUnit("Length"), w.inUnit("Width"), w.inUnit("Thickness"), "Timber", "Done", "Remarks"},
		Empty:   "No parts yet. “Add 6 rack slats 830 x 70 x 22 oak” makes some."}
	parts, err := book.Parts(w.tx, w.project.ID)
	if err != nil {
		return s, err
	}
	done, err := book.DoneSoFar(w.tx, w.project.ID)
	if err != nil {
		return s, err
	}
	for _, p := range parts {
		d := book.Done{}
		if i := slices.IndexFunc(done, func(n book.Named[book.Done]) bool { return store.Fold(n.Name) == store.Fold(p.Name) }); i >= 0 {
			d = done[i].Is
		}
		s.Rows = append(s.Rows, book.Row{Cells: []string{p.Name, fmt.Sprint(p.Is.Quantity), w.size(p.Is.Length), w.size(p.Is.Width), w.size(p.Is.Thickness),
			p.Is.Species, progress(d, p.Is.Quantity), remarks(p.Is)}, Done: d.Quantity >= p.Is.Quantity,
			Say: p.Name + " is done", Unsay: p.Name + " is not done"})
	}
	return s, nil
}

// progress says how far the work on a part has come.
func progress(d book.Done, of int) string {
	var out []string
	for _, stage := range slices.Sorted(maps.Keys(d.Stages)) {
		out = append(out, fmt.Sprintf("%d %s", d.Stages[stage], stage))
	}
	if d.Quantity > 0 {
		out = append(out, fmt.Sprintf("%d of %d done", d.Quantity, of))
	}
	if d.Spoiled > 0 {
		out = append(out, fmt.Sprintf("%d spoiled", d.Spoiled))
	}
	return strings.Join(out, ", ")
}

func remarks(p book.Part) string {
	var out []string
	if p.LeftDeg != 0 || p.RightDeg != 0 {
		out = append(out, fmt.Sprintf("ends %s and %s", endText(p.LeftDeg), endText(p.RightDeg)))
	}
	for _, t := range []string{p.Group, p.Note, p.Stale} {
		if t != "" {
			out = append(out, t)
		}
	}
	return strings.Join(out, "; ")
}

func endText(deg float64) string {
	if deg == 0 {
		return "square"
	}
	return degText(deg)
}

func stockSection(w *paperWriter) (book.Section, error) {
	s := book.Section{Key: book.SectionStock, Title: "Stock",
		Columns: []string{"Board", w.inUnit("Length"), w.inUnit("Width"), w.inUnit("Thickness"), "Timber", "Price", "Faults"},
		Empty:   "No boards yet. “We have 3 boards 2600 x 210 x 32 sapele” puts some here."}
	boards, err := book.Boards(w.tx, w.project.ID)
	if err != nil {
		return s, err
	}
	for _, b := range onHand(boards) {
		price := ""
		if !b.Is.Unpriced {
			price = money(b.Is.Price)
		}
		var faults []string
		for _, f := range b.Is.Faults {
			at := func(m book.MM) string { return w.out.Number(m.Length(), measure.Nearest) }
			faults = append(faults, fmt.Sprintf("%s %s to %s along, %s to %s across", f.Kind, at(f.X), at(f.X+f.Length), at(f.Y), at(f.Y+f.Width)))
		}
		s.Rows = append(s.Rows, book.Row{Cells: []string{b.Name, w.size(b.Is.Length), w.size(b.Is.Width), w.size(b.Is.Thickness), b.Is.Species, price, strings.Join(faults, "; ")}})
	}
	return s, nil
}

func measuresSection(w *paperWriter) (book.Section, error) {
	s := book.Section{Key: book.SectionMeasures, Title: "Measures", Columns: []string{"What", "Measure", "By", "When"},
		Empty: "Nothing measured yet. “The opening is 812 at the top, 806 at the bottom” notes it."}
	measures, err := book.Measures(w.tx, w.project.ID)
	if err != nil {
		return s, err
	}
	for _, m := range measures {
		s.Rows = append(s.Rows, book.Row{Cells: []string{m.Name, w.reading(m.Is.Size, m.Is.Deg), m.Is.Who, w.day(m.Is.At)}})
		if d := m.Is.Doubt; d != nil {
			s.Rows = append(s.Rows, book.Row{Cells: []string{m.Name + ", contradicted", w.reading(d.Size, d.Deg), d.Who, w.day(d.At)}})
		}
		for _, e := range m.Is.Earlier {
			s.Rows = append(s.Rows, book.Row{Cells: []string{m.Name + ", earlier", w.reading(e.Size, e.Deg), e.Who, w.day(e.At)}})
		}
	}
	return s, nil
}

func (w *paperWriter) reading(size book.MM, deg float64) string {
	if size == 0 && deg != 0 {
		return degExact(deg)
	}
	return w.out.Text(size.Length(), measure.Nearest)
}

func peopleSection(w *paperWriter) (book.Section, error) {
	s := book.Section{Key: book.SectionPeople, Title: "Who is on what", Columns: []string{"What", "Who", "Since"},
		Empty: "Nobody has taken anything yet. “I'll take the rails” does."}
	claims, err := book.Claims(w.tx, w.project.ID)
	if err != nil {
		return s, err
	}
	for _, c := range claims {
		s.Rows = append(s.Rows, book.Row{Cells: []string{c.Name, c.Is.Who, w.day(c.Is.At)}})
	}
	return s, nil
}

func clampsSection(w *paperWriter) (book.Section, error) {
	s := book.Section{Key: book.SectionClamps, Title: "In the clamps", Columns: []string{"What", "Glue", "Since", "Clamps off", "Workable", "Cured"},
		Empty: "Nothing is in the clamps. “Bow is glued with epoxy at 14:20, 18 degrees” starts the clock."}
	timers, err := book.Timers(w.tx, w.project.ID)
	if err != nil {
		return s, err
	}
	for _, t := range timers {
		s.Rows = append(s.Rows, book.Row{Cells: []string{t.Name, t.Is.Adhesive, w.moment(t.Is.Start), w.moment(t.Is.ClampsOff), w.moment(t.Is.Workable), w.moment(t.Is.Cured)},
			Done: t.Is.Stopped || !w.now.Before(t.Is.ClampsOff), Until: t.Is.ClampsOff})
	}
	return s, nil
}

func notesSection(w *paperWriter) (book.Section, error) {
	s := book.Section{Key: book.SectionNotes, Title: "Notes", Columns: []string{"Note", "By", "When"},
		Empty: "No notes yet. “Note: the hinge side is the left one” makes one."}
	notes, err := notesOf(w.tx, w.project.ID)
	if err != nil {
		return s, err
	}
	for _, n := range notes {
		s.Rows = append(s.Rows, book.Row{Cells: []string{n.Text, n.Who, n.At}})
	}
	return s, nil
}

func settingsSection(w *paperWriter) (book.Section, error) {
	s := book.Section{Key: book.SectionSettings, Title: "Settings", Columns: []string{"Setting", "Is"}}
	for _, spec := range settingSpecs() {
		s.Rows = append(s.Rows, book.Row{Cells: []string{capital(spec.title), spec.show(w.settings)}})
	}
	return s, nil
}

// logSection is what people said and what that changed, oldest first.
func logSection(w *paperWriter) (book.Section, error) {
	s := book.Section{Key: book.SectionLog, Title: "Log", Columns: []string{"When", "Who", "What", "Changed"}, Empty: "Nothing was said yet."}
	entries, err := w.tx.Search(store.Query{Project: w.project.ID, Kinds: []string{store.Message, store.Edit, store.Deletion}, Limit: mostLogged})
	if err != nil {
		return s, err
	}
	slices.Reverse(entries)
	for _, e := range entries {
		changes, err := w.tx.ChangesBy(e.ID)
		if err != nil {
			return s, err
		}
		files, err := w.tx.Files(e.ID)
		if err != nil {
			return s, err
		}
		text := e.Text
		for _, f := range files {
			text += fmt.Sprintf(" [%s]", f.Name)
		}
		switch e.Kind {
		case store.Edit:
			text = "changed it to: " + text
		case store.Deletion:
			text = "took a message back"
		}
		s.Rows = append(s.Rows, book.Row{Cells: []string{w.moment(e.At), e.Who, strings.TrimSpace(text), changeText(changes)}, Done: len(changes) > 0})
	}
	return s, nil
}

// changeText says in short what an entry changed: "part top rail, board sapele 1 removed".
func changeText(changes []store.Change) string {
	var out []string
	for _, c := range merge(changes) {
		text := c.What + " " + c.Name
		switch c.Op {
		case store.Changed:
			text += " changed"
		case store.Removed:
			text += " removed"
		}
		out = append(out, text)
	}
	return strings.Join(out, ", ")
}
