// Package load makes the timetable of pieces that share a vat: which goes in when, so that the day ends soonest and no
// limit is broken. It owns no clock: every time is a span from the start of the day, and the same input gives the same
// plan, as the search is bounded by a count of steps and never by time.
//
// What a dip is. With handling h of its piece, lowering takes h before the dip begins to count, lifting h after it ended:
//
//	Lower ── h ── In ── the dip ── Out ── h ── Lifted
//
// The piece holds its part of the vat from Lower to Lifted. A moved piece takes a pair of hands all that while, a hung
// one only to lower and to lift; a lift comes exactly when the dip is over, never late. Airing counts from Lifted to the
// next Lower and is at least as long as asked, with no upper end. At the end of one and the start of another the room,
// and the hands, pass on at the same moment. Handling 0 takes no hands; Hands 0 means that there is no limit of them.
//
// Breaks are the hands': a hung piece may stay in over a break, but nothing is lowered, moved or lifted within it.
// Rests and reheats are the vat's, which then stands empty: between gaps of at least the rest's length it works, from the
// first lowering to the last lift, no longer than the time that asks for the rest; reheats in the same way. Any gap
// that is long enough counts, and one long gap may count for both.
//
// Persons. A piece may come late (From), leave early (Till: lifted for the last time by then, as far as it can be) or be shown
// to all (Demo: its first dip goes in before every other, alone). At most so many persons have a piece in the vats at once.
// Fair turns go by rounds: everybody's first dip first, then nobody who is ready is more than one dip ahead of the rearmost
// who is ready; wishes of one or two dips stand outside the rounds, and their time is a promise.
//
// A plan's finish, its makespan, is the last lift. A piece is done later: after its final airing, rinses and souring.
// Plans are compared in this order: time past the latest finish, of the last of the pieces that can be done by then, and past when
// people leave, together; the first of the two; all pieces' time past the latest finish; how much longer than by themselves those take
// that cannot be done by then; the last lift; of a replan the minutes shifted and the order changed; then dark pieces first (or, of
// fair turns, the last first dip and the longest wait); then the fewest trips. Where the vat tires there are up to three plans: weak
// (dips in too weak a vat are only counted), full (they come before everything else) and feed; the wished finish rules which is taken,
// if none is asked for.
//
// Every dip is placed on one line of the vats and the hands, at the earliest time that keeps every limit. The search changes the order of
// the dips. A bound on the last lift is proven beside each plan: by each limit alone, by weights that never fit beside one another, by
// rests; and small days are gone through whole (walk.go).
package load
