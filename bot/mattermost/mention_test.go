package mattermost_test

import (
	"strings"
	"testing"

	"fettle/bot/mattermost"
)

// The rows follow the server's rules (app/mention_parser_standard.go and its tests) and,
// for the full-width sign, what people mean.
var mentionRows = []struct {
	text      string
	mentioned bool
	rest      string // "" where it is the text itself
}{
	// The name as it is.
	{"@fettle rough size for 600 by 45", true, "rough size for 600 by 45"},
	{"@Fettle rough size", true, "rough size"},
	{"@FETTLE rough size", true, "rough size"},
	{"rough size @fettle", true, "rough size"},
	{"＠fettle rough size", true, "rough size"},
	{"@fettle", true, "-"},

	// With marks behind it.
	{"@fettle: rough size", true, "rough size"},
	{"@fettle, rough size", true, "rough size"},
	{"@fettle. rough size", true, ". rough size"},
	{"@fettle- rough size", true, "- rough size"},
	{"@fettle_ rough size", true, "_ rough size"},
	{"hey @fettle, rough size", true, "hey rough size"},
	{"what now, @fettle?", true, "what now?"},
	{"what now @fettle!", true, "what now!"},
	{"thanks @fettle.", true, "thanks."},
	{"(@fettle) rough size", true, "rough size"},
	{"Gil:@fettle rough size", true, "Gil: rough size"},

	// In markup.
	{"**@fettle** rough size", true, "rough size"},
	{"_@fettle_ rough size", true, "rough size"},
	{"> @fettle rough size", true, "> rough size"},
	{"first\n@fettle rough size", true, "first\nrough size"},
	{"@fettle @fettle rough size", true, "rough size"},
	{"`@fettle` means you, @fettle", true, "`@fettle` means you"},

	// Not the name.
	{"fettle rough size", false, ""},
	{"@fettle2 rough size", false, ""},
	{"@fettler rough size", false, ""},
	{"@fettle.gil rough size", false, ""},
	{"@fettle-2 rough size", false, ""},
	{"petra@fettle rough size", false, ""},
	{":fettle: rough size", false, ""},
	{":@fettle: rough size", false, ""},
	{"`@fettle` rough size", false, ""},
	{"```\n@fettle rough size\n```", false, ""},
	{"    @fettle rough size", false, ""},
	{"@ fettle rough size", false, ""},
	{"@all the kettle is on", false, ""},
	{"@here @channel the kettle is on", false, ""},
	{"@gil are the rails cut", false, ""},
	{"", false, ""},
}

func TestReadMention(t *testing.T) {
	for _, row := range mentionRows {
		want := row.rest
		switch want {
		case "":
			want = row.text
		case "-":
			want = ""
		}
		rest, mentioned := mattermost.ReadMention(row.text, "fettle")
		if mentioned != row.mentioned || rest != want {
			t.Errorf("ReadMention(%q) = %q, %v, want %q, %v", row.text, rest, mentioned, want, row.mentioned)
		}
	}
}

func TestReadMentionOfANameWithMarks(t *testing.T) {
	for text, want := range map[string]bool{
		"@hut.bot_1 hello": true, "@Hut.Bot_1. hello": true, "@hut hello": false, "@hutxbot_1 hello": false, "@hut.bot_12": false,
	} {
		if _, got := mattermost.ReadMention(text, "hut.bot_1"); got != want {
			t.Errorf("ReadMention(%q) = %v, want %v", text, got, want)
		}
	}
}

func FuzzReadMention(f *testing.F) {
	for _, row := range mentionRows {
		f.Add(row.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		rest, mentioned := mattermost.ReadMention(text, "fettle")
		if !mentioned && rest != text {
			t.Errorf("without a mention %q became %q", text, rest)
		}
		if len(rest) > len(text) {
			t.Errorf("%q grew to %q", text, rest)
		}
		if plain := "so " + text; mentioned && !strings.Contains(strings.ToLower(strings.ReplaceAll(plain, "＠", "@")), "fettle") {
			if !strings.Contains(text, "&") && !strings.Contains(text, `\`) {
				t.Errorf("%q mentions nobody", text)
			}
		}
	})
}
