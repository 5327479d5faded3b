package cutplan_test

import (
	"strings"
	"testing"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
)

// plain is a job in which one thing may be changed: a rail out of two boards.
func plain(change func(*cutplan.Job)) cutplan.Job {
	job := cutplan.Job{
		Kerf: 3 * millimetre, LastRip: true,
		Boards: []cutplan.Board{{Name: "oak", Quantity: 2, Length: 1000 * millimetre, Width: 100 * millimetre, Thickness: 27 * millimetre, Species: "oak", Price: 10, Priced: true}},
		Parts:  []cutplan.Part{{Name: "rail", Quantity: 1, Length: 700 * millimetre, Width: 50 * millimetre, Thickness: 27 * millimetre}},
	}
	change(&job)
	return job
}

func TestWrongJobsAreRefused(t *testing.T) {
	for want, change := range map[string]func(*cutplan.Job){
		`part "rail" has a length of 0 mm`:            func(j *cutplan.Job) { j.Parts[0].Length = 0 },
		`part "rail" has a width of -1 mm`:            func(j *cutplan.Job) { j.Parts[0].Width = -millimetre },
		`part "rail" has a quantity of 0`:             func(j *cutplan.Job) { j.Parts[0].Quantity = 0 },
		`part "rail" has a quantity of 2000000`:       func(j *cutplan.Job) { j.Parts[0].Quantity = 2_000_000 },
		`part "rail" is there twice`:                  func(j *cutplan.Job) { j.Parts = append(j.Parts, j.Parts[0]) },
		`board "oak" has a thickness of 200000 mm`:    func(j *cutplan.Job) { j.Boards[0].Thickness = 200 * measure.Metre },
		`board "oak" has a quantity of -3`:            func(j *cutplan.Job) { j.Boards[0].Quantity = -3 },
		`board "oak" has a price of -1`:               func(j *cutplan.Job) { j.Boards[0].Price = -1 },
		`board "oak" is there twice`:                  func(j *cutplan.Job) { j.Boards = append(j.Boards, j.Boards[0]) },
		`fault 1 of board "oak" is on copy 3`:         fault(cutplan.Fault{Copy: 3, Length: 1, Width: 1}),
		`fault 1 of board "oak" measures 0 × 1 mm`:    fault(cutplan.Fault{Copy: 1, Width: millimetre}),
		`fault 1 of board "oak" (at 990, 0, 20 × 5 m`: fault(cutplan.Fault{Copy: 2, X: 990 * millimetre, Length: 20 * millimetre, Width: 5 * millimetre}),
		`the kerf must be`:                            func(j *cutplan.Job) { j.Kerf = -1 },
		`the trim must be`:                            func(j *cutplan.Job) { j.Trim = -1 },
	} {
		if _, err := cutplan.Make(t.Context(), plain(change), cutplan.Limits{Nodes: 1000}); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("got %v, want %s", err, want)
		}
	}
}

func fault(f cutplan.Fault) func(*cutplan.Job) {
	return func(j *cutplan.Job) { j.Boards[0].Faults = []cutplan.Fault{f} }
}

// TestLeftOut plans jobs in which something has no place: it is named with the reason, and the
// rest is planned.
func TestLeftOut(t *testing.T) {
	for want, change := range map[string]func(*cutplan.Part){
		"No board is 30 mm thick.":                        func(p *cutplan.Part) { p.Thickness = 30 * millimetre },
		"No board of that thickness is ash.":              func(p *cutplan.Part) { p.Species = "ash" },
		"No board is long enough for 1001 mm.":            func(p *cutplan.Part) { p.Length = 1001 * millimetre },
		"No board that is long enough is 101 mm wide.":    func(p *cutplan.Part) { p.Width = 101 * millimetre },
		"All boards that it fits on are used up.":         func(p *cutplan.Part) { p.Length, p.Width, p.Quantity = 1000*millimetre, 100*millimetre, 2 },
		"The faults leave no place of its size on any bo": func(p *cutplan.Part) { p.Length = 999 * millimetre },
	} {
		job := plain(func(j *cutplan.Job) {
			extra := j.Parts[0]
			extra.Name = "extra"
			change(&extra)
			j.Parts = append(j.Parts, extra)
			for c := 1; c <= 2; c++ {
				j.Boards[0].Faults = append(j.Boards[0].Faults, cutplan.Fault{Copy: c, X: 500 * millimetre, Y: 98 * millimetre, Length: millimetre, Width: millimetre})
			}
		})
		if strings.HasPrefix(want, "All") {
			job.Boards[0].Faults = nil
		} else if strings.HasPrefix(want, "The faults") {
			job.Parts[1].Width = 99 * millimetre
		}
		plan, err := cutplan.Make(t.Context(), job, cutplan.Limits{Nodes: 2000})
		if err != nil {
			t.Fatal(err)
		}
		if len(plan.LeftOut) != 1 || !strings.HasPrefix(plan.LeftOut[0].Reason, want) || len(plan.Boards) == 0 {
			t.Errorf("left out %+v with %d boards, want %q", plan.LeftOut, len(plan.Boards), want)
		}
		for _, wrong := range faultsOf(job, plan) {
			t.Error(wrong)
		}
	}
}

// TestSticks plans a bookcase's worth of sticks, by hand: 6 m make 3 + 3 and no less will do.
func TestSticks(t *testing.T) {
	stick := func(name string, n int, length measure.Length) cutplan.Part {
		return cutplan.Part{Name: name, Quantity: n, Length: length * millimetre, Width: 40 * millimetre, Thickness: 20 * millimetre}
	}
	job := cutplan.Job{
		Kerf: 3 * millimetre, LastRip: true,
		Boards: []cutplan.Board{{Name: "lath", Quantity: 9, Length: 3000 * millimetre, Width: 40 * millimetre, Thickness: 20 * millimetre}},
		Parts:  []cutplan.Part{stick("upright", 2, 1797), stick("shelf", 3, 797), stick("foot", 3, 397)},
	}
	plan, err := cutplan.Make(t.Context(), job, cutplan.Limits{Exact: true})
	if err != nil {
		t.Fatal(err)
	}
	// 2 × 1800 + 3 × 800 + 3 × 400 = 7200 of 3003 each: three laths, 0.36 m2.
	if !plan.Proved || len(plan.Boards) != 3 || plan.Priced || plan.Cost < 0.3599 || plan.Cost > 0.3601 {
		t.Errorf("proved %v, %d boards, cost %g; want three laths of 0.12 m2 and the proof", plan.Proved, len(plan.Boards), plan.Cost)
	}
	for _, wrong := range faultsOf(job, plan) {
		t.Error(wrong)
	}
}
