// Package blanks goes from finished parts to the blanks that are sawn out for them, and plans
// these on the boards: the allowances are added, each part is given the thinnest boards that are
// thick enough, and parts of one section are ganged in one blank where that uses less timber.
package blanks

import (
	"fettle/calc/cutplan"
	"fettle/calc/measure"
	"fettle/calc/rough"
)

// Job is what is to be made, and from what. Names are unique among the parts and among the boards.
type Job struct {
	Parts  []Part
	Boards []cutplan.Board
	Shop   Shop
	Out    measure.System // how sizes are worded in reasons; "" is mm
}

// Part is Quantity finished pieces alike; 0 of them is no fault.
type Part struct {
	Name                     string
	Quantity                 int
	Length, Width, Thickness measure.Length
	Species                  string // "" goes with any
	Free                     bool   // may be turned on a sheet
	Loose                    Staves // cut already of a piece that is not whole yet
}

// Staves are strips of a part that is glued up of several side by side, as it is wider than the boards.
type Staves struct {
	Of    int            // make one piece, 0: none are known of
	Count int            // of them
	Width measure.Length // finished, of each
}

// Shop is how the workshop works.
type Shop struct {
	Allow    rough.Allowances
	Limits   rough.Limits   // both of them above 0
	Widest   measure.Length // the widest blank of parts side by side; 0: they are never put so
	SideMost measure.Length // the longest part that is put side by side
	Kerf     measure.Length
	Trim     measure.Length // off each end of every board
	GlueUp   bool           // parts that are wider than any board are glued up of staves
}

// Blank is Quantity pieces to saw out alike, each for one finished piece or several.
type Blank struct {
	Name          string
	Quantity      int
	Length, Width measure.Length // to saw
	Thickness     measure.Length // of the boards that it comes from
	Species       string
	Free          bool
	Way           Way
	Parts         []int  // index in Job.Parts of each of its finished pieces, in order
	Stave         Staves // of a stave, of which Of make a piece of its one part; Count is 0
}

// Way is how the pieces of a section lie in their blanks.
type Way int

// The ways of making blanks.
const (
	Singly Way = iota // each by itself
	Ends              // end to end, as many as the longest blank takes
	Pairs             // two end to end
	Sides             // side by side, as many as the widest blank takes
)

// LeftOut is pieces of a part that have no place, and why, as a sentence.
type LeftOut struct {
	Part     int // index in Job.Parts
	Quantity int
	Reason   string
	Staves   int // of which it could be glued up if the shop did, 0: none
}

// Planned is a plan with the blanks that it is made of.
type Planned struct {
	Blanks  []Blank
	Cut     cutplan.Job  // the blanks as parts, in order
	Plan    cutplan.Plan // of Cut: the index of a part there is that of a blank here
	LeftOut []LeftOut
}

// Made counts the finished pieces of each part that come out of one sawn board, staves left out.
func (p *Planned) Made(board cutplan.SawnBoard) map[int]int {
	out := map[int]int{}
	for _, placed := range board.Parts {
		if p.Blanks[placed.Part].Stave.Of > 0 {
			continue
		}
		for _, part := range p.Blanks[placed.Part].Parts {
			out[part]++
		}
	}
	return out
}
