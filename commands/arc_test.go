package commands_test

import (
	"math"
	"testing"
)

// AG01 to AG04 of the reference and its example of ordinates (formulas.md §9, computed); 60°
// is an equilateral triangle: the chord is the radius.
func TestArc(t *testing.T) {
	cutAlone(t, []cutSaid{
		{"radius for a 1200 chord rising 150", "arc", cutValues{"radius_mm": 1275, "arc_mm": 1249.391, "angle_deg": 56.14497}},
		{"arc: 1000 x 50", "arc", cutValues{"arc_mm": 1006.653, "given chord_mm": 1000}},
		{"bow 2.4 m wide and it raises 30 cm, radius", "arc", cutValues{"arc_mm": 2498.782}},
		{"what's the rise of a 1200 chord on a 1275 radius", "arc", cutValues{"rise_mm": 150}},
		{"how wide is an arc of radius 1275 rising 150", "arc", cutValues{"chord_mm": 1200}},
		{"60 degree arc over a 1000 chord, radius?", "arc", cutValues{"radius_mm": 1000}},
		{"arc of 60 degrees with a radius of 800, how long", "arc", cutValues{"arc_mm": 837.75804, "chord_mm": 800}},
		{"radius of a circle of diameter 900 with chord 400", "arc", cutValues{"given radius_mm": 450}},
		{"arch 30\" across, rise 4\"", "arc", cutValues{"given chord_mm": 762, "given rise_mm": 101.6}},
		{"bow 1940 between the feet and 265 in the middle, radius", "arc", cutValues{"given rise_mm": 265}},
	})
}

func TestArcOrdinates(t *testing.T) {
	a := cutTalk(t, "ordinates every 100 for an arc 1200 across rising 150")[0]
	got, ok := a.Values["ordinates_mm"].([]any)
	want := []float64{0, 47.870, 85.630, 114.203, 134.216, 146.072, 150, 146.072, 134.216, 114.203, 85.630, 47.870, 0}
	if !ok || len(got) != len(want) {
		t.Fatalf("ordinates %v, want %v", a.Values["ordinates_mm"], want)
	}
	for i, w := range want {
		if math.Abs(got[i].(float64)-w) > 0.001 {
			t.Errorf("ordinate %d is %v, want %v", i, got[i], w)
		}
	}
}

func TestArcAsks(t *testing.T) {
	cutAlone(t, []cutSaid{
		{"radius for a 1400 chord?", "arc", nil},
		{"radius for a rise of 80", "arc", nil},
		{"roof bow 195 across rising 27, radius?", "arc", nil},
		{"arc chord 1000 and radius 400", "arc", nil},
		{"radius for 600 chord rising 900", "arc", nil},
		{"radius for chord 1200 rise 150 radius 900", "arc", nil},
		{"radius for a 1200 chord rising -80", "arc", nil},
	})
}

func TestArcFollowUps(t *testing.T) {
	cutInTurn(t, []cutSaid{
		{"radius for a roof bow 1940 across", "arc", nil},
		{"it rises 265", "arc", cutValues{"radius_mm": 1907.78302}},
		{"Gil> same rise but 1860 wide", "arc", cutValues{"given chord_mm": 1860, "given rise_mm": 265}},
		{"Gil> how long is that round the curve", "arc", cutValues{"given chord_mm": 1860, "given rise_mm": 265}},
		{"Gil> and a radius of 2000", "arc", cutValues{"given chord_mm": 1860, "radius_mm": 2000}},
		{"Gil> ordinates every 200", "arc", cutValues{"given chord_mm": 1860, "pitch_mm": 200}},
		{"Gil> same in inches", "arc", cutValues{"given chord_mm": 1860}},
		{"roof bow 195 across rising 27, radius?", "arc", nil},
		{"cm", "arc", cutValues{"given chord_mm": 1950, "given rise_mm": 270}},
		{"radius for 600 chord rising 1300", "arc", nil},
		{"swap", "arc", cutValues{"given chord_mm": 1300, "given rise_mm": 600}},
		{"radius for 600 chord rising 900", "arc", nil},
		{"yes", "arc", cutValues{"radius_mm": 500, "given rise_mm": 900}},
	})
	cutWhy(t, "radius for a 1200 chord rising 150", "1200²/(8 × 150)", "Geometry")
}
