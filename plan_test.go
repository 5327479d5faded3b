package main_test

import (
	"bytes"
	"errors"
	"os/exec"
	"strings"
	"testing"
)

// A wrong call or an unusable file ends with status 2 and one line on standard error.
func TestPlanRefuses(t *testing.T) {
	program := build(t)
	const parts, boards = "testdata/plan/parts.csv", "testdata/plan/boards.csv"
	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{"plan"}, "--parts and --boards"},
		{[]string{"plan", "--parts", "nowhere.csv", "--boards", boards}, "nowhere.csv"},
		{[]string{"plan", "--parts", parts, "--boards", parts}, "parts.csv"},
		{[]string{"plan", "--parts", parts, "--boards", boards, "--kerf", "-1"}, "--kerf"},
		{[]string{"plan", "--parts", parts, "--boards", boards, "--trim", "NaN"}, "--trim"},
		{[]string{"plan", "--parts", parts, "--boards", boards, "--kerf", "wide"}, "kerf"},
		{[]string{"plan", "--parts", parts, "--boards", boards, "--draw", "plan.doc"}, "plan.doc"},
		{[]string{"plan", "--parts", parts, "--boards", boards, "more"}, "unknown"},
	} {
		cmd := exec.Command(program, c.args...)
		var said, out bytes.Buffer
		cmd.Stderr, cmd.Stdout = &said, &out
		err := cmd.Run()
		var exit *exec.ExitError
		if !errors.As(err, &exit) || exit.ExitCode() != 2 {
			t.Errorf("%q ends with %v, want exit status 2", c.args, err)
		}
		line := strings.TrimSuffix(said.String(), "\n")
		if !strings.Contains(line, c.says) || strings.Contains(line, "\n") || out.Len() > 0 {
			t.Errorf("%q says %q and prints %q", c.args, said.String(), out.String())
		}
	}
}
