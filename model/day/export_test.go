package day

import "example.org/vatside/model/quantity"

// Reckoned is the °C that water which was poured in since the last reading makes of it; nil where none was, or where nobody
// said how warm it was.
func (s State) Reckoned() *quantity.Temperature { return s.liquid.mixed }
