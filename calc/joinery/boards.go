package joinery

import (
	"cmp"
	"errors"
	"fmt"
	"math"

	"fettle/calc/bounds"
	"fettle/calc/evidence"
	"fettle/calc/wood"
)

// The joints between drop boards, and how their ends are held.
const (
	Bevelled = "bevelled"
	Rebated  = "rebated"
	Grooves  = "grooves" // let into the sides of the opening
	Cleats   = "cleats"  // between strips on the sides: the boards stay inside the opening
)

// DropBoards close an opening with boards that slide down from above. Sizes that are 0 are assumed.
type DropBoards struct {
	Words
	Opening     Opening
	Count       int
	HeightsMM   []float64 // as seen from outside, from below; the last may be left out
	Joint       string    // Bevelled or Rebated
	Hold        string    // Grooves or Cleats
	Timber      wood.Species
	ThicknessMM float64
	GrooveMM    float64 // depth of the grooves
	ClearanceMM float64 // at each end of a board
	TopMM       float64 // above the boards when they are at their dampest
	BevelDeg    float64 // of the joint, from level
	LapMM       float64 // of a rebated joint
	Climate     Climate
}

func (b DropBoards) assumed(m *Made) DropBoards {
	h := evidence.Habit
	b.Count = m.count(max(b.Count, len(b.HeightsMM)), "boards", "boards", "%s boards", 4, h)
	if b.Joint == "" {
		b.Joint = Bevelled
		m.choose("joint", "joint", Bevelled, "rebated joint")
	}
	if b.Hold == "" {
		b.Hold = Grooves
		m.choose("hold", "ends in", Grooves, "between cleats")
	}
	b.ThicknessMM = m.assume(b.ThicknessMM, "thickness_mm", "boards thick", "boards %s thick", h(20))
	if b.Hold == Grooves {
		b.GrooveMM = m.assume(b.GrooveMM, "groove_mm", "grooves deep", "groove %s", h(12))
	}
	b.ClearanceMM = m.assume(b.ClearanceMM, "clearance_mm", "clearance at each end", "clearance %s", h(2))
	b.TopMM = m.assume(b.TopMM, "top_gap_mm", "room above at the dampest", "room above %s", h(3))
	if b.Joint == Rebated {
		b.LapMM = m.assume(b.LapMM, "lap_mm", "rebate", "rebate %s", h(10))
	} else if b.BevelDeg == 0 {
		b.BevelDeg = 30
		m.Assumptions = append(m.Assumptions, Assumption{Need: "bevel_deg", Name: "bevel from level", Text: "30°", Change: "bevel 30 degrees", Figure: h(30)})
	}
	if len(b.HeightsMM) == 0 {
		m.choose("heights", "heights", "equal", fmt.Sprintf("heights %s, %s and the rest", b.number(150), b.number(200)))
	}
	b.Climate = m.climate(b.Climate)
	return b
}

func (b DropBoards) check() error {
	return cmp.Or(
		bounds.Count("the number of boards", b.Count, 1),
		bounds.Between("the number of boards", float64(b.Count), 1, 40, ""),
		b.between("the thickness", b.ThicknessMM, 6, 80),
		b.between("the groove", b.GrooveMM, 0, 100),
		b.between("the clearance", b.ClearanceMM, 0.2, 30),
		b.between("the room at the top", b.TopMM, 0.2, 60),
		b.between("the rebate", b.LapMM, 0, 40),
		bounds.Between("the bevel", b.BevelDeg, 0, 60, "°"),
	)
}

// overlap is how far a board reaches up behind the one above it.
func (b DropBoards) overlap() float64 {
	if b.Joint == Rebated {
		return b.LapMM
	}
	return b.ThicknessMM * math.Tan(b.BevelDeg*math.Pi/180)
}

func (b DropBoards) overlapSum() string {
	if b.Joint == Rebated {
		return "the rebate"
	}
	return fmt.Sprintf("%s × tan %s", b.number(b.ThicknessMM), degText(b.BevelDeg))
}

// Make works out the boards:
//
//	heights     cover = (height − room above) / (1 + swelling), shared out equally or as given
//	width       what a board covers, and the overlap of the joint for all but the top one:
//	            thickness × tan bevel, or the rebate
//	length      the opening at the board's two edges, plus the grooves, less the clearance at each end
//
// It fails on openings and sizes that cannot be, and on heights that do not add up.
func (b DropBoards) Make() (Made, error) {
	m := Made{words: b.Words}
	if err := b.sizes(append([]float64{b.ThicknessMM, b.GrooveMM, b.ClearanceMM, b.TopMM, b.BevelDeg, b.LapMM}, b.HeightsMM...)...); err != nil {
		return m, err
	}
	q, how, err := b.Opening.Quad()
	if err != nil {
		return m, err
	}
	m.note(how)
	m.Opening = q
	b = b.assumed(&m)
	if err := b.check(); err != nil {
		return m, err
	}
	low, high := span(q[:]...)
	height := high.Y - low.Y
	grow, _, err := m.swells(height-b.TopMM, b.Timber, b.Climate)
	if err != nil {
		return m, err
	}
	cover := (height - b.TopMM) / (1 + grow/(height-b.TopMM))
	heights, err := b.heights(&m, height, cover)
	if err != nil {
		return m, err
	}
	if err := b.stack(&m, heights, height-cover); err != nil {
		return m, err
	}
	b.tell(&m, height, cover)
	b.draw(&m, heights)
	return m, nil
}

// leastBoardMM is the lowest board that still holds its joint: common practice, no source.
const leastBoardMM = 40

// heights shares the cover out.
func (b DropBoards) heights(m *Made, height, cover float64) ([]float64, error) {
	out := append([]float64(nil), b.HeightsMM...)
	sum := 0.0
	for _, h := range out {
		sum += h
	}
	switch n := len(out); {
	case n == 0:
		for range b.Count {
			out = append(out, cover/float64(b.Count))
		}
	case n == b.Count && math.Abs(sum-height) <= 1:
		out[n-1] += cover - sum
		m.note(fmt.Sprintf("The heights fill the opening without room to swell, so the top board is %s lower.", b.number(sum-cover)))
	case n == b.Count && math.Abs(sum-cover) > 1:
		return nil, fmt.Errorf("the boards add up to %s, and with room to swell the opening takes %s; leave out the last height, or say others", b.size(sum), b.number(cover))
	case n == b.Count-1:
		out = append(out, cover-sum)
	case n < b.Count:
		return nil, fmt.Errorf("%d heights were said for %d boards; say all of them, or all but the last", n, b.Count)
	}
	for _, h := range out {
		if h < leastBoardMM {
			return nil, fmt.Errorf("a board only %s high does not hold its joints; say fewer boards or other heights", b.size(h))
		}
	}
	return out, nil
}

// stack makes the boards from below.
func (b DropBoards) stack(m *Made, heights []float64, above float64) error {
	q, out := m.Opening, b.ClearanceMM-b.GrooveMM
	right, left := q.edge(Right).off(out), q.edge(Left).off(out)
	var drafts []draft
	y := 0.0
	for i, h := range heights {
		top := line{Point{0, y + h + b.overlap()}, Point{-1, 0}}
		seen := line{Point{0, y + h}, Point{-1, 0}}
		names := []string{"drop board", "lower drop board", fmt.Sprintf("drop board %d", i+1)}
		if i == len(heights)-1 {
			top = q.edge(Top).off(above)
			seen = top
			names[1] = "top drop board"
		}
		bottom := line{Point{0, y}, Point{1, 0}}
		board := cell(bottom, right, top, left)
		if !board.sound() {
			return errors.New("the opening narrows to nothing below its top; measure it again")
		}
		p := board.sheet(false)
		p.ThicknessMM, p.Material = b.ThicknessMM, b.Timber.Name
		face := cell(bottom, right, seen, left)
		drafts = append(drafts, draft{names: names, part: p, kind: Timber, outline: face[:]})
		y += h
	}
	m.settle(drafts)
	m.place("", Space, q[:]...)
	return nil
}

func (b DropBoards) tell(m *Made, height, cover float64) {
	m.note(fmt.Sprintf("Boards cover %s of %s: room for swelling, and %s above at the dampest.", b.number(cover), b.size(height), b.number(b.TopMM)))
	if b.Joint == Rebated {
		m.note(fmt.Sprintf("Joint: rebate %s × %s, the tongue of the lower board inside, so that water stays out.", b.number(b.LapMM), b.number(b.ThicknessMM/2)))
	} else {
		m.note(fmt.Sprintf("Joint: both edges bevelled at %s°, falling outwards, so that water runs off; each board reaches %s up inside.", bounds.Number(b.BevelDeg), b.number(b.overlap())))
	}
	m.note("The lowest board stands with a flat edge on the sill; the top one has a flat upper edge.")
	m.because(fmt.Sprintf("Length at the foot %s = opening %s + 2 × (groove %s − clearance %s), square off the sides; width = what it covers + overlap %s (%s): geometry.", b.number(m.Parts[0].EdgeMM), b.number(m.Opening.Side(Bottom)), b.number(b.GrooveMM), b.number(b.ClearanceMM), b.number(b.overlap()), b.overlapSum()))
	m.because("Thickness, groove, bevel and clearance where not said: common practice, no source.")
}

func (b DropBoards) draw(m *Made, heights []float64) {
	low, high := span(all(m.Pieces)...)
	p := newPicture(b.Words, "drop boards", fmt.Sprintf("%d drop boards from outside, in an opening %s wide and %s high", b.Count, b.number(m.Opening.Side(Bottom)), b.number(m.Opening.Side(Left))), low, high, 2)
	p.pieces(m.Pieces)
	p.around(m.Opening, far)
	p.corners(m.Opening, m.Opening, 16)
	for i, c := range m.Pieces[:len(heights)] {
		o := c.Outline
		p.words(middle(middle(o[0], o[1]), middle(o[2], o[3])), fmt.Sprintf("%s: covers %s", c.Part, b.number(heights[i])))
	}
	p.below(1, "Dashed and outside: the opening. "+b.unit()+", to scale.")
	p.below(0, fmt.Sprintf("%s joint, each board reaches %s up inside the next.", b.Joint, b.number(b.overlap())))
	m.Drawing = p.sheet
}
