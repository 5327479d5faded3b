package cutplan

import (
	"cmp"
	"fmt"
	"slices"

	"fettle/calc/measure"
)

// add writes a lot's solution into the plan: boards, parts and what is left out.
func (plan *Plan) add(job *Job, lt *lot, sol *solution) {
	names := lt.names()
	taken := make([]int, len(lt.stocks))
	for _, p := range sol.patterns {
		s := &lt.stocks[p.stock]
		copyNo := s.copies[taken[p.stock]]
		taken[p.stock]++
		plan.Boards = append(plan.Boards, lt.sawn(job, s, copyNo, lt.layoutOf(p), names))
	}
	for k := range names {
		reason := "All boards that it fits on are used up."
		if lt.spare(k, taken) {
			reason = "There was no time to look for a place for it."
		}
		for _, m := range names[k] {
			plan.leaveOut(job, m.part, m.quantity, reason)
		}
	}
}

// spare says whether a board that a kind fits on is not taken.
func (lt *lot) spare(kind int, taken []int) bool {
	for i := range lt.stocks {
		s := &lt.stocks[i]
		if taken[i] < len(s.copies) && slices.ContainsFunc(s.items, func(it item) bool { return it.kind == kind }) {
			return true
		}
	}
	return false
}

// leaveOut notes that so many of a part have no place.
func (plan *Plan) leaveOut(job *Job, part, quantity int, reason string) {
	if quantity > 0 {
		plan.LeftOut = append(plan.LeftOut, LeftOut{Part: part, Name: job.Parts[part].Name, Quantity: quantity, Reason: reason})
	}
}

// names is what the pieces of each kind are called, to be used up.
func (lt *lot) names() [][]member {
	all := make([][]member, len(lt.kinds))
	for k := range lt.kinds {
		all[k] = slices.Clone(lt.kinds[k].members)
	}
	return all
}

// sawn is a laid out board as people see it.
func (lt *lot) sawn(job *Job, s *stock, copyNo int, lay layout, names [][]member) SawnBoard {
	b := &job.Boards[s.board]
	out := SawnBoard{Board: s.board, Copy: copyNo, Name: b.Name, Length: b.Length, Width: b.Width, Thickness: b.Thickness, Price: b.Price}
	if b.Quantity > 1 {
		out.Name = fmt.Sprintf("%s#%d", b.Name, copyNo)
	}
	for _, f := range b.Faults {
		if f.Copy == copyNo {
			out.Faults = append(out.Faults, f)
		}
	}
	for _, sec := range lay {
		for _, st := range sec.strips {
			for _, p := range st.pieces {
				out.Parts = append(out.Parts, lt.placed(job, s, p, names))
			}
		}
	}
	out.Cuts, out.Offcuts = lt.saw(s, lay)
	return out
}

// placed names a piece after the next part of its kind.
func (lt *lot) placed(job *Job, s *stock, p piece, names [][]member) Placed {
	it := &s.items[p.item]
	left := names[it.kind]
	part := left[0].part
	if left[0].quantity--; left[0].quantity == 0 {
		names[it.kind] = left[1:]
	}
	at := func(n int) measure.Length { return measure.Length(n) * lt.scale }
	return Placed{Part: part, Name: job.Parts[part].Name, X: at(p.x0), Y: at(p.y0), Length: at(it.l), Width: at(it.w), Turned: it.turned}
}

// finish puts the boards and parts in the order of the job and sums up.
func (plan *Plan) finish(job *Job) {
	slices.SortStableFunc(plan.Boards, func(a, b SawnBoard) int {
		return cmp.Or(cmp.Compare(a.Board, b.Board), cmp.Compare(a.Copy, b.Copy))
	})
	slices.SortStableFunc(plan.LeftOut, func(a, b LeftOut) int { return cmp.Compare(a.Part, b.Part) })
	for i := range plan.Boards {
		b := &plan.Boards[i]
		area := squareMetres(b.Length, b.Width)
		plan.StockArea += area
		if plan.Priced {
			plan.Cost += b.Price
		} else {
			plan.Cost += area
		}
		for _, p := range b.Parts {
			plan.PartsArea += squareMetres(p.Length, p.Width)
		}
	}
}

func squareMetres(l, w measure.Length) float64 { return l.MM() * w.MM() / 1e6 }
