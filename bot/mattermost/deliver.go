package mattermost

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"maps"
	"strconv"
	"strings"

	"fettle/bot"

	"github.com/mattermost/mattermost/server/public/model"
)

// answerProp is the property of our posts that says which answer, and which part of it, a
// post is: "ANSWER/QUESTION/PART/PARTS". By it an answer is found that was posted without
// our learning of it. The question's id makes it ours alone: another database on the same
// server counts its answers from 1 too.
const answerProp = "fettle_answer"

// sendPending posts the answers that wait for this channel, oldest first. What cannot be
// posted now is left to the next time.
func (c *channel) sendPending() {
	pending, err := c.a.desk.Pending(c.a.hard, c.place)
	if err != nil {
		c.a.log.Error("the desk does not say which answers wait", "channel", c.id, "error", err)
		return
	}
	for _, answer := range pending {
		post, err := c.send(c.a.ctx, answer)
		var no *refusal
		switch {
		case errors.As(err, &no):
			// It would be refused for ever, and must not keep back those behind it.
			c.a.log.Error("an answer cannot be posted and is dropped", "answer", answer.ID, "error", err)
			post = "refused:" + strconv.FormatInt(answer.ID, 10)
		case err != nil:
			c.a.log.Warn("an answer was not posted yet", "answer", answer.ID, "error", err)
			return
		}
		if err := c.a.desk.Sent(c.a.hard, answer.ID, post); err != nil {
			c.a.doubt(answer.ID)
			c.a.log.Error("the desk could not note that an answer was posted", "answer", answer.ID, "error", err)
			return
		}
		c.a.settled(answer.ID)
	}
}

// send posts an answer, or changes the earlier answer that it replaces, and returns the id
// of its first post.
func (c *channel) send(ctx context.Context, answer bot.Outgoing) (string, error) {
	if answer.Sign != "" && model.IsValidId(key(answer.ReplyTo)) {
		return c.sign(ctx, answer)
	}
	texts := parts(answer.Text, int(c.a.maxPost.Load()))
	if earlier := key(answer.Amends); model.IsValidId(earlier) {
		post, err := c.amend(ctx, answer, earlier, texts)
		var no *refusal
		if !errors.As(err, &no) {
			return post, err
		}
		c.a.log.Info("an answer cannot be changed any more; a new one is posted", "post", earlier, "reason", no.id)
	}
	standing := map[int]*model.Post{}
	if c.a.isDoubtful(answer.ID) {
		var err error
		if standing, err = c.standing(ctx, tagOf(answer), answer.At.UnixMilli()); err != nil {
			return "", err
		}
	}
	return c.post(ctx, answer, tagOf(answer), texts, standing)
}

// post posts the texts that do not stand in the channel yet, in order.
func (c *channel) post(ctx context.Context, answer bot.Outgoing, tag string, texts []string, standing map[int]*model.Post) (first string, err error) {
	root := answer.Thread
	for i, text := range texts {
		post := standing[i+1]
		if post == nil {
			draft := c.draft(answer, tag, i+1, len(texts))
			draft.RootId, draft.Message = root, text
			if i == 0 && len(answer.Files) > 0 {
				draft.FileIds = c.upload(ctx, answer)
			}
			if post, err = c.create(ctx, answer, draft); err != nil {
				return first, err
			}
			root = post.RootId // the thread may be gone, and the rest goes where the first part went
		}
		first = cmp.Or(first, post.Id)
	}
	return first, nil
}

// tagOf names an answer in the property.
func tagOf(answer bot.Outgoing) string {
	return fmt.Sprintf("%d/%s", answer.ID, cmp.Or(key(answer.ReplyTo), strconv.FormatInt(answer.At.UnixMilli(), 10)))
}

// draft is an empty post that carries its name: in the property for ever, and as the pending
// id, by which the server knows a repeated request for half a minute. A part that is added to
// an earlier answer has that one's name but a pending id of its own: the server would give
// back a part that was only just deleted.
func (c *channel) draft(answer bot.Outgoing, tag string, part, of int) *model.Post {
	post := &model.Post{ChannelId: c.id, PendingPostId: fmt.Sprintf("%s:%s/%d", c.a.id, tagOf(answer), part)}
	post.AddProp(answerProp, fmt.Sprintf("%s/%d/%d", tag, part, of))
	return post
}

// create posts one part, as often as it takes. An attempt whose outcome we do not know may
// have succeeded, so the channel is looked through before the next.
func (c *channel) create(ctx context.Context, answer bot.Outgoing, draft *model.Post) (*model.Post, error) {
	tag, part, _ := splitTag(draft)
	wait := backoff{first: c.a.pace.retry}
	for {
		var made *model.Post
		err := c.a.rest.once(ctx, "post an answer", func(ctx context.Context, client *model.Client4) (response *model.Response, err error) {
			made, response, err = client.CreatePost(ctx, draft)
			return response, err
		})
		switch {
		case err == nil:
			return made, nil
		case draft.RootId != "" && threadIsGone(err):
			draft.RootId = ""
			continue
		case final(err):
			return nil, err
		}
		c.a.doubt(answer.ID)
		c.a.log.Warn("posting an answer has failed and is tried again", "answer", answer.ID, "error", err)
		if stopped := wait.pause(ctx); stopped != nil {
			return nil, err
		}
		standing, err := c.standing(ctx, tag, answer.At.UnixMilli())
		if err != nil {
			return nil, err
		}
		// One that was deleted meanwhile was sent all the same, unless it is the part of an
		// earlier answer that had been taken back.
		if post := standing[part]; post != nil && (post.DeleteAt == 0 || tag == tagOf(answer)) {
			return post, nil
		}
	}
}

// threadIsGone recognises the server's two ways of saying that one cannot reply to the root.
func threadIsGone(err error) bool {
	var no *refusal
	if errors.As(err, &no) {
		return strings.HasSuffix(no.id, "create_post.root_id.app_error")
	}
	return strings.HasSuffix(reason(err), "create_post.channel_root_id.app_error")
}

// standing finds the parts of an answer that stand in the channel, or have stood there, by
// their number from 1. They can only be later than the question.
func (c *channel) standing(ctx context.Context, tag string, asked int64) (map[int]*model.Post, error) {
	posts, err := c.a.changedSince(ctx, c.id, asked-1)
	if err != nil {
		return nil, err
	}
	found := map[int]*model.Post{}
	for _, post := range posts {
		if has, part, _ := splitTag(post); post.UserId == c.a.id && post.OriginalId == "" && has == tag {
			if old := found[part]; old == nil || old.DeleteAt != 0 {
				found[part] = post
			}
		}
	}
	return found, nil
}

// splitTag reads the property of one of our posts; its tag is "" if there is none.
func splitTag(post *model.Post) (tag string, part, of int) {
	value, _ := post.GetProp(answerProp).(string)
	fields := strings.Split(value, "/")
	if len(fields) != 4 {
		return "", 0, 0
	}
	part, _ = strconv.Atoi(fields[2])
	of, _ = strconv.Atoi(fields[3])
	return fields[0] + "/" + fields[1], part, of
}

// amend changes the posts of an earlier answer into the new one: the first, then as many of
// the others as there are; it adds what is missing and deletes what is left over.
func (c *channel) amend(ctx context.Context, answer bot.Outgoing, earlier string, texts []string) (string, error) {
	var first *model.Post
	err := c.a.rest.call(ctx, "fetch an earlier answer", func(ctx context.Context, client *model.Client4) (response *model.Response, err error) {
		first, response, err = client.GetPost(ctx, earlier, "")
		return response, err
	})
	if err != nil {
		return "", err
	}
	tag, _, of := splitTag(first)
	if tag == "" {
		tag, of = tagOf(answer), 1
	}
	standing := map[int]*model.Post{1: first}
	if of > 1 || len(texts) > 1 {
		if standing, err = c.standing(ctx, tag, first.CreateAt); err != nil {
			return "", err
		}
		standing[1] = first
		maps.DeleteFunc(standing, func(_ int, post *model.Post) bool { return post.DeleteAt != 0 })
	}
	for i, text := range texts {
		if post := standing[i+1]; post != nil {
			var files []string
			if i == 0 && len(answer.Files) > 0 {
				files = c.upload(ctx, answer)
			}
			if err := c.change(ctx, post, text, fmt.Sprintf("%s/%d/%d", tag, i+1, len(texts)), files); err != nil {
				return "", err
			}
		}
	}
	answer.Thread = first.RootId
	if _, err := c.post(ctx, answer, tag, texts, standing); err != nil {
		return "", err
	}
	for part, post := range standing {
		if part <= len(texts) {
			continue
		}
		if err := c.remove(ctx, post); err != nil {
			return "", err
		}
	}
	return earlier, nil
}

func (c *channel) change(ctx context.Context, post *model.Post, text, tag string, files []string) error {
	props := maps.Clone(post.GetProps())
	props[answerProp] = tag
	patch := &model.PostPatch{Message: &text, Props: &props}
	if replaced := append(model.StringArray{}, files...); len(files) > 0 || len(post.FileIds) > 0 {
		patch.FileIds = &replaced
	}
	return c.a.rest.call(ctx, "change an earlier answer", func(ctx context.Context, client *model.Client4) (*model.Response, error) {
		_, response, err := client.PatchPost(ctx, post.Id, patch)
		return response, err
	})
}

func (c *channel) remove(ctx context.Context, post *model.Post) error {
	return c.a.rest.call(ctx, "take back a part of an answer", func(ctx context.Context, client *model.Client4) (*model.Response, error) {
		return client.DeletePost(ctx, post.Id)
	})
}
