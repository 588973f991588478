package ui

import (
	"strings"
	"testing"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/ui/shelf"
)

// What is done at once says that it is taken back by PageUp, and PageUp says what it took back.
func TestTheWordSaysWhatIsTakenBack(t *testing.T) {
	h, _ := first(t, shelf.Open(t.TempDir()))
	h.act(t, day.Skip{})
	h.act(t, day.Judge{Ready: true})
	for _, c := range []struct {
		do   day.Command
		word string
	}{
		{day.RestVat{For: quantity.Minutes(60)}, "resting · PgUp takes back"}, {day.Back{}, "taken back: rest of the vat, 1 h (#"},
		{day.Record{Body: day.VatCovered{}}, "lid on · PgUp takes back"}, {day.Back{}, "taken back: lid on (#"},
		{day.Judge{}, "the vat is not ready yet · PgUp takes back"}, {day.Judge{Ready: true}, "the vat is ready · PgUp takes back"},
		{day.Record{Body: day.Stirred{}}, "stirred · PgUp takes back"}, {day.Record{Body: day.Note{Text: "rain"}}, ""},
	} {
		msg := h.do(garden, c.do)().(repliedMsg)
		if msg.err != nil || !strings.HasPrefix(msg.word, c.word) || c.word == "" && msg.word != "" {
			t.Errorf("%+v says %q, %v", c.do, msg.word, msg.err)
		}
	}
	h.act(t, day.Answered{Command: day.Record{Body: day.HeaterOn{}}})
	if msg := h.do(garden, day.Back{})().(repliedMsg); !strings.HasPrefix(msg.word, "taken back: heater on (#") || !strings.HasSuffix(msg.word, "off and unplugged") {
		t.Errorf("the heater taken back says %q, %v", msg.word, msg.err)
	}
}
