package signs

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"sync"

	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// UnknownError is a word that no sign has.
type UnknownError struct{ Word string }

// Error is one sentence with the nearest signs and then the known ones, without a full stop.
func (e *UnknownError) Error() string {
	list := strings.Join(wording.Each(known, func(k knownSign) string { return k.Words }), "; ")
	if e.Word == "" {
		return "say what is seen; known signs: " + list
	}
	said := fmt.Sprintf("no sign is called %q", e.Word)
	if near := Nearest(e.Word); len(near) > 0 {
		said += "; nearest: " + strings.Join(wording.Each(near, func(s Sign) string { return s.Words }), "; ")
	}
	return said + "; known signs: " + list
}

const (
	mostNear = 3
	nearFrom = 0.6 // of the letters in pairs. M
)

// Nearest are the signs whose words come nearest to what was said, the nearest first, at most three; none where none is near.
// Two texts are as near as the pairs of letters that they share (Dice's coefficient), or all the way where every word of one is
// in the other.
func Nearest(said string) []Sign {
	type near struct {
		Sign
		by float64
	}
	said = strings.Join(strings.Fields(strings.ToLower(said)), " ")
	var list []near
	for _, k := range known {
		words := append([]string{strings.ToLower(k.Words), k.ID}, k.also...)
		best := wording.Most(words, func(w string) float64 { return likeness(said, w) })
		if best >= nearFrom {
			list = append(list, near{k.Sign, best})
		}
	}
	sorted.By(list, func(a, b near) int { return cmp.Compare(b.by, a.by) })
	return wording.Each(list[:min(len(list), mostNear)], func(n near) Sign { return n.Sign })
}

// likeness is how near two texts are, 0 to 1.
func likeness(a, b string) float64 {
	long := func(w string) bool { return len(w) > 3 }
	words := strings.Fields(a)
	if slices.ContainsFunc(words, long) && !slices.ContainsFunc(words, func(w string) bool { return !slices.Contains(strings.Fields(b), w) }) {
		return 1
	}
	pairs := func(s string) map[string]int {
		m := map[string]int{}
		r := []rune(s)
		for i := range len(r) - 1 {
			m[string(r[i:i+2])]++
		}
		return m
	}
	x, y := pairs(a), pairs(b)
	shared, all := 0, 0
	for k, n := range x {
		shared += min(n, y[k])
		all += n
	}
	for _, n := range y {
		all += n
	}
	if all == 0 {
		return 0
	}
	return 2 * float64(shared) / float64(all)
}

// Parse reads what was seen, such as "blue, cloudy" or "green and clear; pale swatch", in any case, by the signs' words,
// their IDs or the trade's other words. Commas, semicolons, line ends and "and" part the signs; a phrase that is none is
// tried word group by word group, so that "clear grass green" is two signs. Each sign comes once, in the order said.
// Words that are none, and no words, give an *UnknownError, whose sentence lists the known ones.
func Parse(said string) ([]Sign, error) {
	var out []Sign
	add := func(s Sign) {
		if !slices.Contains(out, s) {
			out = append(out, s)
		}
	}
	for _, phrase := range strings.FieldsFunc(strings.ToLower(said), func(r rune) bool { return strings.ContainsRune(",;\n\r+", r) }) {
		words := strings.Fields(phrase)
		for len(words) > 0 {
			s, n := longest(words)
			if n == 0 {
				if words[0] == "and" || words[0] == "the" || words[0] == "liquor" || words[0] == "is" {
					words = words[1:]
					continue
				}
				return nil, &UnknownError{strings.Join(words, " ")}
			}
			add(s)
			words = words[n:]
		}
	}
	if len(out) == 0 {
		return nil, &UnknownError{}
	}
	return out, nil
}

// longest is the sign that the most of the first words name, and how many words that takes.
func longest(words []string) (Sign, int) {
	for n := min(len(words), mostWords); n > 0; n-- {
		if s, ok := named()[strings.Join(words[:n], " ")]; ok {
			return s, n
		}
	}
	return Sign{}, 0
}

// mostWords is more than the longest name of a sign has.
const mostWords = 12

// named are all signs by all of their names.
var named = sync.OnceValue(func() map[string]Sign {
	out := map[string]Sign{}
	for _, k := range slices.Backward(known) { // the first of two wins
		for _, name := range append([]string{k.ID, strings.ToLower(strings.ReplaceAll(k.Words, ",", ""))}, k.also...) {
			out[name] = k.Sign
		}
	}
	return out
})
