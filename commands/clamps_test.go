package commands_test

import (
	"testing"
)

// A24: 1 MPa on 1200 × 22 mm is 26.4 kN (computed). Of faces the glue area is length × width:
// 1200 × 90 mm at the same pressure is 90/22 of it.
func TestClampsOfEdgesAndFaces(t *testing.T) {
	edge := petra(t, "clamps for a 1200 long edge joint, oak boards 90 wide, 22 thick")[0]
	p, _ := edge.Values["pressure_mpa"].(float64)
	if want := p / 1 * 26400; !same(want, edge.Values["force_n"]) || p < 0.7 || p > 1.7 {
		t.Errorf("edge joint: %v MPa, %v N, want %v", p, edge.Values["force_n"], want)
	}
	answered(t, "clamps", []request{
		{text: "how many clamps to glue two oak boards face to face 1200 long 90 wide 22 thick", values: map[string]any{"force_n": p * 1200 * 90}, says: []string{"Faces glued together"}},
		{text: "clamps for an oak lamination 1200 long 90 wide, 8 plies of 5", values: map[string]any{"force_n": p * 1200 * 90},
			given: map[string]any{"plies": 8}, says: []string{"caul or form 20 mm", "clamp from one end"}},
		{text: "clamps for a bow 1200 long 40 wide 30 thick oak", values: map[string]any{"force_n": p * 1200 * 40}, says: []string{"Plies not said: 5 mm thick assumed"}},
		{text: "clamps for an oak lamination 1200 long 90 wide 40 thick, 8 plies", says: []string{"(80 mm a clamp)"}}, // 30 + 2 × (20 + 5)
		{text: "clamps for a panel from oak strips, 1200 long, 45 wide, 30 thick", values: map[string]any{"force_n": p * 1200 * 30}, says: []string{"Edge joint"}},
	})
	askedBack(t, "clamps", "how many clamps for an oak lamination 1200 long")
}

func TestClampsSayWhatToDo(t *testing.T) {
	answered(t, "clamps", []request{
		{text: "clamps for a 900 long edge joint, boards 70 wide, oak", says: []string{"by spread at 45°", "by pressure", "MPa for oak", "the larger counts", "cauls"}},
		{text: "have 12 clamps, 3 joints 900 long, boards 70 wide 22 thick oak", says: []string{"No, 12 are too few", "Glue in 2 goes"}},
		{text: "I've only got 6 clamps, do they do for a 1.7 m sapele stile joint, stile 96 wide 40 thick?", says: []string{"batten at least", "borrow 12 more"}},
		{text: "clamps for a structural beam lamination 2400 long 90 wide larch 20 mm plies", given: map[string]any{"ply_mm": 20}, says: []string{"local codes"}},
	})
}

// Half the force of a clamp, twice the clamps by pressure.
func TestClampForceIsASetting(t *testing.T) {
	const joint = "clamps for a 1200 long edge joint, oak boards 200 wide, 40 thick"
	got := petra(t, joint, "our clamps give 2.5 kN", joint)
	before, _ := got[0].Values["clamps"].(float64)
	after, _ := got[2].Values["clamps"].(float64)
	if before < 5 || after < 2*before-1 || after > 2*before {
		t.Errorf("%v clamps of 5 kN, %v of 2.5 kN", before, after)
	}
}
