package cue

import (
	"slices"
	"strings"
	"testing"
)

// What is played or said never stands in a text that a program reads as its own words: it is one argument behind all others, or a
// variable that PowerShell's words name. Nothing is read from the terminal and nothing written to it.
func TestNoQuotingStandsBetweenAPathAndItsPlayer(t *testing.T) {
	const what = `/Users/Ana's home/so$(rm -rf ~) "und" ; sounds/out-1.wav`
	for _, p := range slices.Concat(players, speakers) {
		cmd := p.command(t.Context(), "/bin/"+p.name, what)
		words, last := strings.Join(cmd.Args[1:len(cmd.Args)-1], " "), cmd.Args[len(cmd.Args)-1]
		switch given := p.env + "=" + what; {
		case p.env == "" && (last != what || strings.Contains(words, "$")):
			t.Errorf("%s is started with %q", p.name, cmd.Args)
		case p.env != "" && (!slices.Contains(cmd.Env, given) || !strings.Contains(last, "$env:"+p.env+")") || strings.Contains(words+last, "Ana")):
			t.Errorf("%s is started with %q and %q", p.name, cmd.Args, given)
		case p.env != "" && !slices.Contains(cmd.Args, "-NonInteractive"):
			t.Errorf("%s may ask something: %q", p.name, cmd.Args)
		}
		if cmd.Stdin != nil || cmd.Stdout != nil || cmd.Stderr != nil || cmd.Cancel == nil {
			t.Errorf("%s has a stream of the terminal, or cannot be ended", p.name)
		}
	}
	for system, want := range map[string][2]string{"darwin": {"afplay", "say"}, "windows": {"powershell", "powershell"}} {
		for i, list := range [][]program{players, speakers} {
			if !slices.ContainsFunc(list, func(p program) bool { return p.name == want[i] && (p.on == "" || p.on == system) }) {
				t.Errorf("on %s nothing is tried as %s", system, want[i])
			}
		}
	}
}
