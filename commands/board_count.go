package commands

import (
	"math/big"
	"slices"
	"strings"

	"fettle/calc/measure"
	"fettle/commands/speech"
	"fettle/commands/tables"
)

// countBoards reads how many boards of a size there are where the number stands apart from it: before
// the timber, "4 larch 3000 x 145 x 28", in brackets or behind a dash.
func countBoards(r *speech.Reading) {
	starts := chainStarts(r.Items)
	boards := []speech.Request{r.Request}
	if len(r.Request.Items) > 0 {
		boards = r.Request.Items
	}
	if len(starts) != len(boards) {
		return
	}
	for k, start := range starts {
		if boards[k].Has("quantity") {
			continue
		}
		q := countBefore(r.Sentence, start)
		if q == nil {
			q = countAfter(r.Sentence, start)
		}
		if q != nil {
			boards[k].Slots["quantity"] = speech.Slot{Num: q.Value, Said: q.Value}
		}
	}
}

// countBefore finds a number of boards with nothing but their timber between it and their size.
func countBefore(s speech.Sentence, start int) *speech.Quantity {
	for i := start - 1; i >= 0; i-- {
		q := s.Items[i].Q
		if q == nil {
			continue
		}
		_, words := boardWords.At(s, i+1)
		if words == start-i-1 && words > 0 && ofBoards(q) && (i == 0 || s.Items[i-1].Text != "×") {
			return q
		}
		return nil
	}
	return nil
}

// countAfter finds a number of boards in brackets behind their size, or behind a dash.
func countAfter(s speech.Sentence, start int) *speech.Quantity {
	end := start
	for end+2 < len(s.Items) && s.Items[end+1].Text == "×" && s.Items[end+2].Q != nil {
		end += 2
	}
	if last := s.Items[end].Q; last.High != nil && last.Bare() && last.High.Cmp(last.Value) < 0 {
		if q := (&speech.Quantity{Value: last.High, Kind: measure.KindNumber, Integer: last.High.IsInt()}); ofBoards(q) {
			return q
		}
	}
	if end+3 < len(s.Items) && s.Items[end+1].Text == "(" && s.Items[end+2].Q != nil && s.Items[end+3].Text == ")" && ofBoards(s.Items[end+2].Q) {
		return s.Items[end+2].Q
	}
	at := end + 1
	for at < len(s.Items) && anyOf(s.Items[at].Text, ",|;|-|:|=|of|is|pieces|pcs|quantity|qty|count|number") { // sapele 2600 × 220 × 45, pieces 4
		at++
	}
	if at < len(s.Items) && anyOf(s.Items[max(at-1, 0)].Text, "pieces|pcs|quantity|qty|count|number|:|=") && s.Items[at].Q != nil && ofBoards(s.Items[at].Q) {
		return s.Items[at].Q
	}
	return nil
}

func ofBoards(q *speech.Quantity) bool {
	return q.Bare() && q.Value != nil && q.High == nil && atMost(q.Value, mostBoards)
}

// tableOfBoards says whether the lines of a message are a table of timber: they have prices, or the
// message says so.
func tableOfBoards(s speech.Sentence) int {
	if !strings.ContainsAny(s.Raw, "\n\t") {
		return 0
	}
	rows, timber, err := tables.PastedBoards(s.Raw)
	if len(rows) == 0 && err == nil || !timber && !speech.Read(besideTable(s.Raw)).Says("boards|stock|planks|timber") {
		return 0
	}
	return pastedTable
}

// besideTable is what a message says above and below the lines of a table.
func besideTable(text string) string {
	lines := slices.DeleteFunc(strings.Split(text, "\n"), func(l string) bool { return strings.ContainsAny(l, "|\t;") || strings.Count(l, ",") > 1 })
	return strings.Join(lines, "\n")
}

// pastedTable is how much a table that was pasted speaks for the topic that it is for: its words are
// names, and say nothing else.
const pastedTable = 30

// readBoardTable reads a table of boards, and says whether there is one.
func readBoardTable(r *speech.Reading) bool {
	if tableOfBoards(r.Sentence) == 0 {
		return false
	}
	claimAll(r)
	r.Word("action", "table")
	rows, _, err := tables.PastedBoards(r.Raw)
	if err != nil {
		r.Question = &speech.Question{Text: plainly(err)}
		return true
	}
	for _, row := range rows {
		it := requestOf(tables.PartRow{Quantity: row.Quantity, Length: row.Length, Width: row.Width, Thickness: row.Thickness, Species: row.Species})
		it.Topic = r.Form.Name
		if !row.Unpriced {
			price := new(big.Rat).SetFloat64(row.Price)
			it.Slots["price"] = speech.Slot{Num: price, Said: price}
		}
		r.Request.Items = append(r.Request.Items, it)
	}
	return true
}
