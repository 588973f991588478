//go:build !linux && !darwin

package shelf

// remote is for systems that cannot tell, or that notify of a network disk too, as Windows does.
func remote(string) bool { return false }
