package commands_test

import (
	"math"
	"strings"
	"testing"
)

// Corners and diagonals of a place of the hut are kept as measures, however they are told.
func TestCornersAndDiagonalsAreMeasured(t *testing.T) {
	for text, want := range map[string]map[string]float64{
		"the top left corner of the door opening is 88 degrees":                                  {"door opening top left corner": 88},
		"door opening: top left corner 88.2°":                                                    {"door opening top left corner": 88.2},
		"the opening's bottom right corner measures 91.5":                                        {"opening bottom right corner": 91.5},
		"measured the window opening, upper right corner is 90.8 deg":                            {"window opening upper right corner": 90.8},
		"doorway top left corner 88 degrees, top right corner 92 degrees":                        {"doorway top left corner": 88, "doorway top right corner": 92},
		"diagonals of the door opening 1910 and 1902":                                            {"door opening diagonal 1": 1910, "door opening diagonal 2": 1902},
		"diags of the hatch are 781 and 784":                                                     {"hatch diagonal 1": 781, "hatch diagonal 2": 784},
		"the diagonal of the opening from top left to bottom right is 1938":                      {"opening top left bottom right diagonal": 1938},
		"opening is 812 at the top 806 at the bottom, 1760 left 1755 right, diagonal 1938":       {"opening top": 812, "opening bottom": 806, "opening left": 1760, "opening right": 1755, "opening diagonal": 1938},
		"opening top left 88 degrees":                                                            {"opening top left": 88},
		"the hatch is 600 wide and 500 high, top right corner 91 degrees":                        {"hatch width": 600, "hatch height": 500, "hatch top right corner": 91},
		"door opening top 32 in, bottom 31 3/4 in, left 69 1/4 in, right 69 in, diagonal 76 in":  {"door opening top": 812.8, "door opening bottom": 806.45, "door opening left": 1758.95, "door opening right": 1752.6, "door opening diagonal": 1930.4},
		"opening: 812 top, 806 bottom, 1760 left, 1755 right, top left corner 89 and a half deg": nil, // a number that can't be read is no corner
	} {
		got := petra(t, text)[0]
		if want == nil {
			continue
		}
		kept := map[string]float64{}
		for _, c := range got.Changes {
			size, _ := c["size_mm"].(float64)
			deg, _ := c["angle_deg"].(float64)
			kept[c["name"].(string)] = size + deg
		}
		if got.Topic != "measure" || len(kept) != len(want) {
			t.Errorf("%q is heard as %s: %s %v", text, got.Topic, got.Text, kept)
		}
		for name, v := range want {
			if math.Abs(kept[name]-v) > 1e-6 {
				t.Errorf("%q: %s is %v, want %v (%v)", text, name, kept[name], v, kept)
			}
		}
	}
}

// A corner of nothing in particular is a mitre's, and width and height with diagonals are checked for
// squareness.
func TestWhatIsNoMeasureOfAPlace(t *testing.T) {
	for text, topic := range map[string]string{
		"mitre for a 97 degree corner": "mitre", "the corner is 97 degrees": "mitre", "what mitre for the top left corner of the opening, 88 degrees": "mitre",
		"window corner is 92 degrees, trims 60 wide": "mitre", "opening 812 by 1130, diagonals 1394 and 1389": "square-check",
		"is the opening square? 812 wide, 1130 high, diagonals 1394 / 1389": "square-check", "bottom 1000, right 820, top 950, left 800, diagonal 1270": "square-check",
		"stable door for an opening 764 wide and 1712 high, top left corner 88": "joinery", "what should the diagonal of the opening be, 812 by 1130": "square-check",
	} {
		if got := petra(t, text)[0]; got.Topic != topic {
			t.Errorf("%q is heard as %s: %s", text, got.Topic, got.Answer)
		}
	}
}

func TestCornersAreToldBack(t *testing.T) {
	got := petra(t, "the top left corner of the door opening is 88 degrees", "what's the top left corner", "what was the top left corner of the opening", "what angle is the top left corner of the doorway",
		"door opening top left corner 88.3°", "door opening top left corner 90", "opening top left corner 88.3 degrees stands", "diagonals of the door opening 1910 and 1902", "what are the diagonals of the door opening")
	hold(t, texts(got), "88°", "Door opening top left corner 88° (Petra", "88° (Petra", "88° (Petra", "88.3° (was 88°)", "90° now, but Petra measured 88.3° & Both are kept", "stays 88.3°", "1910 mm", "diagonal 1 1910 mm & diagonal 2 1902 mm")
	if got[1].Values["angle_deg"] != 88.0 {
		t.Errorf("values %v", got[1].Values)
	}
}

// By 806² + 1755² − 1938² over 2 · 806 · 1755 the corner at the lower right is 90.53°.
func TestContradictionsOfAnOpening(t *testing.T) {
	sides := "opening is 812 at the top 806 at the bottom, 1760 left 1755 right, diagonal 1938"
	for text, want := range map[string]string{
		"the bottom right corner of the opening is 91.2 degrees":            "By the sides and the diagonal of the opening, the bottom right corner is 90.5°, and it measures 91.2°",
		"the bottom right corner of the opening is 90.3 degrees":            "", // within half a degree
		"the diagonal of the opening from top left to bottom right is 1936": "from top left to bottom right is 1931.5 mm, and it measures 1936 mm",
		"the diagonal of the opening from top left to bottom right is 1933": "", // within 2 mm
	} {
		last := petra(t, sides, text)[1]
		if said := strings.Contains(last.Text, "Which one is wrong?"); said != (want != "") || !strings.Contains(last.Text, want) {
			t.Errorf("%q:\n%s", text, last.Text)
		}
	}
}

func TestADoorForWhatWasMeasured(t *testing.T) {
	sides := "opening is 812 at the top 806 at the bottom, 1760 left 1755 right, diagonal 1938"
	for name, c := range map[string]struct {
		before []string
		wish   string
		given  map[string]float64
		says   []string
	}{
		"four sides and a diagonal": {[]string{sides}, "make a stable door for that opening", map[string]float64{"top_mm": 812, "bottom_mm": 806, "left_mm": 1760, "right_mm": 1755, "diagonal_mm": 1938},
			[]string{"lower right stile", "ends 90.5° and 89.5°", "The opening diagonal is taken from bottom left to top right"}},
		"high on both sides": {[]string{"the opening is 812 at the top, 806 at the bottom, 1760 high on both sides"}, "a stable door for the opening, sapele", map[string]float64{"top_mm": 812, "height_mm": 1760}, nil},
		"by its name":        {[]string{sides, "window opening: 610 wide 455 high"}, "a stable door for the door opening", map[string]float64{"top_mm": 812, "diagonal_mm": 1938}, nil},
		"the one that was measured last": {[]string{sides, "window opening: 610 wide 455 high"}, "trim 60 wide for the window opening", map[string]float64{"width_mm": 610, "height_mm": 455},
			[]string{"No diagonal or corner was measured, so it is taken as square"}},
		"a diagonal the other way": {[]string{"the opening is 812 at the top 806 at the bottom, 1760 left 1755 right", "the diagonal of the opening from top left to bottom right is 1931.5"}, "make a door for the opening",
			map[string]float64{"diagonal_mm": 1931.5}, []string{"bottom rail", "ends 89.7° and 90.5°"}},
		"sides and a corner": {[]string{"the opening is 812 at the top, 806 at the bottom, 1760 high", "the top left corner of the door opening is 89.5 degrees"}, "make a stable door for that opening",
			map[string]float64{"top_left_deg": 89.5, "top_mm": 812}, []string{"four sides and the one corner", "The one height is taken for both sides", "upper left stile 884 × 95 × 40 mm, ends 89.5° and 90.5°"}},
		"a corner beside a diagonal": {[]string{sides, "the bottom right corner of the opening is 91.2 degrees"}, "make a door for that opening", map[string]float64{"diagonal_mm": 1938}, []string{"Which one is wrong?", "ends 89.7° and 90.5°"}},
		"a check for squareness": {[]string{"is the opening square, 812 by 1760, diagonals 1940 and 1936"}, "make a stable door for that opening",
			map[string]float64{"width_mm": 812, "height_mm": 1760, "diagonal_mm": 1940, "diagonal2_mm": 1936}, []string{"the one that was checked for square", "opposite sides equal, by the diagonals"}},
		"named beside a check":            {[]string{sides, "opening 610 by 455, diagonals 761 and 763"}, "a stable door for the door opening", map[string]float64{"top_mm": 812, "diagonal_mm": 1938}, nil},
		"a check after what was measured": {[]string{sides, "opening 820 by 1130, diagonals 1398 and 1394"}, "a door for that opening", map[string]float64{"width_mm": 820, "height_mm": 1130}, nil},
	} {
		t.Run(name, func(t *testing.T) {
			got := petra(t, append(c.before, c.wish)...)
			last := got[len(got)-1]
			if last.Question != "" || last.Topic != "joinery" {
				t.Fatalf("%s: %s", last.Topic, last.Text)
			}
			for need, v := range c.given {
				if last.Given[need] != v {
					t.Errorf("%s is %v, want %v", need, last.Given[need], v)
				}
			}
			for _, w := range c.says {
				if !strings.Contains(last.Text, w) {
					t.Errorf("%q is not said:\n%s", w, last.Text)
				}
			}
		})
	}
}

// A corner that changes makes the parts stale, as a width does.
func TestACornerThatChanges(t *testing.T) {
	got := petra(t, "the opening is 812 at the top, 806 at the bottom, 1760 high", "the top left corner of the opening is 89.5 degrees", "make a stable door for that opening",
		"the top left corner of the opening is 89.2", "check the list", "remake the stable door", "check the list", "the top right corner of the opening is 90.1 degrees")
	hold(t, texts(got), "812", "89.5°", "10 pieces", "89.2° (was 89.5°) & New sizes: lower left stile & remake the stable door", "may not fit any more & is 89.2° now, was 89.5°", "ends 89.2° and 90.8°", "Nothing odd",
		"Made without the opening top right corner: the stable door")
}
