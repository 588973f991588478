package command

import (
	"encoding/json"
	"os/exec"
	"strings"
	"testing"

	"example.org/vatside/ui/shelf"
)

// What is set on the command line is what the next run reads, and nothing typed unsets it.
func TestSettingsAreSetByTheirKeys(t *testing.T) {
	home := t.TempDir()
	ask := func() map[string]string {
		out, errs, code := run(t, home, "settings", "--json")
		var got struct {
			Settings []struct{ Key, Value string }
		}
		if err := json.Unmarshal([]byte(out), &got); err != nil || code != 0 {
			t.Fatal(err, errs, code)
		}
		by := map[string]string{}
		for _, s := range got.Settings {
			by[s.Key] = s.Value
		}
		return by
	}
	if n := len(ask()); n != len(shelf.Table()) {
		t.Errorf("%d settings, want %d", n, len(shelf.Table()))
	}
	for _, c := range []struct{ key, value, want string }{
		{"units", "us", "us"}, {"pot", "8L", "2.11 gal"}, {"sound.speech", "on", "on"}, {"pot", "", ""}, {"ready_by", "9h", "09:00"},
	} {
		if _, errs, code := run(t, home, "settings", "set", c.key, c.value); code != 0 {
			t.Errorf("%s: %s", c.key, errs)
		}
		if got := ask()[c.key]; got != c.want {
			t.Errorf("%s is %q, want %q", c.key, got, c.want)
		}
	}
}

// Every command and flag stands in the manual page, and groff, where it is, has nothing to say against it.
func TestTheManualHasEveryCommand(t *testing.T) {
	page, _, code := run(t, t.TempDir(), "man")
	if code != 0 || !strings.HasPrefix(page, ".TH VATSIDE 1") {
		t.Fatalf("%d, %.80q", code, page)
	}
	p := &program{}
	for _, c := range p.root().Commands() {
		if c.Name() != "help" && !strings.Contains(page, ".SS vatside "+c.Name()) {
			t.Errorf("%s is not in it", c.Name())
		}
	}
	if groff, err := exec.LookPath("groff"); err == nil {
		c := exec.Command(groff, "-man", "-ww", "-Tutf8", "-Kutf8", "-z")
		c.Stdin = strings.NewReader(page)
		if said, err := c.CombinedOutput(); err != nil || len(said) > 0 {
			t.Errorf("groff: %v, %s", err, said)
		}
	}
}

// A shell offers recipes, vats and settings by name.
func TestTheShellOffersNames(t *testing.T) {
	home := t.TempDir()
	if _, errs, code := run(t, home, "begin", "garden-bin", "--recipe", "soda", "--fill", "60L"); code != 0 {
		t.Fatal(errs)
	}
	for typed, want := range map[string]string{"signs --recipe so": "soda", "settings set sound": "sound.speech", "cost gar": "garden-bin", "recipes show l": "lye"} {
		if out, _, code := run(t, home, append([]string{"__complete"}, strings.Fields(typed)...)...); code != 0 || !strings.Contains(out, want) {
			t.Errorf("%s: %d, %q, want %s", typed, code, out, want)
		}
	}
}
