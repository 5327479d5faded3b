package commands_test

import "testing"

// The reference's grid (formulas.md §8, computed and confirmed by vectors): 4 sides 15°,
// 6 sides 20°, 8 sides 10°.
func TestCompound(t *testing.T) {
	cutAlone(t, []cutSaid{
		{"compound mitre for a hopper, four sides sloping 15 degrees", "compound", cutValues{"saw_deg": 14.51082, "tilt_deg": 43.07952, "butt_deg": 3.84097}},
		{"hexagonal planter leaning out 20° what saw and tilt", "compound", cutValues{"saw_deg": 11.17023, "tilt_deg": 28.02432}},
		{"8 sided lantern, walls at 80 degrees to the horizontal", "compound", cutValues{"given slope_deg": 10, "saw_deg": 4.11405, "tilt_deg": 22.13991}},
		{"square funnel walls 75 deg from the table, blade tilt and mitre", "compound", cutValues{"given sides": 4, "saw_deg": 14.51082}},
		{"bucket with 12 staves sloping 5 degrees", "compound", cutValues{"given sides": 12, "given slope_deg": 5}},
		{"compund miter, six sides, slope eight degrees", "compound", cutValues{"given sides": 6, "given slope_deg": 8}},
	})
}

func TestCompoundAsks(t *testing.T) {
	cutAlone(t, []cutSaid{
		{"compound cut for the flue box?", "compound", nil},
		{"compound mitre 15 degrees", "compound", nil},
		{"coal box leaning 10 deg from upright, compound cuts", "compound", nil},
		{"compound angles 8 sides 75 degrees", "compound", nil},
		{"planter 4 sides leaning 95 degrees", "compound", nil},
		{"compound angles for a hopper with 2 sides sloping 15 degrees", "compound", nil},
	})
}

func TestCompoundFollowUps(t *testing.T) {
	cutInTurn(t, []cutSaid{
		{"compound mitre for a hopper, four sides sloping 15 degrees", "compound", cutValues{"given sides": 4}},
		{"and 20 degrees?", "compound", cutValues{"given sides": 4, "given slope_deg": 20}},
		{"and with six sides?", "compound", cutValues{"given sides": 6, "given slope_deg": 20, "saw_deg": 11.17023}},
		{"and 75 to the bench", "compound", cutValues{"given sides": 6, "given slope_deg": 15, "given bench_deg": 75}},
		{"compound angles 8 sides 75 degrees", "compound", nil},
		{"to the bench", "compound", cutValues{"given slope_deg": 15, "given sides": 8}},
		{"compound mitre 15 degrees", "compound", nil},
		{"5", "compound", cutValues{"given slope_deg": 15, "given sides": 5}},
	})
	cutWhy(t, "compound mitre for a hopper, four sides sloping 15 degrees", "tan(180/4)", "vectors")
}
