package published_test

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
	"testing"

	"fettle/calc/cutplan/line"
	"fettle/calc/cutplan/published"
)

var folder = os.DirFS("../../../testdata/cutting")

func index(t testing.TB) []published.Row {
	t.Helper()
	f, err := folder.Open("index.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := published.Index(f)
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// problem reads one instance of the index.
func problem(folder fs.FS, row published.Row) (line.Problem, error) {
	f, err := folder.Open(row.File)
	if err != nil {
		return line.Problem{}, err
	}
	defer f.Close()
	if row.Family == "multistock_recipe" {
		return published.SeveralStocks(f)
	}
	all, err := published.BinPacking(f)
	for _, l := range all {
		if l.Name == row.Instance {
			return l.Problem, err
		}
	}
	return line.Problem{}, errors.Join(err, fmt.Errorf("no instance %s in %s", row.Instance, row.File))
}

// TestEveryFamily plans a few instances of every family: at or below the best known value,
// not below the published bound, and proved. The whole set is bot/cutreport's to run.
func TestEveryFamily(t *testing.T) {
	some := map[string]int{"scholl_1": 45, "scholl_2": 40, "hard28": 7, "multistock_recipe": 3}
	seen := map[string]int{}
	for _, row := range index(t) {
		step := some[row.Family]
		if step == 0 {
			step = 5
		}
		seen[row.Family]++
		if !strings.HasPrefix(row.File, "1d/") || seen[row.Family]%step != min(4, step-1) {
			continue
		}
		t.Run(row.Instance, func(t *testing.T) {
			p, err := problem(folder, row)
			if err != nil {
				t.Fatal(err)
			}
			r, err := line.Solve(context.Background(), p, line.Limits{})
			if err != nil {
				t.Fatal(err)
			}
			if r.Cost > row.Best || r.Cost < row.Lower || !r.Proved || r.Bound != r.Cost {
				t.Errorf("cost %d, bound %d, proved %v; best known %d, its bound %d", r.Cost, r.Bound, r.Proved, row.Best, row.Lower)
			}
			if n := sticks(p, r); n != len(p.Items) {
				t.Errorf("%d pieces in sticks long enough, want %d", n, len(p.Items))
			}
		})
	}
	if len(seen) < 13 {
		t.Errorf("%d families in the index, want 13 of one dimension", len(seen))
	}
}

// sticks counts the pieces that are cut from sticks long enough for them.
func sticks(p line.Problem, r line.Result) (pieces int) {
	for _, t := range r.Patterns {
		left, n := p.Stocks[t.Stock].Length, 0
		for i, c := range t.Counts {
			left -= int64(c) * p.Items[i].Length
			n += c
		}
		if left >= 0 {
			pieces += n * t.Copies
		}
	}
	return pieces
}

func TestRefusedFiles(t *testing.T) {
	bins := func(r io.Reader) error { _, err := published.BinPacking(r); return err }
	stocks := func(r io.Reader) error { _, err := published.SeveralStocks(r); return err }
	rows := func(r io.Reader) error { _, err := published.Index(r); return err }
	for _, c := range []struct {
		read       func(io.Reader) error
		text, says string
	}{
		{bins, "", "number of instances, word 1"},
		{bins, "2 a 10 1 0 3", "name of an instance, word 7"},
		{bins, "1 a 10 2 0 3", "size of a piece, word 7"},
		{bins, "1 a ten 2 0 3", `capacity, word 3: "ten"`},
		{bins, "1 a 10 1 0 0", `size of a piece, word 6: "0"`},
		{bins, "1 a 10 1 0 3 4", "more than was announced, from word 7"},
		{stocks, "0", "number of stocks"},
		{stocks, "1 100 -1", "stock cost"},
		{stocks, "1 100 100 1 2.5", `"2.5"`},
		{rows, "", "header"},
		{rows, "instance,family,file,best_known\n", "no column lower_bound"},
		{rows, "instance,family,file,best_known,lower_bound\n\"a", "line 2"},
	} {
		if err := c.read(strings.NewReader(c.text)); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%q: got %v, want %q", c.text, err, c.says)
		}
	}
}

func FuzzBinPacking(f *testing.F) {
	f.Add("1\na\n10 2 0\n3\n4\n")
	f.Add("2 a 10 1 0 3 b 7 0 1")
	f.Fuzz(func(t *testing.T, text string) {
		all, err := published.BinPacking(strings.NewReader(text))
		if err != nil {
			return
		}
		// What was read, written down again, reads the same.
		var b strings.Builder
		fmt.Fprintln(&b, len(all))
		for _, l := range all {
			fmt.Fprintln(&b, l.Name, l.Problem.Stocks[0].Length, len(l.Problem.Items), 0)
			for _, it := range l.Problem.Items {
				fmt.Fprintln(&b, it.Length)
			}
		}
		again, err := published.BinPacking(strings.NewReader(b.String()))
		if err != nil || fmt.Sprint(again) != fmt.Sprint(all) {
			t.Errorf("%q reads as %v, then as %v, %v", text, all, again, err)
		}
	})
}

func FuzzSeveralStocks(f *testing.F) {
	f.Add("2 100 100 120 130 2 5 6")
	f.Fuzz(func(t *testing.T, text string) {
		p, err := published.SeveralStocks(strings.NewReader(text))
		if err != nil {
			return
		}
		for _, s := range p.Stocks {
			if s.Length < 1 || s.Cost < 1 {
				t.Errorf("%q gives a stock %+v", text, s)
			}
		}
		if got := len(strings.Fields(text)); got != 2+2*len(p.Stocks)+len(p.Items) {
			t.Errorf("%q: %d words, read %d stocks and %d pieces", text, got, len(p.Stocks), len(p.Items))
		}
	})
}

func FuzzIndex(f *testing.F) {
	f.Add("instance,family,file,best_known,lower_bound\na,b,c,1,\n")
	f.Fuzz(func(t *testing.T, text string) {
		rows, err := published.Index(strings.NewReader(text))
		if err == nil && len(rows) > strings.Count(text, "\n")+strings.Count(text, "\r")+1 {
			t.Errorf("%q gives %d rows", text, len(rows))
		}
		for _, r := range rows {
			if r.Best < -1 || r.Lower < -1 {
				t.Errorf("%q gives %+v", text, r)
			}
		}
	})
}
