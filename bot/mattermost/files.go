package mattermost

import (
	"bytes"
	"context"
	"encoding/json"
	"path"
	"slices"
	"strings"

	"fettle/bot"
	"fettle/bot/render"
	"fettle/calc/sketch"
	"fettle/store"

	"github.com/mattermost/mattermost/server/public/model"
)

// largestList is the largest attached file that is read, in bytes. A photo is never read, only
// remembered.
const largestList = 1 << 20

// mostFiles is how many files the server lets hang on a post.
const mostFiles = 10

// pictureScale is how many pixels a drawing's px has as a picture: sharp on a phone.
const pictureScale = 2.5

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

// upload puts what hangs on an answer on the server and gives the ids. A drawing becomes a
// picture; of more than hang on a post, the last is a document of them all. What the server does
// not take is left out: the answer's words count for more.
func (c *channel) upload(ctx context.Context, answer bot.Outgoing) []string {
	var ids []string
	for _, f := range c.pictures(answer) {
		var up *model.FileUploadResponse
		err := c.a.rest.call(ctx, "upload a file", func(ctx context.Context, client *model.Client4) (response *model.Response, err error) {
			up, response, err = client.UploadFile(ctx, f.Data, c.id, f.Name)
			return response, err
		})
		if err != nil || len(up.FileInfos) == 0 {
			c.a.log.Error("a file of an answer was not uploaded and is left out", "answer", answer.ID, "file", f.Name, "error", err)
			continue
		}
		ids = append(ids, up.FileInfos[0].Id)
	}
	return ids
}

// pictures makes the files of an answer such that people can look at them.
func (c *channel) pictures(answer bot.Outgoing) []store.File {
	var out []store.File
	var sheets []sketch.Sheet
	for _, f := range answer.Files {
		if f.Media != sketch.MediaType {
			out = append(out, f)
			continue
		}
		var s sketch.Sheet
		var b bytes.Buffer
		err := json.Unmarshal(f.Data, &s)
		if err == nil {
			err = render.PNG(&b, s, pictureScale)
		}
		if err != nil {
			c.a.log.Error("a drawing cannot be made a picture", "answer", answer.ID, "drawing", f.Name, "error", err)
			continue
		}
		sheets = append(sheets, s)
		out = append(out, store.File{Name: f.Name + ".png", Media: "image/png", Data: b.Bytes()})
	}
	if len(out) <= mostFiles {
		return out
	}
	var b bytes.Buffer
	if err := render.PDF(&b, "Drawings", answer.At, sheets...); err != nil {
		c.a.log.Error("drawings cannot be made a document", "answer", answer.ID, "error", err)
		return out[:mostFiles]
	}
	return append(out[:mostFiles-1:mostFiles-1], store.File{Name: "all drawings.pdf", Media: "application/pdf", Data: b.Bytes()})
}
