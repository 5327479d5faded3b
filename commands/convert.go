package commands

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
	"unicode"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

// convertKinds are the kinds that are converted, with the units in which the answer comes.
var convertKinds = []struct {
	kind  measure.Kind
	units []string
}{
	{measure.KindLength, []string{"mm", "in"}},
	{measure.KindTemperature, []string{"c", "f"}},
	{measure.KindArea, []string{"m2", "ft2"}},
	{measure.KindVolume, []string{"l", "m3", "ft3", "bf", "gal"}},
	{measure.KindMass, []string{"kg", "lb"}},
	{measure.KindForce, []string{"n", "lbf"}},
	{measure.KindPressure, []string{"mpa", "psi"}},
	{measure.KindDuration, []string{"min", "h"}},
}

func convert() *Topic {
	return &Topic{
		Title:    "mm, inches and other units",
		Examples: []string{"11/16 in mm", "830 in inches", "5' 7 3/8\" to mm"},
		Restates: true,
		Form: speech.Form{
			Name: "convert", Exact: true,
			Cues: []speech.Cue{
				{Weight: 6, Pattern: "convert|conversion"},
				{Weight: 5, Pattern: "what|what's|whats is|are? that|this|it|those in|to mm|millimetres|inches|cm|feet|metric|imperial"},
				{Weight: 5, Pattern: "# in|to|into|as|= mm|millimetres|millimeters|cm|centimetres|metres|meters|m|inches|inch|feet|ft|imperial|metric|fahrenheit|celsius|lbs|pounds|kilos|kg|thou|foot|yards"},
				{Weight: 5, Pattern: "how many|much mm|millimetres|millimeters|mil|cm|centimetres|metres|meters|inches|feet|thou|pounds|kilos is|are|in|to|makes|make|does a|an? #"},
				{Weight: 6, Pattern: "how many|much mm|millimetres|millimeters|cm|inches|feet would|is|are|does that|it|this|they"},
				{Weight: 5, Pattern: "# to the nearest"},
				{Weight: 5, Pattern: "# to|as|in a? fractions|fraction|sixteenths|eighths|thirtyseconds"},
				{Weight: 4, Pattern: "how many|much mm|millimetres|millimeters|mil|cm|inches|feet|thou"},
				{Weight: 4, Pattern: "what|what's|whats is|are? # in|as|to|into"},
				{Weight: 4, Pattern: "# .. in mm|millimetres|millimeters|cm|inches|metric|imperial|feet|old|new money|inch $"},
				{Weight: 3, Pattern: "# =mm|millimetres|inches|cm ? $"},
				{Weight: -6, Pattern: "rough|glue|clamp|clamps|cramp|holes|space|spacing|volume|cost|weigh|board|mitre|kerf|allowance|note|remember|gap|settings|work|radius|epoxy|pva|same|chord|slats|slat|emc"},
				{Weight: -3, Pattern: "and .. same"},
			},
			Needs: []speech.Need{
				{Name: "value", Kind: measure.KindNumber, Label: "value", Own: true, Sign: true},
				{Name: "to", Kind: speech.KindWord, Label: "to", Own: true},
			},
			Before: readConvert, After: needConvert, Evidence: shapeConverted,
		},
		Answer: answerConvert,
	}
}

// readConvert takes the numbers to convert and the unit to convert to.
func readConvert(r *speech.Reading) {
	passBeside(r)
	metresAndTens(r)
	from, to := direction(r)
	var list []speech.Slot
	for i := range r.Items {
		if !r.Free(i) || r.Items[i].Q.Value == nil || r.Items[i].Q.Kind == speech.KindPrice {
			continue
		}
		q := r.Items[i].Q
		s := speech.Slot{Said: q.Value, Num: q.Base(), Bare: q.Unit == nil}
		if from != nil && withoutUnit(r, i) {
			s.Unit, s.Bare, s.Num = from.Symbol, false, from.Base(q.Value)
		} else if q.Unit != nil {
			s.Unit = q.Unit.Symbol
		} else if q.Fraction || q.Quarters {
			s.Unit, s.Bare = "in", false
			s.Num = new(big.Rat).Mul(q.Value, big.NewRat(254, 10))
		}
		if q.Kind == speech.KindDate || q.Kind == speech.KindClock || q.Kind == speech.KindBefore || q.Kind == speech.KindTolerance || r.Follows(i, "of") {
			continue
		}
		list = append(list, s)
		r.Claim(i)
		if q.High != nil && q.Unit != nil { // between 10 and 12 mm
			list = append(list, speech.Slot{Said: q.High, Num: q.Unit.Base(q.High), Unit: q.Unit.Symbol})
		}
	}
	list = ofTargetsKind(r, sameUnit(list))
	if len(list) > 0 {
		r.List("value", list)
	}
	if to != nil {
		r.Word("to", to.Symbol)
	} else if r.Says("fractions|fraction|sixteenths|eighths|thirtyseconds") {
		r.Word("to", "in")
	} else if to := r.TargetUnit(); to != "" {
		r.Word("to", otherTarget(r, list, to))
	}
}

// withoutUnit says whether no unit was typed with the number at i itself.
func withoutUnit(r *speech.Reading, i int) bool {
	said := []rune(r.Text[r.Items[i].Start:r.Items[i].End])
	return r.Items[i].Q.Unit == nil || len(said) > 0 && unicode.IsNumber(said[len(said)-1])
}

// otherTarget finds the last unit that is asked for where the first one named is that of the number
// itself: "a drawing in inches: 17 5/16, what is this in mm".
func otherTarget(r *speech.Reading, list []speech.Slot, to string) string {
	if slices.ContainsFunc(list, func(s speech.Slot) bool { return s.Unit != to }) {
		return to
	}
	for i := len(r.Items) - 1; i > 0; i-- {
		if u, ok := measure.UnitNamed(wordAt(r, i)); ok && u.Symbol != to && anyOf(wordAt(r, i-1), "in|to|into|as") {
			return u.Symbol
		}
	}
	return to
}

// sameUnit leaves out bare numbers beside ones with a unit: those are what is to be converted.
func sameUnit(list []speech.Slot) []speech.Slot {
	bare := func(s speech.Slot) bool { return s.Bare }
	if !slices.ContainsFunc(list, func(s speech.Slot) bool { return !s.Bare }) || len(list) < 2 || list[len(list)-1].Bare {
		return slices.DeleteFunc(list, func(s speech.Slot) bool { return s.Bare && len(list) > 1 && !list[0].Bare })
	}
	return slices.DeleteFunc(list, bare)
}

// ofTargetsKind leaves out what can't be turned into the unit that is asked for, where something else can.
func ofTargetsKind(r *speech.Reading, list []speech.Slot) []speech.Slot {
	target, ok := measure.UnitNamed(r.TargetUnit())
	fits := func(s speech.Slot) bool {
		u, known := measure.UnitNamed(s.Unit)
		return !known || u.Kind == target.Kind
	}
	if !ok || !slices.ContainsFunc(list, fits) {
		return list
	}
	return slices.DeleteFunc(list, func(s speech.Slot) bool { return !fits(s) })
}

// needConvert settles what bare numbers are in, and asks where it can't be told: from the
// other of mm and inches, when one of them is wanted.
func needConvert(r *speech.Reading) {
	r.AskFor("value", "Convert what?", "value")
	list, to := r.Request.Slots["value"].List, r.Request.Word("to")
	bare := false
	target, hasTarget := measure.UnitNamed(to)
	for _, s := range list {
		bare = bare || s.Bare
		if u, ok := measure.UnitNamed(s.Unit); ok && hasTarget && u.Kind != target.Kind {
			r.Question = &speech.Question{Text: fmt.Sprintf("%s can't be turned into %s. What shall I convert?", saidText(s), to)}
			return
		}
	}
	if !bare {
		return
	}
	from := map[string]string{"in": "mm", "ft": "mm", "imperial": "mm", "f": "c", "c": "f", "lb": "kg", "kg": "lb"}[to]
	if from != "" {
		r.Request.Slots["value"] = speech.Slot{List: inUnit(list, from)}
		return
	}
	var options []speech.Option
	for _, u := range []string{"mm", "cm", "in"} {
		if u == to {
			continue
		}
		c := r.Moved(nil)
		c.Slots["value"] = speech.Slot{List: inUnit(list, u)}
		options = append(options, speech.Option{Label: u, Words: unitSayings[u], Request: c})
	}
	r.Question = speech.Choice("In which unit is that?", options...)
}

// direction finds two units of a kind with what leads from one to the other between them, before the
// numbers: mm -> in: 19 / 32 / 405.
func direction(r *speech.Reading) (from, to *measure.Unit) {
	for i := 0; i < len(r.Items) && r.Items[i].Q == nil; i++ {
		used, u := unitFrom(r.Sentence, i)
		k := i + used
		for anyOf(wordAt(r, k), "-|>|→|=|to|into") {
			k++
		}
		if u == nil || k == i+used || k >= len(r.Items) {
			continue
		}
		if _, target := unitFrom(r.Sentence, k); target != nil && target.Symbol != u.Symbol && target.Kind == u.Kind {
			return u, target
		}
	}
	return nil, nil
}

// metresAndTens adds bare tens right behind whole metres, which are centimetres: 1 metre 42.
func metresAndTens(r *speech.Reading) {
	for i := 0; i+1 < len(r.Items); i++ {
		if !r.Free(i) || !r.Free(i+1) {
			continue
		}
		q, tens := *r.Items[i].Q, r.Items[i+1].Q
		if q.Unit == nil || q.Unit.Symbol != "m" || !q.Integer || !tens.Bare() || !tens.Integer || tens.Value.Cmp(big.NewRat(10, 1)) < 0 || tens.Value.Cmp(big.NewRat(99, 1)) > 0 {
			continue
		}
		q.Value, q.Integer = new(big.Rat).Add(q.Value, new(big.Rat).Quo(tens.Value, big.NewRat(100, 1))), false
		r.Items[i].Q = &q
		r.Claim(i + 1)
	}
}

var unitSayings = map[string][]string{"mm": {"millimetres", "millimeters"}, "cm": {"centimetres", "centimeters"}, "in": {"inches", "inch"}}

func inUnit(list []speech.Slot, symbol string) []speech.Slot {
	u, _ := measure.UnitNamed(symbol)
	out := make([]speech.Slot, len(list))
	for i, s := range list {
		if s.Bare {
			s.Unit, s.Bare, s.Num = symbol, false, u.Base(s.Said)
		}
		out[i] = s
	}
	return out
}

func answerConvert(a *Ask) Answer {
	list := a.Request.Slots["value"].List
	ans := say("")
	var lines []string
	results := map[string][]float64{}
	for _, s := range list {
		u, ok := measure.UnitNamed(s.Unit)
		if !ok {
			return ask("In which unit is that?")
		}
		line, ok := convertOne(s, u, a.Word("to"), results)
		if !ok {
			return ask("I can convert sizes, areas, volumes, weights and temperatures. What is it?")
		}
		lines = append(lines, line)
	}
	for unit, vs := range results {
		if len(vs) != len(list) {
			return ask("Those are different kinds of number; which of them?")
		}
		ans.Values[unit] = any(vs)
		if len(vs) == 1 {
			ans.Values[unit] = vs[0]
		}
	}
	ans.because(unitReasons(list, results)...)
	ans.Answer = lines[0]
	if len(lines) > 1 {
		ans.Answer = strings.Join(lines, "; ")
		if len([]rune(ans.Answer)) > MaxHeadline {
			ans.Answer = fmt.Sprintf("%d conversions below", len(lines))
			for _, l := range lines {
				ans.line(l)
			}
		}
	}
	return ans
}

// exactUnits are units with what they are by definition.
var exactUnits = map[string]string{
	"in": "1 in = 25.4 mm", "ft": "1 ft = 12 in = 304.8 mm", "yd": "1 yd = 914.4 mm", "lb": "1 lb = 0.45359237 kg", "oz": "1 oz = 1/16 lb",
	"ft2": "1 ft² = 0.3048² m²", "ft3": "1 ft³ = 28.316846592 l", "bf": "1 board foot = 144 cubic inches", "gal": "1 US gallon = 231 cubic inches",
	"f": "°C = (°F − 32) × 5/9", "lbf": "1 lbf = 4.4482216152605 N", "psi": "1 psi = 1 lbf on a square inch",
}

// unitReasons says what the units are that a conversion went by.
func unitReasons(list []speech.Slot, results map[string][]float64) []string {
	var facts []string
	for symbol, text := range exactUnits {
		said := slices.ContainsFunc(list, func(s speech.Slot) bool { return s.Unit == symbol })
		if _, shown := results[symbol]; said || shown {
			facts = append(facts, text)
		}
	}
	slices.Sort(facts)
	facts = append(facts, "metric prefixes are tens")
	return []string{strings.Join(facts, "; ") + ".", "Exact by definition (international yard and pound, 1959; SI); only what is printed is rounded. From memory."}
}

// convertOne adds a number to the results in every unit of its kind and words it.
func convertOne(s speech.Slot, u *measure.Unit, to string, results map[string][]float64) (string, bool) {
	for _, k := range convertKinds {
		if k.kind != u.Kind {
			continue
		}
		for _, symbol := range k.units {
			target, _ := measure.UnitNamed(symbol)
			v, _ := target.FromBase(s.Num).Float64()
			results[symbol] = append(results[symbol], v)
		}
		if u.Kind == measure.KindLength {
			return convertLength(s, u, to), true
		}
		return convertOther(s, u, k.units, to), true
	}
	return "", false
}

func convertLength(s speech.Slot, u *measure.Unit, to string) string {
	l, err := measure.Times(s.Num, measure.Millimetre)
	if err != nil {
		return saidText(s) + " is beyond any tape"
	}
	said := saidText(s)
	inches := inchText(l)
	mm := measure.Decimal(l.MM(), 4) + " mm"
	switch {
	case to == "in" || to == "imperial" || to == "ft":
		if to == "ft" || l >= 4*measure.Foot {
			inches += " = " + feetText(l)
		}
		return said + " = " + inches
	case to == "cm":
		return said + " = " + measure.Decimal(l.MM()/10, 4) + " cm"
	case to == "m":
		return said + " = " + measure.Decimal(l.MM()/1000, 4) + " m"
	case u.Symbol == "mm" || u.Symbol == "cm" || u.Symbol == "m":
		if to == "mm" {
			return said + " = " + mm
		}
		return said + " = " + inches
	}
	return said + " = " + mm
}

// inchText gives decimal inches and the nearest sixty-fourth.
func inchText(l measure.Length) string {
	text, exact := measure.NearestSixtyFourth(l)
	if exact {
		return text + " in"
	}
	return fmt.Sprintf("%s in, about %s in", measure.Decimal(l.Inches(), 4), text)
}

func feetText(l measure.Length) string {
	feet := l / measure.Foot
	rest, _ := measure.NearestSixtyFourth(l - feet*measure.Foot)
	return fmt.Sprintf("%d ft %s in", feet, rest)
}

func convertOther(s speech.Slot, u *measure.Unit, units []string, to string) string {
	var parts []string
	wanted, named := measure.UnitNamed(to)
	asked := named && wanted.Kind == u.Kind
	if asked && !slices.Contains(units, to) {
		units = append([]string{to}, units...)
	}
	for _, symbol := range units {
		if symbol == u.Symbol || asked && to != symbol {
			continue
		}
		target, _ := measure.UnitNamed(symbol)
		v, _ := target.FromBase(s.Num).Float64()
		parts = append(parts, measure.Decimal(v, 3)+" "+unitShown(symbol))
	}
	return saidText(s) + " = " + strings.Join(parts, " = ")
}

func unitShown(symbol string) string {
	switch symbol {
	case "c", "f":
		return "°" + strings.ToUpper(symbol)
	case "m2", "ft2":
		return symbol[:len(symbol)-1] + "²"
	case "m3", "ft3":
		return symbol[:len(symbol)-1] + "³"
	case "bf":
		return "board feet"
	case "mpa":
		return "MPa"
	}
	return symbol
}
