package clock_test

import (
	"testing"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/ui/screen/clock"
	"example.org/vatside/ui/style"
)

// What can be done meanwhile on the bench has its key among the first, where a small window shows it.
func TestTheMeanwhileHasItsKey(t *testing.T) {
	s, now := looking(t)
	s, now = then(t, s, now, day.Decided{Tag: "A1", Say: day.LookStop}, 30*time.Minute, day.Finish{Tag: "A1"}, piece("B1", "scarf", 5),
		day.Record{Body: day.WettedOut{OfPiece: day.OfPiece{Tag: "B1"}}}, day.Record{Body: day.FrothSkimmed{}}, day.Lower{Tag: "B1"}, time.Minute)
	if beside := day.CallOf(s, now).Meanwhile(s, now); len(beside) == 0 || beside[0].Act.Kind != day.ActBench {
		t.Fatalf("meanwhile: %+v", beside)
	}
	e := env(s, now, 60, 20, style.New(style.Options{}))
	if keys := clock.New(e).Keys(e); len(keys) < 2 || keys[1].Key != "tab" {
		t.Errorf("the keys are %v", keys)
	}
}
