// Command cutreport plans the published cutting jobs and compares with the best known.
package main

import (
	"context"
	"encoding/csv"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"runtime/pprof"
	"strconv"
	"syscall"
	"time"

	"fettle/calc/cutplan"
)

func main() {
	limit := flag.Duration("limit", time.Second, "time for each job")
	every := flag.Int("every", 1, "plan each n-th job only")
	family := flag.String("family", "joinery", "joinery or class")
	nodes := flag.Int64("nodes", 0, "node limit")
	prof := flag.String("prof", "", "")
	flag.Parse()
	if *prof != "" {
		f, _ := os.Create(*prof)
		pprof.StartCPUProfile(f)
		defer pprof.StopCPUProfile()
	}
	all, err := load(*family)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	var cost, bound, known float64
	for i := 0; i < len(all); i += *every {
		in := all[i]
		ctx, cancel := context.WithTimeout(context.Background(), 10**limit)
		go cpuLimit(ctx, cancel, *limit)
		start := time.Now()
		plan, err := cutplan.Make(ctx, in.job, cutplan.Limits{Nodes: *nodes})
		cancel()
		if err != nil {
			fmt.Println(err)
			continue
		}
		mark := ""
		if plan.Cost > in.known+1e-6 {
			mark = "  worse"
		} else if plan.Cost < in.known-1e-6 {
			mark = "  better"
		}
		fmt.Printf("%-24s %9.2f bound %9.2f known %9.2f  left %d nodes %9d  %v%s\n", in.name, plan.Cost, plan.Bound, in.known, len(plan.LeftOut), plan.Nodes, time.Since(start).Round(time.Millisecond), mark)
		cost += plan.Cost
		bound += plan.Bound
		known += in.known
	}
	fmt.Printf("total %.2f bound %.2f known %.2f\n", cost, bound, known)
}

func load(family string) ([]instance, error) {
	if family == "joinery" {
		var all []instance
		for i, price := range []float64{20.50, 44.50, 58.15, 119.06, 28.31, 42.71, 68.53, 110.58, 126.05, 108.57, 148.42, 85.40, 136.42, 235.97, 188.10} {
			name := fmt.Sprintf("hut-%02d", 2*i+1)
			job, err := joinery(filepath.Join("testdata/joinery", name))
			if err != nil {
				return nil, err
			}
			all = append(all, instance{name, price, job})
		}
		return all, nil
	}
	all, err := classes("testdata/cutting")
	if err != nil {
		return nil, err
	}
	file, err := os.Open("testdata/cutting/index.csv")
	if err != nil {
		return nil, err
	}
	defer file.Close()
	table, err := csv.NewReader(file).ReadAll()
	if err != nil {
		return nil, err
	}
	best := map[string]float64{}
	for _, r := range table[1:] {
		best[r[0]], _ = strconv.ParseFloat(r[6], 64)
	}
	for i := range all {
		all[i].known = best[all[i].name]
	}
	return all, nil
}

func cpu() time.Duration {
	var u syscall.Rusage
	syscall.Getrusage(syscall.RUSAGE_SELF, &u)
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

func cpuLimit(ctx context.Context, cancel func(), limit time.Duration) {
	start := cpu()
	for ctx.Err() == nil && cpu()-start < limit {
		time.Sleep(3 * time.Millisecond)
	}
	cancel()
}
