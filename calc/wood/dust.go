package wood

// sensitisers are the timbers whose dust sensitises or irritates by published safety texts, with
// what it does: HSE woodworking pages and a hygiene note (cedar worst for asthma; iroko, teak),
// USDA FPL sheets (teak, ipe), all seen. Other timbers are not harmless: any wood dust is to be
// kept out of the lungs.
var sensitisers = map[string]string{
	"western red cedar": "can bring on asthma",
	"cedar":             "can bring on asthma",
	"iroko":             "sensitises skin and lungs",
	"teak":              "sensitises skin and lungs",
	"ipe":               "irritates skin and lungs",
}

// Dust says in a few words what the dust of a timber does to people who become sensitive to
// it, and false for timbers of which no source here says so.
func (s Species) Dust() (string, bool) {
	text, ok := sensitisers[s.ID]
	return text, ok
}
