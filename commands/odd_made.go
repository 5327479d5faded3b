package commands

import (
	"fmt"
	"slices"
	"strings"

	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/store"
)

// madeAs is a group of parts as its request makes it.
type madeAs struct {
	name  string
	parts []book.Named[book.Part]
	item  book.MM // height of what stands in a rack, 0: not said
	board book.MM // thickness of a rack's shelves
}

// notAsMade finds where the parts on the list are not those that the group's request makes: one
// dropped, another number, another size, rails and stiles that make another width.
func (c *lookedOver) notAsMade(g madeAs) (out []string) {
	for _, want := range g.parts {
		have, there := partNamed(c.parts, want.Name)
		switch {
		case !there:
			out = append(out, fmt.Sprintf("%s is missing: the drawing of the %s has %d of them.", want.Name, g.name, want.Is.Quantity))
			continue
		case have.Is.Quantity != want.Is.Quantity:
			out = append(out, fmt.Sprintf("%s: %d on the list, and the drawing of the %s has %d.", have.Name, have.Is.Quantity, g.name, want.Is.Quantity))
		}
		if have.Is.Stale == "" && !sameSizes(have.Is, want.Is) {
			out = append(out, fmt.Sprintf("%s is %s, and the %s as it was asked for makes it %s.", have.Name, c.sizes(have.Is), g.name, c.sizes(want.Is)))
		}
	}
	return append(append(out, c.railsAndStiles(g)...), c.lipAndItem(g)...)
}

// railsAndStiles finds rails that with two stiles make a door of another width than the group's
// request does. The tenons are in the rails of both, so they need not be known.
func (c *lookedOver) railsAndStiles(g madeAs) (out []string) {
	wantStile, ok := partOfKind(g.parts, "stile")
	if !ok {
		return nil
	}
	stile, ok := partNamed(c.parts, wantStile.Name)
	if !ok {
		return nil
	}
	for _, want := range g.parts {
		rail, there := partNamed(c.parts, want.Name)
		if !there || rail.Is.Stale != "" || !hasWord(want.Name, "rail") {
			continue
		}
		if off := rail.Is.Length + 2*stile.Is.Width - want.Is.Length - 2*wantStile.Is.Width; off != 0 {
			way := "wider"
			if off < 0 {
				way, off = "narrower", -off
			}
			out = append(out, fmt.Sprintf("%s (%s) and two stiles of %s, less the tenons, make the %s %s %s than its opening asks for.", rail.Name, c.size(rail.Is.Length), c.size(stile.Is.Width), g.name, c.size(off), way))
		}
	}
	return out
}

// lipAndItem finds a lip that stands as high above its shelf as what it keeps in.
func (c *lookedOver) lipAndItem(g madeAs) []string {
	want, ok := partOfKind(g.parts, "lip")
	lip, there := partNamed(c.parts, want.Name)
	if !ok || !there || g.item <= 0 {
		return nil
	}
	if above := lip.Is.Width - g.board; above >= g.item {
		return []string{fmt.Sprintf("%s stands %s above the shelf, as high as what it keeps in (%s): nothing can be taken out.", lip.Name, c.size(above), c.size(g.item))}
	}
	return nil
}

// doorOnSite finds doors that nobody made from an opening, of rails and stiles alone, that can't
// fit the one that was measured: narrower than it by more than the widest clearance, or so wide that
// the tenons would have to be longer than the stiles are wide. Both limits: common practice, no source.
func (c *lookedOver) doorOnSite(width, height book.MM) (out []string) {
	const widestGap = 30_000_000 // mm, as lengths are kept
	for _, s := range c.parts {
		if s.Is.From != "" || !hasWord(s.Name, "stile") {
			continue
		}
		if height > 0 && s.Is.Length > height {
			out = append(out, fmt.Sprintf("%s is %s long, longer than the opening is high (%s).", s.Name, c.size(s.Is.Length), c.size(height)))
		}
		for _, r := range c.parts {
			if width <= 0 || r.Is.From != "" || r.Is.Group != s.Is.Group || !hasWord(r.Name, "rail") {
				continue
			}
			switch wide := r.Is.Length + 2*s.Is.Width; {
			case wide < width-widestGap:
				out = append(out, fmt.Sprintf("%s (%s) and two stiles of %s come to %s at most, and the opening is %s wide.", r.Name, c.size(r.Is.Length), c.size(s.Is.Width), c.size(wide), c.size(width)))
			case r.Is.Length >= width:
				out = append(out, fmt.Sprintf("%s is %s long with its tenons, as long as the opening is wide (%s).", r.Name, c.size(r.Is.Length), c.size(width)))
			}
		}
	}
	return out
}

// deepestGroove is how far a panel reaches into the grooves above and below it together at most, in mm
// as sizes are kept; sums that are off by more than a third are of other things. Both: common practice,
// no source.
const deepestGroove = 60_000_000

// doorByItself finds doors that nobody made from an opening whose rails and panels don't add up to the
// height of their stiles, or whose panel is wider than the rails are long.
func (c *lookedOver) doorByItself() (out []string) {
	for _, s := range c.parts {
		if s.Is.From != "" || !hasWord(s.Name, "stile") || s.Is.Quantity != 2 {
			continue
		}
		var rails, panels, longest book.MM
		var panel string
		for _, p := range c.parts {
			switch n := book.MM(p.Is.Quantity); {
			case p.Is.From != "" || p.Is.Group != s.Is.Group:
			case hasWord(p.Name, "rail"):
				rails, longest = rails+n*p.Is.Width, max(longest, p.Is.Length)
			case hasWord(p.Name, "panel"):
				panels, panel = panels+n*p.Is.Length, p.Name
				if longest > 0 && p.Is.Width > longest {
					out = append(out, fmt.Sprintf("%s is %s wide, and the rails above and below it only %s long.", p.Name, c.size(p.Is.Width), c.size(longest)))
				}
			}
		}
		if rails == 0 || panels == 0 || len(out) > 0 {
			continue
		}
		if sum := rails + panels; within(sum, s.Is.Length, s.Is.Length/3) && (sum < s.Is.Length || sum > s.Is.Length+2*deepestGroove) {
			out = append(out, fmt.Sprintf("The rails' widths and %s come to %s, and %s is %s long.", panel, c.size(sum), s.Name, c.size(s.Is.Length)))
		}
	}
	return out
}

// otherOpening finds openings that a group was made for by figures that were said, where another
// was measured. What differs by more than a fifth is another opening: common practice, no source.
func (c *lookedOver) otherOpening(group string, sizes []measureChange) (out []string) {
	for _, s := range sizes {
		if contradicts(s.now, s.was) && within(s.now.Size, s.was.Size, s.was.Size/5) {
			are := "is"
			if strings.HasSuffix(group, "s") {
				are = "are"
			}
			out = append(out, fmt.Sprintf("The %s %s made for %s where the %s measures %s.", group, are, c.reading(s.was), s.measure, c.reading(s.now)))
		}
	}
	return out
}

func partNamed(parts []book.Named[book.Part], name string) (book.Named[book.Part], bool) {
	i := slices.IndexFunc(parts, func(p book.Named[book.Part]) bool { return store.Fold(p.Name) == store.Fold(name) })
	if i < 0 {
		return book.Named[book.Part]{}, false
	}
	return parts[i], true
}

// partOfKind finds a part with a word in its name.
func partOfKind(parts []book.Named[book.Part], kind string) (book.Named[book.Part], bool) {
	i := slices.IndexFunc(parts, func(p book.Named[book.Part]) bool { return hasWord(p.Name, kind) })
	if i < 0 {
		return book.Named[book.Part]{}, false
	}
	return parts[i], true
}

func hasWord(name, word string) bool {
	return slices.Contains(strings.Fields(strings.ToLower(name)), word)
}

func (c *lookedOver) reading(r book.Reading) string {
	if r.Deg != 0 {
		return degExact(r.Deg)
	}
	return c.size(r.Size)
}

func (c *lookedOver) sizes(p book.Part) string {
	text := c.out.Sizes(measure.Nearest, p.Length.Length(), p.Width.Length(), p.Thickness.Length())
	if c.out != measure.Imperial {
		text = fmt.Sprintf("%s × %s × %s mm", inMM(p.Length), inMM(p.Width), inMM(p.Thickness))
	}
	if p.LeftDeg != 0 || p.RightDeg != 0 {
		text += " with ends at an angle"
	}
	return text
}
