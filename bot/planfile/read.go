// Package planfile plans the cuts of a job that stands in files, and prints and draws the plan.
package planfile

import (
	"fmt"
	"io"
	"os"
	"strings"

	"fettle/calc/cutplan"
	"fettle/commands/tables"
)

// Files are the names of a job's lists. Defects may be empty.
type Files struct{ Parts, Boards, Defects string }

// Read reads the lists into a job that has its kerf and trim already. The error says in one line
// which file, line and column can't be used, and why.
func (f Files) Read(job cutplan.Job) (cutplan.Job, error) {
	parts, err := listed(f.Parts, tables.Parts)
	if err != nil {
		return job, err
	}
	for _, p := range parts {
		free, err := turns(f.Parts, p)
		if err != nil {
			return job, err
		}
		job.Parts = append(job.Parts, cutplan.Part{Name: p.Name, Quantity: p.Quantity, Length: p.Length, Width: p.Width,
			Thickness: p.Thickness, Species: plain(p.Species), Free: free})
	}
	rows, err := listed(f.Boards, tables.Boards)
	if err != nil {
		return job, err
	}
	at := map[string]int{}
	for i, b := range rows {
		at[b.Name] = i
		// Only parts that are said to be free are turned, so any board may be a sheet.
		job.Boards = append(job.Boards, cutplan.Board{Name: b.Name, Quantity: b.Quantity, Length: b.Length, Width: b.Width,
			Thickness: b.Thickness, Species: plain(b.Species), Price: b.Price, Priced: !b.Unpriced, Sheet: true})
	}
	if f.Defects == "" {
		return job, nil
	}
	faults, err := listed(f.Defects, func(name string, r io.Reader) ([]tables.DefectRow, error) { return tables.Defects(name, r, rows) })
	for _, d := range faults {
		b := &job.Boards[at[d.Board]]
		b.Faults = append(b.Faults, cutplan.Fault{Copy: d.Copy, X: d.X, Y: d.Y, Length: d.Length, Width: d.Width})
	}
	return job, err
}

// listed opens a file and reads the list in it.
func listed[T any](name string, read func(string, io.Reader) ([]T, error)) ([]T, error) {
	f, err := os.Open(name)
	if err != nil {
		return nil, fmt.Errorf("open the list: %w", err)
	}
	defer f.Close()
	return read(name, f)
}

// turns reads the column grain: whether a part may be turned.
func turns(file string, p tables.PartRow) (bool, error) {
	switch plain(p.Grain) {
	case "", "along", "long", "length", "lengthways", "yes":
		return false, nil
	case "free", "any", "either", "none", "no":
		return true, nil
	}
	return false, &tables.Fault{File: file, Line: p.Line, Column: "grain", Text: fmt.Sprintf("“%s” is neither along nor free", p.Grain)}
}

// plain is a word as it is compared.
func plain(word string) string { return strings.ToLower(strings.TrimSpace(word)) }
