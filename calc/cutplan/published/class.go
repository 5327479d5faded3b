package published

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
)

// Class reads two-dimensional bin packing in the text format of Berkey and Wang (1987) and Martello
// and Vigo (1998): for each instance five lines of heading, then a line an item. Sizes become
// millimetres. Instances are named by the file's name, the items and the relative number.
func Class(r io.Reader, file string) (map[string]cutplan.Job, error) {
	all := map[string]cutplan.Job{}
	lines := bufio.NewScanner(r)
	for lines.Scan() {
		if strings.Contains(lines.Text(), "PROBLEM CLASS") {
			number, job := classInstance(lines)
			all[fmt.Sprintf("%s_%d_%d", file, len(job.Parts), number)] = job
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
