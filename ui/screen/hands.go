package screen

import (
	"fmt"
	"strings"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/widget"
)

// Where pieces are of several named people the screens of the timetable ask once how many pairs of hands are at the vat. Until it is said,
// or where nobody says it, they reckon with those that the day was set up with.

// handsOffered are the answers, with the figures that are their keys.
var handsOffered = []string{"1 pair", "2 pairs", "3 pairs"}

// asksHands tells whether the question stands. Who looks at the day of another program is not asked.
func asksHands(v engine.View) bool { return v.State.AsksHands() && !v.Looking }

// AskHands puts the question on a sheet; the answers take the row of what comes next.
func AskHands(sheet *widget.Sheet, v engine.View) {
	if !asksHands(v) {
		return
	}
	sheet.How = append([]string{fmt.Sprintf("%s Reckoned with %d.", day.HandsAsked, v.State.Hands())}, sheet.How...)
	sheet.Answers = append(sheet.Answers, handsOffered...)
	sheet.Next = strings.Join(handsOffered, "   ")
}

// HandsTold is the answer that a key gives to the question, while it stands.
func HandsTold(k Key, v engine.View) ([]Request, bool) {
	if !asksHands(v) || k.Rune < '1' || k.Rune >= '1'+rune(len(handsOffered)) {
		return nil, false
	}
	return []Request{Do{Command: day.Record{Body: day.HandsTold{Hands: int(k.Rune - '0')}}}}, true
}

// HandsKeys are the keys of the question, while it stands.
func HandsKeys(v engine.View) []widget.Key {
	if !asksHands(v) {
		return nil
	}
	return Keys("1–3", "pairs of hands")
}
