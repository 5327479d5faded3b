// Package arc is the geometry of a circular arc: chord, rise, radius, angle and the ordinates
// to mark it with. All of it is geometry.
package arc

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"fettle/calc/bounds"
)

// Given is what is known of an arc; two of the four must be above 0. A chord and a radius
// alone mean the smaller of the two arcs.
type Given struct {
	ChordMM, RiseMM, RadiusMM float64
	AngleDeg                  float64 // at the centre of the circle
}

// Arc is an arc in full.
type Arc struct {
	ChordMM, RiseMM, RadiusMM float64
	AngleDeg                  float64 // at the centre of the circle
	LengthMM                  float64 // along the curve
}

// Ordinate is a point of the curve above its chord.
type Ordinate struct {
	AlongMM  float64 // along the chord from its one end
	HeightMM float64 // above the chord
}

// Arc completes an arc from two of its measures, c chord, s rise, R radius, a angle:
//
//	R = c²/(8s) + s/2    s = R − √(R² − c²/4)    c = 2 √(s (2R − s))
//	R = c/(2 sin a/2) = s/(1 − cos a/2)
//	angle = 4 atan(2s/c)    length = R × angle
//
// A rise above half the chord is more than a half circle, and the angle follows. It fails on
// measures that cannot be, on fewer than two, on a chord longer than the diameter, a rise
// higher than the diameter, and on three or four that do not belong together.
func (g Given) Arc() (Arc, error) {
	if err := g.check(); err != nil {
		return Arc{}, err
	}
	said := g.AngleDeg
	g = g.withoutAngle()
	if err := g.agree(); err != nil {
		return Arc{}, err
	}
	a := g.complete()
	if said > 0 && math.Abs(a.AngleDeg-said) > 0.001*said {
		return Arc{}, fmt.Errorf("an arc of these sizes has %s° at its centre, not %s°; say which one is wrong",
			bounds.Number(a.AngleDeg), bounds.Number(said))
	}
	return a, nil
}

// withoutAngle gives the radius in the angle's place, where only one other measure is known,
// and the rise where that is the radius.
func (g Given) withoutAngle() Given {
	half := g.AngleDeg / 2 * math.Pi / 180
	// 1 − cos x as 2 sin² (x/2), which keeps the digits of a small angle.
	versine := 2 * math.Pow(math.Sin(half/2), 2)
	switch {
	case g.AngleDeg == 0:
	case g.ChordMM > 0 && g.RiseMM == 0 && g.RadiusMM == 0:
		g.RiseMM = g.ChordMM / 2 * math.Tan(half/2)
	case g.ChordMM == 0 && g.RiseMM > 0 && g.RadiusMM == 0:
		g.RadiusMM = g.RiseMM / versine
	case g.ChordMM == 0 && g.RiseMM == 0 && g.RadiusMM > 0:
		g.RiseMM = g.RadiusMM * versine
	}
	g.AngleDeg = 0
	return g
}

// complete works out the third of chord, rise and radius.
func (g Given) complete() Arc {
	a := Arc{ChordMM: g.ChordMM, RiseMM: g.RiseMM, RadiusMM: g.RadiusMM}
	switch {
	case g.ChordMM == 0:
		a.ChordMM = 2 * math.Sqrt(g.RiseMM*(2*g.RadiusMM-g.RiseMM))
	case g.RiseMM == 0:
		half := g.ChordMM / 2
		// (c/2)²/(R + √(R² − (c/2)²)) is R − √(…) without the loss of digits of a flat arc.
		a.RiseMM = half * half / (g.RadiusMM + math.Sqrt(max(0, g.RadiusMM*g.RadiusMM-half*half)))
	}
	a.RadiusMM = a.ChordMM*a.ChordMM/(8*a.RiseMM) + a.RiseMM/2
	if g.RadiusMM > 0 {
		a.RadiusMM = g.RadiusMM
	}
	angle := 4 * math.Atan2(2*a.RiseMM, a.ChordMM)
	a.AngleDeg = angle * 180 / math.Pi
	a.LengthMM = a.RadiusMM * angle
	return a
}

func (g Given) check() error {
	known := 0
	for _, v := range []float64{g.ChordMM, g.RiseMM, g.RadiusMM, g.AngleDeg} {
		if v != 0 {
			known++
		}
	}
	const most = 1e6
	if err := cmp.Or(
		bounds.Between("the chord", g.ChordMM, 0, most, "mm"),
		bounds.Between("the rise", g.RiseMM, 0, most, "mm"),
		bounds.Between("the radius", g.RadiusMM, 0, most, "mm"),
		bounds.Between("the angle", g.AngleDeg, 0, 359, "°"),
	); err != nil {
		return err
	}
	if known < 2 {
		return errors.New("an arc needs two of chord, rise, radius and angle")
	}
	return nil
}

// agree refuses measures that no circle has together.
func (g Given) agree() error {
	switch {
	case g.RadiusMM == 0:
		return nil
	case g.ChordMM > 2*g.RadiusMM:
		return fmt.Errorf("a chord of %s mm is longer than the whole circle is wide, %s mm; check the radius",
			bounds.Number(g.ChordMM), bounds.Number(2*g.RadiusMM))
	case g.RiseMM >= 2*g.RadiusMM:
		return fmt.Errorf("a rise of %s mm is as high as the whole circle, %s mm; check the radius",
			bounds.Number(g.RiseMM), bounds.Number(2*g.RadiusMM))
	case g.ChordMM > 0 && g.RiseMM > 0:
		r := g.ChordMM*g.ChordMM/(8*g.RiseMM) + g.RiseMM/2
		if math.Abs(r-g.RadiusMM) > 0.001*r {
			return fmt.Errorf("a chord of %s mm rising %s mm has a radius of %s mm, not %s; say which one is wrong",
				bounds.Number(g.ChordMM), bounds.Number(g.RiseMM), bounds.Number(r), bounds.Number(g.RadiusMM))
		}
	}
	return nil
}

// Ordinates gives the heights of the curve above its chord at the ends of the given number
// of equal steps along the chord, from one end to the other: with x from the middle,
// y = √(R² − x²) − (R − s). It fails on fewer than 1 step or more than bounds.MaxCount, and
// on more than a half circle, which overhangs its chord.
func (a Arc) Ordinates(steps int) ([]Ordinate, error) {
	if err := cmp.Or(bounds.Count("the number of steps", steps, 1), a.overhangs()); err != nil {
		return nil, err
	}
	var out []Ordinate
	for i := range steps + 1 {
		along := a.ChordMM * float64(i) / float64(steps)
		out = append(out, Ordinate{AlongMM: along, HeightMM: a.heightAt(along)})
	}
	return out, nil
}

// Pitched gives the ordinates at a pitch in mm along the chord, stepped off from the middle
// both ways, and those at the two ends, which are 0; the last step at each end may be shorter.
// They run from one end to the other. It fails on a pitch that is not above 0, on one that
// makes more than bounds.MaxCount steps, and on more than a half circle.
func (a Arc) Pitched(pitchMM float64) ([]Ordinate, error) {
	if err := cmp.Or(bounds.Positive("the pitch", pitchMM, "mm"), a.overhangs()); err != nil {
		return nil, err
	}
	half := a.ChordMM / 2
	if err := bounds.Between("the number of steps", math.Ceil(half/pitchMM), 1, bounds.MaxCount, ""); err != nil {
		return nil, err
	}
	// Steps that fit before the end; a step that ends a hair short of it is the end.
	steps := int(math.Ceil(half/pitchMM-1e-9)) - 1
	out := []Ordinate{{}}
	for i := -steps; i <= steps; i++ {
		along := half + float64(i)*pitchMM
		out = append(out, Ordinate{AlongMM: along, HeightMM: a.heightAt(along)})
	}
	return append(out, Ordinate{AlongMM: a.ChordMM}), nil
}

func (a Arc) overhangs() error {
	if a.RiseMM > a.ChordMM/2*(1+1e-12) {
		return errors.New("the arc is more than a half circle and overhangs its chord; mark it from the centre instead")
	}
	return nil
}

// mostSteps is how many steps from the middle to one end are still easy to mark; common
// practice, no source.
const mostSteps = 10

// SensiblePitch picks from the pitches given, smallest first, the first one that takes no
// more than 10 steps from the middle to the end, else the last.
func (a Arc) SensiblePitch(pitches ...float64) float64 {
	best := a.ChordMM / 2
	for _, p := range pitches {
		best = p
		if a.ChordMM/2 <= mostSteps*p {
			break
		}
	}
	return best
}

// heightAt is the height above the chord, written so that flat arcs keep their digits: the
// product of the two parts of the chord divided by the far half of the circle.
func (a Arc) heightAt(along float64) float64 {
	x := along - a.ChordMM/2
	parts := along * (a.ChordMM - along)
	if parts <= 0 { // an end, where a half circle would divide nothing by nothing
		return 0
	}
	return parts / (math.Sqrt(max(0, a.RadiusMM*a.RadiusMM-x*x)) + (a.RadiusMM - a.RiseMM))
}
