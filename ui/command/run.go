package command

import (
	"context"
	"errors"
	"math"
	"os"
	"os/signal"
	"runtime"
	"runtime/debug"
	"runtime/metrics"
	"syscall"

	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/guard"
	"example.org/vatside/ui/shelf"
)

// run starts an engine that calls by caller; halt waits until all is on disk and the locks are free, and says what is not in the days.
func (p *program) run(caller cue.Caller) (e *engine.Engine, halt func() engine.Parting) {
	e = engine.New(engine.Machine{}, shelf.BootID(), caller)
	ctx, cancel := context.WithCancel(context.Background())
	left := e.Start(ctx)
	p.onCrash(ctx, cancel)
	return e, func() engine.Parting { cancel(); return <-left }
}

// onCrash calls ends once the program has to end for a crash of whatever part, or with the context.
func (p *program) onCrash(ctx context.Context, ends func()) {
	guard.GoThen("halt", func() {
		select {
		case <-guard.Fatal():
			p.haste.begin()
		case <-ctx.Done():
		}
	}, func(c *guard.Crash) {
		if c != nil {
			guard.End(*c)
		}
		ends()
	})
}

// endedBySignal ends with the signals that end a program, and with a crash, after which nothing else ends what waits for a line or
// for the engine: what was done then goes to disk before the program ends.
func (p *program) endedBySignal() (context.Context, context.CancelFunc) {
	p.haste.arm()
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM, syscall.SIGHUP, syscall.SIGQUIT)
	kept := context.AfterFunc(ctx, p.haste.begin)
	ctx, cancel := context.WithCancel(ctx)
	p.onCrash(ctx, cancel)
	return ctx, func() { kept(); cancel(); stop() }
}

// parted says what of the acts is not in the files of their days; with any that is on no disk the command has failed.
func (p *program) parted(left engine.Parting, err error) error {
	switch words := left.Words(); {
	case left.Lost():
		return errors.Join(err, errors.New(words))
	case words != "":
		p.warn(errors.New(words))
	}
	return err
}

// Sparing keeps a command that goes through a whole home below 30 MB, 12 of which are the program itself, with few searches for what is
// free while there is room. Where more than half of the room is in use it grows: near its end the runtime would do little but search.
func Sparing() {
	debug.SetGCPercent(400)
	debug.SetMemoryLimit(leastRoom)
	runtime.SetFinalizer(new(*byte), searched)
}

// leastRoom is what the runtime takes from the system at the most, in bytes, while half of it is free.
const leastRoom = 19 << 20

// searched comes behind each search for what is free, with a thing that nobody holds.
func searched(free **byte) {
	if debug.SetMemoryLimit(-1) == math.MaxInt64 { // somebody has lifted it
		return
	}
	live := []metrics.Sample{{Name: "/gc/heap/live:bytes"}}
	metrics.Read(live)
	debug.SetMemoryLimit(max(leastRoom, 2*int64(live[0].Value.Uint64())))
	runtime.SetFinalizer(free, searched)
}
