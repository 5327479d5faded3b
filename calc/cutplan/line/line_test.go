package line_test

import (
	"context"
	"errors"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"fettle/calc/cutplan/line"
)

// drawProblem makes problems of a handful of pieces; unit scales lengths, so that sticks
// too long for tables come up as well.
func drawProblem(t *rapid.T, limited bool) line.Problem {
	unit := rapid.SampledFrom([]int64{1, 25_400_000}).Draw(t, "unit")
	odd := rapid.SampledFrom([]int64{0, 1}).Draw(t, "odd") // a nanometre spoils the common factor
	var p line.Problem
	for range rapid.IntRange(1, 3).Draw(t, "stocks") {
		s := line.Stock{Length: rapid.Int64Range(20, 30).Draw(t, "long")*unit + odd, Cost: rapid.Int64Range(1, 30).Draw(t, "cost")}
		if limited {
			s.Copies = rapid.IntRange(0, 3).Draw(t, "copies")
		}
		p.Stocks = append(p.Stocks, s)
	}
	pieces := 0
	for pieces < 8 && (pieces == 0 || rapid.Bool().Draw(t, "another")) {
		n := rapid.IntRange(0, min(3, 8-pieces)).Draw(t, "quantity")
		p.Items = append(p.Items, line.Item{Length: rapid.Int64Range(1, 20).Draw(t, "length")*unit - odd*int64(len(p.Items)%2)*min(unit-1, 1), Quantity: n})
		pieces += max(n, 1)
	}
	return p
}

// planned fails the test unless the problem is solved to the cost that trying every way
// gives, with a proof.
func planned(t interface {
	Helper()
	Fatalf(string, ...any)
}, p line.Problem) {
	t.Helper()
	want := cheapest(p)
	r, err := line.Solve(context.Background(), p, line.Limits{})
	if want < 0 {
		if !errors.Is(err, line.ErrStock) {
			t.Fatalf("%+v: got %+v, %v; the stock does not suffice", p, r, err)
		}
		return
	}
	if err != nil {
		t.Fatalf("%+v: %v; want cost %d", p, err, want)
	}
	if err := checkPlan(p, r); err != nil {
		t.Fatalf("%+v: %v", p, err)
	}
	if r.Cost != want || !r.Proved {
		t.Fatalf("%+v: cost %d, bound %d, proved %v; want %d", p, r.Cost, r.Bound, r.Proved, want)
	}
}

func TestAgainstEveryWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for range 40 { // most problems this small are easy, so many
			planned(t, drawProblem(t, rapid.Bool().Draw(t, "limited")))
		}
	})
}

// Small problems that greed and diving don't settle.
func TestNeedsBranching(t *testing.T) {
	for _, p := range []line.Problem{
		{Stocks: []line.Stock{{Length: 20, Cost: 2, Copies: 0}, {Length: 20, Cost: 1, Copies: 1}}, Items: []line.Item{{Length: 1, Quantity: 1}, {Length: 7, Quantity: 3}}},
		{Stocks: []line.Stock{{Length: 20, Cost: 1, Copies: 2}, {Length: 21, Cost: 2, Copies: 0}}, Items: []line.Item{{Length: 7, Quantity: 1}, {Length: 8, Quantity: 2}, {Length: 20, Quantity: 1}}},
		{Stocks: []line.Stock{{Length: 20, Cost: 30, Copies: 0}, {Length: 30, Cost: 8, Copies: 0}, {Length: 21, Cost: 7, Copies: 0}}, Items: []line.Item{{Length: 13, Quantity: 3}, {Length: 5, Quantity: 1}, {Length: 18, Quantity: 1}}},
		// Duals meet what leaving a piece out costs.
		{Stocks: []line.Stock{{Length: 27, Cost: 2, Copies: 1}, {Length: 20, Cost: 1, Copies: 3}}, Items: []line.Item{{Length: 10, Quantity: 2}, {Length: 9, Quantity: 3}, {Length: 10, Quantity: 2}}},
		// A piece worth nothing brings others to their places.
		{Stocks: []line.Stock{{Length: 20, Cost: 9, Copies: 0}, {Length: 23, Cost: 12, Copies: 0}}, Items: []line.Item{{Length: 7, Quantity: 3}, {Length: 2, Quantity: 2}, {Length: 19, Quantity: 2}}},
	} {
		planned(t, p)
	}
}

// TestLargerPlansHold checks plans where no other way to the optimum is at hand, stopped
// after a few nodes, and that the same is planned twice.
func TestLargerPlansHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := line.Problem{Stocks: []line.Stock{
			{Length: 2440, Cost: 2300}, {Length: 3050, Cost: 2900},
			{Length: 1830, Cost: 900, Copies: rapid.IntRange(1, 4).Draw(t, "copies")}}}
		for range rapid.IntRange(1, 12).Draw(t, "items") {
			p.Items = append(p.Items, line.Item{Length: rapid.Int64Range(40, 3050).Draw(t, "length"), Quantity: rapid.IntRange(0, 9).Draw(t, "quantity")})
		}
		limits := line.Limits{Nodes: rapid.Int64Range(1, 20).Draw(t, "nodes")}
		r, err := line.Solve(context.Background(), p, limits)
		if err != nil {
			t.Fatal(err)
		}
		if err := checkPlan(p, r); err != nil {
			t.Fatal(err)
		}
		if r.Nodes > limits.Nodes {
			t.Fatalf("%d nodes, allowed %d", r.Nodes, limits.Nodes)
		}
		if again, _ := line.Solve(context.Background(), p, limits); !reflect.DeepEqual(r, again) {
			t.Fatalf("planned otherwise the second time:\n%+v\n%+v", r, again)
		}
	})
}

func TestMillionsOfPieces(t *testing.T) {
	p := line.Problem{Stocks: []line.Stock{{Length: 6000, Cost: 1}},
		Items: []line.Item{{Length: 1700, Quantity: 1_000_000}, {Length: 2600, Quantity: 1_000_000}}}
	r, err := line.Solve(context.Background(), p, line.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	if err := checkPlan(p, r); err != nil {
		t.Fatal(err)
	}
	// Half a million sticks of 2600 + 1700 + 1700 use up the 1700s; what is left of the
	// 2600s goes two to a stick.
	if r.Cost != 750_000 || !r.Proved {
		t.Errorf("cost %d, bound %d; want 750000 proved", r.Cost, r.Bound)
	}
}

func TestEndedContextStillPlans(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	p := line.Problem{Stocks: []line.Stock{{Length: 100, Cost: 7}}}
	for l := int64(17); l < 60; l++ {
		p.Items = append(p.Items, line.Item{Length: l, Quantity: 3})
	}
	r, err := line.Solve(ctx, p, line.Limits{})
	if err != nil {
		t.Fatal(err)
	}
	if err := checkPlan(p, r); err != nil {
		t.Error(err)
	}
}

func TestNothingToCut(t *testing.T) {
	r, err := line.Solve(context.Background(), line.Problem{Items: []line.Item{{Length: 5}}}, line.Limits{})
	if err != nil || !r.Proved || r.Cost != 0 || len(r.Patterns) != 0 {
		t.Errorf("got %+v, %v", r, err)
	}
}

func TestRefused(t *testing.T) {
	one := []line.Stock{{Length: 100, Cost: 1}}
	for _, c := range []struct {
		stocks []line.Stock
		item   line.Item
		is     error
		says   string
	}{
		{one, line.Item{Length: 101, Quantity: 1}, line.ErrTooLong, "item 1 of length 101"},
		{nil, line.Item{Length: 1, Quantity: 1}, line.ErrTooLong, "item 1"},
		{one, line.Item{Length: 0, Quantity: 1}, nil, "item 1: length 0"},
		{one, line.Item{Length: -3, Quantity: 1}, nil, "item 1: length -3"},
		{one, line.Item{Length: 3, Quantity: -1}, nil, "quantity -1"},
		{one, line.Item{Length: 3, Quantity: line.MaxPieces + 1}, nil, "quantity"},
		{[]line.Stock{{Length: 0, Cost: 1}}, line.Item{Length: 1, Quantity: 1}, nil, "stock 1: length 0"},
		{[]line.Stock{{Length: line.MaxLength + 1, Cost: 1}}, line.Item{Length: 1, Quantity: 1}, nil, "stock 1: length"},
		{[]line.Stock{{Length: 9, Cost: 1, Copies: -1}}, line.Item{Length: 1, Quantity: 1}, nil, "stock 1: -1 copies"},
		{[]line.Stock{{Length: 9, Cost: -1}}, line.Item{Length: 1, Quantity: 1}, nil, "stock 1: a cost of -1"},
		{[]line.Stock{{Length: 9}}, line.Item{Length: 1, Quantity: 1}, nil, "stock 1: a cost of 0"},
		{[]line.Stock{{Length: 9, Cost: 1}, {Length: 9, Cost: line.MaxCost + 1}}, line.Item{Length: 1, Quantity: 1}, nil, "stock 2: cost"},
		{[]line.Stock{{Length: 9, Cost: 1, Copies: 2}}, line.Item{Length: 5, Quantity: 3}, line.ErrStock, "cut 1 items"},
	} {
		_, err := line.Solve(context.Background(), line.Problem{Stocks: c.stocks, Items: []line.Item{c.item}}, line.Limits{})
		if err == nil || !strings.Contains(err.Error(), c.says) || c.is != nil && !errors.Is(err, c.is) {
			t.Errorf("%+v %+v: got %v, want %v %q", c.stocks, c.item, err, c.is, c.says)
		}
	}
}
