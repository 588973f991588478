package command

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"runtime"
	"runtime/debug"
	"strings"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
)

// reported writes a crash down beside the book and gives the path; empty where that is not to be had.
func (p *program) reported(c guard.Crash) string {
	h, err := p.shelf()
	if err != nil {
		return ""
	}
	now := p.Now()
	text := fmt.Sprintf("%s, %s, %s/%s\n%s\n%s\n\n%s", version(), runtime.Version(), runtime.GOOS, runtime.GOARCH,
		now.Format("2006-01-02 15:04:05 -07:00"), c.Error(), c.Stack)
	path, err := h.Report(now, []byte(text))
	return wording.If(err == nil, path)
}

// crashed is the sentence with which a program ends for its own fault. err is what came of the acts that were under way.
func crashed(c guard.Crash, err error, report string) string {
	stand := cmp.Or(remains(err), "All that was done is on disk")
	s := fmt.Sprintf("%s ended it. %s; start vatside again to go on.", c.Error(), stand)
	s += wording.If(report != "", " A report without your data is in "+report+".")
	return s
}

// remains is what an error says besides that the program had to end: where acts lie that are not in the book.
func remains(err error) string {
	if all, is := err.(interface{ Unwrap() []error }); is {
		for _, err := range all.Unwrap() {
			if s := remains(err); s != "" {
				return s
			}
		}
		return ""
	}
	if err == nil || errors.Is(err, engine.ErrGone) || errors.Is(err, context.Canceled) || errors.Is(err, errTold) {
		return ""
	}
	return strings.TrimSuffix(firstLine(err.Error()), ".")
}

// Version is the program's, by semantic versioning 2.0.0: the commands' flags, the JSON keys and the files are its interface.
const Version = "0.9.0"

// version is the version and, where the build knows it, the commit; "changed" where the source was not as committed.
func version() string {
	v := "vatside " + Version
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return v
	}
	commit, changed := "", ""
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision":
			commit = s.Value
		case s.Key == "vcs.modified" && s.Value == "true":
			changed = ", changed"
		}
	}
	return v + wording.If(commit != "", " ("+commit[:min(len(commit), 12)]+changed+")")
}
