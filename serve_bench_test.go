package main_test

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"fettle/bot/mattermost/mmtest"
)

// BenchmarkAsk measures one `fettle ask` as a whole process, on a database that is there.
func BenchmarkAsk(b *testing.B) {
	path, err := program()
	if err != nil {
		b.Fatal(err)
	}
	db := filepath.Join(b.TempDir(), "hut.db")
	for b.Loop() {
		if out, err := exec.Command(path, "ask", "--db", db, "rough size for 600 by 45 finished").CombinedOutput(); err != nil {
			b.Fatalf("%v: %s", err, out)
		}
	}
}

// BenchmarkIdleMemory reports the resident memory of a `fettle serve` that has answered once
// and then has nothing to do.
func BenchmarkIdleMemory(b *testing.B) {
	s := mmtest.Start(b)
	channel := s.Channel(b)
	path, err := program()
	if err != nil {
		b.Fatal(err)
	}
	var log bytes.Buffer
	cmd := exec.Command(path, "serve", "--listen", "127.0.0.1:0", "--db", filepath.Join(b.TempDir(), "hut.db"))
	cmd.Env = append(os.Environ(), "FETTLE_MATTERMOST_URL="+s.URL, "FETTLE_MATTERMOST_TOKEN="+s.Bot.Token)
	cmd.Stderr = &log
	if err := cmd.Start(); err != nil {
		b.Fatal(err)
	}
	defer func() { _ = cmd.Process.Kill(); _ = cmd.Wait() }()
	s.Petra.Post(b, channel, "@fettle rough size for 600 by 45 finished")
	s.AwaitAnswers(b, channel, 1)
	time.Sleep(2 * time.Second)
	for b.Loop() {
	}
	b.ReportMetric(resident(b, cmd.Process.Pid), "MiB-resident")
}

// resident reads the resident memory of a process in MiB, where the system tells it.
func resident(b *testing.B, pid int) float64 {
	b.Helper()
	status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", pid))
	if err != nil {
		b.Skip("this system does not tell a process's memory: ", err)
	}
	for line := range strings.Lines(string(status)) {
		if rest, ok := strings.CutPrefix(line, "VmRSS:"); ok {
			kb, err := strconv.ParseFloat(strings.Fields(rest)[0], 64)
			if err != nil {
				b.Fatal(err)
			}
			return kb / 1024
		}
	}
	b.Fatal("no VmRSS")
	return 0
}
