package glue

import (
	"cmp"

	"fettle/calc/bounds"
)

// WasteShare is what stays in the pot and on the brush, as a share: common practice, no source.
const WasteShare = 0.10

// Faces is on which of the two faces of a joint the glue is spread.
type Faces int

const (
	// AsUsual spreads as the kind of glue asks.
	AsUsual Faces = iota
	// OneFace spreads one face only.
	OneFace
	// BothFaces spreads the two faces.
	BothFaces
)

// Spreading is an area to glue. Rates are grams per square metre of joint.
type Spreading struct {
	AreaM2 float64 // of the joints, each counted once
	Faces  Faces
	GM2    float64 // when the rate is known; 0 takes the table's
}

// Amount is how much glue to get ready.
type Amount struct {
	AreaM2    float64
	GM2       float64 // in total on a square metre of joint
	BothFaces bool
	Grams     float64 // with the waste
}

// Amount works out grams = area × rate × (1 + WasteShare). The rate is in total for a
// square metre of joint, whether one face is spread or both. It fails on an area or a rate
// that cannot be.
func (g Glue) Amount(s Spreading) (Amount, error) {
	if err := s.check(); err != nil {
		return Amount{}, err
	}
	out := Amount{AreaM2: s.AreaM2, BothFaces: s.Faces == BothFaces || s.Faces == AsUsual && g.BothFaces}
	rate := g.SpreadGM2.Value
	if out.BothFaces {
		rate = g.BothGM2.Value
	}
	out.GM2 = cmp.Or(s.GM2, rate)
	out.Grams = out.AreaM2 * out.GM2 * (1 + WasteShare)
	return out, nil
}

func (s Spreading) check() error {
	return cmp.Or(
		bounds.Positive("the area", s.AreaM2, "m²"),
		bounds.Between("the area", s.AreaM2, 0, 10_000, "m²"),
		bounds.Between("the spread", s.GM2, 0, 3_000, "g/m²"),
	)
}
