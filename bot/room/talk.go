package room

import (
	"encoding/json"
	"fmt"
	"html/template"
	"slices"
	"strings"
	"time"

	"fettle/calc/sketch"
	"fettle/commands"
	"fettle/commands/book"
	"fettle/store"
)

// item is one thing in the talk, as the page shows it.
type item struct {
	Slot    int64 // the entry under which it stands
	Who     string
	WhoKey  string
	Key     string // the phone's own id of it
	At      time.Time
	When    string // the time of day
	Day     string
	From    string // where it was said, if not here
	Opens   bool   // says that the room was opened
	Text    string // what a person said, as it reads now
	Edited  bool
	Gone    bool
	Photo   string   // the id of the photo
	Lists   []string // the names of the lists that hang on it
	Unheard bool     // was not answered, though something can be asked that way
	Answer  *answer
}

// answer is what the program said.
type answer struct {
	Topic    string
	Kind     string // the topic in words, if it can be asked again
	Asked    string // what was asked, to ask it again
	Late     string
	Headline template.HTML
	Read     template.HTML
	Details  []passage
	Listed   bool // the details are what was asked for
	Cautions []template.HTML
	Asking   bool
	Choices  []string
	Amended  bool
	Drawings []drawing
	Photos   []photograph
	Quiet    bool    // a sign would do, where there are signs
	Signs    []touch // what can be said to it at a touch, and stands in no line of it
}

// drawing is a picture that belongs to an answer.
type drawing struct {
	Title string
	URL   string
}

// photograph is a photo of this room that an answer speaks of.
type photograph struct{ Name, Alt string }

// talk reads one room's talk.
type talk struct {
	tx   *store.Tx
	room *Room
	in   store.Project
	open map[int64]bool                // messages that were asked about and not answered yet
	rows map[int64]map[string]book.Row // of each project's plan, by what is said to tick them
}

func (r *Room) talk(tx *store.Tx, in store.Project) (*talk, error) {
	t := &talk{tx: tx, room: r, in: in, open: map[int64]bool{}, rows: map[int64]map[string]book.Row{}}
	asked, err := tx.OpenQuestions(place(in.ID), r.cfg.Now().Add(-commands.QuestionLife))
	for _, e := range asked {
		t.open[e.ID] = true
	}
	return t, err
}

// page gives the items before an entry (0: the last ones), oldest first, and where the next page
// ends, 0 if there is none.
func (t *talk) page(before int64, limit int) (items []item, next int64, err error) {
	entries, err := t.tx.Talk(place(t.in.ID), t.in.ID, before, limit)
	if err != nil {
		return nil, 0, err
	}
	if len(entries) == limit {
		next = entries[limit-1].ID
	}
	slices.Reverse(entries)
	for _, e := range entries {
		slot, err := t.slot(e)
		if err != nil {
			return nil, 0, err
		}
		if slot != e.ID { // it stands in an earlier one's place
			continue
		}
		it, err := t.item(e)
		if err != nil {
			return nil, 0, err
		}
		items = append(items, it)
	}
	return items, next, nil
}

// since gives what changed after an entry, as the items to show now, and the newest entry.
func (t *talk) since(after int64, limit int) (items []item, last int64, err error) {
	entries, err := t.tx.TalkSince(place(t.in.ID), t.in.ID, after, limit)
	if err != nil {
		return nil, after, err
	}
	last = after
	slots, err := t.answered(entries)
	if err != nil {
		return nil, after, err
	}
	for _, e := range entries {
		last = e.ID
		slot, err := t.slot(e)
		if err != nil {
			return nil, after, err
		}
		if !slices.Contains(slots, slot) {
			slots = append(slots, slot)
		}
	}
	for _, slot := range slots {
		e, known, err := t.tx.EntryByID(slot)
		if err != nil || !known {
			return nil, after, err
		}
		it, err := t.item(e)
		if err != nil {
			return nil, after, err
		}
		items = append(items, it)
	}
	return items, last, nil
}

const (
	lookForAsked  = 12 // entries before a reply its question is looked for
	lookForTicked = 60 // entries before a message what it may have ticked is looked for
)

// answered lists the answers that new messages may have changed the look of: the choices of a
// question go away, boxes are ticked.
func (t *talk) answered(news []store.Entry) (slots []int64, err error) {
	if len(news) == 0 {
		return nil, nil
	}
	before, err := t.tx.Talk(place(t.in.ID), t.in.ID, news[0].ID, lookForTicked)
	for n, e := range before {
		var data keptAnswer
		if e.Kind != store.Answer || json.Unmarshal(e.Answer, &data) != nil {
			continue
		}
		if data.Question != "" && n < lookForAsked || data.Question == "" && len(data.Signs) > 0 {
			slot, err := t.slot(e)
			if err != nil {
				return nil, err
			}
			slots = append(slots, slot)
		}
	}
	return slots, err
}

// slot is the entry in whose place another stands: an edit in its message's, an answer that
// replaces an earlier one in that one's.
func (t *talk) slot(e store.Entry) (int64, error) {
	switch e.Kind {
	case store.Message:
		return e.ID, nil
	case store.Answer:
		versions, err := t.versions(e)
		return versions[0].ID, err
	}
	return e.About, nil
}

// versions lists the answers that stand under the same id of the source as this one, oldest first.
func (t *talk) versions(e store.Entry) ([]store.Entry, error) {
	key, sent, err := t.tx.SentKey(e.ID)
	if err != nil || !sent || key == "" {
		return []store.Entry{e}, err
	}
	answers, err := t.tx.AnswersTo(e.About)
	if err != nil {
		return []store.Entry{e}, err
	}
	var same []store.Entry
	for _, a := range answers {
		k, _, err := t.tx.SentKey(a.ID)
		if err != nil {
			return []store.Entry{e}, err
		}
		if k == key {
			same = append(same, a)
		}
	}
	if len(same) == 0 {
		same = append(same, e)
	}
	return same, nil
}

func (t *talk) item(e store.Entry) (item, error) {
	at := e.At.In(t.room.cfg.Zone)
	it := item{Slot: e.ID, Who: e.Who, WhoKey: e.WhoKey, At: at, When: at.Format("15:04"), Day: at.Format("Monday 2 January"), Text: e.Text}
	if e.Place != place(t.in.ID) {
		it.From = elsewhere(e.Place)
	}
	if e.Kind == store.Answer {
		a, by, err := t.answer(e)
		it.Answer, it.Opens = a, by == keeper
		return it, err
	}
	it.Opens = e.WhoKey == keeper && e.Place == place(t.in.ID)
	it.Key = strings.TrimPrefix(e.Key, prefix+e.WhoKey+":")
	it.Photo = t.room.photos.of(e.Key)
	files, err := t.tx.Files(e.ID)
	if err != nil {
		return it, err
	}
	for _, f := range files {
		if f.Data != nil {
			it.Lists = append(it.Lists, f.Name)
		}
	}
	about, err := t.tx.About(e.ID)
	it.Unheard = e.Topic != "" && e.Topic != commands.Unknown && t.room.cfg.Now().Sub(e.At) < commands.QuestionLife
	for _, v := range about {
		switch v.Kind {
		case store.Answer:
			it.Unheard = false
		case store.Edit:
			it.Text, it.Edited = v.Text, true
		case store.Deletion:
			it.Text, it.Gone, it.Photo, it.Lists = "", true, "", nil
		}
	}
	return it, err
}

// elsewhere words where something was said: "mattermost:abc" is on Mattermost.
func elsewhere(at string) string {
	where, _, _ := strings.Cut(at, ":")
	switch where {
	case "mattermost":
		return "on Mattermost"
	case "terminal":
		return "at the terminal"
	}
	return "elsewhere"
}

// keptAnswer is what the room reads of an answer as data.
type keptAnswer struct {
	Topic    string            `json:"topic"`
	Question string            `json:"question"`
	Signs    map[string]string `json:"signs"`
	Photos   []commands.Photo  `json:"photos"`
}

// photographs are those photos that are kept here.
func (r *Room) photographs(of []commands.Photo) (out []photograph) {
	for _, p := range of {
		name, ours := strings.CutPrefix(p.Ref, prefix)
		if ours && r.photos.has(name) {
			out = append(out, photograph{Name: name, Alt: fmt.Sprintf("Photo by %s, %s: %s", p.Who, p.At.In(r.cfg.Zone).Format("Mon 2 Jan 15:04"), p.Says)})
		}
	}
	return out
}

func (t *talk) answer(e store.Entry) (a *answer, askedBy string, err error) {
	versions, err := t.versions(e)
	if err != nil {
		return nil, "", err
	}
	e = versions[len(versions)-1]
	var data keptAnswer
	if len(e.Answer) > 0 {
		if err := json.Unmarshal(e.Answer, &data); err != nil {
			return nil, "", fmt.Errorf("read answer %d: %w", e.ID, err)
		}
	}
	parts := takeApart(e.Text)
	a = &answer{Topic: data.Topic, Late: parts.Late, Headline: inline(parts.Headline), Listed: parts.listed(),
		Asking: data.Question != "", Amended: parts.Amended}
	if data.Question != "" {
		data.Signs = nil // its choices are buttons
	}
	if a.Details, a.Signs, err = t.touches(e, parts.Lines, data.Signs); err != nil {
		return nil, "", err
	}
	a.Listed = a.Listed || slices.ContainsFunc(a.Details, func(p passage) bool { return p.Touch != nil })
	if a.Drawings, err = t.drawings(e.ID); err != nil {
		return nil, "", err
	}
	a.Photos = t.room.photographs(data.Photos)
	key, _, err := t.tx.SentKey(e.ID)
	if err != nil {
		return nil, "", err
	}
	a.Quiet = strings.HasPrefix(key, signMark) || a.Topic == commands.Unknown
	if parts.Read != "" {
		a.Read = inline(parts.Read)
	}
	for _, c := range parts.Cautions {
		a.Cautions = append(a.Cautions, inline(c))
	}
	askedBy, err = t.question(e.About, a)
	return a, askedBy, err
}

// drawings lists the pictures that hang on an answer.
func (t *talk) drawings(answer int64) (all []drawing, err error) {
	files, err := t.tx.Files(answer)
	for i, f := range files {
		var sheet sketch.Sheet
		if f.Media == sketch.MediaType && json.Unmarshal(f.Data, &sheet) == nil {
			all = append(all, drawing{Title: sheet.Title, URL: fmt.Sprintf("/drawing/%d/%d.svg", answer, i)})
		}
	}
	return all, err
}

// question adds what was asked: its words, to ask it again, and the choices that it waits for.
func (t *talk) question(message int64, a *answer) (askedBy string, err error) {
	m, known, err := t.tx.EntryByID(message)
	if err != nil || !known {
		return "", err
	}
	if a.Asking && t.open[m.ID] {
		if a.Choices = choices(m.Request); len(a.Choices) > 0 {
			// The buttons say the choices already.
			words, _, _ := strings.Cut(string(a.Headline), "? 1")
			a.Headline = template.HTML(strings.TrimSuffix(words, "?") + "?")
		}
	}
	if kind, ok := repeatable(a.Topic); ok && !a.Asking && m.WhoKey != keeper {
		a.Kind, a.Asked = kind, m.Text
	}
	return m.WhoKey, nil
}

// choices are the readings that a question offers.
func choices(request json.RawMessage) []string {
	var r struct {
		Open *struct {
			Options []struct {
				Label string `json:"label"`
			} `json:"options"`
		} `json:"open"`
	}
	if json.Unmarshal(request, &r) != nil || r.Open == nil {
		return nil
	}
	var labels []string
	for _, o := range r.Open.Options {
		labels = append(labels, o.Label)
	}
	return labels
}

// repeatable says whether a topic is one to ask again with other numbers, and names it.
func repeatable(name string) (string, bool) {
	for _, topic := range commands.Topics() {
		if topic.Name == name && !topic.Quiet && !topic.Writes && !topic.Text {
			return strings.ReplaceAll(name, "-", " "), true
		}
	}
	return "", false
}
