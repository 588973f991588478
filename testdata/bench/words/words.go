// Package words has what the benches look for on the screens, at 80 columns and 24 rows. ui/words_test.go holds that the screens
// say it: a screen that changes its words fails that test, not a bench.
package words

// The open days that a home may hold: where testdata/days/soda-bin.toml stands after its last event of a kind.
const (
	Resting = "reading"        // one countdown of a quarter of an hour, and nothing else
	Dipping = "dip begun"      // three times at once
	Waiting = "powder weighed" // a step that waits for the hands: nothing runs
)

// What the screens say.
const (
	AnyHome   = "vatside"         // any screen of home
	OpenDay   = "Garden bin · "   // home with that day open
	VatRests  = "the vat rests, " // home with it Resting
	DayName   = "Garden bin · 60 L"
	Blues     = "a guess" // last on the screen of a day with pieces: the blues that are forecast
	Liquor    = "indigo"  // last on the screen of a day Waiting: the line of the liquor
	HelpFoot  = "any other key goes back"
	LogTitle  = " · log of "
	Chosen    = "■ " // begins the row that is chosen in the log
	Question  = "Leave while a time runs?"
	Times     = `(\d+):(\d\d) +\d+:\d\d +\d+:\d\d` // a pattern: under the cloths of a day Dipping
	Rehearsal = "L · "                             // a rehearsal's day
)
