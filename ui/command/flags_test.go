package command

import (
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// A home with nothing in it is refused, whatever is asked: it would be the dyer's own.
func TestAHomeWithNothingInIt(t *testing.T) {
	for _, args := range [][]string{{"--home", ""}, {"--home=", "now"}, {"now", "--home", " "}, {"book", "verify", "--home="}, {"rehearse", "--plain", "--home="}, {"--plain", "--home="}} {
		out, errs, code := run(t, "", args...)
		if code != 2 || out != "" || errs != "vatside: --home is given with nothing in it"+seeHelp(args...)+"\n" {
			t.Errorf("%q: %d %q %q", args, code, out, errs)
		}
	}
	var e, o strings.Builder // VATSIDE_HOME with nothing in it is not set; --home goes before it
	home := filepath.Join(t.TempDir(), "home")
	if code := Main([]string{"now", "--home", home}, World{Out: &o, Err: &e, Getenv: func(string) string { return "" }}); code != 0 || o.String() != "No day is open.\n" {
		t.Errorf("%d %q %q", code, o.String(), e.String())
	}
}

// Each flag of each command that takes a text is refused with nothing in it, one of several texts too.
func TestNoEmptyFlag(t *testing.T) {
	flags := 0
	var each func(c *cobra.Command)
	each = func(c *cobra.Command) {
		c.Flags().VisitAll(func(f *pflag.Flag) {
			alone := &cobra.Command{}
			alone.Flags().AddFlag(f)
			if alone.Flags().Set(f.Name, " ") != nil {
				return // a switch or a number
			}
			flags++
			if err := noEmptyFlag(alone, nil); err == nil || err.Error() != "--"+f.Name+" is given with nothing in it" {
				t.Errorf("%s --%s: %v", c.CommandPath(), f.Name, err)
			}
		})
		for _, sub := range c.Commands() {
			each(sub)
		}
	}
	each((&program{}).root())
	if flags < 100 {
		t.Errorf("%d flags", flags)
	}
}

func TestSpeeds(t *testing.T) {
	for _, s := range []string{"NaN", "Inf", "-Inf", "0", "-60", "0.99", "36001", "1e300", "fast"} {
		out, errs, code := run(t, "", "rehearse", "--plain", "--speed", s)
		if want := "vatside: --speed is a number from 1 to 36000, or max, not \"" + s + "\"\n"; code != 1 || out != "" || errs != want {
			t.Errorf("%q: %d %q %q", s, code, out, errs)
		}
	}
	for s, want := range map[string]float64{"1": 1, "36000": mostSpeed, "1e3": 1000} {
		if f, err := parseSpeed(s); err != nil || f != want {
			t.Errorf("%q: %g %v", s, f, err)
		}
	}
}

// Every flag of every command, with a value that it cannot take: nothing of the words for programmers.
func TestFlagsInPlainWords(t *testing.T) {
	for _, c := range []struct{ line, says string }{
		{"now --json=maybe", `--json is a switch, true or false, not "maybe"`},
		{"rehearse --plain=2", `--plain is a switch, true or false, not "2"`},
		{"load x --hands two", `--hands is a whole number, such as 2, not "two"`},
		{"load x --hands 99999999999999999999", `--hands is a whole number, such as 2, not "99999999999999999999"`},
	} {
		if out, errs, code := run(t, "", strings.Fields(c.line)...); code != 2 || out != "" || !strings.Contains(errs, c.says) {
			t.Errorf("%s: %d %q %q", c.line, code, out, errs)
		}
	}
	p := &program{World: World{Out: io.Discard, Err: io.Discard}}
	tried := 0
	var walk func(c *cobra.Command)
	walk = func(c *cobra.Command) {
		for _, line := range strings.Split(c.LocalFlags().FlagUsages(), "\n") {
			_, flag, found := strings.Cut(line, "--")
			if flag, _, _ = strings.Cut(flag, " "); !found || flag == "" || strings.HasSuffix(flag, "help") || strings.HasSuffix(flag, "version") {
				continue
			}
			args := append(strings.Fields(c.CommandPath())[1:], "--"+flag+"=¿")
			if err := os.RemoveAll("¿"); err != nil { // what another command made: look --watch would wait in it
				t.Fatal(err)
			}
			_, errs, code := run(t, filepath.Join(t.TempDir(), "none"), args...)
			if tried++; strings.Contains(errs, "strconv") || strings.Contains(errs, "Parse") || strings.Contains(errs, "invalid argument") {
				t.Errorf("%q: %d %q", args, code, errs)
			}
		}
		for _, sub := range c.Commands() {
			walk(sub)
		}
	}
	t.Chdir(t.TempDir()) // a file that is named so is made here, if any
	walk(p.root())
	if tried < 100 {
		t.Errorf("only %d flags were tried", tried)
	}
}

// Each flag of each command says what it is for.
func TestFlagsHaveHelp(t *testing.T) {
	var look func(c *cobra.Command)
	look = func(c *cobra.Command) {
		for _, l := range strings.Split(c.LocalFlags().FlagUsages(), "\n") {
			if words := strings.Fields(l); len(words) == 1 || len(words) == 2 {
				t.Errorf("%s: %q says nothing", c.CommandPath(), strings.TrimSpace(l))
			}
		}
		for _, sub := range c.Commands() {
			look(sub)
		}
	}
	look((&program{}).root())
}

// An argument that is a figure below zero is no flag: the command itself says what it makes of it. What a flag is given is the flag's.
func TestAFigureBelowZeroIsNoFlag(t *testing.T) {
	for line, want := range map[string]string{
		"settings set hour -5":      "hour: it costs nothing or more",
		"stock weigh T1 -1g":        "-1g is negative",
		"stock weigh T1 -x":         "unknown shorthand flag",
		"say bin --answered -5 C":   `no vat is called "bin"`,
		"-5":                        "unknown shorthand flag: '5' in -5",
		"cost --hour -5":            "--hour",
		"stock weigh -- T1 -1g":     "-1g is negative",
		"reckon colour --lab -1g,0": "--lab",
	} {
		if _, errs, code := runAt(t, thursday, append([]string{"--home", t.TempDir()}, strings.Fields(line)...)...); code == 0 || !strings.Contains(errs, want) {
			t.Errorf("%s: %d %q, want %q", line, code, errs, want)
		}
	}
}

// A shell that is not known, and a word behind one, are wrong usage; the command alone says what there is.
func TestCompletionOfAnUnknownShell(t *testing.T) {
	for line, c := range map[string]struct {
		code int
		errs string
	}{
		"completion nope":       {2, `unknown command "nope" for "vatside completion"`},
		"completion bash extra": {2, `unknown command "extra" for "vatside completion bash"`},
		"completion":            {0, ""}, "completion zsh": {0, ""},
	} {
		if out, errs, code := runAt(t, thursday, strings.Fields(line)...); code != c.code || !strings.Contains(errs, c.errs) || (code == 0) != (out != "") {
			t.Errorf("%s: %d %q", line, code, errs)
		}
	}
}
