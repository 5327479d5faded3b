//go:build unix

package mattermost_test

import (
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"fettle/bot"
	"fettle/bot/mattermost/mmtest"
	"fettle/calc/sketch"
	"fettle/store"
)

// A sign under an answer reaches the desk once, whether it was put there while the bot looked
// on or while it was away.
func TestASignUnderAnAnswerIsHandedOnOnce(t *testing.T) {
	server := mmtest.Start(t)
	d := experienced()
	channel := server.Channel(t)
	stop := onServer(t, server, d)
	server.Petra.Post(t, channel, "@fettle run sheet")
	answer := server.AwaitAnswers(t, channel, 1)[0]
	server.Gil.React(t, answer, "white_check_mark")
	mmtest.Await(t, "the check mark", func() bool { return len(d.signs()) == 1 })
	got := d.signs()[0]
	if got.Who != "Gil" || got.WhoKey != server.Gil.ID || got.Sign != bot.SignCheck || got.Post != answer.Id || got.Place != "mattermost:"+channel {
		t.Errorf("the sign was handed on as %+v", got)
	}
	stop()

	server.Gil.React(t, answer, "two")
	server.Petra.React(t, answer, "tada") // says nothing
	onServer(t, server, d)
	mmtest.Await(t, "the sign put there meanwhile", func() bool { return len(d.signs()) == 2 })
	server.Petra.Post(t, channel, "@fettle and now?")
	server.AwaitAnswers(t, channel, 2)
	if signs := d.signs(); len(signs) != 2 || signs[1].Sign != "2" {
		t.Errorf("handed on: %+v, want the check mark and the 2", signs)
	}
}

// Where the answer is a sign, nothing is posted.
func TestASignIsPutInsteadOfAPost(t *testing.T) {
	server := mmtest.Start(t)
	d := experienced()
	d.sign = func(m bot.Message) string {
		if strings.Contains(m.Text, "thanks") {
			return bot.SignThumb
		}
		return ""
	}
	channel := server.Channel(t)
	onServer(t, server, d)
	thanks := server.Petra.Post(t, channel, "@fettle thanks")
	mmtest.Await(t, "the sign", func() bool { return len(server.Petra.Signs(t, thanks)) > 0 })
	if got := server.Petra.Signs(t, thanks); len(got) != 1 || got[0] != "+1" {
		t.Errorf("the signs are %v", got)
	}
	server.Petra.Post(t, channel, "@fettle and clamps?")
	if got := server.AwaitAnswers(t, channel, 1)[0].Message; got != "heard: and clamps?" {
		t.Errorf("the first post is %q", got)
	}
}

// A list that hangs on a message comes with what is in it, a photo with where it is kept.
func TestFilesComeWithTheirMessage(t *testing.T) {
	server := mmtest.Start(t)
	d := experienced()
	channel := server.Channel(t)
	onServer(t, server, d)
	server.Petra.Post(t, channel, "@fettle hello")
	server.AwaitAnswers(t, channel, 1)
	list := "name,quantity,length,width,thickness\nrail,2,612,90,22\n"
	server.Petra.Attach(t, channel, "@fettle here is the list", map[string][]byte{"parts.csv": []byte(list), "sill.png": onePixel})
	server.AwaitAnswers(t, channel, 2)
	files := d.messages(channel)[1].Files
	if len(files) != 2 {
		t.Fatalf("the files are %+v", files)
	}
	for _, f := range files {
		switch {
		case f.Name == "parts.csv" && string(f.Data) != list:
			t.Errorf("the list holds %q", f.Data)
		case f.Name == "sill.png" && (f.Data != nil || f.Media != "image/png"):
			t.Errorf("the photo came as %s with %d bytes", f.Media, len(f.Data))
		case !strings.HasPrefix(f.Ref, "mattermost:"):
			t.Errorf("nobody knows where %s is kept: %q", f.Name, f.Ref)
		}
	}
}

// A drawing of an answer hangs on its post as a picture, and is replaced with it.
func TestDrawingsArePostedAsPictures(t *testing.T) {
	server := mmtest.Start(t)
	d := experienced()
	sheet := sketch.Sheet{Name: "board B1", Title: "A board", Width: 390, Height: 200}
	sheet.Add(sketch.Rect(10, 10, 300, 60).Filled(sketch.Wood), sketch.Words(160, 40, 14, "rail 712 × 65"))
	drawing, err := json.Marshal(sheet)
	if err != nil {
		t.Fatal(err)
	}
	d.files = func(m bot.Message) []store.File {
		n := map[string]int{"one": 1, "many": 14}[m.Text]
		return slices.Repeat([]store.File{{Name: sheet.Name, Media: sketch.MediaType, Data: drawing}}, n)
	}
	channel := server.Channel(t)
	onServer(t, server, d)
	asked := server.Petra.Post(t, channel, "@fettle one")
	first := server.AwaitAnswers(t, channel, 1)[0]
	pictures := server.Petra.Files(t, first)
	if len(pictures) != 1 || pictures[0].Name != "board B1.png" || pictures[0].Width < 390 {
		t.Fatalf("the post has %+v", pictures)
	}
	server.Petra.Post(t, channel, "@fettle many")
	post := server.AwaitAnswers(t, channel, 2)[1]
	var names []string
	mmtest.Await(t, "the files of fourteen drawings", func() bool { // the server attaches them after it has told of the post
		names = nil
		for _, f := range server.Petra.Files(t, post) {
			names = append(names, f.Name)
		}
		return len(names) == 10
	})
	if !slices.Contains(names, "all drawings.pdf") {
		t.Errorf("of 14 drawings the post has %v", names)
	}
	server.Petra.Edit(t, asked, "@fettle one none")
	mmtest.Await(t, "the amended answer", func() bool {
		now := server.AwaitAnswers(t, channel, 2)[0]
		return strings.Contains(now.Message, "none") && len(now.FileIds) == 0
	})
}

// onePixel is the smallest picture there is.
var onePixel = []byte("\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x00\x00\x01\x00\x00\x00\x01\x08\x06\x00\x00\x00\x1f\x15\xc4\x89" +
	"\x00\x00\x00\rIDATx\x9cc\xf8\xff\xff\xff\x7f\x00\t\xfb\x03\xfd\x05CE\xca\x00\x00\x00\x00IEND\xaeB`\x82")
