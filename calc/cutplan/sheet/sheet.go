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
	Setting  measure.Length // of the stop, the fence or the table; of marks, the farthest
	Marks    []Mark         // running, where each cut has its own place: from the left end or the lower edge
	LeftDeg  float64        // of a final cut, 0: square
	RightDeg float64
	Work     []Work
	Cuts     []Cut // of the saws
}

// Cut is one cut of a board, by its number in the plan.
type Cut struct {
	Board string
	Order int
}

// Mark is where one of several cuts through the same piece goes.
type Mark struct {
	At     measure.Length
	Beyond bool // what lies beyond the mark is kept, so the blade runs before it
}

// Work is one thing that a batch is done to.
type Work struct {
	Board    string // of a saw cut
	Piece    string // which piece of it, as picture.Step has it: "" the board, "A2" a strip
	Makes    string // the strip that a rip gives
	Part     string // of later work, and of a trim
	Quantity int
}

// Saw lists the batches at the saws: every cut of every board is in exactly one of them. Crosscuts
// of whole boards are running marks from the left end. Cuts through one piece that may not change
// places, as there is a fault between them or waste to be left out, are running marks too, rips
// from the far one to the near one with the lower edge on the fence.
func Saw(boards []cutplan.SawnBoard, kerf measure.Length) []Batch {
	var out []Batch
	for _, b := range boards {
		for _, cuts := range byPiece(picture.Steps(b, kerf)) {
			if marked(b, cuts) {
				out = into(out, onMarks(b.Name, cuts), Work{Board: b.Name, Piece: cuts[0].Piece, Part: cuts[0].Part, Quantity: 1})
				continue
			}
			for _, s := range cuts {
				out = into(out, Batch{Machine: machineOf(s), Setting: s.Gives, Cuts: []Cut{{b.Name, s.Order}}}, Work{Board: b.Name, Piece: s.Piece, Makes: s.Makes, Part: s.Part, Quantity: 1})
			}
		}
	}
	return inOrder(out)
}

// byPiece puts the cuts through one piece at one machine together. A last rip is by itself: several
// parts of a strip have one each.
func byPiece(steps []picture.Step) (out [][]picture.Step) {
	for _, s := range steps {
		i := slices.IndexFunc(out, func(o []picture.Step) bool { return s.Stage < 4 && o[0].Stage == s.Stage && o[0].Piece == s.Piece })
		if i < 0 {
			out = append(out, []picture.Step{s})
			continue
		}
		out[i] = append(out[i], s)
	}
	return out
}

// marked tells whether cuts through a piece have to keep their places on it.
func marked(b cutplan.SawnBoard, cuts []picture.Step) bool {
	return cuts[0].Stage == 1 || len(b.Faults) > 0 && len(cuts) > 1 ||
		slices.ContainsFunc(cuts, func(s picture.Step) bool { return s.Beyond || s.Gives == 0 })
}

func onMarks(board string, cuts []picture.Step) Batch {
	b := Batch{Machine: machineOf(cuts[0])}
	for _, s := range cuts {
		b.Marks = append(b.Marks, Mark{At: s.At, Beyond: s.Beyond})
		b.Cuts = append(b.Cuts, Cut{board, s.Order})
		b.Setting = max(b.Setting, s.At)
	}
	slices.SortFunc(b.Marks, func(x, y Mark) int {
		if cuts[0].Across {
			return cmp.Compare(x.At, y.At)
		}
		return cmp.Compare(y.At, x.At)
	})
	return b
}

func machineOf(s picture.Step) Machine {
	switch s.Stage {
	case 1:
		return Crosscut
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
	all[i].Cuts = append(all[i].Cuts, b.Cuts...)
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
