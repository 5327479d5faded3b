package commands

import (
	"encoding/json"
	"fmt"
	"strings"
	"time"

	"fettle/calc/measure"
	"fettle/commands/speech"
	"fettle/store"
)

// Ask is one request put to a topic, with everything the topic may look at.
type Ask struct {
	Request  speech.Request
	Form     *speech.Form
	Settings Settings
	System   measure.System // the project's unit
	Now      time.Time
	Said     time.Time // when the request was made: before Now where a question came between
	Who      string
	WhoKey   string
	Place    string
	Project  store.Project
	Home     string       // the place's own project, which needs no starting
	Files    []store.File // what hangs on the message
	Tx       *store.Tx

	Typed   string // the message
	house   *house
	before  int64    // for a message that was edited: only what came before this entry counts
	instead []int64  // the entries that this message takes the place of, oldest first
	again   bool     // asks only how the last answer came about: nothing begins anew
	granted []string // what was taken for granted of an opening that the message points to
}

// Has says whether a need was met.
func (a *Ask) Has(name string) bool { return a.Request.Has(name) }

// Length gives a length that was said.
func (a *Ask) Length(name string) (measure.Length, bool) { return a.Request.Length(name) }

// Float gives a number that was said, in the base unit of its kind.
func (a *Ask) Float(name string) (float64, bool) { return a.Request.Float(name) }

// Word gives a word that was said, or "".
func (a *Ask) Word(name string) string { return a.Request.Word(name) }

// Count gives how many were said, 1 if none were.
func (a *Ask) Count() int {
	n, ok := a.Float("quantity")
	if !ok {
		return 1
	}
	return int(n)
}

// Out is the system in which the results are printed: the one asked for, the one that the
// person spoke in, else the project's.
func (a *Ask) Out() measure.System {
	switch a.Request.Out {
	case "in":
		return measure.Imperial
	case "mm":
		return measure.Metric
	}
	return spoken(a.Request, a.System)
}

// spoken finds inches where every length was said in inches or feet.
func spoken(r speech.Request, otherwise measure.System) measure.System {
	inches, others := 0, 0
	for _, s := range r.Slots {
		switch s.Unit {
		case "in", "ft":
			inches++
		case "mm", "cm", "m":
			others++
		}
	}
	for _, it := range r.Items {
		if spoken(it, measure.Metric) == measure.Imperial {
			inches++
		}
	}
	switch {
	case inches > 0 && others == 0:
		return measure.Imperial
	case others > 0 && inches == 0:
		return measure.Metric
	}
	return otherwise
}

// given lists what was understood by the names of the needs.
func given(r speech.Request, f *speech.Form) map[string]any {
	out := map[string]any{}
	for i := range f.Needs {
		n := &f.Needs[i]
		if s, ok := r.Slots[n.Name]; ok {
			out[n.Name] = value(s)
		}
	}
	if len(r.Items) > 0 {
		items := make([]map[string]any, len(r.Items))
		for i, it := range r.Items {
			items[i] = given(it, f)
		}
		out["items"] = items
	}
	return out
}

func value(s speech.Slot) any {
	switch {
	case len(s.List) > 0:
		list := make([]any, len(s.List))
		for i, e := range s.List {
			list[i] = value(e)
		}
		return list
	case s.Num != nil:
		return s.Float()
	}
	return s.Word
}

// shownField gives a stored slot as a number or a word, and anything else as it is.
func shownField(raw json.RawMessage) any {
	var s speech.Slot
	if json.Unmarshal(raw, &s) == nil && (s.Num != nil || s.Word != "" || len(s.List) > 0) {
		return value(s)
	}
	var v any
	if json.Unmarshal(raw, &v) != nil {
		return nil
	}
	return v
}

// understood says back in one line what was read, in the units that were said.
func understood(r speech.Request, f *speech.Form) string {
	var parts []string
	if n, ok := r.Float("quantity"); ok {
		parts = append(parts, measure.Decimal(n, 2)+" off")
	}
	if size := sizeSaid(r, f); size != "" {
		parts = append(parts, size)
	}
	for i := range f.Needs {
		n := &f.Needs[i]
		s, ok := r.Slots[n.Name]
		if !ok || n.Name == "quantity" || n.Label == "" || sized(f, n.Name) {
			continue
		}
		if s.Word != "" {
			if n.Label == "per" {
				s.Word = "per " + strings.ReplaceAll(s.Word, "_", " ")
			}
			parts = append(parts, s.Word)
			continue
		}
		parts = append(parts, n.Label+" "+saidText(s))
	}
	for _, it := range r.Items {
		parts = append(parts, understood(it, f))
	}
	return strings.Join(parts, ", ")
}

func sized(f *speech.Form, name string) bool {
	for _, s := range f.Sizes {
		if s == name {
			return true
		}
	}
	return false
}

// sizeSaid joins the sizes in the form's order, with one unit where they share it.
func sizeSaid(r speech.Request, f *speech.Form) string {
	var numbers, labelled []string
	unit, same := "", true
	missing := false
	for _, name := range f.Sizes {
		s, ok := r.Slots[name]
		if !ok || s.Num == nil {
			missing = missing || len(numbers) == 0
			continue
		}
		if unit != "" && s.Unit != unit {
			same = false
		}
		unit = s.Unit
		numbers = append(numbers, saidNumber(s))
		labelled = append(labelled, label(f, name)+" "+saidText(s))
	}
	switch {
	case len(numbers) == 0:
		return ""
	case same && !missing && len(numbers) > 1:
		return strings.Join(numbers, " × ") + " " + unit
	}
	return strings.Join(labelled, ", ")
}

func label(f *speech.Form, name string) string {
	for i := range f.Needs {
		if f.Needs[i].Name == name {
			return f.Needs[i].Label
		}
	}
	return name
}

func saidNumber(s speech.Slot) string {
	if s.Unit == "in" {
		if l, err := measure.Times(s.Num, measure.Millimetre); err == nil {
			if text, exact := measure.NearestSixtyFourth(l); exact {
				return text
			}
		}
	}
	f, _ := s.Said.Float64()
	return measure.Decimal(f, 4)
}

func saidText(s speech.Slot) string {
	if len(s.List) > 0 {
		parts := make([]string, len(s.List))
		for i, e := range s.List {
			parts[i] = saidText(e)
		}
		return strings.Join(parts, ", ")
	}
	if s.Num == nil {
		return s.Word
	}
	switch s.Unit {
	case "":
		return saidNumber(s)
	case "deg":
		return saidNumber(s) + "°"
	case "c", "f":
		return saidNumber(s) + " °" + strings.ToUpper(s.Unit)
	case "pct":
		return saidNumber(s) + " %"
	case "m2":
		return saidNumber(s) + " m²"
	case "m3":
		return saidNumber(s) + " m³"
	case "mpa", "gpa":
		return saidNumber(s) + " " + map[string]string{"mpa": "MPa", "gpa": "GPa"}[s.Unit]
	}
	return saidNumber(s) + " " + s.Unit
}

func plural(n int, one, many string) string {
	if n == 1 {
		return fmt.Sprintf("1 %s", one)
	}
	return fmt.Sprintf("%d %s", n, many)
}

// text prints a size in mm as it is printed for this person.
func (a *Ask) text(mm float64, r measure.Rounding) string {
	l, err := measure.FromMM(mm)
	if err != nil {
		return "more than can be"
	}
	return a.Out().Text(l, r)
}
