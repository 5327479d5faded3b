package commands

import (
	"regexp"
	"slices"
	"strings"
)

// claimSaid is one clause about who takes what.
type claimSaid struct {
	action string // take, free or ask
	who    string // "i" for the speaker
	what   string
	open   bool // further things may follow: "the rails and the stiles"
}

// clauses are cut at signs and at words that join sentences.
var clauses = regexp.MustCompile(`(?i)\s*(?:[,;.!?]+|\s(?:and|but|then|&|while)\s)\s*`)

const (
	subject  = `(i|we|he|she|they|you|both of us|[\p{L}][\p{L}'-]*)`
	helpers  = `(?:'ll|'m|'re|'s|'d|'ve| will| am| is| are| can| could| shall| should| would| want to| like to| wants to| going to| gonna| have to| has to| also| just| then| better)*`
	onVerbs  = `(?:takes?|taking|do|does|doing|have|has|got|claims?|makes?|making|cuts?|cutting|handles?|handling|starts?(?: on| with)?|starting(?: on| with)?|works? on|working on|gets?|getting|sees? to|looks? after|manages?|finish(?:es)?|rips?|ripping|on|planes?|planing|sands?|sanding)\b`
	negation = `(?:can't|cannot|can not|won't|not|don't|do not|will not|isn't|couldn't|no longer)`
)

// claimForms are the ways of saying who takes what, by which group holds what.
var claimForms = []struct {
	re        *regexp.Regexp
	action    string
	who, what int
	open      bool
}{
	{regexp.MustCompile(`(?i)^(?:who's|whos|who|whose|anyone|anybody|is anyone|is anybody|is someone|is somebody|has anyone|has anybody)` + helpers + ` (?:job is |turn is |` + onVerbs + `(?: doing| on| to do)?) ?(.*)$`), "ask", 0, 1, false},
	{regexp.MustCompile(`(?i)^(?:who's|whos|whose|who)(?: is| are| does| do)? (.*)$`), "ask", 0, 1, false},
	{regexp.MustCompile(`(?i)^what(?: am| is|'s| are| have| has|s) ` + subject + `(?: on| got| doing| taken| claimed)*$`), "ask", 1, 0, false},
	{regexp.MustCompile(`(?i)^` + subject + helpers + ` ` + negation + helpers + ` ?` + onVerbs + ` (.+?)(?: after all| any ?more| now| myself| tonight| this week)*$`), "free", 0, 2, true},
	{regexp.MustCompile(`(?i)^(?:` + subject + helpers + ` )?(?:giv(?:e|es|ing)|hand(?:s|ing)?|put(?:s|ting)?) (?:back|up) (.+)$`), "free", 0, 2, true},
	{regexp.MustCompile(`(?i)^(?:` + subject + helpers + ` )?(?:giv(?:e|es|ing)|hand(?:s|ing)?|put(?:s|ting)?) (.+?) (?:back|up)$`), "free", 0, 2, false},
	{regexp.MustCompile(`(?i)^(?:drop|cancel|remove|release)(?: my| gil's| petra's)? claim (?:on|to|for) (.+)$`), "free", 0, 1, true},
	{regexp.MustCompile(`(?i)^(?:somebody|someone|anybody|anyone) else (?:can |could |please |to )*(?:takes?|do|does|have|has|make) (.+)$`), "free", 0, 1, true},
	{regexp.MustCompile(`(?i)^(?:unclaim|release|let go of) (.+)$`), "free", 0, 1, true},
	{regexp.MustCompile(`(?i)^take ` + subject + ` off (.+)$`), "free", 0, 2, true},
	{regexp.MustCompile(`(?i)^(.+?) (?:is|are)(?: now)? (?:free|up for grabs)(?: again)?$`), "free", 0, 1, false},
	{regexp.MustCompile(`(?i)^(.+?)(?: is| are|'s| stays?| be)?(?: all| both)? (mine|yours|ours)(?: now| then| please)*$`), "take", 2, 1, false},
	{regexp.MustCompile(`(?i)^(?:leave|give|hand|pass|put|let)(?: over)? (.+?) (?:to|for|with|over to) (me|us|[\p{L}][\p{L}-]*)$`), "take", 2, 1, false},
	{regexp.MustCompile(`(?i)^put ` + subject + ` (?:down )?(?:on|for) (.+)$`), "take", 1, 2, true},
	{regexp.MustCompile(`(?i)^let (me|us|[\p{L}][\p{L}-]*) (?:do|take|have|make) (.+)$`), "take", 1, 2, true},
	{regexp.MustCompile(`(?i)^(?:dibs on|bagsy|bags|claim|claiming|mine:?) (.+)$`), "take", 0, 1, true},
	{regexp.MustCompile(`(?i)^(.+?) (?:is|are|goes?|belongs?)(?: all)? (?:for|to|with) (me|us|[\p{L}][\p{L}-]*)$`), "take", 2, 1, false},
	{regexp.MustCompile(`(?i)^(.+?) (?:is|are) ([\p{L}][\p{L}-]*)'s(?: job)?$`), "take", 2, 1, false},
	{regexp.MustCompile(`(?i)^` + subject + helpers + ` ` + onVerbs + ` (?:care of |on |over )?(.+)$`), "take", 1, 2, true},
}

// opening words of a clause that say nothing, and closing ones.
var (
	clauseOpens  = regexp.MustCompile(`(?i)^(?:(?:swap|can you|could you|would you|ok|okay|right|so|then|well|hi|hey|hello|no|yes|please|sorry|@?fettle)[ ,:]+)+`)
	clauseCloses = regexp.MustCompile(`(?i)(?: (?:then|please|pls|now|tonight|today|tomorrow|too|as well|if you like|if that's ok|myself|first|next|for now|again|together|alone|instead))+$`)
	articles     = regexp.MustCompile(`(?i)^(?:all |both )?(?:of )?(?:the|my|our|those|these) `)
)

// bareShort are short forms that were typed without their sign.
var bareShort = regexp.MustCompile(`(?i)\bi(ll|m|ve)\b`)

// claimsIn finds what a message says of who takes what.
func claimsIn(text string) []claimSaid {
	text = bareShort.ReplaceAllString(strings.NewReplacer("’", "'", "‘", "'").Replace(text), "i'$1")
	var out []claimSaid
	var before []string // things named before it is said who takes them
	for _, c := range clauses.Split(strings.TrimSpace(text), -1) {
		c = strings.TrimSpace(clauseCloses.ReplaceAllString(clauseOpens.ReplaceAllString(strings.TrimSpace(c), ""), ""))
		said, ok := claimIn(c)
		switch {
		case ok:
			for _, b := range before {
				out = append(out, claimSaid{action: said.action, who: said.who, what: articles.ReplaceAllString(b, "")})
			}
			before = nil
			if said.what != "" || said.action == "ask" {
				out = append(out, said)
			}
		case c == "":
		case len(out) > 0 && out[len(out)-1].open && thing(c):
			out = append(out, claimSaid{action: out[len(out)-1].action, who: out[len(out)-1].who, what: articles.ReplaceAllString(c, ""), open: true})
		case len(out) == 0 && thing(c):
			before = append(before, c)
		}
	}
	return out
}

// thing says whether a clause can name a further thing: a few words.
func thing(c string) bool {
	n := len(strings.Fields(c))
	return n <= 2 || n <= 5 && articles.MatchString(c)
}

func claimIn(c string) (claimSaid, bool) {
	for _, f := range claimForms {
		m := f.re.FindStringSubmatch(c)
		if m == nil {
			continue
		}
		said := claimSaid{action: f.action, open: f.open}
		if f.who > 0 {
			said.who = speaker(m[f.who])
		}
		if f.what > 0 {
			said.what = strings.Trim(articles.ReplaceAllString(strings.TrimSpace(m[f.what]), ""), " :-")
		}
		if f.action == "ask" && slices.Contains([]string{"what", "which", "on what", "doing what", "on which"}, strings.ToLower(said.what)) {
			said.what = ""
		}
		return said, true
	}
	return claimSaid{}, false
}

// speaker makes one word of those by which a person speaks of himself.
func speaker(w string) string {
	switch l := strings.ToLower(w); l {
	case "i", "me", "my", "mine":
		return "i"
	case "we", "us", "ours", "both of us":
		return "we"
	case "yours":
		return "you"
	}
	return strings.TrimSuffix(w, "'s")
}
