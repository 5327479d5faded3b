package main

import (
	"bufio"
	"fmt"
	"io/fs"
	"path"
	"strings"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
)

// class reads a file of the original text format: for each instance five lines of heading, then
// a line an item. Instances are named as in the index: file, items, relative number.
func class(folder fs.FS, name string) (map[string]cutplan.Job, error) {
	file, err := folder.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	all := map[string]cutplan.Job{}
	lines := bufio.NewScanner(file)
	for lines.Scan() {
		if strings.Contains(lines.Text(), "PROBLEM CLASS") {
			number, job := classInstance(lines)
			all[fmt.Sprintf("%s_%d_%d", path.Base(name), len(job.Parts), number)] = job
		}
	}
	return all, lines.Err()
}

// classInstance reads an instance below its first line. Their cuts run parallel to W first, so
// that H is the length of a board here.
func classInstance(lines *bufio.Scanner) (number int, job cutplan.Job) {
	numbers := func() (a, b int) {
		if !lines.Scan() {
			return 0, 0
		}
		f := append(strings.Fields(lines.Text()), "", "")
		return count(f[0]), count(f[1])
	}
	items, _ := numbers()
	number, _ = numbers()
	h, w := numbers()
	mm := func(n int) measure.Length { return measure.Length(n) * measure.Millimetre }
	job = cutplan.Job{LastRip: true, Boards: []cutplan.Board{{Name: "bin", Quantity: items, Length: mm(h), Width: mm(w), Thickness: mm(1), Price: 1, Priced: true}}}
	for i := range items {
		h, w := numbers()
		job.Parts = append(job.Parts, cutplan.Part{Name: fmt.Sprint(i + 1), Quantity: 1, Length: mm(h), Width: mm(w), Thickness: mm(1)})
	}
	return number, job
}
