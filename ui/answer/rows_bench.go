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
		{ID: "bench", Say: "bench TAG", Words: []string{"bench"}, Verbs: []string{"next"}, Does: "what comes next for a piece after its dips was done, or it is out of its bath", Group: Bench,
			Example: "bench A1", tagged: true, bare: true, alone: "on the bench", Possible: onBench,
			Parse: ofEach(func(_ Line, tag string) day.Command { return day.Bench{Tag: tag} })},
		after("rinsed", "rinsed TAG", "it had one rinse more", func(of day.OfPiece) day.Body { return day.Rinsed{OfPiece: of} }).key("A", "rinsed once more"),
		after("soured", "soured TAG", "it was soured, told afterwards", func(of day.OfPiece) day.Body { return day.Soured{OfPiece: of} }),
		after("soaped", "soaped TAG", "it was soaped, told afterwards", func(of day.OfPiece) day.Body { return day.Soaped{OfPiece: of} }),
		after("dried", "dried TAG", "it is dry", func(of day.OfPiece) day.Body { return day.Dried{OfPiece: of} }),
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
			Parse: ofEach(func(l Line, tag string) day.Command { return day.LeaveOut{Tag: tag, Reason: l.Rest} })},
	}
}

// after is what was done to a piece after its dips, told of by hand.
func after(id, say, does string, body func(day.OfPiece) day.Body) Row {
	return Row{ID: id, Say: say, Words: []string{id}, Verbs: []string{id}, Does: does, Group: Bench, Example: id + " A1", tagged: true, bare: true, Possible: anyPiece(finished),
		Parse: wroteOfEach(func(_ Line, of day.OfPiece) day.Body { return body(of) })}
}

func (r Row) key(k, short string) Row {
	r.Key, r.Short = k, short
	return r
}
