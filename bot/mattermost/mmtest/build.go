//go:build unix

package mmtest

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
)

const (
	serverModule  = "github.com/mattermost/mattermost/server/v8"
	serverCommand = serverModule + "/cmd/mattermost"
	helperModule  = "testdata/mattermost/server"
)

// The folders that the server wants to find where it runs; they are part of its module.
var serverFolders = []string{"i18n", "templates", "fonts"}

// Build compiles the chat server and returns the folder that holds the binary
// (bin/mattermost) and what it reads (i18n, templates, fonts). The folder is kept in the
// user's cache, keyed by what it was built from, so only the first call costs minutes;
// whoever comes meanwhile, from whatever process, waits for that one.
func Build() (string, error) {
	helper, err := findHelper()
	if err != nil {
		return "", err
	}
	key, err := buildKey(helper)
	if err != nil {
		return "", fmt.Errorf("name the server build: %w", err)
	}
	cache, err := os.UserCacheDir()
	if err != nil {
		return "", fmt.Errorf("find the user's cache folder: %w", err)
	}
	home := filepath.Join(cache, "fettle")
	if err := os.MkdirAll(home, 0o755); err != nil {
		return "", fmt.Errorf("make the cache folder: %w", err)
	}
	dir := filepath.Join(home, "mattermost-"+key)
	unlock, err := lock(dir + ".lock")
	if err != nil {
		return "", err
	}
	defer unlock()
	if _, err := os.Stat(dir); err == nil {
		return dir, nil
	}
	return dir, buildInto(helper, dir)
}

// buildInto makes everything under another name first, so that a build which was broken
// off is never taken for a whole one.
func buildInto(helper, dir string) error {
	half, err := os.MkdirTemp(filepath.Dir(dir), "half-*")
	if err != nil {
		return fmt.Errorf("make the build folder: %w", err)
	}
	defer os.RemoveAll(half)
	binary := filepath.Join(half, "bin", "mattermost")
	if _, err := goTool(helper, "build", "-mod=mod", "-trimpath", "-o", binary, serverCommand); err != nil {
		return fmt.Errorf("build the server: %w", err)
	}
	source, err := goTool(helper, "list", "-mod=mod", "-m", "-f", "{{.Dir}}", serverModule)
	if err != nil {
		return fmt.Errorf("find the server's module: %w", err)
	}
	for _, name := range serverFolders {
		if err := os.CopyFS(filepath.Join(half, name), os.DirFS(filepath.Join(source, name))); err != nil {
			return fmt.Errorf("copy the server's %s: %w", name, err)
		}
	}
	if err := os.Chmod(half, 0o755); err != nil {
		return fmt.Errorf("open the build folder: %w", err)
	}
	return os.Rename(half, dir)
}

// goTool runs the go command for the server's own module: none of the settings that the
// test run itself has (its flags, its workspace) may leak into it.
func goTool(dir string, args ...string) (string, error) {
	cmd := exec.Command("go", args...)
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "GOFLAGS=-buildvcs=false", "GOWORK=off")
	var said bytes.Buffer
	cmd.Stderr = &said
	out, err := cmd.Output()
	if err != nil {
		return "", fmt.Errorf("go %s: %w: %s", args[0], err, tail(said.Bytes()))
	}
	return strings.TrimSpace(string(out)), nil
}

func buildKey(helper string) (string, error) {
	sum := sha256.New()
	for _, name := range []string{"go.mod", "go.sum"} {
		content, err := os.ReadFile(filepath.Join(helper, name))
		if err != nil {
			return "", err
		}
		sum.Write(content)
	}
	return hex.EncodeToString(sum.Sum(nil))[:16], nil
}

// findHelper looks upwards from the working folder, which for a test is its package's.
func findHelper() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for {
		helper := filepath.Join(dir, helperModule)
		if _, err := os.Stat(filepath.Join(helper, "go.mod")); err == nil {
			return helper, nil
		}
		if dir == filepath.Dir(dir) {
			return "", errors.New(helperModule + " is in no folder above this one")
		}
		dir = filepath.Dir(dir)
	}
}

// lock waits for the file to be nobody else's; the system lets go of it when the process
// ends, however it ends.
func lock(path string) (unlock func(), err error) {
	file, err := os.OpenFile(path, os.O_CREATE|os.O_RDWR, 0o644)
	if err != nil {
		return nil, fmt.Errorf("open the build lock: %w", err)
	}
	if err := syscall.Flock(int(file.Fd()), syscall.LOCK_EX); err != nil {
		file.Close()
		return nil, fmt.Errorf("wait for the build lock: %w", err)
	}
	return func() { file.Close() }, nil
}

func tail(output []byte) string {
	const enough = 2000
	if len(output) > enough {
		output = output[len(output)-enough:]
	}
	return string(bytes.TrimSpace(output))
}
