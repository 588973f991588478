package command

import (
	"encoding/csv"
	"math"
	"strconv"
	"strings"

	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
)

// The keys of load --json.
type loaded struct {
	MakespanMin float64        `json:"makespan_min"`
	BoundMin    float64        `json:"bound_min"`
	GapMin      float64        `json:"gap_min"`
	Proven      bool           `json:"proven"`
	Rows        []loadedRow    `json:"rows"`
	Done        []loadedDone   `json:"done"`
	Stands      []loadedStand  `json:"stands"`
	Warnings    []string       `json:"warnings"`
	WhatIf      []loadedOption `json:"what_if,omitempty"`
	Choices     []loadedChoice `json:"choices"`                 // where the vat tires, else empty
	CostHead    *float64       `json:"cost_per_head,omitempty"` // in the dyer's own currency
}

type loadedRow struct {
	Tag    string  `json:"tag"`
	Dip    int     `json:"dip"`
	In     float64 `json:"in_min"`
	Out    float64 `json:"out_min"`
	Lower  float64 `json:"lower_min"`
	Lifted float64 `json:"lifted_min"`
	Who    string  `json:"who"`
	Vat    int     `json:"vat"`
	Hand   int     `json:"hand"`  // the pair that lowers it; 0: no limit of hands
	Round  int     `json:"round"` // of fair turns; 0: outside of them
}

type loadedDone struct {
	Tag string  `json:"tag"`
	Min float64 `json:"done_min"`
}

type loadedStand struct {
	Kind string  `json:"kind"`
	From float64 `json:"from_min"`
	To   float64 `json:"to_min"`
}

type loadedOption struct {
	ID       string   `json:"id"`
	Makespan *float64 `json:"makespan_min"`
	Finish   *float64 `json:"finish_min"`
	Warnings []string `json:"warnings"`
}

type loadedChoice struct {
	ID       string  `json:"id"`
	Chosen   bool    `json:"chosen"`
	Makespan float64 `json:"makespan_min"`
	Late     float64 `json:"late_min"`
	Weak     int     `json:"weak_dips"`
	What     string  `json:"what"`
}

// loadedOf is a plan as load --json gives it; at says a time of it.
func loadedOf(plan load.Plan, options []load.Option, at func(quantity.Span) string) loaded {
	min := func(s quantity.Span) float64 { return tidy(s.Minutes()) }
	out := loaded{
		MakespanMin: min(plan.Makespan), BoundMin: min(plan.Bound), GapMin: min(plan.Gap), Proven: plan.Proven,
		Rows: []loadedRow{}, Done: []loadedDone{}, Stands: []loadedStand{}, Warnings: append([]string{}, plan.Warnings...), Choices: []loadedChoice{},
	}
	for _, c := range plan.Choices {
		out.Choices = append(out.Choices, loadedChoice{c.ID, c.Chosen, min(c.Makespan), min(c.Late), c.Weak, c.Words(at)})
	}
	for _, r := range plan.Rows {
		out.Rows = append(out.Rows, loadedRow{r.Tag, r.Dip, min(r.In), min(r.Out), min(r.Lower), min(r.Lifted), r.Who, r.Vat, r.Hand, r.Round})
	}
	for _, d := range plan.Done {
		out.Done = append(out.Done, loadedDone{d.Tag, min(d.At)})
	}
	for _, s := range plan.Stands {
		out.Stands = append(out.Stands, loadedStand{s.Kind, min(s.From), min(s.To)})
	}
	for _, o := range options {
		w := loadedOption{ID: o.ID, Warnings: append([]string{}, o.Warnings...)}
		if o.Fault != "" {
			w.Warnings = append(w.Warnings, o.Fault)
		} else {
			w.Makespan, w.Finish = new(min(o.Plan.Makespan)), new(min(o.Finish))
		}
		out.WhatIf = append(out.WhatIf, w)
	}
	return out
}

// csvOf is a timetable as comma-separated values with a head line: tag, number of the dip, vat, and in minutes from the start
// when it is lowered, in, over and lifted, whether it lay behind already, whose the piece is, which pair of hands lowers it and
// the round of fair turns; 0 where there is none. Lines end in a line feed.
func csvOf(plan load.Plan) string {
	var b strings.Builder
	w := csv.NewWriter(&b)
	_ = w.Write(strings.Split("tag,dip,vat,lower_min,in_min,out_min,lifted_min,past,who,hand,round", ",")) // into memory: it cannot fail
	for _, r := range plan.Rows {
		fields := []string{r.Tag, strconv.Itoa(r.Dip), strconv.Itoa(r.Vat)}
		for _, at := range []quantity.Span{r.Lower, r.In, r.Out, r.Lifted} {
			fields = append(fields, strconv.FormatFloat(math.Round(at.Minutes()*100)/100, 'f', -1, 64))
		}
		past := ""
		if r.Past {
			past = "past"
		}
		_ = w.Write(append(fields, past, r.Who, strconv.Itoa(r.Hand), strconv.Itoa(r.Round)))
	}
	w.Flush()
	return b.String()
}
