package room

import (
	"crypto/rand"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"math/big"
	"os"
	"path/filepath"
	"strings"
	"sync"
)

// keys is what the room remembers beside the database, in a file for the owner's eyes only: a
// copy of the database that is handed on lets nobody in.
type keys struct {
	mu   sync.Mutex
	path string
	kept
}

type kept struct {
	Secret  []byte `json:"secret"`            // signs the sessions
	Code    string `json:"code"`              // lets people in
	Retired string `json:"retired,omitempty"` // the code given at the start that was changed since
}

// keep opens the file at path. A code that is given counts, unless it was changed in the room.
func keep(path, given string) (*keys, error) {
	k := &keys{path: path}
	text, err := os.ReadFile(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		k.Secret = make([]byte, 32)
		if _, err := rand.Read(k.Secret); err != nil {
			return nil, fmt.Errorf("make a secret: %w", err)
		}
	case err != nil:
		return nil, fmt.Errorf("read the room's keys: %w", err)
	default:
		if err := json.Unmarshal(text, &k.kept); err != nil || len(k.Secret) < 32 {
			return nil, fmt.Errorf("%s is damaged; take it away, and everybody comes in anew: %w", path, err)
		}
	}
	given = strings.TrimSpace(given)
	switch {
	case given != "" && given != k.Retired:
		k.Code, k.Retired = given, ""
	case k.Code == "":
		k.Code = newCode()
	}
	return k, k.save()
}

// change puts another code in place of the present one, which never counts again.
func (k *keys) change(code string) error {
	k.mu.Lock()
	defer k.mu.Unlock()
	before := k.kept
	if k.Retired == "" {
		k.Retired = k.Code
	}
	k.Code = code
	if err := k.save(); err != nil {
		k.kept = before
		return err
	}
	return nil
}

func (k *keys) code() string {
	k.mu.Lock()
	defer k.mu.Unlock()
	return k.Code
}

// save writes the file whole or not at all.
func (k *keys) save() error {
	text, err := json.Marshal(k.kept)
	if err != nil {
		return fmt.Errorf("keep the room's keys: %w", err)
	}
	f, err := os.CreateTemp(filepath.Dir(k.path), filepath.Base(k.path)+".new*") // readable by the owner alone
	if err != nil {
		return fmt.Errorf("keep the room's keys: %w", err)
	}
	defer os.Remove(f.Name())
	_, err = f.Write(text)
	if err = errors.Join(err, f.Sync(), f.Close()); err != nil {
		return fmt.Errorf("keep the room's keys: %w", err)
	}
	if err := os.Rename(f.Name(), k.path); err != nil {
		return fmt.Errorf("keep the room's keys: %w", err)
	}
	return nil
}

// codeWords are easy to say across a workshop, to spell and to type with cold hands.
var codeWords = strings.Fields(`acorn adze alder amber anvil apple arbor auger badge barn basil batten beech bench birch blade board brace brass
	bridge brook bucket candle canvas cedar chalk cherry chisel clover cobalt copper cork cotton crane drill dowel drum eagle
	elder ember fennel fern field file flint forge garden ginger glove granite gravel hammer harbour hazel heron hickory hinge
	holly honey iron ivory jacket jasper kettle ladder lantern larch latch leather lemon level lichen linen maple marble
	meadow mallet mortar moss needle nettle oak olive onion orchard otter paddle paper pebble pencil pepper pewter pillar pine
	plane plaster plum pocket poplar quarry quill rabbit raven ribbon river robin rope rowan saddle saffron sage sail
	salmon shed shovel silver slate spade sparrow spruce square stable stone summer swallow tailor teak thimble thistle timber
	tinder toffee trowel tulip turnip velvet walnut wedge willow window winter wool yarrow`)

// newCode makes a code of two words and a number: some two million of them, at a few tries a minute.
func newCode() string {
	return fmt.Sprintf("%s-%s-%02d", codeWords[pick(len(codeWords))], codeWords[pick(len(codeWords))], pick(100))
}

// pick chooses below n, the same chance for each.
func pick(n int) int {
	i, err := rand.Int(rand.Reader, big.NewInt(int64(n)))
	if err != nil {
		panic(err) // the system has no randomness; nothing here would be safe
	}
	return int(i.Int64())
}
