package wood

import (
	"embed"
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"

	"fettle/calc/evidence"
)

// wood.csv holds the published figures, one row a source, and species.csv the names people
// use and the rows that each may mean.
//
//go:embed wood.csv species.csv
var files embed.FS

// Row is what one source publishes about one timber. A figure that it lacks has no status.
type Row struct {
	ID        string // the timber, a plain word
	Common    string
	Botanical string
	Softwood  bool
	Variant   string // which source the row follows

	DensityKgM3 evidence.Figure // at 12 % moisture
	ShrinkR     evidence.Figure // radial, per cent from green to ovendry
	ShrinkT     evidence.Figure // tangential, per cent from green to ovendry
	CR, CT      evidence.Figure // change of size per per cent of moisture, inside 6 to 14 %
	MOEMPa      evidence.Figure // stiffness along the grain at 12 % moisture

	Source, Notes string
}

// Species is a name people use for a timber and the published rows it may mean: several
// when sources disagree or when the name leaves the kind open.
type Species struct {
	ID    string   // a plain word, the value of given.species
	Name  string   // as it is printed
	Other []string // further names and common misspellings, in lower case
	Rows  []Row
}

// All is every species, in the order of the table. The caller owns the slice, but must not
// change what its species point to.
func All() []Species { return slices.Clone(load()) }

// Find gives the species with the ID or with one of its other names, in lower case, and
// false when there is none.
func Find(name string) (Species, bool) {
	for _, s := range load() {
		if s.ID == name || slices.Contains(s.Other, name) {
			return s, true
		}
	}
	return Species{}, false
}

// load reads the embedded tables once. They are part of the program, and a test reads every
// row, so a row that cannot be read is a mistake of the programmer.
var load = sync.OnceValue(func() []Species {
	rows, err := readRows()
	if err != nil {
		panic(err)
	}
	species, err := readSpecies(rows)
	if err != nil {
		panic(err)
	}
	return species
})

func readSpecies(rows []Row) ([]Species, error) {
	records, err := records("species.csv")
	if err != nil {
		return nil, err
	}
	var out []Species
	for _, r := range records {
		s := Species{ID: r["id"], Name: r["name"], Other: list(r["other_names"])}
		for _, id := range list(r["rows"]) {
			n := len(s.Rows)
			for _, row := range rows {
				if row.ID == id {
					s.Rows = append(s.Rows, row)
				}
			}
			if len(s.Rows) == n {
				return nil, fmt.Errorf("read species.csv: %s names %q, which has no row", s.ID, id)
			}
		}
		out = append(out, s)
	}
	return out, nil
}

func readRows() ([]Row, error) {
	records, err := records("wood.csv")
	if err != nil {
		return nil, err
	}
	var out []Row
	for _, r := range records {
		row, err := readRow(r)
		if err != nil {
			return nil, fmt.Errorf("read wood.csv: %s %s: %w", r["id"], r["variant"], err)
		}
		out = append(out, row)
	}
	return out, nil
}

func readRow(r map[string]string) (Row, error) {
	row := Row{
		ID: r["id"], Common: r["common_name"], Botanical: r["botanical_name"],
		Softwood: r["type"] == "softwood", Variant: r["variant"],
		Source: r["sources"], Notes: r["notes"],
	}
	for _, f := range []struct {
		to            *evidence.Figure
		value, status string
	}{
		{&row.DensityKgM3, "density_12pct_kg_m3", "density_status"},
		{&row.ShrinkR, "shrink_radial_pct_green_to_od", "shrink_radial_status"},
		{&row.ShrinkT, "shrink_tangential_pct_green_to_od", "shrink_tangential_status"},
		{&row.CR, "CR_per_pct_MC", "CR_status"},
		{&row.CT, "CT_per_pct_MC", "CT_status"},
		{&row.MOEMPa, "MOE_12pct_MPa", "MOE_status"},
	} {
		if r[f.value] == "" {
			continue
		}
		v, err := strconv.ParseFloat(r[f.value], 64)
		if err != nil {
			return Row{}, err
		}
		*f.to = evidence.Figure{Value: v, Status: status(r[f.status]), Source: row.Variant + ": " + row.Source}
	}
	return row, nil
}

// status reads the words of the table; a figure derived from a recalled one is no better
// than memory.
func status(s string) evidence.Status {
	switch {
	case strings.HasSuffix(s, "memory"):
		return evidence.Memory
	case strings.HasPrefix(s, "derived"):
		return evidence.Derived
	}
	return evidence.Seen
}

// records reads an embedded table into one map a row, keyed by the header line.
func records(name string) ([]map[string]string, error) {
	f, err := files.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	var out []map[string]string
	for _, cells := range all[1:] {
		r := make(map[string]string, len(cells))
		for i, c := range cells {
			r[all[0][i]] = c
		}
		out = append(out, r)
	}
	return out, nil
}

func list(s string) []string {
	if s == "" {
		return nil
	}
	return strings.Split(s, "|")
}
