package blanks

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"fettle/calc/measure"
)

// section is the pieces that may share a blank: of one width, thickness and species, from boards
// of one class.
type section struct {
	class
	width, finished measure.Length
	free            bool
	pieces          []int // the part of each, longest first
}

// sections sorts what is wanted by section, and lists what no board can give.
func (j *Job) sections(wanted []demand) (all []*section, out []LeftOut) {
	for _, d := range wanted {
		c, reason := j.classOf(d)
		if reason != "" {
			l := LeftOut{Part: d.part, Quantity: d.quantity, Reason: reason}
			if c, ok := j.gluedUp(d); ok {
				l.Staves = c.stave.Of
			}
			out = append(out, l)
			continue
		}
		p := &j.Parts[d.part]
		i := slices.IndexFunc(all, func(s *section) bool {
			return s.stave == c.stave && s.thickness == c.thickness && s.sheet == c.sheet && s.species == c.species && s.width == finishedWidth(p, c) && s.finished == p.Thickness && s.free == p.Free
		})
		if i < 0 {
			i = len(all)
			all = append(all, &section{class: c, width: finishedWidth(p, c), finished: p.Thickness, free: p.Free})
		}
		all[i].longest, all[i].widest = max(all[i].longest, c.longest), max(all[i].widest, c.widest)
		for range d.pieces(p, c) {
			all[i].pieces = append(all[i].pieces, d.part)
		}
	}
	all = slices.DeleteFunc(all, func(s *section) bool { return len(s.pieces) == 0 })
	for _, s := range all {
		slices.SortStableFunc(s.pieces, func(a, b int) int { return cmp.Compare(j.Parts[b].Length, j.Parts[a].Length) })
	}
	return all, out
}

// ways lists the ways in which a section's blanks can be made, the usual one first: what is too
// short for the machines is ganged end to end, all else is by itself.
func (j *Job) ways(s *section) []Way {
	last := s.pieces[len(s.pieces)-1]
	switch {
	case s.sheet || len(s.pieces) == 1 || s.stave.Of > 0:
		return []Way{Singly}
	case j.Parts[last].Length < j.Shop.Limits.MachineMinimum:
		return []Way{Ends, Singly, Pairs, Sides}
	case j.Parts[last].Length > j.Shop.SideMost:
		return []Way{Singly, Ends, Pairs}
	}
	return []Way{Singly, Sides, Ends, Pairs}
}

// blanksOf makes the blanks of a section in one way.
func (j *Job) blanksOf(s *section, w Way) (out []Blank) {
	var bins [][]int
	switch w {
	case Ends:
		bins = j.endToEnd(s, len(s.pieces))
	case Pairs:
		bins = j.endToEnd(s, 2)
	case Sides:
		bins = j.sideBySide(s)
	default:
		for _, p := range s.pieces {
			bins = append(bins, []int{p})
		}
	}
	for _, parts := range bins {
		b := j.blank(s, w, parts)
		i := slices.IndexFunc(out, func(o Blank) bool { return slices.Equal(o.Parts, parts) })
		if i < 0 {
			out = append(out, b)
			continue
		}
		out[i].Quantity++
	}
	return out
}

// endToEnd puts each piece into the first blank that has room: at most so many in one.
func (j *Job) endToEnd(s *section, most int) (bins [][]int) {
	room := min(j.Shop.Limits.LongestBlank, s.longest) - j.Shop.Allow.Length + j.Shop.Kerf
	var used []measure.Length
	for _, p := range s.pieces {
		need := j.Parts[p].Length + j.Shop.Kerf
		i := 0
		for i < len(bins) && (used[i]+need > room || len(bins[i]) >= most) {
			i++
		}
		if i == len(bins) {
			bins, used = append(bins, nil), append(used, 0)
		}
		bins[i], used[i] = append(bins[i], p), used[i]+need
	}
	return bins
}

// sideBySide puts pieces of one length next to each other, as evenly as can be. Long ones stay by
// themselves: they bow when they are ripped apart after planing.
func (j *Job) sideBySide(s *section) (bins [][]int) {
	most := int((min(j.Shop.Widest, s.widest) - j.Shop.Allow.Width + j.Shop.Kerf) / (s.width + j.Shop.Kerf))
	for left := s.pieces; len(left) > 0; {
		n := 1
		for n < len(left) && j.Parts[left[n]].Length == j.Parts[left[0]].Length {
			n++
		}
		each := max(most, 1)
		if j.Parts[left[0]].Length > j.Shop.SideMost {
			each = 1
		}
		for bundles := (n + each - 1) / each; bundles > 0; bundles-- {
			k := (n + bundles - 1) / bundles
			bins, left, n = append(bins, left[:k]), left[k:], n-k
		}
	}
	return bins
}

// blank makes a blank of the pieces given, in one way.
func (j *Job) blank(s *section, w Way, parts []int) Blank {
	b := Blank{Quantity: 1, Thickness: s.thickness, Species: s.species, Free: s.free, Parts: parts, Name: j.nameOf(parts)}
	b.Length, b.Width = j.single(&j.Parts[parts[0]], s.sheet)
	if s.stave.Of > 0 {
		b.Stave, b.Name, b.Width = s.stave, b.Name+" stave", s.width+j.Shop.Allow.Width
	}
	if len(parts) == 1 {
		return b
	}
	b.Way = w
	n := measure.Length(len(parts) - 1)
	if w == Sides {
		b.Width += n * (s.width + j.Shop.Kerf)
		return b
	}
	b.Length = n*j.Shop.Kerf + j.Shop.Allow.Length
	for _, p := range parts {
		b.Length += j.Parts[p].Length
	}
	b.Length = max(b.Length, j.Shop.Limits.MachineMinimum)
	return b
}

// nameOf says what is in a blank: "rail", "rail ×2 + block".
func (j *Job) nameOf(parts []int) string {
	var names []string
	for len(parts) > 0 {
		n := 1
		for n < len(parts) && parts[n] == parts[0] {
			n++
		}
		name := j.Parts[parts[0]].Name
		if n > 1 {
			name = fmt.Sprintf("%s ×%d", name, n)
		}
		names, parts = append(names, name), parts[n:]
	}
	return strings.Join(names, " + ")
}
