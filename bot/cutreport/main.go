// Command cutreport runs the cut planner over published instances and prints, family by
// family, how it does against the best values known.
//
//	go run ./bot/cutreport [-limit 10s] [-family NAME] [-instance NAME] [-each] [FOLDER ...]
//
// A FOLDER holds index.csv and the instance files it names; testdata/cutting and
// testdata/joinery when none is given.
package main

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/signal"
	"path/filepath"
	"time"
)

func main() {
	limit := flag.Duration("limit", 10*time.Second, "longest time for one instance")
	only := flag.String("family", "", "only families whose name starts so")
	instance := flag.String("instance", "", "only this instance")
	each := flag.Bool("each", false, "a line for every instance too")
	flag.Parse()
	folders := flag.Args()
	if len(folders) == 0 {
		folders = []string{filepath.Join("testdata", "cutting"), filepath.Join("testdata", "joinery")}
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	for _, folder := range folders {
		r := report{folder: os.DirFS(folder), limit: *limit, only: *only, instance: *instance, each: *each, out: os.Stdout}
		if err := r.run(ctx); err != nil {
			fmt.Fprintln(os.Stderr, "cutreport:", err)
			os.Exit(1)
		}
	}
}
