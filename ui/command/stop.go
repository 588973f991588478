package command

import "fmt"

// What a command does on its way it does in order, and it stops at the first thing that cannot be had or done: must, got and stop stop it,
// and the error is the command's own. They are for what runs under a command's run (reader.go) and on its goroutine: not for what the
// screens, plain mode or an engine call.

// stopped is what must stops a command with.
type stopped struct{ error }

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
