// Package cost says what a piece cost: its part of the vat that it was dyed in, by the indigo that it took, and the hours of
// its own day at the dyer's rate. It names no currency, and it says what it could not count instead of guessing it.
//
// Evidence is marked as elsewhere: S with a number for a source of the project's list, C for common practice without a
// source, M for from memory.
package cost
