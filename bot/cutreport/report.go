package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"slices"
	"strings"
	"time"

	"fettle/calc/cutplan/published"
)

// families says, by how a family's name in the index starts, what reads its instances.
var families = []struct {
	prefix string
	load   loader
}{
	{"falkenauer", loadBinPacking},
	{"scholl", loadBinPacking},
	{"hard28", loadBinPacking},
	{"multistock", loadSeveralStocks},
	{"class", loadClass},
	{"hut", loadJoinery},
}

// loader reads the instances of one family.
type loader func(folder fs.FS, rows []published.Row) ([]job, error)

// job is one instance, ready to be planned.
type job struct {
	row  published.Row
	plan func(context.Context) (outcome, error)
}

// outcome is what the planner made of an instance, in the unit of the index.
type outcome struct {
	value, bound int64
	proved       bool
	nodes        int64
}

// report is one run over the families.
type report struct {
	folder         fs.FS
	limit          time.Duration
	only, instance string
	each           bool
	out            io.Writer
}

func (r report) run(ctx context.Context) error {
	index, err := r.folder.Open("index.csv")
	if err != nil {
		return err
	}
	defer index.Close()
	rows, err := published.Index(index)
	if err != nil {
		return err
	}
	fmt.Fprintf(r.out, "%-18s %5s %6s %7s %10s %10s %10s %10s %10s %7s\n", "family", "inst.", "proved", "at best", "sum", "best known", "bounds", "median", "worst", "peak MB")
	for len(rows) > 0 && ctx.Err() == nil {
		name, n := rows[0].Family, 0
		for n < len(rows) && rows[n].Family == name {
			n++
		}
		wanted := r.wanted(rows[:n])
		if load := loaderOf(name); load != nil && len(wanted) > 0 {
			jobs, err := load(r.folder, wanted)
			if err != nil {
				return fmt.Errorf("family %s: %w", name, err)
			}
			if err := r.family(ctx, name, jobs); err != nil {
				return fmt.Errorf("family %s: %w", name, err)
			}
		}
		rows = rows[n:]
	}
	return ctx.Err()
}

// wanted are the rows of a family that the flags leave.
func (r report) wanted(rows []published.Row) (kept []published.Row) {
	for _, row := range rows {
		if strings.HasPrefix(row.Family, r.only) && (r.instance == "" || row.Instance == r.instance) {
			kept = append(kept, row)
		}
	}
	return kept
}

func loaderOf(family string) loader {
	for _, f := range families {
		if strings.HasPrefix(family, f.prefix) {
			return f.load
		}
	}
	return nil
}

// family plans every instance of a family and prints its line.
func (r report) family(ctx context.Context, name string, jobs []job) error {
	var proved, atBest int
	var sum, best, bounds int64
	var took []time.Duration
	for _, j := range jobs {
		within, cancel := context.WithTimeout(ctx, r.limit)
		start := time.Now()
		o, err := j.plan(within)
		d := time.Since(start)
		cancel()
		if err != nil {
			return fmt.Errorf("%s: %w", j.row.Instance, err)
		}
		if ctx.Err() != nil {
			return errors.New("stopped")
		}
		took = append(took, d)
		sum, best, bounds = sum+o.value, best+j.row.Best, bounds+o.bound
		if o.proved {
			proved++
		}
		if o.value <= j.row.Best {
			atBest++
		}
		if r.each {
			fmt.Fprintf(r.out, "  %-18s %8d bound %8d best known %8d %7d nodes %10s\n", j.row.Instance, o.value, o.bound, j.row.Best, o.nodes, d.Round(10*time.Microsecond))
		}
	}
	slices.Sort(took)
	median, worst := took[len(took)/2], took[len(took)-1]
	fmt.Fprintf(r.out, "%-18s %5d %6d %7d %10d %10d %10d %10s %10s %7d\n", name, len(jobs), proved, atBest, sum, best, bounds,
		median.Round(10*time.Microsecond), worst.Round(10*time.Microsecond), peakMemory()>>20)
	return nil
}
