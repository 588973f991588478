package command

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/ui/shelf"
)

// spoken is a home to which things are said, at a wall clock that stands.
type spoken struct {
	t    *testing.T
	home string
	wall time.Time
}

func newSpoken(t *testing.T) *spoken {
	return &spoken{t, t.TempDir(), time.Date(2026, 3, 28, 18, 0, 0, 0, time.FixedZone("", 3600))}
}

// heard is what a command printed.
type heard struct {
	Events  []saidEvent
	Call    *callJSON
	Caution *string
	Error   *string
	Told    []string
	text    string
	errs    string
	code    int
}

// kinds are the kinds of the events.
func (s heard) kinds() string {
	var out []string
	for _, e := range s.Events {
		out = append(out, e.Kind)
	}
	return strings.Join(out, ", ")
}

// goodsUnsaid is the line on a day that begins and was not told its goods.
var goodsUnsaid = regexp.MustCompile(`vatside: no goods were named, so the day begins without any; [^\n]*\n`)

// run runs a command with --json.
func (s *spoken) run(args ...string) heard {
	s.t.Helper()
	var o, e bytes.Buffer
	code := Main(append(args, "--json"), World{In: strings.NewReader(""), Out: &o, Err: &e, Now: func() time.Time { return s.wall }, Getenv: func(k string) string {
		return map[string]string{"VATSIDE_HOME": s.home}[k]
	}})
	out := heard{text: o.String(), errs: e.String(), code: code}
	if code != 2 {
		if err := json.Unmarshal(o.Bytes(), &out); err != nil {
			s.t.Fatalf("%q: %v\n%s%s", args, err, o.String(), e.String())
		}
	} else if o.Len() > 0 {
		s.t.Errorf("%q prints %s", args, o.String())
	}
	if args[0] == "begin" && code == 0 { // said of each day that begins without its goods
		out.errs = goodsUnsaid.ReplaceAllString(out.errs, "")
	}
	if (code == 1) != (out.Error != nil) || (code == 3) != (out.Caution != nil) || (code == 1 || code == 2) != (strings.Count(out.errs, "\n") == 1) {
		s.t.Errorf("%q ends with %d and says %s%s", args, code, o.String(), e.String())
	}
	return out
}

// ok runs a command that ends with 0.
func (s *spoken) ok(args ...string) heard {
	s.t.Helper()
	out := s.run(args...)
	if out.code != 0 {
		s.t.Fatalf("%q ends with %d: %s%s", args, out.code, out.text, out.errs)
	}
	return out
}

// ends runs a command that does not end with 0, and holds that nothing was written.
func (s *spoken) ends(code int, words string, args ...string) heard {
	s.t.Helper()
	before := s.files()
	out := s.run(args...)
	if out.code != code || !strings.Contains(out.text+out.errs, words) {
		s.t.Errorf("%q ends with %d, wants %d and %q: %s%s", args, out.code, code, words, out.text, out.errs)
	}
	if len(out.Events) > 0 || s.files() != before {
		s.t.Errorf("%q has written something", args)
	}
	return out
}

// files is all that lies in the home.
func (s *spoken) files() string {
	var b strings.Builder
	_ = filepath.Walk(s.home, func(path string, info os.FileInfo, err error) error {
		if err == nil && info.Mode().IsRegular() && filepath.Base(path) != ".lock" {
			data, _ := os.ReadFile(path)
			b.WriteString(path + "\n" + string(data))
		}
		return nil
	})
	return b.String()
}

// book is the only day of a vat, or its last.
func (s *spoken) book(vat string) book.Book {
	s.t.Helper()
	h := shelf.At(s.home, func() time.Time { return s.wall })
	_, b, found, err := h.Last(vat)
	if err != nil || !found {
		s.t.Fatal(found, err)
	}
	return b
}

// dyed is a home with a vat that stands full and made, open since 09:00.
func dyed(t *testing.T) *spoken {
	s := newSpoken(t)
	s.ok("begin", "Garden bin", "--recipe", "soda", "--fill", "60L", "--vessel", "frustum 36cm 44cm 62cm HDPE", "--place", "outdoors", "--built", "--at", "09:00")
	return s
}

// `begin` opens a new vat's first day: as it is told, at the time that is told.
func TestBeginOpensANewVat(t *testing.T) {
	s := newSpoken(t)
	got := s.ok("begin", "Garden bin", "--recipe", "soda", "--fill", "60L", "--vessel", "frustum 36cm 44cm 62cm HDPE", "--place", "cross-draught", "--at", "09:00")
	if got.kinds() != "opened" || got.Events[0].At != "2026-03-28T09:00:00+01:00" || got.Call == nil || got.Call.ID == "" {
		t.Errorf("it prints %s", got.text)
	}
	b := s.book("garden-bin")
	h := b.Head
	if h.Setup.Name != "Garden bin" || h.Setup.Fill != 60 || h.Setup.Place != day.CrossDraught || h.Setup.Material != "HDPE" || !strings.HasPrefix(h.Setup.Vessel, "frustum") ||
		h.Recipe.ID != "soda" || h.Opening.Built || h.Opening.Number != 1 || h.Day != "2026-03-28" || h.Zone != "+01:00" {
		t.Errorf("the head is %+v", h)
	}
	if e := b.Events[0]; len(b.Events) != 1 || e.Boot != "" || e.Up != 0 || e.Body != (day.Opened{How: "build"}) {
		t.Errorf("the events are %+v", b.Events)
	}
	bare := newSpoken(t)
	bare.ok("begin", "crock", "--recipe", "soda", "--fill", "20 L")
	if b := bare.book("crock"); b.Head.Setup.Vessel != "" || b.Head.Setup.Material != "" || b.Head.Setup.Place != "" || (shelf.BootID() != "") != (b.Events[0].Boot != "") {
		t.Errorf("without anything told the head is %+v, the event %+v", b.Head.Setup, b.Events[0])
	}
}

// --built: it stands full and made, to be read and dyed in.
func TestBeginTakesOverABuiltVat(t *testing.T) {
	s := dyed(t)
	if b := s.book("garden-bin"); !b.Head.Opening.Built || b.Events[0].Body != (day.Opened{How: "tend"}) {
		t.Errorf("%+v", b.Head.Opening)
	}
	s.ok("say", "garden-bin", "36 C", "--at", "09:01")
}

// The next day of a vat that exists is as the last one left it; --place is told anew.
func TestBeginOpensTheNextDay(t *testing.T) {
	s := dyed(t)
	s.ok("say", "garden-bin", "36 C", "--at", "09:01")
	s.ok("say", "garden-bin", "close the day", "--at", "09:02", "--answered")
	s.ends(1, "before the last event", "begin", "garden-bin", "--at", "09:01")
	s.ends(1, "exists", "begin", "garden-bin", "--recipe", "soda", "--fill", "60L")
	got := s.ok("begin", "Garden bin", "--place", "cross-draught", "--at", "2026-03-28T10:00:00+01:00")
	b := s.book("garden-bin")
	if got.kinds() != "opened" || b.Head.Opening.Number != 2 || !b.Head.Opening.Built || b.Head.Setup.Place != day.CrossDraught || b.Head.Day != "2026-03-28-2" || b.Head.Setup.Fill != 60 {
		t.Errorf("%s\n%+v", got.text, b.Head)
	}
}

func TestBeginRefuses(t *testing.T) {
	s := dyed(t)
	if got := s.ends(1, "is open", "begin", "garden-bin"); got.Call == nil {
		t.Error("the call of the day that is open is not told")
	}
	for _, w := range []struct {
		code  int
		words string
		args  []string
	}{
		{1, "--recipe and --fill", []string{"crock"}},
		{1, "no recipe is called", []string{"crock", "--recipe", "nosuch", "--fill", "20L"}},
		{1, "--fill", []string{"crock", "--recipe", "soda", "--fill", "much"}},
		{1, "holds", []string{"crock", "--recipe", "soda", "--fill", "200L", "--vessel", "frustum 36cm 44cm 62cm HDPE"}},
		{1, "luminium", []string{"crock", "--recipe", "soda", "--fill", "20L", "--vessel", "cylinder 36cm 44cm aluminium"}},
		{1, "closed room", []string{"crock", "--recipe", "soda", "--fill", "20L", "--place", "closed-room"}},
		{1, "--place", []string{"crock", "--recipe", "soda", "--fill", "20L", "--place", "cellar"}},
		{1, "still to come", []string{"crock", "--recipe", "soda", "--fill", "20L", "--at", "19:00"}},
		{1, "--at is a time", []string{"crock", "--recipe", "soda", "--fill", "20L", "--at", "noon"}},
		{2, "go together", []string{"crock", "--recipe", "soda"}},
		{2, "new vat", []string{"garden-bin", "--built"}},
		{2, "nothing in it", []string{"crock", "--recipe", "soda", "--fill", "20L", "--at", ""}},
		{2, "begin VAT", nil},
	} {
		s.ends(w.code, w.words, append([]string{"begin"}, w.args...)...)
	}
	if _, err := os.Stat(filepath.Join(s.home, "vats", "crock")); err == nil {
		t.Error("a vat that was refused has left its folder")
	}
}

// While another program has the vat open neither is done.
func TestAVatThatIsOpenElsewhereIsLeftAlone(t *testing.T) {
	s := dyed(t)
	w, _, err := shelf.At(s.home, func() time.Time { return s.wall }).OpenDay("garden-bin", "2026-03-28")
	if err != nil {
		t.Fatal(err)
	}
	if got := s.ends(1, "another program", "say", "garden-bin", "36 C", "--at", "09:01"); got.Call == nil {
		t.Error("the call is not told")
	}
	s.ends(1, "another program", "begin", "garden-bin")
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	s.ok("say", "garden-bin", "36 C", "--at", "09:01")
}

// --at is a time of the day's date in the day's zone, or RFC 3339; not before the last event, not after the wall clock. What is
// told so carries neither boot nor up, and no clock is called stepped.
func TestSayAtATime(t *testing.T) {
	s := dyed(t)
	for _, at := range []string{"09:01", "09:01:30", "2026-03-28T08:02:00Z", "2026-03-28T09:03:00+01:00", "18:00"} {
		s.ok("say", "garden-bin", "note "+at, "--at", at)
	}
	b := s.book("garden-bin")
	want := []string{"09:00:00", "09:01:00", "09:01:30", "09:02:00", "09:03:00", "18:00:00"}
	for i, e := range b.Events {
		if i >= len(want) || e.At.Format(time.TimeOnly) != want[i] || e.Boot != "" || e.Up != 0 {
			t.Errorf("event %d is at %s, boot %q", e.Seq, e.At, e.Boot)
		}
	}
	s.ends(1, "before the last event, which was at 18:00:00", "say", "garden-bin", "note late", "--at", "17:59")
	s.ends(1, "still to come: it is 18:00:00", "say", "garden-bin", "note early", "--at", "18:01")
	s.ends(1, "--at is a time", "say", "garden-bin", "note x", "--at", "9 o'clock")
	s.ends(2, "nothing in it", "say", "garden-bin", "note x", "--at", "")
	if n := len(s.book("garden-bin").Events); n != 6 {
		t.Errorf("%d events", n)
	}
}

// Without --at it is as at any front end: stamped with the boot clock.
func TestSayNow(t *testing.T) {
	s := dyed(t)
	s.ok("say", "garden-bin", "strip", "45")
	e := s.book("garden-bin").Events
	if last := e[len(e)-1]; last.Body != (day.StripTest{Stayed: 45e9}) || (shelf.BootID() != "") != (last.Boot != "") {
		t.Errorf("%+v", last)
	}
}

// --call is looked at only where it is given, and then it is the call at that time.
func TestSayToACall(t *testing.T) {
	s := dyed(t)
	call := s.ok("say", "garden-bin", "34 C", "--at", "09:01").Call.ID
	s.ends(1, call, "say", "garden-bin", "done", "--call", "lift A1 4", "--answered", "--at", "09:02")
	s.ends(1, call, "say", "garden-bin", "skip warm enough", "--call", "lift A1 4", "--at", "09:02")
	s.ends(2, "nothing in it", "say", "garden-bin", "done", "--call", " ")
	if got := s.ok("say", "garden-bin", "done", "--call", call, "--answered", "--at", "09:02"); got.kinds() != "caution answered, step done" || got.Call.ID == call {
		t.Errorf("%s", got.text)
	}
}

// What wants a caution or a question answered first ends with 3 and writes nothing; the same words with --answered, also the
// first time, write down the answer and the act. Words with an amount are themselves the done.
func TestSayAsksFirst(t *testing.T) {
	s := dyed(t)
	for _, w := range []struct {
		words, caution, kinds string
	}{
		{"done", "heat", "caution answered, step done"},
		{"ready", "", "vat judged"},
		{"heater on", "heat", "caution answered, heater on"},
		{"heater off", "", "heater off"},
		{"give reducer 20 g", "sodium dithionite", "caution answered, powder added, rested"},
		{"give soda 5 g", "soda ash", "caution answered, powder added"}, // it rests longer for the reducer already
		{"close the day", "closes the day", "caution answered, closed"},
	} {
		if w.caution != "" {
			got := s.ends(3, w.caution, "say", "garden-bin", w.words, "--at", "09:05")
			if got.Call == nil || got.Error != nil {
				t.Errorf("%q: %s", w.words, got.text)
			}
			s.ends(3, w.caution, "say", "garden-bin", w.words, "--at", "09:06") // nothing is pending between two runs
		}
		args := []string{"say", "garden-bin", w.words, "--at", "09:05"}
		if w.caution != "" {
			args = append(args, "--answered")
		}
		if got := s.ok(args...); got.kinds() != w.kinds {
			t.Errorf("%q makes %s, wants %s", w.words, got.kinds(), w.kinds)
		}
	}
	s.ends(1, "no day of garden-bin is open", "say", "garden-bin", "note x")
}

// A press long before the end of a dip asks once more; one in its last minute does not.
func TestAnEarlyPressAsksOnceMore(t *testing.T) {
	s := dyed(t)
	for _, words := range []string{"36 C", "skip warm enough", "ready", "piece A1 linen 300 g 2", "A1 wet", "skimmed", "A1 in"} {
		s.ok("say", "garden-bin", words, "--at", "09:01")
	}
	call := s.ends(3, "it would come out now", "say", "garden-bin", "done", "--at", "09:03").Call
	if call.ID != "lift A1 1" || call.Verb != "lift" || call.Object != "A1" || call.Short != "A1 IN" || call.Unit != "s" || call.DueAt == nil {
		t.Errorf("the call is %+v", call)
	}
	if got := s.ok("say", "garden-bin", "done", "--call", call.ID, "--at", "09:03", "--answered"); got.kinds() != "dip ended" {
		t.Errorf("%s", got.text)
	}
}

// One press is for all that comes out together, but what is said to stay.
func TestAllButOne(t *testing.T) {
	s := dyed(t)
	for _, words := range []string{"36 C", "skip warm enough", "ready", "piece A1 linen 300 g 2", "piece B1 linen 300 g 2", "A1 wet", "B1 wet", "skimmed", "A1 in", "B1 in"} {
		s.ok("say", "garden-bin", words, "--at", "09:01")
	}
	got := s.ok("say", "garden-bin", "all but A1", "--at", "09:30")
	if got.kinds() != "dip ended" || got.Call.Short != "LIFT A1" {
		t.Errorf("%s", got.text)
	}
}

// A scoop at a weighing whose caution stands is answered with it.
func TestAnAmountIsItsOwnDone(t *testing.T) {
	s := newSpoken(t)
	s.ok("begin", "crock", "--recipe", "soda", "--fill", "60L", "--place", "outdoors", "--at", "09:00")
	s.ends(3, "mask", "say", "crock", "20 g", "--at", "09:01")
	if got := s.ok("say", "crock", "20 g", "--at", "09:01", "--answered"); got.kinds() != "caution answered, powder weighed" {
		t.Errorf("%s", got.text)
	}
	if got := s.ok("say", "crock", "20 g", "--at", "09:01"); got.kinds() != "powder weighed" {
		t.Errorf("%s", got.text)
	}
}

// A letter is the key of its row, with the same behind it as on the screens, and writes what its words write.
func TestALetterIsTheKeyOfItsRow(t *testing.T) {
	s := newSpoken(t)
	for i, w := range [][2]string{
		{"r 36", "36 C"}, {"h 10.4 25", "ph 10.4 25"}, {"t 45", "strip 45"}, {"d 40 cm", "level 40 cm"}, {"o grey", "note grey"}, {"c", "lid"}, {"i", "company"},
		{"w outdoors", "place outdoors"}, {"S", "stirred"}, {"v 20", "rest 20 min"},
	} {
		var wrote [2]string
		for j, line := range w {
			vat := fmt.Sprintf("v%d-%d", i, j)
			s.ok("begin", vat, "--recipe", "soda", "--fill", "60L", "--built", "--vessel", "frustum 36cm 44cm 62cm HDPE", "--place", "outdoors", "--at", "09:00")
			for _, e := range s.ok("say", vat, line, "--at", "09:01", "--answered").Events {
				wrote[j] += e.Kind + ": " + e.Text + "; "
			}
		}
		if wrote[0] == "" || wrote[0] != wrote[1] {
			t.Errorf("%q writes %q, %q %q", w[0], wrote[0], w[1], wrote[1])
		}
	}
}

// The timetable is told in the words of `load`, and nothing is written.
func TestSayTellsTheTimetable(t *testing.T) {
	s := dyed(t)
	s.ok("say", "garden-bin", "36 C", "--at", "09:01")
	if got := s.ok("say", "garden-bin", "timetable", "--at", "09:05"); len(got.Events) > 0 || len(got.Told) != 1 || !strings.Contains(got.Told[0], "no piece") {
		t.Errorf("without a piece it is %q", got.Told)
	}
	s.ok("say", "garden-bin", "piece A1 linen 420 g 2 dips", "--at", "09:06")
	before := len(s.book("garden-bin").Events)
	got := s.ok("say", "garden-bin", "timetable", "--at", "09:10")
	told := strings.Join(got.Told, "\n")
	if len(s.book("garden-bin").Events) != before || got.Call == nil || !strings.HasPrefix(told, "Last lift at ") || !strings.Contains(told, "in A1, dip 2, out at ") ||
		!strings.Contains(told, "A1 done (A1)") {
		t.Errorf("it prints %s", got.text)
	}
	out, errs, code := run(t, s.home, "say", "garden-bin", "timetable")
	if code != 0 || !strings.HasPrefix(out, "Last lift at ") || !strings.Contains(out, "  in A1, dip 1, out at ") || !strings.Contains(out, "\nNow: ") {
		t.Errorf("%d %s%s", code, out, errs)
	}
}

// What is refused is refused in one sentence: unknown words, questions, what the day does not take.
func TestSayRefuses(t *testing.T) {
	s := dyed(t)
	for words, why := range map[string]string{
		"sing":                     "is not understood; vatside say --help lists the words",
		"g":                        "only asks",
		"?":                        "only asks",
		"A1 out":                   "no piece is tagged",
		"piece A1 linen 420 g mud": "mud",
		"fed bran 200 g":           "no powder",
		"give reducer 20 kg":       "weigh again",
		"ph 20":                    "between 0 and 14",
		"top up 500 L at 12 C":     "brim",
		"confirm":                  "nothing was taken as planned",
	} {
		s.ends(1, why, "say", "garden-bin", words, "--at", "09:01", "--answered")
	}
	s.ends(1, "no vat is called", "say", "nosuch", "done")
	s.ends(2, "say VAT", "say", "garden-bin")
	s.ends(2, "say what", "say", "garden-bin", " ")
}

// The keys are a contract: the same ones at 0, 1 and 3.
func TestTheKeysOfSay(t *testing.T) {
	s := dyed(t)
	for _, got := range []heard{
		s.ok("say", "garden-bin", "36 C", "--at", "09:01"), s.run("say", "garden-bin", "sing", "--at", "09:01"), s.run("say", "garden-bin", "done", "--at", "09:01"),
	} {
		var all map[string]json.RawMessage
		if err := json.Unmarshal([]byte(got.text), &all); err != nil {
			t.Fatal(err)
		}
		for what, w := range map[string]struct {
			of   json.RawMessage
			keys []string
		}{
			"top":  {[]byte(got.text), []string{"call", "caution", "error", "events"}},
			"call": {all["call"], []string{"danger", "due_at", "figure", "id", "object", "press", "short", "unit", "verb"}},
		} {
			var m map[string]json.RawMessage
			if err := json.Unmarshal(w.of, &m); err != nil {
				t.Fatal(err)
			}
			var keys []string
			for k := range m {
				keys = append(keys, k)
			}
			slices.Sort(keys)
			if !slices.Equal(keys, w.keys) {
				t.Errorf("%s of %d has %v", what, got.code, keys)
			}
		}
		if string(all["events"]) == "null" {
			t.Errorf("events of %d are null", got.code)
		}
	}
}

// Without --json it is said in lines, as in plain mode.
func TestSayInWords(t *testing.T) {
	home := t.TempDir()
	at := func(args ...string) (string, int) {
		out, errs, code := run(t, home, args...)
		return out + errs, code
	}
	if out, code := at("begin", "bin", "--recipe", "soda", "--fill", "60L", "--built", "--place", "outdoors"); code != 0 || !strings.Contains(out, "#1 ") || !strings.Contains(out, "\nNow: ") {
		t.Errorf("%d: %s", code, out)
	}
	if out, code := at("say", "bin", "done"); code != 3 || !strings.HasPrefix(out, "Caution: ") || !strings.Contains(out, "--answered") {
		t.Errorf("%d: %s", code, out)
	}
}

// A whole day is played by a script: three pieces, a top-up, liquor drawn off, a piece that is dropped, an answer that comes
// late.
func TestADayByAScript(t *testing.T) {
	s := dyed(t)
	script := strings.Split(strings.TrimSpace(`
09:02 36 C
09:03 done !
09:04 ph 10.6 25
09:05 strip 45
09:05 ready
09:06 piece A1 linen 300 g 4
09:06 piece B1 cotton 100 g 1
09:07 piece C2 silk 60 g 1
09:08 drop C2 it is not washed
09:10 top up 2 L at 12 C
09:11 drew off 3 L
09:12 level 57 L
09:20 A1 wet
09:20 B1 wet
09:21 skimmed
09:22 A1 in
09:24 later A1 1 min
09:30 A1 out 2 min ago
09:31 B1 in
09:36 B1 out
09:36 A1 look wet rung 2
09:45 A1 in
09:50 A1 out !
09:51 lid on
09:52 rest 20 min
10:01 stop
10:10 B1 done
10:30 A1 done
10:31 strip 20
10:32 give reducer 10 g !
11:00 note paler than hoped
11:05 close the day !
`), "\n")
	var last heard
	for _, line := range script {
		at, words, _ := strings.Cut(line, " ")
		args := []string{"say", "garden-bin"}
		words, asked := strings.CutSuffix(words, " !")
		if args = append(args, words, "--at", at); asked {
			args = append(args, "--answered")
		}
		last = s.ok(args...)
		if last.Call == nil {
			continue
		}
		if next := s.run("say", "garden-bin", "sing", "--at", at); next.Call == nil || next.Call.ID != last.Call.ID {
			t.Errorf("%s: the call was told as %q, and is %+v", line, last.Call.ID, next.Call)
		}
	}
	if last.Call != nil {
		t.Errorf("the closed day calls %+v", last.Call)
	}
	b := s.book("garden-bin")
	state, errs := day.Replay(b.Head, b.Events)
	if len(errs) > 0 || !state.Closed {
		t.Fatal(errs)
	}
	for tag, dips := range map[string]int{"A1": 2, "B1": 1, "C2": 0} {
		if p, _ := state.Piece(tag); p.Dips != dips {
			t.Errorf("%s had %d dips", tag, p.Dips)
		}
	}
	if p, _ := state.Piece("A1"); p.Want() != 2 {
		t.Errorf("A1 was to stop, and wants %d dips", p.Want())
	}
	if p, _ := state.Piece("A1"); p.Past[0].Ended.Format("15:04") != "09:28" {
		t.Errorf("A1 came out at %s", p.Past[0].Ended)
	}
	if _, errs, code := run(t, s.home, "book", "verify"); code != 0 {
		t.Error(errs)
	}
}

type saidEvent struct {
	Seq  int    `json:"seq"`
	At   string `json:"at"`
	Kind string `json:"kind"`
	Text string `json:"text"`
}

type callJSON struct {
	ID     string   `json:"id"`
	Verb   string   `json:"verb"`
	Object string   `json:"object"`
	Short  string   `json:"short"`
	Figure *float64 `json:"figure"`
	Unit   string   `json:"unit"`
	DueAt  *string  `json:"due_at"`
	Press  *string  `json:"press"`
	Danger bool     `json:"danger"`
}

// The call of a day of many pieces is the first of its timetable, in now and in say, and a press does it: what is shown to all goes in
// first. The usual order, that of three, has the most dips go in first.
func TestTheCallOfManyPiecesIsByTheTimetable(t *testing.T) {
	s := dyed(t)
	minute := 0
	say := func(words string) heard {
		t.Helper()
		minute++
		got := s.run("say", "garden-bin", words, "--answered", "--at", fmt.Sprintf("09:%02d", minute))
		if got.code != 0 {
			t.Fatalf("%q: %s%s", words, got.text, got.errs)
		}
		return got
	}
	for _, words := range []string{"36 C", "done", "ph 10.6", "strip 45 s", "ready", "piece A1 linen 300 g 6", "piece B1 linen 300 g 6", "piece D1 linen 300 g 1 demo", "A1 wet", "B1 wet", "D1 wet"} {
		say(words)
	}
	if got := say("skimmed").Call.ID; got != "lower A1 1" {
		t.Fatalf("by the usual order the call is %q", got)
	}
	say("piece C1 linen 300 g 6")
	call := say("C1 wet").Call
	if told := say("timetable").Told; len(told) < 2 || !strings.HasSuffix(told[1], "  in D1, dip 1, out at 09:21") || call.ID != "lower D1 1" {
		t.Fatalf("the call is %q, and the timetable %q", call.ID, told)
	}
	out, errs, code := run(t, s.home, "now")
	if code != 0 || !strings.Contains(out, "D1 goes in next") {
		t.Errorf("now ends with %d: %s%s", code, out, errs)
	}
	if got := s.ok("say", "garden-bin", "done", "--at", "09:17", "--call", call.ID); len(got.Events) != 1 || got.Events[0].Text != "D1 in, dip 1, 5 min" {
		t.Errorf("the press makes %s", got.text)
	}
}
