// Package joinery goes from an opening or a wish to the parts of a door, a rack, a trim, a set
// of drop boards, a bow or a slatted top: their sizes, the angles of their ends, what was
// assumed, and a drawing.
//
// All sizes are in mm and all angles in degrees. A thing is laid out as it is seen from the
// front, x to the right and y up. Angles and joints are geometry; every size that nobody said is
// an Assumption with where it comes from.
package joinery

import (
	"fmt"
	"math"
	"strconv"

	"fettle/calc/evidence"
	"fettle/calc/sketch"
)

// Part is one line of what is made.
type Part struct {
	Name        string
	Quantity    int
	LengthMM    float64 // over all, tenons and long points included
	WidthMM     float64
	ThicknessMM float64
	// EdgeMM is the length of the reference edge between the two ends, tenons left out. The
	// reference edge is the outer one of a frame or a trim, and the lower one of anything else.
	EdgeMM float64
	// LeftDeg and RightDeg are the corners at the two ends of the reference edge, inside the
	// piece, as seen with that edge below; 90 is square.
	LeftDeg, RightDeg float64
	TenonMM           float64 // at each end, square off the shoulder; 0: none
	// SidesMM are the lengths of the bottom, right, top and left edge of a panel or a board, which
	// LeftDeg and RightDeg do not fix alone; all 0 for a piece of one width.
	SidesMM  [4]float64
	Material string // a timber by its name, plywood, glass ...; "" where none was said
	AnyGrain bool   // a sheet: it may be cut either way
	Note     string // what else it takes, as a sentence
}

// Assumption is a figure or a choice that nobody said, with the words that change it.
type Assumption struct {
	Need   string // what it is called in a request: "stile_mm"
	Name   string // "stiles"
	Text   string // the figure with its unit, or the choice
	Change string // a sentence that changes it: "stiles 70"
	Figure evidence.Figure
}

// Piece is a part in its place, as it is seen from the front.
type Piece struct {
	Part    string // the name of its part
	Outline []Point
	Kind    Kind
}

// Kind is how a piece is drawn.
type Kind int

// The kinds of a piece.
const (
	Timber Kind = iota
	Infill      // a panel or a pane, seen between the parts round it
	Hidden      // behind other parts, or let into them
	Space       // no part: the opening, an item that is kept
)

// Made is everything that follows from a wish.
type Made struct {
	Parts       []Part
	Assumptions []Assumption
	Cautions    []string // short sentences, the weightiest first
	Notes       []string // what to know at the bench, as sentences
	Pieces      []Piece  // assembled
	Opening     Quad     // what it goes into; nothing where it goes into none
	Why         []string // the sums with their figures, and where these come from
	Drawing     sketch.Sheet

	words Words
}

// mostMM is the longest of anything made here; beyond it a unit was mistaken.
const mostMM = 20_000

// assume notes a figure in mm that was not said and gives it; one that was said is given as it is.
func (m *Made) assume(said float64, need, name, change string, f evidence.Figure) float64 {
	if said > 0 {
		return said
	}
	m.Assumptions = append(m.Assumptions, Assumption{Need: need, Name: name, Figure: f,
		Text: m.words.size(f.Value), Change: fmt.Sprintf(change, m.words.number(f.Value))})
	return f.Value
}

// choose notes a choice that was not said.
func (m *Made) choose(need, name, text, change string) {
	m.Assumptions = append(m.Assumptions, Assumption{Need: need, Name: name, Text: text, Change: change,
		Figure: evidence.Habit(0)})
}

// count notes a number of things that was not said and gives it.
func (m *Made) count(said int, need, name, change string, n int, f func(float64) evidence.Figure) int {
	if said > 0 {
		return said
	}
	m.Assumptions = append(m.Assumptions, Assumption{Need: need, Name: name, Figure: f(float64(n)),
		Text: strconv.Itoa(n), Change: fmt.Sprintf(change, strconv.Itoa(n))})
	return n
}

// add takes in a part; one that is cut the same as an earlier one of the same sort is counted
// with it.
func (m *Made) add(p Part) {
	for i := range m.Parts {
		if m.Parts[i].sameCut(p) {
			m.Parts[i].Quantity += p.Quantity
			return
		}
	}
	m.Parts = append(m.Parts, p)
}

// sameMM and sameDeg are below what can be cut: common practice, no source.
const (
	sameMM  = 0.01
	sameDeg = 0.001
)

// sameCut says whether two parts of one name are the same piece, or one is the other turned over.
func (p Part) sameCut(q Part) bool {
	near := func(a, b, by float64) bool { return math.Abs(a-b) <= by }
	ends := near(p.LeftDeg, q.LeftDeg, sameDeg) && near(p.RightDeg, q.RightDeg, sameDeg) ||
		near(p.LeftDeg, q.RightDeg, sameDeg) && near(p.RightDeg, q.LeftDeg, sameDeg)
	return p.Name == q.Name && p.Material == q.Material && p.Note == q.Note && p.AnyGrain == q.AnyGrain && ends &&
		near(p.LengthMM, q.LengthMM, sameMM) && near(p.WidthMM, q.WidthMM, sameMM) &&
		near(p.ThicknessMM, q.ThicknessMM, sameMM) && near(p.EdgeMM, q.EdgeMM, sameMM) && near(p.TenonMM, q.TenonMM, sameMM)
}

func (m *Made) place(part string, kind Kind, outline ...Point) {
	m.Pieces = append(m.Pieces, Piece{Part: part, Outline: outline, Kind: kind})
}
