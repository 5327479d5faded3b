package main

import (
	"context"
	"fmt"
	"io/fs"
	"math"
	"path"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/published"
	"fettle/calc/cutplan/replay"
)

// loadClass reads a class of two-dimensional bin packing.
func loadClass(folder fs.FS, rows []published.Row) ([]job, error) {
	f, err := folder.Open(rows[0].File)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	all, err := published.Class(f, path.Base(rows[0].File))
	if err != nil {
		return nil, fmt.Errorf("%s: %w", rows[0].File, err)
	}
	var jobs []job
	for _, row := range rows {
		p, ok := all[row.Instance]
		if !ok {
			return nil, fmt.Errorf("%s has no instance %s", row.File, row.Instance)
		}
		jobs = append(jobs, planeJob(row, p))
	}
	return jobs, nil
}

// loadJoinery reads jobs that are a folder each; their prices are in hundredths.
func loadJoinery(folder fs.FS, rows []published.Row) ([]job, error) {
	var jobs []job
	for _, row := range rows {
		p, err := published.Joinery(folder, row.File)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", row.File, err)
		}
		jobs = append(jobs, planeJob(row, p))
	}
	return jobs, nil
}

// planeJob plans with prices, which come out in hundredths where they are no whole numbers. A
// plan that leaves something out is a failure: all of these jobs have one that doesn't. So is one
// that cannot be replayed.
func planeJob(row published.Row, p cutplan.Job) job {
	return job{row, func(ctx context.Context) (outcome, error) {
		plan, err := cutplan.Make(ctx, p, cutplan.Limits{})
		if err == nil && len(plan.LeftOut) > 0 {
			err = fmt.Errorf("left out: %v", plan.LeftOut)
		}
		if err == nil {
			err = replay.Check(p, plan)
		}
		unit := 1.0
		if row.Family == "hut" {
			unit = 100
		}
		return outcome{
			value: int64(math.Round(plan.Cost * unit)), bound: int64(math.Floor(plan.Bound*unit + 1e-6)),
			proved: plan.Proved, nodes: plan.Nodes,
		}, err
	}}
}
