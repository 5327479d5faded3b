package commands

import (
	"math/big"
	"regexp"
	"slices"
	"strings"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

// doneSaid is one clause about what is done.
type doneSaid struct {
	name   string
	stages []string
	count  *speech.Slot
	of     *speech.Slot
	how    string // of: altogether; more; last; all; spoiled; not; untick; "": as it stands
	some   string // of what is not so: last, half, all
}

func (d doneSaid) slots() map[string]speech.Slot {
	m := map[string]speech.Slot{}
	if d.name != "" {
		m["name"] = speech.Slot{Word: d.name}
	}
	if len(d.stages) > 0 {
		m["what"] = speech.Slot{Word: strings.Join(d.stages, " ")}
	}
	if d.count != nil {
		m["quantity"] = *d.count
	}
	if d.of != nil {
		m["of"] = *d.of
	}
	if d.how != "" {
		m["how"] = speech.Slot{Word: d.how}
	}
	if d.some != "" {
		m["some"] = speech.Slot{Word: d.some}
	}
	return m
}

// stageOf gives the stage that a word says is over.
var stageOf = func() map[string]string {
	m := map[string]string{}
	for words, stage := range stageWords {
		for _, w := range strings.Fields(words) {
			m[w] = stage
		}
	}
	return m
}()

// spoils are the words that say that a piece is lost.
var spoils = set("spoiled spoilt ruined botched wrecked scrapped scrap snapped split broke broken cracked messed wrong remake remaking")

// telling are the words of such a message that name nothing.
var telling = set(`a an the this that these those i we i've we've he she they you have has had is are was were be been being just now then finally also already at last too to short narrow thin small
	sorry oops damn all both every each rest remaining other others another more of out so far up off and but with my our at yet it's its for by made make making again needs need needing must got
	one's them on done today tonight ok okay right yes hi hey petra's gil's half run length size final well completely nicely still needed having in flush please tomorrow must've long
	thanks lot everything no nope wait actually meant mean say said it that's it's there's roughly about nearly`)

var doneClauses = regexp.MustCompile(`(?i)\s*(?:[,;.!]+|\s(?:and|but|then|&|plus)\s)\s*`)

var saysNot = regexp.MustCompile(`(?i)\b(?:not|isn't|aren't|haven't|hasn't|except|n't|without)\b`)

// doneIn finds what a message says is done.
func doneIn(text string) []doneSaid {
	text = strings.NewReplacer("’", "'", "‘", "'").Replace(text)
	var without *speech.Slot
	if m := allBut.FindStringSubmatchIndex(text); m != nil {
		if qs := speech.Quantities(text[m[2]:m[3]]); len(qs) == 1 {
			without = &speech.Slot{Num: qs[0].Value, Said: qs[0].Value}
			text = text[:m[0]] + " " + text[m[1]:]
		}
	}
	var out []doneSaid
	var before []string // things named before it is said what is done with them
	for _, c := range doneClauses.Split(strings.TrimSpace(text), -1) {
		if saysNot.MatchString(c) {
			continue
		}
		d := doneClause(c)
		spoiled := d.how == "spoiled"
		switch {
		case len(d.stages) == 0 && !spoiled && d.name != "" && len(out) == 0:
			before = append(before, d.name)
		case len(d.stages) == 0 && !spoiled:
		case d.name == "" && len(before) > 0:
			d.name = strings.Join(before, " and ")
			before = nil
			out = append(out, d)
		case d.name == "" && len(out) > 0 && spoiled == (out[len(out)-1].how == "spoiled"):
			last := &out[len(out)-1]
			for _, s := range d.stages {
				if !slices.Contains(last.stages, s) {
					last.stages = append(last.stages, s)
				}
			}
		case d.name == "" && len(out) > 0:
		default:
			if len(before) > 0 {
				d.name = strings.Join(append(before, d.name), " and ")
				before = nil
			}
			out = append(out, d)
		}
	}
	for i := range out {
		if out[i].name == "" {
			out[i].name = "it"
		}
		if without != nil && out[i].how != "spoiled" {
			out[i].count, out[i].how = without, "but"
		}
	}
	return out
}

// allBut says that so many are missing from all.
var allBut = regexp.MustCompile(`(?i)\b(?:but|except|bar|save)(?: for)? (one|two|three|four|five|six|\d+)\b`)

// doneClause reads one clause: which stages, how many, of what.
func doneClause(c string) doneSaid {
	s := speech.Read(c)
	d := doneSaid{}
	d.count, d.of, d.how = howMany(s)
	lost := s.Says("too|to short|narrow|thin|small|deep") || s.Says("cut|made|planed .. =short") || s.Says("making|remaking|made|doing again")
	var name []string
	for i, it := range s.Items {
		if q := it.Q; q != nil {
			if q.Kind == speech.KindLabel || sizeOfName(s, i) || q.Kind == measure.KindLength && !lost || q.Bare() && len(name) > 0 && i == len(s.Items)-1 {
				name = append(name, s.Text[it.Start:it.End])
			}
			continue
		}
		w := it.Text
		stage, isStage := stageOf[w]
		switch {
		case spoils[w]:
			lost = true
		case isStage && !(w == "in" && i+1 < len(s.Items)) && !(w == "made" && lost):
			if !slices.Contains(d.stages, stage) {
				d.stages = append(d.stages, stage)
			}
		case w == "everything":
			name = append(name, w)
		case telling[w] || !wordy(w):
		default:
			name = append(name, s.Text[it.Start:it.End])
		}
	}
	d.name = strings.Join(name, " ")
	if s.Says("rough|cross cut") && slices.Contains(d.stages, stageCut) {
		d.stages = []string{stageRoughed}
		d.name = strings.TrimSpace(strings.NewReplacer("rough", "", "cross", "").Replace(d.name))
	}
	if lost {
		d.how, d.stages = "spoiled", nil
	}
	return d
}

// mostPieces is how many pieces a number can count; a larger one beside a name is a size: the 612 rail.
const mostPieces = 60

func sizeOfName(s speech.Sentence, i int) bool {
	q := s.Items[i].Q
	return q.Bare() && q.Value != nil && q.High == nil && q.Value.Cmp(big.NewRat(mostPieces, 1)) > 0
}

// pronoun says whether a one stands for a thing and counts nothing: the bottom one.
func pronoun(s speech.Sentence, i int) bool {
	if i == 0 || s.Items[i].Q.Value.Cmp(big.NewRat(1, 1)) != 0 || s.Items[i-1].Q != nil {
		return false
	}
	before := s.Items[i-1].Text
	_, stage := stageOf[before]
	return !stage && !spoils[before] && !telling[before] && wordy(before)
}

// howMany reads how many pieces a clause is about: 5 of 6, the last two, all, three more.
func howMany(s speech.Sentence) (count, of *speech.Slot, how string) {
	var nums []*speech.Slot
	for i, it := range s.Items {
		q := it.Q
		if q == nil || !q.Integer || q.Value == nil || q.High != nil || q.Kind != speech.KindCount && !q.Bare() || sizeOfName(s, i) || pronoun(s, i) {
			continue
		}
		if len(nums) > 0 && !(i > 0 && s.Items[i-1].Text == "of" || i > 1 && s.Items[i-1].Q == nil && s.Items[i-2].Text == "of") {
			continue
		}
		nums = append(nums, &speech.Slot{Num: q.Value, Said: q.Value})
	}
	switch {
	case len(nums) >= 2 && s.Says("# of|out of|the? the? #"):
		return nums[0], nums[1], "of"
	case s.Says("last|other|remaining|rest|others"):
		how = "last"
	case s.Says("more|another|further|extra"):
		how = "more"
	case s.Says("half of?") && !s.Says("half an? hour"):
		how = "half"
	case s.Says("all|both|every|each|everything"):
		how = "all"
	}
	if len(nums) > 0 {
		return nums[0], nil, how
	}
	if how == "more" {
		how = ""
	}
	return nil, nil, how
}
