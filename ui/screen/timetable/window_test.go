package timetable

import "testing"

// Whatever the rows, a list with the words of what is out of sight has room in them, and going down by pages shows all of it
// once at least and comes to its end.
func TestWindow(t *testing.T) {
	for all := 1; all < 30; all++ {
		for every := 1; every < 6; every++ {
			for rows := every + 2; rows < 40; rows++ {
				next := 0
				for top := 0; ; {
					w := window(top, all, rows, every)
					if w.from > next || w.to <= w.from {
						t.Fatalf("%d of %d in %d rows: %v leaves a gap after %d", every, all, rows, w, next)
					}
					if (w.to-w.from)*every+w.beside() > rows {
						t.Fatalf("%d of %d in %d rows: %v is too high", every, all, rows, w)
					}
					if next = w.to; w.to == all {
						break
					}
					top = w.to
				}
			}
		}
	}
}
