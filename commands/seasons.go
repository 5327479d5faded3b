package commands

import (
	"strings"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

// Words that tell a lowest temperature from a highest one.
const (
	ofCold = "winter|wintertime|january|february|december|november|jan|feb|dec|nov|coldest|lowest|low|lows|min|minimum|night|nights|nighttime|frost|frosts|cold|freeze|bottom"
	ofHot  = "summer|summertime|june|july|august|jun|jul|aug|hottest|highest|high|highs|max|maximum|day|days|daytime|noon|midday|sun|sunshine|warmest|heat|hot|heatwave|peak|top"
)

// hottestSaid is the highest bare number that is taken for a temperature, in °F or °C: a dark pane in the
// sun. Common practice, no source.
const hottestSaid = 200

// farthestSeason is how many words may stand between a temperature and what tells its time.
const farthestSeason = 4

// coldAndHot reads two temperatures that the seasons beside them tell: "20 F in January and 110 F in
// August", "in winter -10, in summer 40", or that stand side by side as the only two.
func coldAndHot(r *speech.Reading) (fromTo, bool) {
	cold, hot := -1, -1
	used := map[int]bool{}
	for i := range r.Items {
		if !r.Free(i) || !mayBeWarmth(r, i) {
			continue
		}
		switch at, word := seasonOf(r, i, used); {
		case at < 0:
		case anyOf(word, ofCold) && cold < 0:
			cold, used[at] = i, true
		case anyOf(word, ofHot) && hot < 0:
			hot, used[at] = i, true
		}
	}
	if cold < 0 || hot < 0 {
		if cold, hot = onlyTwo(r); cold < 0 {
			return fromTo{}, false
		}
	}
	return inOneScale(r, cold, hot), true
}

// mayBeWarmth accepts temperatures, and bare numbers that are no part of a size.
func mayBeWarmth(r *speech.Reading, i int) bool {
	q := r.Items[i].Q
	if q.Value == nil || q.High != nil || len(q.Per) > 0 {
		return false
	}
	if q.Kind == speech.KindLabel { // hottest day 38
		return anyOf(wordAt(r, i-1), "day|night")
	}
	return warmth(q) || q.Bare() && saidNumberAt(r, i) <= hottestSaid && !r.Items[i].Q.Fraction && aloneBut(r, i) && !anyOf(wordAt(r, i+1), "long|wide|thick|deep|high|mm|of|off")
}

// aloneBut says whether the number is no part of a size: "35 by day" is none.
func aloneBut(r *speech.Reading, i int) bool {
	sign := wordAt(r, i+1) == "×" && i+2 < len(r.Items) && r.Items[i+2].Q != nil
	return !sign && wordAt(r, i-1) != "×"
}

// seasonOf finds the word that tells the time of the temperature at i: before it, else behind it, in
// the same part of the sentence.
func seasonOf(r *speech.Reading, i int, used map[int]bool) (at int, word string) {
	for _, step := range []int{-1, 1} {
		for n := 1; n <= farthestSeason; n++ {
			k := i + step*n
			w := strings.TrimSuffix(wordAt(r, k), "'s")
			if w == "to" && step < 0 && !anyOf(wordAt(r, k-1), "up|down") {
				break // what stands before is of the other temperature
			}
			if w == "" || anyOf(w, ",|.|;|?|and|or|but|over|through|swing") {
				break
			}
			if !used[k] && (anyOf(w, ofCold) || anyOf(w, ofHot)) {
				return k, w
			}
			if w == "down" && step < 0 {
				return k, "low"
			}
			if w == "up" && step < 0 {
				return k, "high"
			}
		}
	}
	return -1, ""
}

// onlyTwo finds the only two temperatures of a message where no more than a link is between them.
func onlyTwo(r *speech.Reading) (first, second int) {
	var all []int
	for i := range r.Items {
		if r.Free(i) && r.Items[i].Q.Value != nil && warmth(r.Items[i].Q) {
			all = append(all, i)
		}
	}
	if len(all) == 1 && anyOf(wordAt(r, all[0]+1), "and|or|/") && r.Free(all[0]+2) && mayBeWarmth(r, all[0]+2) {
		return all[0], all[0] + 2
	}
	if len(all) != 2 || all[1]-all[0] != 2 || !anyOf(wordAt(r, all[0]+1), "and|or|,|/") {
		return -1, -1
	}
	return all[0], all[1]
}

// inOneScale gives the two temperatures, a bare one in the scale of the other.
func inOneScale(r *speech.Reading, cold, hot int) fromTo {
	from, to := *r.Items[cold].Q, *r.Items[hot].Q
	for _, q := range []*speech.Quantity{&from, &to} {
		if q.Kind == speech.KindLabel {
			q.Kind = measure.KindNumber
		}
	}
	switch {
	case from.Bare() && !to.Bare():
		from.Unit, from.Kind = to.Unit, to.Kind
	case to.Bare() && !from.Bare():
		to.Unit, to.Kind = from.Unit, from.Kind
	case from.Bare():
		if c, ok := measure.UnitNamed("c"); ok {
			from.Unit, from.Kind, to.Unit, to.Kind = c, c.Kind, c, c.Kind
		}
	}
	return fromTo{from, to, []int{cold, hot}}
}
