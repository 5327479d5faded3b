package commands

import (
	"fmt"
	"slices"
	"strings"

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
func notAsMade(g madeAs, parts []book.Named[book.Part]) (out []string) {
	for _, want := range g.parts {
		have, there := partNamed(parts, want.Name)
		switch {
		case !there:
			out = append(out, fmt.Sprintf("%s is missing: the %s takes %d of them.", want.Name, g.name, want.Is.Quantity))
			continue
		case have.Is.Quantity != want.Is.Quantity:
			out = append(out, fmt.Sprintf("%s: %d on the list, and the %s takes %d.", have.Name, have.Is.Quantity, g.name, want.Is.Quantity))
		}
		if have.Is.Stale == "" && !sameSizes(have.Is, want.Is) {
			out = append(out, fmt.Sprintf("%s is %s, and the %s as it was asked for makes it %s.", have.Name, sizesMM(have.Is), g.name, sizesMM(want.Is)))
		}
	}
	return append(append(out, railsAndStiles(g, parts)...), lipAndItem(g, parts)...)
}

// railsAndStiles finds rails that with two stiles make a door of another width than the group's
// request does. The tenons are in the rails of both, so they need not be known.
func railsAndStiles(g madeAs, parts []book.Named[book.Part]) (out []string) {
	wantStile, ok := partOfKind(g.parts, "stile")
	if !ok {
		return nil
	}
	stile, ok := partNamed(parts, wantStile.Name)
	if !ok {
		return nil
	}
	for _, want := range g.parts {
		rail, there := partNamed(parts, want.Name)
		if !there || rail.Is.Stale != "" || !hasWord(want.Name, "rail") {
			continue
		}
		if off := rail.Is.Length + 2*stile.Is.Width - want.Is.Length - 2*wantStile.Is.Width; off != 0 {
			way := "wider"
			if off < 0 {
				way, off = "narrower", -off
			}
			out = append(out, fmt.Sprintf("%s (%s mm) and two stiles of %s mm, less the tenons, make the %s %s mm %s than its opening asks for.", rail.Name, inMM(rail.Is.Length), inMM(stile.Is.Width), g.name, inMM(off), way))
		}
	}
	return out
}

// lipAndItem finds a lip that stands as high above its shelf as what it keeps in.
func lipAndItem(g madeAs, parts []book.Named[book.Part]) []string {
	want, ok := partOfKind(g.parts, "lip")
	lip, there := partNamed(parts, want.Name)
	if !ok || !there || g.item <= 0 {
		return nil
	}
	if above := lip.Is.Width - g.board; above >= g.item {
		return []string{fmt.Sprintf("%s stands %s mm above the shelf, as high as what it keeps in (%s mm): nothing can be taken out.", lip.Name, inMM(above), inMM(g.item))}
	}
	return nil
}

// doorOnSite finds doors that nobody made from an opening, of rails and stiles alone, that can't
// fit the one that was measured: narrower than it by more than the widest clearance, or so wide that
// the tenons would have to be longer than the stiles are wide. Both limits: common practice, no source.
func doorOnSite(parts []book.Named[book.Part], width, height book.MM) (out []string) {
	const widestGap = 30_000_000 // mm, as lengths are kept
	for _, s := range parts {
		if s.Is.From != "" || !hasWord(s.Name, "stile") {
			continue
		}
		if height > 0 && s.Is.Length > height {
			out = append(out, fmt.Sprintf("%s is %s mm long, longer than the opening is high (%s mm).", s.Name, inMM(s.Is.Length), inMM(height)))
		}
		for _, r := range parts {
			if width <= 0 || r.Is.From != "" || r.Is.Group != s.Is.Group || !hasWord(r.Name, "rail") {
				continue
			}
			switch wide := r.Is.Length + 2*s.Is.Width; {
			case wide < width-widestGap:
				out = append(out, fmt.Sprintf("%s (%s mm) and two stiles of %s mm come to %s mm at most, and the opening is %s mm wide.", r.Name, inMM(r.Is.Length), inMM(s.Is.Width), inMM(wide), inMM(width)))
			case r.Is.Length >= width:
				out = append(out, fmt.Sprintf("%s is %s mm long with its tenons, as long as the opening is wide (%s mm).", r.Name, inMM(r.Is.Length), inMM(width)))
			}
		}
	}
	return out
}

// otherOpening finds openings that a group was made for by figures that were said, where another
// was measured.
func otherOpening(group string, sizes []measureChange) (out []string) {
	for _, c := range sizes {
		if off := c.now - c.was; off.Length() > apart || -off.Length() > apart {
			out = append(out, fmt.Sprintf("The %s is made for %s mm where the %s measures %s mm.", group, inMM(c.was), c.measure, inMM(c.now)))
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

func sizesMM(p book.Part) string {
	text := fmt.Sprintf("%s × %s × %s mm", inMM(p.Length), inMM(p.Width), inMM(p.Thickness))
	if p.LeftDeg != 0 || p.RightDeg != 0 {
		text += " with ends at an angle"
	}
	return text
}
