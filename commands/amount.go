package commands

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"fettle/calc/amount"
	"fettle/calc/measure"
	"fettle/calc/wood"
	"fettle/commands/speech"
)

var pricePer = speech.NewVocabulary("price per", map[string][]string{
	"m3":         {"per cube", "a cube", "per cubic metre", "cubic metre", "per m3", "the cube", "the cubic metre"},
	"board_foot": {"per board foot", "a board foot", "the board foot"},
	"metre":      {"per metre", "a metre", "running metre", "linear metre", "metre run", "the metre", "the running metre"},
	"board":      {"each", "per board", "a board", "apiece", "per piece", "the piece"},
})

// widestSheet bounds what is weighed or priced: doors and sheets too.
const widestSheet = 2500

func amountOf() *Topic {
	needs := append(partNeeds(shortestPart),
		speech.Need{Name: "price", Kind: speech.KindPrice, Label: "price", Own: true, Max: 1e6},
		speech.Need{Name: "price_per", Kind: speech.KindWord, Label: "per", Own: true},
		speech.Need{Name: "price_change_pct", Kind: measure.KindNumber, Label: "on the price", Own: true, Sign: true, Min: -100, Max: 200},
		speech.Need{Name: "density_kg_m3", Kind: measure.KindNumber, Label: "density", Own: true, Min: 50, Max: 1400},
		speech.Need{Name: "moisture_pct", Kind: measure.KindPercent, Label: "moisture", Min: 0, Max: 120},
	)
	for i := range needs {
		switch needs[i].Name {
		case "length_mm":
			needs[i].Min, needs[i].Max = 300, 60000 // running metres too
			needs[i].Roles = append([]string{"#length of"}, needs[i].Roles...)
		case "width_mm":
			needs[i].Min, needs[i].Max = 15, widestSheet
		case "thickness_mm":
			needs[i].Min = 6
		}
	}
	return &Topic{
		Title:    "volume, board feet, weight and cost of timber",
		Examples: []string{"volume and weight of 12 of 1000 x 50 x 25 ash at 900 a cube", "board feet in 8 of 6 ft x 7 in x 1 1/2 in", "what do 6 oak rails 742x90x40 weigh"},
		Form: speech.Form{
			Name: "amount", Exact: true,
			Cues: []speech.Cue{
				{Weight: 4, Pattern: "volume|cubage|cubic|volumes"},
				{Weight: 4, Pattern: "board|bd feet|foot|ft"},
				{Weight: 2, Pattern: "#price"},
				{Weight: 2, Pattern: "#size .. #price"},
				{Weight: 3, Pattern: "damage|bill|pay|charge|charged"},
				{Weight: 3, Pattern: "bf|bdft|cube|cubes|m3"},
				{Weight: 4, Pattern: "=mass|masses of|for|:? #|the|all"},
				{Weight: 4, Pattern: "density of|is|:|=? #"},
				{Weight: 4, Pattern: "weight|weigh|weighs|weights|weighing"},
				{Weight: 4, Pattern: "how heavy =is|are|will|would|does"},
				{Weight: 3, Pattern: "how heavy at|is|?"},
				{Weight: -5, Pattern: "what|which weight|load can|will|could|may|does|would|might"},
				{Weight: -5, Pattern: "how much|heavy|what .. carry|hold|bear|support"},
				{Weight: 4, Pattern: "cost|costs|price|pricey|costing|priced"},
				{Weight: 3, Pattern: "how much|many .. cube|cubic|m3|timber|wood|money|euro|euros|quid|set|back"},
				{Weight: 3, Pattern: "how many cubes|cube|cubic|board"},
				{Weight: 3, Pattern: "come to|comes|work|works out? at|to|in"},
				{Weight: 2, Pattern: "per|a|the cube|board"},
				{Weight: 1, Pattern: "boards|planks|lengths|rails|pieces"},
				{Weight: -4, Pattern: "put|lay|with .. the? =boards"},
				{Weight: -8, Pattern: "did|do|have you see|hear|seen|heard|notice"},
				{Weight: -4, Pattern: "bought|got|add|stock|varnish|oil|paint|glue|epoxy"},
				{Weight: -4, Pattern: "convert|sag|move|movement|screw"},
			},
			Needs:  needs,
			Sizes:  []string{"length_mm", "width_mm", "thickness_mm"},
			Items:  true,
			Before: readAmount,
			After:  needSizes,
		},
		Answer: answerAmount,
	}
}

// readAmount reads what only timber that is bought has, and how many pieces there are.
func readAmount(r *speech.Reading) {
	passOpenings(r)
	passBeside(r)
	passExtras(r)
	readOnPrice(r)
	passSomeOf(r)
	readPrices(r)
	readHowMany(r)
	askWhichSize(r)
}

// passExtras claims money that is not the timber's: what the transport costs, or the sawing.
func passExtras(r *speech.Reading) {
	passAll(r, "transport|delivery|carriage|freight|sawing|planing|haulage|fuel|lunch|deposit|parking|shipping|petrol .. #price", "#price for|on|of the? transport|delivery|carriage|freight|sawing|planing|haulage|shipping|deposit|fuel|petrol",
		"# on|in me|us|my|our pocket|pockets|wallet|purse?", "have|got|has # to spend|left to? spend?", "=budget of|is|:|about? #",
		"plus|and|extra|another #price transport|delivery|carriage|freight|sawing|planing|haulage|shipping|extra")
}

// readOnPrice takes what is put on the price or taken off it in percent: 20 % VAT, 10 % discount, and
// the waste that has to be bought.
func readOnPrice(r *speech.Reading) {
	for k, patterns := range [][]string{
		{"#percent =vat|tax|waste|wastage|markup|surcharge|extra", "=vat|tax|waste|wastage of|at|is|: #percent", "add|plus #percent for|on?"},
		{"#percent =discount|off|cheaper|rebate", "discount of|: #percent"},
	} {
		for _, p := range patterns {
			i, ok := r.Find(p)
			if !ok || r.Items[i].Q.Value == nil {
				continue
			}
			change := new(big.Rat).Abs(r.Items[i].Q.Value)
			if k > 0 {
				change.Neg(change)
			}
			r.Put("price_change_pct", speech.Quantity{Kind: measure.KindNumber, Value: change})
			r.Claim(i)
		}
	}
}

// readPrices takes the price and what it is for, and a density that was stated.
func readPrices(r *speech.Reading) {
	for i := range r.Items {
		if !r.Free(i) {
			continue
		}
		q := *r.Items[i].Q
		switch {
		case q.Kind == speech.KindPrice:
			r.Put("price", q)
			r.Claim(i)
			if len(q.Per) > 0 {
				r.Word("price_per", perName(q.Per[0]))
			}
		case q.Kind == measure.KindMass && len(q.Per) == 1 && q.Per[0] == "m3":
			r.Put("density_kg_m3", speech.Quantity{Kind: measure.KindNumber, Value: q.Base()})
			r.Claim(i)
		case q.Kind == measure.KindVolume && (r.Before(i, "one|1|per|a") || anyOf(wordAt(r, i+1), "is|makes|costs|goes|comes|runs|sells|gets")) && q.Value.Cmp(big.NewRat(1, 1)) == 0:
			r.Claim(i)
			priceAfter(r, i)
			if !r.Request.Has("price_per") {
				r.Word("price_per", perName(q.Unit.Symbol))
			}
		}
	}
	if i, ok := r.Find("density|densities of|is|:|=|at? about? #number"); ok && !r.Request.Has("density_kg_m3") && r.Alone(i) {
		r.Set("density_kg_m3", i)
	}
	if i, ok := r.Find("cube|metre|meter|m3|foot is|costs|at|comes|goes|=: to|for|at|about? #number"); ok && !r.Request.Has("price") && r.Alone(i) && pricedHere(r) {
		r.Set("price", i)
	}
	if !r.Request.Has("price") {
		for _, i := range r.All("costs|cost|price|priced|paid|pay|at|for of|is|:|at? #") {
			if next := wordAt(r, i+1); r.Alone(i) && (next == "" || !r.Says("# "+next+" .. #size")) && pricedHere(r) && !r.Request.Has("price") {
				r.Set("price", i)
			}
		}
	}
	if r.Request.Has("price") && !r.Request.Has("price_per") {
		if per, ok := r.Named(pricePer); ok {
			r.Word("price_per", per)
		}
	}
}

// priceAfter takes the bare number behind "one m3 is" for the price.
func priceAfter(r *speech.Reading, volume int) {
	for i := volume + 1; i <= volume+3 && !r.Request.Has("price"); i++ {
		if r.Free(i) && r.Alone(i) {
			r.Set("price", i)
		}
	}
}

// pricedHere says whether the message is about money at all.
func pricedHere(r *speech.Reading) bool {
	return r.Says("cost|costs|price|priced|paid|pay|cube|money")
}

func perName(symbol string) string {
	switch symbol {
	case "bf", "board_foot":
		return string(amount.PerBoardFoot)
	case "m":
		return string(amount.PerMetre)
	case "board":
		return string(amount.PerBoard)
	}
	return symbol
}

// needSizes asks for the sizes that the amount needs. For a price by the metre or by the
// board, the length or the number is enough.
func needSizes(r *speech.Reading) {
	if len(r.Request.Items) > 0 {
		return
	}
	longestFirst(r)
	widerFirst(r)
	per := r.Request.Word("price_per")
	switch {
	case per == string(amount.PerBoard):
		r.AskFor("quantity", "How many boards?", "quantity", "length_mm")
		return
	case per == string(amount.PerMetre):
		r.AskFor("length_mm", "How long are they?", "length_mm")
		return
	}
	r.AskFor("length_mm", "What size are they: length × width × thickness?", "length_mm")
	r.AskFor("width_mm", "How wide and how thick?", "width_mm")
	r.AskFor("thickness_mm", "How thick?", "thickness_mm")
	if r.Says("cost|costs|price of|for") {
		r.AskFor("price", "At what price: per cubic metre, board foot, metre or board?", "price")
	}
	if r.Request.Has("price") && per == "" && r.Says("weigh|weighs|weight|heavy|volume") && !r.Says("cost|costs|price|pay|worth|charge|bill") {
		r.Drop("price") // £60 is said beside a question about the weight
	}
	if r.Request.Has("price") && per == "" {
		r.AskFor("price_per", "Is the price per cubic metre, board foot, metre or board?", "price_per")
	}
}

// longestFirst turns round a width and a length that were said in that order: 8/4 × 8 in × 10 ft.
func longestFirst(r *speech.Reading) {
	length, width := r.Request.Slots["length_mm"], r.Request.Slots["width_mm"]
	if length.Num != nil && width.Num != nil && length.Num.Cmp(width.Num) < 0 && withoutRole(r, length) && withoutRole(r, width) {
		r.Request.Slots["length_mm"], r.Request.Slots["width_mm"] = width, length
	}
}

func answerAmount(a *Ask) Answer {
	items := a.Request.Items
	if len(items) == 0 {
		items = []speech.Request{a.Request}
	}
	ans := say("")
	var total amount.Amount
	var parts []string
	for k, it := range items {
		b, timber, err := a.boards(it)
		if err != nil {
			return ask(plainly(err))
		}
		m, err := b.Amount()
		if err != nil {
			return ask(plainly(err))
		}
		total.VolumeM3 += m.VolumeM3
		total.BoardFeet += m.BoardFeet
		total.WeightKg += m.WeightKg
		total.Cost += m.Cost
		total.Metres += m.Metres
		if timber != "" && !slices.Contains(parts, timber) {
			parts = append(parts, timber)
		}
		if len(items) > 1 {
			ans.line(understood(it, a.Form) + ": " + amountText(m))
		}
		if k < mostReasons {
			ans.because(amountSum(b, m))
		}
	}
	if change, said := a.Float("price_change_pct"); said && total.Cost > 0 {
		ans.line(fmt.Sprintf("Cost: %.2f, and %s %% on it.", total.Cost, measure.Decimal(change, 2)))
		total.Cost *= 1 + change/100
	}
	ans.Answer = capital(amountHeadline(&ans, total))
	if len(items) > 1 {
		ans.Answer = "In all " + amountText(total)
	}
	if total.WeightKg > 0 && len(parts) > 0 {
		ans.line("Weight by " + strings.Join(parts, ", ") + ". Single boards differ by a tenth and more.")
	}
	ans.because(amountSources(total, parts)...)
	if total.BoardFeet > 0 {
		ans.line("A board foot is 144 cubic inches; volumes are of the sizes said, without waste.")
	}
	return ans
}

// amountText prints the amount of one item of several.
func amountText(m amount.Amount) string {
	var blank Answer
	blank.Values = map[string]any{}
	return amountHeadline(&blank, m)
}

// amountSum writes the amount of one kind of board as a sum.
func amountSum(b amount.Boards, m amount.Amount) string {
	var sums []string
	if m.VolumeM3 > 0 {
		sums = append(sums, fmt.Sprintf("%d × %s × %s × %s m = %s m³", b.Quantity, metres(b.Size.Length), metres(b.Size.Width), metres(b.Size.Thickness), measure.Decimal(m.VolumeM3, 5)))
	}
	if m.WeightKg > 0 {
		sums = append(sums, fmt.Sprintf("× %s kg/m³ = %s kg", measure.Decimal(b.DensityKgM3, 0), measure.Decimal(m.WeightKg, 2)))
	}
	if m.Cost > 0 {
		units := map[amount.PricePer]string{
			amount.PerBoardFoot: measure.Decimal(m.BoardFeet, 3) + " board feet", amount.PerMetre: measure.Decimal(m.Metres, 3) + " m",
			amount.PerBoard: plural(b.Quantity, "board", "boards"), amount.PerM3: measure.Decimal(m.VolumeM3, 5) + " m³",
		}
		sums = append(sums, fmt.Sprintf("%s at %s = %.2f", units[b.Per], measure.Decimal(b.Price, 2), m.Cost))
	}
	return strings.Join(sums, "; ") + "."
}

func metres(l measure.Length) string { return measure.Decimal(l.MM()/1000, 5) }

func amountSources(total amount.Amount, timbers []string) []string {
	out := []string{"Geometry; 1 board foot = 144 cubic inches = 0.00236 m³ (definition, read)."}
	if total.WeightKg > 0 && len(timbers) > 0 {
		out = append(out, "Densities are the heaviest published ones ("+strings.Join(timbers, ", ")+"); at another moisture × (100 + M)/112, swelling left out.")
	}
	return out
}

func amountHeadline(ans *Answer, total amount.Amount) string {
	var head []string
	if total.VolumeM3 > 0 {
		ans.Values["volume_m3"], ans.Values["board_feet"] = total.VolumeM3, total.BoardFeet
		head = append(head, measure.Decimal(total.VolumeM3, 4)+" m³", measure.Decimal(total.BoardFeet, 2)+" board feet")
	}
	if total.WeightKg > 0 {
		ans.Values["weight_kg"] = total.WeightKg
		head = append(head, measure.Decimal(total.WeightKg, 1)+" kg")
	}
	if total.Cost > 0 {
		ans.Values["cost"] = total.Cost
		head = append(head, "cost "+fmt.Sprintf("%.2f", total.Cost))
	}
	return strings.Join(head, ", ")
}

// boards makes the boards of an item; what the item leaves open comes from the message.
func (a *Ask) boards(it speech.Request) (amount.Boards, string, error) {
	one := *a
	one.Request = it
	pick := func(name string) speech.Slot {
		if s, ok := it.Slots[name]; ok {
			return s
		}
		return a.Request.Slots[name]
	}
	b := amount.Boards{Quantity: one.Count(), Size: one.size(), Price: pick("price").Float(), Per: amount.PricePer(pick("price_per").Word)}
	timber := ""
	switch d := pick("density_kg_m3"); {
	case d.Num != nil:
		b.DensityKgM3, timber = d.Float(), "the density that you gave"
	default:
		if s, ok := wood.Find(pick("species").Word); ok {
			var err error
			if b.DensityKgM3, timber, err = densityOf(s, pick("moisture_pct")); err != nil {
				return b, "", err
			}
		}
	}
	return b, timber, nil
}

// densityOf gives the heaviest published density of a timber, at the moisture that was said.
// A moisture that it cannot be worked out for is an error.
func densityOf(s wood.Species, moisture speech.Slot) (float64, string, error) {
	d, err := s.DensityKgM3()
	if err != nil {
		return 0, "", nil // without a weight, then
	}
	rho, at := d.High.Value, "12 %"
	if moisture.Num != nil {
		if rho, err = wood.DensityAt(rho, moisture.Float()); err != nil {
			return 0, "", err
		}
		at = measure.Decimal(moisture.Float(), 1) + " %"
	}
	return rho, fmt.Sprintf("%s at %s moisture, %s kg/m³", s.Name, at, measure.Decimal(rho, 0)), nil
}
