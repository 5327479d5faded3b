package commands

import (
	"fettle/calc/measure"
	"fettle/calc/rough"
	"fettle/commands/speech"
)

func finishedSize() *Topic {
	return &Topic{
		Title:    "what a rough board finishes at",
		Examples: []string{"what will a 1200 by 150 rough board finish at", "what does 8/4 ash clean up to, 180 wide", "sawn board 2400 x 175 x 32, finished size?"},
		Form: speech.Form{
			Name: "finished-size", Exact: true,
			Cues: []speech.Cue{
				{Weight: 5, Pattern: "what|which|how .. end up with|at|as|being|after"},
				{Weight: 5, Pattern: "what|what'll|how|which .. finish|finishes|finished|clean|cleans|plane|planes|dress|dresses|mill|mills|come|comes|comea|net|nets|machine up|to|at|out|down"},
				{Weight: 4, Pattern: "how much .. clean|planed|finished .. out|from|of"},
				{Weight: 4, Pattern: "what|what's|which|how .. left|remain|remains|leaves"},
				{Weight: 4, Pattern: "what|which .. leave me|us"},
				{Weight: -5, Pattern: "over|extra|oversize|allowance .. leave|add|allow"},
				{Weight: 5, Pattern: "finished|finish|planed|clean|final|net|nett|dressed size|sizes|dims|dim|measure|measures|dimension|dimensions"},
				{Weight: 4, Pattern: "finish|finishes|end|clean|plane|dress at|up|to|down|out what|which"},
				{Weight: 4, Pattern: "how thick|wide|big .. after|once|when planing|planed|machining|machined|finished|thicknessed|dressed|clean|cleaned|thicknessing|milling|milled|jointing|left"},
				{Weight: 3, Pattern: "get|have out of|from .. sawn|rough|raw|unplaned"},
				{Weight: 3, Pattern: "what|which .. get|have|left .. sawn|rough|raw|unplaned"},
				{Weight: 5, Pattern: ".|so|,|and|then finished|finish ? $"},
				{Weight: 5, Pattern: "what .. be|get|become|measure|measures|make .. when|once|after"},
				{Weight: 4, Pattern: "planed|dressed|machined all round|around .. what|how"},
				{Weight: 4, Pattern: "what do|will|does|would i|we|it|they get|have|be|become|measure ? $"},
				{Weight: 4, Pattern: "rough|raw|sawn is|are #"},
				{Weight: 3, Pattern: "as? sawn .. planed|finished|clean|finish"},
				{Weight: 3, Pattern: "once|after it's|its|planing|machining|planed|thicknessed|been|the"},
				{Weight: 2, Pattern: "rough|sawn|unplaned|raw board|plank|stock|oak|ash|larch|sapele"},
				{Weight: 5, Pattern: "what|what'll|whats|what's|how .. come|comes|dress|dresses|hold|holds|finish out|down|up to|at|in? finished|finish|planed|when|to"},
				{Weight: 5, Pattern: "what|what'll .. dress|hold|finish|clean|plane down|up to|at|.."},
				{Weight: 5, Pattern: "planer|thicknesser takes|eats|removes # .. left"},
				{Weight: 2, Pattern: "lose|loses|losing|takes|take|taking|taken|comes|come|goes .. #? .. face|edge|faces|edges|thickness|width"},
				{Weight: 1, Pattern: "planed|planing|planer|thicknesser|clean|finished|finish"},
				{Weight: -5, Pattern: "rough|sawn|raw|blank size|sizes|dims|dim|dimensions"},
				{Weight: -5, Pattern: "epoxy|pva|polyurethane|pu|glue|resin"},
				{Weight: -3, Pattern: "what|how big .. rough|start|saw"},
			},
			Needs:  append(partNeeds(shortestPart), allowanceNeed("length"), allowanceNeed("width"), allowanceNeed("thickness"), useNeed),
			Sizes:  []string{"length_mm", "width_mm", "thickness_mm"},
			Before: readSizeRequest,
			After:  sizesOfPiece("What is the rough size: length × width × thickness?"),
		},
		Answer: answerFinished,
	}
}

// answerFinished takes the allowances off, the exact opposite of the rough size.
func answerFinished(a *Ask) Answer {
	out := a.Out()
	x := a.allowances()
	raw := a.size()
	finished, err := rough.Finished(raw, x.Allowances)
	if err != nil {
		return ask(err.Error())
	}
	ans := say("Finishes at " + sizeText(out, finished, measure.Down))
	values(&ans, "finished_", finished)
	ans.line("Taken off: " + x.describe(out, known(raw)) + ".")
	if finished.Length > 0 && finished.Length != raw.Length {
		ans.line("The length keeps that much for snipe at the ends; trim it last.")
	}
	a.machineCautions(&ans, raw, finished)
	ans.because(sumText(out, raw, "−", x.Allowances, finished), x.reason())
	return ans
}
