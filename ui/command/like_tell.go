package command

import (
	"fmt"
	"math"

	"example.org/vatside/model/day"
	"example.org/vatside/model/fibre"
	"example.org/vatside/model/history"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/shade"
	"example.org/vatside/model/wording"
	"example.org/vatside/ui/library"
)

// today is what the blue takes in the open vat that presses most, else in the newest that lives: for goods of the fibre, the
// weight and the dip of the piece that is sought, else of the nearest one.
func today(last []library.Day, want sought, found []library.Piece) *likedToday {
	s, ok := livingVat(last)
	if !ok {
		return nil
	}
	var spec day.PieceSpec
	model := want.piece
	if model == nil && len(found) > 0 {
		model = &found[0]
	}
	switch {
	case model != nil:
		spec.Fibre, spec.Dry = model.Piece.Spec.Fibre, model.Piece.Spec.Dry
		spec.Dip, _ = model.Took()
	case want.fibre != fibre.Unknown:
		spec.Fibre = want.fibre.String()
	}
	f, _ := fibre.Parse(spec.Fibre)
	if spec.Dip <= 0 {
		ks, _ := shade.GroundOf(f).Depth(want.lab)
		spec.Dip = quantity.Minutes(5)
		if d, err := shade.ByName(shade.Name(ks)); err == nil {
			spec.Dip = usualDip(d, f)
		}
	}
	out := &likedToday{Vat: s.Vat}
	if blues, ok := bluesOf(s); ok {
		spec.Lab = [3]float64{want.lab.L, want.lab.A, want.lab.B}
		coming := blues.Plan(day.Piece{Spec: spec})
		out.Dips, out.Claim = answerOf(coming.Answer), coming.Claim
		return out
	}
	// Nothing is filled in yet: the vat as its recipe has it when fresh.
	head := s.State.Head
	piece := shade.Piece{Fibre: f, Ground: shade.GroundOf(f), Dry: spec.Dry}
	v := shade.Liquor{Fill: head.Setup.Fill, Indigo: liquor.PureIndigo(head.Recipe, head.Setup.Fill),
		PH: quantity.PH(head.Recipe.Liquor.PHFresh), Temp: head.Recipe.Liquor.Aim}
	seen := shade.Possible(head.Recipe.Family).Seen(nil)
	out.Dips, out.Claim = answerOf(seen.Dips(piece, v, spec.Dip, nil, shade.WishLab(want.lab))), seen.ClaimFor(piece)
	return out
}

// livingVat is, of the newest days of all vats, the open one whose call rules, else the newest whose vat has not ended.
func livingVat(last []library.Day) (best library.Day, found bool) {
	for _, s := range last {
		switch {
		case s.State.Ended || found && best.Open() && !s.Open():
		case !found, s.Open() && !best.Open(), s.Open() && best.Open() && s.Call().Compare(best.Call()) < 0, !s.Open() && s.State.At.After(best.State.At):
			best, found = s, true
		}
	}
	return best, found
}

// bluesOf are the blues of a vat at its present; of a closed day as the next one will find it, once it is warm again. False
// where nothing is filled in.
func bluesOf(s library.Day) (outlook.Blue, bool) {
	state := s.State
	if !s.Open() {
		head := state.Head
		head.Opening = outlook.Carry(state)
		next, err := day.Begin(head)
		if err != nil {
			return outlook.Blue{}, false
		}
		state = next
	}
	o := outlook.Of(state, s.Now)
	if o.Empty {
		return outlook.Blue{}, false
	}
	if !s.Open() {
		o.Heat.Known = outlook.Unknown
	}
	return outlook.Blues(state, o, s.Now), true
}

// knownWords is how the look of a piece is known, as it is said.
var knownWords = map[history.Told]string{
	history.ByMeasure: "measured", history.ByPhoto: "from a photograph", history.ByRung: "by a rung of the ladder",
	history.ByDepth: "by its depth", history.ByForecast: "by its dips",
}

// minutes are a time that hands took, to the half minute.
func minutes(m float64) quantity.Span { return quantity.Minutes(math.Max(0.5, math.Round(2*m)/2)) }

func (p *program) tellLike(want sought, out liked, sys quantity.System) {
	what := want.lab.String()
	if want.piece != nil {
		what = fmt.Sprintf("%s, %s (%s)", want.piece.Path(), what, knownWords[want.piece.Told])
	}
	p.say("Like %s:", what)
	var rows table
	for _, b := range out.Pieces {
		name := b.Vat + "/" + b.Day + "/" + b.Tag
		if b.What != "" {
			name += " " + b.What
		}
		rows.add(fmt.Sprintf("%.1f", b.DE00), fmt.Sprintf("%s, %s %s: %s of %s, aired %s, in %s; %s, %s", name, quantity.Grams(b.DryG).Format(sys), b.Fibre,
			wording.Counted(b.Dips, "dip"), minutes(b.DipMin), minutes(b.AirMin), b.Recipe, b.Words, knownWords[history.Told(b.LabKnown)]))
	}
	p.table(rows)
	if len(rows) == 0 {
		p.say("No piece of the book is of that kind.")
	}
	if t := out.Today; t != nil {
		p.note("", fmt.Sprintf("today in %s: %s most likely; %s (%s); %s that %s", t.Vat, reach(t.Dips.Likely), inAll(t.Dips), t.Claim, percent(t.Dips.Chance), giving(t.Dips.Likely)))
	} else {
		p.note("", "no vat lives, in which it could be dyed today")
	}
}
