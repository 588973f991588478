package engine

import (
	"testing"
	"time"

	"golang.org/x/sys/unix"
)

// Where the system gives no alarm, as all files that may be open are, one of the runtime's rings in its place.
func TestAnAlarmWithoutTheSystems(t *testing.T) {
	var was unix.Rlimit
	if err := unix.Getrlimit(unix.RLIMIT_NOFILE, &was); err != nil {
		t.Fatal(err)
	}
	none := was
	none.Cur = 0
	if err := unix.Setrlimit(unix.RLIMIT_NOFILE, &none); err != nil {
		t.Fatal(err)
	}
	a := Machine{}.alarm()
	if err := unix.Setrlimit(unix.RLIMIT_NOFILE, &was); err != nil {
		t.Fatal(err)
	}
	defer a.stop()
	if a.wait != nil {
		t.Fatal("it is the system's")
	}
	for range 2 {
		a.set(time.Millisecond)
		select {
		case <-a.rings:
		case <-time.After(10 * time.Second):
			t.Fatal("it does not ring")
		}
	}
}
