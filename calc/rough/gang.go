package rough

import (
	"cmp"

	"fettle/calc/bounds"
	"fettle/calc/measure"
)

// Limits are the workshop's limits on blanks. A field that is zero takes its default.
type Limits struct {
	// MachineMinimum is the shortest piece to put through planer and thicknesser.
	MachineMinimum measure.Length
	// LongestBlank is the longest blank that is still handy.
	LongestBlank measure.Length
}

// DefaultLimits gives 300 mm as the shortest piece to machine (the length under which the
// British safety authority's planer page asks for push blocks, seen) and 2400 mm as the
// longest blank (common practice, no source).
func DefaultLimits() Limits {
	return Limits{MachineMinimum: 300 * measure.Millimetre, LongestBlank: 2400 * measure.Millimetre}
}

// Gang is a number of equal parts that may be machined end to end in longer blanks.
type Gang struct {
	Quantity     int
	Part         measure.Length // finished length of one part
	Kerf         measure.Length // width of the saw cut between two parts
	EndAllowance measure.Length // for both ends of a blank together
	Limits       Limits
}

// Blank is a number of equal blanks.
type Blank struct {
	Count  int
	Parts  int // parts out of each
	Length measure.Length
}

// Ganging is how parts come out of blanks, and what that saves.
type Ganging struct {
	// Short says that a part alone is too short for the machines, so that ganging is a must.
	Short bool
	// Blanks is how many blanks there are and PerBlank the most parts in one of them.
	Blanks, PerBlank int
	// Each lists the blanks, longest first; there are at most two kinds.
	Each []Blank
	// Total is the length of all blanks and Singly that of one blank for every part.
	Total, Singly measure.Length
	// Saving is Singly − Total; below zero, ganging costs timber.
	Saving measure.Length
}

// Plan spreads the parts over as few blanks as the longest blank allows, as evenly as
// possible. A blank of n parts is n × part + (n − 1) × kerf + end allowance long (geometry),
// but never shorter than the machine minimum. A part that alone exceeds the longest blank
// gets a blank to itself. It fails on a quantity below 1 and on lengths that cannot be.
func (g Gang) Plan() (Ganging, error) {
	if err := g.check(); err != nil {
		return Ganging{}, err
	}
	blanks := ceilDiv(g.Quantity, g.mostPerBlank())
	few, more := g.Quantity/blanks, g.Quantity%blanks
	var each []Blank
	if more > 0 {
		each = append(each, Blank{Count: more, Parts: few + 1, Length: g.blank(few + 1)})
	}
	each = append(each, Blank{Count: blanks - more, Parts: few, Length: g.blank(few)})
	out := Ganging{
		Short:    g.Part < g.limits().MachineMinimum,
		Blanks:   blanks,
		PerBlank: each[0].Parts,
		Each:     each,
		Singly:   measure.Length(g.Quantity) * g.blank(1),
	}
	for _, b := range each {
		out.Total += measure.Length(b.Count) * b.Length
	}
	out.Saving = out.Singly - out.Total
	return out, nil
}

func (g Gang) check() error {
	return cmp.Or(
		bounds.Count("the quantity", g.Quantity, 1),
		bounds.Length("the part's length", g.Part),
		bounds.Allowance("the kerf", g.Kerf),
		bounds.Allowance("the length allowance", g.EndAllowance),
		bounds.Length("the shortest piece for the machines", g.limits().MachineMinimum),
		bounds.Length("the longest blank", g.limits().LongestBlank),
	)
}

func (g Gang) limits() Limits {
	l, d := g.Limits, DefaultLimits()
	if l.MachineMinimum == 0 {
		l.MachineMinimum = d.MachineMinimum
	}
	if l.LongestBlank == 0 {
		l.LongestBlank = d.LongestBlank
	}
	return l
}

func (g Gang) mostPerBlank() int {
	n := (g.limits().LongestBlank - g.EndAllowance + g.Kerf) / (g.Part + g.Kerf)
	return min(max(int(n), 1), g.Quantity)
}

func (g Gang) blank(parts int) measure.Length {
	n := measure.Length(parts)
	return max(n*g.Part+(n-1)*g.Kerf+g.EndAllowance, g.limits().MachineMinimum)
}

func ceilDiv(a, b int) int { return (a + b - 1) / b }
