package command

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/cost"
	"example.org/vatside/model/day"
	"example.org/vatside/model/load"
	"example.org/vatside/model/quantity"
	"example.org/vatside/model/sheet"
	"example.org/vatside/ui/library"
	"example.org/vatside/ui/paper"
	"example.org/vatside/ui/shelf"
)

type papering struct {
	vat, day                                 string
	what, format, out                        string
	recipe, fill, strength, pieceFile, units string
	pieces                                   []string
	force, full                              bool
}

func (p *program) sheetCommand() *cobra.Command {
	var s papering
	c := &cobra.Command{
		Use: "sheet [VAT|VAT/DAY]", Short: "On paper: a day, a vat's history, tags, slips, labels, costs, safety, the card for the eye",
		Long: "A sheet to print or to keep, as text, Markdown or HTML: a day as it was or as it stands, a vat's whole history, the tags of the\n" +
			"pieces, a slip to take home for each person, the labels for their buyers, what they cost, or the safety sheet. Without VAT it is the vat that was last worked on. With --recipe and --fill it is the day to come,\n" +
			"with boxes to tick, and needs no vat. A long life is told by its days; --full has each reading and each dose.\n\n" +
			"--what card is one page to print, A4 or Letter, and to lay over dry cloth: holes to see the blue by itself, the dyer's own rungs beside\n" +
			"them. Its code carries the VAT and the tag of --piece, if they are given, to vatside look.",
		Args: usage(cobra.MaximumNArgs(1)),
		Example: "  vatside sheet garden-bin --format html -o day.html\n" +
			"  vatside sheet garden-bin/2026-11-25\n" +
			"  vatside sheet garden-bin --what vat --format md\n" +
			"  vatside sheet garden-bin --what vat --full\n" +
			"  vatside sheet --recipe soda --fill 60L --piece 'A1=420 g linen, dark, table runner' -o tomorrow.html\n" +
			"  vatside sheet garden-bin --what card --piece A1 -o card.html\n" +
			"  vatside sheet --what safety --recipe soda -o safety.html",
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) > 0 {
				s.vat, s.day, _ = strings.Cut(args[0], "/")
			}
			if err := s.check(c); err != nil {
				return err
			}
			return p.sheet(s, c)
		},
	}
	f := c.Flags()
	f.StringVar(&s.what, "what", "day", "day, vat, tags, slips, labels, cost, safety or card")
	f.BoolVar(&s.full, "full", false, "with --what vat: each reading and dose of a long life too")
	f.StringVar(&s.format, "format", "", "txt, md or html (else by the name of the file, else txt)")
	f.StringVarP(&s.out, "out", "o", "", "`file` to write; one that is there is left alone without --force")
	f.BoolVar(&s.force, "force", false, "write over the file of -o")
	f.StringVar(&s.recipe, "recipe", "", "`id` of a recipe, or a recipe file: a day to come")
	texts(c, texted{"fill": &s.fill, "indigo-strength": &s.strength})
	f.StringArrayVar(&s.pieces, "piece", nil, "a piece to come, such as `'A1=420 g linen, dark'` or '90 g silk, 3 dips, scarf, of Mo'; once for each; with --what card the tag of a piece")
	f.StringVar(&s.pieceFile, "pieces", "", "`file` with [[piece]] blocks")
	f.StringVar(&s.units, "units", "", "metric, us or imperial (else as in the day, else as in the settings)")
	p.jsonFlag(c)
	return c
}

// check is what of the usage can be told before anything is read.
func (s *papering) check(c *cobra.Command) error {
	wrong := func(words string, a ...any) error { return usageError{fmt.Errorf(words, a...)} }
	given := func(flag string) bool { return c.Flags().Changed(flag) }
	if !slices.Contains([]string{"day", "vat", "tags", "slips", "labels", "cost", "safety", "card"}, s.what) {
		return wrong("--what is day, vat, tags, slips, labels, cost, safety or card, not %q", s.what)
	}
	if s.format == "" {
		end := strings.ToLower(filepath.Ext(s.out))
		if s.format = map[string]string{".html": "html", ".htm": "html", ".md": "md", ".txt": "txt", "": "txt"}[end]; s.format == "" {
			return wrong("a sheet is written as %s, not as %s: name -o so, or say --format", strings.Join(paper.Forms(), ", "), strings.TrimPrefix(end, "."))
		}
	}
	if s.what == "card" {
		switch {
		case s.day != "":
			return wrong("--what card is for a vat: name the vat alone")
		case given("recipe") || given("fill") || given("pieces") || given("indigo-strength") || s.full:
			return wrong("--what card takes a vat and --piece with the tag of one piece, no more")
		case len(s.pieces) > 1 || len(s.pieces) == 1 && s.vat == "":
			return wrong("--what card takes one --piece, the tag of a piece of a vat: vatside sheet garden-bin --what card --piece A1")
		case s.force && s.out == "":
			return wrong("--force needs -o: the file to write over")
		case !slices.Contains(paper.Forms(), s.format):
			return wrong("--format is %s, not %q", strings.Join(paper.Forms(), ", "), s.format)
		}
		return nil
	}
	toCome := given("recipe") || given("fill") || len(s.pieces) > 0 || given("pieces") || given("indigo-strength")
	switch {
	case !slices.Contains(paper.Forms(), s.format):
		return wrong("--format is %s, not %q", strings.Join(paper.Forms(), ", "), s.format)
	case s.force && s.out == "":
		return wrong("--force needs -o: the file to write over")
	case s.full && s.what != "vat":
		return wrong("--full is for --what vat: each reading and each dose")
	case s.vat+s.day != "" && toCome:
		return wrong("give a vat, or --recipe for a day to come, not both")
	case slices.Contains([]string{"vat", "cost", "labels"}, s.what) && (toCome || s.day != ""):
		return wrong("--what %s is of all the days of a vat: name the vat alone", s.what)
	case s.what == "safety" && s.day != "":
		return wrong("--what safety is for a vat: name the vat alone")
	case toCome && s.recipe == "":
		return wrong("a day to come needs --recipe")
	case toCome && s.fill == "" && s.what != "safety":
		return wrong("a day to come needs --fill")
	case (s.what == "tags" || s.what == "slips") && toCome && len(s.pieces) == 0 && s.pieceFile == "":
		return wrong("%s of a day to come need --piece or --pieces", s.what)
	}
	return nil
}

func (p *program) sheet(s papering, c *cobra.Command) error {
	made, err := p.made(s, c)
	if err != nil {
		return err
	}
	if p.json && s.out != "" {
		return usageError{errors.New("--json goes to the screen: leave -o off")}
	}
	if p.json {
		return p.asJSON(sheetOf(made))
	}
	page, err := paper.Set(made, s.format)
	if err != nil {
		return err
	}
	if s.out == "" {
		fmt.Fprint(p.Out, page)
		return nil
	}
	err = shelf.WritePaper(s.out, page, s.force)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s is there already: name another file, or write over it with --force", s.out)
	}
	return err
}

// made is the sheet that was asked for.
func (p *program) made(s papering, c *cobra.Command) (sheet.Sheet, error) {
	h, err := p.shelf()
	if err != nil {
		return sheet.Sheet{}, err
	}
	set, err := h.Settings()
	p.warn(err)
	if s.what == "safety" {
		return p.safety(s, h, set)
	}
	if s.what == "card" {
		return card(s, h)
	}
	if s.recipe != "" {
		return p.toCome(s, set, c)
	}
	days, err := p.daysOf(h, s.vat, s.day)
	if err != nil {
		return sheet.Sheet{}, err
	}
	for i := range days {
		if s.units != "" {
			if _, err := p.units(s.units); err != nil {
				return sheet.Sheet{}, err
			}
			days[i].State.Head.Setup.Units = s.units
		}
	}
	out, err := p.ofDays(s, h, set, days)
	if s.what == "day" || s.what == "tags" || s.what == "slips" {
		days = days[len(days)-1:]
	}
	return out.WithDamage(days...), err
}

// ofDays is the sheet of these days.
func (p *program) ofDays(s papering, h shelf.Home, set shelf.Settings, days []sheet.Day) (sheet.Sheet, error) {
	last := days[len(days)-1]
	switch s.what {
	case "vat":
		return sheet.OfVat(days, library.Present(last.State), s.full), nil
	case "cost", "labels":
		name := last.State.Head.Name()
		v, err := library.Costs(h, last.State.Head.Vat, days, cost.Rates{Hour: set.Hour, KWh: set.KWh})
		p.warn(err)
		if s.what == "cost" {
			return sheet.OfCost(name, v, last.State.Head.Setup.System()), nil
		}
		if len(v.Pieces) == 0 {
			return sheet.Sheet{}, fmt.Errorf("no piece was dipped in %s yet", name)
		}
		return sheet.OfLabels(name, days, v, library.Present(last.State)), nil
	case "tags":
		tags := sheet.TagsOfDay(last.State)
		if len(tags.List) == 0 {
			return sheet.Sheet{}, noPieces(days, "to tag", func(d day.State) bool { return len(sheet.TagsOfDay(d).List) > 0 })
		}
		return sheet.OfTags(last.State.Head.Vat+", "+last.Name, tags), nil
	case "slips":
		slips := sheet.SlipsOfDay(last.State)
		if len(slips.List) == 0 {
			return sheet.Sheet{}, noPieces(days, "to take home", func(d day.State) bool { return len(sheet.SlipsOfDay(d).List) > 0 })
		}
		return sheet.OfSlips(last.State.Head.Vat+", "+last.Name, slips), nil
	}
	return sheet.OfDay(last, library.Present(last.State)), nil
}

// card is the card for the eye, of a vat and a piece where they are named. A tag may be of a piece that is still to come.
func card(s papering, h shelf.Home) (sheet.Sheet, error) {
	vat, piece := s.vat, strings.Join(s.pieces, "")
	if vat != "" {
		var err error
		if vat, err = library.VatNamed(h, vat); err != nil {
			return sheet.Sheet{}, err
		}
	}
	return sheet.OfCard(vat, strings.TrimSpace(piece)), nil
}

// noPieces says that the last of these days has no pieces for what is wanted, and which have.
func noPieces(days []sheet.Day, want string, has func(day.State) bool) error {
	last := days[len(days)-1]
	vat := last.State.Head.Vat
	for _, d := range slices.Backward(days) {
		if has(d.State) {
			return fmt.Errorf("day %s of vat %s has no pieces %s; an earlier one has: name it as %s/%s", last.Name, vat, want, vat, d.Name)
		}
	}
	return fmt.Errorf("day %s of vat %s has no pieces %s; name another day as %s/DAY, or a piece to come with --recipe, --fill and --piece", last.Name, vat, want, vat)
}

// safety is the safety sheet: of a recipe, of a vat's recipe, else of all.
func (p *program) safety(s papering, h shelf.Home, set shelf.Settings) (sheet.Sheet, error) {
	sys, err := p.units(s.units)
	if err != nil {
		return sheet.Sheet{}, err
	}
	switch {
	case s.recipe != "":
		r, err := p.find(s.recipe)
		if err != nil {
			return sheet.Sheet{}, err
		}
		return sheet.Safety(&r, set.Emergency, sys), nil
	case s.vat != "":
		days, err := p.daysOf(h, s.vat, s.day)
		if err != nil {
			return sheet.Sheet{}, err
		}
		return sheet.Safety(&days[len(days)-1].State.Head.Recipe, set.Emergency, sys), nil
	}
	return sheet.Safety(nil, set.Emergency, sys), nil
}

// toCome is a day that is still to be done.
func (p *program) toCome(s papering, set shelf.Settings, c *cobra.Command) (sheet.Sheet, error) {
	sys, err := p.units(s.units)
	if err != nil {
		return sheet.Sheet{}, err
	}
	r, err := p.find(s.recipe)
	if err != nil {
		return sheet.Sheet{}, err
	}
	setup := day.Setup{Units: map[quantity.System]string{quantity.US: "us", quantity.Imperial: "imperial"}[sys], Cold: set.Cold, Hot: set.Hot, Place: set.Place, Gear: set.Gear}
	in := reader{sys: sys, c: c}
	fillUpTo(&in, &setup.Fill, "--fill", s.fill)
	read(&in, &setup.Strength, "--indigo-strength", s.strength, quantity.ParseShare)
	if in.err != nil {
		return sheet.Sheet{}, in.err
	}
	pieces, err := piecesToCome(s.pieceFile, s.pieces, sys)
	if err != nil {
		return sheet.Sheet{}, err
	}
	if s.what == "tags" {
		return sheet.OfTags(r.Name+", "+setup.Fill.Format(sys), sheet.TagsOf(pieces, sys)), nil
	}
	if s.what == "slips" {
		return sheet.OfSlips(r.Name+", "+setup.Fill.Format(sys), sheet.SlipsOf(pieces, r.Family, sys)), nil
	}
	var plan load.Plan
	if len(pieces) > 0 {
		limits, err := p.limits(loading{pricing: pricing{recipe: s.recipe, fill: s.fill}, hands: max(1, set.Hands), vats: 1}, c, 0, sys)
		if err != nil {
			return sheet.Sheet{}, err
		}
		if plan, err = load.Make(pieces, limits); err != nil {
			return sheet.Sheet{}, err
		}
	}
	return sheet.OfRecipe(r, setup, pieces, plan)
}
