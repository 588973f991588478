package answer

import (
	"errors"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/model/liquor"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
)

// vatRows are what is done to the vat.
func vatRows() []Row {
	const give, feed = "give reducer 20 g", "fed bran 200 g"
	return []Row{
		{ID: "lid", Say: "lid", Words: []string{"lid"}, Does: "the lid goes on; it comes off if it is on", Key: "c", Group: Vat, Example: "lid", bare: true,
			short: func(s day.State) string { return "lid " + wording.Either(s.Vat.Covered, "off", "on") },
			Parse: func(l Line) ([]day.Command, error) {
				return record(wording.Either[day.Body](l.State.Vat.Covered, day.VatUncovered{}, day.VatCovered{}), nil)
			}},
		{ID: "lid on", Say: "lid on", Words: []string{"lid on", "cover", "covered"}, Does: "the vat is covered", Group: Vat, Example: "lid on", bare: true,
			Parse: wrote(day.VatCovered{})},
		{ID: "lid off", Say: "lid off", Words: []string{"lid off", "uncover", "uncovered"}, Does: "the vat is open", Group: Vat, Example: "lid off", bare: true,
			Parse: wrote(day.VatUncovered{})},
		{ID: "heater", Say: "heater", Words: []string{"heater"}, Does: "the heater goes on; it goes off if it is on", Key: "e", Group: Vat, Example: "heater", bare: true,
			short: func(s day.State) string { return "heater " + wording.Either(s.Vat.Heater, "off", "on") },
			Parse: func(l Line) ([]day.Command, error) { return record(Heater(l.State), nil) }},
		{ID: "heater on", Say: "heater on", Words: []string{"heater on"}, Does: "the heater is on: it hangs guarded, nothing else is in the vat", Group: Vat, Example: "heater on", bare: true,
			Parse: func(l Line) ([]day.Command, error) {
				return record(day.HeaterOn{Power: l.State.Head.Setup.Heater}, nil)
			}},
		{ID: "heater off", Say: "heater off", Words: []string{"heater off"}, Does: "the heater is off and unplugged", Group: Vat, Example: "heater off", bare: true,
			Possible: func(s day.State) bool { return s.Vat.Heater },
			Fits:     func(s day.State, _ day.Act) bool { return s.Vat.Heater },
			Parse:    wrote(day.HeaterOff{})},
		{ID: "top up", Say: "top up 2 L [at 12 C]", Words: []string{"top up", "topped up"}, Does: "water that makes up for what was lost", Group: Vat,
			Example: "top up 2 L at 12 C", Possible: day.Filled,
			Parse: func(l Line) ([]day.Command, error) {
				v, at, err := volumeAt(l.Rest, l.system())
				b := day.ToppedUp{Water: v}
				if at != nil {
					b.Temp = *at
				}
				return record(b, err)
			}},
		{ID: "decanted", Say: "decanted 5 L [REASON]", Words: []string{"decanted", "decant"}, Does: "clear liquor that was drawn off its sludge", Group: Vat,
			Example: "decanted 5 L to clean the floor", Possible: day.Filled,
			Parse: func(l Line) ([]day.Command, error) {
				v, why, err := volumeThen(l.Rest, l.system())
				return record(day.Decanted{Liquor: v, Why: why}, err)
			}},
		{ID: "drew off", Say: "drew off 3 L [REASON]", Words: []string{"drew off", "draw off", "drawn off"}, Does: "liquor that was taken out of a vat that lives on", Group: Vat,
			Example: "drew off 3 L", Possible: day.Filled,
			Parse: func(l Line) ([]day.Command, error) {
				v, why, err := volumeThen(l.Rest, l.system())
				return record(day.DrawnOff{Liquor: v, Why: why}, err)
			}},
		{ID: "stock", Say: "stock 1 L", Words: []string{"stock"}, Does: "stock that went from its jar into the vat", Group: Vat,
			Example: "stock 1 L", Possible: func(s day.State) bool { return day.Filled(s) && s.Head.Recipe.Stock != nil },
			Parse: func(l Line) ([]day.Command, error) {
				v, _, err := volumeAt(l.Rest, l.system())
				return record(day.StockDrawn{Stock: v}, err)
			}},
		{ID: "give", Say: "give POWDER 20 g [and POWDER 5 g]", Words: []string{"give", "gave"}, Does: "a dose that went in", Group: Vat,
			Example: give, Possible: day.Filled,
			Parse: func(l Line) ([]day.Command, error) {
				list, err := amounts(l.Rest, give, l.system())
				c := day.Dose{Powders: list, Why: "by the dyer"}
				for _, a := range list {
					c.Wait = max(c.Wait, liquor.DoseWait(l.State.Head.Recipe, a.Powder))
				}
				return one(c, err)
			}},
		{ID: "fed", Say: "fed FOOD 200 g", Words: []string{"fed", "feed"}, Does: "food for a living vat", Group: Vat,
			Example: feed, Possible: day.Filled,
			Parse: func(l Line) ([]day.Command, error) {
				list, err := amounts(l.Rest, feed, l.system())
				return wording.Each(list, func(a day.Amount) day.Command {
					return day.Record{Body: day.Fed{Powder: a.Powder, Mass: a.Mass}}
				}), err
			}},
		{ID: "treat", Say: "treat", Words: []string{"treat", "treated"}, Does: "what was advised for the signs was done", Group: Vat, Example: "treat", bare: true,
			Possible: day.Filled,
			Parse: func(l Line) ([]day.Command, error) {
				c := signs.Causes(outlook.Asked(l.State, outlook.Of(l.State, l.Now), l.Now, nil))[0]
				if !Treated(c) {
					return nil, errors.New("nothing is to be done for it: " + strings.TrimSuffix(c.Do, "."))
				}
				return one(outlook.Treatment(c), nil)
			}},
		{ID: "stirred", Say: "stirred [2 min]", Words: []string{"stirred", "stir"}, Does: "the vat was stirred, beyond the steps of the plan", Key: "S", Short: "stirred", Group: Vat,
			Example: "stirred 2 min",
			Parse: func(l Line) ([]day.Command, error) {
				if l.Rest == "" {
					return record(day.Stirred{}, nil)
				}
				d, err := minutes(l.Rest, l.system())
				return record(day.Stirred{For: d}, err)
			}},
		{ID: "skimmed", Say: "skimmed", Words: []string{"skimmed", "skim"}, Does: "the froth is drawn aside", Group: Vat, Example: "skimmed", bare: true,
			Possible: day.Filled, Fits: atKind(day.ActSkim),
			Parse: wrote(day.FrothSkimmed{})},
		{ID: "rest", Say: "rest [20 min]", Words: []string{"rest", "rests"}, Does: "let the vat be; an hour if it is not said", Key: "v", Short: "rest the vat an hour", Group: Vat, Example: "rest 20 min",
			Possible: day.Filled,
			Parse: func(l Line) ([]day.Command, error) {
				if l.Rest == "" {
					return one(day.RestVat{For: quantity.Minutes(60)}, nil)
				}
				d, err := minutes(l.Rest, l.system())
				return one(day.RestVat{For: d}, err)
			}},
	}
}

// Heater is the heater the other way round.
func Heater(s day.State) day.Body {
	return wording.Either[day.Body](s.Vat.Heater, day.HeaterOff{}, day.HeaterOn{Power: s.Head.Setup.Heater})
}

// Treated tells whether there is something to be done about a cause and written down.
func Treated(c signs.Cause) bool { return c.Act != signs.Dye && c.Act != signs.Look && !c.Barred }

// volumeThen reads litres and the words behind them: "5 L to clean the floor".
func volumeThen(text string, sys quantity.System) (quantity.Volume, string, error) {
	w := strings.Fields(text)
	for n := min(2, len(w)); n > 0; n-- {
		if v, err := quantity.ParseVolume(strings.Join(w[:n], " "), sys); err == nil {
			return v, strings.Join(w[n:], " "), nil
		}
	}
	v, _, err := volumeAt(text, sys)
	return v, "", err
}
