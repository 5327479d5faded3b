package commands_test

import (
	"strings"
	"testing"

	"fettle/calc/measure"
	"fettle/commands"
	"fettle/commands/book"
)

func piece(name string, quantity int, length, width, thickness float64) book.Named[book.Part] {
	mm := func(v float64) book.MM { return book.MM(v * float64(measure.Millimetre)) }
	return book.Named[book.Part]{Name: name, Is: book.Part{Quantity: quantity, Length: mm(length), Width: mm(width), Thickness: mm(thickness)}}
}

// finds holds one finding with each of the texts against what was found, in order.
func finds(t *testing.T, got []string, want ...string) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%d findings, want %d: %q", len(got), len(want), got)
	}
	for i, w := range want {
		if !strings.Contains(got[i], w) {
			t.Errorf("%q does not say %q", got[i], w)
		}
	}
}

// A door 640 wide: rails of 500 between two stiles of 95 with tenons of 25 make 500 - 50 + 190.
func TestNotAsMade(t *testing.T) {
	door := []book.Named[book.Part]{piece("stile", 2, 1754, 95, 40), piece("top rail", 1, 500, 95, 40), piece("panel", 1, 1500, 470, 18)}
	rack := []book.Named[book.Part]{piece("shelf", 2, 830, 120, 18), piece("lip", 2, 806, 48, 10)}
	for name, c := range map[string]struct {
		made, parts []book.Named[book.Part]
		item        float64
		want        []string
	}{
		"as made":                         {door, door, 0, nil},
		"one dropped":                     {door, door[:2], 0, []string{"panel is missing: the drawing of the door has 1"}},
		"another number":                  {door, []book.Named[book.Part]{piece("stile", 1, 1754, 95, 40), door[1], door[2]}, 0, []string{"stile: 1 on the list, and the drawing of the door has 2"}},
		"a longer rail":                   {door, []book.Named[book.Part]{door[0], piece("top rail", 1, 520, 95, 40), door[2]}, 0, []string{"top rail is 520 × 95 × 40", "make the door 20 mm wider"}},
		"narrower stiles":                 {door, []book.Named[book.Part]{piece("stile", 2, 1754, 85, 40), door[1], door[2]}, 0, []string{"stile is 1754 × 85", "make the door 20 mm narrower"}},
		"narrower stiles and longer rail": {door, []book.Named[book.Part]{piece("stile", 2, 1754, 85, 40), piece("top rail", 1, 520, 95, 40), door[2]}, 0, []string{"stile is", "top rail is"}},
		"a lip lower than the items":      {rack, rack, 95, nil},
		"a lip as high as the items":      {rack, []book.Named[book.Part]{rack[0], piece("lip", 2, 806, 113, 10)}, 95, []string{"lip is", "lip stands 95 mm above the shelf, as high as what it keeps in (95 mm)"}},
	} {
		t.Run(name, func(t *testing.T) {
			item := book.MM(c.item * float64(measure.Millimetre))
			finds(t, commands.NotAsMade("door", c.made, c.parts, item, book.MM(18*measure.Millimetre)), c.want...)
		})
	}
}

func TestDoorOnSite(t *testing.T) {
	for name, c := range map[string]struct {
		parts         []book.Named[book.Part]
		width, height measure.Length
		want          []string
	}{
		"fits":               {[]book.Named[book.Part]{piece("stile", 2, 1754, 95, 40), piece("rail", 3, 666, 95, 40)}, 812, 1760, nil},
		"nothing measured":   {[]book.Named[book.Part]{piece("stile", 2, 1754, 95, 40), piece("rail", 3, 100, 95, 40)}, 0, 0, nil},
		"too narrow":         {[]book.Named[book.Part]{piece("stile", 2, 1754, 70, 40), piece("rail", 3, 612, 95, 40)}, 812, 1760, []string{"rail (612 mm) and two stiles of 70 mm come to 752 mm at most"}},
		"a rail too long":    {[]book.Named[book.Part]{piece("stile", 2, 1754, 95, 40), piece("rail", 3, 812, 95, 40)}, 812, 1760, []string{"rail is 812 mm long with its tenons"}},
		"stile too long":     {[]book.Named[book.Part]{piece("stile", 2, 1770, 95, 40), piece("rail", 3, 666, 95, 40)}, 812, 1760, []string{"stile is 1770 mm long"}},
		"no door of that":    {[]book.Named[book.Part]{piece("slat", 6, 1000, 70, 22)}, 812, 900, nil},
		"stiles of no rails": {[]book.Named[book.Part]{piece("stile", 2, 1754, 95, 40)}, 812, 1760, nil},
	} {
		t.Run(name, func(t *testing.T) {
			finds(t, commands.DoorOnSite(c.parts, book.MM(c.width*measure.Millimetre), book.MM(c.height*measure.Millimetre)), c.want...)
		})
	}
}

func TestFindingsOfAList(t *testing.T) {
	finds(t, commands.Findings([]book.Named[book.Part]{piece("shelf", 1, 200, 830, 18)}), "shelf is wider (830 mm) than long (200 mm)")
	finds(t, commands.Findings([]book.Named[book.Part]{piece("a", 1, 640, 92, 40), piece("b", 1, 612, 92, 40), piece("c", 1, 64, 92, 40)}),
		"c is 64 mm long where the others are 612 to 640 mm", "c is wider")
	finds(t, commands.Findings([]book.Named[book.Part]{piece("a", 1, 640, 92, 40), piece("b", 1, 612, 92, 40)}))
}
