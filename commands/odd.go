package commands

import (
	"fmt"
	"slices"

	"fettle/calc/measure"
	"fettle/commands/book"
)

// findings looks a list of parts over for what is wrong or odd, each in one sentence. boards may
// be empty: then nothing is said of the timber. shortest is the shortest piece for the machines.
func findings(parts []book.Named[book.Part], boards []book.Named[book.Board], add book.Part, shortest measure.Length) []string {
	var out []string
	for _, p := range parts {
		if p.Is.Stale != "" {
			out = append(out, fmt.Sprintf("%s may not fit any more: %s.", p.Name, p.Is.Stale))
		}
		out = append(out, tenfold(p, parts)...)
		if p.Is.Length.Length() < shortest && p.Is.Length > 0 {
			out = append(out, fmt.Sprintf("%s is %s mm long, shorter than the %s mm that the machines take: work it in a longer blank.", p.Name, inMM(p.Is.Length), inMM(book.MM(shortest))))
		}
		if p.Is.Grain == "" && p.Is.Width > p.Is.Length {
			out = append(out, fmt.Sprintf("%s is wider (%s mm) than long (%s mm): does the grain really run the short way?", p.Name, inMM(p.Is.Width), inMM(p.Is.Length)))
		}
		if len(boards) > 0 && !boardFor(p.Is, add, boards) {
			out = append(out, fmt.Sprintf("No board on hand is large enough for %s with its allowances (%s × %s × %s mm).", p.Name,
				inMM(p.Is.Length+add.Length), inMM(p.Is.Width+add.Width), inMM(p.Is.Thickness+add.Thickness)))
		}
	}
	return out
}

func inMM(l book.MM) string { return measure.Decimal(l.MM(), 2) }

// tenfold finds sizes that are about ten times those of the part's neighbours, or a tenth: of at
// least two others in its group, or on the list where it has none. From seven times on: common
// practice, no source.
func tenfold(p book.Named[book.Part], parts []book.Named[book.Part]) (out []string) {
	for _, d := range []struct {
		name string
		of   func(book.Part) book.MM
	}{
		{"long", func(p book.Part) book.MM { return p.Length }}, {"wide", func(p book.Part) book.MM { return p.Width }}, {"thick", func(p book.Part) book.MM { return p.Thickness }},
	} {
		var others []float64
		for _, o := range parts {
			if o.Name != p.Name && o.Is.Group == p.Is.Group && d.of(o.Is) > 0 {
				others = append(others, d.of(o.Is).MM())
			}
		}
		if len(others) < 2 {
			continue
		}
		slices.Sort(others)
		size := d.of(p.Is).MM()
		if least, most := others[0], others[len(others)-1]; size > 7*most || size > 0 && size < least/7 {
			out = append(out, fmt.Sprintf("%s is %s mm %s where the others are %s to %s mm: a slip of the unit?", p.Name, inMM(d.of(p.Is)), d.name, measure.Decimal(least, 1), measure.Decimal(most, 1)))
		}
	}
	return out
}

// boardFor says whether a part with its allowances comes out of one of the boards of its timber.
func boardFor(p, add book.Part, boards []book.Named[book.Board]) bool {
	return slices.ContainsFunc(boards, func(b book.Named[book.Board]) bool {
		if b.Is.ForSale || p.Species != "" && b.Is.Species != "" && p.Species != b.Is.Species {
			return false
		}
		l, w := p.Length+add.Length, p.Width+add.Width
		fits := l <= b.Is.Length && w <= b.Is.Width || b.Is.Sheet && l <= b.Is.Width && w <= b.Is.Length
		return fits && p.Thickness+add.Thickness <= b.Is.Thickness
	})
}

// unmeasured names the parts whose size nobody took on site.
func unmeasured(parts []book.Named[book.Part]) (names []string) {
	for _, p := range parts {
		if !p.Is.Measured && p.Is.From == "" {
			names = append(names, p.Name)
		}
	}
	return names
}
