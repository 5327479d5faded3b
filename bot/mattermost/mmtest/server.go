//go:build unix

package mmtest

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/mattermost/mattermost/server/public/model"
)

var errNoBuild = errors.New("the Mattermost server could not be built (it needs the Go module proxy once)")

// Server is a running Mattermost server and who lives on it.
type Server struct {
	URL   string // http://127.0.0.1:PORT, the same after a restart
	Team  string // the team's id
	Admin *Person
	Petra *Person
	Gil   *Person
	Bot   *Bot

	build, source string
	keep          *reaper
	process       *os.Process
	ended         <-chan struct{}
}

// Bot is a bot account and its token.
type Bot struct {
	ID, Name, Token string
}

func newServer() (*Server, error) {
	bin, err := findPostgres()
	if err != nil {
		return nil, err
	}
	build, err := Build()
	if err != nil {
		return nil, fmt.Errorf("%w: %w", errNoBuild, err)
	}
	keep, err := newReaper()
	if err != nil {
		return nil, err
	}
	source, err := startPostgres(bin, keep.dir, keep)
	if err != nil {
		return nil, err
	}
	port, err := freePort()
	if err != nil {
		return nil, err
	}
	s := &Server{URL: fmt.Sprintf("http://127.0.0.1:%d", port), build: build, source: source, keep: keep}
	if err := s.layOut(); err != nil {
		return nil, err
	}
	if err := s.start(); err != nil {
		return nil, err
	}
	return s, s.populate()
}

// layOut makes the folder that the server runs in: what it reads is shared, what it writes
// is its own.
func (s *Server) layOut() error {
	for _, name := range []string{"config", "data", "logs", "plugins", "client"} {
		if err := os.MkdirAll(filepath.Join(s.keep.dir, "server", name), 0o755); err != nil {
			return fmt.Errorf("make the server's folders: %w", err)
		}
	}
	for _, name := range serverFolders {
		if err := os.Symlink(filepath.Join(s.build, name), filepath.Join(s.keep.dir, "server", name)); err != nil {
			return fmt.Errorf("lend the server its folders: %w", err)
		}
	}
	return nil
}

func (s *Server) start() error {
	cmd := exec.Command(filepath.Join(s.build, "bin", "mattermost"), "server")
	cmd.Dir = filepath.Join(s.keep.dir, "server")
	cmd.Env = s.environment()
	log := filepath.Join(s.keep.dir, "mattermost.log")
	ended, err := s.keep.start(cmd, "mattermost", log)
	if err != nil {
		return err
	}
	s.process, s.ended = cmd.Process, ended
	if err := await(2*time.Minute, func() bool { return s.answers() || !s.running() }); err != nil {
		return fmt.Errorf("wait for the Mattermost server: %w: %s", err, logTail(log))
	}
	if !s.running() {
		return fmt.Errorf("the Mattermost server has ended: %s", logTail(log))
	}
	return nil
}

func (s *Server) environment() []string {
	env := []string{
		"MM_SQLSETTINGS_DRIVERNAME=postgres",
		"MM_SQLSETTINGS_DATASOURCE=" + s.source,
		"MM_SERVICESETTINGS_SITEURL=" + s.URL,
		"MM_SERVICESETTINGS_LISTENADDRESS=" + strings.TrimPrefix(s.URL, "http://"),
		"MM_SERVICESETTINGS_ENABLEBOTACCOUNTCREATION=true",
		"MM_SERVICESETTINGS_ENABLEUSERACCESSTOKENS=true",
		"MM_SERVICESETTINGS_ENABLELINKPREVIEWS=false",
		"MM_SERVICESETTINGS_ENABLESECURITYFIXALERT=false",
		"MM_SERVICESETTINGS_ENABLEPOSTUSERNAMEOVERRIDE=true",
		"MM_TEAMSETTINGS_ENABLEOPENSERVER=true",
		"MM_PLUGINSETTINGS_ENABLE=false",
		"MM_LOGSETTINGS_ENABLEDIAGNOSTICS=false",
		"MM_LOGSETTINGS_ENABLEFILE=false",
		"MM_LOGSETTINGS_CONSOLELEVEL=ERROR",
		"MM_EMAILSETTINGS_SENDEMAILNOTIFICATIONS=false",
		"MM_EMAILSETTINGS_SENDPUSHNOTIFICATIONS=false",
		"MM_ANNOUNCEMENTSETTINGS_ADMINNOTICESENABLED=false",
		"MM_ANNOUNCEMENTSETTINGS_USERNOTICESENABLED=false",
	}
	for _, setting := range os.Environ() {
		if !strings.HasPrefix(setting, "MM_") {
			env = append(env, setting)
		}
	}
	return env
}

func (s *Server) answers() bool {
	ctx, cancel := context.WithTimeout(context.Background(), time.Second)
	defer cancel()
	request, err := http.NewRequestWithContext(ctx, http.MethodGet, s.URL+"/api/v4/system/ping", nil)
	if err != nil {
		return false
	}
	response, err := http.DefaultClient.Do(request)
	if err != nil {
		return false
	}
	response.Body.Close()
	return response.StatusCode == http.StatusOK
}

func (s *Server) running() bool {
	select {
	case <-s.ended:
		return false
	default:
		return true
	}
}

// Stop ends the server as an operator would, and waits for its end.
func (s *Server) Stop(t testing.TB) {
	t.Helper()
	s.end(t, syscall.SIGTERM)
}

// Kill ends the server as a power cut would.
func (s *Server) Kill(t testing.TB) {
	t.Helper()
	s.end(t, syscall.SIGKILL)
}

func (s *Server) end(t testing.TB, how syscall.Signal) {
	t.Helper()
	if err := s.process.Signal(how); err != nil && !errors.Is(err, os.ErrProcessDone) {
		t.Fatalf("stop the Mattermost server: %v", err)
	}
	select {
	case <-s.ended:
	case <-time.After(time.Minute):
		t.Fatal("the Mattermost server does not stop")
	}
}

// Resume starts a stopped server again, under the same address and with all that was on it.
func (s *Server) Resume(t testing.TB) {
	t.Helper()
	if err := s.start(); err != nil {
		t.Fatal(err)
	}
}

// Restart is Stop and Resume.
func (s *Server) Restart(t testing.TB) {
	t.Helper()
	s.Stop(t)
	s.Resume(t)
}

func (s *Server) populate() error {
	ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
	defer cancel()
	var err error
	if s.Admin, err = s.settle(ctx, "admin"); err != nil { // the first account made is the admin's
		return err
	}
	team, _, err := s.Admin.Client.CreateTeam(ctx, &model.Team{Name: "hut", DisplayName: "Shepherd's hut", Type: model.TeamOpen})
	if err != nil {
		return fmt.Errorf("make the team: %w", err)
	}
	s.Team = team.Id
	if s.Petra, err = s.settle(ctx, "petra"); err != nil {
		return err
	}
	if s.Gil, err = s.settle(ctx, "gil"); err != nil {
		return err
	}
	s.Bot, err = s.settleBot(ctx, "fettle")
	return err
}

// settle makes an account, logs it in and puts it in the team, if there is one yet.
func (s *Server) settle(ctx context.Context, name string) (*Person, error) {
	const password = "sawdust-and-glue-7"
	client := model.NewAPIv4Client(s.URL)
	user, _, err := client.CreateUser(ctx, &model.User{
		Username: name, Email: name + "@hut.example", Password: password,
		FirstName: strings.ToUpper(name[:1]) + name[1:],
	})
	if err != nil {
		return nil, fmt.Errorf("make the account of %s: %w", name, err)
	}
	if _, _, err := client.Login(ctx, name, password); err != nil {
		return nil, fmt.Errorf("log in %s: %w", name, err)
	}
	person := &Person{ID: user.Id, Name: name, Client: client, server: s}
	if s.Team == "" {
		return person, nil
	}
	return person, s.joinTeam(ctx, user.Id)
}

func (s *Server) settleBot(ctx context.Context, name string) (*Bot, error) {
	bot, _, err := s.Admin.Client.CreateBot(ctx, &model.Bot{Username: name, DisplayName: name})
	if err != nil {
		return nil, fmt.Errorf("make the bot account %s: %w", name, err)
	}
	token, _, err := s.Admin.Client.CreateUserAccessToken(ctx, bot.UserId, "tests")
	if err != nil {
		return nil, fmt.Errorf("make the token of %s: %w", name, err)
	}
	return &Bot{ID: bot.UserId, Name: name, Token: token.Token}, s.joinTeam(ctx, bot.UserId)
}

func (s *Server) joinTeam(ctx context.Context, userID string) error {
	if _, _, err := s.Admin.Client.AddTeamMember(ctx, s.Team, userID); err != nil {
		return fmt.Errorf("add to the team: %w", err)
	}
	return nil
}
