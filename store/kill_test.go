package store_test

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"fettle/store"
)

// The tests in this file start this test's own program again, as a process that can be killed. In
// it, run calls child instead of the tests.
const (
	childTask = "STORE_TEST_CHILD" // what the child does
	childPath = "STORE_TEST_PATH"  // on which database
)

// child does what it was started for, if this process is a child.
func child() (did bool) {
	path := os.Getenv(childPath)
	var err error
	switch os.Getenv(childTask) {
	case "":
		return false
	case "talk":
		err = talk(path)
	case "backup":
		err = backUpForEver(path)
	case "try":
		err = tryToWrite(path)
	}
	if err != nil {
		fmt.Println(err)
		os.Exit(1)
	}
	return true
}

func startChild(t *testing.T, task, path string) (*exec.Cmd, *bufio.Reader) {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), childTask+"="+task, childPath+"="+path)
	cmd.Stderr = os.Stderr
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	return cmd, bufio.NewReader(out)
}

// talk writes answered messages for ever and says the number of each once it is saved.
func talk(path string) error {
	ctx := context.Background()
	s, err := store.Open(ctx, path, clock)
	if err != nil {
		return err
	}
	next := 0
	if err := s.Read(ctx, func(tx *store.Tx) error {
		cursors, err := tx.Cursors("")
		next = int(cursors["terminal:hut"]) + 1
		return err
	}); err != nil {
		return err
	}
	for ; ; next++ {
		err := s.Write(ctx, func(tx *store.Tx) error {
			project, err := tx.Project("Hut")
			if err != nil {
				return err
			}
			return exchange(tx, project.ID, next)
		})
		if err != nil {
			return err
		}
		fmt.Println(next)
	}
}

// checkTalk makes sure that messages 1 to at least acknowledged are all there and that each is
// there with all that belongs to it. It returns the number of the last.
func checkTalk(t *testing.T, s *store.Store, acknowledged int) (last int) {
	t.Helper()
	sound(t, s)
	read(t, s, func(tx *store.Tx) error {
		cursors, err := tx.Cursors("")
		if err != nil {
			return err
		}
		last = int(cursors["terminal:hut"])
		if last < acknowledged {
			t.Errorf("message %d was acknowledged, but the last one saved is %d", acknowledged, last)
		}
		waiting, err := tx.Waiting("terminal:hut")
		if err != nil {
			return err
		}
		if len(waiting) != last {
			t.Errorf("%d answers wait for %d messages", len(waiting), last)
		}
		for n := 1; n <= last; n++ {
			if err := checkExchange(t, tx, n); err != nil {
				return err
			}
		}
		return nil
	})
	return last
}

func checkExchange(t *testing.T, tx *store.Tx, n int) error {
	t.Helper()
	asked, found, err := tx.EntryByKey(fmt.Sprintf("terminal:%d", n))
	if err != nil {
		return err
	}
	if !found {
		t.Errorf("message %d is missing", n)
		return nil
	}
	answers, err := tx.AnswersTo(asked.ID)
	if err != nil {
		return err
	}
	changes, err := tx.ChangesBy(asked.ID)
	if len(answers) != 1 || len(changes) != 1 {
		t.Errorf("message %d has %d answers and %d changes, want 1 and 1", n, len(answers), len(changes))
	}
	return err
}

// One file is written to by a program that is killed again and again. Whatever it had said was
// saved is there, and nothing is half there.
func TestKilledManyTimes(t *testing.T) {
	rounds := 60
	if testing.Short() {
		rounds = 10
	}
	path := filepath.Join(t.TempDir(), "hut.db")
	random := rand.New(rand.NewPCG(uint64(rounds), 7))
	last := 0
	for round := range rounds {
		cmd, out := startChild(t, "talk", path)
		// Every fourth is killed while it starts, the others from their first message on, however
		// long a busy machine takes to get there.
		kill := func() {
			time.AfterFunc(time.Duration(3+random.IntN(50))*time.Millisecond, func() { _ = cmd.Process.Kill() })
		}
		if round%4 == 0 {
			kill()
		}
		heard := false
		acknowledged := last
		for {
			line, err := out.ReadString('\n')
			if err != nil {
				if line != "" && !errors.Is(err, io.EOF) {
					t.Fatal(err)
				}
				break // a line without an end was cut off by the kill
			}
			if acknowledged, err = strconv.Atoi(strings.TrimSpace(line)); err != nil {
				t.Fatalf("the child said %q", line)
			}
			if !heard && round%4 != 0 {
				kill()
			}
			heard = true
		}
		_ = cmd.Wait() // it was killed
		s := open(t, path)
		last = checkTalk(t, s, acknowledged)
		closeStore(t, s)
	}
	if last < rounds {
		t.Errorf("only %d messages in %d rounds: the kills came too early to show anything", last, rounds)
	}
	t.Logf("%d kills, %d messages", rounds, last)
}

func backUpForEver(path string) error {
	ctx := context.Background()
	s, err := store.Open(ctx, path, clock)
	if err != nil {
		return err
	}
	for n := 0; ; n++ {
		if err := s.Backup(ctx, path+".backup"); err != nil {
			return err
		}
		fmt.Println(n)
	}
}

// Whenever the program is killed while it backs up, a whole backup is there.
func TestKilledDuringBackup(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hut.db")
	s := open(t, path)
	defer closeStore(t, s)
	project := projectOf(t, s, "Hut")
	for n := 1; n <= 50; n++ {
		write(t, s, func(tx *store.Tx) error { return exchange(tx, project, n) })
	}
	random := rand.New(rand.NewPCG(3, 4))
	for range 15 {
		cmd, out := startChild(t, "backup", path)
		if _, err := out.ReadString('\n'); err != nil { // one backup is done, the next has begun
			t.Fatal(err)
		}
		time.Sleep(time.Duration(random.IntN(12_000)) * time.Microsecond)
		_ = cmd.Process.Kill()
		_ = cmd.Wait()
		restored := open(t, path+".backup")
		checkTalk(t, restored, 50)
		closeStore(t, restored)
	}
}

// tryToWrite opens a database, writes to it, and says what came of it.
func tryToWrite(path string) error {
	ctx := context.Background()
	s, err := store.Open(ctx, path, clock)
	if err == nil {
		err = s.Write(ctx, func(tx *store.Tx) error {
			_, err := tx.Project("Hut")
			return err
		})
	}
	fmt.Printf("%v: %s\n", errors.Is(err, store.ErrReadOnly), store.Sentence(err))
	return nil
}

// asNobody runs tryToWrite as somebody to whom a read-only folder is read-only, which it is not to
// root.
func asNobody(t *testing.T, program, path string) string {
	t.Helper()
	cmd := exec.Command(program)
	if os.Getuid() == 0 {
		cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534}}
	}
	cmd.Dir = "/"
	cmd.Env = append(os.Environ(), childTask+"=try", childPath+"="+path)
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return string(out)
}

func copyFile(t *testing.T, from, to string) {
	t.Helper()
	content, err := os.ReadFile(from)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(to, content, 0o600); err != nil {
		t.Fatal(err)
	}
}

func TestReadOnlyFolder(t *testing.T) {
	base, err := os.MkdirTemp("", "fettle-store") // t.TempDir is closed to others
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = os.Chmod(filepath.Join(base, "shed"), 0o700) // as it was, or it could not be removed
		if err := os.RemoveAll(base); err != nil {
			t.Error(err)
		}
	})
	shed := filepath.Join(base, "shed")
	path := filepath.Join(shed, "hut.db")
	closeStore(t, open(t, path))
	for name, mode := range map[string]os.FileMode{base: 0o755, path: 0o444, shed: 0o555} {
		if err := os.Chmod(name, mode); err != nil {
			t.Fatal(err)
		}
	}
	program := filepath.Join(base, "program")
	copyFile(t, os.Args[0], program)
	if err := os.Chmod(program, 0o755); err != nil {
		t.Fatal(err)
	}
	for name, file := range map[string]string{
		"a database that is there": path,
		"a new database":           filepath.Join(shed, "new.db"),
		"a new folder":             filepath.Join(shed, "more", "new.db"),
	} {
		t.Run(name, func(t *testing.T) {
			if said := asNobody(t, program, file); !strings.HasPrefix(said, "true: ") || !strings.Contains(said, "could not be saved") {
				t.Errorf("ErrReadOnly and its sentence: %s", said)
			}
		})
	}
}
