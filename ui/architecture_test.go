package ui_test

// The architecture of DESIGN.md, held by a test: main → ui/* → model/*; a model package knows nothing of the world and
// imports only packages above it in a list, and so does one of ui; screens do not know one another; files, clock and programs have one owner each.
// The whole module is parsed as it stands, for every platform. Test files and testdata are free to touch the world.
// The rules are the tables here; checker_test.go applies them, and breaks each of them on purpose.

import (
	"io/fs"
	"os"
	"strings"
	"testing"
)

const module = "example.org/vatside/"

// modelOrder is DESIGN's list: a package imports only packages above it. A new package is given its place here and there.
var modelOrder = []string{
	"sorted", "wording", "tree", "pack", "quantity", "fibre", "vessel", "recipe", "water", "liquor", "colour", "shade", "photo", "load", "piecefile", "practice", "signs", "day", "prepare", "outlook", "history", "calendar", "stock", "cost", "book", "sheet",
}

// uiOrder is the same for ui, each with all below it; the last is ui itself. Tests of the screens share screentest, and so it
// binds no test.
var uiOrder = []string{"guard", "style", "terminal", "widget", "shelf", "cue", "engine", "library", "answer", "paper", "screen", "screentest", "rehearse", "plain", "command", ""}

// rootKnowsNot are the packages that the root of the screens leaves to others: it opens, routes and draws, and knows no dyeing.
var rootKnowsNot = []string{"model/liquor", "model/shade", "model/load", "model/outlook", "model/signs", "ui/command", "ui/plain"}

// topLevel is all that may lie at the top; the second row is git's own and what .gitignore names.
var topLevel = []string{
	"main.go", "model", "ui", "recipes", "testdata", "README.md", "DEVELOPERS.md", "go.mod", "go.sum", ".ci", ".gitignore", ".gitattributes",
	".git", "vatside", "vatside.exe", "*.test", "*.out",
}

// modelMayImport are the packages from elsewhere that a model package may import. (toml itself imports os: only direct
// imports are held.)
var modelMayImport = []string{"github.com/BurntSushi/toml", "github.com/pelletier/go-toml/v2/unstable"}

// world is what of the standard library a model package may not import; "x/..." means x and all below it.
var world = []string{
	"os/...", "net/...", "syscall/...", "runtime/...", "log/...", "plugin", "unsafe", "C", "embed", "io/ioutil", "path/filepath",
	"math/rand/...", "crypto/rand", "database/...", "testing/...", "flag", "context",
}

// A right says who alone may import a package or name a member of it, and what to do instead.
type right struct {
	path    string   // of the package; "x/..." means x and all below it
	members []string // empty: the whole import
	owners  []string // folders, with all below them; "ui/" with a slash at its end: that folder alone
	sorry   string
}

var rights = []right{
	{"time", []string{"Now", "Since", "Until", "Sleep", "After", "AfterFunc", "Tick", "NewTimer", "NewTicker"},
		[]string{"ui/engine"}, "only ui/engine reads the clock: take the instant as an argument"},
	{"golang.org/x/sys/unix", []string{"ClockGettime", "Gettimeofday", "Time", "Sysinfo", "Nanosleep"},
		[]string{"ui/engine"}, "only ui/engine reads the clock: take the instant as an argument"},
	{"syscall", []string{"Gettimeofday", "Time", "Sysinfo", "Nanosleep"},
		[]string{"ui/engine"}, "only ui/engine reads the clock: take the instant as an argument"},
	{"github.com/charmbracelet/bubbletea", []string{"Tick", "Every"},
		[]string{"ui/"}, "one tick chain, owned by the root of the screens"},
	{"github.com/charmbracelet/bubbles/timer", nil, nil, "it counts ticks and loses the time slept: compare with a deadline"},
	{"github.com/charmbracelet/bubbles/stopwatch", nil, nil, "it counts ticks and loses the time slept: compare with a deadline"},

	{"os", []string{
		"Open", "OpenFile", "OpenRoot", "OpenInRoot", "Create", "CreateTemp", "ReadFile", "WriteFile", "ReadDir", "DirFS", "CopyFS",
		"Mkdir", "MkdirAll", "MkdirTemp", "Remove", "RemoveAll", "Rename", "Stat", "Lstat", "Chmod", "Chown", "Lchown", "Chtimes",
		"Truncate", "Link", "Symlink", "Readlink", "Chdir",
	}, []string{"ui/shelf"}, "only ui/shelf touches files: pass through it"},
	{"path/filepath", []string{"Walk", "WalkDir", "Glob", "EvalSymlinks"},
		[]string{"ui/shelf"}, "only ui/shelf touches files: pass through it"},
	{"syscall", []string{"Open", "Creat", "Mkdir", "Unlink", "Rename", "Stat", "Rmdir"},
		[]string{"ui/shelf"}, "only ui/shelf touches files: pass through it"},
	{"io/ioutil", nil, nil, "it touches files, and os has all of it: pass through ui/shelf"},
	{"github.com/gofrs/flock", nil, []string{"ui/shelf"}, "only ui/shelf touches files, and locks them"},
	{"github.com/fsnotify/fsnotify", nil, []string{"ui/shelf"}, "only ui/shelf touches files, and watches them"},
	{"github.com/adrg/xdg", nil, []string{"ui/shelf"}, "only ui/shelf knows where files lie"},

	{"github.com/charmbracelet/bubbles/textinput", nil, nil, "it looks for the programs of a clipboard before main: screen.Field is a line that is typed"},
	{"slices", []string{"SortFunc", "SortStableFunc"}, nil, "it is compiled anew for each type, 7 to 11 KB each: sorted.By"},
	{"encoding/json", nil, nil, "it and the encoder of toml were 155 KB of the program: asJSON in ui/command"},
	{"github.com/BurntSushi/toml", []string{"NewEncoder", "Marshal"}, nil, "it and encoding/json were 155 KB of the program: model/book writes"},
	{"text/template/...", nil, nil, "with it the linker keeps every method of every type, 2 MB: put words together"},

	{"os/exec", nil, []string{"ui/cue"}, "only ui/cue starts programs"},
	{"golang.org/x/sys/execabs", nil, []string{"ui/cue"}, "only ui/cue starts programs"},
	{"os", []string{"StartProcess"}, []string{"ui/cue"}, "only ui/cue starts programs"},
	{"syscall", []string{"Exec", "ForkExec", "StartProcess", "CreateProcess"}, []string{"ui/cue"}, "only ui/cue starts programs"},

	{"os", []string{"Stdout", "Stderr"}, []string{"."}, "only main.go hands the terminal out: write to the command's World, which has a door"},
	{"fmt", []string{"Print", "Printf", "Println"}, nil, "it passes the door of ui/command: write to the command's World"},
	{"log/...", nil, nil, "it passes the door of ui/command: write to the command's World"},
	{"github.com/charmbracelet/bubbletea", []string{"Println", "Printf"}, nil, "it passes what widget.Render holds back: say it on a screen"},
	{"github.com/charmbracelet/bubbletea", []string{"SetWindowTitle"}, nil, "ui/terminal writes the title, and takes a wording.Shown"},
	{module + "model/day", []string{"CallOf", "Next", "Meanwhile", "Upcoming", "LookAsked", "Dues"},
		[]string{"model", "ui/engine", "ui/library", "ui/answer", "ui/rehearse", "ui/command"},
		"what is asked of an open day each second is reckoned once: ask its engine.View"},
	{module + "model/book", []string{"Read"},
		[]string{"model/book"}, "a book is read by what day it is: take ReadOn"},
	{module + "ui/shelf", []string{"Open"}, []string{"ui/shelf"}, "a home knows what day it is: take shelf.At"},

	{"github.com/charmbracelet/lipgloss", []string{"AdaptiveColor", "CompleteColor", "CompleteAdaptiveColor", "ANSIColor"},
		[]string{"ui/style"}, "colours are tokens of ui/style"},
}

func TestArchitecture(t *testing.T) {
	root := os.DirFS("..")
	top, err := fs.ReadDir(root, ".")
	if err != nil {
		t.Fatal(err)
	}
	names := make([]string, len(top))
	for i, e := range top {
		names[i] = e.Name()
	}
	sources := map[string]string{}
	err = fs.WalkDir(root, ".", func(path string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case e.IsDir() && path != "." && (e.Name() == "testdata" || strings.HasPrefix(e.Name(), ".")):
			return fs.SkipDir
		case e.IsDir() || !strings.HasSuffix(path, ".go"):
			return nil
		}
		text, err := fs.ReadFile(root, path)
		sources[path] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, fault := range append(strangers(names), faults(sources)...) {
		t.Error(fault)
	}
	if len(sources) < 5 {
		t.Errorf("only %d Go files found: the test does not look at the module", len(sources))
	}
}
