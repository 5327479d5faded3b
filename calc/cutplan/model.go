// Package cutplan says which part comes out of which board: three-stage guillotine plans for a
// crosscut saw and a table saw, with the cuts in sawing order, the offcuts, and a proven lower
// bound on what any plan must cost.
//
// A board is crosscut to rough lengths (stage 1), each piece is ripped (stage 2), each strip is
// crosscut again (stage 3), and a last rip (stage 4, where allowed) takes a piece to the width of
// its one part. Coordinates are the board's: x along it from its left end, y across it from its
// lower edge.
package cutplan

import "fettle/calc/measure"

// Job is what is to be cut, and from what. Names are unique among the boards and among the parts.
type Job struct {
	Boards  []Board
	Parts   []Part
	Kerf    measure.Length // what the saw takes, 0 or more
	Trim    measure.Length // taken off each end of every board before anything else, 0 or more
	LastRip bool           // a fourth cut may trim a piece to its part's width
}

// Board is one kind of board at hand: Quantity alike. A board that is used is used up whole.
type Board struct {
	Name                     string
	Quantity                 int
	Length, Width, Thickness measure.Length
	Species                  string  // "" goes with any
	Price                    float64 // of one board, 0 or more
	Priced                   bool    // a price is known
	Sheet                    bool    // has no grain, so that free parts may turn
	Faults                   []Fault
}

// Fault is a rectangle on one board that no part may touch. A cut may pass through it.
type Fault struct {
	Copy                int // which of the Quantity, from 1
	X, Y, Length, Width measure.Length
}

// Part is Quantity pieces alike, with the grain along the length.
type Part struct {
	Name                     string
	Quantity                 int
	Length, Width, Thickness measure.Length
	Species                  string // "" goes with any
	Free                     bool   // may be turned on a sheet
}

// Limits says how long to look. Time is the context's. Two runs with the same Nodes and Seed give
// the same plan if the context does not end them.
type Limits struct {
	Nodes    int64          // cutting steps to try, 0 for no limit
	Seed     int64          // any number
	Exact    bool           // parts and boards of one section: go on until it is proved
	Progress func(Progress) // called now and then from Make's own goroutine, may be nil
}

// Progress is what is known so far.
type Progress struct {
	Cost, Bound float64 // as in Plan
	Boards      int     // used
	LeftOut     int     // pieces without a place
	Nodes       int64
	Proved      bool
}

// Plan is the answer. Cost and Bound are in the boards' currency when every board has a price,
// else in square metres of board; they speak of the parts that have a place.
type Plan struct {
	Boards               []SawnBoard
	LeftOut              []LeftOut
	StockArea, PartsArea float64 // m2, of the boards used and of the parts placed
	Cost, Bound          float64 // Bound is proven: no plan that places the same pieces costs less
	Priced               bool    // Cost is money, not area
	Proved               bool    // Cost meets Bound, and nothing that fits some board is left out
	Nodes                int64
	Kerf, Trim           measure.Length
}

// SawnBoard is one board that is used, and how it is sawn up.
type SawnBoard struct {
	Board                    int    // index in Job.Boards
	Copy                     int    // which of its Quantity, from 1
	Name                     string // the board's, with #2 for the second of several
	Length, Width, Thickness measure.Length
	Price                    float64
	Faults                   []Fault // of this very board
	Parts                    []Placed
	Offcuts                  []Rect // every piece that is left and is no part, none overlapping, kerf taken off
	Cuts                     []Cut  // in sawing order
}

// Placed is one piece of a part on its board. Length and Width are as it lies, so they are
// swapped when it is turned.
type Placed struct {
	Part                int // index in Job.Parts
	Name                string
	X, Y, Length, Width measure.Length
	Turned              bool
}

// Rect is a rectangle on a board.
type Rect struct {
	X, Y, Length, Width measure.Length
}

// Cut is one pass of the saw through the whole of Piece, which then falls into two (or into one
// and sawdust, where no more than a kerf is to come off).
type Cut struct {
	Order  int            // from 1
	Stage  int            // 1 to 4; odd are crosscuts
	Across bool           // a crosscut; else a rip
	At     measure.Length // the kept edge, from the board's left end (across) or lower edge
	Starts bool           // what is kept starts at At and the kerf lies before it; else it ends there and the kerf lies beyond
	Piece  Rect
}

// LeftOut is a part with pieces that have no place in the plan, and why.
type LeftOut struct {
	Part     int // index in Job.Parts
	Name     string
	Quantity int    // pieces without a place
	Reason   string // a sentence
}
