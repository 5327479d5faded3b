package replay_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/replay"
	"fettle/calc/measure"
)

// chooser draws whole numbers, from a test's generator or from a fuzzer's bytes.
type chooser func(name string, lo, hi int) int

func (c chooser) yes(name string) bool { return c(name, 0, 1) == 1 }

// size draws a length in a unit; one in four is a little off a whole number.
func (c chooser) size(name string, unit measure.Length, lo, hi int) measure.Length {
	size := measure.Length(c(name, lo, hi)) * unit
	if c(name+" is odd", 0, 3) == 0 {
		size += unit * measure.Length(c(name+" in 64ths", 1, 63)) / 64
	}
	return size
}

// job draws a job of any kind: millimetres or inches, one or many boards, with faults, prices,
// sheets, species and exact fits.
func (c chooser) job() cutplan.Job {
	unit := measure.Millimetre
	if c.yes("inches") {
		unit = measure.Inch / 8
	}
	job := cutplan.Job{
		Kerf: c.size("kerf", unit, 0, 5), Trim: measure.Length(c("trim", 0, 2)*c("trim size", 0, 8)) * unit,
		LastRip: c.yes("last rip"),
	}
	priced := c("priced", 0, 2)
	for i := range c("boards", 1, 4) {
		job.Boards = append(job.Boards, c.board(fmt.Sprint("B", i), unit, priced > 0 && (priced == 1 || c.yes("priced"))))
	}
	for i := range c("parts", 1, 6) {
		job.Parts = append(job.Parts, c.part(fmt.Sprint("P", i), unit, &job))
	}
	return job
}

func (c chooser) board(name string, unit measure.Length, priced bool) cutplan.Board {
	b := cutplan.Board{
		Name: name, Quantity: c("copies", 1, 3) * (1 + 20*c("many", 0, 9)/9),
		Length: c.size("board length", unit, 60, 300), Width: c.size("board width", unit, 20, 120),
		Thickness: unit * measure.Length(c("thickness", 10, 11)), Species: []string{"", "ash", "oak"}[c("species", 0, 2)],
		Priced: priced, Sheet: c.yes("sheet"),
	}
	if priced {
		b.Price = float64(c("price", 0, 5000)) / 100
	}
	for range c("faults", 0, 3) {
		b.Faults = append(b.Faults, cutplan.Fault{
			Copy: c("fault's copy", 1, b.Quantity), X: c.size("fault x", unit, 0, 40), Y: c.size("fault y", unit, 0, 8),
			Length: c.size("fault length", unit, 1, 10), Width: c.size("fault width", unit, 1, 8),
		})
	}
	return b
}

// part draws a part; some are made to fill a whole number of times into a board.
func (c chooser) part(name string, unit measure.Length, job *cutplan.Job) cutplan.Part {
	p := cutplan.Part{
		Name: name, Quantity: c("quantity", 1, 6), Length: c.size("length", unit, 10, 200), Width: c.size("width", unit, 5, 90),
		Thickness: unit * measure.Length(c("thickness", 10, 11)), Species: []string{"", "ash", "oak"}[c("species", 0, 2)],
		Free: c.yes("free"),
	}
	b := &job.Boards[c("fits board", 0, len(job.Boards)-1)]
	if c.yes("exact length") {
		p.Length = exact(b.Length-2*job.Trim, job.Kerf, c("along", 1, 3))
	}
	if c.yes("exact width") {
		p.Width = exact(b.Width, job.Kerf, c("abreast", 1, 3))
	}
	return p
}

// exact is the size of which n fill a length with kerfs between them, as far as nanometres go.
func exact(length, kerf measure.Length, n int) measure.Length {
	return max((length-measure.Length(n-1)*kerf)/measure.Length(n), measure.Nanometre)
}

// held plans a job, replays the plan, and holds each board against the geometry alone.
func held(t interface {
	Errorf(string, ...any)
	Fatalf(string, ...any)
}, job cutplan.Job, plan cutplan.Plan) {
	if err := replay.Check(job, plan); err != nil {
		t.Errorf("%v\njob %+v\nplan %+v", err, job, plan)
	}
	stages := 3
	if job.LastRip {
		stages = 4
	}
	for _, b := range plan.Boards {
		var parts []cutplan.Rect
		for _, p := range b.Parts {
			parts = append(parts, cutplan.Rect{X: p.X, Y: p.Y, Length: p.Length, Width: p.Width})
		}
		if !replay.Guillotine(cutplan.Rect{Length: b.Length, Width: b.Width}, parts, job.Kerf, stages) {
			t.Errorf("%s: no %d stages saw out %+v", b.Name, stages, parts)
		}
	}
}

// TestAnyPlan plans jobs of all kinds in few nodes and replays the plans.
func TestAnyPlan(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		job := chooser(func(name string, lo, hi int) int { return rapid.IntRange(lo, hi).Draw(t, name) }).job()
		limits := cutplan.Limits{
			Nodes: int64(rapid.IntRange(1, 3000).Draw(t, "nodes")), Seed: rapid.Int64().Draw(t, "seed"), Exact: rapid.Bool().Draw(t, "exact"),
		}
		plan, err := cutplan.Make(t.Context(), job, limits)
		if err != nil {
			t.Fatal(err)
		}
		held(t, job, plan)
	})
}

// FuzzPlan plans jobs that bytes describe.
func FuzzPlan(f *testing.F) {
	f.Add([]byte("a bench, a shelf and two drop boards"))
	f.Add([]byte{})
	f.Add([]byte{1, 3, 0, 2, 2, 1, 1, 1, 3, 1, 9, 200, 9, 60, 1, 1, 1, 1, 1, 9, 9, 1, 1, 1, 1, 1})
	f.Fuzz(func(t *testing.T, data []byte) {
		job := fromBytes(data).job()
		plan, err := cutplan.Make(t.Context(), job, cutplan.Limits{Nodes: 500})
		if err != nil {
			return // a fault off its board: Make's to refuse
		}
		held(t, job, plan)
	})
}

// fromBytes takes two bytes a number, and the lowest choice when there are no more.
func fromBytes(data []byte) chooser {
	return func(_ string, lo, hi int) int {
		if len(data) < 2 {
			return lo
		}
		n := int(data[0])<<8 | int(data[1])
		data = data[2:]
		return lo + n%(hi-lo+1)
	}
}
