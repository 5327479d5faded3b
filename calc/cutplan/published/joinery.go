package published

import (
	"encoding/csv"
	"fmt"
	"io/fs"
	"path"
	"strconv"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
)

// Joinery reads the folder of one job: parts.csv, boards.csv, defects.csv and job.csv.
func Joinery(root fs.FS, folder string) (job cutplan.Job, err error) {
	job.LastRip = true
	set, err := rows(root, folder, "job.csv")
	if err != nil {
		return job, err
	}
	for _, r := range set {
		if r[0] == "kerf" {
			job.Kerf = mm(r[1])
		}
	}
	parts, err := rows(root, folder, "parts.csv")
	if err != nil {
		return job, err
	}
	for _, r := range parts {
		job.Parts = append(job.Parts, cutplan.Part{Name: r[0], Quantity: count(r[1]), Length: mm(r[2]), Width: mm(r[3]), Thickness: mm(r[4])})
	}
	return job, joineryBoards(root, folder, &job)
}

func joineryBoards(root fs.FS, folder string, job *cutplan.Job) error {
	boards, err := rows(root, folder, "boards.csv")
	if err != nil {
		return err
	}
	at := map[string]int{}
	for i, r := range boards {
		at[r[0]] = i
		price, err := strconv.ParseFloat(r[5], 64)
		if err != nil {
			return fmt.Errorf("read %s: %w", folder, err)
		}
		job.Boards = append(job.Boards, cutplan.Board{Name: r[0], Quantity: count(r[1]), Length: mm(r[2]), Width: mm(r[3]), Thickness: mm(r[4]), Price: price, Priced: true})
	}
	faults, err := rows(root, folder, "defects.csv")
	if err != nil {
		return err
	}
	for _, r := range faults {
		b := &job.Boards[at[r[0]]]
		b.Faults = append(b.Faults, cutplan.Fault{Copy: 1, X: mm(r[1]), Y: mm(r[2]), Length: mm(r[3]), Width: mm(r[4])})
	}
	return nil
}

// rows reads a table below its heading.
func rows(root fs.FS, folder, name string) ([][]string, error) {
	file, err := root.Open(path.Join(folder, name))
	if err != nil {
		return nil, err
	}
	defer file.Close()
	all, err := csv.NewReader(file).ReadAll()
	if err != nil || len(all) == 0 {
		return nil, fmt.Errorf("read %s: %w", name, err)
	}
	return all[1:], nil
}

// count reads a whole number of a published table; 0, which Make refuses, for anything else.
func count(text string) int {
	n, err := strconv.Atoi(text)
	if err != nil {
		return 0
	}
	return n
}

func mm(text string) measure.Length { return measure.Length(count(text)) * measure.Millimetre }
