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
	if _, timed := ctx.Deadline(); !timed && ctx.Done() == nil && limits.Nodes == 0 {
		limits.Nodes = defaultNodes
	}
	t := newTeam(ctx, lots, limits.Seed)
	t.sticks(ctx, limits.lines(len(lots)))
	t.run(ctx, limits.Nodes, func() { t.report(limits.Progress) })
	for i, s := range t[0] {
		plan.add(&job, lots[i], s.best)
		plan.Bound += s.lastBound()
	}
	plan.Nodes = t.nodes()
	plan.finish(&job)
	plan.Proved = t.complete() && plan.Bound >= plan.Cost*(1-1e-9)
	return plan, nil
}

// priced says whether plans are weighed by price: every board has one.
func priced(job *Job) bool {
	return !slices.ContainsFunc(job.Boards, func(b Board) bool { return !b.Priced })
}

// lines is how many linear programs one lot of sticks may take: any number if there is no
// other lot, or a proof is asked for.
func (l Limits) lines(lots int) int64 {
	switch {
	case l.Exact:
		return 0
	case l.Nodes > 0:
		return 1 + l.Nodes/5000
	case lots == 1:
		return 0
	}
	return 300
}

// defaultNodes is the limit where there is none, neither of nodes nor of time: a second or two.
const defaultNodes = 5_000_000

// report tells a listener, if there is one, what is known.
func (t *team) report(listener func(Progress)) {
	if listener == nil {
		return
	}
	p := Progress{Nodes: t.nodes(), Proved: t.proved()}
	for _, s := range t[0] {
		p.Cost += s.best.cost
		p.Bound += min(s.bound, s.best.cost)
		p.Boards += len(s.best.patterns)
		for k, n := range s.placed() {
			p.LeftOut += s.lot.kinds[k].demand - n
		}
	}
	listener(p)
}
