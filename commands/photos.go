package commands

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fettle/commands/book"
	"fettle/store"
)

// photoNouns are what photos are called.
const photoNouns = "=photo|=photos|=photograph|=photographs|=picture|=pictures|=pic|=pics|=snapshot|=snapshots"

// PhotoAlone is the text of a photo that was sent without a word, where a place must have one.
const PhotoAlone = "(a photo)"

// Photo is a photo that somebody posted, as an answer speaks of it.
type Photo struct {
	Name string    `json:"name"`
	Ref  string    `json:"ref"` // where the place keeps it: "room:NAME"
	Who  string    `json:"who"`
	At   time.Time `json:"at"`
	Says string    `json:"says"` // the words that came with it
}

// posted is an entry with photos, and what it is about.
type posted struct {
	entry  store.Entry
	photos []store.File
	said   string   // the words with it, or, where there are none, those beside it
	beside bool     // the words are of the message before or after
	about  []string // the parts and other things of the book that it is about
}

const (
	mostPhotos = 300             // messages with photos looked through
	besides    = 5 * time.Minute // within which words and the photo that they go with are posted
)

// photosOf finds the messages with photos, the newest first. What was taken back is gone.
func (a *Ask) photosOf(q store.Query) (out []posted, err error) {
	q.Media, q.Limit, q.Words, q.Topic, q.Kinds = "image/", mostPhotos, nil, "", []string{store.Message}
	entries, err := a.Tx.Search(q)
	if err != nil || len(entries) == 0 {
		return nil, err
	}
	parts, err := a.parts()
	if err != nil {
		return nil, err
	}
	for _, e := range entries {
		p, there, err := a.posted(e, parts)
		if err != nil {
			return nil, err
		}
		if there {
			out = append(out, p)
		}
	}
	return out, nil
}

// posted reads one message with photos; there is false where it was taken back.
func (a *Ask) posted(e store.Entry, parts []book.Named[book.Part]) (p posted, there bool, err error) {
	p = posted{entry: e, said: wordsWith(e.Text)}
	later, err := a.Tx.About(e.ID)
	if err != nil {
		return p, false, err
	}
	for _, v := range later {
		switch v.Kind {
		case store.Deletion:
			return p, false, nil
		case store.Edit:
			p.said = wordsWith(v.Text)
		}
	}
	files, err := a.Tx.Files(e.ID)
	if err != nil {
		return p, false, err
	}
	p.photos = slices.DeleteFunc(files, func(f store.File) bool { return !strings.HasPrefix(f.Media, "image/") })
	changed := e.ID
	if p.said == "" {
		near, ok, err := a.wordsBeside(e)
		if err != nil {
			return p, false, err
		}
		if ok {
			p.said, p.beside, changed = near.Text, true, near.ID
		}
	}
	p.about, err = a.aboutWords(p.said, changed, parts)
	return p, true, err
}

// wordsWith is what was said with a photo, nothing where a place only puts something in its stead.
func wordsWith(text string) string {
	if text == PhotoAlone {
		return ""
	}
	return strings.TrimSpace(text)
}

// wordsBeside finds what the person said just before a photo without words, or just after.
func (a *Ask) wordsBeside(e store.Entry) (near store.Entry, ok bool, err error) {
	around, err := a.Tx.Search(store.Query{Project: e.Project, Place: e.Place, Who: e.Who, Kinds: []string{store.Message}, From: e.At.Add(-besides), To: e.At.Add(besides)})
	if err != nil {
		return near, false, err
	}
	best := besides
	for _, o := range around {
		off := e.At.Sub(o.At).Abs()
		if o.ID == e.ID || o.WhoKey != e.WhoKey || wordsWith(o.Text) == "" || silent(o.Text) || off > best {
			continue
		}
		if t, known := a.house.named(o.Topic); known && t.Quiet { // asked the log something
			continue
		}
		near, ok, best = o, true, off
	}
	return near, ok, nil
}

// aboutWords lists what of the book a message is about: what it changed, and the parts that it names.
func (a *Ask) aboutWords(said string, entry int64, parts []book.Named[book.Part]) (out []string, err error) {
	cs, err := a.Tx.ChangesBy(entry)
	if err != nil {
		return nil, err
	}
	for _, c := range cs {
		if c.What != whatNote && c.What != book.WhatPlan && !slices.Contains(out, c.Name) {
			out = append(out, c.Name)
		}
	}
	have := stemsOf(said)
	for _, p := range parts {
		own := stemsOf(p.Name)
		named := len(own) > 0 && !slices.ContainsFunc(own, func(w string) bool { return !slices.Contains(have, w) })
		if named && !slices.Contains(out, p.Name) {
			out = append(out, p.Name)
		}
	}
	return out, nil
}

// isAbout says whether all words, as stems, are in what was said with a photo or of what it is about.
func (p posted) isAbout(words []string) bool {
	have := append(stemsOf(p.said), stemsOf(strings.Join(p.about, " "))...)
	return !slices.ContainsFunc(words, func(w string) bool { return !slices.Contains(have, w) })
}

// line says a message with photos in a line.
func (a *Ask) photoLine(p posted) string {
	text := fmt.Sprintf("- %s %s", a.when(p.entry), p.entry.Who)
	switch {
	case p.beside:
		text += ", beside “" + shorten(p.said, 160) + "”"
	case p.said != "":
		text += ": " + shorten(p.said, 200)
	}
	if len(p.about) > 0 && !p.saysAll() {
		text += " (about " + shorten(strings.Join(p.about, ", "), 80) + ")"
	}
	return text + attached(p.photos)
}

// saysAll says whether the words name already all that the photo is about.
func (p posted) saysAll() bool {
	return !slices.ContainsFunc(p.about, func(name string) bool { return !strings.Contains(store.Fold(p.said), store.Fold(name)) })
}

// shows puts photos into an answer: as lines, and as what a place can show.
func (a *Ask) shows(ans *Answer, of []posted) {
	for _, p := range of {
		ans.line(a.photoLine(p))
		for _, f := range p.photos {
			ans.Photos = append(ans.Photos, Photo{Name: f.Name, Ref: f.Ref, Who: p.entry.Who, At: p.entry.At, Says: p.said})
		}
	}
}

// showPhotos answers what photos there are, of a day, a person or a thing.
func (a *Ask) showPhotos(q store.Query, words []string, said string) Answer {
	found, err := a.photosOf(q)
	if err != nil {
		return ask(store.Sentence(err))
	}
	found = slices.DeleteFunc(found, func(p posted) bool { return !p.isAbout(words) })
	of := said
	if len(words) > 0 {
		of += " about that"
	}
	if len(found) == 0 {
		return say(shorten("No photos"+of, MaxHeadline))
	}
	n := 0
	for _, p := range found {
		n += len(p.photos)
	}
	head := plural(n, "photo", "photos") + of
	if len(found) > mostLines {
		found = found[:mostLines]
		head += fmt.Sprintf(", the last %d of them", mostLines)
	}
	slices.Reverse(found)
	ans := say(shorten(head, MaxHeadline))
	ans.echo = true
	ans.Values["photos"] = n
	a.shows(&ans, found)
	return ans
}

// photoWords are the words of a question about photos that say what they are of.
func photoWords(words []string) []string {
	return slices.DeleteFunc(words, func(w string) bool { return slices.Contains(photoStems, w) || slices.Contains(verbs, w) })
}

var photoStems = strings.Fields("photo photograph pictur pic snapshot post taken took shot imag find any ani some everi every thing anyth far latest newest lately kept recent")
