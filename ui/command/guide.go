package command

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"
)

// guideCommand prints what a dyer reads once: how a day goes on the screens, how a vat is kept, scripts, and the files.
func (p *program) guideCommand() *cobra.Command {
	var names []string
	long := "What is read once, a page each:\n"
	for _, t := range guides {
		names = append(names, t.name)
		long += fmt.Sprintf("\n  %-9s %s", t.name, t.of)
	}
	return &cobra.Command{
		Use: "guide [" + strings.Join(names, "|") + "]", Short: "How a day goes on the screens, how a vat is kept, scripts, files and their safety",
		Long: long, Args: usage(cobra.MatchAll(cobra.MaximumNArgs(1), cobra.OnlyValidArgs)), ValidArgs: names,
		Example: "  vatside guide day\n  vatside guide files",
		RunE: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				p.say("%s\n\nvatside guide %s prints the first.", long, names[0])
				return nil
			}
			for _, t := range guides {
				if t.name == args[0] {
					p.say("%s", strings.TrimSpace(t.text))
				}
			}
			return nil
		},
	}
}

// guides are the pages.
var guides = []struct{ name, of, text string }{
	{"day", "a day on the screens, its keys and its clock", `
Space, Enter, PageDown, F1 to F12 and a click on the call mean done: a foot pedal or a presenter's
remote serves. A click on a key's label, a row or an answer does what that says; for a pedal that is a
mouse a setting makes the whole screen the call. PageUp takes back; nothing is erased.
? shows all keys of a screen. ! is first aid. Esc leads to the day, H home.

Weighing: each figure that you type is a scoop on the scale, and the sum says what is still to go.
A step with powder, hot water or heat begins with a caution: the first press answers it, the second
says done. i says that children have come or gone; ": hot" and why, that an adult works above 45 °C
with sticks.

: opens a line for what was done, read or seen, in words: "36 C", "A1 out 2 min ago", "top up 2 L at
12 C". It shows what they will be taken for; Enter takes them, Esc leaves them. A letter means the same
on all screens of a day, and in that line: "r 36". p adds a piece; typed whole it is one line, "A1 linen
420 g dark", or the name of a file of [[piece]] blocks, or "as before".

When the vat is ready the clock takes over. A dip whose call nobody answers for 30 s is taken as lifted
and marked so, until you confirm it, or say when it really was; k lists several of them. After two
such acts in a row the clock waits and calls. An airing is a least time: a piece goes in by your key. A
setting lets it go in by itself where you answered the lift: the froth counts as skimmed, then the piece
as in, each after 30 s of calling. Nothing is assumed over a sleep of the machine, a crash or a restart.

While you are on another screen the call stands on it in one row; in its last minute in big letters; at
zero its clock comes to the front. Of several vats the most pressing is told, by its name.

After an airing, from the last dip but two on, the call is LOOK: the wish, the piece wet, as it dries,
and one dip more. 1 stops it, 2 gives it one dip more, 3 leaves it as planned; so do the big key and
silence. A setting turns it off.

Read °C (r), pH (h, "10.4 25" where it was read at 25 °C), how full it is (d), a strip (t as it comes
out, t as it turns blue) at any time: each reading moves the reckoning. A figure says whether it is
read, reckoned or guessed. g draws the course of °C; a says the one thing that is missing and how much.
Whether the vat is ready is judged by strip, swatch, film and froth, or your eye; the book keeps which.

B plans a piece: cloth as it will be after each dip. Without swatches of your own it is a guess and says
so. L is the ladder: a strip that goes through the vat like a piece; after each dip a rung is cut off,
rinsed, ironed dry and judged. Three rungs narrow the forecasts. m is the timetable of all pieces.

A class: while you talk, M holds the pieces back: none is called to go in, lifts still are; M again goes
on. Where pieces are people's, board.html in the vat's folder is a board for a second screen: open it in
a browser, it reads itself again. A setting turns it off.

The settings (, on home) have pot, stove, heater, air, and the hour at which you want to be dyeing. The
theme is auto, dark, light or sun. With auto the terminal is asked for its ground, else COLORFGBG
counts, else it is painted light. ctrl+Z puts the program aside, ctrl+L paints it anew.
--plain says everything in sentences, for a screen reader or a pipe, and takes the same words. In a terminal
it sounds the calls as the screens do and asks for the sound check; in a pipe it is silent.`},
	{"vat", "keeping a vat: signs, care, powders, after the dips, cost, its end", `
Signs (u): tick what you see. You get the likeliest cause, one thing to do with its grams, how, and when
to look again. The look afterwards is a timer, and its answer narrows the next one. "Do nothing" and
"stop dyeing" are answers.

Care (j): what is due, what comes next, °C, pH, strips and swatches over the vat's life, what is left in
it. Close a day with "for the winter" and nothing calls until you revive it.

Before the day (b on home): scouring, wetting out, a list to tick, backwards from the hour at which you
want to dye. Powders (P on home): tins, what is left in each, the test of an old reducer, what to buy.

After the dips (tab): rinses, the gate before any acid, soaping, rubbing, drying, the look at it dry. No
acid before two rinses and full airing where a sulfur reducer was ever in the vat; there is no way round.

Cost (C on home): each piece's share of the vat by the indigo that it took, your hours, and the words for
its label. What an hour and a kilowatt-hour cost stands in the settings.

The end (X on home), over two days: used up, oxidised, an hour alone, settled, drawn off, a mild pH, and
where it may go. vatside rehearse --kept --home DIR plays three months of a vat.`},
	{"scripts", "a day by a script, and what the commands take", `
begin and say are the day without a screen. say VAT 'WORDS' takes the words of --plain; vatside say
--help lists them. --at 10:42 says when it was, at the last event or later. What needs a caution answered
first ends with 3 and writes nothing; the same words with --answered write the answer and the act.
--call ID is refused where the call is another by now. With --json each prints the events that were
written, the call as it is then, the caution or the error; now --json has the call too.

begin --built takes over a vat that stands full and made; --vessel 'frustum 36cm 44cm 62cm HDPE' has the
rim guarded; --goods has the day ask first what is to be dyed, else it goes on as not weighed and says so;
--kept wrapped (heater, sun, not) says how a slow vat is kept warm. While another program has the vat open
both are refused.

A vessel is its inside measures: frustum 25.4cm 29.9cm 36.8cm (across the floor, across the rim, height),
cylinder, box; or what a jug told: jug 5L=8.4cm 10L=16.1cm 36.8cm.

dips is a guess until it has seen swatches of your own: --swatch '3x5min cotton, rung 3 = lab 55,-5,-20',
once for each. load reads [[piece]] blocks with tag, fibre, dry, and depth or dips; --as ical makes a
calendar. --fed 3d tells signs and reckon dose when a ferment vat was last fed. What depends on the day is
a range with its reason. In the tables of book export a text that a spreadsheet would take for a formula
has an apostrophe in front; --bom is for a program that shows Â° for °.

rehearse --plain --speed max plays a day in seconds, a line an event: VAT/DAY#NUMBER, the time, what
happened. Exit status: 0 done, 1 bad input, 2 wrong usage, 3 a caution or a question is to be answered.`},
	{"files", "where the data lie, what survives what, what is never deleted", `
Vats, your own recipes and settings lie in the platform's data folder, in VATSIDE_HOME, or where --home
DIR says. A day is one plain TOML file that you can read and mend.

Saved means on disk: it survives a power cut at any moment. What a day's file refuses (a full disk, a
stick that was pulled) goes at once to vatside/spilled in the platform's state folder, else into the
folder for temporary files, which does not outlive a restart. It is read with the day everywhere, and
joins it as soon as the disk takes it or the day is next opened.

Leaving waits while an act is on no disk, and says why: k keeps it in another place, l leaves without it
(with --plain: keep, leave). A signal waits 5 s at most. The last line names where acts lie that are not
in their day; with one that is nowhere the exit status is 1.

A fault of the program's own ends it with one sentence, after the acts are on disk; a report without your
data lies beside the vats. Where only the forecasts fail they are off for that day, and the day goes on.

A vat is written by one program at a time. A second window shows what the first does. When the first has
gone, Enter goes on with the day in the second; so it is with --plain.

vatside book verify names what is missing, doubled, out of order, torn or cannot be read, and then ends
with 1. vatside book mend VAT/DAY shows how such a day is made whole (ends with 3); --yes does it.

Nothing of yours is deleted. Beside a day there may lie DAY.torn-1 (a last block that was cut off
half-way) and DAY.before-mend-1 (the file before it was mended), beside a spill .merged-1 (it is in its
day now). vatside/grounds in the state folder has what terminals answered of their ground; it may go. So
may vatside/index in the cache folder, which makes a large book quick to read; it is made again.

Limits: regular files up to 32 MB; a file named in a command may be a pipe that ends within 5 s. A time
more than 100 years from today or from its neighbours, and a figure that cannot be, are set aside and
told, and hide nothing else.`},
}
