package screen

import (
	"strings"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/engine"
	"example.org/vatside/ui/widget"
)

// The last screen of a vat that has ended. Nothing is read, given or done on it any more: there is its log, and the way home.

// EndedSheet says that the vat has ended, and where its liquor went.
func EndedSheet(v engine.View, env Env) widget.Sheet {
	sheet := widget.Sheet{
		Head: HeadOf(v, ""), Act: "VAT ENDED", Stage: &widget.Stage{Vessel: VesselOf(v.State)}, Next: "enter: home", Answers: []string{"enter: home"}, Foot: Foot(v, env),
	}
	if b, _ := v.State.End(); b != nil {
		how := strings.TrimPrefix(b.Sentence(v.State.Head.Setup.System()), "the vat has ended")
		if how = strings.TrimLeft(how, ":, "); how != "" {
			sheet.How = []string{wording.Upper(how) + "."}
		}
	}
	sheet.How = append(sheet.How, "Its book stays.")
	return sheet
}

// EndedKeys are the keys of the screen of a vat that has ended.
func EndedKeys() []widget.Key {
	return Keys("l", "log", "esc", "home")
}

// AnswerEnded answers a key on the screen of a vat that has ended.
func AnswerEnded(k Key, env Env) []Request {
	switch {
	case k.Done(), k.Name == "esc":
		return []Request{Leave{}}
	case k.Rune == 'l':
		return []Request{Go{To: AtLog, Day: env.ID}}
	}
	return []Request{Say{Word: "the vat has ended: l shows its log"}}
}
