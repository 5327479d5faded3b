package main_test

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/mattermost/mattermost/server/public/model"

	"fettle/bot/mattermost/mmtest"
)

// program builds fettle once for all tests of this file.
var program = sync.OnceValues(func() (string, error) {
	folder, err := os.MkdirTemp("", "fettle-program")
	if err != nil {
		return "", err
	}
	path := filepath.Join(folder, "fettle")
	out, err := exec.Command("go", "build", "-o", path, ".").CombinedOutput()
	if err != nil {
		return "", fmt.Errorf("build: %w\n%s", err, out)
	}
	return path, nil
})

// TestMain takes the built program away again.
func TestMain(m *testing.M) {
	code := m.Run()
	if path, err := program(); err == nil {
		os.RemoveAll(filepath.Dir(path))
	}
	os.Exit(code)
}

func fettleBinary(t *testing.T) string {
	t.Helper()
	path, err := program()
	if err != nil {
		t.Fatal(err)
	}
	return path
}

// served is a running `fettle serve`.
type served struct {
	cmd *exec.Cmd
	log *bytes.Buffer
}

func serve(t *testing.T, s *mmtest.Server, db string) *served {
	t.Helper()
	run := &served{cmd: exec.Command(fettleBinary(t), "serve", "--db", db), log: &bytes.Buffer{}}
	run.cmd.Env = append(os.Environ(), "FETTLE_MATTERMOST_URL="+s.URL, "FETTLE_MATTERMOST_TOKEN="+s.Bot.Token, "FETTLE_LISTEN=127.0.0.1:0")
	run.cmd.Stderr, run.cmd.Stdout = run.log, run.log
	if err := run.cmd.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(run.kill)
	return run
}

// kill ends the program as a power cut would.
func (s *served) kill() {
	_ = s.cmd.Process.Kill()
	_ = s.cmd.Wait()
}

// ask runs `fettle ask` and gives what it printed.
func ask(t *testing.T, args ...string) string {
	t.Helper()
	out, err := exec.Command(fettleBinary(t), append([]string{"ask"}, args...)...).CombinedOutput()
	if err != nil {
		t.Fatalf("ask %q: %v: %s", args, err, out)
	}
	return string(out)
}

// TestServesOnARealServer has two people talk to the program on a real chat server: the
// answer comes where it was asked, and the log keeps both.
func TestServesOnARealServer(t *testing.T) {
	s := mmtest.Start(t)
	channel := s.Channel(t)
	db := filepath.Join(t.TempDir(), "hut.db")
	run := serve(t, s, db)

	question := s.Petra.Post(t, channel, "@fettle rough size for 600 by 45 finished")
	answers := s.AwaitAnswers(t, channel, 1)
	if !strings.Contains(answers[0].Message, "700 × 65 mm") || answers[0].RootId != "" {
		t.Errorf("answered %q in thread %q, want 700 × 65 mm at top level", answers[0].Message, answers[0].RootId)
	}
	s.Gil.Reply(t, question, "@fettle and at 32 thick?")
	s.Gil.Reply(t, question, "@fettle rough size for 500 by 40")
	answers = s.AwaitAnswers(t, channel, 3)
	if last := answers[2]; !strings.Contains(last.Message, "600 × 60 mm") || last.RootId != question.Id {
		t.Errorf("answered %q in thread %q, want 600 × 60 mm in %q", last.Message, last.RootId, question.Id)
	}
	s.Gil.Post(t, channel, "@fettle what happened today")
	if got := s.AwaitAnswers(t, channel, 4)[3].Message; !strings.Contains(got, "rough size for 600 by 45 finished") || !strings.Contains(got, "rough size for 500 by 40") {
		t.Errorf("the log says %q", got)
	}
	backsUpWhileRunning(t, db)
	if out, err := exec.Command(fettleBinary(t), "serve", "--db", db, "--mattermost-url", s.URL, "--mattermost-token", s.Bot.Token).CombinedOutput(); err == nil || !strings.Contains(string(out), "another fettle is running") {
		t.Errorf("a second copy: %v: %s", err, out)
	}
	stops(t, run)
	if strings.Contains(run.log.String(), s.Bot.Token) {
		t.Error("the token stands in the log")
	}
}

func backsUpWhileRunning(t *testing.T, db string) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "copy.db")
	if out, err := exec.Command(fettleBinary(t), "backup", "--db", db, file).CombinedOutput(); err != nil {
		t.Fatalf("backup: %v: %s", err, out)
	}
	if got := ask(t, "--db", file, "list the projects"); !strings.Contains(got, "workshop") {
		t.Errorf("the copy answers %q", got)
	}
}

// stops ends the program as an operator does; it must go within ten seconds, with status 0.
func stops(t *testing.T, run *served) {
	t.Helper()
	if err := run.cmd.Process.Signal(os.Interrupt); err != nil {
		t.Fatal(err)
	}
	done := make(chan error, 1)
	go func() { done <- run.cmd.Wait() }()
	select {
	case err := <-done:
		if err != nil {
			t.Errorf("stopped with %v: %s", err, run.log)
		}
	case <-time.After(10 * time.Second):
		t.Error("does not stop within ten seconds")
	}
}

// TestARefusedTokenEndsIt shows the sentence and the exit status, and no token.
func TestARefusedTokenEndsIt(t *testing.T) {
	s := mmtest.Start(t)
	const token = "notatokennotatokennotatoke"
	out, err := exec.Command(fettleBinary(t), "serve", "--listen", "127.0.0.1:0", "--db", filepath.Join(t.TempDir(), "x.db"), "--mattermost-url", s.URL, "--mattermost-token", token).CombinedOutput()
	var exit *exec.ExitError
	if !errors.As(err, &exit) || exit.ExitCode() != 1 || !strings.Contains(string(out), "refuses the bot's token") {
		t.Errorf("a refused token: %v: %s", err, out)
	}
	if strings.Contains(string(out), token) {
		t.Errorf("the token is printed: %s", out)
	}
}

const (
	kills    = 50
	messages = 150
)

// TestKilledAtAnyMoment kills the program 50 times at random moments while two people write,
// and restarts the chat server once on top: in the end every message has exactly one answer.
func TestKilledAtAnyMoment(t *testing.T) {
	if testing.Short() {
		t.Skip("takes a minute or two")
	}
	s := mmtest.Start(t)
	channels := []string{s.Channel(t), s.Channel(t)}
	db := filepath.Join(t.TempDir(), "hut.db")
	run := serve(t, s, db)

	s.Petra.Post(t, channels[0], "@fettle kerf is 3")
	s.Gil.Post(t, channels[1], "@fettle kerf is 3")
	s.AwaitAnswers(t, channels[0], 1)
	s.AwaitAnswers(t, channels[1], 1)

	seed := rand.Uint64()
	t.Logf("seed %d", seed)
	random := rand.New(rand.NewPCG(seed, 1))
	stopped := make(chan struct{})
	go func() {
		defer close(stopped)
		writeStream(t, s, channels)
	}()
	for range kills {
		time.Sleep(time.Duration(100+random.IntN(900)) * time.Millisecond)
		run.kill()
		run = serve(t, s, db)
	}
	<-stopped
	for i, channel := range channels {
		answeredOnce(t, s, channel, i)
	}
	stops(t, run)
}

// writeStream has Petra and Gil write in turn, each message with a number of its own.
func writeStream(t *testing.T, s *mmtest.Server, channels []string) {
	for n := range messages {
		who, channel := s.Petra, channels[n%2]
		if n%2 == 1 {
			who = s.Gil
		}
		text := fmt.Sprintf("@fettle rough size for %d by 45", 1000+n)
		if n%5 == 0 {
			text = fmt.Sprintf("@fettle note: number %d", 1000+n)
		}
		who.Post(t, channel, text)
		time.Sleep(150 * time.Millisecond)
	}
}

// answeredOnce waits until every message in the channel has its answer, and a while longer
// for any that might come twice.
func answeredOnce(t *testing.T, s *mmtest.Server, channel string, parity int) {
	t.Helper()
	s.AwaitAnswers(t, channel, messages/2+1)
	time.Sleep(3 * time.Second)
	seen := map[int]int{}
	answers := s.Answers(t, channel)
	for _, a := range answers {
		for n := parity; n < messages; n += 2 {
			if strings.Contains(a.Message, fmt.Sprintf("Rough %d × 65", 1100+n)) || strings.Contains(a.Message, fmt.Sprintf("number %d", 1000+n)) {
				seen[n]++
			}
		}
	}
	for n := parity; n < messages; n += 2 {
		if seen[n] != 1 {
			t.Errorf("message %d was answered %d times", 1000+n, seen[n])
		}
	}
	if len(answers) != messages/2+1 {
		t.Errorf("%d answers to %d messages", len(answers), messages/2+1)
	}
}

// TestTheChatServerRestarts has messages written before, while and after the chat server is
// restarted: each one is answered once.
func TestTheChatServerRestarts(t *testing.T) {
	s := mmtest.Start(t)
	channel := s.Channel(t)
	run := serve(t, s, filepath.Join(t.TempDir(), "hut.db"))
	s.Petra.Post(t, channel, "@fettle rough size for 1000 by 45")
	s.AwaitAnswers(t, channel, 1)
	for i := 1; i <= 3; i++ {
		s.Petra.Post(t, channel, fmt.Sprintf("@fettle rough size for %d by 45", 1000+10*i))
		s.Restart(t)
		s.Gil.Post(t, channel, fmt.Sprintf("@fettle rough size for %d by 45", 1005+10*i))
	}
	s.AwaitAnswers(t, channel, 7)
	time.Sleep(3 * time.Second)
	answers := s.Answers(t, channel)
	for _, want := range []int{1100, 1110, 1115, 1120, 1125, 1130, 1135} {
		n := 0
		for _, a := range answers {
			if strings.Contains(a.Message, fmt.Sprintf("Rough %d × 65", want)) {
				n++
			}
		}
		if n != 1 {
			t.Errorf("the message for %d was answered %d times", want, n)
		}
	}
	stops(t, run)
}

// TestTalksAsPeopleDo shows on a real server what the desk and the connection do together:
// a question that stays one's own, an edit that amends the answer in place, a deletion that
// is said once, a channel that is listened to, and nobody called by an answer.
func TestTalksAsPeopleDo(t *testing.T) {
	s := mmtest.Start(t)
	channel := s.Channel(t)
	run := serve(t, s, filepath.Join(t.TempDir(), "hut.db"))

	s.Petra.Post(t, channel, "@fettle rough size 74.2 x 3.8 x 1.6")
	s.AwaitAnswers(t, channel, 1)
	s.Gil.Post(t, channel, "kettle's on")
	s.Petra.Post(t, channel, "@fettle cm")
	if got := s.AwaitAnswers(t, channel, 2)[1].Message; !strings.Contains(got, "842 × 58") {
		t.Errorf("the reply to the question is answered with %q", got)
	}

	kerf := s.Gil.Post(t, channel, "@fettle kerf is 2.8")
	answer := s.AwaitAnswers(t, channel, 3)[2]
	s.Gil.Edit(t, kerf, "@fettle kerf is 3.2")
	mmtest.Await(t, "the amended answer", func() bool {
		for _, a := range s.Answers(t, channel) {
			if a.Id == answer.Id && strings.Contains(a.Message, "3.2 mm") {
				return true
			}
		}
		return false
	})
	s.Gil.Delete(t, kerf)
	if got := s.AwaitAnswers(t, channel, 4)[3].Message; !strings.Contains(got, "scratch that") {
		t.Errorf("a deletion is answered with %q", got)
	}

	s.Petra.Post(t, channel, "@fettle listen here")
	s.AwaitAnswers(t, channel, 5)
	for _, text := range []string{"see you at 6", "2 of us", "@gil pass me the 5 mm drill"} {
		s.Gil.Post(t, channel, text)
	}
	mentions := s.Gil.Mentions(t, channel)
	s.Petra.Post(t, channel, "note: @all **@channel** @gil come at six")
	got := s.AwaitAnswers(t, channel, 6)
	if len(got) != 6 || !strings.Contains(got[5].Message, "come at six") {
		t.Errorf("in a channel that is listened to, %d answers: %q", len(got), messagesOf(got))
	}
	if now := s.Gil.Mentions(t, channel); now > mentions+1 { // the note itself calls him once
		t.Errorf("Gil was called %d times by a note and its answer", now-mentions)
	}
	stops(t, run)
}

func messagesOf(posts []*model.Post) []string {
	texts := make([]string, len(posts))
	for i, p := range posts {
		texts[i] = p.Message
	}
	return texts
}
