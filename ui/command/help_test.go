package command

import (
	"strings"
	"testing"
)

// Each text of help.txt is of a command that there is, which has it, and no command has two.
func TestHelpTextsAreOfCommands(t *testing.T) {
	root := (&program{World: World{Getenv: func(string) string { return "" }}}).root()
	seen := map[string]bool{}
	for _, part := range strings.Split("\n"+helpText, "\n== ")[1:] {
		path, text, _ := strings.Cut(part, "\n")
		c, _, err := root.Find(strings.Fields(path)[1:])
		if err != nil || c.CommandPath() != path || seen[path] {
			t.Errorf("%q is no command, or has two texts: %v", path, err)
			continue
		}
		seen[path] = true
		if first, _, _ := strings.Cut(text, "\n"); first != "--" && !strings.HasPrefix(c.Long, first) {
			t.Errorf("%s has %q for %q", path, c.Long, first)
		}
		if strings.Contains(text, "--\n") && c.Example == "" {
			t.Errorf("%s has lost its examples", path)
		}
	}
	if len(seen) < 30 {
		t.Errorf("%d texts", len(seen))
	}
}

// A page of the guide is lines that an 80-column terminal holds.
func TestTheGuideIsInLines(t *testing.T) {
	for _, g := range guides {
		var out strings.Builder
		Main([]string{"guide", g.name}, World{Out: &out, Err: &out})
		for line := range strings.Lines(out.String()) {
			if len([]rune(line)) > 80 {
				t.Errorf("%s: %q", g.name, line)
			}
		}
	}
}
