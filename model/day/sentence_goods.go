package day

import (
	"fmt"
	"strings"

	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

func (p PieceSpec) sentence(u quantity.System) string {
	s := wording.If(p.About, "about ") + strings.TrimSpace(p.Dry.Format(u)+" "+p.Fibre)
	s += wording.If(p.Depth != "", ", "+p.Depth)
	switch {
	case p.Rung > 0:
		s += fmt.Sprintf(", as rung %d", p.Rung)
	case p.Lab != [3]float64{}:
		s += fmt.Sprintf(", lab %g %g %g", p.Lab[0], p.Lab[1], p.Lab[2])
	case p.Like != "":
		s += ", like " + p.Like
	}
	return s + wording.If(p.Dips > 0, ", "+wording.Counted(p.Dips, "dip")) +
		wording.If(p.Had > 0, fmt.Sprintf(", %d had before", p.Had)) +
		wording.If(p.Who != "", ", of "+p.Who) + wording.If(p.From != "", ", from "+p.From) +
		wording.If(p.Till != "", ", till "+p.Till) + wording.If(p.Demo, ", demo")
}

func (b PieceAdded) Sentence(u quantity.System) string {
	return strings.TrimSpace(b.What+" "+b.Tag) + " on the list: " + b.sentence(u)
}

func (b PieceChanged) Sentence(u quantity.System) string {
	return b.Tag + " is now " + strings.TrimSpace(b.What+" "+b.sentence(u))
}

func (b PieceDropped) Sentence(quantity.System) string {
	return b.Tag + " off the list" + wording.Because(b.Reason)
}

func (b GoodsAsked) Sentence(quantity.System) string { return "all that is to be dyed is on the list" }

func (b Readied) Sentence(quantity.System) string {
	switch {
	case b.Left:
		return b.Tag + ": no " + b.What
	case b.What == ToSoak:
		return b.Tag + " soaks"
	}
	return b.Tag + " is scoured"
}

func (b WettedOut) Sentence(quantity.System) string { return b.Tag + " is wet through" }

func (b DipBegun) Sentence(quantity.System) string {
	return fmt.Sprintf("%s in, dip %d, %s", b.Tag, b.Dip, b.For) + toldAt(b.When) + presumed(b.Assumption)
}

func (b DipEnded) Sentence(quantity.System) string {
	return fmt.Sprintf("%s out after dip %d, airs %s", b.Tag, b.Dip, b.Air) + toldAt(b.When) + presumed(b.Assumption)
}

func (b AiringEnded) Sentence(quantity.System) string {
	return fmt.Sprintf("%s aired after dip %d, no green left", b.Tag, b.Dip) + toldAt(b.When) + presumed(Assumption{b.Assumed})
}

func (b LookedAt) Sentence(quantity.System) string {
	switch b.Said {
	case "":
	case LookStop:
		return fmt.Sprintf("%s looked at: enough after %s", b.Tag, wording.Counted(b.Dips, "dip"))
	default:
		return fmt.Sprintf("%s looked at after %s: %s", b.Tag, wording.Counted(b.Dips, "dip"), b.Said)
	}
	how := wording.Either(b.Wet, "wet", "dry") + wording.If(b.Rinsed, ", rinsed") + wording.If(!b.Wet && !b.Rinsed, ", not rinsed")
	return fmt.Sprintf("%s looks like %s (%s)", b.Tag, b.Looks, how)
}

func (b SwatchJudged) Sentence(quantity.System) string {
	if b.Dips > 0 {
		return fmt.Sprintf("the strip of %s after dip %d looks like %s", b.Swatch, b.Dips, b.Looks)
	}
	return fmt.Sprintf("swatch %s looks like %s", b.Swatch, b.Looks)
}

func (b Rinsed) Sentence(quantity.System) string { return b.Tag + " rinsed" }

func (b BathBegun) Sentence(quantity.System) string {
	return fmt.Sprintf("%s into the %s, %s", b.Tag, bathName(b.Bath), b.For)
}

func (b LeftOut) Sentence(quantity.System) string {
	return fmt.Sprintf("%s: %s left out", b.Tag, b.What) + wording.Because(b.Reason)
}

func (b Soured) Sentence(quantity.System) string {
	if b.Whites {
		return b.Tag + " had its whites cleared" + with(b.With)
	}
	return b.Tag + " soured" + with(b.With)
}

func (b Soaped) Sentence(u quantity.System) string {
	return b.Tag + " soaped" + wording.If(b.Temp != 0, " at "+b.Temp.Format(u))
}

func (b Dried) Sentence(quantity.System) string { return b.Tag + " is dry" }

func (b CrockTested) Sentence(quantity.System) string {
	return fmt.Sprintf("%s rubbed on white cotton: dry %s, wet %s of 5", b.Tag, pH(b.Dry), pH(b.Wet))
}

func (b Finished) Sentence(quantity.System) string {
	return fmt.Sprintf("%s finished after %s", b.Tag, wording.Counted(b.Dips, "dip"))
}

func (b CarriedOver) Sentence(quantity.System) string {
	to := wording.Either(b.To != "", b.To, "another day")
	return fmt.Sprintf("%s carried over to %s with %s", b.Tag, to, wording.Counted(b.Dips, "dip"))
}
