package commands

import (
	"fmt"
	"slices"
	"strings"

	"fettle/commands/book"
	"fettle/commands/speech"
)

// besideMeasures finds parts on the list that don't agree with what was measured of the same
// thing: one that is another size, and several side by side that come to another total. Parts that
// were made from an opening are looked at with their group.
func (c *lookedOver) besideMeasures() (out []string) {
	for _, p := range c.parts {
		if p.Is.From != "" {
			continue
		}
		of := c.measuresOf(p)
		switch {
		case hasWord(p.Name, "lip") || hasWord(p.Name, "lips"):
			out = append(out, c.lipAndMeasure(p)...)
		case len(of) == 0:
		case p.Is.Quantity == 1:
			out = append(out, c.otherThanMeasured(p, of)...)
		default:
			out = append(out, c.totalBeside(p, of)...)
		}
	}
	return append(out, c.dropBoardsInOpening()...)
}

// sideBySide are the kinds of parts, by their stems, that lie next to each other, with whether they
// leave no gaps.
var sideBySide = map[string]bool{
	speech.Stem("board"): true, speech.Stem("plank"): true, speech.Stem("lining"): true, speech.Stem("cladding"): true,
	speech.Stem("slat"): false, speech.Stem("batten"): false, speech.Stem("strip"): false,
}

// measuresOf are the measures of the thing that a part is by its name: of a sill those of the sill,
// of a floor board those of the floor.
func (c *lookedOver) measuresOf(p book.Named[book.Part]) (out []book.Named[book.Measure]) {
	is := stemsOf(p.Name)
	if _, many := sideBySide[kindOf(p.Name)]; many && p.Is.Quantity > 1 {
		is = slices.DeleteFunc(is, func(s string) bool { return s == kindOf(p.Name) })
	}
	slices.Sort(is)
	for _, m := range c.measures {
		of := slices.DeleteFunc(stemsOf(thingMeasured(m.Name)), isDimension)
		slices.Sort(of)
		if len(of) > 0 && m.Is.Size > 0 && slices.Equal(of, is) {
			out = append(out, m)
		}
	}
	return out
}

// thingMeasured is the name of a measure without where it was taken and which way.
func thingMeasured(name string) string {
	words := strings.Fields(withoutPlace(name))
	return strings.Join(slices.DeleteFunc(words, func(w string) bool { return dimensionNouns[w] != "" }), " ")
}

// otherThanMeasured finds a part of which no size is what was measured, though its length is near
// one, or a tenth or ten times of it. Within a fifth: common practice, no source.
func (c *lookedOver) otherThanMeasured(p book.Named[book.Part], of []book.Named[book.Measure]) []string {
	for _, m := range of {
		for _, d := range partDimensions {
			if within(d.of(p.Is), m.Is.Size, book.MM(apart)) {
				return nil
			}
		}
	}
	for _, m := range of {
		for _, ten := range []book.MM{1, 10} {
			if l := p.Is.Length; within(l, m.Is.Size*ten, m.Is.Size*ten/5) || within(l*ten, m.Is.Size, m.Is.Size/5) {
				return []string{fmt.Sprintf("%s is %s long, and the %s measures %s.", p.Name, c.size(l), m.Name, c.size(m.Is.Size))}
			}
		}
	}
	return nil
}

func within(a, b, by book.MM) bool { return a-b <= by && b-a <= by }

// totalBeside finds pieces side by side that come to more than was measured of what they cover, or
// to less where they leave no gaps.
func (c *lookedOver) totalBeside(p book.Named[book.Part], of []book.Named[book.Measure]) []string {
	tight, many := sideBySide[kindOf(p.Name)]
	if !many {
		return nil
	}
	total := p.Is.Width * book.MM(p.Is.Quantity)
	var near *book.Named[book.Measure]
	for i, m := range of {
		if within(total, m.Is.Size, book.MM(apart)) || !tight && total < m.Is.Size {
			return nil
		}
		if hasWord(m.Name, "length") || hasWord(m.Name, "thickness") {
			continue
		}
		if near == nil || within(total, m.Is.Size, max(total-near.Is.Size, near.Is.Size-total)) {
			near = &of[i]
		}
	}
	if near == nil {
		return nil
	}
	text := fmt.Sprintf("%d × %s of %s come to %s", p.Is.Quantity, p.Name, c.size(p.Is.Width), c.size(total))
	if total < near.Is.Size {
		return []string{fmt.Sprintf("%s: the %s measures %s, so %s stays open.", text, near.Name, c.size(near.Is.Size), c.size(near.Is.Size-total))}
	}
	return []string{fmt.Sprintf("%s: the %s measures %s only.", text, near.Name, c.size(near.Is.Size))}
}

// mostOverlap is how far a drop board reaches behind the next at most, in mm as sizes are kept:
// common practice, no source.
const mostOverlap = 40_000_000

// dropBoardsInOpening finds drop boards that don't come to the height of the opening.
func (c *lookedOver) dropBoardsInOpening() []string {
	var total book.MM
	n := 0
	for _, p := range c.parts {
		if words := strings.ToLower(p.Name); p.Is.From == "" && (strings.Contains(words, "drop board") || strings.Contains(words, "dropboard") || strings.Contains(words, "washboard")) {
			total += p.Is.Width * book.MM(p.Is.Quantity)
			n += p.Is.Quantity
		}
	}
	_, height := openingOnSite(c.measures)
	switch {
	case n == 0 || height == 0:
		return nil
	case total < height-book.MM(apart):
		return []string{fmt.Sprintf("The drop boards come to %s, and the opening is %s high: %s stays open.", c.size(total), c.size(height), c.size(height-total))}
	case total > height+book.MM(n)*mostOverlap:
		return []string{fmt.Sprintf("The drop boards come to %s, and the opening is only %s high.", c.size(total), c.size(height))}
	}
	return nil
}

// lipAndMeasure finds a lip that is as high as what was measured of the things it keeps in: mugs,
// jars. What it takes of its height to sit on the shelf is that of the shelf on the list.
func (c *lookedOver) lipAndMeasure(lip book.Named[book.Part]) (out []string) {
	var shelf book.MM
	for _, p := range c.parts {
		if p.Is.Group == lip.Is.Group && kindOf(p.Name) == speech.Stem("shelf") {
			shelf = p.Is.Thickness
		}
	}
	for _, m := range c.measures {
		thing := strings.Fields(thingMeasured(m.Name))
		if !hasWord(m.Name, "height") || len(thing) != 1 || !slices.ContainsFunc(strings.Split(itemWords, "|"), func(w string) bool { return speech.Stem(w) == speech.Stem(thing[0]) }) {
			continue
		}
		if above := lip.Is.Width - shelf; above >= m.Is.Size {
			out = append(out, fmt.Sprintf("%s stands %s above the shelf, as high as what it keeps in (%s %s): nothing can be taken out.", lip.Name, c.size(above), m.Name, c.size(m.Is.Size)))
		}
	}
	return out
}
