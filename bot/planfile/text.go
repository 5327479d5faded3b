package planfile

import (
	"fmt"
	"io"
	"strings"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/picture"
)

// mm is how sizes are printed: files are in it.
const mm = "mm"

// writeText prints the plan for people, board by board.
func writeText(w io.Writer, plan cutplan.Plan) error {
	var b strings.Builder
	for _, line := range picture.Verdict(plan, mm) {
		b.WriteString(line + "\n")
	}
	for _, l := range plan.LeftOut {
		fmt.Fprintf(&b, "Left out: %d %s. %s\n", l.Quantity, l.Name, l.Reason)
	}
	for _, board := range plan.Boards {
		b.WriteString("\n" + boardText(board, plan))
	}
	if _, err := io.WriteString(w, b.String()); err != nil {
		return fmt.Errorf("write the plan: %w", err)
	}
	return nil
}

func boardText(board cutplan.SawnBoard, plan cutplan.Plan) string {
	var b strings.Builder
	b.WriteString(picture.Heading(board, mm) + "\n")
	fmt.Fprintf(&b, "  gives %s\n", picture.Contents(board))
	if keep := picture.Keeping(board, mm); keep != "" {
		fmt.Fprintf(&b, "  keep %s\n", keep)
	}
	stage := 0
	for _, s := range picture.Steps(board, plan.Kerf) {
		if s.Stage != stage {
			stage = s.Stage
			fmt.Fprintf(&b, "  %s\n", s.Heading())
		}
		fmt.Fprintf(&b, "  %4d  %-26s%s\n", s.Order, s.Text(mm), s.Result(mm))
	}
	return b.String()
}
