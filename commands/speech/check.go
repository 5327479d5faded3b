package speech

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"

	"fettle/calc/measure"
)

// check looks at what was filled in and gives the question that must be asked before the
// request can be answered, or nil.
func (r *Reading) check() *Question {
	if q := r.unreadNumber(); q != nil {
		return q
	}
	if q := r.twoNumbers(); q != nil {
		return q
	}
	if q := checkAll(r.Request, r.Form); q != nil {
		return q
	}
	if q := r.centimetresMeant(); q != nil {
		return q
	}
	if r.missing != nil && len(r.Request.Items) == 0 {
		return r.missing
	}
	if q := r.inDoubt(); q != nil {
		return q
	}
	if r.Question != nil {
		return r.Question
	}
	return r.firstMissing()
}

// firstMissing asks for the first need that must be met and is not.
func (r *Reading) firstMissing() *Question {
	for i := range r.Form.Needs {
		n := &r.Form.Needs[i]
		if n.Ask != "" && !r.Request.Has(n.Name) && len(r.Request.Items) == 0 {
			return &Question{Text: n.Ask, Need: n.Name}
		}
	}
	return nil
}

func (r *Reading) unreadNumber() *Question {
	for i, it := range r.Items {
		if it.Q != nil && it.Q.Kind == KindUnread && !r.claimed[i] {
			return &Question{Text: "I can't read one of the numbers as a size. Please say it again in plain figures."}
		}
	}
	return nil
}

// twoNumbers asks which of two numbers stands for one need.
func (r *Reading) twoNumbers() *Question {
	for i := range r.Form.Needs {
		n := &r.Form.Needs[i]
		second, ok := r.Request.Slots[twice+n.Name]
		if !ok {
			continue
		}
		first := r.Request.Slots[n.Name]
		delete(r.Request.Slots, twice+n.Name)
		var options []Option
		for _, s := range []Slot{first, second} {
			c := r.Request.clone()
			c.Slots[n.Name] = s
			options = append(options, Option{Label: s.text(), Words: []string{s.Said.RatString()}, Request: c})
		}
		delete(r.Request.Slots, n.Name)
		q := Choice(fmt.Sprintf("I heard two figures for the %s. Which one stands?", n.Label), options...)
		q.Need = n.Name
		return q
	}
	return nil
}

// text says a slot as it was said.
func (s Slot) text() string {
	if s.Num == nil {
		return s.Word
	}
	said, _ := s.Said.Float64()
	t := strconv.FormatFloat(said, 'f', -1, 64)
	if len(t) > 12 {
		t = strconv.FormatFloat(said, 'g', 6, 64)
	}
	switch s.Unit {
	case "":
		return t
	case "c", "f":
		return t + " °" + strings.ToUpper(s.Unit)
	case "deg":
		return t + "°"
	case "pct":
		return t + " %"
	}
	return t + " " + s.Unit
}

// checkAll asks about the first number that is not plausible.
func checkAll(req Request, f *Form) *Question {
	for k, it := range req.Items {
		if q := checkNumbers(it, f); q != nil {
			return ofItem(req, k, q, f)
		}
	}
	return checkNumbers(req, f)
}

// ofItem makes the options of a question about one item options of the whole request. What is
// the unit of one is that of every other that needs it.
func ofItem(req Request, item int, q *Question, f *Form) *Question {
	for k, o := range q.Options {
		c := req.clone()
		c.Items[item] = o.Request
		for _, unit := range readings[measure.KindLength] {
			if unit.label != o.Label {
				continue
			}
			for j, it := range c.Items {
				if in, ok := inOtherUnit(it, f, measure.KindLength, unit.symbol); j != item && ok && checkNumbers(it, f) != nil {
					c.Items[j] = in
				}
			}
		}
		q.Options[k].Request = c
	}
	return q
}

func checkNumbers(req Request, f *Form) *Question {
	bare := false
	for i := range f.Needs {
		n := &f.Needs[i]
		s, ok := req.Slots[n.Name]
		if !ok || s.Num == nil || n.sound(s) {
			continue
		}
		if s.Bare && s.Num.Sign() > 0 && (n.Kind == measure.KindLength || n.Kind == measure.KindTemperature) {
			bare = true
			continue
		}
		return &Question{Text: n.refuse(s), Need: n.Name}
	}
	if bare {
		return otherUnit(req, f)
	}
	return nil
}

func (n *Need) sound(s Slot) bool {
	if !n.plausible(s.Num) || s.Num.Sign() < 0 && !n.Sign {
		return false
	}
	return n.Kind != KindCount || s.Num.IsInt() && s.Num.Sign() > 0
}

// refuse says what is wrong with a number in a sentence that asks for the right one.
func (n *Need) refuse(s Slot) string {
	switch {
	case s.Num.Sign() < 0 && !n.Sign:
		return fmt.Sprintf("A %s below nought (%s) can't be. What is it really?", n.Label, s.text())
	case s.Num.Sign() == 0 && n.Min > 0:
		return fmt.Sprintf("The %s can't be nought. What is it really?", n.Label)
	}
	return fmt.Sprintf("%s is no %s that I can believe (I expect %s). What is it really?", s.text(), n.Label, n.span())
}

// span says the plausible range in the unit that suits it.
func (n *Need) span() string {
	unit, scale := baseUnits[n.Kind], 1.0
	if n.Kind == measure.KindLength && n.Min >= 1000 {
		unit, scale = "m", 1000
	}
	return fmt.Sprintf("%s to %s%s", measure.Decimal(n.Min/scale, 2), measure.Decimal(n.Max/scale, 2), unitText(unit))
}

func unitText(u string) string {
	switch u {
	case "":
		return ""
	case "pct":
		return " %"
	case "c":
		return " °C"
	case "deg":
		return "°"
	}
	return " " + u
}

var baseUnits = map[measure.Kind]string{
	measure.KindLength: "mm", measure.KindArea: "m2", measure.KindVolume: "l", measure.KindMass: "kg",
	measure.KindAngle: "deg", measure.KindTemperature: "c", measure.KindPercent: "pct", measure.KindDuration: "min",
	measure.KindPressure: "MPa",
}

// readings are the units tried for bare numbers that are implausible as they stand, with the
// words that choose them.
var readings = map[measure.Kind][]struct {
	symbol, label string
	words         []string
}{
	measure.KindLength: {
		{"mm", "mm", []string{"millimetres", "millimeters", "mil"}},
		{"cm", "cm", []string{"centimetres", "centimeters"}},
		{"in", "inches", []string{"inch", "in"}},
		{"m", "metres", []string{"meters", "metre", "m"}},
	},
	measure.KindTemperature: {
		{"c", "°C", []string{"c", "celsius", "centigrade"}},
		{"f", "°F", []string{"f", "fahrenheit"}},
	},
}

// otherUnit offers the units in which every bare number of the request is plausible.
func otherUnit(req Request, f *Form) *Question {
	kind := measure.KindTemperature
	for i := range f.Needs {
		if s, ok := req.Slots[f.Needs[i].Name]; ok && s.Bare && f.Needs[i].Kind == measure.KindLength && !f.Needs[i].sound(s) {
			kind = measure.KindLength
		}
	}
	q := &Question{}
	for _, u := range readings[kind] {
		if c, ok := inOtherUnit(req, f, kind, u.symbol); ok {
			q.Options = append(q.Options, Option{Label: u.label, Words: u.words, Request: c})
		}
	}
	said := bareText(req, f, kind)
	if c, slip, ok := tenth(req, f, kind); ok && len(q.Options) == 0 {
		q.Options = []Option{{Label: slip, Request: c}}
		q.Text = fmt.Sprintf("Do you mean %s?", slip)
		return q
	}
	switch len(q.Options) {
	case 0:
		q.Text = fmt.Sprintf("I can't make a sensible size of %s. Please say it again with the unit.", said)
		if kind == measure.KindTemperature {
			q.Text = fmt.Sprintf("I can't believe %s in a workshop. What is the temperature?", said)
		}
	case 1:
		q.Text = fmt.Sprintf("Do you mean %s in %s?", said, q.Options[0].Label)
		if kind == measure.KindTemperature {
			q.Text = fmt.Sprintf("Do you mean %s %s?", said, q.Options[0].Label)
		}
	default:
		labels := make([]string, len(q.Options))
		for i, o := range q.Options {
			labels[i] = fmt.Sprintf("%d %s", i+1, o.Label)
		}
		q.Text = fmt.Sprintf("In which unit is %s? %s", said, strings.Join(labels, " · "))
	}
	return q
}

// tenth reads a single length that no unit makes plausible as one whose decimal point was
// lost: 32 for 3.2.
func tenth(req Request, f *Form, kind measure.Kind) (Request, string, bool) {
	c := req.clone()
	label := ""
	for i := range f.Needs {
		n := &f.Needs[i]
		s, ok := c.Slots[n.Name]
		if !ok || n.Kind != kind || kind != measure.KindLength || n.Own {
			continue
		}
		tenth := big.NewRat(1, 10)
		s.Num, s.Said = new(big.Rat).Mul(s.Num, tenth), new(big.Rat).Mul(s.Said, tenth)
		if label != "" || !s.Bare || !n.sound(s) {
			return c, "", false
		}
		s.Bare, label = false, s.text()
		c.Slots[n.Name] = s
	}
	return c, label, label != ""
}

func inOtherUnit(req Request, f *Form, kind measure.Kind, symbol string) (Request, bool) {
	c := req.clone()
	changed := false
	for i := range f.Needs {
		n := &f.Needs[i]
		s, ok := c.Slots[n.Name]
		if !ok || n.Kind != kind || !s.Bare || n.Own && kind == measure.KindLength {
			continue
		}
		was := s.Num
		s.Num, s.Unit = inUnit(s.Said, symbol), symbol
		if !n.sound(s) {
			return c, false
		}
		s.Bare = false
		changed = changed || was.Cmp(s.Num) != 0
		c.Slots[n.Name] = s
	}
	return c, changed
}

// bareText says the bare numbers in question as they were said.
func bareText(req Request, f *Form, kind measure.Kind) string {
	var said []string
	order := append([]string(nil), f.Sizes...)
	for i := range f.Needs {
		order = append(order, f.Needs[i].Name)
	}
	seen := map[string]bool{}
	for _, name := range order {
		n := f.need(name)
		s, ok := req.Slots[name]
		if seen[name] || n == nil || !ok || !s.Bare || n.Kind != kind || n.Own {
			continue
		}
		seen[name] = true
		said = append(said, measure.Decimal(ratFloat(s.Said), 4))
	}
	return strings.Join(said, " × ")
}

func ratFloat(r *big.Rat) float64 { f, _ := r.Float64(); return f }

// unsure takes out of a request the numbers whose unit is in question, so that nobody takes
// them for understood.
func unsure(req Request, f *Form, q *Question) Request {
	if len(q.Options) == 0 {
		if n := f.need(q.Need); n != nil && req.Has(q.Need) {
			delete(req.Slots, q.Need)
		}
		return req
	}
	for i := range f.Needs {
		name := f.Needs[i].Name
		if s, ok := req.Slots[name]; ok && s.Bare && s.Num != nil && differs(q, name, s) {
			delete(req.Slots, name)
		}
	}
	return req
}

func differs(q *Question, name string, s Slot) bool {
	for _, o := range q.Options {
		if t := o.Request.Slots[name]; t.Num == nil || t.Num.Cmp(s.Num) != 0 {
			return true
		}
	}
	return false
}
