package commands_test

import (
	"strings"
	"testing"
)

// What is told without what matters most in it is asked about, and nothing is written: a note without
// words, a setting without a value, a project without a name, a measure without a number.
func TestLackingIsAskedAbout(t *testing.T) {
	for topic, texts := range map[string][]string{
		"note": {
			"Could you write a note for me please?", "can you take a note?", "I want to leave a note for Gil", "please note something down for me", "jot something down for us would you",
			"write me a note please", "remember something for me", "could you note that down", "can you write down the window height", "write down the sill width for me please",
			"we have measured the door, write it in the book",
		},
		"setting": {
			"can you change the kerf for us, I've put a new blade in", "the kerf is different now", "I need to set the kerf", "please update the kerf, the old blade is gone", "kerf has changed",
			"Please always allow something extra on the length, Gil says that's safer.", "always add a bit to the width", "from now on give a bit extra on every thickness", "we want a bigger allowance on the length",
			"change the workshop temperature please", "kerf is 3.2 or 2.8", "allow 80 or 90 on the length",
		},
		"project": {
			"let's get a new project started, will we?", "New project please! I'll think of a name in a minute.", "can we begin another project", "a new project, please", "open a new project for me will you",
			"make a new project, the name comes later", "could you set up a project for us",
		},
		"measure": {
			"I've just measured the doorway! Could you write its width down for me?", "I measured the opening this morning, keep it please", "measured the reveal, can you save that", "the doorway is measured, put its height down",
			"door opening is 768 or 786 wide, can you keep it", "doorway width 812, or was it 821?", "the reveal measures either 95 or 59",
		},
		"part":  {"add 4 slats 830 or 803 x 70 x 22", "add 3 or 4 slats 830 x 70 x 22"},
		"board": {"we have 3 boards 2600 or 2060 x 210 x 32 sapele"},
	} {
		for _, text := range texts {
			got := petra(t, text)[0]
			if got.Topic != topic || got.Question == "" || len(got.Values) > 0 || len(got.Changes) > 0 {
				t.Errorf("%q: topic %s, question %q, changes %v; want a question of %s", text, got.Topic, got.Question, got.Changes, topic)
			}
		}
	}
}

// What is whole is taken, whatever else stands around it.
func TestWholeIsNotAskedAbout(t *testing.T) {
	for text, says := range map[string]string{
		"note: you can do it":                                       "Noted: you can do it",
		"we need more glue, note that please":                       "we need more glue",
		"leave a note for Petra: tea at four":                       "Noted: tea at four",
		"can you make a note that we are out of screws":             "Noted: we are out of screws",
		"can you start a new project called New Shed for us please": "Started the project New Shed",
		"new project: roof. We begin on monday":                     "Started the project roof",
		"start a project for Mrs. Smith's hut":                      "Started the project Mrs. Smith's hut",
		"what's the kerf with the new blade":                        "Saw kerf",
		"how much extra do we allow on the width":                   "Allowance on the width",
		"kerf is 3.2 since the new blade":                           "3.2 mm",
		"new blade in the saw, it takes 2.6":                        "2.6 mm",
		"have we measured the doorway?":                             "Nobody has measured the doorway yet",
	} {
		if got := petra(t, text)[0]; got.Question != "" || !strings.Contains(got.Text, says) {
			t.Errorf("%q: question %q, %q is not said in %q", text, got.Question, says, got.Text)
		}
	}
}

// The next message answers what was asked.
func TestLackingIsAnswered(t *testing.T) {
	for _, c := range []struct {
		lines []string
		says  string
	}{
		{[]string{"can you write a note for me please?", "the chimney leaks"}, "Noted: the chimney leaks"},
		{[]string{"I've put a new blade in, change the kerf please", "2.8"}, "saw kerf 2.8 mm"},
		{[]string{"I measured the opening this morning, keep it please", "812"}, "Opening 812 mm"},
		{[]string{"doorway width 768, or was it 786?", "786"}, "Doorway width 786 mm"},
		{[]string{"New project please!", "loft bed"}, "Started the project loft bed"},
		{[]string{"add 4 slats 830 or 803 x 70 x 22", "803"}, "4 × slat 803 × 70 × 22"},
	} {
		answers := petra(t, c.lines...)
		if got := answers[len(answers)-1]; got.Question != "" || !strings.Contains(got.Text, c.says) {
			t.Errorf("%q: question %q, %q is not said in %q", c.lines, got.Question, c.says, got.Text)
		}
	}
}

// The numbers of a story are no sizes of a part: what it lacks is asked for, not their unit.
func TestPartWithoutSizesAmongOtherNumbers(t *testing.T) {
	for _, text := range []string{
		"add 3 shelves", "add 3 shelves please, Petra wants them by 5", "add 4 slats, the match was 2-1", "add a shelf for the 6 mugs",
		"The man at the market wanted 35 for one old rail. We'll make our own: add two peg rails in oak.",
	} {
		got := petra(t, text)[0]
		if got.Topic != "part" || got.Question != "What are its finished sizes: length × width × thickness?" || len(got.Changes) > 0 {
			t.Errorf("%q: topic %s, question %q, changes %v", text, got.Topic, got.Question, got.Changes)
		}
	}
}
