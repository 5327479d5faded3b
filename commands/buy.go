package commands

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/blanks"
	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

func buy() *Topic {
	return &Topic{
		Title:    "what must be bought, at least cost from a price list",
		Examples: []string{"what do we need to buy", "have we got enough oak", "shopping list for the timber yard"},
		Restates: true,
		Form: speech.Form{
			Name: "buy",
			Cues: []speech.Cue{
				{Weight: 8, Pattern: "need|have|must|should|got|what|still|more|much|many .. buy|purchase|order"},
				{Weight: 8, Pattern: "buy|purchase any|more|yet|still|else|now|for"},
				{Weight: 8, Pattern: "do|should|must|will|shall we|i|you .. buy|order|purchase|get more|any"},
				{Weight: 9, Pattern: "shopping|buying|timber order|merchant's|order list"},
				{Weight: 8, Pattern: "shopping|buying list"},
				{Weight: 9, Pattern: "anything|something|what|else to get|fetch|pick|collect|bring up? from|at the? yard|merchant|merchants|sawmill"},
				{Weight: 9, Pattern: "list for|to the|our? timber? yard|merchant|merchants|sawmill"},
				{Weight: 8, Pattern: "what are|is we|there short of|missing"},
				{Weight: 7, Pattern: "are we short"},
				{Weight: 8, Pattern: "enough|sufficient .. " + timberNouns + "|" + stockNouns},
				{Weight: 8, Pattern: timberNouns + "|" + stockNouns + " .. enough|sufficient"},
				{Weight: 6, Pattern: "get|need|order|buy more .. " + timberNouns + "|timber|wood|boards"},
				{Weight: 7, Pattern: "how much|many .. " + timberNouns + "|timber|wood|boards .. order|buy|need|purchase"},
				{Weight: 7, Pattern: "which|what .. timber|wood|boards|" + timberNouns + " .. order|buy|purchase|need"},
				{Weight: 6, Pattern: "what|which .. get|fetch|bring|pick .. =yard|=merchant|=merchants"},
				{Weight: 6, Pattern: "=yard|=merchant|=merchants .. what|which .. get|fetch|bring|pick|short|missing|need"},
				{Weight: 7, Pattern: "get|fetch|need more|some .. or .. enough"},
				{Weight: -9, Pattern: "^ got|bought|we've|i've|i bought|got"},
				{Weight: -9, Pattern: "bought|#size|#price"},
				{Weight: -9, Pattern: "see|hear|price .. =yard|=merchant"},
				{Weight: -8, Pattern: "glue|epoxy|pva|varnish|oil|paint|clamps|clamp|screws|screw"},
				{Weight: -9, Pattern: "log|note|remember|remind|who|when"},
			},
			Needs: []speech.Need{{Name: "species", Kind: speech.KindWord, Label: "timber", Vocab: boardWords}},
		},
		Answer: answerBuy,
	}
}

func answerBuy(a *Ask) Answer {
	in, err := a.planInput()
	if err != nil {
		return ask(store.Sentence(err))
	}
	if t := a.Word("species"); t != "" {
		in.parts = slices.DeleteFunc(in.parts, func(p book.Named[book.Part]) bool { return p.Is.Species != t })
	}
	left := 0
	for _, p := range in.parts {
		left += in.toSaw(p)
	}
	if left == 0 {
		ans := say(strings.Join(strings.Fields("No parts"+inTimber(a.Word("species"))+" are still to be sawn, so nothing is to be bought"), " "))
		ans.line("“Show the parts” lists what there is.")
		return ans
	}
	lacking, err := in.lacking()
	if err != nil {
		return ask(plainly(err))
	}
	if len(lacking) == 0 {
		ans := say(fmt.Sprintf("Nothing: what is on hand is enough for %s%s", plural(left, "part", "parts"), inTimber(a.Word("species"))))
		ans.line(fmt.Sprintf("Nothing is spare in that: buy %s %% more if a mistake would stop you.", measure.Decimal(a.Settings.spare(), 1)))
		ans.Values["boards"], ans.Values["cost"] = 0, 0
		return ans
	}
	return a.fromTheYard(in, lacking)
}

func inTimber(species string) string {
	if species == "" {
		return ""
	}
	return " in " + species
}

// lacking are the parts, with how many of each, that what is on hand does not give.
func (in *planInput) lacking() ([]book.Named[book.Part], error) {
	if len(in.boards) == 0 {
		return in.unsawn(), nil
	}
	p, err := in.makePlan(planNodes, time.Time{})
	if err != nil {
		return nil, err
	}
	var out []book.Named[book.Part]
	for _, l := range p.LeftOut {
		for _, part := range in.parts {
			if part.Name == l.Name {
				part.Is.Quantity = l.Quantity
				out = append(out, part)
			}
		}
	}
	return out, nil
}

// unsawn are the parts with how many of each are still to be sawn.
func (in *planInput) unsawn() (out []book.Named[book.Part]) {
	for _, p := range in.parts {
		if p.Is.Quantity = in.toSaw(p); p.Is.Quantity > 0 {
			out = append(out, p)
		}
	}
	return out
}

// fromTheYard says what to buy for the parts that lack timber: from a price list where there is
// one, else by the cube.
func (a *Ask) fromTheYard(in planInput, lacking []book.Named[book.Part]) Answer {
	all, err := a.stocked()
	if err != nil {
		return ask(store.Sentence(err))
	}
	offers := keep(all, func(b book.Board) bool { return b.ForSale })
	if len(offers) == 0 {
		return a.byTheCube(in, lacking, nil)
	}
	in.parts, in.done, in.boards = lacking, nil, offers
	job, _ := in.job()
	pieces := 0
	for i, p := range lacking {
		pieces += p.Is.Quantity * job.Staves(i)
	}
	for i := range job.Boards {
		job.Boards[i].Quantity = pieces // more than one board a piece is never needed
	}
	ctx, cancel := context.WithTimeout(context.Background(), planTime)
	defer cancel()
	made, err := blanks.Make(ctx, job, cutplan.Limits{Nodes: planNodes, Seed: 1})
	if err != nil {
		return ask(plainly(err))
	}
	return a.bill(in, made, job, lacking)
}

// bill lists the boards to buy, with the spare for mistakes, and what no offer gives.
func (a *Ask) bill(in planInput, made blanks.Planned, job blanks.Job, lacking []book.Named[book.Part]) Answer {
	count, volume := make([]int, len(job.Boards)), 0.0
	for _, b := range made.Plan.Boards {
		count[b.Board]++
	}
	ans := say("")
	ans.echo = true
	for i, n := range spareBoards(made.Plan, job.Boards, a.Settings.spare()) {
		if count[i] += n; n > 0 {
			ans.line(fmt.Sprintf("%d of the %s %s for mistakes, as the offcuts of these boards don't come to %s %% (“spare timber 15 %%” changes that).",
				n, job.Boards[i].Name, map[bool]string{true: "is", false: "are"}[n == 1], measure.Decimal(a.Settings.spare(), 1)))
		}
	}
	boards, cost := 0, 0.0
	var lines []string
	for i, n := range count {
		if n == 0 {
			continue
		}
		b := job.Boards[i]
		boards += n
		cost += float64(n) * b.Price
		volume += float64(n) * cubic(b.Length, b.Width, b.Thickness)
		lines = append(lines, fmt.Sprintf("- %d × %s: %s", n, b.Name, money(float64(n)*b.Price)))
	}
	for _, l := range made.LeftOut {
		lines = append(lines, fmt.Sprintf("- not to be had from the list: %d × %s. %s", l.Quantity, job.Parts[l.Part].Name, l.Reason))
	}
	if boards == 0 {
		return a.byTheCube(in, lacking, lines)
	}
	ans.Answer = fmt.Sprintf("Buy %s for %s", plural(boards, "board", "boards"), money(cost))
	ans.details = append(lines, ans.details...)
	if !made.Plan.Proved {
		ans.line("The cheapest that was found; it may be had for a little less.")
	}
	ans.Values["boards"], ans.Values["cost"], ans.Values["volume_m3"] = boards, cost, volume
	ans.because("The parts that don't come out of what is on hand, with their allowances, laid out on the boards of the price list at least cost.",
		fmt.Sprintf("%s %% spare for mistakes: common practice, no source.", measure.Decimal(a.Settings.spare(), 1)))
	return ans
}

// cubic is the volume of a board or piece in m³.
func cubic(length, width, thickness measure.Length) float64 {
	return length.MM() * width.MM() * thickness.MM() / 1e9
}

// spareBoards are how many more of each kind of board to buy, so that what is bought of each timber
// and thickness holds so many per cent more than the blanks. More of the kind that is bought most
// often, as that is what most parts fit on.
func spareBoards(plan cutplan.Plan, boards []cutplan.Board, pct float64) []int {
	type lot struct {
		species   string
		thickness measure.Length
	}
	of := func(i int) lot { return lot{boards[i].Species, boards[i].Thickness} }
	count, more, over := make([]int, len(boards)), make([]int, len(boards)), map[lot]float64{}
	for _, b := range plan.Boards {
		count[b.Board]++
		over[of(b.Board)] += cubic(b.Length, b.Width, b.Thickness)
		for _, p := range b.Parts {
			over[of(b.Board)] -= cubic(p.Length, p.Width, b.Thickness) * (1 + pct/100)
		}
	}
	for lot, spare := range over {
		i := mostBought(count, boards, func(i int) bool { return of(i) == lot })
		each := cubic(boards[i].Length, boards[i].Width, boards[i].Thickness)
		if lacks := math.Ceil(-spare/each - 1e-9); lacks > 0 {
			more[i] = int(lacks)
		}
	}
	return more
}

// mostBought is the kind of board that is bought most often of those that are meant, the cheapest
// of several; -1 if none.
func mostBought(count []int, boards []cutplan.Board, meant func(int) bool) int {
	best := -1
	for i, n := range count {
		if n > 0 && meant(i) && (best < 0 || n > count[best] || n == count[best] && boards[i].Price < boards[best].Price) {
			best = i
		}
	}
	return best
}

// usualWaste is how much more rough timber is bought by the cube than the blanks hold, in per
// cent: common practice for sawn hardwood, no source.
const usualWaste = 40

// byTheCube says how much timber of each kind and thickness is missing where no price list tells
// what there is.
func (a *Ask) byTheCube(in planInput, lacking []book.Named[book.Part], lines []string) Answer {
	x := a.allowances()
	type lot struct {
		species   string
		thickness measure.Length
	}
	volume := map[lot]float64{}
	longest, widest := map[lot]measure.Length{}, map[lot]measure.Length{}
	var order []lot
	total := 0.0
	for _, p := range lacking {
		l, w, t := p.Is.Length.Length()+x.Length, p.Is.Width.Length()+x.Width, p.Is.Thickness.Length()+x.Thickness
		k := lot{p.Is.Species, a.boughtThickness(t)}
		if _, known := volume[k]; !known {
			order = append(order, k)
		}
		v := float64(p.Is.Quantity) * l.MM() * w.MM() * k.thickness.MM() / 1e9 * (1 + usualWaste/100.0)
		volume[k] += v
		total += v
		longest[k], widest[k] = max(longest[k], l), max(widest[k], w)
	}
	out := a.Out()
	ans := say(fmt.Sprintf("Buy about %s m³: %s short", measure.Decimal(math.Ceil(total*1000)/1000, 3), plural(len(lacking), "part is", "parts are")))
	ans.echo = true
	for _, k := range order {
		ans.line(fmt.Sprintf("- %s %s: %s m³, boards at least %s long and %s wide", cmp.Or(k.species, "timber"), out.Text(k.thickness, measure.Up),
			measure.Decimal(math.Ceil(volume[k]*1000)/1000, 3), out.Text(longest[k], measure.Up), out.Text(widest[k], measure.Up)))
	}
	ans.details = append(ans.details, lines...)
	ans.line(fmt.Sprintf("With the allowances and %d %% waste (common practice). A merchant's list makes it exact: “price list from …”.", usualWaste))
	ans.Values["volume_m3"] = total
	return ans
}

// boughtThickness is the sawn thickness to buy for a rough one: the next that merchants have.
func (a *Ask) boughtThickness(t measure.Length) measure.Length {
	sawn, _ := a.Settings.sawn()
	for _, s := range slices.Sorted(slices.Values(sawn)) {
		if s >= t {
			return s
		}
	}
	return t
}
