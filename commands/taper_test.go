package commands_test

import "testing"

// The taper from 45 to 30 over 600 is the reference's (formulas.md §6, computed); 2.6197 for
// 87.5° across 60 is 60 tan 2.5°.
func TestTaper(t *testing.T) {
	cutAlone(t, []cutSaid{
		{"87.5 degrees across 60 wide", "taper", cutValues{"offset_mm": 2.61965, "given angle_deg": 87.5, "given width_mm": 60}},
		{"taper 87.5 over 60", "taper", cutValues{"offset_mm": 2.61965}},
		{"how much does a 900 door run off at 89 degrees", "taper", cutValues{"offset_mm": 15.70958}},
		{"the head is out of square by 1.5 degrees over 812, offset?", "taper", cutValues{"given off_deg": 1.5, "offset_mm": 21.26326}},
		{"taper for 95 degrees across 4 cm", "taper", cutValues{"given width_mm": 40, "offset_mm": 3.49955}},
		{"quarter of a degree across 1200 panel, how much", "taper", cutValues{"given angle_deg": 0.25}},
		{"three quarters of a degree over 800, offset", "taper", cutValues{"given angle_deg": 0.75}},
		{"taper from 45 to 30 over 600", "taper", cutValues{"offset_mm": 15, "off_deg": 1.43210, "per_100_mm": 2.5}},
		{"leg tapers 30 up to 45, 600 long", "taper", cutValues{"offset_mm": 15}},
		{"3 mm out over 900, what angle is that", "taper", cutValues{"off_deg": 0.19099, "angle_deg": 89.80901}},
		{"taper 2 degrees on 60, took 20 min and cost £5", "taper", cutValues{"given width_mm": 60, "given angle_deg": 2}},
	})
}

func TestTaperAsks(t *testing.T) {
	cutAlone(t, []cutSaid{
		{"what's the taper over 60?", "taper", nil},
		{"taper at 87 degrees, how much", "taper", nil},
		{"taper 170 degrees over 60", "taper", nil},
		{"offset for 30 degrees on 60", "taper", nil},
		{"taper from 45 to 30", "taper", nil},
		{"87 degrees across -60", "taper", nil},
	})
}

func TestTaperFollowUps(t *testing.T) {
	cutInTurn(t, []cutSaid{
		{"87.5 degrees across 60 wide", "taper", cutValues{"offset_mm": 2.61965}},
		{"and 88?", "taper", cutValues{"given angle_deg": 88, "given width_mm": 60}},
		{"and across 75?", "taper", cutValues{"given angle_deg": 88, "given width_mm": 75}},
		{"no, across 80", "taper", cutValues{"given width_mm": 80}},
		{"taper at 89 degrees?", "taper", nil},
		{"700", "taper", cutValues{"given width_mm": 700, "given angle_deg": 89}},
		{"offset for 30 degrees on 60", "taper", nil},
		{"off square", "taper", cutValues{"given off_deg": 30, "offset_mm": 34.64102}},
	})
	cutWhy(t, "87.5 degrees across 60 wide", "60 × tan 2.5°", "Geometry")
}
