package replay

import "math"

// slack is the part of a sum that rounding may take.
const slack = 1e-6

// sums adds up areas and prices again and holds the plan's against them.
func (c *checker) sums() {
	plan := c.plan
	if plan.Kerf != c.job.Kerf || plan.Trim != c.job.Trim {
		c.fault("the plan's kerf or trim is not the job's")
	}
	priced := true
	for i := range c.job.Boards {
		priced = priced && c.job.Boards[i].Priced
	}
	if plan.Priced != priced {
		c.fault("the plan says that boards are priced: %v, but it is %v", plan.Priced, priced)
	}
	stock, parts, price := c.areas()
	cost := stock
	if priced {
		cost = price
	}
	c.equal("stock area", plan.StockArea, stock)
	c.equal("parts' area", plan.PartsArea, parts)
	c.equal("cost", plan.Cost, cost)
	if math.IsNaN(plan.Bound) || plan.Bound < 0 || plan.Bound > cost*(1+slack)+slack {
		c.fault("the bound is %g, the cost %g", plan.Bound, cost)
	}
	if plan.Proved && !near(plan.Bound, cost) {
		c.fault("the plan is said to be proved, but its bound is %g and its cost %g", plan.Bound, cost)
	}
	if plan.Proved && c.fits {
		c.fault("the plan is said to be proved, but leaves out what fits on a board")
	}
}

// areas gives the square metres of the boards used and of the parts placed, and the boards' price.
func (c *checker) areas() (stock, parts, price float64) {
	for me := range c.used {
		b := &c.job.Boards[me.board]
		stock += b.Length.MM() * b.Width.MM() / 1e6
		price += b.Price
	}
	for i := range c.plan.Boards {
		for k := range c.plan.Boards[i].Parts {
			p := &c.plan.Boards[i].Parts[k]
			parts += p.Length.MM() * p.Width.MM() / 1e6
		}
	}
	return stock, parts, price
}

func (c *checker) equal(what string, is, want float64) {
	if !near(is, want) {
		c.fault("the %s is given as %g, but comes to %g", what, is, want)
	}
}

// near says whether two sums agree but for rounding; not-a-number agrees with nothing.
func near(a, b float64) bool { return math.Abs(a-b) <= slack*math.Max(1e-3, math.Abs(b)) }
