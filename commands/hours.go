package commands

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fettle/commands/book"
	"fettle/commands/hours"
	"fettle/commands/speech"
	"fettle/store"
)

const dayNames = "monday|mondays|mon|tuesday|tuesdays|tue|tues|wednesday|wednesdays|wed|weds|thursday|thursdays|thu|thur|thurs|friday|fridays|fri|saturday|saturdays|sat|sunday|sundays|sun|weekday|weekdays|weekend|weekends|daily"

func openingHours() *Topic {
	return &Topic{
		Title:    "when the workshop is open, and what fits into it",
		Examples: []string{"workshop is open tuesdays and thursdays six till nine, sundays nine to four", "no workshop this friday", "what fits tonight", "when are we in next?"},
		Form:     speech.Form{Name: "hours", Text: true, Writes: true, Cues: hoursCues()},
		Answer:   answerHours,
	}
}

func hoursCues() []speech.Cue {
	const place = "workshop|shop|shed|barn|garage|hut|yard|heater|heating"
	return []speech.Cue{
		{Weight: 4, Pattern: place + " .. " + dayNames + " .. #"},
		{Weight: 4, Pattern: place + " .. # .. " + dayNames},
		{Weight: 4, Pattern: "open|opens|opened|work|in|there|available|use|free|closed|shut|stay|hours|times .. " + dayNames + " .. # to|till|until|til|-|and|pm|am #?"},
		{Weight: 4, Pattern: "open|opens|opening .. " + dayNames},
		{Weight: 4, Pattern: dayNames + " .. open|opens|closed|shut|off"},
		{Weight: 4, Pattern: "open|opens|closed|shut .. today|tonight|tomorrow|next|week"},
		{Weight: 4, Pattern: dayNames + " .. # to|till|until|til|- # .. " + dayNames},
		{Weight: 4, Pattern: "our|the|workshop|shop|shed|=opening hours|times"},
		{Weight: 3, Pattern: "our|my|the|those|these|workshop|shop|shed|=opening hours"},
		{Weight: 2, Pattern: "^ hours|=opening"},
		{Weight: 3, Pattern: "^ hours $"},
		{Weight: 6, Pattern: "no|not|never|nobody|closed|shut workshop|shop|shed|hut|in|open|there|working|=on .. " + dayNames + "|today|tonight|tomorrow|week"},
		{Weight: 5, Pattern: "^ no|not|closed|shut on? " + dayNames + " from|any|now|more|anymore|this|next|after|either"},
		{Weight: 5, Pattern: place + " .. closed|shut|off"},
		{Weight: 5, Pattern: "closed|shut|off this|next|on|all? " + dayNames + "|week|day"},
		{Weight: 6, Pattern: "when|what|which time|day|days|hours? are|is|do|can|will|would|does we|it|the|i|you|they? workshop|shop|shed|hut? in|open|next|there|again|close|closing|get|start|work|shut"},
		{Weight: 6, Pattern: "when .. =next =open|in|there|=at|meet"},
		{Weight: 6, Pattern: "when .. in|open|there|meet next|again"},
		{Weight: 6, Pattern: "are|is we|the|it workshop|shop|shed|hut? =open|in now|today|tonight|tomorrow|on|this|next|" + dayNames},
		{Weight: 6, Pattern: "what|which|whats|what's days|hours|times are|is|was|were|do|did|we|our|that|it"},
		{Weight: 8, Pattern: "what|which|anything|wot|much|job|jobs .. fits|fit|squeeze in?"},
		{Weight: 6, Pattern: "what|how much? can|could|do we|i .. get done|finished|made|through|into|in"},
		{Weight: 3, Pattern: "what .. can|could|do .. get done .. " + dayNames + "|tonight|today|tomorrow"},
		{Weight: 8, Pattern: "time|long .. enough|for|to .. glue .. tonight|today|" + dayNames},
		{Weight: 9, Pattern: "latest .. glue|clamp|clamps|spread|start"},
		{Weight: 9, Pattern: "last time|moment|chance|minute to|for|we|i|when .. glue|clamp|spread"},
		{Weight: -9, Pattern: "when|what|who did|was|were|had|has"},
		{Weight: 9, Pattern: "how late .. glue|clamp|clamps|spread|start"},
		{Weight: 9, Pattern: "until|till|by when .. glue|clamp|spread"},
		{Weight: 8, Pattern: "can|could|may|should|shall we|i .. glue|clamp .. tonight|today|tomorrow|before|" + dayNames},
		{Weight: 4, Pattern: "session|slot|extra|only .. tomorrow|today|tonight|" + dayNames},
		{Weight: 4, Pattern: "this|next|tomorrow|tonight|today " + dayNames + "? only? till|until|from|to #"},
		{Weight: 9, Pattern: "when .. latest|last .. glue|clamp|start"},
		{Weight: 9, Pattern: "glue|glued|clamps|clamped|clamp|off|out .. before we|it|the|closing|close|shut .. close|go|leave|home|shut|lock|up|out|time"},
		{Weight: 6, Pattern: "how long have|do|are we|i got|left|in .. tonight|today|until|till|before"},
		{Weight: 6, Pattern: "how much time is|do|have|there|left .. tonight|today|close|" + dayNames},
		{Weight: 5, Pattern: "staying|stopping|finishing till|until|at|from #"},
		{Weight: 4, Pattern: "stay|staying|finish|finishing|stop|stopping|close|closing|till|until|leave|leaving .. #clock"},
		{Weight: 4, Pattern: "we|we're|i'm .. staying|finishing|stopping|in|leaving .. till|until|at|from #"},
		{Weight: 3, Pattern: dayNames + " # to|till|until|til|- #"},
		{Weight: 3, Pattern: dayNames + " .. #clock to|till|until|til|- #"},
		{Weight: -9, Pattern: "clamps|cramps|clamp|glue|glued since|went|at #?"},
		{Weight: -6, Pattern: "^ clamps|cramps"},
		{Weight: -6, Pattern: "who|did|measured|happened|log|note|remember|remind"},
		{Weight: -6, Pattern: "see|away|holiday|party|train|dentist|doctor|delivery|deliver|market|pub|shops|merchant|yard you?"},
		{Weight: -6, Pattern: "#length"},
		{Weight: -6, Pattern: "leave|window|door .. open"},
		{Weight: -4, Pattern: "open time|assembly"},
		{Weight: -4, Pattern: "project|opening is|was|size|wide"},
		{Weight: -8, Pattern: "opening width|height|top|bottom|left|right|wide|high|side|diagonal|depth|sill|head"},
	}
}

// week reads the project's opening times.
func (a *Ask) week() (hours.Week, error) {
	w := hours.Week{Dates: map[string][]hours.Span{}}
	days, err := booked[[]hours.Span](a, book.WhatHours)
	if err != nil {
		return w, err
	}
	for _, d := range days {
		if day, ok := weekdayNamed(d.Name); ok {
			w.Days[day] = d.Is
			continue
		}
		w.Dates[d.Name] = d.Is
	}
	return w, nil
}

func weekdayNamed(name string) (time.Weekday, bool) {
	for d := time.Sunday; d <= time.Saturday; d++ {
		if strings.EqualFold(name, d.String()) {
			return d, true
		}
	}
	return 0, false
}

// dayName is the name under which a day of every week stands in the book.
func dayName(d time.Weekday) string { return strings.ToLower(d.String()) }

func answerHours(a *Ask) Answer {
	s := speech.Read(a.Request.Text)
	w, err := a.week()
	if err != nil {
		return ask(store.Sentence(err))
	}
	asked := s.Says("what|which|anything|much|job|jobs .. fits|fit|squeeze") || s.Says("what|how much? can|could|do we|i .. get|do")
	switch {
	case s.Says("latest|last|late .. glue|clamp|clamps|spread|start") || s.Says("until|till|by when .. glue|clamp|spread") || s.Says("can|could|may|should|shall we|i|you .. glue|clamp") || s.Says("before|until we|it|the|closing|close|shut"):
		return a.latestGlue(s, w)
	case asked || s.Says("how much|long time?") || s.Says("time enough|for|to"):
		return a.whatFits(s, w)
	case s.Says("^ when|is|are|what|which|whats|what's|do|does|show|list|how") || s.Says("when|which|what .. in|open|next|days|hours") || s.Says("^ opening? hours|times $"):
		return a.showHours(s, w)
	}
	return a.setHours(s, w)
}

// setHours writes what a message says of the opening times, and shows what holds then.
func (a *Ask) setHours(s speech.Sentence, w hours.Week) Answer {
	said := readHours(s)
	switch {
	case said.none != "":
		return ask(fmt.Sprintf("%s is no time of day. From when till when is it?", said.none))
	case len(said.doubtful) > 0:
		return a.morningOrEvening(said.doubtful)
	case said.unsound != "":
		return ask(fmt.Sprintf("%s ends before it begins. From when till when is it?", said.unsound))
	case len(said.days) == 0:
		return ask("For which days is that? Say for instance “tuesdays and thursdays six till nine”.")
	}
	ans := say("")
	for _, d := range said.days {
		if !d.closed && len(d.spans) == 0 && d.until == 0 {
			return ask("From when till when is that? Say for instance “" + d.as + " six till nine”.")
		}
		name, date := d.named(a.Now)
		spans := slices.Clone(d.spans)
		if d.until != 0 {
			spans = slices.Clone(w.Spans(date))
			if len(spans) == 0 {
				return ask("From when is that? Say for instance “" + d.as + " six till nine”.")
			}
			spans[len(spans)-1].To = d.until
			if !spans[len(spans)-1].Sound() {
				return ask(fmt.Sprintf("It opens at %s that day. From when till when is it then?", spans[len(spans)-1].From))
			}
		}
		w = with(w, name, spans)
		ans.effects = append(ans.effects, put(a.Project.ID, book.WhatHours, name, append([]hours.Span{}, spans...)))
	}
	ans.Answer = shorten("Open "+weekText(w), MaxHeadline)
	if once := a.onceText(said.days, w); once != "" {
		ans.line(ans.Answer + " otherwise.")
		ans.Answer = shorten(once, MaxHeadline)
	}
	exceptions(&ans, w, a.Now)
	if unsaid(w) {
		ans.line("Where no end was said I ask for it when it matters; “tuesdays six till nine” says it.")
	}
	ans.because("That is as you said it; bare hours from one to half past six are taken for the afternoon and evening (common practice, no source).")
	return ans
}

func with(w hours.Week, name string, spans []hours.Span) hours.Week {
	if d, ok := weekdayNamed(name); ok {
		w.Days[d] = spans
		return w
	}
	w.Dates[name] = spans
	return w
}

// morningOrEvening asks for the half of the day that hours without one belong to.
func (a *Ask) morningOrEvening(doubtful string) Answer {
	options := make([]speech.Option, 0, 2)
	for _, o := range []struct{ label, word, mark string }{{"in the morning", "morning", "am"}, {"in the evening", "evening", "pm"}} {
		r := a.Request
		r.Text += " , all in the " + o.word
		options = append(options, speech.Option{Label: o.label, Words: []string{o.word, o.mark}, Request: r})
	}
	ans := ask("")
	ans.open = speech.Choice(fmt.Sprintf("Is %s in the morning or in the evening?", doubtful), options...)
	ans.Question = ans.open.Text
	return ans
}
