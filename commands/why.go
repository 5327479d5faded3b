package commands

import (
	"encoding/json"
	"fmt"
	"slices"
	"time"

	"fettle/commands/speech"
	"fettle/store"
)

var whyPatterns = []string{
	"^ why|source|sources|reason $", "^ why so|that|not|this|it $", "^ why is that|this|it ..", "^ why # ..", "^ why so|not|do|does many|much|long|thick|wide|big|few|you|that|it ..", "^ how come", "says|said who", "where|who does|is|do|did that|this|it|you .. from",
	"how|where did|do|have you get|got|work|worked|calculate|calculated|come|find|found that|this|it|out|from|to|there", "^ how is|was that|this|it worked|calculated|found|computed",
	"what is|'s? .. based on", "^ what's|what|which is|are? the|your? source|sources|formula|reason", "^ show|give|tell me|us? the|your? source|formula|working|workings|reasoning",
	"on what basis", "^ explain|justify that|this|it $", "^ are you sure $", "^ formula $", "^ according to whom|who|what $", "^ really $",
}

// asksWhy says whether a message asks how the last answer came about, and nothing else.
func asksWhy(text string) bool {
	s := speech.Read(text)
	if len(s.Items) > 12 || slices.ContainsFunc(s.Items, func(it speech.Item) bool { return it.Q != nil && it.Q.Value != nil }) {
		return false
	}
	return slices.ContainsFunc(whyPatterns, s.Says)
}

// explain answers the last request again, with the reasons in place of the details.
func (h *Heard) explain(last speech.Request, settings Settings) error {
	topic, ok := all.named(last.Topic)
	if !ok {
		return fmt.Errorf("no topic %q", last.Topic)
	}
	a := h.asking(last, topic, settings)
	a.again = true
	ans := topic.Answer(a)
	if ans.Question != "" || len(ans.reasons) == 0 {
		ans.Question = ""
		ans.reasons = []string{"That is as it was said and kept here; nothing was worked out."}
	}
	ans.details, ans.effects, ans.Cautions, ans.open = ans.reasons, nil, []string{}, nil
	if ans.Answer == "" {
		ans.Answer = "Why"
	}
	h.Answer = finish(ans, topic.Name, &last, &topic.Form)
	var err error
	h.Request, err = json.Marshal(last)
	return err
}

// mostLooked bounds how far back an answer is looked for that gave the same caution.
const mostLooked = 300

// cautionOnce leaves out the cautions that the person was given today already.
func (h *Heard) cautionOnce(ans *Answer) error {
	if len(ans.Cautions) == 0 {
		return nil
	}
	t := h.turn
	today := time.Date(t.Now.Year(), t.Now.Month(), t.Now.Day(), 0, 0, 0, 0, t.Now.Location())
	answers, err := t.Tx.Search(store.Query{Project: h.Project.ID, From: today, Kinds: []string{store.Answer}, Limit: mostLooked})
	if err != nil {
		return fmt.Errorf("look for cautions: %w", err)
	}
	for _, e := range answers {
		var given struct {
			Cautions []string `json:"cautions"`
		}
		if e.WhoKey != t.WhoKey || json.Unmarshal(e.Answer, &given) != nil {
			continue
		}
		ans.Cautions = slices.DeleteFunc(ans.Cautions, func(c string) bool { return slices.Contains(given.Cautions, c) })
	}
	return nil
}
