package commands

import (
	"fmt"
	"slices"
	"strings"

	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
)

// lookedOver is what is looked over for what is wrong or odd. All findings are sentences.
type lookedOver struct {
	out      measure.System // in which sizes are worded
	parts    []book.Named[book.Part]
	measures []book.Named[book.Measure]
	shortest measure.Length           // piece for the machines
	lack     func(name string) string // why no board on hand does for a part, "" where one does
}

// findings looks the list of parts over by itself and beside what was measured.
func (c *lookedOver) findings() []string {
	var out []string
	for _, p := range c.parts {
		if p.Is.Stale != "" {
			out = append(out, fmt.Sprintf("%s may not fit any more: %s.", p.Name, p.Is.Stale))
		}
		out = append(out, c.tenfold(p)...)
		if p.Is.Length.Length() < c.shortest && p.Is.Length > 0 {
			out = append(out, fmt.Sprintf("%s is %s long, shorter than the %s that the machines take: work it in a longer blank.", p.Name, c.size(p.Is.Length), c.size(book.MM(c.shortest))))
		}
		if p.Is.Grain == "" && p.Is.Width > p.Is.Length {
			out = append(out, fmt.Sprintf("%s is wider (%s) than long (%s): does the grain really run the short way?", p.Name, c.size(p.Is.Width), c.size(p.Is.Length)))
		}
	}
	out = append(append(out, c.tenfoldAlike()...), c.lacking()...)
	return append(out, c.besideMeasures()...)
}

// lacking finds the parts that no board on hand does for, those together that lack the same.
func (c *lookedOver) lacking() (out []string) {
	names := map[string][]string{}
	var reasons []string
	for _, p := range c.parts {
		why := c.lack(p.Name)
		if why == "" {
			continue
		}
		if names[why] == nil {
			reasons = append(reasons, why)
		}
		names[why] = append(names[why], p.Name)
	}
	for _, why := range reasons {
		out = append(out, fmt.Sprintf("No board on hand for %s. %s", strings.Join(names[why], ", "), why))
	}
	return out
}

// size prints a size with its unit: mm to a hundredth, as lists may have been pasted.
func (c *lookedOver) size(l book.MM) string {
	if c.out == measure.Imperial {
		return c.out.Text(l.Length(), measure.Nearest)
	}
	return inMM(l) + " mm"
}

// number prints a size without its unit.
func (c *lookedOver) number(l book.MM) string {
	if c.out == measure.Imperial {
		return c.out.Number(l.Length(), measure.Nearest)
	}
	return inMM(l)
}

func inMM(l book.MM) string { return measure.Decimal(l.MM(), 2) }

// partDimensions are the three sizes of a part, as a part is said to be.
var partDimensions = []struct {
	name string
	of   func(book.Part) book.MM
}{
	{"long", func(p book.Part) book.MM { return p.Length }}, {"wide", func(p book.Part) book.MM { return p.Width }}, {"thick", func(p book.Part) book.MM { return p.Thickness }},
}

// tenfold finds sizes of a part that are about ten times those of its neighbours, or a tenth. From
// seven times on: common practice, no source.
func (c *lookedOver) tenfold(p book.Named[book.Part]) (out []string) {
	others := c.neighbours(p)
	for _, d := range partDimensions {
		var sizes []book.MM
		for _, o := range others {
			if d.of(o.Is) > 0 {
				sizes = append(sizes, d.of(o.Is))
			}
		}
		if len(sizes) < 2 {
			continue
		}
		slices.Sort(sizes)
		size := d.of(p.Is)
		if least, most := sizes[0], sizes[len(sizes)-1]; size > 7*most || size > 0 && size < least/7 {
			out = append(out, fmt.Sprintf("%s is %s %s where the others are %s to %s: a slip of the unit?", p.Name, c.size(size), d.name, c.number(least), c.size(most)))
		}
	}
	return out
}

// neighbours are the other parts of a part's group, or all others where it has none and nothing
// else has none.
func (c *lookedOver) neighbours(p book.Named[book.Part]) []book.Named[book.Part] {
	others := slices.DeleteFunc(slices.Clone(c.parts), func(o book.Named[book.Part]) bool { return o.Name == p.Name })
	alike := slices.DeleteFunc(slices.Clone(others), func(o book.Named[book.Part]) bool { return o.Is.Group != p.Is.Group })
	if p.Is.Group == "" && len(alike) < 2 {
		return others
	}
	return alike
}

// tenfoldAlike finds two parts of a kind, as two rails, of which one is ten times as long, where the
// list has too few others to tell by. From eight to twelve times: common practice, no source.
func (c *lookedOver) tenfoldAlike() (out []string) {
	for i, p := range c.parts {
		for _, o := range c.parts[i+1:] {
			if p.Is.Group != o.Is.Group || kindOf(p.Name) != kindOf(o.Name) || len(c.tenfold(p))+len(c.tenfold(o)) > 0 {
				continue
			}
			for _, d := range partDimensions {
				small, large := d.of(p.Is), d.of(o.Is)
				if small > large {
					small, large = large, small
				}
				if small > 0 && large >= 8*small && large <= 12*small {
					out = append(out, fmt.Sprintf("%s is %s %s and %s %s: a slip of the unit?", p.Name, c.size(d.of(p.Is)), d.name, o.Name, c.size(d.of(o.Is))))
				}
			}
		}
	}
	return out
}

// kindOf is what a part is: the rail, of a top rail.
func kindOf(name string) string {
	words := strings.FieldsFunc(name, func(r rune) bool { return r == ' ' || r >= '0' && r <= '9' })
	if len(words) == 0 {
		return name
	}
	return speech.Stem(strings.ToLower(words[len(words)-1]))
}

// unmeasured names the parts whose size nobody took on site, and what was made for an opening
// that was only said.
func unmeasured(parts []book.Named[book.Part], groups []madeGroup) (names []string) {
	for _, p := range parts {
		if !p.Is.Measured && p.Is.From == "" {
			names = append(names, p.Name)
		}
	}
	for _, g := range groups {
		if isSize[g.Is["what"].Word] == nil && slices.ContainsFunc(parts, func(p book.Named[book.Part]) bool { return p.Is.From == g.Name && !p.Is.Measured }) {
			names = append(names, "the opening of the "+g.Name)
		}
	}
	return names
}
