package room

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	_ "image/png" // what phones and screenshots send
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync"

	"golang.org/x/image/draw"
	_ "golang.org/x/image/webp" // what phones and screenshots send
)

const (
	mostPhotoBytes = 12 << 20   // of one upload
	mostPixels     = 50_000_000 // of one upload, looked at before it is unpacked
	longestEdge    = 1600       // px of what is kept
	photoQuality   = 80
	mostBytes      = 1 << 30 // of all photos together
)

// photos are the pictures that people sent, each a file named after the message that it belongs to.
type photos struct {
	folder string
	paint  sync.Mutex // one at a time: an unpacked photo takes hundreds of megabytes

	mu    sync.Mutex
	names map[string]int64 // size of each
	bytes int64
}

func openPhotos(folder string) (*photos, error) {
	p := &photos{folder: folder, names: map[string]int64{}}
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return nil, fmt.Errorf("make the folder for photos: %w", err)
	}
	files, err := os.ReadDir(folder)
	if err != nil {
		return nil, fmt.Errorf("list the photos: %w", err)
	}
	for _, f := range files {
		if info, err := f.Info(); err == nil && strings.HasSuffix(f.Name(), ".jpg") {
			p.names[f.Name()] = info.Size()
			p.bytes += info.Size()
		}
	}
	return p, nil
}

// of names the photo of a message, "" if it has none.
func (p *photos) of(key string) string {
	name := photoName(key)
	if key == "" || !p.has(name) {
		return ""
	}
	return name
}

// has says whether a photo of that name is kept.
func (p *photos) has(name string) bool {
	p.mu.Lock()
	defer p.mu.Unlock()
	_, there := p.names[name]
	return there
}

func photoName(key string) string {
	sum := sha256.Sum256([]byte(key))
	return hex.EncodeToString(sum[:16]) + ".jpg"
}

var photoForm = regexp.MustCompile(`^[0-9a-f]{32}\.jpg$`)

// path is where a photo lies, by its name.
func (p *photos) path(name string) (string, bool) {
	return filepath.Join(p.folder, name), photoForm.MatchString(name)
}

const (
	errNoPhoto   refusal = "That isn’t a photo that I can read. JPEG, PNG and WebP are."
	errPhotoFull refusal = "The photos fill their share of the disk (1 GiB). Somebody at the machine has to make room first."
)

// add keeps a photo for a message. It is painted anew, so nothing but the picture is kept: not
// where it was taken, not with what. One that is there already stays.
func (p *photos) add(key string, upload io.Reader) error {
	if p.of(key) != "" {
		return nil
	}
	data, err := io.ReadAll(io.LimitReader(upload, mostPhotoBytes+1))
	if err != nil {
		return fmt.Errorf("receive a photo: %w", err)
	}
	if len(data) > mostPhotoBytes {
		return refusal("That photo is larger than 12 MiB.")
	}
	p.paint.Lock()
	painted, err := repaint(data)
	p.paint.Unlock()
	if err != nil {
		return err
	}
	return p.save(photoName(key), painted)
}

func (p *photos) save(name string, painted []byte) error {
	p.mu.Lock()
	defer p.mu.Unlock()
	size := int64(len(painted))
	if p.bytes+size > mostBytes {
		return errPhotoFull
	}
	f, err := os.CreateTemp(p.folder, "new*")
	if err != nil {
		return fmt.Errorf("keep a photo: %w", err)
	}
	defer os.Remove(f.Name())
	_, err = f.Write(painted)
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return fmt.Errorf("keep a photo: %w", err)
	}
	if err := os.Rename(f.Name(), filepath.Join(p.folder, name)); err != nil {
		return fmt.Errorf("keep a photo: %w", err)
	}
	p.names[name] = size
	p.bytes += size
	return nil
}

// repaint reads a picture and writes it as a JPEG no longer than longestEdge.
func repaint(data []byte) ([]byte, error) {
	size, _, err := image.DecodeConfig(bytes.NewReader(data))
	if err != nil || size.Width < 1 || size.Height < 1 {
		return nil, errNoPhoto
	}
	if size.Width*size.Height > mostPixels {
		return nil, refusal("That photo has more than 50 megapixels.")
	}
	picture, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, errNoPhoto
	}
	w, h := size.Width, size.Height
	if long := max(w, h); long > longestEdge {
		w, h = max(1, w*longestEdge/long), max(1, h*longestEdge/long)
	}
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	draw.Draw(out, out.Bounds(), image.White, image.Point{}, draw.Src) // JPEG knows no transparency
	draw.ApproxBiLinear.Scale(out, out.Bounds(), picture, picture.Bounds(), draw.Over, nil)
	var b bytes.Buffer
	if err := jpeg.Encode(&b, out, &jpeg.Options{Quality: photoQuality}); err != nil {
		return nil, fmt.Errorf("write a photo: %w", err)
	}
	return b.Bytes(), nil
}
