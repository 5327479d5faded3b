package commands

import (
	"fmt"
	"strings"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/picture"
	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

func planTopic() *Topic {
	return &Topic{
		Title:    "which part comes out of which board, drawn, with the cuts in order",
		Examples: []string{"plan the cuts", "draw board 2", "redo the plan with less waste"},
		Form: speech.Form{
			Name: "plan", Writes: true,
			Cues: planCues,
			Needs: []speech.Need{
				{Name: "action", Kind: speech.KindWord, Own: true},
				{Name: "board", Kind: speech.KindWord, Label: "board", Own: true},
			},
			Before: readPlan,
		},
		Answer: answerPlan,
	}
}

const planNouns = "board|boards|plank|planks|sheet|sheets|timber|wood|stock|" + timberNouns

var planCues = []speech.Cue{
	{Weight: 7, Pattern: "plan|plans|planning all|the|our|my|these|those|out? the? =cuts|cutting|sawing|boards|layout|timber|saw"},
	{Weight: 7, Pattern: "plan .. =cuts|cutting"},
	{Weight: 16, Pattern: "^ =replan"},
	{Weight: 16, Pattern: "^ redo|remake|renew|update|repeat the|our|my? plan|layout"},
	{Weight: 8, Pattern: "lay|spread|arrange .. out .. on|onto|over|across|in|into .. " + planNouns},
	{Weight: 8, Pattern: "come|comes from|out .. which|what board|plank|sheet"},
	{Weight: 7, Pattern: "plan|replan it|them|that|this|everything|all? =again|anew|afresh|once|over"},
	{Weight: 6, Pattern: "^ =plan|replan|nest it|them|everything|this|please|pls|now? $"},
	{Weight: 7, Pattern: "=cut|cutting|sawing|saw plan|layout|diagram|map"},
	{Weight: 7, Pattern: "new|another|better|fresh plan|layout"},
	{Weight: 5, Pattern: "show|see|give|send|make|do|where's|what's|whats me|us? the|our|my|a|last|current =plan|layout"},
	{Weight: 7, Pattern: "lay|set|mark|arrange|place|put|fit|spread|nest|pack out? the|these|those|my|our|all? parts|pieces|everything|bits .. on|onto|out|over|across|in|into " + "the|our|these|my? " + planNouns},
	{Weight: 7, Pattern: "=lay|=laying out the|these|those|my|our|all parts|pieces|bits"},
	{Weight: 9, Pattern: "draw|redraw|sketch|picture|drawing|diagram of|me|us|the|out? .. " + planNouns},
	{Weight: 8, Pattern: "draw|sketch the|our|my|a? plan|layout|cuts|it again?"},
	{Weight: 7, Pattern: "redo|remake|rework|repeat|optimise|optimize|improve|rearrange|update|refresh the|our|my? .. plan|layout|cuts|nesting|cutting"},
	{Weight: 7, Pattern: "less|least|little|lowest|minimum|minimal|minimise|minimize|reduce the? =waste|wastage|offcuts"},
	{Weight: 7, Pattern: "as little waste|wastage|timber|wood"},
	{Weight: 7, Pattern: "nest|nesting everything|all|it|them|the|these|those|parts|pieces .."},
	{Weight: 14, Pattern: "how .. best|can|do|to|should|could|would .. get|cut|saw|take these|those|them|all|everything|the|my|our .. out|of|from .. " + planNouns},
	{Weight: 7, Pattern: "what|which .. come|comes|get|gets|cut|goes|go out? of|from|on|onto|in which|what|each|the|this? " + planNouns},
	{Weight: 6, Pattern: "what|which .. cut|saw .. from|out|of board|plank|sheet #"},
	{Weight: -9, Pattern: "check|recheck|note|remember|remind|buy|order|need|missing|enough"},
	{Weight: -9, Pattern: "drop|wash|weather|storm|skirting|chop|tapered =board|boards"},
	{Weight: -9, Pattern: "plan|plans for|on|is tonight|today|tomorrow|monday|tuesday|wednesday|thursday|friday|saturday|sunday|weekend"},
	{Weight: -9, Pattern: "#size"},
	{Weight: -9, Pattern: "rough|finished|clamp|clamps|glue|glued|coats|knot|knots|split"},
	{Weight: -8, Pattern: "what|which|whats|what's .. set|setting|settings saw|fence|stop|machine|to"},
	{Weight: -8, Pattern: "door|rack|trim|bow for|to|in"},
}

func readPlan(r *speech.Reading) {
	switch {
	case r.Says("less|least|little|lowest|minimum|minimal|minimise|minimize|reduce .. waste|wastage|offcuts|timber|wood") || r.Says("optimise|optimize|improve|better|harder"):
		r.Word("action", "more")
	case r.Says("draw|redraw|sketch|picture|drawing|show|see|diagram|view|what|which .. board|plank|sheet|plan|layout|it|"+timberNouns) && !r.Says("again|redo|new"):
		r.Word("action", "draw")
	}
	r.Word("sentence", r.Text)
	claimAll(r)
}

func answerPlan(a *Ask) Answer {
	in, err := a.planInput()
	if err != nil {
		return ask(store.Sentence(err))
	}
	if ans, none := a.nothingToPlan(&in); none {
		return ans
	}
	was, kept, err := loadPlan(a.Tx, a.Project.ID)
	if err != nil {
		return ask(store.Sentence(err))
	}
	changed := ""
	if kept {
		changed = was.stale(&in)
	}
	if a.Word("action") == "draw" && kept && changed == "" {
		return a.drawn(&in, was)
	}
	var half []halfway
	if kept {
		if half, err = a.halfSawn(&was); err != nil {
			return ask(store.Sentence(err))
		}
	}
	if len(half) > 0 && changed == "" {
		return a.underWay(&in, was, half)
	}
	apart := say("")
	if err := a.takeApart(&apart, &in, &was, half, nil); err != nil {
		return ask(store.Sentence(err))
	}
	was.Begun = was.Begun || len(half) > 0
	ans := a.planAnew(&in, was, kept, changed)
	if ans.Question == "" {
		ans.details = append(ans.details, apart.details...)
		ans.effects = append(apart.effects, ans.effects...)
	}
	return ans
}

// planAnew makes a plan and compares it with the one that stood, if one did: what has changed since
// then is given, "" where nothing has.
func (a *Ask) planAnew(in *planInput, was storedPlan, kept bool, changed string) Answer {
	if ans, none := a.nothingToPlan(in); none {
		return ans
	}
	nodes := int64(planNodes)
	if a.Word("action") == "more" {
		nodes = planNodesMore
	}
	now, err := in.makePlan(nodes, a.Now)
	if err != nil {
		ans := ask(plainly(err))
		ans.echo = true
		return ans
	}
	comparable := kept && changed == "" && len(was.Sawn) == 0
	if comparable && was.better(&now) {
		now = was
	}
	now.Begun, now.Lost = was.Begun, was.Lost
	var ans Answer
	if a.Word("action") == "draw" {
		ans = a.drawn(in, now)
	} else {
		ans = a.shownPlan(in, now)
		switch {
		case changed != "":
			ans.line(fmt.Sprintf("The %s have changed since the last plan; this one takes its place.", changed))
		case comparable && now.better(&was):
			ans.line("Better than the last plan, and in its place now.")
		case comparable:
			ans.line("I found nothing better than the last plan.")
		}
	}
	if ans.Question == "" && len(now.Plan.Boards) > 0 {
		ans.effects = append(ans.effects, put(a.Project.ID, book.WhatPlan, planName, now))
	}
	return ans
}

// better says whether a plan of the same parts and boards beats another.
func (p *storedPlan) better(o *storedPlan) bool {
	if n, m := p.missing(), o.missing(); n != m {
		return n < m
	}
	return p.Plan.Cost < o.Plan.Cost-1e-9
}

func (p *storedPlan) missing() (n int) {
	for _, l := range p.LeftOut {
		n += l.Quantity
	}
	return n
}

// nothingToPlan says what is missing before a plan can be made.
func (a *Ask) nothingToPlan(in *planInput) (Answer, bool) {
	left, all := 0, 0
	for _, p := range in.parts {
		left, all = left+in.toSaw(p), all+p.Is.Quantity
	}
	switch {
	case len(in.parts) == 0 && len(in.boards) == 0:
		return say("Nothing to plan yet: no parts and no boards are on the list", "Tell me both: “add 6 rack slats 830 x 70 x 22 oak”, “we have 3 oak boards 2600 x 210 x 32”."), true
	case len(in.parts) == 0:
		return say("Nothing to plan yet: no parts are on the list", "Tell me: “add 6 rack slats 830 x 70 x 22 oak”."), true
	case left == 0:
		return say(fmt.Sprintf("Nothing left to plan: all %s are sawn", plural(all, "part", "parts"))), true
	case len(in.boards) == 0:
		return say(fmt.Sprintf("No boards to plan %s on", plural(left, "part", "parts")), "Tell me what there is: “we have 3 oak boards 2600 x 210 x 32”. “What do we need to buy” says what it takes."), true
	}
	return Answer{}, false
}

// drawn shows one board of the plan, or all where none is named.
func (a *Ask) drawn(in *planInput, p storedPlan) Answer {
	name, note, ok := a.boardNamed(in, &p)
	if !ok {
		return a.shownPlan(in, p)
	}
	b, ok := p.board(name)
	if !ok {
		ans := say(shorten(fmt.Sprintf("The plan does not use %s", name), MaxHeadline), "It uses "+strings.Join(p.names(), ", ")+".")
		ans.echo = true
		return ans
	}
	ans := say(shorten(fmt.Sprintf("%s: %s", capital(b.Name), contents(b)), MaxHeadline), a.cutText(b, &p, mostSteps))
	ans.echo = true
	if note != "" {
		ans.line(note)
	}
	ans.Given["name"] = b.Name
	ans.Values["parts"], ans.Values["cuts"] = p.pieces(b), len(b.Cuts)
	a.planReasons(&ans, &p)
	for i, sheet := range picture.Phone(p.Plan, a.Out()) {
		if p.Plan.Boards[i].Name == b.Name {
			ans.Drawings = append(ans.Drawings, sheet)
		}
	}
	return ans
}

// boardNamed finds which board a message means: one on hand by its name or number, else by its
// place in the plan, with a note that says so.
func (a *Ask) boardNamed(in *planInput, p *storedPlan) (name, note string, ok bool) {
	s := speech.Read(a.Word("sentence"))
	n, numbered := numberOfBoard(s)
	if n == -1 {
		n = len(p.Plan.Boards)
	}
	left := narrowed(in.boards, s)
	meant := len(left) == 1 && (len(in.boards) > 1 || numbered)
	if meant {
		name = left[0].Name
		if _, used := p.board(name); used || strings.Contains(store.Fold(s.Text), store.Fold(name)) {
			return name, "", true
		}
		note = fmt.Sprintf("The plan does not use %s; this is number %d of the plan.", name, n)
	}
	if numbered && n >= 1 && n <= len(p.Plan.Boards) {
		return p.Plan.Boards[n-1].Name, note, true
	}
	if numbered && !meant {
		return fmt.Sprintf("board %d", n), "", true
	}
	return name, "", meant
}

func (p *storedPlan) names() (out []string) {
	for _, b := range p.Plan.Boards {
		out = append(out, b.Name)
	}
	return out
}

// pieces is how many finished pieces come out of boards.
func (p *storedPlan) pieces(boards ...cutplan.SawnBoard) (n int) {
	for _, made := range p.made(boards...) {
		n += made
	}
	return n
}

// planSection is the plan on paper, with its drawings.
func planSection(w *paperWriter) (book.Section, error) {
	s := book.Section{Key: book.SectionPlan, Title: "Cut plan", Columns: []string{"Board", "Size", "Parts", "Cuts", "Worth keeping"},
		Empty: "No cut plan yet. “Plan the cuts” makes one."}
	p, ok, err := loadPlan(w.tx, w.project.ID)
	if err != nil || !ok {
		return s, err
	}
	for _, b := range p.Plan.Boards {
		s.Rows = append(s.Rows, book.Row{Cells: []string{b.Name, w.out.Sizes(measure.Nearest, b.Length, b.Width, b.Thickness), contents(b), fmt.Sprint(len(b.Cuts)), picture.Keeping(b, w.out)},
			Done: p.sawn(b), Say: b.Name + " is cut"})
	}
	for _, l := range p.LeftOut {
		s.Rows = append(s.Rows, book.Row{Cells: []string{"left out", "", fmt.Sprintf("%d %s", l.Quantity, l.Name), "", l.Reason}})
	}
	s.Drawings, s.Phone = picture.Paper(p.Plan, w.out), picture.Phone(p.Plan, w.out)
	return s, nil
}
