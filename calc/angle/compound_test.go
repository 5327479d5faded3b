package angle_test

import (
	"math"
	"regexp"
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/angle"
	"fettle/calc/checktest"
)

// CM01 to CM18: a grid of slopes and sides, confirmed by vectors when it was made (computed).
func TestCompoundAgreesWithTheReference(t *testing.T) {
	checks := checktest.Read(t)
	inputs := regexp.MustCompile(`^(\d+)-sided hopper, sides (\d+) deg`)
	butt := regexp.MustCompile(`butt-joint blade tilt ([0-9.]+)`)
	for _, r := range checks.Topic(t, "compound mitre") {
		m := inputs.FindStringSubmatch(r.Inputs)
		n, _ := strconv.Atoi(m[1])
		slope, _ := strconv.ParseFloat(m[2], 64)
		got, err := angle.Sloping{Sides: n, SlopeDeg: slope}.Compound()
		if err != nil {
			t.Fatal(err)
		}
		checks.Holds(t, r.ID, got.SawDeg, got.TiltDeg)
		if b := butt.FindStringSubmatch(r.Note); b != nil {
			want, _ := strconv.ParseFloat(b[1], 64)
			near(t, r.ID+" butt", got.ButtDeg, want, 0.01)
		}
	}
}

type vec [3]float64

func dot(a, b vec) float64       { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }
func scale(a vec, k float64) vec { return vec{a[0] * k, a[1] * k, a[2] * k} }
func minus(a, b vec) vec         { return vec{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }
func unit(a vec) vec             { return scale(a, 1/math.Sqrt(dot(a, a))) }

// The same cut worked out in space: the mitre plane stands upright through the corner of the
// plan. Laid in the face of a side, its trace makes the swing; its angle with the face's
// normal makes the tilt.
func TestCompoundAgreesWithVectors(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 16).Draw(t, "sides")
		slope := rapid.Float64Range(0, 80).Draw(t, "slope")
		got, err := angle.Sloping{Sides: n, SlopeDeg: slope}.Compound()
		if err != nil {
			t.Fatal(err)
		}
		sin, cos := math.Sincos(slope * math.Pi / 180)
		// One side runs along x; it leans outwards, away from +y.
		normal := vec{0, cos, sin}
		upFace := vec{0, -sin, cos}
		// The plan's corner is bisected by an upright plane at 90 − 180/n degrees to the side.
		half := math.Pi / float64(n)
		mitre := vec{math.Cos(half), math.Sin(half), 0} // normal of the mitre plane
		// The blade's tilt is how far the mitre plane is from square to the face.
		tilt := math.Asin(math.Abs(dot(mitre, normal))) * 180 / math.Pi
		// The trace in the face is square to the mitre normal's part in the face.
		inFace := unit(minus(mitre, scale(normal, dot(mitre, normal))))
		swing := math.Asin(math.Abs(dot(inFace, upFace))) * 180 / math.Pi
		if math.Abs(got.TiltDeg-tilt) > 1e-7 || math.Abs(got.SawDeg-swing) > 1e-6 {
			t.Fatalf("saw %v tilt %v, by vectors %v and %v", got.SawDeg, got.TiltDeg, swing, tilt)
		}
	})
}

func TestUprightSidesAreAFlatPolygon(t *testing.T) {
	for n := 3; n <= 12; n++ {
		got, err := angle.Sloping{Sides: n}.Compound()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "saw", got.SawDeg, 0, 1e-9)
		near(t, "tilt", got.TiltDeg, 180/float64(n), 1e-9)
	}
}

func TestFromBench(t *testing.T) {
	got, err := angle.FromBench(75)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "slope", got, 15, 1e-12)
	for _, a := range []float64{0, -5, 91, math.NaN()} {
		if got, err := angle.FromBench(a); err == nil {
			t.Errorf("FromBench(%v) = %v, want an error", a, got)
		}
	}
}

func TestCompoundsThatCannotBe(t *testing.T) {
	for _, s := range []angle.Sloping{{}, {Sides: 2, SlopeDeg: 10}, {Sides: 4, SlopeDeg: 90}, {Sides: 4, SlopeDeg: -5}, {Sides: 4, SlopeDeg: math.NaN()}} {
		if got, err := s.Compound(); err == nil {
			t.Errorf("%+v: %+v, want an error", s, got)
		}
	}
}
