package command

import (
	"strings"
	"testing"
)

// A day begins with what is to be dyed. With --goods its first call asks for it, as the screens do; without, nobody is there to be
// asked: not weighed, the vat goes on, standard error says so, and what is said of goods later is scoured and soaked all the same.
func TestADayBegunByItselfGoesOnUnweighed(t *testing.T) {
	begin := []string{"begin", "bin", "--recipe", "soda", "--fill", "60L", "--place", "outdoors", "--at", "09:00"}
	s := newSpoken(t)
	if got := s.ok(append(begin, "--goods")...); got.Call.ID != "add piece 1" || strings.Contains(got.errs, "without any") {
		t.Errorf("with --goods it calls %+v and says %q", got.Call, got.errs)
	}
	s = newSpoken(t)
	var errs string
	text, errs, code := runAt(t, s.wall, append(begin, "--home", s.home)...)
	if code != 0 || strings.Count(errs, "\n") != 1 || !strings.Contains(errs, "the day begins without any") || !strings.Contains(errs, "vatside say bin 'piece") || strings.Contains(text, "without any") {
		t.Errorf("%d: %q, %q", code, text, errs)
	}
	if got := s.ok("say", "bin", "note calm", "--at", "09:01"); strings.HasPrefix(got.Call.ID, "add piece") {
		t.Errorf("without it it asks all the same: %+v", got.Call)
	}
	if got := s.ok("say", "bin", "piece A1 linen about 400 g dark", "--at", "09:02"); !strings.Contains(got.Call.ID, "A1") {
		t.Errorf("goods that are said later are called to be made ready: %+v", got.Call)
	}
	// the next day is asked anew
	s.ok("say", "bin", "close the day", "--at", "09:03", "--answered")
	if got := s.ok("begin", "bin", "--goods", "--at", "10:00"); !strings.HasPrefix(got.Call.ID, "add piece") {
		t.Errorf("the next day, with --goods, calls %+v", got.Call)
	}
}
