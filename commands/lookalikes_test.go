package commands_test

import (
	"flag"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/hbollon/go-edlib"

	"fettle/commands"
	"fettle/commands/speech"
)

var dictionary = flag.String("words", "", "a list of ordinary English words, one a line, from which the list of lookalikes is made anew")

const lookalikeFile = "speech/lookalikes.txt"

// TestLookalikes holds the list of ordinary words that are never taken for a slip: each one
// differs by one letter from a word that a topic uses. With -words FILE the list is made anew.
func TestLookalikes(t *testing.T) {
	used := usedWords()
	if *dictionary != "" {
		writeLookalikes(t, used)
	}
	data, err := os.ReadFile(lookalikeFile)
	if err != nil {
		t.Fatal(err)
	}
	list := strings.Fields(string(data))
	if !slices.IsSorted(list) || len(list) < 100 {
		t.Fatalf("%s holds %d words, sorted %v; want some hundred, sorted", lookalikeFile, len(list), slices.IsSorted(list))
	}
	for _, w := range nearNumbers(used) {
		if !slices.Contains(list, w) {
			t.Errorf("%q is taken for a number or a unit, as it is not on the list", w)
		}
	}
	for _, w := range list {
		if !oneSlip(w, used) {
			t.Errorf("%q differs by one letter from no word that a topic uses", w)
		}
	}
}

func writeLookalikes(t *testing.T, used []string) {
	t.Helper()
	data, err := os.ReadFile(*dictionary)
	if err != nil {
		t.Fatal(err)
	}
	stems := map[string]bool{}
	for _, w := range used {
		stems[speech.Stem(w)] = true
	}
	var out []string
	for _, w := range strings.Fields(string(data)) {
		if len(w) >= 4 && w == strings.ToLower(w) && !strings.Contains(w, "'") && !stems[speech.Stem(w)] && oneSlip(w, used) {
			out = append(out, w)
		}
	}
	out = append(out, nearNumbers(used)...)
	slices.Sort(out)
	if err := os.WriteFile(lookalikeFile, []byte(strings.Join(slices.Compact(out), "\n")+"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
}

// nearNumbers lists the topics' words that come near to a number or a unit: a mitre is no metre.
func nearNumbers(used []string) []string {
	exact := speech.ExactWords()
	return slices.DeleteFunc(slices.Clone(used), func(w string) bool {
		return len(w) < 4 || strings.ContainsAny(w, "0123456789-'") || slices.Contains(exact, w) || !oneSlip(w, exact)
	})
}

// usedWords lists the words of all cues, roles and vocabularies.
func usedWords() []string {
	out := speech.ExactWords()
	add := func(pattern string) {
		out = append(out, strings.FieldsFunc(pattern, func(r rune) bool { return strings.ContainsRune(" |=?^$#.", r) })...)
	}
	for _, topic := range commands.Topics() {
		for _, c := range topic.Cues {
			add(c.Pattern)
		}
		for _, n := range topic.Needs {
			for _, r := range n.Roles {
				add(r)
			}
			if n.Vocab != nil {
				out = append(out, n.Vocab.Words()...)
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

func oneSlip(w string, used []string) bool {
	for _, u := range used {
		if u[0] != w[0] {
			continue
		}
		if len(u)+len(w) < 9 {
			continue
		}
		if d := len(u) - len(w); d >= -1 && d <= 1 && u != w && edlib.OSADamerauLevenshteinDistance(u, w) == 1 {
			return true
		}
		if s, q := speech.Stem(u), speech.Stem(w); len(w) > 4 && len(s)+len(q) >= 9 && s != q && edlib.OSADamerauLevenshteinDistance(s, q) == 1 {
			return true
		}
	}
	return false
}
