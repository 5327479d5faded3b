package commands

import (
	"fmt"

	"fettle/calc/glue"
	"fettle/calc/measure"
	"fettle/calc/wood"
	"fettle/commands/speech"
)

func moisture() *Topic {
	return &Topic{
		Title:    "the moisture that wood settles at in an air",
		Examples: []string{"emc at 18 degrees and 75 %", "what will the wood settle at in 14 °C and 70 % humidity", "which humidity keeps wood at 10 % at 20 degrees"},
		Form: speech.Form{
			Name: "moisture", Exact: true,
			Cues: []speech.Cue{
				{Weight: -6, Pattern: "glue|epoxy|pva|polyurethane|pu|polymer|sealant|resin|resorcinol|uf|d3|d4"},
				{Weight: 6, Pattern: "emc|equilibrium"},
				{Weight: 4, Pattern: "wood|timber|oak|ash|sapele|larch|pine|board|boards|stock|iroko|planks .. settle|settles|end|ends|come|comes|get|gets|go|level|stay|stays|reach|reaches|have|has|take|takes|be .. #"},
				{Weight: 5, Pattern: "what|where|how will|would|does|do|can .. wood|timber|oak|ash|sapele|larch|pine|board|boards|stock|iroko be|settle|end|get|go|land|stand|come|stabilise"},
				{Weight: 3, Pattern: "settle|settles|acclimatise|acclimatize|acclimatises|equalise|equalize"},
				{Weight: 3, Pattern: "moisture|mc content? .. wood|timber|oak|ash|boards"},
				{Weight: 3, Pattern: "wood|timber|oak|boards moisture|mc"},
				{Weight: 2, Pattern: "which|what|how moisture|damp|wet|dry|humidity|rh .. wood|timber|oak|ash|boards"},
				{Weight: 5, Pattern: "what|where|how .. wood|timber|lumber|stuff|boards|it|oak|ash|sapele|larch stabilize|stabilise|settle|equalise|equalize|level"},
				{Weight: 6, Pattern: "what|how .. mc|moist|moisture|damp|wet .. become|becomes|reach|end|stabilize|stabilise|settle|get"},
				{Weight: 5, Pattern: "#percent damp|moist|humid|humidity"},
				{Weight: 2, Pattern: "air|hygrometer is|reads|shows|says|at #percent"},
				{Weight: 2, Pattern: "humidity|rh|humid"},
				{Weight: 2, Pattern: "moisture|mc"},
				{Weight: 2, Pattern: "meter says|shows|reads|reading"},
				{Weight: 1, Pattern: "#percent"},
				{Weight: 1, Pattern: "#temperature"},
				{Weight: 1, Pattern: "#angle"},
				{Weight: -6, Pattern: "glue|epoxy|pva|polyurethane|open|clamp|clamps|cure|adhesive|pu|resin|varnish|sealant"},
				{Weight: -6, Pattern: "acrylic|polycarbonate|aluminium|steel|glass|gap"},
				{Weight: -4, Pattern: "move|moves|movement|swell|shrink|swells|shrinks|shrinkage|wider|narrower"},
				{Weight: -4, Pattern: "from # to|until|- #"},
				{Weight: -4, Pattern: "# up|down? to|- #percent"},
				{Weight: -3, Pattern: "and? between|from #"},
				{Weight: -4, Pattern: "note|remember|how do|to i|ask"},
			},
			Needs: []speech.Need{
				{Name: "temperature_c", Kind: measure.KindTemperature, Label: "temperature", Min: -10, Max: warmestC, Sign: true,
					Roles: []string{"temperature|temp of|is|at|:? about|around? #", "# celsius|centigrade|outside|inside", "emc|moisture|equilibrium at|in|for? #", "at|is|in about|around? #angle", "at|is|in about|around? #temperature"}},
				{Name: "humidity_pct", Kind: measure.KindPercent, Label: "humidity", Min: 1, Max: 98,
					Roles: []string{"humidity|rh|air of|is|at|has|:? about|around|relative? #", "hygrometer|hygro says|reads|shows|showing|gives|is|at|on|:? about|around? #", "# relative? humidity|rh|humid|air|damp|dampness", "air has|is|at|of #", "and|with|at about|around? #percent", "and|with #"}},
				{Name: "mc_pct", Kind: measure.KindPercent, Label: "moisture of the wood", Min: 1, Max: wettest,
					Roles: []string{"bought|delivered|arrived|came|=dried|measured in? at|with #percent", "meter says|shows|reads|reading|read|is|at|has|gives|: about|around? #", "wood|timber|oak|boards|stock|board is|are|at|reads|read|measures now|at? #percent", "# moisture content?|mc", "moisture content? of|is|at|: #", "mc of|is|at? #", "keep|keeps|hold|holds|get .. at|to #percent"}},
				{Name: "species", Kind: speech.KindWord, Label: "timber", Vocab: speciesWords},
				{Name: "wanted", Kind: speech.KindWord, Label: "wanted", Own: true},
			},
			Before: readWantedAir,
			After:  needAir,
		},
		Answer: answerMoisture,
	}
}

// wantedHumidity stands in a request for the air that keeps wood at a moisture content.
const wantedHumidity = "humidity"

// readAirOfNow keeps to how warm and damp it is here and now, where the message speaks of another time
// or place too: it was 70, outside it is 4.
func readAirOfNow(r *speech.Reading) {
	for _, i := range r.All("boards|board|wood|timber|oak|ash|larch|sapele|pine|planks|stock|stuff ( #percent") {
		r.Set("mc_pct", i)
	}
	if r.Says("# outside|outdoors") {
		for _, i := range r.All("# inside|indoors") {
			if q := r.Items[i].Q; q.Kind != measure.KindPercent && !anyOf(wordAt(r, i-1), "rh|humidity|relative") {
				r.Set("temperature_c", i)
				passAll(r, "# outside|outdoors")
			}
		}
	}
	takePresent(r, "temperature_c", airTemperatureAt)
	if !r.Says("=humidity|rh|hygrometer") || r.Says("#percent") {
		return
	}
	for _, p := range []string{"now|today it|it's? is|reads|shows|at? #", "is|it's|reads|shows|down|up at|to? # now|today"} {
		for _, i := range r.All(p) {
			if r.Items[i].Q.Bare() && r.Alone(i) && saidNumberAt(r, i) > warmestC {
				r.Set("humidity_pct", i)
				return
			}
		}
	}
}

// readWantedAir tells whether the humidity is asked for instead of the wood's moisture. Then the
// one percentage is the wood's.
func readWantedAir(r *speech.Reading) {
	readAirOfNow(r)
	if !r.Says("what|which|how much? humidity|rh|humid|relative") && !r.Says("humidity|rh .. keep|keeps|for|hold|holds|give|gives|get wood|timber|oak|boards") && !r.Says("humidity|rh .. keep|keeps|for|hold|holds|give|gives #percent") && !r.Says("how damp|humid|dry may|must|should|can|does|has the? air") {
		return
	}
	var percents []int
	for i, it := range r.Items {
		if r.Free(i) && it.Q.Kind == measure.KindPercent {
			percents = append(percents, i)
		}
	}
	if len(percents) == 1 && !r.Says("#percent relative? humidity|rh|air") {
		r.Set("mc_pct", percents[0])
		r.Word("wanted", wantedHumidity)
	}
}

// needAir takes a bare number that is left for the temperature, and asks for the humidity.
func needAir(r *speech.Reading) {
	for i := range r.Items {
		if r.Free(i) && r.Items[i].Q.Bare() && r.Items[i].Q.High == nil && !r.Request.Has("temperature_c") {
			r.Set("temperature_c", i)
		}
	}
	if r.Request.Word("wanted") == wantedHumidity && !r.Request.Has("humidity_pct") {
		return
	}
	r.AskFor("humidity_pct", "What is the relative humidity of the air, in per cent?", "humidity_pct")
}

func answerMoisture(a *Ask) Answer {
	temp, assumed := a.airTemperature()
	if a.Word("wanted") == wantedHumidity && !a.Has("humidity_pct") {
		return a.answerHumidity(temp, assumed)
	}
	humidity, _ := a.Float("humidity_pct")
	emc, err := wood.EMC(temp, humidity)
	if err != nil {
		return ask(plainly(err))
	}
	ans := say(fmt.Sprintf("Wood settles at about %s %% in air of %s °C and %s %% humidity", measure.Decimal(emc, 1), measure.Decimal(temp, 1), measure.Decimal(humidity, 1)))
	ans.Values["emc_pct"] = emc
	if now, ok := a.Float("mc_pct"); ok {
		ans.line(drift(now, emc))
	}
	ans.line(assumed + "Give or take a point by timber and by how it was dried; a board takes weeks to get there.")
	a.emcReasons(&ans, temp, humidity, emc)
	return ans
}

// drift says which way wood will go. A point either way is within what the formula knows.
func drift(now, emc float64) string {
	said := measure.Decimal(now, 1)
	switch {
	case now < emc-1:
		return fmt.Sprintf("Wood at %s %% will take up damp: up by about %s points.", said, measure.Decimal(emc-now, 1))
	case now > emc+1:
		return fmt.Sprintf("Wood at %s %% will dry: down by about %s points.", said, measure.Decimal(now-emc, 1))
	}
	return fmt.Sprintf("Wood at %s %% is as good as settled (%s points off, within what the formula knows).", said, measure.Decimal(emc-now, 1))
}

// airTemperature is the one said, else the project's, else that of a room.
func (a *Ask) airTemperature() (tempC float64, assumed string) {
	if t, said := a.Float("temperature_c"); said {
		return t, ""
	}
	if t, set := a.Settings.float("temperature", "temperature_c"); set {
		return t, "Temperature: your workshop's setting. "
	}
	return glue.ReferenceC, fmt.Sprintf("No temperature was said: %d °C is assumed; it matters little. ", glue.ReferenceC)
}

// answerHumidity goes the other way round: the air that keeps wood at a moisture content.
func (a *Ask) answerHumidity(temp float64, assumed string) Answer {
	target, _ := a.Float("mc_pct")
	humidity, err := wood.HumidityFor(temp, target)
	if err != nil {
		return ask(plainly(err))
	}
	ans := say(fmt.Sprintf("About %s %% humidity at %s °C keeps wood at %s %%", measure.Decimal(humidity, 0), measure.Decimal(temp, 1), measure.Decimal(target, 1)))
	ans.Values["humidity_pct"], ans.Values["emc_pct"] = humidity, target
	ans.line(assumed + "Give or take a point of moisture by timber and by how it was dried.")
	a.emcReasons(&ans, temp, humidity, target)
	return ans
}

func (a *Ask) emcReasons(ans *Answer, temp, humidity, emc float64) {
	ans.because(fmt.Sprintf("Hailwood–Horrobin equation at T = %s °C, h = %s: %s %%.", measure.Decimal(temp, 1), measure.Decimal(humidity/100, 4), measure.Decimal(emc, 2)),
		"USDA Wood Handbook (2010), equation 4-5; constants from memory; they agree with its Table 4-2 (read there) within 0.06.")
	if temp < -1 || humidity > 95 || humidity < 5 {
		ans.because("This lies outside that table (−1 to 93 °C, 5 to 95 %): an extension of it.")
	}
}
