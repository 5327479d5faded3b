package mattermost

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"net/http"
	"strings"
	"time"

	"github.com/gorilla/websocket"
	"github.com/mattermost/mattermost/server/public/model"
)

// stayConnected connects again and again until ctx ends. The waits between attempts grow
// until a connection has shown itself healthy.
func stayConnected(ctx context.Context, log *slog.Logger, wait backoff, connect func(ctx context.Context, healthy func()) error) {
	for ctx.Err() == nil {
		err := connect(ctx, wait.reset)
		if ctx.Err() != nil {
			return
		}
		log.Warn("the connection has ended and is made again", "error", err)
		if wait.pause(ctx) != nil {
			return
		}
	}
}

// connect makes one connection and hands on its events until it ends.
func (a *account) connect(ctx context.Context, healthy func()) error {
	if err := a.rest.once(ctx, "ask who the token belongs to", a.introduce); err != nil {
		return err
	}
	dialer := &websocket.Dialer{
		Proxy:            http.ProxyFromEnvironment,
		HandshakeTimeout: a.pace.call,
		NetDialContext: func(_ context.Context, network, address string) (net.Conn, error) {
			return (&net.Dialer{Timeout: a.pace.call}).DialContext(ctx, network, address)
		},
	}
	// Always a new connection, never one resumed: the channels are read again anyway, and
	// what the server keeps for a lost connection is only a promise.
	client, err := model.NewWebSocketClient4WithDialer(dialer, "ws"+strings.TrimPrefix(a.cfg.URL, "http"), a.cfg.Token)
	if err != nil {
		return fmt.Errorf("dial the socket: %w", err)
	}
	defer hangUp(client)
	client.Listen()
	return a.listen(ctx, client, healthy)
}

// hangUp closes the line under the client, not the client itself: its reader then cleans up,
// whereas Close would race with it and can panic. Until the reader is gone its channels have
// to be drained, or it would hang for ever.
func hangUp(client *model.WebSocketClient) {
	client.Conn.Close()
	events, responses := client.EventChannel, client.ResponseChannel
	for events != nil || responses != nil {
		select {
		case _, more := <-events:
			if !more {
				events = nil
			}
		case _, more := <-responses:
			if !more {
				responses = nil
			}
		}
	}
}

// listen reads everything that the socket brings and never waits for anything else.
func (a *account) listen(ctx context.Context, client *model.WebSocketClient, healthy func()) error {
	greeting := time.NewTimer(a.pace.hello)
	defer greeting.Stop()
	expected := int64(-1)
	for {
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-client.PingTimeoutChannel:
			return errors.New("the server has not been heard of for over a minute")
		case <-greeting.C:
			return errors.New("the server has not greeted the new connection")
		case _, more := <-client.ResponseChannel:
			if !more {
				return ended(client)
			}
		case event, more := <-client.EventChannel:
			if !more {
				return ended(client)
			}
			if event.EventType() == model.WebsocketEventHello {
				greeting.Stop()
				healthy()
				a.catchUpAll()
			} else if expected >= 0 && event.GetSequence() != expected {
				a.log.Warn("events are missing", "expected", expected, "got", event.GetSequence())
				a.catchUpAll()
			}
			expected = event.GetSequence() + 1
			a.notice(event)
		}
	}
}

func ended(client *model.WebSocketClient) error {
	if client.ListenError != nil {
		return client.ListenError
	}
	return errors.New("the server has closed the connection")
}

// notice sends an event to where it is handled.
func (a *account) notice(event *model.WebSocketEvent) {
	switch event.EventType() {
	case model.WebsocketEventPosted, model.WebsocketEventPostEdited, model.WebsocketEventPostDeleted:
		a.noticePost(event)
	case model.WebsocketEventReactionAdded:
		a.noticeReaction(event)
	case model.WebsocketEventUserUpdated:
		if user, ok := event.GetData()["user"].(map[string]any); ok {
			id, _ := user["id"].(string)
			a.people.forget(id)
		}
	case model.WebsocketEventUserAdded:
		if event.GetData()["user_id"] == a.id {
			c := a.channel(event.GetBroadcast().ChannelId)
			c.returned()
			c.askCatchUp()
		}
	}
}

func (a *account) noticePost(e *model.WebSocketEvent) {
	text, _ := e.GetData()["post"].(string)
	var post model.Post
	if err := json.Unmarshal([]byte(text), &post); err != nil {
		a.log.Warn("an event's post cannot be read", "type", e.EventType(), "error", err)
		return
	}
	if post.UserId == a.id || !model.IsValidId(post.ChannelId) {
		return
	}
	if e.EventType() == model.WebsocketEventPostDeleted && post.DeleteAt == 0 {
		post.DeleteAt = max(post.UpdateAt, 1) // the event carries the post as it was
	}
	a.channel(post.ChannelId).add(event{post: &post})
}

func (a *account) noticeReaction(e *model.WebSocketEvent) {
	text, _ := e.GetData()["reaction"].(string)
	var reaction model.Reaction
	if err := json.Unmarshal([]byte(text), &reaction); err != nil {
		a.log.Warn("an event's reaction cannot be read", "error", err)
		return
	}
	if channel := e.GetBroadcast().ChannelId; reaction.UserId != a.id && model.IsValidId(channel) {
		a.channel(channel).add(event{reaction: &reaction})
	}
}
