package command

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/recipe"
	"example.org/vatside/model/sheet"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/paper"
	"example.org/vatside/ui/shelf"
)

type papering struct {
	vat, day, what, format, out string
	recipe, pieceFile, units    string
	fill                        quantity.Volume
	strength                    quantity.Share
	pieces                      []string
	force, full                 bool
}

func (p *program) sheetCommand() *cobra.Command {
	var s papering
	const short = "On paper: a day, a vat's history, tags, slips, labels, costs, safety, the card for the eye"
	return p.command("sheet [VAT|VAT/DAY]", short, cobra.MaximumNArgs(1), func(r *reader) {
		r.rules = func() []rule { return s.rules(r) }
		r.StringVar(&s.what, "what", "day", "the `kind` of sheet: day, vat, tags, slips, labels, cost, safety or card")
		r.BoolVar(&s.full, "full", false, "with --what vat: each reading and dose of a long life too")
		r.StringVar(&s.format, "format", "", "the `form` of the file: txt, md or html (else by the name of the file, else txt)")
		r.StringVarP(&s.out, "out", "o", "", "`file` to write; one that is there is left alone without --force")
		r.BoolVar(&s.force, "force", false, "write over the file of -o")
		r.StringVar(&s.recipe, "recipe", "", "`id` of a recipe, or a recipe file: a day to come")
		value(r, &s.fill, "fill", "", "", fillRead)
		value(r, &s.strength, "indigo-strength", "", "", someShare)
		r.StringArrayVar(&s.pieces, "piece", nil, "a `piece` to come, such as 'A1=420 g linen, dark' or '90 g silk, 3 dips, scarf, of Mo'; once for each; with --what card the tag of a piece")
		r.StringVar(&s.pieceFile, "pieces", "", "`file` with [[piece]] blocks")
		r.StringVar(&s.units, "units", "", "`system` of units: metric, us or imperial (else as in the day, else as in the settings)")
		r.units = &s.units
	}, p.inHome(func(h shelf.Home, r *reader) error { return p.sheet(h, s, r.sys) }))
}

// rules are what of the usage can be told before anything is read.
func (s *papering) rules(r *reader) []rule {
	s.vat, s.day, _ = strings.Cut(strings.Join(r.args, ""), "/")
	end := strings.ToLower(filepath.Ext(s.out))
	if s.format == "" {
		s.format = map[string]string{".html": "html", ".htm": "html", ".md": "md", ".txt": "txt", "": "txt"}[end]
	}
	forms, coming := strings.Join(paper.Forms(), ", "), len(r.typed("recipe", "fill", "pieces", "indigo-strength"))
	card, toCome := s.what == "card", s.what != "card" && coming+len(s.pieces) > 0
	whole := slices.Contains([]string{"vat", "cost", "labels"}, s.what)
	return []rule{
		{!slices.Contains([]string{"day", "vat", "tags", "slips", "labels", "cost", "safety", "card"}, s.what),
			fmt.Sprintf("--what is day, vat, tags, slips, labels, cost, safety or card, not %q", s.what)},
		{s.format == "", fmt.Sprintf("a sheet is written as %s, not as %s: name -o so, or say --format", forms, strings.TrimPrefix(end, "."))},
		{card && s.day != "", "--what card is for a vat: name the vat alone"},
		{card && (coming > 0 || s.full), "--what card takes a vat and --piece with the tag of one piece, no more"},
		{card && (len(s.pieces) > 1 || len(s.pieces) == 1 && s.vat == ""),
			"--what card takes one --piece, the tag of a piece of a vat: vatside sheet garden-bin --what card --piece A1"},
		{s.force && s.out == "", "--force needs -o: the file to write over"},
		{!slices.Contains(paper.Forms(), s.format), fmt.Sprintf("--format is %s, not %q", forms, s.format)},
		{s.full && s.what != "vat", "--full is for --what vat: each reading and each dose"},
		{s.vat+s.day != "" && toCome, "give a vat, or --recipe for a day to come, not both"},
		{whole && (toCome || s.day != ""), fmt.Sprintf("--what %s is of all the days of a vat: name the vat alone", s.what)},
		{s.what == "safety" && s.day != "", "--what safety is for a vat: name the vat alone"},
		{toCome && s.recipe == "", "a day to come needs --recipe"},
		{toCome && !r.Changed("fill") && s.what != "safety", "a day to come needs --fill"},
		{(s.what == "tags" || s.what == "slips") && toCome && len(s.pieces) == 0 && s.pieceFile == "", s.what + " of a day to come need --piece or --pieces"},
	}
}

func (p *program) sheet(h shelf.Home, s papering, sys quantity.System) error {
	made := p.made(h, s, sys)
	switch {
	case p.json && s.out != "":
		return usageError{errors.New("--json goes to the screen: leave -o off")}
	case p.json:
		return p.asJSON(sheetOf(made))
	}
	page := got(paper.Set(made, s.format))
	if s.out == "" {
		fmt.Fprint(p.Out, page)
		return nil
	}
	err := shelf.WritePaper(s.out, page, s.force)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s is there already: name another file, or write over it with --force", s.out)
	}
	return err
}

// made is the sheet that was asked for.
func (p *program) made(h shelf.Home, s papering, sys quantity.System) sheet.Sheet {
	set, err := h.Settings()
	p.warn(err)
	switch {
	case s.what == "safety":
		return p.safety(h, s, set.Emergency, sys)
	case s.what == "card":
		return card(s, h)
	case s.recipe != "":
		return p.toCome(s, set, sys)
	}
	days := p.daysOf(h, s.vat, s.day)
	for i := range days {
		if s.units != "" {
			days[i].State.Head.Setup.Units = s.units
		}
	}
	out := p.ofDays(h, s, days)
	if s.what == "day" || s.what == "tags" || s.what == "slips" {
		days = days[len(days)-1:]
	}
	return out.WithDamage(days...)
}

// ofDays is the sheet of these days.
func (p *program) ofDays(h shelf.Home, s papering, days []sheet.Day) sheet.Sheet {
	last := days[len(days)-1]
	switch s.what {
	case "vat":
		return sheet.OfVat(days, library.Present(last.State), s.full)
	case "cost", "labels":
		name := last.State.Head.Name()
		v, err := library.Costs(h, last.State.Head.Vat, days, p.rates(h))
		p.warn(err)
		if s.what == "cost" {
			return sheet.OfCost(name, v, last.State.Head.Setup.System())
		}
		if len(v.Pieces) == 0 {
			stop("no piece was dipped in %s yet", name)
		}
		return sheet.OfLabels(name, days, v, library.Present(last.State))
	case "tags":
		must(noPieces(days, "to tag", func(d day.State) bool { return len(sheet.TagsOfDay(d).List) > 0 }))
		return sheet.OfTags(last.State.Head.Vat+", "+last.Name, sheet.TagsOfDay(last.State))
	case "slips":
		must(noPieces(days, "to take home", func(d day.State) bool { return len(sheet.SlipsOfDay(d).List) > 0 }))
		return sheet.OfSlips(last.State.Head.Vat+", "+last.Name, sheet.SlipsOfDay(last.State))
	}
	return sheet.OfDay(last, library.Present(last.State))
}

// card is the card for the eye, of a vat and a piece where they are named. A tag may be of a piece that is still to come.
func card(s papering, h shelf.Home) sheet.Sheet {
	vat := s.vat
	if vat != "" {
		vat = got(library.VatNamed(h, vat))
	}
	return sheet.OfCard(vat, strings.TrimSpace(strings.Join(s.pieces, "")))
}

// noPieces says that the last of these days has no pieces for what is wanted, and which have; nil where it has.
func noPieces(days []sheet.Day, want string, has func(day.State) bool) error {
	last := days[len(days)-1]
	vat := last.State.Head.Vat
	for i, d := range slices.Backward(days) {
		switch {
		case has(d.State) && i == len(days)-1:
			return nil
		case has(d.State):
			return fmt.Errorf("day %s of vat %s has no pieces %s; an earlier one has: name it as %s/%s", last.Name, vat, want, vat, d.Name)
		}
	}
	return fmt.Errorf("day %s of vat %s has no pieces %s; name another day as %s/DAY, or a piece to come with --recipe, --fill and --piece", last.Name, vat, want, vat)
}

// safety is the safety sheet: of a recipe, of a vat's recipe, else of all.
func (p *program) safety(h shelf.Home, s papering, emergency string, sys quantity.System) sheet.Sheet {
	var r *recipe.Recipe
	switch {
	case s.recipe != "":
		r = new(got(p.find(s.recipe)))
	case s.vat != "":
		days := p.daysOf(h, s.vat, s.day)
		r = &days[len(days)-1].State.Head.Recipe
	}
	return sheet.Safety(r, emergency, sys)
}

// toCome is a day that is still to be done.
func (p *program) toCome(s papering, set shelf.Settings, sys quantity.System) sheet.Sheet {
	r := got(p.find(s.recipe))
	setup := day.Setup{
		Fill: s.fill, Strength: s.strength, Units: sys.String(),
		Cold: set.Cold, Hot: set.Hot, Place: set.Place, Gear: set.Gear,
	}
	pieces := piecesToCome(s.pieceFile, s.pieces, sys)
	switch s.what {
	case "tags":
		return sheet.OfTags(r.Name+", "+setup.Fill.Format(sys), sheet.TagsOf(pieces, sys))
	case "slips":
		return sheet.OfSlips(r.Name+", "+setup.Fill.Format(sys), sheet.SlipsOf(pieces, r.Family, sys))
	}
	var plan load.Plan
	if len(pieces) > 0 {
		limits := p.limits(loading{pricing: pricing{recipe: s.recipe, fill: s.fill}, hands: set.Hands, vats: 1}, false, 0, sys)
		plan = got(load.Make(pieces, limits))
	}
	return got(sheet.OfRecipe(r, setup, pieces, plan))
}
