package day

// The kinds name the events in the book; they are part of its format, and once written never change.

func (Opened) Kind() string          { return "opened" }
func (StepBegun) Kind() string       { return "step begun" }
func (StepDone) Kind() string        { return "step done" }
func (StepSkipped) Kind() string     { return "step skipped" }
func (PowderWeighed) Kind() string   { return "powder weighed" }
func (PowderAdded) Kind() string     { return "powder added" }
func (VatJudged) Kind() string       { return "vat judged" }
func (Reading) Kind() string         { return "reading" }
func (StripBegun) Kind() string      { return "strip begun" }
func (StripTest) Kind() string       { return "strip test" }
func (SignSeen) Kind() string        { return "sign seen" }
func (VatCovered) Kind() string      { return "vat covered" }
func (VatUncovered) Kind() string    { return "vat uncovered" }
func (FrothSkimmed) Kind() string    { return "froth skimmed" }
func (Stirred) Kind() string         { return "stirred" }
func (Rested) Kind() string          { return "rested" }
func (Settled) Kind() string         { return "settled" }
func (HeaterOn) Kind() string        { return "heater on" }
func (HeaterOff) Kind() string       { return "heater off" }
func (ToppedUp) Kind() string        { return "topped up" }
func (DrawnOff) Kind() string        { return "drawn off" }
func (Fed) Kind() string             { return "fed" }
func (StockDrawn) Kind() string      { return "stock drawn" }
func (Decanted) Kind() string        { return "decanted" }
func (PieceAdded) Kind() string      { return "piece added" }
func (PieceChanged) Kind() string    { return "piece changed" }
func (PieceDropped) Kind() string    { return "piece dropped" }
func (GoodsAsked) Kind() string      { return "goods asked" }
func (Readied) Kind() string         { return "readied" }
func (WettedOut) Kind() string       { return "wetted out" }
func (DipBegun) Kind() string        { return "dip begun" }
func (DipEnded) Kind() string        { return "dip ended" }
func (AiringEnded) Kind() string     { return "airing ended" }
func (LookedAt) Kind() string        { return "looked at" }
func (SwatchJudged) Kind() string    { return "swatch judged" }
func (Rinsed) Kind() string          { return "rinsed" }
func (BathBegun) Kind() string       { return "bath begun" }
func (LeftOut) Kind() string         { return "left out" }
func (Soured) Kind() string          { return "soured" }
func (Soaped) Kind() string          { return "soaped" }
func (Dried) Kind() string           { return "dried" }
func (CrockTested) Kind() string     { return "crock tested" }
func (Finished) Kind() string        { return "finished" }
func (CarriedOver) Kind() string     { return "carried over" }
func (TimerStretched) Kind() string  { return "timer stretched" }
func (TimerCut) Kind() string        { return "timer cut" }
func (HelperChanged) Kind() string   { return "helper changed" }
func (Talking) Kind() string         { return "talking" }
func (WayChosen) Kind() string       { return "way chosen" }
func (HandsTold) Kind() string       { return "hands told" }
func (PlaceChanged) Kind() string    { return "place changed" }
func (VesselTold) Kind() string      { return "vessel told" }
func (HotWork) Kind() string         { return "hot work" }
func (Treated) Kind() string         { return "treated" }
func (Rechecked) Kind() string       { return "rechecked" }
func (CautionAnswered) Kind() string { return "caution answered" }
func (Note) Kind() string            { return "note" }
func (Corrected) Kind() string       { return "corrected" }
func (ClockStepped) Kind() string    { return "clock stepped" }
func (Slept) Kind() string           { return "slept" }
func (SoundChecked) Kind() string    { return "sound checked" }
func (SoundFailed) Kind() string     { return "sound failed" }
func (Closed) Kind() string          { return "closed" }
func (VatEnded) Kind() string        { return "vat ended" }
func (Lost) Kind() string            { return "lost" }

// Kind is the name that the later version gave it.
func (u Unknown) Kind() string { return u.Name }

// Kinds lists an empty body of every kind, in the order of a vat's life.
func Kinds() []Body {
	return []Body{
		Opened{}, StepBegun{}, StepDone{}, StepSkipped{}, PowderWeighed{}, PowderAdded{}, VatJudged{}, Reading{}, StripBegun{},
		StripTest{}, SignSeen{}, VatCovered{}, VatUncovered{}, FrothSkimmed{}, Stirred{}, Rested{}, Settled{}, HeaterOn{}, HeaterOff{},
		ToppedUp{}, DrawnOff{}, Fed{}, StockDrawn{}, Decanted{}, PieceAdded{}, PieceChanged{}, PieceDropped{}, GoodsAsked{}, Readied{},
		WettedOut{}, DipBegun{}, DipEnded{}, AiringEnded{}, LookedAt{}, SwatchJudged{}, Rinsed{}, BathBegun{}, LeftOut{}, Soured{},
		Soaped{}, Dried{}, CrockTested{}, Finished{}, CarriedOver{}, TimerStretched{}, TimerCut{}, HelperChanged{}, Talking{},
		WayChosen{}, HandsTold{}, PlaceChanged{}, VesselTold{}, HotWork{}, Treated{}, Rechecked{}, CautionAnswered{}, Note{},
		Corrected{}, ClockStepped{}, Slept{}, SoundChecked{}, SoundFailed{}, Closed{}, VatEnded{}, Lost{},
	}
}
