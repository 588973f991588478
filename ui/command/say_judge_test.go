package command

import (
	"strings"
	"testing"
)

// A strip is told of like everything else, and what is taken back is named.
func TestAStripIsSaid(t *testing.T) {
	s := dyed(t)
	s.ok("say", "garden-bin", "skip", "--at", "09:01")
	got := s.ok("say", "garden-bin", "done", "--at", "09:02")
	if got.kinds() != "strip begun" || got.Call.ID != "strip vat 1" || got.Call.Press == nil || *got.Call.Press != "it is blue" {
		t.Errorf("out prints %s", got.text)
	}
	got = s.ok("say", "garden-bin", "strip blue", "--at", "09:02:40")
	if got.kinds() != "strip test" || !strings.Contains(got.Events[0].Text, "40 s") || got.Call.Press == nil || *got.Call.Press != "ready" {
		t.Errorf("blue prints %s", got.text)
	}
	got = s.ok("say", "garden-bin", "done", "--at", "09:03")
	if got.kinds() != "vat judged" || got.Events[0].Text != "the vat is ready by strip" {
		t.Errorf("ready prints %s", got.text)
	}
	got = s.ok("say", "garden-bin", "back", "--at", "09:04")
	if !strings.HasPrefix(got.Events[0].Text, "taken back: the vat is ready by strip (#") {
		t.Errorf("back prints %s", got.text)
	}
	s.ok("say", "garden-bin", "film", "--at", "09:05")
	s.ok("say", "garden-bin", "heater on", "--answered", "--at", "09:06")
	got = s.ok("say", "garden-bin", "back", "--at", "09:07")
	if !strings.HasPrefix(got.Events[0].Text, "taken back: heater on (#") {
		t.Errorf("the heater taken back prints %s", got.text)
	}
	if out, _, _ := run(t, s.home, "book", "garden-bin"); !strings.Contains(out, "taken back: heater on (#") {
		t.Errorf("the book prints\n%s", out)
	}
	s.ends(1, "nothing was taken as planned", "say", "garden-bin", "confirm all", "--at", "09:08")
}
