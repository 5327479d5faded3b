package cutplan

import (
	"context"
	"slices"
	"sync"
)

// workers search each lot side by side, from different seeds; epoch is how many nodes each does
// between two meetings, at which they tell each other what they have found. As they meet after a
// count of nodes and not of seconds, the outcome does not depend on which is faster.
const (
	workers = 2
	epoch   = 100_000
)

// team is the searches of all lots, by worker and lot.
type team [workers][]*search

func newTeam(ctx context.Context, lots []*lot, seed int64) *team {
	t := &team{}
	for w := range t {
		for _, lt := range lots {
			s := newSearch(ctx, lt, seed*workers+int64(w))
			s.wild = w > 0
			t[w] = append(t[w], s)
		}
	}
	return t
}

// sticks plans the lots that are of sticks. So many linear programs are solved at most; 0 is no
// limit.
func (t *team) sticks(ctx context.Context, nodes int64) {
	for lot, s := range t[0] {
		if s.asLine(ctx, nodes) {
			t.meet(lot)
		}
	}
}

// run works until time or nodes are up or all is proved, 0 nodes being no limit.
func (t *team) run(ctx context.Context, nodes int64, meeting func()) {
	t.begin(ctx)
	for ctx.Err() == nil && !t.settled() {
		share := int64(epoch)
		if nodes > 0 {
			share = min(share, (nodes-t.nodes()+workers-1)/workers)
			if share <= 0 {
				return
			}
		}
		var group sync.WaitGroup
		for _, searches := range t[1:] {
			group.Go(func() { seek(ctx, searches, share) })
		}
		seek(ctx, t[0], share)
		group.Wait()
		for lot := range t[0] {
			t.meet(lot)
		}
		meeting()
	}
}

// begin gives each lot its first solution, however few the nodes are.
func (t *team) begin(ctx context.Context) {
	for lot, s := range t[0] {
		if ctx.Err() == nil && s.best.missing > 0 {
			s.step()
			t.meet(lot)
		}
	}
}

// meet makes the workers' knowledge of a lot the same.
func (t *team) meet(lot int) {
	for w := range t {
		for v := range t {
			if a, b := t[w][lot], t[v][lot]; a != b {
				a.hear(b)
			}
		}
	}
	for w := range t {
		t[w][lot].told = len(t[w][lot].pool)
	}
}

// hear takes over what another search has found since they last met.
func (s *search) hear(other *search) {
	s.learn(other.pool[other.told:]...)
	if s.lot.compare(other.best, s.best) < 0 {
		best := *other.best // each search measures its own
		if best.compare(s.best) < 0 {
			s.current = &best
		}
		s.best = &best
	}
	if other.best.missing == 0 {
		s.bound = max(s.bound, other.bound)
	}
}

func (t *team) nodes() (sum int64) {
	for _, searches := range t {
		for _, s := range searches {
			sum += s.nodes
		}
	}
	return sum
}

func (t *team) proved() bool {
	return !slices.ContainsFunc(t[0], func(s *search) bool { return !s.proved() })
}

func (t *team) settled() bool {
	return !slices.ContainsFunc(t[0], func(s *search) bool { return !s.settled() })
}

// complete says whether all that fits some board has a place.
func (t *team) complete() bool {
	return !slices.ContainsFunc(t[0], func(s *search) bool { return s.best.missing > 0 })
}

// seek lets the lots' searches take turns, always the one that has had the least and is not
// settled, for so many nodes.
func seek(ctx context.Context, searches []*search, nodes int64) {
	for ctx.Err() == nil && nodes > 0 {
		var next *search
		for _, s := range searches {
			if !s.settled() && (next == nil || s.nodes < next.nodes) {
				next = s
			}
		}
		if next == nil {
			return
		}
		before := next.nodes
		next.step()
		nodes -= next.nodes - before + 1
	}
}
