// Package line cuts sticks out of longer sticks: one-dimensional cutting stock and bin
// packing, exact, for one or several stock lengths with costs and, where wanted, limited
// copies. Lengths are whole numbers of any unit; a saw kerf is the caller's to add, once to
// every item and once to every stock.
//
// The way is the well-known one of patterns: a linear program over ways to cut one stick
// (Gilmore and Gomory, Operations Research 9, 1961, and 11, 1963), its patterns made when
// wanted by a knapsack, plans found by diving into it, and what is left open settled by
// branching. Floating point only ever guides the search. A bound is claimed from prices in
// whole numbers and the dearest pattern under those prices (Farley, Operations Research 38,
// 1990), a plan from counted pieces, so neither can be wrong by rounding.
package line

import (
	"context"
	"errors"
	"fmt"
)

// Largest input that is taken. Within it no sum below can leave 64 bits.
const (
	MaxLength = int64(1) << 46 // of a stock or an item
	MaxPieces = 1 << 22        // of all items, copies counted
	MaxCost   = int64(1) << 30 // of one stock, after division by what all costs share
)

var (
	// ErrTooLong is wrapped when an item is longer than every stock.
	ErrTooLong = errors.New("longer than every stock")
	// ErrStock is wrapped when the search ends without any plan: the copies in stock are
	// too few or, if a limit or the context ended it, none was found in time.
	ErrStock = errors.New("no plan found with the copies in stock")
)

// Stock is one kind of stick to cut from. Length is 1 to MaxLength in the caller's unit,
// Cost what one copy costs in any whole unit, more than zero unless copies are limited,
// Copies how many there are, 0 for any number.
type Stock struct {
	Length int64
	Cost   int64
	Copies int
}

// Item is a length to be cut Quantity times, which may be zero.
type Item struct {
	Length   int64
	Quantity int
}

// Problem asks for all items out of stock of the least total cost.
type Problem struct {
	Stocks []Stock
	Items  []Item
}

// Limits bound the search. Nodes is how many linear programs may be solved, 0 for any
// number. The same problem and limit give the same result; time is bounded by the context,
// and what is then best is returned.
type Limits struct {
	Nodes int64
}

// Pattern is one way to cut a stock: Stock is its index in Problem.Stocks, Copies how
// many sticks are cut so, Counts how often each of Problem.Items comes out of one.
type Pattern struct {
	Stock  int
	Copies int
	Counts []int
}

// Result is a plan that cuts every item exactly as often as asked. Bound is a cost that no
// plan can be under; Proved says that Cost is no more than that, so the plan is optimal.
// Nodes counts the linear programs solved.
type Result struct {
	Patterns []Pattern
	Cost     int64
	Bound    int64
	Proved   bool
	Nodes    int64
}

// Solve finds a plan of least cost. It fails for numbers outside the ranges above, for an
// item longer than every stock (ErrTooLong) and when no plan is found (ErrStock). A context
// that ends is no failure: the best plan so far comes back, with its bound.
func Solve(ctx context.Context, p Problem, limits Limits) (Result, error) {
	if err := check(p); err != nil {
		return Result{}, err
	}
	r := reduce(p)
	if len(r.sizes) == 0 {
		return Result{Proved: true}, nil
	}
	s := newSearch(ctx, r.task, limits)
	s.run()
	if s.best == nil {
		return Result{Nodes: s.nodes}, fmt.Errorf("cut %d items: %w", len(p.Items), ErrStock)
	}
	return Result{
		Patterns: r.expand(p, s.best),
		Cost:     s.bestCost * r.costUnit,
		Bound:    s.bound * r.costUnit,
		Proved:   s.bound >= s.bestCost,
		Nodes:    s.nodes,
	}, nil
}

func check(p Problem) error {
	var longest int64
	for i, s := range p.Stocks {
		switch {
		case s.Length <= 0 || s.Length > MaxLength:
			return fmt.Errorf("stock %d: length %d is not in 1 to %d", i+1, s.Length, MaxLength)
		case s.Copies < 0:
			return fmt.Errorf("stock %d: %d copies", i+1, s.Copies)
		case s.Cost < 0 || s.Cost == 0 && s.Copies == 0:
			return fmt.Errorf("stock %d: a cost of %d with any number of copies", i+1, s.Cost)
		}
		longest = max(longest, s.Length)
	}
	if g := sharedCost(p.Stocks); g > 0 {
		for i, s := range p.Stocks {
			if s.Cost/g > MaxCost {
				return fmt.Errorf("stock %d: cost %d is too fine or too large", i+1, s.Cost)
			}
		}
	}
	pieces := 0
	for i, it := range p.Items {
		switch {
		case it.Length <= 0:
			return fmt.Errorf("item %d: length %d is not above zero", i+1, it.Length)
		case it.Quantity < 0 || it.Quantity > MaxPieces:
			return fmt.Errorf("item %d: quantity %d is not in 0 to %d", i+1, it.Quantity, MaxPieces)
		case it.Quantity > 0 && it.Length > longest:
			return fmt.Errorf("item %d of length %d: %w", i+1, it.Length, ErrTooLong)
		}
		if pieces += it.Quantity; pieces > MaxPieces {
			return fmt.Errorf("more than %d pieces", MaxPieces)
		}
	}
	return nil
}
