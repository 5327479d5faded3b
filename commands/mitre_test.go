package commands_test

import (
	"testing"
)

// The values for unequal widths are the reference's (60 and 90 at 90, 100 and 80 degrees,
// formulas.md §7, computed); the others follow from half the corner and 180 over the sides.
func TestMitre(t *testing.T) {
	cutAlone(t, []cutSaid{
		{"mitre 93", "mitre", cutValues{"mitre_deg": 46.5, "saw_deg": 43.5}},
		{"mitre for a 90 degree corner, 60 and 90 wide", "mitre", cutValues{"mitre_deg": 33.69007, "mitre2_deg": 56.30993, "saw_deg": 56.30993, "cut_mm": 108.16654}},
		{"100° corner, trims 60 and 90, mitres?", "mitre", cutValues{"mitre_deg": 36.59390, "mitre2_deg": 63.40610}},
		{"miter at 80 degrees, one trim 60 the other 90", "mitre", cutValues{"mitre_deg": 30.47325, "mitre2_deg": 49.52675}},
		{"miter 87.5 deg 45 and 70", "mitre", cutValues{"given angle_deg": 87.5, "given width_mm": 45, "given width2_mm": 70}},
		{"mitre for a 92 degree corner, 7 and 4,5 cm wide", "mitre", cutValues{"given width_mm": 70, "given width2_mm": 45}},
		{"mitre for trims 60 x 20 and 40 x 20 at 95 degrees", "mitre", cutValues{"given width_mm": 60, "given width2_mm": 40}},
		{"mitre corner ninety one point five, both pieces fifty eight wide", "mitre", cutValues{"saw_deg": 44.25, "given width_mm": 58}},
		{"outside corner reads 268 degrees, skirting mitre?", "mitre", cutValues{"given angle_deg": 92, "saw_deg": 44}},
		{"the template says 118.5, mitre?", "mitre", cutValues{"saw_deg": 30.75}},
		{"corner is 2 degrees over square, mitre?", "mitre", cutValues{"given angle_deg": 92, "mitre_deg": 46}},
		{"corner 1.5 deg under square, trims 58, mitre", "mitre", cutValues{"given angle_deg": 88.5, "given width_mm": 58}},
		{"bend of 20 degrees in the skirting, what mitre", "mitre", cutValues{"saw_deg": 10, "mitre_deg": 80}},
		{"hexagonal frame mitres", "mitre", cutValues{"saw_deg": 30, "given sides": 6}},
		{"what do I set the saw to for an octagon frame 300 long on the outside, 40 wide", "mitre", cutValues{"saw_deg": 22.5, "long_mm": 300, "short_mm": 266.86292}},
		{"mitre on the 3rd window, corner 91.5, bought 4 trims for £18", "mitre", cutValues{"given angle_deg": 91.5, "saw_deg": 44.25}},
	})
}

// ML03 of the reference: 500 at the short points, 60 wide, 45° both ends, is 620 (computed).
func TestMitreLengths(t *testing.T) {
	cutAlone(t, []cutSaid{
		{"mitre for a 90 degree corner, 60 wide, 500 on the inside", "mitre", cutValues{"long_mm": 620, "short_mm": 500}},
		{"mitre both ends, 90 degree corner, 60 wide, 620 between the long points", "mitre", cutValues{"short_mm": 500}},
		{"mitre 90 degrees, 60 wide, 500 long on the inside, other end square", "mitre", cutValues{"long_mm": 560}},
	})
	cutInTurn(t, []cutSaid{
		{"mitre 600 long 60 wide 90 degree corner", "mitre", nil},
		{"inside", "mitre", cutValues{"long_mm": 720, "short_mm": 600}},
	})
}

func TestMitreAsks(t *testing.T) {
	cutAlone(t, []cutSaid{
		{"the corner isn't square, what mitre?", "mitre", nil},
		{"mitre for a 400 degree corner", "mitre", nil},
		{"mitre for corner of 270", "mitre", nil},
		{"mitre for a corner of -20 degrees", "mitre", nil},
		{"mitre for a 2 sided frame", "mitre", nil},
		{"corner 3 degrees out of square, what miter", "mitre", nil},
		{"corners are 88 and 92 degrees, mitre?", "mitre", nil},
		{"mitre for 90 degree corner, widths 60 and 4000", "mitre", nil},
		{"mitre for a 90 corner, 60 wide, 100 at the long points", "mitre", nil},
	})
}

func TestMitreFollowUps(t *testing.T) {
	cutInTurn(t, []cutSaid{
		{"mitre for a 92 degree corner, trims both 58", "mitre", cutValues{"saw_deg": 44}},
		{"and 87?", "mitre", cutValues{"saw_deg": 46.5, "given width_mm": 58}},
		{"other trim is 44", "mitre", cutValues{"given width_mm": 58, "given width2_mm": 44, "mitre_deg": 50.9208}},
		{"same in inches", "mitre", cutValues{"given width2_mm": 44}},
		{"and for a hexagon?", "mitre", cutValues{"given angle_deg": 120, "given sides": 6}},
		{"and a turn of 12 degrees, both 70", "mitre", cutValues{"given angle_deg": 168, "saw_deg": 6, "given width_mm": 70}},
		{"no, I meant 10 degrees", "mitre", cutValues{"given turn_deg": 10, "saw_deg": 5}},
		{"mitre for a corner with 58 trims", "mitre", nil},
		{"3 degrees out of square", "mitre", nil},
		{"over", "mitre", cutValues{"given angle_deg": 93, "given width_mm": 58}},
	})
}

func TestMitreExplains(t *testing.T) {
	cutWhy(t, "mitre for a 92 degree corner", "92° / 2 = 46°", "Geometry")
	cutWhy(t, "mitre for a 90 degree corner, trims 60 and 90 wide", "33.69°", "a sin q / (b + a cos q)")
}
