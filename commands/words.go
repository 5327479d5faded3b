package commands

import (
	"fettle/calc/glue"
	"fettle/calc/wood"
	"fettle/commands/speech"
)

// speciesWords are the timbers of the species table with their other names.
var speciesWords = func() *speech.Vocabulary {
	m := map[string][]string{}
	for _, s := range wood.All() {
		m[s.ID] = append([]string{s.Name}, s.Other...)
	}
	return speech.NewVocabulary("species", m)
}()

// glueWords are the families of glue with the ways of naming them.
var glueWords = speech.NewVocabulary("adhesive", map[string][]string{
	"pva":                  {"pva glue", "white glue", "wood glue", "carpenter's glue", "carpenters glue", "yellow glue", "aliphatic", "pvac", "aliphatic resin", "joiner's glue", "weissleim", "polyvinyl acetate", "polyvinyl"},
	"pva d3":               {"d3", "d3 pva", "d3 glue", "pva d3 glue", "waterproof pva", "exterior pva", "d3 wood glue"},
	"pva d4":               {"d4", "d4 pva", "d4 glue", "d4 wood glue"},
	"polyurethane":         {"pu", "pur", "pu glue", "polyurethane glue", "one part polyurethane", "one-part polyurethane", "1k pu", "foaming glue", "polyurethan", "pur glue", "urethane glue", "urethane", "poly glue"},
	"epoxy":                {"epoxy resin", "epoxi", "two part epoxy", "epoxy glue", "2k epoxy", "epoxid"},
	"urea-formaldehyde":    {"urea formaldehyde", "uf", "urea", "urea resin", "uf resin", "uf glue", "urea glue", "plastic resin", "powdered resin", "powder resin glue", "urea formaldehyde resin"},
	"resorcinol":           {"resorcinol formaldehyde", "rf", "resorcinol glue", "resorcin", "phenol resorcinol"},
	"polyurethane sealant": {"pu sealant", "polyurethane mastic", "pu mastic", "polyurethane adhesive sealant"},
	"ms polymer":           {"ms-polymer", "ms polymer sealant", "hybrid polymer", "ms sealant", "hybrid sealant", "ms polymer glue", "silane polymer"},
	"hide glue":            {"hide", "hot hide glue", "animal glue", "pearl glue", "bone glue", "scotch glue", "hot hide"},
	"liquid hide glue":     {"liquid hide", "cold hide glue", "fish glue"},
})

// glueNamed finds a family by the word of a request.
func glueNamed(word string) (glue.Glue, bool) { return glue.Find(word) }
