package main

import (
	"errors"
	"fmt"
	"os"
	"time"

	"github.com/spf13/cobra"

	"fettle/bot/planfile"
	"fettle/calc/measure"
)

func planCommand() *cobra.Command {
	var r planfile.Request
	var kerf, trim float64
	c := &cobra.Command{
		Use: "plan --parts FILE --boards FILE [--defects FILE]", Short: "A cut plan from files, no chat",
		Args: usage(cobra.NoArgs), DisableFlagsInUseLine: true,
		RunE: func(c *cobra.Command, _ []string) error {
			if r.Files.Parts == "" || r.Files.Boards == "" {
				return usageError{errors.New("--parts and --boards must each name a file")}
			}
			var err error
			if r.Job.Kerf, err = sawn("--kerf", kerf); err != nil {
				return err
			}
			if r.Job.Trim, err = sawn("--trim", trim); err != nil {
				return err
			}
			r.Job.LastRip, r.Now, r.Out = true, time.Now, c.OutOrStdout()
			if typed(os.Stderr) {
				r.Progress = os.Stderr
			}
			return asUsage(planfile.Run(c.Context(), r))
		},
	}
	f := c.Flags()
	f.StringVar(&r.Files.Parts, "parts", "", "the parts to cut, CSV: name,quantity,length,width,thickness in mm")
	f.StringVar(&r.Files.Boards, "boards", "", "the boards at hand, CSV: the same columns and price")
	f.StringVar(&r.Files.Defects, "defects", "", "faults to cut around, CSV: board,x,y,length,width")
	f.Float64Var(&kerf, "kerf", 3, "what the saw takes, in mm")
	f.Float64Var(&trim, "trim", 0, "what to take off each end of every board first, in mm")
	f.DurationVar(&r.Limit, "limit", 2*time.Second, "how long to look for a better plan, such as 10s")
	f.BoolVar(&r.Exact, "exact", false, "for parts and boards of one section: look on until it is proved")
	f.BoolVar(&r.JSON, "json", false, "print the plan for programs")
	f.StringVar(&r.Draw, "draw", "", "draw the plan to a file that ends in .svg, .png or .pdf")
	return c
}

func sawn(flag string, mm float64) (measure.Length, error) {
	l, err := measure.FromMM(mm)
	if err == nil && (l < 0 || l > measure.Metre) {
		err = fmt.Errorf("%g mm is not between 0 and 1000", mm)
	}
	if err != nil {
		return 0, usageError{fmt.Errorf("%s: %w", flag, err)}
	}
	return l, nil
}

// asUsage gives what is wrong with the call or a file the exit status for that.
func asUsage(err error) error {
	var unusable planfile.Unusable
	if errors.As(err, &unusable) {
		return usageError{err}
	}
	return err
}
