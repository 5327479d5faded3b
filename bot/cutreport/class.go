package main

import (
	"bufio"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
)

// instance is one published job with the best cost known.
type instance struct {
	name  string
	known float64
	job   cutplan.Job
}

// classes reads the two-dimensional bin packing instances of testdata/cutting/2d/class.
func classes(root string) ([]instance, error) {
	var all []instance
	for c := 1; c <= 10; c++ {
		name := fmt.Sprintf("Class_%02d.2bp", c)
		more, err := class(filepath.Join(root, "2d", "class", name), name)
		if err != nil {
			return nil, err
		}
		all = append(all, more...)
	}
	return all, nil
}

// class reads one file of the original text format: five lines of heading, then a line an item.
func class(path, name string) ([]instance, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	var all []instance
	lines := bufio.NewScanner(file)
	for lines.Scan() {
		if strings.Contains(lines.Text(), "PROBLEM CLASS") {
			all = append(all, classInstance(lines, name))
		}
	}
	return all, lines.Err()
}

// classInstance reads an instance below its first line. Their cuts run parallel to W first, so
// that H is the length of a board here.
func classInstance(lines *bufio.Scanner, name string) instance {
	numbers := func() (a, b int) {
		if !lines.Scan() {
			return 0, 0
		}
		f := strings.Fields(lines.Text())
		return count(f[0]), count(f[1])
	}
	items, _ := numbers()
	relative, _ := numbers()
	h, w := numbers()
	mm := func(n int) measure.Length { return measure.Length(n) * measure.Millimetre }
	job := cutplan.Job{LastRip: true, Boards: []cutplan.Board{{Name: "bin", Quantity: items, Length: mm(h), Width: mm(w), Thickness: mm(1), Price: 1, Priced: true}}}
	for i := range items {
		h, w := numbers()
		job.Parts = append(job.Parts, cutplan.Part{Name: fmt.Sprint(i + 1), Quantity: 1, Length: mm(h), Width: mm(w), Thickness: mm(1)})
	}
	return instance{name: fmt.Sprintf("%s_%d_%d", name, items, relative), job: job}
}
