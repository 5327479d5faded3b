package commands

import "fettle/commands/speech"

// ReadClauses gives fuzzing what the readers of clauses make of a text: how many claims and things
// done, and whether every span of hours that was not asked about is sound.
func ReadClauses(text string) (claims, done int, sound bool) {
	said := readHours(speech.Read(text))
	sound = true
	for _, d := range said.days {
		for _, s := range d.spans {
			sound = sound && (said.unsound != "" || s.Sound())
		}
	}
	return len(claimsIn(text)), len(doneIn(text)), sound
}
