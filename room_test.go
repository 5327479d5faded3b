package main_test

import (
	"errors"
	"io"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

var roomAt = regexp.MustCompile(`(?s)(http://127\.0\.0\.1:\d+)/\n.*The code is (\S+)\n`)

// opened starts the program with a room and waits for its address and code.
func opened(t *testing.T, args ...string) (run *served, address, code string) {
	t.Helper()
	out, write, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	run = &served{cmd: exec.Command(fettleBinary(t), args...)}
	run.cmd.Env = append(os.Environ(), "FETTLE_LISTEN=127.0.0.1:0", "FETTLE_MATTERMOST_URL=", "FETTLE_MATTERMOST_TOKEN=", "TMPDIR="+t.TempDir())
	run.cmd.Stdout, run.cmd.Stderr = write, write
	if err := run.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	write.Close()
	t.Cleanup(run.kill)
	t.Cleanup(func() { out.Close() })
	_ = out.SetReadDeadline(time.Now().Add(30 * time.Second))
	var said []byte
	for chunk := make([]byte, 1024); ; {
		n, err := out.Read(chunk)
		said = append(said, chunk[:n]...)
		if m := roomAt.FindSubmatch(said); m != nil {
			go func() { _, _ = io.Copy(io.Discard, out) }()
			return run, string(m[1]), string(m[2])
		}
		if err != nil {
			t.Fatalf("no room is opened: %v: %s", err, said)
		}
	}
}

// askedInRoom comes in, asks, and gives the page.
func askedInRoom(t *testing.T, address, code, text string) string {
	t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	client := http.Client{Jar: jar, Timeout: 20 * time.Second}
	reply, err := client.PostForm(address+"/join", url.Values{"name": {"Petra"}, "code": {code}})
	if err != nil {
		t.Fatal(err)
	}
	reply.Body.Close()
	room := reply.Request.URL.String()
	if text != "" {
		if reply, err = client.PostForm(room+"/say", url.Values{"key": {"0123456789abcdef0123"}, "text": {text}}); err != nil {
			t.Fatal(err)
		}
		reply.Body.Close()
	}
	if reply, err = client.Get(room); err != nil {
		t.Fatal(err)
	}
	defer reply.Body.Close()
	page, err := io.ReadAll(reply.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(page)
}

// TestServesARoom needs nothing but the program: what it prints lets somebody in, and the first
// question is answered.
func TestServesARoom(t *testing.T) {
	db := filepath.Join(t.TempDir(), "hut.db")
	run, address, code := opened(t, "serve", "--db", db)
	if page := askedInRoom(t, address, code, "rough size for 600 by 45 finished"); !strings.Contains(page, "Rough 700 × 65") {
		t.Errorf("the room does not answer: %s", page)
	}
	out, err := exec.Command(fettleBinary(t), "ask", "--db", db, "what did we ask today").CombinedOutput()
	if err != nil || !strings.Contains(string(out), "rough size for 600 by 45") {
		t.Errorf("the log, asked at a terminal: %v: %s", err, out)
	}
	run.log = nil
	stops(t, run)
}

// TestTheDemoIsThereAndGoes: a week was said in it, and nothing of it is left on the disk.
func TestTheDemoIsThereAndGoes(t *testing.T) {
	run, address, code := opened(t, "demo")
	page := askedInRoom(t, address, code, "")
	for _, want := range []string{"A demo:", "9 mugs 84 wide in 860", "Gap 10.5", "rack sides"} {
		if !strings.Contains(page, want) {
			t.Errorf("the demo does not show %q", want)
		}
	}
	temp := ""
	for _, e := range run.cmd.Env {
		if folder, ok := strings.CutPrefix(e, "TMPDIR="); ok {
			temp = folder
		}
	}
	stops(t, run)
	if left, err := os.ReadDir(temp); err != nil || len(left) > 0 {
		t.Errorf("%d things of the demo are left (%v)", len(left), err)
	}
}

// TestAnAddressThatIsTaken is told in a sentence, with exit status 2.
func TestAnAddressThatIsTaken(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	for _, args := range [][]string{{"--listen", l.Addr().String()}, {"--listen", "nowhere"}, {"--listen", "127.0.0.1:0", "--cert", "missing.pem", "--key", "missing.key"}} {
		cmd := exec.Command(fettleBinary(t), append([]string{"serve", "--db", filepath.Join(t.TempDir(), "x.db")}, args...)...)
		cmd.Env = append(os.Environ(), "FETTLE_MATTERMOST_URL=", "FETTLE_MATTERMOST_TOKEN=")
		out, err := cmd.CombinedOutput()
		var exit *exec.ExitError
		if !errors.As(err, &exit) || exit.ExitCode() != 2 || strings.Count(string(out), "\n") != 1 || !strings.Contains(string(out), "--listen") {
			t.Errorf("%v: %v: %s", args, err, out)
		}
	}
}
