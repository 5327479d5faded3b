package commands

import (
	"bytes"
	"path"
	"slices"
	"strings"
	"unicode/utf8"

	"fettle/calc/measure"
	"fettle/commands/speech"
	"fettle/commands/tables"
	"fettle/store"
)

// ListAlone is the text of a list that was sent without a word, where a place must have one.
const ListAlone = "(a list)"

// fromFile is the action of a request that takes in what hangs on the message.
const fromFile = "file"

// calledList says whether a file's name is that of a list.
func calledList(f store.File) bool {
	ext := strings.ToLower(path.Ext(f.Name))
	return ext == ".csv" || ext == ".tsv" || ext == ".txt"
}

// unread says whether a file is called a list and came without what is in it.
func unread(f store.File) bool { return calledList(f) && len(f.Data) == 0 }

// listIn finds the first list among files.
func listIn(files []store.File) (store.File, bool) {
	i := slices.IndexFunc(files, func(f store.File) bool { return calledList(f) && len(f.Data) > 0 })
	if i < 0 {
		return store.File{}, false
	}
	return files[i], true
}

// listWords are how people speak of a list that they send.
const listWords = "list|lists|csv|file|attached|attachment|parts|boards|cutlist"

// takers are the topics that take in a list, by what a message that brings one seems to be about:
// nobody sends a list in order to see another.
var takers = map[string]string{"parts": "part", "stock": "board"}

// listRequest is what a message asks for by the list that hangs on it, where its words ask for
// nothing else. It is sure, and so heard without having been asked, where the list can be nothing
// but parts, or timber, and the words are about it or there are none.
func (h *Heard) listRequest(u speech.Understanding, open *store.Entry, system measure.System) (r speech.Request, sure, ok bool) {
	alone := silent(h.turn.Text)
	f, brings := listIn(h.turn.Files)
	switch {
	case !brings && alone && slices.ContainsFunc(h.turn.Files, isPage):
		r = takeFile("board")
		r.Slots["action"] = speech.Slot{Word: "list"}
		return r, false, true
	case !brings && alone && slices.ContainsFunc(h.turn.Files, unread):
		r = takeFile("part")
		r.Open = &speech.Question{Text: "I can't read that file: a list may have 1 MB at most. Send it in parts?"}
		return r, false, true
	case !brings:
		return r, false, false
	}
	s := speech.Read(h.turn.Text)
	topic := takers[u.Request.Topic]
	kind := tables.KindOf(f.Name, bytes.NewReader(f.Data))
	switch {
	case alone && open != nil && (open.Topic == "part" || open.Topic == "board"):
		h.manner, topic = speech.Reply, open.Topic
	case !alone && u.Manner != speech.Nothing && topic == "":
		if kind != tables.NoList || u.Request.Has("length_mm") || len(u.Request.Items) > 0 {
			return r, false, false
		}
		r, ok = writtenList(f, system)
		return r, r.Open == nil, ok && r.Topic == u.Request.Topic
	case topic == "" && s.Says("board|boards|plank|planks|stock|timber"):
		topic = "board"
	case topic == "" && s.Says("part|parts|piece|pieces|cutlist|cutting") || s.Says("cut list"):
		topic = "part"
	}
	if kind == tables.NoList {
		if r, ok := writtenList(f, system); ok {
			return r, r.Open == nil && (topic != "" || alone), true
		}
	}
	sure = kind != tables.NoList && (topic != "" || alone || s.Says(listWords))
	switch {
	case topic != "":
		return takeFile(topic), sure, true
	case kind == tables.OfBoards:
		return takeFile("board"), sure, true
	case kind == tables.OfEither:
		r = takeFile("part")
		r.Open = speech.Choice(shorten(f.Name, 40)+": is that a list of parts or of boards?",
			speech.Option{Label: "parts to make", Words: []string{"parts", "part", "pieces"}, Request: takeFile("part")},
			speech.Option{Label: "boards on hand", Words: []string{"boards", "board", "stock", "timber"}, Request: takeFile("board")})
		return r, false, true
	}
	return takeFile("part"), sure, true
}

// mostWritten is how long a list may be that is read as people write one, in bytes.
const mostWritten = 20_000

// writtenList reads a file that has no columns as the same lines in a message: one part a line, a
// table without heads.
func writtenList(f store.File, system measure.System) (speech.Request, bool) {
	if len(f.Data) > mostWritten || !utf8.Valid(f.Data) {
		return speech.Request{}, false
	}
	u := all.language.Understand(strings.TrimSpace(string(f.Data)), speech.Context{System: system})
	r := u.Request
	if r.Topic != "part" && r.Topic != "board" || len(r.Items) == 0 {
		return r, false
	}
	r.Slots[writtenSlot] = speech.Slot{Word: "yes"}
	return r, true
}

// writtenSlot says that a request holds already what hangs on the message.
const writtenSlot = "written"

// listInstead is the request of a message that speaks of its list, where its words for themselves ask
// for something that they say too little of: "rack parts attached" wants no rack.
func (h *Heard) listInstead(u speech.Understanding, system measure.System) (speech.Request, bool) {
	if h.Answer.Question == "" || u.Manner != speech.Fresh || u.Request.Topic == "part" || u.Request.Topic == "board" || !speech.Read(h.turn.Text).Says(listWords) {
		return speech.Request{}, false
	}
	r, sure, ok := h.listRequest(speech.Understanding{}, nil, system)
	if ok {
		h.Sure = sure
	}
	return r, ok
}

// silent says whether a message has no words of its own.
func silent(text string) bool { return strings.TrimSpace(text) == "" || text == ListAlone }

func takeFile(topic string) speech.Request {
	return speech.Request{Topic: topic, Slots: map[string]speech.Slot{"action": {Word: fromFile}}}
}

// files are what a message brings: what hangs on it; of the answer to a question, what hung on the
// message that was asked about.
func (h *Heard) files() ([]store.File, error) {
	t := h.turn
	if h.manner != speech.Reply || h.question == nil || len(t.Files) > 0 {
		return t.Files, nil
	}
	of := h.question.ID
	if h.question.Kind == store.Edit {
		of = h.question.About
	}
	return t.Tx.Files(of)
}

// lastList finds the list that a person sent last at a place, a short while ago: for who sends it
// in silence and asks for it to be read afterwards.
func lastList(t Turn, project int64) ([]store.File, error) {
	sent, err := t.Tx.Search(store.Query{Project: project, Place: t.Place, Media: "text/", Kinds: []string{store.Message}, From: t.Now.Add(-QuestionLife)})
	if err != nil {
		return nil, err
	}
	for _, e := range sent {
		files, err := t.Tx.Files(e.ID)
		if err != nil {
			return nil, err
		}
		if f, ok := listIn(files); ok && e.WhoKey == t.WhoKey {
			return []store.File{f}, nil
		}
	}
	return nil, nil
}

// unreadable says why a list was not taken in.
func unreadable(err error) Answer {
	ans := ask(capital(err.Error()) + ". Nothing was taken in; mend the file and send it again?")
	ans.echo = true
	return ans
}

// listBeside finds the list that hangs on the message, unless the request holds it already.
func (a *Ask) listBeside() (store.File, bool) {
	if a.Has(writtenSlot) {
		return store.File{}, false
	}
	return listIn(a.Files)
}
