package room

import (
	"io"
	"mime/multipart"
	"net/http"
	"path"
	"strings"

	"fettle/store"
)

const mostListBytes = 1 << 20

// photo keeps a photo and the words that came with it as one message.
func (r *Room) photo(w http.ResponseWriter, req *http.Request, v visit) {
	r.upload(w, req, v, "photo", mostPhotoBytes, "That photo did not arrive whole, or is larger than 12 MiB.", func(key string, file multipart.File, _ string) (store.File, error) {
		err := r.photos.add(key, file)
		return store.File{Name: "photo.jpg", Media: "image/jpeg", Ref: prefix + photoName(key)}, err
	})
}

// list keeps a list of parts or of boards with the words that came with it.
func (r *Room) list(w http.ResponseWriter, req *http.Request, v visit) {
	r.upload(w, req, v, "list", mostListBytes, errLongList, func(_ string, file multipart.File, name string) (store.File, error) {
		return readList(file, name)
	})
}

const errLongList refusal = "That list did not arrive whole, or is larger than 1 MiB."

// medias are the types of what is read as a list, by its ending.
var medias = map[string]string{".csv": "text/csv", ".tsv": "text/tab-separated-values", ".txt": "text/plain", ".html": "text/html", ".htm": "text/html"}

func readList(file io.Reader, name string) (store.File, error) {
	name = path.Base(strings.ReplaceAll(strings.ToValidUTF8(name, ""), "\\", "/"))
	ending := strings.ToLower(path.Ext(name))
	if medias[ending] == "" || len(name) > 200 {
		return store.File{}, refusal("That isn’t a list that I can read. CSV, TSV, TXT and HTML are.")
	}
	data, err := io.ReadAll(io.LimitReader(file, mostListBytes+1))
	if err != nil || len(data) > mostListBytes {
		return store.File{}, errLongList
	}
	if len(data) == 0 {
		return store.File{}, refusal("That list is empty.")
	}
	return store.File{Name: name, Media: medias[ending], Data: data}, nil
}

// upload takes a file in a field of a form, and the words beside it, as one message.
func (r *Room) upload(w http.ResponseWriter, req *http.Request, v visit, field string, most int64, broken refusal, keep func(key string, file multipart.File, name string) (store.File, error)) {
	req.Body = http.MaxBytesReader(w, req.Body, most+(64<<10))
	if err := req.ParseMultipartForm(1 << 20); err != nil {
		r.trouble(w, req, broken)
		return
	}
	defer func() { _ = req.MultipartForm.RemoveAll() }()
	s, err := readSaid(req)
	if err != nil {
		r.trouble(w, req, err)
		return
	}
	file, head, err := req.FormFile(field)
	if err != nil {
		r.trouble(w, req, broken)
		return
	}
	defer file.Close()
	kept, err := keep(keyOf(v.Person, s.Key), file, head.Filename)
	if err != nil {
		r.trouble(w, req, err)
		return
	}
	s.Files = []store.File{kept}
	if s.Text == "" {
		s.Text = wordless(kept)
	}
	r.done(w, req, v, r.hear(req.Context(), v.Person, v.Project, s))
}
