package room

import (
	"html/template"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"fettle/bot"
	"fettle/commands"
	"fettle/commands/book"
	"fettle/store"
)

// touch is something that can be said by touching it: a line with a box to tick, a sign.
type touch struct {
	Room  int64 // where it is said
	Label template.HTML
	Note  string
	Say   string // what a touch says now, "" if nothing
	Done  bool
}

// passage is a piece of an answer's details: words, or a line with a box.
type passage struct {
	Text  template.HTML
	Touch *touch
}

// boxed is a line of an answer that a number under the answer stands for.
var boxed = regexp.MustCompile(`^\s*☐?\s*(\d+)\. (.+)$`)

// touches puts what the signs under an answer mean where it can be touched: a number at the line
// that begins with it, the others after the details.
func (t *talk) touches(e store.Entry, lines []string, signs map[string]string) (details []passage, rest []touch, err error) {
	var words []string
	flush := func() {
		if len(words) > 0 {
			details, words = append(details, passage{Text: rendered(strings.Join(words, "\n"))}), nil
		}
	}
	placed := map[string]bool{}
	for _, line := range lines {
		m := boxed.FindStringSubmatch(line)
		if m == nil || signs[m[1]] == "" || placed[m[1]] {
			words = append(words, line)
			continue
		}
		flush()
		placed[m[1]] = true
		to, err := t.touch(e, template.HTML(m[1])+". "+inline(m[2]), signs[m[1]])
		if err != nil {
			return nil, nil, err
		}
		details = append(details, passage{Touch: &to})
	}
	flush()
	for _, sign := range order {
		says := signs[sign]
		if says == "" || placed[sign] || slices.ContainsFunc(rest, func(o touch) bool { return o.Say == says }) {
			continue
		}
		to, err := t.touch(e, plain(says), says)
		if err != nil {
			return nil, nil, err
		}
		rest = append(rest, to)
	}
	return details, rest, nil
}

// order is that of the signs under an answer.
var order = []string{"1", "2", "3", "4", "5", "6", "7", "8", "9", "10", bot.SignCheck, bot.SignThumb}

// touch makes a sign of an answer one that shows whether it was given: as the plan's row says that
// the same words tick, else by whether anybody said them since.
func (t *talk) touch(e store.Entry, label template.HTML, says string) (touch, error) {
	to := touch{Room: t.in.ID, Label: label, Say: says}
	rows, err := t.planRows(e.Project)
	if err != nil {
		return to, err
	}
	if row, ok := rows[says]; ok {
		to.Done, to.Say = row.Done, next(row)
		return to, nil
	}
	since, err := t.tx.TalkSince(place(t.in.ID), t.in.ID, e.ID, lookForTicked)
	if slices.ContainsFunc(since, func(s store.Entry) bool { return s.Kind == store.Message && s.Text == says }) {
		to.Done, to.Say = true, ""
	}
	return to, err
}

// planRows are the rows of a project's plan, by what is said to tick them.
func (t *talk) planRows(project int64) (map[string]book.Row, error) {
	if rows, known := t.rows[project]; known {
		return rows, nil
	}
	in, err := t.tx.ProjectByID(project)
	if err != nil {
		return nil, err
	}
	paper, err := commands.WritePlan(t.tx, in, t.room.cfg.Now().In(t.room.cfg.Zone))
	rows := map[string]book.Row{}
	for _, s := range paper.Sections {
		for _, r := range s.Rows {
			rows[r.Say] = r
		}
	}
	t.rows[project] = rows
	return rows, err
}

func plain(text string) template.HTML { return template.HTML(template.HTMLEscapeString(text)) }

// next is what a touch of a row says.
func next(r book.Row) string {
	if r.Done {
		return r.Unsay
	}
	return r.Say
}

// lineOf shows a row of a table as a line: what it is, and the rest of it in small.
func lineOf(columns []string, r book.Row, room int64) touch {
	to := touch{Room: room, Label: plain(r.Cells[0]), Say: next(r), Done: r.Done}
	first := 1
	if _, err := strconv.Atoi(r.Cells[0]); err == nil && len(r.Cells) > 1 {
		to.Label, first = plain(r.Cells[0]+". "+r.Cells[1]), 2
	}
	for i := first; i < min(len(r.Cells), len(columns)); i++ {
		switch {
		case r.Cells[i] == "":
		case r.Say == "": // a remark
			to.Note = joined(to.Note, r.Cells[i])
		default:
			to.Note = joined(to.Note, columns[i]+" "+r.Cells[i])
		}
	}
	return to
}
