package mattermost

import (
	"context"
	"maps"
	"slices"

	"github.com/mattermost/mattermost/server/public/model"
)

const (
	pageSize   = 200  // the most posts that the server gives in a page
	mostSince  = 1000 // the most changes that it gives at once, chosen in no order
	mostPages  = 500  // of one channel's past; a channel that busy is not ours to read
	lookBehind = 1    // pages before the mark, for old posts that were edited
)

// changedSince gives what was written, edited or deleted in a channel after a time in the
// server's milliseconds, oldest first. Old posts come too when they got a reply or a
// reaction, and so do the old texts of edited posts.
//
// When more has changed than the server tells at once, which changes it tells is left to
// chance. Then the channel is read back page by page as well, so that no new post and no
// edit of a recent one is missed; of deletions only those told are known.
func (a *account) changedSince(ctx context.Context, channel string, since int64) ([]*model.Post, error) {
	since = max(since, 1)
	var list *model.PostList
	err := a.rest.call(ctx, "ask what is new", func(ctx context.Context, client *model.Client4) (response *model.Response, err error) {
		list, response, err = client.GetPostsSince(ctx, channel, since, false)
		return response, err
	})
	if err != nil {
		return nil, err
	}
	found := map[string]*model.Post{}
	for _, post := range inOrder(list) {
		found[post.Id] = post
	}
	if len(found) >= mostSince {
		err = a.readBack(ctx, channel, since, found)
	}
	posts := slices.Collect(maps.Values(found))
	oldestFirst(posts)
	return posts, err
}

// inOrder leaves out the posts that only come along because they head a thread.
func inOrder(list *model.PostList) []*model.Post {
	var posts []*model.Post
	for _, id := range list.Order {
		if post := list.Posts[id]; post != nil {
			posts = append(posts, post)
		}
	}
	return posts
}

// newest gives the last page of a channel, oldest first.
func (a *account) newest(ctx context.Context, channel string) ([]*model.Post, error) {
	page, err := a.pageBefore(ctx, channel, "")
	oldestFirst(page)
	return page, err
}

// pageBefore gives up to a page of posts before an anchor, or the newest without one.
func (a *account) pageBefore(ctx context.Context, channel, anchor string) ([]*model.Post, error) {
	var list *model.PostList
	err := a.rest.call(ctx, "read a channel back", func(ctx context.Context, client *model.Client4) (response *model.Response, err error) {
		if anchor == "" {
			list, response, err = client.GetPostsForChannel(ctx, channel, 0, pageSize, "", false, false)
		} else {
			list, response, err = client.GetPostsBefore(ctx, channel, anchor, 0, pageSize, "", false, false)
		}
		return response, err
	})
	if err != nil {
		return nil, err
	}
	return inOrder(list), nil
}

// readBack adds to found everything in a channel from now back to a time, and a little more.
// Posts that are written meanwhile do not move the pages, for each is anchored to a post.
func (a *account) readBack(ctx context.Context, channel string, since int64, found map[string]*model.Post) error {
	anchor, behind := "", 0
	for range mostPages {
		page, err := a.pageBefore(ctx, channel, anchor)
		if err != nil {
			return err
		}
		oldestFirst(page)
		for _, post := range page {
			if post.CreateAt > since || post.EditAt > since {
				found[post.Id] = post
			}
		}
		if len(page) < pageSize {
			return nil
		}
		if page[0].CreateAt <= since {
			if behind++; behind > lookBehind {
				return nil
			}
		}
		anchor = anchorIn(page)
	}
	return nil
}

// anchorIn chooses the anchor of the next page back. A page holds only what is strictly
// earlier than its anchor's millisecond, and a millisecond can hold several posts; so the
// anchor is the oldest post that has one of another millisecond before it in this page.
func anchorIn(page []*model.Post) string {
	for _, post := range page {
		if post.CreateAt > page[0].CreateAt {
			return post.Id
		}
	}
	return page[0].Id
}
