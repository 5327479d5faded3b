package cutplan

import (
	"context"
	"slices"
)

// Make plans a job within the limits. When the context ends, or the nodes are used up, it gives
// the best plan so far; a plan that leaves parts out is no error, they are listed with the
// reason. It fails, in a sentence, when the job itself is wrong (see Job.Check).
func Make(ctx context.Context, job Job, limits Limits) (Plan, error) {
	if err := job.Check(); err != nil {
		return Plan{}, err
	}
	plan := Plan{Kerf: job.Kerf, Trim: job.Trim, Priced: priced(&job)}
	var lots []*lot
	for _, g := range groups(&job) {
		lots = append(lots, lotOf(&job, g, plan.Priced))
	}
	plan.leaveOutUnfit(&job, lots)
	searches := make([]*search, len(lots))
	for i, lt := range lots {
		searches[i] = newSearch(ctx, lt, limits.Seed)
	}
	seek(ctx, searches, limits.Nodes)
	for i, s := range searches {
		plan.add(&job, lots[i], s.best)
		plan.Nodes += s.nodes
		plan.Bound += min(s.bound, s.best.cost)
	}
	plan.finish(&job)
	plan.Proved = plan.Bound >= plan.Cost*(1-1e-9)
	return plan, nil
}

// priced says whether plans are weighed by price: every board has one.
func priced(job *Job) bool {
	return !slices.ContainsFunc(job.Boards, func(b Board) bool { return !b.Priced })
}

// seek lets the lots' searches take turns, always the one that has had the least, until time or
// nodes are up.
func seek(ctx context.Context, searches []*search, nodes int64) {
	for len(searches) > 0 && ctx.Err() == nil {
		var sum int64
		next := searches[0]
		for _, s := range searches {
			sum += s.nodes
			if next.proved() || !s.proved() && s.nodes < next.nodes {
				next = s
			}
		}
		if nodes > 0 && sum >= nodes || next.proved() {
			return
		}
		next.step()
	}
}
