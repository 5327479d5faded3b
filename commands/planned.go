package commands

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"slices"
	"time"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/blanks"
	"fettle/calc/measure"
	"fettle/calc/rough"
	"fettle/commands/book"
	"fettle/store"
)

// planName is the name under which the cut plan that holds is kept.
const planName = "plan"

// storedPlan is the cut plan that holds. The boards in it have the names of those on hand, and
// Part of what is placed is an index in Blanks.
type storedPlan struct {
	Plan    cutplan.Plan     `json:"plan"`
	Blanks  []storedBlank    `json:"blanks"`
	LeftOut []leftOut        `json:"left_out,omitempty"`
	OnHand  int              `json:"on_hand"` // boards that there were to choose from
	Sawn    []string         `json:"sawn,omitempty"`
	Begun   bool             `json:"begun,omitempty"` // some board was sawn by this plan or by one before
	Lost    map[string]int   `json:"lost,omitempty"`  // pieces that were spoiled before their board was said to be sawn
	Loose   looseStaves      `json:"loose,omitempty"` // staves that are sawn and make no whole piece yet
	Allow   rough.Allowances `json:"allowances"`
	Made    time.Time        `json:"made"`
	From    madeFrom         `json:"from"`
	Wanted  []wanted         `json:"wanted,omitempty"` // the parts that there were to be sawn
}

// storedBlank is what is sawn out for one finished piece or for several.
type storedBlank struct {
	Name      string     `json:"name"`
	Parts     []string   `json:"parts"` // the part of each finished piece, in order
	Length    book.MM    `json:"length_mm"`
	Width     book.MM    `json:"width_mm"`
	Thickness book.MM    `json:"thickness_mm"` // of the boards that it comes from
	Way       blanks.Way `json:"way,omitempty"`
	Quantity  int        `json:"quantity"`
	Staves    int        `json:"staves,omitempty"` // of which one piece of its part is glued up, 0: it is no stave
	Stave     book.MM    `json:"stave_mm,omitempty"`
}

type leftOut struct {
	Name     string `json:"name"`
	Quantity int    `json:"quantity"`
	Reason   string `json:"reason"`
	Staves   int    `json:"staves,omitempty"` // of which it could be glued up, 0: none
}

// madeFrom are the marks of what a plan was made from: another mark, other parts.
type madeFrom struct{ Parts, Boards, Shop string }

// loadPlan gives the plan that holds, and whether there is one.
func loadPlan(tx *store.Tx, project int64) (storedPlan, bool, error) {
	p, ok, err := book.One[storedPlan](tx, project, book.WhatPlan, planName)
	return p.Is, ok, err
}

// made counts the finished pieces of each part that come out of boards of the plan: all of them
// together, with the staves that are sawn already, as a part that is glued up may have its staves in
// several.
func (p *storedPlan) made(boards ...cutplan.SawnBoard) map[string]int {
	out := map[string]int{}
	for _, b := range boards {
		for _, placed := range b.Parts {
			if p.Blanks[placed.Part].Staves > 0 {
				continue
			}
			for _, part := range p.Blanks[placed.Part].Parts {
				out[part]++
			}
		}
	}
	for part, s := range p.looseAfter(boards...) {
		if n := s.Count / s.Of; n > 0 {
			out[part] += n
		}
	}
	return out
}

// board finds a board of the plan by its name.
func (p *storedPlan) board(name string) (cutplan.SawnBoard, bool) {
	i := slices.IndexFunc(p.Plan.Boards, func(b cutplan.SawnBoard) bool { return store.Fold(b.Name) == store.Fold(name) })
	if i < 0 {
		return cutplan.SawnBoard{}, false
	}
	return p.Plan.Boards[i], true
}

func (p *storedPlan) sawn(b cutplan.SawnBoard) bool { return slices.Contains(p.Sawn, b.Name) }

// planInput is what a plan is made from.
type planInput struct {
	parts    []book.Named[book.Part]
	boards   []book.Named[book.Board]
	done     []book.Named[book.Done]
	loose    looseStaves
	settings Settings
}

// planInput reads what a plan is to be made from now.
func (a *Ask) planInput() (in planInput, err error) {
	var errs [4]error
	in.loose, errs[3] = looseNow(a.Tx, a.Project.ID)
	in.parts, errs[0] = a.parts()
	in.boards, errs[1] = a.stocked()
	in.done, errs[2] = a.doneSoFar()
	in.boards, in.settings = onHand(in.boards), a.Settings
	return in, cmp.Or(errs[:]...)
}

// planInputOf reads the same from the book as it stands.
func planInputOf(tx *store.Tx, project int64) (in planInput, err error) {
	var errs [5]error
	in.loose, errs[4] = looseNow(tx, project)
	in.parts, errs[0] = book.Parts(tx, project)
	in.boards, errs[1] = book.Boards(tx, project)
	in.done, errs[2] = book.DoneSoFar(tx, project)
	in.settings, errs[3] = LoadSettings(tx, project)
	in.boards = onHand(in.boards)
	return in, cmp.Or(errs[:]...)
}

// toSaw is how many pieces of a part are still in the boards. What was roughed out is not.
func (in *planInput) toSaw(p book.Named[book.Part]) int {
	return max(0, p.Is.Quantity-reached(stored(in.done, p.Name), stageRoughed))
}

// The limits on blanks of parts side by side. Common practice, no source: what a small planer
// takes in width, and how long a part may be before it bows when it is ripped off after planing.
const (
	widestBlank = 250 * measure.Millimetre
	sideMost    = 1000 * measure.Millimetre
)

func (in *planInput) shop() blanks.Shop {
	length := func(name string) measure.Length {
		l, _ := in.settings.length(name)
		return l
	}
	return blanks.Shop{
		Allow:  rough.Allowances{Length: length("length_allowance"), Width: length("width_allowance"), Thickness: length("thickness_allowance")},
		Limits: rough.Limits{MachineMinimum: length("machine_minimum"), LongestBlank: length("longest_blank")},
		Widest: widestBlank, SideMost: sideMost, Kerf: length("kerf"), Trim: length("end_trim"), GlueUp: in.settings.gluesUp(),
	}
}

// job is what the planner is given. Boards that are alike and without faults are one kind to it;
// physical has the names of each kind's copies.
func (in *planInput) job() (job blanks.Job, physical [][]string) {
	job.Shop, job.Out = in.shop(), in.settings.System()
	for _, p := range in.parts {
		job.Parts = append(job.Parts, blanks.Part{Name: p.Name, Quantity: in.toSaw(p), Length: p.Is.Length.Length(), Width: p.Is.Width.Length(),
			Thickness: p.Is.Thickness.Length(), Species: p.Is.Species, Free: p.Is.Grain == "free", Loose: in.loose[p.Name]})
	}
	for _, b := range in.boards {
		board := planBoard(b)
		i := slices.IndexFunc(job.Boards, func(o cutplan.Board) bool { return sameBoards(o, board) })
		if i < 0 {
			job.Boards, physical = append(job.Boards, board), append(physical, []string{b.Name})
			continue
		}
		job.Boards[i].Quantity++
		physical[i] = append(physical[i], b.Name)
	}
	return job, physical
}

func planBoard(b book.Named[book.Board]) cutplan.Board {
	out := cutplan.Board{Name: b.Name, Quantity: 1, Length: b.Is.Length.Length(), Width: b.Is.Width.Length(), Thickness: b.Is.Thickness.Length(),
		Species: b.Is.Species, Price: b.Is.Price, Priced: !b.Is.Unpriced, Sheet: b.Is.Sheet}
	for _, f := range b.Is.Faults {
		out.Faults = append(out.Faults, cutplan.Fault{Copy: 1, X: f.X.Length(), Y: f.Y.Length(), Length: f.Length.Length(), Width: f.Width.Length()})
	}
	return out
}

func sameBoards(a, b cutplan.Board) bool {
	return len(a.Faults) == 0 && len(b.Faults) == 0 && a.Length == b.Length && a.Width == b.Width && a.Thickness == b.Thickness &&
		a.Species == b.Species && a.Price == b.Price && a.Priced == b.Priced && a.Sheet == b.Sheet
}

// from gives the marks of what a plan would be made from.
func (in *planInput) from() madeFrom {
	job, physical := in.job()
	parts := slices.DeleteFunc(job.Parts, func(p blanks.Part) bool { return p.Quantity == 0 })
	return madeFrom{mark(parts), mark([]any{job.Boards, physical}), mark(job.Shop)}
}

func mark(of any) string {
	data, err := json.Marshal(of)
	if err != nil { // a number that is none: then nothing is known to be the same
		return err.Error()
	}
	return fmt.Sprintf("%x", sha256.Sum256(data))[:16]
}

// stale says what has changed since the plan was made, "" where it still holds.
func (p *storedPlan) stale(in *planInput) string {
	now := in.from()
	switch {
	case p.From.Parts != now.Parts:
		return "parts"
	case p.From.Boards != now.Boards:
		return "boards"
	case p.From.Shop != now.Shop:
		return "settings"
	}
	return ""
}

// How long to look. The nodes end it, so that the same job has the same plan on every machine: well
// under a second for what two people have on their list. The time is only for a machine that is
// badly overloaded, so that nobody waits for ever.
const (
	planNodes     = 700_000
	planNodesMore = 6_000_000
	planTime      = 20 * time.Second
)

// makePlan plans what is to be sawn, within so many nodes.
func (in *planInput) makePlan(nodes int64, now time.Time) (storedPlan, error) {
	job, physical := in.job()
	ctx, cancel := context.WithTimeout(context.Background(), planTime)
	defer cancel()
	made, err := blanks.Make(ctx, job, cutplan.Limits{Nodes: nodes, Seed: 1})
	if err != nil {
		return storedPlan{}, err
	}
	out := storedPlan{Plan: made.Plan, OnHand: len(in.boards), Allow: job.Shop.Allow, Made: now, From: in.from(), Wanted: in.wants(), Loose: in.loose}
	for i := range out.Plan.Boards {
		b := &out.Plan.Boards[i]
		b.Name, b.Copy = physical[b.Board][b.Copy-1], 1
	}
	for _, b := range made.Blanks {
		s := storedBlank{Name: b.Name, Length: book.MM(b.Length), Width: book.MM(b.Width), Thickness: book.MM(b.Thickness), Way: b.Way, Quantity: b.Quantity, Staves: b.Stave.Of, Stave: book.MM(b.Stave.Width)}
		for _, part := range b.Parts {
			s.Parts = append(s.Parts, job.Parts[part].Name)
		}
		out.Blanks = append(out.Blanks, s)
	}
	for _, l := range made.LeftOut {
		out.LeftOut = append(out.LeftOut, leftOut{job.Parts[l.Part].Name, l.Quantity, l.Reason, l.Staves})
	}
	return out, nil
}

// keepPlan keeps a plan as the one that holds: as made from what the book says once all before it
// is written.
func keepPlan(project int64, p storedPlan) effect {
	return func(tx *store.Tx, entry int64) ([]store.Change, error) {
		in, err := planInputOf(tx, project)
		if err != nil {
			return nil, err
		}
		in.loose = p.Loose
		p.From = in.from()
		c, err := tx.Put(entry, project, book.WhatPlan, planName, p)
		return []store.Change{c}, err
	}
}
