package commands

import (
	"strings"

	"fettle/commands/speech"
)

// courtesies are what people say to the program out of manners, with what is said back. Thanks
// get a sign instead of a post, where the place has signs.
var courtesies = []struct {
	words string // one of these must stand there
	says  string
	sign  string
}{
	{"thanks thank thx ta cheers ty appreciated", "You're welcome", SignThumb},
	{"bye goodbye goodnight cheerio night", "Bye", ""},
	{"hello hi hey hiya hallo morning evening afternoon howdy greetings", "Hello. Ask me in plain words, or say help", ""},
}

// courtesy gives the short answer to a message that is a greeting, thanks or a goodbye and
// nothing else.
func courtesy(text string) (Answer, bool) {
	words := []string{}
	for _, it := range speech.Read(text).Items {
		switch {
		case it.Q != nil:
			return Answer{}, false
		case strings.ContainsAny(it.Text, "abcdefghijklmnopqrstuvwxyz"):
			words = append(words, it.Text)
		}
	}
	every := besideCourtesy
	for _, c := range courtesies {
		every += " " + c.words
	}
	for _, c := range courtesies {
		if only(words, c.words, every) {
			ans := say(c.says)
			ans.Sign = c.sign
			return ans, true
		}
	}
	return Answer{}, false
}

// besideCourtesy are words that say no more than the courtesy itself.
const besideCourtesy = "a an the lot much so very many you fettle mate all everyone everybody there again that that's was is great lovely perfect good nice " +
	"brilliant super kind for your help now then see later day to it ever muchly big ok okay and oh well petra gil"

// only says whether one of the wanted words stands there and nothing but courtesies beside it.
func only(words []string, wanted, allowed string) bool {
	found := false
	for _, w := range words {
		switch {
		case has(wanted, w):
			found = true
		case !has(allowed, w):
			return false
		}
	}
	return found
}

func has(list, word string) bool { return strings.Contains(" "+list+" ", " "+word+" ") }
