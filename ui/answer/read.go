package answer

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"time"

	"example.org/vatside/model/day"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/wording"
)

// Reading is what a line is taken for. It is made anew for each letter that is typed.
type Reading struct {
	Row      Row           // the zero Row: nothing is understood
	Line     Line          // what stands behind its words
	Commands []day.Command // what it wants, in this order; none where it asks, or where there is an Err
	Words    string        // "A1 came out at 10:42"
	Caution  string        // what is to be answered first, before any of them; empty: nothing
	Err      error         // what is wrong with it, in one sentence
}

// String is the reading as it is shown below the line.
func (r Reading) String() string {
	switch {
	case r.Err != nil:
		return r.Err.Error()
	case r.Row.Asks():
		return "asks for: " + r.Row.Does
	case r.Caution != "":
		return "taken as: " + r.Words + ". First: " + r.Caution
	}
	return "taken as: " + r.Words
}

// ErrUnknown is a line of which nothing is understood.
type ErrUnknown struct{ Line string }

func (e ErrUnknown) Error() string { return fmt.Sprintf("%q is not understood", e.Line) }

// Take understands a line: its row and its commands, or what is wrong with its words. Whether the day takes the commands is
// not asked; Read does.
func Take(s day.State, now time.Time, line string) (Row, Line, []day.Command, error) {
	if err := wording.Refusal(line); err != nil {
		return Row{}, Line{}, nil, err
	}
	l := Line{State: s, Act: day.Next(s, now), Now: now}
	r, err := l.find(spaced(line))
	if err != nil || r.Asks() {
		return r, l, nil, err
	}
	c, err := r.Parse(l)
	return r, l, c, err
}

// Read says what a line is taken for, and whether the day would take it.
func Read(s day.State, now time.Time, line string) Reading {
	var r Reading
	r.Row, r.Line, r.Commands, r.Err = Take(s, now, line)
	if r.Err == nil && !r.Row.Asks() {
		r.decide(s, now)
	}
	if r.Err != nil {
		r.Commands = nil
	}
	return r
}

// decide asks the day for what the commands would make of it, one after the other.
func (r *Reading) decide(s day.State, now time.Time) {
	var words []string
	for _, c := range r.Commands {
		if caution := day.CautionOf(s, c, now); caution != "" {
			r.Caution = wording.Joined("; ", r.Caution, caution)
			c = day.Answered{Command: c}
		}
		bodies, err := day.Decide(s, c, now)
		if err != nil {
			r.Err = err
			return
		}
		words = append(words, told(s, now, bodies)...)
		for _, b := range bodies {
			s, _ = day.Apply(s, day.Event{Seq: s.Seq + 1, At: now, Body: b})
		}
	}
	r.Words = wording.Either(len(r.Commands) == 0, "nothing new", strings.Join(words, "; "))
}

// find is the row that a line names.
func (l *Line) find(line string) (Row, error) {
	if line == "" {
		l.Word = "done"
		r, _ := Find("done")
		return r, nil
	}
	for _, by := range []func(string) (Row, bool){l.yesOrNo, l.chosen, l.afterTags, l.afterAll} {
		if r, ok := by(line); ok {
			return r, nil
		}
	}
	for _, by := range []func(string) (Row, bool){l.byWords, l.byKey} {
		if r, ok := by(line); ok {
			return l.with(r)
		}
	}
	if strings.ContainsAny(line[:1], "0123456789.,-+") || strings.HasPrefix(line, "−") {
		return l.figure(line)
	}
	return Row{}, l.unknown(line)
}

// yesOrNo is the row that a bare yes or no means where the call asks whether the vat is ready.
func (l *Line) yesOrNo(line string) (Row, bool) {
	id := map[string]string{"yes": "ready", "no": "not yet"}[strings.ToLower(line)]
	r, ok := Find(id)
	if !ok || !r.Fits(l.State, l.Act) {
		return Row{}, false
	}
	l.Word = id
	return r, true
}

// afterTags finds a row behind the tags of pieces: "A1 out", "A1 and B2 in". A piece may be tagged as a verb is: "A1 in", beside one
// that is tagged "in".
func (l *Line) afterTags(line string) (Row, bool) {
	for tags, rest := cutTags(l.State, line); len(tags) > 0; tags = tags[:len(tags)-1] {
		if r, word, behind := longest(rest, func(r Row) []string { return r.Verbs }); word != "" && !(r.bare && behind != "") {
			l.Word, l.Tags, l.Rest = word, tags, behind
			return r, true
		}
		rest = strings.TrimSpace(tags[len(tags)-1] + " " + rest)
	}
	return Row{}, false
}

// afterAll finds a row behind "all", which stands for the tags of each piece that it can be said of: "all scoured".
func (l *Line) afterAll(line string) (Row, bool) {
	const all = "all "
	if len(line) <= len(all) || !strings.EqualFold(line[:len(all)], all) {
		return Row{}, false
	}
	r, word, behind := longest(line[len(all):], func(r Row) []string {
		if r.all == nil {
			return nil
		}
		return r.Verbs
	})
	if word == "" || behind != "" {
		return Row{}, false
	}
	l.Word = word
	for _, p := range wording.Only(l.State.Pieces, r.all) {
		l.Tags = append(l.Tags, p.Tag)
	}
	return r, true
}

// byWords finds the row with the longest words that a line begins with.
func (l *Line) byWords(line string) (Row, bool) {
	r, word, rest := longest(line, func(r Row) []string { return r.Words })
	l.Word, l.Rest = word, rest
	return r, word != ""
}

// longest is the row of which the longest words stand at the beginning of a line, and what stands behind them.
func longest(line string, words func(Row) []string) (best Row, word, rest string) {
	low := strings.ToLower(line)
	for _, r := range Rows() {
		for _, w := range words(r) {
			if len(w) > len(word) && strings.HasPrefix(low, w) && (len(low) == len(w) || strings.ContainsRune(" ,:", rune(low[len(w)]))) {
				best, word = r, w
			}
		}
	}
	if word != "" && len(low) == len(line) {
		rest = strings.TrimSpace(strings.TrimLeft(line[len(word):], ",: "))
	}
	return best, word, rest
}

// with checks what stands behind a row's words, and cuts off the tags.
func (l *Line) with(r Row) (Row, error) {
	if l.Rest == "" && r.alone != "" {
		r, _ = Find(r.alone)
		return r, nil
	}
	if r.tagged {
		if l.Rest == "" {
			return r, fmt.Errorf("say which piece: %s A1", l.Word)
		}
		if l.Tags, l.Rest = cutTags(l.State, l.Rest); len(l.Tags) == 0 {
			tag, rest, _ := strings.Cut(l.Rest, " ")
			l.Tags, l.Rest = []string{tag}, rest
		}
	}
	if r.bare && l.Rest != "" {
		return r, fmt.Errorf("%s stands alone: leave %q out", l.Word, l.Rest)
	}
	return r, nil
}

// figure is a line that begins with a figure: what its unit says, else what the act asks for.
func (l *Line) figure(line string) (Row, error) {
	l.Rest = line
	sys := l.system()
	row := func(id string) (Row, error) { r, _ := Find(id); return r, nil }
	if quantity.Bare(line) {
		switch l.Act.Entry {
		case day.MassEntry:
			return row("scoop")
		case day.TempEntry:
			return row("temp")
		}
		if ways := l.State.Ways(); l.Act.Judging() {
			n, err := strconv.Atoi(line)
			if err != nil || n < 1 || n > len(ways) {
				return Row{}, fmt.Errorf("it is ready by 1 to %d; strip %s writes a strip down", len(ways), line)
			}
			l.Rest = ""
			return row("by " + ways[n-1])
		}
		if l.Act.Kind == day.ActAsk {
			return Row{}, fmt.Errorf("answer by 1 to %d", len(l.State.Choices()))
		}
		return Row{}, errors.New("no figure is asked for; 36 C writes a temperature down")
	}
	if _, err := Mass(line, sys); err == nil {
		return row("scoop")
	}
	if _, err := Temperature(line, sys); err == nil {
		return row("temp")
	}
	if _, err := quantity.ParseVolume(line, sys); err == nil {
		return Row{}, fmt.Errorf("say what of it: top up %s, level %s", line, line)
	}
	if _, err := quantity.ParseSpan(line, sys); err == nil {
		return Row{}, fmt.Errorf("say what of it: strip %s, rest %s", line, line)
	}
	switch l.Act.Entry { // it says what is wrong with the figure
	case day.MassEntry:
		return row("scoop")
	case day.TempEntry:
		return row("temp")
	}
	return Row{}, ErrUnknown{line}
}

// unknown says what is missing of a line that is only begun, or that nothing is understood of it.
func (l *Line) unknown(line string) error {
	low := strings.ToLower(line)
	if tags, rest := cutTags(l.State, line); len(tags) > 0 {
		return fmt.Errorf("say what of %s: in, out, wet, done; not %q", strings.Join(tags, ", "), rest)
	}
	if tag, rest, _ := strings.Cut(line, " "); rest != "" {
		if _, word, _ := longest(rest, func(r Row) []string { return r.Verbs }); word != "" {
			return fmt.Errorf("no piece is tagged %q", tag)
		}
	}
	for _, r := range Rows() {
		for _, w := range r.Words {
			if len(low) > 1 && strings.HasPrefix(w, low) {
				return fmt.Errorf("%w; go on: %s", ErrUnknown{line}, r.Say)
			}
		}
	}
	return ErrUnknown{line}
}
