package replay_test

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/published"
	"fettle/calc/cutplan/replay"
)

// replayed plans a job in so many nodes and replays the plan, which has to be whole.
func replayed(t *testing.T, job cutplan.Job, nodes int64) {
	t.Helper()
	plan, err := cutplan.Make(t.Context(), job, cutplan.Limits{Nodes: nodes})
	if err != nil || len(plan.LeftOut) > 0 {
		t.Fatalf("%v, left out %v", err, plan.LeftOut)
	}
	held(t, job, plan)
}

// TestJoinery replays plans of all the joinery jobs (testdata/joinery).
func TestJoinery(t *testing.T) {
	root := os.DirFS("../../../testdata/joinery")
	folders, err := filepath.Glob("../../../testdata/joinery/hut-*")
	if err != nil || len(folders) != 15 {
		t.Fatalf("%d folders (%v), want 15", len(folders), err)
	}
	for _, folder := range folders {
		t.Run(filepath.Base(folder), func(t *testing.T) {
			job, err := published.Joinery(root, filepath.Base(folder))
			if err != nil {
				t.Fatal(err)
			}
			replayed(t, job, 5000)
		})
	}
}

// TestClass replays plans of all the instances of the ten classes (testdata/cutting/README.md).
func TestClass(t *testing.T) {
	for i := range 10 {
		file := fmt.Sprintf("Class_%02d.2bp", i+1)
		f, err := os.Open("../../../testdata/cutting/2d/class/" + file)
		if err != nil {
			t.Fatal(err)
		}
		all, err := published.Class(f, file)
		f.Close()
		if err != nil || len(all) != 25 {
			t.Fatalf("%s has %d instances (%v), want 25", file, len(all), err)
		}
		for name, job := range all {
			t.Run(name, func(t *testing.T) { replayed(t, job, 1000) })
		}
	}
}

// TestStopped replays what there is when time is up at once: nothing is sawn, and it is said why.
func TestStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	job := goodJob()
	plan, err := cutplan.Make(ctx, job, cutplan.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range plan.LeftOut {
		if l.Part != 2 && l.Reason != "There was no time to look for a place for it." {
			t.Errorf("%s is left out, as %q", l.Name, l.Reason)
		}
	}
	if len(plan.Boards) == 0 && replay.Check(job, plan) == nil {
		t.Error("the check finds nothing in a plan that leaves fitting boards unused")
	}
}
