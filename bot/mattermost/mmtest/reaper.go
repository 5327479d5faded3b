//go:build unix

package mmtest

import (
	"fmt"
	"io"
	"net"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"syscall"
	"time"
)

// A reaper outlives the test process by a moment: it reads from a pipe that only that
// process holds open, so it learns of its end however it ends (a pass, a failure, a panic,
// a kill) and then ends the processes noted in the folder and removes the folder.
type reaper struct {
	dir  string
	pipe io.Closer // closed by the system with the test process, never by us
}

const reap = `cat >/dev/null
for round in INT KILL; do
  for note in "$0"/*.pid; do [ -f "$note" ] && kill -$round "$(cat "$note")" 2>/dev/null; done
  sleep 1
done
rm -rf "$0"`

func newReaper() (*reaper, error) {
	dir, err := os.MkdirTemp("", "fettle-mattermost-*")
	if err != nil {
		return nil, fmt.Errorf("make a folder for the server: %w", err)
	}
	if err := os.Chmod(dir, 0o755); err != nil { // the database's account passes through it
		return nil, fmt.Errorf("open the server's folder: %w", err)
	}
	cmd := exec.Command("/bin/sh", "-c", reap, dir)
	cmd.SysProcAttr = &syscall.SysProcAttr{Setpgid: true} // an interrupt from the keyboard must not reach it
	pipe, err := cmd.StdinPipe()
	if err != nil {
		return nil, fmt.Errorf("make the pipe: %w", err)
	}
	if err := cmd.Start(); err != nil {
		return nil, fmt.Errorf("start the watch on the test: %w", err)
	}
	return &reaper{dir: dir, pipe: pipe}, nil
}

// start starts the command with its output in the log file and notes its number, so that
// it is ended with the test. The returned channel is closed when the command has ended.
func (r *reaper) start(cmd *exec.Cmd, name, log string) (ended <-chan struct{}, err error) {
	file, err := os.OpenFile(log, os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o644)
	if err != nil {
		return nil, fmt.Errorf("open the log of %s: %w", name, err)
	}
	defer file.Close()
	cmd.Stdout, cmd.Stderr = file, file
	if cmd.SysProcAttr == nil {
		cmd.SysProcAttr = &syscall.SysProcAttr{}
	}
	cmd.SysProcAttr.Setpgid = true
	if err := cmd.Start(); err != nil {
		return nil, fmt.Errorf("start %s: %w", name, err)
	}
	note := filepath.Join(r.dir, name+".pid")
	if err := os.WriteFile(note, []byte(strconv.Itoa(cmd.Process.Pid)), 0o644); err != nil {
		cmd.Process.Kill()
		return nil, fmt.Errorf("note the number of %s: %w", name, err)
	}
	done := make(chan struct{})
	go func() {
		cmd.Wait()
		os.Remove(note)
		close(done)
	}()
	return done, nil
}

func freePort() (int, error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return 0, fmt.Errorf("find a free port: %w", err)
	}
	defer l.Close()
	return l.Addr().(*net.TCPAddr).Port, nil
}

func listening(port int) bool {
	conn, err := net.DialTimeout("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(port)), time.Second)
	if err != nil {
		return false
	}
	conn.Close()
	return true
}

func await(limit time.Duration, ready func() bool) error {
	for end := time.Now().Add(limit); time.Now().Before(end); time.Sleep(50 * time.Millisecond) {
		if ready() {
			return nil
		}
	}
	return fmt.Errorf("nothing after %s", limit)
}

func logTail(path string) string {
	content, err := os.ReadFile(path)
	if err != nil {
		return err.Error()
	}
	return tail(content)
}
