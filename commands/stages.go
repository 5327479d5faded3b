package commands

import (
	"maps"
	"slices"

	"fettle/commands/book"
	"fettle/store"
)

// A part goes through these stages, in the order of work. One that was reached means that those
// before it are over. Common practice, no source.
const (
	stageRoughed  = "roughed"
	stageRipped   = "ripped"
	stageMachined = "machined"
	stageCut      = "cut"
	stageJointed  = "jointed"
	stageSanded   = "sanded"
	stageGlued    = "glued"
	stageCoated   = "coated"
	stageFitted   = "fitted"
	stageFinished = "finished"
)

var stageOrder = []string{stageRoughed, stageRipped, stageMachined, stageCut, stageJointed, stageSanded, stageGlued, stageCoated, stageFitted, stageFinished}

// stageWords are the ways of saying that a stage is over.
var stageWords = map[string]string{
	"roughed crosscut crosscutted docked": stageRoughed,
	"ripped":                              stageRipped,
	"planed thicknessed faced edged surfaced machined milled dimensioned dressed squared": stageMachined,
	"cut sawn sawed trimmed mitred mitered":                                               stageCut,
	"rebated rabbeted rabbets rebates grooved housed tenoned mortised drilled bored routed bevelled beveled chamfered shaped dovetailed jointed slotted": stageJointed,
	"sanded scraped":  stageSanded,
	"glued laminated": stageGlued,
	"oiled varnished painted waxed lacquered primed stained": stageCoated,
	"fitted fixed hung installed screwed mounted in":         stageFitted,
	"finished done ready complete completed made flushed":    stageFinished,
}

const stagePattern = "roughed|crosscut|ripped|planed|thicknessed|faced|edged|machined|milled|dimensioned|sawn|trimmed|mitred|rebated|rabbeted|grooved|housed|tenoned|mortised|drilled|routed|chamfered|sanded|oiled|varnished|painted|fitted|hung|installed|finished"

// stored gives how far the work on something is, none of it where nothing was said.
func stored(done []book.Named[book.Done], name string) book.Done {
	for _, d := range done {
		if store.Fold(d.Name) == store.Fold(name) {
			d.Is.Stages = maps.Clone(d.Is.Stages)
			return d.Is
		}
	}
	return book.Done{}
}

// reached is how many pieces are at a stage or beyond it.
func reached(d book.Done, stage string) int {
	n := d.Quantity
	for _, s := range stageOrder[max(slices.Index(stageOrder, stage), 0):] {
		n = max(n, d.Stages[s])
	}
	return n
}

// noMore lowers a stage and those after it to a count.
func noMore(d book.Done, stage string, count int) book.Done {
	d.Stages = maps.Clone(d.Stages)
	for _, s := range stageOrder[max(slices.Index(stageOrder, stage), 0):] {
		if d.Stages[s] > count {
			d.Stages[s] = count
		}
	}
	d.Quantity = min(d.Quantity, count)
	return d
}
