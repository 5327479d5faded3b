package main

import (
	"context"
	"fmt"
	"io/fs"

	"fettle/calc/cutplan/line"
	"fettle/calc/cutplan/published"
)

// loadBinPacking reads a family whose instances stand together in one file.
func loadBinPacking(folder fs.FS, rows []published.Row) ([]job, error) {
	f, err := folder.Open(rows[0].File)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	all, err := published.BinPacking(f)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", rows[0].File, err)
	}
	byName := map[string]line.Problem{}
	for _, l := range all {
		byName[l.Name] = l.Problem
	}
	var jobs []job
	for _, row := range rows {
		p, ok := byName[row.Instance]
		if !ok {
			return nil, fmt.Errorf("%s has no instance %s", row.File, row.Instance)
		}
		jobs = append(jobs, lineJob(row, p))
	}
	return jobs, nil
}

// loadSeveralStocks reads a family with one file an instance.
func loadSeveralStocks(folder fs.FS, rows []published.Row) ([]job, error) {
	var jobs []job
	for _, row := range rows {
		f, err := folder.Open(row.File)
		if err != nil {
			return nil, err
		}
		p, err := published.SeveralStocks(f)
		f.Close()
		if err != nil {
			return nil, fmt.Errorf("%s: %w", row.File, err)
		}
		jobs = append(jobs, lineJob(row, p))
	}
	return jobs, nil
}

func lineJob(row published.Row, p line.Problem) job {
	return job{row, func(ctx context.Context) (outcome, error) {
		r, err := line.Solve(ctx, p, line.Limits{})
		return outcome{value: r.Cost, bound: r.Bound, proved: r.Proved, nodes: r.Nodes}, err
	}}
}
