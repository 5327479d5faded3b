package commands_test

import (
	"strings"
	"testing"
)

// 900, 1200 and 1512 by the law of cosines, the four sides of the reference (formulas.md §5,
// computed) and its raked side; the rest is Pythagoras.
func TestSquareCheck(t *testing.T) {
	cutAlone(t, []cutSaid{
		{"opening 812 by 1130, diagonals 1394 and 1389", "square-check", cutValues{"diagonal_mm": 1391.48985, "corner_deg": 90.21723, "out_mm": 4.28418, "given diagonal_mm": 1394, "given diagonal2_mm": 1389}},
		{"is the opening square? 812 wide, 1130 high, diagonals 1394 / 1389", "square-check", cutValues{"out_mm": 4.28418}},
		{"diagonal for 640 wide 980 high", "square-check", cutValues{"diagonal_mm": 1170.46999}},
		{"sill 900, post 1200, end to end 1512, what angle is the corner?", "square-check", cutValues{"corner_deg": 90.95879, "out_mm": 20.08}},
		{"3 sides: bottom 900, left 1200, diagonal 1512", "square-check", cutValues{"corner_deg": 90.95879}},
		{"the tabletop is 1200 by 700 and 1390 corner to corner, is it square", "square-check", cutValues{"given diagonal_mm": 1390}},
		{"frame 900 x 1500 is 1747 diagonally", "square-check", cutValues{"given diagonal_mm": 1747}},
		{"window 610 by 455 with diagonals 761 and 761, is it square", "square-check", cutValues{"corner_deg": 90, "out_mm": 0}},
		{"bottom 1000, right 820, top 950, left 800, diagonal 1270", "square-check", cutValues{"bottom_left_deg": 88.53488, "corner_deg": 87.92082, "top_right_deg": 90.88965, "top_left_deg": 92.65465, "other_diagonal_mm": 1264.55152}},
		{"bottom 900 top 820 height 700, one side raked, what's the rake", "square-check", cutValues{"rake_deg": 6.51981, "side_mm": 704.5566, "diagonal_mm": 1078.1466, "diagonal2_mm": 1140.1754}},
	})
}

func TestSquareCheckNamesTheCorners(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"which corner is out: 812 x 1130, bottom left to top right 1394, the other 1389", "Tight (89.78°): bottom left and top right"},
		{"which corner is out: 812 x 1130, top left to bottom right 1394, the other 1389", "Tight (89.78°): bottom right and top left"},
		{"which corner is out: 812 x 1130, bottom left to top right 1389, the other 1394", "Tight (89.78°): bottom right and top left"},
		{"sill 1000 head 950 left 820 right 800, top left to bottom right 1270, which corner is out of square", "Worst corner: top right at 92.65°"},
	} {
		if a := cutTalk(t, c.text)[0]; !strings.Contains(a.Text, c.want) {
			t.Errorf("%q doesn't say %q: %s", c.text, c.want, a.Text)
		}
	}
}

func TestSquareCheckAsks(t *testing.T) {
	cutAlone(t, []cutSaid{
		{"is the 764 opening square?", "square-check", nil},
		{"is 764 by 1712 square", "square-check", nil},
		{"diagonals 1394 and 1389, is it square?", "square-check", nil},
		{"opening 790 x 1655, diagonals 1835 and 183", "square-check", nil},
		{"opening 790 x 1655, diagonals 1835 and 1538", "square-check", nil},
		{"opening 790 x 1655 diagonal 1235", "square-check", nil},
		{"diagonal of 700 by -400", "square-check", nil},
		{"bottom 1000, right 820, top 950, left 800, is it square", "square-check", nil},
		{"bottom 1000, right 100, top 950, left 800, diagonal 1270", "square-check", nil},
	})
}

func TestSquareCheckFollowUps(t *testing.T) {
	cutInTurn(t, []cutSaid{
		{"opening 812 by 1130, diagonals 1394 and 1389", "square-check", cutValues{"out_mm": 4.28418}},
		{"and if the second is 1391?", "square-check", cutValues{"given diagonal_mm": 1394, "given diagonal2_mm": 1391}},
		{"no, 1398 and 1389", "square-check", cutValues{"given diagonal_mm": 1398, "given diagonal2_mm": 1389}},
		{"same in inches", "square-check", cutValues{"given diagonal_mm": 1398}},
		{"opening 790 x 1655, diagonals 1835 and 183", "square-check", nil},
		{"1833", "square-check", cutValues{"given diagonal_mm": 1835, "given diagonal2_mm": 1833}},
		{"is the 764 opening square?", "square-check", nil},
		{"1712 high, diagonals 1877 and 1872", "square-check", cutValues{"given width_mm": 764, "given height_mm": 1712}},
		{"opening 790 x 1655 diagonal 1235", "square-check", nil},
		{"it stands", "square-check", cutValues{"given diagonal_mm": 1235}},
	})
	cutWhy(t, "opening 812 by 1130, diagonals 1394 and 1389", "1389² − 1394²", "law of cosines")
	cutWhy(t, "diagonal for 640 wide 980 high", "640² + 980²")
}
