package day

// The kind strings are part of the book's format: once written they never change.

// Kind names the event in the book.
func (Opened) Kind() string { return "opened" }

// Kind names the event in the book.
func (StepBegun) Kind() string { return "step begun" }

// Kind names the event in the book.
func (StepDone) Kind() string { return "step done" }

// Kind names the event in the book.
func (StepSkipped) Kind() string { return "step skipped" }

// Kind names the event in the book.
func (PowderWeighed) Kind() string { return "powder weighed" }

// Kind names the event in the book.
func (PowderAdded) Kind() string { return "powder added" }

// Kind names the event in the book.
func (VatJudged) Kind() string { return "vat judged" }

// Kind names the event in the book.
func (Reading) Kind() string { return "reading" }

// Kind names the event in the book.
func (StripBegun) Kind() string { return "strip begun" }

// Kind names the event in the book.
func (StripTest) Kind() string { return "strip test" }

// Kind names the event in the book.
func (SignSeen) Kind() string { return "sign seen" }

// Kind names the event in the book.
func (VatCovered) Kind() string { return "vat covered" }

// Kind names the event in the book.
func (VatUncovered) Kind() string { return "vat uncovered" }

// Kind names the event in the book.
func (FrothSkimmed) Kind() string { return "froth skimmed" }

// Kind names the event in the book.
func (Stirred) Kind() string { return "stirred" }

// Kind names the event in the book.
func (Rested) Kind() string { return "rested" }

// Kind names the event in the book.
func (Settled) Kind() string { return "settled" }

// Kind names the event in the book.
func (HeaterOn) Kind() string { return "heater on" }

// Kind names the event in the book.
func (HeaterOff) Kind() string { return "heater off" }

// Kind names the event in the book.
func (ToppedUp) Kind() string { return "topped up" }

// Kind names the event in the book.
func (DrawnOff) Kind() string { return "drawn off" }

// Kind names the event in the book.
func (Fed) Kind() string { return "fed" }

// Kind names the event in the book.
func (StockDrawn) Kind() string { return "stock drawn" }

// Kind names the event in the book.
func (Decanted) Kind() string { return "decanted" }

// Kind names the event in the book.
func (PieceAdded) Kind() string { return "piece added" }

// Kind names the event in the book.
func (PieceChanged) Kind() string { return "piece changed" }

// Kind names the event in the book.
func (PieceDropped) Kind() string { return "piece dropped" }

// Kind names the event in the book.
func (GoodsAsked) Kind() string { return "goods asked" }

// Kind names the event in the book.
func (Readied) Kind() string { return "readied" }

// Kind names the event in the book.
func (WettedOut) Kind() string { return "wetted out" }

// Kind names the event in the book.
func (DipBegun) Kind() string { return "dip begun" }

// Kind names the event in the book.
func (DipEnded) Kind() string { return "dip ended" }

// Kind names the event in the book.
func (AiringEnded) Kind() string { return "airing ended" }

// Kind names the event in the book.
func (LookedAt) Kind() string { return "looked at" }

// Kind names the event in the book.
func (SwatchJudged) Kind() string { return "swatch judged" }

// Kind names the event in the book.
func (Rinsed) Kind() string { return "rinsed" }

// Kind names the event in the book.
func (BathBegun) Kind() string { return "bath begun" }

// Kind names the event in the book.
func (LeftOut) Kind() string { return "left out" }

// Kind names the event in the book.
func (Soured) Kind() string { return "soured" }

// Kind names the event in the book.
func (Soaped) Kind() string { return "soaped" }

// Kind names the event in the book.
func (Dried) Kind() string { return "dried" }

// Kind names the event in the book.
func (CrockTested) Kind() string { return "crock tested" }

// Kind names the event in the book.
func (Finished) Kind() string { return "finished" }

// Kind names the event in the book.
func (CarriedOver) Kind() string { return "carried over" }

// Kind names the event in the book.
func (TimerStretched) Kind() string { return "timer stretched" }

// Kind names the event in the book.
func (TimerCut) Kind() string { return "timer cut" }

// Kind names the event in the book.
func (HelperChanged) Kind() string { return "helper changed" }

// Kind names the event in the book.
func (Talking) Kind() string { return "talking" }

// Kind names the event in the book.
func (WayChosen) Kind() string { return "way chosen" }

// Kind names the event in the book.
func (PlaceChanged) Kind() string { return "place changed" }

// Kind names the event in the book.
func (VesselTold) Kind() string { return "vessel told" }

// Kind names the event in the book.
func (HotWork) Kind() string { return "hot work" }

// Kind names the event in the book.
func (Treated) Kind() string { return "treated" }

// Kind names the event in the book.
func (Rechecked) Kind() string { return "rechecked" }

// Kind names the event in the book.
func (CautionAnswered) Kind() string { return "caution answered" }

// Kind names the event in the book.
func (Note) Kind() string { return "note" }

// Kind names the event in the book.
func (Corrected) Kind() string { return "corrected" }

// Kind names the event in the book.
func (ClockStepped) Kind() string { return "clock stepped" }

// Kind names the event in the book.
func (Slept) Kind() string { return "slept" }

// Kind names the event in the book.
func (SoundChecked) Kind() string { return "sound checked" }

// Kind names the event in the book.
func (SoundFailed) Kind() string { return "sound failed" }

// Kind names the event in the book.
func (Closed) Kind() string { return "closed" }

// Kind names the event in the book.
func (VatEnded) Kind() string { return "vat ended" }

// Kind names the event in the book.
func (Lost) Kind() string { return "lost" }

// Kind is the name that the later version gave it.
func (u Unknown) Kind() string { return u.Name }

// machineMade are the kinds that only the program makes, each with its reason. Every other kind has a command by which the
// dyer makes it.
var machineMade = map[string]string{
	Opened{}.Kind():       "the program writes it as the day is opened, before anything can be said",
	ClockStepped{}.Kind(): "the engine finds it, by the boot clock",
	Slept{}.Kind():        "the engine finds it, by the boot clock",
	SoundFailed{}.Kind():  "the engine finds it, as no player ended well",
	Lost{}.Kind():         "book mend puts it where an event was lost",
}

// MachineMade is why a kind is made by the program alone; empty for one that the dyer makes.
func MachineMade(kind string) string { return machineMade[kind] }

// Kinds lists an empty body of every kind, in the order of a vat's life.
func Kinds() []Body {
	return []Body{
		Opened{},
		StepBegun{},
		StepDone{},
		StepSkipped{},
		PowderWeighed{},
		PowderAdded{},
		VatJudged{},
		Reading{},
		StripBegun{},
		StripTest{},
		SignSeen{},
		VatCovered{},
		VatUncovered{},
		FrothSkimmed{},
		Stirred{},
		Rested{},
		Settled{},
		HeaterOn{},
		HeaterOff{},
		ToppedUp{},
		DrawnOff{},
		Fed{},
		StockDrawn{},
		Decanted{},
		PieceAdded{},
		PieceChanged{},
		PieceDropped{},
		GoodsAsked{},
		Readied{},
		WettedOut{},
		DipBegun{},
		DipEnded{},
		AiringEnded{},
		LookedAt{},
		SwatchJudged{},
		Rinsed{},
		BathBegun{},
		LeftOut{},
		Soured{},
		Soaped{},
		Dried{},
		CrockTested{},
		Finished{},
		CarriedOver{},
		TimerStretched{},
		TimerCut{},
		HelperChanged{},
		Talking{},
		WayChosen{},
		PlaceChanged{},
		VesselTold{},
		HotWork{},
		Treated{},
		Rechecked{},
		CautionAnswered{},
		Note{},
		Corrected{},
		ClockStepped{},
		Slept{},
		SoundChecked{},
		SoundFailed{},
		Closed{},
		VatEnded{},
		Lost{},
	}
}
