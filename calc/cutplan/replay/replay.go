// Package replay checks cut plans by sawing them once more, on rectangles: cut by cut, board by
// board. It shares no code with the planner, only the words of its model.
package replay

import (
	"errors"
	"fmt"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
)

// Check replays a plan and gives every fault that it finds, a sentence each, joined; nil when the
// plan can be sawn as it stands and its sums are right. The job is taken to be a right one (see
// cutplan.Job.Check).
func Check(job cutplan.Job, plan cutplan.Plan) error {
	c := &checker{job: &job, plan: &plan, used: map[copyOf]bool{}, count: make([]int, len(job.Parts))}
	for i := range plan.Boards {
		c.board(&plan.Boards[i])
	}
	c.leftOut()
	c.quantities()
	c.sums()
	return errors.Join(c.faults...)
}

// copyOf is one physical board.
type copyOf struct{ board, copy int }

// checker collects faults while the boards go by.
type checker struct {
	job    *cutplan.Job
	plan   *cutplan.Plan
	used   map[copyOf]bool
	count  []int // pieces of each part, placed or left out
	fits   bool  // something left out would fit a board
	faults []error
}

func (c *checker) fault(format string, args ...any) {
	c.faults = append(c.faults, fmt.Errorf(format, args...))
}

// quantities holds what is placed and left out against what was asked for.
func (c *checker) quantities() {
	for i, n := range c.count {
		if p := &c.job.Parts[i]; n != p.Quantity {
			c.fault("%d pieces of %s are placed or left out, but %d are asked for", n, p.Name, p.Quantity)
		}
	}
}

// touch says whether two rectangles have an area in common.
func touch(a, b cutplan.Rect) bool {
	return a.X < b.X+b.Length && b.X < a.X+a.Length && a.Y < b.Y+b.Width && b.Y < a.Y+a.Width
}

// within says whether a lies inside b, edges included.
func within(a, b cutplan.Rect) bool {
	return a.X >= b.X && a.Y >= b.Y && a.X+a.Length <= b.X+b.Length && a.Y+a.Width <= b.Y+b.Width
}

// apart says whether two rectangles stand at least a gap apart, along the board or across it.
func apart(a, b cutplan.Rect, gap measure.Length) bool {
	return a.X+a.Length+gap <= b.X || b.X+b.Length+gap <= a.X || a.Y+a.Width+gap <= b.Y || b.Y+b.Width+gap <= a.Y
}

func lies(p *cutplan.Placed) cutplan.Rect {
	return cutplan.Rect{X: p.X, Y: p.Y, Length: p.Length, Width: p.Width}
}

func words(r cutplan.Rect) string {
	return fmt.Sprintf("%g × %g mm at %g, %g", r.Length.MM(), r.Width.MM(), r.X.MM(), r.Y.MM())
}
