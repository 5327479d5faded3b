// Command fettle is a chat bot for two people who fit out something that isn't square.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"os"
	"os/signal"
	"os/user"
	"path/filepath"
	"strings"
	"syscall"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/sync/errgroup"

	"fettle/bot"
	"fettle/bot/demo"
	"fettle/bot/fetch"
	"fettle/bot/mattermost"
	"fettle/bot/room"
	"fettle/bot/terminal"
	"fettle/store"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	err := root().ExecuteContext(ctx)
	stop()
	if err != nil {
		fmt.Fprintln(os.Stderr, "fettle: "+plainly(err))
		os.Exit(status(err))
	}
}

// usageError is a wrong call or a file that can't be used: exit status 2.
type usageError struct{ error }

func (e usageError) Unwrap() error { return e.error }

func status(err error) int {
	var usage usageError
	if errors.As(err, &usage) {
		return 2
	}
	return 1
}

// plainly gives the sentence meant for people, where there is one.
func plainly(err error) string {
	var usage usageError
	if errors.As(err, &usage) {
		return usage.Error()
	}
	if s := store.Sentence(err); s != "" {
		return s
	}
	return err.Error()
}

// settings are what flags and environment say; a flag beats the environment.
type settings struct {
	db, project, who string
	json             bool
	mattermost       mattermost.Config
	room             room.Config
}

func root() *cobra.Command {
	s := &settings{}
	c := &cobra.Command{
		Use: "fettle", Short: "A chat bot for two people who fit out something that isn't square",
		SilenceErrors: true, SilenceUsage: true, CompletionOptions: cobra.CompletionOptions{DisableDefaultCmd: true},
	}
	c.SetFlagErrorFunc(func(_ *cobra.Command, err error) error { return usageError{err} })
	c.PersistentFlags().StringVar(&s.db, "db", env("FETTLE_DB", ""), "the SQLite file (FETTLE_DB; default: fettle.db in your data folder)")
	c.AddCommand(askCommand(s), chatCommand(s), serveCommand(s), demoCommand(s), planCommand(), exportCommand(s), backupCommand(s))
	c.Args = func(_ *cobra.Command, args []string) error {
		if len(args) > 0 {
			return usageError{fmt.Errorf("there is no command %q; try fettle --help", args[0])}
		}
		return nil
	}
	c.RunE = func(c *cobra.Command, _ []string) error { return c.Help() }
	return c
}

func env(name, otherwise string) string {
	if v := os.Getenv(name); v != "" {
		return v
	}
	return otherwise
}

// usage makes a wrong number of arguments a usage error.
func usage(args cobra.PositionalArgs) cobra.PositionalArgs {
	return func(c *cobra.Command, given []string) error {
		if err := args(c, given); err != nil {
			return usageError{fmt.Errorf("%w; the call is: %s", err, c.UseLine())}
		}
		return nil
	}
}

func talkFlags(c *cobra.Command, s *settings) {
	c.Flags().BoolVar(&s.json, "json", false, "print the answer object")
	c.Flags().StringVar(&s.project, "project", "workshop", "the project to talk in")
	c.Flags().StringVar(&s.who, "as", myName(), "who is speaking")
}

func myName() string {
	if u, err := user.Current(); err == nil && u.Username != "" {
		return u.Username
	}
	return "me"
}

func askCommand(s *settings) *cobra.Command {
	c := &cobra.Command{
		Use: `ask [--json] [--project NAME] [--as WHO] [--db FILE] "TEXT"`, Short: "One request, one answer",
		Args: usage(cobra.MinimumNArgs(1)), DisableFlagsInUseLine: true,
		RunE: func(c *cobra.Command, args []string) error {
			return s.talk(c, func(t *terminal.Terminal) error { return t.Ask(c.Context(), strings.Join(args, " ")) })
		},
	}
	talkFlags(c, s)
	return c
}

func chatCommand(s *settings) *cobra.Command {
	c := &cobra.Command{
		Use: "chat [--json] [--project NAME] [--as WHO] [--db FILE]", Short: "A conversation on standard input, one message a line",
		Args: usage(cobra.NoArgs), DisableFlagsInUseLine: true,
		RunE: func(c *cobra.Command, _ []string) error {
			return s.talk(c, func(t *terminal.Terminal) error {
				if typed(c.InOrStdin()) && !s.json {
					fmt.Fprintf(c.OutOrStdout(), "Talking in the project %s; “help” says what can be asked, Ctrl-D ends it.\n", s.project)
					t.Prompt = "\n> "
				}
				return t.Chat(c.Context(), c.InOrStdin())
			})
		},
	}
	talkFlags(c, s)
	return c
}

// typed says whether a person types the input.
func typed(in io.Reader) bool {
	f, ok := in.(*os.File)
	if !ok {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// talk opens the database and hands a terminal over it to fn.
func (s *settings) talk(c *cobra.Command, fn func(*terminal.Terminal) error) error {
	now, err := clock()
	if err != nil {
		return err
	}
	zone, err := zone()
	if err != nil {
		return err
	}
	if strings.TrimSpace(s.project) == "" || strings.TrimSpace(s.who) == "" {
		return usageError{errors.New("--project and --as need a name")}
	}
	db, err := s.open(c.Context(), now)
	if err != nil {
		return err
	}
	defer db.Close()
	desk := bot.NewDesk(db, now, zone, slog.New(slog.NewTextHandler(os.Stderr, nil)))
	desk.Fetching(fetch.New(fetch.Public).Page)
	return fn(&terminal.Terminal{Desk: desk, Project: s.project, Who: s.who, JSON: s.json, Now: now, Out: c.OutOrStdout()})
}

// clock is the machine's, unless FETTLE_NOW holds it still.
func clock() (func() time.Time, error) {
	text := os.Getenv("FETTLE_NOW")
	if text == "" {
		return time.Now, nil
	}
	t, err := time.Parse(time.RFC3339, text)
	if err != nil {
		return nil, usageError{fmt.Errorf("FETTLE_NOW is no time such as 2026-03-07T14:20:00Z: %q", text)}
	}
	return func() time.Time { return t }, nil
}

func zone() (*time.Location, error) {
	name := os.Getenv("FETTLE_TIMEZONE")
	if name == "" {
		return time.Local, nil
	}
	z, err := time.LoadLocation(name)
	if err != nil {
		return nil, usageError{fmt.Errorf("FETTLE_TIMEZONE is no zone such as Europe/Vienna: %q", name)}
	}
	return z, nil
}

// open opens the database. A file that can't be used is a usage error.
func (s *settings) open(ctx context.Context, now func() time.Time) (*store.Store, error) {
	path := s.db
	if path == "" {
		folder, err := dataFolder()
		if err != nil {
			return nil, usageError{fmt.Errorf("find your data folder (or name a file with --db): %w", err)}
		}
		path = filepath.Join(folder, "fettle.db")
	}
	db, err := store.Open(ctx, path, now)
	if err != nil {
		return nil, usageError{fmt.Errorf("open %s: %w", path, err)}
	}
	return db, nil
}

// dataFolder is where programs keep a user's data: XDG_DATA_HOME or ~/.local/share, and the
// folder for settings on other systems.
func dataFolder() (string, error) {
	if d := os.Getenv("XDG_DATA_HOME"); d != "" {
		return filepath.Join(d, "fettle"), nil
	}
	home, err := os.UserHomeDir()
	if err != nil {
		return "", err
	}
	return filepath.Join(home, ".local", "share", "fettle"), nil
}

func backupCommand(s *settings) *cobra.Command {
	return &cobra.Command{
		Use: "backup [--db FILE] FILE", Short: "A consistent copy of the database, also while the bot runs",
		Args: usage(cobra.ExactArgs(1)), DisableFlagsInUseLine: true,
		RunE: func(c *cobra.Command, args []string) error {
			db, err := s.open(c.Context(), time.Now)
			if err != nil {
				return err
			}
			defer db.Close()
			if err := db.Backup(c.Context(), args[0]); err != nil {
				return err
			}
			_, err = fmt.Fprintln(c.OutOrStdout(), "Backed up to "+args[0])
			return err
		},
	}
}

func serveCommand(s *settings) *cobra.Command {
	c := &cobra.Command{
		Use: "serve [--db FILE]", Short: "The bot: a chat room for phones, and Mattermost where its address and token are set",
		Args: usage(cobra.NoArgs), DisableFlagsInUseLine: true,
		RunE: func(c *cobra.Command, _ []string) error {
			s.room.Out = c.OutOrStdout()
			return s.serve(c.Context())
		},
	}
	roomFlags(c, s)
	c.Flags().StringVar(&s.mattermost.URL, "mattermost-url", env("FETTLE_MATTERMOST_URL", ""), "the chat server (FETTLE_MATTERMOST_URL)")
	c.Flags().StringVar(&s.mattermost.Token, "mattermost-token", "", "the bot account's token (better in FETTLE_MATTERMOST_TOKEN)")
	return c
}

// demoCommand serves an example project that goes when the program stops.
func demoCommand(s *settings) *cobra.Command {
	c := &cobra.Command{
		Use: "demo", Short: "The room with a week of an example project in it, which goes when the program stops",
		Args: usage(cobra.NoArgs), DisableFlagsInUseLine: true,
		RunE: func(c *cobra.Command, _ []string) error {
			folder, err := os.MkdirTemp("", "fettle-demo")
			if err != nil {
				return fmt.Errorf("make a folder for the demo: %w", err)
			}
			defer os.RemoveAll(folder)
			s.db, s.mattermost = filepath.Join(folder, "demo.db"), mattermost.Config{}
			s.room.Out, s.room.Demo, s.room.Project = c.OutOrStdout(), true, "hut"
			return s.serve(c.Context())
		},
	}
	roomFlags(c, s)
	return c
}

func roomFlags(c *cobra.Command, s *settings) {
	c.Flags().StringVar(&s.room.Listen, "listen", env("FETTLE_LISTEN", "127.0.0.1:8040"), "the room's address; 0.0.0.0:8040 for phones in the same network (FETTLE_LISTEN)")
	c.Flags().StringVar(&s.room.Code, "code", env("FETTLE_ROOM_CODE", ""), "the word that lets people in; made and kept if unset (FETTLE_ROOM_CODE)")
	c.Flags().StringVar(&s.room.Cert, "cert", "", "a TLS certificate, a file in PEM, and")
	c.Flags().StringVar(&s.room.Key, "key", "", "its key")
}

// serve runs the bot until it is told to stop. The lock beside the database keeps a second
// copy from answering as well.
func (s *settings) serve(ctx context.Context) error {
	chat := s.mattermost
	if chat.Token == "" && !s.room.Demo {
		chat.Token = os.Getenv("FETTLE_MATTERMOST_TOKEN")
	}
	if (chat.URL == "") != (chat.Token == "") {
		return usageError{errors.New("for Mattermost set both FETTLE_MATTERMOST_URL and FETTLE_MATTERMOST_TOKEN; for the room alone, neither")}
	}
	zone, err := zone()
	if err != nil {
		return err
	}
	db, err := s.open(ctx, time.Now)
	if err != nil {
		return err
	}
	defer db.Close()
	release, err := db.Lock()
	if err != nil {
		return err
	}
	defer release()
	if err := db.Check(ctx); err != nil {
		return err
	}
	logger := slog.New(slog.NewTextHandler(os.Stderr, nil))
	desk := bot.NewDesk(db, time.Now, zone, logger)
	defer desk.Ticking(ctx)()
	desk.Fetching(fetch.New(fetch.Public).Page)
	places, ctx := errgroup.WithContext(ctx)
	places.Go(func() error { return s.serveRoom(ctx, db, desk, zone, logger) })
	if chat.URL != "" {
		chat.Logger, chat.Now = logger, time.Now
		places.Go(func() error { return mattermost.Run(ctx, chat, desk) })
	}
	return places.Wait()
}

// serveRoom opens the room for phones.
func (s *settings) serveRoom(ctx context.Context, db *store.Store, desk *bot.Desk, zone *time.Location, logger *slog.Logger) error {
	cfg := s.room
	cfg.Zone, cfg.Now, cfg.Logger = zone, time.Now, logger
	if cfg.Project == "" {
		cfg.Project = "workshop"
	}
	if cfg.Demo {
		cfg.Seed = func(ctx context.Context, place, project string) error {
			return demo.Play(ctx, desk, place, project, time.Now(), zone)
		}
	}
	err := room.Run(ctx, cfg, db, desk)
	if errors.Is(err, room.ErrAddress) {
		return usageError{fmt.Errorf("open the room at %s (--listen names another address): %w", cfg.Listen, err)}
	}
	return err
}
