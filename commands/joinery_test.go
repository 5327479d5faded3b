package commands_test

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"fettle/bot/accuracy/phrases"
	"fettle/calc/joinery"
	"fettle/calc/measure"
	"fettle/calc/sketch"
	"fettle/commands"
	"fettle/commands/book"
	"fettle/store"
)

// written gives what an answer wrote, one object a thing, by its name.
func written(a phrases.Answer, what string) map[string]map[string]any {
	out := map[string]map[string]any{}
	for _, c := range a.Changes {
		if c["what"] == what {
			out[c["name"].(string)] = c
		}
	}
	return out
}

func number(t *testing.T, part map[string]any, field string) float64 {
	t.Helper()
	v, ok := part[field].(float64)
	if !ok {
		t.Fatalf("%s of %v is no number", field, part)
	}
	return v
}

func within(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 0.1 {
		t.Errorf("%s is %v, want %v", what, got, want)
	}
}

// The parts of a square door, as they are written to the book, give the opening back less the
// clearance: 2 stiles and the rail between its shoulders across, a stile up.
func TestJoineryDoorIsWrittenAndCloses(t *testing.T) {
	got := petra(t, "door for an opening 700 wide 1900 high, oak, stiles 80, tenons 30, clearance 4, plywood panel")[0]
	parts := written(got, "part")
	stile, rail, panel := parts["stile"], parts["top rail"], parts["panel"]
	if stile == nil || rail == nil || panel == nil || len(parts) != 4 {
		t.Fatalf("%v", parts)
	}
	within(t, "the leaf's width", 2*number(t, stile, "width_mm")+number(t, rail, "length_mm")-2*30, 700-2*4)
	within(t, "a stile", number(t, stile, "length_mm"), 1900-2*4)
	if number(t, stile, "quantity") != 2 || stile["species"] != "oak" || panel["species"] != "plywood" || stile["group"] != "door" || stile["from"] != "door" {
		t.Errorf("%v %v", stile, panel)
	}
}

// A sentence changes an assumption, and with it the parts that were written, whoever says it. The
// corner of 88° stays; the rails' shoulders are as much shorter as the stiles are wider.
func TestJoineryAssumptionsAreChangedBySentences(t *testing.T) {
	said := []string{"a stable door for an opening 812 wide 1760 high, top corner 88, sapele", "stiles 70", "make the clearance 4", "tenons 30", "plywood panel", "split at 900", "rough size for 600 by 45", "stiles 75", "scratch that"}
	got := petra(t, said...)
	first, second := written(got[0], "part")["lower bottom rail"], written(got[1], "part")["lower bottom rail"]
	if first["op"] != "add" || second["op"] != "change" {
		t.Fatalf("%v\n%v", first, second)
	}
	lean := 2 * math.Pi / 180
	within(t, "a rail between wider stiles", number(t, second, "length_mm")-number(t, first, "length_mm"), 2*25/math.Cos(lean))
	within(t, "its end", number(t, first, "left_deg"), 88)
	third := written(got[2], "part")["lower bottom rail"]
	within(t, "a rail with more clearance", number(t, third, "length_mm")-number(t, second, "length_mm"), -2*1/math.Cos(lean))
	if p := written(got[4], "part"); len(p) != 2 || p["lower panel"]["species"] != "plywood" {
		t.Errorf("%q changes %v", said[4], got[4].Changes)
	}
	for i, need := range map[int]string{1: "stile_mm", 2: "clearance_mm", 3: "tenon_mm", 5: "split_mm", 7: "stile_mm"} {
		if got[i].Topic != "joinery" || got[i].Question != "" || got[i].Given[need] == nil || got[i].Given["width_mm"] != 812.0 {
			t.Errorf("%q: %s, %v %s", said[i], got[i].Topic, got[i].Given, got[i].Question)
		}
	}
	if got[8].Topic != "undo" || written(got[8], "part")["lower stile"]["op"] != "change" {
		t.Errorf("%v", got[8].Changes)
	}
}

// Every assumption of an answer is said, and the answer names no figure as sourced that has none.
func TestJoinerySaysWhatItAssumed(t *testing.T) {
	for text, holds := range map[string][]string{
		"a stable door for an opening 812 wide 1760 high, top corner 88": {"Assumed: ", "stiles 95 mm", "tenons 25 mm", "clearance all round 3 mm", "split at 880 mm", "on the right", "both sides lean alike", "Read the sizes back"},
		"four drop boards for an opening 620 wide 800 high, larch":       {"bevelled", "grooves deep 12 mm", "dampest 19 %", "room for swelling"},
		"a rack, two shelves 830 wide, for nine mugs 84 wide":            {"9 on each shelf", "lip high 30 mm", "gaps of 7.4 mm", "Screws through each end"},
		"pair of doors for an opening 1000 wide 1200 high, glass panels": {"rebate between the leaves", "safety glazing", "local code"},
		"bow 1200 span 80 rise":                                    {"Span and rise are taken as the inner face's", "bow thick 30 mm", "form"},
		"slatted top 600 by 400, slats 45, gaps 6":                 {"8 × slat 600 × 45 × 20 mm", "Gaps of 5.7 mm", "3 × bearer"},
		"trim 60 wide round an opening 610 by 455 with a 5 reveal": {"corners mitred", "long edge 740", "short edge 620", "45°"},
		"three washboards for the companionway, 560 by 500":        {"ISO 12216"},
	} {
		got := petra(t, text)[0]
		for _, h := range holds {
			if !strings.Contains(got.Text, h) {
				t.Errorf("%q: no %q in\n%s", text, h, got.Text)
			}
		}
		if got.Topic != "joinery" || got.Question != "" || len(got.Values) < 2 || len(got.Changes) < 1 {
			t.Errorf("%q: %s %s %v", text, got.Topic, got.Question, got.Changes)
		}
	}
}

// Ways of asking, with what must be understood of them.
func TestJoineryIsUnderstood(t *testing.T) {
	answered(t, "joinery", []request{
		{text: "stable door, opening 764 x 1712, oak", given: map[string]any{"what": "stable door", "width_mm": 764, "height_mm": 1712, "species": "oak"}},
		{text: "barn door in two halves, 800 by 1850, split at 1000", given: map[string]any{"what": "stable door", "split_mm": 1000}},
		{text: "I need a panelled door, opening is 690 x 1800", given: map[string]any{"what": "door", "height_mm": 1800}},
		{text: "two leaf door for opening 1200 by 1500, acrylic panels, tenons 30", given: map[string]any{"what": "pair of doors", "panel": "acrylic", "tenon_mm": 30}},
		{text: "door 700x1900 oak stiles 80 bottom rail 150 glass panel", given: map[string]any{"stile_mm": 80, "bottom_rail_mm": 150, "panel": "glass"}},
		{text: "door for an opening 700 wide 1800 high, diagonals 1935 and 1928", given: map[string]any{"diagonal_mm": 1935, "diagonal2_mm": 1928}},
		{text: "make me a door: bottom 800, top 790, left 1700, right 1705, diagonal 1878", given: map[string]any{"bottom_mm": 800, "top_mm": 790, "left_mm": 1700, "right_mm": 1705, "diagonal_mm": 1878}},
		{text: "stable door 32 inches wide 70 inches high", given: map[string]any{"width_mm": 812.8, "height_mm": 1778}, says: []string{"32 × 70 in"}},
		{text: "cupboard door 400 by 600, ply panel, top left corner 89", given: map[string]any{"name": "cupboard door", "top_left_deg": 89, "panel": "plywood"}},
		{text: "drop boards three of them, opening 580 wide 690 high, in larch, between cleats", given: map[string]any{"boards": 3, "hold": "cleats", "species": "larch"}},
		{text: "four drop boards in a tapered opening, 620 at the bottom, 700 at the top, 800 high", given: map[string]any{"boards": 4, "bottom_mm": 620, "top_mm": 700, "height_mm": 800}},
		{text: "drop boards, opening 600 by 750, heights 200, 200 and the rest, rebated", given: map[string]any{"boards": 3, "joint": "rebated"}},
		{text: "a spice rack 400 wide 600 high 80 deep with 4 shelves", given: map[string]any{"name": "spice rack", "shelves": 4, "depth_mm": 80}},
		{text: "rack for 12 jars of 70 diameter, 3 shelves, 120 high jars, no lip", given: map[string]any{"items": 12, "item_mm": 70, "item_height_mm": 120, "no_lip": "no lip"}},
		{text: "mug rack for 6 mugs 90 wide", given: map[string]any{"items": 6, "item_mm": 90}},
		{text: "trim for the door opening: sides 60, top 90, opening 812 x 1760, butted", given: map[string]any{"side_trim_mm": 60, "top_trim_mm": 90, "corners": "butted", "width_mm": 812}},
		{text: "architrave round the doorway 812 x 1980, three sides, 70 wide, butted", given: map[string]any{"trim_mm": 70, "three_sides": "yes", "height_mm": 1980}},
		{text: "trim round the window 24 x 18 inches, 2 1/2 wide", given: map[string]any{"width_mm": 609.6, "height_mm": 457.2, "trim_mm": 63.5}},
		{text: "laminated bow, 1.8 m span, rise 200, ash, 40 thick", given: map[string]any{"span_mm": 1800, "rise_mm": 200, "thickness_mm": 40}},
		{text: "2 bows 1200 span 80 rise 45 wide", given: map[string]any{"bows": 2, "bow_width_mm": 45}},
		{text: "slatted table top 900 x 600", given: map[string]any{"length_mm": 900, "width_mm": 600}},
		{text: "bench top: 7 slats 1150 x 58 x 20 larch on 3 bearers 420 x 45 x 32", given: map[string]any{"slats": 7, "slat_mm": 58, "bearers": 3, "width_mm": 420}, says: []string{"Gaps of 2.3 mm"}},
	})
	askedBack(t, "joinery",
		"I want a stable door", "stable door, opening 76 wide and 171 high", "four drop boards", "a rack with two shelves", "bow over a span of 1200", "door for an opening 700 wide 1800 high, diagonals 1935 and 2400",
		"rack, one shelf 860 wide, for 9 mugs 130 wide", "drop boards, opening 600 by 750, heights 200, 200, 200, rebated", "stiles 70", "door for an opening 812 wide 1760 high, top corner 40 degrees",
		"stable door for an opening 812 wide and 1760 high, split at 1700", "door for an opening 300 by 1800, stiles 150")
}

// "Round it" is the last opening; "that opening" is as it was measured or made for; a wish without
// either is asked about.
func TestJoineryOfAnOpeningTalkedOf(t *testing.T) {
	got := petra(t, "door for an opening 700 wide 1800 high, top corner 89", "trim 60 wide round it with a 5 reveal", "and 70 wide", "four drop boards", "600 by 700", "stiles 80", "what about 5 boards")
	if got[1].Given["width_mm"] != 700.0 || got[1].Given["top_right_deg"] != 89.0 || !strings.Contains(got[1].Text, "the opening of the door") {
		t.Errorf("%v\n%s", got[1].Given, got[1].Text)
	}
	if got[2].Given["trim_mm"] != 70.0 || written(got[2], "part")["side trim"]["op"] != "change" {
		t.Errorf("%v %v", got[2].Given, got[2].Changes)
	}
	if got[3].Question == "" || got[4].Given["boards"] != 4.0 || got[4].Question != "" {
		t.Errorf("%s / %v", got[3].Answer, got[4])
	}
	if written(got[5], "part")["stile"]["op"] != "change" {
		t.Errorf("stiles are the door's: %v", got[5].Changes)
	}
	if got[6].Given["what"] != "drop boards" || got[6].Given["boards"] != 5.0 {
		t.Errorf("boards are the drop boards': %v", got[6].Given)
	}
}

// A request of the same name replaces, and says so; the parts that it no longer has go. Another name
// keeps both, and parts of one name are told apart by the name of their group.
func TestJoineryReplacesByName(t *testing.T) {
	got := petra(t, "trim 60 wide round an opening 610 by 455, mitred", "trim 60 wide round an opening 620 by 455, three sides", "cupboard door 400 by 600, call it left locker", "cupboard door 450 by 600, call it right locker", "scratch that")
	if !strings.Contains(got[1].Text, "replaces the trim") || written(got[1], "part")["bottom trim"]["op"] != "remove" {
		t.Errorf("%s\n%v", got[1].Text, got[1].Changes)
	}
	right := written(got[3], "part")
	if right["right locker stile"] == nil || right["right locker stile"]["op"] != "add" || slices.ContainsFunc(got[3].Changes, func(c map[string]any) bool { return c["op"] != "add" }) {
		t.Errorf("%v", got[3].Changes)
	}
	if len(written(got[4], "part")) != len(right) {
		t.Errorf("undo takes back %v", got[4].Changes)
	}
}

// What was made is kept exactly: the book's sizes are numbers that read back.
func TestJoineryChangesAreNumbers(t *testing.T) {
	for _, c := range petra(t, "slatted top 600 by 400, slats 45, gaps 6")[0].Changes {
		if _, err := json.Marshal(c); err != nil || c["what"] == "part" && number(t, c, "length_mm") < 100 {
			t.Errorf("%v: %v", c, err)
		}
	}
}

// When a measure changes, the parts are made again from what was kept: an opening 10 narrower makes
// the rails 10 shorter and leaves the stiles, by the names that they have in the book.
func TestJoineryIsMadeAgain(t *testing.T) {
	db, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "again.db"), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	err = db.Write(context.Background(), func(tx *store.Tx) error {
		project, err := tx.Project("hut")
		if err != nil {
			return err
		}
		said := say(t, tx, "door for an opening 700 wide 1900 high, oak")
		if len(said.Drawings) != 1 || said.Drawings[0].Width != sketch.PhoneWidth || said.Drawings[0].Name != "door" {
			t.Errorf("drawings: %+v", said.Drawings)
		}
		was, err := book.Parts(tx, project.ID)
		if err != nil {
			return err
		}
		is, ok, err := commands.Remade(tx, project, "door", map[string]float64{"width_mm": 690})
		if err != nil || !ok || len(is) != len(was) || len(is) != 4 {
			t.Fatalf("%v %v: %v, were %v", ok, err, is, was)
		}
		for i, p := range is {
			want := 0.0
			if strings.HasSuffix(p.Name, "rail") {
				want = 10
			}
			if p.Name != was[i].Name {
				t.Errorf("%s was %s", p.Name, was[i].Name)
			}
			within(t, p.Name+" shorter by", was[i].Is.Length.MM()-p.Is.Length.MM(), want)
		}
		if _, ok, err := commands.Remade(tx, project, "rack", nil); ok || err != nil {
			t.Errorf("no rack was made, and yet: %v %v", ok, err)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// In inches an assumption is changed by the sentence that names it, too.
func TestJoineryAssumptionsInInches(t *testing.T) {
	w := joinery.Words{Out: measure.Imperial}
	door := joinery.Opening{Words: w, WidthMM: 32 * 25.4, HeightMM: 70 * 25.4}
	for text, of := range map[string]interface{ Make() (joinery.Made, error) }{
		"a stable door for an opening 32 wide 70 high": joinery.Door{Words: w, Opening: door, Style: joinery.StableDoor},
		"drop boards for an opening 32 wide 70 high":   joinery.DropBoards{Words: w, Opening: door},
		"trim round an opening 32 wide 70 high":        joinery.Trim{Words: w, Opening: door},
		"slatted top 24 by 16":                         joinery.SlatTop{Words: w, LengthMM: 24 * 25.4, WidthMM: 16 * 25.4},
	} {
		m, err := of.Make()
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range m.Assumptions {
			got := petra(t, "we work in inches", text, a.Change)
			if c := got[2]; c.Topic != "joinery" || c.Question != "" || c.Given["what"] != got[1].Given["what"] || !strings.Contains(got[1].Text, a.Name+" "+a.Text) {
				t.Errorf("%q, then %q for %s: %s %q %v", text, a.Change, a.Need, c.Topic, c.Question, c.Given)
			}
		}
	}
}

// Every assumption can be changed by the sentence that the calculation names for it: it is heard as
// a change of that need in the thing that was made, and asks nothing back.
func TestJoineryEveryAssumptionCanBeChanged(t *testing.T) {
	door := joinery.Opening{WidthMM: 812, HeightMM: 1760}
	for text, of := range map[string]interface{ Make() (joinery.Made, error) }{
		"a stable door for an opening 812 wide 1760 high":        joinery.Door{Opening: door, Style: joinery.StableDoor},
		"pair of doors for an opening 812 wide 1760 high":        joinery.Door{Opening: door, Style: joinery.PairDoor},
		"make a pair of doors for an opening 812 wide 1760 high": joinery.Door{Opening: door, Style: joinery.PairDoor},
		"drop boards for an opening 812 wide 1760 high":          joinery.DropBoards{Opening: door},
		"drop boards for an opening 812 wide 1760 high, rebated": joinery.DropBoards{Opening: door, Joint: joinery.Rebated},
		"trim round an opening 812 wide 1760 high":               joinery.Trim{Opening: door},
		"a mug rack 830 wide for nine mugs 84 wide":              joinery.Rack{WidthMM: 830, Items: 9, ItemMM: 84},
		"a mug rack for nine mugs 84 wide":                       joinery.Rack{Items: 9, ItemMM: 84},
		"bow 1200 span 80 rise":                                  joinery.Bow{SpanMM: 1200, RiseMM: 80},
		"slatted top 600 by 400":                                 joinery.SlatTop{LengthMM: 600, WidthMM: 400},
	} {
		m, err := of.Make()
		if err != nil {
			t.Fatal(err)
		}
		for _, a := range m.Assumptions {
			got := petra(t, text, a.Change)
			if got[0].Question != "" || !strings.Contains(got[0].Text, a.Name+" "+a.Text) {
				t.Errorf("%q does not say that it assumed %s %s:\n%s", text, a.Name, a.Text, got[0].Text)
			}
			need := map[string]string{"heights": "heights_mm", "items_in_all": "in_all"}[a.Need]
			if need == "" {
				need = a.Need
			}
			if c := got[1]; c.Topic != "joinery" || c.Question != "" || c.Given[need] == nil || c.Given["what"] != got[0].Given["what"] {
				t.Errorf("%q, then %q for %s: %s %q %v", text, a.Change, a.Need, c.Topic, c.Question, c.Given)
			}
		}
	}
}

// The parts of a door in a racked opening, put together from what stands in the book alone, are the
// opening less the clearance, for openings at random: along the bottom a stile's cut, the rail between
// its shoulders and the other stile's cut, and up the side the stile.
func TestJoineryBookCloses(t *testing.T) {
	for seed := range 12 {
		draw := func(low, high int) int { return rapid.IntRange(low, high).Example(seed*high + low) }
		w, h, tenths, clear, tenon := draw(500, 900), draw(1300, 2100), draw(870, 930), draw(1, 6), draw(15, 40)
		got := petra(t, fmt.Sprintf("door for an opening %d wide %d high, top right corner %d.%d degrees, stiles 90, tenons %d, clearance %d, plywood panel", w, h, tenths/10, tenths%10, tenon, clear))[0]
		parts := written(got, "part")
		stile, rail := parts["stile"], parts["bottom rail"]
		if stile == nil || rail == nil {
			t.Fatalf("%s %v", got.Text, got.Changes)
		}
		corner := float64(tenths) / 10 * math.Pi / 180
		cot := 1 / math.Tan(corner)
		// A rail's two ends are parallel: its edge is its length less the lean over its width, and its
		// tenons are measured square off the shoulders.
		edge := number(t, rail, "length_mm") - number(t, rail, "width_mm")*math.Abs(cot) - 2*float64(tenon)/math.Sin(corner)
		bottom := edge + 2*90/math.Sin(corner)
		side := number(t, stile, "length_mm") - 90*math.Abs(cot)
		within(t, "bottom of the leaf", bottom, float64(w)-2*float64(clear)/math.Sin(corner))
		within(t, "side of the leaf", side, float64(h)-2*float64(clear)/math.Sin(corner))
		if tenths != 900 {
			within(t, "an end in the book", math.Abs(number(t, stile, "left_deg")-90), math.Abs(float64(tenths)/10-90))
		}
	}
}
