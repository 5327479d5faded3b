package room

import (
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"html/template"
	"io/fs"
	"sync"

	"github.com/google/uuid"
)

// shell is everything that the pages are made of.
//
//go:embed static pages
var shell embed.FS

var layouts = template.Must(template.New("").Funcs(template.FuncMap{
	"key":  uuid.NewString, // names a message that a page without JavaScript sends
	"tabs": tabs,
}).ParseFS(shell, "pages/*.html"))

// buildOf names the version of the pages, so that an old page notices a new program.
func buildOf(files embed.FS) string {
	sum := sha256.New()
	_ = fs.WalkDir(files, ".", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := files.ReadFile(path)
		sum.Write(text)
		return err
	})
	return hex.EncodeToString(sum.Sum(nil)[:6])
}

// icons are drawn once, when first asked for.
var icons = map[string]func() ([]byte, error){
	"icon-192.png": sync.OnceValues(func() ([]byte, error) { return iconAt(192) }),
	"icon-512.png": sync.OnceValues(func() ([]byte, error) { return iconAt(512) }),
}
