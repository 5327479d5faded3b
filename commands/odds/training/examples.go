package training

import (
	"bufio"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fettle/commands"
)

// tables are the messages with known topics, by the places of the topic and of the text in a
// line; the first is the corpus, the others are the example messages that nobody keeps aside.
var tables = []struct {
	files       string
	topic, text int
}{
	{"commands/odds/corpus/*.tsv", 0, 1},
	{"testdata/phrases/*.tsv", 2, 1},
	{"testdata/phrases/own/*.tsv", 2, 1},
	{"testdata/phrases/own6/*.tsv", 2, 1},
	{"testdata/phrases/own6-third/*.tsv", 2, 1},
	{"testdata/phrases/own7/*.tsv", 2, 1},
	{"testdata/phrases/own8/*.tsv", 2, 1},
	{"testdata/phrases/own9/*.tsv", 2, 1},
	{"testdata/phrases/own10/*.tsv", 2, 1},
	{"testdata/phrases/own11/*.tsv", 2, 1},
	{"testdata/phrases/own12/*.tsv", 2, 1},
	{"testdata/phrases/aside/*.tsv", 2, 1},
	{"testdata/phrases/third/*.tsv", 2, 1},
}

// conversations are the turns of dialogues whose topic is known.
var conversations = []string{
	"testdata/phrases/dialogues/*.json",
	"testdata/phrases/own/dialogues/*.json",
	"testdata/phrases/own6/dialogues/*.json",
	"testdata/phrases/aside/dialogues/*.json",
}

// Corpus reads the messages with known topics of the repository at root, with the topics' own
// examples.
func Corpus(root string) ([]Example, error) {
	var out []Example
	for _, t := range commands.Topics() {
		for _, text := range t.Examples {
			out = append(out, Example{Text: text, Topics: []string{t.Name}})
		}
	}
	for _, t := range tables {
		more, err := each(filepath.Join(root, t.files), func(name string) ([]Example, error) { return table(name, t.topic, t.text) })
		if err != nil {
			return nil, err
		}
		out = append(out, more...)
	}
	for _, c := range conversations {
		more, err := each(filepath.Join(root, c), turns)
		if err != nil {
			return nil, err
		}
		out = append(out, more...)
	}
	return out, nil
}

func each(pattern string, read func(string) ([]Example, error)) ([]Example, error) {
	files, err := filepath.Glob(pattern)
	if err != nil || len(files) == 0 {
		return nil, fmt.Errorf("find example messages: no file %s, %v", pattern, err)
	}
	slices.Sort(files)
	var out []Example
	for _, name := range files {
		more, err := read(name)
		if err != nil {
			return nil, fmt.Errorf("read example messages: %s: %w", name, err)
		}
		out = append(out, more...)
	}
	return out, nil
}

func table(name string, topic, text int) ([]Example, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var out []Example
	lines := bufio.NewScanner(f)
	for n := 1; lines.Scan(); n++ {
		cells := strings.Split(lines.Text(), "\t")
		if len(cells) <= max(topic, text) {
			return nil, fmt.Errorf("line %d has %d columns", n, len(cells))
		}
		if cells[topic] == "topic" {
			continue
		}
		out = append(out, Example{Text: cells[text], Topics: strings.Split(cells[topic], "|")})
	}
	return out, lines.Err()
}

// fewestWords is how many words a turn of a dialogue must have to say by itself what it is about.
const fewestWords = 4

func turns(name string) ([]Example, error) {
	raw, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	var said []struct {
		Say    string
		Expect struct{ Topic string }
	}
	if err := json.Unmarshal(raw, &said); err != nil {
		return nil, err
	}
	var out []Example
	for _, t := range said {
		if t.Expect.Topic != "" && len(strings.Fields(t.Say)) >= fewestWords && !strings.HasPrefix(strings.ToLower(t.Say), "and ") {
			out = append(out, Example{Text: t.Say, Topics: strings.Split(t.Expect.Topic, "|")})
		}
	}
	return out, nil
}
