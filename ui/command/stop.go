package command

import "fmt"

// stopped is what ends a command at the first thing that cannot be had or done: it is the command's error. must, got and stop are for
// what runs under a command's run (reader.go), on its goroutine; not for what the screens, plain mode or an engine call.
type stopped struct{ error }

// must stops the command with an error; without one it goes on.
func must(err error) {
	if err != nil {
		panic(stopped{err})
	}
}

// stop stops the command with a sentence of its own.
func stop(format string, a ...any) { must(fmt.Errorf(format, a...)) }

// got is a value without which the command stops.
func got[T any](v T, err error) T {
	must(err)
	return v
}

// about is an error with what it is about, a flag or a file, before it; nil where there is none.
func about(what string, err error) error {
	if err != nil {
		err = fmt.Errorf("%s: %w", what, err)
	}
	return err
}

// within names what a part of the command is about, where that part stops it.
func within(what string, do func()) {
	must(about(what, through(func() error { do(); return nil })))
}

// through goes through a command, or a part of it, up to its end, or to where must stops it. Any other panic goes on to who started it.
func through(run func() error) (err error) {
	defer func() {
		switch p := recover().(type) {
		case nil:
		case stopped:
			err = p.error
		default:
			panic(p)
		}
	}()
	return run()
}
