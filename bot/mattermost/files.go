package mattermost

import (
	"context"
	"path"
	"slices"
	"strings"

	"fettle/store"

	"github.com/mattermost/mattermost/server/public/model"
)

// largestList is the largest attached file that is read, in bytes. A photo is never read, only
// remembered.
const largestList = 1 << 20

// lists are the endings of attached files that hold something to read.
var lists = []string{".csv", ".tsv", ".txt", ".htm", ".html", ".md"}

// filesOf gives what hangs on a post: lists with what is in them, everything else by where the
// server keeps it. A file that cannot be fetched is one without contents, which its reader says.
func (c *channel) filesOf(ctx context.Context, post *model.Post) []store.File {
	if len(post.FileIds) == 0 {
		return nil
	}
	var infos []*model.FileInfo
	err := c.a.rest.call(ctx, "ask what hangs on a post", func(ctx context.Context, client *model.Client4) (response *model.Response, err error) {
		infos, response, err = client.GetFileInfosForPost(ctx, post.Id, "")
		return response, err
	})
	if err != nil {
		c.a.log.Warn("the files of a post are not known", "post", post.Id, "error", err)
		return nil
	}
	files := make([]store.File, len(infos))
	for i, info := range infos {
		files[i] = store.File{Name: info.Name, Media: info.MimeType, Ref: prefix + info.Id}
		if slices.Contains(lists, strings.ToLower(path.Ext(info.Name))) && info.Size <= largestList {
			files[i].Data = c.fetch(ctx, info.Id)
		}
	}
	return files
}

// fetch gives what is in a file, or nil.
func (c *channel) fetch(ctx context.Context, id string) (data []byte) {
	err := c.a.rest.call(ctx, "fetch a file", func(ctx context.Context, client *model.Client4) (response *model.Response, err error) {
		data, response, err = client.GetFile(ctx, id)
		return response, err
	})
	if err != nil {
		c.a.log.Warn("a file was not fetched", "file", id, "error", err)
		return nil
	}
	return data
}
