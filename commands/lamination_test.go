package commands_test

import (
	"context"
	"encoding/json"
	"path/filepath"
	"testing"
	"time"

	"fettle/store"
)

// The beech bow is the reference's example: 30 thick to 400 through 90° in plies of 3 has 10 of
// them, a form of 396 and an outer face of 675.442 (computed). The spring is R/n².
func TestLamination(t *testing.T) {
	petraSays(t, one(
		exchange{say: "laminate 30 thick to 400 radius in beech through 90 degrees, 3 mm plies", topic: "lamination",
			given: map[string]any{"angle_deg": 90, "ply_mm": 3}, values: map[string]float64{"plies": 10, "ply_mm": 3, "form_radius_mm": 396, "spring_mm": 4, "strip_length_mm": 775.44}},
		exchange{say: "laminate an ash bow 36 thick to 1900 radius", topic: "lamination",
			values: map[string]float64{"plies": 8, "ply_mm": 4.5, "spring_mm": 1900.0 / 64, "ply_limit_mm": 19}, holds: []string{"trial piece", "Say width and length"}},
		exchange{say: "how many plies for 44 thick oak bent to a 1.75 m radius", topic: "lamination", given: map[string]any{"thickness_mm": 44, "radius_mm": 1750}},
		exchange{say: "bow 36 thick, larch, radius 600, laminated: how thin the strips", topic: "lamination", values: map[string]float64{"ply_limit_mm": 4.8, "plies": 8}},
		exchange{say: "laminated bow 40 thick radius 600 in sapele, how many plies", topic: "lamination", values: map[string]float64{"ply_limit_mm": 4.8, "plies": 9}},
		exchange{say: "1 1/2 inch thick bow in oak on a 6 foot radius, laminated, what springback", topic: "lamination", given: map[string]any{"thickness_mm": 38.1, "radius_mm": 1828.8}, holds: []string{" in"}},
		exchange{say: "8 plies of 5 mm to a 1500 radius, spring back?", topic: "lamination", given: map[string]any{"thickness_mm": 40}, values: map[string]float64{"plies": 8}},
		exchange{say: "can I bend 12 mm ash plies to 900 radius, bow 36 thick", topic: "lamination", holds: []string{"too thick for this bend"}},
		exchange{say: "laminate 2 bows 36 thick 45 wide in ash, radius 1900, 2.3 m round the curve, kerf 2.5, epoxy at 15 degrees", topic: "lamination",
			given:  map[string]any{"quantity": 2, "width_mm": 45, "length_mm": 2300, "kerf_mm": 2.5, "adhesive": "epoxy", "temperature_c": 15},
			values: map[string]float64{"strips": 18, "strip_width_mm": 51, "strip_thickness_mm": 6, "strip_length_mm": 2400, "board_width_mm": 18*6 + 17*2.5, "area_m2": 2 * 7 * 2.4 * 0.051},
			holds:  []string{"clamps round the form", "min at 15 °C"}},
		exchange{say: "how thin must the strips for the roof bows", topic: "lamination", asks: true},
		exchange{say: "laminate a bow 36 thick in ash, how many plies", topic: "lamination", asks: true, holds: []string{"radius"}},
		exchange{say: "laminated roof bow 3.6 thick to 190 radius, ash", topic: "lamination", asks: true, holds: []string{"cm"}},
		exchange{say: "laminate 36 thick ash to 190 radius", topic: "lamination", asks: true, holds: []string{"tight"}},
		exchange{say: "laminate 36 thick ash to 900 radius, 20 m round", topic: "lamination", asks: true},
	)...)
	petraSays(t, []exchange{
		{say: "laminate a bow 36 thick in ash, how many plies", topic: "lamination", asks: true},
		{say: "1900", values: map[string]float64{"plies": 8, "spring_mm": 1900.0 / 64}},
		{say: "and with 3 mm plies?", values: map[string]float64{"plies": 12, "spring_mm": 1900.0 / 144}},
		{say: "why", holds: []string{"1900 × (1 − 1/144)", "structural glulam"}},
		{say: "and to a 1200 radius?", values: map[string]float64{"spring_mm": 1200.0 / 144}},
	})
}

// A bow without a radius takes the one of the person's last arc, by geometry: chord 1860 and rise
// 240 are a radius of 1921.88 and an arc of 1941.51 (example conversation). It keeps it for what
// follows.
func TestLaminationOfTheLastArc(t *testing.T) {
	db, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "arc.db"), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	err = db.Write(context.Background(), func(tx *store.Tx) error {
		project, err := tx.Project("hut")
		if err != nil {
			return err
		}
		arc := json.RawMessage(`{"topic":"arc","slots":{"chord_mm":{"n":"1860","s":"1860","u":"mm"},"rise_mm":{"n":"240","s":"240","u":"mm"}}}`)
		if _, err := tx.Add(store.Entry{Project: project.ID, Place: "p", WhoKey: "petra", Who: "Petra", Kind: store.Message, Topic: "arc", Request: arc}); err != nil {
			return err
		}
		for _, x := range []exchange{
			{say: "laminate it 36 thick in ash, how many plies", topic: "lamination", given: map[string]any{"radius_mm": 1921.88, "species": "ash"},
				values: map[string]float64{"plies": 8, "strip_length_mm": 1941.51*(1921.88+36)/1921.88 + 100}, holds: []string{"last arc"}},
			{say: "and in oak?", topic: "lamination", given: map[string]any{"radius_mm": 1921.88, "species": "oak"}},
			{say: "and to 1500 radius", topic: "lamination", given: map[string]any{"radius_mm": 1500}, lacks: []string{"last arc"}},
		} {
			x.check(t, say(t, tx, x.say))
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
