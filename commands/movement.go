package commands

import (
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"

	"fettle/calc/glue"
	"fettle/calc/measure"
	"fettle/calc/wood"
	"fettle/commands/speech"
)

// rift is the word of a request for boards whose rings stand aslant.
const rift = "rift"

var grainWords = speech.NewVocabulary("grain", map[string][]string{
	string(wood.Flat): {"flat sawn", "flat-sawn", "flatsawn", "plain sawn", "plain-sawn", "plainsawn", "plain", "slab sawn", "slabsawn", "through and through", "crown cut", "crown sawn",
		"tangential", "tangentially", "flat grain", "flat sawed", "back sawn", "backsawn", "cathedral"},
	string(wood.Quarter): {"quarter sawn", "quarter-sawn", "quartersawn", "quarter cut", "quartered", "quarter sawed", "radial", "radially", "vertical grain", "edge grain", "quatersawn", "quater sawn", "qs", "rift and quartered"},
	rift:                 {"rift sawn", "rift-sawn", "riftsawn", "rings at 45", "bastard sawn"},
})

// airWords tell that percentages are of the air's humidity and not of the wood's moisture.
const airWords = "humidity|rh|relative|air|humid"

// askTimber is asked when the timber was not said, or is none of the table's.
const askTimber = "Which timber? I know for instance oak, ash, larch, pine, sapele and iroko."

// wettest is the highest moisture content believed, in per cent: green wood that weighs twice
// what it does dry. Common practice, no source.
const wettest = 100

func movement() *Topic {
	return &Topic{
		Title:    "how much a board's width moves with moisture",
		Examples: []string{"how much will 300 of flat-sawn oak move from 8 to 14 %", "quartersawn larch 160 wide, 8 up to 12 %, how much wider", "does a 240 sapele panel shrink much from 14 % to 9 %"},
		Form: speech.Form{
			Name: "movement", Exact: true,
			Cues: []speech.Cue{
				{Weight: 4, Pattern: "how much|far|big .. move|moves|moving|movement|moove|swell|swells|swelling|shrink|shrinks|shrinkage|shrinking|wider|narrower"},
				{Weight: 3, Pattern: "movement|shrinkage|swelling"},
				{Weight: 1, Pattern: "move|moves|shrink|shrinks|swell|swells|moove"},
				{Weight: 3, Pattern: "how much expand|expands|grow|grows|bigger|smaller|gain|lose|come|go .. #percent"},
				{Weight: 3, Pattern: "wider|narrower"},
				{Weight: 4, Pattern: "flatsawn|quartersawn|riftsawn|plainsawn|quatersawn"},
				{Weight: 4, Pattern: "flat|plain|quarter|rift|quater|slab|crown|back sawn|cut"},
				{Weight: 2, Pattern: "gap|clearance|room|slot|allow|allowance|expand|grow|dries|drying|dry|wetter|damper"},
				{Weight: 2, Pattern: "# up|down? to|- #percent"},
				{Weight: 2, Pattern: "#percent up|down? to|- #"},
				{Weight: 1, Pattern: "percent|moisture|mc"},
				{Weight: 1, Pattern: "#percent"},
				{Weight: 1, Pattern: "oak|ash|sapele|larch|pine|beech|iroko|teak|walnut|maple|mahogany|cedar|spruce|fir|cherry|timber|wood"},
				{Weight: -7, Pattern: "acrylic|polycarbonate|glass|glazing|aluminium|aluminum|steel|brass|copper|pvc"},
				{Weight: -4, Pattern: "emc|equilibrium|settle|settles"},
				{Weight: -5, Pattern: "move|moves|moved|change|switch|put to #|project|project|the"},
				{Weight: -4, Pattern: "spring|springback|radius|plies|screw|screws|shelf|sag|clamps|cramps|mitre|how|what to ask"},
			},
			Needs: []speech.Need{
				{Name: "quantity", Kind: speech.KindCount, Label: "quantity", Min: 1, Max: mostParts, Roles: []string{"# of them|these|those", "# boards|planks|panels|slats"}},
				{Name: "length_mm", Kind: measure.KindLength, Label: "length", Min: shortestPart, Max: longestPart, Roles: lengthRoles},
				{Name: "width_mm", Kind: measure.KindLength, Label: "width", Min: 5, Max: 5000,
					Roles: append([]string{"# across|over", "across|over #", "# of? flat|quarter|quartersawn|flatsawn|plain", "wide is|: #"}, widthRoles...)},
				{Name: "thickness_mm", Kind: measure.KindLength, Label: "thickness", Min: thinnestPart, Max: thickestPart, Roles: thicknessRoles},
				{Name: "species", Kind: speech.KindWord, Label: "timber", Vocab: speciesWords, Ask: askTimber},
				{Name: "grain", Kind: speech.KindWord, Label: "grain", Vocab: grainWords},
				{Name: "mc_from_pct", Kind: measure.KindPercent, Label: "moisture before", Min: 1, Max: wettest,
					Roles: []string{"from|starting|start|starts|started|now|currently|presently|was|is|reads at? #", "# =now|currently|today", "meter says|shows|reads #", "bought|measured|delivered|came|arrived|=dried in? at|to|with? #"}},
				{Name: "mc_to_pct", Kind: measure.KindPercent, Label: "moisture after", Min: 1, Max: wettest,
					Roles: []string{"to|until|till|reaches|reach|reaching|becomes|hits|settles|ends|end|finishes at? #", "up|down|on to|at #", "be|get|gets|become at|to? #"}},
				{Name: "air_from_pct", Kind: measure.KindPercent, Label: "air humidity before", Min: 1, Max: 98, Own: true},
				{Name: "air_to_pct", Kind: measure.KindPercent, Label: "air humidity after", Min: 1, Max: 98, Own: true},
			},
			Sizes:  []string{"length_mm", "width_mm", "thickness_mm"},
			Before: readMoistures,
			After:  needMovement,
		},
		Answer: answerMovement,
	}
}

// readMoistures takes two percentages as moisture contents of the wood, or, where the message
// speaks of the air, as its humidities.
func readMoistures(r *speech.Reading) {
	passNeighbours(r)
	takeSeveralJoined(r)
	takeOf(r, "width_mm")
	takeSizesSaid(r)
	from, to := "mc_from_pct", "mc_to_pct"
	if ofAir(r) {
		from, to = "air_from_pct", "air_to_pct"
	}
	if readFromTo(r, from, to) {
		return
	}
	readNowAndThere(r, from, to)
	readThenAndNow(r, from, to)
	readBareShares(r, from, to)
	if p, ok := between(r, ofKind(measure.KindPercent)); ok && !r.Request.Has(to) {
		r.Put(from, p.from)
		r.Put(to, p.to)
		for _, i := range p.items {
			r.Claim(i)
		}
	}
}

// ofAir says whether the message speaks of the air's humidity: by a word, or by RH behind a percent sign.
func ofAir(r *speech.Reading) bool {
	said := strings.ToLower(r.Text)
	return r.Says(airWords) || strings.Contains(said, "% rh") || strings.Contains(said, "%rh")
}

// passNeighbours sets aside what lies beside the wood, a groove or a gap, and the "one" of "each one".
func passNeighbours(r *speech.Reading) {
	const neighbours = "groove|grooves|tongue|tongues|gap|gaps|rebate|rebates|slot|slots"
	passAll(r, neighbours+" now|currently|today? is|are|of|:|,? now|currently|only|about? # =wide|deep|long|thick?", "# =wide|deep|long|thick|expansion? "+neighbours)
	for i := range r.Items {
		if r.Free(i) && anyOf(strings.ToLower(r.Text[r.Items[i].Start:r.Items[i].End]), "one") && anyOf(wordAt(r, i-1), "each|every|this|that|which|the|any|either|another") {
			r.Claim(i)
		}
	}
}

// takeSeveralJoined takes for the width that of all the boards together, where they are glued up and
// the whole is asked about: three boards of 140 glued edge to edge.
func takeSeveralJoined(r *speech.Reading) {
	if !r.Says("glued|jointed|joined|edge|butted up|together|to|edge|side") || !r.Says("=whole|overall|altogether|panel|top|tabletop|lot|glue-up") && !r.Says("in =all|total") || r.Says("does|will|would|do each|every") || r.Says("per board") {
		return
	}
	for _, p := range []string{"# boards|planks|staves|slats|pieces|strips|lengths each|all|of|at|,? #", "# boards|planks|staves|slats|pieces|strips .. # =wide|across|each"} {
		for _, i := range r.All(p) {
			n := r.Items[i].Q
			k := i + 1
			for k < len(r.Items) && r.Items[k].Q == nil {
				k++
			}
			if !n.Integer || n.Unit != nil && n.Kind != speech.KindCount || !r.Free(k) || joined(r, k, "×") || r.Items[k].Q.Kind != measure.KindLength && !r.Items[k].Q.Bare() {
				continue
			}
			q := *r.Items[k].Q
			q.Value = new(big.Rat).Mul(q.Value, n.Value)
			r.Put("width_mm", q)
			r.Claim(i)
			r.Claim(k)
			return
		}
	}
}

// readFromTo reads "from 14 to 9" of a message that speaks of percent elsewhere: that is the way, whatever
// the wood was before.
func readFromTo(r *speech.Reading, from, to string) bool {
	share := func(i int) bool {
		return r.Free(i) && r.Items[i].Q.High == nil && r.Items[i].Q.Value != nil &&
			(r.Items[i].Q.Kind == measure.KindPercent || r.Items[i].Q.Bare() && r.Items[i].Q.Value.Cmp(big.NewRat(wettest, 1)) <= 0)
	}
	if !strings.Contains(r.Text, "%") && !r.Says("percent|moisture|=mc") {
		return false
	}
	for _, i := range r.All("from #") {
		if share(i) && wordAt(r, i+1) == "to" && share(i+2) && !followedBySize(r, i+2) {
			first, last := *r.Items[i].Q, *r.Items[i+2].Q
			if first.Bare() && last.Unit != nil {
				first.Unit, first.Kind = last.Unit, last.Kind
			}
			r.Put(from, first)
			r.Put(to, last)
			r.Claim(i)
			r.Claim(i + 2)
			return true
		}
	}
	return false
}

// readNowAndThere reads three moistures of which one was, one is now and one is to come: the wood
// moves from now on.
func readNowAndThere(r *speech.Reading, from, to string) {
	share := func(patterns ...string) int {
		for _, p := range patterns {
			for _, i := range r.All(p) {
				if q := r.Items[i].Q; q.High == nil && (q.Kind == measure.KindPercent || q.Bare() && r.Alone(i) && !followedBySize(r, i)) {
					return i
				}
			}
		}
		return -1
	}
	now := share("now|today|currently|presently it|they|he|she? is|are|at|reads|shows|only|down|up|:? at|to? about? #", "it's|its|is|are now|down|currently at|to? about? #")
	then := share("will|it'll|they'll|'ll be|settle|end|reach|go|drop|fall|come|get|stabilise|finish up|down|out? at|to|about? about? #", "=going|expected|expect to be|settle|reach|drop? at|to? about? #", "ends|settles up|down|out? at about? #")
	if now < 0 || then < 0 || now == then || r.Items[now].Q.Bare() && r.Items[then].Q.Bare() && !r.Says("#percent") {
		return
	}
	r.Set(from, now)
	r.Set(to, then)
	for i := range r.Items {
		if r.Free(i) && r.Items[i].Q.Kind == measure.KindPercent {
			r.Claim(i)
		}
	}
}

// readBareShares takes two numbers for moistures that were named so, where no percent sign stands by
// them: MC 8→12.
func readBareShares(r *speech.Reading, from, to string) {
	for _, i := range r.All("=mc|emc|moisture|m.c content|contents? of|is|goes|from|:|=? #") {
		j := farEnd(r, i)
		if j < 0 || r.Request.Has(from) || r.Request.Has(to) || !r.Items[i].Q.Bare() || !r.Items[j].Q.Bare() || followedBySize(r, j) {
			continue
		}
		r.Set(from, i)
		r.Set(to, j)
	}
}

// readThenAndNow reads two moistures of which one was and the other is now: the wood has moved from
// the one to the other.
func readThenAndNow(r *speech.Reading, from, to string) {
	share := func(patterns ...string) int {
		for _, p := range patterns {
			for _, i := range r.All(p) {
				if q := r.Items[i].Q; q.High == nil && (q.Kind == measure.KindPercent || q.Kind == speech.KindBefore || q.Bare() && r.Alone(i)) {
					return i
				}
			}
		}
		return -1
	}
	was := share("was|were|came|bought|delivered|arrived at|with|in? at? about? #")
	now := share("now|today it|they|he|she? is|are|at|reads|shows|only? at? about? #", "it's|its now|down|only at? #", "=now #", "is|are|at|reads|shows # now|today")
	if was < 0 || now < 0 || was == now || r.Items[was].Q.Kind != measure.KindPercent && r.Items[now].Q.Bare() && !r.Says("=mc|moisture|percent") {
		return
	}
	r.Set(from, was)
	r.Set(to, now)
}

// takeSizesSaid takes "the top is 450 wide" for a width: what "is" stands before might be a moisture too.
func takeSizesSaid(r *speech.Reading) {
	const said = "is|are|was|were|be|at|to|now|measures|has about|around? # "
	for need, words := range map[string]string{"width_mm": "wide|broad|across", "length_mm": "long", "thickness_mm": "thick"} {
		if i, ok := r.Find(said + words); ok && !r.Request.Has(need) && (r.Items[i].Q.Kind == measure.KindLength || r.Items[i].Q.Bare()) {
			r.Set(need, i)
		}
	}
}

func needMovement(r *speech.Reading) {
	needAcross(r)
	oneMoisture(r)
	has := r.Request.Has
	from, to := has("mc_from_pct") || has("air_from_pct"), has("mc_to_pct") || has("air_to_pct")
	switch {
	case !from && !to:
		r.AskFor("mc_from_pct", "From what moisture content to what, in per cent?")
	case !from:
		r.AskFor("mc_from_pct", "From what moisture content does it start, in per cent?")
	case !to:
		r.AskFor("mc_to_pct", "To what moisture content does it go, in per cent?")
	}
	r.AskFor("width_mm", "How wide is it, across the grain?", "width_mm")
}

// needAcross takes a lone size for the width, and two small ones for width and thickness: the
// length is of no matter here.
func needAcross(r *speech.Reading) {
	if r.OnlyGuessed("length_mm", "width_mm") {
		r.Request = r.Moved(map[string]string{"length_mm": "width_mm"})
	}
	wide, _ := r.Request.Length("width_mm")
	if r.Paired("length_mm", "width_mm") && !r.Request.Has("thickness_mm") && wide <= sectionThickest {
		r.Request = r.Moved(map[string]string{"length_mm": "width_mm", "width_mm": "thickness_mm"})
	}
}

// oneMoisture lets go of the older figures where the wood's moisture was said after the air's,
// or the air's after the wood's.
func oneMoisture(r *speech.Reading) {
	if !slices.ContainsFunc(r.Items, func(it speech.Item) bool { return it.Q != nil && it.Q.Value != nil }) {
		return
	}
	old := "air"
	if ofAir(r) {
		old = "mc"
	}
	if r.Request.Has("mc_from_pct") && r.Request.Has("air_from_pct") {
		delete(r.Request.Slots, old+"_from_pct")
		delete(r.Request.Slots, old+"_to_pct")
	}
}

func answerMovement(a *Ask) Answer {
	timber, ok := wood.Find(a.Word("species"))
	if !ok {
		return askFor("species", askTimber)
	}
	m := wood.Moving{Grain: wood.Grain(a.Word("grain"))}
	switch m.Grain {
	case "":
		m.Grain = wood.UnknownGrain
	case rift:
		m.Grain, m.RingDeg = wood.UnknownGrain, 45
	}
	m.WidthMM, _ = a.Float("width_mm")
	air, err := a.moistures(&m)
	if err != nil {
		return ask(err.Error())
	}
	if m.FromPct == m.ToPct {
		return askFor("mc_to_pct", "Both moisture contents are the same. To what does it go, in per cent?")
	}
	if min(m.FromPct, m.ToPct) >= wood.FibreSaturationPct {
		return askFor("mc_from_pct", fmt.Sprintf("Wood keeps its size above %d %% moisture. From what moisture content of the wood to what, in per cent?", wood.FibreSaturationPct))
	}
	moved, err := timber.Movement(m)
	if err != nil {
		return ask(plainly(err))
	}
	ans := say("")
	if a.Word("grain") == "" || a.Word("grain") == rift {
		ans.Given["grain"] = string(m.Grain)
	}
	ans.Values["movement_mm"] = math.Abs(moved.Larger.MM)
	ans.Answer = fmt.Sprintf("%s, %s, %s: %s %s from %s to %s %%", capital(timber.Name), a.text(m.WidthMM, measure.Nearest), grainText(m),
		way(moved.Larger.MM), a.text(math.Abs(moved.Larger.MM), measure.Up), measure.Decimal(m.FromPct, 1), measure.Decimal(m.ToPct, 1))
	if air != "" {
		ans.Values["mc_from_pct"], ans.Values["mc_to_pct"] = m.FromPct, m.ToPct
		ans.line(air)
	}
	a.movementLines(&ans, timber, m, moved)
	return ans
}

// moistures gives the wood's moisture contents: as said, or what it settles at in the air.
func (a *Ask) moistures(m *wood.Moving) (text string, err error) {
	m.FromPct, _ = a.Float("mc_from_pct")
	m.ToPct, _ = a.Float("mc_to_pct")
	from, byAir := a.Float("air_from_pct")
	to, _ := a.Float("air_to_pct")
	if !byAir {
		return "", nil
	}
	temp, set := a.Settings.float("temperature", "temperature_c")
	if !set {
		temp = glue.ReferenceC
	}
	if m.FromPct, err = wood.EMC(temp, from); err != nil {
		return "", err
	}
	m.ToPct, err = wood.EMC(temp, to)
	return fmt.Sprintf("Air of %s and %s %% humidity at %s °C brings wood to %s and %s %% in time.", measure.Decimal(from, 1), measure.Decimal(to, 1),
		measure.Decimal(temp, 1), measure.Decimal(m.FromPct, 1), measure.Decimal(m.ToPct, 1)), err
}

// movementLines says what was assumed, where sources differ and what to do about it.
func (a *Ask) movementLines(ans *Answer, timber wood.Species, m wood.Moving, moved wood.Movements) {
	size := func(mm float64) string { return a.text(math.Abs(mm), measure.Up) }
	if m.Grain == wood.UnknownGrain && m.RingDeg == 0 {
		q := m
		q.Grain = wood.Quarter
		if other, err := timber.Movement(q); err == nil {
			ans.line(fmt.Sprintf("Grain not said: flat-sawn taken, which moves most; quarter-sawn %s.", size(other.Larger.MM)))
		}
	}
	if moved.Disagree() {
		ans.line(fmt.Sprintf("Sources or kinds of %s differ, %s to %s mm; the larger counts.", timber.ID,
			measure.Decimal(math.Abs(moved.Smaller.MM), 1), measure.Decimal(math.Abs(moved.Larger.MM), 1)))
	}
	if max(m.FromPct, m.ToPct) > wood.FibreSaturationPct {
		ans.line(fmt.Sprintf("Above %d %% wood keeps its size: only the way below it counts.", wood.FibreSaturationPct))
	}
	if n := a.Count(); n > 1 {
		ans.Values["total_mm"] = float64(n) * math.Abs(moved.Larger.MM)
		ans.line(fmt.Sprintf("That is for each; all %d side by side: %s.", n, size(float64(n)*moved.Larger.MM)))
	}
	ans.line(fmt.Sprintf("Held in the middle, each edge moves %s: leave it free there, without glue. Along the grain it hardly moves.", size(moved.Larger.MM/2)))
	a.movementReasons(ans, m, moved.Larger)
}

func (a *Ask) movementReasons(ans *Answer, m wood.Moving, by wood.Movement) {
	from, to := min(m.FromPct, wood.FibreSaturationPct), min(m.ToPct, wood.FibreSaturationPct)
	d := func(v float64) string { return measure.Decimal(v, 5) }
	if by.Inside {
		ans.because(fmt.Sprintf("width × C × change = %s × %s × (%s − %s) = %s mm.", d(m.WidthMM), d(by.Coefficient.Value), d(to), d(from), measure.Decimal(by.MM, 3)))
	} else {
		ans.because(fmt.Sprintf("width × change / (3000/S − 30 + from) = %s × (%s − %s) / (3000/%s − 30 + %s) = %s mm: outside 6 to 14 %% moisture the plain coefficient does not hold.",
			d(m.WidthMM), d(to), d(from), measure.Decimal(by.ShrinkPct, 2), d(from), measure.Decimal(by.MM, 3)))
	}
	ans.because("Formula: USDA Wood Handbook (2010), chapter 13 (read there; outside 6 to 14 % its form is worked out from it).",
		fmt.Sprintf("Figures of %s: %s. Averages of clear wood: single boards differ by a fifth and more.", by.Row.Common, knownBy(by.Coefficient, "13-5", "Table")))
}

func way(mm float64) string {
	if mm < 0 {
		return "shrinks"
	}
	return "swells"
}

func grainText(m wood.Moving) string {
	switch {
	case m.RingDeg > 0:
		return "rift-sawn"
	case m.Grain == wood.Quarter:
		return "quarter-sawn"
	}
	return "flat-sawn"
}
