package commands_test

import (
	"strings"
	"testing"
)

// Each kind of thing that can be wrong or odd is found, and nothing in a list that is right. The
// last line of each is the check.
func TestCheckFindsEachKind(t *testing.T) {
	rack := []string{"a rack, two shelves 830 wide, for nine mugs 84 wide, oak"}
	for name, c := range map[string]struct {
		before []string
		want   []string
	}{
		"one part ten times off its neighbours": {[]string{"add 2 stiles 1720 x 92 x 40, 1 top rail 64 x 92 x 40, 1 middle rail 640 x 92 x 40, 1 bottom rail 640 x 92 x 40"},
			[]string{"top rail is 64 mm long where the others are 640 to 1720 mm: a slip of the unit?"}},
		"one of two of a kind ten times off": {[]string{"add 1 top rail 640 x 92 x 40 and 1 bottom rail 6400 x 92 x 40"}, []string{"top rail is 640 mm long and bottom rail 6400 mm: a slip of the unit?"}},
		// 14 × 95 = 1330
		"a total that leaves a gap":      {[]string{"the wall is 1400 wide", "add 14 wall linings 2000 x 95 x 12"}, []string{"14 × wall lining of 95 mm come to 1330 mm: the wall width measures 1400 mm, so 70 mm stays open"}},
		"a total that is too much":       {[]string{"the bed is 700 wide", "add 8 bed slats 1900 x 95 x 20"}, []string{"8 × bed slat of 95 mm come to 760 mm: the bed width measures 700 mm only"}},
		"a part that is not as measured": {[]string{"the sill is 930 wide", "add 1 sill 920 x 120 x 30"}, []string{"sill is 920 mm long, and the sill width measures 930 mm"}},
		"boards that leave an opening open": {[]string{"the opening is 812 wide and 760 high", "add 4 washboards 806 x 170 x 20"}, // 680
			[]string{"The drop boards come to 680 mm, and the opening is 760 mm high: 80 mm stays open"}},
		"too small for the machines": {[]string{"add 4 blocks 180 x 60 x 40"}, []string{"block is 180 mm long, shorter than the 300 mm that the machines take"}},
		"no board thick enough":      {[]string{"got 2 oak boards 2600 x 210 x 27", "add 1 leg 700 x 60 x 60 oak"}, []string{"No board on hand for leg. No board of it is thick enough: it takes 65 mm"}},
		// 612 + 2 · 70 = 752
		"rails and stiles that don't make the door": {[]string{"the opening is 812 wide and 1760 high", "add 2 stiles 1754 x 70 x 40 and 3 rails 612 x 95 x 40"}, []string{"come to 752 mm at most, and the opening is 812 mm wide"}},
		// stiles 10 narrower on both sides
		"stiles changed under a door": {[]string{"a door for an opening 812 wide 1760 high", "change the stiles to 85 wide"}, []string{"make the door 20 mm narrower than its opening asks for"}},
		// 2 · 95 + 1500 = 1690
		"a panel too short for its door": {[]string{"add 2 stiles 1754 x 95 x 40, 2 rails 666 x 95 x 40 and 1 panel 1500 x 630 x 18"}, []string{"The rails' widths and panel come to 1690 mm, and stile is 1754 mm long"}},
		// items 1.25 · 84 = 105 high; 125 − 18 = 107
		"a lip higher than what it keeps":        {append(rack, "change the lips to 125 wide"), []string{"lip stands 107 mm above the shelf, as high as what it keeps in (105 mm)"}},
		"a quantity that is not the drawing's":   {append(rack, "change the lips to 1 off"), []string{"lip: 1 on the list, and the drawing of the rack has 2"}},
		"a part of the drawing that was dropped": {append(rack, "drop the lip"), []string{"lip is missing: the drawing of the rack has 2"}},
		"parts that nobody measured":             {[]string{"add 2 cleats 700 x 45 x 20"}, []string{"Nobody measured these on site: cleat."}},
		"an opening that was only said":          {[]string{"a door for an opening 812 wide 1760 high"}, []string{"Nobody measured these on site: the opening of the door."}},
		"an opening that measures otherwise":     {[]string{"a door for an opening 812 wide 1760 high", "the opening is 806 wide"}, []string{"The door is made for 812 mm where the opening width measures 806 mm"}},
		"grain across a long part":               {[]string{"add 1 shelf 400 x 320 x 18", "change the shelf to 500 wide"}, []string{"shelf is wider (500 mm) than long (400 mm): does the grain really run the short way?"}},
		"nothing":                                {[]string{"add 2 stiles 1720 x 92 x 40 and 3 rails 640 x 92 x 40"}, []string{"Nothing odd in 2 parts, 5 pieces", "no cut plan yet"}},
	} {
		t.Run(name, func(t *testing.T) {
			got := petra(t, append(c.before, "check the list")...)
			last := got[len(got)-1]
			for _, w := range c.want {
				if !strings.Contains(last.Text, w) {
					t.Errorf("%q is not found:\n%s", w, last.Text)
				}
			}
			if last.Topic != "check" {
				t.Errorf("heard as %s", last.Topic)
			}
		})
	}
}

// What has come to pass since the plan was made is found beside the plan, each kind of it.
func TestCheckLooksAtThePlan(t *testing.T) {
	for name, c := range map[string]struct {
		after []string
		want  []string
	}{
		"nothing":                        {nil, []string{"Nothing odd in 2 parts, 5 pieces"}},
		"a part that came since":         {[]string{"add 1 shelf 500 x 92 x 20 sapele"}, []string{"On the list since the plan was made, so not in it: shelf.", "The parts have changed"}},
		"a part that was changed":        {[]string{"change the rails to 650"}, []string{"Changed since the plan was made: rail (650 × 92 × 40 mm, was 640 × 92 × 40 mm)."}},
		"another number of a part":       {[]string{"change the rails to 4 off"}, []string{"Changed since the plan was made: rail (4, was 3)."}},
		"a part that was dropped":        {[]string{"drop the stiles"}, []string{"Off the list and still in the plan: stile."}},
		"a board that is gone":           {[]string{"sapele 2 is used up"}, []string{"Sapele 2 is in the plan and no longer on hand", "stile, rail would come out of it"}},
		"a fault where a part is to be":  {[]string{"sapele 1 has a knot at 900, 60 across"}, []string{"The knot in sapele 1 lies where the plan has stile."}},
		"parts cut that are still to be": {[]string{"all rails are cut"}, []string{"rail: 3 of 3 said to be cut, and by the plan 3 still in sapele 1, sapele 2"}},
		"a part that is left out":        {[]string{"add 1 post 2400 x 92 x 70 sapele", "plan the cuts"}, []string{"The plan leaves out 1 × post. No board of it is thick enough: it takes 75 mm."}},
		"another setting":                {[]string{"kerf is 4"}, []string{"The settings have changed since the plan was made"}},
		"a board that is sawn as planned": {[]string{"sapele 1 is cut", "all rails are planed"}, // the third rail is in sapele 2
			[]string{"rail: 3 of 3 said to be cut, and by the plan 1 still in sapele 2"}},
	} {
		t.Run(name, func(t *testing.T) {
			got := after(t, door, append(append([]string{"plan the cuts"}, c.after...), "check the plan")...)
			last := got[len(got)-1]
			for _, w := range c.want {
				if !strings.Contains(last.Text, w) {
					t.Errorf("%q is not found:\n%s", w, last.Text)
				}
			}
			if n, _ := last.Values["findings"].(float64); name == "nothing" && n != 0 {
				t.Errorf("%v findings:\n%s", n, last.Text)
			}
		})
	}
}
