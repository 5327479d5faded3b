package commands

import (
	"encoding/json"
	"fmt"
	"strings"

	"fettle/calc/clamp"
	"fettle/calc/glue"
	"fettle/calc/measure"
	"fettle/calc/rough"
	"fettle/commands/speech"
	"fettle/store"
)

// whatSetting and whatPlace are the kinds of things under which settings are stored: those of
// a project and those of a place.
const (
	whatSetting = "setting"
	whatPlace   = "place"
	whatProject = "project"
	whatNote    = "note"
)

// settingSpec is one setting of a project: how it is said, what it may be, what holds until
// it is set.
type settingSpec struct {
	name  string
	title string   // as it is called back: "saw kerf"
	asked []string // words by which it is asked for
	needs []speech.Need
	show  func(Settings) string
}

// settingSpecs lists the settings of a project.
func settingSpecs() []settingSpec {
	return []settingSpec{
		{
			name: "unit", title: "unit", asked: []string{"unit", "units", "unit of measure"},
			needs: []speech.Need{{Name: "unit", Kind: speech.KindWord, Label: "unit", Own: true}},
			show:  func(s Settings) string { return s.unitName() },
		},
		lengthSetting("kerf", "saw kerf", 0.5, 8, []string{"kerf", "blade", "saw blade", "saw cut", "cut width"},
			"kerf|kerfs is|of|=|:|at|to|as|now? now? #", "kerf #", "# kerf", "blade|sawblade is|takes|cuts|eats|of|at|: #", "blade # =now?", "blade .. takes|cuts|eats #", "blade|kerf|cut .. # wide|thick|now", "saw cuts|takes #", "kerf .. to|is|at|as #", "blade .. kerf .. #"),
		allowanceSetting("length"), allowanceSetting("width"), allowanceSetting("thickness"),
		{
			name: "sawn_sizes", title: "sawn thicknesses", asked: []string{"sawn sizes", "sawn thicknesses", "stock sizes", "stock thicknesses", "merchant's sizes"},
			needs: []speech.Need{{Name: "sawn_sizes_mm", Kind: measure.KindLength, Label: "sawn sizes", Own: true, Min: 5, Max: 300}},
			show:  func(s Settings) string { return s.sawnText() },
		},
		lengthSetting("machine_minimum", "shortest piece for the machines", 50, 1500, []string{"machine minimum", "shortest piece", "minimum length"},
			"machine|planer|thicknesser minimum|min|limit .. #", "minimum|shortest length|piece .. #", "nothing|pieces|parts shorter|under than? # .. machine|planer|thicknesser|machines", "shortest .. machine|planer|thicknesser|jointer .. #", "machines|planer|thicknesser need|needs|wants .. # long?"),
		lengthSetting("longest_blank", "longest blank", 400, 6000, []string{"longest blank", "blank limit"},
			"longest blank|blanks .. #", "blanks? no longer than #", "blanks at|up most|to #"),
		lengthSetting("end_trim", "trimmed off each end of a board", 0, 300, []string{"end trim", "trim of the ends", "board ends", "trim off the ends"},
			"=end|=ends =trim|trimming is|of|by|at|to|now|:? #"),
		{
			name: "clamp_force", title: "force of one clamp", asked: []string{"clamp force", "force of the clamps", "clamps give", "cramp force"},
			needs: []speech.Need{{Name: "clamp_force_n", Kind: measure.KindForce, Label: "force of one clamp", Min: 100, Max: 30000,
				Roles: []string{"clamp|clamps|cramp|cramps .. force|give|gives|press|pull|do .. #", "clamp|cramp force .. #"}}},
			show: func(s Settings) string { return measure.Decimal(s.clampForce()/1000, 1) + " kN" },
		},
		{
			name: "spare", title: "spare timber for mistakes", asked: []string{"spare", "spare timber", "spare wood", "waste allowance", "extra timber"},
			needs: []speech.Need{{Name: "spare_pct", Kind: measure.KindPercent, Label: "spare", Min: 0, Max: 100,
				Roles: []string{"spare|extra|waste timber|wood|stock? is|of|:|at|now|to? #", "# spare|extra|over for|timber|wood|stock?"}}},
			show: func(s Settings) string { return measure.Decimal(s.spare(), 1) + " %" },
		},
		{
			name: "temperature", title: "workshop temperature", asked: []string{"workshop temperature", "shop temperature", "temperature"},
			needs: []speech.Need{{Name: "temperature_c", Kind: measure.KindTemperature, Label: "temperature", Min: -20, Max: 45, Sign: true,
				Roles: []string{"shed|workshop|shop|hut is|stays|at|has|runs .. #", "temperature is|: #"}}},
			show: func(s Settings) string {
				if t, ok := s.float("temperature", "temperature_c"); ok {
					return measure.Decimal(t, 1) + " °C"
				}
				return "not set: 20 °C is assumed and said"
			},
		},
		{
			name: "glue_up", title: "panels wider than a board", asked: []string{"wide panels", "glue up wide panels"},
			needs: []speech.Need{{Name: "glue_up", Kind: speech.KindWord, Label: "wide panels", Own: true}},
			show:  func(s Settings) string { return map[bool]string{true: "glued up", false: "left out"}[s.gluesUp()] },
		},
		glueSetting(),
		{
			name: "overnight", title: "clamps overnight", asked: []string{"overnight", "clamps overnight", "overnight clamping"},
			needs: []speech.Need{{Name: "overnight", Kind: speech.KindWord, Label: "overnight", Own: true}},
			show:  func(s Settings) string { return s.overnightText() },
		},
	}
}

func lengthSetting(name, title string, lo, hi float64, asked []string, roles ...string) settingSpec {
	need := name + "_mm"
	return settingSpec{
		name: name, title: title, asked: asked,
		needs: []speech.Need{{Name: need, Kind: measure.KindLength, Label: title, Roles: roles, Min: lo, Max: hi}},
		show:  func(s Settings) string { return s.lengthText(name) },
	}
}

// lengthText is a setting as it was said, or the default in the project's unit.
func (s Settings) lengthText(name string) string {
	l, own := s.length(name)
	if own {
		return s.System().Exact(l)
	}
	return s.System().Shown(l)
}

func allowanceSetting(dimension string) settingSpec {
	name := dimension + "_allowance"
	return settingSpec{
		name: name, title: "allowance on the " + dimension,
		asked: []string{dimension + " allowance", "allowance on the " + dimension, "allowance on " + dimension, "allowance for " + dimension},
		needs: []speech.Need{allowanceNeed(dimension)},
		show:  func(s Settings) string { return s.lengthText(name) },
	}
}

func allowanceNeed(dimension string) speech.Need {
	most := map[string]float64{"length": 500, "width": 100, "thickness": 40}[dimension]
	return speech.Need{Name: dimension + "_allowance_mm", Kind: measure.KindLength, Label: "allowance on the " + dimension, Max: most, Own: true}
}

func glueSetting() settingSpec {
	minutes := func(name, label string, lo, hi float64, roles ...string) speech.Need {
		return speech.Need{Name: name, Kind: measure.KindDuration, Label: label, Min: lo, Max: hi, Roles: roles}
	}
	return settingSpec{
		name: "glue", title: "your glue", asked: []string{"our glue", "the glue", "glue"},
		needs: []speech.Need{
			minutes("open_min", "open time", 0.5, 1440, "open|assembly time|for? is|of|:|= ? #", "open time? #", "open .. is #", "# open"),
			minutes("clamp_min", "clamp time", 1, 10080, "clamp|cramp|press time|for? #", "clamp|cramp|clamped|clamps|cramps time? is|of|:|=|for #", "# in the? clamps|cramps", "# clamp|clamped|clamping"),
			minutes("work_min", "time until it can be worked", 1, 20160, "work|sand|plane|machine after? #"),
			minutes("cure_min", "time to full strength", 1, 40320, "cure|cured|full strength|cures|hard in|after? #"),
			{Name: "min_temperature_c", Kind: measure.KindTemperature, Label: "lowest temperature", Min: -10, Max: 30, Sign: true, Roles: []string{"not below|under #", "min|minimum|lowest temperature? is|of? #", "from # up|upwards"}},
		},
		show: func(s Settings) string {
			g, ok := s.ownGlue()
			if !ok {
				return "not set"
			}
			return fmt.Sprintf("open %s, clamp %s at %s °C", minutesText(g.OpenMin.Value), minutesText(g.ClampMin.Value), measure.Decimal(g.AtC, 1))
		},
	}
}

// Settings are what a project has set, over what holds until it does.
type Settings struct {
	set map[string]map[string]speech.Slot // setting → need → value
}

// LoadSettings reads a project's settings.
func LoadSettings(tx *store.Tx, project int64) (Settings, error) {
	s := Settings{set: map[string]map[string]speech.Slot{}}
	things, err := tx.Things(project, whatSetting)
	if err != nil {
		return s, fmt.Errorf("load settings: %w", err)
	}
	for _, t := range things {
		var slots map[string]speech.Slot
		if err := json.Unmarshal(t.Data, &slots); err != nil {
			return s, fmt.Errorf("read setting %s: %w", t.Name, err)
		}
		s.set[t.Name] = slots
	}
	return s, nil
}

// System is the project's unit for bare numbers and for results.
func (s Settings) System() measure.System {
	if s.set["unit"]["unit"].Word == "in" {
		return measure.Imperial
	}
	return measure.Metric
}

func (s Settings) unitName() string {
	if s.System() == measure.Imperial {
		return "inches"
	}
	return "mm"
}

var defaultLengths = map[string]measure.Length{
	"kerf":                3 * measure.Millimetre, // common practice, no source: a rip blade of a small table saw
	"length_allowance":    rough.Default().Length,
	"width_allowance":     rough.Default().Width,
	"thickness_allowance": rough.Default().Thickness,
	"machine_minimum":     rough.DefaultLimits().MachineMinimum,
	"longest_blank":       rough.DefaultLimits().LongestBlank,
}

// length gives a setting that is a length, and whether the project has set it.
func (s Settings) length(name string) (measure.Length, bool) {
	slot, ok := s.set[name][name+"_mm"]
	if !ok || slot.Num == nil {
		return defaultLengths[name], false
	}
	l, err := measure.Times(slot.Num, measure.Millimetre)
	if err != nil {
		return defaultLengths[name], false
	}
	return l, true
}

func (s Settings) float(setting, need string) (float64, bool) {
	slot, ok := s.set[setting][need]
	return slot.Float(), ok && slot.Num != nil
}

// sawn gives the sawn thicknesses to choose from, and whether the project has listed them.
func (s Settings) sawn() ([]measure.Length, bool) {
	list := s.set["sawn_sizes"]["sawn_sizes_mm"].List
	if len(list) == 0 {
		return rough.SawnThicknesses(), false
	}
	out := make([]measure.Length, 0, len(list))
	for _, e := range list {
		if l, err := measure.Times(e.Num, measure.Millimetre); err == nil {
			out = append(out, l)
		}
	}
	return out, true
}

func (s Settings) sawnText() string {
	sizes, own := s.sawn()
	parts := make([]string, len(sizes))
	for i, l := range sizes {
		parts[i] = s.System().Exact(l)
		if !own {
			parts[i] = s.System().Shown(l)
		}
	}
	text := strings.Join(parts, ", ")
	if !own {
		text += " (EN 1313-2)"
	}
	return text
}

func (s Settings) overnightText() string {
	switch s.set["overnight"]["overnight"].Word {
	case "no":
		return "not allowed"
	case "yes":
		return "allowed"
	}
	return "not said yet"
}

// gluesUp says whether parts that are wider than the boards are glued up of several, as they are until
// somebody says no.
func (s Settings) gluesUp() bool { return s.set["glue_up"]["glue_up"].Word != "no" }

func (s Settings) clampForce() float64 {
	if f, ok := s.float("clamp_force", "clamp_force_n"); ok {
		return f
	}
	return clamp.DefaultForceN
}

// ownGlue is the project's glue by the data sheet that somebody read out.
func (s Settings) ownGlue() (glue.Glue, bool) {
	set, ok := s.set["glue"]
	if !ok {
		return glue.Glue{}, false
	}
	family := set["adhesive"].Word
	name := "your glue"
	base, known := glueNamed(family)
	if !known {
		base, _ = glueNamed("pva")
		base.Cautions = nil
	} else {
		name = base.Name + " (your data sheet)"
	}
	g, err := base.WithSheet(sheetOf(name, set))
	return g, err == nil
}

// usualSpare is how much more timber is bought than the plan takes, in per cent: common practice,
// no source.
const usualSpare = 10

// spare is the timber to buy for mistakes, in per cent of what is needed.
func (s Settings) spare() float64 {
	if v, ok := s.float("spare", "spare_pct"); ok {
		return v
	}
	return usualSpare
}
