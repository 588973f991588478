package day

import (
	"fmt"
	"slices"
	"time"

	"example.org/vatside/model/fibre"
	"example.org/vatside/model/load"
	"example.org/vatside/model/practice"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/vessel"
	"example.org/vatside/model/wording"
)

// Phase is where a piece is.
type Phase int

// The phases of a piece, in order.
const (
	Dry Phase = iota
	Wet
	InVat
	Airing
	Aired
	FinishedPiece
	Dropped
	Carried
)

// Word says where a piece is.
func (p Phase) Word() string {
	return wording.Named(p, "dry", "wetted out", "in the vat", "airing", "aired", "finished", "off the list", "carried over")
}

// Piece is a piece of the day with all that happened to it.
type Piece struct {
	Tag   string
	Spec  PieceSpec
	Phase Phase
	Dips  int       // dips done, those of earlier days included
	Since time.Time // in the vat since, or airing since
	For   quantity.Span
	Past  []Dip

	Looked int // after how many dips the look that decides was last answered; 0: never

	listed  time.Time    // it came onto the list today; zero: it was brought
	handled time.Time    // anything was last done with it or said of it today
	rubbed  *CrockTested // the last rubbing test; nil: none today
	readied readied

	liftBack bool // the lift out of the dip that it is in was taken back

	Finishing Finishing
}

// Dip is one dip of a piece. EndSeq is the event that ended it.
type Dip struct {
	No      int
	Begun   time.Time
	Ended   time.Time
	Assumed bool
	EndSeq  int
}

// Live tells whether the piece still wants hands today.
func (p Piece) Live() bool { return p.Phase < FinishedPiece }

// MostDips bounds what is told or drawn dip by dip: far more than any piece has. A book may say any number.
const MostDips = 1000

// Want is the number of dips planned: as given, else the usual number for its depth (common practice), else 4.
func (p Piece) Want() int {
	if p.Spec.Dips > 0 {
		return p.Spec.Dips
	}
	if d, err := shade.ByName(p.Spec.Depth); err == nil {
		return d.Dips
	}
	return 4
}

// protein tells whether the fibre is hair or silk, which air sooner and take longer dips.
func (p Piece) protein() bool { return p.Spec.Fibre == "wool" || p.Spec.Fibre == "silk" }

// DipTime is one dip: as given, else by depth and fibre (common practice), else 5 min.
func (p Piece) DipTime() quantity.Span {
	if p.Spec.Dip > 0 {
		return p.Spec.Dip
	}
	if d, err := shade.ByName(p.Spec.Depth); err == nil {
		dip := d.Cellulose
		if p.protein() {
			dip = d.Protein
		}
		if p.pasted() {
			dip = min(dip, load.PastedDip)
		}
		return dip
	}
	if p.pasted() {
		return load.PastedDip
	}
	return quantity.Minutes(5)
}

// tight tells whether the piece is closely woven cloth, such as canvas, which takes longer at its first dip.
func (p Piece) tight() bool { return p.Spec.Form == Tight }

// NextDip is the dip that comes next, or that the piece is in: the first of tight cloth is half as long again to twice as long
// (practice.FirstDip), its middle, in whole minutes.
func (p Piece) NextDip() quantity.Span {
	return wording.Either(p.tight() && p.Dips == 0, practice.LongFirst(p.DipTime()), p.DipTime())
}

// MeanDip is one dip of those that are still to come, in the mean: what a plan and a forecast reckon with.
func (p Piece) MeanDip() quantity.Span {
	if p.tight() && p.Dips == 0 {
		return practice.MeanDip(p.DipTime(), p.Want())
	}
	return p.NextDip()
}

// AirTime is the airing after a dip: as given, else the longer of the dip and 10 min (5 for silk and wool, 20 for
// bound goods); after the last dip 30 min (20 for silk and wool, 2 h for bound goods). Common practice.
func (p Piece) AirTime(last bool) quantity.Span {
	least, final := quantity.Minutes(10), quantity.Minutes(30)
	switch {
	case p.Spec.Form == "bound":
		least, final = quantity.Minutes(20), quantity.Minutes(120)
	case p.protein():
		least, final = quantity.Minutes(5), quantity.Minutes(20)
	}
	if last {
		return final
	}
	if p.Spec.Air > 0 {
		return p.Spec.Air
	}
	return max(least, p.DipTime())
}

// TooLong says that the dips that a piece still has to come take longer, even one right after the other, than its person stays; empty
// where they do not.
func (p Piece) TooLong(at time.Time) string {
	till, from := Wished(at, p.Spec.Till), Wished(at, p.Spec.From)
	if till == nil || p.Want() <= p.Dips {
		return ""
	}
	if p.Phase == InVat {
		at = p.Since
	} else if from != nil && from.Before(*till) {
		at = *from
	}
	if at = at.Add(p.course()); !at.After(*till) {
		return ""
	}
	return fmt.Sprintf("%s has its last dip till %s at the soonest, and its person leaves at %s: fewer dips, or another lifts it", p.Tag, Clock(at), p.Spec.Till)
}

// course is what the dips that a piece still has to come take, one right after the other, with the airings between them.
func (p Piece) course() time.Duration {
	n := quantity.Span(p.Want() - p.Dips)
	return (n*p.MeanDip() + (n-1)*p.AirTime(false)).Duration()
}

// plunges tells whether a piece can be plunged in clear water before it airs: no bound one, nor one whose form is not known here.
func (p Piece) plunges() bool {
	return slices.Contains([]string{"", load.Cloth, load.Skein, load.Garment, Tight}, p.Spec.Form)
}

// Name is the piece as it is called out: its tag and what it is.
func (p Piece) Name() string {
	if p.Spec.What == "" {
		return p.Tag
	}
	return p.Spec.What + " " + p.Tag
}

// Finishing is what was done to a piece after its last dip.
type Finishing struct {
	Rinses int      // in plain water, since it last was in a vat
	Behind []string // the other steps that are done or left out, by their ids in practice.FinishPlan, and Looked
	Bath   string   // it is in now; empty: none
	Since  time.Time
	For    quantity.Span
}

// Rinsed tells whether it was rinsed since it last was in a vat, as far as was told; the strips of a ladder are, as they are cut.
func (p Piece) Rinsed() bool { return p.Finishing.Rinses > 0 || p.Spec.Form == "ladder" }

// Brought tells whether the piece had all its dips on an earlier day, and is only finished on this one.
func (p Piece) Brought() bool { return p.Phase == FinishedPiece && len(p.Past) == 0 }

// free tells whether another piece may have its tag: of one that is brought, and of one that was dropped before its first dip.
func (p Piece) free() bool {
	return p.Brought() || p.Phase == Dropped && p.Dips == 0 && len(p.Past) == 0
}

// ColourName is the depth that a piece has by its dips, and how that is known.
func (p Piece) ColourName() string { return shade.AfterDips(p.Dips) }

func (p Piece) goods() vessel.Goods {
	f, _ := fibre.Parse(p.Spec.Fibre) // unknown only in a book of a later version, and then reckoned as no fibre
	return vessel.Goods{Fibre: f, Dry: p.Spec.Dry}
}

// Tight is the form of closely woven cloth, such as canvas.
const Tight = load.Tight

func (p Piece) pasted() bool { return p.Spec.Form == Pasted }

// What goods go through before their first dip, as Readied tells it.
const (
	ToScour = "scour"
	ToSoak  = "soak"
)

// Pasted is the form of goods that bear a resist of paste: never soaked, hung still, dipped short, not squeezed.
const Pasted = load.Pasted

// readied is what was done to a piece before its first dip, or left out: scour and soak in either case, scoured and soaks only if done.
type readied struct{ scour, soak, scoured, soaks bool }

// Readied tells whether a piece is scoured or soaks, or that is left out.
func (p Piece) Readied(what string) bool {
	return what == ToScour && p.readied.scour || what == ToSoak && p.readied.soak
}
