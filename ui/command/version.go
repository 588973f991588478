package command

import "runtime/debug"

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
	if commit == "" {
		return v
	}
	return v + " (" + commit[:min(len(commit), 12)] + changed + ")"
}
