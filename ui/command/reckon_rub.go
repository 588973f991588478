package command

import (
	"github.com/spf13/cobra"

	"example.org/vatside/model/colour"
	"example.org/vatside/model/practice"
)

// reckonRub is the grade of a rubbing test by a colour meter.
func (p *program) reckonRub() *cobra.Command {
	var white, rubbed string
	return p.reckoning("rub --white COLOUR --rubbed COLOUR", "The grade of a rubbing test by a colour meter, on the grey scale for staining",
		"rub --white 94,0,2 --rubbed 88,-2,-5", []string{"white", "rubbed"},
		func(r *reader) error {
			var a, b labSeen
			read(r, &a, "--white", white, labRead)
			read(r, &b, "--rubbed", rubbed, labRead)
			if r.err != nil {
				return r.err
			}
			if err := alike(a, b); err != nil {
				return err
			}
			de := colour.Distance(a.lab, b.lab)
			grade, err := practice.StainGrade(de)
			if err != nil {
				return err
			}
			var tell telling
			tell.line("Grade %g of 5, from a difference of %.1f by CIELAB.", grade, de)
			tell.note("How", practice.Rubbing)
			tell.note("Note", "the scale's differences are from memory: where it counts, look at the card of ISO 105-A03 itself")
			return p.give(object{{"de76", tidy6(de)}, {"grade", grade}, {"how", practice.Rubbing}}, tell)
		},
		func(c *cobra.Command) {
			c.Flags().StringVar(&white, "white", "", "the clean white cotton's `colour`, such as 94,0,2")
			c.Flags().StringVar(&rubbed, "rubbed", "", "the `colour` of the cotton after rubbing")
		})
}
