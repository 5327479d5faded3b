package mattermost

import (
	"cmp"
	"context"
	"errors"
	"sync"

	"github.com/mattermost/mattermost/server/public/model"
)

// people remembers who is behind a user id.
type people struct {
	rest  *rest
	mu    sync.Mutex
	known map[string]person
}

type person struct {
	name    string // that the person goes by
	account string // the name of the account
	alien   bool   // a bot, or somebody on another server
}

func newPeople(r *rest) *people { return &people{rest: r, known: map[string]person{}} }

// who asks the server at the first time. Somebody whom the server does not know any more is
// a person without a name.
func (p *people) who(ctx context.Context, id string) (person, error) {
	p.mu.Lock()
	found, ok := p.known[id]
	p.mu.Unlock()
	if ok {
		return found, nil
	}
	var user *model.User
	err := p.rest.call(ctx, "ask who wrote a post", func(ctx context.Context, client *model.Client4) (response *model.Response, err error) {
		user, response, err = client.GetUser(ctx, id, "")
		return response, err
	})
	var no *refusal
	switch {
	case errors.As(err, &no):
		found = person{name: "somebody", account: id}
	case err != nil:
		return person{}, err
	default:
		found = person{
			name:    cmp.Or(user.Nickname, user.FirstName, user.Username),
			account: user.Username,
			alien:   user.IsBot || user.RemoteId != nil && *user.RemoteId != "",
		}
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.known[id] = found
	return found, nil
}

// forget has somebody asked for again, for example after a change of name.
func (p *people) forget(id string) {
	p.mu.Lock()
	defer p.mu.Unlock()
	delete(p.known, id)
}

// The properties that the server sets on posts that no person wrote. That one is there is
// what counts, not its value.
var machineMade = []string{
	model.PostPropsFromBot, model.PostPropsFromWebhook, model.PostPropsFromPlugin,
	model.PostPropsOverrideUsername, model.PostPropsOverrideIconURL,
}

// personal says that a post is what a person wrote here: not the server's notices, not the
// old version of an edited post, not what came from programs or from another server.
func personal(post *model.Post) bool {
	if post.Type != "" || post.OriginalId != "" || post.IsRemote() {
		return false
	}
	for _, prop := range machineMade {
		if _, there := post.GetProps()[prop]; there {
			return false
		}
	}
	return true
}
