package main_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"io"
	"io/fs"
	"log/slog"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"fettle/bot"
	"fettle/bot/terminal"
	"fettle/commands"
	"fettle/store"
)

// Imports only ever point down the page. A rule holds for a folder and all below it; the
// first that fits a package counts.
var house = []struct {
	folder string
	may    []string // of our own packages
	mustNo []string // of anybody's: what a pure computation has no business with
}{
	{folder: "fettle/calc/checktest", may: []string{"fettle/calc"}}, // lent to tests, so it may read files
	{folder: "fettle/calc/cutplan", may: []string{"fettle/calc"}, // a search is stopped from outside
		mustNo: []string{"os", "net", "time", "log", "database/sql", "syscall", "io/ioutil", "testing"}},
	{folder: "fettle/calc", may: []string{"fettle/calc"},
		mustNo: []string{"os", "net", "time", "log", "database/sql", "context", "math/rand", "syscall", "io/ioutil", "testing"}},
	{folder: "fettle/store", may: []string{"fettle/calc"}},
	{folder: "fettle/commands/speech", may: []string{"fettle/calc/measure"}},
	{folder: "fettle/commands/odds/training", may: []string{"fettle/commands"}}, // reads the topics' examples; the program has only the weights
	{folder: "fettle/commands/odds/train", may: []string{"fettle/commands"}},
	{folder: "fettle/commands/odds", may: []string{"fettle/commands/speech"}},
	{folder: "fettle/commands/book", may: []string{"fettle/calc/measure", "fettle/calc/sketch", "fettle/store"}},
	{folder: "fettle/commands/tables", may: []string{"fettle/calc"}},
	{folder: "fettle/commands", may: []string{"fettle/calc", "fettle/store", "fettle/commands"}},
	{folder: "fettle/bot/cutreport", may: []string{"fettle/calc"}}, // reads published jobs
	{folder: "fettle/bot", may: []string{"fettle/bot", "fettle/commands", "fettle/store", "fettle/calc/sketch", "fettle/calc/cutplan"}},
	{folder: "fettle", may: []string{"fettle"}},
}

// goPackage is what go list tells of a package.
type goPackage struct {
	ImportPath   string
	Imports      []string
	TestImports  []string
	XTestImports []string
}

func packages(t *testing.T) []goPackage {
	t.Helper()
	cmd := exec.Command("go", "list", "-json=ImportPath,Imports,TestImports,XTestImports", "./...")
	var said bytes.Buffer
	cmd.Stderr = &said
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("go list: %v: %s", err, said.String())
	}
	var all []goPackage
	for dec := json.NewDecoder(bytes.NewReader(out)); ; {
		var p goPackage
		if err := dec.Decode(&p); errors.Is(err, io.EOF) {
			return all
		} else if err != nil {
			t.Fatalf("read what go list says: %v", err)
		}
		all = append(all, p)
	}
}

// within says whether a package is a folder's own or lies below it.
func within(pkg, folder string) bool {
	return pkg == folder || strings.HasPrefix(pkg, folder+"/")
}

func withinAny(pkg string, folders []string) bool {
	return slices.ContainsFunc(folders, func(f string) bool { return within(pkg, f) })
}

// offences lists the imports that the rules forbid a package.
func offences(pkg string, imports []string) (bad []string) {
	for _, rule := range house {
		if !within(pkg, rule.folder) {
			continue
		}
		for _, i := range imports {
			if within(i, "fettle") && !withinAny(i, rule.may) || withinAny(i, rule.mustNo) {
				bad = append(bad, i)
			}
		}
		return bad
	}
	return imports
}

func TestImportsPointDown(t *testing.T) {
	all := packages(t)
	if len(all) < 20 {
		t.Fatalf("go list knows %d packages only", len(all))
	}
	for _, p := range all {
		for _, i := range offences(p.ImportPath, p.Imports) {
			t.Errorf("%s must not import %s", p.ImportPath, i)
		}
		// The lowest two storeys are tested on their own; above, a test may reach further.
		if withinAny(p.ImportPath, []string{"fettle/calc", "fettle/store"}) {
			for _, i := range slices.Concat(p.TestImports, p.XTestImports) {
				if within(i, "fettle") && !withinAny(i, []string{"fettle/calc", "fettle/store"}) {
					t.Errorf("the tests of %s must not import %s", p.ImportPath, i)
				}
			}
		}
	}
}

// The rules above are worth as much as what they turn away.
func TestRulesTurnAway(t *testing.T) {
	for _, c := range []struct {
		pkg, imported string
		allowed       bool
	}{
		{"fettle/calc/rough", "fettle/calc/measure", true},
		{"fettle/calc/rough", "fettle/store", false},
		{"fettle/calc/rough", "os", false},
		{"fettle/calc/rough", "os/exec", false},
		{"fettle/calc/rough", "net/http", false},
		{"fettle/calc/rough", "math/rand/v2", false},
		{"fettle/calc/rough", "strings", true},
		{"fettle/calc/checktest", "os", true},
		{"fettle/store", "fettle/calc/measure", true},
		{"fettle/store", "fettle/commands", false},
		{"fettle/commands/speech", "fettle/calc/measure", true},
		{"fettle/commands/speech", "fettle/calc/glue", false},
		{"fettle/commands/speech", "fettle/commands", false},
		{"fettle/commands/odds", "fettle/commands", false},
		{"fettle/commands", "fettle/store", true},
		{"fettle/commands", "fettle/bot", false},
		{"fettle/bot", "fettle/commands", true},
		{"fettle/bot/mattermost", "fettle/bot", true},
		{"fettle/bot", "fettle/calc/measure", false},
		{"fettle/bot", "fettle/commands/speech", true}, // part of commands
		{"fettle", "fettle/bot/terminal", true},
	} {
		if got := len(offences(c.pkg, []string{c.imported})) == 0; got != c.allowed {
			t.Errorf("%s importing %s: allowed %v, want %v", c.pkg, c.imported, got, c.allowed)
		}
	}
}

// tracked lists the files that belong to the project, with slashes: those that git keeps, or,
// where there is no git (a copy of the source), all that .gitignore does not name.
func tracked(t *testing.T) []string {
	t.Helper()
	cmd := exec.Command("git", "-c", "safe.directory=*", "ls-files", "-z")
	if out, err := cmd.Output(); err == nil && len(out) > 0 {
		return slices.DeleteFunc(strings.Split(strings.TrimRight(string(out), "\x00"), "\x00"), func(name string) bool {
			_, err := os.Lstat(name)
			return errors.Is(err, fs.ErrNotExist)
		})
	}
	var all []string
	err := fs.WalkDir(os.DirFS("."), ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && d.Name() == ".git":
			return fs.SkipDir
		case !d.IsDir() && !ignored(t, name):
			all = append(all, name)
		}
		return nil
	})
	if err != nil {
		t.Fatalf("walk the project: %v", err)
	}
	return all
}

// ignored reads the two kinds of line that .gitignore has: *.ending, and /name at the top.
func ignored(t *testing.T, name string) bool {
	t.Helper()
	for _, line := range strings.Fields(read(t, ".gitignore")) {
		if ok, err := filepath.Match(line, filepath.Base(name)); err != nil || ok {
			return ok
		}
		if line == "/"+name {
			return true
		}
	}
	return false
}

func read(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestNothingStrayAtTheTop(t *testing.T) {
	belongs := []string{
		".ci", ".dockerignore", ".gitignore", "DEVELOPERS.md", "Dockerfile", "LICENSE", "README.md",
		"bot", "calc", "commands", "export.go", "go.mod", "go.sum", "main.go", "plan.go", "store", "testdata",
	}
	for _, name := range tracked(t) {
		top, _, _ := strings.Cut(name, "/")
		if !slices.Contains(belongs, top) && !strings.HasSuffix(top, "_test.go") {
			t.Errorf("%s does not belong at the top level", name)
		}
	}
}

// The source is the same on every machine, so it names no folder of one and no host from
// which one of them fetches its packages.
func TestNoTraceOfAMachine(t *testing.T) {
	traces := []string{ // in halves, so that this file is clean
		"/wo" + "rk/", "/ro" + "ot/go", "/tmp/" + "brief", "/ho" + "me/",
		"proxy.go" + "lang.org", "sum.go" + "lang.org", "registry.np" + "mjs.org", "deb.deb" + "ian.org", "pypi.o" + "rg",
	}
	for _, name := range tracked(t) {
		text := read(t, name)
		if !utf8.ValidString(text) {
			continue // a database or a picture
		}
		for _, trace := range traces {
			if at := strings.Index(text, trace); at >= 0 {
				t.Errorf("%s:%d says %q", name, 1+strings.Count(text[:at], "\n"), trace)
			}
		}
	}
}

func TestTopicsSayWhatTheyAre(t *testing.T) {
	seen := map[string]bool{}
	for _, topic := range commands.Topics() {
		if topic.Name == "" || seen[topic.Name] {
			t.Errorf("topic %q: has no name of its own", topic.Name)
		}
		seen[topic.Name] = true
		if topic.Title == "" {
			t.Errorf("topic %s: has no title", topic.Name)
		}
		if len(topic.Examples) < 2 {
			t.Errorf("topic %s: has %d examples, want two or more", topic.Name, len(topic.Examples))
		}
	}
	if len(seen) == 0 {
		t.Error("there are no topics")
	}
}

// What these examples speak of is not there yet in a new project, so they are asked about.
var speakOfEarlier = []string{"switch to doors", "no, I meant 83 cm",
	"give the door another hour", "took bow 1 out of the clamps",
	"I'll take the rails", "Gil does the bows and I do the door", "I give the rails back",
	"rails are cut", "5 of 6 slats planed", "cut one rail short", "the trim is fitted",
	"the second ash board has a knot at 900, about 60 across",
}

// Help shows the examples to people, so each must work as it stands, as the first thing that
// is said to a new project.
func TestExamplesReachTheirTopic(t *testing.T) {
	for _, topic := range commands.Topics() {
		for _, example := range topic.Examples {
			t.Run(topic.Name+"/"+example, func(t *testing.T) {
				t.Parallel()
				got := asked(t, example)
				if got.Topic != topic.Name {
					t.Errorf("%q is taken for %s, want %s; the answer: %s", example, got.Topic, topic.Name, got.Text)
				}
				if got.Answer == "" {
					t.Errorf("%q gets no answer", example)
				}
				if asks := slices.Contains(speakOfEarlier, example); asks != (got.Question != "") {
					t.Errorf("%q: the question back is %q, want one: %v", example, got.Question, asks)
				}
			})
		}
	}
}

// asked puts one message to a new project, as somebody at a terminal would.
func asked(t *testing.T, text string) (ans commands.Answer) {
	t.Helper()
	clock := func() time.Time { return time.Date(2026, 3, 7, 10, 0, 0, 0, time.UTC) }
	db, err := store.Open(t.Context(), filepath.Join(t.TempDir(), "fettle.db"), clock)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	var out bytes.Buffer
	desk := bot.NewDesk(db, time.Now, time.UTC, slog.New(slog.DiscardHandler))
	term := terminal.Terminal{Desk: desk, Project: "hut", Who: "Petra", JSON: true, Now: clock, Out: &out}
	if err := term.Ask(t.Context(), text); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(out.Bytes(), &ans); err != nil {
		t.Fatalf("%q is answered with %s: %v", text, out.String(), err)
	}
	return ans
}
