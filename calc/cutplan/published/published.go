// Package published reads the benchmark instances that papers on cutting and packing share,
// so that a planner can be held against the best values known.
package published

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strconv"

	"fettle/calc/cutplan/line"
)

// Row is one line of the index of instances: what it is called, its family, the file that
// holds it, and what is known. Best is the best known value and Lower a bound below it,
// each -1 where none is known.
type Row struct {
	Instance, Family, File string
	Best, Lower            int64
}

// Line is a one-dimensional instance.
type Line struct {
	Name    string
	Problem line.Problem
}

// Index reads the index of instances: CSV with a header that names at least the columns
// instance, family, file, best_known and lower_bound. A value that isn't a whole number
// counts as unknown, since some families have fractions. An error names the line.
func Index(r io.Reader) ([]Row, error) {
	c := csv.NewReader(r)
	c.FieldsPerRecord = -1
	header, err := c.Read()
	if err != nil {
		return nil, fmt.Errorf("read the index's header: %w", err)
	}
	at := map[string]int{}
	for k, name := range header {
		at[name] = k
	}
	for _, name := range []string{"instance", "family", "file", "best_known", "lower_bound"} {
		if _, ok := at[name]; !ok {
			return nil, fmt.Errorf("the index has no column %s", name)
		}
	}
	var rows []Row
	for {
		f, err := c.Read()
		if errors.Is(err, io.EOF) {
			return rows, nil
		}
		if err != nil {
			return nil, fmt.Errorf("read the index: %w", err)
		}
		field := func(name string) string {
			if k := at[name]; k < len(f) {
				return f[k]
			}
			return ""
		}
		rows = append(rows, Row{field("instance"), field("family"), field("file"),
			known(field("best_known")), known(field("lower_bound"))})
	}
}

func known(s string) int64 {
	n, err := strconv.ParseInt(s, 10, 64)
	if err != nil || n < 0 {
		return -1
	}
	return n
}
