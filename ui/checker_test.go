package ui_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// strangers tells what lies at the top and was not agreed.
func strangers(names []string) []string {
	var out []string
	for _, name := range names {
		agreed := func(pattern string) bool { ok, _ := path.Match(pattern, name); return ok }
		if !slices.ContainsFunc(topLevel, agreed) {
			out = append(out, name+": not agreed at the top level; it belongs into a folder, or into DESIGN.md and the list here")
		}
	}
	return out
}

// faults checks sources, path in the module → text, and tells each fault with its place.
func faults(sources map[string]string) []string {
	c := &checker{fset: token.NewFileSet()}
	paths := make([]string, 0, len(sources))
	for p := range sources {
		paths = append(paths, p)
	}
	slices.Sort(paths)
	for _, p := range paths {
		f, err := parser.ParseFile(c.fset, p, sources[p], parser.SkipObjectResolution)
		if err != nil {
			c.out = append(c.out, err.Error())
			continue
		}
		c.file(p, f)
	}
	return c.out
}

type checker struct {
	fset *token.FileSet
	out  []string
}

func (c *checker) fault(at ast.Node, format string, args ...any) {
	p := c.fset.Position(at.Pos())
	c.out = append(c.out, fmt.Sprintf("%s:%d: %s", p.Filename, p.Line, fmt.Sprintf(format, args...)))
}

// file checks one file.
func (c *checker) file(name string, f *ast.File) {
	dir, test := path.Dir(name), strings.HasSuffix(name, "_test.go")
	inModel := under(dir, "model")
	if pkg := modelPackage(dir); inModel && !slices.Contains(modelOrder, pkg) {
		c.fault(f.Name, "model package %q has no place in the list: give it one in DESIGN.md and in modelOrder", pkg)
	}
	if pkg, ok := uiPackage(dir); ok && !slices.Contains(uiOrder, pkg) {
		c.fault(f.Name, "ui package %q has no place in the list: give it one in DESIGN.md and in uiOrder", pkg)
	}
	imported := map[string]string{} // name in this file → path
	for _, spec := range f.Imports {
		p, _ := strconv.Unquote(spec.Path.Value)
		local := localName(spec, p)
		imported[local] = p
		if !test || !strings.HasPrefix(p, module+"testdata/") { // what makes test data is free for all tests
			c.ownImport(spec, dir, p)
		}
		if test {
			continue
		}
		if inModel {
			c.modelImport(spec, p)
		}
		c.uiImport(spec, dir, p)
		if local == "." {
			c.fault(spec, "%s is imported with a dot: then nobody sees whose names are used", p)
		}
		for _, r := range rights {
			if len(r.members) == 0 && matches(p, r.path) && !r.allows(dir) {
				c.fault(spec, "imports %s: %s", p, r.sorry)
			}
		}
	}
	if test {
		return
	}
	ast.Inspect(f, func(n ast.Node) bool {
		c.use(dir, imported, n)
		if inModel {
			c.still(n)
		} else if _, starts := n.(*ast.GoStmt); starts && dir != "ui/guard" {
			c.fault(n, "starts a goroutine whose panic nobody catches: start it with guard.Go or guard.GoThen")
		}
		return true
	})
}

// ownImport checks the arrows between the module's own packages; they bind tests too.
func (c *checker) ownImport(at ast.Node, dir, p string) {
	own, ok := strings.CutPrefix(p, module)
	if !ok {
		return
	}
	from, to := screen(dir), screen(own)
	switch {
	case under(dir, "model") && !under(own, "model"):
		c.fault(at, "a model package imports %s: the arrows go from ui to model", own)
	case under(dir, "model") && modelPackage(own) != modelPackage(dir) &&
		slices.Index(modelOrder, modelPackage(own)) >= slices.Index(modelOrder, modelPackage(dir)):
		c.fault(at, "%s imports %s, which does not stand above it in DESIGN's list", dir, own)
	case from != "" && to != "" && from != to:
		c.fault(at, "screen %s imports screen %s: screens speak through the root", from, to)
	case under(dir, "recipes") && !under(own, "model"):
		c.fault(at, "recipes imports %s: it holds the recipes and knows the model only", own)
	}
}

// uiImport keeps the packages of ui in their order.
func (c *checker) uiImport(at ast.Node, dir, p string) {
	own, ok := strings.CutPrefix(p, module)
	from, fromUI := uiPackage(dir)
	to, toUI := uiPackage(own)
	if ok && fromUI && toUI && from != to && slices.Index(uiOrder, to) >= slices.Index(uiOrder, from) {
		c.fault(at, "%s imports %s, which does not stand above it in DESIGN's list", dir, own)
	}
	if ok && dir == "ui" && slices.Contains(rootKnowsNot, own) {
		c.fault(at, "the root of the screens imports %s: ask ui/library or a screen", own)
	}
}

// modelImport keeps the world out of the model.
func (c *checker) modelImport(at ast.Node, p string) {
	first, _, _ := strings.Cut(p, "/")
	switch {
	case strings.HasPrefix(p, module):
	case strings.Contains(first, "."):
		if !slices.Contains(modelMayImport, p) {
			c.fault(at, "a model package imports %s: the model is pure knowledge", p)
		}
	case slices.ContainsFunc(world, func(w string) bool { return matches(p, w) }):
		c.fault(at, "a model package imports %s: the model knows nothing of the world", p)
	}
}

// still keeps goroutines and channels out of the model.
func (c *checker) still(n ast.Node) {
	switch n.(type) {
	case *ast.GoStmt:
		c.fault(n, "a model package starts a goroutine: the model is a pure function of its inputs")
	case *ast.ChanType, *ast.SelectStmt:
		c.fault(n, "a model package has a channel: the model is a pure function of its inputs")
	}
}

// use checks one name of an imported package, called or only mentioned.
func (c *checker) use(dir string, imported map[string]string, n ast.Node) {
	if call, ok := n.(*ast.CallExpr); ok && len(call.Args) == 1 && !under(dir, "ui/style") {
		_, literal := call.Args[0].(*ast.BasicLit)
		if p, member := selected(imported, call.Fun); literal && p == "github.com/charmbracelet/lipgloss" && member == "Color" {
			c.fault(n, "a colour is written out: colours are tokens of ui/style")
		}
	}
	if call, ok := n.(*ast.CallExpr); ok {
		if name, ok := call.Fun.(*ast.Ident); ok && (name.Name == "print" || name.Name == "println") {
			c.fault(n, "%s writes past the door of ui/command: write to the command's World", name.Name)
		}
	}
	p, member := selected(imported, n)
	for _, r := range rights {
		if p != "" && matches(p, r.path) && slices.Contains(r.members, member) && !r.allows(dir) {
			c.fault(n, "uses %s.%s: %s", path.Base(p), member, r.sorry)
		}
	}
}

// selected gives package path and member when n is a name of an imported package.
func selected(imported map[string]string, n ast.Node) (p, member string) {
	if sel, ok := n.(*ast.SelectorExpr); ok {
		if x, ok := sel.X.(*ast.Ident); ok {
			return imported[x.Name], sel.Sel.Name
		}
	}
	return "", ""
}

// localName is what a file calls an imported package.
func localName(spec *ast.ImportSpec, p string) string {
	switch {
	case spec.Name != nil:
		return spec.Name.Name
	case p == "github.com/charmbracelet/bubbletea":
		return "tea"
	default:
		return path.Base(p)
	}
}

func (r right) allows(dir string) bool {
	return slices.ContainsFunc(r.owners, func(owner string) bool {
		alone, only := strings.CutSuffix(owner, "/")
		return dir == alone || !only && under(dir, owner)
	})
}

func under(dir, top string) bool { return dir == top || strings.HasPrefix(dir, top+"/") }

func matches(p, pattern string) bool {
	below, all := strings.CutSuffix(pattern, "/...")
	return p == below || all && under(p, below)
}

func modelPackage(dir string) string { return strings.TrimPrefix(dir, "model/") }

// uiPackage is the folder below ui that a package belongs to, "" for ui itself; false outside ui.
func uiPackage(dir string) (string, bool) {
	name, below := strings.CutPrefix(dir, "ui/")
	name, _, _ = strings.Cut(name, "/")
	if !below {
		name = ""
	}
	return name, below || dir == "ui"
}

// screen is the name of the screen that a folder belongs to, or "".
func screen(dir string) string {
	rest, ok := strings.CutPrefix(dir, "ui/screen/")
	name, _, _ := strings.Cut(rest, "/")
	if !ok {
		return ""
	}
	return name
}

// Each rule, broken on purpose in a small source: the checker must tell it, so the architecture test can fail. A case
// without `want` is a neighbour of a rule that must stay free.
func TestCheckerTellsEachFault(t *testing.T) {
	const lip, tea = "github.com/charmbracelet/lipgloss", "github.com/charmbracelet/bubbletea"
	for _, c := range []struct{ file, imports, body, want string }{
		{"model/day/a.go", "os", "", "knows nothing of the world"},
		{"model/day/a.go", "net/http", "", "knows nothing of the world"},
		{"model/day/a.go", "math/rand/v2", "", "knows nothing of the world"},
		{"model/day/a.go", "crypto/rand", "", "knows nothing of the world"},
		{"model/day/a.go", "log/slog", "", "knows nothing of the world"},
		{"model/day/a.go", tea, "", "pure knowledge"},
		{"model/day/a.go", "golang.org/x/sys/unix", "", "pure knowledge"},
		{"model/day/a.go", "github.com/BurntSushi/toml", "", ""},
		{"model/day/a.go", "math", "", ""},
		{"model/day/a_test.go", "os", "var _ = os.ReadFile", ""},
		{"model/day/a.go", "time", "var _ = time.Now()", "only ui/engine reads the clock"},
		{"model/day/a.go", "time", "var now = time.Now", "only ui/engine reads the clock"},
		{"model/day/a.go", "clock time", "var _ = clock.Since", "only ui/engine reads the clock"},
		{"model/day/a.go", ". time", "var _ = Now()", "imported with a dot"},
		{"model/day/a.go", "time", "var _ = time.Date", ""},
		{"model/day/a.go", "", "func f() { go f() }", "starts a goroutine"},
		{"ui/engine/a.go", "", "func f() { go f() }", "whose panic nobody catches"},
		{"main.go", "", "func f() { go func() {}() }", "whose panic nobody catches"},
		{"ui/guard/a.go", "", "func f() { go f() }", ""},
		{"ui/engine/a_test.go", "", "func f() { go f() }", ""},
		{"model/day/a.go", "", "var c = make(chan int)", "has a channel"},
		{"model/day/a.go", "", "func f() { select {} }", "has a channel"},
		{"model/day/a.go", module + "model/book", "", "does not stand above it"},
		{"model/day/a_test.go", module + "model/book", "", "does not stand above it"},
		{"model/day/a_test.go", module + "model/day", "", ""},
		{"model/day/a_test.go", module + "testdata/longday", "", ""},
		{"model/day/a.go", module + "testdata/longday", "", "from ui to model"},
		{"model/book/a.go", module + "model/day", "", ""},
		{"model/book/a.go", module + "ui/shelf", "", "from ui to model"},
		{"model/book/a.go", module + "recipes", "", "from ui to model"},
		{"model/gossip/a.go", "", "", "has no place in the list"},
		{"model/a.go", "", "", "has no place in the list"},
		{"ui/engine/a.go", module + "model/book", "", ""},
		{"ui/guard/a.go", module + "ui/style", "", "does not stand above it"},
		{"ui/shelf/a.go", module + "ui/engine", "", "does not stand above it"},
		{"ui/style/quiet/a.go", module + "ui/widget", "", "does not stand above it"},
		{"ui/command/a.go", module + "ui", "", "does not stand above it"},
		{"ui/screen/home/a.go", module + "ui/engine", "", ""},
		{"ui/style/a.go", module + "ui/style/quiet", "", ""},
		{"ui/screen/home/a_test.go", module + "ui/screentest", "", ""},
		{"ui/gossip/a.go", "", "", "has no place in the list"},
		{"ui/screen/home/a.go", module + "ui/screen/clock", "", "screens speak through the root"},
		{"ui/screen/home/a.go", module + "ui/screen/home/part", "", ""},
		{"ui/a.go", module + "ui/screen/home", "", ""},
		{"ui/a.go", module + "ui/command", "", "ask ui/library"},
		{"ui/a.go", module + "model/shade", "", "ask ui/library"},
		{"ui/library/a.go", module + "model/shade", "", ""},
		{"ui/library/a.go", module + "ui/answer", "", "does not stand above it"},
		{"ui/command/a.go", "os", "var _ = os.ReadFile", "only ui/shelf touches files"},
		{"main.go", "os", "var _ = os.MkdirAll", "only ui/shelf touches files"},
		{"ui/engine/a.go", "os", "var _ = os.DirFS", "only ui/shelf touches files"},
		{"ui/engine/a.go", "path/filepath", "var _ = filepath.WalkDir", "only ui/shelf touches files"},
		{"ui/engine/a.go", "path/filepath", "var _ = filepath.Join", ""},
		{"ui/engine/a.go", "io/ioutil", "", "it touches files"},
		{"ui/engine/a.go", "github.com/gofrs/flock", "", "only ui/shelf touches files"},
		{"ui/engine/a.go", "github.com/adrg/xdg", "", "only ui/shelf knows where files lie"},
		{"ui/shelf/a.go", "os", "var _ = os.ReadFile", ""},
		{"ui/command/a.go", "os", "var _ = os.Stdin", ""},
		{"ui/command/a.go", "os", "var _ = os.Stdout", "only main.go hands the terminal out"},
		{"ui/a.go", "os", "var _ = os.Stderr", "only main.go hands the terminal out"},
		{"main.go", "os", "var _ = os.Stdout", ""},
		{"ui/plain/a.go", "fmt", "func f() { fmt.Println() }", "it passes the door"},
		{"main.go", "fmt", "func f() { fmt.Printf(``) }", "it passes the door"},
		{"ui/plain/a.go", "fmt", "var _ = fmt.Fprintln", ""},
		{"ui/plain/a.go", "log/slog", "", "it passes the door"},
		{"ui/plain/a.go", "", "func f() { println() }", "println writes past the door"},
		{"ui/plain/a_test.go", "fmt", "var _ = fmt.Println", ""},
		{"ui/a.go", tea, "var _ = tea.Println", "say it on a screen"},
		{"ui/a.go", tea, "var _ = tea.SetWindowTitle", "ui/terminal writes the title"},
		{"recipes/embed.go", "embed", "var _ embed.FS", ""},
		{"recipes/embed.go", module + "model/recipe", "", ""},
		{"recipes/embed.go", module + "ui/shelf", "", "knows the model only"},
		{"ui/shelf/a.go", "time", "var _ = time.Now()", "only ui/engine reads the clock"},
		{"ui/cue/a.go", "time", "var _ = time.AfterFunc", "only ui/engine reads the clock"},
		{"ui/cue/a.go", "syscall", "var _ = syscall.Gettimeofday", "only ui/engine reads the clock"},
		{"ui/plain/a.go", "golang.org/x/sys/unix", "var _ = unix.ClockGettime", "only ui/engine reads the clock"},
		{"ui/engine/a.go", "time", "var _ = time.NewTimer", ""},
		{"ui/shelf/a_test.go", "time", "var _ = time.Now()", ""},
		{"ui/a.go", tea, "var _ = tea.Tick", ""},
		{"ui/screen/clock/a.go", tea, "var _ = tea.Tick", "one tick chain"},
		{"ui/screen/clock/a.go", "github.com/charmbracelet/bubbles/timer", "", "loses the time slept"},
		{"ui/screen/clock/a.go", module + "model/day", "var _ = day.CallOf", "ask its engine.View"},
		{"ui/a.go", module + "model/day", "var _ = day.Next", "ask its engine.View"},
		{"ui/engine/a.go", module + "model/day", "var _ = day.CallOf", ""},
		{"ui/command/a.go", module + "model/book", "var _ = book.Read", "a book is read by what day it is"},
		{"ui/command/a.go", module + "model/book", "var _ = book.ReadOn", ""},
		{"ui/command/a.go", module + "ui/shelf", "var _ = shelf.Open", "a home knows what day it is"},
		{"ui/command/a.go", "os/exec", "", "only ui/cue starts programs"},
		{"ui/command/a.go", "syscall", "var _ = syscall.Exec", "only ui/cue starts programs"},
		{"ui/cue/a.go", "os/exec", "", ""},
		{"ui/widget/a.go", lip, `var _ = lipgloss.Color("#123456")`, "colours are tokens"},
		{"ui/widget/a.go", lip, `var _ = lipgloss.AdaptiveColor{}`, "colours are tokens"},
		{"ui/widget/a.go", lip, `var x string; var _ = lipgloss.Color(x)`, ""},
		{"ui/style/a.go", lip, `var _ = lipgloss.Color("#123456")`, ""},
		{"ui/a.go", "", "func {", "expected"},
	} {
		src := "package p\n"
		if name, p, named := strings.Cut(c.imports, " "); named {
			src += fmt.Sprintf("import %s %q\n", name, p)
		} else if c.imports != "" {
			src += fmt.Sprintf("import %q\n", c.imports)
		}
		got := faults(map[string]string{c.file: src + c.body})
		switch told := strings.Join(got, "\n"); {
		case c.want == "" && len(got) > 0:
			t.Errorf("%s importing %q with %q is free, yet told: %s", c.file, c.imports, c.body, told)
		case !strings.Contains(told, c.want):
			t.Errorf("%s importing %q with %q: told %q, want %q", c.file, c.imports, c.body, told, c.want)
		}
	}
	if got := strangers([]string{"model", "main.go", "vatside.test", "notes.txt", "internal"}); len(got) != 2 {
		t.Errorf("of notes.txt and internal at the top, told: %v", got)
	}
}
