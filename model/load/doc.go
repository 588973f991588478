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
// A plan's finish, its makespan, is the last lift. A piece is done later: after its final airing, rinses and souring.
// Plans are compared in this order: dips in too weak a vat, time past the latest finish, the last lift, then dark pieces
// first (or, if asked, who waits longest), then the fewest trips. A bound on the last lift is proven beside each plan.
package load
