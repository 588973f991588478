package engine_test

import (
	"sync"
	"syscall"
	"time"

	"example.org/vatside/model/day"
)

// memory is a disk that can fail.
type memory struct {
	mu     sync.Mutex
	events []day.Event
	fail   int
}

func (m *memory) Append(e day.Event) error {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.fail > 0 {
		m.fail--
		return syscall.ENOSPC
	}
	m.events = append(m.events, e)
	return nil
}

func (m *memory) Close() error { return nil }

var morning = time.Date(2026, 3, 28, 9, 0, 0, 0, time.UTC)
