package commands

import (
	"slices"

	"fettle/commands/odds"
	"fettle/commands/speech"
)

// oddsOf puts the trained odds into the order of the forms. Weights that can't be read are a
// fault of the build, which the first test shows.
func oddsOf(forms []*speech.Form) speech.Odds {
	m, err := odds.Trained()
	if err != nil {
		panic(err)
	}
	return oddsBy(m, forms)
}

func oddsBy(m *odds.Model, forms []*speech.Form) speech.Odds {
	at := make([]int, len(forms))
	for i, f := range forms {
		at[i] = slices.Index(m.Topics, f.Name)
	}
	none := slices.Index(m.Topics, Unknown)
	return func(s speech.Sentence) ([]float64, float64) {
		likely := m.Of(s)
		of := make([]float64, len(at))
		for i, k := range at {
			if k >= 0 {
				of[i] = likely[k]
			}
		}
		return of, likely[none]
	}
}

// Chooser tells the topic of a message that stands alone as another model than the program's own has
// it, so that it can be measured how messages fare that a model never saw.
func Chooser(m *odds.Model) func(text string) string {
	forms := formsOf(all.topics)
	language := speech.NewLanguage(forms, oddsBy(m, forms))
	return func(text string) string {
		u := language.Understand(text, speech.Context{})
		if u.Manner == speech.Nothing {
			return Unknown
		}
		return u.Request.Topic
	}
}
