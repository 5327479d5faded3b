package bot_test

import (
	"context"
	"testing"

	"fettle/bot"
)

// edits has a message rewritten, and gives what goes out for it.
func (w *workshop) edits(m bot.Message, text string) string {
	w.Helper()
	m.Text = text
	if err := w.desk.Amend(context.Background(), m); err != nil {
		w.Fatal(err)
	}
	return w.sent()
}

// The parts of an edited message take the place of those that it had added, at every edit.
func TestAnEditReplacesParts(t *testing.T) {
	w := open(t)
	m := w.message("Petra", "@add 2 stiles 1720 x 92 x 40 and 3 rails 640 x 92 x 40")
	w.hear(m)
	w.sent()
	for _, c := range [][2]string{
		{"add 2 stiles 1702 x 92 x 40 and 3 rails 640 x 92 x 40", "2 parts, 5 pieces"},
		{"add 2 stiles 1703 x 92 x 40 and 3 rails 612 x 92 x 40", "2 parts, 5 pieces"},
		{"add 2 stiles 1704 x 92 x 40, 3 rails 612 x 92 x 40 and 1 panel 600 x 560 x 12", "3 parts, 6 pieces"},
		{"add 4 slats 742 x 38 x 16", "1 part, 4 pieces"},
		{"2 stiles 1705 x 92 x 40\n3 rails 612 x 92 x 40", "2 parts, 5 pieces"},
	} {
		got := w.edits(m, c[0])
		w.wants(got, "On the list now: "+c[1])
		w.wants(got, "amended")
	}
	w.wants(w.say("Gil", "@show the parts"), "**2 parts, 5 pieces**\n- 2 × stile 1705 × 92 × 40 mm\n- 3 × rail 612 × 92 × 40 mm")
	w.wants(w.say("Petra", "@undo"), "Taken back")
	w.wants(w.say("Gil", "@show the parts"), "No parts on the list yet")
}

// A message that says nothing of parts any more leaves none of them, and a question leaves none either.
func TestAnEditToSomethingElse(t *testing.T) {
	for _, text := range []string{"never mind", "add 2 stiles 1720 x 92"} {
		w := open(t)
		m := w.message("Petra", "@add 2 stiles 1720 x 92 x 40")
		w.hear(m)
		w.sent()
		w.edits(m, text)
		w.wants(w.say("Gil", "@show the parts"), "No parts on the list yet")
	}
}

// An edit of a correction corrects what the first words of it corrected.
func TestAnEditOfACorrection(t *testing.T) {
	w := open(t)
	w.say("Petra", "@add 2 stiles 1720 x 92 x 40")
	m := w.message("Petra", "@no, 1702")
	w.hear(m)
	w.wants(w.sent(), "2 × stile 1702")
	w.wants(w.edits(m, "no, 1703"), "1 part, 2 pieces")
	w.wants(w.edits(m, "no, 1704"), "1 part, 2 pieces")
	w.wants(w.say("Gil", "@show the parts"), "**2 × stile 1704 × 92 × 40 mm**")
	w.wants(w.edits(m, "add 3 rails 640 x 92 x 40"), "2 parts, 5 pieces")
	w.wants(w.say("Gil", "@show the parts"), "- 2 × stile 1720 × 92 × 40 mm\n- 3 × rail 640 × 92 × 40 mm")
}

// An edit of the words that corrected one of several parts.
func TestAnEditOfWhatChangedOneOfSeveral(t *testing.T) {
	w := open(t)
	w.say("Petra", "@add 2 stiles 1720 x 92 x 40 and 3 rails 640 x 92 x 40")
	m := w.message("Petra", "@no, 1702")
	w.hear(m)
	w.wants(w.sent(), "stile 1702")
	w.wants(w.edits(m, "no, 612"), "rail 612")
	w.wants(w.say("Gil", "@show the parts"), "- 2 × stile 1720 × 92 × 40 mm\n- 3 × rail 612 × 92 × 40 mm")
}

// Parts that somebody changed since stay as they are now, and that is said.
func TestAnEditLeavesWhatWasChangedSince(t *testing.T) {
	w := open(t)
	m := w.message("Petra", "@add 2 stiles 1720 x 92 x 40")
	w.hear(m)
	w.sent()
	w.say("Gil", "@change the stiles to 1699")
	w.wants(w.edits(m, "add 2 stiles 1702 x 92 x 40"), "changed again since")
	w.wants(w.say("Gil", "@show the parts"), "**2 × stile 1699 × 92 × 40 mm**")
}

// Nobody is told that what was never ticked isn't done.
func TestWhatIsNotDoneIsNotSpokenOfUnasked(t *testing.T) {
	w := open(t)
	w.say("Petra", "@listen here")
	w.say("Petra", "@add 3 rails 640 x 92 x 40")
	w.wants(w.say("Gil", "the rails are not cut yet"), "")
	w.wants(w.say("Gil", "the stiles aren't cut after all"), "")
	w.say("Petra", "rails are cut")
	w.wants(w.say("Gil", "the rails are not cut after all"), "Tick taken back: rail cut 0 of 3 (was 3)")
}
