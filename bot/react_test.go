package bot_test

import (
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"fettle/bot"
)

// react puts a sign under the answer that was sent last.
func (w *workshop) react(who, sign string) string {
	w.Helper()
	w.n++
	err := w.desk.React(context.Background(), bot.Reaction{Key: fmt.Sprintf("test:sign:%d", w.n), Place: "test:hut", Project: "hut",
		Post: w.last, WhoKey: strings.ToLower(who), Who: who, Sign: sign, At: noon.Add(time.Duration(w.n) * time.Second)})
	if err != nil {
		w.Fatalf("React: %v", err)
	}
	return w.sent()
}

func TestASignAnswersAQuestion(t *testing.T) {
	w := open(t)
	w.wants(w.say("Petra", "@rough size for 60 by 4.5 by 2"), "1 cm")
	asked := w.last
	w.wants(w.react("Petra", "1"), "700 × 65 × 27 mm")
	w.last = asked
	w.wants(w.react("Petra", "1"), "") // it is answered, and what the sign meant is gone with it
}

func TestASignThatSaysNothingIsLeftAlone(t *testing.T) {
	w := open(t)
	w.say("Petra", "@rough size for 600 by 45")
	w.wants(w.react("Gil", bot.SignCheck), "")
	w.last = "post-of-somebody-else"
	w.wants(w.react("Gil", "1"), "")
}
