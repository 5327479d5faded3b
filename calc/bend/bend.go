// Package bend plans bows laminated from thin plies on a form.
package bend

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"fettle/calc/bounds"
)

// What the plan goes by when the person did not say; all are common practice, no source,
// but for the two ratios.
const (
	// HardwoodRatio is how many times thicker than a ply the radius has to be: structural
	// glulam of hardwood takes 100 (from memory). Dry solid wood breaks at about 20 to 30
	// (university extension, seen); for comfort 60 to 100.
	HardwoodRatio = 100
	// SoftwoodRatio is the same for softwood: structural glulam takes 125 (from memory).
	SoftwoodRatio = 125
	// SpringShare is the share of the radius by which a bow may open. Enough plies for it
	// are taken as long as they do not get thinner than ThinnestMM.
	SpringShare = 0.02
	// ThinnestMM is the thinnest ply that is still sawn and planed with ease.
	ThinnestMM = 2
	// TrimMM is what every strip is longer than the bow, for both ends together.
	TrimMM = 100
)

// Bow is a curved part to laminate. The radius is that of its inner face.
type Bow struct {
	ThicknessMM float64 // of all plies together
	RadiusMM    float64
	Softwood    bool
	Ratio       float64 // radius to ply; 0 takes HardwoodRatio or SoftwoodRatio
	PlyMM       float64 // the thickest ply at hand; 0 when it is free
	// AngleDeg, or else OutsideMM, is how far round the bow goes: the angle at the centre or
	// the length of the outer face. Both 0 when it was not said.
	AngleDeg, OutsideMM float64
}

// Plan is how a bow is made.
type Plan struct {
	Plies         int
	PlyMM         float64
	StrainPct     float64 // at the surface of each ply
	FormRadiusMM  float64 // of the form, so that the bow springs open to its radius
	SpringMM      float64 // how much the radius opens when the clamps come off, above 0
	InsideMM      float64 // length of the inner face; 0 when the bow's length was not said
	OutsideMM     float64 // length of the outer face; 0 likewise
	StripLengthMM float64 // to cut every strip to: the outer face and the trim; 0 likewise
}

// Plan works out plies, form and strips:
//
//	thickest ply    t ≤ R / ratio, n = ⌈T / t⌉
//	spring          n ≥ √(1 / SpringShare), while T / n stays above ThinnestMM
//	strain          t / (2R) (geometry)
//	form radius     R × (1 − 1/n²); the radius opens by R / n² (elastic plies and a stiff glue
//	                line, derived by superposition; two boatbuilding forums print it for a
//	                camber, seen)
//	outer face      angle × (R + T)
//
// Real bows creep and move with the damp as well: make a trial piece, and bend one dry ply
// first. It fails on sizes that cannot be.
func (b Bow) Plan() (Plan, error) {
	if err := b.check(); err != nil {
		return Plan{}, err
	}
	n := b.plies()
	p := Plan{Plies: n, PlyMM: b.ThicknessMM / float64(n)}
	p.StrainPct = 100 * p.PlyMM / (2 * b.RadiusMM)
	p.SpringMM = b.RadiusMM / float64(n*n)
	p.FormRadiusMM = b.RadiusMM - p.SpringMM
	if angle := b.angle(); angle > 0 {
		p.InsideMM = angle * b.RadiusMM
		p.OutsideMM = angle * (b.RadiusMM + b.ThicknessMM)
		p.StripLengthMM = p.OutsideMM + TrimMM
	}
	return p, nil
}

func (b Bow) plies() int {
	thickest := b.RadiusMM / b.ratio()
	if b.PlyMM > 0 {
		thickest = min(thickest, b.PlyMM)
	}
	byBend := ceil(b.ThicknessMM / thickest)
	bySpring := ceil(math.Sqrt(1 / SpringShare))
	byHand := int(b.ThicknessMM / ThinnestMM)
	return max(2, byBend, min(bySpring, byHand))
}

func (b Bow) ratio() float64 {
	if b.Softwood {
		return cmp.Or(b.Ratio, SoftwoodRatio)
	}
	return cmp.Or(b.Ratio, HardwoodRatio)
}

// angle is how far round the bow goes, in radians.
func (b Bow) angle() float64 {
	if b.AngleDeg > 0 {
		return b.AngleDeg * math.Pi / 180
	}
	return b.OutsideMM / (b.RadiusMM + b.ThicknessMM)
}

func (b Bow) check() error {
	if err := cmp.Or(
		bounds.Positive("the thickness", b.ThicknessMM, "mm"),
		bounds.Positive("the radius", b.RadiusMM, "mm"),
		bounds.Between("the thickness", b.ThicknessMM, 1, 1000, "mm"),
		bounds.Between("the radius", b.RadiusMM, 10, 1e5, "mm"),
		bounds.Between("the ratio of radius to ply", b.Ratio, 0, 1000, ""),
		bounds.Between("the ply", b.PlyMM, 0, 100, "mm"),
		bounds.Between("the angle", b.AngleDeg, 0, 360, "°"),
		bounds.Between("the length of the bow", b.OutsideMM, 0, 1e5, "mm"),
	); err != nil {
		return err
	}
	if b.AngleDeg > 0 && b.OutsideMM > 0 {
		return errors.New("the bow's angle and its length were both said; say which of them counts")
	}
	if b.angle() > 2*math.Pi {
		return fmt.Errorf("a bow %s mm long goes more than once round a radius of %s mm; check them",
			bounds.Number(b.OutsideMM), bounds.Number(b.RadiusMM))
	}
	return nil
}

// Camber is a shallow curve given by its rise.
type Camber struct {
	FormMM float64 // rise of the form, so that the part keeps the rise asked for
	LossMM float64 // what a part bent to the rise itself would lose
}

// CamberOf gives the rise of the form for a shallow camber of so many plies: rise / (1 − 1/n²),
// and the loss without it, rise / n² (seen in two boatbuilding forums). It fails on a rise that
// is not above 0 and on fewer than 2 plies.
func CamberOf(riseMM float64, plies int) (Camber, error) {
	if err := cmp.Or(
		bounds.Positive("the rise", riseMM, "mm"),
		bounds.Count("the number of plies", plies, 2),
	); err != nil {
		return Camber{}, err
	}
	n2 := float64(plies * plies)
	return Camber{FormMM: riseMM / (1 - 1/n2), LossMM: riseMM / n2}, nil
}

// Springs gives the radius that a bow of so many plies has after it came off a form of the
// radius given: R × n²/(n² − 1). It fails on fewer than 2 plies.
func Springs(formRadiusMM float64, plies int) (float64, error) {
	if err := cmp.Or(
		bounds.Positive("the radius of the form", formRadiusMM, "mm"),
		bounds.Count("the number of plies", plies, 2),
	); err != nil {
		return 0, err
	}
	n2 := float64(plies * plies)
	return formRadiusMM * n2 / (n2 - 1), nil
}

// ceil rounds up, but lets a whole number stand that floating point left a hair above.
func ceil(x float64) int { return int(math.Ceil(x - 1e-9)) }
