package command

import (
	"slices"

	"example.org/vatside/model/practice"
	"example.org/vatside/model/prepare"
	"example.org/vatside/model/quantity"
)

// The keys of prepare --json. scour is null for goods that are scoured.
type preparedOut struct {
	ReadyAt   string          `json:"ready_at"`
	BeginAt   string          `json:"begin_at"`
	Pieces    []preparedPiece `json:"pieces"`
	Checklist []preparedItem  `json:"checklist"`
	Schedule  []preparedSlot  `json:"schedule"`
	Warnings  []string        `json:"warnings"`
	Notes     []string        `json:"notes"`
}

type preparedPiece struct {
	Piece  string         `json:"piece"`
	Fibre  string         `json:"fibre"`
	DryG   float64        `json:"dry_g"`
	State  practice.State `json:"state"`
	Scour  *preparedScour `json:"scour"`
	WetOut preparedWet    `json:"wet_out"`
}

type preparedScour struct {
	Detergent  string   `json:"detergent"`
	DetergentG spread   `json:"detergent_g"`
	Alkali     *string  `json:"alkali"`
	AlkaliG    spread   `json:"alkali_g"`
	WaterL     spread   `json:"water_l"`
	TempC      spread   `json:"temp_c"`
	TimeMin    spread   `json:"time_min"`
	Baths      spread   `json:"baths"`
	How        string   `json:"how"`
	Check      string   `json:"check"`
	Cautions   []string `json:"cautions"`
	Evidence   string   `json:"evidence"`
}

type preparedWet struct {
	WaterL   float64 `json:"water_l"`
	TempC    spread  `json:"temp_c"`
	TimeMin  spread  `json:"time_min"`
	How      string  `json:"how"`
	Check    string  `json:"check"`
	Evidence string  `json:"evidence"`
}

type preparedItem struct {
	ID       string `json:"id"`
	What     string `json:"what"`
	Why      string `json:"why"`
	When     string `json:"when"`
	Safety   bool   `json:"safety"`
	Evidence string `json:"evidence"`
}

type preparedSlot struct {
	At     string  `json:"at"`
	ForMin float64 `json:"for_min"`
	What   string  `json:"what"`
	How    string  `json:"how"`
	Check  string  `json:"check"`
}

func preparedOf(ready prepare.Schedule, items []practice.Item, sys quantity.System) preparedOut {
	out := preparedOut{ReadyAt: stamp(ready.Ready), BeginAt: stamp(ready.Begin()), Pieces: []preparedPiece{}, Checklist: []preparedItem{},
		Schedule: []preparedSlot{}, Warnings: slices.Concat([]string{}, ready.Unfit, ready.Warnings), Notes: append([]string{}, ready.Notes...)}
	for _, l := range ready.Lots {
		name := l.Name(sys)
		if l.Scoured && l.State == "" {
			l.State = "scoured"
		}
		out.Pieces = append(out.Pieces, preparedPiece{
			Piece: name, Fibre: l.Fibre.String(), DryG: tidy(l.Dry.Grams()), State: l.State, Scour: scourOf(l.Scour),
			WetOut: preparedWet{tidy(l.Wet.Water.Litres()), spreadOf(l.Wet.Temp, quantity.Temperature.Celsius), spreadOf(l.Wet.Time, quantity.Span.Minutes),
				l.Wet.How, l.Wet.Check, l.Wet.Evidence},
		})
	}
	if slices.ContainsFunc(ready.Lots, func(l prepare.Prepared) bool { return l.Scour != nil }) {
		out.Notes = append(out.Notes, practice.DropTest)
	}
	for _, i := range items {
		out.Checklist = append(out.Checklist, preparedItem{i.ID, i.What, i.Why, i.When.String(), i.Safety, i.Evidence})
	}
	for _, a := range ready.Tasks {
		out.Schedule = append(out.Schedule, preparedSlot{stamp(a.At), tidy(a.For.Minutes()), a.What, a.How, a.Check})
	}
	return out
}

func scourOf(s *practice.Scour) *preparedScour {
	if s == nil {
		return nil
	}
	out := &preparedScour{Detergent: s.Washes(), DetergentG: spreadOf(s.Detergent, quantity.Mass.Grams), AlkaliG: spreadOf(s.Alkali, quantity.Mass.Grams),
		WaterL: spreadOf(s.Water, quantity.Volume.Litres), TempC: spreadOf(s.Temp, quantity.Temperature.Celsius),
		TimeMin: spreadOf(s.Time, quantity.Span.Minutes), Baths: spreadOf(s.Baths, func(n int) float64 { return float64(n) }),
		How: s.How, Check: s.Check, Cautions: append([]string{}, s.Cautions...), Evidence: s.Evidence}
	if s.AlkaliIs != "" {
		out.Alkali = &s.AlkaliIs
	}
	return out
}

// spreadOf is a range as JSON has it.
func spreadOf[T interface {
	~int | ~int64 | ~float64
}](r quantity.Range[T], of func(T) float64) spread {
	return spread{tidy(of(r.Low)), tidy(of(r.Likely)), tidy(of(r.High))}
}
