// Package sheet puts the work of a cut plan in the order in which a shop does it: by machine and
// by setting, so that each setting is made once. The order is that of common practice, no source:
// the boards are crosscut, then ripped with the fence from wide to narrow, the lengths cut out of
// the strips, then the blanks are faced, taken to thickness from thick to thin, to width, and to
// their final length last.
package sheet

import (
	"cmp"
	"slices"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/picture"
	"fettle/calc/measure"
)

// Machine is where a batch is done.
type Machine int

// The machines in the order of work.
const (
	Crosscut  Machine = iota // the whole boards
	Rip                      // into strips
	Lengths                  // pieces out of the strips
	Trim                     // strips to a blank's width
	Face                     // face and edge
	Thickness                // to the finished thickness
	Width                    // to the finished width
	FinalCut                 // to the finished length and angles
)

// Batch is what is done at one setting of one machine.
type Batch struct {
	Machine  Machine
	Setting  measure.Length   // of the stop, the fence or the table; 0 where each piece has marks of its own
	Marks    []measure.Length // from the left end, where the boards have the same
	LeftDeg  float64          // of a final cut, 0: square
	RightDeg float64
	Work     []Work
}

// Work is one thing that a batch is done to.
type Work struct {
	Board    string // of a saw cut
	Piece    string // which piece of it, as picture.Step has it: "" the board, "A2" a strip
	Part     string // of later work, and of a trim
	Quantity int
	Beyond   bool // what lies beyond the mark is kept
}

// Saw lists the batches at the saws: every cut of every board is in exactly one of them.
func Saw(boards []cutplan.SawnBoard, kerf measure.Length) []Batch {
	var out []Batch
	for _, b := range boards {
		var across []measure.Length
		for _, s := range picture.Steps(b, kerf) {
			w := Work{Board: b.Name, Piece: s.Piece, Part: s.Part, Quantity: 1, Beyond: s.Beyond}
			if s.Stage == 1 {
				across = append(across, s.At)
				continue
			}
			setting := s.Gives
			if s.Beyond || setting == 0 {
				setting = s.At
			}
			out = into(out, Batch{Machine: machineOf(s), Setting: setting}, w)
		}
		if len(across) > 0 {
			out = into(out, Batch{Machine: Crosscut, Marks: across}, Work{Board: b.Name, Quantity: 1})
		}
	}
	return inOrder(out)
}

func machineOf(s picture.Step) Machine {
	switch s.Stage {
	case 2:
		return Rip
	case 3:
		return Lengths
	}
	return Trim
}

// Piece is a finished part for the later machines.
type Piece struct {
	Name                     string
	Quantity                 int
	Length, Width, Thickness measure.Length
	LeftDeg, RightDeg        float64 // of the ends, 0: square
}

// Finish lists the batches after the saws.
func Finish(pieces []Piece) []Batch {
	var out []Batch
	for _, p := range pieces {
		if p.Quantity <= 0 {
			continue
		}
		w := Work{Part: p.Name, Quantity: p.Quantity}
		out = into(out, Batch{Machine: Face}, w)
		out = into(out, Batch{Machine: Thickness, Setting: p.Thickness}, w)
		out = into(out, Batch{Machine: Width, Setting: p.Width}, w)
		out = into(out, Batch{Machine: FinalCut, Setting: p.Length, LeftDeg: p.LeftDeg, RightDeg: p.RightDeg}, w)
	}
	return inOrder(out)
}

// into adds work to the batch with the same setting, or begins one.
func into(all []Batch, b Batch, w Work) []Batch {
	i := slices.IndexFunc(all, func(o Batch) bool {
		return o.Machine == b.Machine && o.Setting == b.Setting && o.LeftDeg == b.LeftDeg && o.RightDeg == b.RightDeg && slices.Equal(o.Marks, b.Marks)
	})
	if i < 0 {
		b.Work = []Work{w}
		return append(all, b)
	}
	work := all[i].Work
	if k := slices.IndexFunc(work, func(o Work) bool { o.Quantity = w.Quantity; return o == w }); k >= 0 {
		work[k].Quantity += w.Quantity
		return all
	}
	all[i].Work = append(work, w)
	return all
}

// inOrder puts batches in the order of work: machine by machine, each from the large setting to
// the small.
func inOrder(all []Batch) []Batch {
	slices.SortStableFunc(all, func(a, b Batch) int {
		return cmp.Or(cmp.Compare(a.Machine, b.Machine), cmp.Compare(b.Setting, a.Setting), cmp.Compare(len(b.Marks), len(a.Marks)))
	})
	return all
}
