// Package arc is the geometry of a circular arc: chord, rise, radius and the ordinates to
// mark it with. All of it is geometry.
package arc

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"fettle/calc/bounds"
)

// Given is what is known of an arc; two of the three must be above 0. A chord and a radius
// alone mean the smaller of the two arcs.
type Given struct {
	ChordMM, RiseMM, RadiusMM float64
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

// Arc completes an arc from two of its measures, c chord, s rise, R radius:
//
//	R = c²/(8s) + s/2    s = R − √(R² − c²/4)    c = 2 √(s (2R − s))
//	angle = 4 atan(2s/c)    length = R × angle
//
// A rise above half the chord is more than a half circle, and the angle follows. It fails on
// measures that cannot be, on fewer than two, on a chord longer than the diameter, a rise
// higher than the diameter, and on three that do not belong together.
func (g Given) Arc() (Arc, error) {
	if err := g.check(); err != nil {
		return Arc{}, err
	}
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
	return a, nil
}

func (g Given) check() error {
	known := 0
	for _, v := range []float64{g.ChordMM, g.RiseMM, g.RadiusMM} {
		if v != 0 {
			known++
		}
	}
	const most = 1e6
	if err := cmp.Or(
		bounds.Between("the chord", g.ChordMM, 0, most, "mm"),
		bounds.Between("the rise", g.RiseMM, 0, most, "mm"),
		bounds.Between("the radius", g.RadiusMM, 0, most, "mm"),
	); err != nil {
		return err
	}
	if known < 2 {
		return errors.New("an arc needs two of chord, rise and radius")
	}
	return g.agree()
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
	if err := bounds.Count("the number of steps", steps, 1); err != nil {
		return nil, err
	}
	if a.RiseMM > a.ChordMM/2*(1+1e-12) {
		return nil, errors.New("the arc is more than a half circle and overhangs its chord; mark it from the centre instead")
	}
	var out []Ordinate
	for i := range steps + 1 {
		along := a.ChordMM * float64(i) / float64(steps)
		out = append(out, Ordinate{AlongMM: along, HeightMM: a.heightAt(along)})
	}
	return out, nil
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
