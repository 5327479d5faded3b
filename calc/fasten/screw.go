// Package fasten sizes the holes for a wood screw, the plug over it and the screw itself.
package fasten

import (
	"cmp"
	"errors"
	"fmt"

	"fettle/calc/bounds"
)

// Shares of a screw's diameter and of its root.
const (
	// RootShare is the root of the thread as a share of the shank: about two thirds for most
	// sizes, Wood Handbook (2010) p. 8-10 (seen).
	RootShare = 2.0 / 3
	// HardwoodShare is the pilot hole as a share of the root in hardwood: NDS commentary (seen).
	HardwoodShare = 0.90
	// SoftwoodShare is the same in softwood (seen; a test of eleven woods agrees).
	SoftwoodShare = 0.70
	// HeadShare is a countersunk head's diameter as a share of the shank: about 2, from memory
	// of the metric wood screw standards.
	HeadShare = 2.0
	// CoachHardwoodShare and CoachSoftwoodShare are the pilot of a coach screw as a share of its
	// shank: the middle of 65 to 85 % for dense hardwood and of 60 to 75 % for the denser
	// softwoods, Wood Handbook (2010) chapter 8 (from memory).
	CoachHardwoodShare = 0.75
	CoachSoftwoodShare = 0.675
	// CoachHeadShare is the counterbore that a coach screw's head, washer and socket need, as a
	// share of the shank: common practice, no source.
	CoachHeadShare = 2.5
)

// Common practice, no source, all in mm.
const (
	plugDeepMM    = 8 // a plug that holds and can be pared flush
	plugShallowMM = 3 // less does not hold
	pointClearMM  = 3 // wood left ahead of the point, so that it does not show
)

// GaugeMM gives the shank of a screw of a gauge number: (0.060 + 0.013 n) inches, the rule
// behind ASME B18.6.1 (two fastener tables, seen). It fails outside 0 to 24.
func GaugeMM(gauge int) (float64, error) {
	if err := bounds.Between("the screw's gauge", float64(gauge), 0, 24, ""); err != nil {
		return 0, err
	}
	return (0.060 + 0.013*float64(gauge)) * 25.4, nil
}

// Screw is a screw through one piece into another. Sizes that are 0 were not said.
type Screw struct {
	DiameterMM float64 // of the shank
	Softwood   bool    // what the thread sits in
	HeldMM     float64 // thickness of the piece that is held
	IntoMM     float64 // thickness of the piece that it goes into
	Plugged    bool    // sunk below the surface and covered
	SinkMM     float64 // depth of the counterbore when it was said, with Plugged
	PlugMM     float64 // diameter of the plugs at hand, with Plugged
	Coach      bool    // a coach screw: hexagon head, coarse thread
	LengthMM   float64 // when it is at hand already
}

// Holes is what to drill and what to drive.
type Holes struct {
	PilotMM        float64 // in the piece that the thread sits in
	ClearanceMM    float64 // through the piece that is held
	HeadMM         float64 // of a countersunk head
	CounterMM      float64 // diameter of counterbore and plug; 0 without a plug
	CounterDepthMM float64 // 0 without a plug
	LengthMM       float64 // of the screw; 0 when nothing was said to work it out from
	InBaseMM       float64 // how far it goes into the base; 0 likewise
	WantedMM       float64 // how far it should go into the base; 0 likewise
	Through        bool    // a screw at hand that is longer than the two pieces
}

// Holes works out, with d the shank:
//
//	root = 2/3 d, pilot = 0.9 root in hardwood and 0.7 root in softwood, clearance = d
//	coach screw: pilot = 0.75 d in hardwood and 0.675 d in softwood
//	plug = the next cutter at or above the head, 2 d, or as said
//	counterbore = 8 mm deep or as said, but never more than half of the piece held
//	length = the next standard one that goes 7 d deep and has two thirds of itself in the base
//
// The counterbore and the length are practice. A screw never comes within 3 mm of the far
// face; when that leaves it short of what is wanted, InBaseMM is below WantedMM. It fails on
// sizes that cannot be, and when the piece is too thin to sink a screw into.
func (s Screw) Holes() (Holes, error) {
	if err := s.check(); err != nil {
		return Holes{}, err
	}
	pilot, head := s.shares()
	h := Holes{
		PilotMM:     pilot * s.DiameterMM,
		ClearanceMM: s.DiameterMM,
		HeadMM:      head * s.DiameterMM,
	}
	if s.Plugged {
		h.CounterMM, h.CounterDepthMM = cmp.Or(s.PlugMM, plug(h.HeadMM)), cmp.Or(s.SinkMM, plugDeepMM)
		if h.CounterMM < h.HeadMM {
			return Holes{}, fmt.Errorf("a plug of %s mm does not cover a head of about %s mm; take a wider plug or a thinner screw",
				bounds.Number(s.PlugMM), bounds.Number(h.HeadMM))
		}
		if s.HeldMM > 0 {
			h.CounterDepthMM = min(h.CounterDepthMM, s.HeldMM/2)
		}
		if h.CounterDepthMM < plugShallowMM {
			return Holes{}, fmt.Errorf("a piece %s mm thick is too thin to sink a screw and plug it; leave the head flush",
				bounds.Number(s.HeldMM))
		}
	}
	return s.lengths(h)
}

// shares gives pilot and head as shares of the shank.
func (s Screw) shares() (pilot, head float64) {
	switch {
	case s.Coach && s.Softwood:
		return CoachSoftwoodShare, CoachHeadShare
	case s.Coach:
		return CoachHardwoodShare, CoachHeadShare
	case s.Softwood:
		return SoftwoodShare * RootShare, HeadShare
	}
	return HardwoodShare * RootShare, HeadShare
}

// lengths fills in the screw's length and how far it goes into the base.
func (s Screw) lengths(h Holes) (Holes, error) {
	if s.HeldMM == 0 {
		h.LengthMM = s.LengthMM
		return h, nil
	}
	under := s.HeldMM - h.CounterDepthMM // what the head pulls down
	h.WantedMM = max(2*under, 7*s.DiameterMM)
	switch {
	case s.LengthMM > 0:
		h.LengthMM = s.LengthMM
		h.Through = s.IntoMM > 0 && s.LengthMM > under+s.IntoMM-pointClearMM
	default:
		most := standardLengths()[len(standardLengths())-1]
		if s.IntoMM > 0 {
			most = min(most, under+s.IntoMM-pointClearMM)
		}
		h.LengthMM = pick(under+h.WantedMM, most)
		if h.LengthMM <= under {
			return Holes{}, errors.New("no screw is short enough to stay inside the piece it goes into; use glue, or come from the other side")
		}
	}
	h.InBaseMM = max(0, h.LengthMM-under)
	return h, nil
}

func (s Screw) check() error {
	return cmp.Or(
		bounds.Between("the screw", s.DiameterMM, 1, 20, "mm"),
		bounds.Between("the piece that is held", s.HeldMM, 0, 500, "mm"),
		bounds.Between("the piece that it goes into", s.IntoMM, 0, 2000, "mm"),
		bounds.Between("the screw's length", s.LengthMM, 0, 500, "mm"),
		bounds.Between("the depth of the counterbore", s.SinkMM, 0, 100, "mm"),
		bounds.Between("the plug", s.PlugMM, 0, 60, "mm"),
	)
}

// plug is the smallest usual plug cutter (common practice) that covers a head.
func plug(head float64) float64 {
	cutters := []float64{6, 8, 10, 12, 13, 15, 16, 20, 25, 30, 35, 40}
	for _, c := range cutters {
		if c >= head {
			return c
		}
	}
	return cutters[len(cutters)-1]
}

// standardLengths are the usual lengths of wood screws in mm, from memory of the metric
// standards.
func standardLengths() []float64 {
	return []float64{12, 16, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 120, 140, 160, 180, 200}
}

// pick is the shortest standard length that is not below want, or the longest that is not
// above most; 0 when even the shortest is.
func pick(want, most float64) float64 {
	best := 0.0
	for _, l := range standardLengths() {
		if l > most {
			break
		}
		best = l
		if l >= want {
			break
		}
	}
	return best
}
