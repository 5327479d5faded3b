package commands

import (
	"bytes"
	"cmp"
	"fmt"
	"strings"

	"fettle/calc/amount"
	"fettle/calc/measure"
	"fettle/calc/piece"
	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/commands/tables"
	"fettle/store"
)

// Plausible sizes of boards and sheets on hand, in mm; common practice, no source.
const (
	shortestBoard, longestBoard  = 150, 8000
	narrowestBoard, widestBoard  = 40, widestSheet
	thinnestBoard, thickestBoard = 3, 160
	mostBoards                   = 60 // in one message: each is remembered by itself
)

func board() *Topic {
	needs := partNeeds(shortestBoard)
	for i := range needs {
		switch needs[i].Name {
		case "length_mm":
			needs[i].Max = longestBoard
		case "width_mm":
			needs[i].Min, needs[i].Max = narrowestBoard, widestBoard
		case "thickness_mm":
			needs[i].Min, needs[i].Max = thinnestBoard, thickestBoard
		case "species":
			needs[i].Vocab = boardWords
		}
	}
	needs = append(needs,
		speech.Need{Name: "price", Kind: speech.KindPrice, Label: "price", Own: true, Max: 1e6},
		speech.Need{Name: "price_per", Kind: speech.KindWord, Label: "per", Own: true},
		speech.Need{Name: "action", Kind: speech.KindWord, Own: true},
		speech.Need{Name: "fault", Kind: speech.KindWord, Label: "fault", Own: true},
		speech.Need{Name: "fault_at_mm", Kind: measure.KindLength, Label: "at", Max: longestBoard},
		speech.Need{Name: "fault_length_mm", Kind: measure.KindLength, Label: "over", Own: true, Max: longestBoard},
		speech.Need{Name: "fault_width_mm", Kind: measure.KindLength, Label: "wide", Own: true, Max: widestBoard},
		speech.Need{Name: "fault_from", Kind: speech.KindWord, Own: true},
		speech.Need{Name: "fault_edge", Kind: speech.KindWord, Own: true},
	)
	return &Topic{
		Title:    "boards and sheets on hand, with their faults and prices",
		Examples: []string{"we have 3 boards 2600 x 210 x 32 sapele", "the second ash board has a knot at 900, about 60 across", "bought 2 ash planks 2.4 m by 190 by 52, 61 euro each"},
		Form: speech.Form{
			Name:   "board",
			Cues:   boardCues,
			Needs:  needs,
			Sizes:  []string{"length_mm", "width_mm", "thickness_mm"},
			Items:  true,
			Writes: true,
			Before: readBoard, After: needBoard, Evidence: tableOfBoards,
		},
		Answer: answerBoard,
	}
}

// timberNouns are the timbers that people name alone when they mean boards of it.
const timberNouns = "oak|ash|sapele|larch|pine|beech|walnut|cherry|maple|mahogany|iroko|teak|cedar|spruce|fir|birch|ply|plywood|douglas|utile|elm|chestnut"

// boardNouns are the words for timber as it is bought.
const boardNouns = "board|boards|plank|planks|sheet|sheets|offcut|offcuts|scantling|baulk"

// sawnSaid are the ways of saying that a board is sawn up.
const sawnSaid = "is|are|was|has|have|all|now been? now|all|done|fully? =cut|=sawn|=sawed|=ripped|=crosscut"

var boardCues = []speech.Cue{
	{Weight: 7, Pattern: "got|have|bought|buy|fetched|collected|picked|brought|there's|theres|there|found|add|new|stock .. " + boardNouns + " .. #size"},
	{Weight: 7, Pattern: "got|have|bought|fetched|collected|picked|brought|there's|theres|found|add .. #size .. " + boardNouns},
	{Weight: 7, Pattern: "#size .. to|in|with|into|on the? stock|boards|timber|pile|rack"},
	{Weight: 6, Pattern: "^ stock|timber|boards :|- # .."},
	{Weight: 6, Pattern: "^ stock|timber|boards .. #size"},
	{Weight: 6, Pattern: "bought|delivered|arrived|delivery .. #size"},
	{Weight: 4, Pattern: "#size .. " + boardNouns + " $"},
	{Weight: 3, Pattern: boardNouns + " .. #size"},
	{Weight: 2, Pattern: "#size .. #price"},
	{Weight: 7, Pattern: "add|put|book|enter .. to|in|into|on|with the? stock|boards|pile|timber"},
	{Weight: 7, Pattern: "has|have|had|got a|an|some|two|three? big|small|bad|long|dead|large|loose? " + faultNouns},
	{Weight: 2, Pattern: timberNouns + " # has|have|got"},
	{Weight: 9, Pattern: "board|boards|plank|sheet|one|offcut|it .. has|have|got|with|shows .. " + faultNouns},
	{Weight: 9, Pattern: "there's|theres|there|found|a|an " + faultNouns + " .. in|on|at|of .. board|plank|sheet|offcut"},
	{Weight: 7, Pattern: faultNouns + " .. # from|in .. end|left|right|edge"},
	{Weight: 4, Pattern: faultNouns + " .. board|plank|sheet|offcut|#"},
	{Weight: 8, Pattern: "drop|remove|delete|scrap|lose|bin .. board|boards|plank|sheet|offcut"},
	{Weight: 8, Pattern: "board|plank|sheet|offcut .. is|was|are|has gone|scrap|used|split|useless|burnt|sold"},
	{Weight: 8, Pattern: "used|sold up? the? .. board|plank|sheet|offcut"},
	{Weight: 8, Pattern: timberNouns + " # is|was gone|scrap|used|useless|burnt|sold"},
	{Weight: 20, Pattern: boardNouns + " # " + sawnSaid},
	{Weight: 20, Pattern: boardNouns + " " + sawnSaid},
	{Weight: 20, Pattern: timberNouns + " # " + sawnSaid},
	{Weight: 20, Pattern: "i've|we've|i|we|have|has|just|gil|petra =cut|=sawn|=ripped|=crosscut up? the? .. " + boardNouns},
	{Weight: 4, Pattern: "^ got|bought|found|collected|fetched a|an|another|some|one .. " + boardNouns},
	{Weight: 7, Pattern: "board|plank|sheet|offcut # .. is|costs|cost|was .. #price"},
	{Weight: 7, Pattern: "boards|board|stock|planks list|csv|file|attached|as|in"},
	{Weight: 7, Pattern: "attached|file|csv|list .. boards|stock|planks|timber"},
	{Weight: 8, Pattern: "price list|page|lists"},
	{Weight: 8, Pattern: "merchant's|merchants|yard's|yards|timber list|prices|page"},
	{Weight: -12, Pattern: "^ which|what|how|do|does|can|will|would|is|are|any|why|where|who|when|should"},
	{Weight: -6, Pattern: "need|needs|want|require|order"},
	{Weight: -6, Pattern: "rough|clamps|clamp|cramps|glue|screw|pilot|sag|movement|weigh|weight|volume|finish|emc|shelf|shrink|shrinks|swell|swells|cup"},
	{Weight: -8, Pattern: "plan|draw|cut|lay|nest"},
	{Weight: -12, Pattern: "board|bd feet|foot|ft"},
	{Weight: -6, Pattern: "drop|weather|tapered|wash =boards"},
	{Weight: -20, Pattern: "drop|weather|wash|storm|skirting|bench|floor =board|boards " + sawnSaid},
	{Weight: -5, Pattern: "note|remember|remind"},
}

// boardWords are the timbers and the materials that come in sheets.
var boardWords = speciesWords.With("species", map[string][]string{
	"plywood": {"ply", "birch ply", "marine ply"}, "mdf": {"medium density fibreboard"}, "acrylic": {"acrylic sheet", "acrylic glass"},
	"osb": {}, "chipboard": {"particle board"}, "hardboard": {},
})

func readBoard(r *speech.Reading) {
	switch {
	case readBoardTable(r):
		return
	case r.Says("price list|lists|page") || r.Says("merchant's|merchants|yard's|yards|timber list|prices|page"):
		r.Word("action", "list")
		r.Word("sentence", r.Text)
		claimAll(r)
		return
	case readFault(r):
		return
	case r.Says(boardNouns+" # "+sawnSaid) || r.Says(boardNouns+" "+sawnSaid) || r.Says(timberNouns+" # "+sawnSaid) || r.Says("i've|we've|i|we|have|has|just|gil|petra =cut|=sawn|=ripped|=crosscut up? the? .. "+boardNouns):
		r.Word("action", "sawn")
		r.Word("sentence", r.Text)
		claimAll(r)
		return
	case r.Says("drop|remove|delete|scrap|lose|bin .. "+boardNouns) || r.Says(boardNouns+" .. is|was|are|has gone|scrap|used|useless|burnt|sold") || r.Says(timberNouns+" # is|was gone|scrap|used|useless|burnt|sold") || r.Says("used|sold up? the? .. "+boardNouns):
		r.Word("action", "drop")
		r.Word("sentence", r.Text)
		claimAll(r)
		return
	}
	readPrices(r)
	if r.Request.Has("price") && (r.Says("=in all|total") || r.Says("=together|altogether|=total") || r.Says("the =lot|=pair|=two|=three|=four|=five|=six $")) {
		r.Word("price_per", perLot)
	}
}

// claimAll leaves no number of the message to the needs.
func claimAll(r *speech.Reading) {
	for i := range r.Items {
		if r.Free(i) {
			r.Claim(i)
		}
	}
}

// needBoard asks for the size that is missing. A size that is said anew is another board: what
// was said of the one before, its price and how many, is not said of it.
func needBoard(r *speech.Reading) {
	if r.Said("length_mm") && r.Said("width_mm") {
		for _, need := range []string{"price", "quantity"} {
			if !r.Said(need) {
				r.Drop(need)
			}
		}
		if !r.Request.Has("price") {
			r.Drop("price_per")
		}
	}
	countBoards(r)
	if r.Request.Has("action") || len(r.Request.Items) > 0 || r.Says("list|csv|file|attached|attachment") {
		return
	}
	askSizes(r, "Which size is it: length × width × thickness?")
	askWhichFigure(r)
}

func answerBoard(a *Ask) Answer {
	switch a.Word("action") {
	case "list":
		return a.readPriceList()
	case "take":
		return a.takePriceList()
	case "fault":
		return a.addFault()
	case "drop":
		return a.dropBoard()
	case "sawn":
		return a.boardCut()
	}
	if f, ok := a.listBeside(); ok {
		return a.boardsFromFile(f)
	}
	return a.addBoards()
}

// boardsFromFile puts the boards of an attached list on hand, in the form of a boards.csv.
func (a *Ask) boardsFromFile(f store.File) Answer {
	rows, err := tables.Stock(f.Name, bytes.NewReader(f.Data))
	if err != nil {
		return unreadable(err)
	}
	boards, err := book.Boards(a.Tx, a.Project.ID)
	if err != nil {
		return ask(store.Sentence(err))
	}
	names, ans, n := newNames(boards), say(""), 0
	for _, r := range rows {
		if n += r.Quantity; n > mostBoards {
			return ask(fmt.Sprintf("I remember each board by itself, at most %d at a time, and %s has more. Send it in parts.", mostBoards, f.Name))
		}
		b := book.Board{Quantity: 1, Length: book.MM(r.Length), Width: book.MM(r.Width), Thickness: book.MM(r.Thickness), Price: r.Price, Unpriced: r.Unpriced, Species: r.Species}
		var made []string
		for range r.Quantity {
			name := names.next(calledBy(b))
			made = append(made, name)
			ans.effects = append(ans.effects, put(a.Project.ID, book.WhatBoard, name, b))
		}
		ans.line(fmt.Sprintf("- %s: %s (%s in the list)", nameRange(made), a.boardText(b), r.Name))
	}
	ans.Answer = fmt.Sprintf("On hand now: %s from %s", plural(n, "board", "boards"), shorten(f.Name, 60))
	ans.echo = true
	return ans
}

// addBoards puts boards on hand, each by itself: no two boards are alike once one looks at them.
func (a *Ask) addBoards() Answer {
	boards, err := book.Boards(a.Tx, a.Project.ID)
	if err != nil {
		return ask(store.Sentence(err))
	}
	names := newNames(boards)
	items := a.Request.Items
	if len(items) == 0 {
		items = []speech.Request{a.Request}
	}
	ans := say("")
	var told []string
	for _, it := range items {
		b, n, why := a.boardOf(it)
		if why != "" {
			return ask(why)
		}
		var made []string
		for range n {
			name := names.next(calledBy(b))
			made = append(made, name)
			ans.effects = append(ans.effects, put(a.Project.ID, book.WhatBoard, name, b))
		}
		told = append(told, fmt.Sprintf("%s: %s", nameRange(made), a.boardText(b)))
	}
	ans.Answer = shorten("On hand now: "+strings.Join(told, "; "), MaxHeadline)
	if len(told) > 1 {
		for _, t := range told {
			ans.line("- " + t)
		}
	}
	ans.line("Say faults as you find them: “sapele 1 has a knot 900 from the left, 60 across”.")
	return ans
}

// boardOf makes one board of what was said, and says how many of it there are.
func (a *Ask) boardOf(r speech.Request) (b book.Board, n int, why string) {
	for _, s := range []struct {
		need string
		to   *book.MM
	}{{"length_mm", &b.Length}, {"width_mm", &b.Width}, {"thickness_mm", &b.Thickness}} {
		l, ok := r.Length(s.need)
		if !ok {
			return b, 0, "Which size is it: length × width × thickness?"
		}
		*s.to = book.MM(l)
	}
	n = 1
	if q, ok := r.Float("quantity"); ok {
		n = int(q)
	}
	if n > mostBoards {
		return b, 0, fmt.Sprintf("I remember each board by itself, at most %d at a time. How many are really on hand?", mostBoards)
	}
	b.Quantity, b.Species, b.Sheet = 1, r.Word("species"), isSheet(r.Word("species"))
	if b.Species == "" {
		b.Species = a.Word("species")
	}
	b.Unpriced = true
	price, ok := r.Float("price")
	if !ok {
		price, ok = a.Float("price")
	}
	if ok {
		if a.Word("price_per") == perLot {
			b.Price = price / float64(max(n, 1))
		} else if b.Price, why = a.priceOfOne(price, b); why != "" {
			return b, 0, why
		}
		b.Unpriced = false
	}
	return b, n, ""
}

// perLot is what a price is for that was said of several boards together.
const perLot = "lot"

// priceOfOne works out what one board costs from how the price was said.
func (a *Ask) priceOfOne(price float64, b book.Board) (float64, string) {
	per := amount.PricePer(cmp.Or(a.Word("price_per"), string(amount.PerBoard)))
	size := piece.Size{Length: b.Length.Length(), Width: b.Width.Length(), Thickness: b.Thickness.Length()}
	m, err := amount.Boards{Quantity: 1, Size: size, Price: price, Per: per}.Amount()
	if err != nil {
		return 0, plainly(err)
	}
	return m.Cost, ""
}

func isSheet(species string) bool {
	switch species {
	case "plywood", "mdf", "acrylic", "osb", "chipboard", "hardboard":
		return true
	}
	return false
}

// boardText says a board in a few words: size, and price if it has one.
func (a *Ask) boardText(b book.Board) string {
	out := a.Out()
	text := fmt.Sprintf("%s × %s × %s", out.Number(b.Length.Length(), measure.Nearest), out.Number(b.Width.Length(), measure.Nearest), out.Text(b.Thickness.Length(), measure.Nearest))
	if !b.Unpriced && !b.Offcut {
		text += fmt.Sprintf(", %s each", money(b.Price))
	}
	return text
}

func money(v float64) string { return measure.Decimal(v, 2) }
