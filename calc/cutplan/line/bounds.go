package line

import (
	"math"
	"math/bits"
)

// boundBy is a cost that what is needed cannot be cut under, from prices and the most that
// one stick of each stock is worth under them; all in whole numbers.
//
// Let every stick of stock s be worth at most most[s] <= rate*cost[s] + rent[s], with no
// rent where copies are not limited. All sticks together are worth what the pieces are
// worth, so worth <= rate*cost + sum of rent[s]*copies[s], which is solved for the cost.
func (t task) boundBy(n need, prices, most []int64) int64 {
	var worth int64
	for i, d := range n.demand {
		worth += int64(d) * prices[i]
	}
	if worth == 0 {
		return 0
	}
	limited := false
	rate := int64(0)
	lowest := int64(math.MaxInt64)
	for s, stock := range t.stocks {
		if stock.Copies > 0 {
			limited = true
			continue
		}
		if most[s] > 0 {
			rate = max(rate, (most[s]+stock.Cost-1)/stock.Cost)
			lowest = min(lowest, mulDivUp(worth, stock.Cost, most[s]))
		}
	}
	if !limited {
		return lowest
	}
	return t.boundLimited(n, worth, max(rate, t.priceOfCost()), most)
}

// boundLimited is boundBy where some stock is limited, for a given rate.
func (t task) boundLimited(n need, worth, rate int64, most []int64) int64 {
	for s, stock := range t.stocks {
		if stock.Copies == 0 {
			continue
		}
		over, carry := bits.Mul64(uint64(rate), uint64(stock.Cost))
		if over > 0 || carry >= uint64(most[s]) {
			continue
		}
		high, rent := bits.Mul64(uint64(most[s])-carry, uint64(n.copies[s]))
		if high > 0 || rent >= uint64(worth) {
			return 0
		}
		worth -= int64(rent)
	}
	return mulDivUp(worth, 1, rate)
}

// priceOfCost is how many units of worth one unit of cost is.
func (t task) priceOfCost() int64 {
	dearest := int64(1)
	for _, s := range t.stocks {
		dearest = max(dearest, s.Cost)
	}
	return priceUnit / dearest
}

// mulDivUp is a*b/c rounded up, for nonnegative a and b and positive c; the product may
// be beyond 64 bits.
func mulDivUp(a, b, c int64) int64 {
	high, low := bits.Mul64(uint64(a), uint64(b))
	low, carry := bits.Add64(low, uint64(c-1), 0)
	high += carry
	if high >= uint64(c) {
		return math.MaxInt64
	}
	q, _ := bits.Div64(high, low, uint64(c))
	return int64(min(q, math.MaxInt64))
}

// boundByLength is the cost of the cheapest stock as long as all pieces together, when
// bought by length in any fractions.
func (t task) boundByLength(n need) int64 {
	prices := make([]int64, len(t.sizes))
	var longest int64
	for i, s := range t.sizes {
		prices[i] = s.length
		longest = max(longest, s.length)
	}
	most := make([]int64, len(t.stocks))
	for s, stock := range t.stocks {
		most[s] = stock.Length
	}
	if longest > math.MaxInt64/MaxPieces/2 {
		return 0
	}
	for _, s := range t.stocks {
		if s.Copies > 0 {
			return 0
		}
	}
	return t.boundBy(n, prices, most)
}
