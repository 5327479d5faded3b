//go:build unix

package mmtest

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"os/user"
	"path/filepath"
	"sort"
	"strconv"
	"strings"
	"syscall"
	"time"
)

var errNoPostgres = errors.New("PostgreSQL is not installed (on Debian: apt-get install postgresql)")

// findPostgres gives the folder that holds initdb and postgres. Debian keeps them out of
// the path, a folder for each version.
func findPostgres() (string, error) {
	var places []string
	if out, err := exec.Command("pg_config", "--bindir").Output(); err == nil {
		places = append(places, strings.TrimSpace(string(out)))
	}
	versions, _ := filepath.Glob("/usr/lib/postgresql/*/bin")
	sort.Sort(sort.Reverse(sort.StringSlice(versions)))
	places = append(places, versions...)
	if path, err := exec.LookPath("postgres"); err == nil {
		places = append(places, filepath.Dir(path))
	}
	for _, dir := range places {
		if executable(filepath.Join(dir, "initdb")) && executable(filepath.Join(dir, "postgres")) {
			return dir, nil
		}
	}
	return "", errNoPostgres
}

func executable(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.Mode()&0o111 != 0
}

// postgresAccount is the account to run the database under: it refuses to be run by root.
// nil means the account of the test itself.
func postgresAccount() (*syscall.Credential, error) {
	if os.Geteuid() != 0 {
		return nil, nil
	}
	account, err := user.Lookup("postgres")
	if err != nil {
		return nil, fmt.Errorf("root cannot run PostgreSQL, and there is no account postgres: %w", err)
	}
	uid, err := strconv.ParseUint(account.Uid, 10, 32)
	if err != nil {
		return nil, fmt.Errorf("read the number of the account postgres: %w", err)
	}
	gid, err := strconv.ParseUint(account.Gid, 10, 32)
	if err != nil {
		return nil, fmt.Errorf("read the group of the account postgres: %w", err)
	}
	return &syscall.Credential{Uid: uint32(uid), Gid: uint32(gid)}, nil
}

// startPostgres makes an empty database in dir and returns its address once it answers.
// Nothing in it has to outlive a power cut, so it does not wait for the disk.
func startPostgres(bin, dir string, keep *reaper) (source string, err error) {
	account, err := postgresAccount()
	if err != nil {
		return "", err
	}
	data := filepath.Join(dir, "postgres")
	if err := os.Mkdir(data, 0o700); err != nil {
		return "", fmt.Errorf("make the database folder: %w", err)
	}
	if account != nil {
		if err := os.Chown(data, int(account.Uid), int(account.Gid)); err != nil {
			return "", fmt.Errorf("hand over the database folder: %w", err)
		}
	}
	initdb := exec.Command(filepath.Join(bin, "initdb"), "--pgdata", data, "--username", "fettle",
		"--auth", "trust", "--encoding", "UTF8", "--locale", "C", "--no-sync")
	initdb.Dir = data
	initdb.SysProcAttr = &syscall.SysProcAttr{Credential: account}
	if out, err := initdb.CombinedOutput(); err != nil {
		return "", fmt.Errorf("make the database: %w: %s", err, tail(out))
	}
	port, err := freePort()
	if err != nil {
		return "", err
	}
	cmd := exec.Command(filepath.Join(bin, "postgres"), "-D", data, "-p", strconv.Itoa(port),
		"-c", "listen_addresses=127.0.0.1", "-c", "unix_socket_directories="+data,
		"-c", "fsync=off", "-c", "synchronous_commit=off", "-c", "full_page_writes=off")
	cmd.Dir = data
	cmd.SysProcAttr = &syscall.SysProcAttr{Credential: account}
	log := filepath.Join(dir, "postgres.log")
	if _, err := keep.start(cmd, "postgres", log); err != nil {
		return "", err
	}
	if err := await(30*time.Second, func() bool { return listening(port) }); err != nil {
		return "", fmt.Errorf("wait for the database: %w: %s", err, logTail(log))
	}
	return fmt.Sprintf("postgres://fettle@127.0.0.1:%d/postgres?sslmode=disable&connect_timeout=10", port), nil
}
