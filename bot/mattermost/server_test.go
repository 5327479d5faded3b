//go:build unix

package mattermost_test

import (
	"context"
	"fmt"
	"log/slog"
	"strings"
	"sync"
	"testing"
	"time"

	"fettle/bot"
	"fettle/bot/mattermost"
	"fettle/bot/mattermost/mmtest"

	"github.com/mattermost/mattermost/server/public/model"
)

// lines sends the log to the test's own.
type lines struct{ t testing.TB }

func (l lines) Write(line []byte) (int, error) {
	l.t.Log(strings.TrimSpace(string(line)))
	return len(line), nil
}

// live runs the adapter until the returned function is called.
func live(t *testing.T, cfg mattermost.Config, d *desk, pace mattermost.Pace) (stop func()) {
	t.Helper()
	cfg.Logger = slog.New(slog.NewTextHandler(lines{t}, nil))
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- mattermost.RunAt(ctx, cfg, d, pace) }()
	stopped := false
	stop = func() {
		if stopped {
			return
		}
		stopped = true
		cancel()
		select {
		case err := <-ended:
			if err != nil {
				t.Errorf("Run = %v, want nil at the end", err)
			}
		case <-time.After(10 * time.Second):
			t.Error("the bot has not stopped within 10 s")
		}
	}
	t.Cleanup(stop)
	return stop
}

func onServer(t *testing.T, server *mmtest.Server, d *desk) (stop func()) {
	t.Helper()
	return live(t, mattermost.Config{URL: server.URL, Token: server.Bot.Token}, d, mattermost.Pace{})
}

// experienced is a desk that has read up to now elsewhere, so that a bot with it leaves alone
// what other tests have said on the same server.
func experienced() *desk {
	d := newDesk()
	d.places["mattermost:elsewhere"] = time.Now().UnixMilli()
	return d
}

func TestAnswersWhereItIsAsked(t *testing.T) {
	server := mmtest.Start(t)
	d := experienced()
	channel := server.Channel(t)
	direct := server.Petra.Direct(t, server.Bot.ID)
	onServer(t, server, d)

	server.Petra.Post(t, channel, "@fettle good morning")
	server.AwaitAnswers(t, channel, 1) // now it is connected
	server.Petra.Post(t, channel, "@fettle: rough size for 600 by 45")
	top := server.AwaitAnswers(t, channel, 2)[1]
	if top.Message != "heard: rough size for 600 by 45" || top.RootId != "" {
		t.Errorf("at top level the answer is %q under %q", top.Message, top.RootId)
	}

	root := server.Gil.Post(t, channel, "what about the slats")
	server.Gil.Reply(t, root, "@Fettle how many clamps?")
	reply := server.AwaitAnswers(t, channel, 3)[2]
	if reply.Message != "heard: how many clamps?" || reply.RootId != root.Id {
		t.Errorf("in a thread the answer is %q under %q, want it under %q", reply.Message, reply.RootId, root.Id)
	}

	server.Petra.Post(t, direct, "open time at 12 degrees")
	private := server.AwaitAnswers(t, direct, 1)[0]
	if private.Message != "heard: open time at 12 degrees" || private.RootId != "" {
		t.Errorf("in a direct channel the answer is %q under %q", private.Message, private.RootId)
	}

	heard := d.messages(channel)[1:]
	if got := texts(heard); got != "rough size for 600 by 45 | what about the slats | how many clamps?" {
		t.Fatalf("heard %s", got)
	}
	first := heard[0]
	if first.Who != "Petra" || first.WhoKey != server.Petra.ID || !first.Mentioned || first.Direct || first.Late {
		t.Errorf("the first message was handed over as %+v", first)
	}
	if first.Project == "" || d.messages(direct)[0].Project != "direct petra" {
		t.Errorf("the projects are %q and %q", first.Project, d.messages(direct)[0].Project)
	}
	if heard[1].Mentioned || heard[2].Thread != root.Id || !d.messages(direct)[0].Direct {
		t.Errorf("the facts are wrong: %+v", heard)
	}
}

func TestNeverAnswersPrograms(t *testing.T) {
	server := mmtest.Start(t)
	d := experienced()
	channel := server.Channel(t)
	other := server.NewBot(t, "bleep").As(server)
	server.Invite(t, channel, other.ID)
	onServer(t, server, d)

	hook, _, err := server.Admin.Client.CreateIncomingWebhook(t.Context(), &model.IncomingWebhook{ChannelId: channel, DisplayName: "hook"})
	if err != nil {
		t.Fatal(err)
	}
	other.Post(t, channel, "@fettle rough size for 1 by 1")
	payload := &model.IncomingWebhookRequest{Text: "@fettle rough size for 2 by 2"}
	response, err := server.Admin.Client.HTTPClient.Post(server.URL+"/hooks/"+hook.Id, "application/json", jsonOf(t, payload))
	if err != nil || response.StatusCode != 200 {
		t.Fatalf("post by webhook: %v %v", response, err)
	}
	header := "@fettle says"
	if _, _, err := server.Petra.Client.PatchChannel(t.Context(), channel, &model.ChannelPatch{Header: &header}); err != nil {
		t.Fatal(err)
	}
	server.Petra.Post(t, channel, "@all @here @channel the kettle is on")
	server.Petra.Post(t, channel, "@fettle last")
	server.AwaitAnswers(t, channel, 1)
	if got := texts(d.messages(channel)); got != "@all @here @channel the kettle is on | last" {
		t.Errorf("heard %s", got)
	}
	if d.messages(channel)[0].Mentioned {
		t.Error("@all was taken for a mention of the bot")
	}
}

func TestAnEditAmendsTheAnswerInItsPlace(t *testing.T) {
	server := mmtest.Start(t)
	d := experienced()
	channel := server.Channel(t)
	onServer(t, server, d)
	asked := server.Petra.Post(t, channel, "@fettle a rail of 85")
	answer := server.AwaitAnswers(t, channel, 1)[0]
	server.Petra.Pin(t, asked) // reported as an edit
	server.Petra.Edit(t, asked, "@fettle a rail of 83")
	mmtest.Await(t, "the new answer", func() bool {
		answers := server.Answers(t, channel)
		return len(answers) == 1 && answers[0].Id == answer.Id && answers[0].Message == "heard: a rail of 83"
	})
	if n := d.count("amend mattermost:" + asked.Id); n != 1 {
		t.Errorf("the desk was told of %d edits, want 1", n)
	}
	if answers := server.Answers(t, channel); answers[0].GetProp("from_bot") == nil {
		t.Error("the changed answer is no longer marked as a bot's")
	}

	// The answer was deleted meanwhile: a new one is posted.
	server.Admin.Delete(t, answer)
	server.Petra.Edit(t, asked, "@fettle a rail of 82")
	if again := server.AwaitAnswers(t, channel, 1)[0]; again.Id == answer.Id || again.Message != "heard: a rail of 82" {
		t.Errorf("after its deletion the answer is %q", again.Message)
	}
}

func TestALongAnswerIsSplitAndAmended(t *testing.T) {
	server := mmtest.Start(t)
	d := experienced()
	d.reply = func(m bot.Message) string {
		var n int
		fmt.Sscanf(m.Text, "list %d", &n)
		return strings.Repeat("a slat of 830 × 70 × 22, planed\n\n", n)
	}
	channel := server.Channel(t)
	onServer(t, server, d)
	asked := server.Petra.Post(t, channel, "@fettle list 1200")
	answers := server.AwaitAnswers(t, channel, 3)
	for _, edit := range []struct {
		n, posts int
	}{{600, 2}, {10, 1}, {1100, 3}} {
		server.Petra.Edit(t, asked, fmt.Sprintf("@fettle list %d", edit.n))
		mmtest.Await(t, fmt.Sprintf("the answer with %d lines", edit.n), func() bool {
			now, lines := server.Answers(t, channel), 0
			for _, post := range now {
				lines += strings.Count(post.Message, "830")
			}
			return len(now) == edit.posts && lines == edit.n && now[0].Id == answers[0].Id
		})
	}
}

func TestADeletionIsReported(t *testing.T) {
	server := mmtest.Start(t)
	d := experienced()
	channel := server.Channel(t)
	stop := onServer(t, server, d)
	first := server.Petra.Post(t, channel, "the sill is 812")
	second := server.Petra.Post(t, channel, "the head is 806")
	mmtest.Await(t, "both messages", func() bool { return len(d.messages(channel)) == 2 })
	server.Petra.Delete(t, first)
	mmtest.Await(t, "the deletion", func() bool { return len(d.changes()) == 1 })
	if gone := d.changes()[0]; gone.Key != "mattermost:"+first.Id || gone.Text != "" {
		t.Errorf("withdrawn: %+v", gone)
	}
	stop()
	server.Petra.Delete(t, second)
	onServer(t, server, d)
	mmtest.Await(t, "the deletion in its absence", func() bool { return d.count("withdraw mattermost:"+second.Id) > 0 })
}

func TestWhatWasSaidInItsAbsenceIsAnsweredOnce(t *testing.T) {
	server := mmtest.Start(t)
	d := experienced()
	channel := server.Channel(t)
	stop := onServer(t, server, d)
	early := server.Petra.Post(t, channel, "@fettle 0")
	server.AwaitAnswers(t, channel, 1)
	stop()
	server.Petra.Post(t, channel, "@fettle 1")
	root := server.Gil.Post(t, channel, "an aside")
	server.Gil.Reply(t, root, "@fettle 2")
	late := server.Petra.Post(t, channel, "@fettle 3x")
	server.Petra.Edit(t, late, "@fettle 3")
	server.Petra.Edit(t, early, "@fettle 0 and a half")
	fresh := server.ChannelWithoutBot(t)
	call := server.Petra.Post(t, fresh, "@fettle 4")
	server.Petra.Post(t, fresh, "nobody there?")
	server.Invite(t, fresh, server.Bot.ID)
	server.Gil.Post(t, fresh, "@fettle 5")

	stop = onServer(t, server, d)
	answers := server.AwaitAnswers(t, channel, 4)
	server.AwaitAnswers(t, fresh, 2)
	stop()
	onServer(t, server, d) // everything is fetched once more
	server.Petra.Post(t, channel, "@fettle 6")
	server.AwaitAnswers(t, channel, 5)

	if got := texts(d.messages(channel)); got != "0 and a half | 1 | an aside | 2 | 3 | 6" {
		t.Errorf("heard %s", got)
	}
	if got := texts(d.messages(fresh)); got != "4 | 5" || d.messages(fresh)[0].Key != "mattermost:"+call.Id {
		t.Errorf("in the new channel heard %s", got)
	}
	if m := d.messages(channel)[1]; !m.Late {
		t.Errorf("a message from its absence is not marked late: %+v", m)
	}
	said := map[string]int{}
	for _, post := range append(server.Answers(t, channel), server.Answers(t, fresh)...) {
		said[post.Message]++
	}
	for _, want := range []string{"0 and a half", "1", "2", "3", "4", "5", "6"} {
		if said["heard: "+want] != 1 {
			t.Errorf("%q was answered %d times", want, said["heard: "+want])
		}
	}
	if answers[0].Id == "" || len(said) != 7 {
		t.Errorf("the answers are %v", said)
	}
}

func TestAServerRestartInTheMiddle(t *testing.T) {
	server := mmtest.Start(t)
	d := experienced()
	channel := server.Channel(t)
	onServer(t, server, d)
	server.Petra.Post(t, channel, "@fettle 0")
	server.AwaitAnswers(t, channel, 1)
	for round := range 3 {
		server.Petra.Post(t, channel, fmt.Sprintf("@fettle before %d", round))
		if round == 1 {
			server.Kill(t)
			server.Resume(t)
		} else {
			server.Restart(t)
		}
		server.Petra.Post(t, channel, fmt.Sprintf("@fettle after %d", round))
	}
	answers := server.AwaitAnswers(t, channel, 7)
	mmtest.Await(t, "the desk to know", d.allSent)
	said := map[string]int{}
	for _, post := range answers {
		said[post.Message]++
	}
	if len(answers) != 7 || len(said) != 7 {
		t.Errorf("seven questions have these answers: %v", said)
	}
}

func TestNobodyIsCalledByAnAnswer(t *testing.T) {
	server := mmtest.Start(t)
	d := experienced()
	channel := server.Channel(t)
	onServer(t, server, d)
	calls := []string{
		"@all", `\@all`, "**@all**", "@CHANNEL", "@here", "@petra", "@Gil.", "_@gil_", "＠all", "&#64;all", "&commat;gil",
		"@&#97;ll", "x.@all", "(@gil)", "[@gil](https://hut.example)", "> @all", "| @gil |\n|---|\n| @all |", "a\u00e9@all", "@\\_gil",
		"`a` @gil `b`", "``` @all", "~~@gil~~", "<@gil>", "# @all", ":@gil", "-@gil-",
	}
	// First that the check can fail: unless made harmless these do call.
	as := server.Bot.As(server)
	raw := []string{"@all", `\@all`, "**@all**", "@CHANNEL", "x.@gil"}
	for _, call := range raw {
		before := server.Gil.Mentions(t, channel)
		as.Post(t, channel, call)
		mmtest.Await(t, "the call of "+call, func() bool { return server.Gil.Mentions(t, channel) == before+1 })
	}

	server.Invite(t, channel, server.Admin.ID) // writing would count as having read one's mentions
	petra, gil := server.Petra.Mentions(t, channel), server.Gil.Mentions(t, channel)
	for i, call := range calls {
		d.mu.Lock()
		d.reply = func(bot.Message) string { return "say " + call }
		d.mu.Unlock()
		server.Admin.Post(t, channel, "@fettle go on")
		server.AwaitAnswers(t, channel, len(raw)+i+1)
	}
	time.Sleep(time.Second) // the server counts mentions after it has answered the request
	if now := server.Gil.Mentions(t, channel); now != gil {
		t.Errorf("Gil was called %d times", now-gil)
	}
	if now := server.Petra.Mentions(t, channel); now != petra {
		t.Errorf("Petra was called %d times", now-petra)
	}
}

func TestAReminderIsPostedWithoutAMessage(t *testing.T) {
	server := mmtest.Start(t)
	d := experienced()
	channel := server.Channel(t)
	onServer(t, server, d)
	server.Petra.Post(t, channel, "@fettle hello")
	server.AwaitAnswers(t, channel, 1)
	d.remind(channel, "the clamps can come off")
	if got := server.AwaitAnswers(t, channel, 2)[1].Message; got != "the clamps can come off" {
		t.Errorf("the reminder is %q", got)
	}
}

func TestBelowADeletedRootTheAnswerIsAtTopLevel(t *testing.T) {
	server := mmtest.Start(t)
	d := experienced()
	channel := server.Channel(t)
	root := server.Petra.Post(t, channel, "about the door")
	var once sync.Once
	d.hear = func(_ context.Context, m bot.Message) error {
		if m.Mentioned && m.Place == "mattermost:"+channel {
			once.Do(func() { server.Petra.Delete(t, root) })
		}
		return nil
	}
	onServer(t, server, d)
	server.Gil.Reply(t, root, "@fettle which hinge?")
	if answer := server.AwaitAnswers(t, channel, 1)[0]; answer.RootId != "" {
		t.Errorf("the answer is under %q, want it at top level", answer.RootId)
	}
}

func TestAnAnswerSentBeforeACrashIsNotSentAgain(t *testing.T) {
	server := mmtest.Start(t)
	d := experienced()
	channel := server.Channel(t)
	stop := onServer(t, server, d)
	server.Petra.Post(t, channel, "@fettle one")
	server.AwaitAnswers(t, channel, 1)
	mmtest.Await(t, "the desk to know", d.allSent)
	stop()
	d.mu.Lock()
	clear(d.sent) // as if the crash had come between the post and the note of it
	d.mu.Unlock()
	onServer(t, server, d)
	mmtest.Await(t, "the desk to know again", d.allSent)
	server.Petra.Post(t, channel, "@fettle two")
	if answers := server.AwaitAnswers(t, channel, 2); len(answers) != 2 || answers[1].Message != "heard: two" {
		t.Errorf("there are %d answers, want 2", len(answers))
	}
}
