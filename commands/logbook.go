package commands

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fettle/commands/speech"
	"fettle/store"
)

func logbook() *Topic {
	return &Topic{
		Title:    "who did and said what, and when, and the photos of it",
		Examples: []string{"what did we do on Saturday", "who measured the sill", "show me the log for the door", "photos of the sill"},
		Quiet:    true,
		Form: speech.Form{
			Name: "log", Text: true,
			Cues: []speech.Cue{
				{Weight: 6, Pattern: "what|wot|anything did|has|have|had we|i|he|she|they|you|petra|gil|anyone|anybody|somebody"},
				{Weight: 6, Pattern: "what|anything happened|happen|went|changed|decided|done|agreed|said"},
				{Weight: 6, Pattern: "what was|were .. decided|said|agreed|done|changed|written|noted"},
				{Weight: 6, Pattern: "what did .. do|say|decide|agree|write|make|cut|glue|measure|buy|finish|get"},
				{Weight: 6, Pattern: "what has|have .. done|made|said|cut|glued|measured|decided|written|finished"},
				{Weight: 6, Pattern: "who =measured|cut|glued|made|said|did|planed|sawed|wrote|set|changed|bought|decided|ordered|took|sanded|drilled|noted|fitted|put|added|started|wanted|was|has|had|mentioned|asked|told|moved"},
				{Weight: 6, Pattern: "who has|have|had =measured|=cut|=glued|=made|=said|=noted|=written|=bought"},
				{Weight: 6, Pattern: "when did|was|were|had|have we|i|he|she|they|petra|gil|the|it|that|bow|anyone"},
				{Weight: 6, Pattern: "what was|were it that? we|i|gil|petra did|do|done|at|doing|on"},
				{Weight: 6, Pattern: "what was|were we|i|gil|petra|you at|doing|on"},
				{Weight: 6, Pattern: "who has|had measured|cut|glued|made|said|planed|written|set|changed|bought|decided|ordered|taken|sanded|noted|fitted|added"},
				{Weight: 5, Pattern: "entries|entry"},
				{Weight: 6, Pattern: "anything|something|what noted|written|said|decided about|on|down"},
				{Weight: 5, Pattern: "^ show|list|read me|us? yesterday|today|last|monday|tuesday|wednesday|thursday|friday|saturday|sunday"},
				{Weight: 6, Pattern: "the|show|read|see|list|open|project|our|=in log|logbook|history|diary|journal"},
				{Weight: 6, Pattern: "^ log|history|logbook|diary"},
				{Weight: 5, Pattern: "did|have|has we|i|anyone|he|she|petra|gil .. yesterday|today|already|ever|last|on"},
				{Weight: 6, Pattern: "what|what's been|got|is|was .. since|done|made|cut|glued"},
				{Weight: 6, Pattern: "when has|is|did .."},
				{Weight: 6, Pattern: "everything|all|anything from|of|on|since yesterday|last|monday|tuesday|wednesday|thursday|friday|saturday|sunday|today|this"},
				{Weight: 12, Pattern: sendsBook},
				{Weight: 7, Pattern: "show|see|list|any|what|which|where|got|have|find|all|give .. " + photoNouns},
				{Weight: 7, Pattern: "^ " + photoNouns + " of|from|on|by|since|with|about|we|i|yesterday|today|last|this|taken|?"},
				{Weight: 7, Pattern: "^ the|our|all? " + photoNouns + " $"},
				{Weight: 7, Pattern: "is|are there a|any? " + photoNouns},
				{Weight: -20, Pattern: "=picture|=pictures|=pic|=pics of the|our|my? cut? =plan|=layout|=board|=boards|=sheet|=sheets|=cuts"},
				{Weight: 2, Pattern: "last|on saturday|sunday|monday|tuesday|wednesday|thursday|friday|week|weekend ? $"},
				{Weight: 3, Pattern: "yesterday|last week"},
				{Weight: 4, Pattern: "where did .. we|i|you|he|she leave|get|stop"},
				{Weight: -8, Pattern: "note|remember|record :"},
				{Weight: -5, Pattern: "what|which .. project"},
				{Weight: -8, Pattern: "for the record"},
				{Weight: -7, Pattern: "^ do|does you|we remember"},
				{Weight: -6, Pattern: "how much|many|long have|do|need"},
				{Weight: -6, Pattern: "undo|scratch|back to|switch|log #"},
				{Weight: -4, Pattern: "what did .. start|finish .. #"},
			},
		},
		Answer: answerLog,
	}
}

// mostLines is how many lines of the log one answer shows.
const mostLines = 8

// verbs are left out of what is looked for when nothing holds all the words: the question says
// "measured", the entry gives the measure.
var verbs = strings.Fields("measur cut glue glu made make said say did plane saw sawn wrote write set chang bought buy decid order took take sand drill note fit put ad add start want written jot happen agre finish get got show read see list work tell told ask gave give mention been done log histori diari journal logbook record entri book record petra gil week weekend last month day")

// sendsBook is how the whole book is asked for.
const sendsBook = "send|give|export|attach|mail|post|print|download|get|want me|us? the|our|a|whole|project? copy? of? the|whole|project|our? book"

// bookFormat is the format in which the book is asked for: a page that opens anywhere, unless
// another is said.
func bookFormat(s speech.Sentence) string {
	for _, f := range []struct{ words, format string }{{"pdf", "pdf"}, {"csv|spreadsheet", "csv"}, {"json", "json"}, {"markdown|md", "md"}} {
		if s.Says(f.words) {
			return f.format
		}
	}
	return "html"
}

func answerLog(a *Ask) Answer {
	s := speech.Read(a.Request.Text)
	if s.Says(sendsBook) {
		ans := say("Here is the book of " + shorten(a.Project.Name, 60))
		ans.echo, ans.Book = true, bookFormat(s)
		return ans
	}
	q := store.Query{Project: a.Project.ID, Kinds: []string{store.Message, store.Edit}, Limit: mostLines + 1}
	var used []int
	var said string
	if from, to, items, ok := s.Period(a.Now); ok {
		q.From, q.To, used = from, to, items
		said = " on " + from.Format("Mon 2 Jan")
		if to.Sub(from) > 25*time.Hour {
			said = fmt.Sprintf(" from %s to %s", from.Format("Mon 2 Jan"), to.AddDate(0, 0, -1).Format("Mon 2 Jan"))
		}
	}
	if q.From.IsZero() && (noSuchDay(s) || s.Says("january|february|march|april|may|june|july|august|september|october|november|december #")) {
		return ask("There is no such day. Which one do you mean?")
	}
	if notedOnly(s) {
		q.Topic = "note"
	}
	q.Who = a.personIn(s)
	words := slices.DeleteFunc(speech.Meaningful(s, used), func(w string) bool { return speech.Stem(q.Who) == w })
	if !s.Says("=opening|=openings") { // "open the log", not what was measured
		words = slices.DeleteFunc(words, func(w string) bool { return w == "open" })
	}
	if s.Says(photoNouns) {
		return a.showPhotos(q, photoWords(words), said)
	}
	entries, err := a.findDone(s, q, words)
	if err != nil {
		return ask(store.Sentence(err))
	}
	if len(entries) == 0 {
		ans := say(shorten("Nothing in the log"+said+about(words), MaxHeadline))
		ans.echo = true
		return ans
	}
	return a.showEntries(entries, said)
}

// deeds are the verbs that tell what kind of entry is looked for.
var deeds = []struct{ words, topic string }{{"measured|measure|measuring", "measure"}, {"glued|glue|gluing", "glue-up"}, {"bought|buy", "board"}}

// findDone looks first among the entries of the kind that the question's verb tells, then among all.
func (a *Ask) findDone(s speech.Sentence, q store.Query, words []string) ([]store.Entry, error) {
	for _, d := range deeds {
		if q.Topic == "" && s.Says(d.words) {
			first := q
			first.Topic = d.topic
			if found, err := a.find(first, words); err != nil || len(found) > 0 {
				return found, err
			}
		}
	}
	return a.find(q, words)
}

// noSuchDay says whether a day with its month was named: had there been such a day, it would
// have been found.
func noSuchDay(s speech.Sentence) bool {
	return slices.ContainsFunc(s.Items, func(it speech.Item) bool { return it.Q != nil && it.Q.Kind == speech.KindDate })
}

func about(words []string) string {
	if len(words) == 0 {
		return ""
	}
	return " about that"
}

// notedOnly says whether only notes are asked for.
func notedOnly(s speech.Sentence) bool {
	return s.Says("write|written|wrote|note|noted|jot|jotted down") || s.Says("notes|noted")
}

// personIn finds the person whose entries are asked for: the asker for "I", or a name under
// which somebody has written.
func (a *Ask) personIn(s speech.Sentence) string {
	if s.Says("what|when did|have|had|was i") || s.Says("did i") {
		return a.Who
	}
	for _, it := range s.Items {
		name := strings.TrimSuffix(it.Text, "'s")
		if it.Q != nil || len(name) < 2 {
			continue
		}
		found, err := a.Tx.Search(store.Query{Project: a.Project.ID, Who: name, Kinds: []string{store.Message}, Limit: 1})
		if err == nil && len(found) > 0 {
			return name
		}
	}
	return ""
}

// find looks for entries with all the words, and failing that for those with the things the
// question is about.
func (a *Ask) find(q store.Query, words []string) ([]store.Entry, error) {
	if q.Topic == "note" {
		words = slices.DeleteFunc(words, func(w string) bool { return slices.Contains(verbs, w) })
	}
	q.Words = words
	found, err := a.search(q)
	if err != nil || len(found) > 0 || len(words) == 0 {
		return found, err
	}
	things := slices.DeleteFunc(slices.Clone(words), func(w string) bool { return slices.Contains(verbs, w) })
	if len(things) == len(words) || len(things) == 0 && q.From.IsZero() && q.Who == "" && q.Topic == "" && !slices.ContainsFunc(words, isLogWord) {
		return nil, nil
	}
	q.Words = things
	return a.search(q)
}

func isLogWord(w string) bool {
	return w == "log" || w == "histori" || w == "logbook" || w == "happen" || w == "did" || w == "do"
}

// mostPages bounds how far back the log is looked through for entries worth showing.
const mostPages = 20

// search asks the log, page by page, and leaves out what only looked something up.
func (a *Ask) search(q store.Query) (kept []store.Entry, err error) {
	for range mostPages {
		found, err := a.Tx.Search(q)
		if err != nil {
			return nil, err
		}
		for _, e := range found {
			if worth, err := a.worthShowing(q, e); err != nil {
				return nil, err
			} else if worth {
				kept = append(kept, e)
			}
		}
		if len(found) < q.Limit || len(kept) >= q.Limit {
			return kept[:min(len(kept), q.Limit)], nil
		}
		q.Before = found[len(found)-1].ID
	}
	return kept, nil
}

// worthShowing leaves out questions to the log and to help, and requests about notes and
// settings that changed nothing; chatter counts only for who looks for words.
func (a *Ask) worthShowing(q store.Query, e store.Entry) (bool, error) {
	t, known := a.house.named(e.Topic)
	switch {
	case !known:
		return len(q.Words) > 0, nil
	case e.Topic == "note" || e.Topic == "setting" || e.Topic == "project" || e.Topic == "measure":
		cs, err := a.Tx.ChangesBy(e.ID)
		return len(cs) > 0, err
	}
	return !t.Quiet, nil
}

func (a *Ask) showEntries(entries []store.Entry, said string) Answer {
	more := len(entries) > mostLines
	entries = entries[:min(len(entries), mostLines)]
	head := plural(len(entries), "entry", "entries") + said
	if more {
		head = fmt.Sprintf("The last %d entries%s", len(entries), said)
	}
	if len(entries) == 1 {
		e := entries[0]
		files, err := a.Tx.Files(e.ID)
		if err != nil {
			return ask(store.Sentence(err))
		}
		e.Text += attached(files)
		head = shorten(fmt.Sprintf("%s, %s: %s", e.Who, a.when(e), e.Text), MaxHeadline)
	}
	ans := say(head)
	ans.echo = true
	if len(entries) == 1 && !strings.HasSuffix(head, "…") {
		return ans
	}
	for _, e := range slices.Backward(entries) {
		files, err := a.Tx.Files(e.ID)
		if err != nil {
			return ask(store.Sentence(err))
		}
		ans.line(fmt.Sprintf("- %s %s: %s%s", a.when(e), e.Who, shorten(e.Text, 300), attached(files)))
	}
	return ans
}

// attached says what hangs on an entry: photos and lists by their names.
func attached(files []store.File) string {
	out := ""
	for _, f := range files {
		out += " [" + shorten(f.Name, 40) + "]"
	}
	return out
}

func (a *Ask) when(e store.Entry) string { return e.At.In(a.Now.Location()).Format("Mon 2 Jan 15:04") }
