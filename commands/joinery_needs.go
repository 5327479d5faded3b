package commands

import (
	"fettle/calc/measure"
	"fettle/commands/speech"
)

// joineryNeeds are what any of the things may be made from. The ranges are of what such things
// are in a small building or a van; a bare number beyond them is asked about.
func joineryNeeds() []speech.Need {
	size := func(name, label string, low, high float64, roles ...string) speech.Need {
		return speech.Need{Name: name, Kind: measure.KindLength, Label: label, Min: low, Max: high, Roles: roles}
	}
	count := func(name, label string, most float64, roles ...string) speech.Need {
		return speech.Need{Name: name, Kind: speech.KindCount, Label: label, Min: 1, Max: most, Roles: roles}
	}
	own := func(name, label string) speech.Need {
		return speech.Need{Name: name, Kind: speech.KindWord, Label: label, Own: true}
	}
	needs := []speech.Need{
		own("what", ""), own("name", "what"), own("read_as", "opening"), own("points", ""), own("opening_name", ""), own("remake", ""), useNeed,
		{Name: "wide_mm", Kind: measure.KindLength, Label: "width", Min: 5, Max: 149, Own: true}, {Name: "bow_width_mm", Kind: measure.KindLength, Label: "bow wide", Min: 8, Max: 400, Own: true},
		size("width_mm", "width", 150, 4000, "# wide|width|across|broad", "width of|is|:|=? #", "shelves|shelf of|at|are|each? # wide|long", "# long|wide shelves|shelf"),
		size("height_mm", "height", 150, 4000, "# high|tall|height", "height of|is|:|=? #", "ends|sides|end # high|tall"),
		size("length_mm", "length", 100, 4000, "# =long|length", "length of|is|:|=? #"),
		size("depth_mm", "depth", 30, 1200, "# deep|depth", "depth of|is|to|:|=? #", "shelves|shelf # deep"),
	}
	needs = append(needs, openingNeeds(size)...)
	needs = append(needs, frameNeeds(size)...)
	needs = append(needs, rackNeeds(size, count)...)
	needs = append(needs,
		count("boards", "boards", 40),
		speech.Need{Name: "heights_mm", Kind: measure.KindLength, Label: "heights", Own: true},
		speech.Need{Name: "bevel_deg", Kind: measure.KindAngle, Label: "bevel", Min: 1, Max: 60, Roles: []string{"bevel|bevels|bevelled of|at|to|is? #", "# degrees|degree? bevel"}},
		size("top_gap_mm", "room above", 0.5, 60, "# at the top =only|free|clear", "# room above|at the top", "room above of|is? #"),
		size("trim_mm", "trim", 5, 600, "trim|trims|architrave|casing|surround of|at|is? # wide?", "# wide|mm? trim|trims|architrave|casing"),
		size("top_trim_mm", "top trim", 5, 600, "top|head trim|piece of|at|is? # wide?", "# top|head trim"),
		size("low_trim_mm", "bottom trim", 5, 600, "bottom|sill trim|piece of|at|is? # wide?"),
		size("side_trim_mm", "side trims", 5, 600, "side|sides|leg|legs trim|trims|piece|pieces of|at|are? # wide?"),
		size("reveal_mm", "reveal", 0.5, 100, "# reveal|reveals|setback", "reveal of|is|:|=|to? #"),
		size("span_mm", "span", 100, 8000, "# span|spanning|chord", "span|spans|spanning of|is|over|:|=? #"),
		size("rise_mm", "rise", 5, 3000, "# rise|rising", "rise|rises|rising of|is|by|:|=? #"),
		size("slat_mm", "slats", 8, 300, "slats|slat of|at|are|to? # wide?", "# wide|mm slats|slat"),
		count("slats", "slats", 200), count("bearers", "bearers", 40), count("bows", "bows", 100),
		size("gap_mm", "gaps", 1, 200, "gaps|gap|spaces of|at|are|to? #", "# gaps|gap|apart|spaces"),
		size("bearer_mm", "bearers wide", 8, 300, "bearers|bearer of|at|are? # wide"),
		size("bearer_deep_mm", "bearers thick", 6, 200, "bearers|bearer of|at|are? # thick|deep"),
	)
	for _, m := range []struct {
		name, label string
		roles       []string
	}{{"mc_from_pct", "fitted at", []string{"fitted|moisture|mc at|of|is? a|moisture? of? #"}}, {"mc_to_pct", "dampest", []string{"dampest|wettest at|of|is? #", "to|up to #percent"}}, {"mc_dry_pct", "driest", []string{"driest at|of|is? #"}}} {
		needs = append(needs, speech.Need{Name: m.name, Kind: measure.KindPercent, Label: m.label, Min: 4, Max: 30, Roles: m.roles})
	}
	return append(needs, own("joint", "joint"), own("hold", "ends"), own("corners", "corners"), own("three_sides", ""), own("no_lip", "lip"), own("no_back", "back rail"), own("in_all", "items"), own("width_is", ""), own("panel", "panel"),
		speech.Need{Name: "species", Kind: speech.KindWord, Label: "timber", Vocab: speciesWords})
}

type sizeNeed func(name, label string, low, high float64, roles ...string) speech.Need

func openingNeeds(size sizeNeed) []speech.Need {
	side := func(name, label, at string) speech.Need {
		return size(name, label, 150, 4000, "# at|along|across|on|up|down|for the? "+at, at+" side|jamb|edge|post? is|of|:|=? #", "the? "+at+" # long|wide|high", "# "+at)
	}
	corner := func(name, label string) speech.Need {
		return speech.Need{Name: name, Kind: measure.KindAngle, Label: label, Min: 60, Max: 120, Own: true}
	}
	return []speech.Need{
		side("top_mm", "top", "top|head"), side("bottom_mm", "bottom", "bottom|sill|foot|base|threshold"), side("left_mm", "left side", "left"), side("right_mm", "right side", "right"),
		size("diagonal_mm", "diagonal", 150, 6000, "diagonal|diagonals|diags of|is|are|:|=|one|from? #", "# diagonal|diagonally"), {Name: "diagonal2_mm", Kind: measure.KindLength, Label: "other diagonal", Min: 150, Max: 6000, Own: true},
		corner("top_left_deg", "top left corner"), corner("top_right_deg", "top right corner"), corner("bottom_left_deg", "bottom left corner"), corner("bottom_right_deg", "bottom right corner"),
		{Name: "diagonal_from", Kind: speech.KindWord, Label: "first diagonal from", Own: true}, {Name: "lean", Kind: speech.KindWord, Label: "leaning", Own: true}, {Name: "corner_side", Kind: speech.KindWord, Own: true},
	}
}

func frameNeeds(size sizeNeed) []speech.Need {
	return []speech.Need{
		size("thickness_mm", "thickness", 3, 120, "frame|boards|board|shelves|trim|slats|bow|ends|it|stock of|is|at? # thick", "# thick", "thickness of|is|:|=? #"),
		size("stile_mm", "stiles", 15, 400, "stiles|stile of|at|to|are|is|be|:|=? #", "# wide|mm? stiles|stile"),
		size("rail_mm", "rails", 15, 400, "rails of|at|to|are|is|be|:|=? #", "# wide|mm? rails"),
		size("bottom_rail_mm", "bottom rail", 15, 600, "bottom rail|rails of|at|to|are|is|:|=? # wide?"),
		size("tenon_mm", "tenons", 3, 200, "tenons|tenon of|at|to|are|is|:|=? # long?", "# long|mm|stub? tenons|tenon", "stub tenons|tenon of|at|to|are|is|:|=? #"),
		size("groove_mm", "groove", 3, 60, "groove|grooves of|at|to|are|is|:|=? # deep?", "# deep|mm? groove|grooves"),
		size("clearance_mm", "clearance", 0.5, 30, "clearance|clearances|play of|at|to|is|:|=? # all?", "clearance all round of|is? #", "# clearance|clearances|play all? round?", "# gap all round"),
		size("lap_mm", "rebate", 3, 60, "rebate|rebates|lap|overlap of|at|to|is|:|=? #", "# rebate|rebates|lap|overlap", "rebate between .. #"),
		size("split_mm", "split at", 200, 3000, "split|divided|parted|halved at|=up? #", "lower|bottom leaf|half|door is|of? # high", "# high lower|bottom leaf|half"),
		size("panel_mm", "panel thick", 1, 60, "panel|panels of|is|at? # thick?", "# thick|mm? panel|panels|ply|plywood|acrylic"),
	}
}

func rackNeeds(size sizeNeed, count func(name, label string, most float64, roles ...string) speech.Need) []speech.Need {
	return []speech.Need{
		count("shelves", "shelves", 30), count("items", "items", 300),
		size("item_mm", "item wide", 10, 600), size("item_height_mm", "item high", 20, 800),
		size("lip_mm", "lip", 4, 300, "lip|lips of|at|to|is|:|=? # high?", "# high|mm? lip|lips"),
		size("back_mm", "back rail", 10, 400, "back rail of|at|to|is|:|=? # high?", "# back rail"),
		size("housing_mm", "let in", 2, 40, "let|housed|set in|into # deep|mm?", "housings|dados|housing|dado of|:|=? # deep", "# deep|mm? housings|housing|dados|dado|trenches", "let|housed|set # in|into"),
	}
}
