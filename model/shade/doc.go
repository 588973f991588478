// Package shade says how dark a piece becomes, and how sure that is.
//
// Optics: KS is the K/S of the dye at 660 nm with the substrate taken off; a Ground (the undyed cloth) turns it into a
// spectrum and a colour, and a colour back into the depth that is nearest on the dye's line.
//
// Uptake: Possible makes 4,096 possible vats from the priors of priors.go by a fixed sequence, so that the same inputs give
// the same answer. Seen weights them by what was seen; Forecast, Dips, Now, Leaves and Level ask the weighted whole.
//
// Claims: how many dips reach a blue has no published answer, and from one vat to another the blue of a dip differs
// twentyfold. Without swatches the claim is "guess", with the range as wide as it is. TestTables holds the claims
// against simulated vats, also against such as behave in another way than this model. Every figure without a source says
// so: C common practice, M from memory, K calculated.
package shade
