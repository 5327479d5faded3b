package wood_test

import (
	"encoding/csv"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"fettle/calc/evidence"
	"fettle/calc/wood"
)

func readCSV(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// The table that the program carries is the reference table with an id in front.
func TestTableIsTheReference(t *testing.T) {
	carried, reference := readCSV(t, "wood.csv"), readCSV(t, "../../testdata/reference/wood.csv")
	if len(carried) != len(reference) {
		t.Fatalf("%d rows carried, %d in the reference", len(carried), len(reference))
	}
	for i := range reference {
		if !slices.Equal(carried[i][1:], reference[i]) {
			t.Errorf("row %d differs from the reference:\n%v\n%v", i, carried[i][1:], reference[i])
		}
	}
}

func TestEveryRowIsReachable(t *testing.T) {
	reached := map[string]bool{}
	for _, s := range wood.All() {
		for _, r := range s.Rows {
			reached[r.ID+" "+r.Variant] = true
		}
	}
	if want := len(readCSV(t, "wood.csv")) - 1; len(reached) != want {
		t.Errorf("%d rows are reached by a name, want %d", len(reached), want)
	}
}

func TestNamesPointToOneSpecies(t *testing.T) {
	owner := map[string]string{}
	for _, s := range wood.All() {
		for _, n := range append([]string{s.ID}, s.Other...) {
			if n != strings.ToLower(strings.TrimSpace(n)) || n == "" {
				t.Errorf("%s: the name %q is not plain lower case", s.ID, n)
			}
			if owner[n] != "" {
				t.Errorf("%q is a name of both %s and %s", n, owner[n], s.ID)
			}
			owner[n] = s.ID
			if got, ok := wood.Find(n); !ok || got.ID != s.ID {
				t.Errorf("Find(%q) = %s, %v", n, got.ID, ok)
			}
		}
	}
	if _, ok := wood.Find("unobtainium"); ok {
		t.Error("an unheard-of timber was found")
	}
}

func TestFiguresAreOfThisWorld(t *testing.T) {
	for _, s := range wood.All() {
		for _, r := range s.Rows {
			for _, f := range []struct {
				name          string
				value, lo, hi float64
				known         bool
			}{
				{"density", r.DensityKgM3.Value, 300, 1200, r.DensityKgM3.Status != ""},
				{"stiffness", r.MOEMPa.Value, 6000, 24000, r.MOEMPa.Status != ""},
				{"C_R", r.CR.Value, 0.0005, 0.003, r.CR.Status != ""},
				{"C_T", r.CT.Value, 0.001, 0.005, r.CT.Status != ""},
			} {
				if f.known && (f.value < f.lo || f.value > f.hi) {
					t.Errorf("%s (%s): %s is %v", r.ID, r.Variant, f.name, f.value)
				}
			}
			if r.CR.Value >= r.CT.Value {
				t.Errorf("%s (%s): radial movement %v is not below tangential %v", r.ID, r.Variant, r.CR.Value, r.CT.Value)
			}
		}
	}
}

func TestFiguresKeepTheirStatus(t *testing.T) {
	for _, c := range []struct {
		id     string
		row    int
		status evidence.Status
	}{
		{"white oak", 0, evidence.Seen}, {"sapele", 0, evidence.Derived}, {"iroko", 2, evidence.Memory}, {"european ash", 0, evidence.Memory},
	} {
		if got := must(t, c.id).Rows[c.row].CT; got.Status != c.status || got.Source == "" {
			t.Errorf("%s: C_T is %+v, want status %s", c.id, got, c.status)
		}
	}
	if got := must(t, "afrormosia").Rows[0].MOEMPa; got.Status != "" {
		t.Errorf("the table has no stiffness of afrormosia, and %+v came out", got)
	}
}

func TestCallersCannotChangeTheTable(t *testing.T) {
	all := wood.All()
	all[0].ID = "changed"
	if wood.All()[0].ID == "changed" {
		t.Error("a caller changed the table for the next one")
	}
}

func TestOpenNamesOfferTheirKinds(t *testing.T) {
	for id, kinds := range map[string][]string{
		"ash":   {"white ash", "european ash"},
		"oak":   {"white oak", "red oak", "european oak"},
		"larch": {"western larch", "european larch"},
	} {
		var got []string
		for _, r := range must(t, id).Rows {
			got = append(got, r.ID)
		}
		if !slices.Equal(got, kinds) {
			t.Errorf("%s may be %v, want %v", id, got, kinds)
		}
	}
}

func TestSoftestAndHeaviestAreTheSafeEnds(t *testing.T) {
	oak := must(t, "oak")
	moe, err := oak.MOEMPa()
	if err != nil {
		t.Fatal(err)
	}
	if moe.Low.Value != 10470 || moe.High.Value != 12500 || !moe.Disagree() {
		t.Errorf("stiffness of oak %v to %v, want 10470 (European) to 12500 (northern red)", moe.Low.Value, moe.High.Value)
	}
	if _, err := must(t, "merbau").DensityKgM3(); err == nil {
		t.Error("the table has no density of merbau, and one came out")
	}
	if must(t, "oak").Softwood() || !must(t, "larch").Softwood() {
		t.Error("oak is a hardwood and larch a softwood")
	}
}

// 640 kg/m³ at 12 % is 663 at 16 % (formula sheet, computed).
func TestDensityAt(t *testing.T) {
	got, err := wood.DensityAt(640, 16)
	if err != nil || math.Abs(got-662.857) > 0.001 {
		t.Errorf("DensityAt(640, 16) = %v, %v; want 662.857", got, err)
	}
	if same, _ := wood.DensityAt(640, 12); math.Abs(same-640) > 1e-9 {
		t.Errorf("DensityAt(640, 12) = %v", same)
	}
	for _, c := range [][2]float64{{-1, 12}, {640, 40}, {math.NaN(), 12}, {640, math.NaN()}} {
		if got, err := wood.DensityAt(c[0], c[1]); err == nil {
			t.Errorf("DensityAt(%v, %v) = %v, want an error", c[0], c[1], got)
		}
	}
}
