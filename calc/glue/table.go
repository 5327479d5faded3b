package glue

import "fettle/calc/evidence"

// Where the figures of the table come from.
const (
	characteristics = "table of glue characteristics in a woodworking handbook, republished (woodworkingarchive.biz/biscuit-joiners/glue-characteristics.html)"
	reactive        = "table of reactive synthetic glues (diydata.com/materials/glues/synthetic_glues.php)"
	nonreactive     = "table of nonreactive synthetic glues (diydata.com/materials/glues/synthetic_glues_2.php)"
	natural         = "table of natural glues (diydata.com/materials/glues/natural_glues.php)"
	coldPVA         = "note on glue and temperature: white PVA about 55 °F (renovateyourworld.com/2017/01/01/glue-temperature)"
	resinWarm       = "woodworking magazine, October 2009: resin glues at 72 °F or more, up to 12 h in clamps (zhurnalko.net)"
	aircraft        = "FAA AC 43.13-1B paragraph 1-10 (landseaskyspace.com/ac4313/1-10.html)"
	aircraftCold    = "aircraft repair text after FAA AC 43.13-1B: no assembly or curing of resorcinol below 70 °F"
	extension       = "university extension columnist (woodworkingnetwork.com questions-gluing-and-wood-density)"
	panels          = "panel-making note (plywoodinspection.com)"
	sheets          = "general run of data sheets"
	handbook        = "USDA Wood Handbook (2010), chapter 10"
)

const hour, day = 60.0, 24 * 60.0

// Table is the families that are known, in the order in which help lists them. Where
// published figures spread, the cautious end is taken: the shortest open time and the
// longest clamp time.
func Table() []Glue {
	return []Glue{
		pva("pva", "PVA", []string{"Which PVA was not said: some need 13 °C, and only D3 or D4 stands damp. Look at the bottle."}),
		pva("pva d3", "PVA (D3)", []string{"D3 is for indoors and sheltered places, not for weather (EN 204). Its water resistance takes about 7 days to build up."}),
		pva("pva d4", "PVA (D4)", []string{"D4 stands weather only under a sound finish (EN 204). Its water resistance takes about 7 days to build up."}),
		polyurethane(), epoxy(), urea(), resorcinol(),
		sealant("polyurethane sealant", "Polyurethane sealant", []string{isocyanate}),
		sealant("ms polymer", "MS-polymer sealant", nil),
		hide(), liquidHide(),
	}
}

const isocyanate = "It holds isocyanate: ventilate, wear gloves, keep it off the skin; not for anyone with asthma."

func pva(id, name string, cautions []string) Glue {
	return Glue{
		ID: id, Name: name, Setting: Drying, AtC: ReferenceC,
		OpenMin:    evidence.SeenIn(characteristics+"; "+nonreactive+" has 5 to 30", 5),
		ClosedMin:  evidence.Habit(5),
		ClampMin:   evidence.SeenIn(nonreactive+": 20 to 90 min", 90),
		WorkMin:    evidence.Habit(day),
		CureMin:    evidence.Habit(day),
		MinC:       evidence.Recalled(sheets+": film forms from 5 to 13 °C; "+coldPVA, 10),
		MaxC:       evidence.Habit(35),
		SpreadGM2:  evidence.Recalled(sheets+": 150 to 200", 180),
		BothGM2:    evidence.SeenIn(panels+": 200 to 250", 225),
		LowMPa:     evidence.Recalled(handbook, 0.7),
		HighMPa:    evidence.Recalled(handbook, 1.7),
		GapMM:      evidence.SeenIn(extension+": 0.002 to 0.006 in", 0.15),
		ColdReason: "it dries to chalk instead of a film and never holds, however long you wait",
		Cautions:   cautions,
	}
}

func polyurethane() Glue {
	return Glue{
		ID: "polyurethane", Name: "One-part polyurethane", Setting: Damp, AtC: ReferenceC,
		OpenMin:    evidence.Recalled(sheets, 15),
		ClosedMin:  evidence.Habit(5),
		ClampMin:   evidence.Recalled(sheets+" for the slow kinds", 4*hour),
		WorkMin:    evidence.Habit(day),
		CureMin:    evidence.Habit(2 * day),
		MinC:       evidence.Recalled(sheets, 10),
		MaxC:       evidence.Habit(35),
		SpreadGM2:  evidence.Recalled(sheets+": 100 to 200", 150),
		BothGM2:    evidence.Recalled(sheets, 200),
		LowMPa:     evidence.Recalled(sheets, 0.6),
		HighMPa:    evidence.Recalled(sheets, 1.2),
		GapMM:      evidence.SeenIn(extension+": 0.009 in", 0.23),
		ColdReason: "it hardly reacts and stays soft",
		Cautions: []string{isocyanate,
			"It needs moisture: in dry air, or on wood below about 8 %, damp one face with a wrung-out cloth."},
	}
}

func epoxy() Glue {
	return Glue{
		ID: "epoxy", Name: "Epoxy", Setting: Reacting, AtC: ReferenceC,
		OpenMin:    evidence.Recalled(sheets+" for a medium hardener; "+reactive+" has 2 min to 2 h", 20),
		ClosedMin:  evidence.Recalled(sheets+" for a medium hardener", 20),
		ClampMin:   evidence.Recalled(sheets+" for a medium hardener; "+reactive+" has up to 48 h", 12*hour),
		WorkMin:    evidence.Recalled(sheets, day),
		CureMin:    evidence.Recalled(sheets, 7*day),
		MinC:       evidence.Recalled(sheets, 10),
		MaxC:       evidence.Habit(35),
		SpreadGM2:  evidence.Recalled(sheets+": 150 to 300", 200),
		BothGM2:    evidence.Recalled(sheets, 300),
		BothFaces:  true,
		LowMPa:     evidence.Recalled("contact only; AC 43.13-1B says much less than resorcinol", 0.05),
		HighMPa:    evidence.Recalled("contact only; AC 43.13-1B says much less than resorcinol", 0.2),
		GapMM:      evidence.SeenIn(extension+": over 0.020 in", 0.5),
		ColdReason: "it stays sticky or sets without its strength",
		Cautions: []string{
			"Resin and hardener sensitise the skin: nitrile gloves, no solvent on hands, no sanding until it is hard.",
			"A full pot overheats: mix small batches and spread them out.",
			"Hardeners differ from minutes to hours: the tin's own times come first.",
		},
	}
}

func urea() Glue {
	return Glue{
		ID: "urea-formaldehyde", Name: "Urea-formaldehyde", Setting: Reacting, AtC: ReferenceC,
		OpenMin:    evidence.SeenIn(characteristics+": 15 with a liquid hardener, 20 as a powder", 15),
		ClosedMin:  evidence.Habit(10),
		ClampMin:   evidence.SeenIn(characteristics+"; "+resinWarm, 12*hour),
		WorkMin:    evidence.Habit(day),
		CureMin:    evidence.Habit(3 * day),
		MinC:       evidence.Habit(15),
		MaxC:       evidence.Habit(35),
		SpreadGM2:  evidence.Recalled(handbook, 200),
		BothGM2:    evidence.Recalled(handbook, 300),
		LowMPa:     evidence.Recalled(handbook, 0.7),
		HighMPa:    evidence.Recalled(handbook, 1.7),
		GapMM:      evidence.SeenIn(characteristics+": poor gap filling as a powder; the figure is practice", 0.15),
		ColdReason: "its water goes into the wood before it has reacted, and the joint dries out weak",
		Cautions:   []string{"It gives off formaldehyde: ventilate; carbide tools and a mask for working it afterwards."},
	}
}

func resorcinol() Glue {
	return Glue{
		ID: "resorcinol", Name: "Resorcinol", Setting: Reacting, AtC: 21,
		OpenMin:    evidence.SeenIn(characteristics, 15),
		ClosedMin:  evidence.Habit(15),
		ClampMin:   evidence.SeenIn(characteristics+" has 10 h; 12 h for the cautious side", 12*hour),
		WorkMin:    evidence.Habit(day),
		CureMin:    evidence.Habit(7 * day),
		MinC:       evidence.SeenIn(aircraftCold, 21),
		MaxC:       evidence.Habit(35),
		SpreadGM2:  evidence.Recalled(handbook, 200),
		BothGM2:    evidence.Recalled(handbook, 340),
		BothFaces:  true,
		LowMPa:     evidence.SeenIn(aircraft+": 125 to 150 psi on softwood", 0.86),
		HighMPa:    evidence.SeenIn(aircraft+": 150 to 200 psi on hardwood", 1.38),
		ColdReason: "it does not reach its strength, and warming it later does not mend that",
		Cautions: []string{"It bridges no gaps: close joints and full pressure.",
			"It holds formaldehyde: ventilate and wear gloves."},
	}
}

func sealant(id, name string, cautions []string) Glue {
	return Glue{
		ID: id, Name: name, Setting: Damp, AtC: ReferenceC,
		OpenMin:    evidence.Recalled(sheets+", time to a skin", 10),
		ClosedMin:  evidence.Habit(5),
		ClampMin:   evidence.Habit(day),
		WorkMin:    evidence.Habit(2 * day),
		CureMin:    evidence.Recalled(sheets+": 2 to 3 mm of depth a day, for a 10 mm bead", 5*day),
		MinC:       evidence.Recalled(sheets, 5),
		MaxC:       evidence.Recalled(sheets, 35),
		SpreadGM2:  evidence.Habit(500),
		BothGM2:    evidence.Habit(700),
		GapMM:      evidence.Habit(10),
		ColdReason: "it hardly cures, and frost or dew on the joint keeps it from sticking",
		Cautions:   append([]string{"It is elastic: for sealing and bedding, not for a joint that carries load."}, cautions...),
	}
}

func hide() Glue {
	return Glue{
		ID: "hide glue", Name: "Hot hide glue", Setting: Cooling, AtC: ReferenceC,
		OpenMin:    evidence.SeenIn(natural+": 1 to 10 min", 1),
		ClosedMin:  evidence.Habit(1),
		ClampMin:   evidence.SeenIn(natural+": 10 to 90 min", 90),
		WorkMin:    evidence.Habit(day),
		CureMin:    evidence.Habit(2 * day),
		MinC:       evidence.Habit(15),
		MaxC:       evidence.Habit(35),
		SpreadGM2:  evidence.Recalled(handbook, 200),
		BothGM2:    evidence.Recalled(handbook, 300),
		LowMPa:     evidence.Recalled(handbook, 0.7),
		HighMPa:    evidence.Recalled(handbook, 1.7),
		GapMM:      evidence.Habit(0.2),
		ColdReason: "it gels before the joint is closed",
		Cautions:   []string{"Warm the wood; the glue itself is used at about 60 °C. It does not stand damp."},
	}
}

func liquidHide() Glue {
	g := hide()
	g.ID, g.Name, g.Setting = "liquid hide glue", "Liquid hide glue", Drying
	g.OpenMin = evidence.SeenIn(characteristics, 10)
	g.ClosedMin = evidence.Habit(10)
	g.ClampMin = evidence.SeenIn(characteristics, 12*hour)
	g.ColdReason = "it thickens and dries without wetting the wood"
	g.Cautions = []string{"It does not stand damp, and damp air makes it slow."}
	return g
}
