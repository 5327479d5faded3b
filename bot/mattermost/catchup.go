package mattermost

import (
	"cmp"
	"context"
	"errors"
	"slices"
	"time"

	"github.com/mattermost/mattermost/server/public/model"
)

const (
	// overlap is how far before the mark a channel is read again, in milliseconds. A post is
	// stored under the time at which its request began, so that one can appear behind another
	// with a later time; what is fetched twice is known by its id.
	overlap = int64(time.Minute / time.Millisecond)

	// On the first run of all, messages are answered that were written since the bot was
	// invited, if that was only so long ago.
	justInvited = int64(15 * time.Minute / time.Millisecond)

	// The mention that made somebody invite the bot stands at most so long before the invitation.
	inviting = int64(10 * time.Minute / time.Millisecond)
)

// catchUp reads what happened in the channel since it was last read, in whatever order the
// server tells it, and handles it oldest first.
func (c *channel) catchUp() {
	err := c.readUp(c.a.ctx)
	var no *refusal
	switch {
	case errors.As(err, &no):
		c.a.log.Info("a channel cannot be read; the bot is no longer in it", "channel", c.id, "reason", no.id)
		c.ask(func() { c.gone = true })
	case err != nil:
		c.a.log.Warn("a channel was not read to the end", "channel", c.id, "error", err)
	}
}

func (c *channel) readUp(ctx context.Context) error {
	if err := c.prepare(ctx); err != nil {
		return err
	}
	since := c.read - overlap
	posts, err := c.a.changedSince(ctx, c.id, since)
	if err != nil {
		return err
	}
	c.noticeInvitation(posts)
	whole := true
	marks := marks(posts, c.read)
	for i, post := range posts {
		if ctx.Err() != nil {
			return ctx.Err()
		}
		on := occasion{late: true, cursor: c.read, since: since}
		if whole {
			on.cursor = marks[i]
		}
		whole = c.handle(post, on) && whole
	}
	if whole && len(marks) > 0 {
		c.read = marks[len(marks)-1]
	}
	c.sendPending()
	return nil
}

// marks gives for each post the time up to which the channel has been read once the post and
// all before it are handled: no further than to the earliest change that is still to come.
func marks(posts []*model.Post, read int64) []int64 {
	marks := make([]int64, len(posts))
	latest := read
	for _, post := range posts {
		latest = max(latest, post.UpdateAt)
	}
	for i := len(posts) - 1; i >= 0; i-- {
		marks[i] = max(read, latest)
		latest = min(latest, posts[i].UpdateAt-1)
	}
	return marks
}

// prepare finds out, once, what kind of channel it is and where reading begins.
func (c *channel) prepare(ctx context.Context) error {
	if c.known {
		return nil
	}
	var info *model.Channel
	err := c.a.rest.call(ctx, "ask about a channel", func(ctx context.Context, client *model.Client4) (response *model.Response, err error) {
		info, response, err = client.GetChannel(ctx, c.id, "")
		return response, err
	})
	if err != nil {
		return err
	}
	c.direct = info.Type == model.ChannelTypeDirect
	if c.project, err = c.a.projectOf(ctx, info); err != nil {
		return err
	}
	if c.read == 0 {
		if err := c.begin(ctx, info); err != nil {
			return err
		}
	}
	c.known = true
	return nil
}

// projectOf names the project that a channel is: by the channel's name in its address, which
// unlike the title seldom changes and which no other channel of the team has.
func (a *account) projectOf(ctx context.Context, info *model.Channel) (string, error) {
	switch info.Type {
	case model.ChannelTypeDirect:
		other, err := a.people.who(ctx, info.GetOtherUserIdForDM(a.id))
		return "direct " + other.account, err
	case model.ChannelTypeGroup:
		return "group " + cmp.Or(info.DisplayName, info.Id), nil
	default:
		return cmp.Or(info.Name, info.Id), nil
	}
}

// begin decides where to begin in a channel of which the desk knows nothing: when the bot
// came into it, but not before the time that an earlier run has certainly seen, and on the
// very first run not before now unless the bot has only just been invited.
func (c *channel) begin(ctx context.Context, info *model.Channel) error {
	posts, err := c.a.newest(ctx, c.id)
	if err != nil {
		return err
	}
	var joined int64
	if info.IsGroupOrDirect() {
		joined = info.CreateAt
	}
	join := lastJoin(posts, c.a.id)
	if join != nil {
		joined = join.CreateAt
	}
	start := max(joined, c.a.began.awake)
	if c.a.began.first && joined >= c.a.began.awake-justInvited {
		start = joined
	}
	c.read, c.floor = start, start
	if join == nil || start != joined {
		return nil
	}
	if call := c.lastCall(posts, join); call != nil {
		c.invited = call.Id
		c.handle(call, occasion{late: true, cursor: start})
	}
	return nil
}

// noticeInvitation has the time between a removal and a new invitation left alone.
func (c *channel) noticeInvitation(posts []*model.Post) {
	join := lastJoin(posts, c.a.id)
	if join == nil || join.CreateAt <= c.floor {
		return
	}
	c.floor = join.CreateAt
	if call := c.lastCall(posts, join); call != nil {
		c.invited = call.Id
	}
}

// lastJoin finds the server's last notice that the account has come into the channel.
func lastJoin(posts []*model.Post, id string) *model.Post {
	for _, post := range slices.Backward(posts) {
		switch post.Type {
		case model.PostTypeAddToChannel:
			if post.GetProp(model.PostPropsAddedUserId) == id {
				return post
			}
		case model.PostTypeJoinChannel:
			if post.UserId == id {
				return post
			}
		}
	}
	return nil
}

// lastCall finds the message that made somebody invite us.
func (c *channel) lastCall(posts []*model.Post, join *model.Post) *model.Post {
	for _, post := range slices.Backward(posts) {
		if post.CreateAt >= join.CreateAt || post.CreateAt < join.CreateAt-inviting {
			continue
		}
		if _, mentioned := readMention(post.Message, *c.a.name.Load()); mentioned && post.UserId == join.UserId && personal(post) {
			return post
		}
	}
	return nil
}

func oldestFirst(posts []*model.Post) {
	slices.SortFunc(posts, func(a, b *model.Post) int {
		return cmp.Or(cmp.Compare(a.CreateAt, b.CreateAt), cmp.Compare(a.Id, b.Id))
	})
}
