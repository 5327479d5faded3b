package commands

import (
	"math/big"
	"strconv"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

// shapeWords name a figure by its number of sides.
var shapeWords = speech.NewVocabulary("shape", map[string][]string{
	"3": {"triangle", "triangular", "dreieck"}, "4": {"square box", "square hopper", "square planter", "square tub", "square bin",
		"square bucket", "square funnel", "square tray", "square trough", "square flue", "square frame", "rectangular box", "rectangular hopper", "rectangular tray", "rectangular trough", "rectangular planter"},
	"5": {"pentagon", "pentagonal"}, "6": {"hexagon", "hexagonal", "sechseck"}, "7": {"heptagon", "heptagonal"},
	"8": {"octagon", "octagonal", "achteck"}, "9": {"nonagon"}, "10": {"decagon", "decagonal"}, "12": {"dodecagon", "dodecagonal"},
})

func sidesNeed(ask string) speech.Need {
	return speech.Need{Name: "sides", Kind: speech.KindCount, Label: "sides", Min: 3, Max: 64, Ask: ask}
}

var sidesPatterns = []string{
	"# -? =sided|sidded|side'd", "# -? equal|sloping|sloped|splayed|angled|raked|slanting|leaning|identical|flat|straight? =sides|walls|staves|segments|facets|faces", "# -? =side|cornered|segment|stave|faced box|frame|hopper|ring|planter|tub|window|lantern|bucket|bin",
	"=sides|segments|staves|walls :|=|× #", "=n :|= #",
}

// readSides reads how many sides a figure has: eight-sided, 6 sides, a hexagon.
func readSides(r *speech.Reading) {
	for _, p := range sidesPatterns {
		for _, i := range r.All(p) {
			if q := r.Items[i].Q; q.Value != nil && q.Integer && (q.Unit == nil || q.Kind == speech.KindCount) {
				r.Set("sides", i)
				return
			}
		}
	}
	if w, ok := r.Named(shapeWords); ok {
		n, _ := strconv.ParseInt(w, 10, 64)
		r.Put("sides", speech.Quantity{Kind: measure.KindNumber, Value: big.NewRat(n, 1), Integer: true})
	}
}
