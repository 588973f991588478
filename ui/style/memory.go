package style

import "sync"

// Memory keeps answers that are asked for again each second. What it gives is everybody's: nobody changes it.
type Memory[Q comparable, A any] struct {
	mu    sync.Mutex
	known map[Q]A
}

// mostKnown is how many answers a memory keeps: a screen asks for some dozens, and each second for a few new ones.
const mostKnown = 500

// Of is the answer to a question, reckoned where it is not known.
func (m *Memory[Q, A]) Of(q Q, reckon func(Q) A) A {
	m.mu.Lock()
	a, known := m.known[q]
	m.mu.Unlock()
	if known {
		return a
	}
	a = reckon(q)
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.known == nil || len(m.known) >= mostKnown {
		m.known = map[Q]A{}
	}
	m.known[q] = a
	return a
}
