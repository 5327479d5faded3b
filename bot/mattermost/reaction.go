package mattermost

import (
	"cmp"
	"context"
	"time"

	"fettle/bot"

	"github.com/mattermost/mattermost/server/public/model"
)

// signs are the reactions that mean something, by the server's names for them.
var signs = map[string]string{
	"white_check_mark": bot.SignCheck, "heavy_check_mark": bot.SignCheck, "ballot_box_with_check": bot.SignCheck,
	"+1": bot.SignThumb, "thumbsup": bot.SignThumb,
	"one": "1", "two": "2", "three": "3", "four": "4", "five": "5", "six": "6", "seven": "7", "eight": "8", "nine": "9", "keycap_ten": "10",
}

// reactTo tells the desk of every sign that stands under one of our posts: after a gap nobody
// knows which of them are new.
func (c *channel) reactTo(post *model.Post) {
	if post.Metadata == nil || post.DeleteAt != 0 {
		return
	}
	for _, r := range post.Metadata.Reactions {
		if r.UserId != c.a.id {
			c.react(r)
		}
	}
}

// react tells the desk of a sign that a person put under a post. Whoever put it sees what comes
// of it; what cannot be stored is read again with the channel.
func (c *channel) react(r *model.Reaction) {
	sign, known := signs[r.EmojiName]
	if !known || r.DeleteAt != 0 {
		return
	}
	c.guard("a reaction under "+r.PostId, func() {
		writer, err := c.a.people.who(c.a.ctx, r.UserId)
		if err == nil && !writer.alien {
			err = c.a.desk.React(c.a.hard, bot.Reaction{
				Key:   prefix + r.PostId + ":" + r.UserId + ":" + sign + ":" + time.UnixMilli(r.CreateAt).UTC().Format("20060102T150405.000"),
				Place: c.place, Project: c.project, Post: r.PostId,
				WhoKey: r.UserId, Who: writer.name, Sign: sign, At: time.UnixMilli(r.CreateAt),
			})
		}
		if err != nil {
			c.a.log.Error("a reaction was not handled", "post", r.PostId, "error", err)
			return
		}
		c.sendPending()
	})
}

// outSigns are the server's names for the signs that we put ourselves.
var outSigns = map[string]string{bot.SignThumb: "+1", bot.SignCheck: "white_check_mark"}

// sign puts a sign on the message that an answer is to, instead of a post.
func (c *channel) sign(ctx context.Context, answer bot.Outgoing) (string, error) {
	post := key(answer.ReplyTo)
	err := c.a.rest.call(ctx, "put a sign on a message", func(ctx context.Context, client *model.Client4) (*model.Response, error) {
		_, response, err := client.SaveReaction(ctx, &model.Reaction{UserId: c.a.id, PostId: post,
			EmojiName: cmp.Or(outSigns[answer.Sign], "+1"), CreateAt: answer.At.UnixMilli()})
		return response, err
	})
	return "sign:" + post, err
}
