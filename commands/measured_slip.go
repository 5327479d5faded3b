package commands

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
)

// asSaid is the action of a measure that somebody has confirmed, however odd it looks.
const asSaid = "as said"

// slip finds a size without a unit that is about a tenth or ten times what was measured of the
// same thing, there or at another place of it: centimetres were meant, and it is asked about. From
// eight to twelve times: common practice, no source.
func (a *Ask) slip(all []book.Named[book.Measure], items []speech.Request) *Answer {
	if a.Word("action") == asSaid {
		return nil
	}
	for i, it := range items {
		l, _ := it.Length("size_mm")
		name := placed(it.Word("name"), it.Word("place"))
		if !it.Slots["size_mm"].Bare || l <= 0 {
			continue
		}
		for _, m := range all {
			was := m.Is.Size.Length()
			if was <= 0 || !sameMeasure(withoutPlace(m.Name), withoutPlace(name)) {
				continue
			}
			for _, meant := range []measure.Length{l * 10, l / 10} {
				if meant > was*8/10 && meant < was*12/10 && (l > was*8 || was > l*8) {
					q := a.whichWasMeant(i, items, name, l, meant, m)
					return &q
				}
			}
		}
	}
	return nil
}

// withoutPlace is the name of a measure without where it was taken.
func withoutPlace(name string) string {
	return strings.Join(slices.DeleteFunc(strings.Fields(name), func(w string) bool { return placing[w] || w == "side" }), " ")
}

// whichWasMeant asks which of two sizes of a measure was meant.
func (a *Ask) whichWasMeant(i int, items []speech.Request, name string, l, meant measure.Length, other book.Named[book.Measure]) Answer {
	options := make([]speech.Option, 0, 2)
	for _, size := range []measure.Length{meant, l} {
		r := a.withName(a.Word("name"))
		r.Slots["action"] = speech.Slot{Word: asSaid}
		r.Items = slices.Clone(items)
		r.Items[i].Slots = maps.Clone(items[i].Slots)
		r.Items[i].Slots["name"] = speech.Slot{Word: name}
		r.Items[i].Slots["size_mm"] = lengthOf(size.MM())
		delete(r.Items[i].Slots, "place")
		options = append(options, speech.Option{Label: a.System.Exact(size), Request: r})
	}
	q := speech.Choice(fmt.Sprintf("%s %s, where the %s is %s: which do you mean?", capital(name), a.System.Exact(l), other.Name, a.System.Exact(other.Is.Size.Length())), options...)
	ans := ask(q.Text)
	ans.open, ans.echo = q, true
	return ans
}

// measuredItems are the readings of a message.
func (a *Ask) measuredItems() []speech.Request {
	if len(a.Request.Items) == 0 {
		return []speech.Request{a.Request}
	}
	return a.Request.Items
}
