// Package layout spaces things evenly along a length, as running measures from one end.
package layout

import (
	"cmp"
	"errors"
	"fmt"

	"fettle/calc/bounds"
	"fettle/calc/measure"
)

// Ends is what happens between the ends of the span and the outermost things.
type Ends int

const (
	// EqualEnds leaves a gap at both ends as wide as the gaps between.
	EqualEnds Ends = iota
	// FlushEnds puts the outermost things hard against both ends.
	FlushEnds
	// MarginEnds leaves Spacing.End at both ends: to the near edge of a thing with width, to
	// the centre of a point.
	MarginEnds
)

// Spacing is things of one width along a span. A point, such as a hole or a hook, has no
// width: Item is 0.
type Spacing struct {
	Span  measure.Length
	Item  measure.Length
	Count int // 0: worked out from Pitch or from MostGap
	Ends  Ends
	End   measure.Length // for MarginEnds
	// Pitch, when it is above 0, is the distance from centre to centre that was asked for.
	Pitch measure.Length
	// MostGap, when it is above 0 and Count and Pitch are 0, is the widest gap allowed: the
	// fewest things that keep it are taken.
	MostGap measure.Length
}

// Row is where the things go. Every position is worked out from the one end and rounded
// once to a nanometre, so that no error adds up along the row.
type Row struct {
	Count   int
	Pitch   measure.Length   // centre to centre; 0 for a single thing
	Gap     measure.Length   // between neighbours, edge to edge; 0 for a single thing without gaps at the ends
	End     measure.Length   // from the one end to the first near edge
	FarEnd  measure.Length   // from the last far edge to the other end
	Starts  []measure.Length // near edges, running from the one end
	Centres []measure.Length // centres, running from the one end
}

// Row works out the positions (geometry):
//
//	equal ends:  gap = (span − n × item) / (n + 1)
//	flush ends:  gap = (span − n × item) / (n − 1)
//	margins:     gap = (span − 2 × end − n × item) / (n − 1)
//	given pitch: the row is centred, or starts at the margin when one was said
//	most gap G:  n = ⌈(span − G) / (item + G)⌉ for equal ends, ⌈(span − 2 × end + G) / (item + G)⌉ else
//
// It fails on what cannot be, and with a *TooTightError when the things do not fit.
func (s Spacing) Row() (Row, error) {
	if err := s.check(); err != nil {
		return Row{}, err
	}
	if s.Pitch > 0 {
		return s.pitched()
	}
	if s.Count == 0 {
		s.Count = s.fewest()
	}
	return s.even()
}

func (s Spacing) check() error {
	if err := cmp.Or(
		bounds.Length("the span", s.Span),
		bounds.Allowance("the width of a thing", s.Item),
		bounds.Count("the number of things", s.Count, 0),
		bounds.Allowance("the distance from the end", s.End),
		bounds.Allowance("the pitch", s.Pitch),
		bounds.Allowance("the widest gap", s.MostGap),
	); err != nil {
		return err
	}
	switch {
	case s.Count == 0 && s.Pitch == 0 && s.MostGap == 0:
		return errors.New("say how many things there are, or how far apart they stand")
	case s.Ends != MarginEnds && s.End > 0:
		return errors.New("a distance from the ends was said, and equal or flush ends as well; say which")
	case s.Pitch > 0 && s.Ends == FlushEnds:
		return errors.New("a pitch was said, and flush ends as well; say which")
	case s.Pitch > 0 && s.Pitch < s.Item:
		return &TooTightError{Need: s.Item, Have: s.Pitch, what: fmt.Sprintf("things %s wide", bounds.MM(s.Item))}
	}
	return nil
}

// margin is the fixed distance at each end.
func (s Spacing) margin() measure.Length {
	if s.Ends == MarginEnds {
		return s.End
	}
	return 0
}

// fewest is the smallest number of things that keeps every gap within MostGap.
func (s Spacing) fewest() int {
	room := s.Span - 2*s.margin() + s.MostGap
	if s.Ends == EqualEnds {
		room = s.Span - s.MostGap
	}
	n := ceilDiv(room, s.Item+s.MostGap)
	if s.Ends == EqualEnds {
		return max(1, n)
	}
	return max(2, n)
}

func (s Spacing) even() (Row, error) {
	n := measure.Length(s.Count)
	gaps := n - 1
	if s.Ends == EqualEnds {
		gaps = n + 1
	}
	if gaps == 0 {
		return Row{}, errors.New("a single thing cannot keep the same distance from both ends unless it is centred; say two or more, or leave the distance out")
	}
	if err := bounds.Count("the number of things", s.Count, 1); err != nil {
		return Row{}, err
	}
	need := n*s.Item + 2*s.margin()
	if need > s.Span || need == s.Span && s.Item == 0 {
		return Row{}, s.tooTight(need)
	}
	first := s.margin() * gaps
	if s.Ends == EqualEnds {
		first = s.Span - need
	}
	return s.row(line{first: first, step: s.Span - need + s.Item*gaps, parts: gaps}), nil
}

func (s Spacing) pitched() (Row, error) {
	if s.Count == 0 {
		s.Count = int((s.Span-2*s.margin()-s.Item)/s.Pitch) + 1
	}
	if err := bounds.Count("the number of things", s.Count, 1); err != nil {
		return Row{}, err
	}
	need := measure.Length(s.Count-1)*s.Pitch + s.Item + 2*s.margin()
	if need > s.Span {
		return Row{}, s.tooTight(need)
	}
	if s.Ends == MarginEnds {
		return s.row(line{first: s.End, step: s.Pitch, parts: 1}), nil
	}
	return s.row(line{first: s.Span - need, step: 2 * s.Pitch, parts: 2}), nil
}

// line is a row of near edges at (first + i × step) / parts, kept whole until it is rounded.
type line struct{ first, step, parts measure.Length }

func (s Spacing) row(l line) Row {
	out := Row{Count: s.Count, End: divRound(l.first, l.parts)}
	for i := range measure.Length(s.Count) {
		at := l.first + i*l.step
		out.Starts = append(out.Starts, divRound(at, l.parts))
		out.Centres = append(out.Centres, divRound(2*at+s.Item*l.parts, 2*l.parts))
	}
	last := l.first + measure.Length(s.Count-1)*l.step
	out.FarEnd = divRound((s.Span-s.Item)*l.parts-last, l.parts)
	if s.Count > 1 || s.Ends == EqualEnds && s.Pitch == 0 {
		out.Gap = divRound(l.step-s.Item*l.parts, l.parts)
	}
	if s.Count > 1 {
		out.Pitch = divRound(l.step, l.parts)
	}
	return out
}

func (s Spacing) tooTight(need measure.Length) error {
	what := fmt.Sprintf("%d things", s.Count)
	if s.Item > 0 {
		what += fmt.Sprintf(" %s wide", bounds.MM(s.Item))
	}
	if s.Pitch > 0 {
		what += fmt.Sprintf(" at %s", bounds.MM(s.Pitch))
	}
	if s.margin() > 0 {
		what += fmt.Sprintf(" with %s at each end", bounds.MM(s.margin()))
	}
	return &TooTightError{Need: need, Have: s.Span, what: what}
}

// TooTightError says that things do not fit, and by how much.
type TooTightError struct {
	Need, Have measure.Length
	what       string
}

// Error is a sentence for the person who asked.
func (e *TooTightError) Error() string {
	if e.Need == e.Have {
		return fmt.Sprintf("%s do not fit: nothing is left between the ends", e.what)
	}
	return fmt.Sprintf("%s do not fit: they take %s and there is %s, %s too little",
		e.what, bounds.MM(e.Need), bounds.MM(e.Have), bounds.MM(e.Need-e.Have))
}

// Short is how much room is missing.
func (e *TooTightError) Short() measure.Length { return e.Need - e.Have }

// divRound divides to the nearest whole number, halves away from zero; b is above 0.
func divRound(a, b measure.Length) measure.Length {
	if a < 0 {
		return -divRound(-a, b)
	}
	return (a + b/2) / b
}

func ceilDiv(a, b measure.Length) int {
	if a <= 0 {
		return 0
	}
	return int((a + b - 1) / b)
}
