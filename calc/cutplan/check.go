package cutplan

import (
	"fmt"
	"math"

	"fettle/calc/measure"
)

// The most that a job may hold. Ten thousand pieces are more than a workshop saws in a year, and
// a board of a hundred metres is a slip of the unit.
const (
	mostPieces = 10_000
	mostBoards = 10_000
	longest    = 100 * measure.Metre
)

// Check says in a sentence what is wrong with a job, naming the part or the board: a size that is
// not above zero or beyond 100 m, a quantity below 1, more than 10 000 pieces or boards, a name
// that stands twice, a fault that is not on its board, a price below zero.
func (job *Job) Check() error {
	if job.Kerf < 0 || job.Kerf > measure.Metre {
		return fmt.Errorf("the kerf must be between 0 and 1 m, not %s mm", mm(job.Kerf))
	}
	if job.Trim < 0 || job.Trim > longest {
		return fmt.Errorf("the trim must be between 0 and 100 m, not %s mm", mm(job.Trim))
	}
	if err := job.checkParts(); err != nil {
		return err
	}
	return job.checkBoards()
}

func (job *Job) checkParts() error {
	seen, pieces := map[string]bool{}, 0
	for _, p := range job.Parts {
		what := fmt.Sprintf("part %q", p.Name)
		if err := checkSizes(what, p.Length, p.Width, p.Thickness); err != nil {
			return err
		}
		if err := checkCount(what, p.Quantity, mostPieces); err != nil {
			return err
		}
		if seen[p.Name] {
			return fmt.Errorf("%s is there twice; give one of them another name or put the quantities together", what)
		}
		seen[p.Name] = true
		pieces += p.Quantity
	}
	if pieces > mostPieces {
		return fmt.Errorf("%d pieces in all are more than I plan at once; the most is %d", pieces, mostPieces)
	}
	return nil
}

func (job *Job) checkBoards() error {
	seen, boards := map[string]bool{}, 0
	for _, b := range job.Boards {
		what := fmt.Sprintf("board %q", b.Name)
		if err := checkSizes(what, b.Length, b.Width, b.Thickness); err != nil {
			return err
		}
		if err := checkCount(what, b.Quantity, mostBoards); err != nil {
			return err
		}
		if seen[b.Name] {
			return fmt.Errorf("%s is there twice; give one of them another name or put the quantities together", what)
		}
		seen[b.Name] = true
		boards += b.Quantity
		if b.Priced && (math.IsNaN(b.Price) || b.Price < 0 || b.Price > 1e9) {
			return fmt.Errorf("%s has a price of %g; it must be between 0 and 1 000 000 000", what, b.Price)
		}
		if err := b.checkFaults(what); err != nil {
			return err
		}
	}
	if boards > mostBoards {
		return fmt.Errorf("%d boards in all are more than I plan with; the most is %d", boards, mostBoards)
	}
	return nil
}

func (b *Board) checkFaults(what string) error {
	for i, f := range b.Faults {
		if f.Copy < 1 || f.Copy > b.Quantity {
			return fmt.Errorf("fault %d of %s is on copy %d, and there are %d", i+1, what, f.Copy, b.Quantity)
		}
		if f.Length <= 0 || f.Width <= 0 || f.Length > longest || f.Width > longest {
			return fmt.Errorf("fault %d of %s measures %s × %s mm; both must be above 0", i+1, what, mm(f.Length), mm(f.Width))
		}
		if f.X < 0 || f.Y < 0 || f.X > b.Length-f.Length || f.Y > b.Width-f.Width {
			return fmt.Errorf("fault %d of %s (at %s, %s, %s × %s mm) is not within the board's %s × %s mm", i+1, what,
				mm(f.X), mm(f.Y), mm(f.Length), mm(f.Width), mm(b.Length), mm(b.Width))
		}
	}
	return nil
}

func checkSizes(what string, length, width, thickness measure.Length) error {
	for _, s := range []struct {
		name string
		size measure.Length
	}{{"length", length}, {"width", width}, {"thickness", thickness}} {
		if s.size <= 0 || s.size > longest {
			return fmt.Errorf("%s has a %s of %s mm; it must be above 0 and at most 100 m", what, s.name, mm(s.size))
		}
	}
	return nil
}

func checkCount(what string, n, most int) error {
	if n < 1 || n > most {
		return fmt.Errorf("%s has a quantity of %d; it must be between 1 and %d", what, n, most)
	}
	return nil
}

func mm(l measure.Length) string { return measure.Decimal(l.MM(), 3) }
