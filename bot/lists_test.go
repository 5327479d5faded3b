package bot_test

import (
	"context"
	"strings"
	"testing"

	"fettle/commands/book"
	"fettle/store"
)

const (
	partsCSV  = "name,quantity,length,width,thickness\ntop rail,1,612,92,40\nrack slat,6,742,38,16\n"
	boardsCSV = "name,quantity,length,width,thickness,price\nsapele board,2,2600,210,32,31.20\n"
	stockCSV  = "name;quantity;length;width;thickness\nsapele board;2;2600;210;32\nash board;1;2400;190;52\n"
)

// sends has somebody send a list, and gives the answer that went out, or "".
func (w *workshop) sends(who, text, name, list string) string {
	w.Helper()
	m := w.message(who, text)
	m.Files = []store.File{{Name: name, Media: "text/csv", Data: []byte(list)}}
	w.hear(m)
	return w.sent()
}

// A list that is sent without a word, or with words that ask for nothing else, is read for what it is.
func TestAListIsHeardByItsColumns(t *testing.T) {
	for text, c := range map[string]struct{ text, file, list, want string }{
		"alone":                {"@", "parts.csv", partsCSV, "Added 2 parts: 1 × top rail 612 × 92 × 40 mm"},
		"tabs":                 {"@", "rack.tsv", strings.ReplaceAll(partsCSV, ",", "\t"), "Added 2 parts"},
		"a room's words":       {"@(a list)", "parts.csv", partsCSV, "Added 2 parts"},
		"timber has a price":   {"@", "list.csv", boardsCSV, "On hand now: 2 boards from list.csv"},
		"said to be parts":     {"@parts attached", "list.csv", partsCSV, "Added 2 parts"},
		"parts with prices":    {"@parts attached", "list.csv", boardsCSV, "Added 2 × sapele board"},
		"a cut list":           {"@here's the cut list", "hut.csv", partsCSV, "Added 2 parts"},
		"the parts list":       {"@parts list attached", "hut.csv", partsCSV, "Added 2 parts"},
		"our list":             {"@this is our parts list", "hut.csv", partsCSV, "Added 2 parts"},
		"for the list":         {"@please add these to the list", "hut.csv", partsCSV, "Added 2 parts"},
		"without a meaning":    {"@as promised", "hut.csv", partsCSV, "Added 2 parts"},
		"the cutting list":     {"@cutting list for the rack, see file", "hut.csv", partsCSV, "Added 2 parts"},
		"thanks":               {"@thanks!", "hut.csv", partsCSV, "Added 2 parts"},
		"boards":               {"@boards attached", "stock.csv", stockCSV, "On hand now: 3 boards"},
		"what we have":         {"@what timber we've got, see attached", "stock.csv", stockCSV, "On hand now: 3 boards"},
		"may be either":        {"@", "stock.csv", stockCSV, "is that a list of parts or of boards? 1 parts to make · 2 boards on hand"},
		"lines of a text":      {"@", "rack.txt", "6 rack slats 742 x 38 x 16\n2 rack sides 480 x 130 x 18\n", "Added 2 parts: 6 × rack slat 742 × 38 × 16 mm"},
		"lines, with words":    {"@rack parts attached", "rack.txt", "6 rack slats 742 x 38 x 16\n2 rack sides 480 x 130 x 18\n", "Added 2 parts"},
		"no heads":             {"@", "rack.csv", "rack slat,6,742,38,16\nrack side,2,480,130,18\n", "Added 2 parts"},
		"a bad line of a text": {"@", "rack.txt", "6 rack slats 742 x 38 x 16\n2 rack sides 480 x 130\n1 lip 742 x 30 x 12", "Line 2 (“2 rack sides 480 x 130”) has no thickness"},
		"boards by lines":      {"@", "yard.txt", "boards:\n2 sapele 2600 x 210 x 32\n1 ash 2400 x 190 x 52\n", "On hand now: sapele 1 to 2"},
		"a text of something":  {"@", "letter.txt", "Dear Gil,\nthe stove comes on Friday.\n", "no column is called"},
		"no list at all":       {"@", "hours.csv", "day,from,to\nTue,18,21\n", "no column is called"},
		"a bad line is named":  {"@", "parts.csv", partsCSV + "stile,2,1720,9o,40\n", "line 4, column width: “9o” is not a number. Nothing was taken in"},
		"too large to come":    {"@", "parts.csv", "", "1 MB"},
	} {
		t.Run(text, func(t *testing.T) {
			w := open(t)
			w.T = t
			w.wants(w.sends("Petra", c.text, c.file, c.list), c.want)
		})
	}
}

// What may be parts or boards is asked about once, and the answer is all it takes.
func TestAListThatMayBeEitherIsAskedAbout(t *testing.T) {
	for answer, want := range map[string]string{"@2": "On hand now: 3 boards", "@boards": "On hand now: 3 boards", "@parts": "Added 2 parts", "@1": "Added 2 parts", "@boards on hand": "On hand now: 3 boards"} {
		w := open(t)
		w.wants(w.sends("Petra", "@", "stock.csv", stockCSV), "parts or of boards?")
		w.wants(w.say("Petra", "@show the parts"), "No parts")
		w = open(t)
		w.sends("Petra", "@", "stock.csv", stockCSV)
		w.wants(w.say("Petra", answer), want)
	}
}

// Nobody asked: a list is taken in where other messages are too, if it can be nothing else; it is
// never asked about.
func TestAListIsNotSpokenOfUnasked(t *testing.T) {
	w := open(t)
	w.wants(w.sends("Petra", "", "parts.csv", partsCSV), "")
	w.say("Petra", "@listen here")
	w.wants(w.sends("Petra", "", "parts.csv", partsCSV), "Added 2 parts")
	w.wants(w.sends("Gil", "here's the cut list", "door.csv", strings.ReplaceAll(partsCSV, "rail", "stile")), "Added 1 × top stile")
	w.wants(w.sends("Petra", "", "stock.csv", stockCSV), "")
	w.wants(w.sends("Petra", "", "hours.csv", "day,from,to\nTue,18,21\n"), "")
	w.wants(w.sends("Petra", "", "parts.csv", partsCSV+"stile,2,1720,9o,40\n"), "")
	w.wants(w.sends("Gil", "look what I found in the shed", "parts.csv", partsCSV), "")
	w.wants(w.say("Gil", "@show the parts"), "3 parts")
}

// A list that answers a question is for what was asked about.
func TestAListAnswersAQuestion(t *testing.T) {
	w := open(t)
	w.wants(w.say("Petra", "@add the list"), "attach a CSV")
	w.wants(w.sends("Petra", "@", "list.csv", stockCSV), "Added 2 parts")
}

// Who sent a list in silence may have it read by asking for it.
func TestAListIsReadWhenAskedForLater(t *testing.T) {
	w := open(t)
	m := w.message("Petra", "(a list)")
	m.Kept, m.Files = true, []store.File{{Name: "parts.csv", Media: "text/csv", Data: []byte(partsCSV)}}
	w.hear(m)
	w.wants(w.sent(), "")
	w.wants(w.say("Gil", "@(a list)"), "didn't get that")
	w.wants(w.say("Petra", "@(a list)"), "Added 2 parts")
}

// An edit of the words beside a list leaves the list.
func TestAnEditKeepsTheList(t *testing.T) {
	w := open(t)
	m := w.message("Petra", "@parts atached")
	m.Files = []store.File{{Name: "parts.csv", Media: "text/csv", Data: []byte(partsCSV)}}
	w.hear(m)
	w.wants(w.sent(), "Added 2 parts")
	m.Files, m.Text = nil, "parts attached"
	if err := w.desk.Amend(context.Background(), m); err != nil {
		t.Fatal(err)
	}
	w.wants(w.sent(), "Added 2 parts")
	w.wants(w.say("Gil", "@show the parts"), "2 parts, 7 pieces")
}

// What a list is for is said beside it, and whether a part may lie across the grain in it.
func TestAListSaysWhatItIsFor(t *testing.T) {
	w := open(t)
	got := w.sends("Petra", "@here's the cut list for the rack, all ash", "parts.csv", "name,quantity,length,width,thickness,grain\nslat,6,742,38,16,along\nback,1,742,480,6,free\n")
	w.wants(got, "6 × slat 742 × 38 × 16 mm, ash")
	w.wants(w.say("Gil", "@show the parts"), "slat 742 × 38 × 16 mm, ash, rack")
	err := w.db.Read(context.Background(), func(tx *store.Tx) error {
		p, err := tx.Project("hut")
		if err != nil {
			return err
		}
		parts, err := book.Parts(tx, p.ID)
		if len(parts) != 2 || parts[0].Is.Grain != "" || parts[1].Is.Grain != "free" {
			t.Errorf("%+v", parts)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// A list that is sent again changes nothing, unless it is another one: then it is asked what of the
// parts that are there already.
func TestAListIsSentAgain(t *testing.T) {
	newer := "name,quantity,length,width,thickness\ntop rail,1,640,92,40\nrack slat,6,742,38,16\nlip,1,742,30,12\n"
	for answer, want := range map[string]string{
		"@1":           "**3 parts, 8 pieces**\n- 1 × top rail 640 × 92 × 40 mm\n- 6 × rack slat 742 × 38 × 16 mm\n- 1 × lip 742 × 30 × 12 mm",
		"@change them": "**3 parts, 8 pieces**\n- 1 × top rail 640 × 92 × 40 mm",
		"@2":           "**4 parts, 9 pieces**\n- 1 × top rail 612 × 92 × 40 mm\n- 6 × rack slat 742 × 38 × 16 mm\n- 1 × lip 742 × 30 × 12 mm\n- 1 × top rail 2 640 × 92 × 40 mm",
		"@no":          "**2 parts, 7 pieces**\n- 1 × top rail 612 × 92 × 40 mm",
	} {
		w := open(t)
		w.sends("Petra", "@", "parts.csv", partsCSV)
		w.wants(w.sends("Petra", "@", "parts.csv", partsCSV), "All of parts.csv is on the list already")
		w.wants(w.sends("Petra", "@", "parts 2.csv", newer), "not as in parts 2.csv: top rail. What of them? 1 change them to the new list · 2 add them beside")
		w.say("Petra", answer)
		w.wants(w.say("Gil", "@show the parts"), want)
	}
}
