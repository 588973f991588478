package main

import (
	"fmt"
	"runtime/debug"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/wording"
	"example.org/vatside/testdata/bench/internal/apart"
)

// edges are all of them, in the order of the table.
func edges() (all []edge) {
	for _, of := range []func() []edge{ends, suspends, sizes, paces, kinds, typings, replies} {
		all = append(all, of()...)
	}
	return all
}

// groups are their groups.
func groups() []string {
	return wording.Once(wording.Each(edges(), func(e edge) string { return e.group }))
}

// choose gives the edges of some groups, with commas; none: all.
func choose(only string) []edge {
	if only == "" {
		return edges()
	}
	names := strings.Split(only, ",")
	for _, name := range names {
		if !slices.Contains(groups(), name) {
			apart.Must(fmt.Errorf("there is no group %q of edges: %s", name, strings.Join(groups(), ", ")))
		}
	}
	return slices.DeleteFunc(edges(), func(e edge) bool { return !slices.Contains(names, e.group) })
}

// tried tries edges: first those that may stand beside others, so many at once, then those that may not. Mostly they wait.
func (t *setup) tried(chosen []edge, beside int) (all []*try) {
	for _, e := range chosen {
		if e.brief || !t.short {
			all = append(all, &try{setup: t, edge: e})
		}
	}
	waiting := slices.DeleteFunc(slices.Clone(all), func(one *try) bool { return one.alone })
	apart.Together(beside, waiting, (*try).do)
	for _, one := range all {
		if one.alone {
			one.do()
		}
	}
	return all
}

// do tries one. What goes wrong with the bench itself is told as such.
func (t *try) do() {
	defer func() {
		if r := recover(); r != nil {
			t.bad("the bench itself: %v\n%s", r, debug.Stack())
		}
	}()
	apart.Try(func() { t.does(t) })
}

// table prints what came out, and tells whether anything failed.
func table(all []*try) (bad bool) {
	wide, failed, left := 0, 0, 0
	for _, t := range all {
		wide = max(wide, len([]rune(t.name)))
	}
	fmt.Printf("\n%-8s %-*s        %s\n", "group", wide, "edge", "what came of it")
	for _, t := range all {
		verdict, lines := "ok", t.said
		switch {
		case t.without != "":
			verdict, lines = "–", []string{"left out: " + t.without}
			left++
		case len(t.wrong) > 0:
			verdict, lines = "FAILS", append(t.wrong, t.said...)
			failed++
		}
		if len(lines) == 0 {
			lines = []string{""}
		}
		fmt.Printf("%-8s %-*s %-5s  %s\n", t.group, wide, t.name, verdict, lines[0])
		const most = 6
		for _, l := range lines[1:min(len(lines), most)] {
			fmt.Printf("%-8s %-*s %-5s  %s\n", "", wide, "", "", l)
		}
		if n := len(lines) - most; n > 0 {
			fmt.Printf("%-8s %-*s %-5s  and %d more\n", "", wide, "", "", n)
		}
	}
	fmt.Printf("\n%d edges; failed: %d; left out: %d\n", len(all), failed, left)
	return failed > 0
}

// remains tells what a program that has ended left in its terminal.
func (t *try) remains(s *seat) {
	if left := s.Left(); len(left) > 0 {
		t.bad("the terminal is left with %s", strings.Join(left, ", "))
	}
}

// leave ends the program by its key, and looks at what is left.
func (t *try) leave(s *seat) {
	begun := time.Now()
	t.must(s.quit("q", mostEnd), "q did not end it within %v: %s", mostEnd, firstLine(s.Text()))
	t.say("q ended it in %d ms", time.Since(begun).Milliseconds())
	t.remains(s)
}
