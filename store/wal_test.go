package store_test

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"fettle/store"
)

// A power cut can end the write-ahead log anywhere, and leave rubbish behind the end. What is found
// then is always the first so many messages, each whole, and the more of the log there is the more
// of them.
func TestCutLogGivesASoundPrefix(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "hut.db")
	s := open(t, path)
	project := projectOf(t, s, "Hut")
	closeStore(t, s) // so that the tables are in the file itself

	const messages = 40
	s = open(t, path)
	for n := 1; n <= messages; n++ {
		write(t, s, func(tx *store.Tx) error { return exchange(tx, project, n) })
	}
	file, log := content(t, path), content(t, path+"-wal")
	closeStore(t, s)

	const cuts = 120
	before := 0
	for cut := range cuts + 1 {
		length := len(log) * cut / cuts
		if cut%3 == 1 {
			length = max(0, length-cut) // not at a round place
		}
		short := log[:length]
		if cut%2 == 1 {
			short = append(bytes.Clone(short), bytes.Repeat([]byte{0xA5}, 5000)...)
		}
		got := messagesIn(t, filepath.Join(folder, fmt.Sprintf("cut%d.db", cut)), file, short)
		if got < before {
			t.Errorf("%d bytes of the log give %d messages, fewer bytes gave %d", length, got, before)
		}
		before = got
	}
	if before != messages {
		t.Errorf("the whole log gives %d messages, want %d", before, messages)
	}
}

func messagesIn(t *testing.T, path string, file, log []byte) int {
	t.Helper()
	for name, data := range map[string][]byte{path: file, path + "-wal": log} {
		if err := os.WriteFile(name, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	s, err := store.Open(context.Background(), path, clock)
	if err != nil {
		t.Fatalf("open with %d bytes of the log: %v", len(log), err)
	}
	defer closeStore(t, s)
	return checkTalk(t, s, 0)
}

func content(t *testing.T, file string) []byte {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return data
}
