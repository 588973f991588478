// Package practice is what the trade knows before and after the vat, as data and rules: scouring, wetting out, the gate
// before acid, finishing, the rhythm of care, the checklist before a day, what the safety cards say of each substance, and
// first aid.
//
// Evidence is marked S with a number for a source of the project's list, C for common practice without a source, M for
// from memory, K for calculated.
package practice
