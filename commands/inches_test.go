package commands_test

import (
	"regexp"
	"strings"
	"testing"
)

// fitOut is a fit-out of two people who talk in inches, all of the project's topics in it.
const fitOut = `we work in inches
the opening is 32 at the top, 31 3/4 at the bottom, 69 1/4 high
the top left corner of the opening is 89.5 degrees
the opening is 32 1/2 at the top
opening top 32 in stands
the diagonals of the window opening are 30 and 30 1/4
show the measurements
a stable door for that opening, sapele
why
stiles 2 3/4
a pair of doors for an opening 48 wide 40 high, plywood panel
a rack with two shelves 33 wide for nine mugs 3 1/4 wide, oak
why
let in 1/4
trim 2 1/2 wide round the opening with a 1/4 reveal
why
a laminated bow 48 span 3 rise, 1 1/2 thick, ash
why
four drop boards for an opening 24 wide and 32 high, larch
why
slatted top 24 by 16, slats 1 3/4, gaps 1/4
why
add 6 rack slats 32 1/2 x 2 3/4 x 7/8 oak
change the rack slats to 33 long
parts
we have 6 sapele boards 100 x 8 x 2, 48 each
sapele 2 has a knot 36 in from the left, 2 across
got 4 oak boards 96 x 7 x 1 1/8
trim 1 off each end of the boards
plan the cuts
why
draw board 1
run sheet for tonight
tick 1
check everything
what do we need to buy
cut the upper top rail short
plan again
sapele 1 is cut
stock
I'll take the rails
what's left
what's next for me
kerf is 1/8
always allow 3 on length
show the settings
bow 1 is glued with epoxy, 68 F
what's in the clamps
rough size for 24 by 2 finished
clamps for a 36 long edge joint, boards 3 wide, oak
opening 32 by 44, diagonals 54 3/4 and 54 1/2
who measured the opening
opening bottom is 31 1/2 in
opening bottom 31 1/2 in stands
remake the stable door
check the list
drop the rack slats
scratch that`

// Where inches are talked nothing is told in mm, in any answer of a whole fit-out.
func TestAFitOutInInches(t *testing.T) {
	mm := regexp.MustCompile(`\bmm\b|\d mm`)
	lines := strings.Split(fitOut, "\n")
	for i, a := range petra(t, lines...) {
		if a.Topic == "unknown" {
			t.Errorf("%q is not understood: %s", lines[i], a.Text)
		}
		for _, text := range []string{a.Answer, a.Text, a.Question} {
			for _, line := range strings.Split(text, "\n") {
				if mm.MatchString(line) {
					t.Errorf("%q: %s", lines[i], line)
				}
			}
		}
	}
}
