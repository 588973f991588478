package ui

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"example.org/vatside/model/book"
	"example.org/vatside/model/day"
	"example.org/vatside/model/history"
	"example.org/vatside/model/load"
	"example.org/vatside/model/outlook"
	"example.org/vatside/model/stock"
	"example.org/vatside/ui/cue"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/screen"
	"example.org/vatside/ui/screentest"
	"example.org/vatside/ui/shelf"
	"example.org/vatside/ui/style"
)

const bin, pail = "garden-bin", "pail"

// frame is what one screen looks like in one window.
type frame struct {
	Place         string // which screen, at which moment
	Look          string // theme, colours and glyphs: a column of lookColumns
	Width, Height int
	Text          string // model.View: Height lines
}

// shot is a screen at a moment of a played day.
type shot struct {
	place string
	at    screen.Place
	tag   string
	keys  string // pressed on it; those with a name in brackets
}

// moment is a played day as it stood after so many events and some time, with the screens that are looked at then.
type moment struct {
	day    string // of the garden bin; empty: a home without vats
	events int
	after  time.Duration
	wrong  string // with its disk
	shots  []shot
}

// moments are the places of the program.
var moments = []moment{
	{"", 0, 0, "", []shot{
		{"home, no vat", screen.AtHome, "", ""},
		{"settings", screen.AtHome, "", ","},
		{"setup", screen.AtSetup, "", ""},
	}},
	{"2026-05-09", 2, 30 * time.Second, "", []shot{
		{"weigh", screen.AtDay, "", ""},
	}},
	{"2026-05-09", 24, 30 * time.Second, "", []shot{
		{"step with a caution", screen.AtDay, "", ""},
		{"help", screen.AtDay, "", "?"},
		{"first aid", screen.AtAid, "", ""},
	}},
	{"2026-05-09", 38, 4 * time.Minute, "", []shot{
		{"wait, counting down", screen.AtDay, "", ""},
		{"leaving while a time runs", screen.AtDay, "", "q"},
	}},
	{"2026-05-09", 51, 40 * time.Second, "", []shot{
		{"home, a time runs", screen.AtHome, "", ""},
		{"dips running", screen.AtDay, "", ""},
		{"timetable", screen.AtTable, "", ""},
		{"whose turn", screen.AtTable, "", "2"},
		{"what if", screen.AtTable, "", "3"},
		{"say it", screen.AtTable, "", ":A1 out 1 min ago"},
	}},
	{"2026-05-09", 51, 10 * time.Minute, "the disk is full: 2 acts are kept and tried again", []shot{
		{"dips over", screen.AtDay, "", ""},
	}},
	{"2026-05-09", 68, 30 * time.Second, "", []shot{
		{"airing", screen.AtDay, "", ""},
		{"log", screen.AtLog, "", ""},
		{"course", screen.AtCourse, "", ""},
		{"a piece comes", screen.AtPiece, "A1", ""},
		{"plan", screen.AtPlan, "", ""},
		{"what is seen", screen.AtSigns, "", ""},
		{"what colour", screen.AtSigns, "", "1"},
	}},
	{"2026-05-10", 23, time.Minute, "", []shot{
		{"dose", screen.AtDose, "", ""},
		{"signs", screen.AtSigns, "", ""},
	}},
	{"2026-05-10", 30, 8*time.Minute + 30*time.Second, "", []shot{
		{"look", screen.AtDay, "", ""},
	}},
	{"2026-05-10", 40, time.Minute, "", []shot{
		{"after the dips", screen.AtBench, "A1", ""},
		{"ladder", screen.AtLadder, "", ""},
	}},
	{"2026-05-10", 51, 8 * 24 * time.Hour, "", []shot{
		{"home, vats wait", screen.AtHome, "", ""},
		{"before the day", screen.AtPrepare, "", ""},
		{"powders", screen.AtStock, "", ""},
		{"a new tin", screen.AtStock, "", "n"},
		{"care", screen.AtCare, "", ""},
		{"cost", screen.AtCost, "", ""},
	}},
	{"2026-05-25", 14, time.Hour, "", []shot{
		{"a vat that has ended", screen.AtCare, "", ""},
	}},
}

// lookColumn is a theme in a terminal.
type lookColumn struct {
	name, theme string
	env         map[string]string
	style       style.Style
}

// lookColumns are all themes in terminals of all colour depths, and a terminal without blocks.
var lookColumns = sync.OnceValue(func() (out []lookColumn) {
	for _, theme := range []struct{ name, theme, ground string }{
		{"dark", "auto", "15;0"}, {"light", "auto", "0;15"}, {"chosen-dark", "dark", ""}, {"chosen-light", "light", ""}, {"sun", "sun", ""},
	} {
		for _, depth := range []struct{ name, key, value, term string }{
			{"none", "NO_COLOR", "1", "xterm"}, {"16", "", "", "xterm"}, {"256", "", "", "xterm-256color"}, {"true", "COLORTERM", "truecolor", "xterm-256color"},
		} {
			out = append(out, lookColumn{name: theme.name + "/" + depth.name, theme: theme.theme,
				env: map[string]string{"LANG": "C.UTF-8", "COLORFGBG": theme.ground, "TERM": depth.term, depth.key: depth.value}})
		}
	}
	out = append(out, lookColumn{name: "ascii", theme: "auto", env: map[string]string{"LANG": "C", "TERM": "xterm-256color"}})
	for i, l := range out {
		out[i].style = style.New(styleOptions(l.theme, func(name string) string { return l.env[name] }, nil))
	}
	return out
})

var drawn struct {
	once   sync.Once
	frames []frame
	err    error
}

// frames are the screens of all places, in windows of each size, in each look. They are always the same and in the same order.
func frames(t *testing.T) []frame {
	t.Helper()
	drawn.once.Do(func() { drawn.frames, drawn.err = drawAll(t.TempDir()) })
	if drawn.err != nil {
		t.Fatal(drawn.err)
	}
	return drawn.frames
}

func drawAll(dir string) ([]frame, error) {
	home, err := playedHome(dir)
	if err != nil {
		return nil, err
	}
	player := cue.New(cue.Settings{}, nil, nil)
	defer player.Close()
	m := newModel(Options{}, shelf.Defaults(), effects{home: home, player: player, cares: &library.Cares{}, looks: &looks{}})
	m.home.Settings.Emergency, m.home.Settings.Hour, m.home.Settings.KWh = "112", 2500, 30
	m.snap.Wall = time.Date(2026, 5, 9, 7, 0, 0, 0, time.UTC)
	m.home.Recipes, m.home.Own, _ = ownRecipes(home)
	w := world{whole: map[string]history.Vat{}, books: map[string]book.Book{}}
	var vats []screen.Vat
	for _, vat := range []string{bin, pail} {
		past := m.effects.past(vat)().(pastMsg)
		if past.err != nil {
			return nil, past.err
		}
		w.whole[vat] = past.days
		last, _ := past.days.Last()
		vats = append(vats, standing(screen.Vat{Vat: vat, Day: last.Name}, library.Day{State: last.State, Now: last.State.At}))
	}
	for _, mo := range moments {
		if _, has := w.books[mo.day]; mo.day == "" || has {
			continue
		}
		if w.books[mo.day], err = home.ReadDay(bin, mo.day); err != nil {
			return nil, err
		}
	}
	w.stock, w.cost = m.effects.stock(vats), m.effects.costs(bin, m.home.Settings)().(costMsg).cost

	drawn := make([][]frame, len(moments))
	errs := make([]error, len(moments))
	todo := make(chan int, len(moments))
	for i := range moments {
		todo <- i
	}
	close(todo)
	var all sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		all.Go(func() {
			for i := range todo { // the screens of a moment share what they reckon: one goroutine draws them
				drawn[i], errs[i] = moments[i].draw(m, w)
			}
		})
	}
	all.Wait()
	return slices.Concat(drawn...), errors.Join(errs...)
}

// playedHome is a home with the played days and two tins.
func playedHome(dir string) (shelf.Home, error) {
	home := shelf.Open(dir)
	for vat, days := range map[string]string{bin: "soda-bin*", pail: "sugar-lime-pail*"} {
		files, err := filepath.Glob(filepath.Join("../testdata/days", days+".toml"))
		if err != nil || len(files) == 0 {
			return home, fmt.Errorf("no played days %s: %w", days, err)
		}
		for _, file := range files {
			text, err := os.ReadFile(file)
			if err != nil {
				return home, err
			}
			_, name, _ := strings.Cut(string(text), "\nday = \"")
			name, _, _ = strings.Cut(name, "\"")
			to := home.DayFile(vat, name)
			if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
				return home, err
			}
			if err := os.WriteFile(to, text, 0o644); err != nil {
				return home, err
			}
		}
	}
	for _, tin := range []stock.NewTin{{Material: "soda ash", Holds: 1000}, {Material: "sodium dithionite", Holds: 500}} {
		if _, _, err := home.KeepStock(time.Date(2026, 5, 1, 9, 0, 0, 0, time.UTC), stock.AddTin{New: tin}); err != nil {
			return home, err
		}
	}
	return home, nil
}

// world is what the files say, of later days too.
type world struct {
	books map[string]book.Book   // of the garden bin, by day
	whole map[string]history.Vat // by vat
	stock screen.Stock
	cost  screen.Cost
}

// draw draws the screens of a moment.
func (mo moment) draw(m model, w world) (out []frame, err error) {
	id := ""
	if mo.day != "" {
		id = bin + "/" + mo.day
		if m, err = mo.live(m, w); err != nil {
			return nil, err
		}
	}
	for _, s := range mo.shots {
		m := m
		if s.at != screen.AtHome {
			m = m.push(s.at, id, s.tag)
		}
		for _, k := range s.keys {
			next, _ := m.key(screen.Key{Rune: k})
			m = next
		}
		for _, size := range screentest.Sizes {
			m.width, m.height = size[0], size[1]
			for _, l := range lookColumns() {
				m.style = l.style
				out = append(out, frame{s.place, l.name, m.width, m.height, m.View()})
			}
		}
	}
	return out, nil
}

// live puts the day into the root as the engine tells of it, and what is told beside it.
func (mo moment) live(m model, w world) (model, error) {
	b := w.books[mo.day]
	s, errs := day.Replay(b.Head, b.Events[:mo.events])
	if len(errs) > 0 {
		return m, errors.Join(errs...)
	}
	now := s.At.Add(mo.after)
	m.snap = engine.Snapshot{Wall: now}
	if !s.Closed {
		o := outlook.Of(s, now)
		blues := outlook.Blues(s, o, now)
		table := outlook.Timetable(s, o, blues, load.Plan{}, now, 2000)
		m.snap.Days = []engine.View{engine.View{ID: bin + "/" + mo.day, State: s, Now: now, Saved: s.Seq, Trouble: mo.wrong, Pace: 1, Outlook: &o, Blue: &blues, Table: &table}.At(now)}
	}
	care := map[string][]history.Due{}
	for _, vat := range []string{bin, pail} {
		var days history.Vat
		for _, d := range w.whole[vat] {
			if vat == bin && d.Name == mo.day {
				d.State = s
			}
			if !d.State.At.After(now) {
				days = append(days, d)
			}
		}
		if last, ok := days.Last(); ok {
			m.home.Vats = append(m.home.Vats, standing(screen.Vat{Vat: vat, Day: last.Name}, library.Day{State: last.State, Now: now}))
			care[vat] = history.LifeOf(days).Care(now)
		}
		if vat == bin {
			m.past = pastMsg{vat: vat, days: days}
		}
	}
	m.home.Cost, m.home.Stock = &w.cost, w.stock
	return m.cared(care), nil
}
