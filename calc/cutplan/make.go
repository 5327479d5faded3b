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
	for _, lt := range lots {
		b := &builder{filler: newFiller(ctx, lt), beam: 20, slope: 1}
		weight := make([]float64, len(lt.kinds))
		for k := range weight {
			weight[k] = lt.kinds[k].area
		}
		sol := lt.weigh(b.build(lt.demand(), lt.supply(), weight))
		plan.add(&job, lt, sol)
		plan.Nodes += b.nodes
	}
	plan.finish(&job)
	return plan, nil
}

// priced says whether plans are weighed by price: every board has one.
func priced(job *Job) bool {
	return !slices.ContainsFunc(job.Boards, func(b Board) bool { return !b.Priced })
}
