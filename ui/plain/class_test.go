package plain

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/recipes"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/shelf"
)

// The questions of a class end in what one line says: the piece, whose it is, and till when that person stays.
func TestAPieceOfAClassIsAskedFor(t *testing.T) {
	for answers, want := range map[string]day.PieceSpec{
		"A1|cotton|90 g|3 dips|Mo|15 h|8:00|15:00": {Fibre: "cotton", Dry: quantity.Grams(90), Dips: 3, Who: "Mo", Till: "15:00"},
		"A1|cotton|90 g|3 dips|Mo|":                {Fibre: "cotton", Dry: quantity.Grams(90), Dips: 3, Who: "Mo"},
		"A1|cotton|90 g|3 dips|":                   {Fibre: "cotton", Dry: quantity.Grams(90), Dips: 3},
		"A1 cotton 90 g 3 dips for Lu":             {Fibre: "cotton", Dry: quantity.Grams(90), Dips: 3, Who: "Lu"},
	} {
		types, log := atADay(t, true)
		types(time.Second, "class")
		said := ""
		for _, line := range strings.Split(answers, "|") {
			said += types(time.Second, line)
		}
		last, is := log()[len(log())-1].Body.(day.PieceAdded)
		if !is || last.PieceSpec != want {
			t.Errorf("%q ends in %+v", answers, last)
		}
		if strings.Contains(answers, "8:00") != strings.Contains(said, "8:00 is past, it is 09:") {
			t.Errorf("%q: it says %s", answers, said)
		}
		if strings.Contains(answers, "15 h") != strings.Contains(said, "Type a time of day, such as 15:00. Or stop.") {
			t.Errorf("%q: it says %s", answers, said)
		}
	}
	var out bytes.Buffer
	term := New(nil, &out)
	term.form = &filling{name: "piece", form: askPupil, got: []string{"A1", "cotton", "90 g", "3 dips", "Mo"}}
	term.asks(engine.View{})
	if out.String() != "Till when does Mo stay? Such as 15:00. Enter: to the end.\n" {
		t.Errorf("it asks %q", out.String())
	}
}

// A piece that the day would not take is refused where it is typed: in the list of a new vat, where a fill is changed under it, and in
// a form, which stays open.
func TestAPieceIsRefusedAtOnce(t *testing.T) {
	var out strings.Builder
	a := New(strings.NewReader("1\n1\n60\n\nA1 linnen 420 g dark\nA1 linen 420 g dark\nA2 linen 420 g mauve\n\nfill 0.2 L\n\n"), &out).
		Ask(Questions{Recipes: recipes.Builtin(), Settings: shelf.Defaults()})
	if got := strings.Join(a.Goods, "|"); got != "piece A1 linen 420 g dark|that is all" || a.Setup.Fill != 48 {
		t.Errorf("it ends in %q, %v:\n%s", got, a.Setup.Fill, out.String())
	}
	for _, why := range []string{"Not taken: linnen is not a fibre", `Not taken: no depth is called "mauve"`, "Not taken: A1 weighs 420 g"} {
		if !strings.Contains(out.String(), why) {
			t.Errorf("%q is not said:\n%s", why, out.String())
		}
	}
	types, log := atADay(t, true)
	for _, line := range []string{"piece", "A1 linnen 420 g dark", "A1", "linen", "4000 kg", "420 g", "5 dips"} {
		types(time.Second, line)
	}
	if last, is := log()[len(log())-1].Body.(day.PieceAdded); !is || last.Dry != quantity.Grams(420) {
		t.Errorf("the form ends in %+v", log()[len(log())-1].Body)
	}
}

// A piece whose dips take longer than its person stays is told with that as it comes onto the list.
func TestWhoLeavesTooSoonIsTold(t *testing.T) {
	soda, _ := recipes.Find("soda")
	s, err := day.Begin(day.Head{Vat: "bin", Day: "2026-11-25", Zone: "UTC", Recipe: soda, Setup: day.Setup{Fill: 60}})
	if err != nil {
		t.Fatal(err)
	}
	at := time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC)
	added := day.PieceAdded{OfPiece: day.OfPiece{Tag: "A1"}, PieceSpec: day.PieceSpec{Fibre: "linen", Dry: 200, Dips: 9, Who: "Mo", Till: "9:20"}}
	if got := happened(s, day.Event{Seq: 1, At: at, Body: added}); !strings.Contains(got, ". A1 has its last dip till ") {
		t.Errorf("it tells %q", got)
	}
}
