package day

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"example.org/vatside/model/wording"
)

// ActKind is what the hands are asked for.
type ActKind int

// The kinds of act.
const (
	ActStep   ActKind = iota // the open step of the plan
	ActWetOut                // is the piece wet through?
	ActSkim                  // skim the froth before a load
	ActEnter                 // lower a piece in
	ActLift                  // lift a piece out, now or when its time is over
	ActAir                   // nothing but airing: wait
	ActFinish                // no green left: the piece is done
	ActRest                  // the vat rests
	ActLook                  // look again after a treatment
	ActBench                 // a piece whose dips are over: rinse, sour, soap, dry
	ActIdle                  // no piece wants hands
	ActClosed                // the day is over
	ActDecide                // the look that decides: has the piece enough?
	ActStrip                 // a strip is watched: is it blue?
	ActSound                 // the sound check: are the calls heard?
	ActRound                 // the daily round of a ferment, or the evening round
	ActGoods                 // what is to be dyed?
	ActReady                 // a piece is scoured, or goes into its soak
	ActAsk                   // a question that stands before the first powder; Choices answer it
	ActHold                  // no piece goes in: the class is talked to
	ActComes                 // nothing but a piece whose person is still to come: wait
)

// Entry is what typed figures mean at an act.
type Entry int

// What figures are taken for.
const (
	NoEntry Entry = iota
	MassEntry
	TempEntry
)

// Act is the one thing for the hands: at any moment there is exactly one.
type Act struct {
	Kind    ActKind
	Step    Step      // for ActStep
	Piece   Piece     // for acts on a piece
	Tags    []string  // of ActWetOut, ActEnter and ActLift: all the pieces that it is about, Piece first
	Load    []Piece   // of ActEnter and ActLift: those pieces
	Bench   BenchStep // for ActBench
	Do      string    // for ActReady: ToScour or ToSoak; for ActRound: eveningRound, or empty
	Dip     int       // which dip it is about, from 1
	Words   string
	How     string
	Why     string
	Caution string // stands before the act and wants an answer
	Due     *Due   // the deadline that the act waits for
	Press   string // what the big key does now; empty: nothing
	Shut    bool   // for ActBench, and for a step that children keep from being done: it may not be done yet, and How says why
	Entry   Entry
}

// Left is what remains until the act's deadline; over is by how much it has passed. Not inlined: that was 6 kB of the program.
//
//go:noinline
func (a Act) Left(now time.Time) (left, over time.Duration) {
	if a.Due == nil {
		return 0, 0
	}
	return a.Due.left(now)
}

// Apart is the dip of each of several pieces that go in or come out together, "A1 5:00, dip 1 of 3; B1 8:00, dip 1 of 7"; empty where
// their dips are alike.
func (a Act) Apart() string {
	each := wording.Each(a.Load, func(p Piece) string {
		long := wording.If(a.Kind == ActEnter, " "+Countdown(p.NextDip().Duration())+",")
		return fmt.Sprintf("%s dip %d of %d", long, p.Dips+1, max(p.Dips+1, p.Want()))
	})
	if len(slices.Compact(slices.Clone(each))) < 2 {
		return ""
	}
	for i, p := range a.Load {
		each[i] = p.Tag + each[i]
	}
	return strings.Join(each, "; ")
}

// Judging tells whether the call asks if the vat is ready, so that each of Ways answers it.
func (a Act) Judging() bool {
	return a.Caution == "" && a.Step.Judges() && (a.Kind == ActStep || a.Kind == ActStrip)
}
