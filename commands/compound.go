package commands

import (
	"fmt"
	"math"

	"fettle/calc/angle"
	"fettle/calc/measure"
	"fettle/commands/speech"
)

func compound() *Topic {
	sides := sidesNeed("How many sides has it?")
	sides.Roles = []string{"square|rectangular|sided|mitred|butt|butted"}
	return &Topic{
		Title:    "compound mitres of sloping sides",
		Examples: []string{"compound mitre for a hopper, four sides sloping 15 degrees", "six-sided bucket, sides 8° off vertical, saw and tilt?", "five sides at 75 degrees to the bench, mitred corners"},
		Form: speech.Form{
			Name: "compound", Exact: true,
			Cues: []speech.Cue{
				{Weight: 7, Pattern: "compound"},
				{Weight: 4, Pattern: "hopper|planter|bucket|tub|lantern|trough|funnel|splayed|pail"},
				{Weight: 5, Pattern: "sides|side|sided|walls|staves .. slope|slopes|sloping|sloped|lean|leans|leaning|tilt|tilted|tilting|splay|splayed|flare|flared|angled|raked .. #"},
				{Weight: 5, Pattern: "sides|side|sided|walls|staves .. # .. upright|vertical|plumb|bench|table|horizontal"},
				{Weight: 4, Pattern: "slope|slopes|sloping|lean|leans|leaning|tilt|tilted|splayed|flared .. sides|sided|walls"},
				{Weight: 6, Pattern: "sides|sided|walls|staves .. inclined|inclination|lean|leaning|slope|tilt .. #"},
				{Weight: 4, Pattern: "inclined|inclination from|off # #? vertical|upright|plumb"},
				{Weight: 3, Pattern: "#angle .. off|from|of|to the? upright|vertical|plumb|bench|table|horizontal"},
				{Weight: 2, Pattern: "blade tilt|bevel"},
				{Weight: 2, Pattern: "saw|mitre|miter and|plus|& tilt|bevel|blade"},
				{Weight: 2, Pattern: "=sided|hexagon|hexagonal|octagon|octagonal"},
				{Weight: 1, Pattern: "=sides|walls"},
				{Weight: -4, Pattern: "lying|lies|laid|lay? flat"},
				{Weight: -4, Pattern: "# litre|liter|=bucket|buckets of"},
				{Weight: -5, Pattern: "diagonal|diagonals|offset|taper|radius|chord"},
				{Weight: -6, Pattern: "glue|epoxy|pva|polyurethane|varnish|oil|paint|rough|shelf"},
				{Weight: -5, Pattern: "^ note|remember"},
			},
			Needs: []speech.Need{
				{Name: "slope_deg", Kind: measure.KindAngle, Label: "slope", Min: 0, Max: 85,
					Roles: []string{"upright|vertical|plumb|slope|lean|off|from|bench|table|horizontal"}},
				{Name: "bench_deg", Kind: measure.KindAngle, Label: "to the bench", Min: 5, Max: 90, Own: true},
				sides,
				{Name: "joint", Kind: speech.KindWord, Label: "joint", Own: true},
			},
			Before: readCompound,
			After:  needCompound,
		},
		Answer: answerCompound,
	}
}

// readCompound reads the number of sides and the slope, from upright or to the bench.
func readCompound(r *speech.Reading) {
	readSides(r)
	ways := []string{"# mitred|mitered? =corners", "# wooden|equal|flat|sloping|identical|same|plain|slanted|leaning|oak|ash|larch|sapele|pine =sides|walls|faces|panels"}
	if r.Says("=sides|walls|staves|panels|boards") {
		ways = append(ways, "# of them|these|those")
	}
	for _, p := range ways {
		if i, ok := r.Find(p); ok && !r.Request.Has("sides") && r.Items[i].Q.Bare() {
			r.Set("sides", i)
		}
	}
	if r.Says("butt|butted|butting") && !r.Says("mitred|mitre|miter|mitered") {
		r.Word("joint", "butted")
	}
	if !r.Request.Has("sides") && r.Says("square|rectangular") && !r.Says("from|off|of square") {
		r.Put("sides", speech.Quantity{Kind: measure.KindNumber, Value: degrees(4).Value, Integer: true})
	}
	if i, ok := firstOf(r, "# .. to|from|off|with|above the? bench|table|horizontal|level|floor|ground|base|bottom|flat", "# to|from|off it|bench|horizontal"); ok {
		if slope, err := angle.FromBench(saidNumberAt(r, i)); err == nil {
			r.Put("slope_deg", degrees(slope))
		}
		r.Set("bench_deg", i)
		return
	}
	if i, ok := firstOf(r, "# .. from|off|of|to the? upright|vertical|plumb|true"); ok {
		r.Set("slope_deg", i)
		return
	}
	list := angles(r)
	if len(list) == 0 {
		i, ok := firstOf(r, "slope|slopes|sloping|sloped|lean|leans|leaning|tilt|tilted|splay|splayed|flare|flared|angled|raked out|outwards|outward|in|inwards? at|by|of|is|×|:|about? #", "at #")
		if !ok {
			return
		}
		list = []int{i}
	}
	r.Set("slope_deg", list[0])
}

// steepestLean is the largest slope, in degrees, that is taken to be from upright when that
// was not said.
const steepestLean = 45

// needCompound drops what a later message replaced, and asks from where a steep slope was
// measured.
func needCompound(r *speech.Reading) {
	slope, ok := r.Request.Float("slope_deg")
	if b, said := r.Request.Float("bench_deg"); said {
		if s, err := angle.FromBench(b); err == nil && math.Abs(s-slope) > 1e-9 {
			r.Drop("bench_deg")
		}
	}
	r.AskFor("slope_deg", "How far do the sides slope from upright?", "slope_deg", "bench_deg")
	fromWhere := r.Says("upright|vertical|plumb|bench|table|horizontal|level|floor|ground|base|bottom")
	if !ok || slope <= steepestLean || fromWhere || !r.Anew("slope_deg") {
		return
	}
	bench := r.Moved(map[string]string{"slope_deg": "bench_deg"})
	if s, err := angle.FromBench(slope); err == nil {
		bench.Slots["slope_deg"] = r.Sized("slope_deg", degrees(s))
	}
	r.Question = speech.Choice(fmt.Sprintf("Is %s measured from upright or to the bench?", degExact(slope)),
		speech.Option{Label: "from upright", Words: []string{"upright", "vertical", "plumb"}, Request: r.Moved(nil)},
		speech.Option{Label: "to the bench", Words: []string{"bench", "table", "horizontal"}, Request: bench})
}

func answerCompound(a *Ask) Answer {
	n, _ := a.Float("sides")
	slope, _ := a.Float("slope_deg")
	c, err := angle.Sloping{Sides: int(n), SlopeDeg: slope}.Compound()
	if err != nil {
		return askFor("slope_deg", plainly(err))
	}
	ans := say(fmt.Sprintf("Saw %s from square, blade tilted %s from upright (%d sides, mitred)", degText(c.SawDeg), degText(c.TiltDeg), int(n)))
	ans.Values["saw_deg"], ans.Values["tilt_deg"] = c.SawDeg, c.TiltDeg
	if !onScale(c.SawDeg, c.TiltDeg) {
		ans.line(fmt.Sprintf("To the hundredth: saw %s, tilt %s.", degExact(c.SawDeg), degExact(c.TiltDeg)))
	}
	if b, ok := a.Float("bench_deg"); ok {
		ans.line(fmt.Sprintf("%s to the bench is %s from upright.", degExact(b), degExact(slope)))
	} else {
		ans.line("The slope counts from upright.")
	}
	if int(n) == 4 {
		ans.Values["butt_deg"] = c.ButtDeg
	}
	switch butted := a.Word("joint") == "butted"; {
	case butted && int(n) == 4:
		ans.Answer = fmt.Sprintf("Saw %s from square, blade tilted %s from upright (4 sides, butted)", degText(c.SawDeg), degText(c.ButtDeg))
		ans.line(fmt.Sprintf("Mitred instead of butted: the same saw setting, blade tilted %s.", degText(c.TiltDeg)))
	case butted:
		ans.line("The tilt is for mitred corners; for butted ones I only know the four-sided box.")
	case int(n) == 4:
		ans.line(fmt.Sprintf("Butted instead of mitred: the same saw setting, blade tilted %s.", degText(c.ButtDeg)))
	}
	if c.TiltDeg > mostTilt {
		ans.line(fmt.Sprintf("Beyond %d° most blades don't tilt: stand the piece on edge against a jig.", mostTilt))
	}
	ans.line("All sides alike, their ends cut in opposed pairs. Make a set of short scraps first.")
	ans.caution("Compound cuts tip and creep: clamp the work to a jig, try scrap first, stay out of the line of the blade.")
	ans.because(fmt.Sprintf("tan saw = sin %s × tan(180/%d): %s; sin tilt = cos %s × sin(180/%d): %s.",
		degExact(slope), int(n), degExact(c.SawDeg), degExact(slope), int(n), degExact(c.TiltDeg)),
		"Geometry, checked by vectors. Rule of thumb: only how far a blade tilts.")
	return ans
}

// mostTilt is how far the common run of blades tilts, in degrees: common practice, no source.
const mostTilt = 45
