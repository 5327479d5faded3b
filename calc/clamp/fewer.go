package clamp

import (
	"cmp"
	"fmt"

	"fettle/calc/bounds"
)

// Fewer is what can be done with the clamps that are there.
type Fewer struct {
	Have, Need int // clamps that are there, and for one joint
	Enough     bool
	// Stages is in how many goes the joints can be glued one after another; 0 when the
	// clamps do not do even for one.
	Stages int
	// ForceEachN is how hard each clamp that is there has to press for one joint.
	ForceEachN float64
	// CaulMM is how thick a batten under the pads has to be, so that the clamps that are
	// there reach the whole glue line of one joint.
	CaulMM float64
	// SpacingMM and EndMM are where the clamps that are there go on one joint.
	SpacingMM, EndMM float64
	// Advice says what to do, one sentence each.
	Advice []string
}

// With says what to do with the given number of clamps for so many equal joints. The
// stages are ⌈joints × clamps per joint / clamps⌉ by whole joints; caul and force follow
// from the two rules of Clamps solved the other way round. It fails when there are no
// clamps, no joints, or when the joint itself cannot be.
func (j Joint) With(clamps, joints int) (Fewer, error) {
	plan, err := j.Clamps()
	if err := cmp.Or(err,
		bounds.Count("the number of clamps", clamps, 1),
		bounds.Count("the number of joints", joints, 1)); err != nil {
		return Fewer{}, err
	}
	f := Fewer{
		Have: clamps, Need: plan.Clamps, Enough: clamps >= plan.Clamps*joints,
		SpacingMM: j.LengthMM / float64(clamps),
	}
	f.EndMM = f.SpacingMM / 2
	f.ForceEachN = plan.ForceN / float64(clamps)
	full, _ := j.complete() // it was complete enough for Clamps
	f.CaulMM = max(full.CaulMM, (f.SpacingMM-full.PadMM)/2-full.ThroughMM)
	if atOnce := clamps / plan.Clamps; atOnce > 0 {
		f.Stages = ceil(float64(joints) / float64(atOnce))
	}
	f.Advice = f.advise(full, plan)
	return f, nil
}

func (f Fewer) advise(j Joint, p Plan) []string {
	if f.Enough {
		return nil
	}
	if f.Stages > 0 {
		return []string{fmt.Sprintf("Glue in %d goes, and let each set before the next.", f.Stages)}
	}
	var out []string
	if f.Have < p.BySpread {
		out = append(out, fmt.Sprintf("Put a straight batten at least %s mm thick under the clamps, so that they press on the whole length.",
			bounds.Number(float64(ceil(f.CaulMM)))))
	}
	if f.Have < p.ByPressure {
		out = append(out, fmt.Sprintf("Each clamp would have to press with %s kN instead of %s; use stronger clamps, or borrow %d more.",
			bounds.Number(float64(ceil(f.ForceEachN/100))/10), bounds.Number(j.ForceN/1000), p.Clamps-f.Have))
	}
	return append(out, "Or use a glue that needs contact rather than pressure, such as a thickened epoxy.")
}
