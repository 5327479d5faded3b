package sketch_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/sketch"
)

// What is fitted into a rectangle lies inside it, and keeps its proportions.
func TestFitIsInsideAndToScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := rapid.Float64Range(1, 5000).Draw(t, "w")
		h := rapid.Float64Range(1, 5000).Draw(t, "h")
		x0 := rapid.Float64Range(-1000, 1000).Draw(t, "x0")
		f := sketch.FitInto(sketch.Point{X: x0, Y: 0}, sketch.Point{X: x0 + w, Y: h}, 10, 20, 300, 200)
		low, high := f.At(x0, 0), f.At(x0+w, h)
		const slack = 1e-6
		if low.X < 10-slack || low.Y > 220+slack || high.X > 310+slack || high.Y < 20-slack {
			t.Fatalf("%v to %v is outside", low, high)
		}
		if got := (high.X - low.X) / w; math.Abs(got-f.Scale) > 1e-9 {
			t.Fatalf("scale along %v, said %v", got, f.Scale)
		}
		if got := (low.Y - high.Y) / h; math.Abs(got-f.Scale) > 1e-9 {
			t.Fatalf("scale up %v, said %v", got, f.Scale)
		}
	})
}

// A dimension's text is never upside down, whichever way it runs.
func TestDimensionReadsUpright(t *testing.T) {
	for deg := -180.0; deg <= 180; deg += 15 {
		to := sketch.Point{X: 100 * math.Cos(deg*math.Pi/180), Y: 100 * math.Sin(deg*math.Pi/180)}
		shapes := sketch.Dimension(sketch.Point{}, to, 20, "712")
		label := shapes[len(shapes)-1]
		if label.Kind != sketch.Label || label.Text != "712" {
			t.Fatalf("no label last: %+v", label)
		}
		if label.Turn > 90.0001 || label.Turn < -90.0001 {
			t.Errorf("running at %v° the text is turned by %v°", deg, label.Turn)
		}
	}
}

// The line of a dimension stands to the left of the way, away from what it measures.
func TestDimensionStandsOff(t *testing.T) {
	shapes := sketch.Dimension(sketch.Point{X: 0, Y: 100}, sketch.Point{X: 50, Y: 100}, 20, "50")
	if got := shapes[2].Points[0]; got != (sketch.Point{X: 0, Y: 80}) {
		t.Errorf("the line starts at %v, want above at 0, 80", got)
	}
}
