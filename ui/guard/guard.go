// Package guard catches panics, so that a slip of the program's own ends it in order: what was done goes to disk, the terminal
// is as it was, and one sentence says how to go on. Every goroutine of the program is started with Go or GoThen: the
// architecture test holds it.
package guard

import (
	"errors"
	"fmt"
	"runtime"
	"runtime/debug"
	"strings"
	"sync"
	"sync/atomic"

	"example.org/vatside/model/wording"
)

// Crash is a panic that was caught. It holds nothing of the dyer's: a message that is not the language's own is named by its
// type alone, and the stack has no values.
type Crash struct {
	Where string // the part of the program: "engine", "advice" …
	What  string
	Stack string
}

// Error is the crash in half a sentence.
func (c Crash) Error() string {
	return fmt.Sprintf("an error of the program's own (%s: %s)", c.Where, c.What)
}

var (
	mu     sync.Mutex
	report func(Crash)
	fatal  *Crash
	ended  = make(chan struct{})
	inject atomic.Pointer[func(where string)]
)

// ErrInjected is the panic that tests and the fault bench make.
var ErrInjected = errors.New("made on purpose")

// Inject has f called before each part's work, to panic there: for tests and the fault bench. Nil takes it away.
func Inject(f func(where string)) {
	if f == nil {
		inject.Store(nil)
		return
	}
	inject.Store(&f)
}

// Reports sets who writes a crash down, as soon as it is caught; nil for nobody.
func Reports(to func(Crash)) {
	mu.Lock()
	defer mu.Unlock()
	report = to
}

// Fatal is closed once the program has to end for a crash.
func Fatal() <-chan struct{} {
	mu.Lock()
	defer mu.Unlock()
	return ended
}

// Why is the crash for which the program has to end.
func Why() (Crash, bool) {
	mu.Lock()
	defer mu.Unlock()
	if fatal == nil {
		return Crash{}, false
	}
	return *fatal, true
}

// Forget takes the crash back: for tests, and for a program that runs more than once in one process.
func Forget() {
	mu.Lock()
	defer mu.Unlock()
	if fatal != nil {
		fatal, ended = nil, make(chan struct{})
	}
}

// End says that the program has to end for a crash; only the first counts.
func End(c Crash) {
	mu.Lock()
	defer mu.Unlock()
	if fatal == nil {
		fatal = &c
		close(ended)
	}
}

// Go runs f in a goroutine. A panic in it ends the program in order. Inlined it was 8 KB of the program.
//
//go:noinline
func Go(where string, f func()) {
	GoThen(where, f, func(c *Crash) {
		if c != nil {
			End(*c)
		}
	})
}

// GoThen runs f in a goroutine, and then, behind it there, what gets the panic in f, nil if there was none. Whether that ends
// the program is its to say; a panic of its own is not caught.
func GoThen(where string, f func(), then func(*Crash)) {
	go func() { then(Try(where, f)) }()
}

// Try runs f here and gives the panic in it, nil if there was none.
func Try(where string, f func()) (crash *Crash) {
	defer func() {
		if r := recover(); r != nil {
			c := Crash{where, what(r), stack(string(debug.Stack()))}
			mu.Lock()
			tell := report
			mu.Unlock()
			if tell != nil {
				tell(c)
			}
			crash = &c
		}
	}()
	if at := inject.Load(); at != nil {
		(*at)(where)
	}
	f()
	return nil
}

// what is a panic's message if it is the language's own, else its type.
func what(r any) string {
	if err, ok := r.(runtime.Error); ok {
		return strings.TrimPrefix(err.Error(), "runtime error: ")
	}
	if r == error(ErrInjected) {
		return ErrInjected.Error()
	}
	return fmt.Sprintf("a %T", r)
}

// values are the arguments of a call in a stack, and where its frame lies in memory.
var values = wording.Pattern(`(?m)\((?:0x|\{|\.\.\.)[^\n]*\)$| \+0x[0-9a-f]+$|\?`)

// stack is a stack without values, from the panic on.
func stack(s string) string {
	if _, after, ok := strings.Cut(s, "\npanic("); ok {
		s = "panic(" + after
	}
	return values().ReplaceAllString(s, "")
}
