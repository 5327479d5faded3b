//go:build unix

// Package mmtest runs a real Mattermost server for tests: the binary is built from the
// module in testdata/mattermost/server, its database is a throw-away PostgreSQL, and on it
// live an admin, the two people Petra and Gil, a team, and the bot account fettle.
//
//	server := mmtest.Start(t)
//	channel := server.Channel(t)
//	server.Petra.Post(t, channel, "@fettle rough size for 600 by 45")
//	answers := server.AwaitAnswers(t, channel, 1)
//
// One server serves all tests of a test binary. Its processes and folders go when the test
// process ends, however it ends.
package mmtest

import (
	"errors"
	"os"
	"sync"
	"testing"
)

// The server costs seconds to start, so the tests of one binary share it.
var shared struct {
	sync.Mutex
	server *Server
	err    error
}

// Start returns the running server, started by whichever test comes first and started again
// if a test has stopped it. Where no server can be had (PostgreSQL is missing, or the
// server's source cannot be fetched) the test is skipped with a line that says what to
// install; with CI=true it fails instead.
func Start(t testing.TB) *Server {
	t.Helper()
	shared.Lock()
	defer shared.Unlock()
	if shared.server == nil && shared.err == nil {
		shared.server, shared.err = newServer()
	}
	if shared.err != nil {
		giveUp(t, shared.err)
	}
	if !shared.server.running() {
		shared.server.Resume(t)
	}
	return shared.server
}

func giveUp(t testing.TB, err error) {
	t.Helper()
	if os.Getenv("CI") == "true" || !errors.Is(err, errNoPostgres) && !errors.Is(err, errNoBuild) {
		t.Fatalf("no Mattermost server to test with: %v", err)
	}
	t.Skipf("no Mattermost server to test with: %v", err)
}
