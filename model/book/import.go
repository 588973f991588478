package book

import (
	"bytes"
	"cmp"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/sorted"
	"example.org/vatside/model/wording"
)

// dayNames is the form of a day's name: its date, and from the second of that date on a number.
var dayNames = wording.Pattern(`^(\d{4}-\d{2}-\d{2})(?:-[1-9]\d{0,3})?$`)

// Imported is what Import made of two tables. With anything in Wrong the leaves must not be used.
type Imported struct {
	Leaves  []Leaf    // in the order of the table of days
	Remarks []Misread // what is odd, and no obstacle
	Wrong   []Misread // what cannot be read
}

type importing struct {
	Imported
	today time.Time
	days  map[string]*importedDay // by vat/day
}

// importedDay is a day whose events are being gathered.
type importedDay struct {
	row    gridRow
	leaf   Leaf
	stated int // how many events its row says it has, -1 where it does not say
	spoilt bool
	events []importedEvent
}

type importedEvent struct {
	row  gridRow
	seq  int
	text []byte
}

// Import makes days again from the tables of days and events. Of the days it reads vat, day, head and, where it stands
// there, events, the number of them; of the events vat, day, seq, at, boot, up, kind and fields. Rows may stand in any order.
// vatName says what is wrong with the name of a vat's folder, or nil. What a reader would set aside today is not taken; today
// is as for ReadOn.
func Import(today time.Time, days, events []byte, vatName func(string) error) Imported {
	m := &importing{today: today, days: map[string]*importedDay{}}
	d, wrong := readTable(DaysFile, days, "vat", "day", "head")
	m.note(wrong)
	e, wrong := readTable(EventsFile, events, "vat", "day", "seq", "at", "kind", "fields")
	m.note(wrong)
	if len(m.Wrong) > 0 {
		return m.Imported
	}
	order := wording.Some(d.rows, func(row gridRow) (*importedDay, bool) {
		x := m.day(row, vatName)
		return x, x != nil
	})
	strangers := map[string]bool{}
	for _, row := range e.rows {
		name := row.at("vat") + "/" + row.at("day")
		x := m.days[name]
		switch {
		case x != nil:
			m.note(x.event(row, &m.Imported))
		case !strangers[name]:
			strangers[name] = true
			m.note(row.wrong("day", "%s has no day %s; each event belongs to a row there, by vat and day", DaysFile, name))
		}
	}
	for _, x := range order {
		if !x.spoilt {
			m.bind(x)
		}
	}
	return m.Imported
}

func (m *importing) note(wrong *Misread) {
	if wrong != nil {
		m.Wrong = append(m.Wrong, *wrong)
	}
}

// day reads a row of days. A row that names a day is kept even when it is wrong, so that its events are not strangers.
func (m *importing) day(row gridRow, vatName func(string) error) *importedDay {
	x := &importedDay{row: row, leaf: Leaf{Vat: row.at("vat"), Day: row.at("day")}, stated: -1}
	if before := m.days[x.leaf.Path()]; before != nil {
		m.note(row.wrong("day", "%s stands in line %d already; a day has one row", x.leaf.Path(), before.row.line))
		return nil
	}
	m.days[x.leaf.Path()] = x
	wrong := x.head(vatName)
	x.spoilt = wrong != nil
	m.note(wrong)
	return x
}

func (x *importedDay) head(vatName func(string) error) *Misread {
	row := x.row
	if err := vatName(x.leaf.Vat); err != nil {
		return row.wrong("vat", "%v; write it as garden-bin", err)
	}
	form := dayNames().FindStringSubmatch(x.leaf.Day)
	if form == nil {
		return row.wrong("day", "%q is not how the book names a day; write its date as 2026-11-25, a second day of that date as 2026-11-25-2",
			x.leaf.Day)
	}
	if _, err := time.Parse(time.DateOnly, form[1]); err != nil {
		return row.wrong("day", "there is no date %s", form[1])
	}
	if n := strings.TrimSpace(row.at("events")); n != "" {
		stated, err := strconv.Atoi(n)
		if err != nil || stated < 0 {
			return row.wrong("events", "%q is not a number of events; write how many rows of %s the day has, or nothing",
				n, EventsFile)
		}
		x.stated = stated
	}
	text := []byte(strings.TrimSuffix(row.at("head"), "\n") + "\n")
	if bytes.Contains(text, []byte("Â°")) {
		return row.wrong("head", "the table was opened as another alphabet than UTF-8, ° has become Â°; open it as UTF-8 and save it again")
	}
	if wrong := row.unfit("head", text); wrong != nil {
		return wrong
	}
	x.leaf.Text = closed(text, 0)
	b := Read("", x.leaf.Text)
	switch {
	case b.HeadErr != nil:
		return row.wrong("head", "the head cannot be read: %v; it is the first block of a day's file, as the export writes it",
			b.HeadErr)
	case !b.HeadWhole || len(b.Marks)+len(b.Unread)+len(b.Events)+len(b.Torn) > 0:
		return row.wrong("head", "this is not one head and nothing else; it is the first block of a day's file, without its end line")
	}
	return nil
}

func (x *importedDay) event(row gridRow, told *Imported) (wrong *Misread) {
	defer func() { x.spoilt = x.spoilt || wrong != nil }()
	var e day.Event
	seq, err := strconv.Atoi(strings.TrimSpace(row.at("seq")))
	if err != nil || seq < 1 || seq > math.MaxInt32 {
		return row.wrong("seq", "%q is not the number of an event; write a whole number from 1", row.at("seq"))
	}
	e.Seq = seq
	if e.At, err = time.Parse(time.RFC3339, strings.TrimSpace(row.at("at"))); err != nil {
		return row.wrong("at", "%q is not a time as the book has it; write it as 2026-11-25T09:30:00+01:00", row.at("at"))
	}
	if y := e.At.UTC().Year(); y < 1 || y > 9998 {
		return row.wrong("at", "the year %d has no place in the book", y)
	}
	if e.Boot = row.at("boot"); e.Boot != "" {
		if !bootForm().MatchString(e.Boot) {
			return row.wrong("boot", "%q is no boot clock; it has 8 figures of 0 to 9 and a to f, or leave it empty", e.Boot)
		}
		up := strings.Replace(strings.TrimSpace(row.at("up")), ",", ".", 1)
		if e.Up, err = strconv.ParseFloat(up, 64); err != nil || math.IsNaN(e.Up) || math.IsInf(e.Up, 0) {
			return row.wrong("up", "%q is no number of seconds; write it as 812.25, or leave boot empty too", row.at("up"))
		}
	}
	kind := row.at("kind")
	if kind == "" {
		return row.wrong("kind", "the event has no kind; write one such as reading or note")
	}
	if err := wording.Refusal(kind); err != nil {
		return row.wrong("kind", "%v", err)
	}
	var w bytes.Buffer
	writeCommon(&w, e, kind)
	if fields := strings.TrimSuffix(row.at("fields"), "\n"); fields != "" {
		w.WriteString(fields + "\n")
	}
	if wrong := row.unfit("fields", w.Bytes()[len(eventLine):]); wrong != nil {
		return wrong
	}
	got, slips, err := readEvent(w.Bytes(), kinds)
	switch {
	case err != nil:
		return row.wrong("fields", `they cannot be read: %v; each line is key = "value", as the export writes them`, err)
	case !oneBlock(w.Bytes(), seq):
		return row.wrong("fields", "an end line or the first line of a block stands among them; they are the lines between those")
	case penSlip(slips):
		return row.wrong("fields", "%s; look for a typing mistake", strings.Join(slips, "; "))
	}
	for _, s := range slips {
		told.Remarks = append(told.Remarks, *row.wrong("fields", "%s", s))
	}
	if _, unknown := got.Body.(day.Unknown); unknown {
		told.Remarks = append(told.Remarks, *row.wrong("kind", "no event known here is of the kind %q; it is kept for a later version", kind))
	}
	x.events = append(x.events, importedEvent{row, seq, w.Bytes()})
	return nil
}

// unfit tells of what cannot be shown in the TOML of a cell, as it stands there or written as an escape. Days are new to the
// book, and so it is refused. TOML that cannot be read is told elsewhere.
func (r gridRow) unfit(column string, text []byte) *Misread {
	if what, _ := wording.Unfitness(string(text)); what != "" {
		return r.wrong(column, "here stands %s: write it without", what)
	}
	if tree, err := decode(text); err == nil {
		if err := wording.RefusalIn(tree); err != nil {
			return r.wrong(column, "%v", err)
		}
	}
	return nil
}

// penSlip tells of a key that is missing and one that nobody knows: most likely one key, misspelt.
func penSlip(slips []string) bool {
	lacks := wording.Count(slips, func(s string) bool { return strings.HasPrefix(s, "it has no ") })
	return lacks > 0 && lacks < len(slips)
}

// oneBlock tells whether the book would find in this text, closed, the one block that it is to be.
func oneBlock(text []byte, seq int) bool {
	const before = "# a head\n# end 0 00000000\n\n"
	file := append([]byte(before), closed(bytes.Clone(text), seq)...)
	blocks := cut(file)
	return len(blocks) == 2 && blocks[1].ended && blocks[1].from == len(before) && blocks[1].to == len(before)+len(text) &&
		blocks[1].mended(file, seq) == ""
}

// bind puts a day's file together, as it would have been written event by event.
func (m *importing) bind(x *importedDay) {
	sorted.By(x.events, func(a, b importedEvent) int { return cmp.Compare(a.seq, b.seq) })
	for i, e := range x.events {
		if i > 0 && x.events[i-1].seq == e.seq {
			m.note(e.row.wrong("seq", "event %d of %s stands in line %d already; each has a number of its own",
				e.seq, x.leaf.Path(), x.events[i-1].row.line))
			return
		}
	}
	if x.stated >= 0 && x.stated != len(x.events) {
		m.note(x.row.wrong("events", "it says %d, and %s has %d of %s; write how many rows it has, or nothing",
			x.stated, EventsFile, len(x.events), x.leaf.Path()))
		return
	}
	for _, e := range x.events {
		x.leaf.Text = append(append(x.leaf.Text, '\n'), closed(e.text, e.seq)...)
	}
	b := ReadOn(m.today, x.leaf.Path(), x.leaf.Text)
	for _, u := range b.Unread {
		for _, e := range x.events {
			if e.seq == u.Seq {
				m.note(e.row.wrong("", "event %d of %s cannot be: %s", u.Seq, x.leaf.Path(), u.What))
				return
			}
		}
	}
	if len(b.Events) != len(x.events) || len(b.Marks)+len(b.Unread)+len(b.Torn) > 0 {
		m.note(x.row.wrong("", "%s does not read back as it stands here", x.leaf.Path()))
		return
	}
	for _, f := range Verify(b) { // faults of the recipe by today's rules, and gaps
		m.Remarks = append(m.Remarks, Misread{File: x.leaf.Path(), Line: f.Line, What: f.What})
	}
	if b.Head.Vat != x.leaf.Vat || b.Head.Day != x.leaf.Day {
		m.Remarks = append(m.Remarks, *x.row.wrong("head", "it is the head of %s/%s", b.Head.Vat, b.Head.Day))
	}
	m.Leaves = append(m.Leaves, x.leaf)
}

// SameDay tells whether two days' files hold the same head and the same events. How their lines end, what was mended and what
// cannot be read does not count.
func SameDay(a, b Leaf) bool {
	bookA, headA, textsA := a.read(time.Time{})
	bookB, headB, textsB := b.read(time.Time{})
	if bookA.HeadErr != nil || bookB.HeadErr != nil || !bookA.HeadWhole || !bookB.HeadWhole || !bytes.Equal(headA, headB) {
		return false
	}
	return slices.Equal(essence(bookA, textsA), essence(bookB, textsB))
}

// essence is what the events of a day say, in the order of their numbers.
func essence(b Book, texts [][]byte) []string {
	order := make([]int, len(texts))
	for i := range order {
		order[i] = i
	}
	sorted.By(order, func(i, j int) int { return cmp.Compare(b.Events[i].Seq, b.Events[j].Seq) })
	out := make([]string, len(order))
	for i, n := range order {
		var w bytes.Buffer
		e := b.Events[n]
		keys := common
		if !bootForm().MatchString(e.Boot) {
			e.Boot, keys = "", common[:3]
		}
		writeCommon(&w, e, e.Body.Kind())
		out[i] = w.String() + string(own(texts[n], keys))
	}
	return out
}
