package answer

import (
	"errors"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/signs"
	"example.org/vatside/model/wording"
)

// readRows are what was read or seen.
func readRows() []Row {
	return []Row{
		{ID: "temp", Say: "36 C", Words: []string{"temp", "temperature", "reads", "it reads"}, Does: "what the thermometer shows", Key: "r", Group: Seen,
			Example: "36 C", short: func(s day.State) string { return "read " + s.Head.Setup.System().DegreeUnit() }, Blank: func(l Line) Blank { return Blank{"The vat reads", l.system().DegreeUnit()} },
			Fits: func(s day.State, a day.Act) bool {
				return a.Entry == day.TempEntry || a.Kind == day.ActIdle && a.Piece.Tag != ""
			},
			Parse: func(l Line) ([]day.Command, error) {
				t, err := Temperature(strings.TrimPrefix(l.Rest, "= "), l.system())
				r := day.Reading{Temp: &t}
				if l.Act.Kind == day.ActStep && l.Act.Step.Into == recipe.IntoStock {
					r.Of = "stock"
				}
				return record(r, err)
			}},
		{ID: "ph", Say: "ph 10.4 [25] [meter]", Words: []string{"ph"}, Does: "a pH, and the °C at which it was read if not the vat's", Key: "h", Short: "read pH", Group: Seen,
			Example: "ph 10.4 25", Blank: func(l Line) Blank {
				return Blank{"pH", "and the " + l.system().DegreeUnit() + " of the sample, if it is not the vat's"}
			},
			Fits: func(_ day.State, a day.Act) bool { return a.Kind == day.ActStep && a.Step.Do == day.DoAcid },
			Parse: func(l Line) ([]day.Command, error) {
				r, err := PHReading(l.Rest, l.system())
				if l.State.SourJar() || l.Act.Kind == day.ActStep && l.Act.Step.Into == recipe.IntoStock { // a sour jar till it is read again
					r.Of = "stock"
				}
				return record(r, err)
			}},
		{ID: "strip", Say: "strip 45", Words: []string{"strip"}, Does: "for how many seconds a strip stayed yellow; 0: not at all; without them it is out now, and then blue", Key: "t", Group: Seen,
			Example: "strip 45", Blank: stripBlank,
			short: func(s day.State) string {
				return wording.Either(!s.Vat.Pulled.IsZero(), "the strip is blue", "strip test")
			},
			Fits: func(_ day.State, a day.Act) bool {
				return a.Kind == day.ActStep && (a.Step.Judges() || a.Step.Do == day.DoSpent) || a.Kind == day.ActLook
			},
			Parse: func(l Line) ([]day.Command, error) {
				if l.Rest == "" {
					return one(StripKey(l.State, l.Now), nil)
				}
				stayed, err := Strip(l.Rest, l.system())
				return record(day.StripTest{Stayed: stayed}, err)
			}},
		{ID: "strip out", Say: "strip out", Words: []string{"strip out", "strip pulled"}, Does: "a strip is out of the vat: its seconds run", Group: Seen, Example: "strip out", bare: true,
			Possible: func(s day.State) bool { return s.Vat.Pulled.IsZero() },
			Parse:    wrote(day.StripBegun{})},
		{ID: "strip blue", Say: "strip blue", Words: []string{"strip blue", "strip is blue", "it is blue"}, Does: "the strip turned blue: its seconds are written down", Group: Seen, Example: "strip blue", bare: true,
			Possible: func(s day.State) bool { return !s.Vat.Pulled.IsZero() },
			Fits:     func(s day.State, _ day.Act) bool { return !s.Vat.Pulled.IsZero() },
			Parse:    func(Line) ([]day.Command, error) { return one(day.StripBlue{}, nil) }},
		{ID: "level", Say: "level 40 cm", Words: []string{"level", "below the rim", "holds", "it holds"}, Does: "how far the liquor is below the rim; level 28 L how much is in it", Key: "d", Short: "read how full", Group: Seen,
			Example: "level 28 L", Blank: levelBlank,
			Fits: func(_ day.State, a day.Act) bool { return a.Kind == day.ActStep && a.Step.Do == recipe.Fill },
			Parse: func(l Line) ([]day.Command, error) {
				r, err := Level(l.State, l.Rest)
				return record(r, err)
			}},
		{ID: "signs", Say: "signs SIGN, SIGN", Words: []string{"signs", "sign", "saw"}, Does: "what is seen of the vat, such as blue, cloudy", Key: "u", Short: "what is wrong with it?", Group: Seen,
			Example: "signs blue, cloudy", Opens: "signs", alone: "ails",
			Parse: func(l Line) ([]day.Command, error) {
				list, err := signs.Parse(l.Rest)
				if err != nil {
					return nil, err
				}
				return wording.Each(list, func(s signs.Sign) day.Command { return day.Record{Body: day.SignSeen{Sign: s.ID}} }), nil
			}},
		{ID: "look", Say: "look TAG [wet or rinsed] LOOK", Words: []string{"look"}, Verbs: []string{"looks like", "looks", "look"}, Group: Seen,
			Does:    "what a piece looks like: dark, rung 4, lab 31 -3 -20, #2a3b5c, ks 9; or a photograph of the card, dropped or its path typed",
			Example: "look A1 wet rung 4", tagged: true,
			Possible: func(s day.State) bool { return len(s.Pieces) > 0 },
			Fits:     func(_ day.State, a day.Act) bool { return a.Kind == day.ActBench && a.Bench.ID == day.Looked },
			Parse: func(l Line) ([]day.Command, error) {
				looks, wet := strings.CutPrefix(l.Rest, "wet ")
				looks, rinsed := strings.CutPrefix(strings.TrimPrefix(looks, "dry "), "rinsed ")
				if looks == "" {
					return nil, errors.New("type the piece and what it looks like: look A1 wet rung 4, look A1 dark")
				}
				return eachPiece(l, func(tag string) (day.Command, error) {
					p, _ := l.State.Piece(tag)
					return day.Record{Body: day.LookedAt{OfPiece: day.OfPiece{Tag: tag}, Looks: looks, Wet: wet, Rinsed: !wet && (rinsed || p.Rinsed())}}, nil
				})
			}},
		{ID: "cut", Say: "cut TAG DIPS LOOK", Words: []string{"cut"}, Does: "what the strip that was cut off after that dip looks like, rinsed and dry", Group: Seen,
			Example: "cut L1 3 lab 62 -7 -21", tagged: true, Opens: "ladder", Key: "L", Short: "swatches, ladder",
			Possible: func(s day.State) bool { return len(s.Pieces) > 0 || len(s.Head.Opening.Swatches) > 0 },
			Parse: func(l Line) ([]day.Command, error) {
				dips, looks, _ := strings.Cut(l.Rest, " ")
				n, err := strconv.Atoi(dips)
				if err != nil || looks == "" {
					return nil, errors.New("type the piece, after which dip the strip was cut, and what it looks like dry: cut L1 3 lab 62 -7 -21")
				}
				return record(day.SwatchJudged{Swatch: l.tag(), Dips: n, Looks: looks}, nil)
			}},
	}
}

// Looked is where a dyer looks for signs, in that order. Strips are timed, not chosen.
var Looked = []struct {
	Asks, Name string
	Of         []signs.Group
}{
	{"What colour is the liquor, in a clear glass from below the film?", "liquor", []signs.Group{signs.GroupColour}},
	{"Is it clear?", "clearness", []signs.Group{signs.GroupClarity}},
	{"What lies on it?", "film, froth", []signs.Group{signs.GroupFilm, signs.GroupFroth}},
	{"What does it smell of?", "smell", []signs.Group{signs.GroupSmell}},
	{"How is the floor of the vat, and the liquor on the glove?", "floor, touch", []signs.Group{signs.GroupSediment, signs.GroupTouch}},
	{"What does a swatch show?", "swatch", []signs.Group{signs.GroupSwatch}},
	{"What is wrong with the goods?", "goods", []signs.Group{signs.GroupGoods}},
}

// StripKey is the one key of a strip: out, then blue.
func StripKey(s day.State, now time.Time) day.Command {
	if _, watched := s.Watched(now); watched {
		return day.StripBlue{}
	}
	return day.Record{Body: day.StripBegun{}}
}
