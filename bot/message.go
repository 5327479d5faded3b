// Package bot is where messages come from and answers go. A message comes in at a place
// (a terminal, a channel of a chat server), the desk has it understood, computed and
// remembered, and the answer goes back to where it was asked.
package bot

import (
	"time"

	"fettle/commands"
	"fettle/store"
)

// Message is something that a person wrote in a place.
type Message struct {
	Key       string       // the source's own id, unique for ever: "mattermost:POSTID"
	Place     string       // where it was written: "mattermost:CHANNELID", "terminal:workshop"
	Project   string       // the place's own project, as long as no other was switched to there
	Thread    string       // the root message's id in that place, or ""
	WhoKey    string       // the person's own id in that place
	Who       string       // the name that the person goes by
	Text      string       // what was said, with a mention of the bot cut out
	At        time.Time    // the source's time, not this machine's
	Mentioned bool         // the bot was named in the message
	Direct    bool         // the message was written to the bot alone
	Kept      bool         // the place keeps no messages of its own: the log is all there is of it
	Late      bool         // fetched after a gap
	Files     []store.File // what hangs on it; photos only with their Ref
	Cursor    int64        // how far the place has been read once this is stored, in the source's own count
}

// Outgoing is an answer that waits to be sent.
type Outgoing struct {
	ID      int64        // the answer's entry in the log; the same for every attempt
	Place   string       // where it goes
	Thread  string       // the root to answer under, or "" for top level
	ReplyTo string       // the Key of the message that it answers
	Text    string       // Markdown
	Sign    string       // a sign to put on that message instead of posting the text: "thumbsup"; or ""
	Files   []store.File // to attach, drawings as sketch.MediaType among them
	Amends  string       // the source's id of the earlier answer that it replaces in place, or ""
	At      time.Time    // of the message that it answers
}

// The signs that people put under an answer, and that are put under a message, beside the
// numbers "1" to "10".
const (
	SignCheck = commands.SignCheck
	SignThumb = commands.SignThumb
)

// Reaction is a sign that a person put under an answer.
type Reaction struct {
	Key     string // the source's own id of it, unique for ever
	Place   string
	Project string // the place's own project
	Post    string // the source's id of the answer, as given to Sent
	WhoKey  string
	Who     string
	Sign    string // SignCheck, SignThumb or a number
	At      time.Time
}
