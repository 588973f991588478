package command

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.org/vatside/model/wording"
	"example.org/vatside/ui/shelf"
)

func (p *program) settingsCommand() *cobra.Command {
	all := p.command("settings", "What is set once for every vat, each setting with what it means", nil, nil, p.inHome(p.settings))
	all.AddCommand(p.command("set KEY VALUE", "Change one setting; an empty value unsets it", cobra.ExactArgs(2), nil,
		p.inHome(func(h shelf.Home, r *reader) error { return p.settingsSet(h, r.args[0], r.args[1]) })))
	return all
}

func (p *program) settings(h shelf.Home, _ *reader) error {
	s := got(h.Settings())
	if p.json {
		return p.asJSON(settingsJSON(h, s))
	}
	text := got(s.Text())
	p.say("# %s", h.SettingsFile())
	_, err := fmt.Fprint(p.Out, wording.ShowPage(text))
	return err
}

func (p *program) settingsSet(h shelf.Home, key, value string) error {
	s := got(h.Settings())
	rows := shelf.Table()
	i := slices.IndexFunc(rows, func(row shelf.Setting) bool { return row.Key == key })
	if i < 0 {
		if near, ok := wording.Nearest(key, wording.Each(rows, func(row shelf.Setting) string { return row.Key })); ok {
			return fmt.Errorf("no setting is called %q; did you mean %s?", key, near)
		}
		return fmt.Errorf("no setting is called %q; vatside settings names them all", key)
	}
	row := rows[i]
	if value = strings.TrimSpace(value); row.Words != nil && !slices.Contains(row.Words, value) {
		return fmt.Errorf("%s is %s, not %q", key, strings.Join(row.Words, " or "), value)
	}
	must(about(key, row.Put(&s, value)))
	must(h.SaveSettings(s))
	return p.giveLine(settingsJSON(h, s), "%s: %s.", wording.Upper(row.Label), cmp.Or(row.Shown(s), "not set"))
}

// settingsJSON are the keys of settings --json: value is in the words of the screen, empty where it is not set; words is what it
// can be, empty where it is typed.
func settingsJSON(h shelf.Home, s shelf.Settings) object {
	return object{{"file", h.SettingsFile()}, {"settings", each(shelf.Table(), func(row shelf.Setting) object {
		return object{{"key", row.Key}, {"label", row.Label}, {"value", row.Shown(s)}, {"words", list(row.Words)}, {"help", row.Help}}
	})}}
}

// settingKeys are what a shell may offer for a setting's key.
func settingKeys(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
	return wording.Each(shelf.Table(), func(row shelf.Setting) string { return cobra.CompletionWithDesc(row.Key, row.Label) }), cobra.ShellCompDirectiveNoFileComp
}
