package training_test

import (
	"slices"
	"testing"

	"fettle/commands/odds"
	"fettle/commands/odds/training"
)

// The weights in the repository were made of the messages in the repository.
func TestTheWeightsAreOfTheseMessages(t *testing.T) {
	examples, err := training.Corpus("../../..")
	if err != nil {
		t.Fatal(err)
	}
	m, err := odds.Trained()
	if err != nil {
		t.Fatal(err)
	}
	if m.Source != training.Sum(examples) {
		t.Error("the messages have changed since the weights were made: go run ./commands/odds/train")
	}
}

// few are messages of three topics that are told apart by some of their words only.
var few = []training.Example{
	{Text: "how long must the epoxy stay in the clamps", Topics: []string{"glue-time"}},
	{Text: "clamp time for pva at 12 degrees", Topics: []string{"glue-time"}},
	{Text: "open time of the epoxy", Topics: []string{"glue-time"}},
	{Text: "rough size for a rail 600 by 45", Topics: []string{"rough-size"}},
	{Text: "what do I saw for 830 x 70 x 22 finished", Topics: []string{"rough-size"}},
	{Text: "rough sizes please, 6 slats", Topics: []string{"rough-size"}},
	{Text: "the kettle is on", Topics: []string{"unknown"}},
	{Text: "see you on Tuesday", Topics: []string{"unknown"}},
	{Text: "it rained all night", Topics: []string{"unknown"}},
}

// What was trained on is told again, also with slips of the thumb, and the same messages give
// the same weights.
func TestTrain(t *testing.T) {
	m, err := training.Train(few)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range few {
		if got := training.Best(m, e.Text); got != e.Topics[0] {
			t.Errorf("%q is taken for %s, want %s", e.Text, got, e.Topics[0])
		}
	}
	for text, want := range map[string]string{
		"roguh szie for 5 slast": "rough-size", "calmp tiem of the exopy": "glue-time", "the ketle is on again": "unknown",
	} {
		if got := training.Best(m, text); got != want {
			t.Errorf("%q is taken for %s, want %s", text, got, want)
		}
	}
	again, err := training.Train(few)
	if err != nil || !slices.Equal(again.Weight, m.Weight) {
		t.Errorf("the same messages gave other weights, %v", err)
	}
}

// Each message is left out once.
func TestWithout(t *testing.T) {
	var left []training.Example
	for fold := range 3 {
		rest, out := training.Without(few, fold, 3)
		if len(rest)+len(out) != len(few) {
			t.Errorf("fold %d: %d and %d messages, want %d together", fold, len(rest), len(out), len(few))
		}
		left = append(left, out...)
	}
	if len(left) != len(few) {
		t.Errorf("%d messages left out, want each of %d once", len(left), len(few))
	}
}
