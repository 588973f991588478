package widget

import (
	"strconv"
	"strings"
	"time"

	"example.org/vatside/ui/style"
)

// hourLine names now and the hours.
func (p *plot) hourLine() string {
	row := []rune(strings.Repeat(" ", p.cols))
	from, to := -1, -1
	word := "now"
	if p.now >= 0 && p.now < p.cols && p.cols >= len(word) {
		from = min(max(p.now-1, 0), p.cols-len(word))
		to = from + len(word)
	}
	next := 0
	for _, m := range p.hours() {
		x, ok := p.column(m.at)
		if !ok {
			continue
		}
		w := len(m.text)
		x = max(0, min(x-(w-1)/2, p.cols-w))
		if x < next || x+w > p.cols || to >= 0 && x < to+1 && x+w > from-1 {
			continue
		}
		copy(row[x:], []rune(m.text))
		next = x + w + 2
	}
	unit := ""
	if p.margin > 0 {
		unit = p.st.Dim.Render(style.Pad(p.Unit, p.margin))
	}
	if to < 0 {
		return unit + p.st.Dim.Render(strings.TrimRight(string(row), " "))
	}
	return unit + p.st.Dim.Render(string(row[:from])) + p.st.Now.Render(word) +
		p.st.Dim.Render(strings.TrimRight(string(row[to:]), " "))
}

type hourMark struct {
	at   time.Time
	text string
}

// hours lists round times of the window, as close as they can be read.
func (p *plot) hours() []hourMark {
	const day = 24 * time.Hour
	fits := func(step time.Duration, w int) bool {
		return step.Seconds()/p.length*float64(p.cols) >= float64(w+3)
	}
	local := p.From.In(p.Zone)
	year, month, date := local.Date()
	var marks []hourMark
	for _, m := range []int{1, 2, 5, 10, 15, 30} {
		step := time.Duration(m) * time.Minute
		if p.length > 3*3600 || !fits(step, 5) {
			continue
		}
		for t := time.Date(year, month, date, local.Hour(), 0, 0, 0, p.Zone); !t.After(p.To); t = t.Add(step) {
			marks = append(marks, hourMark{t, t.Format("15:04")})
		}
		return marks
	}
	long := p.length > (30 * time.Hour).Seconds()
	for _, h := range []int{1, 2, 3, 4, 6, 12} {
		w := 2
		if long {
			w = 3
		}
		if !fits(time.Duration(h)*time.Hour, w) {
			continue
		}
		for t := time.Date(year, month, date, local.Hour(), 0, 0, 0, p.Zone); !t.After(p.To); t = t.Add(time.Hour) {
			switch {
			case t.Hour() == 0 && long:
				marks = append(marks, hourMark{t, t.Format("Mon")})
			case t.Hour()%h == 0:
				marks = append(marks, hourMark{t, strconv.Itoa(t.Hour())})
			}
		}
		return marks
	}
	days, form := 1, "Mon"
	if p.length > (8 * day).Seconds() {
		form = "2 Jan"
	}
	for !fits(time.Duration(days)*day, len(form)) && days < 1<<14 {
		days *= 2
	}
	for i := 0; len(marks) <= p.cols; i += days {
		t := time.Date(year, month, date+i, 0, 0, 0, 0, p.Zone)
		if t.After(p.To) {
			break
		}
		marks = append(marks, hourMark{t, t.Format(form)})
	}
	return marks
}
