package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"example.org/vatside/testdata/bench/internal/apart"
	"example.org/vatside/testdata/bench/internal/tty"
	"example.org/vatside/testdata/bench/words"
)

// kinds are other terminals, and other names of them.
func kinds() []edge {
	all := []edge{
		{group: "kind", name: "in tmux", does: (*try).tmux},
		{group: "kind", name: "in script", does: (*try).script},
		{group: "kind", name: "TERM=dumb", does: (*try).dumb},
	}
	for _, term := range []string{"TERM=xterm", "TERM=xterm-256color", "TERM=screen", "TERM=linux", "TERM=vt100", "TERM=", "NO_COLOR=1"} {
		all = append(all, edge{group: "kind", name: term, brief: term == "TERM=linux", does: func(t *try) { t.term(term) }})
	}
	return all
}

// term starts the program with another word in its environment.
func (t *try) term(env string) {
	h := t.home(words.Resting)
	cmd := h.command(t.program)
	cmd.Env = append(cmd.Env, env)
	t.comesAndGoes(h.sitAt(cmd, manner))
}

// comesAndGoes opens the day and leaves.
func (t *try) comesAndGoes(s *seat) {
	defer s.Kill()
	t.opens(s)
	t.answers(s)
	t.leave(s)
}

// dumb is a terminal that can do nothing: the program says all in lines.
func (t *try) dumb() {
	h := t.home(words.Resting)
	cmd := h.command(t.program)
	cmd.Env = append(cmd.Env, "TERM=dumb")
	s := h.sitAt(cmd, manner)
	defer s.Kill()
	if !s.shows(patience, "Garden bin") {
		t.bad("it says nothing of the day: %s", firstLine(s.Text()))
	}
	s.Type("q\n")
	if _, over := s.Ended(mostEnd); !over {
		t.bad("q did not end it within %v", mostEnd)
	}
	if strings.Contains(s.Raw(), "\x1b") {
		t.bad("it writes control sequences")
	}
	t.remains(s)
}

// script is the program under script, which stands between it and the terminal.
func (t *try) script() {
	t.needs("script")
	h := t.home(words.Resting)
	t.comesAndGoes(h.sitAt(h.command("script", "-qec", t.program, "/dev/null"), manner))
}

// tmux is the program in a tmux of its own, which is a terminal of another maker: what it shows is compared with the emulator's,
// what is left is asked of it.
func (t *try) tmux() {
	t.needs("tmux")
	h := t.home(words.Resting)
	name := "vatside-bench-" + filepath.Base(filepath.Dir(h.dir))
	ask := func(args ...string) string {
		cmd := h.command("tmux", append([]string{"-L", name, "-f", "/dev/null"}, args...)...)
		cmd.Env = append(cmd.Env, "TMUX_TMPDIR="+h.state)
		out, err := cmd.CombinedOutput()
		if err != nil {
			return fmt.Sprintf("tmux %s: %v %s", args[0], err, out)
		}
		return string(out)
	}
	await := func(limit time.Duration, holds func() bool) bool { return tty.Await(limit, nil, holds) }
	there := func(file string) func() bool {
		return func() bool { _, err := os.Stat(filepath.Join(h.state, file)); return err == nil }
	}
	shown := func() string { return ask("capture-pane", "-p") }
	modes := func() string {
		return ask("display-message", "-p", "alternate #{alternate_on}, mouse #{mouse_any_flag}#{mouse_sgr_flag}, cursor #{cursor_flag}, "+
			"keypad #{keypad_flag}#{keypad_cursor_flag}, insert #{insert_flag}, wrap #{wrap_flag}, rows #{scroll_region_upper}-#{scroll_region_lower}, title #{pane_title}")
	}
	said := ask("new-session", "-d", "-x", fmt.Sprint(cols), "-y", fmt.Sprint(rows), "sh", "-c",
		"stty -a >before; while ! test -e go; do sleep 0.02; done; "+t.program+"; stty -a >after; exec sleep 60")
	defer ask("kill-server")
	t.must(await(patience, there("before")), "tmux does not start: %s", said)
	ask("set-option", "-g", "status", "off")
	was := modes()
	apart.Write(filepath.Join(h.state, "go"), nil)
	t.must(await(patience, func() bool { return strings.Contains(shown(), words.OpenDay) }), "the home is not shown: %s", firstLine(shown()))
	ask("send-keys", "Enter")
	twin := h.twin().sit()
	defer twin.Kill()
	t.opens(twin)
	same := func() bool { return strings.TrimSpace(masked(shown())) == strings.TrimSpace(masked(twin.Text())) }
	if !await(3*time.Second, same) {
		t.bad("tmux shows something else: %s", differs(masked(shown()), masked(twin.Text())))
	}
	ask("send-keys", "q")
	if await(mostEnd, func() bool { return strings.Contains(shown(), words.Question) }) {
		ask("send-keys", "q")
	}
	t.must(await(mostEnd, there("after")), "q did not end it: %s", firstLine(shown()))
	if now := modes(); now != was {
		t.bad("the terminal is left as %q, it was %q", strings.TrimSpace(now), strings.TrimSpace(was))
	}
	settings := func(when string) string { return string(apart.Got(os.ReadFile(filepath.Join(h.state, when)))) }
	if now, was := settings("after"), settings("before"); now != was {
		t.bad("stty -a says after it: %s", differs(now, was))
	}
}
