package plain

import (
	"strconv"
	"strings"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/answer"
	"example.org/vatside/ui/engine"
)

// A form asks what belongs to a line of answers, one question after the other, by what was answered so far. With line set all is
// answered: it is said as if it had been typed. Without either nothing is to be done.
type form func(v engine.View, got []string) (q question, line string)

// question is one of them.
type question struct {
	words string
	of    []string           // what can be chosen by its figure; empty: it is typed
	as    []string           // what each of them stands for; nil: itself
	check func(string) error // of what is typed; nil: anything. With of set: what may be typed besides
	open  bool               // with of set, what check takes may be typed too
	many  bool               // several figures, with spaces between
	none  string             // what an empty line stands for; empty: it answers nothing
	line  func(string) bool  // what stands for the whole form, as a line of answers begun with its word; nil: nothing
}

// filling is a form while it is answered.
type filling struct {
	name string
	form form
	got  []string
	told bool // the question was told
}

// begins begins the questions that a word leads through; false where it leads through none.
func (t *Terminal) begins(v engine.View, line string) bool {
	f, ok := forms[strings.ToLower(strings.TrimSpace(line))]
	if !ok || v.State.Closed || v.Looking {
		return false
	}
	if f.before != nil {
		f.before(t, v)
	}
	q, done := f.ask(v, nil)
	if done == "" && q.words == "" {
		return true
	}
	t.form = &filling{name: f.word, form: f.ask}
	return true
}

// asks tells the question that is open, once.
func (t *Terminal) asks(v engine.View) {
	if t.form == nil || t.form.told || t.pending != nil {
		return
	}
	t.form.told = true
	q, _ := t.form.form(v, t.form.got)
	t.list(q.of)
	t.say("%s", q.words)
}

// fills takes a line for the question that is open. It gives the line that is to be carried out, which may be one that answers no
// question; empty where there is none.
func (t *Terminal) fills(v engine.View, line string) string {
	f := t.form
	q, _ := f.form(v, f.got)
	c := v.Call()
	due := c.Press != "" && c.Due != nil && !c.Due.At.After(v.Now)
	switch low := strings.ToLower(line); {
	case low == "stop" || q.words == "":
		t.form = nil
		t.say("Left: nothing of it is written down.")
		return ""
	case low == "back":
		f.told, f.got = false, f.got[:max(0, len(f.got)-1)]
		return ""
	case line == "" && (q.none == "" || due): // the hands come first; then the question is told again
		if f.told = false; runs(c, v.Now) {
			t.stands(v)
		}
		return wording.If(due, "done")
	}
	text, err := q.read(line)
	if err != nil {
		if r, _, _, no := answer.Take(v.State, v.Now, line); no == nil && (len(r.Words) > 0 || len(r.Verbs) > 0) && !strings.ContainsAny(line[:1], "0123456789") {
			f.told = false
			return line
		}
		t.say("%s Or stop.", wording.Sentence(err.Error()))
		f.told = false
		return ""
	}
	if q.line != nil && q.line(text) {
		t.form = nil
		return f.name + " " + text
	}
	f.got, f.told = append(f.got, text), false
	next, done := f.form(v, f.got)
	if done != "" || next.words == "" {
		t.form = nil
	}
	return done
}

// read is what a line answers.
func (q question) read(line string) (string, error) {
	if line == "" {
		return q.none, nil
	}
	if len(q.of) == 0 {
		if q.check != nil {
			return line, q.check(line)
		}
		return line, nil
	}
	value := func(i int) string {
		if q.as != nil {
			return q.as[i]
		}
		return q.of[i]
	}
	one := func(word string) (string, bool) { // by its figure, its words, or a beginning that no other has
		var begun []int
		for i, w := range q.of {
			if word == strconv.Itoa(i+1) || strings.EqualFold(word, w) {
				return value(i), true
			}
			if len(word) > 2 && len(w) > len(word) && strings.EqualFold(word, w[:len(word)]) {
				begun = append(begun, i)
			}
		}
		if len(begun) == 1 {
			return value(begun[0]), true
		}
		return "", false
	}
	if v, ok := one(line); ok {
		return v, nil
	}
	if q.many {
		var all []string
		for _, word := range strings.FieldsFunc(line, func(r rune) bool { return r == ' ' || r == ',' }) {
			v, ok := one(word)
			if !ok {
				return "", errChoose(len(q.of))
			}
			all = append(all, v)
		}
		return strings.Join(all, ", "), nil
	}
	if q.open {
		if q.check == nil {
			return line, nil
		}
		return line, q.check(line)
	}
	return "", errChoose(len(q.of))
}

// errChoose is the number of choices that there are.
type errChoose int

func (n errChoose) Error() string { return "answer by 1 to " + strconv.Itoa(int(n)) }
