package room_test

import (
	"bytes"
	"image"
	"regexp"
	"strings"
	"testing"

	"fettle/bot/room"
)

func TestItsNameIsCutOut(t *testing.T) {
	for text, want := range map[string]string{
		"fettle, rough size for 600": "rough size for 600", "@fettle kerf is 3": "kerf is 3", "Fettle: help": "help",
		"what's the kerf @fettle": "what's the kerf", "  @Fettle   undo": "undo",
	} {
		if got, named := room.ReadName(text); got != want || !named {
			t.Errorf("%q is read as %q, named %v; want %q", text, got, named, want)
		}
	}
	for _, text := range []string{"in fine fettle today", "fettled the plane", "fettle", "", "@fettler hello"} {
		if got, named := room.ReadName(text); got != text || named {
			t.Errorf("%q is taken for spoken to the program: %q", text, got)
		}
	}
}

var tags = regexp.MustCompile(`<\s*/?\s*([a-zA-Z0-9]+)([^>]*)>`)

// harmless are the only things that Markdown may become.
var harmless = " p br strong em ul ol li code pre table thead tbody tr th td blockquote hr h1 h2 h3 h4 h5 h6 a img del "

// FuzzAnswers has anything come as an answer's text: nothing of it is lost, and nothing runs.
func FuzzAnswers(f *testing.F) {
	for _, seed := range []string{
		"**Rough 700 × 65 mm**\nRead: 600 × 45 mm\nAllowances: 100 mm\n⚠ Wear gloves.", "_Late: this was asked Sat_\n**x**\n_(amended: the question was edited)_",
		"In which unit? 1 cm · 2 inches\n\nSo far: oak", "- a\n- b\n| a | b |\n|---|---|\n| <b> | x |", "<script>alert(1)</script>", "[x](javascript:alert(1))", "****", "\n", "![x](data:text/html,x)",
	} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		headline, read, lines, cautions := room.TakeApart(text)
		kept := headline + read + strings.Join(lines, "") + strings.Join(cautions, "")
		for _, word := range strings.Fields(text) {
			if strings.Trim(word, "*_⚠: ") == word && word != "Read" && !strings.Contains(text, "_") && !strings.Contains(kept, word) {
				t.Errorf("%q is lost of %q", word, text)
			}
		}
		html := room.Rendered(text)
		for _, tag := range tags.FindAllStringSubmatch(html, -1) {
			if !strings.Contains(harmless, " "+strings.ToLower(tag[1])+" ") {
				t.Errorf("%q becomes %q", text, html)
			}
			if attributes := strings.ToLower(tag[2]); strings.Contains(attributes, `="javascript:`) || strings.Contains(attributes, " on") && !strings.Contains(attributes, `"`) {
				t.Errorf("%q becomes %q", text, html)
			}
		}
	})
}

// FuzzPhotos has anything come as a photo: it becomes a picture that can be read, or is refused.
func FuzzPhotos(f *testing.F) {
	f.Add([]byte("no photo"))
	f.Add([]byte("\xff\xd8\xff\xe0"))
	f.Add([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x00\x00\x01\x00\x00\x00\x01\x08\x02\x00\x00\x00"))
	f.Fuzz(func(t *testing.T, data []byte) {
		painted, err := room.Repaint(data)
		if err != nil {
			return
		}
		if _, kind, err := image.DecodeConfig(bytes.NewReader(painted)); err != nil || kind != "jpeg" {
			t.Errorf("%d bytes become %s (%v)", len(data), kind, err)
		}
	})
}
