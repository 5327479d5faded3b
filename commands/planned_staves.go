package commands

import (
	"maps"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/blanks"
	"fettle/store"
)

// looseStaves are the staves of each part that are sawn and make no whole piece yet.
type looseStaves map[string]blanks.Staves

// looseNow reads them from the plan that holds.
func looseNow(tx *store.Tx, project int64) (looseStaves, error) {
	p, _, err := loadPlan(tx, project)
	return p.Loose, err
}

// looseAfter is how many staves of each part there are once boards are sawn too, those of whole pieces
// among them.
func (p *storedPlan) looseAfter(boards ...cutplan.SawnBoard) looseStaves {
	out := looseStaves{}
	maps.Copy(out, p.Loose)
	for _, b := range boards {
		for _, placed := range b.Parts {
			blank := p.Blanks[placed.Part]
			if blank.Staves == 0 {
				continue
			}
			s := out[blank.Parts[0]]
			if s.Of != blank.Staves || s.Width != blank.Stave.Length() { // what is loose is of another size
				s = blanks.Staves{Of: blank.Staves, Width: blank.Stave.Length()}
			}
			s.Count++
			out[blank.Parts[0]] = s
		}
	}
	return out
}

// loosen keeps what staves are left over when boards are sawn.
func (p *storedPlan) loosen(boards ...cutplan.SawnBoard) {
	left := p.looseAfter(boards...)
	for part, s := range left {
		s.Count %= s.Of
		left[part] = s
		if s.Count == 0 {
			delete(left, part)
		}
	}
	p.Loose = left
	if len(left) == 0 {
		p.Loose = nil
	}
}

// unsawnBoards are the boards of the plan that are still to be sawn.
func (p *storedPlan) unsawnBoards() (out []cutplan.SawnBoard) {
	for _, b := range p.Plan.Boards {
		if !p.sawn(b) {
			out = append(out, b)
		}
	}
	return out
}

// stavesOf is of how many staves the plan glues a part up, 0 where it is sawn whole.
func (p *storedPlan) stavesOf(part string) int {
	for _, b := range p.Blanks {
		if b.Staves > 0 && store.Fold(b.Parts[0]) == store.Fold(part) {
			return b.Staves
		}
	}
	return 0
}
