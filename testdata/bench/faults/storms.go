package main

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"time"

	"example.org/vatside/testdata/bench/internal/apart"
)

// storms throws keys, pastes, the mouse and sizes of the window at real days.
func storms(b *bench) { b.row("storms of keys, pastes, mouse and resizes", b.storm) }

func (b *bench) storm(r *row) {
	n, each := 24, 10*time.Second
	if b.short {
		n, each = 4, 3*time.Second
	}
	chance := b.rand("storms")
	var seeds []uint64
	for range n {
		seeds = append(seeds, chance.Uint64())
	}
	apart.Together(4, seeds, func(seed uint64) { b.tryStorm(r, seed, each) })
}

func (b *bench) tryStorm(r *row, seed uint64, each time.Duration) {
	chance := rand.New(rand.NewPCG(seed, 0))
	name := fmt.Sprintf("storm %x", seed)
	h := b.home()
	at := [][2]string{{"soda-bin", "note"}, {"soda-bin", "dip begun"}, {"soda-bin", "powder added"}, {"sugar-lime-pail", "step done"}, {"soda-bin", "closed"}}[chance.IntN(5)]
	h.open(at[0], at[1], time.Minute)
	r.count(1, 0)
	for end := time.Now().Add(each); time.Now().Before(end); {
		s := b.sit(r, h, false, nil)
		s.await(mostTime, func(t string) bool { return strings.TrimSpace(t) != "" })
		b.blow(s, chance, end)
		code, over := s.Ended(0)
		if !over {
			// It reads its keys in order: the help page, or a change of the screen, shows that it has read all.
			s.Resize(100, 30)
			s.Type("\x1b")
			if !s.await(3*mostTime, s.changes()) { // it has many keys to read before
				if _, over = s.Ended(0); !over {
					r.bad("%s: it answers no key any more: %s", name, s.dump(name))
					s.Kill()
					continue
				}
			}
			code = s.leave(r, byTerm, name)
		}
		if dumped(s.Raw()) || code == 2 {
			r.bad("%s: broke down: %s%s", name, firstPanic(s.Raw()), s.keep(name))
		} else if left := s.Left(); len(left) > 0 {
			r.bad("%s: ended with %d, and the terminal is left with %s%s", name, code, strings.Join(left, ", "), s.keep(name))
		}
		r.ended(code, lastLine(s.Text()))
		s.Kill()
	}
	b.verified(r, h, name+": ")
}

// changes tells of each text whether the screen went between help and no help since it was asked first: keys that show
// that the program still reads.
func (s *seat) changes() func(string) bool {
	sent := time.Time{}
	was, tries := "", 0
	return func(t string) bool {
		if was != "" && t != was {
			return true
		}
		if time.Since(sent) > 300*time.Millisecond {
			was, sent = t, time.Now()
			s.Type([]string{"!", "\x1b", "?", "\x1b"}[tries%4])
			tries++
		}
		return false
	}
}

// keys are what hands, gloves and pedals send.
var keys = []string{
	"\r", "\r", " ", " ", "\x1b", "\t", "\x7f", "\x1b[A", "\x1b[B", "\x1b[C", "\x1b[D", "\x1b[5~", "\x1b[6~", "\x1b[H", "\x1b[F", "\x1b[3~", "\n", "!", "?",
	"a", "b", "c", "d", "e", "f", "g", "h", "i", "j", "k", "l", "m", "n", "o", "p", "r", "s", "t", "u", "v", "w", "x", "y", "z", "A", "B", "L", "O", "S", "T", "U", "W", "H", "+", "-", "_", "1", "2", "3", "9", "0", ".", ",", ":", "/",
	"35", "10.5", "420 g linen", "dark", "10:30", "60 L", "\x1bx", "\x1bOP", "\x01", "\x02", "\x1b[1;5A", "é", "靛", "\xff\xfe", "\x1b]11;rgb:1e1e/1e1e/1e1e\x1b\\", "\x1b[I", "\x1b[24;80R",
}

// blow sends a storm until its end, or until the program has ended.
func (b *bench) blow(s *seat, chance *rand.Rand, end time.Time) {
	for time.Now().Before(end) {
		if _, over := s.Ended(0); over {
			return
		}
		switch n := chance.IntN(40); {
		case n == 0:
			s.Resize(1+chance.IntN(200), 1+chance.IntN(60))
		case n == 1:
			s.Type("\x1b[200~" + strings.Repeat("paste\x1b[31m\n\t"+keys[chance.IntN(len(keys))], 1+chance.IntN(200)) + "\x1b[201~")
		case n < 5:
			s.Type(fmt.Sprintf("\x1b[<%d;%d;%d%c", []int{0, 1, 2, 32, 35, 64, 65}[chance.IntN(7)], 1+chance.IntN(220), 1+chance.IntN(70), "Mm"[chance.IntN(2)]))
		case n == 5 && chance.IntN(20) == 0:
			s.Type("q")
		case n < 12: // several in one read
			s.Type(keys[chance.IntN(len(keys))] + keys[chance.IntN(len(keys))] + keys[chance.IntN(len(keys))])
		default:
			s.Type(keys[chance.IntN(len(keys))])
		}
		time.Sleep(time.Duration(chance.IntN(12)) * time.Millisecond)
	}
}
