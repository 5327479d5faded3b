package cutplan_test

import (
	"context"
	"fmt"
	"os"
	"path"
	"testing"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/published"
)

// TestJoinery plans small joinery jobs (testdata/joinery, where the README says what they are)
// in a tenth of the nodes of a second, and holds the price against the reference's and the bound
// against the index's.
func TestJoinery(t *testing.T) {
	for _, c := range []struct {
		name          string
		price, bound  float64
		proved        bool
		nodes, pieces int
	}{
		{name: "hut-01", price: 20.50, bound: 17.02, nodes: 100_000, pieces: 10},
		{name: "hut-03", price: 44.50, bound: 44.50, nodes: 300_000, pieces: 14, proved: true},
		{name: "hut-05", price: 58.15, bound: 49.84, nodes: 400_000, pieces: 19},
		{name: "hut-07", price: 119.06, bound: 110.47, nodes: 400_000, pieces: 24},
	} {
		t.Run(c.name, func(t *testing.T) {
			job, err := published.Joinery(os.DirFS("../../testdata/joinery"), c.name)
			if err != nil {
				t.Fatal(err)
			}
			plan, err := cutplan.Make(t.Context(), job, cutplan.Limits{Nodes: int64(c.nodes)})
			if err != nil {
				t.Fatal(err)
			}
			if plan.Cost > c.price+1e-6 || plan.Bound < c.bound-1e-6 || c.proved && !plan.Proved {
				t.Errorf("cost %.2f, bound %.2f, proved %v; want %.2f, %.2f, %v", plan.Cost, plan.Bound, plan.Proved, c.price, c.bound, c.proved)
			}
			pieces := 0
			for _, b := range plan.Boards {
				pieces += len(b.Parts)
			}
			if pieces != c.pieces {
				t.Errorf("%d pieces are planned, want %d", pieces, c.pieces)
			}
			for _, wrong := range faultsOf(job, plan) {
				t.Error(wrong)
			}
		})
	}
}

// TestBoundsHold plans all the joinery jobs in a hurry. An independent solver's plan costs the
// index's best_known, so that no bound may be above that; and none may be below the bound by area
// that the index gives.
func TestBoundsHold(t *testing.T) {
	root := os.DirFS("../../testdata/joinery")
	f, err := root.Open("index.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	index, err := published.Index(f)
	if err != nil || len(index) != 15 {
		t.Fatalf("the index has %d jobs (%v)", len(index), err)
	}
	for _, row := range index {
		job, err := published.Joinery(root, row.File)
		if err != nil {
			t.Fatal(err)
		}
		plan, err := cutplan.Make(t.Context(), job, cutplan.Limits{Nodes: 150_000})
		if err != nil || len(plan.LeftOut) > 0 {
			t.Fatalf("%s: %v, left out %v", row.Instance, err, plan.LeftOut)
		}
		if plan.Bound*100 > float64(row.Best)+1e-4 || plan.Bound*100 < float64(row.Lower)-1e-4 {
			t.Errorf("%s: the bound is %.2f, want it from %d to %d hundredths", row.Instance, plan.Bound, row.Lower, row.Best)
		}
		for _, wrong := range faultsOf(job, plan) {
			t.Errorf("%s: %s", row.Instance, wrong)
		}
	}
}

// TestStopped holds that a plan that is broken off at once is a plan still, of what there was
// time for.
func TestStopped(t *testing.T) {
	job, err := published.Joinery(os.DirFS("../../testdata/joinery"), "hut-29")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	plan, err := cutplan.Make(ctx, job, cutplan.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	for _, wrong := range faultsOf(job, plan) {
		t.Error(wrong)
	}
}

// TestSameAgainAfterMeetings holds that two runs agree also when the workers have met often.
func TestSameAgainAfterMeetings(t *testing.T) {
	job, err := published.Joinery(os.DirFS("../../testdata/joinery"), "hut-13")
	if err != nil {
		t.Fatal(err)
	}
	var plans [2]cutplan.Plan
	for i := range plans {
		if plans[i], err = cutplan.Make(t.Context(), job, cutplan.Limits{Nodes: 1_000_000, Seed: 7}); err != nil {
			t.Fatal(err)
		}
	}
	if fmt.Sprint(plans[0]) != fmt.Sprint(plans[1]) {
		t.Errorf("the first plan is %v, the second %v", plans[0], plans[1])
	}
}

// TestClass plans the first instance of each class (testdata/cutting/README.md) and holds the
// sheets against the best known.
func TestClass(t *testing.T) {
	best := []float64{8, 1, 6, 1, 8, 1, 5, 6, 19, 6}
	for i, want := range best {
		file := fmt.Sprintf("Class_%02d.2bp", i+1)
		t.Run(file, func(t *testing.T) {
			job := classJob(t, file, fmt.Sprintf("%s_20_1", file))
			plan, err := cutplan.Make(t.Context(), job, cutplan.Limits{Nodes: 200_000})
			if err != nil {
				t.Fatal(err)
			}
			if plan.Cost != want || plan.Bound > plan.Cost {
				t.Errorf("%g sheets, bound %g; want %g", plan.Cost, plan.Bound, want)
			}
			for _, wrong := range faultsOf(job, plan) {
				t.Error(wrong)
			}
		})
	}
}

func classJob(t testing.TB, file, name string) cutplan.Job {
	t.Helper()
	f, err := os.Open(path.Join("../../testdata/cutting/2d/class", file))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := published.Class(f, file)
	if err != nil {
		t.Fatal(err)
	}
	job, ok := all[name]
	if !ok {
		t.Fatalf("%s has no instance %s", file, name)
	}
	return job
}

// BenchmarkMake plans the largest joinery job's parts, again and again up to a number of pieces,
// with boards enough, in the default number of nodes for such a size.
func BenchmarkMake(b *testing.B) {
	whole, err := published.Joinery(os.DirFS("../../testdata/joinery"), "hut-29")
	if err != nil {
		b.Fatal(err)
	}
	for _, pieces := range []int{10, 20, 40, 80, 160} {
		b.Run(fmt.Sprint(pieces), func(b *testing.B) {
			job := sized(whole, pieces)
			var nodes int64
			b.ReportAllocs()
			for b.Loop() {
				plan, err := cutplan.Make(b.Context(), job, cutplan.Limits{Nodes: 400_000})
				if err != nil || len(plan.LeftOut) > 0 {
					b.Fatalf("%v, left out %v", err, plan.LeftOut)
				}
				nodes += plan.Nodes
			}
			b.ReportMetric(float64(nodes)/float64(b.N), "nodes/op")
		})
	}
}

// sized is a job's first so many pieces, going round when it has no more, with boards to match.
func sized(whole cutplan.Job, pieces int) cutplan.Job {
	job := whole
	job.Parts = append([]cutplan.Part(nil), whole.Parts...)
	job.Boards = append([]cutplan.Board(nil), whole.Boards...)
	for i := range job.Boards {
		if len(job.Boards[i].Faults) == 0 {
			job.Boards[i].Quantity *= 3
		}
	}
	for i := range job.Parts {
		job.Parts[i].Quantity = 0
	}
	for i := 0; pieces > 0; i++ {
		at := i % len(job.Parts)
		n := min(pieces, whole.Parts[at].Quantity)
		job.Parts[at].Quantity += n
		pieces -= n
	}
	for len(job.Parts) > 0 && job.Parts[len(job.Parts)-1].Quantity == 0 {
		job.Parts = job.Parts[:len(job.Parts)-1]
	}
	return job
}
