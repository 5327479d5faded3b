package commands

import (
	"cmp"
	"fmt"
	"strings"

	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

func stock() *Topic {
	return &Topic{
		Title:    "what timber is on hand",
		Examples: []string{"what timber have we got", "any larch in stock?", "do we have anything over 2 m in oak"},
		Restates: true,
		Form: speech.Form{
			Name: "stock",
			Cues: []speech.Cue{
				{Weight: 7, Pattern: "what|which|how =timber|wood|stock|boards|planks|sheets|offcuts|lumber"},
				{Weight: 7, Pattern: "what|which|how|many|much .. " + stockNouns + " .. have|got|there|left|on"},
				{Weight: 7, Pattern: "what|whats|what's .. in|on the? =stock|rack|pile|timber"},
				{Weight: 6, Pattern: "have|do|got we|you|i .. got|have? .. " + stockNouns},
				{Weight: 6, Pattern: "do|have|is|are we|there|you .. anything|any|some .. over|longer|wider|thicker|in|at"},
				{Weight: 6, Pattern: "any .. in =stock"},
				{Weight: 7, Pattern: "what|whatve .. got|have .. in the way of timber|wood|boards|stock"},
				{Weight: 6, Pattern: "any .. " + stockNouns},
				{Weight: 5, Pattern: "any|much|many more? " + timberNouns},
				{Weight: 3, Pattern: "got|have .. " + timberNouns + " left|there|here"},
				{Weight: 5, Pattern: "enough|sufficient .. " + timberNouns},
				{Weight: 5, Pattern: "show|list|see|give|read|tell .. " + stockNouns},
				{Weight: 5, Pattern: "how many|much .. " + stockNouns},
				{Weight: 5, Pattern: "^ boards|stock|timber|wood|offcuts $"},
				{Weight: 4, Pattern: "in =stock"},
				{Weight: 3, Pattern: "on hand"},
				{Weight: -9, Pattern: "#size"},
				{Weight: -6, Pattern: "need|buy|order|short|enough|require|purchase|missing"},
				{Weight: -6, Pattern: "clamp|clamps|glue|finish|weigh|weight|cost|move|shrink|rough|volume|density|emc|moisture|screw|pilot|sag"},
				{Weight: -6, Pattern: "plan|draw|cut|nest|lay"},
				{Weight: -9, Pattern: faultNouns},
				{Weight: -8, Pattern: "log|note|notes|parts|pieces|who|when"},
				{Weight: -6, Pattern: "drop|weather =boards"},
			},
			Needs: []speech.Need{
				{Name: "species", Kind: speech.KindWord, Label: "timber", Vocab: boardWords},
				{Name: "length_mm", Kind: measure.KindLength, Label: "length from", Min: shortestBoard, Max: longestBoard, Roles: []string{"over|longer|above|least|than .. #", "# long|or|and longer|up|plus"}},
				{Name: "width_mm", Kind: measure.KindLength, Label: "width from", Min: narrowestBoard, Max: widestBoard, Roles: []string{"wider than? #", "# wide|or wider"}},
				{Name: "thickness_mm", Kind: measure.KindLength, Label: "thickness from", Min: thinnestBoard, Max: thickestBoard, Roles: []string{"thicker than? #", "# thick|or thicker"}},
			},
		},
		Answer: answerStock,
	}
}

const stockNouns = "timber|wood|boards|planks|board|plank|sheets|sheet|offcuts|offcut|stock|lumber|stuff"

func answerStock(a *Ask) Answer {
	boards, err := book.Boards(a.Tx, a.Project.ID)
	if err != nil {
		return ask(store.Sentence(err))
	}
	var lines []string
	n, area, cost, unpriced := 0, 0.0, 0.0, 0
	for i, b := range onHand(boards) {
		if !a.wanted(b.Is) {
			continue
		}
		n += max(b.Is.Quantity, 1)
		area += b.Is.Length.MM() * b.Is.Width.MM() / 1e6
		cost += b.Is.Price
		if b.Is.Unpriced {
			unpriced++
		}
		lines = append(lines, fmt.Sprintf("%d. %s", i+1, a.stockLine(b)))
	}
	what := strings.TrimSpace(a.Word("species") + " boards")
	if n == 0 {
		ans := say("No " + what + " on hand" + a.atLeast())
		if len(boards) == 0 {
			ans.line("Tell me what there is: “we have 3 sapele boards 2600 x 210 x 32”.")
		}
		return ans
	}
	head := fmt.Sprintf("%s on hand%s, %s m²", plural(n, "board", "boards"), a.atLeast(), measure.Decimal(area, 2))
	if unpriced == 0 && cost > 0 {
		head += ", " + money(cost)
	}
	ans := say(head, lines...)
	ans.echo = true
	return ans
}

// wanted says whether a board is among those that were asked for.
func (a *Ask) wanted(b book.Board) bool {
	if s := a.Word("species"); s != "" && s != b.Species {
		return false
	}
	for _, s := range []struct {
		need string
		of   book.MM
	}{{"length_mm", b.Length}, {"width_mm", b.Width}, {"thickness_mm", b.Thickness}} {
		if l, ok := a.Length(s.need); ok && s.of.Length() < l {
			return false
		}
	}
	return true
}

// atLeast says the sizes that were asked for.
func (a *Ask) atLeast() string {
	out := ""
	for _, s := range []struct{ need, how string }{{"length_mm", "long"}, {"width_mm", "wide"}, {"thickness_mm", "thick"}} {
		if l, ok := a.Length(s.need); ok {
			out += fmt.Sprintf(" at least %s %s", a.Out().Text(l, measure.Nearest), s.how)
		}
	}
	return out
}

// stockLine is one board of the list, with its faults.
func (a *Ask) stockLine(b book.Named[book.Board]) string {
	line := b.Name + ": " + a.boardText(b.Is)
	if b.Is.Offcut {
		line += ", offcut"
	}
	for _, f := range b.Is.Faults {
		line += fmt.Sprintf(", %s at %s", cmp.Or(f.Kind, "fault"), a.Out().Text((f.X+f.Length/2).Length(), measure.Nearest))
	}
	return line
}
