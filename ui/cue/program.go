package cue

import (
	"context"
	"os"
	"os/exec"
	"runtime"
	"strings"
	"time"
	"unicode/utf8"

	"example.org/vatside/model/wording"
)

// A program is one way to sound a file or to speak words.
type program struct {
	name string
	on   string // the only GOOS where it is tried; empty: wherever it is on the PATH
	// args are what it is started with; what is played or said comes last, or, where env names a variable, through that
	// variable: so that no quoting of PowerShell's stands between a path and the player.
	args []string
	env  string
}

// players are tried in this order: the sound servers of today first, since a bare device may be held by them.
var players = []program{
	{name: "pw-play"},
	{name: "paplay"},
	{name: "aplay", args: []string{"-q"}},
	{name: "afplay"},
	{name: "powershell", on: "windows", env: "VATSIDE_SOUND",
		args: []string{"-NoProfile", "-NonInteractive", "-Command", "(New-Object System.Media.SoundPlayer $env:VATSIDE_SOUND).PlaySync()"}},
}

// speakers say words; -w makes spd-say wait until they are said, so that the next call does not talk over them.
var speakers = []program{
	{name: "spd-say", args: []string{"-w", "-l", "en"}},
	{name: "espeak-ng", args: []string{"-v", "en"}},
	{name: "say"},
	{name: "powershell", on: "windows", env: "VATSIDE_WORDS",
		args: []string{"-NoProfile", "-NonInteractive", "-Command", "Add-Type -AssemblyName System.Speech; (New-Object System.Speech.Synthesis.SpeechSynthesizer).Speak($env:VATSIDE_WORDS)"}},
}

// finder looks a program up on the PATH: exec.LookPath, or a test's own.
type finder func(name string) (path string, err error)

// found gives those of the programs that this machine has, in their order.
func found(list []program, look finder) []program {
	var have []program
	for _, p := range list {
		if p.on != "" && p.on != runtime.GOOS {
			continue
		}
		if _, err := look(p.name); err == nil {
			have = append(have, p)
		}
	}
	return have
}

// run starts the program on what and waits for it, at most limit. Its output goes nowhere: a player's complaint would
// tear the screen. When ctx ends or the limit is reached, the program and all it started are ended.
func (p program) run(ctx context.Context, look finder, what string, limit time.Duration) error {
	path, err := look(p.name)
	if err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(ctx, limit)
	defer cancel()
	return p.command(ctx, path, what).Run()
}

// command is the program at a path, about to play or say what.
func (p program) command(ctx context.Context, path, what string) *exec.Cmd {
	args := append([]string(nil), p.args...)
	if p.env == "" {
		args = append(args, what)
	}
	cmd := exec.CommandContext(ctx, path, args...)
	if p.env != "" {
		cmd.Env = append(os.Environ(), p.env+"="+what)
	}
	apart(cmd)
	return cmd
}

// speakable makes words safe as the last argument of a speaker: nothing that begins like an option, no square brackets, in
// which one speaker takes commands, and nothing for what could not be shown.
func speakable(w wording.Shown) string {
	words := strings.NewReplacer("[", " ", "]", " ", string(utf8.RuneError), " ").Replace(w.String())
	return strings.TrimSpace(strings.TrimLeft(strings.TrimSpace(inFull(words)), "- "))
}

// units are those that a voice would spell or mumble.
var units = map[string]string{"min": "minutes", "s": "seconds", "h": "hours", "g": "grams", "kg": "kilograms", "L": "litres", "mL": "millilitres", "°C": "degrees", "°F": "degrees", "cm": "centimetres"}

// inFull writes the units behind figures in full: "8 min" is spoken "8 minutes".
func inFull(words string) string {
	list := strings.Split(words, " ")
	for i := 1; i < len(list); i++ {
		unit := strings.TrimRight(list[i], ".,:;?")
		before := list[i-1]
		if full, is := units[unit]; is && before != "" && strings.Trim(before, "0123456789.–") == "" {
			if before == "1" && unit != "°C" && unit != "°F" {
				full = strings.TrimSuffix(full, "s")
			}
			list[i] = full + list[i][len(unit):]
		} else if unit == "°C" { // what is read
			list[i] = "temperature" + list[i][len(unit):]
		}
	}
	return strings.Join(list, " ")
}
