package room_test

import (
	"bytes"
	"image"
	"image/jpeg"
	"io"
	"mime/multipart"
	"net/http"
	"strings"
	"testing"
)

// upload posts a file as one of our own pages would.
func (v *visitor) upload(field, name, key, text string, data []byte) int {
	v.Helper()
	var body bytes.Buffer
	form := multipart.NewWriter(&body)
	for k, value := range map[string]string{"key": key, "text": text} {
		if err := form.WriteField(k, value); err != nil {
			v.Fatal(err)
		}
	}
	w, err := form.CreateFormFile(field, name)
	if err == nil {
		_, err = w.Write(data)
	}
	if err != nil || form.Close() != nil {
		v.Fatal(err)
	}
	reply, _ := v.send(http.MethodPost, "/room/1/"+field, nil, func(r *http.Request) {
		r.Body, r.ContentLength = io.NopCloser(&body), int64(body.Len())
		r.Header.Set("Content-Type", form.FormDataContentType())
	})
	return reply.StatusCode
}

// words gives the page of the talk.
func (v *visitor) words() string {
	v.Helper()
	_, page := v.send(http.MethodGet, "/room/1", nil)
	return page
}

// A list that is sent without a word is read as other messages are: where the sender is alone with
// the program, or it listens. Where it does not, the sender's “Ask fettle” has it read.
func TestAListWithoutWords(t *testing.T) {
	h := build(t)
	petra, gil := visit(h), visit(h)
	petra.join("Petra", theCode)
	list := "name,quantity,length,width,thickness\nslat,6,830,70,22\nrail,2,712,65,22\n"
	wants(t, "the list", petra.upload("list", "rack.csv", someKey, "", []byte(list)), http.StatusOK)
	if page := petra.words(); !strings.Contains(page, "Added 2 parts") {
		t.Errorf("a list for the program alone is not read: %s", page)
	}
	gil.join("Gil", theCode)
	gil.say("fettle, stop listening", "1"+someKey[1:])
	wants(t, "the other list", gil.upload("list", "door.csv", "2"+someKey[1:], "", []byte(strings.ReplaceAll(list, "slat", "stile"))), http.StatusOK)
	page := gil.words()
	if strings.Count(page, "Added 2 parts") != 1 || !strings.Contains(page, "Ask fettle") {
		t.Errorf("nobody asked, and the list is read or can't be asked about: %s", page)
	}
	wants(t, "a list for the program", gil.upload("list", "lips.csv", "4"+someKey[1:], "@fettle", []byte(strings.ReplaceAll(list, "slat", "lip"))), http.StatusOK)
	if page := gil.words(); !strings.Contains(page, "6 × lip") {
		t.Errorf("a list with nothing but the program's name is not read: %s", page)
	}
	wants(t, "the other list again", gil.upload("list", "door.csv", "5"+someKey[1:], "", []byte(strings.ReplaceAll(list, "slat", "stile"))), http.StatusOK)
	gil.send(http.MethodPost, "/room/1/say", map[string][]string{"text": {"(a list)"}, "key": {"3" + someKey[1:]}, "ask": {"1"}})
	if page := gil.words(); !strings.Contains(page, "6 × stile") {
		t.Errorf("asked for, the list is not read: %s", page)
	}
}

// Photos that an answer speaks of are shown under it.
func TestPhotosAreShownUnderTheAnswer(t *testing.T) {
	h := build(t)
	petra := visit(h)
	petra.join("Petra", theCode)
	var picture bytes.Buffer
	if err := jpeg.Encode(&picture, image.NewGray(image.Rect(0, 0, 8, 8)), nil); err != nil {
		t.Fatal(err)
	}
	wants(t, "the photo", petra.upload("photo", "sill.jpg", someKey, "the sill at the left", picture.Bytes()), http.StatusOK)
	before := strings.Count(petra.words(), `<img src="/photo/`)
	petra.say("fettle, photos of the sill", "1"+someKey[1:])
	page := petra.words()
	if !strings.Contains(page, "1 photo about that") || strings.Count(page, `<img src="/photo/`) != before+1 || !strings.Contains(page, `alt="Photo by Petra, `) {
		t.Errorf("the photo is not shown under the answer: %s", page)
	}
}
