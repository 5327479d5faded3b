//go:build unix

package mmtest_test

import (
	"testing"

	"fettle/bot/mattermost/mmtest"
)

func TestServerKeepsWhatWasSaidOverARestart(t *testing.T) {
	server := mmtest.Start(t)
	channel := server.Channel(t)
	said := server.Petra.Post(t, channel, "Gil, are the slats planed?")
	server.Gil.Reply(t, said, "five of six")
	server.Restart(t)
	posts := server.Posts(t, channel)
	if len(posts) != 2 || posts[1].RootId != said.Id {
		t.Fatalf("after the restart there are %d posts, want the question and its reply", len(posts))
	}
	server.Gil.Delete(t, posts[1])
	if left := server.Posts(t, channel); len(left) != 1 {
		t.Errorf("after the deletion there are %d posts, want 1", len(left))
	}
}

func TestMentionsAreCounted(t *testing.T) {
	server := mmtest.Start(t)
	channel := server.Channel(t)
	before := server.Gil.Mentions(t, channel)
	server.Petra.Post(t, channel, "@gil the glue is off")
	mmtest.Await(t, "the mention", func() bool { return server.Gil.Mentions(t, channel) == before+1 })
}
