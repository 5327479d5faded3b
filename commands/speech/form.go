package speech

import (
	"maps"
	"slices"

	"fettle/calc/measure"
)

// KindWord is the kind of a need that is met by a word of a vocabulary: a species, a glue.
const KindWord measure.Kind = "word"

// Form is what this package must know of a topic to recognise a request for it and to fill
// it in.
type Form struct {
	Name   string
	Cues   []Cue    // words that point to the topic
	Needs  []Need   // what it must or may know
	Sizes  []string // needs that take sizes without a role, in this order: 600 × 45 × 22
	Items  bool     // several sizes in one message are several items
	Writes bool     // changes the project, so that a later message must say plainly that it goes on from it
	Text   bool     // takes what is said as it stands: a note
	Exact  bool     // every number counts: one that has no place is asked about

	// Evidence weighs what no cue can tell: that a message is a list, by its lines.
	Evidence func(Sentence) int
	// Before reads what needs the topic's own knowledge and claims the quantities that it used,
	// before the needs are filled.
	Before func(*Reading)
	// After mends what was filled: two sizes may be a width and a thickness.
	After func(*Reading)
}

// Cue is a pattern that points to a topic, with how strongly it does. From Sure upwards one
// cue alone is enough.
type Cue struct {
	Weight  int
	Pattern string
}

// Sure is the evidence at which a topic is taken without asking.
const Sure = 3

// Need is one thing that a topic must or may know.
type Need struct {
	Name   string       // as in given: length_mm
	Kind   measure.Kind // of the quantity, or KindWord
	Roles  []string     // patterns that give a number this role; # stands for the number
	Min    float64      // the plausible range, in the base unit of the kind
	Max    float64
	Label  string // in a question: "length"
	Ask    string // the question when it is missing; empty: it may be missing
	Vocab  *Vocabulary
	Own    bool // set by Before or After only
	Change bool // a difference of temperatures
	Sign   bool // may be below nought
	Aside  bool // is about how to answer: a message of asides alone goes on from the last request
	Leads  bool // of two needs that a number may change it is this one that is meant
}

// need finds a need by name.
func (f *Form) need(name string) *Need {
	for i := range f.Needs {
		if f.Needs[i].Name == name {
			return &f.Needs[i]
		}
	}
	return nil
}

// Vocabulary is a set of words that mean one of several things.
type Vocabulary struct {
	Name    string
	phrases map[string]string // stems joined by spaces → the meaning
	texts   map[string]string // single words → their stems
	longest int
}

// NewVocabulary makes a vocabulary from phrases: each key is what is meant, each value lists
// the ways of saying it. The key itself is always one of them.
func NewVocabulary(name string, meanings map[string][]string) *Vocabulary {
	v := &Vocabulary{Name: name, phrases: map[string]string{}, texts: map[string]string{}}
	for meaning, ways := range meanings {
		for _, w := range append(ways, meaning) {
			v.add(w, meaning)
		}
	}
	return v
}

// With makes a vocabulary of this one and further meanings.
func (v *Vocabulary) With(name string, meanings map[string][]string) *Vocabulary {
	more := NewVocabulary(name, meanings)
	maps.Copy(more.phrases, v.phrases)
	maps.Copy(more.texts, v.texts)
	more.longest = max(more.longest, v.longest)
	return more
}

func (v *Vocabulary) add(way, meaning string) {
	key, n := "", 0
	for _, it := range Read(way).Items {
		if it.Q != nil {
			continue
		}
		if n > 0 {
			key += " "
		}
		key += it.Stem
		v.texts[it.Text] = it.Stem
		n++
	}
	v.phrases[key] = meaning
	v.longest = max(v.longest, n)
}

// At finds the longest phrase of the vocabulary that starts at item i, and how many items
// it takes.
func (v *Vocabulary) At(s Sentence, i int) (string, int) {
	key, best, used := "", "", 0
	for n := 0; n < v.longest && i+n < len(s.Items) && s.Items[i+n].Q == nil; n++ {
		if s.Items[i+n].Text == "-" && n > 0 {
			continue
		}
		if n > 0 {
			key += " "
		}
		key += s.Items[i+n].Stem
		if m, ok := v.phrases[key]; ok {
			best, used = m, n+1
		}
	}
	return best, used
}

// Words lists the single words that the vocabulary's phrases are made of.
func (v *Vocabulary) Words() []string { return slices.Sorted(maps.Keys(v.texts)) }
