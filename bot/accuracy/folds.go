package main

import (
	"fmt"
	"slices"

	"fettle/commands"
	"fettle/commands/odds/training"
)

// crossValidate chooses the topic of each message by the cues and a model that never saw it, and
// says how many are right, by topic. All messages that the program's own model is trained on are left out
// once.
func crossValidate(folds int, quiet bool) error {
	examples, err := training.Corpus(".")
	if err != nil {
		return err
	}
	byTopic, confused := map[string]*tally{}, map[string]int{}
	var sum tally
	for fold := range folds {
		rest, left := training.Without(examples, fold, folds)
		m, err := training.Train(rest)
		if err != nil {
			return err
		}
		choose := commands.Chooser(m)
		for _, e := range left {
			got := choose(e.Text)
			ok := slices.Contains(e.Topics, got)
			sum.add(ok)
			count(byTopic, e.Topics[0], ok)
			if !ok {
				confused[fmt.Sprintf("%s → %s", e.Topics[0], got)]++
			}
		}
	}
	if !quiet {
		printTallies(byTopic)
	}
	fmt.Printf("topics right of messages left out, %d folds: %v\n", folds, sum)
	fmt.Printf("confused, expected topic → answered topic:%s\n", confusion(confused))
	return nil
}
