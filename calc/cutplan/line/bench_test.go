package line_test

import (
	"context"
	"fmt"
	"testing"

	"fettle/calc/cutplan/line"
)

// BenchmarkSolve shows how time, nodes and allocations grow with the number of pieces:
// laths of a dozen lengths out of two lengths of stock, the kerf in.
func BenchmarkSolve(b *testing.B) {
	for _, pieces := range []int{10, 20, 40, 80, 160} {
		b.Run(fmt.Sprintf("pieces=%d", pieces), func(b *testing.B) {
			p := line.Problem{Stocks: []line.Stock{{Length: 2403, Cost: 780}, {Length: 3603, Cost: 1120}}}
			for k := range pieces {
				p.Items = append(p.Items, line.Item{Length: 303 + int64(k*k*7919%1700), Quantity: 1})
			}
			b.ReportAllocs()
			var nodes int64
			for b.Loop() {
				r, err := line.Solve(context.Background(), p, line.Limits{Nodes: 300})
				if err != nil {
					b.Fatal(err)
				}
				nodes += r.Nodes
			}
			b.ReportMetric(float64(nodes)/float64(b.N), "nodes/op")
		})
	}
}
