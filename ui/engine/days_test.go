package engine_test

import (
	"bytes"
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/testdata/longday"
)

// The played days of testdata/days, one file in the book's form and one that a dyer can read, come from the tables
// below. After a change of what is said or written: go test ./ui/engine -run PlayedDays -update, and read the difference.

var update = flag.Bool("update", false, "write testdata/days anew")

// line is one line of a played day: after how long, what the hands or the machine did. Say is a word to the reader.
type line struct {
	say   string
	after time.Duration // since the last line; toDue: when the next time runs out
	do    any           // a day.Command, a day.Body of the engine's, or one of the types below
}

const (
	toDue = time.Duration(-1)
	sec   = time.Second
	min   = time.Minute
)

type (
	press   int // the big key so many times, 6 s apart
	buildTo int // the build as it is led, until this step is open
	goOn    struct{}
	of      struct { // corrects the last event of a kind; back is how long ago it really was
		way, kind string
		back      time.Duration
	}
)

// script is a whole day.
type script struct {
	file  string
	title string
	head  func(t *testing.T) day.Head
	begin time.Time
	lines []line
}

var summer = time.FixedZone("", 2*3600)

func at(d, h, m int) time.Time { return time.Date(2026, 5, d, h, m, 0, 0, summer) }

func ptr[T any](v T) *T { return &v }

func celsius(c float64) *quantity.Temperature { return ptr(quantity.Celsius(c)) }

func piece(tag string) day.OfPiece { return day.OfPiece{Tag: tag} }

// fresh is the head of a vat's first day; next is that of the day after another script.
func fresh(recipe, vat, date string, setup day.Setup) func(*testing.T) day.Head {
	return func(t *testing.T) day.Head {
		r, ok := recipes.Find(recipe)
		if !ok {
			t.Fatalf("no recipe %s", recipe)
		}
		return day.Head{Vat: vat, Day: date, Zone: "Europe/Berlin", Setup: setup, Opening: day.Opening{Number: 1}, Recipe: r}
	}
}

func next(date string, before *script) func(*testing.T) day.Head {
	return func(t *testing.T) day.Head {
		s, _, _ := before.play(t)
		h := s.Head
		h.Day, h.Opening = date, outlook.Carry(s)
		return h
	}
}

var sodaBin = script{
	file: "soda-bin", title: "A garden bin of 60 L, a soda vat: built in the morning, three pieces, one of them not finished. All of it is made up.",
	begin: at(9, 9, 0),
	head: fresh("soda", "garden-bin", "2026-05-09", day.Setup{
		Name: "Garden bin", Fill: quantity.Litres(60), Vessel: "frustum 36 cm 44 cm 62 cm", Material: "PP", Place: day.Outdoors,
		Units: "metric", Cold: quantity.Celsius(12), Hot: quantity.Celsius(60),
	}),
	lines: []line{
		{"The indigo is weighed in three scoops; a little comes out of the pan again.", 0, day.Opened{How: "build"}},
		{"", 2 * min, press(1)},
		{"", 40 * sec, day.PutScoop{Mass: 60}},
		{"", 40 * sec, day.PutScoop{Mass: 32}},
		{"", 20 * sec, day.PutScoop{Mass: -2}},
		{"", 10 * sec, press(1)},
		{"Then the build goes its way: each caution is answered before its step.", 30 * sec, buildTo(10)},
		{"The reducer waits for a reading; then it is sprinkled, stirred in and covered.", 30 * sec, press(1)},
		{"", 40 * sec, day.Record{Body: day.Reading{OfStep: day.OfStep{Step: 10}, Temp: celsius(38.5), BelowRim: ptr(quantity.Centimetres(13.5)), With: "glass thermometer"}}},
		{"", 20 * sec, press(1)},
		{"", 10 * sec, buildTo(13)},
		{"While it reduces, the pieces come onto the list and a helper comes into the yard.", 3 * min, day.AddPiece{Tag: "A1", Spec: day.PieceSpec{
			What: "runner", Fibre: "linen", Dry: 420, Depth: "dark", Dips: 5, Form: "cloth", Work: "moved", Who: "4",
			Dip: quantity.Minutes(8), Air: quantity.Minutes(12), Had: 1}}},
		{"", min, day.AddPiece{Tag: "B1", Spec: day.PieceSpec{What: "napkins", Fibre: "cotton", Dry: 310, Depth: "pale"}}},
		{"", min, day.AddPiece{Tag: "C2", Spec: day.PieceSpec{What: "yarn", Fibre: "silk", Dry: 90, Dips: 2, Dip: quantity.Seconds(90)}}},
		{"", min, day.Record{Body: day.PieceChanged{OfPiece: piece("A1"), PieceSpec: day.PieceSpec{
			What: "long runner", Fibre: "linen", Dry: 435, Depth: "dark", Dips: 5, Form: "cloth", Work: "hung", Who: "4",
			Dip: quantity.Minutes(8), Air: quantity.Minutes(12)}}}},
		{"", min, day.AddPiece{Tag: "D1", Spec: day.PieceSpec{What: "apron", Fibre: "cotton", Dry: 250, Depth: "mid"}}},
		{"", min, day.Record{Body: day.PieceDropped{OfPiece: piece("D1"), Reason: "has a grease spot"}}},
		{"", min, day.Record{Body: day.HelperChanged{Who: "the neighbour"}}},
		{"", min, day.Record{Body: day.Reading{PH: ptr(10.8), PHTemp: celsius(25), With: "paper strip"}}},
		{"The wait is over, but the first strip turns too soon: a quarter of an hour more.", toDue, press(1)},
		{"", 40 * sec, day.Record{Body: day.VatUncovered{}}},
		{"", 50 * sec, day.Record{Body: day.StripTest{OfStep: day.OfStep{Step: 14}, Stayed: quantity.Seconds(20), Colour: "green, dark spots"}}},
		{"", 20 * sec, day.Judge{Seen: "grass green, thin film"}},
		{"", 10 * sec, day.Stretch{Timer: "step 14", By: quantity.Minutes(5)}},
		{"", 2 * min, day.Stretch{Timer: "step 14", By: -quantity.Minutes(3)}},
		{"", toDue, day.Record{Body: day.StripTest{Stayed: quantity.Seconds(45), Colour: "clear yellow"}}},
		{"", 20 * sec, day.Judge{Ready: true, By: day.ByStrip, Seen: "clear yellow-green under a coppery film"}},
		{"First load: the runner and the napkins together.", 2 * min, day.Record{Body: day.WettedOut{OfPiece: piece("A1")}}},
		{"", 20 * sec, day.Record{Body: day.WettedOut{OfPiece: piece("B1")}}},
		{"", 20 * sec, day.Record{Body: day.FrothSkimmed{}}},
		{"", 30 * sec, day.Lower{Tag: "A1"}},
		{"", 90 * sec, day.Lower{Tag: "B1"}},
		{"", toDue, day.Lift{Tag: "B1"}},
		{"Nobody answers the call for the runner: after 30 s the time runs on by itself. It was as planned.", 4*min + 60*sec, goOn{}},
		{"", 40 * sec, of{way: "confirmed", kind: "dip ended"}},
		{"The napkins go in again a little after their airing, and come out on the call; the key was pressed half a minute too soon, which is put right.", 9 * min, press(2)},
		{"", 2*min + 4*sec, day.Lift{Tag: "B1"}},
		{"", min, of{way: "moved", kind: "dip ended", back: 30 * sec}},
		{"The yarn dips for a minute and a half: it begins on a count-in.", 30 * sec, day.Record{Body: day.WettedOut{OfPiece: piece("C2")}}},
		{"", 20 * sec, day.Lower{Tag: "C2"}},
		{"", toDue, day.Lift{Tag: "C2"}},
		{"One press too many is taken back, and that is taken back too.", 10 * sec, of{way: "undone", kind: "dip ended"}},
		{"", 10 * sec, of{way: "undone", kind: "corrected"}},
		{"The runner went in while the hands were wet: told afterwards.", 3 * min, lower{"A1", 40 * sec}},
		{"", 7*min + 45*sec, lift{"A1", 20 * sec}},
		{"", min, day.Record{Body: day.LookedAt{OfPiece: piece("A1"), Looks: "mid", Wet: true, Rinsed: true}}},
		{"The vat has worked enough and is cold: it rests, and is warmed with hands and goods out.", min, day.RestVat{For: quantity.Minutes(60)}},
		{"", min, day.Record{Body: day.HeaterOn{Power: quantity.Watts(1000)}}},
		{"", 40 * min, day.Record{Body: day.HeaterOff{}}},
		{"", 2 * min, day.Record{Body: day.Stirred{For: quantity.Minutes(2)}}},
		{"", min, day.Record{Body: day.Reading{Temp: celsius(36)}}},
		{"The napkins are done, and the yarn is blue enough with one dip; the runner wants two more dips and goes on tomorrow.", 2 * min, day.Finish{Tag: "B1"}},
		{"", min, day.Finish{Tag: "C2"}},
		{"", min, day.Record{Body: day.AiringEnded{OfPiece: piece("A1")}}},
		{"", min, day.Record{Body: day.CarriedOver{OfPiece: piece("A1"), To: "tomorrow"}}},
		{"", min, day.Record{Body: day.Note{Text: "rain since eleven; the film came back fast"}}},
		{"", min, day.Record{Body: day.VatCovered{With: "the lid and an old quilt"}}},
		{"", min, day.Close{Why: "rain"}},
	},
}

// lower and lift are told afterwards: back is how long ago it was.
type lower struct {
	tag  string
	back time.Duration
}
type lift struct {
	tag  string
	back time.Duration
}

var sodaBinSecond = script{
	file: "soda-bin-second-day", title: "The garden bin on its second day: looked at, fed, treated, the runner finished and washed. All of it is made up.",
	begin: at(10, 10, 0), head: next("2026-05-10", &sodaBin),
	lines: []line{
		{"The quilt has kept it warm: no heating today.", 0, day.Opened{How: "tend"}},
		{"", min, day.Record{Body: day.Reading{Temp: celsius(31), PH: ptr(10.2)}}},
		{"", min, day.Skip{Reason: "it reads 31 °C already"}},
		{"It is tired: greenish, little film. It gets soda, reducer from the spare stock jar, and water for what was carried out.", min, day.Record{Body: day.SignSeen{Sign: "liquor greenish, no film"}}},
		{"", 2 * min, day.Record{Body: day.Fed{Powder: "soda", Material: "soda ash", Mass: 30, Why: "pH 10.2"}}},
		{"", 2 * min, day.Record{Body: day.PowderAdded{Powder: "reducer", Material: "sodium dithionite", Mass: 20, Into: "stock", Why: "spare stock for the day"}}},
		{"", 10 * min, day.Record{Body: day.Reading{Temp: celsius(48), Of: "stock"}}},
		{"", min, day.Record{Body: day.StockDrawn{Stock: quantity.Litres(1.5)}}},
		{"", min, day.Record{Body: day.ToppedUp{Water: quantity.Litres(3), Temp: quantity.Celsius(35)}}},
		{"", min, day.Record{Body: day.Settled{For: quantity.Minutes(20)}}},
		{"A napkin is wished like one of yesterday, then as a measured colour; it is left for another day.", min, day.AddPiece{Tag: "N1", Spec: day.PieceSpec{
			Fibre: "linen", Dry: 60, Rung: 3, Lab: [3]float64{41, -6, -27}, Like: "garden-bin/2026-05-09/A1", Had: 1, HadOf: quantity.Minutes(6)}}},
		{"", min, day.Record{Body: day.PieceChanged{OfPiece: piece("N1"), PieceSpec: day.PieceSpec{
			Fibre: "linen", Dry: 60, Rung: 4, Lab: [3]float64{39, -6, -26}, Like: "garden-bin/2026-05-09/A1", Dips: 4, Had: 1, HadOf: quantity.Minutes(6)}}}},
		{"", min, day.Record{Body: day.PieceDropped{OfPiece: piece("N1"), Reason: "no time"}}},
		{"", 20 * min, day.Judge{Ready: true, By: day.ByEye, Seen: "yellow-green again"}},
		{"A neighbour's children come to look: powders and hot water are not for them, and they go again. The vat is greenish still: it is treated and looked at again.", min,
			day.Record{Body: day.HelperChanged{Who: "three children", Children: true}}},
		{"", 5 * min, day.Record{Body: day.HelperChanged{Who: "the dyer alone"}}},
		{"", min, day.Record{Body: day.SignSeen{Sign: "grass green"}}},
		{"", min, day.Treat{Cause: "tired", Do: "15 g of sodium dithionite, in 2 lots", Powders: []day.Amount{{Powder: "reducer", Mass: 15}}, Wait: quantity.Minutes(30)}},
		{"", toDue, day.Record{Body: day.Rechecked{Answer: "better"}}},
		{"The runner brings its three dips from yesterday. The laptop falls asleep while it hangs in the vat; the dyer says when it came out.", min, day.Record{Body: day.WettedOut{OfPiece: piece("A1")}}},
		{"", min, press(2)},
		{"", 12 * min, day.Slept{For: quantity.Minutes(11)}},
		{"", 30 * sec, lift{"A1", 4 * min}},
		{"", 10 * sec, day.ClockStepped{By: -quantity.Minutes(60)}},
		{"It is held beside the wish: one dip more, as planned. The last dip, by the clock.", 8 * min, press(3)},
		{"", toDue, press(1)},
		{"", 2 * min, day.Record{Body: day.SwatchJudged{Swatch: "A1", Looks: "lab 41 -6 -27", Dips: 3}}},
		{"", toDue, day.Decided{Tag: "A1", Say: day.LookStop}},
		{"Finishing: the acid comes only after two rinses and the full airing, and in moving air. A shower drives the sour bath under a roof, with both doors open; the vat stays in the yard.", 5 * min,
			day.Record{Body: day.PlaceChanged{Place: day.CrossDraught, Of: day.OfGoods}}},
		{"", min, day.Bench{Tag: "A1"}},
		{"", toDue, day.Bench{Tag: "A1"}},
		{"", min, day.Bench{Tag: "A1"}},
		{"", toDue, day.Bench{Tag: "A1"}},
		{"", 5 * min, day.Record{Body: day.Soured{OfPiece: piece("A1"), With: "vinegar, 10 mL/L"}}},
		{"", 15 * min, day.Record{Body: day.Soaped{OfPiece: piece("A1"), Temp: quantity.Celsius(60)}}},
		{"", 4 * 60 * min, day.Record{Body: day.Dried{OfPiece: piece("A1")}}},
		{"", 10 * min, day.Record{Body: day.CrockTested{OfPiece: piece("A1"), Dry: 4.5, Wet: 3}}},
		{"", min, day.LeaveOut{Tag: "A1", Reason: "the light is gone"}},
		{"", 5 * min, day.Close{Why: "all pieces done"}},
	},
}

// ending makes a day lead to the end of its vat.
func ending(head func(*testing.T) day.Head) func(*testing.T) day.Head {
	return func(t *testing.T) day.Head {
		h := head(t)
		h.Setup.Ending = true
		return h
	}
}

var sodaBinLast = script{
	file: "soda-bin-last-day", title: "The last day of the garden bin: used up, oxidised, and let settle overnight. All of it is made up.",
	begin: at(24, 9, 0), head: ending(next("2026-05-24", &sodaBinSecond)),
	lines: []line{
		{"", 0, day.Opened{How: "end"}},
		{"A two-minute swatch stayed white.", 5 * min, press(1)},
		{"", 2 * min, press(2)},
		{"", toDue, press(1)},
		{"An hour without air. The strip shows some yellow still: once more.", toDue, press(1)},
		{"", min, day.Record{Body: day.StripTest{Stayed: quantity.Span(20 * sec)}}},
		{"", min, day.Judge{Ready: false, Seen: "green below the surface"}},
		{"", toDue, day.Record{Body: day.StripTest{Colour: "blue at once"}}},
		{"", min, day.Judge{Ready: true, Seen: "blue to the floor"}},
		{"", 5 * min, day.Close{Why: "it settles overnight"}},
	},
}

var sodaBinGone = script{
	file: "soda-bin-gone", title: "The garden bin is settled: drawn off, brought to a mild pH, and gone where the water utility says. All of it is made up.",
	begin: at(25, 9, 0), head: next("2026-05-25", &sodaBinLast),
	lines: []line{
		{"", 0, day.Opened{How: "end"}},
		{"", 5 * min, press(1)},
		{"Drawn off; the blue on the floor is kept.", 2 * min, press(1)},
		{"", 20 * min, day.Record{Body: day.Decanted{Liquor: quantity.Litres(50), Why: "off the pigment"}}},
		{"", min, press(1)},
		{"Ten, then two lots of citric acid, with a reading after each.", 2 * min, press(1)},
		{"", 2 * min, day.Record{Body: day.Reading{PH: ptr(10.0)}}},
		{"", 8 * min, press(1)},
		{"", 3 * min, day.Record{Body: day.Reading{PH: ptr(9.2)}}},
		{"", 8 * min, press(1)},
		{"", 3 * min, day.Record{Body: day.Reading{PH: ptr(8.2)}}},
		{"", min, press(1)},
		{"", 2 * min, press(1)},
		{"", 5 * min, day.Record{Body: day.VatEnded{Why: "used up", Liquor: quantity.Litres(50), Route: "the foul sewer, as the water utility said"}}},
	},
}

var sugarPail = script{
	file: "sugar-lime-pail", title: "A pail of 12 L, sugar and lime: built in the afternoon, and left overnight. All of it is made up.",
	begin: at(16, 14, 0),
	head: fresh("sugar-lime", "pail", "2026-05-16", day.Setup{
		Name: "Pail", Fill: quantity.Litres(12), Vessel: "cylinder 26 cm 30 cm", Material: "stainless", Place: day.CrossDraught, Units: "metric",
		Cold: quantity.Celsius(12), Hot: quantity.Celsius(60),
	}),
	lines: []line{
		{"No sulfur in this one. The build as it is led, each weighing taken at its target.", 0, day.Opened{How: "build"}},
		{"", min, buildTo(15)},
		{"The long wait begins. It is a matter of a night: the day closes, home goes on counting.", 2 * min, day.Record{Body: day.Note{Text: "wrapped in blankets, next to the stove"}}},
		{"", min, day.Close{Why: "it reduces overnight"}},
	},
}

var sugarPailNext = script{
	file: "sugar-lime-pail-next-day", title: "The pail on the next day: the wait of yesterday goes on where it stood. All of it is made up.",
	begin: at(17, 9, 30), head: next("2026-05-17", &sugarPail),
	lines: []line{
		{"Opened early, to list the piece; the wait runs on since yesterday.", 0, day.Opened{How: "go on"}},
		{"", 2 * min, day.AddPiece{Tag: "S1", Spec: day.PieceSpec{What: "sampler", Fibre: "cotton", Dry: 60, Depth: "milk", Dip: quantity.Minutes(4)}}},
		{"", 3 * min, day.Record{Body: day.Reading{Temp: celsius(33), Holds: ptr(quantity.Litres(11.5))}}},
		{"", toDue, press(1)},
		{"A strip out of curiosity, watched till it is blue.", min, day.Record{Body: day.StripBegun{}}},
		{"", 40 * sec, press(1)},
		{"", 80 * sec, day.Judge{Ready: true, Seen: "amber under a bronze film"}},
		{"It reads too hot for hands; the sampler goes in on sticks.", min, day.Record{Body: day.Reading{Temp: celsius(46)}}},
		{"", min, day.Record{Body: day.HotWork{Reason: "a sampler of the hot strike, on sticks"}}},
		{"One dip for a milk blue.", min, press(3)},
		{"", toDue, press(1)},
		{"", toDue, press(1)},
		{"", min, day.Close{Why: "one sampler was enough"}},
	},
}

var branCrock = script{
	file: "bran-crock", title: "A living crock of 20 L, madder and bran: fed, filled up, a little of it drawn off for a friend. All of it is made up.",
	begin: at(20, 17, 0),
	head: func(t *testing.T) day.Head {
		h := fresh("madder-bran", "crock", "2026-05-20", day.Setup{
			Name: "Crock", Fill: quantity.Litres(20), Vessel: "cylinder 28 cm 40 cm", Material: "enamel", Place: day.Outdoors, Units: "metric",
			Cold: quantity.Celsius(12), Hot: quantity.Celsius(60),
		})(t)
		h.Opening = day.Opening{Number: 2, Built: true}
		return h
	},
	lines: []line{
		{"Warm enough on the sunny side of the yard.", 0, day.Opened{How: "tend"}},
		{"", min, day.Record{Body: day.Reading{Temp: celsius(31), PH: ptr(9.3), With: "paper strip", BelowRim: ptr(quantity.Centimetres(9.5))}}},
		{"", min, day.Skip{Reason: "it reads 31 °C"}},
		{"It smells sweet and the film is thin: bran, and a handful of rye flour, which no recipe has.", 5 * min, day.Record{Body: day.Fed{Powder: "bran", Mass: 60, Why: "thin film"}}},
		{"", min, day.Record{Body: day.Fed{Powder: "rye flour", Mass: 20}}},
		{"A jar of it goes to a friend, and hot water comes in its place.", 10 * min, day.Record{Body: day.DrawnOff{Liquor: quantity.Litres(2), Why: "a jar for a friend"}}},
		{"", min, day.Record{Body: day.ToppedUp{Water: quantity.Litres(2), Temp: quantity.Celsius(50)}}},
		{"", min, day.Record{Body: day.Stirred{For: quantity.Minutes(2)}}},
		{"", 15 * min, day.Judge{Ready: true, By: day.ByFilm, Seen: "coppery film, bronze froth"}},
		{"The neighbour's children want to know what stinks.", min, day.Record{Body: day.Talking{On: true}}},
		{"", 5 * min, day.Record{Body: day.Talking{}}},
		{"", min, day.Record{Body: day.VatCovered{With: "a wooden lid"}}},
		{"", min, day.Close{Why: "fed"}},
	},
}

var tubEvening = script{
	file: "tub-evening", title: "The evening before a dye day: what is to be dyed is weighed, tagged and scoured, and the entry closed. All of it is made up.",
	begin: at(22, 18, 0),
	head: func(t *testing.T) day.Head {
		ready := at(23, 10, 0)
		return fresh("mild-soda", "tub", "2026-05-22", day.Setup{
			Name: "Tub", Fill: quantity.Litres(40), Vessel: "cylinder 40 cm 40 cm", Material: "PE", Place: day.Outdoors, Units: "metric",
			Cold: quantity.Celsius(12), Hot: quantity.Celsius(60), GoodsFirst: true, ReadyBy: &ready,
		})(t)
	},
	lines: []line{
		{"", 0, day.Opened{How: "follow along"}},
		{"", 5 * min, day.AddPiece{Tag: "L1", Spec: day.PieceSpec{Fibre: "linen", Dry: quantity.Grams(420), Depth: "mid"}}},
		{"The scale's battery is flat: a guess.", min, day.AddPiece{Tag: "W1", Spec: day.PieceSpec{Fibre: "wool", Dry: quantity.Grams(200), About: true, Depth: "sky"}}},
		{"That is all.", min, press(1)},
		{"Two baths of the linen.", 200 * min, press(1)},
		{"Half of it, by the eye.", min, day.Record{Body: day.PieceChanged{OfPiece: day.OfPiece{Tag: "W1"}, PieceSpec: day.PieceSpec{Fibre: "wool", Dry: quantity.Grams(100), About: true, Depth: "sky"}}}},
		{"The yarn came scoured.", min, day.Skip{Reason: "it came scoured"}},
		{"", min, day.Close{Why: "the rest tomorrow"}},
	},
}

var pailAsked = script{
	file: "pail-asked", title: "A first vat: where it stands, what it is made of and who is there is asked before the first powder. All of it is made up.",
	begin: at(24, 9, 0),
	head: func(t *testing.T) day.Head {
		return fresh("soda", "vat-1", "2026-05-24", day.Setup{
			Name: "Vat 1", Fill: quantity.Litres(16), Units: "metric", Cold: quantity.Celsius(12), Hot: quantity.Celsius(60), Asks: true,
		})(t)
	},
	lines: []line{
		{"", 0, day.Opened{How: "follow along"}},
		{"Under the roof, both doors open.", min, day.Record{Body: day.PlaceChanged{Place: day.CrossDraught}}},
		{"A 2 in the triangle.", min, day.Record{Body: day.VesselTold{Material: "HDPE"}}},
		{"", min, day.Record{Body: day.HelperChanged{Who: "one adult"}}},
		{"", min, day.PutScoop{Mass: quantity.Grams(24)}},
		{"The mask is not here.", min, day.Close{Why: "tomorrow"}},
	},
}

var scripts = []*script{&sodaBin, &sodaBinSecond, &sodaBinLast, &sodaBinGone, &sugarPail, &sugarPailNext, &branCrock, &tubEvening, &pailAsked}

// play plays a script: the state at its end, its events, and what was said and done as a dyer can read it.
func (sc *script) play(t *testing.T) (day.State, []day.Event, string) {
	t.Helper()
	head := sc.head(t)
	s, err := day.Begin(head)
	if err != nil {
		t.Fatal(err)
	}
	var text strings.Builder
	fmt.Fprintf(&text, "# %s\n", sc.title)
	now := sc.begin
	happen := func(bodies ...day.Body) {
		for _, b := range bodies {
			e := day.Event{Seq: len(s.Log) + 1, At: now, Boot: "4c1d07be", Up: 5000 + now.Sub(sc.begin).Seconds(), Body: b}
			if s, err = day.Apply(s, e); err != nil {
				t.Fatalf("%s #%d: %v", sc.file, e.Seq, err)
			}
			text.WriteString(told(e))
		}
	}
	do := func(c day.Command) {
		bodies, err := day.Decide(s, c, now)
		if pending := (*day.Pending)(nil); errors.As(err, &pending) {
			bodies, err = day.Decide(s, day.Answered{Command: c}, now)
		}
		if err != nil {
			t.Fatalf("%s %s after #%d: %#v: %v", sc.file, day.Clock(now), len(s.Log), c, err)
		}
		happen(bodies...)
	}
	for _, l := range sc.lines {
		if l.say != "" {
			fmt.Fprintf(&text, "\n# %s\n", l.say)
		}
		if l.after == toDue {
			d, ok := longday.NextDue(s, now)
			if !ok {
				t.Fatalf("%s %s: no time runs after #%d", sc.file, day.Clock(now), len(s.Log))
			}
			now = d.At
		} else {
			now = now.Add(l.after)
		}
		switch c := l.do.(type) {
		case day.Command:
			do(c)
		case day.Body:
			happen(c)
		case press:
			for i := range int(c) {
				if i > 0 {
					now = now.Add(6 * sec)
				}
				do(day.Done{})
			}
		case buildTo:
			for s.Step < int(c) {
				a := day.Next(s, now)
				left, _ := a.Left(now)
				switch {
				case a.Entry == day.TempEntry && a.Press == "":
					do(day.Record{Body: day.Reading{Temp: celsius(48)}})
				case left > 0:
					now = now.Add(left)
					continue
				default:
					do(day.Done{})
				}
				now = now.Add(45 * sec)
			}
		case goOn:
			a, ok := day.Assume(s, now, sc.begin, nil)
			if !ok {
				t.Fatalf("%s %s: nothing to assume after #%d: %s", sc.file, day.Clock(now), len(s.Log), day.NowLine(s, now))
			}
			do(a)
		case lower:
			do(day.Lower{Tag: c.tag, When: now.Add(-c.back)})
		case lift:
			do(day.Lift{Tag: c.tag, When: now.Add(-c.back)})
		case of:
			i := len(s.Log) - 1
			for s.Log[i].Body.Kind() != c.kind {
				i--
			}
			switch seq := s.Log[i].Seq; c.way {
			case "confirmed":
				do(day.Confirm{Seq: seq})
			case "moved":
				do(day.Move{Seq: seq, To: now.Add(-c.back)})
			default:
				do(day.Undo{Seq: seq})
			}
		default:
			t.Fatalf("%T is no line of a day", c)
		}
	}
	return s, s.Log, text.String()
}

// told is one event as a dyer reads it.
func told(e day.Event) string {
	return fmt.Sprintf("%s #%-3d %s\n", e.At.Format("15:04:05"), e.Seq, e.Body.Sentence(quantity.Metric))
}

func (sc *script) path(ext string) string {
	return filepath.Join("..", "..", "testdata", "days", sc.file+ext)
}

// encode is a day as it stands on disk.
func encode(t *testing.T, head day.Head, events []day.Event) []byte {
	t.Helper()
	data, err := book.EncodeHead(head)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range events {
		block, err := book.EncodeEvent(e)
		if err != nil {
			t.Fatal(err)
		}
		data = append(append(data, '\n'), block...)
	}
	return data
}

func TestPlayedDays(t *testing.T) {
	for _, sc := range scripts {
		t.Run(sc.file, func(t *testing.T) {
			live, events, text := sc.play(t)
			data := encode(t, live.Head, events)
			if *update {
				for ext, b := range map[string][]byte{".toml": data, ".txt": []byte(text)} {
					if err := os.WriteFile(sc.path(ext), b, 0o644); err != nil {
						t.Fatal(err)
					}
				}
			}
			file, err := os.ReadFile(sc.path(".toml"))
			if err != nil {
				t.Fatal(err)
			}
			golden, err := os.ReadFile(sc.path(".txt"))
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(file, data) {
				t.Error("the file in the book's form is not what the table plays: -update, and read the difference")
			}
			b := book.Read(sc.path(".toml"), file)
			for _, f := range book.Verify(b) {
				t.Error(f)
			}
			if b.HeadErr != nil {
				t.Fatal(b.HeadErr)
			}
			var want, got []string
			for l := range strings.Lines(string(golden)) {
				if strings.TrimSpace(l) != "" && l[0] != '#' {
					want = append(want, l)
				}
			}
			for _, e := range b.Events {
				got = append(got, told(e))
			}
			if !slices.Equal(got, want) || string(golden) != text {
				t.Errorf("the events of the file read\n%s\nand the text for dyers says\n%s", strings.Join(got, ""), golden)
			}
			s, errs := day.Replay(b.Head, b.Events)
			for _, err := range errs {
				t.Error(err)
			}
			if day.NowLine(s, s.At) != day.NowLine(live, live.At) || s.Step != live.Step || len(s.Pieces) != len(live.Pieces) || !s.Closed {
				t.Errorf("replayed from disk it is %q, played it was %q", day.NowLine(s, s.At), day.NowLine(live, live.At))
			}
			for n := range b.Events {
				p, errs := day.Replay(b.Head, b.Events[:n])
				if len(errs) > 0 {
					t.Errorf("its first %d events: %v", n, errs)
				}
				day.NowLine(p, p.At)
				day.Upcoming(p, p.At)
				for _, d := range day.Dues(p) {
					if d.At.Before(d.Since) {
						t.Errorf("after %d events %s is due before it began", n, d.Timer)
					}
				}
			}
		})
	}
}

// neverFilled are the keys that no act of today fills, and why.
var neverFilled = map[string]string{
	"piece added till":      "it came after the days were played; its day is in ui/rehearse",
	"piece changed till":    "it came after the days were played; its day is in ui/rehearse",
	"piece added from":      "it came after the days were played; its day is in model/outlook/table_test.go",
	"piece changed from":    "it came after the days were played; its day is in model/outlook/table_test.go",
	"piece added demo":      "it came after the days were played; its day is in model/outlook/table_test.go",
	"piece changed demo":    "it came after the days were played; its day is in model/outlook/table_test.go",
	"stirred assumed":       "only a lift goes on by itself",
	"dip begun assumed":     "an entry is assumed where the dyer chose it; its day is in sound_test.go",
	"airing ended assumed":  "with it",
	"rested step":           "no built-in recipe rests as a step",
	"settled step":          "the jar of iron and lime settles; its day is not played",
	"vat uncovered step":    "no step uncovers",
	"froth skimmed step":    "no built-in recipe of these days skims as a step",
	"froth skimmed assumed": "it is, before an entry that is; its day is in sound_test.go",
	"vat judged of":         "the day with a stock jar is not played as a build",
	"soured whites":         "only goods from iron and lime have whites to clear; that day is not played",
	"stock drawn step":      "the day with a stock jar is not played as a build",
}

// unplayed are the kinds that no day is played with, and why.
var unplayed = map[string]string{
	day.WayChosen{}.Kind():    "it came after the days were played, whose vats do not tire; its day is in ui/screen/timetable",
	day.HandsTold{}.Kind():    "it came after the days were played; its days are in ui/screen/timetable and ui/rehearse",
	day.SoundChecked{}.Kind(): "it came after the days were played; its days are in sound_test.go",
	day.SoundFailed{}.Kind():  "no player fails an invented dyer; its day is in sound_test.go",
	day.Lost{}.Kind():         "book mend alone writes it; its days are in model/book/mend_test.go",
}

// Every kind of event has its place in a played day, with each of its keys filled somewhere.
func TestPlayedDaysHoldEveryKind(t *testing.T) {
	filled := map[string]bool{}
	for _, sc := range scripts {
		data, err := os.ReadFile(sc.path(".toml"))
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range book.Read(sc.file, data).Events {
			filled[e.Body.Kind()] = true
			eachKey(reflect.ValueOf(e.Body), func(key string, v reflect.Value) {
				if !v.IsZero() {
					filled[e.Body.Kind()+" "+key] = true
				}
			})
		}
	}
	for _, b := range day.Kinds() {
		if unplayed[b.Kind()] != "" {
			if filled[b.Kind()] {
				t.Errorf("a played day has the kind %q", b.Kind())
			}
			continue
		}
		if !filled[b.Kind()] {
			t.Errorf("no played day has the kind %q", b.Kind())
			continue
		}
		eachKey(reflect.ValueOf(b), func(key string, _ reflect.Value) {
			if name := b.Kind() + " " + key; !filled[name] && neverFilled[name] == "" {
				t.Errorf("no played day fills the key %q of the kind %q", key, b.Kind())
			}
		})
	}
}

// eachKey goes through the keys of a body, embedded ones included.
func eachKey(v reflect.Value, f func(string, reflect.Value)) {
	for i := range v.NumField() {
		ft := v.Type().Field(i)
		if ft.Anonymous {
			eachKey(v.Field(i), f)
			continue
		}
		name, _, _ := strings.Cut(ft.Tag.Get("toml"), ",")
		f(name, v.Field(i))
	}
}

// The next day takes the wait up where the last one left it.
func TestLongWaitGoesOnNextDay(t *testing.T) {
	evening, _, _ := sugarPail.play(t)
	due := day.Between(evening, evening.At)
	if len(due) != 1 || !due[0].At.Equal(evening.StepSince.Add(23*time.Hour)) {
		t.Fatalf("home is to call at the end of the wait, and has %v", due)
	}
	s, err := day.Begin(sugarPailNext.head(t))
	if err != nil {
		t.Fatal(err)
	}
	if s.Step != evening.Step || !s.StepSince.Equal(evening.StepSince) {
		t.Errorf("the next day begins at step %d since %s; it was step %d since %s", s.Step, s.StepSince, evening.Step, evening.StepSince)
	}
	s, _ = day.Apply(s, day.Event{Seq: 1, At: sugarPailNext.begin, Body: day.Opened{How: "go on"}})
	if d, ok := longday.NextDue(s, s.At); !ok || !d.At.Equal(due[0].At) {
		t.Errorf("opening moved the end of the wait to %v", d.At)
	}
}
