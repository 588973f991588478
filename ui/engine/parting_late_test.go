package engine_test

import (
	"strings"
	"testing"
	"testing/synctest"
	"time"

	"example.org/vatside/ui/guard"
)

// Where the other place is as slow as the disk, a file is begun there in time all the same; and a disk that answers while no other
// place does is waited for as long as it may be.
func TestPartingWhereAllIsSlow(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		disk := &refuge{hangs: make(chan struct{}), slow: 3 * time.Second}
		p, took := leave(t, disk, nil)
		if p.Lost() || len(disk.keeps) != 3 || took > 5*time.Second {
			t.Errorf("%q; kept %d of 3, after %s", p.Words(), len(disk.keeps), took)
		}
		close(disk.hangs)
		synctest.Wait()
		disk = &refuge{hangs: make(chan struct{}), full: true}
		go func() {
			for range 3 {
				time.Sleep(1300 * time.Millisecond)
				disk.hangs <- struct{}{}
			}
		}()
		if p, took = leave(t, disk, nil); p.Words() != "" || len(disk.events) != 3 || took > 5*time.Second {
			t.Errorf("%q; %d of 3 on disk, after %s", p.Words(), len(disk.events), took)
		}
	})
}

// What a slip of the program's own kept from another place is not told as kept.
func TestPartingWhereKeepingFails(t *testing.T) {
	defer guard.Forget()
	synctest.Test(t, func(t *testing.T) {
		disk := &refuge{hangs: make(chan struct{}), fails: true}
		p, took := leave(t, disk, nil)
		if !p.Lost() || !strings.Contains(p.Words(), "3 acts of "+id+" are NOT on disk") || took > 5*time.Second {
			t.Errorf("%q after %s", p.Words(), took)
		}
		close(disk.hangs)
		synctest.Wait()
	})
}
