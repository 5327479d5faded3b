package commands

import (
	"fmt"
	"strings"

	"fettle/calc/joinery"
	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

// What is made, the word of the need "what".
const (
	aDoor       = string(joinery.SingleDoor)
	aPair       = string(joinery.PairDoor)
	aStableDoor = string(joinery.StableDoor)
	dropBoards  = "drop boards"
	aRack       = "rack"
	aTrim       = "trim"
	aBow        = "bow"
	slattedTop  = "slatted top"
)

func joineryOf() *Topic {
	return &Topic{
		Title: "parts and a drawing of doors, drop boards, racks, trims, bows, slatted tops",
		Examples: []string{"a stable door for an opening 812 wide 1760 high, top corner 88, sapele", "four drop boards for an opening 620 wide and 800 high, larch",
			"a rack, two shelves 830 wide, for nine mugs 84 wide", "trim 60 wide round an opening 610 by 455 with a 5 reveal, mitred",
			"slatted top 600 by 400, slats 45, gaps 6"},
		Form: speech.Form{
			Name: "joinery", Writes: true,
			Cues:   joineryCues(),
			Needs:  joineryNeeds(),
			Sizes:  []string{"width_mm", "height_mm"},
			Before: readJoinery,
			After:  needFrame,
		},
		Answer: answerJoinery,
	}
}

// Words that the cues and roles share.
const (
	framing   = "stiles|tenons|tenon|rebate|groove|grooves|reveal|clearance|lip|bearers"
	itemWords = "mugs|cups|plates|jars|bottles|glasses|tins|bowls|pans|pots|saucers|books|boxes|baskets|items|spices|plate|mug|jar|bottle|cup|item"
	openWords = "opening|openings|doorway|aperture|hole|frame|gap"
	trimNames = "trim|trims|architrave|architraves|casing|casings|moulding|surround"
	wishWords = "work|make|want|need|build|design|do|give|draw|calculate|parts|fit|made|plan|figure"
)

func joineryCues() []speech.Cue {
	return []speech.Cue{
		{Weight: 16, Pattern: "^ remake the|our|my .."}, {Weight: 16, Pattern: "^ remake it|that|this|them"}, {Weight: -20, Pattern: "^ remake .. plan|layout|cuts|nesting"}, {Weight: 16, Pattern: "take|use|accept|apply the? new|changed =sizes|measures|measurements"},
		{Weight: 5, Pattern: "stable|dutch|split|barn door|doors"}, {Weight: 5, Pattern: "door|doors in # halves|leaves|parts"}, {Weight: 5, Pattern: "# leaf|part door|doors"},
		{Weight: 5, Pattern: "frame and|& panel|panelled"}, {Weight: 4, Pattern: "panel|panelled|framed door|doors"}, {Weight: 5, Pattern: "pair of .. doors|door"}, {Weight: 3, Pattern: "door|doors .. # leaves"}, {Weight: 5, Pattern: "double doors|door"},
		{Weight: 3, Pattern: "door|doors for|to|in|into|of|fit|fits a|an|the|this|that|our|my? .. " + openWords}, {Weight: 4, Pattern: "a|the|us|me|new door|doors #"}, {Weight: 3, Pattern: "^ door|doors #"},
		{Weight: 3, Pattern: wishWords + " .. door|doors"}, {Weight: 2, Pattern: openWords + " .. door|doors"}, {Weight: 2, Pattern: "door|doors .. " + openWords + "|wide|high|panel"},
		{Weight: 9, Pattern: "drop|wash|weather|storm board|boards"}, {Weight: 3, Pattern: "drop|wash|weather|storm boards .. " + openWords}, {Weight: 9, Pattern: "dropboards|dropboard|washboards|washboard"},
		{Weight: 4, Pattern: "rack|racks .. shelves|shelf|tiers"}, {Weight: 4, Pattern: "shelves|shelf .. rack"}, {Weight: 4, Pattern: "plate|mug|spice|bottle|cup|jar|book|wine|crockery rack|racks"}, {Weight: 3, Pattern: "rack for|to #|hold|take"}, {Weight: 3, Pattern: wishWords + " .. rack|bookcase"},
		{Weight: 3, Pattern: "^ a|the? rack|bookcase"}, {Weight: 4, Pattern: "bookcase|bookshelf .. shelves|shelf"},
		{Weight: 6, Pattern: trimNames + " .. round|around|opening|window|doorway"}, {Weight: 5, Pattern: "round|around .. opening .. trim|architrave|casing"}, {Weight: 4, Pattern: "=window|door|doorway|opening trim|architrave|casing|surround"}, {Weight: 3, Pattern: trimNames + " .. reveal"}, {Weight: 4, Pattern: trimNames + " for|to|of a|the|our? window|door|doorway|opening"},
		{Weight: 12, Pattern: "bow|bows .. # span|spanning"}, {Weight: 12, Pattern: "bow|bows .. span|spanning of|over|is|:? #"}, {Weight: 7, Pattern: "# span|spanning .. bow|bows"}, {Weight: 5, Pattern: "parts for|of .. bow|bows"},
		{Weight: 5, Pattern: "slatted|slat top|table|bench|shelf|deck|seat|floor|base|tabletop|rack|duckboard"}, {Weight: 5, Pattern: "slats .. bearers|battens"}, {Weight: 4, Pattern: "top|tabletop .. slats"}, {Weight: 4, Pattern: "bench|table|seat of|with|in|from .. slats"}, {Weight: 3, Pattern: "duckboard|duckboards"},
		{Weight: 3, Pattern: "make|makes|making|give|list|add|get|into the|all|its? parts"},
		{Weight: 4, Pattern: "^ make|set|change|have|with|and|now? the|its? " + framing + "|split|stile|panel to|at|of|is|are|=|be? # all? wide|long|deep|thick|high|mm|instead|each|degrees|round? $"}, {Weight: 4, Pattern: "^ make|and|with? the? rails|slats|gaps|shelves|trim|depth|bottom at|of|are|be|rail|rails? # wide|deep|thick|mm|instead? $"}, {Weight: 4, Pattern: "^ make|and? the? boards|board|shelves|trim|slats|bearers|bow|frame|items|it|ends of|at|are? # thick|high $"},
		{Weight: 4, Pattern: "^ make|and|with|have? it? # boards|shelves|bearers|slats instead? $"}, {Weight: 5, Pattern: "door|doors .. diagonal|diagonals"}, {Weight: 6, Pattern: "^ make|build|design|need|want|i|we me|us|a|need|want? .. door|doors"},
		{Weight: 4, Pattern: "^ # " + framing + "|stile $"}, {Weight: 4, Pattern: "^ top|bottom corner|trim|rail is|at|of? # wide|degrees? $"}, {Weight: 4, Pattern: "^ bevel|lip|back rail|at|of|to? # degrees|high|mm? $"},
		{Weight: 4, Pattern: "^ make|use|with|and|have? it|them|a|an|the? in|of? plywood|ply|glass|acrylic|glazed|solid|perspex wood|timber? panel|panels"}, {Weight: 4, Pattern: "^ panel|panels in|of|is|are? ply|plywood|glass|acrylic|solid"},
		{Weight: 4, Pattern: "rebated|bevelled joint|joints|edges $"}, {Weight: 4, Pattern: "between cleats $"}, {Weight: 4, Pattern: "in grooves $"}, {Weight: 4, Pattern: "butted|mitred corners $"}, {Weight: 4, Pattern: "^ # on|per|a each|every|a? shelf $"}, {Weight: 4, Pattern: "^ # in all|total $"},
		{Weight: 9, Pattern: "^ make|and|have? the? bow at|of|be? # thick|wide $"}, {Weight: 4, Pattern: "^ heights of|are|:? #"}, {Weight: 4, Pattern: "^ room|gap above of|at|is? # $"}, {Weight: 4, Pattern: "^ items|mugs|plates|jars|they|ends # high|tall|wide $"}, {Weight: 4, Pattern: "^ fitted|dampest|wettest|driest at? #"}, {Weight: 4, Pattern: "^ let|housed in|into? #"}, {Weight: 4, Pattern: "^ without|no a|the? lip|back rail? $"}, {Weight: 4, Pattern: "only the|one? side|top leans|slopes"}, {Weight: 4, Pattern: "side|jamb leans|lean|leaning $"}, {Weight: 4, Pattern: "^ make|and|with|no|the? the? top|bottom|upper|lower left|right corner is|at|of? # degrees? $"}, {Weight: 4, Pattern: "=cupboard|wardrobe|cabinet|locker|hatch|shed|front|back|loo|porch|larder|kitchen door|doors #"}, {Weight: 3, Pattern: "door|doors #size"},
		{Weight: -6, Pattern: "rough|sawn|roughed|finish|finishing|finishes|allow|planed|planing"}, {Weight: -6, Pattern: "how much|many|long|soon|far|often|heavy"}, {Weight: -6, Pattern: "sag|glue|glued|pilot|varnish|oil|coats|movement|weight|cost|volume|hinge|move"},
		{Weight: -9, Pattern: "^ add|remove|note|remember|who|what|what's|whats|delete|buy|claim|show|is|did"}, {Weight: -9, Pattern: "^ drop the|that|left|right|top|bottom|my|our"}, {Weight: -9, Pattern: "=mine|yours|his|hers|theirs"}, {Weight: -9, Pattern: "on|to the? list|stock"},
		{Weight: -9, Pattern: "measured|measure again|it|top|the"}, {Weight: -9, Pattern: "opening|doorway at|along|on the? top|bottom|left|right"}, {Weight: -9, Pattern: "gil|petra does|do|takes|will|is|has|on"}, {Weight: -9, Pattern: "^ i|i'll|we do|take|did|have|has|got"}, {Weight: -6, Pattern: "opening|door|sill|side is|was|measures|measured # at|on|wide|high|along"}, {Weight: -5, Pattern: "we|i|i'll|gil|petra got|have|take|took|did|done|measured|cut|made|finished"},
		{Weight: -9, Pattern: "door|doors handle|handles|hinge|hinges|lock|knob|latch|bolt|key|mat|bell|stop"}, {Weight: -4, Pattern: "square|squareness $"}, {Weight: -4, Pattern: "out of true"}, {Weight: -5, Pattern: "radius|ordinates|chord|springback"}, {Weight: -6, Pattern: "what mitre|angle|saw|angles"}, {Weight: -5, Pattern: "is|are|was|were cut|planed|done|spoiled|broken|ready"},
	}
}

func answerJoinery(a *Ask) Answer {
	if a.Has(byHandSlot) { // asked about, and complete
		return a.makeJoinery(false)
	}
	if a.Has("remake") {
		if q := a.takeMeasured(); q != nil {
			return *q
		}
		return a.makeJoinery(false)
	}
	whole := a.wholeWish()
	if q := a.joineryWhole(); q != nil {
		return *q
	}
	return a.makeJoinery(whole)
}

// makeJoinery makes the parts of a complete request; whole is that it is a wish of its own and no
// change of what was made before.
func (a *Ask) makeJoinery(whole bool) Answer {
	made, err := a.joineryMade()
	if err != nil {
		return ask(capital(strings.TrimSuffix(err.Error(), ".")) + closing(err.Error()))
	}
	group := a.Word("name")
	again, err := a.remakeGroup(group, joineryParts(made, a))
	if err != nil {
		return ask(store.Sentence(err))
	}
	if len(again.clash) > 0 {
		return a.askByHand(group, again.clash)
	}
	delete(a.Request.Slots, byHandSlot)
	made.Parts = again.shown(made.Parts)
	ans := a.joineryAnswer(made)
	if len(again.kept) > 0 {
		ans.details = append([]string{"Kept as it was changed by hand: " + strings.Join(again.kept, "; ") + "."}, ans.details...)
	}
	if old, known, err := book.One[map[string]speech.Slot](a.Tx, a.Project.ID, book.WhatJoinery, group); err == nil && known && whole && !a.goesOnFrom(old) {
		ans.line(fmt.Sprintf("This replaces the %s that was here; to keep both, say it with “call it” and another name.", group))
	}
	ans.echo = true
	ans.effects = append(ans.effects, keepJoinery(a.Project.ID, group, a.Request.Slots), remakeParts(a.Project.ID, group, again.put))
	ans.Drawings = append(ans.Drawings, made.Drawing)
	return ans
}

// closing ends a sentence that may be a question already.
func closing(text string) string {
	if strings.HasSuffix(text, "?") {
		return ""
	}
	return "."
}

// joineryAnswer words what was made.
func (a *Ask) joineryAnswer(m joinery.Made) Answer {
	pieces := 0
	for _, p := range m.Parts {
		pieces += p.Quantity
	}
	ans := say(fmt.Sprintf("%s: %s%s", capital(a.Word("name")), plural(pieces, "piece", "pieces"), a.openingText(m)))
	ans.Values["pieces"] = pieces
	for _, p := range m.Parts {
		ans.Values[strings.ReplaceAll(p.Name, " ", "_")+"_mm"] = []float64{p.LengthMM, p.WidthMM, p.ThicknessMM}
		ans.line(a.madeLine(p))
	}
	if len(m.Assumptions) > 0 {
		ans.line("Assumed: " + a.assumedText(m.Assumptions) + ".")
	}
	if a.Has("corner_side") {
		ans.line("The one corner is taken to be on the right, as seen from outside, and both sides to lean alike; else say “top left corner 88”, “one side leans” or “only the top slopes”. Read the sizes back on site before cutting.")
	} else if m.Opening != (joinery.Quad{}) {
		ans.line("Read the opening back on site, with both diagonals, before cutting.")
	}
	for _, n := range append(a.granted, m.Notes...) {
		ans.line(n)
	}
	for _, c := range m.Cautions {
		ans.caution(c)
	}
	a.useCaution(&ans)
	ans.because(m.Why...)
	return ans
}

// openingText says the opening back in the headline.
func (a *Ask) openingText(m joinery.Made) string {
	if m.Opening == (joinery.Quad{}) {
		return ""
	}
	width, height := m.Opening.Side(joinery.Bottom), m.Opening.Side(joinery.Left)
	if h, said := a.Float("height_mm"); said {
		height = h
	}
	w, err1 := measure.FromMM(width)
	h, err2 := measure.FromMM(height)
	if err1 != nil || err2 != nil {
		return ""
	}
	text := " for an opening " + a.Out().Sizes(measure.Nearest, w, h)
	for i := range m.Opening {
		if d := m.Opening.CornerDeg(i); d < 89.95 || d > 90.05 {
			return text + ", out of square"
		}
	}
	return text
}

// madeLine is a part on one line.
func (a *Ask) madeLine(p joinery.Part) string {
	sizes := make([]measure.Length, 0, 3)
	for _, mm := range []float64{p.LengthMM, p.WidthMM, p.ThicknessMM} {
		l, err := measure.FromMM(mm)
		if err != nil {
			return p.Name
		}
		sizes = append(sizes, l)
	}
	out := a.Out()
	text := fmt.Sprintf("%d × %s %s × %s × %s", p.Quantity, p.Name, out.Number(sizes[0], measure.Nearest), out.Number(sizes[1], measure.Nearest), thinText(out, sizes[2]))
	if !square(p.LeftDeg) || !square(p.RightDeg) {
		text += fmt.Sprintf(", ends %s and %s", degExact(roundTenth(p.LeftDeg)), degExact(roundTenth(p.RightDeg)))
	}
	if p.TenonMM > 0 {
		text += fmt.Sprintf(", between the shoulders %s", a.text(p.EdgeMM, measure.Nearest))
	}
	if p.Note != "" {
		text += ". " + p.Note
	}
	return "- " + text
}

// thinText prints a thickness: plies are planed to a tenth.
func thinText(out measure.System, l measure.Length) string {
	if out == measure.Imperial {
		return out.Text(l, measure.Nearest)
	}
	return measure.Decimal(l.MM(), 1) + " mm"
}

func square(deg float64) bool { return deg > 89.95 && deg < 90.05 }

// assumedText is the one short list: each with the sentence that changes it, where that is not
// the name with another figure.
func (a *Ask) assumedText(of []joinery.Assumption) string {
	parts := make([]string, len(of))
	for i, s := range of {
		parts[i] = fmt.Sprintf("%s %s", s.Name, s.Text)
	}
	return strings.Join(parts, " · ") + ". Change any of them by saying so, for instance “" + of[0].Change + "”" + another(of)
}

// another is a second example of a change, from the other end of the list.
func another(of []joinery.Assumption) string {
	if len(of) < 2 {
		return ""
	}
	return " or “" + of[len(of)-1].Change + "”"
}
