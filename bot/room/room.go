// Package room is the built-in chat: pages for phones, served by the program itself. What is said
// here goes to the desk like a message from anywhere else, and what the pages show is the log:
// the room keeps no messages of its own.
package room

import (
	"context"
	"crypto/tls"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"strconv"
	"strings"
	"time"

	"fettle/bot"
	"fettle/store"
)

// Desk is who is told what people write.
type Desk interface {
	// Hear stores a message and the answer that it deserves; a Key heard before changes nothing.
	Hear(ctx context.Context, m bot.Message) error
	// Amend says that the text of a message is another one now.
	Amend(ctx context.Context, m bot.Message) error
	// Withdraw says that a message was taken back.
	Withdraw(ctx context.Context, m bot.Message) error
	// Pending gives the answers that wait for a place, oldest first.
	Pending(ctx context.Context, place string) ([]bot.Outgoing, error)
	// Sent says under which id an answer stands now.
	Sent(ctx context.Context, id int64, key string) error
}

// Config says where the room is and who may come in.
type Config struct {
	Listen  string         // the address, host:port; beyond loopback only where it says so
	Code    string         // the word that lets people in; "" has one made and kept
	Cert    string         // a TLS certificate and its key, files in PEM; "": plain HTTP
	Key     string         //
	Project string         // the project of the room that is there from the start
	Demo    bool           // says on every page that nothing here lasts
	Zone    *time.Location // in which times are told
	Now     func() time.Time
	Logger  *slog.Logger
	Out     io.Writer                                              // where the address, the code and the QR code are printed
	Seed    func(ctx context.Context, place, project string) error // has something said in the room before it opens; nil: nothing
}

// prefix stands before a project's id in a room's name, and before the id of what is said there.
const prefix = "room:"

func place(project int64) string { return prefix + strconv.FormatInt(project, 10) }

// projectOf is the project whose room a place is.
func projectOf(place string) (project int64, ours bool) {
	id, ours := strings.CutPrefix(place, prefix)
	project, err := strconv.ParseInt(id, 10, 64)
	return project, ours && err == nil
}

// Room is a room that is served.
type Room struct {
	cfg    Config
	store  *store.Store
	desk   Desk
	door   *door
	photos *photos
	bell   *bell
	build  string // names the version of the pages
	ctx    context.Context
}

const (
	headersWithin = 10 * time.Second
	idleFor       = 2 * time.Minute
	closeWithin   = 2 * time.Second
)

// ErrAddress is returned when the address to listen at can't be had.
var ErrAddress = errors.New("cannot listen there")

// Run serves the room until ctx ends. It gives up early only for a Config that cannot work
// (ErrAddress, a certificate that can't be read) and for a database that cannot be read.
func Run(ctx context.Context, cfg Config, s *store.Store, desk Desk) error {
	var live []tls.Certificate
	if cfg.Cert != "" || cfg.Key != "" {
		pair, err := tls.LoadX509KeyPair(cfg.Cert, cfg.Key)
		if err != nil {
			return fmt.Errorf("%w: read the certificate: %w", ErrAddress, err)
		}
		live = append(live, pair)
	}
	r, err := open(ctx, cfg, s, desk)
	if err != nil {
		return err
	}
	listener, err := net.Listen("tcp", cfg.Listen)
	if err != nil {
		return fmt.Errorf("%w: %w", ErrAddress, err)
	}
	if len(live) > 0 {
		listener = tls.NewListener(listener, &tls.Config{Certificates: live, MinVersion: tls.VersionTLS12, NextProtos: []string{"http/1.1"}})
	}
	r.announce(listener.Addr())
	return r.serve(ctx, listener)
}

// open prepares everything but the address.
func open(ctx context.Context, cfg Config, s *store.Store, desk Desk) (*Room, error) {
	kept, err := keep(s.Path()+".room", cfg.Code)
	if err != nil {
		return nil, fmt.Errorf("open the room: %w", err)
	}
	r := &Room{cfg: cfg, store: s, desk: desk, bell: newBell(), build: buildOf(shell), ctx: ctx}
	r.door = newDoor(kept, cfg.Cert != "", cfg.Now)
	if r.photos, err = openPhotos(s.Path() + ".photos"); err != nil {
		return nil, fmt.Errorf("open the room: %w", err)
	}
	p, err := r.project(ctx, cfg.Project)
	if err == nil && cfg.Seed != nil {
		if err = cfg.Seed(ctx, place(p.ID), p.Name); err == nil {
			err = r.deliver(ctx, p.ID)
		}
	}
	if err != nil {
		return nil, fmt.Errorf("open the room: %w", err)
	}
	return r, nil
}

// serve answers until ctx ends, then lets what is under way finish.
func (r *Room) serve(ctx context.Context, listener net.Listener) error {
	server := &http.Server{
		Handler: r.handler(), ReadHeaderTimeout: headersWithin, IdleTimeout: idleFor,
		ErrorLog: slog.NewLogLogger(r.cfg.Logger.Handler(), slog.LevelDebug),
	}
	done := make(chan error, 1)
	go func() { done <- server.Serve(listener) }()
	watching := make(chan struct{})
	go func() { defer close(watching); r.watch(ctx) }()
	select {
	case err := <-done:
		return fmt.Errorf("serve the room: %w", err)
	case <-ctx.Done():
	}
	r.bell.stop()
	last, cancel := context.WithTimeout(context.WithoutCancel(ctx), closeWithin)
	defer cancel()
	if server.Shutdown(last) != nil {
		_ = server.Close() // browsers open connections in store, and leave them
	}
	<-done
	<-watching
	return nil
}

// project makes a project known, and has its room listened to: once, and kept in the log.
func (r *Room) project(ctx context.Context, name string) (p store.Project, err error) {
	err = r.store.Write(ctx, func(tx *store.Tx) error {
		p, err = tx.Project(name)
		return err
	})
	if err != nil {
		return p, err
	}
	return p, r.opened(ctx, p)
}

// opened says “listen here” in a room the first time that anybody comes in.
func (r *Room) opened(ctx context.Context, p store.Project) error {
	key := prefix + "opened:" + strconv.FormatInt(p.ID, 10)
	known := false
	err := r.store.Read(ctx, func(tx *store.Tx) (err error) {
		_, known, err = tx.EntryByKey(key)
		return err
	})
	if err != nil || known {
		return err
	}
	at := r.cfg.Now()
	if r.cfg.Demo {
		at = at.AddDate(0, 0, -7) // before all that was said in it
	}
	if err := r.desk.Hear(ctx, bot.Message{Key: key, Place: place(p.ID), Project: p.Name, WhoKey: keeper, Who: keeper,
		Text: "listen here", At: at, Mentioned: true, Kept: true}); err != nil {
		return err
	}
	return r.deliver(ctx, p.ID)
}

// keeper is who opens a room: nobody in person.
const keeper = "room"
