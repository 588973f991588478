package answer

import "example.org/vatside/model/day"

// benchRows are the pieces after their dips.
func benchRows() []Row {
	onBench := func(s day.State) bool { return len(s.OnBench()) > 0 }
	step := func(id string) func(day.State, day.Act) bool {
		return func(_ day.State, a day.Act) bool {
			return a.Kind == day.ActBench && (id == "" || a.Bench.ID == id) && a.Caution == ""
		}
	}
	return []Row{
		{ID: "bench", Say: "bench TAG", Words: []string{"bench"}, Verbs: []string{"next"}, Does: "what a piece wants next was done, or it is out of its bath", Group: Bench,
			Example: "bench A1", tagged: true, bare: true, alone: "on the bench", Possible: onBench,
			Parse: func(l Line) ([]day.Command, error) {
				return eachPiece(l, func(tag string) (day.Command, error) { return day.Bench{Tag: tag}, nil })
			}},
		{ID: "rinsed", Say: "rinsed TAG", Words: []string{"rinsed"}, Verbs: []string{"rinsed"}, Does: "one rinse more", Key: "A", Group: Bench,
			Example: "rinsed A1", tagged: true, bare: true, Possible: onBench,
			Parse: func(l Line) ([]day.Command, error) {
				return eachPiece(l, func(tag string) (day.Command, error) {
					return day.Record{Body: day.Rinsed{OfPiece: day.OfPiece{Tag: tag}}}, nil
				})
			}},
		{ID: "crock", Say: "crock TAG DRY WET", Words: []string{"crock"}, Does: "how much blue came off on white, dry and wet: 5 none to 1 heavy", Group: Bench,
			Example: "crock A1 4 2.5", tagged: true, Possible: anyPiece(finished), Fits: step(day.Crock),
			Parse: func(l Line) ([]day.Command, error) {
				b := day.CrockTested{OfPiece: day.OfPiece{Tag: l.tag()}}
				var err error
				b.Dry, b.Wet, err = day.ParseCrock(l.Rest)
				return record(b, err)
			}},
		{ID: "leave", Say: "leave TAG [REASON]", Words: []string{"leave", "leave out"}, Does: "leave the next step of a piece out", Group: Bench,
			Example: "leave A1 no soap here", tagged: true, Possible: anyPiece(finished), Fits: step(""),
			Parse: func(l Line) ([]day.Command, error) {
				return eachPiece(l, func(tag string) (day.Command, error) { return day.LeaveOut{Tag: tag, Reason: l.Rest}, nil })
			}},
	}
}
