package joinery

import (
	"fmt"
	"math"
	"slices"

	"fettle/calc/bounds"
	"fettle/calc/evidence"
	"fettle/calc/expand"
	"fettle/calc/wood"
)

// What a panel is of.
const (
	SolidWood = "solid wood"
	Plywood   = "plywood"
	Acrylic   = "acrylic"
	Glass     = "glass"
)

// Climate is the moisture that wood goes through, in per cent; 0 takes the assumed figures.
type Climate struct {
	FromPct float64 // when it is fitted
	WetPct  float64 // at its dampest
	DryPct  float64 // at its driest
}

// The assumed climate of a door or a board on the weather side. EN 942 has 12 to 19 % for external
// joinery and 9 to 13 % for rooms heated to 12 to 21 °C, both from memory.
func assumedFrom() evidence.Figure { return evidence.Habit(12) }
func assumedWet() evidence.Figure {
	return evidence.Recalled("EN 942, external joinery 12 to 19 %", 19)
}
func assumedDry() evidence.Figure {
	return evidence.Recalled("EN 942, heated 12 to 21 °C: 9 to 13 %", 9)
}

// anyWood is the change of a width for a per cent of moisture where the timber is not known: 0.25
// % by European size standards for softwood (seen). Dense hardwood moves more.
func anyWood() evidence.Figure {
	return evidence.SeenIn("European size standards, any softwood: 0.25 % of the width for 1 % of moisture", 0.0025)
}

// Temperatures that a pane sees in a small building or a van, in °C: common practice, no source.
const (
	paneFitC, paneColdC, paneHotC = 15, -10, 50
)

// Room round a panel that neither swells nor grows much, in mm at each edge.
func fitRoom() evidence.Figure   { return evidence.Habit(1) }
func glassRoom() evidence.Figure { return evidence.Habit(3) } // for the setting blocks

// leastHold is how deep a panel should still sit at its smallest, in mm: common practice, no source.
const leastHold = 4

// room is what a panel is smaller than the ground of its grooves, in mm at each edge, and how deep
// each edge sits at the least.
type room struct {
	across, along         float64
	holdAcross, holdAlong float64
}

func (m *Made) climate(c Climate) Climate {
	pct := func(said float64, need, name, change string, f evidence.Figure) float64 {
		if said > 0 {
			return said
		}
		m.Assumptions = append(m.Assumptions, Assumption{Need: need, Name: name, Figure: f,
			Text: bounds.Number(f.Value) + " %", Change: fmt.Sprintf(change, bounds.Number(f.Value))})
		return f.Value
	}
	c.FromPct = pct(c.FromPct, "mc_from_pct", "fitted at a moisture of", "fitted at %s %%", assumedFrom())
	c.WetPct = pct(c.WetPct, "mc_to_pct", "dampest", "dampest %s %%", assumedWet())
	c.DryPct = pct(c.DryPct, "mc_dry_pct", "driest", "driest %s %%", assumedDry())
	return c
}

// swells gives by how much a width of solid wood grows to its dampest and shrinks to its driest,
// both above 0, with the larger movement of what the timber's name may mean.
func (m *Made) swells(widthMM float64, timber wood.Species, c Climate) (grow, shrink float64, err error) {
	if len(timber.Rows) == 0 {
		f := anyWood()
		m.because(fmt.Sprintf("The timber was not said: %s × 0.25 %% × %s = %s of swelling (%s).", m.words.size(widthMM),
			bounds.Number(c.WetPct-c.FromPct), m.words.fine(widthMM*f.Value*(c.WetPct-c.FromPct)), f.Source))
		return widthMM * f.Value * max(0, c.WetPct-c.FromPct), widthMM * f.Value * max(0, c.FromPct-c.DryPct), nil
	}
	wet, err := timber.Movement(wood.Moving{WidthMM: widthMM, FromPct: c.FromPct, ToPct: c.WetPct, Grain: wood.UnknownGrain})
	if err != nil {
		return 0, 0, err
	}
	dry, err := timber.Movement(wood.Moving{WidthMM: widthMM, FromPct: c.FromPct, ToPct: c.DryPct, Grain: wood.UnknownGrain})
	if err != nil {
		return 0, 0, err
	}
	m.because(fmt.Sprintf("%s of %s from %s to %s %%: %s more; to %s %%: %s less (flat-sawn, the larger of the published figures).", m.words.size(widthMM), timber.Name,
		bounds.Number(c.FromPct), bounds.Number(c.WetPct), m.words.fine(wet.Larger.MM), bounds.Number(c.DryPct), m.words.fine(-dry.Larger.MM)))
	return max(0, wet.Larger.MM), max(0, -dry.Larger.MM), nil
}

func (m *Made) because(line string) {
	if !slices.Contains(m.Why, line) {
		m.Why = append(m.Why, line)
	}
}

func (m *Made) caution(text string) {
	if !slices.Contains(m.Cautions, text) {
		m.Cautions = append(m.Cautions, text)
	}
}

// panelRoom works out the room of a panel between grooves that are so far apart at their ground.
func (m *Made) panelRoom(of string, timber wood.Species, c Climate, acrossMM, alongMM, grooveMM float64) (room, error) {
	r := room{across: fitRoom().Value, along: fitRoom().Value}
	shrinkAcross, shrinkAlong := 0.0, 0.0
	switch of {
	case SolidWood:
		grow, shrink, err := m.swells(acrossMM, timber, c)
		if err != nil {
			return room{}, err
		}
		r.across, shrinkAcross = math.Max(r.across, grow/2), shrink/2
	case Glass:
		r.across, r.along = glassRoom().Value, glassRoom().Value
	case Acrylic:
		material, _ := expand.Find("acrylic")
		for _, s := range []struct{ length, gap, shrink *float64 }{{&acrossMM, &r.across, &shrinkAcross}, {&alongMM, &r.along, &shrinkAlong}} {
			got, err := material.Room(expand.Pane{LengthMM: *s.length, FitC: paneFitC, ColdestC: paneColdC, HottestC: paneHotC, Damp: true})
			if err != nil {
				return room{}, err
			}
			*s.gap, *s.shrink = math.Max(fitRoom().Value, got.GapEachMM), got.CoverEachMM
		}
		m.because(fmt.Sprintf("Acrylic %s × %s, fitted at %d °C, %d to %d °C and damp: %s and %s of room at each edge (two tables of expansion and a sheet maker, read there; the temperatures are common practice).",
			m.words.number(acrossMM), m.words.size(alongMM), paneFitC, paneColdC, paneHotC, m.words.fine(r.across), m.words.fine(r.along)))
	}
	r.holdAcross, r.holdAlong = grooveMM-r.across-shrinkAcross, grooveMM-r.along-shrinkAlong
	if hold := min(r.holdAcross, r.holdAlong); hold < 0.5 {
		return room{}, fmt.Errorf("a panel of %s %s wide needs more room than a groove %s deep has: it would fall out when dry; say a deeper groove, plywood, or a pair",
			of, m.words.size(acrossMM), m.words.size(grooveMM))
	} else if hold < leastHold {
		m.note(fmt.Sprintf("At its smallest the panel still sits %s in its groove; a deeper groove or two boards with a bar between is safer.", m.words.size(hold)))
	}
	return r, nil
}

func (m *Made) panelCaution(of string) {
	switch of {
	case Glass:
		m.caution("Glass in doors and low windows is safety glazing: the local code says which; have a glazier order it.")
	case Acrylic:
		m.caution("Acrylic burns and grows: keep it away from stove and flue, never fix it tight.")
	}
}
