package commands_test

import (
	"strings"
	"testing"
)

var measuredDoor = []string{"the opening is 812 wide", "the opening is 1760 high", "make a stable door for that opening, sapele"}

// Each conversation goes on from a stable door that was made from what was measured, and ends with
// the answer that is looked at. The rail is 6 mm shorter where the opening is 6 mm narrower.
func TestPartsMadeFromMeasures(t *testing.T) {
	for name, c := range map[string]struct {
		lines     []string
		says, not []string
	}{
		"stored measures make the door":       {nil, []string{"opening 812 × 1760"}, nil},
		"a settled contradiction offers":      {[]string{"the opening is 806 wide", "opening width 806 stands"}, []string{"New sizes", "say “remake the stable door”"}, nil},
		"a doubt alone offers nothing":        {[]string{"the opening is 806 wide"}, []string{"Which stands"}, []string{"New sizes"}},
		"stale in the check":                  {[]string{"the opening is 806 wide", "opening width 806 stands", "check the list"}, []string{"may not fit any more", "806 mm now, was 812 mm"}, nil},
		"remade by name":                      {[]string{"the opening is 806 wide", "opening width 806 stands", "remake the door"}, []string{"opening 806 × 1760"}, nil},
		"remade by the new sizes":             {[]string{"the opening is 806 wide", "opening width 806 stands", "take the new sizes", "check the list"}, nil, []string{"may not fit", "as it was asked for"}},
		"remake it, where there is one thing": {[]string{"stable door for an opening 812 x 1760, oak", "remake it"}, []string{"Stable door: 10 pieces"}, nil},
		"nothing to remake is a question":     {[]string{"take the new sizes"}, []string{"nothing to remake"}, nil},
		"a changed stile is found":            {[]string{"the stiles should be 60 wide", "check the list"}, []string{"two stiles of 60 mm, less the tenons, make the stable door"}, nil},
		"a dropped panel is found":            {[]string{"drop the upper panel", "check the list"}, []string{"upper panel is missing"}, nil},
		"nothing changed, nothing not right":  {[]string{"check the list"}, nil, []string{"as it was asked for", "missing", "less the tenons"}},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			answers := petra(t, append(append([]string{}, measuredDoor...), c.lines...)...)
			got := answers[len(answers)-1].Text
			for _, s := range c.says {
				if !strings.Contains(strings.ToLower(got), strings.ToLower(s)) {
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
