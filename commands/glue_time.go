package commands

import (
	"errors"
	"fmt"
	"math"

	"fettle/calc/glue"
	"fettle/calc/measure"
	"fettle/commands/speech"
)

// coldestC and warmestC bound the temperatures believed in a workshop, in °C.
const coldestC, warmestC = -20, 45

func glueNeeds(ask string) []speech.Need {
	return []speech.Need{
		{Name: "adhesive", Kind: speech.KindWord, Label: "glue", Vocab: glueWords, Ask: ask},
		{Name: "temperature_c", Kind: measure.KindTemperature, Label: "temperature", Min: coldestC, Max: warmestC, Sign: true,
			Roles: []string{"thermometer says|shows|reads|reading|is|at|on|: about|around? #", "# in the|this|our? hut|shed|workshop|shop|room", "=temperature|temp is|of|at|:? #", "shed|workshop|shop|hut|room is|at|about? #", "at|with about|around|only|just? #", "# in? here|inside|indoors", "=t =|:? #", "here|inside|indoors|now|today|shed|workshop|hut it's|its|is only|about|around? #", "it's|its # in? here|now|today|inside"}},
		{Name: "humidity_pct", Kind: measure.KindPercent, Label: "humidity", Min: 1, Max: 100, Roles: []string{"humidity of|is|:|at? #", "# humidity|rh|relative", "rh of|is|:? #"}},
	}
}

func glueTime() *Topic {
	needs := glueNeeds("")
	return &Topic{
		Title:    "open time, clamp time and cure of a glue at a temperature",
		Examples: []string{"open time for polyurethane at 12 degrees", "how long does epoxy need in the clamps at 15 °C", "how long have I got with PVA at 9 degrees"},
		Form: speech.Form{
			Name: "glue-time", Exact: true,
			Cues: []speech.Cue{
				{Weight: 4, Pattern: "stay|stays|kept|remain|be in|under the? clamps|cramps|pressure|press"},
				{Weight: 4, Pattern: "how warm|cold|hot must|should|does|can|may|has"},
				{Weight: 4, Pattern: "skin|skinning|tack|grab time|times"},
				{Weight: 4, Pattern: "ok|okay|possible|safe|alright|fine|allowed to glue|use|spread|laminate|bond"},
				{Weight: 4, Pattern: "fully? cured|hard|dry|cures|set|sets when|how"},
				{Weight: 4, Pattern: "how long|soon before|until|till|after|to"},
				{Weight: -6, Pattern: "leave|window|door .. open"},
				{Weight: -6, Pattern: "#area"},
				{Weight: 5, Pattern: "opentime|clamptime|cleantime"},
				{Weight: 5, Pattern: "how many|much minutes|hours|time|days"},
				{Weight: 4, Pattern: "coldest|warmest|lowest|hottest|minimum|highest temperature|temp|i|we|can|it|you|for|to .."},
				{Weight: 5, Pattern: "open|assembly|clamp|clamping|cramp|press|pressing|cure|curing|working|setting|drying|closed|pot|handling time|times|life|window"},
				{Weight: 4, Pattern: "how long have|do i|we|you got|have .. with|before|to|until"},
				{Weight: 3, Pattern: "how long .. cramps|clamps|clamp|clamped|cramp|cramped|pressed|press|set|cure|dry|off|harden|hard|go|grab|cured|skin|skins"},
				{Weight: 3, Pattern: "how long .. glue|epoxy|pva|polyurethane|pu|resin|sealant|resorcinol|bond|glued"},
				{Weight: 3, Pattern: "how long|soon|when .. before|until|till .. plane|sand|machine|work|unclamp|clamps|take|move|plane|handle|load|varnish"},
				{Weight: 3, Pattern: "when|how soon .. unclamp|declamp|clamps|cramps off|out|come"},
				{Weight: 3, Pattern: "can|could|may|should|do i|we|you use|glue|spread|stick|laminate|clamp .. at #"},
				{Weight: 3, Pattern: "too|to cold|warm|hot|cool|chilly .. glue|epoxy|pva|polyurethane|pu|resin|gluing|resorcinol|urea|sealant"},
				{Weight: 3, Pattern: "glue|epoxy|pva|polyurethane|pu|resin|gluing|resorcinol|sealant .. too cold|warm|hot|cool"},
				{Weight: 2, Pattern: "how long|many minutes|hours|time"},
				{Weight: 2, Pattern: "epoxy|pva|polyurethane|pu|pur|resorcinol|uf|urea|d3|d4|sealant|hide|glue .. at|in #"},
				{Weight: 1, Pattern: "epoxy|pva|polyurethane|pu|pur|resorcinol|uf|urea|d3|d4|sealant|hide|glue|polymer"},
				{Weight: 1, Pattern: "open|clamps|clamp|cramp|cramps|cure|minutes"},
				{Weight: -4, Pattern: "^ glued|just|have|i've|we've glued|up"},
				{Weight: -6, Pattern: "went|are|is|put|been|went|since in|into the? clamps|cramps"},
				{Weight: -4, Pattern: "how much|many"},
				{Weight: -8, Pattern: "=coats|recoat|overcoat"},
				{Weight: -8, Pattern: "varnish|lacquer|paint|primer|oil|stain|wax|undercoat takes|take|to|is|be|fully|need|needs|really|properly|=dry|dries|cure|cures|cured|hard"},
				{Weight: -3, Pattern: "our|my|this|the glue|pva|epoxy : .. open"},
			},
			Needs:  append(needs, useNeed),
			Before: readGlueAir,
		},
		Answer: answerGlueTime,
	}
}

// readGlueAir reads what the joint is for, and which of several temperatures it is now.
func readGlueAir(r *speech.Reading) {
	readUse(r)
	passAll(r, "pot|kettle|pan|jacket|bath is|at|to|of|on|about|kept|stays? at|to|about? #") // hide glue is hot in its pot
	takePresent(r, "temperature_c", airTemperatureAt)
	takePresent(r, "humidity_pct", airHumidityAt)
}

// glueOf gives the glue of a request: by the project's data sheet where it fits, else the
// family's published figures.
func (a *Ask) glueOf() (glue.Glue, bool) {
	word := a.Word("adhesive")
	own, set := a.Settings.ownGlue()
	if set && (word == "" || word == ourGlue || word == a.Settings.set["glue"]["adhesive"].Word) {
		return own, true
	}
	return glueNamed(word)
}

// ourGlue stands in a request for the glue that the project has set.
const ourGlue = "our glue"

func answerGlueTime(a *Ask) Answer {
	g, ok := a.glueOf()
	if !ok {
		return askFor("adhesive", "Which glue?")
	}
	temp, assumed := a.temperature(g)
	humidity := math.NaN()
	if h, said := a.Float("humidity_pct"); said {
		humidity = h
	}
	times, err := g.At(temp, humidity)
	var cold *glue.TooColdError
	var hot *glue.TooHotError
	switch {
	case errors.As(err, &cold):
		ans := say("Don't glue: " + cold.Glue + " needs at least " + measure.Decimal(cold.MinC, 1) + " °C")
		ans.Values["min_temperature_c"] = cold.MinC
		ans.because(fmt.Sprintf("%s °C is below the lowest for it, %s °C: %s.", measure.Decimal(temp, 1), measure.Decimal(cold.MinC, 1), knownBy(g.MinC)), "No waiting makes up for it, so no time is worked out.")
		ans.line(fmt.Sprintf("At %s °C %s. Warm the wood, the glue and the room, or wait.", measure.Decimal(temp, 1), cold.Reason))
		return ans
	case err != nil && !errors.As(err, &hot):
		return ask(err.Error())
	case err != nil:
		ans := say("Don't glue: too warm")
		ans.Values["min_temperature_c"] = g.MinC.Value
		ans.line(hot.Error())
		ans.because(fmt.Sprintf("%s °C is above the highest for it, %s °C: %s.", measure.Decimal(temp, 1), measure.Decimal(g.MaxC.Value, 1), knownBy(g.MaxC)))
		return ans
	}
	ans := say(fmt.Sprintf("%s at %s °C: open %s, clamp %s", capital(g.Name), measure.Decimal(temp, 1),
		minutesDown(times.OpenMin), minutesText(times.ClampMin)))
	ans.Values["open_min"], ans.Values["clamp_min"] = times.OpenMin, times.ClampMin
	ans.Values["work_min"], ans.Values["cure_min"], ans.Values["min_temperature_c"] = times.WorkMin, times.CureMin, times.MinTempC
	ans.line(fmt.Sprintf("Plane or sand after %s; full strength after %s; not below %s °C.",
		minutesText(times.WorkMin), minutesText(times.CureMin), measure.Decimal(times.MinTempC, 1)))
	ans.line(glueSource(g, assumed))
	a.useCaution(&ans)
	glueReasons(&ans, g, temp, humidity, times)
	for _, c := range g.Cautions {
		ans.caution(c)
	}
	return ans
}

func glueReasons(ans *Answer, g glue.Glue, temp, humidity float64, t glue.Times) {
	at := measure.Decimal(g.AtC, 1)
	ans.because(
		fmt.Sprintf("At %s °C: open %s (%s), clamp %s (%s).", at, minutesDown(g.OpenMin.Value), knownBy(g.OpenMin), minutesText(g.ClampMin.Value), knownBy(g.ClampMin)),
		fmt.Sprintf("Clamp: %s × %s = %s at %s °C, with 2^((%s − t)/10) below %s °C; waiting is never shortened and open time never lengthened.",
			minutesText(g.ClampMin.Value), measure.Decimal(t.ClampMin/g.ClampMin.Value, 2), minutesText(t.ClampMin), measure.Decimal(temp, 1), at, at))
	if !math.IsNaN(humidity) {
		ans.because(fmt.Sprintf("Air of %s %% counts beside %d %%: rule of thumb.", measure.Decimal(humidity, 0), int(glue.ReferenceHumidityPct)))
	}
	ans.because("Rule of thumb, no source: twice the time for every 10 °C colder.")
}

// temperature is the one said, else the project's, else the one that the figures belong to.
func (a *Ask) temperature(g glue.Glue) (tempC float64, assumed string) {
	if t, said := a.Float("temperature_c"); said {
		return t, ""
	}
	if t, set := a.Settings.float("temperature", "temperature_c"); set {
		return t, "Temperature: your workshop's setting. "
	}
	return g.AtC, fmt.Sprintf("No temperature was said: %s °C is assumed. ", measure.Decimal(g.AtC, 1))
}

func glueSource(g glue.Glue, assumed string) string {
	if g.OwnSheet {
		return assumed + "From your data sheet; other temperatures by common practice, on the safe side."
	}
	return assumed + "General figures on the safe side (common practice); the data sheet of your glue comes first."
}

// minutesText prints a waiting time, rounded up.
func minutesText(min float64) string { return minutesRounded(min, math.Ceil) }

// minutesDown prints the time there is to work in, rounded down.
func minutesDown(min float64) string { return minutesRounded(min, math.Floor) }

func minutesRounded(min float64, round func(float64) float64) string {
	const slack = 1e-9
	near := func(v float64) float64 {
		if r := math.Round(v); math.Abs(v-r) < slack {
			return r
		}
		return round(v)
	}
	switch {
	case min < 10:
		return measure.Decimal(near(min*2)/2, 1) + " min"
	case min < 120:
		return measure.Decimal(near(min), 0) + " min"
	case min < 48*60:
		return measure.Decimal(near(min/30)/2, 1) + " h"
	}
	return measure.Decimal(near(min/720)/2, 1) + " days"
}

// sheetOf makes a data sheet of what was set for the project's glue.
func sheetOf(name string, set map[string]speech.Slot) glue.Sheet {
	at := float64(glue.ReferenceC)
	if s, ok := set["temperature_c"]; ok {
		at = s.Float()
	}
	minC := math.NaN()
	if s, ok := set["min_temperature_c"]; ok {
		minC = s.Float()
	}
	return glue.Sheet{Name: name, AtC: at, OpenMin: set["open_min"].Float(), ClampMin: set["clamp_min"].Float(),
		WorkMin: set["work_min"].Float(), CureMin: set["cure_min"].Float(), MinC: minC}
}
