package mattermost_test

import (
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"net/http"
	"net/http/httptest"
	"slices"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/gorilla/websocket"
	"github.com/mattermost/mattermost/server/public/model"
)

const marker = "tokenthatmustnotbeseen0001"

// fake is a Mattermost server with faults to order, for what a real one cannot be made to
// do. Its rules are the real server's (app/post.go, store/sqlstore/post_store.go); the tests
// in server_test.go show the same conduct against the real one.
type fake struct {
	*httptest.Server
	mu       sync.Mutex
	clock    int64
	posts    map[string]*model.Post
	pending  map[string]string // pending id → post id
	channels map[string]*model.Channel
	sockets  map[*websocket.Conn]*int64 // → the next sequence number
	greeted  int
	calls    map[string]int
	ids      int

	// Switches.
	fault  func(r *http.Request) fault // asked for each REST call
	deaf   bool                        // events are not sent
	forget bool                        // pending ids are not remembered
}

// A fault is what goes wrong with one call.
type fault struct {
	status    int // answered instead
	header    map[string]string
	cutBefore bool          // the line is cut and nothing done
	cutAfter  bool          // the line is cut once it is done
	hang      chan struct{} // nothing comes until it is closed
}

var (
	botID   = id("bot")
	petraID = id("petra")
)

// id makes a valid id that can be read.
func id(name string) string { return (name + strings.Repeat("0", 26))[:26] }

func newFake(t *testing.T) *fake {
	f := &fake{
		clock: time.Now().UnixMilli(), posts: map[string]*model.Post{}, pending: map[string]string{},
		channels: map[string]*model.Channel{}, sockets: map[*websocket.Conn]*int64{}, calls: map[string]int{},
	}
	mux := http.NewServeMux()
	for pattern, handle := range map[string]http.HandlerFunc{
		"GET /api/v4/users/me":            f.user,
		"GET /api/v4/users/{id}":          f.user,
		"GET /api/v4/users/{id}/channels": f.listChannels,
		"POST /api/v4/users/{id}/typing":  func(w http.ResponseWriter, _ *http.Request) { say(w, 200, map[string]string{}) },
		"GET /api/v4/channels/{id}":       f.channelInfo,
		"GET /api/v4/channels/{id}/posts": f.listPosts,
		"GET /api/v4/posts/{id}":          f.getPost,
		"PUT /api/v4/posts/{id}/patch":    f.patchPost,
		"POST /api/v4/posts":              f.createPost,
		"GET /api/v4/config/client":       func(w http.ResponseWriter, _ *http.Request) { say(w, 200, map[string]string{"MaxPostSize": "4000"}) },
	} {
		mux.HandleFunc(pattern, f.faulty(pattern, handle))
	}
	mux.HandleFunc("GET /api/v4/websocket", f.socket)
	f.Server = httptest.NewServer(mux)
	t.Cleanup(f.Close)
	return f
}

// faulty wraps a handler with the faults ordered for it.
func (f *fake) faulty(pattern string, handle http.HandlerFunc) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		f.mu.Lock()
		f.calls[pattern]++
		order := f.fault
		f.mu.Unlock()
		var wrong fault
		if order != nil {
			wrong = order(r)
		}
		if wrong.hang != nil {
			select {
			case <-wrong.hang:
			case <-r.Context().Done():
			}
		}
		switch {
		case wrong.cutBefore:
			panic(http.ErrAbortHandler)
		case wrong.cutAfter:
			handle(httptest.NewRecorder(), r)
			panic(http.ErrAbortHandler)
		case wrong.status != 0:
			for name, value := range wrong.header {
				w.Header().Set(name, value)
			}
			refuse(w, wrong.status, "fake.ordered")
		default:
			handle(w, r)
		}
	}
}

func say(w http.ResponseWriter, status int, v any) {
	w.WriteHeader(status)
	json.NewEncoder(w).Encode(v)
}

func refuse(w http.ResponseWriter, status int, reason string) {
	say(w, status, model.AppError{Id: reason, Message: reason, StatusCode: status})
}

func (f *fake) user(w http.ResponseWriter, r *http.Request) {
	switch who := r.PathValue("id"); who {
	case "":
		say(w, 200, model.User{Id: botID, Username: "fettle", IsBot: true})
	case petraID:
		say(w, 200, model.User{Id: petraID, Username: "petra", Nickname: "Petra"})
	default:
		refuse(w, 404, "no.such.user")
	}
}

// channel opens a channel that the bot has just come into.
func (f *fake) channel(name string) string {
	f.mu.Lock()
	f.channels[id(name)] = &model.Channel{Id: id(name), Name: name, Type: model.ChannelTypeOpen}
	f.mu.Unlock()
	f.join(id(name))
	return id(name)
}

// age moves everything in the channel into the past.
func (f *fake) age(channel string, by time.Duration) {
	f.mu.Lock()
	defer f.mu.Unlock()
	for _, post := range f.posts {
		if post.ChannelId == channel {
			post.CreateAt -= by.Milliseconds()
			post.UpdateAt = post.CreateAt
		}
	}
}

// join notes that the bot was added to a channel by Petra.
func (f *fake) join(channel string) {
	f.mu.Lock()
	defer f.mu.Unlock()
	post := &model.Post{ChannelId: channel, UserId: petraID, Type: model.PostTypeAddToChannel}
	post.AddProp(model.PostPropsAddedUserId, botID)
	f.publish(model.WebsocketEventPosted, f.store(post))
}

func (f *fake) listChannels(w http.ResponseWriter, _ *http.Request) {
	f.mu.Lock()
	defer f.mu.Unlock()
	say(w, 200, slices.Collect(maps.Values(f.channels)))
}

func (f *fake) channelInfo(w http.ResponseWriter, r *http.Request) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if info := f.channels[r.PathValue("id")]; info != nil {
		say(w, 200, info)
		return
	}
	refuse(w, 403, "no.permission")
}

// tick is the server's clock: it never stands still.
func (f *fake) tick() int64 {
	f.clock = max(f.clock+1, time.Now().UnixMilli())
	return f.clock
}

func (f *fake) store(post *model.Post) *model.Post {
	f.ids++
	post.Id = id(fmt.Sprintf("post%06dx", f.ids))
	post.CreateAt = cmp.Or(post.CreateAt, f.tick())
	post.UpdateAt = post.CreateAt
	f.posts[post.Id] = post.Clone()
	return f.posts[post.Id]
}

// say has Petra write something.
func (f *fake) say(channel, text string) *model.Post {
	f.mu.Lock()
	defer f.mu.Unlock()
	post := f.store(&model.Post{ChannelId: channel, UserId: petraID, Message: text})
	f.publish(model.WebsocketEventPosted, post)
	return post.Clone()
}

// edit gives a post another text and keeps the old one as a deleted post of its own.
func (f *fake) edit(post *model.Post, text string) {
	f.mu.Lock()
	defer f.mu.Unlock()
	now := f.posts[post.Id]
	old := now.Clone()
	old.OriginalId = post.Id
	kept := f.store(old)
	now.Message, now.EditAt, now.UpdateAt = text, f.tick(), f.clock
	kept.DeleteAt, kept.UpdateAt = f.clock, f.clock
	f.publish(model.WebsocketEventPostEdited, now)
}

func (f *fake) remove(post *model.Post) {
	f.mu.Lock()
	defer f.mu.Unlock()
	now := f.posts[post.Id]
	f.publish(model.WebsocketEventPostDeleted, now)
	now.DeleteAt, now.UpdateAt = f.tick(), f.clock
}

// publish sends an event to every socket. Called with the lock held.
func (f *fake) publish(kind model.WebsocketEventType, post *model.Post) {
	if f.deaf {
		return
	}
	for conn := range f.sockets {
		f.event(conn, kind, post)
	}
}

func (f *fake) event(conn *websocket.Conn, kind model.WebsocketEventType, post *model.Post) {
	data := map[string]any{"connection_id": fmt.Sprint(f.greeted)}
	broadcast := &model.WebsocketBroadcast{}
	if post != nil {
		text, err := post.ToJSON()
		if err != nil {
			panic(err)
		}
		data["post"], broadcast.ChannelId = text, post.ChannelId
	}
	event := model.NewWebSocketEvent(kind, "", broadcast.ChannelId, "", nil, "").SetData(data).SetSequence(*f.sockets[conn])
	*f.sockets[conn]++
	text, err := event.ToJSON()
	if err != nil {
		panic(err)
	}
	conn.WriteMessage(websocket.TextMessage, text)
}

func (f *fake) socket(w http.ResponseWriter, r *http.Request) {
	conn, err := (&websocket.Upgrader{}).Upgrade(w, r, nil)
	if err != nil {
		return
	}
	defer conn.Close()
	var challenge model.WebSocketRequest
	if conn.ReadJSON(&challenge) != nil || challenge.Data["token"] != marker {
		return
	}
	f.mu.Lock()
	f.greeted++
	f.sockets[conn] = new(int64)
	f.event(conn, model.WebsocketEventHello, nil)
	f.mu.Unlock()
	for {
		if _, _, err := conn.ReadMessage(); err != nil {
			f.mu.Lock()
			delete(f.sockets, conn)
			f.mu.Unlock()
			return
		}
	}
}

// drop cuts every socket.
func (f *fake) drop() {
	f.mu.Lock()
	defer f.mu.Unlock()
	for conn := range f.sockets {
		conn.Close()
		delete(f.sockets, conn)
	}
}

// skip uses up a sequence number, as an event that got lost does.
func (f *fake) skip() {
	f.mu.Lock()
	defer f.mu.Unlock()
	for _, next := range f.sockets {
		*next++
	}
}

// listPosts gives at most 1000 changes since a time, chosen in no order, or at most 200
// posts strictly before the millisecond of another.
func (f *fake) listPosts(w http.ResponseWriter, r *http.Request) {
	f.mu.Lock()
	defer f.mu.Unlock()
	since, _ := strconv.ParseInt(r.FormValue("since"), 10, 64)
	before := int64(1 << 62)
	if anchor := f.posts[r.FormValue("before")]; anchor != nil {
		before = anchor.CreateAt
	}
	list := model.NewPostList()
	var chosen []*model.Post
	for _, post := range f.posts {
		if post.ChannelId != r.PathValue("id") {
			continue
		}
		if since > 0 && post.UpdateAt > since && len(chosen) < 1000 || since == 0 && post.DeleteAt == 0 && post.CreateAt < before {
			chosen = append(chosen, post)
		}
	}
	slices.SortFunc(chosen, func(a, b *model.Post) int { return cmp.Compare(b.CreateAt, a.CreateAt) })
	if since == 0 {
		chosen = chosen[:min(len(chosen), 200)]
	}
	for _, post := range chosen {
		list.AddPost(post.Clone())
		list.AddOrder(post.Id)
	}
	say(w, 200, list)
}

func (f *fake) getPost(w http.ResponseWriter, r *http.Request) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if post := f.posts[r.PathValue("id")]; post != nil && post.DeleteAt == 0 {
		say(w, 200, post)
		return
	}
	refuse(w, 404, "app.post.get.app_error")
}

func (f *fake) patchPost(w http.ResponseWriter, r *http.Request) {
	var patch model.PostPatch
	json.NewDecoder(r.Body).Decode(&patch)
	f.mu.Lock()
	defer f.mu.Unlock()
	post := f.posts[r.PathValue("id")]
	post.Patch(&patch)
	post.EditAt, post.UpdateAt = f.tick(), f.clock
	say(w, 200, post)
}

func (f *fake) createPost(w http.ResponseWriter, r *http.Request) {
	var post model.Post
	json.NewDecoder(r.Body).Decode(&post)
	f.mu.Lock()
	defer f.mu.Unlock()
	if known := f.posts[f.pending[post.PendingPostId]]; known != nil && !f.forget {
		say(w, 201, known)
		return
	}
	if len([]rune(post.Message)) > 4000 {
		refuse(w, 400, "model.post.is_valid.message_length.app_error")
		return
	}
	post.UserId = botID
	made := f.store(&post)
	f.pending[post.PendingPostId] = made.Id
	f.publish(model.WebsocketEventPosted, made)
	say(w, 201, made)
}

// answers gives what the bot has posted in a channel, in order.
func (f *fake) answers(channel string) []string {
	f.mu.Lock()
	defer f.mu.Unlock()
	var posts []*model.Post
	for _, post := range f.posts {
		if post.ChannelId == channel && post.UserId == botID && post.DeleteAt == 0 {
			posts = append(posts, post)
		}
	}
	slices.SortFunc(posts, func(a, b *model.Post) int { return cmp.Compare(a.CreateAt, b.CreateAt) })
	said := make([]string, len(posts))
	for i, post := range posts {
		said[i] = post.Message
	}
	return said
}

// called counts the calls of an endpoint.
func (f *fake) called(pattern string) int {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.calls[pattern]
}

func (f *fake) greetings() int {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.greeted
}

func (f *fake) order(what func(r *http.Request) fault) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.fault = what
}
