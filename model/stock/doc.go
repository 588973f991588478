// Package stock is the list of powders with their tins: what stands on the shelf, what the vats' books have drawn on it
// since it was last weighed, what is too old to be trusted, and what is short for the next vat.
//
// Like a day it is a fold over events: the same events always give the same list. It knows no clock, no disk and no
// book of a vat: the doses that were weighed there come in as Draws.
//
// Evidence is marked S with a number for a source of the project's list, C for common practice without a source, M for
// from memory, K for calculated.
package stock
