// Command accuracy puts the example messages to the program and prints how many it
// understands, by topic and by rule, and the weightiest failures apart: a message that had to
// be asked about and was answered with numbers, and a wrong number given as sure.
//
//	go run ./bot/accuracy [-all] [-quiet] [-folds N] [FOLDER …]
//
// A folder holds a single.tsv and a folder of dialogues. Without -all only messages of topics
// that exist count. Of a folder that is kept aside (its name begins so, and it was never tuned to) only
// figures are printed, so that nobody can tune to its messages. With -folds the topics of all messages
// are chosen by models that were trained without them: one in N is left out in turn. The last line says how many rows of testdata/reference/checks.csv the tests
// of the calculations compare with, by how the rows are known; -checks=false leaves it out.
package main

import (
	"context"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strings"

	"fettle/bot/accuracy/phrases"
	"fettle/commands"
)

func main() {
	all := flag.Bool("all", false, "count messages of topics that don't exist as well")
	quiet := flag.Bool("quiet", false, "print the figures only")
	folds := flag.Int("folds", 0, "choose topics by models trained without one in so many messages in turn, and nothing else")
	checks := flag.Bool("checks", true, "run the tests of the calculations and count the reference rows that they use")
	flag.Parse()
	if *folds > 1 {
		if err := crossValidate(*folds, *quiet); err != nil {
			fmt.Fprintln(os.Stderr, "accuracy: leave out messages in turn:", err)
			os.Exit(1)
		}
		return
	}
	folders := flag.Args()
	if len(folders) == 0 {
		folders = []string{"testdata/phrases", "testdata/phrases/own", "testdata/phrases/own6", "testdata/phrases/own6-third", "testdata/phrases/own7",
			"testdata/phrases/own8", "testdata/phrases/own9", "testdata/phrases/own10", "testdata/phrases/own11", "testdata/phrases/own12", "testdata/phrases/aside", "testdata/phrases/third",
			"testdata/phrases/aside8", "testdata/phrases/aside9", "testdata/phrases/aside10"}
	}
	for _, f := range folders {
		if err := report(f, *all, *quiet, keptAside(f)); err != nil {
			fmt.Fprintln(os.Stderr, "accuracy:", err)
			os.Exit(1)
		}
	}
	if !*checks {
		return
	}
	line, err := checksUsed()
	if err != nil {
		fmt.Fprintln(os.Stderr, "accuracy: count the reference rows:", err)
		os.Exit(1)
	}
	fmt.Println(line)
}

// keptAside says whether nobody may see which messages of a folder fail.
func keptAside(folder string) bool {
	name := filepath.Base(folder)
	return strings.HasPrefix(name, "aside") && name != "aside" // the first of them has been tuned to since
}

func report(folder string, all, quiet, aside bool) error {
	temp, err := os.MkdirTemp("", "accuracy")
	if err != nil {
		return err
	}
	defer os.RemoveAll(temp)
	run := &phrases.Runner{Folder: temp}
	known := knownTopics()
	fmt.Printf("== %s\n", folder)
	if err := single(run, folder, known, all, quiet || aside, aside); err != nil {
		return err
	}
	return dialogues(run, folder, known, all, quiet || aside)
}

func knownTopics() map[string]bool {
	known := map[string]bool{commands.Unknown: true}
	for _, t := range commands.Topics() {
		known[t.Name] = true
	}
	return known
}

// tally counts passes and failures of one topic.
type tally struct{ passed, total int }

func (t tally) String() string {
	return fmt.Sprintf("%d of %d (%.1f %%)", t.passed, t.total, 100*float64(t.passed)/float64(max(t.total, 1)))
}

func single(run *phrases.Runner, folder string, known map[string]bool, all, quiet, aside bool) error {
	rows, err := phrases.ReadRows(filepath.Join(folder, "single.tsv"))
	if err != nil {
		return err
	}
	byTopic, byRule := map[string]*tally{}, map[string]int{}
	var sum, asks, silent tally
	confused := map[string]int{}
	var spoken, wrong []string
	for _, r := range rows {
		if !all && !anyKnown(r.Topic, known) {
			continue
		}
		answers, err := run.Say(context.Background(), "Petra> "+r.Text)
		if err != nil {
			return fmt.Errorf("%s: %w", r.ID, err)
		}
		f := r.Compare(answers[0])
		count(byTopic, r.Topic, f == nil)
		sum.add(f == nil)
		if r.Question == "yes" {
			asks.add(answers[0].Question != "")
		}
		if strings.HasPrefix(r.Topic, commands.Unknown) && r.Question != "any" {
			silent.add(anyOf(r.Topic, answers[0].Topic))
		}
		if !anyOf(r.Topic, answers[0].Topic) {
			confused[fmt.Sprintf("%s → %s", r.Topic, answers[0].Topic)]++
		}
		if f == nil {
			continue
		}
		byRule[f.Rule]++
		line := fmt.Sprintf("  %s %q: %s: %s", r.ID, r.Text, f.Rule, f.Detail)
		spoken = append(spoken, line)
		if answers[0].Confident() {
			wrong = append(wrong, line)
		}
	}
	if !quiet {
		printTallies(byTopic)
		fmt.Println(strings.Join(spoken, "\n"))
	}
	fmt.Printf("single messages right: %v; by broken rule: %v\n", sum, byRule)
	fmt.Printf("messages that had to be asked about, and were: %v\n", asks)
	fmt.Printf("chatter taken for no request: %v\n", silent)
	fmt.Printf("wrong and sure: %d\n", len(wrong))
	if aside {
		return nil
	}
	fmt.Printf("confused, expected topic → answered topic:%s\n", confusion(confused))
	for _, w := range wrong {
		fmt.Println(w)
	}
	return nil
}

// anyOf says whether the topic is one of those listed.
func anyOf(topics, topic string) bool { return slices.Contains(strings.Split(topics, "|"), topic) }

// confusion lists which topic was taken for which, the most frequent first.
func confusion(m map[string]int) string {
	pairs := slices.Sorted(maps.Keys(m))
	slices.SortStableFunc(pairs, func(a, b string) int { return m[b] - m[a] })
	var b strings.Builder
	for _, p := range pairs {
		fmt.Fprintf(&b, "\n  %2d %s", m[p], p)
	}
	return b.String()
}

func (t *tally) add(ok bool) {
	t.total++
	if ok {
		t.passed++
	}
}

func count(m map[string]*tally, key string, ok bool) {
	if m[key] == nil {
		m[key] = &tally{}
	}
	m[key].add(ok)
}

func anyKnown(topics string, known map[string]bool) bool {
	for _, t := range strings.Split(topics, "|") {
		if known[t] {
			return true
		}
	}
	return false
}

func printTallies(m map[string]*tally) {
	var names []string
	for n := range m {
		names = append(names, n)
	}
	sort.Strings(names)
	for _, n := range names {
		fmt.Printf("  %-16s %v\n", n, m[n])
	}
}

func dialogues(run *phrases.Runner, folder string, known map[string]bool, all, quiet bool) error {
	ds, err := phrases.ReadDialogues(filepath.Join(folder, "dialogues"))
	if err != nil {
		return err
	}
	var turns, whole tally
	for _, d := range ds {
		if !all && !allKnown(d.Topics(known), known) {
			continue
		}
		answers, err := run.Say(context.Background(), d.Lines()...)
		if err != nil {
			return fmt.Errorf("%s: %w", d.Name, err)
		}
		ok := true
		for i, t := range d.Turns {
			f := t.Compare(answers[i])
			turns.add(f == nil)
			ok = ok && f == nil
			if f != nil && !quiet {
				fmt.Printf("  %s turn %d %q: %s: %s\n", d.Name, i+1, t.Say, f.Rule, f.Detail)
			}
		}
		whole.add(ok)
	}
	fmt.Printf("turns of dialogues right: %v; whole dialogues: %v\n", turns, whole)
	return nil
}

func allKnown(topics []string, known map[string]bool) bool {
	for _, t := range topics {
		if t != "" && !known[t] {
			return false
		}
	}
	return true
}
