package commands

import (
	"fmt"
	"slices"
	"strings"

	"fettle/calc/measure"
	"fettle/commands/book"
)

// spoil takes spoiled pieces out of what was done. A piece that is spoiled while it is cut had
// gone through what comes before, and was not counted as cut yet unless all were.
func (a *Ask) spoil(ans *Answer, w work, d book.Done, n, total int) (now book.Done, head string, problem Answer, ok bool) {
	d.Spoiled += n
	if d.Stages == nil {
		d.Stages = map[string]int{}
	}
	for _, s := range stageOrder {
		early := slices.Index(stageOrder, s) < slices.Index(stageOrder, stageCut)
		count := d.Stages[s]
		switch {
		case count == 0:
		case early:
			d.Stages[s] = max(0, count-n)
		default:
			d.Stages[s] = min(count, total-n)
		}
		if d.Stages[s] == 0 {
			delete(d.Stages, s)
		}
	}
	d.Quantity = min(d.Quantity, total-n)
	if len(d.Stages) == 0 {
		d.Stages = nil
	}
	ans.Values["spoiled"] = d.Spoiled
	if w.part != nil {
		lines := a.spoiled(book.Named[book.Part]{Name: w.name, Is: *w.part}, n)
		if more, planned := a.mistake(ans, w.name, &d, n); planned {
			lines = append(lines[:1], more...)
		}
		for _, line := range lines {
			ans.line(line)
		}
	}
	return d, fmt.Sprintf("%d × %s to make again", n, w.name), problem, true
}

// spoiled says what it costs to make pieces of a part again, where there is no cut plan that tells.
func (a *Ask) spoiled(part book.Named[book.Part], n int) []string {
	p := part.Is
	x := a.allowances()
	l, w, t := p.Length.Length()+x.Length, p.Width.Length()+x.Width, p.Thickness.Length()+x.Thickness
	lines := []string{fmt.Sprintf("Each again is %s rough: %s (%s).", a.System.Sizes(measure.Nearest, l, w, t),
		strings.TrimSpace(measure.Decimal(float64(n)*l.MM()*w.MM()*t.MM()/1e9, 4)+" m³ "+p.Species), x.describe(a.System, map[string]bool{"length": true, "width": true, "thickness": true}))}
	boards, err := a.stocked()
	if err != nil || len(boards) == 0 {
		return append(lines, "No timber on hand is written down, so I can't say what it comes out of.")
	}
	for _, b := range boards {
		if !b.Is.ForSale && b.Is.Length.Length() >= l && b.Is.Width.Length() >= w && b.Is.Thickness.Length() >= t && (p.Species == "" || b.Is.Species == "" || p.Species == b.Is.Species) {
			return append(lines, fmt.Sprintf("%s is big enough for one; plan the cuts again to see what is left.", capital(b.Name)))
		}
	}
	return append(lines, "No board on hand is big enough for it.")
}
