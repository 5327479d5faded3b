package commands

import (
	"fmt"
	"slices"
	"strings"

	"fettle/calc/cutplan/sheet"
	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

// whatTick is the kind of thing under which a step of the run sheet is ticked off.
const whatTick = "tick"

func runSheet() *Topic {
	return &Topic{
		Title:    "what to set each machine to, in the order of work, ticked off as you go",
		Examples: []string{"run sheet for tonight", "what do I set the saw to", "tick 3"},
		Restates: true,
		Form: speech.Form{
			Name: "run-sheet", Writes: true, Cues: runSheetCues,
			Needs: []speech.Need{
				{Name: "action", Kind: speech.KindWord, Own: true},
				{Name: "machine", Kind: speech.KindWord, Label: "machine", Own: true},
				{Name: "step", Kind: speech.KindCount, Own: true},
			},
			Before: readRunSheet,
		},
		Answer: answerRunSheet,
	}
}

var runSheetCues = []speech.Cue{
	{Weight: 9, Pattern: "run|job|work|machine|machining|cutting|saw|tool sheet|sheets"},
	{Weight: 9, Pattern: "tonight's|tonights|today's|todays|the|our list|jobs|sheet for .. saw|planer|thicknesser|machines|bench"},
	{Weight: 9, Pattern: "what|which|where .. set|setting|settings .. saw|fence|stop|planer|thicknesser|machine|machines|table|blade"},
	{Weight: 9, Pattern: "saw|fence|stop|thicknesser|planer to? be? =set at|to|on|for"},
	{Weight: 8, Pattern: "which|what .. stop|fence|setting .. adjust|set|use .. saw|rails|machine"},
	{Weight: 8, Pattern: "all|the? crosscut|crosscuts|rip|rips|fence|stop stops|settings|cuts|stop|setting .. longest|widest|first|order"},
	{Weight: 8, Pattern: "what do|should|shall|must i|we|you set"},
	{Weight: 8, Pattern: "fence|stop|machine|saw|planer|thicknesser|machines =setting|=settings|set|positions"},
	{Weight: 8, Pattern: "which|what|how passes|cuts|rips|crosscuts .. saw|thicknesser|planer|fence|tonight|setting|settings|first|next"},
	{Weight: 9, Pattern: "setting|settings|sheet|list|stops for|of the|our? table|bench|chop? saw|saws|planer|thicknesser|jointer|crosscuts|rips|passes|fence"},
	{Weight: 9, Pattern: "machine|machines|machining =list|=jobs"},
	{Weight: 8, Pattern: "list|order|sequence .. saw|thicknesser|planer|machines|machine|bench"},
	{Weight: 7, Pattern: "order|sequence of work|cuts|machining|sawing|operations"},
	{Weight: 7, Pattern: "in what|which order .. saw|cut|machine|plane|mill|work"},
	{Weight: 7, Pattern: "batch|batched|group .. machine|setting|settings|fence"},
	{Weight: 12, Pattern: "^ tick|untick|check|cross step|off|the|#? .. #?"},
	{Weight: 9, Pattern: "tick|untick|ticked .. #"},
	{Weight: 9, Pattern: "^ step|steps # .. is|are done|finished|ticked|over"},
	{Weight: 9, Pattern: "^ step|steps # done|ticked"},
	{Weight: 14, Pattern: "^ =step|=steps #"},
	{Weight: 14, Pattern: "^ # and|,? # and|,? #? =done|=finished|=ticked $"},
	{Weight: 8, Pattern: "^ for|and|only|just|now|the the|our? table|bench|chop? saw|saws|thicknesser|planer|jointer $"},
	{Weight: 8, Pattern: "^ table|bench|chop saw $"},
	{Weight: 8, Pattern: "^ for|and|only|just|now? the? =rips|=crosscuts|=passes|=faces $"},
	{Weight: -12, Pattern: "check .. list|plan|parts|sizes|everything|size|it|fits|over|for"},
	{Weight: -9, Pattern: "mitre|miter|bevel|hopper|degrees|angle|taper|compound|octagon|hexagon|pentagon|polygon|sided|corner|corners|frame"},
	{Weight: -9, Pattern: "note|remember|remind|kerf"},
	{Weight: -9, Pattern: "set .. kerf|unit|temperature|glue|allowance"},
	{Weight: -9, Pattern: "#size"},
}

// machineWords are the machines as people name them, by their place in the order of work.
var machineWords = []struct {
	said     []string // patterns
	name     string
	machines []sheet.Machine
}{
	{[]string{"table|bench saw", "tablesaw"}, "table saw", []sheet.Machine{sheet.Rip, sheet.Trim}},
	{[]string{"rip|rips|ripping|fence"}, "rips", []sheet.Machine{sheet.Rip, sheet.Trim}},
	{[]string{"crosscut|crosscuts|docking|stop", "chop|mitre|miter|crosscut saw"}, "crosscuts", []sheet.Machine{sheet.Crosscut, sheet.Lengths, sheet.FinalCut}},
	{[]string{"planer|jointer|surfacer|face|faces|edges|overhand .. saw", "saw .. planer|jointer|surfacer"}, "planer and the saws", []sheet.Machine{sheet.Crosscut, sheet.Rip, sheet.Lengths, sheet.Trim, sheet.Face}},
	{[]string{"thicknesser|thicknessing|thicknesses|passes"}, "thicknesser", []sheet.Machine{sheet.Thickness, sheet.Width}},
	{[]string{"planer|jointer|surfacer|face|faces|edges|overhand"}, "planer", []sheet.Machine{sheet.Face}},
	{[]string{"saw|saws|sawing"}, "saws", []sheet.Machine{sheet.Crosscut, sheet.Rip, sheet.Lengths, sheet.Trim}},
}

func readRunSheet(r *speech.Reading) {
	switch {
	case r.Says("untick"):
		r.Word("action", "untick")
	case r.Says("^ tick|check|cross") || r.Says("tick|ticked .. #") || r.Says("^ step|steps #") || r.Says("^ # .. =done|=finished|=ticked $"):
		r.Word("action", "tick")
	}
	if r.Request.Has("action") {
		if r.Says("=next") {
			r.Word("action", r.Request.Word("action")+" next")
		}
		var steps []speech.Slot
		for i := range r.Items {
			if q := r.Items[i].Q; q != nil && q.Value != nil && q.Integer {
				steps = append(steps, speech.Slot{Num: q.Value, Said: q.Value})
				r.Claim(i)
			}
		}
		if len(steps) > 0 {
			r.List("step", steps)
		}
		return
	}
	r.Word("sentence", r.Text)
	claimAll(r)
	for _, m := range machineWords {
		if slices.ContainsFunc(m.said, func(p string) bool { return r.Says(p) }) {
			r.Word("machine", m.name)
			return
		}
	}
}

// step is one line of the run sheet.
type step struct {
	key     string // by which it is ticked: the same as long as the work is
	machine sheet.Machine
	text    string
	boards  []string
	cuts    []sheet.Cut
	ticked  bool
	sawn    bool // all its boards are told to be sawn, so the tick stands
}

// runSheetOf makes the run sheet of the plan that holds. why says, as a sentence, that there is none.
func runSheetOf(tx *store.Tx, project int64, out measure.System) (steps []step, p storedPlan, why string, err error) {
	p, ok, err := loadPlan(tx, project)
	if err != nil {
		return nil, p, "", err
	}
	if !ok {
		return nil, p, "There is no cut plan yet, so nothing to set. “Plan the cuts” makes one.", nil
	}
	parts, err := book.Parts(tx, project)
	if err != nil {
		return nil, p, "", err
	}
	ticks, err := tx.Things(project, whatTick)
	if err != nil {
		return nil, p, "", err
	}
	done, err := book.DoneSoFar(tx, project)
	if err != nil {
		return nil, p, "", err
	}
	batches := append(sheet.Saw(p.Plan.Boards, p.Plan.Kerf), sheet.Finish(finished(p, parts, done))...)
	for _, b := range batches {
		s := step{machine: b.Machine, text: batchText(b, out), cuts: b.Cuts}
		s.key = batchText(b, measure.Metric)
		for _, w := range b.Work {
			if w.Board != "" && !slices.Contains(s.boards, w.Board) {
				s.boards = append(s.boards, w.Board)
			}
		}
		// What is sawn keeps its place, so that the numbers on a sheet in somebody's hand stay true.
		s.sawn = len(s.boards) > 0 && !slices.ContainsFunc(s.boards, func(b string) bool { return !slices.Contains(p.Sawn, b) })
		s.ticked = s.sawn || slices.ContainsFunc(ticks, func(t store.Thing) bool { return store.Fold(t.Name) == store.Fold(s.key) })
		steps = append(steps, s)
	}
	return steps, p, "", nil
}

// finished are the parts that are sawn out already or come out of the plan, at their finished sizes.
func finished(p storedPlan, parts []book.Named[book.Part], done []book.Named[book.Done]) []sheet.Piece {
	count := map[string]int{}
	for name, n := range p.made(p.unsawnBoards()...) {
		count[store.Fold(name)] += n
	}
	var out []sheet.Piece
	for _, part := range parts {
		is := part.Is
		n := min(is.Quantity, count[store.Fold(part.Name)]+reached(stored(done, part.Name), stageRoughed))
		name := part.Name
		if staves := p.stavesOf(name); staves > 0 {
			name = fmt.Sprintf("%s (of %d staves)", name, staves)
		}
		out = append(out, sheet.Piece{Name: name, Quantity: n, Length: is.Length.Length(), Width: is.Width.Length(),
			Thickness: is.Thickness.Length(), LeftDeg: is.LeftDeg, RightDeg: is.RightDeg})
	}
	return out
}

// batchText says a batch in one line that can be followed at the machine.
func batchText(b sheet.Batch, out measure.System) string {
	at := func(l measure.Length) string { return out.Number(l, measure.Nearest) }
	var marks []string
	for _, m := range b.Marks {
		text := at(m.At)
		if m.Beyond {
			text += " (keep beyond)"
		}
		marks = append(marks, text)
	}
	running := strings.Join(marks, ", ")
	head := map[sheet.Machine]string{
		sheet.Crosscut:  "Crosscut at " + running + " from the left end",
		sheet.Rip:       "Rip, fence at " + at(b.Setting),
		sheet.Lengths:   "Crosscut strips at " + at(b.Setting) + " from their left end",
		sheet.Trim:      "Rip to width, fence at " + at(b.Setting),
		sheet.Face:      "Face and edge",
		sheet.Thickness: "Thickness to " + at(b.Setting),
		sheet.Width:     "Width to " + at(b.Setting),
		sheet.FinalCut:  "Cut to " + at(b.Setting) + " long",
	}[b.Machine]
	switch {
	case running == "" || b.Machine == sheet.Crosscut:
	case b.Machine == sheet.Lengths:
		head = "Crosscut strips at " + running + " from their left end"
	default:
		head = "Rip at " + running + " from the lower edge, that edge on the fence"
	}
	if b.LeftDeg != 0 || b.RightDeg != 0 {
		head += fmt.Sprintf(", ends %s and %s", endText(b.LeftDeg), endText(b.RightDeg))
	}
	return head + ": " + workText(b.Work)
}

func workText(work []sheet.Work) string {
	var out []string
	for _, w := range work {
		text := w.Part
		switch {
		case w.Board != "" && w.Piece != "":
			text = w.Board + " " + w.Piece
		case w.Board != "":
			text = w.Board
		}
		if w.Board != "" && w.Part != "" {
			text += " (" + w.Part + ")"
		}
		if w.Makes != "" {
			text += " → " + w.Makes
		}
		if w.Quantity > 1 {
			text += fmt.Sprintf(" ×%d", w.Quantity)
		}
		out = append(out, text)
	}
	return strings.Join(out, ", ")
}

// machineTitles head the batches of the machines.
var machineTitles = map[sheet.Machine]string{
	sheet.Crosscut: "Crosscut saw, whole boards", sheet.Rip: "Table saw, rips", sheet.Lengths: "Crosscut saw, strips", sheet.Trim: "Table saw, to width",
	sheet.Face: "Planer", sheet.Thickness: "Thicknesser", sheet.Width: "Thicknesser on edge, or saw", sheet.FinalCut: "Final lengths and angles",
}

func answerRunSheet(a *Ask) Answer {
	steps, p, why, err := runSheetOf(a.Tx, a.Project.ID, a.Out())
	switch {
	case err != nil:
		return ask(store.Sentence(err))
	case why != "":
		return say(why)
	case a.Has("action"):
		return a.tick(steps)
	}
	return a.showSheet(steps, p)
}

// showSheet lists the steps, those of one machine where one was named.
func (a *Ask) showSheet(steps []step, p storedPlan) Answer {
	left := 0
	ans := say("")
	ans.echo = true
	var last sheet.Machine = -1
	for i, s := range steps {
		if !a.asksFor(s.machine) {
			continue
		}
		if s.machine != last {
			ans.line(machineTitles[s.machine] + ":")
			last = s.machine
		}
		mark := "☐"
		if s.ticked {
			mark = "☑"
		} else {
			left++
		}
		ans.line(fmt.Sprintf("%s %d. %s", mark, i+1, s.text))
		if len(ans.Signs) < 10 && !s.ticked && i < 10 {
			ans.sign(fmt.Sprint(i+1), fmt.Sprintf("tick step %d", i+1))
		}
	}
	if last < 0 {
		return say("Nothing for the " + a.Word("machine") + " in the plan")
	}
	ans.Answer = fmt.Sprintf("%s to do%s", plural(left, "setting", "settings"), forMachine(a.Word("machine")))
	if left == 0 {
		ans.Answer = "All is ticked" + forMachine(a.Word("machine"))
	} else {
		ans.sign(SignCheck, "tick the next step")
		ans.line("“Tick 3” ticks a step; so does a ✔ under this for the next one.")
	}
	for _, b := range p.Blanks {
		if b.Staves > 0 && last >= 0 && a.asksFor(sheet.Face) {
			ans.line(fmt.Sprintf("Glue up %s of its %d staves once they are faced and edged, before the thickness.", b.Parts[0], b.Staves))
		}
	}
	if open := a.dayOpenText(); open != "" {
		ans.line(open)
	}
	if in, err := planInputOf(a.Tx, a.Project.ID); err == nil {
		if stale := p.stale(&in); stale != "" {
			ans.line("The " + stale + " have changed since the plan: “plan the cuts” makes it anew.")
		}
	}
	ans.Values["steps"], ans.Values["left"] = len(steps), left
	ans.caution(cautionMachines)
	ans.because("From the cut plan: batched by machine and setting, rips from wide to narrow, thickness from thick to thin; common practice, no source.",
		"Crosscuts are running measures from the board's left end, so errors don't add up.")
	return ans
}

// cautionMachines is the usual caution at the saw and the planer.
const cautionMachines = "Guards on, push sticks at the fence, no gloves near a blade; short pieces are held in a jig, not by hand."

// dayOpenText says when the workshop is open on the day that the message names, "" where it names none
// or no opening times are known.
func (a *Ask) dayOpenText() string {
	s := speech.Read(a.Word("sentence"))
	w, err := a.week()
	if _, said := a.dayAsked(s); err != nil || !said || w.Empty() {
		return ""
	}
	win, problem, ok := a.windowAsked(s, w)
	if ok {
		return "Open " + a.windowText(win) + "."
	}
	return strings.Join(append([]string{problem.Answer + problem.Question}, problem.details...), ". ")
}

func forMachine(machine string) string {
	if machine == "" {
		return ""
	}
	return " at the " + machine
}

func (a *Ask) asksFor(m sheet.Machine) bool {
	for _, w := range machineWords {
		if w.name == a.Word("machine") {
			return slices.Contains(w.machines, m)
		}
	}
	return true
}

// sign says what a sign under the answer means.
func (a *Answer) sign(sign, says string) {
	if a.Signs == nil {
		a.Signs = map[string]string{}
	}
	a.Signs[sign] = says
}

// tick ticks steps off, or takes ticks away.
func (a *Ask) tick(steps []step) Answer {
	action := a.Word("action")
	undo := strings.HasPrefix(action, "untick")
	var which []int
	for _, s := range a.Request.Slots["step"].List {
		which = append(which, int(s.Float()))
	}
	if strings.HasSuffix(action, "next") || len(which) == 0 {
		next := slices.IndexFunc(steps, func(s step) bool { return !s.ticked && a.asksFor(s.machine) })
		if next < 0 {
			return say("Every step is ticked already")
		}
		which = []int{next + 1}
	}
	ans := say("")
	ans.echo = true
	before := sawnNow(steps)
	var told []string
	for _, n := range which {
		if n < 1 || n > len(steps) {
			return askFor("step", fmt.Sprintf("The run sheet has %s. Which one is done?", plural(len(steps), "step", "steps")))
		}
		s := &steps[n-1]
		told = append(told, fmt.Sprintf("%d. %s", n, s.text))
		switch {
		case undo && s.sawn:
			return ask(fmt.Sprintf("Step %d stays ticked: %s is taken off the list as sawn. “Scratch that” takes it back if that was the last thing said.", n, strings.Join(s.boards, ", ")))
		case undo && s.ticked:
			ans.effects = append(ans.effects, remove(a.Project.ID, whatTick, s.key))
		case !undo && !s.ticked:
			ans.effects = append(ans.effects, put(a.Project.ID, whatTick, s.key, map[string]string{"who": a.Who, "at": a.Now.Format("2006-01-02T15:04:05Z07:00")}))
		}
		s.ticked = !undo
	}
	head := "Ticked: "
	if undo {
		head = "Not done yet: "
	}
	ans.Answer = shorten(head+strings.Join(told, "; "), MaxHeadline)
	now := slices.DeleteFunc(sawnNow(steps), func(b string) bool { return slices.Contains(before, b) })
	if err := a.sawUp(&ans, now); err != nil {
		return ask(store.Sentence(err))
	}
	if next := slices.IndexFunc(steps, func(s step) bool { return !s.ticked }); next >= 0 {
		ans.line(fmt.Sprintf("Next: %d. %s", next+1, steps[next].text))
		ans.sign(SignCheck, "tick the next step")
	}
	return ans
}

// sawnNow are the boards all of whose cuts are ticked.
func sawnNow(steps []step) (out []string) {
	open := map[string]bool{}
	var order []string
	for _, s := range steps {
		for _, b := range s.boards {
			if _, known := open[b]; !known {
				order = append(order, b)
			}
			open[b] = open[b] || !s.ticked
		}
	}
	for _, b := range order {
		if !open[b] {
			out = append(out, b)
		}
	}
	return out
}

// runSheetSection is the run sheet on paper, each step with the sentence that ticks it.
func runSheetSection(w *paperWriter) (book.Section, error) {
	s := book.Section{Key: book.SectionRunSheet, Title: "Run sheet", Columns: []string{"Step", "Setting"}}
	steps, _, why, err := runSheetOf(w.tx, w.project.ID, w.out)
	if s.Empty = why; err != nil {
		return s, err
	}
	for i, st := range steps {
		s.Rows = append(s.Rows, book.Row{Cells: []string{fmt.Sprint(i + 1), st.text}, Done: st.ticked,
			Say: fmt.Sprintf("tick step %d", i+1), Unsay: fmt.Sprintf("untick step %d", i+1)})
	}
	return s, nil
}
