//go:build unix

package mmtest

import (
	"cmp"
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/mattermost/mattermost/server/public/model"
)

// Person is somebody with an account on the server, logged in.
type Person struct {
	ID     string
	Name   string
	Client *model.Client4
	server *Server
}

// Post says something at the top level of a channel.
func (p *Person) Post(t testing.TB, channel, text string) *model.Post {
	t.Helper()
	return p.send(t, &model.Post{ChannelId: channel, Message: text})
}

// Reply says something in the thread that the post belongs to.
func (p *Person) Reply(t testing.TB, to *model.Post, text string) *model.Post {
	t.Helper()
	return p.send(t, &model.Post{ChannelId: to.ChannelId, RootId: cmp.Or(to.RootId, to.Id), Message: text})
}

func (p *Person) send(t testing.TB, post *model.Post) *model.Post {
	t.Helper()
	sent, _, err := p.Client.CreatePost(t.Context(), post)
	if err != nil {
		t.Fatalf("%s posts %q: %v", p.Name, post.Message, err)
	}
	return sent
}

// Edit replaces the text of a post.
func (p *Person) Edit(t testing.TB, post *model.Post, text string) {
	t.Helper()
	if _, _, err := p.Client.PatchPost(t.Context(), post.Id, &model.PostPatch{Message: &text}); err != nil {
		t.Fatalf("%s edits to %q: %v", p.Name, text, err)
	}
}

// Attach says something with files attached, by name and contents.
func (p *Person) Attach(t testing.TB, channel, text string, files map[string][]byte) *model.Post {
	t.Helper()
	post := &model.Post{ChannelId: channel, Message: text}
	for name, data := range files {
		up, _, err := p.Client.UploadFile(t.Context(), data, channel, name)
		if err != nil {
			t.Fatalf("%s uploads %s: %v", p.Name, name, err)
		}
		post.FileIds = append(post.FileIds, up.FileInfos[0].Id)
	}
	return p.send(t, post)
}

// Files are the files that hang on a post.
func (p *Person) Files(t testing.TB, post *model.Post) []*model.FileInfo {
	t.Helper()
	infos, _, err := p.Client.GetFileInfosForPost(t.Context(), post.Id, "")
	if err != nil {
		t.Fatalf("read the files of a post: %v", err)
	}
	return infos
}

// React puts a sign under a post.
func (p *Person) React(t testing.TB, post *model.Post, emoji string) {
	t.Helper()
	if _, _, err := p.Client.SaveReaction(t.Context(), &model.Reaction{UserId: p.ID, PostId: post.Id, EmojiName: emoji}); err != nil {
		t.Fatalf("%s puts %s under a post: %v", p.Name, emoji, err)
	}
}

// Signs are the signs under a post, in the order in which they were put there.
func (p *Person) Signs(t testing.TB, post *model.Post) []string {
	t.Helper()
	all, _, err := p.Client.GetReactions(t.Context(), post.Id)
	if err != nil {
		t.Fatalf("read the signs under a post: %v", err)
	}
	slices.SortFunc(all, func(a, b *model.Reaction) int { return cmp.Compare(a.CreateAt, b.CreateAt) })
	names := make([]string, len(all))
	for i, r := range all {
		names[i] = r.EmojiName
	}
	return names
}

// Pin pins a post, which the server reports as an edit though the text is the same.
func (p *Person) Pin(t testing.TB, post *model.Post) {
	t.Helper()
	if _, err := p.Client.PinPost(t.Context(), post.Id); err != nil {
		t.Fatalf("%s pins a post: %v", p.Name, err)
	}
}

// Delete deletes a post.
func (p *Person) Delete(t testing.TB, post *model.Post) {
	t.Helper()
	if _, err := p.Client.DeletePost(t.Context(), post.Id); err != nil {
		t.Fatalf("%s deletes a post: %v", p.Name, err)
	}
}

// Direct opens the direct conversation with another account and returns its channel.
func (p *Person) Direct(t testing.TB, userID string) string {
	t.Helper()
	channel, _, err := p.Client.CreateDirectChannel(t.Context(), p.ID, userID)
	if err != nil {
		t.Fatalf("%s opens a direct channel: %v", p.Name, err)
	}
	return channel.Id
}

// Mentions is the number of unread mentions that the server counts for the person there.
func (p *Person) Mentions(t testing.TB, channel string) int64 {
	t.Helper()
	member, _, err := p.Client.GetChannelMember(t.Context(), channel, p.ID, "")
	if err != nil {
		t.Fatalf("read the mentions of %s: %v", p.Name, err)
	}
	return member.MentionCount
}

// Channel makes an open channel with Petra, Gil and the bot in it.
func (s *Server) Channel(t testing.TB) string {
	t.Helper()
	channel := s.ChannelWithoutBot(t)
	s.Invite(t, channel, s.Bot.ID)
	return channel
}

// ChannelWithoutBot makes an open channel with Petra and Gil in it.
func (s *Server) ChannelWithoutBot(t testing.TB) string {
	t.Helper()
	channel, _, err := s.Petra.Client.CreateChannel(t.Context(), &model.Channel{
		TeamId: s.Team, Type: model.ChannelTypeOpen,
		Name: model.NewId(), DisplayName: t.Name()[:min(len(t.Name()), 60)],
	})
	if err != nil {
		t.Fatalf("make a channel: %v", err)
	}
	s.Invite(t, channel.Id, s.Gil.ID)
	// Being added counts as a mention, a moment later; a test that counts must not see that.
	Await(t, "Gil's invitation", func() bool { return s.Gil.Mentions(t, channel.Id) > 0 })
	return channel.Id
}

// Invite has Petra add an account to a channel.
func (s *Server) Invite(t testing.TB, channel, userID string) {
	t.Helper()
	if _, _, err := s.Petra.Client.AddChannelMember(t.Context(), channel, userID); err != nil {
		t.Fatalf("invite to a channel: %v", err)
	}
}

// NewBot makes another bot account in the team; its name only begins with the one given.
func (s *Server) NewBot(t testing.TB, name string) *Bot {
	t.Helper()
	bot, err := s.settleBot(t.Context(), name+"-"+model.NewId()[:8])
	if err != nil {
		t.Fatal(err)
	}
	return bot
}

// As gives the bot's own view of the server.
func (b *Bot) As(s *Server) *Person {
	client := model.NewAPIv4Client(s.URL)
	client.SetToken(b.Token)
	return &Person{ID: b.ID, Name: b.Name, Client: client, server: s}
}

// Posts lists what stands in a channel, oldest first, without the server's own notices.
// Deleted posts are not there any more.
func (s *Server) Posts(t testing.TB, channel string) []*model.Post {
	t.Helper()
	var posts []*model.Post
	for page := 0; ; page++ {
		list, _, err := s.Admin.Client.GetPostsForChannel(t.Context(), channel, page, 200, "", false, false)
		if err != nil {
			t.Fatalf("read a channel: %v", err)
		}
		for _, id := range list.Order {
			if post := list.Posts[id]; post.Type == "" {
				posts = append(posts, post)
			}
		}
		if len(list.Order) < 200 {
			break
		}
	}
	slices.SortStableFunc(posts, func(a, b *model.Post) int { return cmp.Compare(a.CreateAt, b.CreateAt) })
	return posts
}

// Answers lists what the bot has posted in a channel, oldest first.
func (s *Server) Answers(t testing.TB, channel string) []*model.Post {
	t.Helper()
	return slices.DeleteFunc(s.Posts(t, channel), func(p *model.Post) bool { return p.UserId != s.Bot.ID })
}

// AwaitAnswers waits until the bot has posted at least n answers in a channel, for up to 90
// seconds, and returns all of them, oldest first.
func (s *Server) AwaitAnswers(t testing.TB, channel string, n int) []*model.Post {
	t.Helper()
	var answers []*model.Post
	Await(t, fmt.Sprintf("%d answers", n), func() bool {
		answers = s.Answers(t, channel)
		return len(answers) >= n
	})
	return answers
}

// Await waits until something has come about, for up to 90 seconds; then the test fails.
func Await(t testing.TB, what string, done func() bool) {
	t.Helper()
	if err := await(90*time.Second, done); err != nil {
		t.Fatalf("wait for %s: %v", what, err)
	}
}
