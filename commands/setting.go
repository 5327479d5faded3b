package commands

import (
	"fmt"
	"maps"
	"strings"

	"fettle/calc/measure"
	"fettle/commands/speech"
	"fettle/store"
)

var settingNames = func() *speech.Vocabulary {
	m := map[string][]string{}
	for _, s := range settingSpecs() {
		m[s.name] = append([]string{strings.ReplaceAll(s.name, "_", " ")}, s.asked...)
	}
	m["allowances"] = []string{"allowance", "allowances"}
	return speech.NewVocabulary("setting", m)
}()

var mannerWords = speech.NewVocabulary("manner", map[string][]string{
	"listen":     {"listen here", "listen to this channel", "listen in", "start listening", "keep listening", "answer without being asked", "listen to us"},
	"quiet":      {"stop listening", "don't listen", "only when asked", "be quiet", "answer only when asked", "only when mentioned"},
	"threads":    {"answer in threads", "use threads", "reply in threads", "answer in a thread", "reply in a thread"},
	"no threads": {"no threads", "don't use threads", "stop using threads", "answer at top level", "reply at top level", "answer in the channel"},
})

// endTrimWays are the ways of saying how much comes off the ends of boards. They are read before the
// number can be taken for an allowance on the length of parts.
var endTrimWays = []string{
	"trim|cut|saw|take|takes|lose|loses # off|from|at each|both|every|all board|boards|plank|planks =end|=ends",
	"trim|cut|saw|take|takes|lose|loses # off|from|at each|both|every|all|the? =end|=ends of|on each|every|all|a|the|our? =boards|=planks",
	"trim|cut|saw|take|takes|lose|loses # off|from|at each|both|every|all =end|=ends of|on each|every|all|a|the|our? board|plank",
	"trim|cut|saw|take all? the|our? board|boards|plank|planks =ends off|back? by|×|back|at|to? #",
	"trim|cut|saw the|both|all? =ends of each|the|our|every|all? board|boards|plank|planks off|back? by|×|back|at|to? #",
}

func endTrimCues() []speech.Cue {
	cues := make([]speech.Cue, len(endTrimWays))
	for i, p := range endTrimWays {
		cues[i] = speech.Cue{Weight: 14, Pattern: p}
	}
	return cues
}

// widePanels are the ways of saying what is glued up, as no board is wide enough for it.
const widePanels = "wide|wider|broad panels|panel|parts|pieces|boards"

// settingCues point to a setting that is said or asked for.
var settingCues = []speech.Cue{
	{Weight: 5, Pattern: "kerf"},
	{Weight: 4, Pattern: "blade|sawblade is|takes|cuts|now|of|at|eats #"},
	{Weight: 3, Pattern: "blade #"},
	{Weight: 3, Pattern: "blade .. # mm|wide|thick|now"},
	{Weight: 5, Pattern: "we|we'll|we're|let's|lets|us|to|i|will|please|can|should|always? work|works|working|talk|think|measure|go|going|draw|do .. in inches|mm|millimetres|millimeters|imperial|metric|cm|centimetres|inch"},
	{Weight: 5, Pattern: "^ work|working|talk|think|measure in inches|mm|millimetres|millimeters|imperial|metric|cm|centimetres|inch"},
	{Weight: 5, Pattern: "^ back|switch|change|go|use|set .. to|in|use? inches|mm|millimetres|millimeters|imperial|metric"},
	{Weight: 5, Pattern: "^ use|set inches|mm|millimetres|millimeters|imperial|metric"},
	{Weight: 5, Pattern: "use|using inches|mm|millimetres|millimeters|imperial|metric for|from .. everything|all|now|on|here"},
	{Weight: 6, Pattern: "saw cut|kerf|blade is|takes|eats|has #"},
	{Weight: 5, Pattern: "units are|is|: inches|mm|millimetres|millimeters|imperial|metric"},
	{Weight: 5, Pattern: "everything|all|sizes|numbers in inches|mm|millimetres|millimeters|imperial|metric from|now|please|again"},
	{Weight: 4, Pattern: "^ always|allow .. #"},
	{Weight: 4, Pattern: "^ from now|today|tomorrow|here .. #"},
	{Weight: 3, Pattern: "always|normally|usually|generally|default .. allow|add|leave|take|takes|plan|plane"},
	{Weight: 3, Pattern: "allow|add|leave # .. always|standard|default|normally|now|future"},
	{Weight: 4, Pattern: "our|my|the planer|thicknesser|jointer|machine|machines|jointer takes|take|needs|need|eats|wants|removes .. #"},
	{Weight: 4, Pattern: "width|length|thickness|planing allowance|allowances"},
	{Weight: 4, Pattern: "allowance|allowances for|on"},
	{Weight: 4, Pattern: "sawn|stock|merchant's =sizes|thicknesses"},
	{Weight: -5, Pattern: "what|which sawn|rough|raw =thickness|width|size"},
	{Weight: 4, Pattern: "merchant|yard|sawmill|mill|supplier has|stocks|sells|keeps|carries|does .. #"},
	{Weight: 6, Pattern: "our|my|this|the glue|pva|epoxy|polyurethane|pu|adhesive|resin : "},
	{Weight: 6, Pattern: "our|my|this glue|pva|epoxy|polyurethane|pu|adhesive|resin .. open|clamp|clamps .. #"},
	{Weight: 4, Pattern: "open|opentime # .. clamp|clamps|press #"},
	{Weight: 4, Pattern: "clamps|cramps|clamp|cramp|each give|gives|pull|pulls|press|do|force .. #"},
	{Weight: 4, Pattern: "machine|planer|thicknesser|shortest|minimum|smallest .. minimum|shortest|limit|piece|length|than # "},
	{Weight: 7, Pattern: "spare|extra|waste timber|wood|stock|material .. #"},
	{Weight: 7, Pattern: "# spare|extra timber|wood|stock|material"},
	{Weight: 4, Pattern: "longest blank|blanks"},
	{Weight: 7, Pattern: "=end|=ends =trim|trimming"},
	{Weight: 12, Pattern: "clamps|cramps|clamp|clamping|clamped|glue|glued|glue-ups|gluing|nothing|anything .. overnight"},
	{Weight: 12, Pattern: "overnight|night clamping|clamps|gluing|glue"},
	{Weight: 14, Pattern: "glue|gluing|join|joining up? the|our|any|all? " + widePanels},
	{Weight: 9, Pattern: "clamps|cramps|clamp|clamping|nothing .. over|through|all the? night"},
	{Weight: -12, Pattern: "^ just|=glued|how|will|leave|when"},
	{Weight: 5, Pattern: "listen here|in|to|us"},
	{Weight: 5, Pattern: "stop listening"},
	{Weight: 5, Pattern: "answer|reply|use|no|stop using? in? a? threads|thread"},
	{Weight: 5, Pattern: "answer|reply only when"},
	{Weight: 7, Pattern: "what|which sawn|stock .. do|are you|we|i use|using|have|set|assume|take|go|list|stock"},
	{Weight: 5, Pattern: "what|which|show|list .. settings|setting"},
	{Weight: 4, Pattern: "^ settings"},
	{Weight: 4, Pattern: "what|what's|which is|are? .. =set|setting to|at $"},
	{Weight: 12, Pattern: "what|which unit|units are|do|did|have we|you|i"},
	{Weight: 4, Pattern: "what|what's|which .. unit|units .. work|working|use|using|set|in"},
	{Weight: 5, Pattern: "what|which|show .. allowance|allowances"},
	{Weight: 4, Pattern: "^ set|change|adjust the|our|my? .. kerf|blade|allowance|allowances|unit|units|minimum|glue|force|temperature|sizes|thicknesses|blank"},
	{Weight: 4, Pattern: "planer|machine|thicknesser|jointer minimum|limit is|: #"},
	{Weight: 4, Pattern: "^ the|our? shed|workshop|shop|hut is|stays|runs at? # "},
	{Weight: 6, Pattern: "allow|add|leave|give|want|take .. something|some|more|extra|bit|little|oversize .. on|to|for the|every|each|all? length|lengths|width|widths|thickness|thicknesses|ends|edges|faces"},
	{Weight: 3, Pattern: "set the|our|my .. to #"},
	{Weight: 2, Pattern: "from now on"},
	{Weight: 2, Pattern: "our|we|always"},
	{Weight: -5, Pattern: "rough|finished|finish .. #"},
	{Weight: -6, Pattern: "project|projects"},
	{Weight: -4, Pattern: "how long|many|much .. clamp|clamps|open|glue|cramps"},
	{Weight: -5, Pattern: "clamps|cramps .. enough|joint|panel"},
	{Weight: -3, Pattern: "open|clamp time"},
	{Weight: -4, Pattern: "plus # each|per"},
	{Weight: -6, Pattern: "^ note|remember|fyi"},
}

func setting() *Topic {
	var needs []speech.Need
	for _, s := range settingSpecs() {
		needs = append(needs, s.needs...)
	}
	needs = append(needs,
		speech.Need{Name: "adhesive", Kind: speech.KindWord, Label: "glue", Vocab: glueWords, Own: true},
		speech.Need{Name: "about", Kind: speech.KindWord, Own: true},
		speech.Need{Name: "manner", Kind: speech.KindWord, Label: "manner", Vocab: mannerWords},
		speech.Need{Name: "reset", Kind: speech.KindWord, Own: true},
	)
	return &Topic{
		Title:    "the project's settings: kerf, allowances, units, sawn sizes, glue",
		Examples: []string{"kerf is 3.2", "we work in inches", "always allow 80 on length", "our glue: open 8, clamp 40 at 20 degrees", "listen here"},
		Restates: true,
		Form: speech.Form{
			Name: "setting", Writes: true,
			Cues:   append(endTrimCues(), settingCues...),
			Needs:  needs,
			Before: readSetting,
			After:  needSetting,
		},
		Answer: answerSetting,
	}
}

// readSetting reads what no role pattern can: the unit, lists of sizes, allowances, and which
// setting is asked for.
func readSetting(r *speech.Reading) {
	for _, p := range endTrimWays {
		if i, ok := r.Find(p); ok {
			r.Set("end_trim_mm", i)
		}
	}
	readAllowances(r)
	readUnit(r)
	if r.Says("sawn|stock|merchant's|standard|available =sizes|thicknesses") || r.Says("merchant|yard|sawmill|mill|supplier has|stocks|sells|keeps|carries|does") {
		readSawn(r)
	}
	if r.Says("our|my|this|the .. open|clamp|clamps") || r.Says("open time? # ") || r.Says("our|my glue") {
		if w, ok := r.Named(glueWords); ok {
			r.Word("adhesive", w)
		}
	}
	readOvernight(r)
	readWidePanels(r)
	if r.Says("default|defaults|standard again|back to default") {
		r.Word("reset", "yes")
	}
	if w, ok := r.Named(settingNames); ok {
		r.Word("about", w)
	} else if r.Says("settings") {
		r.Word("about", "settings")
	}
	readExtra(r)
}

// readOvernight reads whether glue-ups may stay in the clamps while nobody is there.
func readOvernight(r *speech.Reading) {
	if !r.Says("overnight") && !r.Says("over night") && !r.Says("over|through|all the? night") || r.Says("^ what|which|is|are|can|may") {
		return
	}
	word := "yes"
	if r.Says("no|not|never|don't|dont|mustn't|can't|cannot|nothing|without|forbidden|off") {
		word = "no"
	}
	r.Word("overnight", word)
}

// readWidePanels reads whether panels wider than the boards are glued up.
func readWidePanels(r *speech.Reading) {
	if !r.Says("glue|gluing|join|joining up? the|our|any|all? "+widePanels) || r.Says("^ what|which|do|are|is") {
		return
	}
	word := "yes"
	if r.Says("no|not|never|don't|dont|can't|cannot|without|stop") {
		word = "no"
	}
	r.Word("glue_up", word)
}

func readUnit(r *speech.Reading) {
	if r.Says("what|which|whats|what's .. unit|units|work|working") {
		return
	}
	switch {
	case r.Says("in|to|use|set|are|is|: inches|inch|imperial") && r.Says("work|works|working|talk|think|measure|go|going|back|switch|change|use|units|unit|everything|all|set|sizes|numbers|draw"):
		r.Word("unit", "in")
	case r.Says("in|to|use|set|are|is|: mm|millimetres|millimeters|metric|mils") && r.Says("work|works|working|talk|think|measure|go|going|back|switch|change|use|units|unit|everything|all|set|sizes|numbers|draw"):
		r.Word("unit", "mm")
	}
}

func readSawn(r *speech.Reading) {
	var list []speech.Slot
	for i := range r.Items {
		if !r.Free(i) {
			continue
		}
		q := r.Items[i].Q
		if q.Kind == measure.KindLength || q.Kind == measure.KindNumber {
			list = append(list, r.Sized("sawn_sizes_mm", *q))
			r.Claim(i)
		}
	}
	if len(list) > 0 {
		r.List("sawn_sizes_mm", list)
	}
}

// needSetting asks which setting is meant when nothing was set or asked for.
func needSetting(r *speech.Reading) {
	var all []string
	for i := range r.Form.Needs {
		all = append(all, r.Form.Needs[i].Name)
	}
	r.AskFor("about", "Which setting, and to what?", all...)
	if about := r.Request.Word("about"); len(r.Request.Slots) == 1 && about != "" && wantsChange(r) {
		r.Question = toWhat(about)
	}
	if r.Request.Has("open_min") != r.Request.Has("clamp_min") {
		r.AskFor("clamp_min", "How long does it stay clamped, by the data sheet?", "clamp_min")
		r.AskFor("open_min", "What is the open time, by the data sheet?", "open_min")
	}
	askWhichFigure(r)
}

// wantsChange says whether a message that names a setting and no value wants it changed: it does not
// ask how it stands.
func wantsChange(r *speech.Reading) bool {
	if r.Says("^ what|what's|whats|which|how|is|are|was|were|show|list|tell|who|when|did|do|does|has|have|why") || r.Says("set to|at $") || r.Says("what|how") {
		return false
	}
	return r.Says("set|change|make|adjust|update|alter|correct|allow|add|leave|give|new|different|other|bigger|larger|smaller|more|less|extra|wider|narrower|thicker|thinner|longer")
}

// toWhat asks for the value of a setting.
func toWhat(name string) *speech.Question {
	for _, spec := range settingSpecs() {
		switch {
		case spec.name != name:
		case strings.HasSuffix(name, "_allowance"):
			dimension := strings.TrimSuffix(name, "_allowance")
			return &speech.Question{Text: fmt.Sprintf("How much on the %s? Say for instance “always allow 12 on the %s”.", dimension, dimension)}
		default:
			return &speech.Question{Text: "To what? What shall the " + spec.title + " be?", Need: spec.needs[0].Name}
		}
	}
	return &speech.Question{Text: "To what?"}
}

// readExtra reads for which dimension more is to be allowed, where nobody says how much.
func readExtra(r *speech.Reading) {
	about := r.Request.Word("about")
	if about != "" && about != "allowances" || !r.Says("extra|more|less|bit|little|something|some|allow|allowance|allowances|oversize") || r.Says("^ what|which|how|show|list") {
		return
	}
	for i := range r.Items {
		if d := dimensionOf(r.Items[i].Text); d != "" && r.Items[i].Q == nil {
			r.Word("about", d+"_allowance")
			return
		}
	}
}

func answerSetting(a *Ask) Answer {
	if m := a.Word("manner"); m != "" {
		return a.setManner(m)
	}
	ans := say("")
	var heads []string
	for _, spec := range settingSpecs() {
		set := a.slotsOf(spec)
		if len(set) == 0 {
			continue
		}
		after := a.Settings.with(spec.name, set)
		if _, ok := after.ownGlue(); spec.name == "glue" && !ok {
			return ask("Those times can't be right together. What do open time and clamp time say on the data sheet?")
		}
		ans.effects = append(ans.effects, put(a.Project.ID, whatSetting, spec.name, after.set[spec.name]))
		heads = append(heads, spec.title+" "+spec.show(after))
	}
	if len(heads) > 0 {
		ans.Answer = "Set: " + strings.Join(heads, ", ")
		return ans
	}
	if a.Has("reset") {
		return a.reset()
	}
	return a.showSettings()
}

// slotsOf gives what was said for a setting. The temperature belongs to the glue when the
// glue's times are set, else it is the workshop's.
func (a *Ask) slotsOf(spec settingSpec) map[string]speech.Slot {
	set := map[string]speech.Slot{}
	for _, n := range spec.needs {
		if s, ok := a.Request.Slots[n.Name]; ok {
			set[n.Name] = s
		}
	}
	times := a.Has("open_min") && a.Has("clamp_min")
	switch {
	case spec.name == "temperature" && times:
		return nil
	case spec.name == "glue" && times:
		for _, name := range []string{"temperature_c", "adhesive"} {
			if s, ok := a.Request.Slots[name]; ok {
				set[name] = s
			}
		}
	case spec.name == "glue":
		return nil
	}
	return set
}

// with gives the settings with one of them set anew.
func (s Settings) with(name string, slots map[string]speech.Slot) Settings {
	c := Settings{set: maps.Clone(s.set)}
	if c.set == nil {
		c.set = map[string]map[string]speech.Slot{}
	}
	c.set[name] = slots
	return c
}

func (a *Ask) reset() Answer {
	name := a.Word("about")
	if _, ok := a.Settings.set[name]; !ok {
		return say("That stands at its default already: " + a.showSettings().Answer)
	}
	ans := say("Back to the default")
	ans.effects = append(ans.effects, remove(a.Project.ID, whatSetting, name))
	return ans
}

func (a *Ask) showSettings() Answer {
	about := a.Word("about")
	ans := say("")
	for _, spec := range settingSpecs() {
		line := capital(spec.title) + ": " + spec.show(a.Settings)
		if _, set := a.Settings.set[spec.name]; !set {
			line += " (default)"
		}
		if about == spec.name {
			return say(line)
		}
		if about != "allowances" || strings.HasSuffix(spec.name, "allowance") {
			ans.line("- " + line)
		}
	}
	ans.Answer = "The settings of " + a.Project.Name
	if about == "allowances" {
		x := a.allowances()
		ans.Answer = "Allowances: " + x.describe(a.System, map[string]bool{"length": true, "width": true, "thickness": true})
	}
	return ans
}

// setManner changes how the program behaves in the place.
func (a *Ask) setManner(manner string) Answer {
	place, err := LoadPlace(a.Tx, a.Place, a.Project.Name)
	if err != nil {
		return ask(store.Sentence(err))
	}
	text := ""
	switch manner {
	case "listen":
		place.Listen, text = true, "Listening here: I answer what I surely understand, and log everything"
	case "quiet":
		place.Listen, text = false, "I answer here only when I am asked"
	case "threads":
		place.Threads, text = true, "I answer in threads here"
	case "no threads":
		place.Threads, text = false, "I answer where I am asked"
	}
	ans := say(text)
	ans.effects = append(ans.effects, put(store.NoProject, whatPlace, a.Place, place))
	ans.Changes = append(ans.Changes, map[string]any{"what": whatSetting, "name": manner, "op": store.Changed})
	return ans
}

// plainly words an error of a calculation as a sentence.
func plainly(err error) string { return capital(err.Error()) + "." }

func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
