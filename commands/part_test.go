package commands_test

import (
	"strings"
	"testing"
)

// Each conversation ends with the answer that is looked at.
func TestPartsByTalking(t *testing.T) {
	for name, c := range map[string]struct {
		lines []string
		says  []string
		not   []string
	}{
		"a correction changes the part":          {[]string{"add 2 door stiles 1720 x 92 x 40 sapele", "no, 1702", "parts?"}, []string{"1702"}, []string{"1720"}},
		"a correction of a change":               {[]string{"add 3 rails 640 x 92 x 40", "change the rails to 612", "no, 615", "parts?"}, []string{"615 × 92 × 40"}, []string{"612", "640"}},
		"the nearest dimension is meant":         {[]string{"add 3 rails 640 x 92 x 40", "change the rails to 95", "parts?"}, []string{"640 × 95 × 40"}, nil},
		"undo after a change is exact":           {[]string{"add 3 rails 640 x 92 x 40", "change the rails to 612", "undo", "parts?"}, []string{"640 × 92 × 40"}, []string{"612"}},
		"several in one message":                 {[]string{"add 2 stiles 1720 x 92 x 40 and 3 rails 640 x 92 x 40, all sapele", "parts?"}, []string{"2 × stile 1720 × 92 × 40 mm, sapele", "3 × rail 640 × 92 × 40 mm, sapele"}, nil},
		"a change of its own takes nothing back": {[]string{"add 3 rails 640 x 92 x 40", "add 4 drawer sides 400 x 120 x 12 oak", "the rails should be 612 long", "parts?"}, []string{"3 × rail 612", "4 × drawer side 400"}, []string{"640"}},
		"dropped":                                {[]string{"add 2 stiles 1720 x 92 x 40", "add 3 rails 640 x 92 x 40", "drop the stiles", "parts?"}, []string{"rail"}, []string{"stile"}},
		"scratching others than the last":        {[]string{"add 2 stiles 1720 x 92 x 40", "add 3 rails 640 x 92 x 40", "scratch the stiles", "parts?"}, []string{"rail"}, []string{"stile"}},
		"corrected, and the correction too":      {[]string{"add 4 trims 640 x 64 x 18", "sorry, 604 not 640", "no, 610 long", "no, 611", "parts?"}, []string{"4 × trim 611"}, []string{"604", "610", "640", "trim 2"}},
		"a correction taken back":                {[]string{"add 4 trims 640 x 64 x 18", "no, 604 long", "no, 610", "scratch that", "parts?"}, []string{"4 × trim 604"}, []string{"610", "640", "trim 2"}},
		"the same name is counted up":            {[]string{"add 2 slats 742 x 38 x 16", "add 2 slats 700 x 38 x 16", "parts?"}, []string{"slat 742", "slat 2 700"}, nil},
		"by timber":                              {[]string{"add 2 slats 742 x 38 x 16 ash", "add 3 rails 640 x 92 x 40 oak", "list all the pieces in ash"}, []string{"slat"}, []string{"rail"}},
		"the story of a part":                    {[]string{"add 2 slats 742 x 38 x 16 ash", "change the slats to 740", "what happened to the slats"}, []string{"added by Petra", "changed by Petra"}, nil},
		"a slip of the unit is found":            {[]string{"add 2 stiles 1720 x 92 x 40 and 3 rails 640 x 92 x 40 and 1 lock rail 640 x 9.2 x 40", "check the list"}, []string{"lock rail is 9.2 mm wide"}, nil},
		"no board is large enough":               {[]string{"add 2 stiles 1720 x 92 x 40 sapele", "got 1 sapele board 1000 x 200 x 52", "check the list"}, []string{"No board on hand for stile. No board that is thick enough is long enough: it takes 1820 mm"}, nil},
		"a contradiction is kept":                {[]string{"sill measures 915", "sill measures 925", "what was the sill"}, []string{"915", "925", "which stands"}, nil},
		"what stands is said":                    {[]string{"sill measures 915", "sill measures 925", "sill 925 stands", "what was the sill"}, []string{"Sill 925 mm", "Before: 915 mm"}, []string{"which stands"}},
		"a correction of one of two":             {[]string{"the opening is 812 at the top, 806 at the bottom", "no, 820", "show the measurements"}, []string{"820", "806"}, []string{"812"}},
		"a place goes on from the one said":      {[]string{"the opening is 812 at the top", "and 806 at the bottom", "what was the opening at the bottom"}, []string{"806"}, nil},
		"a tenth slip of a measure is asked":     {[]string{"the opening is 812 at the top", "the opening is 81 at the bottom"}, []string{"where the opening top is 812 mm: which do you mean?", "810 mm"}, nil},
		"what was meant is kept":                 {[]string{"the opening is 812 at the top", "the opening is 81 at the bottom", "1", "what was the opening at the bottom"}, []string{"810 mm"}, nil},
		"what was said is kept when confirmed":   {[]string{"the opening is 812 at the top", "the opening is 81 at the bottom", "2", "what was the opening at the bottom"}, []string{"81 mm (Petra"}, nil},
		"other measures are not neighbours":      {[]string{"the sill is 900 wide", "the sill is 90 deep"}, []string{"90 mm"}, []string{"which do you mean"}},
		"a back rail is not every rail":          {[]string{"add 2 top rails 640 x 92 x 40 and 2 back rails 830 x 40 x 10", "drop the back rails", "parts?"}, []string{"top rail 640"}, []string{"back rail"}},
		"sides are counted":                      {[]string{"add 4 drawer sides 400 x 120 x 12 oak and 2 rack sides 300 x 100 x 12", "parts?"}, []string{"4 × drawer side 400", "2 × rack side 300"}, nil},
		"a project is put away":                  {[]string{"start a project called wagon", "add 2 slats 742 x 38 x 16", "archive the wagon", "list the projects"}, []string{"1 project"}, []string{"wagon"}},
		"a project is brought back whole":        {[]string{"start a project called wagon", "add 2 slats 742 x 38 x 16", "archive the wagon", "bring back the wagon", "parts?"}, []string{"slat 742"}, nil},
		"a renamed part":                         {[]string{"add 2 slats 742 x 38 x 16", "rename the slats to bench lath", "parts?"}, []string{"2 × bench lath 742"}, []string{"slat"}},
		"the only archived one is meant":         {[]string{"start a project called wagon", "archive the project", "bring it back", "which project is this?"}, []string{"This is the project wagon"}, nil},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			answers := petra(t, c.lines...)
			got := answers[len(answers)-1].Text
			for _, s := range c.says {
				if !strings.Contains(got, s) {
					t.Errorf("%q is not said in\n%s", s, got)
				}
			}
			for _, s := range c.not {
				if strings.Contains(got, s) {
					t.Errorf("%q is said in\n%s", s, got)
				}
			}
		})
	}
}

func TestPartsAskedBack(t *testing.T) {
	askedBack(t, "part", "add 4 slats 115 x 5.8 x 2", "add a rail", "add 2 rails 640 x 92", "change the top rail to 612", "drop the left hand batten")
}
